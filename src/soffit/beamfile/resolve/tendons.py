"""``[[tendons]]`` to groups of tendons."""

from __future__ import annotations

from typing import Any, Literal, cast

from soffit.beamfile.faults import Spot
from soffit.beamfile.resolve.anchors import build_anchor, find_thread
from soffit.beamfile.resolve.bars import label
from soffit.beamfile.resolve.extent import extent
from soffit.beamfile.resolve.piece import Piece, build_piece
from soffit.beamfile.resolve.prestress import WAYS, build_stress
from soffit.beamfile.resolve.profile import build_profile
from soffit.beamfile.resolve.steel import build_steel
from soffit.beamfile.resolve.tendonkeys import keys_agree
from soffit.beamfile.tables.tendons import TendonTable
from soffit.materials.steel import Steel
from soffit.member.beam import Anchor, Bed, Surface, TendonGroup
from soffit.section.outline import Outline

Run = tuple[float, float]


def build_tendons(
    table: TendonTable,
    spot: Spot,
    outline: Outline | None,
    length: float | None,
    name: str = "",
    staged: bool = False,
) -> TendonGroup | None:
    """``staged``: whether the file has stages, which compute the losses."""
    piece = build_piece(table, spot, table.thread)
    steel = build_steel(table, spot, piece)
    sound = keys_agree(table, spot, piece, staged)
    run = extent(table, spot, length) if length is not None else None
    bonded = _bonded(table, spot, run)
    screw = find_thread(table, spot, piece)
    if piece is None:
        return None
    hole = max(piece.diameter, table.duct or 0.0)
    profile = build_profile(table, spot, outline, run, hole) if outline is not None else None
    if steel is None:
        return None
    stressed = build_stress(table, spot, piece, steel, screw, run)
    post = table.when == "after curing"
    anchor = build_anchor(table, spot, piece, steel, screw) if post else None
    if stressed is None or profile is None or run is None or bonded is None or not sound:
        return None
    if anchor is not None and anchor.capacity < stressed[0] * piece.area:
        _anchor_too_weak(table, spot, anchor)
        return None
    _note(table, spot, staged)
    values: dict[str, Any] = {
        "when": table.when,
        "bond": table.bond,
        "stress_is": table.stress_is,
        "jacked_from": table.jacked_from or "left",
    }
    if table.bed and table.bed.length is not None and table.bed.length < run[1] - run[0]:
        told = f"a bed of {spot.show(table.bed.length)}, shorter than the {spot.show(run[1] - run[0])} in the beam"
        spot.wrong("bed", told, "give the length between the anchors of the bed")
        return None
    return TendonGroup(
        count=table.count,
        diameter=piece.diameter,
        area=table.count * piece.area,
        steel=steel,
        profile=profile,
        stress=stressed[0],
        stress_scatter=stressed[1],
        long_term_loss=table.long_term_loss or 0.0,
        friction=table.friction or 0.0,
        wobble=_wobble(table, spot),
        anchor=anchor,
        transfer_length=table.transfer_length,
        duct=table.duct or 0.0,
        x_from=bonded[0],
        x_to=bonded[1],
        surface=cast(Surface, table.surface) if table.surface else piece.surface,
        label=label(table.count, piece, steel),
        wire=piece.family == "wire",
        name=name,
        sheathed=(bonded[0] - run[0], run[1] - bonded[1]),
        relaxation=_relaxation(table, piece, steel),
        rho=None if table.relaxation_1000h is None else 100.0 * table.relaxation_1000h,
        least_radius=table.minimum_radius,
        bed=Bed(table.bed.length, table.bed.slip, table.bed.warming) if table.bed else None,
        thread=screw.name if screw and post else "",
        nut_factor=table.nut_factor,
        **values,
    )


def _anchor_too_weak(table: TendonTable, spot: Spot, anchor: Anchor) -> None:
    way = next(way for way in WAYS if getattr(table, way) is not None)
    problem = f"but the anchor holds only {spot.show(anchor.capacity, 'force')}: {anchor.reason}"
    spot.wrong(way, problem, "lower it, or choose a stronger anchor")


def _bonded(table: TendonTable, spot: Spot, run: Run | None) -> Run | None:
    """Where a tendon is held: its run less what is sheathed."""
    if run is None or table.debonded is None:
        return run
    left, right = table.debonded[0], table.debonded[-1]
    if left + right >= run[1] - run[0]:
        problem = f"which leaves no bond on a tendon of {spot.show(run[1] - run[0])}"
        spot.wrong("debonded", problem, "sheathe less of it at its ends")
        return None
    return run[0] + left, run[1] - right


def _wobble(table: TendonTable, spot: Spot) -> float:
    """K beside friction · angle, per mm, in whichever way the file gives it."""
    if table.wobble_angle is not None:
        wobble = (table.friction or 0.0) * table.wobble_angle
        spot.note(
            f"{spot.name}: wobble_angle is the unintended angle k inside μ(θ + k·x), EN 1992-1-1:2004 (5.45), "
            f"which is a wobble of {spot.show(wobble, 'per length')} beside friction · angle."
        )
        return wobble
    if table.wobble and table.friction:
        spot.note(
            f"{spot.name}: wobble is K beside friction · angle (ACI 318, AASHTO LRFD), not the k of "
            "EN 1992-1-1:2004 (5.45), which would be wobble_angle."
        )
    return table.wobble or 0.0


def _relaxation(table: TendonTable, piece: Piece, steel: Steel) -> Literal["low relaxation", "ordinary", "bar", "none"]:
    if table.relaxation is not None:
        return cast(Literal["low relaxation", "ordinary", "bar", "none"], table.relaxation)
    if steel.kind == "linear":
        return "none"
    drawn = piece.family in ("strand", "wire") or (not piece.family and steel.kind == "strand")
    return "low relaxation" if drawn else "bar"


def _note(table: TendonTable, spot: Spot, staged: bool) -> None:
    """What is assumed of a tendon."""
    if table.stress_is == "effective":
        spot.note(f"{spot.name}: the stress is effective, after all losses, and used as it stands.")
    elif table.long_term_loss is not None and staged:
        spot.note(
            f"{spot.name}: long_term_loss is left out of account where the stages compute it, and counts only in a "
            "life without an age."
        )
    elif table.long_term_loss is None:
        so = "; the stages compute it where an age is asked for" if staged else ""
        spot.note(f"{spot.name}: no loss by creep, shrinkage and relaxation is counted, for none is given{so}.")
    if table.when == "before casting":
        return
    if table.stress_is == "at the jack" and not any(spot.has(key) for key in ("friction", "wobble", "wobble_angle")):
        spot.note(f"{spot.name}: no loss by friction in the duct is counted, for none is given.")
    if table.anchor is None:
        spot.note(f"{spot.name}: the anchors are taken as stronger than the tendons and without slip.")
    if table.duct is None:
        spot.note(f"{spot.name}: the hole of the duct is not deducted, for its diameter is not given.")

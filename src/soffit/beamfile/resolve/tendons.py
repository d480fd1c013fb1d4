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
from soffit.beamfile.tables.tendons import TendonTable
from soffit.member.beam import Anchor, Surface, TendonGroup
from soffit.section.outline import Outline


def build_tendons(table: TendonTable, spot: Spot, outline: Outline | None, length: float | None) -> TendonGroup | None:
    piece = build_piece(table, spot, table.thread)
    steel = build_steel(table, spot, piece)
    sound = _keys_agree(table, spot, piece)
    run = extent(table, spot, length) if length is not None else None
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
    if stressed is None or profile is None or run is None or not sound:
        return None
    if anchor is not None and anchor.capacity < stressed[0] * piece.area:
        _anchor_too_weak(table, spot, anchor)
        return None
    _note(table, spot)
    values: dict[str, Any] = {
        "when": table.when,
        "bond": table.bond,
        "stress_is": table.stress_is,
        "jacked_from": table.jacked_from or "left",
    }
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
        wobble=table.wobble or 0.0,
        anchor=anchor,
        transfer_length=table.transfer_length,
        duct=table.duct or 0.0,
        x_from=run[0],
        x_to=run[1],
        surface=cast(Surface, table.surface) if table.surface else piece.surface,
        label=label(table.count, piece, steel),
        wire=piece.family == "wire",
        **values,
    )


def _anchor_too_weak(table: TendonTable, spot: Spot, anchor: Anchor) -> None:
    way = next(way for way in WAYS if getattr(table, way) is not None)
    problem = f"but the anchor holds only {spot.show(anchor.capacity, 'force')}: {anchor.reason}"
    spot.wrong(way, problem, "lower it, or choose a stronger anchor")


Keys = tuple[Literal["duct", "friction", "wobble", "jacked_from"], ...]
_POST_ONLY: Keys = ("duct", "friction", "wobble", "jacked_from")


def _keys_agree(table: TendonTable, spot: Spot, piece: Piece | None) -> bool:
    """Whether the keys go together; tells those that do not."""
    before = len(spot.faults.found)
    if table.when == "before casting":
        _pretensioned(table, spot)
    elif table.transfer_length is not None:
        cure = 'leave it out, or write when = "before casting"'
        spot.wrong("transfer_length", "but a post-tensioned tendon is held by its anchors", cure)
    if piece and table.duct is not None and table.duct < piece.diameter:
        problem = f"which is narrower than the tendon's {spot.show(piece.diameter)}"
        spot.wrong("duct", problem, "give the outer diameter of the duct")
    if table.stress_is == "effective":
        for key in ("long_term_loss", "friction", "wobble"):
            if spot.has(key):
                spot.wrong(key, "but the stress is effective, after all losses", "leave one of them out")
    return len(spot.faults.found) == before


def _pretensioned(table: TendonTable, spot: Spot) -> None:
    if table.bond == "unbonded":
        cure = 'write bond = "bonded", or when = "after curing"'
        spot.wrong("bond", "but a tendon stressed before casting is held by its bond alone", cure)
    if table.shape == "parabola":
        cure = 'write shape = "straight" with a point at each deviator'
        spot.wrong("shape", "but a tendon stressed before casting runs straight", cure)
    for key in _POST_ONLY:
        if spot.has(key):
            cure = 'leave it out, or write when = "after curing"'
            spot.wrong(key, "but a tendon stressed before casting has no duct", cure)
    if table.anchor is not None:
        spot.note(f"{spot.name}: the anchor is left out of account, for after release the bond holds the tendon.")


def _note(table: TendonTable, spot: Spot) -> None:
    """What is assumed of a tendon."""
    if table.stress_is == "effective":
        spot.note(f"{spot.name}: the stress is effective, after all losses, and used as it stands.")
    elif table.long_term_loss is None:
        spot.note(f"{spot.name}: no loss by creep, shrinkage and relaxation is counted, for none is given.")
    if table.when == "before casting":
        return
    if table.stress_is == "at the jack" and table.friction is None and table.wobble is None:
        spot.note(f"{spot.name}: no loss by friction in the duct is counted, for none is given.")
    if table.anchor is None:
        spot.note(f"{spot.name}: the anchors are taken as stronger than the tendons and without slip.")
    if table.duct is None:
        spot.note(f"{spot.name}: the hole of the duct is not deducted, for its diameter is not given.")

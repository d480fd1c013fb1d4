"""``[verify]``, ``[project]``, ``[[vehicles]]`` and loads along the beam's axis to what a verification assumes."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, cast

from soffit.beamfile.check import Parts
from soffit.beamfile.faults import Spot
from soffit.beamfile.resolve.extent import on_beam
from soffit.beamfile.tables.verifying import SYMBOLS, NationalTable, VehicleTable, VerifyTable
from soffit.member.verifying import Project, Vehicle, Verifying

DAYS_A_YEAR = 365.25


def build_verifying(parts: Parts, length: float | None) -> Verifying:
    """What the file says, and the defaults for the rest."""
    made = Verifying() if parts.verify is None else _choices(parts.verify.table, parts.verify.spot, length)
    vehicles = tuple(each for part in parts.vehicles if (each := build_vehicle(part.table, part.spot)) is not None)
    axial = tuple(
        (part.table.case, -part.table.compression) for part in parts.loads if part.table.compression is not None
    )
    project = parts.project.table if parts.project else None
    _say_left_out(parts)
    return replace(
        made,
        vehicles=vehicles,
        axial=axial,
        project=Project(**project.model_dump()) if project else Project(),
    )


def _choices(table: VerifyTable, spot: Spot, length: float | None) -> Verifying:
    _contradictions(table.exposure, spot)
    if table.lap_at and table.laps is None:
        spot.missing("laps", 'write laps = "50 %" beside lap_at')
    if length is not None:
        for x in table.lap_at:
            on_beam(spot, "lap_at", x, length)
    literal: Any = cast(Any, table)
    return Verifying(
        edition=literal.edition,
        exposure=table.exposure,
        category=table.category or "",
        working_life=50.0 if table.working_life is None else table.working_life / DAYS_A_YEAR,
        fire=None if table.fire is None else int(table.fire[1:]),
        fire_sides=literal.fire_sides,
        pattern=table.pattern,
        redistribution=table.redistribution or 0.0,
        stirrup_angle=table.cot_theta,
        finishes=literal.finishes,
        joint=literal.joint,
        shape=literal.shape,
        reduced_live=table.reduced_live,
        national=_national(table.national),
        laps=table.laps,
        lap_at=tuple(sorted(table.lap_at)),
        residual=None if table.residual is None else (table.residual[0], table.residual[1]),
    )


def _contradictions(classes: tuple[str, ...], spot: Spot) -> None:
    """A beam has one class of each kind of attack, for the classes of a kind are steps of one scale."""
    for i, each in enumerate(classes):
        other = next((one for one in classes[:i] if _kind(one) == _kind(each) or _unattacked(one, each)), None)
        if other is None:
            continue
        if other == each:
            spot.wrong("exposure", f"which names {each} twice", "name it once")
        elif _unattacked(other, each):
            attacking = each if other == "X0" else other
            spot.wrong(
                "exposure", f"but X0 is no attack at all and {attacking} is one", f"leave one of them out{CLASSES}"
            )
        else:
            spot.wrong(
                "exposure", f"but {other} and {each} are of one kind", f"keep the harder one of each kind{CLASSES}"
            )
        return


CLASSES = (
    "; kinds are X0, XC1–4, XD1–3, XS1–3, XF1–4, XA1–3 of EN 1992, F0–3, W0–2, S0–3, C0–2 of ACI 318-19, "
    "and one word of indoors, outdoors and ground"
)


def _kind(exposure: str) -> str:
    return exposure.rstrip("0123456789") if exposure.isupper() else "word"


def _unattacked(one: str, other: str) -> bool:
    return "X0" in (one, other) and all(each[:1] == "X" for each in (one, other)) and one != other


def _national(table: NationalTable | None) -> tuple[tuple[str, float], ...]:
    if table is None:
        return ()
    found = table.model_dump(exclude_none=True)
    return tuple((SYMBOLS[key], float(value)) for key, value in found.items() if value is not False)


def build_vehicle(table: VehicleTable, spot: Spot) -> Vehicle | None:
    if len(table.gaps) != len(table.axles) - 1:
        wanted = len(table.axles) - 1
        problem = f"which are {len(table.gaps)} distances between {len(table.axles)} axles"
        if spot.has("gaps"):
            spot.wrong("gaps", problem, f"give {wanted}, one from each axle to the next")
        else:
            spot.missing("gaps", f"give {wanted}, one from each axle to the next")
        return None
    return Vehicle(table.name, table.case, table.axles, table.gaps, table.dynamic, table.both_ways)


def _say_left_out(parts: Parts) -> None:
    """What a life does not count, where the file gives it."""
    for part in parts.vehicles[:1]:
        part.spot.note("The vehicles are not part of a life; a verification counts them.")
    twisted = [part for part in parts.loads if part.table.eccentricity]
    for load in twisted[:1]:
        load.spot.note("The twist by loads beside the axis is not part of a life; a verification counts it.")
    pressed = [part for part in parts.loads if part.table.compression is not None]
    for load in pressed[:1]:
        load.spot.note("The force along the beam is not part of a life; a verification counts it.")

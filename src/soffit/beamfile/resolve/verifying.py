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

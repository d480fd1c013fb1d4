"""Everything that the page tells, computed once."""

from __future__ import annotations

from dataclasses import dataclass

from evidence import bond, curves, groups, sealed, sustained, tensile, worked
from evidence.groups import Group
from evidence.predicted import Outcome


@dataclass(frozen=True)
class Found:
    bending: Group
    varied: list[Group]
    bare: list[Group]
    stirrups: Group
    classic: Group
    plain: Group
    five_metres: dict[str, Outcome]
    five_metres_points: curves.Points
    first_loading: tuple[float, float]
    bond: list[bond.Bond]
    tensile: list[tensile.Pair]
    sustained: sustained.Told
    sealed: sealed.Sealed
    worked: list[worked.Compared]


def find() -> Found:
    """Run every test."""
    sets, points = curves.five_metres()
    return Found(
        groups.bending(),
        groups.bending_varied(),
        groups.bare_webs(),
        groups.stirruped_webs(),
        groups.nineteen_sixty_three(),
        groups.plain_beams(),
        sets,
        points,
        curves.first_loading(),
        bond.bond(),
        tensile.pairs(),
        sustained.tell(),
        sealed.sealed(),
        worked.compare_all(),
    )


def lines(found: Found) -> list[tuple[Group, bool]]:
    """The groups of the first table in order, and whether each is part of the one above."""
    out = [(found.bending, False)]
    out += [(g, True) for g in groups.bending_parts(found.bending)]
    out += [(g, False) for g in found.bare]
    out += [(found.stirrups, False), (groups.carried(found.stirrups), True), (found.classic, False)]
    out += [(g, True) for g in groups.classic_parts(found.classic)]
    return [*out, (found.plain, False)]


def yielding(found: Found) -> list[Outcome]:
    """Bending tests graded A- whose yield load and deflection were both read."""
    return [
        o
        for o in found.bending.outcomes
        if o.measured.labels[0] == "A-" and o.measured.yield_load and o.measured.yield_deflection
    ]

"""The profile of a tendon along the beam, and whether it stays inside the concrete."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal, cast

import numpy as np

from soffit.beamfile.faults import Spot
from soffit.beamfile.kinds import Level
from soffit.beamfile.resolve.place import in_concrete
from soffit.beamfile.tables.tendons import TendonTable
from soffit.member.beam import Profile
from soffit.member.profile import height
from soffit.section.outline import Outline

SAMPLES = 16
"""Heights looked at in each piece of a profile."""
NEAREST = 1.0
"""mm between two points: nearer ones make curves that cannot be reckoned with."""
INFLECTION = 0.1
"""Of the distance between a high and a low point, from the high one (*common practice*)."""


def build_profile(
    table: TendonTable, spot: Spot, outline: Outline, run: tuple[float, float] | None, diameter: float
) -> Profile | None:
    """``diameter`` is that of the tendon or its duct, mm; ``run`` where the tendon begins and ends, if known."""
    what = "duct" if table.duct is not None and table.when == "after curing" else "tendon"
    if isinstance(table.profile, Level):
        level = table.profile.above_soffit(outline.depth)
        if not in_concrete(outline, level, diameter, table.count, spot, "profile", what):
            return None
        return Profile(run, (level, level)) if run else None
    x = tuple(each for each, _ in table.profile)
    y = tuple(height.above_soffit(outline.depth) for _, height in table.profile)
    if not _ordered(x, spot) or (run and not _reaches(x, spot, run)):
        return None
    shape = table.shape
    if shape == "reversed" and len(x) < 3:
        problem = f"whose {len(x)} points have no high or low point between the ends"
        spot.wrong("profile", problem, "give three points or more: the ends, and each high and low point between them")
        return None
    if shape == "parabola" and len(x) % 2 == 0:
        problem = f"whose {len(x)} points make no parabolas"
        spot.wrong(
            "profile",
            problem,
            "give three points, or five, seven, …: one parabola through each three in turn",
        )
        return None
    turn = INFLECTION if table.inflection is None else table.inflection
    made = Profile(x, y, cast(Literal["straight", "parabola", "reversed"], shape), turn)
    for each in _heights(made):
        if not in_concrete(outline, each, diameter, table.count, spot, "profile", what):
            return None
    return made if run else None


def _ordered(x: tuple[float, ...], spot: Spot) -> bool:
    for i, (a, b) in enumerate(pairwise(x)):
        if b - a < NEAREST:
            cure = "let the points go from left to right" if b <= a else f"keep {spot.show(NEAREST)} between points"
            told = f"found {spot.show(b)} after {spot.show(a)}; {cure}."
            spot.faults.add((*spot.path, "profile", i + 1), told)
            return False
    return True


def _reaches(x: tuple[float, ...], spot: Spot, run: tuple[float, float]) -> bool:
    """Whether the points go from one end of the tendon to the other, and not beyond."""
    if x[0] > run[0] + 1e-6 or x[-1] < run[1] - 1e-6:
        problem = f"but the tendon runs from {spot.show(run[0])} to {spot.show(run[1])}"
        spot.wrong("profile", problem, "let its points reach from end to end, or give from and to")
        return False
    if x[0] < run[0] - 1e-6 or x[-1] > run[1] + 1e-6:
        problem = f"which leaves the tendon's run from {spot.show(run[0])} to {spot.show(run[1])}"
        spot.wrong("profile", problem, "keep its points on the beam, between from and to")
        return False
    return True


def _heights(profile: Profile) -> list[float]:
    """Heights along the tendon, mm, close enough to find where it leaves the concrete."""
    x = np.concatenate([np.linspace(a, b, SAMPLES, endpoint=False) for a, b in pairwise(profile.x)])
    return [*profile.y, *(float(y) for y in height(profile, x))]

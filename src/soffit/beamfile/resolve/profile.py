"""The profile of a tendon along the beam, and whether it stays inside the concrete."""

from __future__ import annotations

from itertools import pairwise
from typing import Literal, cast

from soffit.beamfile.faults import Spot
from soffit.beamfile.kinds import Level
from soffit.beamfile.resolve.place import in_concrete
from soffit.beamfile.tables.tendons import TendonTable
from soffit.member.beam import Profile
from soffit.section.outline import Outline

SAMPLES = 16
"""Heights looked at in each piece of a profile."""
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
    heights = _reversed(x, y, turn) if shape == "reversed" else _heights(x, y, shape)
    for height in heights:
        if not in_concrete(outline, height, diameter, table.count, spot, "profile", what):
            return None
    return Profile(x, y, cast(Literal["straight", "parabola", "reversed"], shape), turn) if run else None


def _ordered(x: tuple[float, ...], spot: Spot) -> bool:
    for i, (a, b) in enumerate(pairwise(x)):
        if b <= a:
            told = f"found {spot.show(b)} after {spot.show(a)}; let the points go from left to right."
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


def _heights(x: tuple[float, ...], y: tuple[float, ...], shape: str) -> list[float]:
    """Heights along the tendon, mm, close enough to find where it leaves the concrete."""
    step = 2 if shape == "parabola" else 1
    found = list(y)
    for i in range(0, len(x) - step, step):
        xs, ys = x[i : i + step + 1], y[i : i + step + 1]
        places = [xs[0] + (xs[-1] - xs[0]) * j / SAMPLES for j in range(SAMPLES + 1)]
        found += [_through(xs, ys, place) for place in places]
    return found


def _reversed(x: tuple[float, ...], y: tuple[float, ...], turn: float) -> list[float]:
    """Heights of reversed parabolas, level at every point but the first and the last, mm."""
    last = len(x) - 2
    found = list(y)
    for i, (a, b) in enumerate(pairwise(y)):
        for j in range(1, SAMPLES):
            share = j / SAMPLES
            if i in (0, last):
                # from an anchor one parabola runs to the level point
                share = 1.0 - (1.0 - share) ** 2 if i == 0 else share**2
            else:
                inner = turn if a > b else 1.0 - turn
                share = share**2 / inner if share <= inner else 1.0 - (1.0 - share) ** 2 / (1.0 - inner)
            found.append(a + (b - a) * share)
    return found


def _through(xs: tuple[float, ...], ys: tuple[float, ...], x: float) -> float:
    """The polynomial through two or three points (Lagrange)."""
    total = 0.0
    for i, (xi, yi) in enumerate(zip(xs, ys, strict=True)):
        share = yi
        for j, xj in enumerate(xs):
            if j != i:
                share *= (x - xj) / (xi - xj)
        total += share
    return total

"""Where the cracks of a picture stand. The physics smears them; here they are gathered into single cracks
again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from soffit.member.result import Life

COMPUTED = "cracks at the computed mean spacing"
SINGLE = "one crack takes all"


@dataclass(frozen=True)
class Crack:
    x: float
    """Where it leaves the tension face, mm."""
    width: float
    """There, mm."""
    depth: float
    """mm; negative where it runs down from the top face."""
    lean: float
    """How far its tip is ahead of its mouth, mm, towards larger x."""


@dataclass(frozen=True)
class Pattern:
    cracks: tuple[Crack, ...]
    note: str
    """How the cracks were placed; empty where there are none."""


def crack_pattern(life: Life, step: int) -> Pattern:
    """The cracks to draw at one step, by this rule:

    1. In each cracked stretch of the beam the first crack stands at the widest place (where the width is
       level: at the critical section, or else in the middle), and the others to both sides of it at the
       life's computed mean spacing, as far as the stretch goes.
    2. Where the life has no spacing, one crack takes all: one is drawn in each stretch.
    3. Width and depth are those of the stations. A crack in shear leans towards the greater moment, by the
       ratio shear × depth / moment, at most 0.8, and not past the first crack of its stretch: this is for
       the eye, no computed angle.
    """
    s, spacing = life.stations, life.crack_spacing
    cracked = (s.crack_width[step] > 0) & (s.crack_depth[step] != 0)
    if not cracked.any():
        return Pattern((), "")
    cracks: list[Crack] = []
    for run in _stretches(cracked, np.sign(s.crack_depth[step])):
        first = _first(life, step, run)
        cracks += [_crack(life, step, x, first) for x in _places(life, run, first, spacing)]
    return Pattern(tuple(cracks), COMPUTED if spacing else SINGLE)


def _stretches(cracked: np.ndarray, side: np.ndarray) -> Iterator[np.ndarray]:
    """Indices of neighbouring stations that are cracked from the same face."""
    index = np.flatnonzero(cracked)
    breaks = np.flatnonzero((np.diff(index) > 1) | (np.diff(side[index]) != 0)) + 1
    yield from np.split(index, breaks)


def _first(life: Life, step: int, run: np.ndarray) -> float:
    """Place of the first crack of a stretch."""
    x, width = life.stations.x, life.stations.crack_width[step]
    level = run[width[run] >= 0.98 * width[run].max()]
    if x[level[0]] <= life.critical <= x[level[-1]]:
        return life.critical
    if np.all(np.diff(level) == 1):
        return float(x[level[0]] + x[level[-1]]) / 2
    return float(x[run[width[run].argmax()]])


def _places(life: Life, run: np.ndarray, first: float, spacing: float | None) -> list[float]:
    if spacing is None:
        return [first]
    low, high = (float(life.stations.x[i]) for i in (run[0], run[-1]))
    back = int((first - low) / spacing + 1e-6)
    ahead = int((high - first) / spacing + 1e-6)
    return [first + i * spacing for i in range(-back, ahead + 1)]


def _crack(life: Life, step: int, x: float, first: float) -> Crack:
    s = life.stations

    def at(values: np.ndarray) -> float:
        return float(np.interp(x, s.x, values[step]))

    depth, moment, shear = at(s.crack_depth), at(s.moment), at(s.shear)
    ratio = min(abs(shear) * life.beam.outline.depth / abs(moment), 0.8) if moment else 0.0
    lean = min(0.8 * ratio * abs(depth), 0.7 * abs(first - x))
    return Crack(x, at(s.crack_width), depth, float(lean * np.sign(shear * moment)))

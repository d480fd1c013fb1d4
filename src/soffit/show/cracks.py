"""Where the cracks of a picture stand. The physics smears them; here they are gathered into single cracks
again.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from soffit.member.result import Life

COMPUTED = "cracks spaced by their width over the mean strain"
INDICATIVE = "crack pattern indicative"


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

    1. A crack's width is its spacing times the mean strain of the tension face, and that strain is the
       mean curvature times the crack's depth (the crack ends near the neutral axis). So the spacing that
       the widths stand for is width / (curvature × depth); the median over the cracked stations is used,
       and the note says so.
    2. Where that does not lie between a tenth and twice the depth of the beam (a single crack of a plain
       beam, a hinge past the peak), half the depth is used, and the note says "indicative".
    3. In each cracked stretch the first crack stands at the widest place (where the width is level: at the
       critical section, or else in the middle), and the others to both sides at that spacing as far as the
       stretch goes.
    4. Width and depth are those of the stations. A crack in shear leans towards the greater moment, by the
       ratio shear × depth / moment, at most 0.8: this is for the eye, no computed angle.
    """
    s, depth = life.stations, life.beam.outline.depth
    width = s.crack_width[step]
    cracked = (width > 0) & (s.crack_depth[step] != 0)
    if not cracked.any():
        return Pattern((), "")
    strain = np.abs(s.curvature[step] * s.crack_depth[step])[cracked]
    found = width[cracked][strain > 0] / strain[strain > 0]
    spacing = float(np.median(found)) if found.size else 0.0
    computed = 0.1 * depth <= spacing <= 2 * depth
    if not computed:
        spacing = 0.5 * depth
    places = [
        x
        for run in _stretches(cracked, np.sign(s.crack_depth[step]))
        for x in _places(life, step, run, spacing)
    ]
    return Pattern(tuple(_crack(life, step, x) for x in places), COMPUTED if computed else INDICATIVE)


def _stretches(cracked: np.ndarray, side: np.ndarray) -> Iterator[np.ndarray]:
    """Indices of neighbouring stations that are cracked from the same face."""
    index = np.flatnonzero(cracked)
    breaks = np.flatnonzero((np.diff(index) > 1) | (np.diff(side[index]) != 0)) + 1
    yield from np.split(index, breaks)


def _places(life: Life, step: int, run: np.ndarray, spacing: float) -> list[float]:
    x, width = life.stations.x, life.stations.crack_width[step]
    level = run[width[run] >= 0.98 * width[run].max()]
    start = float(x[run[width[run].argmax()]])
    if x[level[0]] <= life.critical <= x[level[-1]]:
        start = life.critical
    elif np.all(np.diff(level) == 1):
        start = float(x[level[0]] + x[level[-1]]) / 2
    low, high = float(x[run[0]]), float(x[run[-1]])
    back = int((start - low) / spacing + 1e-6)
    ahead = int((high - start) / spacing + 1e-6)
    return [start + i * spacing for i in range(-back, ahead + 1)]


def _crack(life: Life, step: int, x: float) -> Crack:
    s = life.stations

    def at(values: np.ndarray) -> float:
        return float(np.interp(x, s.x, values[step]))

    depth, moment, shear = at(s.crack_depth), at(s.moment), at(s.shear)
    ratio = min(abs(shear) * life.beam.outline.depth / abs(moment), 0.8) if moment else 0.0
    return Crack(x, at(s.crack_width), depth, float(abs(depth) * ratio * np.sign(shear * moment)) * 0.8)

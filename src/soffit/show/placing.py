"""Where a label goes beside its point: the nearest free place, by trying."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field
from math import cos, hypot, pi, sin
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Box: TypeAlias = tuple[float, float, float, float]
"""left, top, right, bottom; mm, y downward."""


@dataclass
class Ground:
    """A rectangle of paper on which labels are put one after the other; lines and marks on it are kept
    clear.
    """

    bounds: Box
    lines: list[NDArray[np.float64]] = field(default_factory=list)
    """Points of what is drawn already, shape (n, 2), close enough together to be tested as points."""
    taken: list[Box] = field(default_factory=list)

    def keep_clear(self, x: Sequence[float] | NDArray[np.float64], y: Sequence[float] | NDArray[np.float64]) -> None:
        """A line drawn through these points. It is filled up with points half a mm apart."""
        points = np.column_stack([np.asarray(x, dtype=float), np.asarray(y, dtype=float)])
        inside = _along(points)
        if len(inside):
            self.lines.append(inside)

    def place(self, x: float, y: float, width: float, height: float, reach: float = 24.0) -> tuple[float, float]:
        """The middle of a free box near (x, y): the cheapest of many tried, counting distance and what it
        covers.
        """
        best, lowest = (x, y), float("inf")
        for distance in np.arange(0.6, reach, 1.1):
            if distance > lowest:
                break
            for turn in range(16):
                angle = -pi / 4 + (turn // 2 + 1) * (-1) ** turn * pi / 8  # up and to the right first
                dx, dy = cos(angle), sin(angle)
                middle = (x + dx * (distance + width / 2), y + dy * (distance + height / 2))
                cost = distance + 0.02 * turn + self._cover(middle, width, height)
                if cost < lowest:
                    best, lowest = middle, cost
        self.taken.append(_box(best, width, height))
        return best

    def _cover(self, middle: tuple[float, float], width: float, height: float) -> float:
        left, top, right, bottom = _box(middle, width, height)
        cost = 0.0
        outside = max(self.bounds[0] - left, 0) + max(self.bounds[1] - top, 0)
        outside += max(right - self.bounds[2], 0) + max(bottom - self.bounds[3], 0)
        if outside > 0:
            cost += 60 + 40 * outside
        for a, b, c, d in self.taken:
            if left < c and a < right and top < d and b < bottom:
                cost += 100
        for points in self.lines:
            inside = (points[:, 0] > left) & (points[:, 0] < right) & (points[:, 1] > top) & (points[:, 1] < bottom)
            cost += 4.0 * int(inside.sum())
        return cost


def _box(middle: tuple[float, float], width: float, height: float) -> Box:
    pad = 0.25
    return (
        middle[0] - width / 2 - pad,
        middle[1] - height / 2 - pad,
        middle[0] + width / 2 + pad,
        middle[1] + height / 2 + pad,
    )


def _along(points: NDArray[np.float64], step: float = 0.5) -> NDArray[np.float64]:
    if len(points) < 2:
        return points
    pieces = []
    for a, b in itertools.pairwise(points):
        n = max(int(hypot(*(b - a)) / step), 1)
        pieces.append(a + (b - a) * np.linspace(0, 1, n, endpoint=False)[:, None])
    return np.vstack([*pieces, points[-1:]])

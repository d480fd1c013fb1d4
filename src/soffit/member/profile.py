"""The way of a tendon along the beam: height, slope, angle turned, curvature and bends, all in closed form.

Every shape is a row of pieces on which the second derivative is constant (straight lines and parabolas with a vertical
axis), so nothing here is found by difference.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from soffit.materials.curve import Array
from soffit.member.beam import Profile

SAME_SLOPE = 1e-9
"""Slopes nearer than this meet without a kink."""


@dataclass(frozen=True)
class Pieces:
    """Pieces between ``x`` (n + 1): y = ``y`` + ``slope`` t + ``bend`` t²/2 with t from the piece's left end (n)."""

    x: Array
    y: Array
    slope: Array
    bend: Array
    """Second derivative, 1/mm; above zero where the tendon is hollow side up and pushes upward."""

    @property
    def slope_right(self) -> Array:
        """At the right end of each piece."""
        return self.slope + self.bend * np.diff(self.x)


@lru_cache(maxsize=256)
def pieces(profile: Profile) -> Pieces:
    """The pieces of a profile of at least two points.

    ``"straight"``: a line between each two points. ``"parabola"``: one parabola through points 1-2-3, the next through
    3-4-5, …; two points left over are joined by a straight line. ``"reversed"``: level at every point but the first and
    the last; between two of them two parabolas that meet with one tangent at ``inflection`` times their distance from
    the higher; from an end to the point next to it one parabola. Raises ``ValueError`` for an inflection that is not
    between 0 and 1.
    """
    px, py = np.array(profile.x, dtype=float), np.array(profile.y, dtype=float)
    if profile.shape == "parabola" and len(px) >= 3:
        rows = _parabolas(px, py)
    elif profile.shape == "reversed" and len(px) >= 3:
        rows = _reversed(px, py, profile.inflection)
    else:
        rows = [(px[i], py[i], (py[i + 1] - py[i]) / (px[i + 1] - px[i]), 0.0) for i in range(len(px) - 1)]
    x, y, slope, bend = (np.array(column) for column in zip(*rows, strict=True))
    return Pieces(np.append(x, px[-1]), y, slope, bend)


Row = tuple[float, float, float, float]


def _parabolas(px: Array, py: Array) -> list[Row]:
    rows: list[Row] = []
    i = 0
    while i + 2 < len(px):
        first, second = (py[i + 1] - py[i]) / (px[i + 1] - px[i]), (py[i + 2] - py[i + 1]) / (px[i + 2] - px[i + 1])
        # Newton's divided differences
        bend = 2.0 * (second - first) / (px[i + 2] - px[i])
        rows.append((px[i], py[i], first - 0.5 * bend * (px[i + 1] - px[i]), bend))
        i += 2
    if i + 1 < len(px):
        rows.append((px[i], py[i], (py[i + 1] - py[i]) / (px[i + 1] - px[i]), 0.0))
    return rows


def _reversed(px: Array, py: Array, inflection: float) -> list[Row]:
    if not 0.0 < inflection < 1.0:
        raise ValueError(f"the inflection of a reversed profile lies between 0 and 1, and {inflection:g} does not")
    rows: list[Row] = []
    last = len(px) - 2
    for i in range(last + 1):
        run, rise = px[i + 1] - px[i], py[i + 1] - py[i]
        if i == 0:
            rows.append((px[i], py[i], 2.0 * rise / run, -2.0 * rise / run**2))
        elif i == last:
            rows.append((px[i], py[i], 0.0, 2.0 * rise / run**2))
        elif rise == 0.0:
            rows.append((px[i], py[i], 0.0, 0.0))
        else:
            # both parabolas have the tangent 2 rise/run at their meeting, which lies on the chord
            to_middle = run * (inflection if rise < 0.0 else 1.0 - inflection)
            top = 2.0 * rise / run
            rows.append((px[i], py[i], 0.0, top / to_middle))
            rows.append((px[i] + to_middle, py[i] + 0.5 * top * to_middle, top, -top / (run - to_middle)))
    return rows


def height(profile: Profile, x: Array) -> Array:
    """Height of the tendon above the soffit at ``x``, mm; level beyond the first and last point."""
    if len(profile.x) == 1:
        return np.full_like(x, profile.y[0], dtype=float)
    p = pieces(profile)
    x = np.clip(x, p.x[0], p.x[-1])
    i = _right(p, x)
    t = x - p.x[i]
    return np.asarray(p.y[i] + p.slope[i] * t + 0.5 * p.bend[i] * t * t)


def slope(profile: Profile, x: Array) -> Array:
    """dy/dx of the tendon at ``x``: the mean of both sides at a kink, that of its piece at an end, 0 beyond."""
    left, right = slopes(profile, x)
    return 0.5 * (left + right)


def slopes(profile: Profile, x: Array) -> tuple[Array, Array]:
    """dy/dx on the left and on the right of each ``x``; that of its piece on both sides of an end, 0 beyond."""
    if len(profile.x) == 1:
        return np.zeros_like(x, dtype=float), np.zeros_like(x, dtype=float)
    p = pieces(profile)
    inside = (x >= p.x[0]) & (x <= p.x[-1])
    left, right = (np.where(inside, p.slope[i] + p.bend[i] * (x - p.x[i]), 0.0) for i in (_left(p, x), _right(p, x)))
    return left, right


def curvature(profile: Profile, x: Array) -> Array:
    """y''/(1 + y'²)^1.5 at ``x``, 1/mm, above zero where the tendon pushes upward; kinks left out, the mean of both
    sides where two pieces meet."""
    if len(profile.x) == 1:
        return np.zeros_like(x, dtype=float)
    p = pieces(profile)
    sides = [
        p.bend[i] / (1.0 + (p.slope[i] + p.bend[i] * (x - p.x[i])) ** 2) ** 1.5 for i in (_left(p, x), _right(p, x))
    ]
    inside = (x >= p.x[0]) & (x <= p.x[-1])
    return np.where(inside, 0.5 * (sides[0] + sides[1]), 0.0)


@dataclass(frozen=True)
class Kink:
    """Where a tendon changes its direction at once."""

    x: float
    angle: float
    """Radians, above zero where it turns upward (a low kink, which pushes the concrete upward)."""


def kinks(profile: Profile) -> tuple[Kink, ...]:
    """Kinks between the ends, from left to right."""
    if len(profile.x) < 3:
        return ()
    p = pieces(profile)
    return tuple(
        Kink(float(x), float(np.arctan(after) - np.arctan(before)))
        for x, before, after in zip(p.x[1:-1], p.slope_right[:-1], p.slope[1:], strict=True)
        if abs(after - before) > SAME_SLOPE
    )


def turned(profile: Profile, x: Array, after: bool = False) -> Array:
    """Sum of the absolute angles that the tendon has turned from the profile's first point to ``x``, radians.

    A kink at ``x`` itself counts only with ``after``. True angles, not tangents; what turns sideways is not in it.
    """
    if len(profile.x) == 1:
        return np.zeros_like(x, dtype=float)
    p = pieces(profile)
    # along one piece the slope only rises or only falls: the angle turned is the difference of its ends'
    own = np.abs(np.arctan(p.slope_right) - np.arctan(p.slope))
    begun = np.concatenate([[0.0], np.cumsum(own)])[:-1]
    x = np.clip(x, p.x[0], p.x[-1])
    i = _right(p, x)
    angle = begun[i] + np.abs(np.arctan(p.slope[i] + p.bend[i] * (x - p.x[i])) - np.arctan(p.slope[i]))
    for kink in kinks(profile):
        angle = angle + abs(kink.angle) * ((x >= kink.x) if after else (x > kink.x))
    return np.asarray(angle)


@dataclass(frozen=True)
class Bend:
    """Where a tendon is bent most."""

    radius: float
    """mm."""
    x: float


def least_radius(profile: Profile) -> Bend | None:
    """The smallest radius of the curved pieces and where it is; none for a profile of straight pieces.

    A kink has no radius of its own: that of the deviator or of the bent sheath there, which the profile does not tell.
    """
    if len(profile.x) < 3:
        return None
    p = pieces(profile)
    found: list[Bend] = []
    for i in np.flatnonzero(p.bend):
        # the bend of a parabola is sharpest where it is least inclined
        level = float(np.clip(p.x[i] - p.slope[i] / p.bend[i], p.x[i], p.x[i + 1]))
        inclined = p.slope[i] + p.bend[i] * (level - p.x[i])
        found.append(Bend(float((1.0 + inclined**2) ** 1.5 / abs(p.bend[i])), level))
    return min(found, key=lambda bend: bend.radius, default=None)


def breaks(profile: Profile) -> tuple[float, ...]:
    """Where one piece ends and the next begins, between the ends."""
    return () if len(profile.x) < 3 else tuple(float(x) for x in pieces(profile).x[1:-1])


def _right(p: Pieces, x: Array) -> NDArray[np.intp]:
    """The piece to the right of each x (where two meet)."""
    return np.asarray(np.clip(np.searchsorted(p.x, x, side="right") - 1, 0, len(p.y) - 1))


def _left(p: Pieces, x: Array) -> NDArray[np.intp]:
    return np.asarray(np.clip(np.searchsorted(p.x, x, side="left") - 1, 0, len(p.y) - 1))

"""The outline of a section as a stack of trapezoids: whatever its shape, width is linear in height
between breaks.

Only the width at each height matters to a section that bends about a horizontal axis, so an outline that
is not symmetric about the vertical axis is taken as held against twisting and sideways bending.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import cos, pi, sin, sqrt

import numpy as np
from numpy.typing import NDArray

Point = tuple[float, float]


@dataclass(frozen=True)
class Outline:
    """Concrete between a soffit at y = 0 and a top at y = ``depth``.

    ``strips`` has one row a trapezoid: y_low, y_high, width_low, width_high (mm), from the soffit up.
    ``points`` and ``holes`` keep the polygon for drawing, x about the centre line.
    """

    shape: str
    strips: NDArray[np.float64]
    points: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...] = ()

    @cached_property
    def depth(self) -> float:
        return float(self.strips[-1, 1])

    @cached_property
    def area(self) -> float:
        """mm²."""
        return float(_moments(self.strips)[0])

    @cached_property
    def centroid(self) -> float:
        """Height of the centroid above the soffit, mm."""
        area, first, _ = _moments(self.strips)
        return float(first / area)

    @cached_property
    def inertia(self) -> float:
        """Second moment of area about the centroid, mm⁴."""
        area, first, second = _moments(self.strips)
        return float(second - first * first / area)

    @cached_property
    def perimeter(self) -> float:
        """Length of the outer face, mm."""
        return _length(self.points)

    def width(self, y: float) -> float:
        """Width of concrete at height ``y``, mm; 0 outside. Where the width jumps: the smaller one."""
        found = [w0 + (w1 - w0) * (y - y0) / (y1 - y0) for y0, y1, w0, w1 in self.strips if y0 - 1e-9 <= y <= y1 + 1e-9]
        return float(min(found)) if found else 0.0

    @cached_property
    def web_width(self) -> float:
        """Smallest width between a fifth and four fifths of the depth, where diagonal cracks cross, mm."""
        low, high = 0.2 * self.depth, 0.8 * self.depth
        heights = [low, high, *(y for row in self.strips for y in row[:2] if low < y < high)]
        return min(self.width(float(y)) for y in heights)


def rectangle(width: float, depth: float) -> Outline:
    return polygon([(-width / 2, 0), (width / 2, 0), (width / 2, depth), (-width / 2, depth)], shape="rectangle")


def tee(depth: float, web_width: float, flange_width: float, flange_depth: float) -> Outline:
    web, flange, step = web_width / 2, flange_width / 2, depth - flange_depth
    return polygon(
        [
            (-web, 0),
            (web, 0),
            (web, step),
            (flange, step),
            (flange, depth),
            (-flange, depth),
            (-flange, step),
            (-web, step),
        ],
        shape="tee",
    )


def ell(depth: float, web_width: float, flange_width: float, flange_depth: float) -> Outline:
    """A flange on one side only; bending about the horizontal axis alone is considered."""
    left, right, flange, step = (
        -web_width / 2,
        web_width / 2,
        flange_width - web_width / 2,
        depth - flange_depth,
    )
    return polygon([(left, 0), (right, 0), (right, step), (flange, step), (flange, depth), (left, depth)], shape="ell")


def inverted_tee(depth: float, web_width: float, flange_width: float, flange_depth: float) -> Outline:
    web, flange = web_width / 2, flange_width / 2
    return polygon(
        [
            (-flange, 0), (flange, 0), (flange, flange_depth), (web, flange_depth),
            (web, depth), (-web, depth), (-web, flange_depth), (-flange, flange_depth),
        ],
        shape="inverted-tee",
    )  # fmt: skip


def i_section(
    depth: float,
    web_width: float,
    top_width: float,
    top_depth: float,
    bottom_width: float,
    bottom_depth: float,
    top_taper: float = 0.0,
    bottom_taper: float = 0.0,
) -> Outline:
    """Tapers are the heights of the sloping parts between flange and web, outside the flange depths."""
    web, top, bottom = web_width / 2, top_width / 2, bottom_width / 2
    half = [
        (bottom, 0.0),
        (bottom, bottom_depth),
        (web, bottom_depth + bottom_taper),
        (web, depth - top_depth - top_taper),
        (top, depth - top_depth),
        (top, depth),
    ]
    return polygon(half + [(-x, y) for x, y in reversed(half)], shape="i")


def box(width: float, depth: float, wall: float, top_depth: float, bottom_depth: float) -> Outline:
    """``wall`` is the thickness of each of the two webs."""
    inner = width / 2 - wall
    hole = [
        (-inner, bottom_depth),
        (inner, bottom_depth),
        (inner, depth - top_depth),
        (-inner, depth - top_depth),
    ]
    outer = [(-width / 2, 0.0), (width / 2, 0.0), (width / 2, depth), (-width / 2, depth)]
    return polygon(outer, holes=[hole], shape="box")


CIRCLE_SIDES = 96


def circle(diameter: float) -> Outline:
    """A regular polygon of the circle's own area; its second moment of area is right to 1e-7."""
    n = CIRCLE_SIDES
    radius = diameter / 2 * sqrt(2 * pi / (n * sin(2 * pi / n)))
    # a vertex straddles the lowest point, so that the soffit is flat and at y = 0
    start = -pi / 2 + pi / n
    ring = [(radius * cos(start + 2 * pi * i / n), radius * sin(start + 2 * pi * i / n)) for i in range(n)]
    low = min(y for _, y in ring)
    return polygon([(x, y - low) for x, y in ring], shape="circle")


def polygon(points: Sequence[Point], holes: Sequence[Sequence[Point]] = (), shape: str = "outline") -> Outline:
    """Outline of any simple polygon with holes; the lowest point is put at y = 0.

    Raises ``ValueError`` when the polygon has no area, crosses itself, or a hole leaves it or meets
    another.
    """
    low = min(y for _, y in points)
    outer = tuple((float(x), float(y - low)) for x, y in points)
    inner = tuple(tuple((float(x), float(y - low)) for x, y in hole) for hole in holes)
    for ring in (outer, *inner):
        if len(ring) < 3 or abs(_signed_area(ring)) < 1e-9:
            raise ValueError("an outline needs at least three points that enclose an area")
        if _crosses_itself(ring):
            raise ValueError("the outline crosses itself")
    _check_holes(outer, inner)
    breaks = sorted({y for ring in (outer, *inner) for _, y in ring})
    strips = []
    for y0, y1 in itertools.pairwise(breaks):
        if y1 - y0 < 1e-9:
            continue
        # widths are linear inside the strip: take them from two inner heights
        a, b = y0 + 0.25 * (y1 - y0), y0 + 0.75 * (y1 - y0)
        wa = _chord(outer, a) - sum(_chord(hole, a) for hole in inner)
        wb = _chord(outer, b) - sum(_chord(hole, b) for hole in inner)
        if wa < -1e-9 or wb < -1e-9:
            raise ValueError("a hole reaches outside the outline")
        slope = (wb - wa) / (b - a)
        strips.append((y0, y1, max(wa - slope * (a - y0), 0.0), max(wb + slope * (y1 - b), 0.0)))
    return Outline(shape, np.array(strips), outer, inner)


def _moments(strips: NDArray[np.float64]) -> tuple[float, float, float]:
    """Area and its first and second moment about the soffit (trapezoids, exact)."""
    y0, y1, w0, w1 = strips.T
    h = y1 - y0
    slope = (w1 - w0) / h
    at0 = w0 - slope * y0
    power = [(y1 ** (k + 1) - y0 ** (k + 1)) / (k + 1) for k in range(4)]
    area, first, second = (float(np.sum(at0 * power[k] + slope * power[k + 1])) for k in range(3))
    return area, first, second


def _length(ring: Sequence[Point]) -> float:
    closed = np.array([*ring, ring[0]])
    return float(np.sum(np.hypot(*np.diff(closed, axis=0).T)))


def _signed_area(ring: Sequence[Point]) -> float:
    x, y = np.array(ring).T
    return float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y) / 2)


def _chord(ring: Sequence[Point], y: float) -> float:
    """Total width of the ring at height ``y`` (no vertex at that height)."""
    hits = _hits(ring, y)
    return sum(hits[1::2]) - sum(hits[0::2])


def _check_holes(outer: Sequence[Point], holes: Sequence[Sequence[Point]]) -> None:
    # the widths alone do not show a hole that stands beside the outline at the same height
    for i, hole in enumerate(holes):
        place = _point_inside(hole)
        if _cross(outer, hole) or not _encloses(outer, place):
            raise ValueError("a hole reaches outside the outline")
        for other in holes[:i]:
            if _cross(other, hole) or _encloses(other, place) or _encloses(hole, _point_inside(other)):
                raise ValueError("two holes overlap")


def _edges(ring: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(zip(ring, [*ring[1:], ring[0]], strict=True))


def _hits(ring: Sequence[Point], y: float) -> list[float]:
    """Where the ring passes the height ``y`` (no vertex at that height), from the left."""
    return sorted(
        x0 + (x1 - x0) * (y - y0) / (y1 - y0) for (x0, y0), (x1, y1) in _edges(ring) if (y0 - y) * (y1 - y) < 0
    )


def _point_inside(ring: Sequence[Point]) -> Point:
    heights = sorted({y for _, y in ring})
    low, high = max(itertools.pairwise(heights), key=lambda pair: pair[1] - pair[0])
    # not half-way, where a regular outline may have a vertex of its own
    y = low + 0.4142 * (high - low)
    left, right, *_ = _hits(ring, y)
    return 0.5 * (left + right), y


def _encloses(ring: Sequence[Point], point: Point) -> bool:
    x, y = point
    left = [x0 for x0 in _hits(ring, y + 1e-9) if x0 < x]
    return len(left) % 2 == 1


def _cross(one: Sequence[Point], other: Sequence[Point]) -> bool:
    return any(_edges_cross(a, b) for a in _edges(one) for b in _edges(other))


def _edges_cross(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Whether two edges pass through each other (touching does not count)."""
    (a, b), (c, d) = one, other
    return _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0


def _side(p: Point, q: Point, r: Point) -> float:
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])


def _crosses_itself(ring: Sequence[Point]) -> bool:
    return any(_edges_cross(one, other) for one, other in itertools.combinations(_edges(ring), 2))

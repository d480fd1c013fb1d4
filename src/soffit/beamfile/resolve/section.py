"""``[section]`` to an outline of concrete."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from soffit.beamfile.faults import Spot
from soffit.beamfile.tables import section as tables
from soffit.section import outline
from soffit.section.outline import Outline

Point = tuple[float, float]


def build_section(table: tables.Section, spot: Spot) -> Outline | None:
    """The outline, after its dimensions were checked against each other."""
    before = len(spot.faults.found)
    _CHECKS[type(table)](table, spot)
    if len(spot.faults.found) > before:
        return None
    try:
        made = _MAKE[type(table)](table)
    except ValueError as error:
        key = "points" if isinstance(table, tables.Drawn) else "shape"
        spot.wrong(key, f"but {error}", "check the order and the coordinates of the points")
        return None
    gap = _gap(made)
    if gap is not None:
        problem = f"but there is no concrete at {spot.show(gap)} above the soffit"
        spot.wrong("points", problem, "leave some width at every height between soffit and top")
        return None
    return made


def _gap(made: Outline) -> float | None:
    """A height between soffit and top at which the section falls apart."""
    inner = [float(y) for y in made.strips[1:, 0]] + [float(row[:2].mean()) for row in made.strips]
    return next((y for y in inner if made.width(y) < 1e-6), None)


def _flanged(table: Any, spot: Spot) -> None:
    _narrower(spot, "web_width", table.web_width, "flange_width", table.flange_width)
    _shallower(spot, "flange_depth", table.flange_depth, table.depth)


def _ell(table: tables.Ell, spot: Spot) -> None:
    _flanged(table, spot)
    spot.note("The ell is taken as held against twisting and sideways bending.")


def _i(table: tables.I, spot: Spot) -> None:
    _narrower(spot, "web_width", table.web_width, "top_width", table.top_width)
    _narrower(spot, "web_width", table.web_width, "bottom_width", table.bottom_width)
    flanges = table.top_depth + table.bottom_depth + table.top_taper + table.bottom_taper
    _shallower(spot, "depth", flanges, table.depth, "flanges and tapers together are")


def _box(table: tables.Box, spot: Spot) -> None:
    if 2 * table.wall >= table.width:
        cure = f"keep the wall below half of the width {spot.show(table.width)}"
        spot.wrong("wall", "but two walls leave no hole between them", cure)
    _shallower(spot, "depth", table.top_depth + table.bottom_depth, table.depth, "the two slabs together are")


def _drawn(table: tables.Drawn, spot: Spot) -> None:
    ring = _open(table.points)
    for i, hole in enumerate(table.holes):
        inner = _open(hole)
        others = [_open(each) for j, each in enumerate(table.holes) if j != i]
        if not all(_inside(point, ring) for point in inner) or _cross(inner, ring):
            _bad_hole(spot, i, "which reaches outside the outline")
        elif any(_inside(inner[0], each) or _cross(inner, each) for each in others):
            _bad_hole(spot, i, "which overlaps another hole")
    if not _symmetric(ring):
        spot.note("The outline is not symmetric: it is taken as held against twisting and sideways bending.")


def _bad_hole(spot: Spot, index: int, problem: str) -> None:
    holes = spot.inner("holes")
    where = (*holes.path, index)
    spot.faults.add(where, f"found a hole {problem}; keep every hole inside the outline and apart from the others.")


def _none(table: Any, spot: Spot) -> None:
    pass


def _narrower(spot: Spot, key: str, web: float, flange_key: str, flange: float) -> None:
    if flange < web:
        cure = f"give at least the {key} of {spot.show(web)}"
        spot.wrong(flange_key, "which is narrower than the web", cure)


def _shallower(spot: Spot, key: str, part: float, depth: float, what: str = "the flange is") -> None:
    if part >= depth:
        problem = f"but {what} {spot.show(part)} deep and the section {spot.show(depth)}"
        spot.wrong(key, problem, "leave some web between them")


def _open(ring: Sequence[Point]) -> Sequence[Point]:
    """Without a last point that repeats the first."""
    return ring[:-1] if len(ring) > 3 and ring[0] == ring[-1] else ring


def _edges(ring: Sequence[Point]) -> list[tuple[Point, Point]]:
    return list(zip(ring, [*ring[1:], ring[0]], strict=True))


def _inside(point: Point, ring: Sequence[Point]) -> bool:
    """Whether a point lies inside a polygon (a ray to the right crosses its edges an odd number of times)."""
    x, y = point
    odd = False
    for (x0, y0), (x1, y1) in _edges(ring):
        if (y0 > y) != (y1 > y) and x < x0 + (x1 - x0) * (y - y0) / (y1 - y0):
            odd = not odd
    return odd


def _cross(first: Sequence[Point], second: Sequence[Point]) -> bool:
    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return any(
        side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0
        for a, b in _edges(first)
        for c, d in _edges(second)
    )


def _symmetric(ring: Sequence[Point]) -> bool:
    xs = [x for x, _ in ring]
    middle = (min(xs) + max(xs)) / 2
    mirrored = {(round(2 * middle - x, 6), round(y, 6)) for x, y in ring}
    return mirrored == {(round(x, 6), round(y, 6)) for x, y in ring}


_CHECKS: dict[type[Any], Callable[[Any, Spot], None]] = {
    tables.Rectangle: _none,
    tables.Tee: _flanged,
    tables.InvertedTee: _flanged,
    tables.Ell: _ell,
    tables.I: _i,
    tables.Box: _box,
    tables.Circle: _none,
    tables.Drawn: _drawn,
}

_MAKE: dict[type[Any], Callable[[Any], Outline]] = {
    tables.Rectangle: lambda t: outline.rectangle(t.width, t.depth),
    tables.Tee: lambda t: outline.tee(t.depth, t.web_width, t.flange_width, t.flange_depth),
    tables.InvertedTee: lambda t: outline.inverted_tee(t.depth, t.web_width, t.flange_width, t.flange_depth),
    tables.Ell: lambda t: outline.ell(t.depth, t.web_width, t.flange_width, t.flange_depth),
    tables.I: lambda t: outline.i_section(
        t.depth,
        t.web_width,
        t.top_width,
        t.top_depth,
        t.bottom_width,
        t.bottom_depth,
        t.top_taper,
        t.bottom_taper,
    ),
    tables.Box: lambda t: outline.box(t.width, t.depth, t.wall, t.top_depth, t.bottom_depth),
    tables.Circle: lambda t: outline.circle(t.diameter),
    tables.Drawn: lambda t: outline.polygon(_open(t.points), [_open(each) for each in t.holes]),
}

"""Where bars, tendons and stirrups lie across a section. The beam file gives heights; the rest is even
spacing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from soffit.member.beam import Beam, StirrupZone
from soffit.member.profile import height as tendon_height
from soffit.section.outline import Outline, Point

WIDEST = 300.0
"""Bars further apart than this, mm, are drawn in the web instead of across the flange."""


@dataclass(frozen=True)
class Spot:
    x: float
    """From the centre line, mm."""
    y: float
    diameter: float
    tendon: bool
    duct: float
    group: int
    """Index into ``beam.bars``, or into ``beam.tendons`` where ``tendon``."""


def spots(beam: Beam, x: float) -> list[Spot]:
    """Every bar and tendon that crosses the section at ``x``, by height. Rows are spread evenly between
    equal edge distances at the sides and at the nearer face; this is for drawing, as bending does not ask
    for it.
    """
    found = [(g.y, g.count, g.diameter, False, 0.0, i) for i, g in enumerate(beam.bars) if g.x_from <= x <= g.x_to] + [
        (float(tendon_height(g.profile, np.array([x]))[0]), g.count, g.diameter, True, g.duct, i)
        for i, g in enumerate(beam.tendons)
        if g.x_from <= x <= g.x_to
    ]
    found.sort(key=lambda row: row[0])
    rows: list[list[tuple[float, int, float, bool, float, int]]] = []
    for item in found:
        if rows and item[0] - rows[-1][0][0] < 0.5 * max(item[2], rows[-1][0][2]):
            rows[-1].append(item)
        else:
            rows.append([item])
    depth = beam.outline.depth
    edge = min((min(item[0], depth - item[0]) for row in rows for item in row), default=0.0)
    return [spot for row in rows for spot in _row(beam.outline, row, edge)]


def _row(outline: Outline, row: list[tuple[float, int, float, bool, float, int]], edge: float) -> list[Spot]:
    """The items of one row in mirror order: pairs outside, odd ones towards the middle."""
    side: list[int] = []
    middle: list[int] = []
    for i, item in sorted(enumerate(row), key=lambda pair: (pair[1][1] % 2, -pair[1][1])):
        side += [i] * (item[1] // 2)
        middle += [i] * (item[1] % 2)
    order = side + middle + side[::-1]
    y = float(np.mean([item[0] for item in row]))
    diameter = max(max(item[2], item[4]) for item in row)
    places = _spread(outline, y, diameter, len(order), edge)
    return [Spot(x, row[i][0], row[i][2], row[i][3], row[i][4], row[i][5]) for x, i in zip(places, order, strict=True)]


def _spread(outline: Outline, y: float, diameter: float, count: int, edge: float) -> list[float]:
    pieces = chords(outline, y)
    if not pieces:
        return [0.0] * count
    web = chords(outline, outline.depth / 2)
    if len(pieces) == len(web) == 1 and count > 1:
        wide, narrow = (piece[0][1] - piece[0][0] for piece in (pieces, web))
        if wide / (count - 1) > WIDEST and narrow < wide:
            pieces = web
    shares = [count // len(pieces) + (i < count % len(pieces)) for i in range(len(pieces))]
    places: list[float] = []
    for (a, b), n in zip(pieces, shares, strict=True):
        inset = min(max(edge, diameter), max((b - a) / 2 - (n - 1) * diameter * 0.6, diameter * 0.6))
        places += list(np.linspace(a + inset, b - inset, n)) if n > 1 else [(a + b) / 2] * n
    return places


def chords(outline: Outline, y: float, holes: bool = True) -> list[tuple[float, float]]:
    """Stretches of concrete across the section at height ``y``, from left to right, mm."""
    rings: Sequence[Sequence[Point]] = (outline.points, *(outline.holes if holes else ()))
    y = min(max(y, 1e-6), outline.depth - 1e-6)
    if any(abs(y - py) < 1e-9 for ring in rings for _, py in ring):
        y += 1e-6
    hits = sorted(
        x0 + (x1 - x0) * (y - y0) / (y1 - y0)
        for ring in rings
        for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True)
        if (y0 - y) * (y1 - y) < 0
    )
    return list(zip(hits[0::2], hits[1::2], strict=True))


def stirrup_lines(beam: Beam, zone: StirrupZone, x: float) -> list[list[Point]]:
    """Centre lines of one stirrup: a closed loop, then its inner legs, as points of the section.

    Its cover is that of the lowest bar, but no more than a fifth of the narrowest width; where no bar lies
    near the top the cover is the same there. (The beam file gives no cover of stirrups.)
    """
    low, high = stirrup_heights(beam, zone, x)
    depth = beam.outline.depth
    if beam.outline.shape == "circle":
        return [_hoop(beam, zone, x, depth / 2 - low)]
    webs = chords(beam.outline, depth / 2)
    if len(webs) > 1:
        return [line for web in webs for line in _in_web(web, low, high, zone.legs >= 2 * len(webs))]
    narrow = [_outer(beam.outline, y) for y in np.linspace(low, high, 24)]
    left, right = max(a for a, _ in narrow) + low, min(b for _, b in narrow) - low
    if right <= left:
        left = right = (left + right) / 2
    inner = [left + (right - left) * i / (zone.legs - 1) for i in range(1, zone.legs - 1)]
    return [_loop(left, right, low, high), *([(leg, low), (leg, high)] for leg in inner)]


def _loop(left: float, right: float, low: float, high: float) -> list[Point]:
    return [(left, low), (right, low), (right, high), (left, high), (left, low)]


def _in_web(web: tuple[float, float], low: float, high: float, closed: bool) -> list[list[Point]]:
    """The stirrup of one web of a box: a loop, or a single leg where there are fewer legs than that takes."""
    a, b = web
    inset = min(low, 0.25 * (b - a))
    return [_loop(a + inset, b - inset, low, high) if closed else [((a + b) / 2, low), ((a + b) / 2, high)]]


def _hoop(beam: Beam, zone: StirrupZone, x: float, usual: float) -> list[Point]:
    """A ring around all bars."""
    centre = beam.outline.depth / 2
    held = [float(np.hypot(s.x, s.y - centre)) + s.diameter / 2 for s in spots(beam, x) if not s.duct]
    radius = min(max(held, default=usual) + zone.diameter / 2, centre - zone.diameter / 2)
    turn = np.linspace(0, 2 * np.pi, 73)
    return [(float(radius * np.cos(t)), float(centre + radius * np.sin(t))) for t in turn]


def stirrup_heights(beam: Beam, zone: StirrupZone, x: float) -> tuple[float, float]:
    """Heights of the centre lines of a stirrup's lowest and highest part, mm above the soffit."""
    depth = beam.outline.depth
    held = [s for s in spots(beam, x) if not s.duct]
    below = [s.y - s.diameter / 2 - zone.diameter / 2 for s in held if s.y < depth / 2]
    above = [s.y + s.diameter / 2 + zone.diameter / 2 for s in held if s.y > depth / 2]
    low = max(min(below), zone.diameter / 2) if below else None
    high = min(max(above), depth - zone.diameter / 2) if above else None
    if low is None:
        low = depth - high if high is not None else 0.1 * depth
    low = min(low, 0.2 * min(beam.outline.width(y) for y in np.linspace(0.2, 0.8, 13) * depth))
    if high is None or high < 0.7 * depth:
        high = depth - low
    return low, high


def _outer(outline: Outline, y: float) -> tuple[float, float]:
    found = chords(outline, y, holes=False)
    return (found[0][0], found[-1][1]) if found else (0.0, 0.0)

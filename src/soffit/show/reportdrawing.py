"""The beam from the side and its section, to scale, as pictures of a calculation."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from soffit.member.beam import Beam, Load, TendonGroup
from soffit.member.profile import height as tendon_height
from soffit.member.result import Life
from soffit.section.outline import Outline
from soffit.show import look
from soffit.show.cracks import crack_pattern
from soffit.show.numbers import Units, given, sig, times
from soffit.show.reportsvg import HEAVY, MEDIUM, SMALL, THIN, Point, Svg, clipped, width
from soffit.show.section_view import half_width, steel_words
from soffit.show.steel_places import spots, stirrup_heights, stirrup_lines
from soffit.show.view import View, drawing_scale, view_of

MARGIN = 6.0
"""mm beside the beam for walls and anchors."""
TIER = 7.5
LONG = 3000.0
"""Beams longer than this have their places in m."""
MOST_EDGES = 24
HATCH_STEP = 1.4
MOST_CORNERS = 24


@dataclass(frozen=True)
class Drawn:
    svg: str
    width: float
    """mm."""
    note: str
    """What a reader must know to measure in it."""


def elevation(beam: Beam, room: float, units: Units, dimensions: bool = True) -> Drawn:
    """With bars, stirrups, tendons, supports and loads, on ``room`` mm of paper."""
    scale = drawing_scale(beam.length / (room - 2 * MARGIN))
    left = 0.5 * (room - beam.length / scale)
    tiers, points = _tiers(beam), _points(beam)
    words = _point_rows(points, left, scale, units)
    above = 2.0 + TIER * len(tiers) + (7.0 + 3.4 * (1 + max((row for *_, row in words), default=0)) if points else 0.0)
    topping = _topping_height(beam) / scale
    soffit = above + topping + beam.outline.depth / scale
    floor = soffit + 6.5
    chain = sorted({0.0, *beam.supports.x, beam.length})
    texts = [given(b - a, "span" if beam.length > LONG else "length", units) for a, b in pairwise(chain)]
    tight = any(width(t, SMALL) > (b - a) / scale - 0.6 for t, (a, b) in zip(texts, pairwise(chain), strict=True))
    svg = Svg(room, floor + ((9.0 if tight else 6.0) if dimensions else 0.0))
    view = View(scale, left, soffit, 1.0, 1.0, np.array([0.0, beam.length]), np.zeros(2))
    _body(svg, view, beam)
    _supports(svg, view, beam)
    roof = soffit - topping - beam.outline.depth / scale - 0.8
    for i, tier in enumerate(tiers):
        for load in tier:
            _spread(svg, view, load, roof - TIER * i, units)
    start = roof - TIER * len(tiers) - 5.0
    for at, text, row in words:
        svg.arrow((at, start), (at, roof), look.INK, MEDIUM, 1.8)
        if text:
            svg.text((at, start - 1.0 - 3.4 * row), text, size=SMALL, place="middle")
    if dimensions:
        svg.dimensions([left + x / scale for x in chain], floor + 4.0, texts)
    return Drawn(str(svg), room, f"1 : {_round(scale)}")


def living(life: Life, room: float, units: Units) -> Drawn:
    """The beam at the peak of its life, with its cracks, and where it fails."""
    beam, step = life.beam, min(max(life.peak.step, 0), len(life.stations.deflection) - 1)
    scale = drawing_scale(beam.length / (room - 2 * MARGIN))
    left = 0.5 * (room - beam.length / scale)
    flat = view_of(life, step, left, 0.0, scale)
    soffit = flat.highest_rise + 2.0 + beam.outline.depth / scale + _topping_height(beam) / scale
    view = view_of(life, step, left, soffit, scale)
    floor = max(view.lowest, soffit + 6.0)
    svg = Svg(room, floor + 6.0)
    _body(svg, view, beam)
    pattern = crack_pattern(life, step)
    for crack in pattern.cracks:
        face = 0.0 if crack.depth > 0 else beam.outline.depth
        half = max(crack.width * view.crack_times / 2, 0.05 * scale)
        tip = (crack.x + crack.lean, face + crack.depth)
        ring = [(crack.x - half, face), (crack.x + half, face), tip]
        svg.shape([_at(view, ring)], look.INK)
    _supports(svg, view, beam)
    at = float(view.across(life.failure.x))
    words = f"fails here: {life.failure.mode}"
    svg.line(
        [(at, float(view.down(life.failure.x, beam.outline.depth))), (at, floor + 1.4)], look.FAILS, THIN, (1.2, 0.8)
    )
    half_words = 0.5 * width(words, SMALL)
    svg.text((min(max(at, half_words), room - half_words), floor + 4.4), words, look.FAILS, SMALL, "middle", bold=True)
    notes = [f"1 : {_round(scale)}"]
    notes.append(f"deflection {times(view.sag_times)}" if view.sag_times > 1 else "deflection to scale")
    if pattern.cracks:
        notes.append(f"crack width {times(view.crack_times)}" if view.crack_times > 1 else "crack width to scale")
        notes.append(pattern.note)
    return Drawn(str(svg), room, " · ".join(notes))


def section(beam: Beam, x: float, room: float, units: Units) -> Drawn:
    """The cut section at ``x`` with the names of what lies in it."""
    rings = _rings(beam)
    tall = max(base + each.depth for each, base in rings)
    half = max(half_width(each) for each, _ in rings)
    scale = drawing_scale(max(tall / 72.0, 2 * half / min(90.0, 0.5 * room)))
    left, top = 14.0, 3.0
    middle, soffit = left + half / scale, top + tall / scale
    words = [(y, text, color) for y, text, color in steel_words(beam, x)]
    svg = Svg(room, soffit + 6.0 + 6.8 * (len(_chains(beam, 0)) - 1))

    def at(points: Sequence[Point], base: float = 0.0) -> list[Point]:
        return [(middle + px / scale, soffit - (py + base) / scale) for px, py in points]

    for each, base in rings:
        svg.shape([at(ring, base) for ring in (each.points, *each.holes)], look.CONCRETE)
        svg.lines(_hatching(each, base, at), look.HATCH)
        svg.shape([at(ring, base) for ring in (each.points, *each.holes)], edge=look.INK, weight=0.7 * HEAVY)
    for zone in beam.stirrups:
        if zone.x_from <= x <= zone.x_to:
            for line in stirrup_lines(beam, zone, x):
                svg.line(at(line), look.BAR, max(zone.diameter / scale, MEDIUM))
            break
    for spot in spots(beam, x):
        place = at([(spot.x, spot.y)])[0]
        radius = max(spot.diameter / scale / 2, 0.42)
        if spot.duct:
            svg.circle(place, max(spot.duct / scale / 2, radius + 0.4), look.PAPER, look.INK)
        svg.circle(place, radius, look.TENDON if spot.tendon else look.BAR)
        if spot.tendon and not spot.duct:
            svg.circle(place, radius + 0.35, edge=look.TENDON)
    _sizes(svg, beam, middle, soffit, scale, units)
    limit = soffit + 1.0
    start = middle + half / scale + 6.0
    for y, text, color in words:
        base = min(soffit - y / scale + 0.9, limit)
        svg.text((start, base), clipped(text, room - start), color)
        limit = base - 3.8
    return Drawn(str(svg), room, f"1 : {_round(scale)}")


def _hatching(
    outline: Outline, base: float, at: Callable[[Sequence[Point], float], list[Point]]
) -> list[tuple[Point, Point]]:
    """Lines at 45° cut at the rings by the rule of even and odd crossings."""
    rings = [np.array(at(ring, base)) for ring in (outline.points, *outline.holes)]
    edges = np.concatenate([np.stack([ring, np.roll(ring, -1, axis=0)], axis=1) for ring in rings])
    offset = edges.sum(axis=2)  # x + y is the same along a line that rises to the right on paper
    pairs = []
    for c in np.arange(float(offset.min()) + 0.5 * HATCH_STEP, float(offset.max()), HATCH_STEP):
        crossed = edges[(offset[:, 0] > c) != (offset[:, 1] > c)]
        t = (c - crossed[:, 0].sum(axis=1)) / (crossed[:, 1].sum(axis=1) - crossed[:, 0].sum(axis=1))
        x = np.sort(crossed[:, 0, 0] + t * (crossed[:, 1, 0] - crossed[:, 0, 0]))
        pairs += [((float(a), float(c - a)), (float(b), float(c - b))) for a, b in zip(x[::2], x[1::2], strict=False)]
    return pairs


def _chains(beam: Beam, way: int) -> list[list[float]]:
    """Places to be measured across (0) or up (1): every step of a section with few corners, then the whole."""
    points = [(x, y + base) for outline, base in _rings(beam) for x, y in outline.points]
    found = sorted({round(p[way], 3) for p in points})
    whole = [found[0], found[-1]]
    return [found, whole] if len(points) <= MOST_CORNERS and len(found) > 2 else [whole]


def _sizes(svg: Svg, beam: Beam, middle: float, soffit: float, scale: float, units: Units) -> None:
    left, low = middle + _chains(beam, 0)[-1][0] / scale - 3.5, soffit + 4.5
    for levels in _chains(beam, 1):
        texts = [given(b - a, "length", units) for a, b in pairwise(levels)]
        svg.upright_dimensions(left, [soffit - y / scale for y in levels], texts)
        left -= 4.6
    for places in _chains(beam, 0):
        texts = [given(b - a, "length", units) for a, b in pairwise(places)]
        svg.dimensions([middle + x / scale for x in places], low, texts)
        low += 6.8


def _rings(beam: Beam) -> list[tuple[Outline, float]]:
    """The outline of the beam and that of its topping, each with the height of its soffit."""
    topping = beam.making.topping if beam.making else None
    return [(beam.outline, 0.0)] + ([(topping.outline, topping.base)] if topping else [])


# -- the body ----------------------------------------------------------------------------------------------------------


def _at(view: View, points: Sequence[Point]) -> list[Point]:
    x, y = np.array(points, dtype=float).T
    return [(float(a), float(b)) for a, b in zip(view.across(x), view.down(x, y), strict=True)]


def _along(beam: Beam, view: View, y: float, low: float = 0.0, high: float | None = None) -> list[Point]:
    end = beam.length if high is None else high
    count = 61 if view.sag.any() else 2
    return _at(view, [(float(x), y) for x in np.linspace(low, end, count)])


def _topping_height(beam: Beam) -> float:
    topping = beam.making.topping if beam.making else None
    return max(topping.base + topping.outline.depth - beam.outline.depth, 0.0) if topping else 0.0


def _body(svg: Svg, view: View, beam: Beam) -> None:
    depth, over = beam.outline.depth, _topping_height(beam)
    top, low = _along(beam, view, depth), _along(beam, view, 0.0)
    if over:
        svg.shape([[*_along(beam, view, depth + over), *top[::-1]]], look.CONCRETE, look.INK, THIN, 0.75)
    if view.sag.any():
        box = [(0.0, 0.0), (beam.length, 0.0), (beam.length, depth), (0.0, depth), (0.0, 0.0)]
        frame = [(float(view.across(x)), view.straight(y)) for x, y in box]
        svg.line(frame, look.FAINT, THIN, (1.6, 1.0))
    svg.shape([[*top, *low[::-1]]], look.CONCRETE)
    if len(beam.outline.points) <= MOST_EDGES:
        for y in sorted({round(y, 3) for _, y in beam.outline.points if 0 < y < depth}):
            svg.line(_along(beam, view, y), look.FAINT, THIN, opacity=0.6)
    for zone in beam.stirrups:
        bottom, high = stirrup_heights(beam, zone, (zone.x_from + zone.x_to) / 2)
        count = max(int((zone.x_to - zone.x_from) / zone.spacing + 1e-6), 0)
        slack = (zone.x_to - zone.x_from - count * zone.spacing) / 2
        places = zone.x_from + slack + zone.spacing * np.arange(count + 1)
        pairs = [tuple(_at(view, [(float(x), bottom), (float(x), high)])) for x in places]
        close = zone.spacing / view.scale < 2.0
        svg.lines([(a, b) for a, b in pairs], look.BAR, THIN, 0.35 if close else 0.6)
    for bar in beam.bars:
        line = _along(beam, view, bar.y, bar.x_from, bar.x_to)
        weight = max(bar.diameter / view.scale, 0.45)
        svg.line(line, look.BAR, weight)
        up = max(6 * bar.diameter / view.scale, 1.4) * (1 if bar.y < 0.5 * depth else -1)
        for (px, py), kind in ((line[0], bar.end_left), (line[-1], bar.end_right)):
            if kind == "hook":
                svg.line([(px, py), (px, py - up)], look.BAR, weight)
            elif kind == "welded plate":
                svg.line([(px, py - 0.9), (px, py + 0.9)], look.BAR, 2 * weight)
    for tendon in beam.tendons:
        _tendon(svg, view, tendon)
    svg.shape([[*top, *low[::-1]]], edge=look.INK, weight=MEDIUM)


def _tendon(svg: Svg, view: View, tendon: TendonGroup) -> None:
    x = np.linspace(tendon.x_from, tendon.x_to, 121)
    y = tendon_height(tendon.profile, x)
    line = _at(view, list(zip(x.tolist(), y.tolist(), strict=True)))
    svg.line(line, look.TENDON, max(min(tendon.diameter / view.scale, 0.7), 0.4))
    if tendon.when == "after curing":
        for (px, py), way in ((line[0], -1.0), (line[-1], 1.0)):
            svg.shape(
                [[(px, py - 1.3), (px + 0.6 * way, py - 1.3), (px + 0.6 * way, py + 1.3), (px, py + 1.3)]], look.BAR
            )
            svg.shape([[(px + 0.6 * way, py - 0.5), (px + 1.7 * way, py - 0.8), (px + 1.7 * way, py + 0.8),
                        (px + 0.6 * way, py + 0.5)]], look.TENDON)  # fmt: skip


def _supports(svg: Svg, view: View, beam: Beam) -> None:
    held = beam.supports
    for i, x in enumerate(held.x):
        at, top = float(view.across(x)), float(view.down(x, 0.0))
        fixed = (held.fixed_left and i == 0, held.fixed_right and i == len(held.x) - 1)
        if any(fixed):
            way = -1.0 if fixed[0] else 1.0
            high, low = view.straight(beam.outline.depth) - 2.0, view.straight(0.0) + 2.0
            svg.line([(at, high), (at, low)], look.INK, HEAVY)
            svg.lines([((at, y), (at + 1.4 * way, y - 1.4)) for y in np.arange(high + 1.4, low, 1.4)], look.FAINT)
            continue
        rolls = i > 0 or held.fixed_left
        plate = max(held.bearing / view.scale, 2.0)
        box = [(at - plate / 2, top), (at + plate / 2, top), (at + plate / 2, top + 0.5), (at - plate / 2, top + 0.5)]
        svg.shape([box], look.FAINT)
        foot = top + (2.7 if rolls else 3.6)
        svg.shape([[(at, top + 0.5), (at - 1.6, foot), (at + 1.6, foot)]], "#FFFFFF", look.INK, THIN)
        if rolls:
            for dx in (-1.0, 0.0, 1.0):
                svg.circle((at + dx, foot + 0.45), 0.42, "#FFFFFF", look.INK)
        svg.line([(at - 2.6, top + 3.65), (at + 2.6, top + 3.65)], look.INK)


# -- loads -------------------------------------------------------------------------------------------------------------


def _tiers(beam: Beam) -> list[list[Load]]:
    """Distributed loads, dead ones nearest to the beam; those of one case that do not overlap share a tier."""
    tiers: list[list[Load]] = []
    loads = sorted((q for q in beam.loads if not q.is_point), key=lambda q: (q.case != "dead", q.case, q.x_from))
    for load in loads:
        for tier in tiers:
            if tier[0].case == load.case and all(load.x_from >= o.x_to or load.x_to <= o.x_from for o in tier):
                tier.append(load)
                break
        else:
            tiers.append([load])
    return tiers


def _points(beam: Beam) -> list[tuple[float, str, float | None]]:
    """Place, case and value (N; none: of a press, which rises) of what pushes at points."""
    found: list[tuple[float, str, float | None]] = [(q.x_from, q.case, q.value) for q in beam.loads if q.is_point]
    if beam.press is not None:
        found += [(x, "press", None) for x in beam.press.points]
    return sorted(found, key=lambda each: (each[0], each[1]))


def _point_rows(
    points: Sequence[tuple[float, str, float | None]], left: float, scale: float, units: Units
) -> list[tuple[float, str, int]]:
    """Where each arrow stands, its words, and in which row above the arrows these are, so that none meet."""
    ends: list[float] = []
    rows = []
    for x, case, value in points:
        words = case if value is None else f"{case} {given(value, 'force', units)}"
        at, half = left + x / scale, 0.5 * width(words, SMALL) + 0.8
        row = next((i for i, end in enumerate(ends) if at - half >= end), len(ends))
        ends[row:] = [at + half, *ends[row + 1 :]]
        rows.append((at, words if row < 6 else "", min(row, 5)))
    return rows


def _spread(svg: Svg, view: View, load: Load, floor: float, units: Units) -> None:
    a, b = float(view.across(load.x_from)), float(view.across(load.x_to))
    color, top = (look.FAINT if load.case == "dead" else look.INK), floor - 2.8
    svg.line([(a, top), (b, top)], color)
    for x in np.linspace(a, b, max(int((b - a) / 6) + 1, 2)):
        svg.arrow((float(x), top), (float(x), floor), color, THIN, 1.1)
    words = f"{load.case} {given(load.value, 'line load', units)}"
    half = 0.5 * width(words, SMALL)
    svg.text((min(max((a + b) / 2, half), svg.width - half), top - 0.9), words, color, SMALL, "middle")


def _round(scale: float) -> str:
    text = sig(scale, 4)
    return text.rstrip("0").rstrip(".") if "." in text else text

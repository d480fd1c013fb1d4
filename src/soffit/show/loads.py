"""What stands under a beam and what lies on it: supports, press, loads, and the chain of dimensions."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import numpy as np

from soffit.member.beam import Beam, Load
from soffit.member.result import Life
from soffit.show import look, marks
from soffit.show.numbers import Units, given, quantity, times
from soffit.show.view import View

if TYPE_CHECKING:
    from matplotlib.axes import Axes

TIER = 7.0
"""Height of one tier of distributed load, mm."""
POINT = 13.0
"""Height of the arrow of a point load, mm, its number included."""
LONG = 4000.0
"""Beams longer than this, mm, are measured in m (ft) along their length."""
SUPPORT = 4.6
"""Height of a support, mm."""


def height_above(beam: Beam) -> float:
    """Room that the loads need over the top of the beam, mm."""
    spread = len(_tiers(beam))
    points = beam.press is not None or any(load.is_point for load in _acting(beam))
    return TIER * spread + (POINT if points else 0.0) + 1.0


def _tiers(beam: Beam) -> list[list[Load]]:
    """Distributed loads, dead ones nearest to the beam; loads of one case that do not overlap share a
    tier.
    """
    tiers: list[list[Load]] = []
    for load in sorted(
        (q for q in _acting(beam) if not q.is_point), key=lambda q: (q.case != "dead", q.case, q.x_from)
    ):
        free = (
            t
            for t in tiers
            if t[0].case == load.case and all(load.x_from >= o.x_to or load.x_to <= o.x_from for o in t)
        )
        tier = next(free, None)
        if tier is None:
            tiers.append([load])
        else:
            tier.append(load)
    return tiers


def _acting(beam: Beam) -> list[Load]:
    """The loads that the life counts: beside a press only the dead ones (``soffit.member.loading``)."""
    return [q for q in beam.loads if beam.press is None or q.case == "dead"]


def rising_factor(life: Life, load: float) -> float | None:
    """By how much the loads that are not dead are multiplied when they sum up to ``load``; none with a
    press.
    """
    if life.beam.press is not None:
        return None
    given = sum(_total(q) for q in life.beam.loads if q.case != "dead")
    return load / given if given else None


def _total(load: Load) -> float:
    return load.value if load.is_point else load.value * (load.x_to - load.x_from)


def draw_supports(axes: Axes, view: View, beam: Beam, size: float = 1.0) -> None:
    """A triangle on the ground holds; a triangle on rollers lets the beam slide; a hatched wall also holds
    the turn.
    """
    held = beam.supports
    for i, x in enumerate(held.x):
        if held.fixed_left and i == 0:
            _wall(axes, view, beam, x, -1)
        elif held.fixed_right and i == len(held.x) - 1:
            _wall(axes, view, beam, x, 1)
        else:
            _stand(axes, view, beam, x, rolls=i > 0 or held.fixed_left, size=size)


def _wall(axes: Axes, view: View, beam: Beam, x: float, way: int) -> None:
    at = float(view.across(x))
    top, bottom = view.straight(beam.outline.depth) - 3, view.straight(0) + 3
    axes.plot([at, at], [top, bottom], color=look.INK, lw=look.HEAVY, zorder=6)
    for y in np.arange(top + 1.5, bottom + 0.1, 1.5):
        axes.plot([at, at + way * 1.5], [y, y - 1.5 * 1.0], color=look.FAINT, lw=look.THIN, zorder=2)


def _stand(axes: Axes, view: View, beam: Beam, x: float, rolls: bool, size: float) -> None:
    from matplotlib.patches import Circle, Polygon, Rectangle

    at, top = float(view.across(x)), float(view.down(x, 0))
    plate = max(beam.supports.bearing / view.scale, 2.4 * size)
    axes.add_patch(Rectangle((at - plate / 2, top), plate, 0.6 * size, fc=look.FAINT, ec="none", zorder=6))
    foot = top + (2.9 if rolls else 3.9) * size
    corners = [(at, top + 0.6 * size), (at - 1.7 * size, foot), (at + 1.7 * size, foot)]
    axes.add_patch(Polygon(corners, fc=look.PAPER, ec=look.INK, lw=look.THIN, zorder=6))
    if rolls:
        for dx in (-1.0, 0.0, 1.0):
            centre = (at + dx * size, foot + 0.5 * size)
            axes.add_patch(Circle(centre, 0.45 * size, fc=look.PAPER, ec=look.INK, lw=look.THIN, zorder=6))
    ground, reach = top + 3.95 * size, 2.8 * size
    axes.plot([at - reach, at + reach], [ground, ground], color=look.INK, lw=look.THIN, zorder=6)


def draw_loads(axes: Axes, view: View, life: Life, load: float, units: Units) -> None:
    """Press and loads over the beam, with their values when the rising load is ``load`` (N)."""
    beam, factor = life.beam, rising_factor(life, load)
    tiers = _tiers(beam)
    roof = view.straight(beam.outline.depth) - view.highest_rise - 0.8
    for i, tier in enumerate(tiers):
        for q in tier:
            _spread(axes, view, q, roof - TIER * i, factor, units)
    start = roof - TIER * len(tiers) - (POINT - 4.0)
    points = [(q.x_from, _words(q, factor, units), q.case) for q in _acting(beam) if q.is_point]
    if beam.press is not None:
        share = quantity(load / len(beam.press.points), "force", units) if load else ""
        points += [(x, share, "press" if load else "idle press") for x in beam.press.points]
    _points(axes, view, beam, points, start)


def _words(q: Load, factor: float | None, units: Units) -> str:
    value = given(q.value, "force" if q.is_point else "line load", units)
    rising = f" {times(factor)}" if factor is not None and q.case != "dead" else ""
    return f"{q.case} {value}{rising}"


def _spread(axes: Axes, view: View, q: Load, floor: float, factor: float | None, units: Units) -> None:
    a, b = float(view.across(q.x_from)), float(view.across(q.x_to))
    color = look.FAINT if q.case == "dead" else look.INK
    top = floor - 2.6
    axes.plot([a, b], [top, top], color=color, lw=look.THIN, zorder=6)
    for x in np.linspace(a, b, max(int((b - a) / 6) + 1, 2)):
        marks.arrow(axes, float(x), top, floor, color, look.THIN, head=1.2)
    axes.text(
        (a + b) / 2, top - 0.9, _words(q, factor, units), ha="center", va="baseline", zorder=7,
        **look.style(look.SMALL, color),
    )  # fmt: skip


def _points(axes: Axes, view: View, beam: Beam, points: list[tuple[float, str, str]], start: float) -> None:
    """Arrows down to the sagging beam. Neighbours whose words would meet share one: "2 × 10.0 kN"."""
    from matplotlib.patches import Rectangle

    points.sort()
    plate = max(beam.press.plate / view.scale, 2.4) if beam.press else 2.4
    groups: list[list[tuple[float, str, str]]] = []
    for x, words, case in points:
        at = float(view.across(x))
        tip = float(view.down(x, beam.outline.depth))
        heavy = case not in ("dead", "idle press")
        if case.endswith("press"):
            axes.add_patch(Rectangle((at - plate / 2, tip - 0.8), plate, 0.8, fc=look.FAINT, ec="none", zorder=6))
            tip -= 0.8
        marks.arrow(
            axes,
            at,
            start,
            tip,
            look.INK if heavy else look.FAINT,
            look.HEAVY if heavy else look.THIN,
            head=2.4,
        )
        last = groups[-1][-1] if groups else None
        room = look.width(words, look.TEXT) + 2
        if last and last[1] == words and at - float(view.across(last[0])) < room:
            groups[-1].append((x, words, case))
        else:
            groups.append([(x, words, case)])
    for group in groups:
        at = float(np.mean([view.across(x) for x, _, _ in group]))
        words = group[0][1] if len(group) == 1 else f"{len(group)} × {group[0][1]}"
        weight = "semibold" if group[0][2] == "press" else "normal"
        axes.text(
            at,
            start - 1.2,
            words,
            ha="center",
            va="baseline",
            zorder=7,
            **look.style(look.TEXT, weight=weight),
        )


def draw_dimensions(axes: Axes, view: View, beam: Beam, y: float, units: Units) -> None:
    """Two chains under the beam: from load to support, where a press pushes, and from support to support."""
    ends = {0.0, beam.length}
    spans = sorted(ends | set(beam.supports.x))
    if beam.press is not None:
        _chain(axes, view, sorted(set(spans) | set(beam.press.points)), y, units)
        y += 4.6
    _chain(axes, view, spans, y, units)


def chain_height(beam: Beam) -> float:
    return 4.6 * (2 if beam.press is not None else 1)


def _chain(axes: Axes, view: View, places: list[float], y: float, units: Units) -> None:
    long = places[-1] - places[0] > LONG
    texts = [given(b - a, "span" if long else "length", units) for a, b in itertools.pairwise(places)]
    marks.dimensions(axes, [float(view.across(x)) for x in places], y, texts)

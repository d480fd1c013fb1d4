"""The beam from the side, to scale, as it is at one step of its life: concrete, steel, anchors and cracks."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from soffit.member.beam import BarGroup, Beam, TendonGroup
from soffit.member.profile import height as tendon_height
from soffit.member.result import Life
from soffit.show import look
from soffit.show.cracks import Crack, Pattern, crack_pattern
from soffit.show.steel_places import stirrup_heights
from soffit.show.view import View, points_along

if TYPE_CHECKING:
    from matplotlib.axes import Axes

MOST_EDGES = 24
"""An outline with more corners than this is round, and shows no edges from the side."""
SHORTEST_HOOK = 1.6
"""mm of paper."""
NARROWEST_DUCT = 1.2
"""Ducts narrower than this on paper, mm, would be lost behind their tendon."""


def draw_beam(axes: Axes, view: View, life: Life, step: int) -> Pattern:
    """The beam alone, without loads, supports and words. Returns the cracks that were drawn."""
    beam = life.beam
    draw_body(axes, view, beam)
    pattern = crack_pattern(life, step)
    for i, crack in enumerate(pattern.cracks):
        _crack(axes, view, beam, crack, i)
    return pattern


def draw_body(axes: Axes, view: View, beam: Beam) -> None:
    """Concrete and steel, without cracks."""
    _concrete(axes, view, beam)
    _stirrups(axes, view, beam)
    for bars in beam.bars:
        _bars(axes, view, beam, bars)
    thickest = _thickest_tendon(view, beam)
    for tendons in beam.tendons:
        _tendons(axes, view, tendons, thickest)


def _concrete(axes: Axes, view: View, beam: Beam) -> None:
    x, depth = points_along(beam, 0, beam.length), beam.outline.depth
    top, bottom = view.down(x, depth), view.down(x, 0)
    axes.fill_between(view.across(x), top, bottom, color=look.CONCRETE, lw=0, zorder=1)
    box_x = view.across(np.array([0, beam.length, beam.length, 0, 0]))
    box_y = [view.straight(y) for y in (0, 0, depth, depth, 0)]
    if np.abs(view.down(x, 0) - view.straight(0)).max() > 0.3:
        axes.plot(box_x, box_y, color=look.FAINT, lw=look.THIN, ls=(0, (5, 3)), alpha=0.8, zorder=0.5)
    for edge in (top, bottom):
        axes.plot(view.across(x), edge, color=look.INK, lw=look.MEDIUM, zorder=5, solid_capstyle="projecting")
    for end in (0.0, beam.length):
        face = view.down(end, np.array([0.0, depth]))
        axes.plot([float(view.across(end))] * 2, face, color=look.INK, lw=look.MEDIUM, zorder=5)
    if len(beam.outline.points) <= MOST_EDGES:
        for y in sorted({round(y, 3) for _, y in beam.outline.points if 0 < y < depth}):
            axes.plot(view.across(x), view.down(x, y), color=look.FAINT, lw=look.THIN, alpha=0.6, zorder=2)


def _stirrups(axes: Axes, view: View, beam: Beam) -> None:
    from matplotlib.collections import LineCollection

    for zone in beam.stirrups:
        low, high = stirrup_heights(beam, zone, (zone.x_from + zone.x_to) / 2)
        count = max(int((zone.x_to - zone.x_from) / zone.spacing + 1e-6), 0)
        slack = (zone.x_to - zone.x_from - count * zone.spacing) / 2
        x = zone.x_from + slack + zone.spacing * np.arange(count + 1)
        lines = [
            [(across, bottom), (across, top)]
            for across, bottom, top in zip(view.across(x), view.down(x, low), view.down(x, high), strict=True)
        ]
        weight = min(max(zone.diameter / view.scale * look.POINTS_A_MM, look.THIN), look.MEDIUM)
        close = zone.spacing / view.scale < 2.0
        axes.add_collection(
            LineCollection(lines, colors=look.BAR, linewidths=weight, alpha=0.3 if close else 0.55, zorder=2.5)
        )


def _weight(diameter: float, view: View) -> float:
    """Thickness of a bar to scale, but never so thin that it is lost."""
    return max(diameter / view.scale * look.POINTS_A_MM, 1.3 * look.MEDIUM)


def _bars(axes: Axes, view: View, beam: Beam, bars: BarGroup) -> None:
    weight = _weight(bars.diameter, view)
    # hooks at the very end of the beam are drawn a little short of it, so that they can be seen
    short = (weight / look.POINTS_A_MM / 2 + 1.0) * view.scale
    low = max(bars.x_from, short) if bars.end_left != "straight" else bars.x_from
    high = min(bars.x_to, beam.length - short) if bars.end_right != "straight" else bars.x_to
    x = np.linspace(low, high, 121)
    axes.plot(view.across(x), view.down(x, bars.y), color=look.BAR, lw=weight, solid_capstyle="butt", zorder=3)
    for end, kind, inward in ((low, bars.end_left, 1), (high, bars.end_right, -1)):
        x0, y0 = float(view.across(end)), float(view.down(end, bars.y))
        if kind == "hook":
            up = max(6 * bars.diameter / view.scale, SHORTEST_HOOK) * (1 if bars.y < beam.outline.depth / 2 else -1)
            axes.plot([x0, x0], [y0, y0 - up], color=look.BAR, lw=weight, solid_capstyle="butt", zorder=3)
        elif kind == "welded plate":
            tall = max(4 * bars.diameter / view.scale, SHORTEST_HOOK)
            axes.plot(
                [x0 + 0.3 * inward] * 2, [y0 - tall / 2, y0 + tall / 2],
                color=look.BAR, lw=2 * look.HEAVY, solid_capstyle="butt", zorder=3,
            )  # fmt: skip


def _thickest_tendon(view: View, beam: Beam) -> float:
    """Weight of line at which neighbouring tendons still show paper between them."""
    if len(beam.tendons) < 2:
        return 4 * look.HEAVY
    middle = np.sort([tendon_height(t.profile, np.array([(t.x_from + t.x_to) / 2]))[0] for t in beam.tendons])
    gaps = np.diff(middle)
    nearest = float(gaps[gaps > 1].min(initial=beam.outline.depth)) / view.scale
    return max(0.5 * nearest * look.POINTS_A_MM, 0.6 * look.THIN)


def _tendons(axes: Axes, view: View, tendons: TendonGroup, thickest: float) -> None:
    x = np.linspace(tendons.x_from, tendons.x_to, 241)
    y = tendon_height(tendons.profile, x)
    weight = min(_weight(tendons.diameter, view), thickest)
    axes.plot(view.across(x), view.down(x, y), color=look.TENDON, lw=weight, solid_capstyle="butt", zorder=3.5)
    if tendons.duct / view.scale > NARROWEST_DUCT:
        for side in (-0.5, 0.5):
            axes.plot(
                view.across(x), view.down(x, y + side * tendons.duct),
                color=look.TENDON, lw=look.THIN, ls=(0, (4, 2)), zorder=3.4,
            )  # fmt: skip
    if tendons.when == "after curing":
        kind = tendons.anchor.kind if tendons.anchor else "wedge"
        for end, way in ((tendons.x_from, -1), (tendons.x_to, 1)):
            height = float(tendon_height(tendons.profile, np.array([end]))[0])
            _anchor(axes, view, tendons, kind, end, height, way)


def _anchor(axes: Axes, view: View, tendons: TendonGroup, kind: str, end: float, height: float, way: int) -> None:
    """A bearing plate outside the concrete, then a nut with the rod's end through it, or a wedge head."""
    from matplotlib.patches import Polygon, Rectangle

    x0, y0 = float(view.across(end)), float(view.down(end, height))
    unit = max(tendons.diameter / view.scale, 0.7)
    plate, tall = 0.5 * unit, 4.0 * unit

    def box(start: float, long: float, high: float, color: str) -> None:
        left = x0 + way * start if way > 0 else x0 - start - long
        patch = Rectangle((left, y0 - high / 2), long, high, fc=color, ec=look.PAPER, lw=look.THIN, zorder=6)
        axes.add_patch(patch)

    box(0, plate, tall, look.BAR)
    if kind == "nut":
        box(plate, 0.85 * unit, 1.9 * unit, look.TENDON)
        box(plate + 0.85 * unit, 0.9 * unit, unit, look.TENDON)
    elif kind == "wedge":
        near, far = x0 + way * plate, x0 + way * (plate + 1.6 * unit)
        shape = [
            (near, y0 - 0.8 * unit), (far, y0 - 1.2 * unit), (far, y0 + 1.2 * unit), (near, y0 + 0.8 * unit)
        ]  # fmt: skip
        axes.add_patch(Polygon(shape, fc=look.TENDON, ec=look.PAPER, lw=look.THIN, zorder=6))


def _crack(axes: Axes, view: View, beam: Beam, crack: Crack, index: int) -> None:
    """A wedge from mouth to tip. Its small waver repeats from picture to picture and means nothing."""
    from matplotlib.patches import Polygon

    face = 0.0 if crack.depth > 0 else beam.outline.depth
    t = np.linspace(0, 1, 13)
    reach = abs(crack.depth) / view.scale
    waver = 0.035 * reach * np.sin(5.3 * t + 1.9 * index) * np.sin(np.pi * t) + 0.015 * reach * np.sin(
        17 * t + 2.7 * index
    ) * np.sin(np.pi * t)
    x = np.clip(crack.x + crack.lean * t**1.6, 0, beam.length)
    middle = view.across(x) + waver
    y = view.down(np.full_like(t, crack.x), face + crack.depth * t)
    half = np.maximum(crack.width * view.crack_times / view.scale / 2 * (1 - t), 0.04)
    # a crack at a fixed end opens in the beam, not in what holds it
    left, right = (np.clip(middle + side, view.across(0.0), view.across(beam.length)) for side in (-half, half))
    edge = list(zip(left, y, strict=True)) + list(zip(right[::-1], y[::-1], strict=True))
    axes.add_patch(Polygon(edge, fc=look.INK, ec=look.INK, lw=0.6 * look.THIN, zorder=4, joinstyle="round"))

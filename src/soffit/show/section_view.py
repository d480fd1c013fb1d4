"""The cut section, to scale: hatched concrete, solid steel, stirrups, and the names of what lies in it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from soffit.member.beam import Beam
from soffit.section.outline import Outline, Point
from soffit.show import look, marks
from soffit.show.numbers import THIN, Units, given
from soffit.show.steel_places import Spot, spots, stirrup_lines

if TYPE_CHECKING:
    from matplotlib.axes import Axes

HATCH_STEP = 1.5
"""mm of paper between hatching lines."""


def half_width(outline: Outline) -> float:
    return max(abs(x) for x, _ in outline.points)


def draw_section(
    axes: Axes, beam: Beam, x: float, middle: float, soffit: float, scale: float, edge: float = look.HEAVY
) -> None:
    """The section at ``x``; its centre line at ``middle`` and its soffit at ``soffit`` on a panel in mm.

    ``edge`` is the weight of its outline, points."""
    _concrete(axes, beam.outline, middle, soffit, scale, edge)
    for zone in beam.stirrups:
        if zone.x_from <= x <= zone.x_to:
            weight = max(zone.diameter / scale * look.POINTS_A_MM, look.MEDIUM)
            for line in stirrup_lines(beam, zone, x):
                axes.plot(
                    [middle + px / scale for px, _ in line], [soffit - py / scale for _, py in line],
                    color=look.BAR, lw=weight, solid_joinstyle="round", zorder=3,
                )  # fmt: skip
            break
    for spot in spots(beam, x):
        _steel(axes, spot, middle, soffit, scale)


def _concrete(axes: Axes, outline: Outline, middle: float, soffit: float, scale: float, edge: float) -> None:
    from matplotlib.collections import LineCollection
    from matplotlib.patches import PathPatch
    from matplotlib.path import Path

    codes: list[np.uint8] = []
    points: list[tuple[float, float]] = []
    for hole, ring in enumerate((outline.points, *outline.holes)):
        placed = [(middle + x / scale, soffit - y / scale) for x, y in ring]
        # a hole must run against the outline, or the filling rule of the page would close it
        if (_turns_left(ring) > 0) == (hole > 0):
            placed.reverse()
        points += [*placed, placed[0]]
        codes += [Path.MOVETO, *[Path.LINETO] * (len(ring) - 1), Path.CLOSEPOLY]

    shape = Path(points, codes)
    face = PathPatch(shape, fc=look.CONCRETE, ec="none", zorder=1)
    axes.add_patch(face)
    wide, tall = half_width(outline) / scale, outline.depth / scale
    start = np.arange(-wide - tall, wide + HATCH_STEP, HATCH_STEP)
    hatch = LineCollection(
        [[(middle + a, soffit), (middle + a + tall, soffit - tall)] for a in start],
        colors=look.HATCH, linewidths=look.THIN, zorder=1.5,
    )  # fmt: skip
    axes.add_collection(hatch)
    hatch.set_clip_path(shape, axes.transData)
    axes.add_patch(PathPatch(shape, fc="none", ec=look.INK, lw=edge, joinstyle="miter", zorder=2))


def _turns_left(ring: Sequence[Point]) -> float:
    """Twice the signed area."""
    x, y = np.array(ring).T
    return float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


def _steel(axes: Axes, spot: Spot, middle: float, soffit: float, scale: float) -> None:
    """A bar is a solid disc; a tendon wears a ring; a duct is an empty one around it."""
    from matplotlib.patches import Circle

    at = (middle + spot.x / scale, soffit - spot.y / scale)
    radius = max(spot.diameter / scale / 2, 0.42)
    color = look.TENDON if spot.tendon else look.BAR
    if spot.duct:
        axes.add_patch(
            Circle(
                at,
                max(spot.duct / scale / 2, radius + 0.4),
                fc=look.PAPER,
                ec=look.INK,
                lw=look.THIN,
                zorder=3.5,
            )
        )
    ring = spot.tendon and not spot.duct and radius > 0.6
    axes.add_patch(Circle(at, 0.72 * radius if ring else radius, fc=color, ec="none", zorder=4))
    if ring:
        axes.add_patch(Circle(at, radius, fc="none", ec=color, lw=look.THIN, zorder=4))


def steel_words(beam: Beam, x: float) -> list[tuple[float, str, str]]:
    """Height, words and colour of each kind of steel at ``x``; rows of the same thing are named together."""
    groups: dict[tuple[bool, str], list[tuple[int, float]]] = {}
    seen: dict[tuple[bool, int], list[Spot]] = {}
    for spot in spots(beam, x):
        seen.setdefault((spot.tendon, spot.group), []).append(spot)
    for (tendon, index), rows in seen.items():
        label = (beam.tendons[index] if tendon else beam.bars[index]).label
        what = re.sub(r"^\d+\s*×\s*", "", label) or ("tendons" if tendon else "bars")
        third = int(3 * rows[0].y / beam.outline.depth)
        key = (tendon, f"{what}\n{third}")
        groups.setdefault(key, []).append((len(rows), rows[0].y))
    words = []
    for (tendon, what), rows_of in groups.items():
        count, levels = sum(n for n, _ in rows_of), len({round(y) for _, y in rows_of})
        text = f"{count} × {what.partition(chr(10))[0]}" + (f" in {levels} rows" if levels > 2 else "")
        words.append((float(np.mean([y for _, y in rows_of])), text, look.TENDON if tendon else look.BAR))
    for zone in beam.stirrups:
        if zone.x_from <= x <= zone.x_to:
            words.append((beam.outline.depth / 2, f"stirrups {zone.label}".strip(), look.BAR))
            break
    return sorted(words)


def draw_words(
    axes: Axes, beam: Beam, x: float, middle: float, soffit: float, scale: float, room: tuple[float, float]
) -> None:
    """Names of the steel to the right of the section, none over another; ``room`` is (left, width) in mm."""
    words = steel_words(beam, x)
    line = 1.25 * look.SMALL / look.POINTS_A_MM
    blocks = [(y, look.wrap(text, room[1], look.SMALL), color) for y, text, color in words]
    top = soffit - beam.outline.depth / scale
    tops = _stacked([soffit - y / scale for y, _, _ in blocks], [line * len(b[1]) for b in blocks], top, soffit)
    for (_, lines, color), y in zip(blocks, tops, strict=True):
        for i, text in enumerate(lines):
            axes.text(room[0], y + line * (i + 0.75), text, va="baseline", **look.style(look.SMALL, color))


def _stacked(wanted: list[float], heights: list[float], top: float, bottom: float) -> list[float]:
    """Tops of blocks near their wanted middles, from the lowest block up, that do not overlap."""
    tops: list[float] = []
    limit = bottom + 1.0
    for middle, height in zip(wanted, heights, strict=True):
        tops.append(min(middle - height / 2, limit - height))
        limit = tops[-1] - 0.6
    if tops and limit < top - 1.0:  # out of room above: push everything down by what is missing
        tops = [t + (top - 1.0 - limit) for t in tops]
    return tops


def draw_sizes(axes: Axes, beam: Beam, middle: float, soffit: float, scale: float, units: Units) -> None:
    """Depth to the left of the section and width under it."""
    tall = beam.outline.depth / scale
    left = min(x for x, _ in beam.outline.points) / scale
    right = max(x for x, _ in beam.outline.points) / scale
    depth = given(beam.outline.depth, "length", units)
    marks.upright_dimension(axes, middle + left - 2.6, soffit - tall, soffit, depth)
    width = given((right - left) * scale, "length", units)
    y = soffit + 4.6
    if right - left >= look.width(width, look.SMALL) + 1:
        marks.dimensions(axes, [middle + left, middle + right], y, [width])
    else:
        axes.text(middle, y - 0.6, f"width{THIN}{width}", ha="center", **look.style(look.SMALL, look.FAINT))

"""The curves of several beams in one chart, each named where it runs, with its events marked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from soffit.member.beam import Beam
from soffit.member.result import Event, Life
from soffit.show import look
from soffit.show.chart import Array, Chart, draw_axes, load_range
from soffit.show.numbers import Units, in_unit, unit
from soffit.show.placing import Ground

if TYPE_CHECKING:
    from matplotlib.axes import Axes

ENLARGED_BELOW = 0.25
"""The first cracks get a chart of their own where they lie within this share of the whole deflection."""


class Mark(NamedTuple):
    """What is marked on every curve: the first of the events named here, by its shape, hollow or filled."""

    events: tuple[str, ...]
    shape: str
    hollow: bool
    words: str


MARKS = (
    Mark(("first crack",), "o", True, "first crack"),
    Mark(("bar yield", "tendon yield"), "D", True, "yield"),
    Mark(("peak",), "o", False, "peak"),
)
SOLID, LONG, DOTS, MIXED, SHORT = (
    (0, ()),
    (0, (8, 1.8)),
    (0, (1.2, 1.2)),
    (0, (6, 1.6, 1.2, 1.6)),
    (0, (3, 1.5)),
)
PATTERNS = {
    "plain": (DOTS, SHORT, SOLID, LONG, MIXED),
    "bars": (SOLID, SHORT, DOTS, LONG, MIXED),
    "pretensioned": (LONG, SOLID, DOTS, SHORT, MIXED),
    "post-tensioned": (MIXED, SHORT, DOTS, LONG, SOLID),
}
"""Dash patterns of each kind of beam, the usual one first."""


@dataclass(frozen=True)
class Look:
    """How one beam's curve is drawn: the colour of what reinforces it, and a dash pattern of its own."""

    color: str
    dashes: tuple[float, tuple[float, ...]]


def looks_of(beams: Sequence[Beam]) -> list[Look]:
    """Ink without steel, the bars' colour with bars, the tendons' with tendons; and to each a dash pattern
    that no other has, as far as they go round, so that the chart can be read in grey.
    """
    taken: list[object] = []
    looks = []
    for beam in beams:
        kind = kind_of(beam)
        color = {"plain": look.INK, "bars": look.BAR}.get(kind, look.TENDON)
        # with more beams than patterns they come round again; the name at the curve tells the beams apart
        dashes = min(PATTERNS[kind], key=taken.count)
        taken.append(dashes)
        looks.append(Look(color, dashes))
    return looks


def kind_of(beam: Beam) -> str:
    """By what reinforces it: a key of ``PATTERNS``."""
    if any(t.when == "after curing" for t in beam.tendons):
        return "post-tensioned"
    return "pretensioned" if beam.tendons else "bars" if beam.bars else "plain"


@dataclass(frozen=True)
class Line:
    """One life with the look of its curve."""

    life: Life
    look: Look


def draw_charts(axes: Axes, lines: Sequence[Line], box: tuple[float, float, float, float], units: Units) -> None:
    """The whole lives, and to the left their beginning at a larger scale where it would else be lost.

    ``box`` is left, top, width and height in mm of the panel."""
    left, top, width, height = box
    curves = [line.life.curve for line in lines]
    mm, force = in_unit(1.0, "length", units), in_unit(1.0, "force", units)
    far = mm * max(float(c.deflection.max()) for c in curves) or 1.0
    back = min(mm * min(float(c.deflection.min()) for c in curves), 0.0)
    high = force * max(float(c.load.max()) for c in curves)
    low = force * min(float(c.load.min()) for c in curves)
    near = [mm * e.deflection for line in lines for e in line.life.events if e.event == "first crack"]
    first = 1.8 * max(near, default=0.0)
    x_words, y_words = f"deflection, {unit('length', units)}", f"load, {unit('force', units)}"
    if 0 < first < ENLARGED_BELOW * far:
        part = 0.3 * width
        reached = force * max(float(c.load[mm * c.deflection <= first].max()) for c in curves)
        chart = Chart(left, top, part, height, back, first, *load_range(0.0, reached or high))
        draw_axes(axes, chart, x_words, f"{y_words}: the beginning")
        _curves(axes, lines, chart, units, at="first crack")
        left, width = left + part + 11.0, width - part - 11.0
        y_words += ": the whole life"
    chart = Chart(left, top, width, height, back, 1.12 * far, *load_range(low, high))
    draw_axes(axes, chart, x_words, y_words, empty=not high)
    _curves(axes, lines, chart, units, at="peak")


def _curves(axes: Axes, lines: Sequence[Line], chart: Chart, units: Units, at: str) -> None:
    mm, force = in_unit(1.0, "length", units), in_unit(1.0, "force", units)
    right, bottom = chart.left + chart.width + 1, chart.top + chart.height - 0.5
    ground = Ground((chart.left, chart.top - 1, right, bottom))
    paths = []
    for line in lines:
        color = line.look.color
        x, y = mm * line.life.curve.deflection, force * line.life.curve.load
        style = {"color": color, "lw": look.HEAVY, "ls": line.look.dashes, "dash_capstyle": "butt"}
        chart.line(axes, x, y, zorder=4, **style)
        paths.append((chart.across(x), chart.down(y)))
        ground.keep_clear(*paths[-1])
        for mark in MARKS:
            event = marked(line.life, mark)
            if event is None or mm * event.deflection > chart.x_high:
                continue
            u, v = chart.inside(mm * event.deflection, force * event.load)
            draw_mark(axes, mark, u, v, color)
            ground.taken.append((u - 1.0, v - 1.0, u + 1.0, v + 1.0))
    for line, path, name in zip(lines, paths, short_names([line.life.name for line in lines]), strict=True):
        _name(axes, line, name, path, ground, chart, at)


def draw_mark(axes: Axes, mark: Mark, x: float, y: float, color: str, size: float = 4.4) -> None:
    """The shape of a mark; ``size`` in points."""
    size = 0.82 * size if mark.shape == "D" else size
    face = look.PAPER if mark.hollow else color
    axes.plot([x], [y], marker=mark.shape, ms=size, mfc=face, mec=color, mew=0.9, zorder=6)


def marked(life: Life, mark: Mark) -> Event | None:
    """The event of a life that a mark stands for."""
    if mark.events == ("peak",):
        return life.peak
    return next((e for e in life.events if e.event in mark.events), None)


def common_start(names: Sequence[str]) -> str:
    """The words with which all names begin; empty for a single name."""
    same: list[str] = []
    for words in zip(*(name.split() for name in names), strict=False):
        if len(names) < 2 or len(set(words)) > 1:
            break
        same.append(words[0])
    return " ".join(same)


def short_names(names: Sequence[str]) -> list[str]:
    """The names without the words that all begin with, unless nothing is left of one."""
    start = len(common_start(names))
    short = [name[start:].strip(" ,;:–") for name in names]
    return short if all(short) else list(names)


def _name(axes: Axes, line: Line, name: str, path: tuple[Array, Array], ground: Ground, chart: Chart, at: str) -> None:
    """The curve's name near its event ``at``; a thin line leads to it where it stands away."""
    size = look.TEXT if at == "peak" else look.SMALL
    event = next((e for e in line.life.events if e.event == at), line.life.peak)
    n = event.step
    if path[0][n] > chart.left + chart.width:  # beyond the chart: where the curve leaves it
        n = max(int(np.argmax(path[0] > chart.left + chart.width)) - 1, 0)
    x, y = float(path[0][n]), float(path[1][n])
    words = look.clip(name, 0.5 * chart.width, size, "semibold")
    wide, tall = look.width(words, size, "semibold"), size / look.POINTS_A_MM
    u, v = ground.place(x, y, wide, tall, reach=40.0)
    end = (min(max(x, u - wide / 2), u + wide / 2), v + (tall / 2 if v < y else -tall / 2))
    if np.hypot(end[0] - x, end[1] - y) > 4:
        axes.plot([x, end[0]], [y, end[1]], color=line.look.color, lw=look.THIN, zorder=5)
    style = look.style(size, line.look.color, "semibold")
    axes.text(u, v + 0.33 * tall, words, ha="center", va="baseline", zorder=7, **style)

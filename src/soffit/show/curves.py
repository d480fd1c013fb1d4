"""Load against deflection, with the numbered events of the life."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from soffit.member.result import Life
from soffit.show import look, marks
from soffit.show.chart import Chart, draw_axes, load_range
from soffit.show.numbers import Units, in_unit, quantity, unit
from soffit.show.placing import Ground

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def draw_curve(
    axes: Axes, life: Life, step: int, now: int | None, box: tuple[float, float, float, float], units: Units
) -> None:
    """The curve in ``box`` (left, top, width, height; mm of the panel), in full ink up to ``step``.

    ``now`` is the index of the event that the sheet shows."""
    load = in_unit(1.0, "force", units) * life.curve.load
    bend = in_unit(1.0, "length", units) * life.curve.deflection
    chart = _frame(load, bend, box)
    draw_axes(
        axes,
        chart,
        f"deflection, {unit('length', units)}",
        f"load, {unit('force', units)}",
        empty=not load.any(),
    )
    chart.line(axes, bend, load, color=look.INK, lw=look.MEDIUM, alpha=0.45, zorder=3)
    done = slice(0, step + 1)
    chart.line(axes, bend[done], load[done], color=look.INK, lw=look.HEAVY, zorder=4, solid_capstyle="round")
    ground = Ground((box[0] - 1, box[1] - 1, box[0] + box[2] + 1, box[1] + box[3] - 0.3))
    ground.keep_clear(chart.across(bend), chart.down(load))
    _capacity(axes, life, chart, ground, units)
    _events(axes, life, step, now, chart, ground, units)


def _frame(load: np.ndarray, bend: np.ndarray, box: tuple[float, float, float, float]) -> Chart:
    """Scales with room over the peak for the numbers. A life of one point gets a range to stand in."""
    x_low, x_high = min(float(bend.min()), 0.0), max(float(bend.max()), 0.0)
    x_high = x_low + 1.0 if x_high - x_low <= 0 else x_high + 0.04 * (x_high - x_low)
    return Chart(*box, x_low, x_high, *load_range(float(load.min()), float(load.max())))


def _capacity(axes: Axes, life: Life, chart: Chart, ground: Ground, units: Units) -> None:
    """The press's capacity as a line, where it lies within the picture."""
    press = life.beam.press
    if press is None or press.capacity is None:
        return
    value = in_unit(press.capacity, "force", units)
    if value > chart.y_high:
        return
    y = float(chart.down(value))
    ends = [chart.left, chart.left + chart.width]
    axes.plot(ends, [y, y], color=look.FAINT, lw=look.THIN, ls=(0, (5, 3)), zorder=2)
    words = f"press {quantity(press.capacity, 'force', units)}"
    axes.text(ends[1], y - 0.9, words, ha="right", va="baseline", **look.style(look.SMALL, look.FAINT))
    ground.keep_clear(ends, [y, y])
    ground.taken.append((ends[1] - look.width(words, look.SMALL), y - 3, ends[1], y))


def _events(axes: Axes, life: Life, step: int, now: int | None, chart: Chart, ground: Ground, units: Units) -> None:
    size = 2 * marks.RADIUS
    at = []
    for event in life.events:
        x, y = chart.inside(in_unit(event.deflection, "length", units), in_unit(event.load, "force", units))
        at.append((x, y))
        ground.taken.append((x - 0.5, y - 0.5, x + 0.5, y + 0.5))
    for i, (event, (x, y)) in enumerate(zip(life.events, at, strict=True)):
        time = marks.when(event.step, step, i == now)
        u, v = ground.place(x, y, size, size)
        color = look.FAINT if time == "future" else look.INK
        axes.plot([x, u], [y, v], color=color, lw=0.8 * look.THIN, zorder=5)
        axes.plot([x], [y], marker="o", ms=2.6, mfc=color, mec=look.PAPER, mew=0.4, zorder=6)
        marks.number(axes, u, v, i + 1, time)

"""Charts against the logarithm of time: an axis with named days, numbered stages, lines with their band and name."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log10
from typing import TYPE_CHECKING, Any

import numpy as np

from soffit.show import look, marks
from soffit.show.agewords import age
from soffit.show.chart import Array, Chart, ticks
from soffit.show.numbers import THIN, decimals, fixed

if TYPE_CHECKING:
    from matplotlib.axes import Axes

NAMED = (
    (0.25, "6 h"), (0.5, "12 h"), (1.0, "1 d"), (7.0, "7 d"), (28.0, "28 d"), (365.25, "1 y"),
    (3652.5, "10 y"), (18262.5, "50 y"), (36525.0, "100 y"),
)  # fmt: skip
"""Days that an axis names, and how."""
BAND_ALPHA = 0.16
PAST_END = 1.02
"""How far an axis goes on beyond the last day."""
LABEL_PITCH = 3.0
"""mm between the baselines of two labels."""


@dataclass(frozen=True)
class Frame:
    """A chart whose x is log10 of days."""

    chart: Chart

    @classmethod
    def of(cls, box: tuple[float, float, float, float], days: tuple[float, float], low: float, high: float) -> Frame:
        return cls(Chart(*box, log10(days[0]), log10(days[1]), low, high))

    def across(self, t: Array | float) -> Array:
        return self.chart.across(self.logs(t))

    def logs(self, t: Array | float) -> Array:
        """Days before the first of the axis lie a little outside it, and are cut off there."""
        return np.log10(np.maximum(np.asarray(t, dtype=float), 10 ** (self.chart.x_low - 0.05)))

    def line(self, axes: Axes, t: Array, values: Array, **style: Any) -> None:
        self.chart.line(axes, self.logs(t), values, **style)

    def band(self, axes: Axes, t: Array, low: Array, high: Array, color: str, share: float = 1.0) -> None:
        """A light fill between two fractiles; ``share``: of the usual strength, where several overlap."""
        from matplotlib.patches import Rectangle

        c = self.chart
        inside = np.isfinite(low) & np.isfinite(high)
        if not inside.any():
            return
        x = self.across(np.asarray(t)[inside])
        fill = axes.fill_between(
            x, c.down(low[inside]), c.down(high[inside]), color=color, alpha=BAND_ALPHA * share, lw=0, zorder=1.5
        )
        fill.set_clip_path(Rectangle((c.left, c.top), c.width, c.height, transform=axes.transData))


def day_range(t: Array, begun: float) -> tuple[float, float]:
    """First and last day of an axis: a little before the first thing that happens, to the end."""
    first = max(begun, 0.1)
    return 0.75 * first, PAST_END * float(t[-1])


def value_range(values: Sequence[Array], zero: bool = True) -> tuple[float, float]:
    """Scale over all that is drawn, with a margin; ``zero``: it holds zero."""
    all_values = np.concatenate([np.zeros(0), *(np.ravel(v) for v in values)])
    all_values = all_values[np.isfinite(all_values)]
    low, high = (float(all_values.min()), float(all_values.max())) if len(all_values) else (0.0, 1.0)
    if zero:
        low, high = min(low, 0.0), max(high, 0.0)
    room = 0.07 * (high - low) or 1.0
    return low - room, high + room


def draw_frame(axes: Axes, frame: Frame, title: str, words: Any = None, last: bool = False, over: float = 1.6) -> None:
    """Axes, grid and named days. ``words`` turns a list of tick values into texts; ``last``: the days are written;
    ``over``: height of the title over the chart, mm."""
    c = frame.chart
    bottom = c.top + c.height
    plain = look.style(look.SMALL, look.FAINT)
    axes.plot(
        [c.left, c.left, c.left + c.width], [c.top, bottom, bottom],
        color=look.FAINT, lw=look.THIN, zorder=2, solid_joinstyle="miter",
    )  # fmt: skip
    values = ticks(c.y_low, c.y_high, min(max(int(c.height / 7), 2), 8))
    texts = words(values) if words else labels(values)
    for value, text in zip(values, texts, strict=True):
        y = float(c.down(value))
        axes.plot([c.left, c.left + c.width], [y, y], color=look.FAINT, lw=0.5 * look.THIN, alpha=0.35, zorder=1)
        axes.text(c.left - 1.0, y + 0.8, text, ha="right", va="baseline", **plain)
    free = c.left - 2.0
    end = 10**c.x_high / PAST_END
    named = [(day, text) for day, text in NAMED if float(c.across(log10(day))) < c.left + c.width - 9.0]
    for day, text in [*named, (end, age(end, short=True))]:
        if not c.x_low - 1e-9 <= log10(day) <= c.x_high + 1e-9:
            continue
        x = float(c.across(log10(day)))
        axes.plot([x, x], [bottom, bottom + 0.8], color=look.FAINT, lw=look.THIN, zorder=2)
        half = look.width(text, look.SMALL) / 2
        if last and x - half > free:
            axes.text(x, bottom + 3.4, text.replace(" ", THIN), ha="center", va="baseline", **plain)
            free = x + half + 1.0
    axes.text(c.left, c.top - over, title, va="baseline", **look.style(look.SMALL, look.INK, "semibold"))


def labels(values: Sequence[float]) -> list[str]:
    """Tick values with one number of decimals for all."""
    step = values[1] - values[0] if len(values) > 1 else (abs(values[0]) or 1.0) if values else 1.0
    places = max(decimals(step, 1), 0)
    if abs(round(step, places) - step) > 1e-6 * step:
        places += 1
    return [fixed(v, places) for v in values]


def zero_line(axes: Axes, frame: Frame) -> None:
    c = frame.chart
    if c.y_low <= 0 <= c.y_high:
        y = float(c.down(0.0))
        axes.plot([c.left, c.left + c.width], [y, y], color=look.INK, lw=look.THIN, zorder=2.2)


def names(axes: Axes, frame: Frame, ends: Sequence[tuple[float, str, str]], left: float) -> None:
    """Labels at the right ends of lines (value, text, colour), moved apart where they would touch."""
    c = frame.chart
    wished = sorted((float(c.down(min(max(v, c.y_low), c.y_high))), text, color) for v, text, color in ends)
    for y, (at, text, color) in zip(spread([w[0] for w in wished], LABEL_PITCH), wished, strict=True):
        if abs(y - at) > 0.6:
            axes.plot([c.left + c.width + 0.4, left - 0.4], [at, y], color=color, lw=0.6 * look.THIN, zorder=2)
        axes.text(left, y + 0.8, text, va="baseline", **look.style(look.SMALL, color))


def spread(wished: Sequence[float], pitch: float) -> list[float]:
    """Places near the rising wished ones, at least ``pitch`` apart: runs of neighbours share their mean."""
    runs: list[list[float]] = []  # each: sum of (wish − own shift), count
    for i, at in enumerate(wished):
        runs.append([at - i * pitch, 1.0])
        while len(runs) > 1 and runs[-2][0] / runs[-2][1] > runs[-1][0] / runs[-1][1]:
            total, count = runs.pop()
            runs[-1][0] += total
            runs[-1][1] += count
    starts = [total / count for total, count in runs for _ in range(int(count))]
    return [start + i * pitch for i, start in enumerate(starts)]


def stage_lines(axes: Axes, frames: Sequence[Frame], t: Sequence[float], y: float, right: float) -> None:
    """A faint vertical at every stage through all the charts, and its number in a row over them."""
    first = frames[0]
    at = [float(first.across(day)) for day in t]
    pitch = 2 * marks.RADIUS + 0.5
    places = [min(p, right) for p in spread(at, pitch)]
    for i in range(len(places) - 2, -1, -1):  # the last ones back to the left where the row is full
        places[i] = min(places[i], places[i + 1] - pitch)
    for i, (x, place) in enumerate(zip(at, places, strict=True)):
        for frame in frames:
            c = frame.chart
            axes.plot([x, x], [c.top, c.top + c.height], color=look.FAINT, lw=0.6 * look.THIN, alpha=0.6, zorder=1.2)
        axes.plot([place, x], [y + marks.RADIUS, first.chart.top], color=look.FAINT, lw=0.6 * look.THIN, zorder=1.2)
        marks.number(axes, place, y, i + 1)

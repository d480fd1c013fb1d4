"""A plain chart on a panel in mm: two thin axes, few ticks, words at their ends."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, floor, log10
from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from soffit.show import look
from soffit.show.numbers import decimals, fixed

if TYPE_CHECKING:
    from matplotlib.axes import Axes

Array: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True)
class Chart:
    """A rectangle of a panel with its scales; ``top`` and ``left`` in mm of the panel, y downward."""

    left: float
    top: float
    width: float
    height: float
    x_low: float
    x_high: float
    y_low: float
    y_high: float

    def across(self, x: Array | float) -> Array:
        return self.left + self.width * (np.asarray(x, dtype=float) - self.x_low) / (self.x_high - self.x_low)

    def down(self, y: Array | float) -> Array:
        return self.top + self.height * (self.y_high - np.asarray(y, dtype=float)) / (self.y_high - self.y_low)

    def inside(self, x: float, y: float) -> tuple[float, float]:
        """Panel position of a point, moved to the edge where it lies beyond it."""
        return (
            float(self.across(min(max(x, self.x_low), self.x_high))),
            float(self.down(min(max(y, self.y_low), self.y_high))),
        )

    def line(self, axes: Axes, x: Array, y: Array, **style: Any) -> None:
        """A line in the chart's own units, cut off at its edges."""
        from matplotlib.patches import Rectangle

        frame = Rectangle((self.left, self.top), self.width, self.height, transform=axes.transData)
        axes.plot(self.across(x), self.down(y), **style)[0].set_clip_path(frame)


LOWEST = -0.08
"""A load below zero (a beam that no longer bears itself) is shown down to this share of the highest."""


def load_range(least: float, most: float) -> tuple[float, float]:
    """Scale of a load axis, with room over the highest for words."""
    if most <= 0:
        return 0.0, 1.0
    return (max(least, LOWEST * most) if least < 0 else 0.0), 1.15 * most


def ticks(low: float, high: float, most: int) -> list[float]:
    """Round values from 1, 2, 2.5 and 5 times a power of ten within the range, at most ``most``."""
    span = high - low
    if not span > 0:
        return [low]
    power = 10.0 ** floor(log10(span / most))
    step = next((m * power for m in (1, 2, 2.5, 5, 10, 20) if span / (m * power) <= most), 20 * power)
    first = ceil(low / step - 1e-9)
    return [i * step for i in range(first, floor(high / step + 1e-9) + 1)]


def draw_axes(axes: Axes, chart: Chart, x_words: str, y_words: str, empty: bool = False) -> None:
    """Axes at the left and the bottom. The words of y stand over its axis, those of x at its right end.

    ``empty``: the scales mean nothing, so only zero is written."""
    bottom = chart.top + chart.height
    axes.plot(
        [chart.left, chart.left, chart.left + chart.width], [chart.top, bottom, bottom],
        color=look.FAINT, lw=look.THIN, zorder=2, solid_joinstyle="miter",
    )  # fmt: skip
    plain = look.style(look.SMALL, look.FAINT)
    zero = [(0.0, "0")] if empty else None
    for value, words in zero or _labelled(ticks(chart.x_low, chart.x_high, min(max(int(chart.width / 14), 2), 8))):
        x = float(chart.across(value))
        axes.plot([x, x], [bottom, bottom + 0.8], color=look.FAINT, lw=look.THIN, zorder=2)
        axes.text(x, bottom + 3.4, words, ha="center", va="baseline", **plain)
    for value, words in zero or _labelled(ticks(chart.y_low, chart.y_high, min(max(int(chart.height / 10), 2), 8))):
        y = float(chart.down(value))
        if value > chart.y_low:
            axes.plot(
                [chart.left, chart.left + chart.width],
                [y, y],
                color=look.FAINT,
                lw=0.5 * look.THIN,
                alpha=0.35,
                zorder=1,
            )
        axes.text(chart.left - 1.0, y + 0.8, words, ha="right", va="baseline", **plain)
    axes.text(chart.left, chart.top - 1.6, y_words, va="baseline", **plain)
    axes.text(chart.left + chart.width, bottom + 6.6, x_words, ha="right", va="baseline", **plain)


def _labelled(values: list[float]) -> list[tuple[float, str]]:
    """Tick values with one number of decimals for all."""
    step = values[1] - values[0] if len(values) > 1 else (abs(values[0]) or 1.0)
    places = max(decimals(step, 1), 0)
    if abs(round(step, places) - step) > 1e-6 * step:
        places += 1
    return [(v, fixed(v, places)) for v in values]

"""The place by date picture: prestress, or camber and sag, along the beam at first and at the end."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from soffit.show import agechart, look
from soffit.show.agelines import DASHES, MOST_GROUPS, Box, ways
from soffit.show.agetable import HELD, name
from soffit.show.agewords import LONG, Told, age
from soffit.show.chart import Array, Chart, ticks
from soffit.show.numbers import Units, in_unit, unit
from soffit.show.placing import Ground

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def along(axes: Axes, told: Told, box: Box, units: Units) -> None:
    """Prestress along the beam just after release or stressing, and at the end."""
    past = told.past
    one = in_unit(1.0, "stress", units)
    shown = past.tendons
    if len(shown) > MOST_GROUPS:  # the highest and the lowest stand for all
        order = sorted(shown, key=lambda t: float(np.nanmean(t.stress[-1])))
        shown = (order[-1], order[0])
    rows = []
    for i, tendon in enumerate(shown):
        lead = f"{name(tendon)}, " if len(shown) > 1 else ""
        share = (i + 1) / (len(shown) + 1)
        for step, weight in ((_step_of(tendon.stress, told.begun), EARLY), (len(past.t) - 1, LATE)):
            words = lead + age(float(past.t[step]), short=True)
            stress = one * tendon.stress[step]
            counts = np.isfinite(stress) & (tendon.hold > HELD)
            rows.append(Row(stress, counts, words, share, weight, DASHES[i % len(DASHES)]))
    _draw_along(axes, told, box, rows, look.TENDON, f"Prestress along the beam, {unit('stress', units)}", units)


def along_deflection(axes: Axes, told: Told, box: Box, units: Units) -> None:
    """Deflection along the beam when it first bends, and at the end."""
    past = told.past
    one = -in_unit(1.0, "length", units)
    rows = [
        Row(
            one * past.deflection[step],
            np.full(len(past.x), True),
            age(float(past.t[step]), short=True),
            0.5,
            weight,
            "-",
        )
        for step, weight in ((told.begun, EARLY), (len(past.t) - 1, LATE))
    ]
    title = f"Camber and sag along the beam, {unit('length', units)}"
    _draw_along(axes, told, box, rows, look.INK, title, units, ways)


@dataclass(frozen=True)
class Row:
    """A line along the beam, with its words near a share of the length."""

    values: Array
    counts: NDArray[np.bool_]
    """Stations that set the scale: where bond has not built up, a line may leave the chart."""
    words: str
    share: float
    weight: float
    dash: object


EARLY, LATE = look.THIN * 1.2, look.MEDIUM * 1.3


def _draw_along(
    axes: Axes, told: Told, box: Box, rows: Sequence[Row], color: str, title: str, units: Units,
    tick_words: Callable[[Sequence[float]], list[str]] = agechart.labels,
) -> None:  # fmt: skip
    low, high = agechart.value_range([row.values[row.counts] for row in rows], zero=color == look.INK)
    low, high = low - 0.06 * (high - low), high + 0.06 * (high - low)  # room for the words
    length = told.past.beam.length
    kind = "span" if length > LONG else "length"
    x = in_unit(1.0, kind, units) * told.past.x
    chart = Chart(*box, 0.0, float(x[-1]), low, high)
    _along_axes(axes, chart, title, f"x, {unit(kind, units)}", tick_words)
    ground = Ground((box[0] + 1, box[1], box[0] + box[2] - 1, box[1] + box[3] - 0.5))
    for row in rows:
        chart.line(axes, x, row.values, color=color, lw=row.weight, ls=row.dash, zorder=4)
        ground.keep_clear(chart.across(x[row.counts]), chart.down(row.values[row.counts]))
    for row in rows:
        at = int(np.argmin(np.where(row.counts, np.abs(x - row.share * x[-1]), np.inf)))
        wide = look.width(row.words, look.SMALL) + 0.6
        across, y = ground.place(float(chart.across(x[at])), float(chart.down(row.values[at])), wide, 3.6)
        axes.text(across, y + 0.8, row.words, ha="center", va="baseline", zorder=6, **look.style(look.SMALL, color))


def _along_axes(
    axes: Axes, chart: Chart, title: str, x_words: str, tick_words: Callable[[Sequence[float]], list[str]]
) -> None:
    bottom, plain = chart.top + chart.height, look.style(look.SMALL, look.FAINT)
    right = chart.left + chart.width
    axes.plot([chart.left, chart.left, right], [chart.top, bottom, bottom], color=look.FAINT, lw=look.THIN, zorder=2)
    values = ticks(chart.y_low, chart.y_high, max(int(chart.height / 7), 2))
    for value, text in zip(values, tick_words(values), strict=True):
        y = float(chart.down(value))
        axes.plot([chart.left, right], [y, y], color=look.FAINT, lw=0.5 * look.THIN, alpha=0.35, zorder=1)
        axes.text(chart.left - 1.0, y + 0.8, text, ha="right", va="baseline", **plain)
    values = ticks(chart.x_low, chart.x_high, 5)
    for value, text in zip(values, agechart.labels(values), strict=True):
        x = float(chart.across(value))
        axes.plot([x, x], [bottom, bottom + 0.8], color=look.FAINT, lw=look.THIN, zorder=2)
        axes.text(x, bottom + 3.4, text, ha="center", va="baseline", **plain)
    axes.text(right, bottom + 6.4, x_words, ha="right", va="baseline", **plain)
    axes.text(chart.left, chart.top - 1.6, title, va="baseline", **look.style(look.SMALL, look.INK, "semibold"))


def _step_of(stress: Array, begun: int) -> int:
    """Step just after a group acts: where it has stress and the beam has begun."""
    held = np.flatnonzero(np.isfinite(stress).any(axis=1))
    return max(int(held[0]) if len(held) else 0, begun)

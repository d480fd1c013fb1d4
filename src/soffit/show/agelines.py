"""The lines of a sheet of ageing: prestress, stresses and deflection over time, and prestress along the beam."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from soffit.show import agechart, look
from soffit.show.agechart import Frame
from soffit.show.agetable import HELD, faces, name
from soffit.show.agewords import LONG, SETTLED, Told, age, place_words, ran
from soffit.show.chart import Array, Chart, ticks
from soffit.show.numbers import Units, fixed, in_unit, unit
from soffit.show.placing import Ground

if TYPE_CHECKING:
    from matplotlib.axes import Axes

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Spot:
    """Where a chart stands on the sheet."""

    box: Box
    names: float
    """Left edge of the names of its lines, mm."""
    title: float
    """Height of its title over it, mm."""
    last: bool
    """Whether the days are written under it."""


MOST_GROUPS = 4
"""With more groups than this, only the highest, the lowest and the mean are drawn."""
DASHES = ("-", (0, (5, 2)), (0, (1.5, 1.5)), (0, (6, 2, 1.5, 2)))


def prestress(axes: Axes, told: Told, spot: Spot, units: Units) -> Frame:
    """Stress of each tendon group at the place over time."""
    past = told.past
    one = in_unit(1.0, "stress", units)
    lines = _groups(told)
    held = [one * values for _, values, _ in lines]
    bands = [tuple(one * np.asarray(side) for side in sides) for *_, sides in lines if sides]
    begun = _begun(told)
    shown = [v[begun:] for v in held] + [side[begun:] for pair in bands for side in pair]
    low, high = agechart.value_range(shown, zero=False)
    frame = Frame.of(spot.box, days(told), low, high)
    title = f"Prestress at {place_words(told, units)}, {unit('stress', units)}"
    agechart.draw_frame(axes, frame, title, last=spot.last, over=spot.title)
    ends = []
    for i, ((label, _, sides), values) in enumerate(zip(lines, held, strict=True)):
        if sides:
            pair = [one * np.asarray(side) for side in sides]
            frame.band(axes, past.t[begun:], pair[0][begun:], pair[1][begun:], look.TENDON, 1 / len(bands))
        dash = DASHES[i % len(DASHES)]
        frame.line(axes, past.t, values, color=look.TENDON, lw=look.MEDIUM * 1.3, ls=dash, zorder=4)
        ends.append((float(values[-1]), f"{label} {_short(values[-1], units)}", look.TENDON))
    if not lines:
        axes.text(spot.box[0] + 2, spot.box[1] + 6, "No tendon runs here.", **look.style(look.SMALL, look.FAINT))
    agechart.names(axes, frame, ends, spot.names)
    return frame


def _groups(told: Told) -> list[tuple[str, Array, tuple[Array, Array] | None]]:
    """Label, stress over time and band of each group; of many groups the mean, the highest and the lowest."""
    past, at, band = told.past, told.station, told.banded
    here = [t for t in past.tendons if ran(t, at)]
    if len(here) <= MOST_GROUPS:
        return [(name(t), t.stress[:, at], band.stress[t.index] if band else None) for t in here]
    area = np.array([t.tendon.area for t in here])
    every = np.array([t.stress[:, at] for t in here])
    mean = (area[:, None] * every).sum(axis=0) / area.sum()
    order = np.argsort(every[:, -1])
    low, high = here[order[0]], here[order[-1]]
    sides = None
    if band:
        weight = area / area.sum()
        pair = [sum(w * np.asarray(band.stress[t.index][k]) for w, t in zip(weight, here, strict=True)) for k in (0, 1)]
        sides = (np.asarray(pair[0]), np.asarray(pair[1]))
    return [
        ("mean", mean, sides),
        (f"{name(high)} highest", high.stress[:, at], None),
        (f"{name(low)} lowest", low.stress[:, at], None),
    ]


def stresses(axes: Axes, told: Told, spot: Spot, units: Units) -> Frame:
    """Stress of the concrete at soffit and top over time; blue where it is pressed, orange where it is pulled."""
    past, band = told.past, told.banded
    one = in_unit(1.0, "stress", units)
    found = {key: one * values for key, values in faces(told).items()}
    tensile = one * past.tensile
    apart = told.section != told.station
    sides = {"soffit": band.bottom, "top": band.top} if band and not apart else {}
    begun = _begun(told)
    shown = [values[begun:] for values in found.values()]
    shown += [one * np.asarray(side)[begun:] for pair in sides.values() for side in pair]
    low, high = agechart.value_range(shown)
    # the tensile strength is shown where it does not squeeze the rest
    drawn_strength = float(tensile[-1]) < max(2.0 * high, 0.8 * (high - low))
    if drawn_strength:
        low, high = agechart.value_range([*shown, tensile[begun:]])
    frame = Frame.of(spot.box, days(told), low, high)
    where = f"at {place_words(told, units, float(past.x[told.section]))}"
    title = f"Stress of the concrete {where}, {unit('stress', units)}, tension positive"
    if float(past.cracked[:, told.section].max()) > SETTLED:
        title += ", as if it had not cracked"
    agechart.draw_frame(axes, frame, title, last=spot.last, over=spot.title)
    agechart.zero_line(axes, frame)
    ends = []
    strength = f"tensile strength {fixed(float(tensile[-1]), 2 if units == 'US' else 1)}"
    if drawn_strength:
        frame.line(axes, past.t, tensile, color=look.TENSION, lw=look.THIN, ls=(0, (4, 2)), zorder=3)
        ends.append((float(tensile[-1]), strength, look.TENSION))
    else:
        box = spot.box
        axes.text(
            box[0] + box[2], box[1] - 0.8, f"{strength}, above", ha="right", **look.style(look.SMALL, look.TENSION)
        )
    for i, (key, values) in enumerate(found.items()):
        if key in sides:
            for mask, color in ((-1, look.COMPRESSION), (1, look.TENSION)):
                pair = [one * np.asarray(side) for side in sides[key]]
                half = [np.minimum(p, 0.0) if mask < 0 else np.maximum(p, 0.0) for p in pair]
                frame.band(axes, past.t[begun:], half[0][begun:], half[1][begun:], color)
        _signed(axes, frame, past.t, values, DASHES[i % len(DASHES)])
        color = look.TENSION if values[-1] > 0 else look.COMPRESSION
        places = 2 if units == "US" else 1
        ends.append((float(values[-1]), f"{key} {fixed(float(values[-1]), places)}", color))
    agechart.names(axes, frame, ends, spot.names)
    return frame


def _signed(axes: Axes, frame: Frame, t: Array, values: Array, dash: object) -> None:
    """One line, in the colour of compression below zero and of tension above it."""
    logs, v = frame.logs(t), np.asarray(values, dtype=float)
    cross = np.flatnonzero(v[:-1] * v[1:] < 0)
    share = v[cross] / (v[cross] - v[cross + 1])
    x = np.insert(logs, cross + 1, logs[cross] + share * (logs[cross + 1] - logs[cross]))
    y = np.insert(v, cross + 1, 0.0)
    for color, inside in ((look.COMPRESSION, y <= 0), (look.TENSION, y >= 0)):
        frame.chart.line(axes, x, np.where(inside, y, np.nan), color=color, lw=look.MEDIUM * 1.3, ls=dash, zorder=4)


def deflection(axes: Axes, told: Told, spot: Spot, units: Units) -> Frame:
    """Camber (up) and sag (down) at the place over time."""
    past, band = told.past, told.banded
    one = in_unit(1.0, "length", units)
    up = -one * past.deflection[:, told.station]
    begun = _begun(told)
    sides = [-one * np.asarray(side) for side in band.deflection] if band else []
    points = [] if told.measured is None else [-one * told.measured.deflection]
    low, high = agechart.value_range([up, *(side[begun:] for side in sides), *points])
    frame = Frame.of(spot.box, days(told), low, high)
    title = f"Camber and sag at {place_words(told, units)}, {unit('length', units)}"
    agechart.draw_frame(axes, frame, title, words=_ways, last=spot.last, over=spot.title)
    agechart.zero_line(axes, frame)
    if sides:
        frame.band(axes, past.t[begun:], np.minimum(*sides)[begun:], np.maximum(*sides)[begun:], look.INK)
    frame.line(axes, past.t, up, color=look.INK, lw=look.HEAVY, zorder=4, solid_joinstyle="miter")
    last_values = [float(v[-1]) for v in (up, *sides)]
    places = 3 if units == "US" else 1 if max(map(abs, last_values)) >= 1.95 else 2
    colors = (look.INK, look.FAINT, look.FAINT)
    ends = [(v, _way(v, places), color) for v, color in zip(last_values, colors, strict=False)]
    agechart.names(axes, frame, ends, spot.names)
    if told.measured is not None:
        _points(axes, frame, told.measured.age, points[0])
    return frame


def _points(axes: Axes, frame: Frame, days: Array, values: Array) -> None:
    """What was measured, with its word at the last point."""
    x, y = frame.across(days), frame.chart.down(values)
    axes.plot(x, y, "o", ms=4.6, mfc=look.MEASURED, mec=look.PAPER, mew=0.5, zorder=6)
    at = int(np.argmax(x))
    word = look.style(look.SMALL, look.MEASURED)
    axes.text(float(x[at]), float(y[at]) + 4.0, "measured", ha="right", va="baseline", zorder=6, **word)


def _ways(values: Sequence[float]) -> list[str]:
    return [
        "0" if abs(v) < 1e-9 else text.lstrip("\N{MINUS SIGN}") + (" up" if v > 0 else " down")
        for v, text in zip(values, agechart.labels(values), strict=True)
    ]


def _way(up: float, places: int) -> str:
    return f"{fixed(abs(up), places)} {'up' if up > 0 else 'down'}"


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
        for step, weight in ((_first(tendon.stress, _begun(told)), EARLY), (len(past.t) - 1, LATE)):
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
        for step, weight in ((_begun(told), EARLY), (len(past.t) - 1, LATE))
    ]
    title = f"Camber and sag along the beam, {unit('length', units)}"
    _draw_along(axes, told, box, rows, look.INK, title, units, _ways)


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


def _first(stress: Array, begun: int) -> int:
    """Step just after a group acts: where it has stress and the beam has begun."""
    held = np.flatnonzero(np.isfinite(stress).any(axis=1))
    return max(int(held[0]) if len(held) else 0, begun)


def _begun(told: Told) -> int:
    """Step from which the beam bends."""
    first = told.first
    return first.step if first else 0


def days(told: Told) -> tuple[float, float]:
    return agechart.day_range(told.past.t, float(told.past.t[_begun(told)]))


def _short(value: float, units: Units) -> str:
    return fixed(float(value), 1 if units == "US" else 0)


__all__ = ["along", "along_deflection", "deflection", "prestress", "stresses"]

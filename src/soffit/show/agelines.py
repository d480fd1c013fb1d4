"""The lines of a sheet of ageing: prestress, stresses and deflection over time, and prestress along the beam."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from soffit.show import agechart, look
from soffit.show.agechart import Frame
from soffit.show.agetable import faces, name
from soffit.show.agewords import SETTLED, Told, place_words, ran
from soffit.show.chart import Array
from soffit.show.numbers import Units, fixed, in_unit, unit

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
    begun = told.begun
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
    begun = told.begun
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
    past, band = told.past, told.bent_band
    one = in_unit(1.0, "length", units)
    up = -one * past.deflection[:, told.bent]
    begun = told.begun
    sides = [-one * np.asarray(side) for side in band.deflection] if band else []
    points = [] if told.measured is None else [-one * told.measured.deflection]
    low, high = agechart.value_range([up, *(side[begun:] for side in sides), *points])
    frame = Frame.of(spot.box, days(told), low, high)
    title = f"Camber and sag at {place_words(told, units, float(past.x[told.bent]))}, {unit('length', units)}"
    agechart.draw_frame(axes, frame, title, words=ways, last=spot.last, over=spot.title)
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


def ways(values: Sequence[float]) -> list[str]:
    return [
        "0" if abs(v) < 1e-9 else text.lstrip("\N{MINUS SIGN}") + (" up" if v > 0 else " down")
        for v, text in zip(values, agechart.labels(values), strict=True)
    ]


def _way(up: float, places: int) -> str:
    return f"{fixed(abs(up), places)} {'up' if up > 0 else 'down'}"


def days(told: Told) -> tuple[float, float]:
    return agechart.day_range(told.past.t, float(told.past.t[told.begun]))


def _short(value: float, units: Units) -> str:
    return fixed(float(value), 1 if units == "US" else 0)

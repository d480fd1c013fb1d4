"""The temperature that a log recorded and the strength that it stands for, over one axis of time."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from soffit.show import look
from soffit.show.chart import Array, Chart, draw_axes
from soffit.show.numbers import Units, in_unit, quantity, unit
from soffit.show.paper import Paper, leading, save
from soffit.show.release import GAP
from soffit.show.releasewords import closing, hours, verdict, warmth

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from soffit.show.release import Facts

WIDTH, MARGIN = 210.0, 12.0
"""mm; as wide as A5 across, and as high as what is said takes."""
LEFT, RIGHT = 22.0, 34.0
"""mm of the sheet beside the charts, for figures and for names."""
HEAD, UPPER, BETWEEN, LOWER, FOOT = 17.0, 34.0, 12.0, 50.0, 15.0
"""Heights of title, charts, the space between them and the words below, mm."""
LABELLED = 3
"""Gaps that are named in the chart at most."""


def draw(facts: Facts, stem: Path, formats: Sequence[str], units: Units) -> list[Path]:
    """Write the picture as ``stem``.svg, … and return the paths."""
    room = WIDTH - 2 * MARGIN
    lines = look.wrap(verdict(facts, units), room, look.TEXT)
    top = MARGIN + HEAD + len(lines) * leading(look.TEXT)
    foot = top + UPPER + BETWEEN + LOWER + FOOT
    paper = Paper(WIDTH, foot + MARGIN)
    paper.text(
        MARGIN, MARGIN + 4, look.clip(facts.beam.name, room, look.TITLE, "semibold"), look.TITLE, fontweight="semibold"
    )
    paper.lines(MARGIN, MARGIN + 10.5, lines, look.TEXT)
    at = 24.0 * facts.log.log.times
    x_range = (0.0, float(at[-1]))
    wide = WIDTH - LEFT - RIGHT
    temperatures = np.array([warmth(float(t), units) for t in facts.log.log.temperatures])
    strengths = np.array([in_unit(float(s), "stress", units) for s in facts.strengths])
    wanted = in_unit(facts.wanted, "stress", units)
    low = min(float(temperatures.min()), warmth(0.0, units))
    span = max(float(temperatures.max()) - low, 1.0)
    warm = Chart(LEFT, top, wide, UPPER, *x_range, low, low + 1.15 * span)
    strong = Chart(LEFT, top + UPPER + BETWEEN, wide, LOWER, *x_range, 0.0, 1.15 * max(float(strengths.max()), wanted))
    _temperature(paper.sheet, warm, at, temperatures, "°F" if units == "US" else "°C")
    _strength(paper.sheet, strong, at, strengths, wanted, facts, units)
    if facts.answer.time is not None:
        _moment(paper.sheet, warm, strong, facts, units)
    whose = "cylinders of the mix" if facts.law.own else "a standard's strength over age, not that of this mix"
    text = f"Points: recorded. Line: computed, {whose}; {facts.law.function.name}."
    paper.text(MARGIN, foot, text, look.SMALL, color=look.FAINT)
    return save(paper.figure, stem, formats, f"{facts.beam.name}: release", closing(facts, units))


def pieces(at: Array) -> list[tuple[slice, bool]]:
    """Runs of readings between the gaps, and the gaps, each with the readings at its ends. ``at`` in hours."""
    gaps = [int(k) for k in np.flatnonzero(np.diff(at) >= GAP)]
    runs = zip([0, *(k + 1 for k in gaps)], [*gaps, len(at) - 1], strict=True)
    whole = [(slice(a, b + 1), False) for a, b in runs if b > a]
    return [*whole, *((slice(k, k + 2), True) for k in gaps)]


def _temperature(axes: Axes, chart: Chart, at: Array, values: Array, sign: str) -> None:
    draw_axes(axes, chart, "", f"temperature of the concrete, {sign}")
    for run, gap in pieces(at):
        style = {"lw": look.THIN, "ls": (0, (2, 2)) if gap else "solid", "color": look.MEASURED}
        chart.line(axes, at[run], values[run], zorder=3, **style)
    for run in [run for run, gap in pieces(at) if gap][:LABELLED]:
        x, y = float(chart.across(at[run].mean())), float(chart.down(values[run].mean()))
        axes.text(x, y + 4.2, "no reading", ha="center", va="baseline", **look.style(look.SMALL, look.FAINT))
    axes.plot(chart.across(at), chart.down(values), ls="", marker="o", ms=2.6, mfc=look.MEASURED, mec="none", zorder=4)
    y = float(chart.down(values[-1]))
    axes.text(
        chart.left + chart.width + 2.0, y + 0.8, "recorded", va="baseline", **look.style(look.SMALL, look.MEASURED)
    )


def _strength(axes: Axes, chart: Chart, at: Array, values: Array, wanted: float, facts: Facts, units: Units) -> None:
    draw_axes(axes, chart, "hours after casting", f"strength by its maturity, {unit('stress', units)}")
    if facts.law.own:
        values = np.where(values > 0.0, values, np.nan)  # nothing is claimed below the first cylinder
    for run, gap in pieces(at):
        dashes = {"ls": (0, (2, 1)), "dash_capstyle": "butt"} if gap else {"ls": "solid"}
        chart.line(axes, at[run], values[run], color=look.INK, lw=look.HEAVY, zorder=4, **dashes)
    level = float(chart.down(wanted))
    right = chart.left + chart.width
    axes.plot([chart.left, right], [level, level], color=look.FOCUS, lw=look.MEDIUM, ls=(0, (4, 2)), zorder=3)
    end = float(chart.down(values[-1]))
    now = quantity(facts.answer.strength, "stress", units)
    names = [
        (level, f"wanted {quantity(facts.wanted, 'stress', units)}", look.FOCUS),
        (end, f"computed {now}" if facts.answer.strength > 0.0 else "none claimed yet", look.INK),
    ]
    names.sort()
    if names[1][0] - names[0][0] < 3.2:  # moved apart where they would touch
        middle = (names[0][0] + names[1][0]) / 2
        names = [(middle - 1.6, *names[0][1:]), (middle + 1.6, *names[1][1:])]
    for y, words, color in names:
        axes.text(right + 2.0, y + 0.8, words, va="baseline", **look.style(look.SMALL, color))


def _moment(axes: Axes, warm: Chart, strong: Chart, facts: Facts, units: Units) -> None:
    """The instant at which the wanted strength is reached, through both charts."""
    assert facts.answer.time is not None
    x = float(strong.across(24.0 * facts.answer.time))
    bottom = strong.top + strong.height
    for chart in (warm, strong):
        axes.plot([x, x], [chart.top, chart.top + chart.height], color=look.FOCUS, lw=look.THIN, zorder=2.5)
    y = float(strong.down(in_unit(facts.wanted, "stress", units)))
    axes.plot([x], [y], marker="o", ms=5.0, mfc=look.PAPER, mec=look.FOCUS, mew=1.1, zorder=6)
    clock = facts.log.clock(facts.answer.time)
    words = [f"reached at {hours(facts.answer.time)}", *([clock] if clock else [])]
    left = x - strong.left > strong.width / 2
    for n, line in enumerate(words):
        axes.text(
            x + (-1.5 if left else 1.5), bottom - 3.0 - leading(look.TEXT) * (len(words) - 1 - n), line,
            ha="right" if left else "left", va="baseline", zorder=6, **look.style(look.TEXT, look.FOCUS, "semibold"),
        )  # fmt: skip

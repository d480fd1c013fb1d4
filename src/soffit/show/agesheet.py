"""One sheet of a beam's ageing: the beam to scale, and prestress, stresses and camber over the logarithm of time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from soffit.show import agealong, agechart, agelines, agelosses, look, marks
from soffit.show.agelimits import short
from soffit.show.agetable import bends
from soffit.show.agewords import SCATTERS, SETTLED, Told, age, bend, closing, place_words, sentences
from soffit.show.elevation import draw_body
from soffit.show.loads import SUPPORT, draw_dimensions, draw_supports
from soffit.show.numbers import Units, sig, times
from soffit.show.paper import Paper, leading, save
from soffit.show.view import View, drawing_scale, points_along, round_times

if TYPE_CHECKING:
    from soffit.member.beam import Beam

WIDTH = 297.0
LEAST_HEIGHT = 210.0
MARGIN = 12.0
ROOM = WIDTH - 2 * MARGIN
TALLEST_BEAM = 34.0
"""Height of the drawn concrete at most, mm."""
CHARTS_LEFT = MARGIN + 12.0
CHARTS_WIDTH = 146.0
NAMES_LEFT = CHARTS_LEFT + CHARTS_WIDTH + 3.0
RIGHT = 207.0
"""Left edge of the column with the prestress along the beam and the list of stages."""
TALL = 36.0
"""Height of a chart, mm."""
BETWEEN = 9.5
"""From the foot of one chart to the head of the next, mm."""
PITCH = 4.4
HEADROOM = 6.0
"""Over the first chart, for the numbers of the stages between it and its title, mm."""


def age_sheet(
    told: Told, path_stem: Path, formats: Sequence[str] = ("svg", "png"), units: Units | None = None
) -> list[Path]:
    """Draw one sheet and write it as ``path_stem``.svg, … (svg, png or pdf). Returns the paths.

    Raises :class:`soffit.errors.SoffitError` for a place that cannot be written; nothing is left half written.
    """
    units = units or told.past.beam.units
    words = _Words.of(told, units)
    bands = _Bands.of(told, words)
    paper = Paper(WIDTH, bands.height)
    _head(paper, words)
    _elevation(paper, told, bands, units)
    paper.rule(MARGIN, bands.charts - HEADROOM - 4.5, ROOM)
    frames = _charts(paper, told, bands, units)
    steps = [i.step for i in told.past.instants]
    days = [float(told.past.t[s]) for s in steps]
    agechart.stage_lines(paper.sheet, frames, days, bands.charts - marks.RADIUS - 0.9, CHARTS_LEFT + CHARTS_WIDTH)
    _right(paper, told, bands, units)
    paper.rule(MARGIN, bands.foot - 1.5, ROOM)
    paper.lines(MARGIN, bands.foot + 1.8, words.foot, look.FINE, color=look.FAINT)
    return save(paper.figure, Path(path_stem), formats, told.past.beam.name, closing(told, units))


@dataclass(frozen=True)
class _Words:
    title: list[str]
    about: list[str]
    lead: list[str]
    foot: list[str]

    @classmethod
    def of(cls, told: Told, units: Units) -> _Words:
        past = told.past
        foot = [*past.notes, *past.cautions]
        if told.banded:
            foot = [f"Bands: 5 % to 95 %. {SCATTERS} {'; '.join(told.banded.sources)}", *foot]
        return cls(
            look.wrap(past.beam.name, ROOM, look.TITLE, "semibold"),
            look.wrap(past.beam.about, ROOM, look.TEXT) if past.beam.about else [],
            look.wrap(" ".join(filter(None, [*sentences(told, units), short(told)])), ROOM, look.LEAD),
            look.wrap(" · ".join(text.rstrip(".") for text in foot), ROOM, look.FINE) if foot else [],
        )

    @property
    def head(self) -> float:
        return (
            6.0 + (len(self.title) - 1) * leading(look.TITLE) + len(self.about) * leading(look.TEXT) + 1.2
            + len(self.lead) * leading(look.LEAD) + 1.0
        )  # fmt: skip


@dataclass(frozen=True)
class _Bands:
    """Where the parts of the sheet lie, mm from the top."""

    elevation: float
    roof: float
    """From the top of the elevation band to the soffit of the straight beam."""
    view: View
    charts: float
    chart_height: float
    foot: float
    height: float

    @classmethod
    def of(cls, told: Told, words: _Words) -> _Bands:
        beam, past = told.past.beam, told.past
        tall = total_depth(beam)
        ends = 12.0 + (8.0 if any(t.when == "after curing" for t in beam.tendons) else 0.0)
        scale = drawing_scale(max(beam.length / (ROOM - ends), tall / TALLEST_BEAM))
        sag = past.deflection[-1]
        most = float(np.abs(past.deflection).max(initial=0.0)) / scale
        sag_times = round_times(max(tall / scale / 3, 5.0) / most) if most > 0 else 1.0
        view = View(scale, (WIDTH - beam.length / scale) / 2, 0.0, sag_times, 1.0, past.x, sag)
        top = MARGIN + words.head + 5.0
        walls = 3.0 if beam.supports.fixed_left or beam.supports.fixed_right else 0.0
        roof = 3.5 + walls + tall / scale + view.highest_rise
        under = max(view.lowest, SUPPORT) + 8.2
        charts = top + roof + under + HEADROOM + 6.5
        count = 3 if past.tendons else 2
        height = TALL if past.tendons else 58.0
        listed = TALL + BETWEEN + 12.0 + PITCH * len(past.instants)
        lower = max(count * height + (count - 1) * BETWEEN, listed) + 7.0
        foot_height = len(words.foot) * leading(look.FINE) + 3.0
        total = max(LEAST_HEIGHT, charts + lower + foot_height + MARGIN)
        spare = total - MARGIN - foot_height - charts - lower
        height += spare / count
        return cls(top, roof, replace(view, soffit=top + roof), charts, height, total - MARGIN - foot_height, total)


def total_depth(beam: Beam) -> float:
    """Of the beam with its topping, mm."""
    topping = beam.making.topping if beam.making else None
    return max(beam.outline.depth, topping.base + topping.outline.depth) if topping else beam.outline.depth


def _head(paper: Paper, words: _Words) -> None:
    y = MARGIN + 4.0
    y = paper.lines(MARGIN, y, words.title, look.TITLE, weight="semibold")
    y = paper.lines(
        MARGIN, y - leading(look.TITLE) + leading(look.TEXT) + 0.6, words.about, look.TEXT, color=look.FAINT
    )
    paper.lines(MARGIN, y + 1.2, words.lead, look.LEAD)


def _elevation(paper: Paper, told: Told, bands: _Bands, units: Units) -> None:
    past, view, axes = told.past, bands.view, paper.sheet
    beam = replace(past.beam, press=None)
    _topping(paper, view, beam)
    draw_body(axes, view, beam)
    draw_supports(axes, view, beam)
    _shown_place(paper, told, bands)
    draw_dimensions(axes, view, beam, max(view.lowest, view.straight(0) + SUPPORT) + 5.2, units)
    state = f"At {age(float(past.t[-1]))}: {bend(float(past.deflection[-1, told.bent]), units)} at "
    state += place_words(told, units, float(past.x[told.bent]))
    paper.text(MARGIN, bands.elevation + 0.5, state, look.TEXT, weight="semibold")
    scale = sig(view.scale, 4)
    notes = [f"scale 1 : {scale.rstrip('0').rstrip('.') if '.' in scale else scale} on A4"]
    notes.append(f"deflection {times(view.sag_times)}" if view.sag_times > 1 else "deflection to scale")
    if float(past.cracked[-1].max(initial=0.0)) > SETTLED:
        notes.append("cracks not drawn")
    paper.text(WIDTH - MARGIN, bands.elevation + 0.5, " · ".join(notes), look.SMALL, color=look.FAINT, ha="right")


def _topping(paper: Paper, view: View, beam: Beam) -> None:
    topping = beam.making.topping if beam.making else None
    if topping is None:
        return
    axes, x = paper.sheet, points_along(beam, 0, beam.length)
    low, high = view.down(x, topping.base), view.down(x, topping.base + topping.outline.depth)
    axes.fill_between(view.across(x), low, high, fc=look.CONCRETE, ec=look.HATCH, hatch="////", lw=0, zorder=1)
    axes.plot(view.across(x), high, color=look.INK, lw=look.MEDIUM, zorder=5)
    for end in (0.0, beam.length):
        face = view.down(end, np.array([topping.base, topping.base + topping.outline.depth]))
        axes.plot([float(view.across(end))] * 2, face, color=look.INK, lw=look.MEDIUM, zorder=5)


def _shown_place(paper: Paper, told: Told, bands: _Bands) -> None:
    """A small mark over the beam where stresses and deflection are told."""
    view = bands.view
    x = float(view.across(told.x))
    top = float(view.down(told.x, total_depth(told.past.beam)))
    marks.arrow(paper.sheet, x, top - 3.2, top - 0.3, color=look.FOCUS, lw=look.THIN, head=1.8)


def _charts(paper: Paper, told: Told, bands: _Bands, units: Units) -> list[agechart.Frame]:
    drawers = [agelines.stresses, agelines.deflection]
    if told.past.tendons:
        drawers.insert(0, agelines.prestress)
    frames = []
    top = bands.charts
    for i, draw in enumerate(drawers):
        box = (CHARTS_LEFT, top, CHARTS_WIDTH, bands.chart_height)
        place = agelines.Spot(box, NAMES_LEFT, HEADROOM if i == 0 else 1.6, i == len(drawers) - 1)
        frames.append(draw(paper.sheet, told, place, units))
        top += bands.chart_height + BETWEEN
    return frames


def _right(paper: Paper, told: Told, bands: _Bands, units: Units) -> None:
    """The place by date picture, and under it the stages."""
    width, tendons = WIDTH - MARGIN - RIGHT, bool(told.past.tendons)
    draw, left = (agealong.along, 9.0) if tendons else (agealong.along_deflection, 13.0)
    tall = min(bands.chart_height, TALL + 8.0)
    draw(paper.sheet, told, (RIGHT + left, bands.charts, width - left, tall), units)
    top = bands.charts + tall + BETWEEN + 4.0
    _list(paper, told, RIGHT, top, width, units)
    top += PITCH * len(told.past.instants) + 9.0
    if agelosses.shares(told) and bands.foot - 4.0 - top > agelosses.height(told):
        agelosses.draw(paper, told, RIGHT, top, width, units)


def _list(paper: Paper, told: Told, left: float, top: float, width: float, units: Units) -> None:
    """The stages with their numbers, ages, and the deflection after each."""
    past, right = told.past, left + width
    value = bends([float(past.deflection[i.step, told.bent]) for i in past.instants], units)
    paper.text(left, top, "Stages", look.SMALL, weight="semibold")
    paper.text(right, top, f"bends, {'in' if units == 'US' else 'mm'}", look.FINE, color=look.FAINT, ha="right")
    for n, (instant, text) in enumerate(zip(past.instants, value, strict=True), start=1):
        y = top + PITCH * n
        marks.number(paper.sheet, left + marks.RADIUS, y - 0.8, n)
        days = age(float(past.t[instant.step]), short=True)
        paper.text(left + 15.0, y, days, look.SMALL, color=look.FAINT, ha="right")
        room = width - 17.0 - look.width(text.strip(), look.SMALL) - 2.0
        paper.text(left + 17.0, y, look.clip(instant.label, room, look.SMALL), look.SMALL)
        paper.text(right, y, text.strip(), look.SMALL, ha="right")

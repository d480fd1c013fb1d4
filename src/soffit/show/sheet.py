"""One sheet a beam: the beam at a chosen moment of its life, its critical section, and its load–deflection
curve.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from soffit.errors import SoffitError
from soffit.member.result import Event, Life
from soffit.show import eventlist, loads, look, marks
from soffit.show.cracks import Pattern
from soffit.show.curves import draw_curve
from soffit.show.depth_view import chosen, draw_state, tension_kinds
from soffit.show.elevation import draw_beam
from soffit.show.failing import draw_failure
from soffit.show.failing import words as failing_words
from soffit.show.numbers import Units, given, quantity, sig, times
from soffit.show.paper import Paper, leading, save
from soffit.show.section_view import draw_section, draw_sizes, draw_words, half_width
from soffit.show.view import View, drawing_scale, view_of

WIDTH = 297.0
LEAST_HEIGHT = 210.0
"""A4; a sheet with more to say grows downward."""
MARGIN = 12.0
ROOM = WIDTH - 2 * MARGIN
TALLEST_BEAM = 58.0
"""Height of the drawn concrete at most, mm."""


@dataclass(frozen=True)
class Moment:
    """The moment of the life that a sheet shows."""

    step: int
    event: int | None
    """Index into ``life.events``; none: between events."""
    words: str
    load: float
    deflection: float
    crack_width: float | None

    @classmethod
    def of_event(cls, event: Event, index: int | None) -> Moment:
        """The event's own numbers; the drawing is that of the step at or just after it."""
        return cls(event.step, index, event.event, event.load, event.deflection, event.crack_width)


def moment_of(life: Life, at: str | int) -> Moment:
    """``at`` is an event's name (the first of that name) or a step of the curve; negative steps count from
    the end.

    Raises :class:`SoffitError` for a name that does not happen in this life, or a step that it does not
    have.
    """
    curve, steps = life.curve, len(life.curve.load)
    if isinstance(at, int):
        step = at + steps if at < 0 else at
        if not 0 <= step < steps:
            raise SoffitError(f"{life.name}: there is no step {at}; this life has steps 0 to {steps - 1}.")
        event = next((i for i, e in enumerate(life.events) if e.step == step), None)
        here = (float(values[step]) for values in (curve.load, curve.deflection, curve.crack_width))
        return Moment(step, event, f"step {step}", *here)
    event = next((i for i, e in enumerate(life.events) if e.event == at), None)
    if event is not None:
        return Moment.of_event(life.events[event], event)
    if at == "peak":
        return Moment.of_event(life.peak, None)
    happens = ", ".join(dict.fromkeys(e.event for e in life.events))
    raise SoffitError(f"{life.name}: {at!r} does not happen in this life; what happens: {happens}.")


def life_sheet(
    life: Life,
    path_stem: Path,
    formats: Sequence[str] = ("svg", "png"),
    at: str | int = "peak",
    units: Units | None = None,
) -> list[Path]:
    """Draw one sheet and write it as ``path_stem``.svg, … Returns the paths.

    ``at`` chooses the moment that the elevation shows: an event's name or a step of the curve. ``units``
    is "SI" or "US"; none: as the beam file was written. Raises :class:`SoffitError` for a moment that is
    not in the life and for a place that cannot be written; nothing is left half written.
    """
    moment = moment_of(life, at)
    units = units or life.beam.units
    words = _Words.of(life)
    bands = _Bands.of(life, moment, words)
    paper = Paper(WIDTH, bands.height)
    _head(paper, words)
    _elevation(paper, life, moment, bands, units)
    _lower(paper, life, moment, bands, units)
    _foot(paper, words, bands)
    return save(paper.figure, Path(path_stem), formats, life.name, life.failure.sentence)


@dataclass(frozen=True)
class _Words:
    """The running text of a sheet, broken into lines."""

    title: list[str]
    about: list[str]
    failure: list[str]
    warning: list[str]
    cautions: list[str]
    brittle: bool

    @classmethod
    def of(cls, life: Life) -> _Words:
        return cls(
            title=look.wrap(life.name, ROOM, look.TITLE, "semibold"),
            about=look.wrap(life.beam.about, ROOM, look.TEXT) if life.beam.about else [],
            failure=look.wrap(life.failure.sentence, ROOM, look.LEAD),
            warning=look.wrap(warning_sentence(life), ROOM, look.LEAD, "semibold"),
            cautions=look.wrap(" · ".join(c.rstrip(".") for c in life.cautions), ROOM, look.FINE)
            if life.cautions
            else [],
            brittle=life.failure.brittle,
        )

    @property
    def head(self) -> float:
        lead = leading(look.LEAD)
        return (
            6.0 + (len(self.title) - 1) * leading(look.TITLE) + len(self.about) * leading(look.TEXT) + 1.2
            + (len(self.failure) + len(self.warning)) * lead + 1.0
        )  # fmt: skip


def warning_sentence(life: Life) -> str:
    """The warning in one line: its word, and the ratio it rests on where there is one."""
    kind = "Brittle" if life.failure.brittle else "Ductile"
    ratio = life.warning.deflection_ratio
    rest = ""
    if 0 < ratio < 1e4:
        before = any(e.event == "first crack" and e.step == 0 for e in life.events)
        base = "under the permanent load alone, where it is cracked already" if before else "at first crack"
        rest = f": at the peak it sags {sig(ratio, 2)} times as far as {base}"
    return f"{kind}. Warning: {life.warning.word}{rest}."


@dataclass(frozen=True)
class _Bands:
    """Where the parts of the sheet lie, mm from the top."""

    elevation: float
    roof: float
    """Height from the top of the elevation band to the soffit of the straight beam."""
    scale: float
    lower: float
    lower_height: float
    foot: float
    height: float

    @classmethod
    def of(cls, life: Life, moment: Moment, words: _Words) -> _Bands:
        beam = life.beam
        ends = 12.0 + (8.0 if any(t.when == "after curing" for t in beam.tendons) else 0.0)
        scale = drawing_scale(max(beam.length / (ROOM - ends), beam.outline.depth / TALLEST_BEAM))
        view = view_of(life, moment.step, 0.0, 0.0, scale)
        roof = loads.height_above(beam) + view.highest_rise + 3.0 + beam.outline.depth / scale
        under = max(view.lowest, loads.SUPPORT) + 3 + 2 * marks.RADIUS + 5 + loads.chain_height(beam) + 2
        top = MARGIN + words.head + 5.0
        lower = top + 3.0 + roof + under + 2.0
        list_height = eventlist.height(life.events) + 3.0
        foot = len(words.cautions) * leading(look.FINE) + 3.0
        height = max(LEAST_HEIGHT, lower + max(62.0, list_height) + foot + MARGIN)
        lower_height = height - MARGIN - foot - lower - 2.0
        most = max(82.0, list_height)
        if lower_height > most:  # a slender beam leaves room: give it to the elevation
            spare = lower_height - most
            top, lower, lower_height = top + 0.4 * spare, lower + spare, most
        return cls(top, roof, scale, lower, lower_height, height - MARGIN - foot, height)


def _head(paper: Paper, words: _Words) -> None:
    y = MARGIN + 4.0
    y = (
        paper.lines(MARGIN, y, words.title, look.TITLE, weight="semibold")
        - leading(look.TITLE)
        + leading(look.TEXT)
        + 0.6
    )
    y = paper.lines(MARGIN, y, words.about, look.TEXT, color=look.FAINT) + 1.2
    y = paper.lines(MARGIN, y, words.failure, look.LEAD)
    paper.lines(
        MARGIN,
        y,
        words.warning,
        look.LEAD,
        weight="semibold",
        color=look.FAILS if words.brittle else look.INK,
    )


def _elevation(paper: Paper, life: Life, moment: Moment, bands: _Bands, units: Units) -> None:
    beam, axes = life.beam, paper.sheet
    left = (WIDTH - beam.length / bands.scale) / 2
    view = view_of(life, moment.step, left, bands.elevation + 3.0 + bands.roof, bands.scale)
    pattern = draw_beam(axes, view, life, moment.step)
    if moment.step >= life.peak.step:
        draw_failure(axes, view, life)
    loads.draw_supports(axes, view, beam)
    loads.draw_loads(axes, view, life, moment.load, units)
    floor = max(view.lowest, view.straight(0) + loads.SUPPORT) + 1.6
    _places(paper, view, life, moment, floor)
    loads.draw_dimensions(axes, view, beam, floor + 2 * marks.RADIUS + 9.0, units)
    state = f"At {moment.words}: load {quantity(moment.load, 'force', units)}, "
    state += f"deflection {quantity(moment.deflection, 'length', units)}"
    if moment.crack_width:
        state += f", widest crack {quantity(moment.crack_width, 'crack width', units)}"
    paper.text(MARGIN, bands.elevation + 1.5, state, look.TEXT, weight="semibold")
    notes = _drawing_notes(view, pattern)
    paper.text(WIDTH - MARGIN, bands.elevation + 1.5, notes, look.SMALL, color=look.FAINT, ha="right")


def _drawing_notes(view: View, pattern: Pattern) -> str:
    """What a reader must know to measure in the drawing."""
    scale = sig(view.scale, 4)
    notes = [f"scale 1 : {scale.rstrip('0').rstrip('.') if '.' in scale else scale} on A4"]
    notes.append(f"deflection {times(view.sag_times)}" if view.sag_times > 1 else "deflection to scale")
    if pattern.cracks:
        notes.append(f"crack width {times(view.crack_times)}" if view.crack_times > 1 else "crack width to scale")
        notes.append(pattern.note)
    return " · ".join(notes)


def _places(paper: Paper, view: View, life: Life, moment: Moment, y: float) -> None:
    """The numbers of the events in a row under the places where they happen, and the failure with its
    word.
    """
    axes = paper.sheet
    pitch = 2 * marks.RADIUS + 0.5
    rows: list[tuple[float, list[int]]] = []
    for i in sorted(range(len(life.events)), key=lambda i: (life.events[i].x, i)):
        at = float(view.across(life.events[i].x))
        if rows and at - rows[-1][0] < pitch * (len(rows[-1][1]) + 1) / 2:  # their circles would touch
            rows[-1][1].append(i)
        else:
            rows.append((at, [i]))
    limit = MARGIN
    for at, events in rows:
        start = max(at - pitch * (len(events) - 1) / 2, limit + marks.RADIUS)
        start = min(start, WIDTH - MARGIN - pitch * (len(events) - 1) - marks.RADIUS)
        for k, i in enumerate(sorted(events)):
            time = marks.when(life.events[i].step, moment.step, i == moment.event)
            marks.number(axes, start + k * pitch, y + marks.RADIUS, i + 1, time)
        limit = start + pitch * (len(events) - 1) + marks.RADIUS + 0.4
    if moment.step >= life.peak.step:
        _failure(paper, view, life, y + 2 * marks.RADIUS + 3.6)


def _failure(paper: Paper, view: View, life: Life, y: float) -> None:
    words = failing_words(life)
    half = look.width(words, look.TEXT, "semibold") / 2
    at = float(view.across(life.failure.x))
    middle = min(max(at, MARGIN + half), WIDTH - MARGIN - half)
    paper.text(middle, y, words, look.TEXT, color=look.FAILS, weight="semibold", ha="center")


def _lower(paper: Paper, life: Life, moment: Moment, bands: _Bands, units: Units) -> None:
    """Section with strain and stress on the left, curve in the middle, events on the right."""
    axes, beam = paper.sheet, life.beam
    paper.rule(MARGIN, bands.lower - 2.0, ROOM)
    top, height = bands.lower + 4.0, bands.lower_height - 4.0
    soffit = top + height - 12.0
    tall = soffit - top - 9.0
    scale = drawing_scale(max(beam.outline.depth / tall, 2 * half_width(beam.outline) / 42.0))
    drawn = beam.outline.depth / scale
    soffit = min(soffit, top + 9.0 + drawn + 6.0)
    middle = MARGIN + 7 + half_width(beam.outline) / scale
    at = given(life.critical, "span" if beam.length > loads.LONG else "length", units)
    paper.text(MARGIN, top, f"Section at {at}", look.TEXT, weight="semibold")
    fails = ", where the beam fails" if life.critical == life.failure.x else ""
    paper.text(MARGIN, top + 3.0, f"from the left end{fails}", look.FINE, color=look.FAINT)
    draw_section(axes, beam, life.critical, middle, soffit, scale)
    draw_sizes(axes, beam, middle, soffit, scale, units)
    words_left = middle + half_width(beam.outline) / scale + 2.0
    draw_words(axes, beam, life.critical, middle, soffit, scale, (words_left, 20.0))
    _states(paper, life, words_left + 23.0, 165.0, top, soffit, scale, units)
    curve_left, list_left = 178.0, WIDTH - MARGIN - 55.0
    draw_curve(
        axes,
        life,
        moment.step,
        moment.event,
        (curve_left, top + 4.0, list_left - curve_left - 5.0, height - 14.0),
        units,
    )
    eventlist.draw_events(axes, life.events, moment.step, moment.event, (list_left, top - 1.0, 55.0), units)


def _states(
    paper: Paper, life: Life, left: float, right: float, top: float, soffit: float, scale: float, units: Units
) -> None:
    states = chosen(life.sections)
    if not states:
        words = "No strains to show: this life ends before any load is on the beam."
        if life.curve.load.any():
            words = "No strains to show: this life ends before the first crack."
        paper.lines(left, top, look.wrap(words, right - left, look.SMALL), look.SMALL, color=look.FAINT)
        return
    gap = 4.0
    width = (right - left - gap * (len(states) - 1)) / len(states)
    below = soffit + (9.4 if max(tension_kinds(state) for state in states) > 1 else 6.6)
    numbers = {e.event: i + 1 for i, e in reversed(list(enumerate(life.events)))}
    for k, state in enumerate(states):
        x = left + k * (width + gap)
        draw_state(paper.sheet, state, x, width, soffit, scale, units)
        named = state.event in numbers
        if named:
            marks.number(paper.sheet, x + marks.RADIUS, top - 0.9, numbers[state.event])
        paper.text(x + (2 * marks.RADIUS + 1 if named else 0), top, state.event, look.SMALL, weight="semibold")
        paper.text(x, top + 3.6, quantity(state.moment, "moment", units), look.FINE, color=look.FAINT)
        for words, share in (("strain", 0.21), ("stress", 0.74)):
            paper.text(x + share * width, below, words, look.FINE, color=look.FAINT, ha="center")


def _foot(paper: Paper, words: _Words, bands: _Bands) -> None:
    paper.rule(MARGIN, bands.foot - 1.5, ROOM)
    paper.lines(MARGIN, bands.foot + 1.8, words.cautions, look.FINE, color=look.FAINT)

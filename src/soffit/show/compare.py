"""Several beams over one another: their curves in one chart, each with its small picture, and one table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import isfinite
from pathlib import Path

from soffit.errors import SoffitError
from soffit.member.result import Life
from soffit.show import look
from soffit.show.comparechart import MARKS, Line, common_start, draw_charts, draw_mark, looks_of, marked
from soffit.show.comparetable import closing
from soffit.show.elevation import draw_beam
from soffit.show.loads import draw_supports
from soffit.show.numbers import NOTHING, Units, column, sig, times, unit
from soffit.show.paper import Paper, leading, save
from soffit.show.section_view import draw_section, half_width
from soffit.show.view import drawing_scale, view_of

WIDTH = 297.0
LEAST_HEIGHT = 210.0
MARGIN = 12.0
ROOM = WIDTH - 2 * MARGIN
ICONS = 96.0
"""Width of the column of small pictures, mm."""
ROW = 5.2
"""Height of a row of the table, mm."""
UNLIKE = 4.0
"""Lengths further apart than by this factor are not drawn to one scale."""
RIGHTS = (98.0, 117.0, 137.0, 162.0, 194.0)
"""Right edges of the columns of figures, mm from the margin."""
LEFTS = (200.0, 244.0)
"""Left edges of the columns of words."""


def compare_sheet(
    lives: Sequence[Life],
    path_stem: Path,
    formats: Sequence[str] = ("svg", "png"),
    units: Units | None = None,
) -> list[Path]:
    """Draw one sheet for several lives and write it as ``path_stem``.svg, … Returns the paths.

    ``units`` is "SI" or "US"; none: those of the first beam. Raises :class:`SoffitError` for no life at
    all and for a place that cannot be written; nothing is left half written.
    """
    if not lives:
        raise SoffitError("A comparison needs at least one beam.")
    units = units or lives[0].beam.units
    looks = looks_of([life.beam for life in lives])
    lines = [Line(life, mine) for life, mine in zip(lives, looks, strict=True)]
    title = look.clip(_title(lives), ROOM, look.TITLE, "semibold")
    sentence = look.wrap(closing(lives, units), ROOM, look.LEAD)
    top = MARGIN + 4.0 + 2.0 + len(sentence) * leading(look.LEAD) + 8.0
    table = ROW * (len(lives) + 1) + 2.0
    upper = max(LEAST_HEIGHT - MARGIN - top - table, 24.0 * len(lives))
    paper = Paper(WIDTH, top + upper + table + MARGIN)
    paper.text(MARGIN, MARGIN + 4.0, title, look.TITLE, weight="semibold")
    paper.lines(MARGIN, MARGIN + 4.0 + 1.5 + leading(look.LEAD), sentence, look.LEAD)
    _icons(paper, lines, top, upper - 4.0)
    left = MARGIN + ICONS + 12.0
    draw_charts(paper.sheet, lines, (left, top + 2.0, WIDTH - MARGIN - left, upper - 18.0), units)
    _table(paper, lines, top + upper, units)
    about = "; ".join(f"{life.name}: {life.failure.sentence}" for life in lives)
    return save(paper.figure, Path(path_stem), formats, title, about)


def _title(lives: Sequence[Life]) -> str:
    """What the names have in common at their start, and how many beams there are."""
    if len(lives) == 1:
        return lives[0].name
    common = common_start([life.name for life in lives]).rstrip(" ,;:–")
    return f"{common}: {len(lives)} beams under load" if common else f"{len(lives)} beams under load"


def _icons(paper: Paper, lines: Sequence[Line], top: float, height: float) -> None:
    """Every beam at its peak, to one scale and one exaggeration, with its section, its name and the line that
    stands for it in the chart."""
    pitch = (height - 4.0) / len(lines)
    beams = [line.life.beam for line in lines]
    deep = [b.outline.depth for b in beams]
    scales = _scales([b.length for b in beams], deep, 63.0, min(0.42 * pitch, 26.0))
    sections = _scales([2 * half_width(b.outline) for b in beams], deep, 24.0, min(0.62 * pitch, 26.0))
    views = [
        view_of(line.life, line.life.peak.step, MARGIN + 4.0, 0.0, scale, sag_room=2.5)
        for line, scale in zip(lines, scales, strict=True)
    ]
    sag, crack = min(v.sag_times for v in views), min(v.crack_times for v in views)
    for i, line in enumerate(lines):
        y = top + pitch * i
        _heading(paper, line, y, about=2 if pitch > 30 else 1)
        middle = y + 6.0 + (pitch - 9.0) / 2
        soffit = middle + deep[i] / scales[i] / 2 - 1.5
        view = replace(views[i], soffit=soffit, sag_times=sag, crack_times=crack)
        draw_beam(paper.sheet, view, line.life, line.life.peak.step)
        draw_supports(paper.sheet, view, beams[i], 0.7)
        soffit = middle + deep[i] / sections[i] / 2
        draw_section(paper.sheet, beams[i], line.life.critical, MARGIN + ICONS - 12.0, soffit, sections[i], look.MEDIUM)
    to = [f"1 : {s[0]:g} on A4" if len(set(s)) == 1 else "each to its own scale" for s in (scales, sections)]
    note = f"Each at its peak. Beams {to[0]}, sections {to[1]}; "
    note += f"deflection {times(sag)}, crack width {times(crack)}"
    paper.text(MARGIN, top + height, note, look.FINE, color=look.FAINT)


def _heading(paper: Paper, line: Line, y: float, about: int) -> None:
    """Line, name and so many lines of what the beam is about."""
    left, room = MARGIN + 13.0, ICONS - 14.0
    _sample(paper, line, y, 11.0)
    name = look.clip(line.life.name, room, look.TEXT, "semibold")
    paper.text(left, y, name, look.TEXT, weight="semibold", color=line.look.color)
    words = look.wrap(line.life.beam.about, room, look.SMALL)
    if len(words) > about:
        words = [*words[: about - 1], look.clip(" ".join(words[about - 1 :]), room, look.SMALL)]
    paper.lines(left, y + 3.4, words, look.SMALL, color=look.FAINT)


def _sample(paper: Paper, line: Line, y: float, long: float) -> None:
    ends = [MARGIN, MARGIN + long]
    paper.sheet.plot(ends, [y - 1.0] * 2, color=line.look.color, lw=look.HEAVY, ls=line.look.dashes, zorder=4)


def _scales(longs: Sequence[float], talls: Sequence[float], room: float, height: float) -> list[float]:
    """One scale for all, or one for each where the smallest would be a speck beside the largest."""
    if max(longs) > UNLIKE * min(longs):
        return [drawing_scale(max(a / room, b / height)) for a, b in zip(longs, talls, strict=True)]
    return [drawing_scale(max(max(longs) / room, max(talls) / height))] * len(longs)


def _table(paper: Paper, lines: Sequence[Line], top: float, units: Units) -> None:
    """The head of each column of loads carries the mark that stands for it in the charts."""
    paper.rule(MARGIN, top - 3.0, ROOM)
    head = top + 1.0
    _heads(paper, head, units)
    lives = [line.life for line in lines]
    found = [[marked(life, mark) for life in lives] for mark in MARKS]
    # all loads share their decimals, so that a row can be read across
    loads = column([e.load if e else None for events in found for e in events], "force", units)
    sag = column([life.peak.deflection for life in lives], "length", units)
    for i, line in enumerate(lines):
        y = head + ROW * (i + 1)
        _sample(paper, line, y, 9.0)
        name = look.clip(line.life.name, 68.0, look.TEXT, "semibold")
        paper.text(MARGIN + 11.0, y, name, look.TEXT, weight="semibold")
        cells = [*loads[i :: len(lines)], sag[i], _ratio(line.life.warning.deflection_ratio)]
        for words, x in zip(cells, RIGHTS, strict=True):
            paper.text(MARGIN + x, y, words, look.TEXT, ha="right")
        color = look.FAILS if line.life.failure.brittle else look.INK
        for words, x, room in zip((line.life.failure.mode, line.life.warning.word), LEFTS, (42.0, 29.0), strict=True):
            paper.text(MARGIN + x, y, look.clip(words, room, look.TEXT), look.TEXT, color=color)


def _heads(paper: Paper, y: float, units: Units) -> None:
    force, length = unit("force", units), unit("length", units)
    heads = [
        *(f"{mark.words}, {force}" for mark in MARKS),
        f"sag at peak, {length}",
        "over that at first crack",
    ]
    for words, x in zip(heads, RIGHTS, strict=True):
        paper.text(MARGIN + x, y, words, look.SMALL, color=look.FAINT, ha="right")
    for mark, words, x in zip(MARKS, heads, RIGHTS, strict=False):
        draw_mark(paper.sheet, mark, MARGIN + x - look.width(words, look.SMALL) - 2.0, y - 0.8, look.FAINT, 4.0)
    for words, x in zip(("fails by", "warning"), LEFTS, strict=True):
        paper.text(MARGIN + x, y, words, look.SMALL, color=look.FAINT)


def _ratio(value: float) -> str:
    return f"{sig(value, 2)} times" if isfinite(value) and value < 1e4 else NOTHING

"""The stressing sheet to print: cautions, the beam with its tendons, their order, and boxes to write in. A4, upright.

What does not fit one page goes on to further ones, each a file of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path

import numpy as np

from soffit.detail.order import name as tendon_name
from soffit.detail.stressing import SEATING, GroupSheet, StressingSheet, TendonLine
from soffit.member.beam import Beam
from soffit.member.profile import height as tendon_height
from soffit.show import look, marks
from soffit.show import stressingwords as words
from soffit.show.elevation import draw_body
from soffit.show.loads import SUPPORT, draw_dimensions, draw_supports
from soffit.show.numbers import NOTHING, Units, quantity, sig, unit
from soffit.show.paper import Paper, leading, save
from soffit.show.section_view import draw_section, half_width
from soffit.show.steel_places import spots
from soffit.show.stressingtable import figures, jack
from soffit.show.view import Array, View, drawing_scale

WIDTH, HEIGHT = 210.0, 297.0
MARGIN = 12.0
ROOM = WIDTH - 2 * MARGIN
ELEVATION = 118.0
"""Width of the drawn beam with its jacks at most, mm."""
SECTION = 46.0
"""Width of the drawn section at most, mm."""
TALLEST, TALLEST_SECTION = 30.0, 44.0
"""Height of the beam and of the section at most, mm."""
JACK = 9.5
"""Beside the beam, for an anchor and the arrow of a jack, mm; the names of the groups come beyond it."""
LONGEST_NAME = 20.0
"""mm."""
PITCH = 7.2
"""Of the rows that are written in by hand, mm."""
HEAD = 9.0
"""Of the table, mm."""
WIDTHS = (8.0, 16.0, 14.0, 14.0, 16.0, 25.0, 13.0, 21.0, 15.0, 15.0, 12.0, 17.0)
BOXES = 5
"""The last columns, which stay blank."""
CLOSEST = 2.4
"""Tendons closer than this on paper get no number in the section, mm."""


def draw(
    sheet: StressingSheet, path_stem: Path, formats: Sequence[str] = ("svg", "pdf", "png"), units: Units | None = None
) -> list[Path]:
    """Write the sheet as ``path_stem``.svg, …; further pages as ``path_stem``-2.svg, …. Returns the paths.

    Raises :class:`soffit.errors.SoffitError` for a place that cannot be written; nothing is left half written.
    """
    units = units or sheet.beam.units
    pages, title, about = _pages(sheet, units), f"{sheet.beam.name}: stressing sheet", words.closing(sheet, units)
    names = [path_stem if i == 0 else path_stem.with_name(f"{path_stem.name}-{i + 1}") for i in range(len(pages))]
    return [
        path
        for name, paper in zip(names, pages, strict=True)
        for path in save(paper.figure, name, formats, title, about)
    ]


def _pages(sheet: StressingSheet, units: Units) -> list[Paper]:
    foot = _foot(sheet, units)
    foot_height = len(foot) * leading(look.FINE) + 3.0
    rows = list(zip(sheet.tendons, _cells(sheet, units), strict=True))
    paper = Paper(WIDTH, HEIGHT)
    pages = [paper]
    top = _first_head(paper, sheet, units)
    while True:
        room = HEIGHT - MARGIN - top - HEAD
        last = len(rows) * PITCH + foot_height <= room
        fit = len(rows) if last else max(int(room / PITCH), 1)
        if rows:  # else the words alone had no room on the page before
            top = _table(paper, rows[:fit], units, top, _wrench(sheet))
        rows = rows[fit:]
        if last:
            break
        paper = Paper(WIDTH, HEIGHT)
        pages.append(paper)
        top = _next_head(paper, sheet)
    paper.rule(MARGIN, top + 2.2, ROOM)
    paper.lines(MARGIN, top + 5.5, foot, look.FINE, color=look.FAINT)
    for number, page in enumerate(pages, start=1):
        if len(pages) > 1:
            text = f"page {number} of {len(pages)}"
            page.text(WIDTH - MARGIN, MARGIN + 4.0, text, look.SMALL, color=look.FAINT, ha="right")
    return pages


def _first_head(paper: Paper, sheet: StressingSheet, units: Units) -> float:
    """Title, cautions, pictures, what each group is pulled to; returns where the table begins."""
    y = paper.lines(MARGIN, MARGIN + 4.0, _title(sheet), look.TITLE, weight="semibold")
    y = paper.lines(MARGIN, y - leading(look.TITLE) + leading(look.LEAD) + 0.8, _lead(sheet, units), look.LEAD)
    y = _cautions(paper, sheet, y + 1.0)
    y = _pictures(paper, sheet, units, y + 1.5)
    y = _facts(paper, sheet, units, y + 4.5)
    return _written_once(paper, y + 2.0, _wrench(sheet))


def _next_head(paper: Paper, sheet: StressingSheet) -> float:
    y = paper.lines(MARGIN, MARGIN + 4.0, _title(sheet), look.TITLE, weight="semibold")
    caution = look.wrap(words.CAUTIONS[0], ROOM, look.TEXT, "semibold")
    return paper.lines(MARGIN, y, caution, look.TEXT, weight="semibold")


def _title(sheet: StressingSheet) -> list[str]:
    return look.wrap(f"{sheet.beam.name}: stressing sheet", ROOM - 22.0, look.TITLE, "semibold")


def _lead(sheet: StressingSheet, units: Units) -> list[str]:
    closing = words.closing(sheet, units).removeprefix(f"{sheet.beam.name}: ")
    return look.wrap(closing[:1].upper() + closing[1:], ROOM, look.LEAD)


def _cautions(paper: Paper, sheet: StressingSheet, top: float) -> float:
    """In words, beside a heavy line in the colour of attention; the first one is the greatest danger."""
    first, *others = [text for text in words.cautions(sheet) if text != words.REVIEW]
    lead = look.wrap(first, ROOM - 4.0, look.LEAD, "semibold")
    rest = [line for text in others for line in look.wrap(text, ROOM - 4.0, look.TEXT)]
    y = paper.lines(MARGIN + 4.0, top + 3.2, lead, look.LEAD, weight="semibold")
    y = paper.lines(MARGIN + 4.0, y - leading(look.LEAD) + leading(look.TEXT) + 0.6, rest, look.TEXT)
    bottom = y - leading(look.TEXT) + 1.2
    paper.sheet.plot([MARGIN + 1.0] * 2, [top, bottom], color=look.FOCUS, lw=look.HEAVY, solid_capstyle="butt")
    return bottom


# -- pictures ------------------------------------------------------------------------------------------------------


def _pictures(paper: Paper, sheet: StressingSheet, units: Units, top: float) -> float:
    beam = _bare(sheet.beam)
    depth = beam.outline.depth
    scale = drawing_scale(max(beam.length / (ELEVATION - 2 * (JACK + _name_room(sheet))), depth / TALLEST))
    soffit = top + 7.0 + depth / scale
    flat = np.array([0.0, beam.length])
    view = View(scale, MARGIN + (ELEVATION - beam.length / scale) / 2, soffit, 1.0, 1.0, flat, np.zeros(2))
    draw_body(paper.sheet, view, beam)
    draw_supports(paper.sheet, view, beam)
    draw_dimensions(paper.sheet, view, beam, soffit + SUPPORT + 5.2, units)
    _ends(paper, sheet, view)
    said = sig(scale, 4)
    said = said.rstrip("0").rstrip(".") if "." in said else said
    paper.text(MARGIN, top + 2.6, f"Tendons, scale 1 : {said} on A4", look.SMALL, color=look.FAINT)
    low = _section(paper, sheet, top)
    return max(soffit + SUPPORT + 6.5, low)


def _bare(beam: Beam) -> Beam:
    """As it stands when it is stressed: without press, and without what lies in a topping."""
    return replace(beam, press=None, bars=tuple(bars for bars in beam.bars if bars.part == "beam"))


def _name_room(sheet: StressingSheet) -> float:
    widest = max(look.width(group.name, look.SMALL, "semibold") for group in sheet.groups)
    return min(widest, LONGEST_NAME) + 1.0


@dataclass(frozen=True)
class _Name:
    text: str
    y: float


def _ends(paper: Paper, sheet: StressingSheet, view: View) -> None:
    """At each end the names of the groups, and an arrow that pulls where a jack stands."""
    for way in (-1, 1):
        found: list[_Name] = []
        for group in sheet.groups:
            tendon = group.tendon
            end = tendon.x_from if way < 0 else tendon.x_to
            y = float(view.down(end, float(tendon_height(tendon.profile, np.array([end]))[0])))
            found.append(_Name(group.name, y))
            jacked = tendon.jacked_from in (("left", "both") if way < 0 else ("right", "both"))
            if jacked and not group.pretensioned:
                start = float(view.across(end)) + way * 3.2
                _pull(paper, start, y, way)
        places = _apart([name.y for name in found], leading(look.SMALL))
        face = float(view.across(0.0 if way < 0 else sheet.beam.length))
        for name, y in zip(found, places, strict=True):
            text = look.clip(name.text, LONGEST_NAME, look.SMALL, "semibold")
            at, side = face + way * (JACK - 0.9), "right" if way < 0 else "left"
            paper.text(at, y + 0.9, text, look.SMALL, color=look.TENDON, weight="semibold", ha=side)


def _pull(paper: Paper, x: float, y: float, way: int) -> None:
    from matplotlib.patches import Polygon

    tip = x + way * 4.6
    paper.sheet.plot([x, tip - way * 1.6], [y, y], color=look.TENDON, lw=look.MEDIUM, solid_capstyle="butt", zorder=7)
    corners = [(tip, y), (tip - way * 1.8, y - 0.65), (tip - way * 1.8, y + 0.65)]
    paper.sheet.add_patch(Polygon(corners, fc=look.TENDON, ec="none", zorder=7))


def _apart(wanted: Sequence[float], pitch: float) -> list[float]:
    """Heights near the wanted ones, none closer to its neighbour than ``pitch``."""
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    placed = dict.fromkeys(order, 0.0)
    last = -np.inf
    for i in order:
        last = max(wanted[i], last + pitch)
        placed[i] = float(last)
    shift = float(np.mean([placed[i] - wanted[i] for i in order])) if order else 0.0
    return [placed[i] - shift for i in range(len(wanted))]


def _section(paper: Paper, sheet: StressingSheet, top: float) -> float:
    """The face at the left, with the turn of every tendon in a circle where there is room; returns its foot."""
    beam = _bare(sheet.beam)
    x = max(t.x_from for t in beam.tendons)
    wide = 2 * half_width(beam.outline)
    scale = drawing_scale(max(wide / SECTION, beam.outline.depth / TALLEST_SECTION))
    middle = WIDTH - MARGIN - SECTION / 2
    soffit = top + 7.0 + beam.outline.depth / scale
    draw_section(paper.sheet, beam, x, middle, soffit, scale, look.MEDIUM)
    left = WIDTH - MARGIN - SECTION - 1.0
    seen: dict[int, int] = {}
    numbers: list[tuple[float, float, int]] = []
    turns = {line.name: line.place for line in sheet.tendons}
    for spot in sorted((s for s in spots(beam, x) if s.tendon), key=lambda s: s.x):
        seen[spot.group] = seen.get(spot.group, 0) + 1
        turn = turns[tendon_name(sheet.groups[spot.group].name, seen[spot.group])]
        numbers.append((middle + spot.x / scale, soffit - spot.y / scale, turn))
    told = 0
    for i, (at, y, turn) in enumerate(numbers):
        gaps = [float(np.hypot(at - b[0], y - b[1])) for k, b in enumerate(numbers) if k != i]
        closest = min(gaps, default=np.inf)
        if closest >= CLOSEST:
            marks.number(paper.sheet, at, y, turn, radius=min(marks.RADIUS, 0.48 * closest))
            told += 1
    said = "Order, seen along x; places across even" if told == len(numbers) else "Order: where no number, by the table"
    said = said if told else "Order: by the table"
    paper.text(left, top + 2.6, said, look.SMALL, color=look.FAINT)
    return soffit + 2.0


# -- words and tables ----------------------------------------------------------------------------------------------


def _facts(paper: Paper, sheet: StressingSheet, units: Units, top: float) -> float:
    lines: list[str] = []
    for group in sheet.groups:
        for text in (_fact(group, units), words.ends(group, units), words.losses(group), *words.rod(group, units)):
            lines += look.wrap(text, ROOM, look.TEXT) if text else []
    return paper.lines(MARGIN, top, lines, look.TEXT) - leading(look.TEXT)


def _fact(group: GroupSheet, units: Units) -> str:
    tendon = group.tendon
    label = tendon.label or f"{tendon.count} tendons"
    shares = [
        f"{100 * limit.ratio:.0f} % of {limit.standard} {limit.clause} {limit.when}"
        + ("" if limit.kept else ", which is too much")
        for limit in group.limits
    ]
    stress = quantity(tendon.stress, "stress", units, 4)
    kept = "" if group.kept is None else f"; {quantity(group.kept, 'length', units)} stay after lock-off"
    slip = f", draw-in {quantity(group.draw_in, 'length', units)}{kept}" if group.draw_in else ""
    limits = f" ({'; '.join(shares)})" if shares else ""
    return f"{group.name}: {label}, {jack(group)}, {stress}{limits}{slip}."


def _written_once(paper: Paper, top: float, wrench: bool) -> float:
    """What the crew fills in once: a line with room behind each word."""
    parts = [("jack no.", 0.16), ("gauge no.", 0.16), ("calibrated on", 0.2), ("ram area", 0.17)]
    if wrench:
        parts = [("wrench no.", 0.34), ("calibrated on", 0.35)]
    x, y = MARGIN, top + 3.5
    for text, share in [*parts, ("concrete strength today", 0.31)]:
        paper.text(x, y, text, look.SMALL, color=look.FAINT)
        start, end = x + look.width(text, look.SMALL) + 1.0, x + share * ROOM - 2.0
        paper.sheet.plot([start, end], [y + 0.6, y + 0.6], color=look.FAINT, lw=look.THIN)
        x += share * ROOM
    return y + 3.0


Row = tuple[TendonLine, list[str]]


def _wrench(sheet: StressingSheet) -> bool:
    """Whether nuts alone do it: then torque and turns stand where else the gauge does."""
    return sheet.ram is None and all(group.rod for group in sheet.groups)


def _cells(sheet: StressingSheet, units: Units) -> list[list[str]]:
    groups = [line.group for line in sheet.tendons]
    early = [None if g.elongation is None else g.at_mark * g.elongation for g in groups]
    lows, highs = ([None if g.band is None else g.band[i] for g in groups] for i in (0, 1))
    bands = [
        NOTHING if low == NOTHING else f"{low} to {high}"
        for low, high in zip(figures(lows, "length", units), figures(highs, "length", units), strict=True)
    ]
    cells = [
        figures([g.force for g in groups], "force", units),
        figures([g.rod.torque if g.rod else None for g in groups], "torque", units)
        if _wrench(sheet)
        else figures([g.gauge for g in groups], "pressure", units),
        figures([g.elongation for g in groups], "length", units),
        bands,
        figures(early, "length", units),
    ]
    return [
        [str(line.place), line.name, *row] for line, row in zip(sheet.tendons, zip(*cells, strict=True), strict=True)
    ]


def _table(paper: Paper, rows: Sequence[Row], units: Units, top: float, wrench: bool) -> float:
    """Heads and rows; the last columns are boxes. Returns the foot of the table."""
    mm, kn, gauge = unit("length", units), unit("force", units), ("gauge", unit("pressure", units))
    pull, read = (("torque", unit("torque", units)), ("turns", "")) if wrench else (gauge, gauge)
    mark = f"at {100 * SEATING:.0f} %"
    heads = [
        *(("turn", ""), ("tendon", ""), ("force", kn), pull, ("expected", mm), ("within", mm), (mark, mm)),
        *(("measured", mm), ("draw-in", mm), read, ("initials", ""), ("date", "")),
    ]
    edges = MARGIN + np.concatenate([[0.0], np.cumsum(WIDTHS)]) * ROOM / sum(WIDTHS)
    bottom = top + HEAD + PITCH * len(rows)
    for i, (name, name_of_unit) in enumerate(heads):
        at, side = _cell_place(edges, i)
        paper.text(at, top + 3.4, name, look.SMALL, weight="semibold", ha=side)
        paper.text(at, top + 6.8, name_of_unit, look.SMALL, color=look.FAINT, ha=side)
    rooms = [float(b - a) - 1.6 for a, b in pairwise(edges)]
    # names in one column are all of one size
    names = look.LEAD if all(look.width(c[1], look.LEAD, "semibold") <= rooms[1] for _, c in rows) else look.SMALL
    sizes = [names if i == 1 else look.LEAD if i in (2, 4) else look.TEXT for i in range(len(WIDTHS) - BOXES)]
    for n, (_, cells) in enumerate(rows):
        y = top + HEAD + PITCH * n
        for i, text in enumerate(cells):
            at, side = _cell_place(edges, i)
            size, weight = sizes[i], "semibold" if i == 1 else "normal"
            lines = [text]
            if look.width(text, size, weight) > rooms[i]:
                size, lines = look.SMALL, _two_lines(text, rooms[i])
            middle = y + PITCH / 2 + (1.2 if len(lines) == 1 else -0.7)
            paper.lines(at, middle, lines, size, weight=weight, ha=side)
        paper.rule(MARGIN, y, ROOM)
    paper.rule(MARGIN, bottom, ROOM)
    for edge in edges[-BOXES - 1 :]:
        paper.sheet.plot([edge, edge], [top + HEAD, bottom], color=look.FAINT, lw=look.THIN, alpha=0.6)
    return bottom


def _two_lines(name: str, room: float) -> list[str]:
    """The name of a tendon that is too long for one line: its number is never cut off."""
    lines = look.wrap(name, room, look.SMALL, "semibold")
    if len(lines) <= 2:
        return lines
    group, _, number = name.rpartition(" ")
    return [look.clip(group or name, room, look.SMALL, "semibold"), number]


def _cell_place(edges: Array, i: int) -> tuple[float, str]:
    """Where the text of a column stands, and how it is set: names from the left, numbers from the right."""
    if i >= len(WIDTHS) - BOXES:
        return float(edges[i] + edges[i + 1]) / 2, "center"
    return (float(edges[i]) + 0.8, "left") if i == 1 else (float(edges[i + 1]) - 1.6, "right")


def _foot(sheet: StressingSheet, units: Units) -> list[str]:
    text = " ".join([*words.assumed(sheet, units), f"Not checked: {words.NOT_CHECKED}", words.REVIEW])
    return look.wrap(text, ROOM, look.FINE)

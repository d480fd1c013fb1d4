"""The life of a beam in words and figures: what happens, in order, and one closing sentence."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape
from itertools import pairwise
from math import isclose, isfinite
from typing import TYPE_CHECKING

from soffit.show.columns import Line, coloured, grid, hanging, plain, wrapped
from soffit.show.numbers import NOTHING, THIN, Units, column, in_unit, sig, times, unit

if TYPE_CHECKING:
    from soffit.member.beam import Beam, TendonGroup
    from soffit.member.result import Event, Life

LABEL = 10
"""Columns of the labels at the left of warning, press, assumptions and cautions."""
NOTE = 34
"""A note stands beside its event where at least so many columns are left for it, else below."""

SHAPES = {"i": "I-section", "ell": "L-section", "tee": "T-section", "inverted-tee": "inverted T-section"}
STYLE_OF = {
    "transfer": "tendon",
    "decompression": "tension",
    "first crack": "tension",
    "crack 0.3 mm": "tension",
    "bar yield": "bar",
    "tendon yield": "tendon",
    "concrete crushes": "compression",
    "bar rupture": "fails",
    "tendon rupture": "fails",
    "anchor fails": "fails",
    "bar slips": "fails",
    "shear failure": "fails",
    "peak": "strong",
    "collapse": "fails",
}


def told(
    life: Life,
    units: Units | None = None,
    width: int | None = None,
    colours: str | None = None,
    written: Sequence[str] = (),
) -> str:
    """The story as text, its last line the closing sentence.

    ``units``: those of the file where none are given. ``width``: columns to wrap to; none: lines stay whole.
    ``colours``: rich's name of what the terminal can show; none gives bare text. ``written``:
    files that were written of this life, which the story names.
    """
    lines = story(life, units or life.beam.units, width, written)
    return coloured(lines, colours) if colours else plain(lines)


def story(life: Life, units: Units, width: int | None, written: Sequence[str] = ()) -> list[Line]:
    lines: list[Line] = [[(piece, "strong")] for piece in wrapped(life.name, width)]
    for text in (life.beam.about, beam_line(life.beam, units)):
        if text:
            lines += [[(piece, "faint")] for piece in wrapped(text, width)]
    lines += [[], *_events(life.events, units, width)]
    lines += [[(piece, "faint")] for piece in wrapped(_reading(life, units), width)]
    lines += [[]]
    lines += hanging("warning", [_warning(life)], width, LABEL)
    lines += hanging("press", _press(life, units), width, LABEL)
    lines += hanging("assumed", life.assumptions, width, LABEL, "faint")
    lines += hanging("caution", life.cautions, width, LABEL)
    lines += hanging("written", [", ".join(written)] if written else [], width, LABEL)
    closing = "fails" if life.failure.brittle else "strong"
    return [*lines, [], *([(piece, closing)] for piece in wrapped(life.failure.sentence, width))]


def beam_line(beam: Beam, units: Units) -> str:
    """Section, span, concrete and steel in one line."""
    held = beam.supports.x
    spans = [_given(b - a, "span", units) for a, b in pairwise(held)]
    reach = f"span {' + '.join(spans)}" if spans else f"cantilever {_given(beam.length, 'span', units)}"
    steel = [_merged((g.label, g.count, g.diameter) for g in beam.bars)]
    for kind in dict.fromkeys(_kind(t) for t in beam.tendons):
        steel.append(f"{_merged((t.label, t.count, t.diameter) for t in beam.tendons if _kind(t) == kind)} ({kind})")
    zones = dict.fromkeys(z.label or f"{z.diameter:g} @ {z.spacing:g}" for z in beam.stirrups)
    steel.append(f"stirrups {' and '.join(zones)}" if zones else "")
    concrete = f"concrete {_given(beam.concrete.strength, 'stress', units)}"
    return ", ".join([_section(beam, units), reach, concrete, "; ".join(filter(None, steel)) or "no steel"])


def _section(beam: Beam, units: Units) -> str:
    outline = beam.outline
    depth = _given(outline.depth, "length", units)
    name = {
        "i": "I-section",
        "ell": "L-section",
        "tee": "T-section",
        "inverted-tee": "inverted T-section",
    }.get(outline.shape, outline.shape)
    if outline.shape == "circle":
        return f"{name} {depth}"
    across = [x for x, _ in outline.points]
    return f"{name} {_given(max(across) - min(across), 'length', units, bare=True)} × {depth}"


def _given(value: float, dimension: str, units: Units, bare: bool = False) -> str:
    """A size that was given, not computed: the figures that it was given with, else three."""
    number = in_unit(value, dimension, units)
    text = sig(number, next((d for d in range(1, 6) if isclose(float(f"{number:.{d}g}"), number)), 3))
    return text if bare else f"{text}{THIN}{unit(dimension, units)}"


def _merged(groups: Iterable[tuple[str, int, float]]) -> str:
    """Groups that differ only in number or height become one: “40 × 15.7 strand Y1860S7”."""
    counts: dict[str, int] = {}
    for label, count, diameter in groups:
        start = f"{count} × "
        name = label.removeprefix(start) if label.startswith(start) else f"{diameter:g}"
        counts[name] = counts.get(name, 0) + count
    return "; ".join(f"{count} × {name}" for name, count in counts.items())


def _events(events: Sequence[Event], units: Units, width: int | None) -> list[Line]:
    columns = _columns(events)
    numbers = [column(values, kind, units) for _, kind, values in columns]
    rows = [
        ["", "event", *(name for name, _, _ in columns)],
        ["", "", *(unit(kind, units) for _, kind, _ in columns)],
        *([str(i), e.event, *cells] for i, (e, *cells) in enumerate(zip(events, *numbers, strict=True), start=1)),
    ]
    cells = grid(rows, "rlrrrrr")
    lines: list[Line] = [[("  ".join(row), "faint")] for row in cells[:2]]
    for event, (number, name, *figs) in zip(events, cells[2:], strict=True):
        weight = "strong" if event.event == "peak" else ""
        row: Line = [
            (number + "  ", "faint"),
            (name, STYLE_OF.get(event.event, "")),
            ("  " + "  ".join(figs), weight),
        ]
        lines += _with_note(row, event.note, len(number) + 4, width)
    return lines


def _with_note(row: Line, note: str, indent: int, width: int | None) -> list[Line]:
    """The note stands beside its row where there is room, else below, indented."""
    if not note:
        return [row]
    taken = sum(len(text) for text, _ in row) + 3
    if width is None or width - taken >= NOTE:
        first, *rest = wrapped(note, None if width is None else width - taken)
        return [[*row, ("   " + first, "faint")], *([(" " * taken + text, "faint")] for text in rest)]
    return [row, *([(" " * indent + text, "faint")] for text in wrapped(note, width - indent))]


def _reading(life: Life, units: Units) -> str:
    """What the columns mean."""
    load = "the press's total" if life.beam.press else "the total of the rising load"
    place = _given(life.gauge, "length", units)
    return f"load: {load}; deflection: at x = {place}, since loading began; x: from the left end"


def _warning(life: Life) -> str:
    given = life.warning
    parts = [
        f"{what} {times(value)}"
        for what, value in (("deflection", given.deflection_ratio), ("work", given.energy_ratio))
        if isfinite(value) and 0 < value < 1e4
    ]
    before = any(e.event == "first crack" and e.step == 0 for e in life.events)
    start = "the permanent load, which cracks it," if before else "first crack"
    return given.word + (f": from {start} to peak {' and '.join(parts)}" if parts else "")


def _press(life: Life, units: Units) -> list[str]:
    press = life.beam.press
    if life.press is None or press is None or life.peak.load <= 0:
        return []
    force = travel = ""
    used, moved = life.press.capacity_used, life.press.stroke_used
    if used is not None and press.capacity is not None:
        force = f"{sig(100 * used, 2)} % of its {_given(press.capacity, 'force', units)}"
    if moved is not None and press.stroke is not None:
        travel = f"{sig(100 * moved, 2)} % of its stroke of {_given(press.stroke, 'length', units)}"
    if life.press.can_break_it:
        return [f"breaks the beam with {force or travel}"]
    takes = [words for words, share in ((force, used), (travel, moved)) if share is not None and share > 1.0]
    return [f"cannot break the beam: that takes {' and '.join(takes)}"]


def _kind(tendon: TendonGroup) -> str:
    return "pretensioned" if tendon.when == "before casting" else f"post-tensioned, {tendon.bond}"


def html(life: Life, units: Units | None = None) -> str:
    """A small table of the events and the closing sentence, for a notebook; colours are those of its page."""
    system = units or life.beam.units
    cells = list(zip(*(column(values, kind, system) for _, kind, values in _columns(life.events)), strict=True))
    head = "".join(f"<th>{name}<br><small>{unit(kind, system)}</small></th>" for name, kind, _ in _columns(life.events))
    rows = "".join(
        f"<tr><td>{i}</td><td style='text-align:left'>{escape(event.event)}</td>"
        + "".join(f"<td>{text if text != NOTHING else ''}</td>" for text in row)
        + f"<td style='text-align:left'><small>{escape(event.note)}</small></td></tr>"
        for i, (event, row) in enumerate(zip(life.events, cells, strict=True), start=1)
    )
    return (
        f"<div><p><b>{escape(life.name)}</b><br><small>{escape(beam_line(life.beam, system))}</small></p>"
        "<table style='font-variant-numeric:tabular-nums;text-align:right'>"
        f"<thead><tr><th></th><th style='text-align:left'>event</th>{head}<th></th></tr></thead>"
        f"<tbody>{rows}</tbody></table><p>{escape(life.failure.sentence)}</p></div>"
    )


def _columns(events: Sequence[Event]) -> list[tuple[str, str, list[float | None]]]:
    """Heading, dimension and values of each column of numbers."""
    return [
        ("load", "force", [e.load for e in events]),
        ("moment", "moment", [e.moment for e in events]),
        ("x", "length", [e.x for e in events]),
        ("deflection", "length", [e.deflection for e in events]),
        ("crack", "crack width", [e.crack_width for e in events]),
    ]

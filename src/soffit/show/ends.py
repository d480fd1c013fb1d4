"""The ends of a prestressed beam as text: one table an end, the working of every check, and what was not checked."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from soffit.codes.working import Working
from soffit.detail.ends import End, Ends, Line
from soffit.show.columns import Line as Text
from soffit.show.columns import coloured, grid, hanging, plain, wrapped
from soffit.show.numbers import NOTHING, THIN, Units, column, given, quantity, sig, unit
from soffit.show.working import formula

_AREA: dict[str, tuple[str, float]] = {"SI": ("mm²", 1.0), "US": ("in²", 25.4**2)}
_WORDS = {"left": "Left end", "right": "Right end"}
INDENT = 3
ROOM = 30.0
"""Between stirrups, mm: less cannot be cast (*common practice*, an aggregate of 20 mm and some more)."""


def told(
    found: Ends,
    units: Units | None = None,
    width: int | None = None,
    colours: str | None = None,
    written: Sequence[str] = (),
) -> str:
    """The whole text; the arguments are those of :func:`soffit.show.story.told`."""
    lines = _lines(found, units or found.beam.units, width, written)
    return coloured(lines, colours) if colours else plain(lines)


def _lines(found: Ends, units: Units, width: int | None, written: Sequence[str]) -> list[Text]:
    beam = found.beam
    head = f"{beam.name}: the ends by {found.standard}"
    lines: list[Text] = [[(piece, "strong")] for piece in wrapped(head, width)]
    ends = found.ends[:1] if found.alike else found.ends
    for end in ends:
        lines += [[], [("Both ends alike" if found.alike else _WORDS[end.side], "strong")], []]
        lines += _table(end, units, width)
    for end in ends:
        name = "" if found.alike else f", {_WORDS[end.side].lower()}"
        if end.lines or end.more:
            lines += [[], [(f"Working{name}", "strong")]]
        for line in end.lines:
            lines += _worked(line, units, width)
        lines += _more(end.more, units, width)
    lines += _said("Assumed", [*found.assumptions, *_of_both(found, lambda e: e.assumptions)], width)
    lines += _said("Not checked", [f"{_capital(t)}." for t in _of_both(found, lambda e: e.not_checked)], width)
    lines += _said(
        "Caution",
        [*found.cautions, "For a licensed engineer to review; the local code and the supplier of the anchor govern."],
        width,
        "fails",
    )
    lines += _said("Written", list(written), width)
    return [*lines, [], *([(piece, "strong")] for piece in wrapped(closing(found, units), width))]


def _table(end: End, units: Units, width: int | None) -> list[Text]:
    if not end.lines:
        return [[("nothing could be checked", "faint")]]
    area, size = _AREA[units]
    ties = [line.tie for line in end.lines]
    forces = column(
        [t.force.value if t else _demand(line) for t, line in zip(ties, end.lines, strict=True)], "force", units
    )
    needed = [NOTHING if t is None else sig(t.steel.value / size) for t in ties]
    there = [sig(line.check.resistance.value / size) if line.tie else NOTHING for line in end.lines]
    rows = [
        ["check", "force", "steel needed", "there", "within", "ratio", "", "clause"],
        ["", unit("force", units), area, area, unit("length", units), "", "", ""],
        *(
            [
                line.title,
                force,
                need,
                have,
                quantity(line.tie.length.value, "length", units).split(THIN)[0] if line.tie else NOTHING,
                sig(line.check.ratio) if isfinite(line.check.ratio) else "∞",
                verdict(line),
                line.check.clause,
            ]
            for line, force, need, have in zip(end.lines, forces, needed, there, strict=True)
        ),
    ]
    cells = grid(rows, "lrrrrrll")
    if width is not None and INDENT + sum(len(cell) + 2 for cell in cells[0]) - 2 > width:
        cells = [row[:-1] for row in cells]  # the clause stands with the working too
    texts: list[Text] = []
    for i, row in enumerate(cells):
        style = "faint" if i < 2 else ""
        spans: Text = [(" " * INDENT, "")]
        for j, cell in enumerate(row):
            bad = i >= 2 and j == 6 and not end.lines[i - 2].check.kept
            spans.append((cell + "  ", "fails" if bad else style))
        texts.append(spans)
    return texts


def _demand(line: Line) -> float | None:
    return line.check.demand.value if line.check.demand.kind == "force" else None


def verdict(line: Line) -> str:
    """``"holds"`` or ``"fails"``; a check is never told by its colour alone."""
    return "holds" if line.check.kept else "fails"


def _worked(line: Line, units: Units, width: int | None) -> list[Text]:
    texts: list[Text] = [[], [(" " * INDENT + _capital(line.title), "strong"), (f"  {line.check.clause}", "faint")]]
    for working in line.check.workings:
        texts += formula(working, units, width, " " * 2 * INDENT)
    if line.tie is not None:
        texts += _placed(line, units, width)
    return texts


def _placed(line: Line, units: Units, width: int | None) -> list[Text]:
    """How many stirrups, of what size, how far apart and where."""
    assert line.tie is not None
    if line.stirrups == 0:
        text = "No steel is needed."
    else:
        text = f"Needed: {stirrups(line, units)}"
        if line.stirrups > 1:
            text += f", at {quantity(line.spacing, 'length', units)} or closer"
        if line.tie.centre:
            text += f", their middle {quantity(line.tie.centre.value, 'length', units)} from it"
        text += "."
        if line.stirrups > 1 and line.spacing < line.diameter + ROOM:
            text += " That is closer than can be cast: larger plates, spirals or hairpins instead (common practice)."
    room = None if width is None else width - 2 * INDENT
    return [[(" " * 2 * INDENT, ""), (piece, "")] for piece in wrapped(text, room)]


def stirrups(line: Line, units: Units) -> str:
    """``"12 stirrups of 2 × 10 mm within 640 mm of the face"``."""
    assert line.tie is not None
    many = "stirrup" if line.stirrups == 1 else "stirrups"
    length = quantity(line.tie.length.value, "length", units)
    size = given(line.diameter, "length", units)
    return f"{line.stirrups} {many} with {line.legs} legs of {size} within {length} of the face"


def _more(more: Sequence[tuple[str, Sequence[Working]]], units: Units, width: int | None) -> list[Text]:
    texts: list[Text] = []
    for title, workings in more:
        texts += [[], [(" " * INDENT + _capital(title), "strong"), ("  no check of its own", "faint")]]
        for working in workings:
            texts += formula(working, units, width, " " * 2 * INDENT)
    return texts


def _of_both(found: Ends, of: object) -> list[str]:
    """Sentences of both ends; what holds for one alone names it."""
    assert callable(of)
    left, right = (list(of(end)) for end in found.ends)
    both = [text for text in left if text in right]
    alone = [f"Left end: {text}" for text in left if text not in right]
    return [*both, *alone, *(f"Right end: {text}" for text in right if text not in left)]


def _said(label: str, texts: Sequence[str], width: int | None, style: str = "") -> list[Text]:
    return [[], *hanging(label, texts, width, 13, "" if style == "fails" else style)] if texts else []


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def closing(found: Ends, units: Units) -> str:
    """One sentence for the phone."""
    failing = [(end, line) for end in found.ends for line in end.lines if not line.check.kept]
    every = [(end, line) for end in found.ends for line in end.lines]
    name = found.beam.name
    if not every:
        return f"{name}: nothing at its ends could be checked."
    rest = "; some things were not checked" if any(end.not_checked for end in found.ends) else ""
    if not failing:
        _, worst = max(every, key=lambda pair: pair[1].check.ratio)
        used = f"{sig(100 * worst.check.ratio, 2)} %"
        return f"{name}: what was checked at the ends holds, {worst.title} with {used} of it used{rest}."
    _, worst = max(failing, key=lambda pair: (pair[1].check.ratio, pair[1].check.demand.value))
    many = {each.side: len([line for other, line in failing if other is each]) for each in found.ends}
    if found.alike:
        text = f"{_fail(many['left'])} at both ends"
    else:
        text = " and ".join(f"{_fail(n)} at the {side} end" for side, n in many.items() if n)
    text = f"{name}: {text}, first of all {worst.title}"
    if worst.tie is not None and worst.stirrups:
        return f"{text}, which needs {stirrups(worst, units)}{rest}."
    return f"{text}, by {sig(100 * (worst.check.ratio - 1), 2)} %{rest}."


def _fail(count: int) -> str:
    return f"{count} {'check fails' if count == 1 else 'checks fail'}"

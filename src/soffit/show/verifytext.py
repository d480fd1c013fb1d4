"""A verification as text: every check by its ratio, the cures, the workings that were asked for, what is left out."""

from __future__ import annotations

from collections.abc import Sequence

from soffit.codes.verification import Verification
from soffit.codes.working import Check
from soffit.show import working as worked
from soffit.show.columns import Line as Text
from soffit.show.columns import bare, coloured, grid, hanging, plain, wrapped
from soffit.show.numbers import Units
from soffit.show.verifywords import closing, cured, governs, number, place, used, verdict

INDENT = 3
LABEL = 13
CURED = 2
"""Failing checks for which a cure is sought: each takes some verifications."""


def told(
    found: Verification,
    units: Units | None = None,
    width: int | None = None,
    colours: str | None = None,
    written: Sequence[str] = (),
    working: str | None = None,
    brief: bool = False,
) -> str:
    """The whole text. ``working``: key, or its beginning, of the checks whose working is shown; ``"all"`` for all;
    the other arguments are those of :func:`soffit.show.story.told`."""
    own = units or found.beam.units
    if brief:
        return bare(closing(found, own))
    lines = _lines(found, own, width, written, working)
    return coloured(lines, colours) if colours else plain(lines)


def wanted(found: Verification, working: str | None) -> list[Check]:
    """The checks whose working is shown, as :func:`told` takes them; a whole title does too."""
    if working is None:
        return []
    return [c for c in found.checks if working == "all" or c.key.startswith(working) or c.title == working]


def _lines(
    found: Verification, units: Units, width: int | None, written: Sequence[str], working: str | None
) -> list[Text]:
    lines: list[Text] = [[(piece, "strong")] for piece in wrapped(f"{found.beam.name}, by {found.name}", width)]
    lines.append([])
    lines += _table(found, units, width)
    if found.governing is not None:
        said = [_capital(governs(found, units))]
        said += [_capital(cured(found, check, units)) for check in found.failing[:CURED]]
        if len(found.failing) > CURED:
            more = len(found.failing) - CURED
            fail = "check fails" if more == 1 else "checks fail"
            said.append(f"{_capital(number(more))} more {fail}; mend these first.")
        lines += _said("Governs", said, width)
    checks = wanted(found, working)
    for check in checks:
        lines += workings(check, width)
    left = [f"{_capital(u.title)}: {u.why}{f' ({u.clause})' if u.clause else ''}." for u in found.unchecked]
    lines += _said("Not checked", left, width)
    lines += _said("Assumed", found.assumptions, width)
    lines += _said("Caution", found.cautions, width, "fails")
    lines += _said("Written", list(written), width)
    return [*lines, [], *([(piece, "strong")] for piece in wrapped(closing(found, units), width))]


def _table(found: Verification, units: Units, width: int | None) -> list[Text]:
    if not found.checks:
        return [[("nothing was checked", "faint")]]
    rows = [["check", "at", "demand", "resistance", "ratio", "", "clause"]]
    for check in found.checks:
        own = worked.units_of(check.resistance, units)
        shown = [worked.result(each, own) for each in (check.demand, check.resistance)]
        rows.append([check.title, place(check, units), *shown, used(check), verdict(check), check.clause])
    cells = grid(rows, "lrrrrll")
    if width is not None and INDENT + sum(len(cell) + 2 for cell in cells[0]) - 2 > width:
        cells = [row[:-1] for row in cells]  # the clause stands with the working too
    if width is not None and INDENT + sum(len(cell) + 2 for cell in cells[0]) - 2 > width:
        cells = [[row[0], *row[4:]] for row in cells]
    word = next(i for i, cell in enumerate(cells[1]) if cell.strip() == verdict(found.checks[0]))
    texts: list[Text] = []
    for i, row in enumerate(cells):
        spans: Text = [(" " * INDENT, "")]
        for j, cell in enumerate(row):
            bad = i > 0 and j == word and not found.checks[i - 1].kept
            spans.append((cell + "  ", "fails" if bad else "faint" if i == 0 else ""))
        texts.append(spans)
    return texts


def workings(check: Check, width: int | None) -> list[Text]:
    """The working of one check, under its title."""
    head: Text = [(" " * INDENT + _capital(check.title), "strong"), (f"  {check.clause}  [{check.key}]", "faint")]
    texts: list[Text] = [[], head]
    if check.combination:
        room = None if width is None else width - 2 * INDENT
        texts += [[(" " * 2 * INDENT, ""), (piece, "faint")] for piece in wrapped(f"under {check.combination}", room)]
    for each in check.workings:
        texts += worked.formula(each, worked.units_of(each, "SI"), width, " " * 2 * INDENT)
    for sentence in check.assumptions:
        room = None if width is None else width - 2 * INDENT
        texts += [[(" " * 2 * INDENT, ""), (piece, "")] for piece in wrapped(sentence, room)]
    return texts


def _said(label: str, texts: Sequence[str], width: int | None, style: str = "") -> list[Text]:
    return [[], *hanging(label, texts, width, LABEL, style if style != "fails" else "")] if texts else []


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]

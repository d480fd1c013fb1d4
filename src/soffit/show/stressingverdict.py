"""What became of the stressing, as text: a verdict a tendon, the force that its elongation implies, and why."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from soffit.detail.measured import Cause, Verdict
from soffit.detail.stressing import StressingSheet
from soffit.show.columns import Line, coloured, grid, hanging, plain, wrapped
from soffit.show.numbers import MINUS, NOTHING, Units, fixed, quantity, sig, unit
from soffit.show.stressingtable import LABEL, figures

STOP = "Stop: find the cause and have it put right before going on; stand clear of the line of the tendon meanwhile."
PROPORTION = (
    "What came out before the first mark is added in proportion to the computed elongations; each cause is one that "
    "alone would explain the whole difference."
)


def told(
    sheet: StressingSheet,
    verdicts: Sequence[Verdict],
    open_ones: Sequence[str] = (),
    units: Units | None = None,
    width: int | None = None,
    colours: str | None = None,
) -> str:
    """The verdicts as text. ``open_ones``: names of tendons that were not measured."""
    lines = text(sheet, verdicts, open_ones, units or sheet.beam.units, width)
    return coloured(lines, colours) if colours else plain(lines)


def text(
    sheet: StressingSheet, verdicts: Sequence[Verdict], open_ones: Sequence[str], units: Units, width: int | None
) -> list[Line]:
    lines: list[Line] = [[(piece, "strong")] for piece in wrapped(f"{sheet.beam.name}: as stressed", width)]
    lines += [[], *_table(verdicts, units), []] if verdicts else [[]]
    lines += hanging("why", _whys(verdicts, units), width, LABEL)
    lines += hanging("together", _together(verdicts), width, LABEL)
    by_sheet = [v.line.name for v in verdicts if v.reading.gauge is None]
    taken = [f"{_listed(by_sheet)}: no gauge reading is given, so the force of the sheet is taken as put on."]
    rule = {f"± {100 * g.tolerance.share:g} % ({g.tolerance.source})" for g in (v.line.group for v in verdicts)}
    assumed = [f"Tolerance {' or '.join(sorted(rule))}.", PROPORTION, *(taken if by_sheet else [])]
    lines += hanging("assumed", assumed if verdicts else [], width, LABEL, "faint")
    bad = [v for v in verdicts if v.word != "agrees"]
    lines += hanging("caution", [*([STOP] if bad else []), *_overpulled(verdicts)], width, LABEL, "fails")
    last = "fails" if bad else "strong"
    return [*lines, [], *([(piece, last)] for piece in wrapped(closing(sheet, verdicts, open_ones), width))]


def _table(verdicts: Sequence[Verdict], units: Units) -> list[Line]:
    mm, kn = unit("length", units), unit("force", units)
    cells_of = [
        figures([v.elongation for v in verdicts], "length", units),
        figures([v.expected for v in verdicts], "length", units),
        [_percent(v.difference) for v in verdicts],
        figures([v.by_gauge for v in verdicts], "force", units),
        figures([v.implied for v in verdicts], "force", units),
        [_percent(v.force_difference) for v in verdicts],
        figures([v.locked for v in verdicts], "force", units),
        [_percent(None if v.lost is None else -v.lost) for v in verdicts],
    ]
    head = ["tendon", "elongation", "expected", "", "gauge", "implied", "", "locked off", "", ""]
    rows = [
        head,
        ["", mm, mm, "%", kn, kn, "%", kn, "%", ""],
        *([v.line.name, *row, v.word] for v, row in zip(verdicts, zip(*cells_of, strict=True), strict=True)),
    ]
    kept = [i for i in range(len(head)) if any(row[i] not in ("", NOTHING) for row in rows[2:])]
    align = "lrrrrrrrrl"
    cells = grid([[row[i] for i in kept] for row in rows], "".join(align[i] for i in kept))
    lines: list[Line] = [[("  ".join(row), "faint")] for row in cells[:2]]
    for verdict, row in zip(verdicts, cells[2:], strict=True):
        style = "" if verdict.word == "agrees" else "fails"
        lines.append([("  ".join(row[:-1]) + "  ", ""), (row[-1], style)])
    return lines


def _percent(share: float | None) -> str:
    if share is None:
        return NOTHING
    text = fixed(100.0 * share, 1)
    return text if text.startswith(MINUS) or not text.strip("0.") else f"+{text}"


def _whys(verdicts: Sequence[Verdict], units: Units) -> list[str]:
    """One sentence for each run of tendons that have the same reason in the same words."""
    said = [(v.line.name, _why(v, units)) for v in verdicts if v.word != "agrees"]
    return [
        f"{_listed([name for name, _ in run])}: {sentence}"
        for sentence, found in groupby(said, key=lambda each: each[1])
        if (run := list(found))
    ]


def _why(verdict: Verdict, units: Units) -> str:
    gauge = 100.0 * verdict.by_gauge / verdict.line.group.force
    match verdict.word:
        case "cannot be":
            return "no force that the steel bears stretches it so far; the reading or its unit is wrong, or it slipped."
        case "gauge too low" | "gauge too high":
            return f"the gauge shows {gauge:.0f} % of the force of the sheet, and the elongation goes with that."
        case "slipped back":
            here, sheet = (
                quantity(value, "length", units)
                for value in (verdict.reading.draw_in or 0.0, verdict.line.group.draw_in)
            )
            return f"the anchor drew in {here} where the sheet has {sheet}, and more force is gone than may be."
        case _:
            return "; or ".join(_cause(cause, units) for cause in verdict.causes) + "."


def _cause(cause: Cause, units: Units) -> str:
    match cause.kind:
        case "friction":
            least = quantity(cause.least, "force", units)
            return f"friction and wobble {sig(cause.value, 2)} times those of the file (then {least} at the least)"
        case "friction not given":
            return "friction, of which the file has none"
        case "modulus":
            return f"modulus times area {_percent(cause.value - 1.0)} %"
        case "gauge":
            return "a gauge or a jack that shows too much"
        case "slip":
            return f"a dead end that slipped by {quantity(cause.value, 'length', units, 2)}"
        case "slack":
            return "slack that was measured with it"
        case "nut factor":
            return f"by the wrench, a nut factor of {sig(cause.value, 2)}"
        case "mark":
            return f"a first mark made at {sig(100.0 * cause.value, 2)} % of the force"


def _overpulled(verdicts: Sequence[Verdict]) -> list[str]:
    """Tendons that were pumped beyond what a standard allows."""
    said: dict[str, list[str]] = {}
    for v in verdicts:
        group = v.line.group
        for limit in group.limits:
            if limit.when == "at the jack" and v.by_gauge / group.one > limit.stress * (1.0 + 1e-9):
                said.setdefault(f"{limit.standard} {limit.clause}", []).append(v.line.name)
    return [
        f"{_listed(names)}: by the gauge, pulled to more than {clause} allows at the jack."
        for clause, names in said.items()
    ]


def _together(verdicts: Sequence[Verdict]) -> list[str]:
    """Whether all are off to one side, which no single tendon explains."""
    if len(verdicts) < 2:
        return []
    shares = [v.difference for v in verdicts]
    mean = sum(shares) / len(shares)
    sentence = (
        f"Elongations {_percent(min(shares))} to {_percent(max(shares))} % off the expected ones, "
        f"in the mean {_percent(mean)} %"
    )
    if (min(shares) > 0.0 or max(shares) < 0.0) and abs(mean) > max(shares) - min(shares):
        sentence += "; all to one side and alike, so look at gauge, friction and modulus before the single tendon"
    return [f"{sentence}."]


def _listed(names: Sequence[str]) -> str:
    if len(names) > 6:
        return f"{names[0]} to {names[-1]} ({len(names)} tendons)"
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def closing(sheet: StressingSheet, verdicts: Sequence[Verdict], open_ones: Sequence[str]) -> str:
    """One sentence that a colleague could be told on the phone."""
    bad = [v.line.name for v in verdicts if v.word != "agrees"]
    count = len(sheet.tendons)
    good = len(verdicts) - len(bad)
    parts = [f"force and elongation agree in {good or 'none'} of {count} tendons"]
    if bad and good:
        parts.append(f"not in {_listed(bad)}")
    if open_ones:
        parts.append(f"{len(open_ones)} {'is' if len(open_ones) == 1 else 'are'} not measured")
    return f"{sheet.beam.name}: {', '.join(parts)}."

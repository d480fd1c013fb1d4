"""The stressing sheet as text: cautions first, the groups, the tendons in their order, limits, and what was assumed."""

from __future__ import annotations

from collections.abc import Sequence

from soffit.detail.stressing import SEATING, GroupSheet, StressingSheet
from soffit.show import stressingwords as words
from soffit.show.columns import Line, coloured, grid, hanging, plain, wrapped
from soffit.show.numbers import NOTHING, Units, column, decimals, in_unit, unit
from soffit.show.story import beam_line

LABEL = 12
"""Columns of the labels at the left of what is said in sentences."""
BLANK = "________"
"""Room to write, where the printed text is taken to the site."""


def told(
    sheet: StressingSheet,
    units: Units | None = None,
    width: int | None = None,
    colours: str | None = None,
    written: Sequence[str] = (),
) -> str:
    """The whole text; the arguments are those of :func:`soffit.show.story.told`."""
    lines = text(sheet, units or sheet.beam.units, width, written)
    return coloured(lines, colours) if colours else plain(lines)


def text(sheet: StressingSheet, units: Units, width: int | None, written: Sequence[str]) -> list[Line]:
    groups = sheet.groups
    lines: list[Line] = [[(piece, "strong")] for piece in wrapped(f"{sheet.beam.name}: stressing sheet", width)]
    lines += [[(piece, "faint")] for piece in wrapped(beam_line(sheet.beam, units), width)]
    lines += [[], *hanging("caution", words.cautions(sheet), width, LABEL), []]
    lines += table(group_rows(groups, units), "lrlrrrrrrrrr")
    lines += [[], *table(tendon_rows(sheet, units), "rlrrrrl")]
    lines += [[], *table(limit_rows(groups, units), "lllrrrl")] if any(g.limits for g in groups) else []
    lines += [[]]
    lines += hanging("ends", [t for g in groups if (t := words.ends(g, units))], width, LABEL)
    lines += hanging("losses", [t for g in groups if (t := words.losses(g))], width, LABEL)
    lines += hanging("rods", [t for g in groups for t in words.rod(g, units)], width, LABEL)
    lines += hanging("assumed", words.assumed(sheet, units), width, LABEL, "faint")
    lines += hanging("not checked", [words.NOT_CHECKED], width, LABEL, "faint")
    lines += hanging("written", [", ".join(written)] if written else [], width, LABEL)
    return [*lines, [], *([(piece, "strong")] for piece in wrapped(words.closing(sheet, units), width))]


def table(rows: Sequence[Sequence[str]], align: str) -> list[Line]:
    """Two rows of heads, then rows of cells; columns that are empty throughout are left out."""
    kept = [i for i in range(len(align)) if any(row[i] not in ("", NOTHING) for row in rows[2:])]
    cells = grid([[row[i] for i in kept] for row in rows], "".join(align[i] for i in kept))
    return [[("  ".join(row), "faint" if n < 2 else "")] for n, row in enumerate(cells)]


def figures(values: Sequence[float | None], dimension: str, units: Units) -> list[str]:
    """A column in which the smallest number has three digits too: "5.33" beside "17.82"."""
    shown = [abs(in_unit(v, dimension, units)) for v in values if v]
    more = max(decimals(min(shown)), 0) - max(decimals(max(shown)), 0) if shown else 0
    return column(values, dimension, units, 3 + min(more, 2))


def group_rows(groups: Sequence[GroupSheet], units: Units) -> list[list[str]]:
    mm = unit("length", units)
    bands = [g.band or (None, None) for g in groups]
    lengths = [
        *([g.elongation for g in groups], [b[0] for b in bands], [b[1] for b in bands]),
        [None if g.elongation is None else g.at_mark * g.elongation for g in groups],
        [g.draw_in or None for g in groups],
        [g.kept for g in groups],
    ]
    cells = [
        figures([g.tendon.stress for g in groups], "stress", units),
        figures([g.force for g in groups], "force", units),
        figures([g.gauge for g in groups], "pressure", units),
        *(figures(values, "length", units) for values in lengths),
    ]
    mark = f"at {100 * SEATING:.0f} %"
    return [
        ["group", "", "jack", "stress", "force", "gauge", "elongation", "least", "greatest", mark, "draw-in", "kept"],
        [*["", "", ""], unit("stress", units), unit("force", units), unit("pressure", units), *[mm] * 6],
        *(
            [g.name, f"{g.tendon.count} ×", jack(g), *row]
            for g, row in zip(groups, zip(*cells, strict=True), strict=True)
        ),
    ]


def jack(group: GroupSheet) -> str:
    """Where the jack stands."""
    if group.pretensioned:
        return "bed"
    return {"left": "left end", "right": "right end", "both": "both ends"}[group.tendon.jacked_from]


def tendon_rows(sheet: StressingSheet, units: Units) -> list[list[str]]:
    force, mm = unit("force", units), unit("length", units)
    lines = sheet.tendons
    cells = [
        figures([line.group.force for line in lines], "force", units),
        figures([line.group.elongation for line in lines], "length", units),
        figures([line.group.locked_force for line in lines], "force", units),
        figures([line.force_left for line in lines], "force", units),
    ]
    return [
        ["turn", "tendon", "jacking force", "expected", "after lock-off", "when all are stressed", "measured"],
        ["", "", force, mm, force, force, mm],
        *([str(line.place), line.name, *row, BLANK] for line, row in zip(lines, zip(*cells, strict=True), strict=True)),
    ]


def limit_rows(groups: Sequence[GroupSheet], units: Units) -> list[list[str]]:
    found = [(g.name, limit) for g in groups for limit in g.limits]
    allowed = column([limit.stress for _, limit in found], "stress", units)
    there = column([limit.stress * limit.ratio for _, limit in found], "stress", units)
    return [
        ["group", "limit", "", "allowed", "there", "share", ""],
        ["", "", "", unit("stress", units), unit("stress", units), "%", ""],
        *(
            [
                name,
                f"{limit.when}: {limit.rule}",
                f"{limit.standard} {limit.clause}",
                most,
                here,
                f"{100 * limit.ratio:.0f}",
                "holds" if limit.kept else "fails",
            ]
            for (name, limit), most, here in zip(found, allowed, there, strict=True)
        ),
    ]

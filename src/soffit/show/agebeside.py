"""What the standards' own formulas say of losses, beside what the steps say: a table, and why they differ."""

from __future__ import annotations

from typing import Any

import numpy as np

from soffit.codes import beside
from soffit.codes.beside import Beside
from soffit.codes.lost import STEPS
from soffit.show.agetable import GROUPS_A_BLOCK, bends, lead, set_table
from soffit.show.agewords import BARE, Told, age, place_words
from soffit.show.columns import Line, hanging, wrapped
from soffit.show.numbers import Units, fixed, in_unit, unit

PARTS = ("elastic", "loads", "shrinkage", "creep", "relaxation", "rest")
INDENT = 4


def losses(told: Told, step: int) -> Beside:
    return beside.losses(told.past, told.station, step)


def lines(told: Told, step: int, units: Units, width: int | None) -> list[Line]:
    """Table and sentences; empty without tendons at the place."""
    found = losses(told, step)
    if not found.rows:
        return []
    keys = [k for k in PARTS if any(abs(getattr(row.parts, k)) > 0.05 for row in found.rows)]
    heads = [("", ""), *((k, "") for k in keys), ("total", "")]
    body = []
    for row in found.rows:
        by = f"step by step, {row.clause}" if row.by == STEPS else row.by
        body.append([by, *(_stress(getattr(row.parts, k), units) for k in (*keys, "total"))])
    until = age(float(told.past.t[step]))
    head = (
        f"losses after the jack, anchors and bed until {until} at {place_words(told, units)}, by the steps and by the "
    )
    head += f"standards, {unit('stress', units)}"
    align = "l" + "r" * (len(keys) + 1)
    table = lead(
        set_table(heads, list(zip(*body, strict=True)), align, strong=False), [r.of for r in found.rows], width
    )
    out: list[Line] = [*([(piece, "faint")] for piece in wrapped(head, width)), *table]
    for text in sentences(found):
        out += hanging("–", [text], width, INDENT, "faint")
    return out


def deflection_lines(told: Told, step: int, units: Units, width: int | None) -> list[Line]:
    """Deflections at the place by the formulas of the standards; empty where none speaks of this beam."""
    at = spanned(told, step)
    sagged = beside.sags(told.past, at, step)
    found = sagged.rows
    if len(found) < 2:
        return []
    heads = [("", ""), ("at first", unit("length", units)), ("by time", ""), ("total", ""), ("", "")]
    body = [
        [f"step by step, {row.clause}" if row.by == STEPS else f"{row.by} ({row.clause})" for row in found],
        *(bends([getattr(row, key) for row in found], units) for key in ("immediate", "added", "total")),
        ["end of life" if row.age is None else age(row.age) for row in found],
    ]
    head = f"deflection at {place_words(told, units, float(told.past.x[at]))} by the steps and by formulas"
    out: list[Line] = [[(head, "faint")], *set_table(heads, body, "lrrrl", strong=False)]
    for text in (*(row.sentence for row in found if row.sentence), *sagged.left_out):
        out += hanging("–", [text], width, INDENT, "faint")
    return out


def spanned(told: Told, step: int) -> int:
    """Station for the formulas of deflection, which go by the section there: where it bears next to no moment, as at
    the tip of an overhang, the one where the beam bends most."""
    moment = np.abs(told.past.moment[step])
    return told.past.middle if moment[told.bent] < BARE * moment.max(initial=0.0) else told.bent


def sentences(found: Beside) -> list[str]:
    """Why each formula differs; of many groups only those that see all tendons together."""
    many = len({row.groups for row in found.rows if len(row.groups) == 1}) > GROUPS_A_BLOCK
    told = [row for row in found.rows if row.sentence and (len(row.groups) > 1 or not many)]
    alone = len({row.groups for row in found.rows}) < 2
    return [*(row.sentence if alone else f"{row.of}: {row.sentence}" for row in told), *found.left_out]


def as_dicts(told: Told) -> list[dict[str, Any]]:
    """For JSON: until the last step, MPa."""
    return [
        {
            "tendons": row.of,
            "by": row.by,
            "clause": row.clause,
            "age_days": row.age,
            **{f"{key}_MPa": getattr(row.parts, key) for key in (*PARTS, "total")},
            "sentence": row.sentence,
        }
        for row in losses(told, len(told.past.t) - 1).rows
    ]


def deflections_as_dicts(told: Told) -> list[dict[str, Any]]:
    """For JSON: at the place until the last step, mm, down positive."""
    return [
        {
            "by": row.by,
            "clause": row.clause,
            "age_days": row.age,
            "x_mm": row.x,
            "immediate_mm": row.immediate,
            "total_mm": row.total,
            "sentence": row.sentence,
        }
        for row in beside.deflections(told.past, spanned(told, len(told.past.t) - 1))
    ]


def _stress(value: float, units: Units) -> str:
    return fixed(in_unit(value, "stress", units), 2 if units == "US" else 1)

"""The stresses of every stage against the limits of the standards: the one that is nearest to its limit, or all."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite
from typing import Any

from soffit.codes.stages import StageCheck, at_stages
from soffit.show.agetable import SHOWN_PLACE, lead, set_table
from soffit.show.agewords import LONG, Told, age
from soffit.show.columns import Line, hanging, wrapped
from soffit.show.numbers import NOTHING, Units, column, fixed, in_unit, unit

INDENT = 4


def lines(told: Told, units: Units, width: int | None, every: bool = False) -> list[Line]:
    """A table and a sentence for what is beyond a limit. ``every``: all limits, else for each stage and standard the
    one that is used most."""
    checks = at_stages(told.past)
    if not checks:
        return []
    shown = checks if every else nearest(checks)
    numbers = {id(i): n for n, i in enumerate(told.past.instants, start=1)}
    x = SHOWN_PLACE[told.past.beam.length > LONG]
    heads = [
        ("standard", ""), ("clause", ""), ("rule", ""), ("where", ""), ("x", unit(x, units)),
        ("stress", unit("stress", units)), ("limit", ""), ("used", "%"), ("", ""),
    ]  # fmt: skip
    body = [
        [c.standard for c in shown],
        [c.clause for c in shown],
        [c.rule for c in shown],
        [f"{c.where}, {c.what}" if c.what in ("compression", "tension") else c.where for c in shown],
        column([c.x for c in shown], x, units),
        [_stress(c.stress, units) for c in shown],
        [_stress(-c.limit if c.what == "compression" else c.limit, units) for c in shown],
        [_used(c) for c in shown],
        [verdict(c) for c in shown],
    ]
    names = [f"{numbers[id(c.instant)]}  {age(c.age, short=True)}" for c in shown]
    table = lead(set_table(heads, body, "llllrrrrl", strong=False), names, width)
    what = "every limit" if every else "of each standard the limit that is used most (--limits prints every one)"
    head = f"stresses along the beam after each stage against limits: {what}; the worst place counts"
    out: list[Line] = [[(piece, "faint")] for piece in wrapped(head, width)]
    offset = len(table) - len(shown) if len(table[-1]) > 1 else None
    for i, line in enumerate(table):
        bad = offset is not None and i >= offset and broken(shown[i - offset])
        out.append([(text, "fails" if bad and style == "" and k else style) for k, (text, style) in enumerate(line)])
    for text in beyond(checks, units):
        out += hanging("–", [text], width, INDENT)
    return out


def nearest(checks: Sequence[StageCheck]) -> list[StageCheck]:
    """Of every stage and standard the check that uses most of its limit; those that forbid something go first."""
    best: dict[tuple[int, str], StageCheck] = {}
    for check in checks:
        key = (id(check.instant), check.standard)
        held = best.get(key)
        if held is None or (check.binding, check.ratio) > (held.binding, held.ratio):
            best[key] = check
    return list(best.values())


def short(told: Told) -> str:
    """In one sentence whether the limits that forbid something are kept; empty where none applies."""
    forbid = [c for c in at_stages(told.past) if c.binding]
    failed: dict[str, StageCheck] = {}
    for check in sorted((c for c in forbid if not c.kept), key=lambda c: -c.ratio):
        failed.setdefault(check.standard, check)
    if failed:
        listed = "; ".join(f"{c.standard} {c.clause} at {age(c.age)}, {c.where}" for c in failed.values())
        return f"Limits of stress are not kept: {listed}."
    return "Every limit of stress that forbids something is kept." if forbid else ""


def broken(check: StageCheck) -> bool:
    return check.binding and not check.kept


def verdict(check: StageCheck) -> str:
    if check.kept:
        return "kept"
    return "not kept" if check.binding else "beyond it"


def beyond(checks: Sequence[StageCheck], units: Units) -> list[str]:
    """One sentence for each limit that is passed at some stage, told for the stage where it is passed most."""
    worst: dict[tuple[str, str, str], StageCheck] = {}
    for check in checks:
        key = (check.standard, check.rule, check.what)
        if not check.kept and (key not in worst or check.ratio > worst[key].ratio):
            worst[key] = check
    found = []
    for check in sorted(worst.values(), key=lambda c: not c.binding):
        lead_in = "Not kept" if check.binding else "Beyond"
        size, limit = (f"{_stress(abs(v), units)} {unit('stress', units)}" for v in (check.stress, check.limit))
        text = f"{lead_in}: {check.standard} {check.clause}, {check.rule}".rstrip(", ")
        text += f" = {limit}, at {age(check.age)}: {size} of {check.what} at the {check.where}"
        strength = f" ({check.strength})" if check.strength else ""
        found.append(f"{text}{strength}. {check.note}".rstrip())
    names = ", ".join(dict.fromkeys(c.standard for c in checks if c.binding))
    if names and not any(broken(c) for c in checks):
        found.insert(0, f"Every limit that forbids something is kept ({names}).")
    return found


def as_dicts(told: Told) -> list[dict[str, Any]]:
    """Every check, for JSON."""
    numbers = {id(i): n for n, i in enumerate(told.past.instants, start=1)}
    return [
        {
            "stage": numbers[id(c.instant)],
            "age_days": c.age,
            "limits": c.kind,
            "standard": c.standard,
            "clause": c.clause,
            "rule": c.rule,
            "what": c.what,
            "where": c.where,
            "x_mm": c.x,
            "stress_MPa": c.stress,
            "limit_MPa": c.limit,
            "ratio": c.ratio if isfinite(c.ratio) else None,
            "kept": bool(c.kept),
            "forbids": c.binding,
            "strength": c.strength,
            "note": c.note,
        }
        for c in at_stages(told.past)
    ]


def _used(check: StageCheck) -> str:
    return fixed(100 * check.ratio, 0) if isfinite(check.ratio) else NOTHING


def _stress(value: float, units: Units) -> str:
    return fixed(in_unit(value, "stress", units), 2 if units == "SI" else 3)

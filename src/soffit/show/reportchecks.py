"""The checks of a calculation: the summary by ratio, then every working."""

from __future__ import annotations

from typing import Any

from soffit.codes.verification import Verification
from soffit.codes.working import Check, Working
from soffit.show import working as worked
from soffit.show.numbers import Units
from soffit.show.reportblocks import Block, capital
from soffit.show.reportmath import equation, short
from soffit.show.verifywords import place, used, verdict


def summary(found: Verification, units: Units) -> Block:
    """All checks, the most used first, each with the page of its working."""
    rows = []
    for i, check in enumerate(found.checks, start=1):
        own = worked.units_of(check.resistance, units)
        rows.append({
            "number": i, "title": capital(check.title), "clause": check.clause, "at": place(check, units),
            "demand": worked.result(check.demand, own), "resistance": worked.result(check.resistance, own),
            "ratio": used(check), "share": min(check.ratio, 1.0), "verdict": verdict(check),
        })  # fmt: skip
    return {"kind": "summary", "rows": rows}


def checks(found: Verification, units: Units) -> list[Block]:
    """The workings, in the order and with the numbers of the summary.

    A working that an earlier check has shown with the same numbers is told with its result and a pointer to it.
    """
    seen: dict[Working, int] = {}
    return [_check(check, i, units, seen) for i, check in enumerate(found.checks, start=1)]


def _check(check: Check, number: int, units: Units, seen: dict[Working, int]) -> Block:
    own = worked.units_of(check.resistance, units)
    rows: list[dict[str, Any]] = []
    for each in check.workings:
        before = seen.setdefault(each, number)
        row: dict[str, Any] = {"what": capital(each.what), "clause": each.clause, "mark": each.mark}
        if before != number and each not in (check.demand, check.resistance):
            row |= {"parts": short(each, units), "as": before}
        else:
            row |= {"parts": equation(each, units)}
        rows.append(row)
    return {
        "kind": "check", "number": number, "title": capital(check.title), "clause": check.clause,
        "at": place(check, units), "under": check.combination, "verdict": verdict(check), "ratio": used(check),
        "demand": worked.result(check.demand, own), "resistance": worked.result(check.resistance, own),
        "rows": rows, "assumptions": list(check.assumptions),
    }  # fmt: skip

"""The checks of a calculation: the summary by ratio, then every working."""

from __future__ import annotations

from typing import Any

from soffit.codes.verification import Verification
from soffit.codes.working import Check, Working
from soffit.show import working as worked
from soffit.show.numbers import Units
from soffit.show.reportblocks import Block, capital
from soffit.show.reportmath import Tree, breadth, equation, short
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


BESIDE = 48.0
"""mm of the text's width that a formula does not have: number of the check, gap, clause."""
EM = 9.5 / 72.0 * 25.4
EQUALS = 1.4
"""em."""


def checks(found: Verification, units: Units, room: float) -> list[Block]:
    """The workings, in the order and with the numbers of the summary.

    A working that an earlier check has shown with the same numbers is told with its result and a pointer to it.
    """
    seen: dict[Working, int] = {}
    return [_check(check, i, units, seen, (room - BESIDE) / EM) for i, check in enumerate(found.checks, start=1)]


def _check(check: Check, number: int, units: Units, seen: dict[Working, int], most: float) -> Block:
    own = worked.units_of(check.resistance, units)
    rows: list[dict[str, Any]] = []
    for each in check.workings:
        before = seen.setdefault(each, number)
        if before != number and each not in (check.demand, check.resistance):
            # neighbours that one earlier check has shown stand together
            if not (rows and rows[-1].get("as") == before):
                rows.append({"as": before, "together": []})
            rows[-1]["together"].append(short(each, units))
            continue
        parts = equation(each, units)
        rows.append({"what": capital(each.what), "clause": each.clause, "mark": each.mark, "parts": parts,
                     "long": _wide(parts) > most})  # fmt: skip
    return {
        "kind": "check", "number": number, "title": capital(check.title), "clause": check.clause,
        "at": place(check, units), "under": check.combination, "verdict": verdict(check), "ratio": used(check),
        "demand": worked.result(check.demand, own), "resistance": worked.result(check.resistance, own),
        "rows": rows, "assumptions": list(check.assumptions),
    }  # fmt: skip


def _wide(parts: list[Tree]) -> float:
    return 1.08 * sum(breadth(part) for part in parts) + EQUALS * (len(parts) - 1)

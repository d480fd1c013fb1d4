"""Sentences about a verification: what governs, what would cure it, and the one for the phone."""

from __future__ import annotations

from math import isfinite

from soffit.codes.cure import Cure, cures
from soffit.codes.verification import Verification
from soffit.codes.working import Check
from soffit.show.numbers import THIN, Units, given, quantity, sig

WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def number(count: int) -> str:
    return WORDS[count] if count < len(WORDS) else str(count)


def used(check: Check) -> str:
    """Its ratio: ``"0.863"``; ``"∞"`` where nothing resists; never ``"1.00"`` where it fails."""
    return _ratio(check.ratio, check.kept)


def _ratio(ratio: float, kept: bool) -> str:
    if not isfinite(ratio):
        return "∞"
    digits = 3
    while not kept and digits < 10 and float(sig(ratio, digits)) <= 1.0:
        digits += 1
    return sig(ratio, digits)


def verdict(check: Check) -> str:
    """Never told by a colour alone."""
    if check.state == "information":
        return "told"
    return "holds" if check.kept else "fails"


def place(check: Check, units: Units) -> str:
    return "" if check.x is None else quantity(check.x, "span", units)


def remedy(cure: Cure, units: Units) -> str:
    """``"two more bars"``, ``"60 mm more depth"``."""
    match cure.kind:
        case "bars" | "tendons":
            count = round(cure.amount)
            return f"{number(count)} more {cure.kind[:-1] if count == 1 else cure.kind}"
        case "hooks":
            return "hooks at the ends of the bars"
        case "stirrups":
            return f"stirrups at {given(cure.amount, 'length', units)}"
        case "depth" | "width":
            return f"{given(cure.amount, 'length', units)} more {cure.kind}"
        case _:
            return f"concrete stronger by {given(cure.amount, 'stress', units)}"


def cured(verification: Verification, check: Check, units: Units) -> str:
    """What would mend a failing check, in one sentence; the ratio that it would then have stands behind each."""
    found = cures(verification, check)
    if not found:
        return f"No single change within reason mends {check.title}: change more than one thing, or the loads."
    parts = []
    for cure in found:
        text = f"{remedy(cure, units)} ({_ratio(cure.ratio, True)})"
        if cure.breaks:
            text += f", with which {_listed(cure.breaks)} would fail"
        parts.append(text)
    joined = ", or ".join(parts)
    return f"{check.title} would hold with {joined}."


def governs(verification: Verification, units: Units) -> str:
    """What is used most, where, under what."""
    check = verification.governing
    if check is None:
        return "Nothing could be checked."
    where = f" at {place(check, units)}" if check.x is not None else ""
    under = f", under {check.combination}" if check.combination else ""
    return f"{check.title}{where} governs with a ratio of {used(check)}{under}."


def closing(verification: Verification, units: Units) -> str:
    """One sentence for the phone."""
    name, standard = verification.beam.name, verification.name
    check = verification.governing
    if check is None:
        scope = [u for u in verification.unchecked if u.scope]
        why = f": {scope[0].why} ({scope[0].clause})" if scope else ""
        return f"{name} was not verified to {standard}{why}."
    real = [c for c in verification.checks if c.state != "information"]
    left = len(verification.unchecked)
    rest = f"; {number(left)} {'thing was' if left == 1 else 'things were'} not checked" if left else ""
    if verification.kept:
        return (
            f"{name} holds all {len(real)} checks to {standard} that were made, {check.title} with "
            f"{sig(100 * check.ratio, 2)}{THIN}% of it used{rest}."
        )
    failing = len(verification.failing)
    over = f"by {sig(100 * (check.ratio - 1), 2)}{THIN}%" if isfinite(check.ratio) else "for nothing resists it"
    return (
        f"{name} fails {number(failing)} of {len(real)} checks to {standard}, first of all {check.title} {over}{rest}."
    )


def _listed(titles: tuple[str, ...]) -> str:
    return titles[0] if len(titles) == 1 else f"{', '.join(titles[:-1])} and {titles[-1]}"

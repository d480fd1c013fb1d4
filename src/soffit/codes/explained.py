"""Why a standard's formula and the computation step by step differ, in numbers that add up."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Difference:
    """One cause."""

    cause: str
    """As it follows "by": "its creep coefficient of 2.10, ours 1.95"."""
    value: float
    """Formula less step by step, in the unit of what is compared."""


@dataclass(frozen=True)
class Input:
    """One number that went into a formula."""

    name: str
    value: float
    unit: str
    """MPa, mm, mm², mm⁴, days, %, or empty."""
    what: str


LEAST = 0.5
"""Differences smaller than this (in the last place told of the totals) are told together."""


def signed(value: float, places: int = 1) -> str:
    """With a true minus and always a sign."""
    text = f"{abs(value):.{places}f}"
    return f"−{text}" if value < 0 and float(text) != 0.0 else f"+{text}"


def sentence(by: str, value: float, ours: float, causes: Sequence[Difference], unit: str, places: int = 0) -> str:
    """One sentence: what a formula gives, how far it lies from the steps, and by what, the largest first."""
    gap = value - ours
    theirs, own = (f"{v:.{places}f}".replace("-", "−") for v in (value, ours))
    if abs(gap) < 0.5 * 10.0**-places:
        how = f"as step by step ({own})"
    else:
        how = f"{abs(gap):.{places}f} {unit} {'more' if gap > 0 else 'less'} than step by step ({own})"
    told = [c for c in sorted(causes, key=lambda c: -abs(c.value)) if abs(c.value) >= LEAST * 10.0**-places]
    rest = gap - sum(c.value for c in told)
    why = "; ".join(f"{signed(c.value, places + 1)} by {c.cause}" for c in told)
    if abs(rest) >= 0.05 * 10.0**-places and told:
        why += f"; {signed(rest, places + 1)} by smaller things"
    return f"{by} gives {theirs} {unit}, {how}{': ' + why if why else ''}."

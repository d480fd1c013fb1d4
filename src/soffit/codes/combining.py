"""Combinations of actions as factors on cases, whatever the standard."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

State = Literal["ultimate", "characteristic", "frequent", "quasi-permanent"]
STATES: tuple[State, ...] = ("ultimate", "characteristic", "frequent", "quasi-permanent")


@dataclass(frozen=True)
class Variable:
    """Variable loads of one case and category, which have one factor."""

    case: str
    category: str = ""

    @property
    def name(self) -> str:
        return f"{self.case} ({self.category})" if self.category else self.case


@dataclass(frozen=True)
class Combination:
    name: str
    """``"(6.10)"``, ``"5.3.1 (b)"``, ``"Strength I"``."""
    clause: str
    permanent: float
    variable: Mapping[Variable, float]
    prestress: float = 1.0
    """On the secondary effects of prestress."""


@dataclass(frozen=True)
class Rules:
    """All combinations of a standard for the variable loads that there are, by states."""

    combinations: Mapping[State, Sequence[Combination]]
    said: tuple[str, ...]

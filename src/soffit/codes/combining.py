"""Combinations of actions as factors on cases, whatever the standard."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Literal

from soffit.codes.working import FROM_MEMORY

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
    """On all permanent loads together."""
    variable: Mapping[Variable, float]
    prestress: float = 1.0
    """On the secondary effects of prestress."""
    own: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    """Permanent cases with factors of their own: where they add to the effect, and where they help against it."""
    mark: str = FROM_MEMORY

    def factors(self, case: str) -> tuple[float, float]:
        """Of a permanent case or of ``"prestress"``: where it adds, where it helps."""
        if case == PRESTRESS:
            return self.prestress, self.prestress
        return self.own.get(case, (self.permanent, self.permanent))


PRESTRESS = "prestress"


@dataclass(frozen=True)
class Rules:
    """All combinations of a standard for the variable loads that there are, by states."""

    combinations: Mapping[State, Sequence[Combination]]
    said: tuple[str, ...]

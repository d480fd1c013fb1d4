"""Camber of precast pretensioned members by multipliers: L. D. Martin, "A Rational Method for Estimating Camber and
Deflection of Precast Prestressed Members", PCI Journal 22(1), 1977, as in the PCI Design Handbook; *from memory*.

Deflections mm, as magnitudes in the direction that each is named for.
"""

from __future__ import annotations

from dataclasses import dataclass

from soffit.codes.given import not_negative, number


@dataclass(frozen=True)
class Multipliers:
    """On the deflections at release: of prestress (up) and of the member's weight (down); on the immediate ones of what
    is put on later."""

    prestress: float
    weight: float
    superimposed: float
    topping: float


AT_ERECTION = Multipliers(1.80, 1.85, 1.0, 1.0)
FINAL = Multipliers(2.45, 2.70, 3.00, 2.30)
FINAL_TOPPED = Multipliers(2.20, 2.40, 3.00, 2.30)
"""With a composite topping."""


def deflection(by: Multipliers, *, up: float, down: float, superimposed: float = 0.0, topping: float = 0.0) -> float:
    """Deflection, **downward positive**, mm.

    up: camber by prestress at release; down: deflection by the member's own weight at release; superimposed, topping:
    immediate deflections, downward positive, by later dead loads and by the weight of a topping that acts with the
    member afterwards. For usual members on simple spans, erected at about 30 to 60 days and loaded soon after.
    """
    not_negative(up=up, down=down)
    number(superimposed=superimposed, topping=topping)
    return by.weight * down - by.prestress * up + by.superimposed * superimposed + by.topping * topping

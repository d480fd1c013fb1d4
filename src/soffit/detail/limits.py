"""What the standards allow at the jack, and how far force and elongation may differ."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from soffit.materials.steel import Steel


@dataclass(frozen=True)
class Limit:
    """A greatest stress of a standard; ``stress`` in MPa and ``ratio``, the stress there is over it."""

    standard: str
    clause: str
    when: str
    rule: str
    stress: float
    ratio: float

    @property
    def kept(self) -> bool:
        return self.ratio <= 1.0 + 1e-9


@dataclass(frozen=True)
class Rule:
    standard: str
    clause: str
    when: str
    """``"at the jack"`` or ``"after lock-off"``."""
    rule: str
    """As the standard writes it."""
    stress: Callable[[float, float], float]
    """From yield and tensile strength, MPa."""
    anywhere: bool = False
    """Whether it is for every place of the tendon, not for its anchors alone."""


RULES = (
    Rule(
        "ACI 318-19",
        "20.3.2.5",
        "at the jack",
        "min(0.94 fpy, 0.80 fpu)",
        lambda fpy, fpu: min(0.94 * fpy, 0.80 * fpu),
    ),
    Rule(
        "EN 1992-1-1:2004",
        "5.10.2.1",
        "at the jack",
        "min(0.8 fpk, 0.9 fp0.1k)",
        lambda fpy, fpu: min(0.8 * fpu, 0.9 * fpy),
    ),
    Rule("ACI 318-19", "20.3.2.5", "after lock-off", "0.70 fpu", lambda fpy, fpu: 0.70 * fpu),
    Rule(
        "EN 1992-1-1:2004",
        "5.10.3",
        "after lock-off",
        "min(0.75 fpk, 0.85 fp0.1k)",
        lambda fpy, fpu: min(0.75 * fpu, 0.85 * fpy),
        anywhere=True,
    ),
)
"""ACI 318-19 table 20.3.2.5.1 (a supplier's lower limit governs; after lock-off: at the anchors of post-tensioned
tendons); EN 1992-1-1:2004 5.10.2.1 (1) with the recommended k1 and k2 and 5.10.3 (2) with the recommended k7 and k8,
*from memory*. fpy is the stress at 1 % strain or the yield strength, fp0.1k the 0.1 % proof stress, for which the
file's yield strength stands."""

AGREEMENT = "ACI 318-19 26.10.2"
TOLERANCE = {"before casting": 0.05, "after curing": 0.07}
"""Greatest difference between the force by the gauge and the force by the elongation: 5 % pretensioned, 7 %
post-tensioned (ACI 318-19 26.10.2, *from memory*). EN 13670 has its own, which nobody here could verify."""


def limits(steel: Steel, stress: float, when: str, highest: float | None = None) -> tuple[Limit, ...]:
    """The limits of ``when`` (``"at the jack"`` or ``"after lock-off"``) for a stress in MPa.

    ``highest``: the highest anywhere along the tendon, where that is not at an anchor: EN 1992-1-1 5.10.3 speaks of
    every place, ACI 318 of the anchors. None for fibre-reinforced polymer, of which these clauses do not speak.
    """
    if steel.kind == "linear":
        return ()
    found = []
    for rule in RULES:
        if rule.when == when:
            most = rule.stress(steel.yield_strength, steel.tensile)
            there = highest if highest is not None and rule.anywhere else stress
            found.append(Limit(rule.standard, rule.clause, when, rule.rule, most, there / most))
    return tuple(found)

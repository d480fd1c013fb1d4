"""How far the properties of one nominal material scatter, as data.

JCSS Probabilistic Model Code, part 3 (material properties), seen in its public repository.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Scatter:
    """Scatter of one property about its mean."""

    variation: float
    """Coefficient of variation."""
    shape: str
    """``"normal"`` or ``"lognormal"``."""
    source: str


_CONCRETE = "JCSS Probabilistic Model Code, part 3, Concrete properties"
_BARS = "JCSS Probabilistic Model Code, part 3, Static properties of reinforcing steel"
_STRAND = "JCSS Probabilistic Model Code, part 3, Static properties of prestressing steel"

SCATTER: dict[str, Scatter] = {
    "concrete strength in the member": Scatter(0.06, "lognormal", f"{_CONCRETE}: Y1, within one member"),
    "concrete tensile strength": Scatter(0.30, "lognormal", f"{_CONCRETE}: Y2, at a given strength"),
    "concrete modulus": Scatter(0.15, "lognormal", f"{_CONCRETE}: Y3, at a given strength"),
    "concrete ultimate strain": Scatter(0.15, "lognormal", f"{_CONCRETE}: Y4, at a given strength"),
    "bar area": Scatter(0.02, "normal", _BARS),
    "strand strength": Scatter(0.025, "normal", f"{_STRAND}: mean 1.04 fpk"),
    "strand modulus": Scatter(0.02, "normal", _STRAND),
    "strand strain at maximum": Scatter(0.07, "normal", f"{_STRAND}: 0.05 ± 0.0035"),
}
"""Coefficients of variation by property."""

BAR_YIELD_DEVIATION = 30.0
"""Standard deviation of the yield stress of bars, MPa, whatever the grade; of it 19 between mills, 22
between batches and 8 within one batch (JCSS Probabilistic Model Code, part 3).
"""


def bar_yield(yield_strength: float) -> Scatter:
    """Scatter of the yield stress of bars with this mean (MPa): 30 MPa of standard deviation."""
    return Scatter(BAR_YIELD_DEVIATION / yield_strength, "lognormal", _BARS)

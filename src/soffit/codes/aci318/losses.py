"""Losses of prestress, lump sums by their causes: P. Zia, H. K. Preston, N. L. Scott and E. B. Workman, "Estimating
Prestress Losses", Concrete International 1(6), 1979; *from memory*.

ACI 318-19 20.3.2.6 asks that losses be considered and gives no formula; its commentary refers to this paper among
others. MPa, mm; losses and compression positive. The paper's constants are in psi and inches and converted exactly.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from soffit.codes.given import not_negative, number, positive
from soffit.materials.standards import PSI

When = Literal["before casting", "after curing"]
INCH = 25.4
CREEP = {"before casting": 2.0, "after curing": 1.6}
"""Kcr, normal-weight concrete."""
ELASTIC = {"before casting": 1.0, "after curing": 0.5}
"""Kes; for post-tensioned tendons stressed one after another to the same force."""
AT_RELEASE = {"before casting": 0.9, "after curing": 1.0}
"""Kcir, on the stress by the force before shortening."""
CURED = (1.0, 3.0, 5.0, 7.0, 10.0, 20.0, 30.0, 60.0)
SHRINKAGE = (0.92, 0.85, 0.80, 0.77, 0.73, 0.64, 0.58, 0.45)
"""Ksh by days from the end of moist curing to stressing; held outside."""
STRAND = {
    "ordinary": ((255e3, 20000.0, 0.15), (242e3, 18500.0, 0.14), (0.0, 17600.0, 0.13)),
    "low relaxation": ((255e3, 5000.0, 0.040), (242e3, 4630.0, 0.037), (0.0, 4400.0, 0.035)),
    "bar": ((0.0, 6000.0, 0.05),),
}
"""Lowest fpu, psi (270, 250, 240 or 235 ksi steel), Kre, psi, and J."""
RATIOS = tuple(round(0.60 + 0.01 * i, 2) for i in range(21))
C_ORDINARY = (
    0.49, 0.53, 0.58, 0.63, 0.68, 0.73, 0.78, 0.83, 0.89, 0.94, 1.00, 1.09, 1.18, 1.27, 1.36, 1.45,
)  # fmt: skip
"""Stress-relieved strand and wire, fpi/fpu from 0.60 to 0.75."""
C_LOW = (
    0.33, 0.37, 0.41, 0.45, 0.49, 0.53, 0.57, 0.61, 0.66, 0.70, 0.75, 0.80, 0.85, 0.90, 0.95, 1.00,
    1.05, 1.11, 1.16, 1.22, 1.28,
)  # fmt: skip
"""Low-relaxation strand and wire, stress-relieved bars; to 0.80."""
MOST = {"ordinary": 50000.0 * PSI, "low relaxation": 40000.0 * PSI}
"""Greatest total that the paper thinks likely, normal-weight concrete, MPa; none given here for bars."""


@dataclass(frozen=True)
class Zia:
    """MPa, for the end of life."""

    elastic: float
    creep: float
    shrinkage: float
    relaxation: float

    @property
    def total(self) -> float:
        return self.elastic + self.creep + self.shrinkage + self.relaxation


def elastic(*, steel_modulus: float, concrete_modulus: float, stress: float, when: When) -> float:
    """ES = Kes (Es/Eci) fcir, MPa; ``concrete_modulus``: Eci when stressed."""
    positive(steel_modulus=steel_modulus, concrete_modulus=concrete_modulus)
    number(stress=stress)
    return ELASTIC[when] * steel_modulus / concrete_modulus * stress


def stress_at_release(*, by_prestress: float, by_weight: float, when: When) -> float:
    """fcir = Kcir fcpi − fg, MPa: beside the tendons, just after stressing. ``by_prestress``: by the force before
    shortening; ``by_weight``: fg, the **tension** by the weight that acts then."""
    number(by_prestress=by_prestress, by_weight=by_weight)
    return AT_RELEASE[when] * by_prestress - by_weight


def creep(*, steel_modulus: float, concrete_modulus: float, stress: float, later: float, when: When) -> float:
    """CR = Kcr (Es/Ec)(fcir − fcds), MPa; ``concrete_modulus``: Ec at 28 days; ``later``: fcds, the **tension** beside
    the tendons by permanent loads put on after stressing. Unbonded tendons: ``stress`` = fcpa, the mean along them, and
    ``later`` = 0."""
    positive(steel_modulus=steel_modulus, concrete_modulus=concrete_modulus)
    number(stress=stress, later=later)
    return CREEP[when] * steel_modulus / concrete_modulus * (stress - later)


def shrinkage(
    *, steel_modulus: float, volume_surface: float, humidity: float, when: When, cured: float | None = None
) -> float:
    """SH = 8.2·10⁻⁶ Ksh Es (1 − 0.06 V/S)(100 − RH), MPa; volume_surface: V/S, mm; humidity: per cent; cured: days from
    the end of moist curing to stressing, wanted of post-tensioned tendons."""
    positive(steel_modulus=steel_modulus, volume_surface=volume_surface)
    if not 1.0 < humidity <= 100.0:
        raise ValueError(f"the relative humidity is wanted in per cent, from above 1 to 100, and {humidity:g} is none")
    size = 1.0 - 0.06 * volume_surface / INCH
    if size <= 0.0:
        raise ValueError(f"a volume over surface of {volume_surface:g} mm is beyond the formula, which ends at 423 mm")
    k = 1.0
    if when == "after curing":
        if cured is None:
            raise ValueError("the days from the end of moist curing to stressing are wanted of post-tensioned tendons")
        k = float(np.interp(cured, CURED, SHRINKAGE))
    return 8.2e-6 * k * steel_modulus * size * (100.0 - humidity)


def relaxation(*, other: float, tensile: float, ratio: float, steel: str) -> float:
    """RE = [Kre − J (SH + CR + ES)] C, MPa, not below zero; other: SH + CR + ES; tensile: fpu; ratio: fpi/fpu after the
    losses at anchors and by friction; steel: "low relaxation", "ordinary" or "bar".

    Below a ratio of 0.60, where the table of C ends, its last value is held. Raises ``ValueError`` above the table and
    for another steel.
    """
    not_negative(other=other)
    positive(tensile=tensile, ratio=ratio)
    if steel not in STRAND:
        raise ValueError(f"there is no relaxation of {steel!r} here: choose one of {', '.join(STRAND)}")
    table = C_ORDINARY if steel == "ordinary" else C_LOW
    most = RATIOS[len(table) - 1]
    if ratio > most + 1e-9:
        raise ValueError(f"a stress of {ratio:.3f} of the strength is above {most:g}, where the table of C ends")
    kre, j = next((k * PSI, j) for low, k, j in STRAND[steel] if tensile / PSI >= low)
    return max(kre - j * other, 0.0) * float(np.interp(ratio, RATIOS[: len(table)], table))

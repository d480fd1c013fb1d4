"""How each standard derives the mean properties of a concrete that was not measured in full.

Formulas in MPa; each record of ``STANDARDS`` holds one standard's set, and ``soffit.materials.properties``
uses it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import exp, log, sqrt

from soffit.materials.compression import fall_exponent

PSI = 0.006894757293168
"""One psi in MPa (exact definition of the pound-force and the inch)."""


def en_tensile(mean_strength: float) -> float:
    """Mean axial tensile strength, MPa: EN 1992-1-1:2004 Table 3.1 with fck = fcm − 8.

    0.30 fck^(2/3) up to C50/60, 2.12 ln(1 + fcm/10) above. Below fcm = 20 MPa (C12/15) the table has nothing:
    the value at 20 MPa is reduced in proportion to the strength, so that it stays a fair share of it.
    """
    if mean_strength < 20.0:
        return en_tensile(20.0) * mean_strength / 20.0
    if mean_strength <= 58.0:
        return float(0.30 * (mean_strength - 8.0) ** (2.0 / 3.0))
    return 2.12 * log(1.0 + mean_strength / 10.0)


def en_secant_modulus(mean_strength: float) -> float:
    """Ecm, the secant modulus between 0 and 0.4 fcm, MPa: EN 1992-1-1:2004 Table 3.1, quartzite aggregate.

    Limestone 10 %, sandstone 30 % less, basalt 20 % more (3.1.3(2)).
    """
    return float(22000.0 * (mean_strength / 10.0) ** 0.3)


def en_modulus(mean_strength: float, density: float | None = None) -> float:
    """Modulus at the origin, MPa: Ec = 1.05 Ecm (EN 1992-1-1:2004 3.1.5); lightweight × (ρ/2200)²
    (11.3.2).
    """
    light = (density / 2200.0) ** 2 if density is not None and density < 2200.0 else 1.0
    return 1.05 * en_secant_modulus(mean_strength) * light


def en_peak_strain(mean_strength: float) -> float:
    """εc1, strain at the strength, positive: 0.7 fcm^0.31 ‰, at most 2.8 ‰ (EN 1992-1-1:2004 Table 3.1)."""
    return min(0.7 * mean_strength**0.31, 2.8) / 1000.0


def collins_mitchell_peak_strain(mean_strength: float, modulus: float) -> float:
    """ε0 = (f/Ec) n/(n − 1) with n = 0.8 + f/17, positive.

    Collins & Mitchell, Prestressed Concrete Structures, 1991 (*from memory*). Holds for f of 20 to 100 MPa;
    below 10 MPa, where n nears 1, n is kept at its value for 10 MPa.
    """
    n = fall_exponent(mean_strength)
    return mean_strength / modulus * n / (n - 1.0)


def en_mean(specified: float) -> float:
    """fcm = fck + 8 MPa (EN 1992-1-1:2004 Table 3.1)."""
    return specified + 8.0


def aci_mean(specified: float) -> float:
    """Required average strength where no test record exists, MPa: ACI 301 and earlier ACI 318 (318-05
    5.3.2.2).

    f'c + 1000 psi below 3000 psi, f'c + 1200 psi from 3000 to 5000 psi, 1.10 f'c + 700 psi above.
    """
    psi = specified / PSI
    if psi < 3000.0:
        return (psi + 1000.0) * PSI
    if psi <= 5000.0:
        return (psi + 1200.0) * PSI
    return (1.10 * psi + 700.0) * PSI


def aci_lightweight_factor(density: float) -> float:
    """λ of ACI 318-19 Table 19.2.4.1 by density (kg/m³): 0.75 to 100 pcf, 0.0075 wc to 135 pcf, 1.0 above."""
    return min(max(0.0075 * density / 16.018463, 0.75), 1.0)


def aci_tensile(mean_strength: float) -> float:
    """Axial tensile strength 0.33 √f'c, MPa.

    ACI 318 gives only the modulus of rupture; the axial value 4 √f'c (psi) is Collins & Mitchell's and that
    of the modified compression field theory (Vecchio & Collins 1986). Lightweight: × λ.
    """
    return 0.33 * sqrt(mean_strength)


def aci_modulus(mean_strength: float, density: float | None = None) -> float:
    """Ec = 57000 √f'c psi, normal weight; with a given density 33 wc^1.5 √f'c (ACI 318-19 19.2.2.1), MPa.

    A secant to 0.45 f'c. It is taken as the slope at the origin without an increase: the secant of the
    Popovics curve at that stress lies only 2 to 5 % below its origin slope, less than the formula's own
    scatter of ± 20 %.
    """
    psi = mean_strength / PSI
    if density is None:
        return 57000.0 * sqrt(psi) * PSI
    return 33.0 * (density / 16.018463) ** 1.5 * sqrt(psi) * PSI


EN_CEMENT: dict[str, float] = {"R": 0.20, "N": 0.25, "S": 0.38}
"""Coefficient s of EN 1992-1-1:2004 3.1.2(6) by cement class."""


def en_gain(age: float, cement_class: str | None) -> float:
    """βcc(t) = exp(s (1 − √(28/t))), strength at ``age`` (days) over that at 28 days (EN 1992-1-1:2004
    3.1.2(6)).

    Class N where none is given. Raises ``ValueError`` for another class than R, N, S.
    """
    key = (cement_class or "N").upper()
    if key not in EN_CEMENT:
        raise ValueError(f"there is no cement class {cement_class!r}: choose one of {', '.join(EN_CEMENT)}")
    return exp(EN_CEMENT[key] * (1.0 - sqrt(28.0 / age)))


def aci_gain(age: float, cement_class: str | None) -> float:
    """t/(4 + 0.85 t), moist cured, ASTM type I cement (ACI 209R-92 2.2.1); class R as type III: t/(2.3 + 0.92
    t).

    Divided by its own value at 28 days, which is not quite 1.
    """
    a, b = (2.3, 0.92) if (cement_class or "N").upper() == "R" else (4.0, 0.85)
    return age / (a + b * age) * (a + b * 28.0) / 28.0


def fracture_energy(mean_strength: float) -> float:
    """GF = 73 fcm^0.18 N/m, returned in N/mm (fib Model Code 2010 eq. (5.1-9), normal weight)."""
    return 73.0 * float(mean_strength**0.18) / 1000.0


@dataclass(frozen=True)
class Standard:
    """One standard's way from a strength to the other mean properties."""

    key: str
    mean: Callable[[float], float]
    mean_source: str
    tensile: Callable[[float], float]
    tensile_source: str
    modulus: Callable[[float, float | None], float]
    modulus_source: str
    gain: Callable[[float, str | None], float]
    gain_source: str
    low: float
    """Lowest and highest mean strength the formulas were given for, MPa."""
    high: float


STANDARDS: dict[str, Standard] = {
    s.key: s
    for s in (
        Standard(
            "EN 1992-1-1",
            en_mean,
            "fcm = fck + 8 MPa, EN 1992-1-1:2004 Table 3.1",
            en_tensile,
            "EN 1992-1-1:2004 Table 3.1 with fck = fcm − 8 MPa",
            en_modulus,
            "1.05 × the secant modulus 22 (fcm/10)^0.3 GPa, EN 1992-1-1:2004 Table 3.1 and 3.1.5",
            en_gain,
            "EN 1992-1-1:2004 3.1.2(6)",
            20.0,
            98.0,
        ),
        Standard(
            "ACI 318",
            aci_mean,
            "required average strength without test records, ACI 301",
            aci_tensile,
            "0.33 √f'c, Collins & Mitchell 1991; ACI 318 gives no axial value",
            aci_modulus,
            "ACI 318-19 19.2.2.1",
            aci_gain,
            "ACI 209R-92 2.2.1",
            17.0,
            84.0,
        ),
    )
}


def standard(name: str) -> Standard:
    """The record for ``name``; an edition may follow it ("EN 1992-1-1:2004", "ACI 318-19").

    Raises ``ValueError`` that lists the known standards.
    """
    for key, found in STANDARDS.items():
        if name.strip().upper().startswith(key):
            return found
    raise ValueError(f"there is no standard {name!r} for concrete properties: choose one of {', '.join(STANDARDS)}")

"""Relaxation of stressed steel at constant strain: the share of the initial stress that is lost.

Time is in **days** (the standards print hours), the stress ratio is the initial stress over the tensile strength. All
functions are elementwise.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array

HOURS = 24.0
LONGEST = 500000.0
"""Hours at which EN 1992-1-1:2004 3.3.2(8) puts the final value (*from memory*)."""


@dataclass(frozen=True)
class EnClass:
    """One relaxation class of EN 1992-1-1:2004 3.3.2(4)–(7)."""

    number: int
    k1: float
    k2: float
    rho: float
    """ρ1000, **per cent** lost in 1000 hours at 20 °C and 0.7 of the strength, where no certificate gives it."""


EN_CLASSES = {
    "ordinary": EnClass(1, 5.39, 6.7, 8.0),
    "low relaxation": EnClass(2, 0.66, 9.1, 2.5),
    "bar": EnClass(3, 1.98, 8.0, 4.0),
}


def en1992(time: Array | float, stress_ratio: Array | float, steel: str, rho: float | None = None) -> Array:
    """Δσpr/σpi = k1 ρ1000 e^(k2 μ) (t/1000)^(0.75 (1 − μ)) 10⁻⁵, t in hours, held from 500 000 hours on.

    EN 1992-1-1:2004 (3.28) to (3.30). ``rho``: ρ1000 in per cent (2.5, not 0.025). The formula does not return ρ1000
    at 0.7: class 2 gives 0.96 % there after 1000 hours. Raises ``ValueError`` for bad input.
    """
    hours, mu = _checked(time, stress_ratio)
    kind = EN_CLASSES[steel]
    given = kind.rho if rho is None else _per_cent(rho)
    t = np.minimum(hours, LONGEST) / 1000.0
    return kind.k1 * given * np.exp(kind.k2 * mu) * t ** (0.75 * (1.0 - mu)) * 1e-5


MC_RATIOS = (0.5, 0.6, 0.7, 0.8)
MC_RHO = {"ordinary": (0.0, 4.0, 8.0, 12.0), "low relaxation": (0.0, 1.0, 2.5, 4.5)}
"""Per cent lost in 1000 hours at these stress ratios; none at 0.5 (*from memory*, to be checked)."""
MC_EXPONENT = {"ordinary": 0.12, "low relaxation": 0.19}


def mc2010(time: Array | float, stress_ratio: Array | float, steel: str, rho: float | None = None) -> Array:
    """ρ1000 (t/1000)^k, t in hours; k = 0.12 for ordinary, 0.19 for low relaxation: CEB-FIP Model Code 1990 2.3.4.5,
    kept by fib Model Code 2010 (*from memory*).

    ρ1000 between the stress ratios of the table by straight lines, beyond 0.8 along the last one; ``rho`` (per cent, at
    0.7) scales the table. Raises ``ValueError`` for bars, for which no exponent is at hand, and for bad input.
    """
    hours, mu = _checked(time, stress_ratio)
    if steel not in MC_RHO:
        raise ValueError("no relaxation of bars by fib Model Code 2010 is at hand: use that of EN 1992-1-1")
    table = MC_RHO[steel]
    scale = 1.0 if rho is None else _per_cent(rho) / table[2]
    beyond = np.maximum(mu - MC_RATIOS[3], 0.0) * (table[3] - table[2]) / 0.1
    percent = scale * (np.interp(mu, MC_RATIOS, table) + beyond)
    return percent / 100.0 * (hours / 1000.0) ** MC_EXPONENT[steel]


US_DIVISOR = {"ordinary": 10.0, "low relaxation": 45.0}
US_YIELD = {"ordinary": 0.85, "low relaxation": 0.90}
"""fpy/fpu of stress-relieved and of low-relaxation strand, ASTM A416/A421 (*from memory*)."""


def us(time: Array | float, stress_ratio: Array | float, steel: str) -> Array:
    """log10(t)/K (fpi/fpy − 0.55), t in hours, K = 45 low relaxation, 10 stress-relieved; zero below 0.55 and before
    one hour.

    D. D. Magura, M. A. Sozen and C. P. Siess, PCI Journal 9(2), 1964 (*from memory*), the form used by ACI committees
    and in the commentary of AASHTO LRFD 5.9.3.4.2c. Raises ``ValueError`` for bars and for bad input.
    """
    hours, mu = _checked(time, stress_ratio)
    if steel not in US_DIVISOR:
        raise ValueError("the American relaxation formula is for strand and wire, not for bars: use EN 1992-1-1")
    over = np.maximum(mu / US_YIELD[steel] - 0.55, 0.0)
    return np.log10(np.maximum(hours, 1.0)) / US_DIVISOR[steel] * over


def _checked(time: Array | float, stress_ratio: Array | float) -> tuple[Array, Array]:
    t, mu = np.asarray(time, dtype=float), np.asarray(stress_ratio, dtype=float)
    if not (np.all(np.isfinite(t)) and np.all(t >= 0.0)):
        raise ValueError("the time since stressing must be a number of days, zero or above")
    if not (np.all(mu >= 0.0) and np.all(mu < 1.0)):
        raise ValueError("the initial stress must lie between zero and the tensile strength of the steel")
    return HOURS * t, mu


def _per_cent(rho: float) -> float:
    if not 0.1 <= rho <= 20.0:
        raise ValueError(f"the 1000-hour relaxation is wanted in per cent (2.5, not 0.025), and {rho:g} is none")
    return rho

"""Deflection of ordinary (not prestressed) beams by ACI 318-19 24.2; *from memory* but for what a test names. N, mm,
MPa, days."""

from __future__ import annotations

import numpy as np

from soffit.codes.given import not_negative, positive
from soffit.materials.standards import PSI

MONTH = 365.25 / 12.0
TIMES = (0.0, 3.0 * MONTH, 6.0 * MONTH, 12.0 * MONTH, 60.0 * MONTH)
FACTORS = (0.0, 1.0, 1.2, 1.4, 2.0)
"""ξ, Table 24.2.4.1.3, for loads of 3, 6, 12 and 60 months or more; from zero at first (*ours*)."""


def time_factor(days: float) -> float:
    """ξ for a load that has lain ``days``; straight between the values of the table (*ours*), held from five years
    on."""
    not_negative(days=days)
    return float(np.interp(days, TIMES, FACTORS))


def multiplier(factor: float, compression_ratio: float) -> float:
    """λΔ = ξ/(1 + 50 ρ'), 24.2.4.1.1: added over immediate deflection **of the sustained load alone**.

    compression_ratio: ρ' = A's/(b d), at midspan of simple and continuous spans, at the support of a cantilever.
    """
    not_negative(factor=factor, compression_ratio=compression_ratio)
    return factor / (1.0 + 50.0 * compression_ratio)


def rupture(strength: float, lightness: float = 1.0) -> float:
    """fr = 7.5 λ √f'c psi, 19.2.3.1, in MPa."""
    positive(strength=strength, lightness=lightness)
    return 7.5 * lightness * float(np.sqrt(strength / PSI)) * PSI


def effective_inertia(moment: float, cracking: float, gross: float, cracked: float) -> float:
    """Ie of Table 24.2.3.5, mm⁴: Ig where Ma ≤ ⅔ Mcr, else Icr/[1 − ((⅔ Mcr)/Ma)² (1 − Icr/Ig)].

    moment: Ma, the greatest of what the member has borne, size alone counts; cracking: Mcr = fr Ig/yt; N·mm. The form
    of P. H. Bischoff ("Reevaluation of deflection prediction for concrete beams", ASCE Journal of Structural
    Engineering 131(5), 2005); the older one is :func:`branson`.
    """
    positive(cracking=cracking, gross=gross, cracked=cracked)
    ma, least = abs(moment), 2.0 / 3.0 * cracking
    if ma <= least:
        return gross
    return min(cracked / (1.0 - (least / ma) ** 2 * (1.0 - cracked / gross)), gross)


def branson(moment: float, cracking: float, gross: float, cracked: float) -> float:
    """Ie = (Mcr/Ma)³ Ig + [1 − (Mcr/Ma)³] Icr, at most Ig: of the editions before 2019, and for classes T and C of
    prestressed members with their own Mcr (24.2.3.9)."""
    positive(cracking=cracking, gross=gross, cracked=cracked)
    if abs(moment) <= cracking:
        return gross
    share = (cracking / abs(moment)) ** 3
    return share * gross + (1.0 - share) * cracked

"""Mean stress–strain laws of concrete in compression: what a specimen does, falling branch included.

Strain and stress are negative. The law of fib Model Code 2010 5.1.8.1 has the formula of EN 1992-1-1
3.1.5 with slightly other numbers for modulus and strains, so it is not repeated: give those numbers and
``"en1992"``. Design laws for verification are in ``soffit.materials.design_laws``.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np

from soffit.materials.concrete import Concrete
from soffit.materials.curve import Array, Piece, StressStrain, line

FURTHEST_STRAIN = 0.03
"""Where the falling branch is cut although it still carries something (a limit of ours, not of a
standard).
"""
SPENT = 0.01
"""Share of the strength below which the falling branch is cut (ours)."""
CRUSHING_STRAIN = 0.0005
"""Strain over which the EN law, which ends at its ultimate strain, is brought straight to zero (ours)."""


def popovics(strain: Array, strength: float, peak_strain: float, n: float, k: float) -> Array:
    """Stress of the Popovics–Thorenfeldt–Collins curve, MPa (negative), at ``strain`` <= 0 of any shape.

    σ = −f n x / (n − 1 + x^(n k)), x = −ε/ε0; ``k`` is 1 before the peak. Elementwise, no branches.

    S. Popovics, "A numerical approach to the complete stress–strain curve of concrete", Cement and
    Concrete Research 3 (1973); the factor k: E. Thorenfeldt, A. Tomaszewicz and J. J. Jensen, "Mechanical
    properties of high-strength concrete and application in design", Utilization of HSC, Stavanger 1987
    (*from memory*).
    """
    x = -strain / peak_strain
    return -strength * n * x / (n - 1.0 + np.abs(x) ** (n * k))


def sargin(strain: Array, strength: float, peak_strain: float, k: float) -> Array:
    """Stress of EN 1992-1-1:2004 3.1.5 eq. (3.14), MPa (negative), at ``strain`` <= 0 of any shape.

    σ = −f (k η − η²)/(1 + (k − 2) η), η = −ε/εc1, k = Ec εc1/f, for η up to εcu1/εc1. Elementwise, no
    branches.
    """
    x = -strain / peak_strain
    return -strength * (k * x - x * x) / (1.0 + (k - 2.0) * x)


def stiffness_ratio(concrete: Concrete) -> float:
    """k = Ec ε0/f: modulus at the origin over secant modulus at the peak.

    Raises ``ValueError`` where it is not above 1: no curve can then rise from that slope to that peak.
    """
    k = concrete.modulus * concrete.peak_strain / concrete.strength
    if k <= 1.0 + 1e-6:
        raise ValueError(
            f"a modulus of {concrete.modulus:.0f} MPa does not reach {concrete.strength:g} MPa by the peak "
            f"strain {concrete.peak_strain:g}: that must be above {concrete.strength / concrete.modulus:.5f}"
        )
    return k


def rise_exponent(concrete: Concrete) -> float:
    """n = Ec/(Ec − f/ε0) before the peak, so that the curve leaves the origin with the modulus (Popovics
    1973).

    Equal to :func:`fall_exponent` where the peak strain was derived from that.
    """
    k = stiffness_ratio(concrete)
    return k / (k - 1.0)


def fall_exponent(strength: float) -> float:
    """n = 0.8 + f/17 after the peak (MPa); source as :func:`fall_factor`.

    Below 10 MPa, where n nears 1 and the formula ends, the value at 10 MPa is kept.
    """
    return 0.8 + max(strength, 10.0) / 17.0


def fall_factor(strength: float) -> float:
    """k = 0.67 + f/62 >= 1 after the peak (MPa).

    Source: M. P. Collins and D. Mitchell, Prestressed Concrete Structures, Prentice Hall 1991, and
    Collins, Mitchell and MacGregor, "Structural design considerations for high-strength concrete",
    Concrete International 15(5), 1993 (*from memory*).
    """
    return max(0.67 + strength / 62.0, 1.0)


def ultimate_strain(strength: float) -> float:
    """εcu1 of EN 1992-1-1:2004 Table 3.1, positive, from the mean strength in MPa.

    3.5 ‰ below fck = 50 MPa, 2.8 + 27 ((98 − fcm)/100)^4 ‰ from there, 2.8 ‰ beyond fcm = 98 MPa (outside
    the table).
    """
    if strength < 58.0:
        return 0.0035
    return (2.8 + 27.0 * max((98.0 - strength) / 100.0, 0.0) ** 4) / 1000.0


def _popovics_curve(concrete: Concrete) -> StressStrain:
    f, e0 = concrete.strength, concrete.peak_strain
    # both branches pass the peak level, so each may keep its own published exponent
    rise = partial(popovics, strength=f, peak_strain=e0, n=rise_exponent(concrete), k=1.0)
    fall = partial(popovics, strength=f, peak_strain=e0, n=fall_exponent(f), k=fall_factor(f))
    end = max(_where_spent(fall, f, e0), 1.05 * e0)
    return StressStrain((Piece(-end, -e0, fall), Piece(-e0, 0.0, rise)), "Popovics", LAWS["popovics"].source)


def _where_spent(fall: Callable[[Array], Array], strength: float, peak_strain: float) -> float:
    """The strain at which the falling branch has sunk to ``SPENT`` of the strength, at most
    ``FURTHEST_STRAIN``.
    """
    low, high = peak_strain, max(FURTHEST_STRAIN, peak_strain)
    if float(fall(np.array(-high))) < -SPENT * strength:
        return high
    for _ in range(60):
        middle = 0.5 * (low + high)
        if float(fall(np.array(-middle))) < -SPENT * strength:
            low = middle
        else:
            high = middle
    return high


def _en_curve(concrete: Concrete) -> StressStrain:
    f, e0 = concrete.strength, concrete.peak_strain
    k = stiffness_ratio(concrete)
    body = partial(sargin, strength=f, peak_strain=e0, k=k)
    pieces = [Piece(-e0, 0.0, body)]
    # beyond k·ε0 the formula would pull
    end = min(ultimate_strain(f), k * e0)
    if end > e0:
        pieces.insert(0, Piece(-end, -e0, body))
    end = max(end, e0)
    left = float(body(np.array(-end)))
    if left < -1e-6 * f:
        pieces.insert(0, line(-end - CRUSHING_STRAIN, -end, 0.0, left))
    return StressStrain(tuple(pieces), "EN 1992-1-1 3.1.5", LAWS["en1992"].source)


@dataclass(frozen=True)
class CompressionLaw:
    """One mean law. ``curve`` makes the stress–strain curve of a concrete on strain <= 0."""

    key: str
    name: str
    source: str
    range: str
    """Where the law holds and what happens outside, one or two sentences."""
    curve: Callable[[Concrete], StressStrain]


LAWS: dict[str, CompressionLaw] = {
    law.key: law
    for law in (
        CompressionLaw(
            "popovics",
            "Popovics–Thorenfeldt–Collins",
            "Popovics, Cement and Concrete Research 3 (1973); Thorenfeldt, Tomaszewicz & Jensen (1987); "
            "Collins & Mitchell, Prestressed Concrete Structures (1991)",
            "Strengths of 15 to 125 MPa. The falling branch is followed until it carries less than 1 % of "
            "the strength or the strain is 0.03; beyond it the stress is zero.",
            _popovics_curve,
        ),
        CompressionLaw(
            "en1992",
            "EN 1992-1-1 3.1.5",
            "EN 1992-1-1:2004 3.1.5 eq. (3.14) and Table 3.1",
            "Mean strengths of 20 to 98 MPa. The standard ends at the ultimate strain; from there the stress "
            "is brought straight to zero over a strain of 0.0005, which is not in the standard.",
            _en_curve,
        ),
    )
}


def curve(concrete: Concrete) -> StressStrain:
    """The mean compression curve of ``concrete`` by its own law, on strain <= 0, MPa.

    Raises ``ValueError`` for an unknown law, or where modulus, strength and peak strain contradict each
    other.
    """
    if concrete.law not in LAWS:
        raise ValueError(f"there is no compression law {concrete.law!r}: choose one of {', '.join(LAWS)}")
    return LAWS[concrete.law].curve(concrete)

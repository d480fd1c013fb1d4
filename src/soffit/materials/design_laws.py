"""Verification laws in compression: parabola–rectangle and rectangular blocks, for the section kernel.

Design values, not predictions. Strain and stress are negative; beyond the ultimate strain the stress is zero.
"""

from __future__ import annotations

from functools import partial

import numpy as np

from soffit.materials.curve import Array, Piece, StressStrain, line

ACI_ULTIMATE_STRAIN = 0.003
"""ACI 318-19 22.2.2.1."""


def parabola(strain: Array, design_strength: float, reached_at: float, exponent: float) -> Array:
    """σ = −fcd [1 − (1 + ε/εc2)^n] for −εc2 <= ε <= 0, MPa (EN 1992-1-1:2004 eq. (3.17)). Elementwise."""
    return -design_strength * (1.0 - np.maximum(1.0 + strain / reached_at, 0.0) ** exponent)


def en_strains(specified: float) -> tuple[float, float, float]:
    """εc2, εcu2 (positive) and n of EN 1992-1-1:2004 Table 3.1 for fck in MPa.

    Raises ``ValueError`` outside C12 to C90.
    """
    if not 12.0 <= specified <= 90.0:
        raise ValueError(f"EN 1992-1-1 has no strength class C{specified:g}: it goes from C12 to C90")
    if specified <= 50.0:
        return 0.002, 0.0035, 2.0
    rest = ((90.0 - specified) / 100.0) ** 4
    reached = 2.0 + 0.085 * (specified - 50.0) ** 0.53
    return reached / 1000.0, (2.6 + 35.0 * rest) / 1000.0, 1.4 + 23.4 * rest


def parabola_rectangle(design_strength: float, specified: float) -> StressStrain:
    """Parabola to εc2, then ``design_strength`` (fcd, MPa) to εcu2; EN 1992-1-1:2004 3.1.7 (1).

    ``specified`` is fck, MPa. Raises ``ValueError`` outside C12 to C90.
    """
    reached, ultimate, n = en_strains(specified)
    rise = partial(parabola, design_strength=design_strength, reached_at=reached, exponent=n)
    pieces = [Piece(-reached, 0.0, rise)]
    if ultimate > reached:
        pieces.insert(0, line(-ultimate, -reached, -design_strength, -design_strength))
    return StressStrain(tuple(pieces), "parabola–rectangle", "EN 1992-1-1:2004 3.1.7 (1), Table 3.1")


def en_block(design_strength: float, specified: float) -> StressStrain:
    """Stress η fcd over the depth λ x; EN 1992-1-1:2004 3.1.7 (3), eq. (3.19)–(3.22).

    Right when the outermost fibre is at εcu3, where the depth λ x is the part beyond the strain (1 − λ) εcu3.
    The reduction of η fcd by 10 % where the width falls towards the outermost fibre is left to the caller.
    Raises ``ValueError`` outside C12 to C90.
    """
    _, ultimate, _ = en_strains(specified)
    above = max(specified - 50.0, 0.0)
    return _block((1.0 - above / 200.0) * design_strength, 0.8 - above / 400.0, ultimate, "EN 1992-1-1:2004 3.1.7 (3)")


def aci_depth_factor(specified: float) -> float:
    """β1 of ACI 318-19 Table 22.2.2.4.3, f'c in MPa: 0.85 to 4000 psi, 0.05 less for each 1000 psi, at least
    0.65.
    """
    psi = specified / 0.006894757293168
    return min(max(0.85 - 0.05 * (psi - 4000.0) / 1000.0, 0.65), 0.85)


def aci_block(specified: float) -> StressStrain:
    """Stress 0.85 f'c over the depth β1 c at an outermost strain of 0.003; ACI 318-19 22.2.2.

    Raises ``ValueError`` below 2500 psi (17.2 MPa), ACI's lowest structural strength (19.2.1.1).
    """
    if not specified >= 17.0:
        raise ValueError(f"ACI 318 allows no structural concrete of {specified:g} MPa: at least 17 MPa (2500 psi)")
    return _block(0.85 * specified, aci_depth_factor(specified), ACI_ULTIMATE_STRAIN, "ACI 318-19 22.2.2.4")


def _block(stress: float, depth_factor: float, ultimate: float, source: str) -> StressStrain:
    edge = (1.0 - depth_factor) * ultimate
    pieces = (line(-ultimate, -edge, -stress, -stress), line(-edge, 0.0, 0.0, 0.0))
    return StressStrain(pieces, "rectangular block", source)

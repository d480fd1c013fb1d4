"""Tension stiffening: what the concrete between cracks still carries, by named published laws.

All functions are elementwise, without branches on the arguments, MPa.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array


def distribution(steel_stress: Array, cracking_steel_stress: Array, beta: float = 1.0) -> Array:
    """ζ of EN 1992-1-1:2004 7.4.3 eq. (7.19): share of the cracked state in a mean value, 0 … 1.

    ``steel_stress``: stress in the tension steel of the cracked section; ``cracking_steel_stress``: the same
    under the load that causes the first crack (σs/σsr may be replaced by M/Mcr). ``beta``: 1.0 for a single
    short-term load, 0.5 for sustained or repeated loads. 0 below the cracking load.
    Mean deformation: α = ζ αII + (1 − ζ) αI (7.18).
    """
    ratio = np.minimum(cracking_steel_stress / np.maximum(np.abs(steel_stress), 1e-300), 1e150)
    return np.where(ratio < 1.0, np.maximum(1.0 - beta * ratio * ratio, 0.0), 0.0)


def vecchio_collins(strain: Array, tensile: float, modulus: float) -> Array:
    """Mean tensile stress of cracked concrete ft/(1 + √(200 ε)), ε >= ft/E.

    F. J. Vecchio and M. P. Collins, "The modified compression-field theory for reinforced concrete elements
    subjected to shear", ACI Journal 83 (1986), from small panels. ``modulus`` is not used. Independent of the
    bars.
    """
    return tensile / (1.0 + np.sqrt(200.0 * strain))


def collins_mitchell(strain: Array, tensile: float, modulus: float) -> Array:
    """Mean tensile stress of cracked concrete α1 α2 ft/(1 + √(500 ε)), ε >= ft/E.

    M. P. Collins and D. Mitchell, Prestressed Concrete Structures, 1991 (and CPCA 1987), larger members. α1 =
    1 for deformed bars (0.7 for plain bars, wires and bonded strands, 0 unbonded), α2 = 1 short-term (0.7
    sustained or repeated): multiply by them; here both are 1. Only concrete within 7.5 diameters of a bar is
    so stiffened.
    """
    return tensile / (1.0 + np.sqrt(500.0 * strain))


def belarbi_hsu(strain: Array, tensile: float, modulus: float) -> Array:
    """Mean tensile stress of cracked concrete ft (εcr/ε)^0.4, εcr = ft/E, ε >= εcr.

    A. Belarbi and T. T. C. Hsu, "Constitutive laws of concrete in tension and reinforcing bars stiffened by
    concrete", ACI Structural Journal 91 (1994) (*from memory*; there with εcr = 0.00008).
    """
    return tensile * (tensile / (modulus * strain)) ** 0.4


@dataclass(frozen=True)
class StiffeningLaw:
    key: str
    name: str
    source: str
    range: str
    stress: Callable[[Array, float, float], Array]
    """Mean strain (at least ft/E), tensile strength, modulus -> mean tensile stress."""


LAWS: dict[str, StiffeningLaw] = {
    law.key: law
    for law in (
        StiffeningLaw(
            "vecchio-collins",
            "Vecchio–Collins",
            "Vecchio & Collins, ACI Journal 83 (1986)",
            "Small panels with closely spaced bars; strain from cracking to yield of the steel.",
            vecchio_collins,
        ),
        StiffeningLaw(
            "collins-mitchell",
            "Collins–Mitchell",
            "Collins & Mitchell, Prestressed Concrete Structures (1991)",
            "Members, concrete within 7.5 bar diameters of a bar; strain from cracking to yield of steel.",
            collins_mitchell,
        ),
        StiffeningLaw(
            "belarbi-hsu",
            "Belarbi–Hsu",
            "Belarbi & Hsu, ACI Structural Journal 91 (1994)",
            "Panels with one or two layers of bars; strain from cracking to yield of the steel.",
            belarbi_hsu,
        ),
    )
}

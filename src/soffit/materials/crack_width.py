"""Crack width in service by EN 1992-1-1:2004 7.3.4 and by fib Model Code 2010 7.6.4.

Elementwise on floats or arrays; MPa, mm. Heights and depths are those of the cracked section.
"""

from __future__ import annotations

import numpy as np

from soffit.materials.curve import Array

RIBBED, PLAIN = 0.8, 1.6
"""k1 of EN 1992-1-1:2004 7.3.4 (3): ribbed bars; plain bars and prestressing steel."""
BENDING, TENSION = 0.5, 1.0
"""k2 of EN 1992-1-1:2004 7.3.4 (3)."""
SHORT, LONG = 0.6, 0.4
"""kt of EN 1992-1-1:2004 7.3.4 (2), short-term and long-term loading."""

BOND_RATIO: dict[str, tuple[float, float]] = {
    "smooth bar or wire": (0.3, 0.3),
    "strand": (0.6, 0.5),
    "indented wire": (0.7, 0.6),
    "ribbed bar": (0.8, 0.7),
}
"""ξ, bond of prestressing over that of ribbed steel: pretensioned, post-tensioned to C50/60.

EN 1992-1-1:2004 Table 6.2 (*from memory*). A smooth bar is not used pretensioned; its value there is the
other one.
"""


def effective_depth(depth: Array | float, steel_depth: Array | float, neutral_axis: Array | float) -> Array:
    """hc,ef = min(2.5 (h − d), (h − x)/3, h/2), mm: height of concrete that the bars hold in tension.

    EN 1992-1-1:2004 7.3.2 (3). ``depth`` h, ``steel_depth`` d and ``neutral_axis`` x from the compressed
    face.
    """
    return np.minimum(np.minimum(2.5 * (depth - steel_depth), (depth - neutral_axis) / 3.0), 0.5 * depth)


def bond_ratio(ratio: float, bar_diameter: float, tendon_diameter: float) -> float:
    """ξ1 = √(ξ φs/φp), how far bonded tendons share in crack control (eq. (7.5)); ``ratio`` is ξ.

    ``bar_diameter`` 0 (only prestressing steel): √ξ. ``tendon_diameter``: equivalent, 1.75 φwire for
    strand of 7 wires.
    """
    if bar_diameter == 0:
        return float(np.sqrt(ratio))
    return float(np.sqrt(ratio * bar_diameter / tendon_diameter))


def effective_ratio(
    bars: Array | float, concrete: Array | float, tendons: Array | float = 0.0, xi1: Array | float = 0.0
) -> Array | float:
    """ρp,eff = (As + ξ1² Ap)/Ac,eff (eq. (7.10)); areas in mm², ``xi1`` from :func:`bond_ratio`."""
    return (bars + xi1 * xi1 * tendons) / concrete


def mean_strain_difference(
    stress: Array | float,
    ratio: Array | float,
    tensile: Array | float,
    modulus: float,
    concrete_modulus: Array | float,
    kt: float = SHORT,
) -> Array:
    """εsm − εcm = [σs − kt fct,eff/ρ (1 + αe ρ)]/Es >= 0.6 σs/Es (eq. (7.9)).

    ``stress``: in the bars of the cracked section (the rise since decompression for tendons); αe = Es/Ecm.
    """
    alpha = modulus / concrete_modulus
    difference = (stress - kt * tensile / ratio * (1.0 + alpha * ratio)) / modulus
    return np.maximum(difference, 0.6 * stress / modulus)


def greatest_spacing(
    cover: Array | float,
    diameter: Array | float,
    ratio: Array | float,
    k1: float = RIBBED,
    k2: float = BENDING,
) -> Array | float:
    """sr,max = 3.4 c + 0.425 k1 k2 φ/ρ, mm (eq. (7.11)); ``cover`` to the longitudinal bar.

    For bars no further apart than 5 (c + φ/2); else use :func:`spacing_without_bars`.
    """
    return 3.4 * cover + 0.425 * k1 * k2 * diameter / ratio


def spacing_without_bars(depth: Array | float, neutral_axis: Array | float) -> Array | float:
    """sr,max = 1.3 (h − x), mm, where bars are far apart or not bonded (eq. (7.14))."""
    return 1.3 * (depth - neutral_axis)


def mean_diameter(counts: Array, diameters: Array) -> float:
    """φeq = Σ n φ²/Σ n φ, mm (eq. (7.12))."""
    return float(np.sum(counts * diameters**2) / np.sum(counts * diameters))


def width(
    stress: Array | float,
    ratio: Array | float,
    tensile: Array | float,
    modulus: float,
    concrete_modulus: Array | float,
    cover: Array | float,
    diameter: Array | float,
    kt: float = SHORT,
    k1: float = RIBBED,
    k2: float = BENDING,
) -> Array:
    """wk = sr,max (εsm − εcm), mm (eq. (7.8)): the characteristic width; the mean is about wk/1.7.

    For bars at the usual spacing of at most 5 (c + φ/2). The factor 1.7 is that of ENV 1992-1-1:1991
    4.4.2.4.
    """
    strain = mean_strain_difference(stress, ratio, tensile, modulus, concrete_modulus, kt)
    return greatest_spacing(cover, diameter, ratio, k1, k2) * strain


def mc2010_transfer_length(
    cover: Array | float, diameter: Array | float, ratio: Array | float, bond: float = 1.8
) -> Array | float:
    """ls,max = c + ¼ (fctm/τbms)(φ/ρs,ef), mm; ``bond`` is τbms/fctm: 1.8, for long-term crack formation
    1.35.

    fib Model Code 2010 7.6.4.4, eq. (7.6-4) and Table 7.6-2 (*from memory*).
    """
    return cover + 0.25 / bond * diameter / ratio


def mc2010_width(
    stress: Array | float,
    ratio: Array | float,
    tensile: Array | float,
    modulus: float,
    concrete_modulus: Array | float,
    cover: Array | float,
    diameter: Array | float,
    shrinkage: float = 0.0,
    stabilised: bool = True,
    long_term: bool = False,
) -> Array:
    """wd = 2 ls,max (σs − β σsr + ηr εsh Es)/Es >= 0, mm; σsr = fctm/ρ (1 + αe ρ).

    β = 0.6 (0.4 for long-term loading once the crack pattern is stable); τbms = 1.8 fctm (1.35 for
    long-term loading while cracks still form); ηr = 1 for long-term loading of a stable pattern, else 0.
    ``shrinkage``: εsh as a positive shortening. fib Model Code 2010 7.6.4.4, Table 7.6-2 (*from memory*).
    """
    beta = 0.4 if long_term and stabilised else 0.6
    bond = 1.35 if long_term and not stabilised else 1.8
    eta = 1.0 if long_term and stabilised else 0.0
    alpha = modulus / concrete_modulus
    cracking = tensile / ratio * (1.0 + alpha * ratio)
    strain = (stress - beta * cracking) / modulus + eta * shrinkage
    return np.maximum(2.0 * mc2010_transfer_length(cover, diameter, ratio, bond) * strain, 0.0)

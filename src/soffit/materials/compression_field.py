"""Shear strength of a cracked web with stirrups by the modified compression field theory.

F. J. Vecchio and M. P. Collins, "The modified compression-field theory for reinforced concrete elements subjected to
shear", ACI Journal 83(2), 1986, in the form for beams of M. P. Collins and D. Mitchell, Prestressed Concrete
Structures, Prentice Hall 1991, chapter 7 (*constants from memory*). The longitudinal strain is given; equilibrium
across the web, Mohr's circle of strain, the softened concrete, the tension that stiffens it and the check at the crack
then leave one unknown, the principal tensile strain, over which the strength is the maximum. Units MPa, mm, rad.
"""

from __future__ import annotations

from math import atan, isnan, nan, sqrt, tan

import numpy as np

from soffit.jit import kernel
from soffit.materials.curve import Array

CRACK_SPACING = 300.0
"""Spacing of diagonal cracks where at least the minimum stirrups are there, mm (as Bentz, Vecchio & Collins 2006)."""
PEAK_STRAIN = 0.002
STEEL_MODULUS = 200_000.0
_LOWEST, _HIGHEST = atan(0.2), atan(2.2)
_TENSILE_STRAINS = 36
_FINER = 12


@kernel
def _web(
    strength: float, strain: float, ratio: float, fy: float, rough: float, e1: float, theta: float
) -> tuple[float, float]:
    """Shear stress and the miss of Mohr's circle at an angle of the compression; NaN where the web is crushed."""
    t = tan(theta)
    opening = e1 * CRACK_SPACING
    interlock = 0.18 * sqrt(strength) / (0.31 + 24.0 * opening / (rough + 16.0))
    softened = min(strength / (0.8 + 170.0 * e1), strength)
    stiffening = 0.33 * sqrt(strength) / (1.0 + sqrt(500.0 * e1))
    e2, v, across = -0.3e-3, 0.0, 0.0
    for _ in range(6):
        across = e1 - strain + e2
        stirrup = min(max(across, 0.0) * STEEL_MODULUS, fy)
        # at the crack: interlock, and what the stirrups have left
        f1 = min(stiffening, interlock * t + ratio * (fy - stirrup))
        v = (f1 + ratio * stirrup) / t
        squeeze = (v * (t + 1.0 / t) - f1) / softened
        if squeeze > 1.0:
            return nan, nan
        e2 = -PEAK_STRAIN * (1.0 - sqrt(1.0 - squeeze))
    return v, t * t * (across - e2) - (strain - e2)


@kernel
def _standing(strength: float, strain: float, ratio: float, fy: float, rough: float, e1: float) -> float:
    """Shear stress at one principal tensile strain; 0 where no angle satisfies Mohr's circle with the web uncrushed."""
    low, high = _LOWEST, _HIGHEST
    for _ in range(40):
        middle = 0.5 * (low + high)
        v, miss = _web(strength, strain, ratio, fy, rough, e1, middle)
        # a web that is crushed at a flat angle may stand at a steeper one
        if isnan(v) or miss < 0.0:
            low = middle
        else:
            high = middle
    v, miss = _web(strength, strain, ratio, fy, rough, e1, high)
    return v if not isnan(v) and abs(miss) < 1e-6 else 0.0


@kernel
def _strength(strength: float, strain: float, ratio: float, fy: float, rough: float) -> float:
    """Greatest shear stress over all principal tensile strains under one longitudinal strain."""
    best, at = 0.0, 0
    step = 200.0 ** (1.0 / (_TENSILE_STRAINS - 1))
    for i in range(_TENSILE_STRAINS):
        v = _standing(strength, strain, ratio, fy, rough, 1e-4 * step**i)
        if v > best:
            best, at = v, i
    # the greatest lies between two of these strains, often where the web is about to be crushed
    for i in range(-_FINER, _FINER + 1):
        v = _standing(strength, strain, ratio, fy, rough, 1e-4 * step ** (at + i / _FINER))
        best = max(best, v)
    return min(best, 0.25 * strength)


@kernel
def _strengths(strength: float, strains: Array, ratio: float, fy: float, rough: float) -> Array:
    out = np.empty(len(strains))
    for i in range(len(strains)):
        out[i] = _strength(strength, strains[i], ratio, fy, rough)
    return out


def web_strength(strength: float, strains: Array, ratio: float, yield_strength: float, aggregate: float) -> Array:
    """Shear stress (MPa) that a web carries at each longitudinal strain at mid-depth, shape of ``strains`` (1-D).

    ``strength``: f'c; ``ratio``: Av/(bw s), at least the minimum (CSA A23.3-14 11.2.8.2); ``aggregate``: effective size
    (:func:`soffit.materials.shear_laws.effective_aggregate`). At most 0.25 f'c. Strains below −0.0002 count as that.
    Each value falls as the strain grows; the small ripple of the search is smoothed by taking the running minimum.
    """
    found = _strengths(strength, np.maximum(np.asarray(strains, dtype=float), -2e-4), ratio, yield_strength, aggregate)
    return np.minimum.accumulate(found) if np.all(np.diff(strains) >= 0) else found

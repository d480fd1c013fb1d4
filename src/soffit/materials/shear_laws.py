"""Shear strength of cracked concrete: the simplified modified compression field theory and its limits, the critical
shear crack, and direct compression to a near support (the whole compression field is in its own module).

All functions are elementwise on floats or arrays; MPa, mm, rad.

E. C. Bentz, F. J. Vecchio and M. P. Collins, "Simplified modified compression field theory for calculating
shear strength of reinforced concrete elements", ACI Structural Journal 103(4), 2006, called *Bentz 2006*
below.
"""

from __future__ import annotations

from math import pi

import numpy as np

from soffit.materials.curve import Array

GREATEST_ANGLE = 75.0 * pi / 180.0
"""Bentz 2006."""
SPACING_WITH_STIRRUPS = 300.0
"""Crack spacing parameter sxe where at least the minimum stirrups are there, mm (Bentz 2006; CSA A23.3-14
11.3.6.3).
"""


def effective_aggregate(max_aggregate: Array | float, strength: Array | float) -> Array:
    """Aggregate size that still roughens a crack, mm: whole to 60 MPa, none from 70 MPa, linear between.

    Above, cracks run through the aggregate (Bentz 2006 sets 0 above 70 MPa; CSA A23.3-14 11.3.6.3 the taper
    from 60).
    """
    return max_aggregate * np.minimum(np.maximum((70.0 - strength) / 10.0, 0.0), 1.0)


def crack_spacing(depth: Array | float, max_aggregate: Array | float, strength: Array | float) -> Array:
    """sxe = 35 sx/(16 + ag) >= 0.85 sx, mm, for a member without stirrups (Bentz 2006).

    ``depth``: sx, the lever arm dv of the section or the distance between layers of crack-control bars, mm.
    """
    a = effective_aggregate(max_aggregate, strength)
    return np.maximum(35.0 * depth / (16.0 + a), 0.85 * depth)


def capped_root(strength: Array | float) -> Array:
    """√f'c, at most 8 MPa (CSA A23.3-14 11.3.4)."""
    return np.minimum(np.sqrt(strength), 8.0)


def beta(strain: Array | float, spacing: Array | float) -> Array:
    """Share of √f'c that the cracked concrete carries in shear: 0.4/(1 + 1500 εx) · 1300/(1000 + sxe).

    ``strain``: longitudinal strain εx at mid-depth of the web; ``spacing``: sxe, mm. Bentz 2006. A
    compressive strain is counted down to −0.0002 (CSA A23.3-14 11.3.6.4).
    """
    e = np.maximum(strain, -0.0002)
    return 0.4 / (1.0 + 1500.0 * e) * 1300.0 / (1000.0 + spacing)


def angle(strain: Array | float, spacing: Array | float) -> Array:
    """Angle of the diagonal compression, rad: (29° + 7000 εx)(0.88 + sxe/2500) <= 75°.

    Bentz 2006. εx at mid-depth, down to −0.0002.
    """
    e = np.maximum(strain, -0.0002)
    degrees = (29.0 + 7000.0 * e) * (0.88 + spacing / 2500.0)
    return np.minimum(degrees * pi / 180.0, GREATEST_ANGLE)


def concrete_share(strength: Array | float, strain: Array | float, spacing: Array | float) -> Array:
    """Shear stress carried by the cracked concrete, β √f'c, MPa."""
    return beta(strain, spacing) * capped_root(strength)


def stirrup_share(ratio: Array | float, yield_strength: Array | float, theta: Array | float) -> Array:
    """Shear stress carried by yielding stirrups, ρz fy cot θ, MPa; ``ratio`` = Av/(bw s)."""
    return ratio * yield_strength / np.tan(theta)


def shear_strength(
    strength: Array | float,
    strain: Array | float,
    spacing: Array | float,
    ratio: Array | float = 0.0,
    yield_strength: Array | float = 0.0,
) -> Array:
    """v = β √f'c + ρz fy cot θ <= 0.25 f'c, MPa (Bentz 2006).

    The upper limit is where the web crushes before the stirrups yield.
    """
    theta = angle(strain, spacing)
    v = concrete_share(strength, strain, spacing) + stirrup_share(ratio, yield_strength, theta)
    return np.minimum(v, 0.25 * strength)


def minimum_stirrups(strength: Array | float, yield_strength: Array | float) -> Array:
    """Least Av/(bw s) that holds a cracked web together: 0.06 √f'c/fy (CSA A23.3-14 11.2.8.2)."""
    return 0.06 * capped_root(strength) / yield_strength


def transverse_strain(strain: Array | float, theta: Array | float, peak_strain: float = 0.002) -> Array:
    """Principal tensile strain in a strut crossed by a tie: ε1 = εs + (εs + 0.002) cot² θs.

    ``strain``: tensile strain in the tie; ``theta``: angle between strut and tie, rad. CSA A23.3-14
    11.4.2.3.
    """
    return strain + (strain + peak_strain) / np.tan(theta) ** 2


def strut_strength(strength: Array | float, transverse: Array | float) -> Array:
    """Crushing strength of a cracked strut: f'c/(0.8 + 170 ε1) <= 0.85 f'c, MPa.

    M. P. Collins and D. Mitchell, "A rational approach to shear design: the 1984 Canadian code provisions",
    ACI Journal 83(6), 1986; CSA A23.3-14 11.4.2.3. ``transverse``: ε1, not below 0.
    """
    e = np.maximum(transverse, 0.0)
    return np.minimum(strength / (0.8 + 170.0 * e), 0.85 * strength)


def zsutty(strength: Array | float, ratio: Array | float, slenderness: Array | float) -> Array:
    """Ultimate shear stress v = V/(b d) of a beam without stirrups, MPa, at the mean of Zsutty's tests.

    2.17 (f'c ρ d/a)^(1/3) for a/d >= 2.5; below, times 2.5 d/a for loads and supports on opposite faces.
    ``ratio``: As/(b d); ``slenderness``: a/d. No size effect: tests with d of about 300 mm.

    T. C. Zsutty, "Shear strength prediction for separate categories of simple beam tests", ACI Journal
    68(2), 1971 (*from memory*; in psi 60 (f'c ρ d/a)^(1/3), which is 2.17 in MPa).
    """
    slender = 2.17 * (strength * ratio / slenderness) ** (1.0 / 3.0)
    return slender * np.maximum(2.5 / slenderness, 1.0)


def critical_crack(
    strength: Array | float, strain: Array | float, depth: Array | float, max_aggregate: Array | float
) -> Array:
    """Shear stress v = V/(b d) at which a critical shear crack cuts the strut of a beam without stirrups, MPa.

    v = √fc/3 / (1 + 120 ε d/(16 + dg)), ``strain``: ε, longitudinal, 0.6 d below the compressed face, of the cracked
    section half an effective depth from the load (compression counts as none); ``depth``: d, mm. The aggregate stops
    to roughen the crack in strong concrete as in :func:`effective_aggregate`.

    A. Muttoni and M. Fernández Ruiz, "Shear strength of members without transverse reinforcement as function of
    critical shear crack width", ACI Structural Journal 105(2), 2008, eq. (7) (*constants from memory*).
    """
    rough = 16.0 + effective_aggregate(max_aggregate, strength)
    return np.sqrt(strength) / 3.0 / (1.0 + 120.0 * np.maximum(strain, 0.0) * depth / rough)


SHORTEST, LONGEST = 1.0, 2.5
"""Slenderness a/d between which :func:`shear_compression` holds."""


def shear_compression(
    strength: Array | float,
    ratio: Array | float,
    slenderness: Array | float,
    stirrup_ratio: Array | float = 0.0,
    yield_strength: Array | float = 0.0,
) -> Array:
    """v = V/(b d) at which a load close to its support crushes the concrete above the diagonal crack, MPa.

    v = d/a [cs/d (1 − cs/2d) f'c + ½ ρv fyv (1 − cs/d)² (a/d)²]; cs/c = (1 + 0.27 R (a/d)²)/(1 + R (a/d)²) with
    R = 1 + (ρv/ρ)(a/d)², and c the neutral axis at the crushing of the cracked section,
    (c/d)² + 600 ρ/f'c (c/d) − 600 ρ/f'c = 0. ``ratio``: ρ = As/(b d); ``slenderness``: a/d, held at 1.0 below (on the
    safe side); not for a/d above 2.5.

    P. D. Zararis, "Shear compression failure in reinforced concrete deep beams", Journal of Structural Engineering
    129(4), 2003 (*from memory*; his mean of test over theory is near 1 for beams with and without stirrups).
    """
    q = 600.0 * ratio / strength
    c = 0.5 * (np.sqrt(q * q + 4.0 * q) - q)
    a = np.maximum(slenderness, SHORTEST)
    r = (1.0 + stirrup_ratio / np.maximum(ratio, 1e-9) * a * a) * a * a
    above = c * (1.0 + 0.27 * r) / (1.0 + r)
    stirrups = 0.5 * stirrup_ratio * yield_strength * (1.0 - above) ** 2 * a * a
    return (above * (1.0 - 0.5 * above) * strength + stirrups) / a

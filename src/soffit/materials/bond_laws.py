"""Bond between concrete and bars, rods and strands: local bond stress over slip, and transfer of prestress.

fib Model Code 2010, 6.1.1 (*all its constants from memory*); ACI 318-19 25.4.8; EN 1992-1-1:2004 8.10.2.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array


@dataclass(frozen=True)
class BondSlip:
    """Local bond of one bar: τ = τmax (s/s1)^α to s1, flat to s2, down to ``residual`` at s3, then flat."""

    strength: float
    """τmax, MPa."""
    s1: float
    s2: float
    s3: float
    alpha: float
    residual: float
    """MPa."""
    source: str
    failure: str
    """``"pull-out"``, ``"splitting"`` or ``"friction"``."""

    def __call__(self, slip: Array | float) -> Array:
        """Bond stress at ``slip`` >= 0 (mm, any shape), MPa."""
        s = np.asarray(slip, dtype=float)
        rise = self.strength * (np.minimum(s, self.s1) / self.s1) ** self.alpha
        fall = np.minimum(np.maximum((s - self.s2) / (self.s3 - self.s2), 0.0), 1.0)
        return rise - (self.strength - self.residual) * fall


def pull_out(strength: float, good: bool = True, rib_spacing: float = 5.0) -> BondSlip:
    """Deformed bar in confined concrete: τmax 2.5 √fcm in good, 1.25 √fcm in other bond conditions.

    ``strength``: fcm, MPa; ``rib_spacing``: clear, mm. s1, s2 = 1.0, 2.0 mm (good) or 1.8, 3.6 mm, s3 =
    the rib spacing (at least s2 + 1 mm here), α = 0.4, τf = 0.4 τmax. fib Model Code 2010 Table 6.1-1.
    Holds with a cover of at least 5 diameters or confinement that keeps splitting cracks closed.
    """
    top = (2.5 if good else 1.25) * np.sqrt(strength)
    s1, s2 = (1.0, 2.0) if good else (1.8, 3.6)
    s3 = max(rib_spacing, s2 + 1.0)
    return BondSlip(float(top), s1, s2, s3, 0.4, float(0.4 * top), "fib Model Code 2010 Table 6.1-1", "pull-out")


def splitting_strength(
    strength: float,
    diameter: float,
    least_cover: float,
    greatest_cover: float,
    good: bool = True,
    km: float = 0.0,
    ktr: float = 0.0,
) -> float:
    """Bond stress at which the cover splits, MPa.

    η2 6.5 (fcm/25)^0.25 (25/φ)^0.2 [(cmin/φ)^0.33 (cmax/cmin)^0.1 + km Ktr], η2 = 1 in good, 0.7 in other
    conditions; fib Model Code 2010 6.1.1.3.2, the local strength of a short embedment (*from memory*). cmin: least of
    cover and half the clear distance, cmax: the larger of half the clear distance and side cover, mm. Bounds of the
    source: 15 < fcm < 110 MPa, 0.5 <= cmin/φ <= 3.5, cmax/cmin <= 5, Ktr <= 0.05; ratios beyond them are held at the
    bound.
    """
    near = min(max(least_cover / diameter, 0.5), 3.5)
    far = min(max(greatest_cover / least_cover, 1.0), 5.0)
    held = near**0.33 * far**0.1 + km * min(ktr, 0.05)
    return float((1.0 if good else 0.7) * 6.5 * (strength / 25.0) ** 0.25 * (25.0 / diameter) ** 0.2 * held)


def anchorage_strength(
    strength: float,
    diameter: float,
    length: Array | float,
    least_cover: float,
    greatest_cover: float,
    good: bool = True,
    km: float = 0.0,
    ktr: float = 0.0,
) -> Array:
    """Mean stress that a straight length of deformed bar anchors before its cover splits, MPa.

    fstm = η2 54 (fcm/25)^0.25 (25/φ)^0.2 (lb/φ)^0.55 [(cmin/φ)^0.25 (cmax/cmin)^0.1 + km Ktr]; fib Model Code 2010
    eq. (6.1-19), fib Bulletin 72 (*from memory*): the mean of splice and anchorage tests with lb of 10 to 100 φ, in
    which bond is not as strong everywhere as it can be somewhere. Bounds of covers and Ktr as in
    :func:`splitting_strength`.
    """
    near = min(max(least_cover / diameter, 0.5), 3.5)
    far = min(max(greatest_cover / least_cover, 1.0), 5.0)
    held = near**0.25 * far**0.1 + km * min(ktr, 0.05)
    basic = 54.0 * (strength / 25.0) ** 0.25 * (25.0 / diameter) ** 0.2
    return (1.0 if good else 0.7) * basic * (np.maximum(length, 0.0) / diameter) ** 0.55 * held


def stirrup_confinement(legs: int, leg_area: float, spacing: float, bars: int, diameter: float) -> float:
    """Ktr = nl Asv/(nb φ s), the share of stirrup legs across the splitting crack (fib Model Code 2010
    6.1.3.2).
    """
    return legs * leg_area / (bars * diameter * spacing)


def deformed(
    strength: float,
    diameter: float,
    least_cover: float,
    greatest_cover: float,
    good: bool = True,
    km: float = 0.0,
    ktr: float = 0.0,
    rib_spacing: float = 5.0,
) -> BondSlip:
    """Bond of a deformed bar in its cover: pull-out, or splitting where that comes first.

    A split cover without stirrups keeps nothing at s3 = 1.2 s1; with stirrups (``ktr`` above 0) 0.4 of
    the splitting stress at half the rib spacing. fib Model Code 2010 Table 6.1-1. Arguments as
    :func:`splitting_strength`.
    """
    whole = pull_out(strength, good, rib_spacing)
    split = splitting_strength(strength, diameter, least_cover, greatest_cover, good, km, ktr)
    if split >= whole.strength:
        return whole
    # the rise is the pull-out curve, cut where the cover splits
    s1 = whole.s1 * (split / whole.strength) ** (1.0 / whole.alpha)
    s3 = max(0.5 * rib_spacing, 1.2 * s1) if ktr > 0 else 1.2 * s1
    left = 0.4 * split if ktr > 0 else 0.0
    return BondSlip(split, s1, s1, s3, whole.alpha, left, whole.source, "splitting")


def plain(strength: float, good: bool = True) -> BondSlip:
    """Hot-rolled plain bar: friction τmax = 0.3 √fcm (half of it in other bond conditions) from a slip of
    0.1 mm on.

    fib Model Code 2010 Table 6.1-2 (*from memory*): s1 = s2 = s3 = 0.1 mm, α = 0.5.
    """
    top = float((0.3 if good else 0.15) * np.sqrt(strength))
    return BondSlip(top, 0.1, 0.1, 0.2, 0.5, top, "fib Model Code 2010 Table 6.1-2", "friction")


def threaded(strength: float, pitch: float) -> BondSlip:
    """Rod with a rolled thread: the pull-out curve in good conditions with the pitch as rib spacing.

    A thread's relative rib area is above that of deformed bars, so their bond is taken (*common
    practice*); the keys of concrete between the threads are short, which the falling branch from the
    pitch on expresses.
    """
    return pull_out(strength, True, pitch)


def aci_transfer_length(effective_stress: float, diameter: float) -> float:
    """ℓtr = (fse/21) db, mm (ACI 318-19 25.4.8.1, first term; fse in MPa)."""
    return effective_stress / 21.0 * diameter


def aci_development_length(effective_stress: float, stress: float, diameter: float) -> float:
    """ℓd = (fse/21 + (fps − fse)/7) db, mm, for strand bonded to its end (ACI 318-19 25.4.8.1)."""
    return aci_transfer_length(effective_stress, diameter) + max(stress - effective_stress, 0.0) / 7.0 * diameter


def aci_strand_stress(embedment: Array | float, effective_stress: float, diameter: float) -> Array:
    """Stress a strand can carry at ``embedment`` mm from its end, MPa (ACI 318-19 R25.4.8.1, bilinear).

    Rises to fse over the transfer length and by 7 MPa per diameter beyond; no upper limit here.
    """
    x = np.maximum(embedment, 0.0)
    reach = aci_transfer_length(effective_stress, diameter)
    return np.minimum(x, reach) * 21.0 / diameter + np.maximum(x - reach, 0.0) * 7.0 / diameter


def en_transfer_bond(tensile: float, strand: bool = True, good: bool = True) -> float:
    """fbpt = ηp1 η1 fctd(t), MPa; EN 1992-1-1:2004 8.10.2.2 (1).

    ``tensile``: the tensile strength at release that is to count, MPa (0.7 fctm(t)/γc in verification).
    ηp1 = 3.2 for strand, 2.7 for indented wire; η1 = 1.0 in good, 0.7 in other bond conditions.
    """
    return (3.2 if strand else 2.7) * (1.0 if good else 0.7) * tensile


def en_transfer_length(
    stress: float,
    diameter: float,
    tensile: float,
    strand: bool = True,
    good: bool = True,
    sudden: bool = True,
) -> float:
    """lpt = α1 α2 φ σpm0/fbpt, mm (EN 1992-1-1:2004 eq. (8.16)); ``tensile`` as :func:`en_transfer_bond`.

    α1 = 1.25 for sudden, 1.0 for gradual release; α2 = 0.19 for strand, 0.25 for wire. Verification takes
    0.8 or 1.2 of it, whichever is worse.
    """
    bond = en_transfer_bond(tensile, strand, good)
    return (1.25 if sudden else 1.0) * (0.19 if strand else 0.25) * diameter * stress / bond


def en_anchorage_length(
    transfer: float,
    diameter: float,
    stress: float,
    effective_stress: float,
    tensile: float,
    strand: bool = True,
    good: bool = True,
) -> float:
    """lbpd = lpt2 + α2 φ (σpd − σpm∞)/fbpd, mm (EN 1992-1-1:2004 eq. (8.21)).

    fbpd = ηp2 η1 fctd with ηp2 = 1.2 for strand, 1.4 for wire. ``transfer``: lpt2 (1.2 lpt), mm;
    ``tensile``: fctd, at most that of C60/75.
    """
    bond = (1.2 if strand else 1.4) * (1.0 if good else 0.7) * tensile
    return transfer + (0.19 if strand else 0.25) * diameter * max(stress - effective_stress, 0.0) / bond

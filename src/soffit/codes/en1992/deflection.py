"""Deflection by EN 1992-1-1:2004 7.4.3, as curvatures; *from memory*. N, mm, MPa; sagging positive."""

from __future__ import annotations

from soffit.codes.given import not_negative, number, positive

SHORT, SUSTAINED = 1.0, 0.5
"""β: a single short load; sustained or repeated ones."""


def effective_modulus(modulus: float, creep: float) -> float:
    """Ec,eff = Ecm/(1 + φ(∞, t0)), (7.20), MPa."""
    positive(modulus=modulus)
    not_negative(creep=creep)
    return modulus / (1.0 + creep)


def share(moment: float, cracking: float, beta: float = SUSTAINED) -> float:
    """ζ = 1 − β (σsr/σs)², 0 where uncracked, (7.19); in bending σsr/σs = Mcr/M. ``moment``: the greatest that the
    section has borne, N·mm, size alone counts."""
    positive(cracking=cracking)
    number(moment=moment)
    if abs(moment) <= cracking:
        return 0.0
    return 1.0 - beta * (cracking / moment) ** 2


def shrinkage_curvature(strain: float, ratio: float, first_moment: float, inertia: float) -> float:
    """1/rcs = εcs αe S/I, (7.21), 1/mm. strain: free shrinkage, a shortening positive; ratio: αe = Es/Ec,eff;
    first_moment: S of the reinforcement about the centroid of the section, mm³, positive for steel below it; inertia:
    of the same section (uncracked or cracked)."""
    positive(ratio=ratio, inertia=inertia)
    number(strain=strain, first_moment=first_moment)
    return strain * ratio * first_moment / inertia


def mean(uncracked: float, cracked: float, share_cracked: float) -> float:
    """α = ζ αII + (1 − ζ) αI, (7.18), here of the curvature."""
    return share_cracked * cracked + (1.0 - share_cracked) * uncracked

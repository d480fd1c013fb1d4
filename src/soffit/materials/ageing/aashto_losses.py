"""Time-dependent losses of a pretensioned girder by AASHTO LRFD 5.9.3.4, from its creep coefficients and shrinkage
strains.

*From memory.* All stresses MPa, losses positive; concrete stresses at the centroid of the strands, compression
positive. Plain numbers: the coefficients come from ``Aashto``.
"""

from __future__ import annotations

from dataclasses import dataclass

YIELD_SHARE = 0.55


@dataclass(frozen=True)
class Girder:
    """The section that holds the strands: gross girder before the deck, composite after it. mm, mm², mm⁴, MPa."""

    steel_area: float
    area: float
    inertia: float
    eccentricity: float
    """Strands below the centroid."""
    steel_modulus: float
    concrete_modulus: float
    """Eci, at transfer, in both sections."""

    def restraint(self, creep: float) -> float:
        """Kid or Kdf = 1/(1 + Ep/Eci Aps/A (1 + A e²/I)(1 + 0.7 ψ(tf, ti))), (5.9.3.4.2a-2), (5.9.3.4.3a-2).

        ``creep``: ψ from transfer to the end of life, in both.
        """
        shape = 1.0 + self.area * self.eccentricity**2 / self.inertia
        stiff = self.steel_modulus / self.concrete_modulus * self.steel_area / self.area
        return 1.0 / (1.0 + stiff * shape * (1.0 + 0.7 * creep))


def shrinkage_loss(strain: float, steel_modulus: float, restraint: float) -> float:
    """ΔfpSR (before the deck) or ΔfpSD (after) = ε Ep K; ``strain``: the girder's shortening in that time."""
    return strain * steel_modulus * restraint


def creep_loss(stress: float, ratio: float, creep: float, restraint: float) -> float:
    """ΔfpCR = Ep/Eci fcgp ψ(td, ti) Kid, (5.9.3.4.2b-1); ``ratio``: Ep/Eci."""
    return ratio * stress * creep * restraint


def creep_loss_after_deck(
    stress: float, ratio: float, creep: float, change: float, later_ratio: float, later_creep: float, restraint: float
) -> float:
    """ΔfpCD = Ep/Eci fcgp (ψ(tf, ti) − ψ(td, ti)) Kdf + Ep/Ec Δfcd ψ(tf, td) Kdf, (5.9.3.4.3b-1).

    ``creep``: the difference of ψ; ``change``: Δfcd, the change of stress by long-term losses and later loads, a
    decrease of compression **negative**; ``later_ratio``: Ep/Ec; ``later_creep``: ψ(tf, td). Unlike the print, a loss
    is positive and so is compression: deck weight, which takes compression away, makes the loss less.
    """
    return (ratio * stress * creep + later_ratio * change * later_creep) * restraint


def relaxation_loss(stress: float, yield_stress: float, low_relaxation: bool = True) -> float:
    """ΔfpR1 = fpt/KL (fpt/fpy − 0.55), KL = 30 low relaxation, 7 other strand, (5.9.3.4.2c-1); ΔfpR2 = ΔfpR1.

    ``stress``: fpt, just after transfer, at least 0.55 fpy in the standard; zero loss below.
    Raises ``ValueError`` for a stress outside zero to the yield stress.
    """
    if not 0.0 <= stress <= yield_stress:
        raise ValueError(f"the strand stress must lie between zero and its yield stress of {yield_stress:g} MPa")
    return stress / (30.0 if low_relaxation else 7.0) * max(stress / yield_stress - YIELD_SHARE, 0.0)


def deck_shrinkage_gain(
    deck_force: float, area: float, inertia: float, eccentricity: float, deck_eccentricity: float, deck_creep: float
) -> float:
    """Δfcdf = εddf Ad Ecd/(1 + 0.7 ψd(tf, td)) (1/Ac − epc ed/Ic), (5.9.3.4.3d-2), MPa at the strands.

    ``deck_force``: εddf Ad Ecd, N; area, inertia, eccentricity of the strands: composite; ``deck_eccentricity``: ed of
    the deck **as printed, positive above the centroid**. Negative: the strands' concrete is stretched and the force
    rises.
    """
    return deck_force / (1.0 + 0.7 * deck_creep) * (1.0 / area - eccentricity * deck_eccentricity / inertia)

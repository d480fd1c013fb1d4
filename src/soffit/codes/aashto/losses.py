"""Losses of prestress by AASHTO LRFD 5.9.3, 8th and 9th edition; *from memory*.

MPa, mm, N; losses and compression positive. The constants of the standard are in ksi and converted exactly. The terms
of the refined method are in ``soffit.materials.ageing.aashto_losses``; here they are put together.
"""

from __future__ import annotations

from dataclasses import dataclass

from soffit.codes.given import not_negative, number, positive
from soffit.materials.ageing import aashto_losses as terms
from soffit.materials.ageing.aashto import KSI
from soffit.materials.ageing.aashto_losses import Girder

LEAST_TRANSFER, MOST_TRANSFER = 3.5 * KSI, 15.0 * KSI
"""f'ci for which the approximate method is meant, MPa (normal-weight concrete; 5.9.3.3 and its commentary)."""
RELAXATION = {"low relaxation": 2.4 * KSI, "ordinary": 10.0 * KSI}
"""ΔfpR of the approximate method, MPa."""


def elastic_shortening(
    *,
    stress: float,
    steel_area: float,
    area: float,
    inertia: float,
    eccentricity: float,
    moment: float,
    steel_modulus: float,
    concrete_modulus: float,
) -> float:
    """ΔfpES = (Ep/Ect) fcgp of pretensioned members, (5.9.3.2.3a-1), MPa, in the closed form of the commentary
    (C5.9.3.2.3a-1), in which fcgp is that of the force just after transfer.

    stress: fpbt just before transfer; eccentricity: of the strands below the centroid, mm; moment: of the weight that
    acts at transfer, N·mm, sagging positive; concrete_modulus: Eci. Gross section.
    """
    positive(stress=stress, steel_area=steel_area, area=area, inertia=inertia)
    positive(steel_modulus=steel_modulus, concrete_modulus=concrete_modulus)
    number(eccentricity=eccentricity, moment=moment)
    shape = inertia + eccentricity**2 * area
    above = steel_area * stress * shape - eccentricity * moment * area
    return above / (steel_area * shape + area * inertia * concrete_modulus / steel_modulus)


def elastic_shortening_in_turn(*, tendons: int, stress: float, steel_modulus: float, concrete_modulus: float) -> float:
    """ΔfpES = (N − 1)/2N (Ep/Eci) fcgp of post-tensioned members, (5.9.3.2.3b-1), MPa; ``tendons``: N, alike and
    stressed one after another; ``stress``: fcgp under all of them and the weight that acts then."""
    if tendons < 1:
        raise ValueError(f"{tendons} tendons are stressed one after another, and at least one is wanted")
    positive(steel_modulus=steel_modulus, concrete_modulus=concrete_modulus)
    number(stress=stress)
    return 0.5 * (tendons - 1) / tendons * steel_modulus / concrete_modulus * stress


@dataclass(frozen=True)
class Approximate:
    """The terms of (5.9.3.3-1), MPa, for the end of life."""

    creep: float
    """10.0 fpi Aps/Ag γh γst."""
    shrinkage: float
    """12.0 γh γst ksi."""
    relaxation: float
    humidity_factor: float
    strength_factor: float

    @property
    def total(self) -> float:
        return self.creep + self.shrinkage + self.relaxation


def approximate(
    *,
    stress: float,
    steel_area: float,
    area: float,
    humidity: float,
    transfer_strength: float,
    relaxation: float = RELAXATION["low relaxation"],
) -> Approximate:
    """ΔfpLT of (5.9.3.3-1), MPa, of usual precast pretensioned members with a composite deck, at the end of life.

    stress: fpi just before transfer; area: Ag, gross, mm²; humidity: H, per cent; transfer_strength: f'ci, MPa;
    relaxation: ΔfpR, 2.4 ksi for low-relaxation and 10.0 ksi for stress-relieved strand. γh = 1.7 − 0.01 H,
    γst = 5/(1 + f'ci). For members that are moist or steam cured, of usual proportions, loads and surroundings.
    Raises ``ValueError`` for a humidity that is a fraction.
    """
    positive(stress=stress, steel_area=steel_area, area=area, transfer_strength=transfer_strength)
    not_negative(relaxation=relaxation)
    if not 1.0 < humidity <= 100.0:
        raise ValueError(f"the relative humidity is wanted in per cent, from above 1 to 100, and {humidity:g} is none")
    humid, strong = 1.7 - 0.01 * humidity, 5.0 / (1.0 + transfer_strength / KSI)
    return Approximate(
        10.0 * stress * steel_area / area * humid * strong, 12.0 * KSI * humid * strong, relaxation, humid, strong
    )


@dataclass(frozen=True)
class Refined:
    """The terms of (5.9.3.4.1-1), MPa, before and after the deck is placed."""

    shrinkage: float
    creep: float
    relaxation: float
    later_shrinkage: float
    later_creep: float
    later_relaxation: float
    deck: float
    """−ΔfpSS: by shrinkage of the deck; negative where the strands gain."""
    restraint: float
    later_restraint: float

    @property
    def total(self) -> float:
        return (
            self.shrinkage + self.creep + self.relaxation
            + self.later_shrinkage + self.later_creep + self.later_relaxation + self.deck
        )  # fmt: skip


def refined(
    girder: Girder,
    composite: Girder,
    *,
    stress: float,
    placing: float,
    later_modulus: float,
    creep_until: float,
    creep: float,
    later_creep: float,
    shrinkage_until: float,
    shrinkage: float,
    strand_stress: float,
    yield_stress: float,
    low_relaxation: bool = True,
    deck_stress: float = 0.0,
) -> Refined:
    """Long-term losses by 5.9.3.4.2 and 5.9.3.4.3, MPa.

    girder, composite: the section before and after deck placement (the same without a composite deck, 5.9.3.4.4);
    stress: fcgp just after transfer; placing: change of the stress at the strands by deck weight and later permanent
    loads, **a decrease of compression negative**; that by the losses before is added here. later_modulus: Ec at deck
    placement and after. creep_until: ψ(td, ti); creep: ψ(tf, ti); later_creep: ψ(tf, td). shrinkage_until: of the
    girder from transfer to deck placement; shrinkage: from transfer to the end. strand_stress: fpt just after transfer;
    deck_stress: Δfcdf by :func:`soffit.materials.ageing.aashto_losses.deck_shrinkage_gain` (negative: tension).

    Raises ``ValueError`` for a strand stress that is no less than its yield stress.
    """
    positive(later_modulus=later_modulus)
    number(
        stress=stress, placing=placing, shrinkage=shrinkage, shrinkage_until=shrinkage_until, deck_stress=deck_stress
    )
    not_negative(creep_until=creep_until, creep=creep, later_creep=later_creep)
    e, ratio = girder.steel_modulus, girder.steel_modulus / girder.concrete_modulus
    before, after = girder.restraint(creep), composite.restraint(creep)
    sr = terms.shrinkage_loss(shrinkage_until, e, before)
    cr = terms.creep_loss(stress, ratio, creep_until, before)
    r1 = terms.relaxation_loss(strand_stress, yield_stress, low_relaxation)
    shape = 1.0 + girder.area * girder.eccentricity**2 / girder.inertia
    change = placing - (sr + cr + r1) * girder.steel_area / girder.area * shape
    later_ratio = e / later_modulus
    return Refined(
        sr,
        cr,
        r1,
        terms.shrinkage_loss(shrinkage - shrinkage_until, e, after),
        terms.creep_loss_after_deck(stress, ratio, creep - creep_until, change, later_ratio, later_creep, after),
        r1,
        # (5.9.3.4.3d-1)
        later_ratio * deck_stress * after * (1.0 + 0.7 * later_creep),
        before,
        after,
    )

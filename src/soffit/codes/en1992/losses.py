"""Losses of prestress by EN 1992-1-1:2004 5.10.5 and 5.10.6; all clauses *from memory*.

MPa, mm, N. Losses and compression are positive, and so is shrinkage.
"""

from __future__ import annotations

from dataclasses import dataclass

from soffit.codes.given import not_negative, number, positive

RELAXED = 0.8
"""Share of the relaxation at constant strain that counts in (5.46): the tendon shortens with the concrete meanwhile."""
AGEING = 0.8
"""Share of the creep coefficient that acts on the change of prestress, which comes on by and by, in (5.46)."""


@dataclass(frozen=True)
class LongTerm:
    """The terms of (5.46), MPa."""

    shrinkage: float
    """εcs Ep."""
    relaxation: float
    """0.8 Δσpr."""
    creep: float
    """(Ep/Ecm) φ σc,QP."""
    restraint: float
    """The denominator, 1 or more: the concrete takes part in bearing the loss."""

    @property
    def total(self) -> float:
        return (self.shrinkage + self.relaxation + self.creep) / self.restraint


def long_term(
    *,
    steel_area: float,
    area: float,
    inertia: float,
    arm: float,
    steel_modulus: float,
    concrete_modulus: float,
    creep: float,
    shrinkage: float,
    relaxation: float,
    stress: float,
    all_arm: float | None = None,
) -> LongTerm:
    """Δσp,c+s+r of (5.46), MPa: losses by creep, shrinkage and relaxation at a section under permanent loads, in one
    step.

    steel_area: Ap, all tendons at the section, mm²; area, inertia: Ac mm², Ic mm⁴; arm: zcp, tendon below the centroid,
    mm; steel_modulus: Ep; concrete_modulus: Ecm, at 28 days; creep: φ(t, t0); shrinkage: εcs, a shortening positive;
    relaxation: |Δσpr| at constant strain from the stress under prestress and quasi-permanent loads, MPa; stress: σc,QP
    in the concrete beside the tendons under the same, MPa, **compression positive**.

    all_arm: where tendons lie at several heights, the arm of them all, and ``arm`` that of the one looked at: zcp² is
    then ``arm · all_arm`` by the same statics (*ours*).

    For bonded tendons with the stress of the section, for unbonded ones with the mean along the tendon (5.10.6 (2)).
    Raises ``ValueError`` for what is no section, modulus or strain.
    """
    positive(steel_area=steel_area, area=area, inertia=inertia)
    positive(steel_modulus=steel_modulus, concrete_modulus=concrete_modulus)
    not_negative(creep=creep, relaxation=relaxation)
    number(arm=arm, shrinkage=shrinkage, stress=stress)
    ratio = steel_modulus / concrete_modulus
    shape = 1.0 + area / inertia * arm * (arm if all_arm is None else all_arm)
    return LongTerm(
        shrinkage * steel_modulus,
        RELAXED * relaxation,
        ratio * creep * stress,
        1.0 + ratio * steel_area / area * shape * (1.0 + AGEING * creep),
    )


def share_of_shortening(tendons: int) -> float:
    """j = (n − 1)/2n of (5.44): ``tendons`` that are stressed one after another lose so much of what all of them press;
    about ½ for many. 1 for pretensioned tendons, and for permanent loads that come on after stressing.

    Raises ``ValueError`` below one tendon.
    """
    if tendons < 1:
        raise ValueError(f"{tendons} tendons are stressed one after another, and at least one is wanted")
    return 0.5 * (tendons - 1) / tendons


def elastic(*, steel_modulus: float, concrete_modulus: float, stress: float, share: float = 1.0) -> float:
    """Δσel = Ep j Δσc(t)/Ecm(t), MPa: (5.44) over Ap. ``stress``: change of the stress of the concrete beside the
    tendon, MPa, **compression positive**; ``concrete_modulus``: Ecm(t) at the age at which it changes. A load that
    takes compression away gives a negative loss.
    """
    positive(steel_modulus=steel_modulus, concrete_modulus=concrete_modulus)
    number(stress=stress, share=share)
    return steel_modulus * share * stress / concrete_modulus

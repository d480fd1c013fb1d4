"""The length over which bond gives a pretensioned tendon its stress, at its ends."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from soffit.materials import bond_laws
from soffit.materials.curve import Array
from soffit.materials.properties import at_strength
from soffit.member.beam import Beam, TendonGroup
from soffit.member.profile import height


def transfer_length(beam: Beam, tendon: TendonGroup, stress: float) -> float:
    """Length over which a pretensioned tendon takes up ``stress`` (MPa), mm, unless the file gives it: the one value
    that the life is computed with.

    Strand: ACI 318-19 25.4.8.1. Wire: EN 1992-1-1:2004 (8.16) for sudden release, with the mean tensile strength of the
    concrete at transfer.
    """
    if tendon.transfer_length is not None:
        return tendon.transfer_length
    if not tendon.wire:
        return bond_laws.aci_transfer_length(stress, tendon.diameter)
    return bond_laws.en_transfer_length(stress, tendon.diameter, _young_tensile(beam), strand=False)


def built_up(x: Array, tendon: TendonGroup, length: float) -> Array:
    """Share of the stress that bond has built up at ``x``, 0 to 1, linear over the transfer length from each end."""
    reach = np.minimum(x - tendon.x_from, tendon.x_to - x)
    return np.clip(reach / max(length, 1e-9), 0.0, 1.0)


def _young_tensile(beam: Beam) -> float:
    """Mean tensile strength at transfer, MPa."""
    c = beam.concrete
    return (c if c.strength_at_transfer is None else at_strength(c, c.strength_at_transfer)).tensile


@dataclass(frozen=True)
class TransferLength:
    """Transfer lengths of one tendon by one standard, mm. Both ends of the range are wanted: a short one is worse for
    the stresses near the end, a long one for strength there."""

    standard: str
    clause: str
    lower: float
    basic: float
    upper: float
    said: str = ""
    """What was assumed."""


Rule = Callable[[Beam, TendonGroup, float, float, bool], TransferLength | None]
"""(beam, tendon, stress just after release, stress after all losses, release is sudden); none where the standard has no
value for this kind of steel."""

PARTIAL = 1.5
"""γc of EN 1992-1-1:2004 Table 2.1N and fib Model Code 2010."""


def by_standards(
    beam: Beam, tendon: TendonGroup, released: float, effective: float, sudden: bool = True
) -> tuple[TransferLength, ...]:
    """What each standard takes as transfer length, mm, in the order of ``RULES``.

    ``released``: stress just after release, ``effective``: after all losses, MPa. The European values stand on the
    design tensile strength at release, 0.7 fctm(t)/1.5.
    """
    found = (rule(beam, tendon, released, effective, sudden) for rule in RULES)
    return tuple(each for each in found if each is not None)


def _aci_stress(
    beam: Beam, tendon: TendonGroup, released: float, effective: float, sudden: bool
) -> TransferLength | None:
    if tendon.wire:
        return None
    found = bond_laws.aci_transfer_length(effective, tendon.diameter)
    return TransferLength("ACI 318-19", "25.4.8.1: (fse/3000 psi) db", found, found, found)


def _diameters(standard: str, clause: str, strand: float, wire: float | None) -> Rule:
    def rule(beam: Beam, tendon: TendonGroup, released: float, effective: float, sudden: bool) -> TransferLength | None:
        times = wire if tendon.wire else strand
        if times is None:
            return None
        found = times * tendon.diameter
        return TransferLength(standard, f"{clause}: {times:g} db", found, found, found)

    return rule


def _en(beam: Beam, tendon: TendonGroup, released: float, effective: float, sudden: bool) -> TransferLength:
    good = good_bond(beam, tendon)
    basic = bond_laws.en_transfer_length(
        released, tendon.diameter, _design_tensile(beam), strand=not tendon.wire, good=good, sudden=sudden
    )
    # (8.17), (8.18)
    clause = "8.10.2.2: lpt1 = 0.8 lpt, lpt, lpt2 = 1.2 lpt"
    return TransferLength("EN 1992-1-1:2004", clause, 0.8 * basic, basic, 1.2 * basic, _conditions(good, sudden))


def _fib(beam: Beam, tendon: TendonGroup, released: float, effective: float, sudden: bool) -> TransferLength:
    good = good_bond(beam, tendon)
    # lbp = As/(π φ) fpd/fbpd; lbpt = αp1 αp2 αp3 lbp σpi/fpd, in which fpd cancels
    shape, part = (0.25, 0.7) if tendon.wire else (7.0 / 36.0, 0.5)
    bond = (1.4 if tendon.wire else 1.2) * (1.0 if good else 0.7) * _design_tensile(beam)
    upper = (1.25 if sudden else 1.0) * part * shape * tendon.diameter * released / bond
    clause = "6.1.8: αp2 = 0.5 and 1.0 (from memory)"
    return TransferLength("fib Model Code 2010", clause, 0.5 * upper, upper, upper, _conditions(good, sudden))


RULES: tuple[Rule, ...] = (
    _aci_stress,
    _diameters("ACI 318-19", "22.5.7", 50.0, 100.0),
    _diameters("AASHTO LRFD", "5.9.4.3.1 (from memory)", 60.0, None),
    _en,
    _fib,
)


def good_bond(beam: Beam, tendon: TendonGroup) -> bool:
    """Whether the tendon lies where concrete settles little, EN 1992-1-1:2004 8.4.2 (2) (*from memory*): in the lower
    250 mm, in a member of at most 250 mm, or of more than 600 mm and not in its upper 300 mm; by its highest end."""
    depth = beam.outline.depth
    top = float(np.max(height(tendon.profile, np.array([tendon.x_from, tendon.x_to]))))
    return top <= 250.0 or depth <= 250.0 or (depth > 600.0 and top <= depth - 300.0)


def _conditions(good: bool, sudden: bool) -> str:
    return f"{'good' if good else 'other'} bond conditions, {'sudden' if sudden else 'gradual'} release"


def _design_tensile(beam: Beam) -> float:
    return 0.7 * _young_tensile(beam) / PARTIAL

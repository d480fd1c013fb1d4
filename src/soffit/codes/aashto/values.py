"""Strengths and constants of AASHTO LRFD, 9th edition, 5.4 and 5.5; *from memory*. Formulas in kips, inches, ksi."""

from __future__ import annotations

from soffit.codes import scope, specified
from soffit.codes.design import Design, Opened
from soffit.codes.working import Pen, Symbol, Unchecked, Working
from soffit.materials.standards import PSI
from soffit.member.beam import BarGroup, Beam, TendonGroup

KEY = "aashto-lrfd"
NAME = "AASHTO LRFD 9th ed."
PEN = Pen(NAME, "ksi")
KSI = 1000.0 * PSI
LOWEST, USUAL, HIGHEST = 2.4 * KSI, 10.0 * KSI, 15.0 * KSI
"""f'c, 5.4.2.1: the least of structural concrete; up to which every article holds; up to which those used here hold."""
CRUSHED = Symbol("εcu", 0.003, "strain", "of the compressed face, 5.6.2.1")


def opened(beam: Beam) -> Opened:
    """Strengths, and whether AASHTO LRFD speaks of such a beam at all."""
    said = [f"Verified to {NAME}; clauses from memory. Formulas are in kips, inches and ksi."]
    strength, how = specified.ordered(beam.concrete, specified.aci, "f'c", specified.BY_ACI_301)
    said.append(how)
    refused = []
    if not LOWEST - 1e-9 <= strength <= HIGHEST + 1e-9:
        where = "above the 15.0 ksi" if strength > HIGHEST else "below the 2.4 ksi"
        which = "up to which the articles hold" if strength > HIGHEST else "of structural concrete"
        why = f"f'c of {strength / KSI:.2f} ksi lies {where} {which}"
        refused.append(Unchecked("the whole beam", why, f"{NAME} 5.4.2.1", scope=True))
    elif strength > USUAL:
        said.append("f'c is above 10 ksi: only articles that name a higher limit may be used (5.4.2.1).")
    if not (beam.bars or beam.tendons):
        why = "the beam has neither bars nor tendons, and beams of plain concrete are not in AASHTO LRFD"
        refused.append(Unchecked("the whole beam", why, f"{NAME} 5.6.3.3", scope=True))
    groups: tuple[BarGroup | TendonGroup, ...] = (*beam.bars, *beam.tendons)
    for group in groups:
        if group.steel.kind == "linear":
            why = f"{group.label or 'reinforcement'} does not yield: fibre polymer is not in AASHTO LRFD section 5"
            refused.append(Unchecked("the whole beam", why, f"{NAME} 5.4.3", scope=True))
            break
    refused += scope.deep(beam, beam.outline.depth, 4.0, f"{NAME} 5.8.2.1")
    refused += scope.unbonded_pretensioning(beam, f"{NAME} 5.9.4.3")
    topping = specified.of_topping(beam, specified.aci)
    return Opened(
        PEN, NAME, strength, beam.concrete.strength_at_transfer, modulus(strength, beam.concrete.density), tuple(said),
        topping, tuple(refused),
    )  # fmt: skip


def modulus(strength: float, density: float) -> float:
    """Ec = 120 000 K1 wc² f'c^0.33 ksi, (5.4.2.4-1), K1 = 1, wc in kcf; MPa."""
    wc = density / 16.018463 / 1000.0
    return float(120000.0 * wc**2 * max(strength / KSI, 1e-9) ** 0.33 * KSI)


def fc(design: Design) -> Symbol:
    return Symbol("f'c", design.strength, "stress", "specified strength of the concrete")


def fci(design: Design) -> Symbol:
    found = design.opened.transfer or design.strength
    return Symbol("f'ci", found, "stress", "strength when the prestress is let in")


def lightness(design: Design) -> Symbol:
    """λ, 5.4.2.8, by density."""
    wc = design.beam.concrete.density / 16.018463 / 1000.0
    return Symbol("λ", min(max(7.5 * wc, 0.75), 1.0), "ratio", "for lightweight concrete, 5.4.2.8")


def rupture(design: Design) -> Working:
    return design.pen("fr", "modulus of rupture", "0.24·λ·√(f'c)", (lightness(design), fc(design)), "stress", "5.4.2.6")


def alpha1(design: Design, strength: Symbol) -> Working:
    return design.pen("α1", "of the stress of the block", "max(0.75, min(0.85, 0.85 − 0.02·(f'c − 10)))", (strength,),
                      "ratio", "5.6.2.2")  # fmt: skip


def beta1(design: Design, strength: Symbol) -> Working:
    return design.pen("β1", "depth of the block over that of the neutral axis",
                      "max(0.65, min(0.85, 0.85 − 0.05·(f'c − 4)))", (strength,), "ratio", "5.6.2.2")  # fmt: skip

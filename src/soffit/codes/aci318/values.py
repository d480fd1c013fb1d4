"""Strengths and constants of ACI 318-19 in its two editions: inch-pound, and SI (318M-19) with its own rounded numbers.

``Edition.pick`` chooses between the two prints, which are never converted into each other. MPa outside formulas.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from soffit.codes import scope, specified
from soffit.codes.design import Design, Opened
from soffit.codes.working import Pen, Symbol, Unchecked, Working
from soffit.materials.standards import PSI, aci_lightweight_factor
from soffit.member.beam import Beam

KEY = "aci318-19"


@dataclass(frozen=True)
class Edition:
    key: Literal["SI", "inch-pound"]

    @property
    def name(self) -> str:
        return "ACI 318-19" if self.key == "inch-pound" else "ACI 318M-19"

    @property
    def pen(self) -> Pen:
        return Pen(self.name, "psi" if self.key == "inch-pound" else "SI")

    def pick(self, inch_pound: str, si: str) -> str:
        """The formula as this edition prints it."""
        return inch_pound if self.key == "inch-pound" else si


def edition(beam: Beam) -> Edition:
    """As ``[verify]`` names it, else by the units of the file."""
    chosen = beam.verifying.edition or ("inch-pound" if beam.units == "US" else "SI")
    return Edition(chosen)


def of(design: Design) -> Edition:
    return edition(design.beam)


def opened(beam: Beam) -> Opened:
    """Strengths, and whether ACI 318-19 speaks of such a beam at all."""
    print_ = edition(beam)
    said = [f"Verified to {print_.name}, {print_.key} edition; clauses from memory unless a check says otherwise."]
    strength, how = specified.ordered(beam.concrete, specified.aci, "f'c", specified.BY_ACI_301)
    said.append(how)
    refused = []
    if strength < 2500.0 * PSI - 1e-6 and strength < 17.0:
        refused.append(
            Unchecked(
                "the whole beam",
                f"concrete of {strength:.1f} MPa lies below the 2500 psi (17 MPa) of structural concrete",
                f"{print_.name} 19.2.1.1", scope=True,
            )
        )  # fmt: skip
    refused += scope.deep(beam, beam.outline.depth, 4.0, f"{print_.name} 9.9.1.1")
    refused += scope.unbonded_pretensioning(beam, f"{print_.name} 25.4.8")
    modulus = 33.0 * (beam.concrete.density / 16.018463) ** 1.5 * (strength / PSI) ** 0.5 * PSI
    return Opened(
        print_.pen, print_.name, strength, beam.concrete.strength_at_transfer, modulus, tuple(said),
        specified.of_topping(beam, specified.aci), tuple(refused),
    )  # fmt: skip


def fc(design: Design) -> Symbol:
    return Symbol("f'c", design.strength, "stress", "specified strength of the concrete")


def lightness(design: Design) -> Symbol:
    """λ, Table 19.2.4.1 by density."""
    return Symbol(
        "λ", aci_lightweight_factor(design.beam.concrete.density), "ratio", "for lightweight concrete, 19.2.4"
    )


def beta1(design: Design, strength: Symbol | None = None) -> Working:
    """β1, Table 22.2.2.4.3."""
    e = of(design)
    symbol = strength or fc(design)
    text = e.pick(
        "max(0.65, min(0.85, 0.85 − 0.05·(f'c − 4000)/1000))", "max(0.65, min(0.85, 0.85 − 0.05·(f'c − 28)/7))"
    )
    return design.pen("β1", "depth of the block over that of the neutral axis", text, (symbol,), "ratio",
                      "Table 22.2.2.4.3")  # fmt: skip


CRUSHED = Symbol("εcu", 0.003, "strain", "of the compressed face, 22.2.2.1")

"""Strengths and partial factors of EN 1992-1-1:2004 with A1: recommended values, or those of ``[verify] national``."""

from __future__ import annotations

from soffit.codes import scope, specified
from soffit.codes.design import Design, Opened
from soffit.codes.working import Pen, Symbol, Unchecked, Working
from soffit.materials.design_laws import en_strains
from soffit.materials.standards import en_secant_modulus
from soffit.member.beam import Beam

KEY = "en1992"
NAME = "EN 1992-1-1:2004"
PEN = Pen(NAME)
HIGHEST = 90.0
"""fck of the last class of Table 3.1, MPa."""


def opened(beam: Beam) -> Opened:
    """Strengths, and whether EN 1992-1-1 speaks of such a beam at all."""
    said = [f"Verified to {NAME} with A1:2014; clauses from memory unless a check says otherwise."]
    national = beam.verifying.national
    if national:
        values = ", ".join(f"{name} = {value:g}" for name, value in national)
        said.append(f"Values of the national annex by the file: {values}; all others are the recommended ones.")
    else:
        said.append("Nationally determined parameters have their recommended values.")
    strength, how = specified.ordered(beam.concrete, specified.en, "fck", "is the measured mean less 8 MPa (Table 3.1)")
    said.append(how)
    refused = []
    if strength > HIGHEST + 1e-9 or strength < 12.0 - 1e-9:
        where = "above C90/105, the last" if strength > HIGHEST else "below C12/15, the first"
        refused.append(
            Unchecked("the whole beam", f"fck of {strength:.1f} MPa lies {where} class of Table 3.1", f"{NAME} 3.1.2",
                      scope=True)
        )  # fmt: skip
    refused += scope.deep(beam, beam.outline.depth, 3.0, f"{NAME} 5.3.1 (3)")
    refused += scope.unbonded_pretensioning(beam, f"{NAME} 8.10.2")
    transfer = beam.concrete.strength_at_transfer
    modulus = en_secant_modulus(strength + 8.0) if strength > 0.0 else beam.concrete.modulus
    topping = specified.of_topping(beam, specified.en)
    early = None if transfer is None else transfer - 8.0
    return Opened(PEN, NAME, strength, early, modulus, tuple(said), topping, tuple(refused))


def national(design: Design, name: str, recommended: float, what: str) -> Symbol:
    """A nationally determined parameter as a symbol."""
    return Symbol(name, design.choices.nationally(name, recommended), "ratio", what)


def fck(design: Design) -> Symbol:
    return Symbol("fck", design.strength, "stress", "characteristic strength of the concrete")


def fcd(design: Design, strength: Symbol | None = None) -> Working:
    """(3.15)."""
    gamma, alpha = national(design, "γc", 1.5, "for concrete, Table 2.1N"), national(design, "αcc", 1.0, "3.1.6 (1)")
    return design.pen("fcd", "design strength of the concrete", "αcc·fck/γc", (alpha, strength or fck(design), gamma),
                      "stress", "(3.15)")  # fmt: skip


def fctm(design: Design, strength: Symbol | None = None) -> Working:
    """Table 3.1; ``strength`` is another fck than the beam's."""
    taken = strength or fck(design)
    text = "0.30·fck^(2/3)" if taken.value <= 50.0 else "2.12·ln(1 + (fck + 8)/10)"
    return design.pen("fctm", "mean tensile strength", text, (taken,), "stress", "Table 3.1")


def fctd(design: Design, strength: Symbol | None = None) -> Working:
    """(3.16), with fctk,0.05 = 0.7 fctm."""
    gamma, alpha = national(design, "γc", 1.5, "for concrete, Table 2.1N"), national(design, "αct", 1.0, "3.1.6 (2)")
    return design.pen("fctd", "design tensile strength, of the 5 % fractile", "αct·0.7·fctm/γc",
                      (alpha, fctm(design, strength), gamma), "stress", "(3.16)")  # fmt: skip


def gamma_s(design: Design) -> Symbol:
    return national(design, "γs", 1.15, "for steel, Table 2.1N")


def crushed(design: Design) -> Symbol:
    """εcu3 = εcu2, Table 3.1."""
    return Symbol("εcu3", en_strains(design.strength)[1], "strain", "of the compressed face, Table 3.1")

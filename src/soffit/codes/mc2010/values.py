"""Strengths of the fib Model Code 2010, 5.1 and 7.2.3; *from memory*."""

from __future__ import annotations

from soffit.codes import scope, specified
from soffit.codes.design import Design, Opened
from soffit.codes.working import Pen, Symbol, Unchecked, Working
from soffit.member.beam import Beam

KEY = "mc2010"
NAME = "fib Model Code 2010"
PEN = Pen(NAME)
LOWEST, HIGHEST = 12.0, 120.0
"""fck of the first and the last grade of Table 5.1-3, MPa."""


def opened(beam: Beam) -> Opened:
    """Strengths, and whether the Model Code speaks of such a beam at all."""
    said = [
        f"Verified to {NAME} where it adds to EN 1992-1-1: bending, shear by levels of approximation, crack width, "
        "fibre concrete; clauses from memory."
    ]
    strength, how = specified.ordered(beam.concrete, specified.en, "fck", "is the measured mean less 8 MPa (5.1.4)")
    said.append(how)
    refused = []
    if not LOWEST - 1e-9 <= strength <= HIGHEST + 1e-9:
        where = "above C120, the last" if strength > HIGHEST else "below C12, the first"
        refused.append(
            Unchecked("the whole beam", f"fck of {strength:.1f} MPa lies {where} grade of Table 5.1-3", f"{NAME} 5.1.2",
                      scope=True)
        )  # fmt: skip
    refused += scope.deep(beam, beam.outline.depth, 3.0, f"{NAME} 7.3.6")
    refused += scope.unbonded_pretensioning(beam, f"{NAME} 6.1.8")
    transfer = beam.concrete.strength_at_transfer
    topping = specified.of_topping(beam, specified.en)
    return Opened(
        PEN, NAME, strength, None if transfer is None else transfer - 8.0, _modulus(strength), tuple(said), topping,
        tuple(refused),
    )  # fmt: skip


def _modulus(strength: float) -> float:
    """Ec, 5.1.7.2: αi Eci with Eci = 21.5 GPa (fcm/10)^(1/3) of quartzite, MPa."""
    mean = strength + 8.0
    return float(min(0.8 + 0.2 * mean / 88.0, 1.0) * 21500.0 * (mean / 10.0) ** (1.0 / 3.0))


def fck(design: Design) -> Symbol:
    return Symbol("fck", design.strength, "stress", "characteristic strength of the concrete")


def gamma_c(design: Design) -> Symbol:
    return Symbol("γc", design.choices.nationally("γc", 1.5), "ratio", "for concrete, Table 4.5-3")


def gamma_s(design: Design) -> Symbol:
    return Symbol("γs", design.choices.nationally("γs", 1.15), "ratio", "for steel, Table 4.5-3")


def fcd(design: Design, strength: Symbol | None = None) -> Working:
    alpha = Symbol("αcc", design.choices.nationally("αcc", 1.0), "ratio", "for sustained load, 7.2.3.1.4")
    return design.pen("fcd", "design strength of the concrete", "αcc·fck/γc",
                      (alpha, strength or fck(design), gamma_c(design)), "stress", "(7.2-11)")  # fmt: skip


def fctm(design: Design) -> Working:
    text = "0.3·fck^(2/3)" if design.strength <= 50.0 else "2.12·ln(1 + 0.1·(fck + 8))"
    return design.pen("fctm", "mean tensile strength", text, (fck(design),), "stress", "(5.1-3)")

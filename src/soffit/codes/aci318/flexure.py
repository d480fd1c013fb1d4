"""Bending with and without axial force by ACI 318-19 22.2, 22.3, 21.2; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.aci318 import values
from soffit.codes.bending import Bending, Block, Layer, resist
from soffit.codes.cut import BarsAt, Cut
from soffit.codes.design import Design, Found, worst
from soffit.codes.working import Check, Symbol, Working

YIELD_SPREAD = 0.003
"""Beyond εty: the limit of tension-controlled sections, Table 21.2.2 (0.005 for Grade 60 alone and for strand)."""


def block(design: Design) -> Block:
    fc = values.fc(design)
    stress = design.pen("α1f'c", "stress of the block", "0.85·f'c", (fc,), "stress", "22.2.2.4.1")
    return Block(stress, values.beta1(design), values.CRUSHED)


def layers(design: Design, cut: Cut) -> list[Layer]:
    """Bars and bonded tendons at a cut, as design strength sees them."""
    return [bar_layer(bar, str(i + 1)) for i, bar in enumerate(cut.bars)]


def bar_layer(bar: BarsAt, mark: str, share: float = 1.0) -> Layer:
    """Elastic to fy, 20.2.2.1. ``share``: of its strength that is developed, 25.4.10 turned round."""
    steel = bar.group.steel
    es = Symbol("Es", steel.modulus, "stress", "modulus of the bars")
    fy = Symbol(f"fy{mark}", steel.yield_strength, "stress", f"yield strength of {bar.group.label}")
    return Layer(mark, bar.group.label, bar.depth, bar.area * share, f"max(−fy{mark}, min(fy{mark}, Es·ε))",
                 (fy, es), "20.2.2.1")  # fmt: skip


def reduction(design: Design, cut: Cut, found: Bending) -> tuple[Working, ...]:
    """φ by the strain of the outermost layer, Table 21.2.2, ties; the last of the workings is φ."""
    steel = max(cut.bars, key=lambda b: b.depth).group.steel
    fy = Symbol("fy", steel.yield_strength, "stress", "of the outermost bars")
    es = Symbol("Es", steel.modulus, "stress", "modulus of the bars")
    et = Symbol("εt", found.outermost, "strain", "net strain of the outermost layer")
    ety = design.pen("εty", "yield strain of the bars", "fy/Es", (fy, es), "strain", "21.2.2.1")
    phi = design.pen(
        "φ", f"strength reduction, {control(found.outermost, ety.value)}",
        "max(0.65, min(0.90, 0.65 + 0.25·(εt − εty)/0.003))", (et, ety), "ratio", "Table 21.2.2",
    )  # fmt: skip
    return ety, phi


def control(strain: float, yield_strain: float) -> str:
    if strain <= yield_strain:
        return "compression-controlled"
    return "tension-controlled" if strain >= yield_strain + YIELD_SPREAD else "in transition"


def flexure(design: Design) -> Found:
    """Mu ≤ φMn at every place, 9.5.1.1; the worst sagging and the worst hogging one."""
    for sagging in (True, False):
        found = worst(_flexure(design, sagging))
        if found is not None:
            yield found


def _flexure(design: Design, sagging: bool) -> Iterator[Check]:
    pen, sign = design.pen, "sagging" if sagging else "hogging"
    for x in design.places:
        demand = design.actions.at("ultimate", "sagging" if sagging else "hogging", x, "Mu")
        if demand.working.value <= 0.0:
            continue
        cut = design.cut(x, sagging)
        found = resist(pen, cut, block(design), layers(design, cut), demand.axial)
        *more, phi = reduction(design, cut, found)
        strength = pen("φMn", "design strength", "φ·Mn", (phi, found.moment), "moment", "9.5.1.1")
        workings = (demand.working, *found.workings, *more, phi, strength)
        yield Check(
            f"bending, {sign}", pen.cite("9.5.1.1"), demand.working, strength, workings,
            key=f"flexure-{sign}", x=x, combination=demand.combination, state="strength",
        )  # fmt: skip


__all__ = ["block", "control", "flexure", "layers", "reduction"]

"""Bending by the fib Model Code 2010, 7.2: a rectangular block, steel that is elastic, then plastic; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.bending import Bending, Block, Layer, moment, resist
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.mc2010 import values
from soffit.codes.working import Check, Symbol, Working, given
from soffit.errors import PhysicsError
from soffit.materials.design_laws import en_strains

UNBONDED = 0.0
"""Growth of the stress of unbonded tendons up to failure, MPa: none is taken (*ours*, on the safe side)."""


def block(design: Design, cut: Cut, strength: float | None = None) -> Block:
    """Of the beam's own concrete, or of another ``strength`` (fck, MPa)."""
    pen, own = design.pen, strength or design.strength
    symbol = Symbol("fck", own, "stress", "characteristic strength of the concrete in compression")
    design_strength = values.fcd(design, symbol)
    eta = pen("η", "of the stress of the block", "min(1.0, 1.0 − (fck − 50)/200)", (symbol,), "ratio", "7.2.3.1.5")
    factor = pen("λ", "depth of the block over that of the neutral axis", "min(0.8, 0.8 − (fck − 50)/400)", (symbol,),
                 "ratio", "7.2.3.1.5")  # fmt: skip
    stress = pen("ηfcd", "stress of the block", "η·fcd", (eta, design_strength), "stress", "7.2.3.1.5")
    limit = min(own, 90.0)
    crushed = Symbol("εcu", en_strains(limit)[1], "strain", "of the compressed face, Table 7.2-1")
    return Block(stress, factor, crushed, "x", "λx")


def layers(design: Design, cut: Cut) -> list[Layer]:
    """Bars, bonded tendons, and unbonded ones with the stress that they have."""
    pen, gamma = design.pen, values.gamma_s(design)
    found = []
    for i, bar in enumerate(cut.bars, start=1):
        steel = bar.group.steel
        fyk = Symbol(f"fyk{i}", steel.yield_strength, "stress", f"yield strength of {bar.group.label}")
        es = Symbol("Es", steel.modulus, "stress", "modulus of the bars")
        text = f"max(−fyk{i}/γs, min(fyk{i}/γs, Es·ε))"
        found.append(Layer(str(i), bar.group.label, bar.depth, bar.area, text, (fyk, gamma, es), "7.2.3.2"))
    for i, t in enumerate(cut.tendons, start=1):
        steel = t.group.steel
        ep = Symbol("Ep", steel.modulus, "stress", "modulus of the tendons")
        fpe = Symbol("σpe", t.stress, "stress", "stress after all losses at the cut")
        if t.bonded:
            fpk = Symbol(f"fp0.1k{i}", steel.yield_strength, "stress", f"proof stress of {t.group.label}")
            pre = pen(f"εpe{i}", "strain by the prestress", "σpe/Ep", (fpe, ep), "strain")
            text = f"max(−fp0.1k{i}/γs, min(fp0.1k{i}/γs, Ep·ε))"
            layer = Layer(str(i), t.group.label, t.depth, t.area, text, (fpk, gamma, ep), "7.2.3.3", pre, True)
        else:
            layer = Layer(str(i), t.group.label, t.depth, t.area, "σpe", (fpe,), "", None, True, False)
        found.append(layer)
    return found


def strength(design: Design, cut: Cut, axial: float = 0.0) -> Bending:
    """MRd of a cut, with the topping's concrete while the block stays in it, else with the weaker one."""
    steel = layers(design, cut)
    first, second = _strengths(design, cut)
    found = resist(design.pen, cut, block(design, cut, first), steel, axial, "MRd")
    if second is None or design.cast is None or found.a <= design.cast.outline.depth:
        return found
    return resist(design.pen, cut, block(design, cut, second), steel, axial, "MRd")


def _strengths(design: Design, cut: Cut) -> tuple[float, float | None]:
    """fck of the block, and that to take instead where it reaches below a topping."""
    cast, own = design.opened.topping, design.strength
    return (own, None) if cast is None or not cut.sagging else (cast, min(cast, own))


def _moment(design: Design, cut: Cut) -> float:
    """MRd without working, N·mm; 0 where there is none."""
    steel = layers(design, cut)
    first, second = _strengths(design, cut)
    try:
        has, a = moment(design.pen, cut, block(design, cut, first), steel)
        if second is not None and design.cast is not None and a > design.cast.outline.depth:
            has, _ = moment(design.pen, cut, block(design, cut, second), steel)
    except PhysicsError:
        return 0.0
    return has


def flexure(design: Design) -> Found:
    """MEd against MRd, the worst sagging and hogging place."""
    for effect in ("sagging", "hogging"):
        found = worst(_flexure(design, effect == "sagging"))
        if found is not None:
            yield found


def _flexure(design: Design, sagging: bool) -> Iterator[Check]:
    effect = bending(sagging)
    for x in design.overbent(sagging, lambda cut: _moment(design, cut), ends=False):
        demand = design.actions.at("ultimate", bending(sagging), x, "MEd")
        if demand.working.value <= 0.0:
            continue
        cut = design.cut(x, sagging)
        title, clause = f"bending, {effect}", design.pen.cite("7.2")
        try:
            found = strength(design, cut, demand.axial)
        except PhysicsError:
            none = given("MRd", "no equilibrium: the section does not carry the axial force", 0.0, "moment")
            yield Check(title, clause, demand.working, none, (demand.working, none), (), f"flexure-{effect}", x,
                        demand.combination, "strength")  # fmt: skip
            continue
        head: tuple[Working, ...] = (demand.working, *_block_shown(design, cut, found))
        yield Check(
            title, clause, demand.working, found.moment, (*head, *found.workings), _said(cut), f"flexure-{effect}", x,
            demand.combination, "strength",
        )  # fmt: skip


def _block_shown(design: Design, cut: Cut, found: Bending) -> tuple[Working, ...]:
    made = block(design, cut)
    return (values.fcd(design), made.stress, made.factor)


def _said(cut: Cut) -> tuple[str, ...]:
    said = ("Bars count in full wherever they run: their anchorage is a check of EN 1992-1-1.",) if cut.bars else ()
    if any(not t.bonded for t in cut.tendons):
        return (
            *said,
            "Unbonded tendons are counted with the stress that they have in service: no growth is taken.",
        )
    return said


ENTRIES = (Entry("flexure", "bending", "7.2", "MEd against MRd along the beam, sagging and hogging.", flexure),)

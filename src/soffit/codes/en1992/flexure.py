"""Bending with and without axial force by EN 1992-1-1:2004 6.1, and what redistribution allows, 5.5; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes import bending
from soffit.codes.actions import Factored
from soffit.codes.bending import Bending, Block, Layer
from soffit.codes.cut import Cut, TendonsAt
from soffit.codes.design import Design, Entry, Found, under, worst
from soffit.codes.design import bending as bent
from soffit.codes.en1992 import values
from soffit.codes.en1992.bond import developed
from soffit.codes.en1992.transmission import pretensioned, transmission
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.errors import PhysicsError

UNBONDED = 100.0
"""Growth of the stress of unbonded tendons up to failure, 5.10.8 (2), MPa."""


def block(design: Design, cut: Cut, strength: float | None = None) -> Block:
    """3.1.7 (3), of the beam's own concrete or of another ``strength`` (fck, MPa)."""
    pen = design.pen
    fck = Symbol("fck", strength or design.strength, "stress", "characteristic strength of the concrete of the block")
    text = "min(0.8, 0.8 − (fck − 50)/400)"
    factor = pen("λ", "depth of the block over that of the neutral axis", text, (fck,), "ratio", "(3.19), (3.20)")
    # the width falls towards the compressed face: 10 % less
    narrow = cut.width(1e-6 * cut.h) < 0.999 * cut.width(0.1 * cut.h)
    text, what = ("0.9·η·fcd", ", the width falls to the face") if narrow else ("η·fcd", "")
    eta, fcd = _factors(design, fck)
    stress = pen("ηfcd", f"stress of the block{what}", text, (eta, fcd), "stress", "3.1.7 (3)")
    return Block(stress, factor, values.crushed(design), "x", "λx")


def _factors(design: Design, fck: Symbol) -> tuple[Working, Working]:
    text = "min(1.0, 1.0 − (fck − 50)/200)"
    eta = design.pen("η", "of the stress of the block", text, (fck,), "ratio", "(3.21), (3.22)")
    return eta, values.fcd(design, fck)


def layers(design: Design, cut: Cut) -> list[Layer]:
    """Bars to the horizontal branch with what is anchored of them, tendons to fp0.1k/γs or what bond allows."""
    gamma = values.gamma_s(design)
    early = design.kept("en1992 pretensioned", lambda: list(pretensioned(design)))
    found = []
    for i, bar in enumerate(cut.bars, start=1):
        steel, label = bar.group.steel, bar.group.label
        fyk = Symbol(f"fyk{i}", steel.yield_strength, "stress", f"yield strength of {label}")
        es = Symbol(f"Es{i}", steel.modulus, "stress", f"modulus of {label}")
        share = developed(design, bar)
        text, symbols = f"fyk{i}/γs", [fyk, gamma, es]
        if share < 1.0:
            text = f"kd{i}·fyk{i}/γs"
            symbols.append(Symbol(f"kd{i}", share, "ratio", f"share of it that {label} has anchored at the cut, 8.4"))
        text = f"max(−{text}, min({text}, Es{i}·ε))"
        found.append(Layer(str(i), label, bar.depth, bar.area, text, tuple(symbols), "3.2.7 (2)"))
    found += [_tendon(design, cut, t, str(i), t.index in early) for i, t in enumerate(cut.tendons, start=1)]
    return found


def _tendon(design: Design, cut: Cut, t: TendonsAt, mark: str, early: bool) -> Layer:
    steel, label, gamma = t.group.steel, t.group.label, values.gamma_s(design)
    ep = Symbol(f"Ep{mark}", steel.modulus, "stress", f"modulus of {label}")
    spm = Symbol(f"σpm{mark}", t.full if t.bonded else t.stress, "stress", f"of {label} after all losses")
    fp = Symbol(f"fp0.1k{mark}", steel.yield_strength, "stress", f"proof stress of {label}")
    top = f"fp0.1k{mark}/γs"
    if not t.bonded:
        rise = Symbol("Δσp", UNBONDED if t.depth > 0.5 * cut.h else 0.0, "stress", "growth, 5.10.8 (2)")
        text, symbols = f"min({top}, σpm{mark} + Δσp)", (fp, gamma, spm, rise)
        return Layer(mark, f"{label}, unbonded", t.depth, t.area, text, symbols, "5.10.8 (2)", None, True, False)
    what = f"strain of {label} by its prestress; that of the concrete beside it is left out"
    before = design.pen(f"εp0{mark}", what, f"σpm{mark}/Ep{mark}", (spm, ep), "strain")
    text, clause = f"max(−{top}, min({top}, Ep{mark}·ε))", "3.3.6 (7)"
    known: tuple[Symbol, ...] = (fp, gamma, ep)
    if early:
        held = transmission(design, t.index).stress(min(t.left, t.right))
        if held < steel.yield_strength / gamma.value:
            cap = Symbol(f"σpd{mark}", held, "stress", "what bond holds so far from the end, with lpt2 and lbpd")
            text, known = f"min(σpd{mark}, {text})", (*known, cap)
            clause = "3.3.6 (7), 8.10.2.3"
    return Layer(mark, label, t.depth, t.area, text, known, clause, before, True)


def weakest(design: Design, cut: Cut, a: float | None) -> float:
    """fck of the block: of the topping while the block stays in it, else of the weaker concrete."""
    top = design.opened.topping
    if top is None or design.cast is None or not cut.sagging:
        return design.strength
    return top if a is None or a <= design.cast.outline.depth else min(top, design.strength)


def strength(design: Design, cut: Cut, axial: float = 0.0) -> tuple[Bending, Block]:
    """MRd. Raises :class:`PhysicsError` where the section cannot have the axial force."""
    key = ("en1992 bent", round(cut.x, 6), cut.sagging, round(axial, 3))
    return design.kept(key, lambda: _strength(design, cut, axial))


def _strength(design: Design, cut: Cut, axial: float) -> tuple[Bending, Block]:
    steel = layers(design, cut)
    made = block(design, cut, weakest(design, cut, None))
    found = bending.resist(design.pen, cut, made, steel, axial, "MRd")
    if weakest(design, cut, found.a) != weakest(design, cut, None):
        made = block(design, cut, weakest(design, cut, found.a))
        found = bending.resist(design.pen, cut, made, steel, axial, "MRd")
    return found, made


def flexure(design: Design) -> Found:
    """MEd ≤ MRd, the worst sagging and hogging place; x/d where moments are redistributed."""
    kinds = {bar.steel.kind for bar in design.beam.bars} | {t.steel.kind for t in design.beam.tendons}
    if "linear" in kinds:
        why = "reinforcement that does not yield is no steel of 3.2"
        yield Unchecked("bending", why, design.pen.cite("3.2.1"), scope=True)
        return
    for sagging in (True, False):
        found = worst(_flexure(design, x, sagging) for x in _hard(design, sagging))
        if found is not None:
            yield found
    if design.choices.redistribution:
        found = worst(_redistributed(design))
        if found is not None:
            yield found


def _hard(design: Design, sagging: bool) -> tuple[float, ...]:
    return design.overbent(sagging, lambda cut: _moment(design, cut))


def _moment(design: Design, cut: Cut) -> float:
    """MRd without working, N·mm; 0 where there is none."""
    steel = layers(design, cut)
    try:
        has, a = bending.moment(design.pen, cut, block(design, cut, weakest(design, cut, None)), steel)
        if weakest(design, cut, a) != weakest(design, cut, None):
            has, _ = bending.moment(design.pen, cut, block(design, cut, weakest(design, cut, a)), steel)
    except PhysicsError:
        return 0.0
    return has


def _flexure(design: Design, x: float, sagging: bool) -> Check | None:
    demand = design.actions.at("ultimate", bent(sagging), x, "MEd")
    if demand.working.value <= 0.0:
        return None
    cut, title, key = design.cut(x, sagging), f"bending, {bent(sagging)}", f"flexure-{bent(sagging)}"
    if not cut.bars and not cut.tendons:
        rows = plain(design, cut)
        return under(demand, title, design.pen.cite("12.6.1"), rows[-1], rows, key)
    clause = design.pen.cite("6.1")
    least, effect = _eccentric(design, cut, demand)
    try:
        found, made = strength(design, cut, demand.axial)
    except PhysicsError:
        none = given("MRd", "no equilibrium: the section does not bear the axial force", 0.0, "moment")
        return under(demand, title, clause, none, (*least, none), key, effect=effect)
    head = (*_factors(design, made.factor.symbols[0])[::-1], made.stress, made.factor)
    said: tuple[str, ...] = ()
    if found.outermost <= 0.0:
        said = ("The whole section is compressed: the block reaches over it with its ultimate strain at the face.",)
    return under(demand, title, clause, found.moment, (*least, *head, *found.workings), key, said, effect)


def _eccentric(design: Design, cut: Cut, demand: Factored) -> tuple[tuple[Working, ...], Working | None]:
    """6.1 (4): a compression has an eccentricity of h/30 and 20 mm at least."""
    if demand.axial >= 0.0:
        return (), None
    h, n = Symbol("h", cut.h, "length", "depth"), Symbol("NEd", -demand.axial, "force", "axial compression")
    e0 = design.pen("e0", "least eccentricity", "max(h/30, 20)", (h,), "length", "6.1 (4)")
    text = "max(MEd, NEd·e0)"
    effect = design.pen("MEd,e", "with the least eccentricity", text, (demand.working, n, e0), "moment", "6.1 (4)")
    return (e0, effect), effect


def plain(design: Design, cut: Cut) -> tuple[Working, ...]:
    """Section 12: lightly reinforced or plain, elastic to fctd,pl with αct,pl = 0.8."""
    pen = design.pen
    fctm = values.fctm(design)
    gamma = values.national(design, "γc", 1.5, "for concrete, Table 2.1N")
    share = values.national(design, "αct,pl", 0.8, "12.3.1 (1)")
    text = "αct,pl·0.7·fctm/γc"
    fctd = pen("fctd,pl", "design strength of plain concrete", text, (share, fctm, gamma), "stress", "12.3.1 (2)")
    edge = Symbol("W", cut.outline.inertia / (cut.h - cut.centroid), "volume", "section modulus of the tension face")
    return (
        fctm,
        fctd,
        pen("MRd", "moment at which plain concrete cracks", "fctd,pl·W", (fctd, edge), "moment", "12.6.1"),
    )


def _redistributed(design: Design) -> Iterator[Check]:
    """δ ≥ k1 + k2 xu/d over the supports, (5.10a), (5.10b), and not below k5 = 0.7 (class B, C) or k6 = 0.8 (A)."""
    pen = design.pen
    for x in design.beam.supports.x:
        cut = design.cut(x, False)
        demand = design.actions.at("ultimate", "hogging", x, "MEd")
        if demand.working.value <= 0.0 or not cut.bars:
            continue
        try:
            found, _ = strength(design, cut, demand.axial)
        except PhysicsError:
            continue
        xu = Symbol("xu", found.c, "length", "depth of the neutral axis at failure")
        d = Symbol("d", cut.d, "length", "effective depth")
        low = any(b.group.steel.strain_at_max < 0.05 - 1e-9 for b in cut.tension_bars)
        least = Symbol("k6" if low else "k5", 0.8 if low else 0.7, "ratio", "least, by the class of the steel, 5.5 (4)")
        e = Symbol("εcu2", values.crushed(design).value, "strain", "of the compressed face, Table 3.1")
        k1 = Symbol("k1,δ", 0.44 if design.strength <= 50.0 else 0.54, "ratio", "5.5 (4)")
        text = f"max({least.name}, k1,δ + 1.25·(0.6 + 0.0014/εcu2)·xu/d)"
        symbols = (least, k1, e, xu, d)
        need = pen("δmin", "least share of the elastic moment", text, symbols, "ratio", "(5.10a), (5.10b)")
        has = given("δ", "share of the elastic moments that is left", 1.0 - design.choices.redistribution, "ratio")
        key = "flexure-redistribution"
        yield under(demand, "redistribution", pen.cite("5.5 (4)"), has, (need, has), key, effect=need)


ABOUT = "MEd against MRd along the beam; x/d where moments are redistributed."
ENTRIES = (Entry("flexure", "bending", "6.1, 5.5", ABOUT, flexure),)

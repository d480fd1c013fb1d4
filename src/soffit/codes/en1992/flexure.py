"""Bending with and without axial force by EN 1992-1-1:2004 6.1, and what redistribution allows, 5.5; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.bending import Bending, Block, Layer, resist
from soffit.codes.cut import Cut, TendonsAt
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.en1992 import values
from soffit.codes.en1992.bond import developed
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.errors import PhysicsError

UNBONDED = 100.0
"""Growth of the stress of unbonded tendons up to failure, 5.10.8 (2), MPa."""
TAPER = 0.9
"""Of η fcd where the width falls towards the compressed face, 3.1.7 (3)."""


def _eta(design: Design, fck: Symbol) -> Working:
    text = "min(1.0, 1.0 − (fck − 50)/200)"
    return design.pen("η", "of the stress of the block", text, (fck,), "ratio", "(3.21), (3.22)")


def block(design: Design, cut: Cut, strength: float | None = None) -> Block:
    """3.1.7 (3), of the beam's own concrete or of another ``strength`` (fck, MPa)."""
    pen, own = design.pen, strength or design.strength
    symbol = Symbol("fck", own, "stress", "characteristic strength of the concrete in compression")
    fcd = values.fcd(design, symbol)
    eta = _eta(design, symbol)
    factor = pen(
        "λ",
        "depth of the block over that of the neutral axis",
        "min(0.8, 0.8 − (fck − 50)/400)",
        (symbol,),
        "ratio",
        "(3.19), (3.20)",
    )
    narrow = cut.width(1e-6 * cut.h) < 0.999 * cut.width(0.1 * cut.h)
    text, what = (
        ("0.9·η·fcd", "stress of the block, the width falls to the face")
        if narrow
        else ("η·fcd", "stress of the block")
    )
    stress = pen("ηfcd", what, text, (eta, fcd), "stress", "3.1.7 (3)")
    return Block(stress, factor, values.crushed(design), "x", "λx")


def layers(design: Design, cut: Cut) -> list[Layer]:
    """Bars to the horizontal branch with what is developed of them, tendons to fp0.1k/γs."""
    gamma = values.gamma_s(design)
    found = []
    for i, bar in enumerate(cut.bars, start=1):
        steel = bar.group.steel
        fyk = Symbol(f"fyk{i}", steel.yield_strength, "stress", f"yield strength of {bar.group.label}")
        es = Symbol(f"Es{i}", steel.modulus, "stress", f"modulus of {bar.group.label}")
        share = developed(design, bar)
        text, symbols = f"fyk{i}/γs", (fyk, gamma, es)
        if share < 1.0:
            part = Symbol(f"kd{i}", share, "ratio", "share of it that is anchored at the cut, 8.4")
            text, symbols = f"kd{i}·fyk{i}/γs", (part, *symbols)  # type: ignore[assignment]
        found.append(
            Layer(
                str(i),
                bar.group.label,
                bar.depth,
                bar.area,
                f"max(−{text}, min({text}, Es{i}·ε))",
                symbols,
                "3.2.7 (2)",
            )
        )
    for i, t in enumerate(cut.tendons, start=1):
        found.append(_tendon(design, cut, t, str(i), gamma))
    return found


def _tendon(design: Design, cut: Cut, t: TendonsAt, mark: str, gamma: Symbol) -> Layer:
    pen, steel = design.pen, t.group.steel
    ep = Symbol(f"Ep{mark}", steel.modulus, "stress", f"modulus of {t.group.label}")
    spe = Symbol(f"σpm{mark}", t.stress, "stress", f"of {t.group.label} after all losses, as far as bonded at the cut")
    if not t.bonded:
        rise = Symbol("Δσp", UNBONDED if t.depth > 0.5 * cut.h else 0.0, "stress", "growth, 5.10.8 (2)")
        fp = Symbol(f"fp0.1k{mark}", steel.yield_strength, "stress", f"proof stress of {t.group.label}")
        text = f"min(fp0.1k{mark}/γs, σpm{mark} + Δσp)"
        what = f"{t.group.label}, unbonded"
        return Layer(mark, what, t.depth, t.area, text, (fp, gamma, spe, rise), "5.10.8 (2)", None, True, False)
    fp = Symbol(f"fp0.1k{mark}", steel.yield_strength, "stress", f"proof stress of {t.group.label}")
    before = pen(
        f"εp0{mark}", f"strain of {t.group.label} by its prestress", f"σpm{mark}/Ep{mark}", (spe, ep), "strain"
    )
    top = f"fp0.1k{mark}/γs"
    if t.group.when == "before casting" and t.stress < 0.999 * t.full:
        # within the transmission length no more than what the prestress itself has there
        cap = Symbol(f"σpx{mark}", t.stress, "stress", "what bond has built up at the cut, 8.10.2.3")
        return Layer(
            mark,
            t.group.label,
            t.depth,
            t.area,
            f"max(−{top}, min({top}, σpx{mark}, Ep{mark}·ε))",
            (fp, gamma, cap, ep),
            "3.3.6 (7), 8.10.2.3",
            before,
            True,
        )
    return Layer(
        mark,
        t.group.label,
        t.depth,
        t.area,
        f"max(−{top}, min({top}, Ep{mark}·ε))",
        (fp, gamma, ep),
        "3.3.6 (7)",
        before,
        True,
    )


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
    found = resist(design.pen, cut, made, steel, axial, "MRd")
    if weakest(design, cut, found.a) != weakest(design, cut, None):
        made = block(design, cut, weakest(design, cut, found.a))
        found = resist(design.pen, cut, made, steel, axial, "MRd")
    return found, made


def flexure(design: Design) -> Found:
    """MEd ≤ MRd, the worst sagging and hogging place; x/d where moments are redistributed."""
    kinds = {bar.steel.kind for bar in design.beam.bars} | {t.steel.kind for t in design.beam.tendons}
    if "linear" in kinds:
        why = "reinforcement that does not yield is no steel of 3.2"
        yield Unchecked("bending", why, design.pen.cite("3.2.1"), scope=True)
        return
    for sagging in (True, False):
        found = worst(_flexure(design, sagging))
        if found is None:
            continue
        yield found
    if design.choices.redistribution:
        yield from _redistributed(design)


def _flexure(design: Design, sagging: bool) -> Iterator[Check]:
    pen, effect = design.pen, "sagging" if sagging else "hogging"
    for x in design.hardest("ultimate", "sagging" if sagging else "hogging"):
        demand = design.actions.at("ultimate", "sagging" if sagging else "hogging", x, "MEd")
        if demand.working.value <= 0.0:
            continue
        cut = design.cut(x, sagging)
        title, clause = f"bending, {effect}", pen.cite("6.1")
        if not cut.bars and not cut.tendons:
            rows = plain(design, cut)
            yield Check(
                title,
                pen.cite("12.6.1"),
                demand.working,
                rows[-1],
                (demand.working, *rows),
                (),
                f"flexure-{effect}",
                x,
                demand.combination,
                "strength",
            )
            continue
        try:
            found, made = strength(design, cut, demand.axial)
        except PhysicsError:
            none = given("MRd", "no equilibrium: the section does not bear the axial force", 0.0, "moment")
            yield Check(
                title,
                clause,
                demand.working,
                none,
                (demand.working, none),
                (),
                f"flexure-{effect}",
                x,
                demand.combination,
                "strength",
            )
            continue
        fck = Symbol("fck", weakest(design, cut, found.a), "stress", "of the concrete of the block")
        head = (demand.working, values.fcd(design, fck), _eta(design, fck), made.stress, made.factor)
        yield Check(
            title,
            clause,
            demand.working,
            found.moment,
            (*head, *found.workings),
            (),
            f"flexure-{effect}",
            x,
            demand.combination,
            "strength",
        )


def plain(design: Design, cut: Cut) -> tuple[Working, ...]:
    """Section 12: lightly reinforced or plain, elastic to fctd,pl with αct,pl = 0.8."""
    pen = design.pen
    fctm = values.fctm(design)
    gamma = values.national(design, "γc", 1.5, "for concrete, Table 2.1N")
    share = values.national(design, "αct,pl", 0.8, "12.3.1 (1)")
    text = "αct,pl·0.7·fctm/γc"
    fctd = pen("fctd,pl", "design strength of plain concrete", text, (share, fctm, gamma), "stress", "12.3.1 (2)")
    modulus = Symbol("W", cut.outline.inertia / (cut.h - cut.centroid), "volume", "section modulus of the tension face")
    return (
        fctm,
        fctd,
        pen("MRd", "moment at which plain concrete cracks", "fctd,pl·W", (fctd, modulus), "moment", "12.6.1"),
    )


def _redistributed(design: Design) -> Iterator[Check]:
    """δ ≥ k1 + k2 xu/d over the supports, (5.10a), (5.10b), and not below k5 = 0.7 (class B, C) or k6 = 0.8 (A)."""
    pen, delta = design.pen, 1.0 - design.choices.redistribution
    checks = []
    for x in design.beam.supports.x:
        cut = design.cut(x, False)
        demand = design.actions.at("ultimate", "hogging", x, "MEd")
        if demand.working.value <= 0.0 or not cut.bars:
            continue
        try:
            found, _ = strength(design, cut, demand.axial)
        except PhysicsError:
            continue
        xu, d = (
            Symbol("xu", found.c, "length", "depth of the neutral axis at failure"),
            Symbol("d", cut.d, "length", "depth"),
        )
        low = any(b.group.steel.strain_at_max < 0.05 - 1e-9 for b in cut.tension_bars)
        least = Symbol("k6" if low else "k5", 0.8 if low else 0.7, "ratio", "least, by the class of the steel, 5.5 (4)")
        e = Symbol("εcu2", values.crushed(design).value, "strain", "of the compressed face, Table 3.1")
        k1 = Symbol("k1,δ", 0.44 if design.strength <= 50.0 else 0.54, "ratio", "5.5 (4)")
        text = f"max({least.name}, k1,δ + 1.25·(0.6 + 0.0014/εcu2)·xu/d)"
        need = pen(
            "δmin", "least share of the elastic moment", text, (least, k1, e, xu, d), "ratio", "(5.10a), (5.10b)"
        )
        has = given("δ", "share of the elastic support moments that is left", delta, "ratio")
        checks.append(
            Check(
                "redistribution",
                pen.cite("5.5 (4)"),
                need,
                has,
                (need, has),
                (),
                "flexure-redistribution",
                x,
                demand.combination,
                "strength",
            )
        )
    most = worst(checks)
    if most is not None:
        yield most


ENTRIES = (
    Entry(
        "flexure",
        "bending",
        "6.1, 5.5",
        "MEd against MRd along the beam; x/d where moments are redistributed.",
        flexure,
    ),
)

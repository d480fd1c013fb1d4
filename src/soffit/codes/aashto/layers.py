"""Bars and tendons of a cut as layers of bending by AASHTO LRFD; *from memory*."""

from __future__ import annotations

from soffit.codes.aashto import values
from soffit.codes.aashto.bond import developed
from soffit.codes.aci318.layers import curve, prestrain
from soffit.codes.bending import Block, Layer
from soffit.codes.cut import BarsAt, Cut, TendonsAt
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working


def block(design: Design, strength: float | None = None) -> Block:
    """5.6.2.2, of the beam's own concrete or of another ``strength`` (f'c, MPa)."""
    own = Symbol("f'c", strength or design.strength, "stress", "specified strength of the concrete in compression")
    alpha = values.alpha1(design, own)
    stress = design.pen("α1f'c", "stress of the block", "α1·f'c", (alpha, own), "stress", "5.6.2.2")
    return Block(stress, values.beta1(design, own), values.CRUSHED)


def weakest(design: Design, a: float | None, cut: Cut) -> float:
    """f'c of the block: of the topping while the block of depth ``a`` stays in it, else of the weaker concrete."""
    top = design.opened.topping
    if top is None or design.cast is None or not cut.sagging:
        return design.strength
    inside = a is None or a <= design.cast.outline.depth
    return top if inside else min(top, design.strength)


def layers(design: Design, cut: Cut) -> list[Layer]:
    """Strain compatibility, 5.6.3.2.5."""
    bars = [bar_layer(bar, str(i + 1), developed(design, bar)) for i, bar in enumerate(cut.bars)]
    return [*bars, *(tendon_layer(design, cut, t, str(i + 1)) for i, t in enumerate(cut.tendons))]


def bar_layer(bar: BarsAt, mark: str, share: float) -> Layer:
    steel = bar.group.steel
    es = Symbol(f"Es{mark}", steel.modulus, "stress", f"modulus of {bar.group.label}")
    fy = Symbol(f"fy{mark}", steel.yield_strength, "stress", f"yield strength of {bar.group.label}")
    if share >= 1.0:
        return Layer(mark, bar.group.label, bar.depth, bar.area, f"max(−fy{mark}, min(fy{mark}, Es{mark}·ε))", (fy, es),
                     "5.6.2.1")  # fmt: skip
    part = Symbol(f"kd{mark}", share, "ratio", f"share of fy that {bar.group.label} has developed at the cut, 5.10.8.2")
    text = f"max(−kd{mark}·fy{mark}, min(kd{mark}·fy{mark}, Es{mark}·ε))"
    return Layer(mark, bar.group.label, bar.depth, bar.area, text, (part, fy, es), "5.6.2.1, 5.10.8.2")


def tendon_layer(design: Design, cut: Cut, t: TendonsAt, mark: str) -> Layer:
    fpe = Symbol(f"fpe{mark}", t.full if t.bonded else t.stress, "stress", f"effective stress of {t.group.label}")
    if not t.bonded:
        return _unbonded(design, cut, t, mark, fpe)
    text, symbols = curve(t, mark)
    beside, before = prestrain(design, cut, t, mark)
    shown: tuple[Working, ...] = (beside, before)
    clause = "5.6.3.2.5"
    if t.group.when == "before casting":
        cap, extra = strand_cap(design, cut, t, mark, fpe)
        if cap is not None:
            text, symbols, clause = f"min({text}, {cap.name})", (*symbols, cap.symbol), "5.6.3.2.5, 5.9.4.3.2"
            shown = (*shown, *extra)
    return Layer(mark, t.group.label, t.depth, t.area, text, symbols, clause, before, True, shown=shown)


def strand_cap(
    design: Design, cut: Cut, t: TendonsAt, mark: str, fpe: Symbol
) -> tuple[Working | None, tuple[Working, ...]]:
    """fpx, (5.9.4.3.2-2) and (-3): what a strand near its end can have; none where it is fully developed."""
    pen = design.pen
    lx = max(min(t.left, t.right), 0.0)
    steel = t.group.steel
    fps = Symbol(f"fps{mark}", 0.98 * steel.tensile, "stress", "stress at nominal resistance, taken as 0.98 fpu here")
    k = Symbol("κ", kappa(design, t), "ratio", "for the depth of the member or for debonded strand, 5.9.4.3.2")
    db = Symbol(f"db{mark}", t.group.diameter, "length", "diameter of the strand")
    ld = pen(f"ld{mark}", "development length", f"κ·(fps{mark} − 2/3·fpe{mark})·db{mark}", (k, fps, fpe, db),
             "length", "(5.9.4.3.2-1)")  # fmt: skip
    if lx >= ld.value:
        return None, ()
    at = Symbol(f"lx{mark}", lx, "length", "from the end of the bond to the cut")
    lt = pen(f"lt{mark}", "transfer length", f"60·db{mark}", (db,), "length", "5.9.4.3.1")
    if lx <= lt.value:
        cap = pen(f"fpx{mark}", "stress that bond has developed", f"fpe{mark}·lx{mark}/lt{mark}", (fpe, at, lt),
                  "stress", "(5.9.4.3.2-2)")  # fmt: skip
    else:
        cap = pen(
            f"fpx{mark}", "stress that bond has developed",
            f"fpe{mark} + (lx{mark} − lt{mark})/(ld{mark} − lt{mark})·(fps{mark} − fpe{mark})", (fpe, at, lt, ld, fps),
            "stress", "(5.9.4.3.2-3)",
        )  # fmt: skip
    return cap, (ld, lt, cap)


def kappa(design: Design, t: TendonsAt) -> float:
    if max(t.group.sheathed) > 0.0:
        return 2.0
    return 1.6 if design.beam.outline.depth > 24.0 * 25.4 else 1.0


def _unbonded(design: Design, cut: Cut, t: TendonsAt, mark: str, fpe: Symbol) -> Layer:
    """(5.6.3.1.2-1): fpe + 900 (dp − c)/ℓe ≤ fpy, with dp − c = dp ε/(0.003 + ε) by the plane of strain."""
    if t.depth <= 0.5 * cut.h:
        return Layer(mark, t.group.label, t.depth, t.area, fpe.name, (fpe,), "", None, True, False)
    hinges = max(len(design.beam.supports.x) - 2, 0)
    ends = t.group.x_to - t.group.x_from
    le = design.pen(
        "ℓe", "effective length of the tendon", "2·ℓi/(2 + Ns)",
        (Symbol("ℓi", ends, "length", "between the anchors"),
         Symbol("Ns", float(hinges), "count", "support hinges that the tendon crosses")), "length", "(5.6.3.1.2-2)",
    )  # fmt: skip
    fpy = Symbol(f"fpy{mark}", t.group.steel.yield_strength, "stress", f"yield strength of {t.group.label}")
    dp = Symbol(f"dpu{mark}", t.depth, "length", "depth of the unbonded tendons")
    slope = Symbol(f"ku{mark}", 900.0 * values.KSI, "stress", "900 ksi of (5.6.3.1.2-1)")
    text = f"min(fpy{mark}, fpe{mark} + ku{mark}·dpu{mark}/ℓe·max(ε, 0)/(0.003 + max(ε, 0)))"
    return Layer(mark, f"{t.group.label}, unbonded", t.depth, t.area, text, (fpy, fpe, slope, dp, le.symbol),
                 "(5.6.3.1.2-1)", None, True, False, (le,))  # fmt: skip

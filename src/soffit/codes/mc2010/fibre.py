"""Fibre concrete by the fib Model Code 2010, 5.6 and 7.7, from its residual strengths; *from memory*.

The rigid-plastic model in bending, the linear one at a crack of 1.5 mm in shear. Bars and fibres together.
"""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.bending import root
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.mc2010 import flexure, values
from soffit.codes.working import Check, Symbol, Unchecked, Working, given

GAMMA = 1.5
"""γF of the fibre concrete in tension, 5.6.6."""


def fibre(design: Design) -> Found:
    """Bending and shear with the fibres, and the ratio of residual strengths; nothing without fibres."""
    residual = design.choices.residual
    if residual is None:
        return
    if design.beam.tendons or design.cast is not None:
        yield Unchecked(
            "fibre concrete", "fibres are counted in beams without tendons and topping alone", design.pen.cite("7.7")
        )
        return
    yield _suits(design, residual)
    for sagging in (True, False):
        found = worst(_bending(design, residual, sagging))
        if found is not None:
            yield found
    found = worst(_shear(design, residual))
    if found is not None:
        yield found


def _symbols(residual: tuple[float, float]) -> tuple[Symbol, Symbol]:
    return (
        Symbol("fR1k", residual[0], "stress", "residual flexural strength at CMOD 0.5 mm"),
        Symbol("fR3k", residual[1], "stress", "residual flexural strength at CMOD 2.5 mm"),
    )


def _suits(design: Design, residual: tuple[float, float]) -> Check:
    pen = design.pen
    one, three = _symbols(residual)
    needed = given("0.5", "least ratio for fibres in the place of bars", 0.5, "ratio")
    there = pen("fR3k/fR1k", "ratio of the residual strengths", "fR3k / fR1k", (three, one), "ratio", "5.6.3")
    said = ("fR1k/fLk > 0.4 is wanted too; fLk is not in the beam file.",)
    return Check(
        "fibres as reinforcement",
        pen.cite("5.6.3"),
        needed,
        there,
        (needed, there),
        said,
        "fibre-ratio",
        state="strength",
    )


def _bending(design: Design, residual: tuple[float, float], sagging: bool) -> Iterator[Check]:
    pen, effect = design.pen, bending(sagging)
    _, three = _symbols(residual)
    gamma = Symbol("γF", GAMMA, "ratio", "for fibre concrete in tension, 5.6.6")
    pull = pen("fFtud", "design residual strength, rigid-plastic", "fR3k/3/γF", (three, gamma), "stress", "(5.6-2)")
    for x in design.hardest("ultimate", bending(sagging), ends=False):
        demand = design.actions.at("ultimate", bending(sagging), x, "MEd")
        if demand.working.value <= 0.0:
            continue
        cut = design.cut(x, sagging)
        moment, workings = _strength(design, cut, pull)
        yield Check(
            f"bending with fibres, {effect}", pen.cite("7.7.3.1"), demand.working, moment,
            (demand.working, pull, *workings), (), f"fibre-flexure-{effect}", x, demand.combination, "strength",
        )  # fmt: skip


def _strength(design: Design, cut: Cut, pull: Working) -> tuple[Working, tuple[Working, ...]]:
    """MRd with the fibres at fFtud below the neutral axis; strains as without them."""
    pen, block = design.pen, flexure.block(design, cut)
    alpha, beta, crushed = block.stress.value, block.factor.value, block.ultimate.value
    gamma = values.gamma_s(design).value

    def bars(c: float) -> list[tuple[float, float]]:
        found = []
        for b in cut.bars:
            steel = b.group.steel
            top = steel.yield_strength / gamma
            stress = max(-top, min(top, steel.modulus * crushed * (b.depth - c) / c))
            found.append((b.area * (stress + (alpha if b.depth < beta * c else 0.0)), b.depth))
        return found

    whole, first = cut.zone(cut.h)

    def total(c: float) -> float:
        c_in = min(c, cut.h)
        return (
            -alpha * cut.zone(min(beta * c, cut.h))[0] + pull.value * (whole - cut.zone(c_in)[0])
            + sum(f for f, _ in bars(c))
        )  # fmt: skip

    c = root(total, cut.h) or 1e-4 * cut.h
    squeezed, zc = cut.zone(min(beta * c, cut.h))
    above, za = cut.zone(min(c, cut.h))
    drawn = whole - above
    zf = (whole * first - above * za) / drawn if drawn > 0.0 else cut.h
    steel = sum(f for f, _ in bars(c))
    arm = sum(f * z for f, z in bars(c)) / steel if steel else 0.0
    x = given("x", "depth of the neutral axis at which the forces balance", c, "length")
    pressed = Symbol("Acc", squeezed, "area", "compressed concrete")
    fc = pen("C", "force of the concrete", "ηfcd·Acc", (block.stress, pressed), "force")
    ff = pen(
        "Ff", "force of the fibres", "fFtud·Act", (pull, Symbol("Act", drawn, "area", "concrete in tension")), "force"
    )
    fs = given("Fs", "force of the bars", steel, "force")
    moment = pen(
        "MRd", "moment of the forces", "Fs·ds + Ff·zf − C·zc",
        (fs, Symbol("ds", arm, "length", "depth of the force of the bars"), ff,
         Symbol("zf", zf, "length", "depth of the force of the fibres"), fc,
         Symbol("zc", zc, "length", "depth of the force of the concrete")), "moment", "7.7.3.1",
    )  # fmt: skip
    return moment, (values.fcd(design), block.stress, block.factor, x, fc, ff, fs, moment)


def _shear(design: Design, residual: tuple[float, float]) -> Iterator[Check]:
    pen = design.pen
    one, three = _symbols(residual)
    fts = pen("fFtsk", "residual strength in service", "0.45·fR1k", (one,), "stress", "(5.6-5)")
    w = Symbol("wu", 1.5, "length", "crack at failure, 7.7.3.2.2")
    cmod = Symbol("CMOD3", 2.5, "length", "crack mouth opening of fR3")
    ftu = pen("fFtuk", "residual strength at a crack of wu", "max(0, fFtsk − wu/CMOD3·(fFtsk − 0.5·fR3k + 0.2·fR1k))",
              (fts, w, cmod, three, one), "stress", "(5.6-6)")  # fmt: skip
    fctk = pen("fctk", "5 % fractile of the tensile strength", "0.7·fctm", (values.fctm(design),), "stress", "(5.1-4)")
    gamma = values.gamma_c(design)
    for x in design.places:
        cut = design.cut(x, True)
        if design.from_face(x) < cut.d - 1e-6:
            continue
        demand = design.actions.at("ultimate", "shear", x, "VEd")
        if demand.working.value <= 1e-9:
            continue
        if demand.moment < 0.0:
            cut = design.cut(x, False)
        d = Symbol("d", cut.d, "length", "effective depth")
        bw = Symbol("bw", cut.bw, "length", "least width of the web")
        k = pen("k", "for the size of the beam", "min(2, 1 + √(200/d))", (d,), "ratio", "7.7.3.2.2")
        steel = Symbol("As", cut.As, "area", "of the tension bars")
        rho = pen("ρl", "steel ratio", "min(0.02, As/(bw·d))", (steel, bw, d), "ratio", "7.7.3.2.2")
        s = Symbol("σcp", min(-demand.axial / design.outline.area, 0.2 * values.fcd(design).value), "stress",
                   "compression by the axial force")  # fmt: skip
        strength = pen(
            "VRd,F", "shear strength with fibres",
            "(0.18/γc·k·(100·ρl·(1 + 7.5·fFtuk/fctk)·fck)^(1/3) + 0.15·σcp)·bw·d",
            (gamma, k, rho, ftu, fctk, values.fck(design), s, bw, d), "force", "(7.7-5)",
        )  # fmt: skip
        workings = (demand.working, fts, ftu, values.fctm(design), fctk, k, rho, strength)
        said = ("Stirrups are not counted beside the fibres.",)
        yield Check(
            "shear with fibres", pen.cite("7.7.3.2.2"), demand.working, strength, workings, said, "fibre-shear", x,
            demand.combination, "strength",
        )  # fmt: skip


ENTRIES = (
    Entry(
        "fibre",
        "fibre concrete",
        "5.6, 7.7",
        "Bending and shear with the residual strengths of a fibre concrete.",
        fibre,
    ),
)

"""Crack width by the fib Model Code 2010, 7.6.4; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.actions import State
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.mc2010 import values
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.section.elastic import ElasticLayer, cracked, cracked_plane

LIMIT, STRICT = 0.3, 0.2
"""wlim of Table 7.6-1, mm: reinforced concrete; with bonded prestress."""
SHRINKAGE = 0.0
"""εsh in (7.6-5): the restraint by the bars of the shrinkage of the concrete is left out and said."""


def cracks(design: Design) -> Found:
    """wd under quasi-permanent loads (frequent with bonded tendons) against wlim."""
    found = False
    for sagging in (True, False):
        check = worst(_cracks(design, sagging))
        if check is not None:
            found = True
            yield check
    if not found and not design.beam.bars:
        why = "there are no bars, and without them nothing limits the cracks"
        yield Unchecked("crack width", why, design.pen.cite("7.6.4.4"))


def _cracks(design: Design, sagging: bool) -> Iterator[Check]:
    effect = bending(sagging)
    bonded = any(t.bond == "bonded" for t in design.beam.tendons)
    state: State = "frequent" if bonded else "quasi-permanent"
    for x in design.hardest(state, bending(sagging), ends=False):
        demand = design.actions.at(state, bending(sagging), x, "M")
        cut = design.cut(x, sagging)
        if demand.working.value <= 0.0 or not cut.tension_bars:
            continue
        made = width(design, cut, demand.working, demand.axial)
        if made is None:
            continue
        limit = given("wlim", "crack width that is allowed, Table 7.6-1",
                      design.choices.nationally("wmax", STRICT if bonded else LIMIT), "length")  # fmt: skip
        said = ("Shrinkage that the bars restrain (ηr εsh) is left out.",)
        yield Check(
            f"crack width, {effect}", design.pen.cite("7.6.4.4"), made[-1], limit, (demand.working, *made, limit), said,
            f"cracks-{effect}", x, demand.combination, "service",
        )  # fmt: skip


def width(design: Design, cut: Cut, moment: Working, axial: float) -> tuple[Working, ...] | None:
    """Workings to wd, the last of them; none where the section stays uncracked or its steel is not pulled."""
    pen, outline, e = design.pen, design.outline, design.modulus
    layers = [ElasticLayer(b.group.y, b.area, b.group.steel.modulus) for b in cut.bars]
    for t in cut.tendons:
        y = cut.h - t.depth if cut.sagging else t.depth
        if t.bonded:
            layers.append(ElasticLayer(y, t.area, t.group.steel.modulus, t.stress / t.group.steel.modulus))
    loose = [t for t in cut.tendons if not t.bonded]
    sign = 1.0 if cut.sagging else -1.0
    press = sum(t.force for t in loose)
    turn = sum(t.force * (t.depth - cut.centroid) for t in loose)
    plane = cracked_plane(outline, e, layers, axial - press, sign * (moment.value - turn))
    if plane.curvature != plane.curvature:
        return None
    bars = cut.tension_bars
    outer = max(bars, key=lambda b: b.depth)
    stress = outer.group.steel.modulus * plane.strain(outer.group.y)
    if stress <= 0.0:
        return None
    fctm = values.fctm(design)
    gross = moment.value - turn - sum(t.force * (t.depth - cut.centroid) for t in cut.tendons if t.bonded)
    total = axial - cut.P
    tension = gross * (cut.h - cut.centroid) / outline.inertia + total / outline.area
    if tension < fctm.value:
        return None
    depth = cracked(outline, e, layers, not cut.sagging)[1]
    x_depth = cut.depth_of(plane.neutral_axis if cut.tendons or axial else depth)
    h = Symbol("h", cut.h, "length", "depth of the section")
    c = Symbol("c", max(cut.h - outer.depth - outer.group.diameter / 2, 1.0), "length", "cover of the bars")
    phi = Symbol("φs", sum(b.group.count * b.group.diameter**2 for b in bars)
                 / sum(b.group.count * b.group.diameter for b in bars), "length", "diameter of the bars")  # fmt: skip
    x = Symbol("x", max(x_depth, 0.0), "length", "depth of the neutral axis, cracked")
    sigma = Symbol("σs", stress, "stress", "in the outermost bars, cracked section")
    hc = pen("hc,ef", "depth of the effective tension area", "min(2.5·(c + φs/2), (h − x)/3, h/2)", (c, phi, h, x),
             "length", "Fig. 7.6-4")  # fmt: skip
    wide = Symbol("b", cut.width(cut.h - 0.5 * hc.value) or cut.bw, "length", "width of the tension zone")
    steel = Symbol("As", cut.As, "area", "of the tension bars")
    rho = pen("ρs,ef", "steel over the effective tension area", "As/(b·hc,ef)", (steel, wide, hc), "ratio", "7.6.4.4.1")
    tau = pen("τbms", "mean bond stress", "1.8·fctm", (fctm,), "stress", "Table 7.6-2")
    reach = pen("ls,max", "length over which bars slip", "1.0·c + 0.25·fctm/τbms·φs/ρs,ef", (c, fctm, tau, phi, rho),
                "length", "(7.6-4)")  # fmt: skip
    es = Symbol("Es", outer.group.steel.modulus, "stress", "modulus of the bars")
    ec = Symbol("Ec", e, "stress", "modulus of the concrete")
    ratio = pen("αe", "modular ratio", "Es/Ec", (es, ec), "ratio")
    first = pen("σsr", "stress of the bars in the crack as it forms", "fctm/ρs,ef·(1 + αe·ρs,ef)", (fctm, rho, ratio),
                "stress", "(7.6-6)")  # fmt: skip
    beta = Symbol("β", 0.4, "ratio", "long-term, stabilised cracking, Table 7.6-2")
    wd = pen("wd", "crack width", "2·ls,max·max(0, (σs − β·σsr)/Es)",
             (reach, sigma, beta, first, es),
             "length", "(7.6-3), (7.6-5)")  # fmt: skip
    found = given("σs", "stress of the outermost bars, cracked section without tension", stress, "stress")
    return fctm, found, hc, rho, tau, reach, ratio, first, wd


ABOUT = "wd under quasi-permanent loads (with bonded tendons frequent ones) against wlim."
ENTRIES = (Entry("cracks", "crack width", "7.6.4.4", ABOUT, cracks),)

"""Shear by EN 1992-1-1:2004 6.2.1 to 6.2.3 and the least stirrups of 9.2.2; *from memory*.

VRd,c is not added to VRd,s. Struts are as flat as they bear (cot θ from 1 to 2.5) unless the file fixes them; their
crushing is told for the steepest, 45°, then. Loads near supports are not reduced (β of 6.2.2 (6) and 6.2.3 (8)), and
uncracked ends of prestressed beams have no strength of their own (6.4): both on the safe side.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from soffit.codes.actions import Factored
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, under, worst
from soffit.codes.en1992 import values
from soffit.codes.en1992.bond import developed
from soffit.codes.working import Check, Symbol, Unchecked, Working, given

FLATTEST = 2.5
LOOKED_AT = 2
"""Greatest shears of a zone that are worked out."""
COARSE = 0.2
"""Of the depth, by which tendons may differ in height within a zone."""
SMALL = 1e-9
USUAL_STIRRUPS = 500.0
"""fywk for the least stirrups where there are none, MPa (*ours*)."""


@dataclass(frozen=True)
class Web:
    """What the shear of one cut is resisted with."""

    cut: Cut
    demand: Factored
    d: Symbol
    bw: Symbol
    z: Working
    press: Working
    """σcp, at most 0.2 fcd."""
    fcd: Working
    nu: Working
    alpha: Working
    """αcw."""
    acting: tuple[Working, ...]
    """VEd, less the vertical part of the tendons; the last is what is compared."""

    @property
    def ved(self) -> Working:
        return self.acting[-1]


def web(design: Design, x: float) -> Web:
    """The web at ``x``, turned as the moment that goes with the greatest shear turns it."""
    return design.kept(("en1992 web", round(x, 6)), lambda: _web(design, x))


def _web(design: Design, x: float) -> Web:
    pen, demand = design.pen, design.actions.at("ultimate", "shear", x, "VEd")
    cut = design.cut(x, demand.moment >= 0.0)
    d = Symbol("d", cut.d, "length", "effective depth")
    fcd = values.fcd(design)
    n = Symbol("NEd", cut.P - demand.axial, "force", "compression by prestress and axial force")
    mean = pen(
        "σc", "mean compression", "NEd/Ac", (n, Symbol("Ac", cut.outline.area, "area", "of the section")), "stress"
    )
    press = pen("σcp", "mean compression, less than 0.2 fcd", "min(σc, 0.2·fcd)", (mean, fcd), "stress", "6.2.2 (1)")
    nu = pen("ν1", "for struts between cracks", "0.6·(1 − fck/250)", (values.fck(design),), "ratio", "(6.6N), (6.10)")
    bw = Symbol("bw", _width(cut), "length", "width of the web, less ducts")
    z = pen("z", "lever arm", "0.9·d", (d,), "length", "6.2.3 (1)")
    return Web(
        cut, demand, d, bw, z, press, fcd, nu, _alpha(design, mean, fcd), _acting(design, cut, demand),
    )  # fmt: skip


def _acting(design: Design, cut: Cut, demand: Factored) -> tuple[Working, ...]:
    """(6.1): tendons that rise towards the support take a part of the shear."""
    if abs(cut.rise) <= SMALL:
        return (demand.working,)
    part = cut.rise if demand.shear >= 0.0 else -cut.rise
    vp = Symbol("Vpd", part, "force", "vertical part of the tendons, where it helps")
    what = "shear less the vertical part of the tendons"
    return demand.working, design.pen("VEd,p", what, "max(0, VEd − Vpd)", (demand.working, vp), "force", "(6.1)")


def _width(cut: Cut) -> float:
    """bw,nom of (6.16), (6.17): less half of the grouted ducts at one level, where wider than bw/8, less 1.2 of those
    that are not grouted. Ducts of a group lie at one level."""
    off = 0.0
    for t in cut.tendons:
        if t.group.when == "after curing" and t.group.duct:
            if not t.bonded:
                off = max(off, 1.2 * t.group.count * t.group.duct)
            elif t.group.duct > cut.bw / 8.0:
                off = max(off, 0.5 * t.group.count * t.group.duct)
    return max(cut.bw - off, 0.0)


def _alpha(design: Design, mean: Working, fcd: Working) -> Working:
    share = mean.value / fcd.value
    if share <= 0.0:
        text, clause = "1", "6.2.3 (3)"
    elif share <= 0.25:
        text, clause = "1 + σc/fcd", "(6.11.aN)"
    elif share <= 0.5:
        text, clause = "1.25", "(6.11.bN)"
    else:
        text, clause = "max(0, 2.5·(1 − σc/fcd))", "(6.11.cN)"
    return design.pen("αcw", "for the compression of the struts", text, (mean, fcd), "ratio", clause)


def concrete(design: Design, made: Web) -> tuple[Working, ...]:
    """VRd,c, (6.2a) and (6.2b); the last of the workings."""
    pen, cut = design.pen, made.cut
    crd = Symbol("CRd,c", design.choices.nationally("CRd,c", 0.18 / design.choices.nationally("γc", 1.5)), "ratio",
                 "0.18/γc, 6.2.2 (1)")  # fmt: skip
    k1 = Symbol("k1", design.choices.nationally("k1,v", 0.15), "ratio", "6.2.2 (1)")
    k = pen("k", "for the size", "min(2.0, 1 + √(200/d))", (made.d,), "ratio", "6.2.2 (1)")
    # Asl runs lbd + d beyond the section
    beyond = (replace(b, left=b.left - cut.d, right=b.right - cut.d) for b in cut.tension_bars)
    area = sum(b.area for b in beyond if developed(design, b) >= 1.0 - SMALL)
    area += sum(t.area for t in cut.tension_tendons if t.bonded and min(t.left, t.right) > cut.d)
    asl = Symbol("Asl", area, "area", "steel in tension that runs on by its anchorage and d, Figure 6.3")
    rho = pen("ρl", "its share", "min(0.02, Asl/(bw·d))", (asl, made.bw, made.d), "ratio", "6.2.2 (1)")
    fck = values.fck(design)
    # vmin carries no γc
    least = pen("vmin", "least shear strength", "0.035·k^1.5·√(fck)", (k, fck), "stress", "(6.3N)")
    text = "max(0, max(CRd,c·k·(100·ρl·fck)^(1/3), vmin) + k1·σcp)·bw·d"
    symbols = (crd, k, rho, fck, k1, made.press, least, made.bw, made.d)
    strength = pen("VRd,c", "shear strength without stirrups", text, symbols, "force", "(6.2a), (6.2b)")
    return made.fcd, made.press, k, rho, least, strength


def flattest(design: Design, used: float) -> float:
    """The flattest cot θ at which struts bear, from ``used`` = what acts over (cot θ + tan θ) times their strength."""
    most = design.choices.nationally("cotθmax", FLATTEST)
    if used <= 0.0:
        return most
    twice = 1.0 / used
    return 1.0 if twice < 2.0 else float(min(max(0.5 * (twice + sqrt(twice * twice - 4.0)), 1.0), most))


def _full(made: Web) -> float:
    """VRd,max (cot θ + tan θ), N."""
    return made.alpha.value * made.bw.value * made.z.value * made.nu.value * made.fcd.value


def cot_theta(design: Design, cut: Cut) -> float:
    """cot θ by which the shear at a cut is verified: that of the file, else the flattest that the struts bear."""
    if design.choices.stirrup_angle is not None:
        return design.choices.stirrup_angle
    made = web(design, cut.x)
    return flattest(design, made.ved.value / _full(made)) if _full(made) > 0.0 else 1.0


def angle(design: Design, value: float) -> Symbol:
    fixed = design.choices.stirrup_angle is not None
    return Symbol(
        "cotθ", value, "ratio", "of the struts, " + ("as the file has it" if fixed else "as flat as they bear")
    )


def struts(design: Design, made: Web, cot: Symbol) -> tuple[Working, ...]:
    """VRd,max, (6.9); the last of the workings."""
    symbols = (made.alpha, made.bw, made.z, made.nu, made.fcd, cot)
    text, what = "αcw·bw·z·ν1·fcd/(cotθ + 1/cotθ)", "shear at which the struts crush"
    most = design.pen("VRd,max", what, text, symbols, "force", "(6.9)")
    return made.fcd, made.nu, made.alpha, made.z, most


def ties(design: Design, made: Web, cot: Symbol) -> tuple[Working, ...]:
    """VRd,s, (6.8), after fywd."""
    has = made.cut.stirrups
    assert has is not None
    fywk = Symbol("fywk", has.yield_strength, "stress", "yield strength of the stirrups")
    fywd = design.pen("fywd", "their design strength", "fywk/γs", (fywk, values.gamma_s(design)), "stress", "3.2.7 (2)")
    asw, s = (
        Symbol("Asw", has.area, "area", "of the legs of one stirrup"),
        Symbol("s", has.spacing, "length", "spacing"),
    )
    text, what = "Asw/s·z·fywd·cotθ", "shear that the stirrups bear"
    return fywd, design.pen("VRd,s", what, text, (asw, s, made.z, fywd, cot), "force", "(6.8)")


def places(design: Design) -> list[float]:
    """A depth from the faces and beyond (6.2.1 (8)): in each zone of stirrups, bars and tendons the greatest shears of
    either sense."""
    return design.kept("en1992 shear places", lambda: _places(design))


def _places(design: Design) -> list[float]:
    envelope, at = design.actions.envelope("ultimate"), design.actions.x
    zones: dict[object, list[tuple[float, float]]] = {}
    for x in design.places:
        cut = design.cut(x)
        if design.from_face(x) < 0.9 * cut.d - 1e-6:
            continue
        zone = (
            None if cut.stirrups is None else tuple(id(z) for z in cut.stirrups.zones),
            tuple(b.index for b in cut.bars), tuple((t.index, round(t.depth / COARSE / cut.h)) for t in cut.tendons),
        )  # fmt: skip
        for sense, values_ in ((1.0, envelope.shear_max), (-1.0, envelope.shear_min)):
            zones.setdefault((zone, sense), []).append((sense * float(np.interp(x, at, values_)), x))
    return sorted({x for rows in zones.values() for v, x in sorted(rows)[-LOOKED_AT:] if v > 0.0})


def shear(design: Design) -> Found:
    """VEd against VRd,c or the stirrups, the struts, the least stirrups and their spacing."""
    found: dict[str, list[Check]] = {}
    for x in places(design):
        made = web(design, x)
        if made.demand.working.value > SMALL:
            for check in (*_strength(design, made), *_detailed(design, made)):
                found.setdefault(check.key, []).append(check)
    faces = design.faces or design.beam.supports.x
    found["shear-struts"] = [_struts(design, web(design, x)) for x in faces]
    for checks in found.values():
        most = worst(c for c in checks if c.demand.value > SMALL)
        if most is not None:
            yield most
    if not places(design):
        why = "no place lies a depth from a support: the beam is all disturbed region"
        yield Unchecked("shear", why, design.pen.cite("6.2.1 (8)"))


def _strength(design: Design, made: Web) -> Iterator[Check]:
    """Where VEd is below VRd,c no stirrups are needed by calculation, but what there are may bear more."""
    bare = concrete(design, made)
    cite, key, head = design.pen.cite, "shear", (*made.acting[1:], *bare)
    enough = made.ved.value <= bare[-1].value
    if made.cut.stirrups is None:
        said = ("There are no stirrups.",)
        yield under(made.demand, "shear", cite("6.2.2"), bare[-1], head, key, said, made.ved)
        return
    cot = angle(design, cot_theta(design, made.cut))
    hung, crushed = ties(design, made, cot), struts(design, made, cot)
    text = "min(VRd,s, VRd,max)"
    total = design.pen("VRd", "shear strength: the lesser", text, (hung[-1], crushed[-1]), "force", "6.2.3 (3)")
    if enough and bare[-1].value >= total.value:
        said = ("No stirrups are needed by calculation; beams have the least ones all the same (6.2.1 (4)).",)
        yield under(made.demand, "shear", cite("6.2.2"), bare[-1], head, key, said, made.ved)
        return
    said = ("The concrete's own VRd,c is not added to the stirrups.",)
    rows = (*head, made.z, *hung, *crushed, total)
    yield under(made.demand, "shear", cite("6.2.3"), total, rows, key, said, made.ved)


def _struts(design: Design, made: Web) -> Check:
    """At the face, 6.2.1 (8): the whole VEd, never reduced for loads near the support; at 45°, where struts bear most,
    unless the file fixes them."""
    chosen = design.choices.stirrup_angle
    what = "of the steepest struts" if chosen is None else "of the struts, as the file has it"
    cot = Symbol("cotθ", 1.0 if chosen is None else chosen, "ratio", what)
    rows = struts(design, made, cot)
    clause = design.pen.cite("6.2.3 (3)")
    return under(made.demand, "crushing of the struts", clause, rows[-1], (*made.acting[1:], *rows), "shear-struts",
                 effect=made.ved)  # fmt: skip


def _detailed(design: Design, made: Web) -> Iterator[Check]:
    pen, cut = design.pen, made.cut
    has, clause = cut.stirrups, pen.cite("(9.5N)")
    fywk = Symbol("fywk", has.yield_strength if has else USUAL_STIRRUPS, "stress", "yield strength of the stirrups")
    need = pen("ρw,min", "least share of stirrups", "0.08·√(fck)/fywk", (values.fck(design), fywk), "ratio", "(9.5N)")
    if has is None:
        if design.choices.shape == "beam" and (design.beam.bars or design.beam.tendons):
            none = given("ρw", "there are no stirrups", 0.0, "ratio")
            said = ("Members of minor importance may do without (6.2.1 (4)).",)
            yield under(
                made.demand, "least stirrups", clause, none, (need, none), "shear-least", said, need, "detailing"
            )
        return
    asw, s = (
        Symbol("Asw", has.area, "area", "of the legs of one stirrup"),
        Symbol("s", has.spacing, "length", "spacing"),
    )
    bw = Symbol("bw", cut.bw, "length", "width of the web")
    rho = pen("ρw", "share of stirrups", "Asw/(s·bw)", (asw, s, bw), "ratio", "(9.4)")
    yield under(made.demand, "least stirrups", clause, rho, (need, rho), "shear-least", (), need, "detailing")
    is_ = given("s", "spacing of the stirrups", has.spacing, "length")
    most = pen("sl,max", "greatest spacing along the beam", "0.75·d", (made.d,), "length", "(9.6N)")
    key, clause = "shear-spacing", pen.cite("(9.6N)")
    yield under(made.demand, "spacing of stirrups", clause, most, (is_, most), key, (), is_, "detailing")


ABOUT = "VEd against VRd,c or the stirrups and the struts; least stirrups and their spacing."
ENTRIES = (Entry("shear", "shear", "6.2, 9.2.2", ABOUT, shear),)

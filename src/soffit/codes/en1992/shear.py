"""Shear by EN 1992-1-1:2004 6.2.1 to 6.2.3, and torsion with it by 6.3; *from memory*.

VRd,c is not added to VRd,s. Struts are as flat as they bear (cot θ from 1 to 2.5) unless the file fixes them. Loads
near supports are not reduced (β of 6.2.2 (6) and 6.2.3 (8) is not used), which is on the safe side.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

import numpy as np

from soffit.codes.actions import Factored
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.en1992 import values
from soffit.codes.en1992.bond import developed
from soffit.codes.working import Check, Symbol, Working, given

FLATTEST = 2.5
SMALL = 1e-9


@dataclass(frozen=True)
class Web:
    """What the shear of one cut is resisted with."""

    cut: Cut
    d: Symbol
    bw: Symbol
    z: Working
    press: Working
    """σcp."""
    fcd: Working


def web(design: Design, cut: Cut, axial: float = 0.0) -> Web:
    pen = design.pen
    d = Symbol("d", cut.d, "length", "effective depth")
    bw = Symbol("bw", _width(cut), "length", "least width of the web, less ducts (6.16), (6.17)")
    fcd = values.fcd(design)
    z = pen("z", "lever arm", "0.9·d", (d,), "length", "6.2.3 (1)")
    n = Symbol("NEd", cut.P - axial, "force", "compression by prestress and axial force")
    ac = Symbol("Ac", cut.outline.area, "area", "of the section")
    press = pen(
        "σcp", "mean compression, less than 0.2 fcd", "min(NEd/Ac, 0.2·fcd)", (n, ac, fcd), "stress", "6.2.2 (1)"
    )
    return Web(cut, d, bw, z, press, fcd)


def _width(cut: Cut) -> float:
    """bw,nom: less half of grouted ducts wider than bw/8, less 1.2 of ungrouted ones."""
    off = 0.0
    for t in cut.tendons:
        if t.group.when == "after curing" and t.group.duct:
            if not t.bonded:
                off = max(off, 1.2 * t.group.duct)
            elif t.group.duct > cut.bw / 8.0:
                off = max(off, 0.5 * t.group.duct)
    return max(cut.bw - off, 0.2 * cut.bw)


def concrete(design: Design, made: Web) -> tuple[Working, ...]:
    """VRd,c, (6.2a) and (6.2b); the last of the workings."""
    pen, cut = design.pen, made.cut
    crd = Symbol(
        "CRd,c",
        design.choices.nationally("CRd,c", 0.18 / design.choices.nationally("γc", 1.5)),
        "ratio",
        "0.18/γc, 6.2.2 (1)",
    )
    k1 = Symbol("k1", design.choices.nationally("k1,v", 0.15), "ratio", "6.2.2 (1)")
    k = pen("k", "for the size", "min(2.0, 1 + √(200/d))", (made.d,), "ratio", "6.2.2 (1)")
    anchored = sum(b.area for b in cut.tension_bars if developed(design, b) >= 1.0 - SMALL)
    asl = Symbol(
        "Asl", anchored + sum(t.area for t in cut.tension_tendons if t.bonded), "area", "anchored steel in tension"
    )
    rho = pen("ρl", "its share", "min(0.02, Asl/(bw·d))", (asl, made.bw, made.d), "ratio", "6.2.2 (1)")
    fck = values.fck(design)
    # vmin carries no γc
    least = pen("vmin", "least shear strength", "0.035·k^1.5·√(fck)", (k, fck), "stress", "(6.3N)")
    vrdc = pen(
        "VRd,c",
        "shear strength without stirrups",
        "max(CRd,c·k·(100·ρl·fck)^(1/3) + k1·σcp, vmin + k1·σcp)·bw·d",
        (crd, k, rho, fck, k1, made.press, least, made.bw, made.d),
        "force",
        "(6.2a), (6.2b)",
    )
    return (made.fcd, made.press, k, rho, least, vrdc)


def cot_theta(design: Design, cut: Cut) -> float:
    """cot θ by which the shear of a cut is verified: that of the file, else the flattest that the struts bear."""
    if design.choices.stirrup_angle is not None:
        return design.choices.stirrup_angle
    demand = _at(design, cut.x)
    return _flattest(design, web(design, cut, demand.axial), demand.working.value)


def _limit(design: Design) -> float:
    return design.choices.nationally("cotθmax", FLATTEST)


def _flattest(design: Design, made: Web, shear: float) -> float:
    """From VEd = αcw bw z ν1 fcd/(cot θ + tan θ)."""
    most = _alpha(design, made) * made.bw.value * made.z.value * _nu(design) * made.fcd.value
    if shear <= 0.0:
        return _limit(design)
    twice = most / shear
    if twice < 2.0:
        return 1.0
    return float(min(max(0.5 * (twice + sqrt(twice * twice - 4.0)), 1.0), _limit(design)))


def _nu(design: Design) -> float:
    return 0.6 * (1.0 - design.strength / 250.0)


def _alpha(design: Design, made: Web) -> float:
    press, fcd = max((made.cut.P) / made.cut.outline.area, 0.0), made.fcd.value
    if press <= 0.25 * fcd:
        return 1.0 + press / fcd
    return 1.25 if press <= 0.5 * fcd else max(2.5 * (1.0 - press / fcd), 0.0)


def struts(design: Design, made: Web, cot: Symbol) -> tuple[Working, ...]:
    """VRd,max, (6.9)."""
    pen = design.pen
    nu = pen("ν1", "for struts between cracks", "0.6·(1 − fck/250)", (values.fck(design),), "ratio", "(6.6N)")
    alpha = Symbol("αcw", _alpha(design, made), "ratio", "for the compression by prestress, (6.11.aN) to (6.11.cN)")
    most = pen(
        "VRd,max",
        "shear at which the struts crush",
        "αcw·bw·z·ν1·fcd/(cotθ + 1/cotθ)",
        (alpha, made.bw, made.z, nu, made.fcd, cot),
        "force",
        "(6.9)",
    )
    return (made.fcd, nu, made.z, most)


def ties(design: Design, made: Web, cot: Symbol) -> tuple[Working, ...]:
    """VRd,s, (6.8)."""
    pen, has = design.pen, made.cut.stirrups
    assert has is not None
    fywk = Symbol("fywk", has.yield_strength, "stress", "yield strength of the stirrups")
    fywd = pen("fywd", "their design strength", "fywk/γs", (fywk, values.gamma_s(design)), "stress", "3.2.7 (2)")
    asw, s = (
        Symbol("Asw", has.area, "area", "of the legs of one stirrup"),
        Symbol("s", has.spacing, "length", "spacing"),
    )
    return fywd, pen(
        "VRd,s", "shear that the stirrups bear", "Asw/s·z·fywd·cotθ", (asw, s, made.z, fywd, cot), "force", "(6.8)"
    )


def _at(design: Design, x: float) -> Factored:
    key = ("en1992 VEd", round(x, 6))
    return design.kept(key, lambda: design.actions.at("ultimate", "shear", x, "VEd"))


def places(design: Design) -> list[float]:
    """A depth from the faces and beyond (6.2.1 (8)), and the faces of supports for the struts; in each zone of stirrups
    and at each change the greatest shears."""
    return design.kept("en1992 shear places", lambda: _places(design))


def _places(design: Design) -> list[float]:
    envelope, at = design.actions.envelope("ultimate"), design.actions.x
    zones: dict[object, list[tuple[float, float]]] = {}
    for x in design.places:
        cut = design.cut(x)
        if design.from_face(x) < 0.9 * cut.d - 1e-6:
            continue
        shear = max(abs(float(np.interp(x, at, envelope.shear_max))), abs(float(np.interp(x, at, envelope.shear_min))))
        zone = (
            None if cut.stirrups is None else tuple(id(z) for z in cut.stirrups.zones),
            tuple(b.index for b in cut.tension_bars),
            tuple((t.index, round(t.depth, -1)) for t in cut.tendons),
        )
        zones.setdefault(zone, []).append((shear, x))
    found: set[float] = set()
    for rows in zones.values():
        found |= {x for _, x in sorted(rows)[-2:]}
    return sorted(found)


def shear(design: Design) -> Found:
    """VEd against VRd,c or the stirrups, the struts, the least stirrups and their spacing."""
    found: dict[str, list[Check]] = {}
    for x in places(design):
        demand = _at(design, x)
        if demand.working.value <= SMALL:
            continue
        cut = design.cut(x, demand.moment >= 0.0)
        for check in _checks(design, cut, demand):
            found.setdefault(check.key, []).append(check)
    for x in design.faces or tuple(design.beam.supports.x):
        demand = _at(design, x)
        if demand.working.value > SMALL:
            found.setdefault("shear-struts", []).append(_struts(design, design.cut(x, demand.moment >= 0.0), demand))
    for checks in found.values():
        most = worst(checks)
        if most is not None:
            yield most


def _reduced(design: Design, cut: Cut, demand: Factored) -> tuple[Working, ...]:
    """VEd less the vertical part of the tendons, (6.1); at least nothing."""
    if abs(cut.rise) <= SMALL:
        return (demand.working,)
    part = cut.rise if demand.shear >= 0.0 else -cut.rise
    vp = Symbol("Vpd", part, "force", "vertical part of the tendons, on the side of VEd where it helps")
    total = design.pen(
        "VEd,red",
        "shear less the vertical part of the tendons",
        "max(0, VEd − Vpd)",
        (demand.working, vp),
        "force",
        "(6.1)",
    )
    return demand.working, total


def _checks(design: Design, cut: Cut, demand: Factored) -> Iterator[Check]:
    pen = design.pen
    acting = _reduced(design, cut, demand)
    ved = acting[-1]
    made = web(design, cut, demand.axial)
    plain = concrete(design, made)
    has = cut.stirrups
    if ved.value <= plain[-1].value:
        said = ("No stirrups are needed by calculation; beams have the least ones all the same (6.2.1 (4)).",)
        yield Check(
            "shear",
            pen.cite("6.2.2"),
            ved,
            plain[-1],
            (*acting, *plain),
            said,
            "shear",
            cut.x,
            demand.combination,
            "strength",
        )
    elif has is None:
        yield Check(
            "shear",
            pen.cite("6.2.2"),
            ved,
            plain[-1],
            (*acting, *plain),
            ("There are no stirrups.",),
            "shear",
            cut.x,
            demand.combination,
            "strength",
        )
    else:
        cot = _cot(design, made, ved.value)
        rows = ties(design, made, cot)
        said = ("The concrete's own VRd,c is not added to the stirrups.",)
        yield Check(
            "shear",
            pen.cite("6.2.3"),
            ved,
            rows[-1],
            (*acting, *plain, made.z, *rows),
            said,
            "shear",
            cut.x,
            demand.combination,
            "strength",
        )
    if has is not None:
        yield from _detailed(design, cut, demand.combination)
    elif design.choices.shape == "beam":
        none = given("ρw", "there are no stirrups", 0.0, "ratio")
        need = _least(design, 500.0)
        yield Check(
            "least stirrups",
            pen.cite("(9.5N)"),
            need,
            none,
            (need, none),
            ("Members of minor importance may do without (6.2.1 (4)).",),
            "shear-least",
            cut.x,
            "",
            "detailing",
        )


def _cot(design: Design, made: Web, shear: float) -> Symbol:
    chosen = design.choices.stirrup_angle
    value = _flattest(design, made, shear) if chosen is None else chosen
    return Symbol(
        "cotθ",
        value,
        "ratio",
        "of the struts, " + ("the flattest that they bear" if chosen is None else "as the file has it"),
    )


def _struts(design: Design, cut: Cut, demand: Factored) -> Check:
    """At the face, 6.2.1 (8): the whole VEd, never reduced for loads near the support."""
    acting = _reduced(design, cut, demand)
    made = web(design, cut, demand.axial)
    cot = _cot(design, made, acting[-1].value)
    rows = struts(design, made, cot)
    return Check(
        "crushing of the struts",
        design.pen.cite("6.2.3 (3)"),
        acting[-1],
        rows[-1],
        (*acting, *rows),
        (),
        "shear-struts",
        cut.x,
        demand.combination,
        "strength",
    )


def _least(design: Design, fywk: float) -> Working:
    symbol = Symbol("fywk", fywk, "stress", "yield strength of the stirrups")
    return design.pen(
        "ρw,min", "least share of stirrups", "0.08·√(fck)/fywk", (values.fck(design), symbol), "ratio", "(9.5N)"
    )


def _detailed(design: Design, cut: Cut, combination: str) -> Iterator[Check]:
    pen, has = design.pen, cut.stirrups
    assert has is not None
    need = _least(design, has.yield_strength)
    asw, s = (
        Symbol("Asw", has.area, "area", "of the legs of one stirrup"),
        Symbol("s", has.spacing, "length", "spacing"),
    )
    rho = pen(
        "ρw",
        "share of stirrups",
        "Asw/(s·bw)",
        (asw, s, Symbol("bw", cut.bw, "length", "width of the web")),
        "ratio",
        "(9.4)",
    )
    yield Check(
        "least stirrups", pen.cite("(9.5N)"), need, rho, (need, rho), (), "shear-least", cut.x, combination, "detailing"
    )
    is_ = given("s", "spacing of the stirrups", has.spacing, "length")
    most = pen(
        "sl,max",
        "greatest spacing along the beam",
        "0.75·d",
        (Symbol("d", cut.d, "length", "effective depth"),),
        "length",
        "(9.6N)",
    )
    yield Check(
        "spacing of stirrups",
        pen.cite("(9.6N)"),
        is_,
        most,
        (is_, most),
        (),
        "shear-spacing",
        cut.x,
        combination,
        "detailing",
    )


ENTRIES = (
    Entry(
        "shear",
        "shear",
        "6.2, 9.2.2",
        "VEd against VRd,c or the stirrups and the struts; least stirrups and spacing.",
        shear,
    ),
)

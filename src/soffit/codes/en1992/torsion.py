"""Torsion with shear by EN 1992-1-1:2004 6.3, of the thin-walled section in the web; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.en1992 import shear, values
from soffit.codes.working import Check, Symbol, Unchecked, Working

NEGLIGIBLE = 1e-3
"""N·mm over N·mm of bending strength of the concrete: torque that is none."""


def torsion(design: Design) -> Found:
    """Struts, stirrups and longitudinal steel under TEd with VEd; nothing without torque."""
    if not any(load.eccentricity for load in design.beam.loads):
        return
    if design.beam.outline.shape == "circle":
        yield Unchecked("torsion", "only sections with a web of two vertical faces are checked", design.pen.cite("6.3"))
        return
    found: dict[str, list[Check]] = {}
    for x in shear.places(design):
        demand = design.actions.at("ultimate", "torsion", x, "TEd")
        if demand.working.value <= 0.0:
            continue
        cut = design.cut(x, demand.moment >= 0.0)
        for check in _checks(design, cut, demand.working, demand.combination):
            found.setdefault(check.key, []).append(check)
    for checks in found.values():
        most = worst(checks)
        if most is not None:
            yield most
    if found:
        yield Unchecked(
            "longitudinal bars for torsion round the section",
            "bars are counted as one sum: that they stand at every corner (9.2.3 (4)) is left to the drawing",
            design.pen.cite("9.2.3"),
        )


def _checks(design: Design, cut: Cut, ted: Working, combination: str) -> Iterator[Check]:
    pen = design.pen
    b, h = cut.bw, cut.h
    area = Symbol("A", b * h, "area", "of the rectangle of the web; flanges are left out")
    u = Symbol("u", 2.0 * (b + h), "length", "its perimeter")
    edge = max(2.0 * min((h - s.depth for s in cut.tension_bars), default=30.0), 1.0)
    tef = pen(
        "tef",
        "thickness of the thin wall",
        "min(max(A/u, twice), 0.5·b)",
        (
            area,
            u,
            Symbol("twice", edge, "length", "twice the axis distance of the bars"),
            Symbol("b", b, "length", "width of the web"),
        ),
        "length",
        "6.3.2 (1)",
    )
    sizes = (Symbol("b", b, "length", "width of the web"), Symbol("h", h, "length", "depth"), tef)
    ak = pen("Ak", "area within the wall's middle", "(b − tef)·(h − tef)", sizes, "area", "6.3.2 (1)")
    uk = pen("uk", "its perimeter", "2·(b + h − 2·tef)", sizes, "length", "6.3.2 (1)")
    fctd, fcd = values.fctd(design), values.fcd(design)
    trdc = pen("TRd,c", "torque at cracking", "2·Ak·tef·fctd", (ak, tef, fctd), "moment", "6.3.2 (5)")
    ved = design.actions.at("ultimate", "shear", cut.x, "VEd").working
    made = shear.web(design, cut)
    plain = shear.concrete(design, made)
    both = pen(
        "sum",
        "share of the concrete's strength that is used",
        "TEd/TRd,c + VEd/VRd,c",
        (ted, trdc, ved, plain[-1]),
        "ratio",
        "(6.31)",
    )
    head = (ted, ved, tef, ak, uk, fctd, fcd, trdc, *plain, both)
    one = pen("1", "bound", "1", (), "ratio")
    chosen = design.choices.stirrup_angle
    cot = Symbol("cotθ", shear.cot_theta(design, cut) if chosen is None else chosen, "ratio", "as for shear, 6.3.2 (2)")
    rows = shear.struts(design, made, cot)
    most = pen(
        "TRd,max",
        "torque at which the struts crush",
        "2·ν1·αcw·fcd·Ak·tef·cotθ/(1 + cotθ^2)",
        (rows[1], Symbol("αcw", shear._alpha(design, made), "ratio", "as for shear"), fcd, ak, tef, cot),
        "moment",
        "(6.30)",
    )
    crushed = pen(
        "used",
        "share of the struts' strength that is used",
        "TEd/TRd,max + VEd/VRd,max",
        (ted, most, ved, rows[-1]),
        "ratio",
        "(6.29)",
    )
    yield Check(
        "torsion with shear, struts",
        pen.cite("(6.29)"),
        crushed,
        one,
        (*head, *rows, most, crushed),
        (),
        "torsion-struts",
        cut.x,
        combination,
        "strength",
    )
    if both.value <= 1.0:
        said = ("No more than the least steel is needed, (6.31).",)
        yield Check(
            "torsion with shear, concrete",
            pen.cite("(6.31)"),
            both,
            one,
            head,
            said,
            "torsion-concrete",
            cut.x,
            combination,
            "information",
        )
        return
    has = cut.stirrups
    if has is None:
        yield Check(
            "torsion with shear, no stirrups",
            pen.cite("6.3.2"),
            both,
            one,
            head,
            (),
            "torsion-stirrups",
            cut.x,
            combination,
            "strength",
        )
        return
    fywd = shear.ties(design, made, cot)[0]
    legs = Symbol("n", float(has.legs), "count", "legs that bear the shear")
    need = pen(
        "asw",
        "needed area of one outer leg over its spacing",
        "TEd/(2·Ak·fywd·cotθ) + VEd/(z·fywd·cotθ)/n",
        (ted, ak, fywd, cot, ved, made.z, legs),
        "length",
        "6.3.2 (2), (6.8)",
    )
    there = pen(
        "Asw/s",
        "area of one leg over its spacing",
        "a/s",
        (Symbol("a", has.area / has.legs, "area", "of one leg"), Symbol("s", has.spacing, "length", "spacing")),
        "length",
    )
    yield Check(
        "stirrups for torsion with shear",
        pen.cite("6.3.2"),
        need,
        there,
        (*head, made.z, fywd, need, there),
        (),
        "torsion-stirrups",
        cut.x,
        combination,
        "strength",
    )
    gamma = values.gamma_s(design)
    fyk = Symbol("fyk", min((x.yield_strength for x in cut.bars), default=0.0), "stress", "yield strength of the bars")
    bend = abs(design.actions.at("ultimate", "sagging" if cut.sagging else "hogging", cut.x, "MEd").working.value)
    pull = Symbol("MEd", bend, "moment", "bending at the place")
    asl = pen(
        "ΣAsl",
        "longitudinal steel for torsion and bending together",
        "(TEd·cotθ/(2·Ak)·uk + MEd/z)/(fyk/γs)",
        (ted, cot, ak, uk, pull, made.z, fyk, gamma),
        "area",
        "(6.28)",
    )
    bars = pen("As", "all bars of the section", "As", (Symbol("As", cut.As + cut.Asc, "area", "all bars"),), "area")
    yield Check(
        "longitudinal steel for torsion",
        pen.cite("(6.28)"),
        asl,
        bars,
        (*head, asl, bars),
        (),
        "torsion-bars",
        cut.x,
        combination,
        "strength",
    )


ENTRIES = (
    Entry(
        "torsion", "torsion with shear", "6.3", "TEd with VEd against struts, stirrups and longitudinal bars.", torsion
    ),
)

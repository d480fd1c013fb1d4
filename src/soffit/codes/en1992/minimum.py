"""Least and greatest reinforcement of beams, EN 1992-1-1:2004 9.2.1.1, 5.10.1 (5)P; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.en1992 import values
from soffit.codes.en1992.flexure import plain, strength
from soffit.codes.working import Check, Symbol, Working
from soffit.errors import PhysicsError

NEGLIGIBLE = 0.05
"""Of the greatest moment along the beam (*ours*)."""


def greatest(design: Design) -> float:
    """The greatest moment of either sign, N·mm."""
    found = design.actions.envelope("ultimate")
    return float(max(found.sagging.max(), found.hogging.max()))


def minimum(design: Design) -> Found:
    """As,min or, with tendons, strength beyond cracking; As,max."""
    for sagging in (True, False):
        check = worst(_minimum(design, sagging))
        if check is not None:
            yield check
    yield from _most(design)


def _minimum(design: Design, sagging: bool) -> Iterator[Check]:
    effect = "sagging" if sagging else "hogging"
    for x in design.hardest("ultimate", "sagging" if sagging else "hogging", ends=False):
        demand = design.actions.at("ultimate", "sagging" if sagging else "hogging", x, "MEd")
        cut = design.cut(x, sagging)
        # where bending is next to nothing the section may be taken as unreinforced, 9.2.1.1 (2)
        small = demand.working.value <= NEGLIGIBLE * greatest(design)
        if demand.working.value <= 0.0 or (small and plain(design, cut)[-1].value >= demand.working.value):
            continue
        if cut.prestressed:
            yield from _beyond(design, cut, demand.axial, effect, demand.combination)
        elif cut.tension_bars:
            yield _bars(design, cut, effect, demand.combination)


def _bars(design: Design, cut: Cut, effect: str, combination: str) -> Check:
    pen = design.pen
    fctm = values.fctm(design)
    fyk = Symbol("fyk", min(b.yield_strength for b in cut.tension_bars), "stress", "yield strength of the bars")
    _, deep = cut.tension_flange
    mean = cut.outline.area - cut.zone(0.5 * cut.h)[0]
    bt = Symbol("bt", cut.bw if not deep else mean / (0.5 * cut.h), "length", "mean width of the tension zone")
    d = Symbol("d", cut.ds, "length", "effective depth of the bars")
    need = pen(
        "As,min", "least steel in tension", "max(0.26·fctm/fyk, 0.0013)·bt·d", (fctm, fyk, bt, d), "area", "(9.1N)"
    )
    has = pen("As", "bars in tension", "As", (Symbol("As", cut.As, "area", "bars in tension"),), "area")
    return Check(
        f"least steel, {effect}",
        pen.cite("9.2.1.1 (1)"),
        need,
        has,
        (fctm, need, has),
        (),
        f"minimum-{effect}",
        cut.x,
        combination,
        "strength",
    )


def _beyond(design: Design, cut: Cut, axial: float, effect: str, combination: str) -> Iterator[Check]:
    """Strength beyond cracking: 1.15 Mcr with unbonded tendons, 9.2.1.1 (4); Mcr with bonded ones, 5.10.1 (5)P a."""
    pen = design.pen
    try:
        found, _ = strength(design, cut, axial)
    except PhysicsError:
        return
    outline, bare = design.outline, design.beam.outline
    fctm = values.fctm(design)
    edge = outline.depth - cut.centroid
    w = Symbol("W", outline.inertia / edge, "volume", "section modulus of the tension face")
    y = bare.centroid if cut.sagging else bare.depth - bare.centroid
    turn = (
        sum(t.force * (bare.centroid - (cut.h - t.depth)) for t in cut.tendons)
        if cut.sagging
        else sum(t.force * (t.depth - (bare.depth - bare.centroid)) for t in cut.tendons)
    )
    press = Symbol(
        "σcp", cut.P / bare.area + turn * y / bare.inertia, "stress", "compression of that face by prestress"
    )
    loose = not any(t.bonded for t in cut.tendons)
    share = Symbol("k", 1.15 if loose else 1.0, "ratio", "unbonded, 9.2.1.1 (4)" if loose else "bonded, 5.10.1 (5)P")
    need = pen(
        "Mcr",
        "strength that is wanted beyond cracking",
        "max(0, k·(fctm + σcp)·W)",
        (share, fctm, press, w),
        "moment",
        "9.2.1.1 (4), 5.10.1 (5)P",
    )
    said = ("Method a: steel enough to bear the cracking moment; the gross whole section under all prestress.",)
    workings: tuple[Working, ...] = (fctm, need, *found.workings)
    yield Check(
        f"strength beyond cracking, {effect}",
        pen.cite("5.10.1 (5)P"),
        need,
        found.moment,
        workings,
        said,
        f"minimum-{effect}",
        cut.x,
        combination,
        "strength",
    )


def _most(design: Design) -> Iterator[Check]:
    pen = design.pen
    if not design.beam.bars:
        return
    x = max(design.places, key=lambda at: max(design.cut(at).As, design.cut(at).Asc))
    cut = design.cut(x)
    steel = max(cut.As, cut.Asc)
    if steel <= 0.0:
        return
    has = pen("As", "bars on one face", "As", (Symbol("As", steel, "area", "bars on one face"),), "area")
    ac = Symbol("Ac", design.beam.outline.area, "area", "of the section")
    most = pen("As,max", "greatest outside laps", "0.04·Ac", (ac,), "area", "9.2.1.1 (3)")
    yield Check(
        "greatest steel", pen.cite("9.2.1.1 (3)"), has, most, (has, most), (), "minimum-greatest", x, "", "detailing"
    )


ENTRIES = (
    Entry(
        "minimum",
        "least and greatest steel",
        "9.2.1.1, 5.10.1 (5)P",
        "As against As,min and As,max; with tendons MRd against the cracking moment.",
        minimum,
    ),
)

"""Least and greatest reinforcement of beams, EN 1992-1-1:2004 9.2.1.1, 5.10.1 (5)P; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.actions import Factored
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, under, worst
from soffit.codes.en1992 import values
from soffit.codes.en1992.flexure import plain, strength
from soffit.codes.working import Check, Symbol, Working
from soffit.errors import PhysicsError

NEGLIGIBLE = 0.05
"""Of the greatest moment along the beam: below it a section that bears its moment as plain concrete may be taken as
unreinforced, 9.2.1.1 (2) (the share is *ours*)."""


def minimum(design: Design) -> Found:
    """As,min or, with tendons, strength beyond cracking; As,max."""
    envelope = design.actions.envelope("ultimate")
    greatest = float(max(envelope.sagging.max(), envelope.hogging.max()))
    for sagging in (True, False):
        bent = list(_bent(design, sagging, NEGLIGIBLE * greatest))
        check = worst(_bars(design, cut, demand) for cut, demand in bent if not cut.prestressed and cut.tension_bars)
        if check is not None:
            yield check
        # a prestressed beam snaps, if it does, where it cracks first as its load rises
        tied = [(demand.working.value / max(cracking(design, cut)[-1].value, 1.0), cut, demand)
                for cut, demand in bent if cut.prestressed]  # fmt: skip
        if tied:
            _, cut, demand = max(tied, key=lambda each: each[0])
            yield from _beyond(design, cut, demand)
    yield from _most(design)


def _bent(design: Design, sagging: bool, small: float) -> Iterator[tuple[Cut, Factored]]:
    for x in design.hardest("ultimate", bending(sagging), ends=False):
        demand = design.actions.at("ultimate", bending(sagging), x, "MEd")
        cut, acting = design.cut(x, sagging), demand.working.value
        if acting > small or (acting > 0.0 and plain(design, cut)[-1].value < acting):
            yield cut, demand


def _bars(design: Design, cut: Cut, demand: Factored) -> Check:
    pen, word = design.pen, bending(cut.sagging)
    fctm = values.fctm(design)
    fyk = Symbol("fyk", min(b.yield_strength for b in cut.tension_bars), "stress", "yield strength of the bars")
    drawn = (cut.outline.area - cut.zone(0.5 * cut.h)[0]) / (0.5 * cut.h)
    bt = Symbol("bt", drawn if cut.tension_flange[1] else cut.bw, "length", "mean width of the tension zone")
    d = Symbol("d", cut.ds, "length", "effective depth of the bars")
    text = "max(0.26·fctm/fyk, 0.0013)·bt·d"
    need = pen("As,min", "least steel in tension", text, (fctm, fyk, bt, d), "area", "(9.1N)")
    has = pen("As", "bars in tension", "As,t", (Symbol("As,t", cut.As, "area", "bars in tension"),), "area")
    clause = pen.cite("9.2.1.1 (1)")
    return under(demand, f"least steel, {word}", clause, has, (fctm, need, has), f"minimum-{word}", (), need)


def cracking(design: Design, cut: Cut) -> tuple[Working, Working]:
    """fctm, and the strength that is wanted beyond cracking: 1.15 Mcr with unbonded tendons alone, 9.2.1.1 (4); else
    Mcr, 5.10.1 (5)P."""
    pen, outline, bare = design.pen, design.outline, design.beam.outline
    fctm = values.fctm(design)
    # of the bare beam: depth of its tension face below its centroid, and of each tendon
    face = bare.centroid if cut.sagging else bare.depth - bare.centroid
    centroid = cut.h - bare.centroid if cut.sagging else bare.centroid
    turn = sum(t.force * (t.depth - centroid) for t in cut.tendons)
    press = cut.P / bare.area + turn * face / bare.inertia
    scp = Symbol("σcp", press, "stress", "compression of that face by prestress")
    w = Symbol("W", outline.inertia / (outline.depth - cut.centroid), "volume", "section modulus of the tension face")
    loose = not any(t.bonded for t in cut.tendons)
    clause = "9.2.1.1 (4)" if loose else "5.10.1 (5)P"
    k = Symbol("k", 1.15 if loose else 1.0, "ratio", f"{'unbonded' if loose else 'bonded'}, {clause}")
    what, text = "strength that is wanted beyond cracking", "max(0, k·(fctm + σcp)·W)"
    return fctm, pen("Mcr", what, text, (k, fctm, scp, w), "moment", clause)


def _beyond(design: Design, cut: Cut, demand: Factored) -> Iterator[Check]:
    try:
        found, _ = strength(design, cut, demand.axial)
    except PhysicsError:
        return
    word, (fctm, need) = bending(cut.sagging), cracking(design, cut)
    said = ("Steel enough to bear the cracking moment; gross whole section, all prestress on it.",)
    rows = (fctm, need, *found.workings)
    title = f"strength beyond cracking, {word}"
    yield under(demand, title, need.clause, found.moment, rows, f"minimum-{word}", said, need)


def _most(design: Design) -> Iterator[Check]:
    pen = design.pen
    if not design.beam.bars:
        return
    x = max(design.places, key=lambda at: max(design.cut(at).As, design.cut(at).Asc))
    steel = Symbol("As,f", max(design.cut(x).As, design.cut(x).Asc), "area", "bars of one face")
    has = pen("As", "bars of one face", "As,f", (steel,), "area")
    most = pen("As,max", "greatest outside laps", "0.04·Ac",
               (Symbol("Ac", design.beam.outline.area, "area", "of the section"),), "area", "9.2.1.1 (3)")  # fmt: skip
    yield Check(
        "greatest steel", pen.cite("9.2.1.1 (3)"), has, most, (has, most), (), "minimum-greatest", x, "", "detailing"
    )


ABOUT = "As against As,min and As,max; with tendons MRd against the cracking moment."
ENTRIES = (Entry("minimum", "least and greatest steel", "9.2.1.1, 5.10.1 (5)P", ABOUT, minimum),)

"""Minimum flexural reinforcement, AASHTO LRFD 5.6.3.3; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.aashto import values
from soffit.codes.aashto.flexure import hard_places, strength
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.working import Check, Symbol, Working
from soffit.errors import PhysicsError

COMPOSITE = "Slab and beam are taken as of one modulus."


def minimum(design: Design) -> Found:
    """Mr at the place of the greatest moment against the lesser of Mcr and 1.33 Mu."""
    for sagging in (True, False):
        check = worst(_minimum(design, sagging))
        if check is not None:
            yield check


def _minimum(design: Design, sagging: bool) -> Iterator[Check]:
    pen, effect = design.pen, bending(sagging)
    for x in _places(design, sagging):
        demand = design.actions.at("ultimate", bending(sagging), x, "Mu")
        if demand.working.value <= 0.0:
            continue
        cut = design.cut(x, sagging)
        if not cut.bars and not cut.tendons:
            continue
        try:
            found = strength(design, cut, demand.axial)
        except PhysicsError:
            continue
        mcr, workings = cracking(design, cut)
        said = (COMPOSITE,) if design.cast is not None else ()
        less = pen("1.33Mu", "a third more than the demand", "1.33·Mu", (demand.working,), "moment", "5.6.3.3")
        need = pen("Mmin", "least factored resistance", "max(0, min(Mcr, 1.33Mu))", (mcr, less), "moment", "5.6.3.3")
        yield Check(
            f"least reinforcement, {effect}", pen.cite("5.6.3.3"), need, found.factored,
            (*workings, demand.working, less, need, *found.workings), said, f"min-steel-{effect}", x,
            demand.combination, "strength",
        )  # fmt: skip


def _places(design: Design, sagging: bool) -> tuple[float, ...]:
    """Where bending is hardest and where the moment is greatest: elsewhere 1.33 Mu is less."""
    values_ = design.actions.envelope("ultimate")
    moments = np.interp(design.places, design.actions.x, values_.sagging if sagging else values_.hogging)
    greatest = design.places[int(np.argmax(moments))]
    return tuple(dict.fromkeys((*hard_places(design, sagging, 2), greatest)))


def cracking(design: Design, cut: Cut) -> tuple[Working, tuple[Working, ...]]:
    """Mcr, (5.6.3.3-1), of gross sections."""
    pen, bare, whole = design.pen, design.beam.outline, design.outline
    fr = values.rupture(design)
    bottom = cut.sagging
    snc = bare.inertia / (bare.centroid if bottom else bare.depth - bare.centroid)
    sc = whole.inertia / (whole.centroid if bottom else whole.depth - whole.centroid)
    y = 0.0 if bottom else bare.depth
    force = sum(t.force for t in cut.tendons)
    turn = sum(t.force * (bare.centroid - (cut.h - t.depth if cut.sagging else t.depth)) for t in cut.tendons)
    press = force / bare.area + turn * (bare.centroid - y) / bare.inertia
    fcpe = Symbol("fcpe", max(press, 0.0), "stress", "compression of the tension face by prestress alone")
    prestressed, bonded = cut.prestressed, any(t.bonded for t in cut.tendons)
    g1 = Symbol("γ1", 1.6, "ratio", "for the scatter of flexural cracking, not segmental")
    g2 = Symbol("γ2", 1.1 if bonded else 1.0, "ratio", "for the scatter of prestress")
    g3 = Symbol("γ3", 1.0 if prestressed else _gamma3(cut), "ratio", "yield over tensile strength of the steel")
    s = Symbol("Sc", sc, "volume", "section modulus of the whole section")
    if design.cast is None or not bottom:
        mcr = pen("Mcr", "cracking moment", "γ3·(γ1·fr + γ2·fcpe)·Sc", (g3, g1, fr, g2, fcpe, s), "moment",
                  "(5.6.3.3-1)")  # fmt: skip
        return mcr, (fr, mcr)
    m = max(float(np.interp(cut.x, design.actions.x, design.actions.bare())), 0.0)
    md = Symbol("Mdnc", m, "moment", "on the bare beam")
    sn = Symbol("Snc", snc, "volume", "section modulus of the bare beam")
    mcr = pen("Mcr", "cracking moment", "γ3·((γ1·fr + γ2·fcpe)·Sc − Mdnc·(Sc/Snc − 1))",
              (g3, g1, fr, g2, fcpe, s, md, sn), "moment", "(5.6.3.3-1)")  # fmt: skip
    return mcr, (fr, mcr)


def _gamma3(cut: Cut) -> float:
    """0.67 for A615 Grade 60, 0.75 for A706 Grade 60 and A615 Grade 75, else the steel's own ratio, at least 0.67."""
    steel = max(cut.bars, key=lambda b: b.depth).group.steel
    return min(max(steel.yield_strength / steel.tensile, 0.67), 1.0)


ENTRIES: tuple[Entry, ...] = (
    Entry("min-steel", "least flexural reinforcement", "5.6.3.3", "The lesser of Mcr and 1.33 Mu against Mr.", minimum),
)

"""Deflection by live load, AASHTO LRFD 2.5.2.6.2 with the effective stiffness of 5.6.3.5.2; *from memory*.

The criteria are optional there, so what comes of them is told for information.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from soffit.codes.aashto import values
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.working import Check, Symbol, Working, given
from soffit.section.elastic import ElasticLayer, cracked

FEET = ("crowd",)
LIVE = ("live", "crowd", "traffic")


def sagging(design: Design) -> Found:
    """Each span: sag under Service I less that under permanent loads, against span/800, with people on foot /1000."""
    beam = design.beam
    if not any(load.case in LIVE for load in beam.loads) and not design.choices.vehicles:
        return
    held = beam.supports.x
    spans = [(a, b, False) for a, b in pairwise(held)]
    if held[0] > 1.0:
        spans.append((0.0, held[0], True))
    if held[-1] < beam.length - 1.0:
        spans.append((held[-1], beam.length, True))
    found = worst(_span(design, a, b, free) for a, b, free in spans)
    if found is not None:
        yield found


def _span(design: Design, low: float, high: float, free: bool) -> Check | None:
    pen, at = design.pen, design.actions.x
    on = (at >= low - 1e-6) & (at <= high + 1e-6)
    total, dead = design.actions.envelope("characteristic"), design.actions.envelope("quasi-permanent")
    rise = np.where(on, total.sag_max - dead.sag_max, -np.inf)
    i = int(np.argmax(rise))
    if rise[i] <= 0.0:
        return None
    x = float(at[i])
    gross = given("Δg", f"deflection of live load at {x:.0f} mm, gross section", float(rise[i]), "length", "ksi")
    stiff, said = _stiffness(design, low, high)
    is_ = pen("Δ", "deflection of live load", "Δg·Ig/Ie", (gross, *stiff[-1:], _gross(design)), "length")
    reach = Symbol("L", high - low, "length", "cantilever" if free else "span")
    walked = any(load.case in FEET for load in design.beam.loads)
    share = (375 if walked else 300) if free else (1000 if walked else 800)
    who = "vehicles and people on foot" if walked else "vehicles"
    limit = pen("Δlim", f"greatest, {who}", f"L/{share}", (reach,), "length", "2.5.2.6.2")
    return Check(
        "deflection of live load", pen.cite("2.5.2.6.2"), is_, limit, (gross, *stiff, is_, limit),
        (*said, "The criterion is optional: the owner decides on it."), "sagging", x, "Service I less permanent loads",
        "information",
    )  # fmt: skip


def _gross(design: Design) -> Symbol:
    return Symbol("Ig", design.outline.inertia, "inertia", "of the gross section")


def _stiffness(design: Design, low: float, high: float) -> tuple[tuple[Working, ...], tuple[str, ...]]:
    """Ie at the place of the greatest moment of the span, (5.6.3.5.2-1); of prestressed members the gross section."""
    pen, at, ig = design.pen, design.actions.x, _gross(design)
    if any(t.stress > 0.0 for t in design.beam.tendons):
        return (given("Ie", "of the gross section", ig.value, "inertia", "ksi"),), ("Prestressed: taken as uncracked.",)
    total = design.actions.envelope("characteristic")
    on = (at >= low - 1e-6) & (at <= high + 1e-6)
    both = np.where(on, np.maximum(total.sagging, total.hogging), -1.0)
    i = int(np.argmax(both))
    cut = design.cut(float(at[i]), bool(total.sagging[i] >= total.hogging[i]))
    steel = [ElasticLayer(b.group.y, b.area, b.group.steel.modulus) for b in cut.bars]
    if not steel or both[i] <= 0.0:
        return (given("Ie", "of the gross section", ig.value, "inertia", "ksi"),), ()
    split, _ = cracked(design.outline, design.modulus, steel, hogging=not cut.sagging)
    fr, yt = values.rupture(design), Symbol("yt", cut.h - cut.centroid, "length", "centroid to the tension face")
    mcr = pen("Mcr", "cracking moment", "fr·Ig/yt", (fr, ig, yt), "moment", "(5.6.3.5.2-2)")
    ma = given("Ma", f"greatest moment of Service I, at {cut.x:.0f} mm", float(both[i]), "moment", "ksi")
    icr = Symbol("Icr", split.inertia, "inertia", "of the cracked section")
    if ma.value > mcr.value:
        text = "min(Ig, (Mcr/Ma)^3·Ig + (1 − (Mcr/Ma)^3)·Icr)"
        ie = pen("Ie", "effective", text, (mcr, ma, ig, icr), "inertia", "(5.6.3.5.2-1)")
    else:
        ie = pen("Ie", "effective: uncracked", "Ig", (ig,), "inertia", "5.6.3.5.2")
    return (fr, mcr, ma, ie), ("One effective stiffness along the span.",)


ENTRIES: tuple[Entry, ...] = (
    Entry("sagging", "deflection", "2.5.2.6.2", "Deflection of live load against the optional span/800 or span/1000.",
          sagging),
)  # fmt: skip

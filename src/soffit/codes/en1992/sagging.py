"""Deflection by EN 1992-1-1:2004 7.4.1 and 7.4.3: curvatures integrated; recommended limits, *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found
from soffit.codes.en1992 import deflection, service
from soffit.codes.en1992.curvature import Bent
from soffit.codes.en1992.longterm import LongTerm, longterm
from soffit.codes.en1992.slender import Span, spans
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.materials.curve import Array
from soffit.member import statics
from soffit.section.elastic import ElasticLayer, cracked, uncracked


def sagging(design: Design) -> Found:
    """7.4.1 (4): ℓ/250 under quasi-permanent loads; (5): ℓ/500 of what comes after fragile finishes."""
    beam = design.beam
    if design.cast is not None:
        yield Unchecked("deflection", "7.4.3 has one section; soffit age tells that of a beam with a topping",
                        design.pen.cite("7.4.3"), "sagging")  # fmt: skip
        return
    if not (beam.bars or beam.tendons):
        yield Unchecked("deflection", "a plain beam does not deflect before it breaks: 7.4 is for reinforced ones",
                        design.pen.cite("12.7"), "sagging")  # fmt: skip
        return
    late, bent = longterm(design), Bent(design)
    checks: list[Check] = []
    for span in spans(design):
        checks += _span(design, span, late, bent)
    for key in ("sagging-total", "sagging-later"):
        some = [c for c in checks if c.key == key]
        if some:
            yield max(some, key=lambda c: (c.ratio, c.demand.value))


def _span(design: Design, span: Span, late: LongTerm, bent: Bent) -> Iterator[Check]:
    pen, x = design.pen, bent.x
    middle = 0.5 * (span.low + span.high)
    if span.cantilever:
        middle = span.low if span.low == 0.0 else span.high
    lasting = design.actions.diagram("quasi-permanent", "sag", middle)
    rare = design.actions.diagram("characteristic", "sag", middle)
    permanent = design.actions.permanent()
    supports = design.beam.supports
    effective = late.effective.value

    def sag(curvature: Array) -> Array:
        bent_ = statics.deflection(x, curvature, supports)
        on = (x >= span.low - 1e-6) & (x <= span.high + 1e-6)
        return np.where(on, bent_, -np.inf)

    whole = sag(bent.curvature(lasting, rare, effective, late.shrinkage.value, deflection.SUSTAINED))
    i = int(np.argmax(whole))
    place = float(x[i])
    without = sag(bent.curvature(lasting, rare, effective, 0.0, deflection.SUSTAINED))
    ecm = design.modulus
    short = sag(bent.curvature(lasting, rare, ecm, 0.0, deflection.SUSTAINED))
    said = (
        *late.said,
        "A section counts as cracked if the characteristic loads crack it, with fctm; between cracks ζ, β = 0.5.",
    )
    if len(supports.x) + supports.fixed_left + supports.fixed_right > 2:
        said += ("Moments of the continuous beam are those of one stiffness along it.",)
    more: list[Working] = [
        *late.workings,
        *_at(design, place, lasting, rare, late),
        given("w0", "at once under quasi-permanent loads, curvatures integrated", float(short[i]), "length"),
        given("w1", "with creep, curvatures with Ec,eff integrated", float(without[i]), "length"),
    ]
    total = given("w", f"final deflection at {place:.0f} mm, with creep and shrinkage, curvatures integrated",
                  float(whole[i]), "length")  # fmt: skip
    reach = given("ℓ", "span" if not span.cantilever else "cantilever", span.length, "length")
    part = Symbol("n", design.choices.nationally("ℓ/w", 250.0), "ratio", "7.4.1 (4), recommended 250")
    limit = pen("wlim", "greatest final deflection", "ℓ/n", (reach, part), "length",
                "7.4.1 (4)")  # fmt: skip
    combination = design.actions.at("quasi-permanent", "sag", middle, "w").combination
    yield Check(
        f"final deflection, {span.name}", pen.cite("7.4.1 (4)"), total, limit, (*more, total, reach, limit), said,
        key="sagging-total", x=place, combination=combination, state="service",
    )  # fmt: skip
    if design.choices.finishes == "none":
        return
    before = sag(bent.curvature(permanent, permanent, ecm, 0.0, deflection.SHORT))
    j = int(np.argmax(whole - np.where(np.isfinite(before), before, 0.0)))
    early = given("w0,g", "at once under permanent loads, before the finishes", float(before[j]), "length")
    here = given("w,x", f"final deflection at {float(x[j]):.0f} mm", float(whole[j]), "length")
    later = pen("Δw", "deflection after the finishes", "w,x − w0,g", (here, early), "length", "7.4.1 (5)")
    fragile = design.choices.finishes == "fragile"
    n = Symbol("n", design.choices.nationally("ℓ/Δw", 500.0), "ratio", "7.4.1 (5), recommended 500")
    most = pen("wlim", "greatest deflection after the finishes", "ℓ/n", (reach, n), "length", "7.4.1 (5)")
    yield Check(
        f"deflection after the finishes, {span.name}", pen.cite("7.4.1 (5)"), later, most,
        (*late.workings, here, early, later, reach, most),
        (*said, "Finishes come on right after the permanent loads."
         + ("" if fragile else " Tough finishes bear more: told for information.")),
        key="sagging-later", x=float(x[j]), combination=combination, state="service" if fragile else "information",
    )  # fmt: skip


def _at(design: Design, place: float, lasting: Array, rare: Array, late: LongTerm) -> Iterator[Working]:
    """The curvature at the place of the greatest deflection, worked."""
    x = design.actions.x
    m = float(np.interp(place, x, lasting))
    k = float(np.interp(place, x, rare))
    cut: Cut = design.cut(place, m >= 0.0)
    pen = design.pen
    moment = given("M", f"quasi-permanent moment at {place:.0f} mm", m, "moment")
    yield moment
    if cut.prestressed or not cut.tension_bars or design.cast is not None:
        return
    outline = design.outline
    layers = [ElasticLayer(b.group.y, b.area, b.group.steel.modulus) for b in cut.bars]
    whole = uncracked(outline, late.effective.value, layers)
    key = ("cracked", tuple(b.index for b in cut.bars), cut.sagging, late.effective.value)
    split, _ = design.kept(key, lambda: cracked(outline, late.effective.value, layers, hogging=not cut.sagging))
    fct = service.tensile(design)
    w = Symbol("W", outline.inertia / (cut.h - cut.centroid), "volume", "of the gross section, tension face")
    mcr = pen("Mcr", "cracking moment", "fct,eff·W", (fct, w), "moment", "7.4.3 (3)")
    mk = Symbol("Mk", abs(k), "moment", "the greatest that it bears, characteristic")
    if mk.value > mcr.value:
        what = "share of the cracked state, β = 0.5"
        zeta = pen("ζ", what, "1 − 0.5·(Mcr/Mk)^2", (mcr, mk), "ratio", "(7.19)")
    else:
        zeta = pen("ζ", "share of the cracked state: none", "0", (), "ratio", "(7.19)")
    ec = late.effective
    eps = late.shrinkage
    i1 = Symbol("II", whole.inertia, "inertia", "uncracked, transformed with Es/Ec,eff")
    i2 = Symbol("III", split.inertia, "inertia", "cracked, transformed with Es/Ec,eff")
    s1 = Symbol("SI", sum(s.modulus / ec.value * s.area * (whole.centroid - s.y) for s in layers), "volume",
                "αe·S of the bars about the centroid, uncracked")  # fmt: skip
    s2 = Symbol("SII", sum(s.modulus / ec.value * s.area * (split.centroid - s.y) for s in layers), "volume",
                "αe·S of the bars about the centroid, cracked")  # fmt: skip
    one = pen("1/rI", "uncracked, load and shrinkage", "M/(Ec,eff·II) + εcs·SI/II", (moment, ec, i1, eps, s1),
              "curvature", "(7.20), (7.21)")  # fmt: skip
    two = pen("1/rII", "cracked, load and shrinkage", "M/(Ec,eff·III) + εcs·SII/III", (moment, ec, i2, eps, s2),
              "curvature", "(7.20), (7.21)")  # fmt: skip
    mean = pen("1/r", "curvature there", "ζ·1/rII + (1 − ζ)·1/rI", (zeta, two, one), "curvature", "(7.18)")
    yield from (fct, mcr, zeta, one, two, mean)


ENTRIES: tuple[Entry, ...] = (
    Entry("sagging", "deflection", "7.4.1, 7.4.3",
          "Final deflection by integrated curvatures against ℓ/250, and its part after fragile finishes against ℓ/500.",
          service.of_steel("deflection", sagging)),
)  # fmt: skip

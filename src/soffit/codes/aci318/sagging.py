"""Deflection by ACI 318-19 24.2 against Table 24.2.2, and the depth of Table 9.3.1.1; *from memory*.

What comes at once is elastic with Ie; of reinforced beams λΔ adds to it for the sustained part alone. Formulas:
:mod:`deflection`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from soffit.codes.aci318 import inservice, values
from soffit.codes.aci318.combinations import ROOF
from soffit.codes.aci318.spans import Span, spans
from soffit.codes.aci318.stiffness import NoSteel, Stiff, permanent, stiff, uncracked
from soffit.codes.cases import PERMANENT
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.member import statics

PARTS = {"tough": ("240", "not likely to be damaged"), "fragile": ("480", "likely to be damaged")}


def sagging(design: Design) -> Found:
    """Each span: what comes at once with the variable loads, and what comes after the finishes."""
    beam, pen = design.beam, design.pen
    stressed = inservice.prestressed(design)
    if not stressed and not beam.bars:
        yield Unchecked("deflection", "24.2 is for reinforced beams, and chapter 14 asks none of plain ones",
                        pen.cite("14.1.2"), "sagging")  # fmt: skip
        return
    if design.cast is not None and not stressed:
        yield Unchecked("deflection", "24.2.5 leaves to the engineer how the beam was propped under its topping; "
                        "soffit age follows it", pen.cite("24.2.5"), "sagging")  # fmt: skip
        return
    checks: list[Check] = []
    for span in spans(design):
        try:
            checks += _prestressed(design, span) if stressed else _reinforced(design, span)
        except NoSteel as error:
            yield Unchecked(f"deflection of {span.name}", str(error), pen.cite("24.2.3.5"), "sagging")
    for key in ("sagging-live", "sagging-later"):
        found = worst(c for c in checks if c.key == key)
        if found is not None:
            yield found
    if stressed and design.choices.finishes != "none":
        yield Unchecked(
            "deflection after the finishes",
            "24.2.4.2 asks for creep, shrinkage and relaxation to be followed and has no formula: soffit age does",
            pen.cite("24.2.4.2"), "sagging",
        )  # fmt: skip


@dataclass(frozen=True)
class Sag:
    """Elastic deflections of one span at one place, on the gross section."""

    x: float
    total: Working
    """Under D + L."""
    dead: Working
    sustained: Working
    combination: str


def _sag(design: Design, span: Span) -> Sag:
    """Where D + L deflects a span most."""
    envelope, x = design.actions.envelope("characteristic"), design.actions.x
    on = (x >= span.low - 1e-6) & (x <= span.high + 1e-6)
    place = float(x[int(np.argmax(np.where(on, envelope.sag_max, -np.inf)))])
    total = design.actions.at("characteristic", "sag", place, "Δg")
    sustained = design.actions.at("quasi-permanent", "sag", place, "Δg,s")
    ei = design.modulus * design.outline.inertia
    dead = design.kept("aci-dead-sag", lambda: statics.deflection(x, permanent(design) / ei, design.beam.supports))
    down = given("Δg,D", f"elastic deflection of the permanent loads at {place:.0f} mm, gross section",
                 max(float(np.interp(place, x, dead)), 0.0), "length", design.pen.system)  # fmt: skip
    return Sag(place, total.working, down, sustained.working, total.combination)


def _limit(design: Design, span: Span, part: str, what: str) -> tuple[Symbol, Working]:
    reach = Symbol("ℓ", span.length, "length", "cantilever" if span.cantilever else "span")
    return reach, design.pen("Δmax", f"greatest, {what}", f"ℓ/{part}", (reach,), "length", "Table 24.2.2")


def _variable(design: Design) -> bool:
    beam = design.beam
    return any(load.case not in PERMANENT for load in beam.loads) or bool(design.choices.vehicles)


def _live_limit(design: Design, span: Span) -> Working:
    cases = {load.case for load in design.beam.loads if load.case not in PERMANENT}
    roof = bool(cases) and cases <= set(ROOF) and not design.choices.vehicles
    what = "immediate of loads of a flat roof" if roof else "immediate of live load, floors"
    return _limit(design, span, "180" if roof else "360", what)[1]


def _reinforced(design: Design, span: Span) -> Iterator[Check]:
    pen, sag = design.pen, _sag(design, span)
    ig = Symbol("Ig", design.outline.inertia, "inertia", "of the gross section")
    whole = stiff(design, span, "characteristic", "")
    first = stiff(design, span, "dead", "D")
    total = pen("ΔD+L", "at once under D + L", "Δg·Ig/Ie", (sag.total, ig, whole.ie), "length", "24.2.3.1")
    dead = pen("ΔD", "at once under the permanent loads, before live load first came", f"Δg,D·Ig/{first.ie.name}",
               (sag.dead, ig, first.ie), "length", "24.2.3.1")  # fmt: skip
    live = pen("ΔL", "at once with the variable loads", "max(0, ΔD+L − ΔD)", (total, dead), "length", "24.2.3.1")
    steps = (sag.total, *whole.workings, total, sag.dead, *first.workings, dead, live)
    said = (*span.said, *whole.said)
    if _variable(design):
        limit = _live_limit(design, span)
        yield Check(f"immediate deflection of live load, {span.name}", pen.cite("24.2.2"), live, limit,
                    (*steps, limit), said, "sagging-live", sag.x, sag.combination, "service")  # fmt: skip
    if design.choices.finishes == "none":
        return
    lasting = pen("Δsus", "at once under the sustained loads, as cracked as D + L leaves it", "Δg,s·Ig/Ie",
                  (sag.sustained, ig, whole.ie), "length", "24.2.3.1")  # fmt: skip
    rho = _compressed(design, whole)
    xi = Symbol("ξ", 2.0, "ratio", "five years or more, Table 24.2.4.1.3")
    lam = pen("λΔ", "what time adds, over what comes at once with the sustained loads", "ξ/(1 + 50·ρ')", (xi, rho),
              "ratio", "24.2.4.1.1")  # fmt: skip
    later = pen("Δ", "after the finishes", "λΔ·Δsus + ΔL", (lam, lasting, live), "length", "Table 24.2.2")
    part, damage = PARTS[design.choices.finishes]
    _, limit = _limit(design, span, part, f"with finishes {damage}")
    yield Check(
        f"deflection after the finishes, {span.name}", pen.cite("24.2.2"), later, limit,
        (*steps, sag.sustained, lasting, *((rho,) if isinstance(rho, Working) else ()), lam, later, limit),
        (*said, "Finishes come on right after the permanent loads: all that time adds comes after them."),
        "sagging-later", sag.x, sag.combination, "service",
    )  # fmt: skip


def _compressed(design: Design, whole: Stiff) -> Working | Symbol:
    """ρ' at midspan, of a cantilever at its support."""
    cut = whole.cut
    if not cut.Asc:
        return Symbol("ρ'", 0.0, "ratio", "no bars in compression")
    a = Symbol("A's", cut.Asc, "area", f"bars in compression at {cut.x:.0f} mm")
    b, d = Symbol("b", cut.b, "length", "width of the compressed face"), Symbol("d", cut.d, "length", "depth")
    return design.pen("ρ'", "share of bars in compression", "A's/(b·d)", (a, b, d), "ratio", "24.2.4.1.2")


def _prestressed(design: Design, span: Span) -> Iterator[Check]:
    """Class U with Ig, 24.2.3.8; T and C in two straight lines, 24.2.3.9: beyond fr on the cracked section."""
    if not _variable(design):
        return
    pen, sag = design.pen, _sag(design, span)
    kind = inservice.member_class(design)
    gross = pen("ΔL,g", "of the variable loads, gross section", "max(0, Δg − Δg,D)", (sag.total, sag.dead), "length",
                "24.2.3.8")  # fmt: skip
    steps: tuple[Working, ...] = (sag.total, sag.dead, gross)
    live, said = gross, (*span.said, f"Class {kind}.")
    if kind != "U":
        more = uncracked(design, span)
        if more is not None:
            share, ratio, between = more
            live = pen("ΔL", "at once with the variable loads, in two lines", "ΔL,g·(1 − r + r·Ig/Icr)",
                       (gross, share, *ratio), "length", "24.2.3.9")  # fmt: skip
            steps = (*steps, *between, live)
    limit = _live_limit(design, span)
    yield Check(f"immediate deflection of live load, {span.name}", pen.cite("24.2.2"), live, limit, (*steps, limit),
                said, "sagging-live", sag.x, sag.combination, "service")  # fmt: skip


def least_depth(design: Design) -> Found:
    """Table 9.3.1.1: from this depth on deflections need not be computed; so it is told for information."""
    if inservice.prestressed(design) or not design.beam.bars or design.choices.finishes == "fragile":
        return
    pen, e, beam = design.pen, values.of(design), design.beam
    checks = []
    for span in spans(design):
        fy = Symbol("fy", max(b.steel.yield_strength for b in beam.bars), "stress", "greatest of the bars")
        reach = Symbol("ℓ", span.length, "length", "cantilever" if span.cantilever else "span")
        slab = design.choices.shape == "slab"
        part = {"simply supported": ("16", "20"), "one end continuous": ("18.5", "24"),
                "both ends continuous": ("21", "28"), "cantilever": ("8", "10")}[span.system][slab]  # fmt: skip
        text = f"ℓ/{part}·({e.pick('0.4 + fy/100000', '0.4 + fy/700')})"
        symbols: tuple[Symbol, ...] = (reach, fy)
        if beam.concrete.density < 2160.0:
            # 9.3.1.1.2 is for 90 to 115 pcf (1440 to 1840 kg/m³); 1.09 stands from there up to normal weight
            wc = Symbol("wc", beam.concrete.density, "density", "of the concrete")
            text += e.pick("·max(1.65 − 0.005·wc/16.018, 1.09)", "·max(1.65 − 0.0003·wc, 1.09)")
            symbols = (*symbols, wc)
        table = "Table 7.3.1.1" if slab else "Table 9.3.1.1"
        need = pen("hmin", f"{span.system}, finishes that deflection does not damage", text, symbols, "length", table)
        has = given("h", "depth of the section", design.outline.depth, "length", pen.system)
        checks.append(Check(
            f"depth without computed deflection, {span.name}", pen.cite(table), need, has, (need, has),
            ("A lesser depth stands where the deflection is computed (9.3.2.1), as it is here.",), "depth", None, "",
            "information",
        ))  # fmt: skip
    found = worst(checks)
    if found is not None:
        yield found


ENTRIES: tuple[Entry, ...] = (
    Entry("sagging", "deflection", "24.2",
          "Immediate deflection of variable loads, and all that comes after the finishes, against Table 24.2.2.",
          sagging),
    Entry("depth", "depth without computed deflection", "9.3.1.1",
          "Depth against Table 9.3.1.1, from which on deflections need not be computed.", least_depth),
)  # fmt: skip

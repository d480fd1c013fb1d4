"""Span over effective depth by EN 1992-1-1:2004 7.4.2; recommended values, *from memory*."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from soffit.codes.design import Design, Entry, Found, bending
from soffit.codes.en1992 import limits, service, values
from soffit.codes.en1992.longterm import longterm
from soffit.codes.working import Check, Symbol, Working, given

SHORTEST = 7000.0
"""mm of span, beyond which partitions want less, 7.4.2 (2)."""
WIDE = 3.0


@dataclass(frozen=True)
class Span:
    """A span or a cantilever."""

    low: float
    high: float
    cantilever: bool
    name: str
    k: float
    """K of Table 7.4N."""
    system: str

    @property
    def length(self) -> float:
        return self.high - self.low


def spans(design: Design) -> tuple[Span, ...]:
    held, beam = design.beam.supports, design.beam
    found = []
    n = len(held.x) - 1
    for i in range(n):
        left = i > 0 or held.fixed_left
        right = i < n - 1 or held.fixed_right
        k, system = {0: (1.0, "simply supported"), 1: (1.3, "end span"), 2: (1.5, "inner span")}[left + right]
        name = f"span {i + 1}" if n > 1 else "the span"
        found.append(Span(held.x[i], held.x[i + 1], False, name, k, system))
    least = max(design.outline.depth, 0.0)
    if held.x[0] > least and not held.fixed_left:
        found.append(Span(0.0, held.x[0], True, "the left overhang", 0.4, "cantilever"))
    if beam.length - held.x[-1] > least and (not held.fixed_right):
        found.append(Span(held.x[-1], beam.length, True, "the right overhang", 0.4, "cantilever"))
    if n == 0 and held.fixed_right and held.x[0] > least:
        found = [Span(0.0, held.x[0], True, "the cantilever", 0.4, "cantilever")]
    if n == 0 and held.fixed_left:
        found = [Span(held.x[0], beam.length, True, "the cantilever", 0.4, "cantilever")]
    return tuple(found)


def slender(design: Design) -> Found:
    """7.4.2: where it is kept no deflection need be computed; so it is told for information."""
    if any(t.stress > 0.0 for t in design.beam.tendons):
        return
    checks = [c for span in spans(design) for c in _slender(design, span)]
    if checks:
        yield max(checks, key=lambda c: c.ratio)


def _slender(design: Design, span: Span) -> Iterator[Check]:
    pen = design.pen
    sagging = not span.cantilever
    x = _hardest(design, span, sagging)
    if x is None:
        return
    cut = design.cut(x, sagging)
    if not cut.tension_bars:
        return
    demand = design.actions.at("ultimate", bending(sagging), x, "MEd")
    fck, d = values.fck(design), Symbol("d", cut.d, "length", "effective depth")
    b = Symbol("b", cut.b, "length", "width of the compressed face")
    fcd = values.fcd(design)
    fyk = Symbol("fyk", cut.tension_bars[0].yield_strength, "stress", "yield strength of the bars")
    gamma = values.gamma_s(design)
    mu = demand.working.value / (cut.b * cut.d**2 * fcd.value)
    if mu >= 0.48:
        return
    z = pen("z", "lever arm, block over the width b", "d/2·(1 + √(1 − 2·MEd/(b·d^2·fcd)))", (d, demand.working, b, fcd),
            "length")  # fmt: skip
    need = pen("ρ", "steel that the moment needs", "MEd/(z·fyk/γs)/(b·d)", (demand.working, z, fyk, gamma, b, d),
               "ratio", "7.4.2 (2)")  # fmt: skip
    rho0 = pen("ρ0", "reference ratio", "√(fck)/1000", (fck,), "ratio", "7.4.2 (2)")
    k = Symbol("K", design.choices.nationally(f"K {span.system}", span.k), "ratio", f"{span.system}, Table 7.4N")
    head: list[Working] = [demand.working, fcd, z, need, rho0]
    if need.value <= rho0.value:
        text = "K·(11 + 1.5·√(fck)·ρ0/ρ + 3.2·√(fck)·(ρ0/ρ − 1)^1.5)"
        basic = pen("l/d,0", "basic ratio", text, (k, fck, rho0, need), "ratio", "(7.16a)")
    else:
        text = "K·(11 + 1.5·√(fck)·ρ0/ρ)"
        basic = pen("l/d,0", "basic ratio, ρ' = 0", text, (k, fck, rho0, need), "ratio", "(7.16b)")
    head.append(basic)
    m, combination, axial = limits.moment(design, "quasi-permanent", sagging, x)
    late = longterm(design)
    split = service.crack(design, cut, m.value, late.effective.value, axial)
    factors: list[Working] = []
    if split is not None and m.value > 0.0:
        es = Symbol("Es", cut.tension_bars[0].group.steel.modulus, "stress", "modulus of the bars")
        shown, sigma = limits.bar_stress(design, split, m, d, es)
        head += [m, *late.workings[:3], *shown]
        if sigma.value > 0.0:
            factors.append(pen("f1", "by the stress of the steel under service loads", "310/σs", (sigma,), "ratio",
                               "7.4.2 (2)"))  # fmt: skip
    if cut.flange[1] and cut.b > WIDE * cut.bw:
        factors.append(pen("f2", "flange wider than 3·bw", "0.8", (), "ratio", "7.4.2 (2)"))
    leff = given("leff", "effective span", span.length, "length")
    if span.length > SHORTEST and design.choices.finishes == "fragile" and not span.cantilever:
        factors.append(pen("f3", "span above 7 m with partitions", "7000/leff", (leff,), "ratio", "7.4.2 (2)"))
    text = "·".join(["l/d,0", *(f.name for f in factors)])
    limit = pen("l/d,lim", "greatest span over depth", text, (basic, *factors), "ratio", "7.4.2 (2)")
    is_ = pen("l/d", "span over depth", "leff/d", (leff, d), "ratio", "7.4.2")
    yield Check(
        f"span over depth, {span.name}", pen.cite("7.4.2"), is_, limit, (*head, *factors, leff, limit, is_),
        ("Where it is kept, the deflection need not be computed; where not, the computed one decides.",),
        key="slenderness", x=x, combination=combination, state="information",
    )  # fmt: skip


def _hardest(design: Design, span: Span, sagging: bool) -> float | None:
    """Where the span bends most; of a cantilever its support."""
    if span.cantilever:
        inside = design.beam.supports.x
        return min(inside, key=lambda s: min(abs(s - span.low), abs(s - span.high)))
    envelope = design.actions.envelope("ultimate")
    moments = envelope.sagging if sagging else envelope.hogging
    places = [x for x in design.places if span.low <= x <= span.high]
    best = max(places, key=lambda x: float(np.interp(x, design.actions.x, moments)))
    return best if float(np.interp(best, design.actions.x, moments)) > 0.0 else None


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "slenderness",
        "span over depth",
        "7.4.2",
        "Span over effective depth against (7.16).",
        service.of_steel("span over depth", slender),
    ),
)

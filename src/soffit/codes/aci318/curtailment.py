"""Where bars may end along a beam, ACI 318-19 9.7.3.3 to 9.7.3.5, for beams without prestress; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.aci318 import development
from soffit.codes.aci318.nominal import moment, nominal, uncracked
from soffit.codes.cut import BarsAt
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.working import Check, Symbol, Unchecked, given

FLEXURE = 0.90
AT_END = 100.0
"""mm from the end of a beam within which bars end with it."""


def curtailed(design: Design) -> Found:
    """9.7.3.3: bars go on max(d, 12 db) past the place from which the others bear the moment; 9.7.3.4: those others are
    developed past it; 9.7.3.5 is left to the engineer."""
    if any(t.stress > 0.0 for t in design.beam.tendons):
        return
    past: list[Check] = []
    going: list[Check] = []
    tension = False
    for i, x in _cutoffs(design):
        for sagging in (True, False):
            for check in _cutoff(design, i, x, sagging):
                (past if check.key == "curtailment-past" else going).append(check)
            tension |= _in_tension(design, i, x, sagging)
    for some in (past, going):
        found = worst(some)
        if found is not None:
            yield found
    if tension:
        yield Unchecked(
            "bars ended in tension",
            "bars end where their face is in tension: whether Vu ≤ ⅔ φVn there, or the stirrups or bars that 9.7.3.5 "
            "asks for instead, is for the engineer",
            design.pen.cite("9.7.3.5"), "curtailment",
        )  # fmt: skip


def _cutoffs(design: Design) -> Iterator[tuple[int, float]]:
    """Groups and their ends within the beam."""
    length = design.beam.length
    for i, bar in enumerate(design.beam.bars):
        if not development.bonded(bar):
            continue
        if bar.x_from > AT_END:
            yield i, bar.x_from
        if bar.x_to < length - AT_END:
            yield i, bar.x_to


def _in_tension(design: Design, index: int, x: float, sagging: bool) -> bool:
    cut = design.cut(x, sagging)
    if index not in [b.index for b in cut.tension_bars]:
        return False
    envelope = design.actions.envelope("ultimate")
    here = float(np.interp(x, design.actions.x, envelope.sagging if sagging else envelope.hogging))
    return here > 0.0 and not uncracked(design, cut, here)


def _cutoff(design: Design, index: int, end: float, sagging: bool) -> Iterator[Check]:
    pen, beam = design.pen, design.beam
    bar = beam.bars[index]
    sign = 1.0 if end == bar.x_to else -1.0
    probe = min(max(end - sign * 1.0, 0.0), beam.length)
    if index not in [b.index for b in design.cut(probe, sagging).tension_bars]:
        return
    envelope, at = design.actions.envelope("ultimate"), design.actions.x
    size = envelope.sagging if sagging else envelope.hogging
    inside = at[(at >= bar.x_from - 1e-6) & (at <= bar.x_to + 1e-6)]
    # from the end inwards to the first place that needs the group
    edge: float | None = None
    margin = None
    cache: dict[tuple[int, ...], float] = {}
    for x in inside[:: -int(sign)]:
        others = _others(design, float(x), index, sagging)
        key = tuple(b.index for b in others)
        if key not in cache:
            cache[key] = FLEXURE * moment(design, design.cut(float(x), sagging), others)
        short = float(np.interp(x, at, size)) - cache[key]
        if short > 0.0 and not uncracked(design, design.cut(float(x), sagging), float(np.interp(x, at, size))):
            edge = float(x)
            if margin is not None and margin[1] < 0.0:
                # between two stations the moments are straight
                edge += (margin[0] - edge) * short / (short - margin[1])
            break
        margin = (float(x), short)
    if edge is None:
        return
    cut = design.cut(edge, sagging)
    demand = design.actions.at("ultimate", bending(sagging), edge, "Mu")
    others = _others(design, edge, index, sagging)
    name = bar.label or "the bars"
    here = nominal(design, cut, others).workings if others else ()
    d = Symbol("d", cut.d, "length", "effective depth")
    db = Symbol("db", bar.diameter, "length", f"diameter of {name}")
    need = pen("ℓx", "past the place from which the other bars bear the moment", "max(d, 12·db)", (d, db), "length",
               "9.7.3.3")  # fmt: skip
    e = Symbol("xe", end, "length", f"end of {name}")
    x0 = Symbol("x0", edge, "length", "where the other bars alone bear the moment with φ = 0.90"
               if others else "where bars are needed: no others are there")  # fmt: skip
    have = pen("ℓ", "that they go on", "abs(xe − x0)", (e, x0), "length")
    sign_ = bending(sagging)
    yield Check(
        f"end of {name}, {sign_}", pen.cite("9.7.3.3"), need, have, (demand.working, *here, need, have), (),
        "curtailment-past", end, demand.combination, "detailing",
    )  # fmt: skip
    for other in others:
        side: development.Side = "right" if sign > 0 else "left"
        found = development.development(design, other.group, side)
        if found is None or (other.right if sign > 0 else other.left) <= 0.0:
            continue
        left = given("ℓ", f"of {other.group.label or 'them'} past x0 = {edge:.0f} mm",
                     other.right if sign > 0 else other.left, "length")  # fmt: skip
        yield Check(
            f"bars that go on past {name}, {sign_}", pen.cite("9.7.3.4"), found.length, left, (*found.workings, left),
            (), "curtailment-going-on", edge, demand.combination, "detailing",
        )  # fmt: skip


def _others(design: Design, x: float, index: int, sagging: bool) -> tuple[BarsAt, ...]:
    return tuple(b for b in design.cut(x, sagging).tension_bars if b.index != index)


ENTRIES: tuple[Entry, ...] = (
    Entry("curtailment", "ends of bars within the beam", "9.7.3.3, 9.7.3.4",
          "How far bars go past the place where the others suffice, against d and 12 db; ℓd of those others.",
          curtailed),
)  # fmt: skip

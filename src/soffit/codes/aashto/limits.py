"""Stresses of prestressed beams in service, AASHTO LRFD 5.9.2; *from memory*. Sections uncracked and gross.

What acts before the topping has hardened, and the prestress, act on the bare beam. Slab and beam are taken as of one
modulus.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.aashto import values
from soffit.codes.actions import State
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.en1992.service import bare_moment, elastic_line, gross_stress, shape
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.member.loading import self_weight

MANY = 3
SEVERE = ("XD", "XS", "C2")
"""Exposure classes that are severe corrosive conditions here (*ours*)."""
SAID = "The section is gross and uncracked."
COMPOSITE = "Slab and beam are taken as of one modulus."


def _said(design: Design) -> tuple[str, ...]:
    return (SAID, COMPOSITE) if design.cast is not None else (SAID,)


def concrete(design: Design) -> Found:
    """5.9.2.3.1 at transfer, 5.9.2.3.2 in service."""
    if not any(t.stress > 0.0 for t in design.beam.tendons):
        return
    yield from _transfer(design)
    yield from _pressed(design, "quasi-permanent", "permanent", 0.45)
    yield from _pressed(design, "characteristic", "total", 0.60)
    yield from _pulled(design)


def _places(design: Design, state: State, sagging: bool, top: bool) -> tuple[float, ...]:
    """The places with the greatest compression of the face that the moment presses (``top``) or tension of the other,
    by numbers alone."""
    envelope, at = design.actions.envelope(state), design.actions.x
    moments = np.interp(design.places, at, envelope.sagging if sagging else envelope.hogging)
    bare, whole = shape(design, False), shape(design)
    rank = []
    for x, m in zip(design.places, moments.tolist(), strict=True):
        if m <= 0.0:
            continue
        cut = design.cut(x, sagging)
        sign = 1.0 if sagging else -1.0
        first = sign * bare_moment(design, x)
        z = (cut.h - bare.depth if sagging else 0.0) if top else (cut.h if sagging else bare.depth)
        z0, z2 = cut.depth_of(bare.centroid), cut.depth_of(whole.centroid)
        bend = sum(t.force * (t.depth - z0) for t in cut.tendons)
        stress = -cut.P / bare.area + (first - bend) * (z - z0) / bare.inertia + (m - first) * (z - z2) / whole.inertia
        rank.append((-stress if top else stress, x))
    return tuple(x for _, x in sorted(rank, reverse=True)[:MANY])


def _pressed(design: Design, state: State, name: str, share: float) -> Iterator[Check]:
    pen = design.pen
    for sagging in (True, False):
        sign = bending(sagging)
        beam, slab = [], []
        for x in _places(design, state, sagging, True)[:2]:
            cut = design.cut(x, sagging)
            demand = design.actions.at(state, bending(sagging), x, "M")
            if demand.working.value <= 0.0:
                continue
            z = cut.h - design.beam.outline.depth if sagging else 0.0
            found = gross_stress(design, cut, demand.working, z, demand.axial, None, where="beam's compressed face")
            is_ = pen("fc", "compression of the beam", "max(0, −σc)", (found.stress,), "stress")
            limit = _limit(design, values.fc(design), share)
            beam.append(Check(
                f"compression of the concrete, {name} loads, {sign}", pen.cite("5.9.2.3.2a"), is_, limit,
                (demand.working, *found.workings, is_, limit), _said(design), f"stress-{name}-{sign}", x,
                demand.combination, "service",
            ))  # fmt: skip
            if design.cast is not None and sagging and design.opened.topping is not None:
                slab.append(_slab(design, cut, demand.working, demand.combination, name, share))
        for checks in (beam, slab):
            most = worst(checks)
            if most is not None:
                yield most


def _limit(design: Design, strength: Symbol, share: float) -> Working:
    pen, which = design.pen, "Table 5.9.2.3.2a-1"
    if share < 0.5:
        return pen(
            "fc,lim", "greatest compression, permanent loads", f"0.45·{strength.name}", (strength,), "stress", which
        )
    w = Symbol("ϕw", 1.0, "ratio", "for slender webs of hollow sections")
    return pen("fc,lim", "greatest compression, Service I", f"0.60·ϕw·{strength.name}", (w, strength), "stress", which)


def _slab(design: Design, cut: Cut, m: Working, combination: str, name: str, share: float) -> Check:
    pen, whole = design.pen, shape(design)
    m0 = Symbol("M0", bare_moment(design, cut.x), "moment", "of what comes before the topping has hardened")
    z2 = Symbol("z2", cut.depth_of(whole.centroid), "length", "depth of the centroid with the topping")
    i2 = Symbol("I2", whole.inertia, "inertia", "of the beam with its topping")
    is_ = pen("fc", "compression of the slab's top", f"max(0, {m.name} − M0)·z2/I2", (m, m0, z2, i2), "stress")
    limit = _limit(design, Symbol("f'c", design.opened.topping or 0.0, "stress", "of the slab"), share)
    return Check(f"compression of the slab, {name} loads", pen.cite("5.9.2.3.2a"), is_, limit, (m, is_, limit),
                 _said(design), f"stress-slab-{name}", cut.x, combination, "service")  # fmt: skip


def _pulled(design: Design) -> Iterator[Check]:
    """Service III, Table 5.9.2.3.2b-1; no tension where no tendon is bonded."""
    pen = design.pen
    severe = any(c.startswith(SEVERE) for c in design.choices.exposure)
    for sagging in (True, False):
        sign, checks = bending(sagging), []
        for x in _places(design, "frequent", sagging, False)[:2]:
            cut = design.cut(x, sagging)
            demand = design.actions.at("frequent", bending(sagging), x, "M")
            if demand.working.value <= 0.0 or not cut.tension_tendons:
                continue
            z = cut.h if sagging else design.beam.outline.depth
            found = gross_stress(design, cut, demand.working, z, demand.axial, None, where="beam's tension face")
            is_ = pen("ft", "tension of the beam", "max(0, σc)", (found.stress,), "stress")
            lam, fc, which = values.lightness(design), values.fc(design), "Table 5.9.2.3.2b-1"
            if not any(t.bonded for t in cut.tension_tendons):
                limit = pen("ft,lim", "no tension with unbonded tendons", "0", (), "stress", which)
            elif severe:
                limit = pen("ft,lim", "greatest tension, severe corrosive conditions", "min(0.0948·λ·√(f'c), 0.3)",
                            (lam, fc), "stress", which)  # fmt: skip
            else:
                limit = pen("ft,lim", "greatest tension, moderate corrosive conditions", "min(0.19·λ·√(f'c), 0.6)",
                            (lam, fc), "stress", which)  # fmt: skip
            checks.append(Check(
                f"tension of the concrete, Service III, {sign}", pen.cite("5.9.2.3.2b"), is_, limit,
                (demand.working, *found.workings, is_, limit), _said(design), f"stress-tension-{sign}", x,
                demand.combination, "service",
            ))  # fmt: skip
        most = worst(checks)
        if most is not None:
            yield most


def _transfer(design: Design) -> Found:
    """5.9.2.3.1: both faces under the prestress just after transfer and the beam's own weight on its supports."""
    if design.opened.transfer is None:
        yield Unchecked("stress at transfer", "the file gives no strength_at_transfer", design.pen.cite("5.9.2.3.1"),
                        "stress-transfer")  # fmt: skip
        return
    pen, fci, bare = design.pen, values.fci(design), shape(design, False)
    loads = [self_weight(design.beam)] if design.beam.self_weight else []
    moments = np.interp(design.places, design.actions.x, elastic_line(design).respond(loads).moment)
    rank: dict[tuple[bool, bool], tuple[float, float, float]] = {}
    for x, m in zip(design.places, moments.tolist(), strict=True):
        cut = design.cut(x, True)
        z0 = cut.depth_of(bare.centroid)
        push = sum(t.at_transfer * t.area for t in cut.tendons)
        bend = m - sum(t.at_transfer * t.area * (t.depth - z0) for t in cut.tendons)
        for top in (True, False):
            z = cut.h - bare.depth if top else cut.h
            stress = -push / bare.area + bend * (z - z0) / bare.inertia
            for squeeze in (True, False):
                size = -stress if squeeze else stress
                if size > rank.get((top, squeeze), (0.0, 0.0, 0.0))[0]:
                    rank[(top, squeeze)] = (size, x, m)
    checks: dict[bool, list[Check]] = {True: [], False: []}
    for (top, squeeze), (_, x, m) in rank.items():
        cut = design.cut(x, True)
        own = given("M", "of the beam's own weight on its supports", m, "moment", "ksi")
        z = cut.h - bare.depth if top else cut.h
        where = "top of the beam" if top else "soffit"
        found = gross_stress(design, cut, own, z, 0.0, None, early=True, where=where)
        if squeeze:
            is_ = pen("fc", f"compression of the {where}", "max(0, −σc)", (found.stress,), "stress")
            limit = pen("fc,lim", "greatest compression at transfer", "0.65·f'ci", (fci,), "stress", "5.9.2.3.1a")
            said: tuple[str, ...] = (SAID,)
        else:
            is_ = pen("ft", f"tension of the {where}", "max(0, σc)", (found.stress,), "stress")
            said, limit = _tension_at_transfer(design, cut, top, is_, fci)
        checks[squeeze].append(Check(
            "compression at transfer" if squeeze else "tension at transfer", pen.cite("5.9.2.3.1"), is_, limit,
            (own, *found.workings, is_, limit), said, f"stress-transfer-{'compression' if squeeze else 'tension'}", x,
            "own weight and prestress at transfer", "service",
        ))  # fmt: skip
    for some in checks.values():
        most = worst(some)
        if most is not None:
            yield most


def _tension_at_transfer(
    design: Design, cut: Cut, top: bool, is_: Working, fci: Symbol
) -> tuple[tuple[str, ...], Working]:
    """0.24 λ√f'ci where bars can bear the tension at 0.5 fy, 30 ksi at most, else 0.0948 λ√f'ci ≤ 0.2 ksi."""
    pen, lam, which = design.pen, values.lightness(design), "Table 5.9.2.3.1b-1"
    middle = 0.5 * design.beam.outline.depth
    bars = [b for b in cut.bars if (b.group.y > middle) == top and b.group.part == "beam"]
    hold = sum(b.area * min(0.5 * b.yield_strength, 30.0 * values.KSI) for b in bars)
    width = design.beam.outline.width(design.beam.outline.depth * (0.999 if top else 0.001))
    # at most half of the depth is in tension under a force within the section, a triangle of stress
    pull = 0.5 * is_.value * middle * width
    if bars and hold >= pull:
        limit = pen(
            "ft,lim", "greatest tension, bonded bars bear it all", "0.24·λ·√(f'ci)", (lam, fci), "stress", which
        )
        return (SAID, "Bars bear the tension of half of the depth at 0.5 fy, 30 ksi at most."), limit
    limit = pen("ft,lim", "greatest tension without bars that bear it", "min(0.0948·λ·√(f'ci), 0.2)", (lam, fci),
                "stress", which)  # fmt: skip
    return (SAID,), limit


def tendons(design: Design) -> Found:
    """Table 5.9.2.2-1."""
    for find in (_service, _early):
        most = worst(find(design))
        if most is not None:
            yield most


def _service(design: Design) -> Iterator[Check]:
    pen = design.pen
    for i, t in enumerate(design.beam.tendons):
        if t.steel.kind == "linear" or t.stress <= 0.0:
            continue
        stresses = [(design.prestress.stress(i, x), x) for x in design.places]
        most, x = max(stresses)
        is_ = given("fpe", f"greatest stress of {t.label} after all losses", most, "stress", "ksi")
        fpy = Symbol("fpy", t.steel.yield_strength, "stress", "yield strength of the tendons")
        limit = pen("fp,lim", "greatest stress in service", "0.80·fpy", (fpy,), "stress", "Table 5.9.2.2-1")
        yield Check("stress of tendons in service", pen.cite("5.9.2.2"), is_, limit, (is_, limit),
                    ("The rise under live load is left out: the section is uncracked.",), "stress-tendons-service", x,
                    "", "service")  # fmt: skip


def _early(design: Design) -> Iterator[Check]:
    pen = design.pen
    for i, t in enumerate(design.beam.tendons):
        if t.steel.kind == "linear" or t.stress_is != "at the jack" or t.stress <= 0.0:
            continue
        fpu = Symbol("fpu", t.steel.tensile, "stress", "tensile strength of the tendons")
        low = t.relaxation == "low relaxation"
        if t.when == "before casting":
            is_ = given("fpbt", f"stress of {t.label} before transfer, as jacked", t.stress, "stress", "ksi")
            share = "0.75" if low else "0.70"
            limit = pen("fp,lim", "greatest stress just before transfer", f"{share}·fpu", (fpu,), "stress",
                        "Table 5.9.2.2-1")  # fmt: skip
            x = None
        else:
            rows = [(design.prestress.stress(i, at, early=True), at) for at in design.places]
            most, x = max(rows)
            is_ = given("fpt", f"greatest stress of {t.label} after seating", most, "stress", "ksi")
            anchor = min(x - t.x_from, t.x_to - x) < 1.0
            share = "0.74" if low and not anchor else "0.70"
            where = "at anchors" if anchor else "away from anchors"
            limit = pen("fp,lim", f"greatest stress after seating, {where}", f"{share}·fpu", (fpu,), "stress",
                        "Table 5.9.2.2-1")  # fmt: skip
        yield Check("stress of tendons when stressed", pen.cite("5.9.2.2"), is_, limit, (is_, limit), (),
                    "stress-tendons-early", x, "", "service")  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("stress", "stress of the concrete of prestressed beams", "5.9.2.3", "Compression and tension at transfer, "
          "under permanent loads, Service I and Service III.", concrete),
    Entry("stress-tendons", "stress of tendons", "5.9.2.2", "Tendons when stressed and after all losses.", tendons),
)  # fmt: skip

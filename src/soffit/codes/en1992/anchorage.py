"""Whether bars are held at supports, EN 1992-1-1:2004 8.4, 9.2.1.4 and 9.2.1.5; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.cut import BarsAt, Cut
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.en1992 import bond, service, values
from soffit.codes.en1992.bond import developed
from soffit.codes.en1992.curtailment import shift, whole
from soffit.codes.en1992.transmission import pretensioned, transmission
from soffit.codes.working import Check, Symbol, Unchecked, Working, given

__all__ = ["ENTRIES", "developed"]

QUARTER = 0.25
"""β2, share of the steel of the span at an end support, 9.2.1.4 (1) (recommended; also of 9.2.1.5 (1))."""


def ends(design: Design) -> Found:
    """FE at end supports, (9.3), against what is anchored beyond the face; and a quarter of the span's steel there."""
    supports = design.beam.supports
    places: list[tuple[float, float, bool]] = []
    if not supports.fixed_left:
        places.append((supports.x[0], 1.0, True))
    if not supports.fixed_right and len(supports.x) > 1:
        places.append((supports.x[-1], -1.0, False))
    force = worst(c for s, sign, _ in places for c in _anchored(design, s, sign))
    share = worst(c for s, sign, _ in places for c in _quarter(design, s, sign))
    yield from (c for c in (force, share) if c is not None)
    plain = [b for b in design.beam.bars if not bond.bonded(b)]
    if plain:
        yield Unchecked(
            "anchorage of plain bars", "3.2.2 and 8.4 are for ribbed bars: plain ones count with welded plates alone",
            design.pen.cite("3.2.2"), "end-anchorage", scope=True,
        )  # fmt: skip


def _anchored(design: Design, support: float, sign: float) -> Iterator[Check]:
    pen, beam = design.pen, design.beam
    face = support + sign * 0.5 * beam.supports.bearing
    if not 0.0 <= face <= beam.length:
        return
    cut = design.cut(face)
    if not (cut.tension_bars or cut.tension_tendons):
        return
    overhang = support if sign > 0 else beam.length - support
    found = design.actions.at("ultimate", "shear", support + sign * 1.0, "VEd")
    if found.working.value <= 0.0:
        return
    if whole(design, cut, max(found.moment, 0.0)):
        yield _uncracked(design, face, support)
        return
    d = Symbol("d", cut.d, "length", "depth of the steel in tension")
    z = pen("z", "lever arm", "0.9·d", (d,), "length", "6.2.3 (1)")
    head, al = shift(design, cut)
    n = Symbol("NEd", found.axial, "force", "axial force, tension positive")
    text = "VEd·al/z" + (" + NEd" if found.axial else "")
    fe = pen("FE", "tension to be anchored", text, (found.working, al, z, *((n,) if found.axial else ())), "force",
             "(9.3)")  # fmt: skip
    steps, have = _beyond(design, cut, face, sign)
    said = ["Anchorage begins at the face of the support (9.2.1.4 (3)); pressure across it is not counted."]
    if overhang > cut.h:
        said.append("The overhang is longer than the beam is deep: tension turns to the top there.")
    yield Check(
        "anchorage at an end support", pen.cite("9.2.1.4"), fe, have, (found.working, *head, z, al, fe, *steps, have),
        tuple(said), key="end-anchorage-force", x=support, combination=found.combination, state="strength",
    )  # fmt: skip


def _uncracked(design: Design, face: float, support: float) -> Check:
    """8.10.2.3 (1): where the concrete bears the tension the anchorage of the steel is not asked."""
    pen = design.pen
    cut = design.cut(face)
    found = design.actions.at("ultimate", "sagging", face, "MEd")
    pulled = service.gross_stress(design, cut, found.working, cut.h, found.axial, low=None, name="σct")
    fct = pen("fctk,0.05", "5 % fractile of the tensile strength", "0.7·fctm", (values.fctm(design),), "stress",
              "Table 3.1")  # fmt: skip
    return Check(
        "no cracks at an end support", pen.cite("8.10.2.3 (1)"), pulled.stress, fct,
        (found.working, *pulled.workings, fct),
        ("Below fctk,0.05 the tendons need not be anchored for the tension of a cracked section.",),
        key="end-anchorage-force", x=support, combination=found.combination, state="strength",
    )  # fmt: skip


def _beyond(design: Design, cut: Cut, face: float, sign: float) -> tuple[tuple[Working, ...], Working]:
    """Force that the steel beyond a face of a support holds, by the side of its end alone."""
    pen, gamma = design.pen, values.gamma_s(design)
    parts: list[Working] = []
    for i, b in enumerate(cut.tension_bars):
        side: bond.Side = "left" if sign > 0 else "right"
        embedded = b.left if sign > 0 else b.right
        needed = bond.full(design, b.group, b.index, side)
        area = Symbol(f"As{i + 1}", b.area, "area", f"of {b.group.label}")
        fyk = Symbol(f"fyk{i + 1}", b.yield_strength, "stress", "yield strength")
        if needed == 0.0:
            what = f"of {b.group.label}, held by its plate"
            text = f"{area.name}·{fyk.name}/γs"
            parts.append(pen(f"F{i + 1}", what, text, (area, fyk, gamma), "force", "9.2.1.4"))
            continue
        if not np.isfinite(needed):
            continue
        long = Symbol(f"l{i + 1}", max(embedded, 0.0), "length", "of it beyond the face of the support")
        full = Symbol(f"lbd{i + 1}", needed, "length", f"for fyd, {bond.end_of(b.group, side)} end, (8.4)")
        parts.append(pen(f"F{i + 1}", f"of {b.group.label}",
                         f"{area.name}·{fyk.name}/γs·min(1, {long.name}/{full.name})", (area, fyk, gamma, long, full),
                         "force", "9.2.1.4"))  # fmt: skip
    young = set(pretensioned(design))
    for i, t in enumerate(cut.tension_tendons):
        area = Symbol(f"Ap{i + 1}", t.area, "area", f"of tendon {t.group.name or t.index + 1}")
        reach = t.left if sign > 0 else t.right
        held_ = transmission(design, t.index).stress(reach) if t.index in young else t.stress
        stress = Symbol(f"σp{i + 1}", held_, "stress", "that it has there")
        parts.append(pen(f"P{i + 1}", "its force", f"{area.name}·{stress.name}", (area, stress), "force", "8.10.2.3"))
    names = " + ".join(p.name for p in parts) or "0"
    return tuple(parts), pen("FRd", "force anchored beyond the face", names, tuple(parts), "force")


def _quarter(design: Design, support: float, sign: float) -> Iterator[Check]:
    pen, beam = design.pen, design.beam
    held_ = beam.supports.x
    others = [x for x in held_ if (x - support) * sign > 0.0]
    if not others or any(t.stress > 0.0 for t in beam.tendons):
        return
    other = min(others, key=lambda x: abs(x - support))
    places = [x for x in design.places if min(support, other) <= x <= max(support, other)]
    moments = design.actions.envelope("ultimate").sagging
    middle = max(places, key=lambda x: float(np.interp(x, design.actions.x, moments)))
    span, end = design.cut(middle), design.cut(support)
    if not span.tension_bars:
        return
    beta = values.national(design, "β2", QUARTER, "9.2.1.4 (1), recommended")
    whole = Symbol("As", span.As, "area", f"in the span, at {middle:.0f} mm")
    need = pen("As,end", "least at the support", "β2·As", (beta, whole), "area", "9.2.1.4 (1)")
    have = given("As,prov", "bars of the tension half over the support", end.As, "area")
    yield Check("steel at an end support", pen.cite("9.2.1.4 (1)"), need, have, (need, have),
                key="end-anchorage-share", x=support, state="detailing")  # fmt: skip


def inner(design: Design) -> Found:
    """9.2.1.5: a quarter of the span's steel over inner supports, 10 φ beyond the face."""
    found = worst(_inner(design))
    if found is not None:
        yield found


def _inner(design: Design) -> Iterator[Check]:
    pen, beam = design.pen, design.beam
    if len(beam.supports.x) < 3 or any(t.stress > 0.0 for t in beam.tendons):
        return
    moments = design.actions.envelope("ultimate").sagging
    for support in beam.supports.x[1:-1]:
        i = beam.supports.x.index(support)
        near = [x for x in design.places if beam.supports.x[i - 1] <= x <= beam.supports.x[i + 1]]
        middle = max(near, key=lambda x: float(np.interp(x, design.actions.x, moments)))
        span, over = design.cut(middle), design.cut(support)
        if not span.tension_bars:
            continue
        reach = [b for b in over.tension_bars if _reaches(b, beam.supports.bearing)]
        beta = values.national(design, "β2", QUARTER, "9.2.1.5 (1), recommended")
        whole = Symbol("As", span.As, "area", f"in the span, at {middle:.0f} mm")
        need = pen("As,sup", "least over the support", "β2·As", (beta, whole), "area", "9.2.1.5 (1)")
        have = given("As,prov", "bars that go 10 φ beyond the face", sum(b.area for b in reach), "area")
        yield Check("steel over an inner support", pen.cite("9.2.1.5"), need, have, (need, have), key="inner-support",
                    x=support, state="detailing")  # fmt: skip


def _reaches(bar: BarsAt, bearing: float) -> bool:
    return min(bar.left, bar.right) >= 10.0 * bar.group.diameter - 0.5 * bearing


ENTRIES: tuple[Entry, ...] = (
    Entry("end-anchorage", "anchorage at end supports", "9.2.1.4",
          "FE against what bars and tendons hold beyond an end support's face; a quarter of the span's steel there.",
          service.of_steel("anchorage at end supports", ends)),
    Entry("inner-support", "steel over inner supports", "9.2.1.5",
          "A quarter of the span's steel against that over inner supports.", inner),
)  # fmt: skip

"""Tension along the beam against the steel that is developed there, EN 1992-1-1:2004 9.2.1.3; *from memory*."""

from __future__ import annotations

import numpy as np

from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending
from soffit.codes.en1992 import bond, service, shear, values
from soffit.codes.en1992.bond import developed
from soffit.codes.en1992.transmission import pretensioned, transmission
from soffit.codes.working import Check, Symbol, Working
from soffit.materials.curve import Array

FLATTEST = 2.5
"""cot θ, (6.7N)."""
LOOKED_AT = 3
AT_A_FACE = 10.0
"""mm from the face of a support, where 9.2.1.4 and 9.2.1.5 decide."""


def shift(design: Design, cut: Cut) -> tuple[tuple[Working, ...], Working]:
    """al of the tension envelope, mm: z (cot θ − cot α)/2 with stirrups (9.2), d without (9.2.1.3 (2))."""
    d = Symbol("d", cut.d, "length", "depth of the steel in tension")
    if cut.stirrups is None:
        al = design.pen("al", "shift of the tension, no stirrups", "d", (d,), "length", "9.2.1.3 (2)")
        return (), al
    z = design.pen("z", "lever arm", "0.9·d", (d,), "length", "6.2.3 (1)")
    theta = Symbol("cotθ", _cot(design, cut), "ratio", "of the struts of the shear check")
    return (z,), design.pen("al", "shift of the tension", "z·cotθ/2", (z, theta), "length", "(9.2)")


def _cot(design: Design, cut: Cut) -> float:
    return design.kept(("en1992 cot theta", round(cut.x, 3)), lambda: shear.cot_theta(design, cut))


def held(design: Design, cut: Cut) -> float:
    """Design force of all steel in tension with what is developed of it, N."""
    gamma = values.gamma_s(design).value
    total = sum(developed(design, b) * b.area * b.yield_strength / gamma for b in cut.tension_bars)
    young = set(design.kept("en1992 pretensioned", lambda: list(pretensioned(design))))
    for t in cut.tension_tendons:
        if t.index in young:
            total += t.area * transmission(design, t.index).stress(min(t.left, t.right))
        elif t.bonded:
            total += t.area * t.group.steel.yield_strength / gamma
        else:
            total += t.area * t.stress
    return total


def curtailment(design: Design) -> Found:
    """Ftd against the developed steel, sagging and hogging; the worst place of each."""
    for sagging in (True, False):
        found = _curtailed(design, sagging)
        if found is not None:
            yield found


def _curtailed(design: Design, sagging: bool) -> Check | None:
    """Places are ranked without workings, with the flattest struts: the greatest moment within the shift over the steel
    that is developed. The worst few are then looked at with the struts of their shear check."""
    envelope = design.actions.envelope("ultimate")
    moments = envelope.sagging if sagging else envelope.hogging
    most = max(float(np.max(envelope.sagging)), float(np.max(envelope.hogging)))
    if float(np.max(moments)) <= service.NEGLIGIBLE * most:
        return None
    chosen = design.choices.stirrup_angle or FLATTEST
    rank = [r for place in _ends(design) if (r := _asked(design, place, sagging, moments, chosen)) is not None]
    again = [
        r for _, place, _ in sorted(rank, reverse=True)[:LOOKED_AT]
        if (r := _asked(design, place, sagging, moments, _cot(design, design.cut(place, sagging)))) is not None
    ]  # fmt: skip
    if not again:
        return None
    _, place, at = max(again)
    return _shown(design, sagging, place, at)


def _asked(
    design: Design, place: float, sagging: bool, moments: Array, cot: float
) -> tuple[float, float, float] | None:
    """Tension over developed steel, the place and that of the moment; none where nothing pulls."""
    span = _span(design, place, sagging)
    cut = design.cut(place, sagging)
    if span is None or not (cut.tension_bars or cut.tension_tendons):
        return None
    reach = cut.d if cut.stirrups is None else 0.45 * cut.d * cot
    if _tip(design, place, reach):
        return None
    m, at = _within(design.actions.x, moments, max(place - reach, span[0]), min(place + reach, span[1]))
    if m <= 0.0 or whole(design, cut, m):
        return None
    there = held(design, cut)
    return m / (0.9 * cut.d) / there if there > 0.0 else np.inf, place, at


def _ends(design: Design) -> tuple[float, ...]:
    """Places, and those just beyond which bars end their full strength."""
    more = []
    for i, bar in enumerate(design.beam.bars):
        sides: tuple[tuple[bond.Side, float, float], ...] = (("left", bar.x_from, 1.0), ("right", bar.x_to, -1.0))
        for side, end, sign in sides:
            length = bond.full(design, bar, i, side)
            if np.isfinite(length) and length > 0.0:
                more += [end + sign * length, end - sign * 1.0]
    return tuple(sorted({x for x in (*design.places, *more) if 0.0 <= x <= design.beam.length}))


def _span(design: Design, place: float, sagging: bool) -> tuple[float, float] | None:
    """Between which places the moments shift: of sagging those of the place's own span, for what is anchored at a
    support is another check; none over a bearing."""
    beam = design.beam
    if not sagging:
        return 0.0, beam.length
    half = 0.5 * beam.supports.bearing
    if any(abs(place - s) < half + AT_A_FACE for s in beam.supports.x):
        return None
    cuts = [0.0, *beam.supports.x, beam.length]
    return max(c for c in cuts if c <= place), min(c for c in cuts if c >= place)


def _tip(design: Design, place: float, reach: float) -> bool:
    """Whether a place lies beyond the outer supports, nearer to a free end than the shift: there a load goes straight
    into the strut, and the bars are anchored by their ends (*ours*)."""
    held, long = design.beam.supports, design.beam.length
    left = not held.fixed_left and place < min(reach, held.x[0])
    return left or (not held.fixed_right and long - place < min(reach, long - held.x[-1]))


def _within(x: Array, moments: Array, low: float, high: float) -> tuple[float, float]:
    """The greatest moment between two places, and where."""
    near = (x >= low) & (x <= high)
    places = np.concatenate([[low, high], x[near]])
    values_ = np.interp(places, x, moments)
    i = int(np.argmax(values_))
    return float(values_[i]), float(places[i])


def whole(design: Design, cut: Cut, moment: float) -> bool:
    """Whether a prestressed cut stays uncracked in the ultimate limit state, σct ≤ fctk,0.05 (8.10.2.3 (1))."""
    if not cut.prestressed:
        return False
    bare, outline = service.shape(design, False), service.shape(design)
    before = service.bare_moment(design, cut.x) * (1.0 if cut.sagging else -1.0) if design.cast else moment
    z0, z2 = cut.depth_of(bare.centroid), cut.depth_of(outline.centroid)
    bend = before - sum(t.force * (t.depth - z0) for t in cut.tendons)
    stress = -cut.P / bare.area + bend * (cut.h - z0) / bare.inertia
    stress += (moment - before) * (cut.h - z2) / outline.inertia
    return stress <= 0.7 * values.fctm(design).value


def _shown(design: Design, sagging: bool, place: float, at: float) -> Check:
    pen, word = design.pen, bending(sagging)
    cut = design.cut(place, sagging)
    head, al = shift(design, cut)
    demand = design.actions.at("ultimate", bending(sagging), at, "MEd")
    d = Symbol("d", cut.d, "length", "depth of the steel in tension")
    text = "MEd/(0.9·d)" + (" + NEd" if demand.axial > 0.0 else "")
    n = Symbol("NEd", demand.axial, "force", "tension along the beam")
    ftd = pen("Ftd", f"tension at {place:.0f} mm, of the moment at {at:.0f} mm, within the shift", text,
              (demand.working, d, *((n,) if demand.axial > 0.0 else ())), "force", "9.2.1.3 (2)")  # fmt: skip
    steps, have = capacity(design, cut)
    return Check(
        f"tension and developed steel, {word}", pen.cite("9.2.1.3"), ftd, have,
        (demand.working, *head, al, ftd, *steps, have),
        ("A bar takes up stress evenly over its lbd (9.2.1.3 (3)); a share of 1 means full strength.",),
        key=f"curtailment-{word}", x=place, combination=demand.combination, state="strength",
    )  # fmt: skip


def capacity(design: Design, cut: Cut) -> tuple[tuple[Working, ...], Working]:
    """FRd of the steel in tension and its parts."""
    pen, gamma = design.pen, values.gamma_s(design)
    parts: list[Working] = []
    for i, b in enumerate(cut.tension_bars):
        share = Symbol(f"η{i + 1}", developed(design, b), "ratio", f"share that {b.group.label} has at {cut.x:.0f} mm")
        area = Symbol(f"As{i + 1}", b.area, "area", f"of {b.group.label}")
        fyk = Symbol(f"fyk{i + 1}", b.yield_strength, "stress", "yield strength")
        parts.append(pen(f"F{i + 1}", f"of {b.group.label}", f"{share.name}·{area.name}·{fyk.name}/γs",
                         (share, area, fyk, gamma), "force", "8.4, 9.2.1.3 (3)"))  # fmt: skip
    young = set(pretensioned(design))
    for i, t in enumerate(cut.tension_tendons):
        area = Symbol(f"Ap{i + 1}", t.area, "area", f"of tendon {t.group.name or t.index + 1}")
        if t.index in young:
            stress = Symbol(f"σp{i + 1}", transmission(design, t.index).stress(min(t.left, t.right)), "stress",
                            f"that it has {min(t.left, t.right):.0f} mm from its end, Figure 8.17")  # fmt: skip
        elif t.bonded:
            stress = Symbol(f"σp{i + 1}", t.group.steel.yield_strength / gamma.value, "stress", "fp0.1k/γs")
        else:
            stress = Symbol(f"σp{i + 1}", t.stress, "stress", "after all losses, unbonded: its rise is left out")
        text = f"{area.name}·{stress.name}"
        parts.append(pen(f"P{i + 1}", "its force", text, (area, stress), "force", "8.10.2.3"))
    names = " + ".join(p.name for p in parts) or "0"
    return tuple(parts), pen("FRd", "force of the developed steel", names, tuple(parts), "force")


ENTRIES: tuple[Entry, ...] = (
    Entry("curtailment", "tension and developed steel", "9.2.1.3",
          "Tension of the shifted moments against the steel that is developed along the beam.",
          service.of_steel("tension and developed steel", curtailment)),
)  # fmt: skip

"""Shear by the general procedure of AASHTO LRFD 5.7.3.4.2, stirrups, and the longitudinal tie; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.aashto import values
from soffit.codes.aashto.flexure import strength
from soffit.codes.aashto.shearplace import PHI, Place, depth, width
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.working import Check, Symbol, Working, given
from soffit.errors import PhysicsError

FACE = "A point load within dv of a support: the section at its face counts there (5.7.3.2)."
CONCURRENT = "Mu is the moment that goes with Vu."


def places(design: Design) -> tuple[Place, ...]:
    """Where shear is likely to be hardest: of each zone of stirrups the two worst by a quick sum, dv from the face of
    supports and beyond (5.7.3.2)."""
    return design.kept("aashto shear places", lambda: tuple(_places(design)))


def near(design: Design, x: float) -> bool:
    """Whether a place is nearer to a face than its critical section."""
    beam, half = design.beam, 0.5 * design.beam.supports.bearing
    dv = depth(design.cut(x, True))
    for s in beam.supports.x:
        gap = abs(x - s) - half
        if gap >= dv - 1e-6 or gap < -1e-6:
            if gap < -1e-6:
                return True
            continue
        side = 1.0 if x > s else -1.0
        loads = (side * (load.x_from - s) - half for load in beam.loads if load.is_point)
        if not any(0.0 < at < dv for at in loads):
            return True
    return False


def _places(design: Design) -> Iterator[Place]:
    envelope, at = design.actions.envelope("ultimate"), design.actions.x
    shears = np.maximum(np.abs(envelope.shear_max), np.abs(envelope.shear_min))
    v = np.interp(design.places, at, shears)
    sag, hog = np.interp(design.places, at, envelope.sagging), np.interp(design.places, at, envelope.hogging)
    zones: dict[object, list[tuple[float, float]]] = {}
    for i, x in enumerate(design.places):
        if v[i] <= 1e-9 or near(design, x):
            continue
        cut = design.cut(x, bool(sag[i] >= hog[i]))
        zone = None if cut.stirrups is None else tuple(id(z) for z in cut.stirrups.zones)
        zones.setdefault(zone, []).append((_quick(design, cut, float(v[i]), float(max(sag[i], hog[i]))), x))
    for rows in zones.values():
        for _, x in sorted(rows)[-2:]:
            demand = design.actions.at("ultimate", "shear", x, "Vu")
            if demand.working.value > 1e-9:
                yield Place(design, design.cut(x, demand.moment >= 0.0), demand)


def _quick(design: Design, cut: Cut, v: float, m: float) -> float:
    """Shear over its resistance with the envelopes of moment and shear, to choose places by; ksi constants in MPa."""
    dv, root = depth(cut), 0.083 * design.strength**0.5
    stiff = sum(b.area * b.group.steel.modulus for b in cut.tension_bars)
    stiff += sum(t.area * t.group.steel.modulus for t in cut.tension_tendons if t.bonded)
    pull = sum(t.area * min(t.stress * 1.1, 0.7 * t.group.steel.tensile) for t in cut.tension_tendons)
    web = max(v - abs(cut.rise), 0.0)
    strain = min(max((max(m / dv, web) + web - pull) / max(stiff, 1.0), -1e-4), 0.006)
    has = cut.stirrups
    cot = 1.0 / np.tan(np.radians(29.0 + 3500.0 * strain))
    ties = 0.0 if has is None else has.per_length * has.yield_strength * dv * cot
    return float(v / (root * 4.8 / (1.0 + 750.0 * strain) * width(cut) * dv + ties + abs(cut.rise)))


def shear(design: Design) -> Found:
    """Vu ≤ φVn along the beam."""
    said = (CONCURRENT,)
    found = worst(
        Check("shear", design.pen.cite("5.7.3.3"), p.demand.working, p.vr[-1], p.shown, said, "shear", p.cut.x,
              p.demand.combination, "strength") for p in places(design)
    )  # fmt: skip
    if found is not None:
        yield found


def stirrups(design: Design) -> Found:
    """Least stirrups where Vu > 0.5 φ (Vc + Vp), 5.7.2.3 and 5.7.2.5, and their spacing, 5.7.2.6."""
    for find in (_least, _spacing):
        check = worst(find(design, p) for p in places(design))
        if check is not None:
            yield check


def _least(design: Design, p: Place) -> Check | None:
    pen = design.pen
    half = pen("V0", "shear from which stirrups are asked", "0.5·φ·max(Vc + Vp, 0)", (PHI, p.vc, p.vp), "force",
               "(5.7.2.3-1)")  # fmt: skip
    head = (p.demand.working, p.dv, *p.strain, *p.beta, p.vc, half)
    title, clause = "least stirrups", pen.cite("5.7.2.5")
    if p.demand.working.value <= half.value:
        return None
    if p.least is None:
        has = given("Av", "of the stirrups: there are none", 0.0, "area", "ksi")
        s = Symbol("s", 25.4, "length", "for each inch of the beam")
        fy = Symbol("fy", 60.0 * values.KSI, "stress", "of stirrups of Grade 60")
        need = pen("Av,min", "least stirrups", "0.0316·λ·√(f'c)·bv·s/fy",
                   (values.lightness(design), values.fc(design), p.bv, s, fy), "area", "(5.7.2.5-1)")  # fmt: skip
    else:
        need, has = p.least, pen("Av", "of all legs of a stirrup", "Av", (p.av,), "area")
    return Check(title, clause, need, has, (*head, need, has), (), "stirrups-least", p.cut.x, p.demand.combination,
                 "strength")  # fmt: skip


def _spacing(design: Design, p: Place) -> Check | None:
    pen = design.pen
    if p.cut.stirrups is None or p.demand.working.value <= 0.5 * PHI.value * (p.vc.value + p.vp.value):
        return None
    vu = pen("vu", "shear stress", "abs(Vu − φ·Vp)/(φ·bv·dv)", (p.demand.working, PHI, p.vp, p.bv, p.dv), "stress",
             "(5.7.2.8-1)")  # fmt: skip
    low = vu.value < 0.125 * design.strength
    text, what = ("min(0.8·dv, 24)", "vu below 0.125 f'c") if low else ("min(0.4·dv, 12)", "vu from 0.125 f'c on")
    clause = "(5.7.2.6-1)" if low else "(5.7.2.6-2)"
    limit = pen("smax", f"greatest spacing, {what}", text, (p.dv,), "length", clause)
    has = pen("s", "spacing of the stirrups", "s", (p.s,), "length")
    return Check("spacing of stirrups", pen.cite("5.7.2.6"), has, limit, (p.demand.working, p.dv, vu, has, limit), (),
                 "stirrups-spacing", p.cut.x, p.demand.combination, "detailing")  # fmt: skip


def tie(design: Design) -> Found:
    """5.7.3.5: steel in tension along the beam, and at the inner edge of the bearing of simple ends."""
    checks = [_tie(design, p) for p in places(design)]
    checks += [_end(design, x) for x in _ends(design)]
    check = worst(checks)
    if check is not None:
        yield check


def tension(design: Design, cut: Cut) -> Working | None:
    """Aps fps + As fy in tension, as far as developed, by strain compatibility."""
    if not (cut.tension_bars or cut.tension_tendons):
        return given("T", "steel in tension: none", 0.0, "force", "ksi")
    try:
        found = strength(design, cut)
    except PhysicsError:
        return None
    rows = [*((b.area, b.depth) for b in cut.bars), *((t.area, t.depth) for t in cut.tendons)]
    pull = sum(area * max(f, 0.0) for (area, z), f in zip(rows, found.bending.stresses, strict=True) if z > 0.5 * cut.h)
    return given("T", "Aps·fps + As·fy in tension, as far as developed, by strain compatibility", pull, "force", "ksi")


def _most(p: Place) -> Working:
    """Vs that counts in the tie: no more than Vu/φ."""
    symbols = (p.vs, p.demand.working, PHI)
    return p.design.pen("Vs,t", "of the stirrups, Vu/φ at most", "min(Vs, Vu/φ)", symbols, "force", "5.7.3.5")


def _tie(design: Design, p: Place) -> Check | None:
    pen, has = design.pen, tension(design, p.cut)
    if has is None:
        return None
    try:
        phi_f = strength(design, p.cut).phi.value
    except PhysicsError:
        phi_f = 0.9
    mu, vs = p.strain[0], _most(p)
    f, c = Symbol("φf", phi_f, "ratio", "for bending here"), Symbol("φc", 0.75, "ratio", "for axial force")
    nu = Symbol("Nu", p.demand.axial, "force", "axial, tension positive")
    need = pen("Tu", "tension wanted", "Mu/(dv·φf) + 0.5·Nu/φc + max(abs(Vu/φ − Vp) − 0.5·Vs,t, 0)/tan(θ)",
               (mu, p.dv, f, nu, c, p.demand.working, PHI, p.vp, vs, p.theta), "force", "(5.7.3.5-1)")  # fmt: skip
    top = _greatest(design, p.cut.sagging)
    if top is None:
        workings: tuple[Working, ...] = (*p.shown, vs, need, has)
    else:
        z = p.dv
        cap = pen("Tu,max", "what the greatest moment alone wants", "Mmax/(dv·φf)", (top, z, f), "force", "5.7.3.5")
        less = pen("Tu,1", "tension wanted, no more than the greatest moment wants", "min(Tu, max(Tu,max, Mu/(dv·φf)))",
                   (need, cap, mu, p.dv, f), "force", "5.7.3.5")  # fmt: skip
        workings = (*p.shown, vs, need, top, cap, less, has)
        need = less
    return Check("longitudinal tie", pen.cite("5.7.3.5"), need, has, workings, (CONCURRENT,), "tie-along", p.cut.x,
                 p.demand.combination, "strength")  # fmt: skip


def _greatest(design: Design, sagging: bool) -> Working | None:
    """The greatest moment of that sign, which alone the tie need not exceed, of beams on simple ends."""
    held = design.beam.supports
    if len(held.x) != 2 or held.fixed_left or held.fixed_right or not sagging:
        return None
    values_ = design.actions.envelope("ultimate").sagging
    return given("Mmax", "greatest moment along the beam", float(np.max(values_)), "moment", "ksi")


def _ends(design: Design) -> tuple[float, ...]:
    """Inner edges of the bearings of simple ends."""
    held, half = design.beam.supports, 0.5 * design.beam.supports.bearing
    if len(held.x) < 2:
        return ()
    found = [] if held.fixed_left else [held.x[0] + half]
    return tuple(found if held.fixed_right else [*found, held.x[-1] - half])


def _end(design: Design, x: float) -> Check | None:
    """(5.7.3.5-2), with Vu, Vs, Vp and θ of the critical section dv away."""
    pen = design.pen
    inward = 1.0 if x < 0.5 * design.beam.length else -1.0
    away = min(max(x + inward * depth(design.cut(x, True)), 0.0), design.beam.length)
    demand = design.actions.at("ultimate", "shear", away, "Vu")
    if demand.working.value <= 0.0:
        return None
    p = Place(design, design.cut(away, demand.moment >= 0.0), demand)
    has, vs = tension(design, design.cut(x, True)), _most(p)
    if has is None:
        return None
    need = pen("Tu", "tension wanted at the bearing", "max(Vu/φ − 0.5·Vs,t − Vp, 0)/tan(θ)",
               (demand.working, PHI, vs, p.vp, p.theta), "force", "(5.7.3.5-2)")  # fmt: skip
    said = (f"Vu, Vs, Vp and θ are those of the section dv from the face, at {away:.0f} mm.",)
    return Check("longitudinal tie at the bearing", pen.cite("5.7.3.5"), need, has, (*p.shown, vs, need, has), said,
                 "tie-end", x, demand.combination, "strength")  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("shear", "shear", "5.7.3.3, 5.7.3.4.2", "Vu against φVn by the general procedure, dv from supports and "
          "beyond.", shear),
    Entry("stirrups", "stirrups", "5.7.2.3 to 5.7.2.6", "Least area of stirrups where they are asked, and their "
          "spacing.", stirrups),
    Entry("tie", "longitudinal tie", "5.7.3.5", "The tension that moment and shear want against what the steel has "
          "developed.", tie),
)  # fmt: skip

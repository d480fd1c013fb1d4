"""Torsion, AASHTO LRFD 5.7.2.1 and 5.7.3.6, of solid sections; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.aashto import values
from soffit.codes.aashto.shearplace import PHI, Place
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.section.outline import Outline

MANY = 2
MIDDLE = "Ao is 0.85 of the area within the stirrups of the web's rectangle; flanges are not counted in it."


def torsion(design: Design) -> Found:
    """Tu against 0.25 φ Tcr; beyond it stirrups for shear and torsion together, and the longitudinal steel."""
    envelope = design.actions.envelope("ultimate")
    if float(np.max(envelope.torsion)) <= 1.0:
        return
    rows = list(_checks(design))
    for key in ("torsion-threshold", "torsion-stirrups", "torsion-bars"):
        most = worst(c for c in rows if isinstance(c, Check) and c.key == key)
        if most is not None:
            yield most
    yield from [u for u in rows if isinstance(u, Unchecked)][:1]


def _checks(design: Design) -> Iterator[Check | Unchecked]:
    at, values_ = design.actions.x, design.actions.envelope("ultimate")
    twist = np.interp(design.places, at, values_.torsion)
    shears = np.interp(design.places, at, np.maximum(np.abs(values_.shear_max), np.abs(values_.shear_min)))
    bent = np.interp(design.places, at, np.maximum(values_.sagging, values_.hogging))
    scale = [max(float(np.max(v)), 1e-9) for v in (twist, shears, bent)]
    score = twist / scale[0] + 0.5 * shears / scale[1] + 0.5 * bent / scale[2]
    zones: dict[object, list[tuple[float, float]]] = {}
    for x, s, t in zip(design.places, score.tolist(), twist.tolist(), strict=True):
        if t > 1.0:
            has = design.cut(x, True).stirrups
            zones.setdefault(None if has is None else tuple(id(z) for z in has.zones), []).append((s, x))
    for rows in zones.values():
        for _, x in sorted(rows)[-MANY:]:
            shear = design.actions.at("ultimate", "shear", x, "Vu")
            turned = design.actions.at("ultimate", "torsion", x, "Tu")
            place = Place(design, design.cut(x, shear.moment >= 0.0), shear)
            yield from _at(design, place, turned.working, turned.combination)


def _at(design: Design, p: Place, tu: Working, combination: str) -> Iterator[Check | Unchecked]:
    pen = design.pen
    outline, cut = design.beam.outline, p.cut
    acp = Symbol("Acp", outline.area, "area", "of the section")
    pc = Symbol("pc", perimeter(outline), "length", "perimeter of the section")
    fpc = Symbol("fpc", cut.P / outline.area, "stress", "compression by the prestress at the centroid")
    lam, fc = values.lightness(design), values.fc(design)
    k = pen("K", "for prestress", "min(2.0, √(1 + fpc/(0.126·λ·√(f'c))))", (fpc, lam, fc), "ratio", "(5.7.2.1-6)")
    tcr = pen("Tcr", "cracking torsion", "0.126·K·λ·√(f'c)·Acp^2/pc", (k, lam, fc, acp, pc), "moment", "(5.7.2.1-4)")
    free = pen("T0", "torsion that needs no steel", "0.25·φ·Tcr", (PHI, tcr), "moment", "(5.7.2.1-3)")
    small = tu.value <= free.value
    yield Check("torsion that may be left out", pen.cite("5.7.2.1"), tu, free, (tu, k, tcr, free),
                () if small else ("Beyond it stirrups and bars are asked for torsion: see those checks.",),
                "torsion-threshold", cut.x, combination, "strength" if small else "information")  # fmt: skip
    if small:
        return
    has = cut.stirrups
    closed = has is not None and has.legs >= 2
    fy = p.fy if has is not None else Symbol("fy", 60.0 * values.KSI, "stress", "of stirrups of Grade 60")
    own = [b for b in design.beam.bars if b.part == "beam"]
    side = min((min(b.y, outline.depth - b.y) - b.diameter / 2.0 for b in own), default=40.0)
    inner = side - 0.5 * (has.diameter if has is not None else 10.0)
    bh, hh = cut.bw - 2.0 * inner, outline.depth - 2.0 * inner
    if bh <= 0.0 or hh <= 0.0:
        why = f"a web of {cut.bw:.0f} mm leaves no room within stirrups for a flow of shear"
        yield Unchecked("stirrups for torsion", why, pen.cite("5.7.3.6.2"), "torsion-stirrups")
        return
    aoh = Symbol("Aoh", bh * hh, "area", "within the centre line of the stirrups")
    ph = Symbol("ph", 2.0 * (bh + hh), "length", "perimeter of that line")
    ao = pen("Ao", "within the flow of shear", "0.85·Aoh", (aoh,), "area", "5.7.3.6.2")
    theta = _theta(design, p, ph, tu, ao)
    at = pen("At/s,T", "one leg for torsion", "Tu/(φ·2·Ao·fy/tan(θ))", (tu, PHI, ao, fy, theta[-1]), "length",
             "(5.7.3.6.2-1)")  # fmt: skip
    av = pen("Av/s,V", "legs for shear", "max(0, Vu/φ − Vc − Vp)/(fy·dv/tan(θ))",
             (p.demand.working, PHI, p.vc, p.vp, fy, p.dv, theta[-1]), "length", "(5.7.3.3-4)")  # fmt: skip
    n = Symbol(
        "n",
        float(has.legs) if has is not None and closed else 2.0,
        "count",
        "legs, of which the outer two bear torsion",
    )
    need = pen("A/s", "stirrups wanted, a leg", "At/s,T + Av/s,V/n", (at, av, n), "length")
    if closed:
        is_ = pen("A/s,is", "stirrups there, a leg", "Av/(n·s)", (p.av, n, p.s), "length")
    else:
        is_ = given("A/s,is", "stirrups that close around the web: there are none", 0.0, "length", "ksi")
    said = (MIDDLE, "Stirrups are closed; the greatest shear and torsion are taken at once.")
    yield Check("stirrups for shear and torsion", pen.cite("5.7.3.6.2"), need, is_,
                (tu, p.demand.working, p.dv, ao, *theta, p.vc, at, av, need, is_), said, "torsion-stirrups", cut.x,
                combination, "strength")  # fmt: skip
    yield from _bars(design, p, tu, ph, ao, theta, combination)


def _theta(design: Design, p: Place, ph: Symbol, tu: Working, ao: Working) -> tuple[Working, ...]:
    """εs with Vu,eff, (5.7.3.4.2-5), by adding what it is more than Vu to the tension."""
    pen = design.pen
    eff = pen("Vu,eff", "shear with torsion", "√(Vu^2 + (0.9·ph·Tu/(2·Ao))^2)", (p.demand.working, ph, tu, ao), "force",
              "(5.7.3.4.2-5)")  # fmt: skip
    ea = sum(b.area * b.group.steel.modulus for b in p.cut.tension_bars)
    ea += sum(t.area * t.group.steel.modulus for t in p.cut.tension_tendons if t.bonded)
    stiff = Symbol("EA", max(ea, 1.0), "force", "Es·As + Ep·Aps in tension")
    es = pen("εs,T", "strain of the tension steel with torsion", "min(0.006, max(εs, −0.0004) + 2·(Vu,eff − Vu)/EA)",
             (p.strain[-1], eff, p.demand.working, stiff), "strain", "5.7.3.4.2")  # fmt: skip
    text = "(29 + 3500·max(εs,T, −0.0004))·3.141592653589793/180"
    return eff, es, pen("θ", "inclination of the struts", text, (es,), "angle", "(5.7.3.4.2-3)")


def _bars(
    design: Design, p: Place, tu: Working, ph: Symbol, ao: Working, theta: tuple[Working, ...], combination: str
) -> Iterator[Check]:
    """(5.7.3.6.3-1)."""
    from soffit.codes.aashto.shear import tension

    pen, has = design.pen, tension(design, p.cut)
    if has is None:
        return
    vu = p.demand.working
    vs = pen("Vs,t", "of the stirrups, Vu/φ at most", "min(Vs, Vu/φ)", (p.vs, vu, PHI), "force", "5.7.3.5")
    f = Symbol("φf", 0.90, "ratio", "for bending")
    need = pen(
        "Tw", "tension wanted",
        "Mu/(φf·dv) + √((max(abs(Vu/φ − Vp) − 0.5·Vs,t, 0))^2 + (0.45·ph·Tu/(2·Ao·φ))^2)/tan(θ)",
        (p.strain[0], f, p.dv, p.demand.working, PHI, p.vp, vs, ph, tu, ao, theta[-1]), "force", "(5.7.3.6.3-1)",
    )  # fmt: skip
    yield Check("longitudinal steel for torsion", pen.cite("5.7.3.6.3"), need, has, (tu, *theta, vs, need, has),
                (MIDDLE,), "torsion-bars", p.cut.x, combination, "strength")  # fmt: skip


def perimeter(outline: Outline) -> float:
    """Of the outline, mm, from its strips."""
    rows = [(float(y0), float(y1), float(w0), float(w1)) for y0, y1, w0, w1 in outline.strips]
    total = rows[0][2] + rows[-1][3]
    for i, (y0, y1, w0, w1) in enumerate(rows):
        total += 2.0 * float(np.hypot(y1 - y0, 0.5 * (w1 - w0)))
        if i + 1 < len(rows):
            total += abs(rows[i + 1][2] - w1)
    return total


ENTRIES: tuple[Entry, ...] = (
    Entry("torsion", "torsion", "5.7.2.1, 5.7.3.6", "Whether torsion counts; stirrups for shear and torsion; bars "
          "along the beam.", torsion),
)  # fmt: skip

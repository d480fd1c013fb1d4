"""Shear by levels of approximation, fib Model Code 2010, 7.3.3; *from memory*.

Level I wants nothing but the section, level II its longitudinal strain, level III adds concrete and stirrups. The
better of II and III, which know the strain, has the verdict; the others are told for information.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from math import cos, radians, sin, tan

import numpy as np

from soffit.codes.actions import Factored
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.mc2010 import values
from soffit.codes.working import Check, Symbol, Working, given

LIGHT = 0.08
"""ρw,min over √fck/fyk, 7.13.5.2: below it stirrups do not count as the least."""


def shear(design: Design) -> Found:
    """VEd at a depth from the face and beyond against every level that applies."""
    levels: dict[str, list[Check]] = {}
    for check in _everywhere(design):
        levels.setdefault(check.key, []).append(check)
    found = [worst(checks) for _, checks in sorted(levels.items())]
    kept = [c for c in found if c is not None]
    best = min(kept[1:] or kept, key=lambda c: (c.ratio, -len(c.key)), default=None)
    for check in kept:
        yield check if check is best else replace(check, state="information")


def _everywhere(design: Design) -> Iterator[Check]:
    for x in _places(design):
        cut = design.cut(x, True)
        demand = design.actions.at("ultimate", "shear", x, "VEd")
        if demand.working.value <= 1e-9:
            continue
        if demand.moment < 0.0:
            cut = design.cut(x, False)
        yield from _levels(design, cut, demand)


def _places(design: Design) -> list[float]:
    """Places a depth from the faces and beyond at which a level may be worst: in each zone of stirrups the two where
    the shear times the strain that the envelopes would give is greatest, and the greatest shear."""
    envelope, at = design.actions.envelope("ultimate"), design.actions.x
    zones: dict[object, list[tuple[float, float, float]]] = {}
    for x in design.places:
        cut = design.cut(x, True)
        if design.from_face(x) < 0.9 * cut.d - 1e-6:
            continue
        shear = max(abs(float(np.interp(x, at, envelope.shear_max))), abs(float(np.interp(x, at, envelope.shear_min))))
        moment = max(float(np.interp(x, at, envelope.sagging)), float(np.interp(x, at, envelope.hogging)))
        steel = 2.0 * 200e3 * max(cut.As + cut.Ap, 1.0)
        score = shear * (1.0 + 1500.0 * min((moment / (0.9 * cut.d) + shear) / steel, 0.003))
        zone = None if cut.stirrups is None else tuple(id(z) for z in cut.stirrups.zones)
        zones.setdefault(zone, []).append((score, shear, x))
    found = set()
    for rows in zones.values():
        found |= {x for _, _, x in sorted(rows)[-2:]}
        found.add(max(rows, key=lambda row: row[1])[2])
    return sorted(found)


def _levels(design: Design, cut: Cut, demand: Factored) -> Iterator[Check]:
    pen = design.pen
    z, rows = _arm(design, cut)
    bw = Symbol("bw", cut.bw, "length", "least width of the web")
    enough = _enough(design, cut)
    root = pen("rfck", "√fck, at most 8 MPa, as a stress", "min(√(fck), 8)", (values.fck(design),), "stress",
               "7.3.3.1")  # fmt: skip
    gamma = values.gamma_c(design)
    strain = _strain(design, cut, demand, z)
    stirrups = cut.stirrups

    def concrete(k: Working, name: str = "VRd,c") -> Working:
        return pen(
            name, "shear that the concrete bears", "kv·rfck/γc·z·bw", (k, root, gamma, z, bw), "force", "(7.3-17)"
        )

    def check(level: str, resistance: Working, workings: tuple[Working, ...]) -> Check:
        return Check(
            f"shear, level {level}", pen.cite("7.3.3"), demand.working, resistance,
            (demand.working, *rows, *workings), (), f"shear-level-{len(level)}", cut.x, demand.combination, "strength",
        )  # fmt: skip

    if not enough:
        k1 = pen("kv", "level I, without the least stirrups", "180/(1000 + 1.25·z)", (z,), "ratio", "(7.3-19)")
        first = concrete(k1)
        yield check("I", first, (root, k1, first))
        kdg = _grain(design)
        k2 = pen("kv", "level II, without the least stirrups", "0.4/(1 + 1500·εx)·1300/(1000 + kdg·z)",
                 (strain[-1], kdg, z), "ratio", "(7.3-21)")  # fmt: skip
        second = concrete(k2)
        yield check("II", second, (root, *strain, kdg, k2, second))
        return
    assert stirrups is not None
    fyk = Symbol("fywk", stirrups.yield_strength, "stress", "yield strength of the stirrups")
    fywd = pen("fywd", "design strength of the stirrups", "fywk/γs", (fyk, values.gamma_s(design)), "stress")
    asw = Symbol("Asw", stirrups.area, "area", "of the legs of one stirrup")
    s = Symbol("s", stirrups.spacing, "length", "spacing of the stirrups")
    squeeze = any(t.full > 0.0 for t in cut.tendons) or demand.axial < 0.0
    flat = Symbol("θmin", radians(25.0 if squeeze else 40.0 if demand.axial > 0.0 else 30.0), "angle",
                  "least inclination of the struts, level I, 7.3.3.3")  # fmt: skip
    fck = values.fck(design)
    brittle = pen("ηfc", "for brittle concrete", "min(1, (30/fck)^(1/3))", (fck,), "ratio", "(7.3-28)")
    half = Symbol("kε", 0.55, "ratio", "for the strain of the web, level I, 7.3.3.3")
    pull = asw.value / s.value * fywd.value
    press = brittle.value * fck.value / gamma.value * bw.value
    even = _angle(design, flat, lambda a: pull / tan(a) - half.value * press * sin(a) * cos(a))
    yield check("I", *_with_stirrups(design, cut, even.symbol, half, brittle, z, bw, fywd, asw, s, None, (even,)))
    least = pen("θmin", "least inclination of the struts, level II", "(20 + 10000·εx)·3.141593/180", (strain[-1],),
                "angle", "(7.3-37)")  # fmt: skip
    ex = strain[-1].value

    def spare(a: float) -> float:
        soft = min(0.65, 1.0 / (1.2 + 55.0 * (ex + (ex + 0.002) / tan(a) ** 2)))
        return pull / tan(a) - soft * press * sin(a) * cos(a)

    even = _angle(design, least.symbol, spare)
    soft2 = _web(design, strain[-1], even)
    more = (*strain, least, even, *soft2)
    rest = (brittle, z, bw, fywd, asw, s)
    yield check("II", *_with_stirrups(design, cut, even.symbol, soft2[-1].symbol, *rest, None, more))
    flattest = pen("θ", "the least, as level III wants", "θmin", (least,), "angle")
    soft3 = _web(design, strain[-1], flattest)
    more = (*strain, least, flattest, *soft3)
    third = (demand.working, strain[-1], root)
    yield check("III", *_with_stirrups(design, cut, flattest.symbol, soft3[-1].symbol, *rest, third, more))


def _web(design: Design, strain: Working, theta: Working) -> tuple[Working, Working]:
    """ε1 and kε, levels II and III."""
    pen = design.pen
    text = "εx + (εx + 0.002)/tan(θ)^2"
    across = pen("ε1", "strain across the struts", text, (strain, theta), "strain", "(7.3-39)")
    soft = pen("kε", "for the strain of the web", "min(0.65, 1/(1.2 + 55·ε1))", (across,), "ratio", "(7.3-38)")
    return across, soft


def _angle(design: Design, least: Symbol, spare: Callable[[float], float]) -> Working:
    """θ from the least to 45°: as the file chooses it, else the flattest at which the struts bear what the stirrups do.
    ``spare``: how much the stirrups bear more than the struts, of an inclination; it falls as that grows."""
    chosen = design.choices.stirrup_angle
    if chosen is not None:
        cot = Symbol("cotθ", chosen, "ratio", "as the file chooses it")
        what = "inclination of the struts as chosen, no flatter than the least"
        return design.pen("θ", what, "max(θmin, atan(1/cotθ))", (least, cot), "angle")
    low, high = least.value, radians(45.0)
    if spare(low) <= 0.0 or low >= high:
        return design.pen("θ", "inclination of the struts: the least", "θmin", (least,), "angle")
    if spare(high) < 0.0:
        for _ in range(50):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if spare(middle) > 0.0 else (low, middle)
        return given("θ", "inclination at which stirrups and struts bear alike", high, "angle")
    return given("θ", "inclination of the struts: 45°, for they crush before the stirrups yield", high, "angle")


def _with_stirrups(
    design: Design, cut: Cut, theta: Symbol, soft: Symbol, brittle: Working, z: Symbol | Working, bw: Symbol,
    fywd: Working, asw: Symbol, s: Symbol, third: tuple[Working, Working, Working] | None, more: tuple[Working, ...],
) -> tuple[Working, tuple[Working, ...]]:  # fmt: skip
    """VRd, and the workings that lead to it. ``third``: demand, εx and √fck, where the concrete counts too."""
    pen, gamma = design.pen, values.gamma_c(design)
    kc = pen("kc", "for the strength of the web", "kε·ηfc", (soft, brittle), "ratio", "(7.3-27)")
    most = pen("VRd,max", "shear at which the struts crush", "kc·fck/γc·bw·z·sin(θ)·cos(θ)",
               (kc, values.fck(design), gamma, bw, z, theta), "force", "(7.3-26)")  # fmt: skip
    ties = pen(
        "VRd,s", "shear that the stirrups bear", "Asw/s·z·fywd/tan(θ)", (asw, s, z, fywd, theta), "force", "(7.3-25)"
    )
    head = (*more, fywd, brittle, kc, most, ties)
    if third is None:
        total = pen("VRd", "shear strength", "min(VRd,s, VRd,max)", (ties, most), "force", "7.3.3.3")
        return total, (*head, total)
    demand, strain, root = third
    k3 = pen(
        "kv", "level III", "max(0, 0.4/(1 + 1500·εx)·(1 − VEd/VRd,max))", (strain, demand, most), "ratio", "(7.3-43)"
    )
    concrete = pen("VRd,c", "shear that the concrete bears", "kv·rfck/γc·z·bw", (k3, root, gamma, z, bw), "force",
                   "(7.3-17)")  # fmt: skip
    total = pen("VRd", "shear strength", "min(VRd,s + VRd,c, VRd,max)", (ties, concrete, most), "force", "(7.3-11)")
    return total, (*head, root, k3, concrete, total)


def _arm(design: Design, cut: Cut) -> tuple[Working, tuple[Working, ...]]:
    d = Symbol("d", cut.d, "length", "effective depth")
    z = design.pen("z", "lever arm", "0.9·d", (d,), "length", "7.3.3.1")
    return z, (z,)


def _strain(design: Design, cut: Cut, demand: Factored, z: Working) -> tuple[Working, ...]:
    """εx at mid-depth, (7.3-16); bonded tendons take their locked force off, as the commentary has it."""
    pen = design.pen
    m = Symbol("MEd", abs(demand.moment), "moment", "concurrent with the shear")
    n = Symbol("NEd", demand.axial, "force", "axial force, tension positive")
    es = next((b.group.steel.modulus for b in cut.tension_bars), 200e3)
    steel = Symbol("ΣEsAs", es * cut.As + sum(t.group.steel.modulus * t.area for t in cut.tension_tendons if t.bonded),
                   "force", "stiffness of the steel in tension")  # fmt: skip
    if steel.value <= 0.0:
        steel = Symbol("ΣEsAs", 1e-6, "force", "no steel in tension")
    locked = Symbol("Ap·σp0", sum(t.force for t in cut.tension_tendons), "force", "locked in the tendons in tension")
    found = pen(
        "εx", "strain at mid-depth, from 0 to 0.003", "min(0.003, max(0, (MEd/z + VEd + 0.5·NEd − Ap·σp0)/(2·ΣEsAs)))",
        (m, z, demand.working, n, locked, steel), "strain", "(7.3-16)",
    )  # fmt: skip
    return (found,)


def _grain(design: Design) -> Working:
    strong = design.strength > 70.0
    size = Symbol("dg", 0.0 if strong else design.beam.concrete.max_aggregate, "length",
                  "largest aggregate" + (", 0 above 70 MPa" if strong else ""))  # fmt: skip
    return design.pen("kdg", "for the aggregate", "max(0.75, 32/(16 + dg))", (size,), "ratio", "(7.3-20)")


def _enough(design: Design, cut: Cut) -> bool:
    if cut.stirrups is None:
        return False
    ratio = cut.stirrups.per_length / cut.bw
    return bool(ratio >= LIGHT * design.strength**0.5 / cut.stirrups.yield_strength * (1.0 - 1e-9))


ENTRIES = (
    Entry(
        "shear",
        "shear by levels",
        "7.3.3",
        "VEd against VRd of levels I, II and III; the better of II and III has the verdict.",
        shear,
    ),
)

"""Interface shear between a girder and its slab, AASHTO LRFD 5.7.4; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.aashto import values
from soffit.codes.aashto.shear import near
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.working import Check, Symbol, Unchecked, Working, given

ROUGH = (0.28, 1.0, 0.3, 1.8)
"""Cohesion ksi, friction, K1, K2 ksi: slab on clean girders roughened to 0.25 in, 5.7.4.4."""
PLAIN = (0.075, 0.6, 0.2, 0.8)
"""Concrete on clean concrete that is not roughened."""
LIGHT = 1.3
"""K2 of lightweight concrete on a roughened girder, ksi."""
WAIVED = 0.210 * values.KSI
"""vui/φ below which a roughened girder needs no least steel, 5.7.4.2, MPa."""
PHI = Symbol("φ", 0.90, "ratio", "for shear, 5.5.4.2")


def interface(design: Design) -> Found:
    """Vui ≤ φVni for each unit of area, and the least steel across."""
    if design.cast is None:
        return
    checks = list(_checks(design))
    for key in ("interface-shear", "interface-least"):
        most = worst(c for c in checks if c.key == key)
        if most is not None:
            yield most
    if not design.beam.bars and not design.beam.tendons:
        yield Unchecked("interface shear", "there is no steel in tension", design.pen.cite("5.7.4"))


def _places(design: Design) -> list[float]:
    """In every zone of stirrups the place of the greatest shear, dv from supports and beyond."""
    envelope, at = design.actions.envelope("ultimate"), design.actions.x
    shears = np.maximum(np.abs(envelope.shear_max), np.abs(envelope.shear_min))
    best: dict[object, tuple[float, float]] = {}
    for x, v in zip(design.places, np.interp(design.places, at, shears).tolist(), strict=True):
        if near(design, x):
            continue
        has = design.cut(x, True).stirrups
        zone = None if has is None else tuple(id(z) for z in has.zones)
        if v > best.get(zone, (0.0, 0.0))[0]:
            best[zone] = (v, x)
    return [x for _, x in best.values()]


def _checks(design: Design) -> Iterator[Check]:
    pen, topping = design.pen, design.opened.topping
    if topping is None:
        return
    rough = design.choices.joint in ("rough", "keyed")
    c_, mu_, k1_, k2_ = ROUGH if rough else PLAIN
    light = values.lightness(design).value < 1.0
    k2_ = LIGHT if rough and light else k2_
    which = "roughened to 0.25 in" if rough else "not roughened"
    c = Symbol("c", c_ * values.KSI, "stress", f"cohesion, surface {which}, 5.7.4.4")
    mu = Symbol("μ", mu_, "ratio", "friction, 5.7.4.4")
    k1 = Symbol("K1", k1_, "ratio", "5.7.4.4")
    k2 = Symbol("K2", k2_ * values.KSI, "stress", "5.7.4.4")
    fc = Symbol("f'c", min(topping, design.strength), "stress", "of the weaker concrete")
    for x in _places(design):
        cut = design.cut(x, True)
        demand = design.actions.at("ultimate", "shear", x, "Vu")
        if demand.working.value <= 0.0:
            continue
        thick = cut.h - design.beam.outline.depth
        pull = [(b.area * b.yield_strength, b.depth) for b in cut.tension_bars]
        pull += [(t.area * t.group.steel.yield_strength, t.depth) for t in cut.tension_tendons]
        if not pull:
            continue
        zt = sum(f * z for f, z in pull) / sum(f for f, _ in pull)
        de = Symbol("de", zt, "length", "depth of the steel in tension")
        ts = Symbol("ts", thick, "length", "depth of the slab")
        b = Symbol(
            "bvi", design.beam.outline.width(design.beam.outline.depth * (1 - 1e-6)), "length", "of the interface"
        )
        dv = pen(
            "dv", "from the steel in tension to the middle of the slab", "de − ts/2", (de, ts), "length", "5.7.4.5"
        )
        vui = pen("vui", "interface shear stress", "Vu/(bvi·dv)", (demand.working, b, dv), "stress", "(5.7.4.5-1)")
        has = cut.stirrups
        fy = Symbol("fy", min(has.yield_strength, 60.0 * values.KSI) if has else 0.0, "stress",
                    "of the stirrups, 60 ksi at most, 5.7.4.2")  # fmt: skip
        s = Symbol("s", has.spacing if has else 1.0, "length", "spacing of the stirrups")
        avf = Symbol("Avf", has.area if has else 0.0, "area", "of the legs across the interface")
        symbols = (c, mu, avf, fy, b, s, k1, fc, k2)
        vni = pen("vni", "nominal resistance", "min(c + μ·Avf·fy/(bvi·s), K1·f'c, K2)", symbols, "stress",
                  "(5.7.4.3-3) to (-5)")  # fmt: skip
        vri = pen("vri", "factored resistance", "φ·vni", (PHI, vni), "stress", "(5.7.4.3-1)")
        said = ("Vu is of all loads, those on the bare girder too.", "All legs of the stirrups reach into the slab.")
        head: tuple[Working, ...] = (demand.working, dv, vui)
        yield Check("interface of beam and slab", pen.cite("5.7.4"), vui, vri, (*head, vni, vri), said,
                    "interface-shear", x, demand.combination, "strength")  # fmt: skip
        if rough and vui.value / PHI.value < WAIVED:
            continue
        if has is None:
            need = pen(
                "Avf,min", "least stress of the steel across, Avf·fy/(bvi·s)", "0.05", (), "stress", "(5.7.4.2-1)"
            )
            none = given("Avf", "there is no steel across", 0.0, "stress", "ksi")
            yield Check("least steel across the interface", pen.cite("5.7.4.2"), need, none, (*head, need, none), said,
                        "interface-least", x, demand.combination, "strength")  # fmt: skip
            continue
        need = pen("Avf,min", "least steel across, or that for 1.33 Vui/φ",
                   "min(0.05·bvi·s/fy, max(0, 1.33·vui/φ − c)·bvi·s/(μ·fy))", (b, s, fy, vui, PHI, c, mu), "area",
                   "5.7.4.2")  # fmt: skip
        is_ = pen("Avf", "steel across", "Avf", (avf,), "area")
        yield Check("least steel across the interface", pen.cite("5.7.4.2"), need, is_, (*head, need, is_), said,
                    "interface-least", x, demand.combination, "strength")  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("interface", "interface of beam and slab", "5.7.4", "Shear stress between beam and slab against cohesion and "
          "friction; the least steel across.", interface),
)  # fmt: skip

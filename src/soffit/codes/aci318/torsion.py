"""Checks of torsion with shear by ACI 318-19 22.7, 9.6.4, 9.7.5, 9.7.6.3; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians

from soffit.codes.aci318 import values
from soffit.codes.aci318.bent import bent
from soffit.codes.aci318.prestressedshear import enough
from soffit.codes.aci318.stirrups import yield_of
from soffit.codes.aci318.twisted import Twisted, all_twisted
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.working import Check, Symbol, Unchecked, Working
from soffit.errors import PhysicsError


def torsion(design: Design) -> Found:
    """Tu against the threshold; above it the stirrups, the bars, the section and the spacing."""
    if not any(load.eccentricity for load in design.beam.loads):
        return
    found = all_twisted(design)
    if not found:
        return
    pen = design.pen
    above = [t for t in found if t.ratio > 1.0]
    if not above:
        t = max(found, key=lambda each: each.ratio)
        yield Check(
            "torsion, neglected",
            pen.cite("9.5.4.1"),
            t.tu,
            t.threshold,
            t.head,
            ("Below the threshold torsion is neglected.", *_said(design)),
            "torsion",
            t.shear.x,
            t.combination,
            "strength",
        )
        return
    for checks in (
        [_stirrups(design, t) for t in above],
        [_section(design, t) for t in above],
        [_least(design, t) for t in above if t.shear.stirrups is not None],
        [_spacing(design, t) for t in above if t.shear.stirrups is not None],
        _bars(design, above),
    ):
        most = worst(checks)
        if most is not None:
            yield most
    yield Unchecked(
        "bars of torsion along the perimeter",
        "they lie in every corner and at most 12 in (300 mm) apart round the stirrups; the file gives heights alone",
        pen.cite("9.7.5.1"),
        "torsion-perimeter",
    )


def _said(design: Design) -> tuple[str, ...]:
    flanged = design.beam.outline.shape not in ("rectangle", "circle", "box")
    said = ("The torque holds the loads in equilibrium and is not reduced to that of cracking (22.7.3).",)
    return (*said, "Flanges are left out.") if flanged else said


def _angle(design: Design, cut: Cut) -> Symbol:
    low = cut.prestressed and enough(design, cut)
    return Symbol(
        "θ", radians(37.5 if low else 45.0), "angle", f"of the struts, {'37.5' if low else '45'}°, 22.7.6.1.2"
    )


def _one(design: Design, t: Twisted) -> tuple[Working, Working | Symbol, Symbol, Working]:
    """Ao, fyt, θ and At/s that the torque wants."""
    pen, cut = design.pen, t.shear.cut
    ao = pen("Ao", "within the flow of shear", "0.85·Aoh", (t.tube.aoh,), "area", "22.7.6.1.1")
    theta = _angle(design, cut)
    fyt: Symbol | Working = (
        yield_of(design, t.shear.stirrups)
        if t.shear.stirrups
        else Symbol("fyt", 420.0, "stress", "of stirrups of Grade 60 (420), were there any")
    )
    need = pen(
        "At/s",
        "one leg that the torque wants",
        "Tu·tan(θ)/(φt·2·Ao·fyt)",
        (t.tu, theta, t.head[-2], ao, fyt),
        "length",
        "22.7.6.1(a)",
    )
    return ao, fyt, theta, need


def _stirrups(design: Design, t: Twisted) -> Check:
    pen, s = design.pen, t.shear
    ao, fyt, _, twist = _one(design, t)
    vs = pen(
        "Vs,req", "shear that the stirrups must bear", "max(0, Vu/φ − Vc)", (s.vu, s.phi, s.vc), "force", "22.5.8.1"
    )
    legs = Symbol("n", float(s.stirrups.legs if s.stirrups else 2), "count", "legs")
    push = pen(
        "Av/ns", "one leg that the shear wants", "Vs,req/(fyt·d·n)", (vs, fyt, s.made.d, legs), "length", "22.5.8.5.3"
    )
    need = pen(
        "(Av/n + At)/s", "one outer leg for both", f"{push.name} + {twist.name}", (push, twist), "length", "9.5.4.3"
    )
    if s.stirrups is None:
        has = pen("Aleg/s", "there are no stirrups", "0", (), "length")
    else:
        leg = Symbol("Aleg", s.stirrups.area / s.stirrups.legs, "area", "one leg")
        has = pen(
            "Aleg/s", "one leg there", "Aleg/s", (leg, Symbol("s", s.stirrups.spacing, "length", "spacing")), "length"
        )
    fy = (fyt,) if isinstance(fyt, Working) else ()
    head = s.workings[: s.workings.index(s.phi) + 1]
    return Check(
        "torsion with shear, stirrups",
        pen.cite("22.7.6.1, 9.5.4.3"),
        need,
        has,
        tuple(dict.fromkeys((*t.head, *head, ao, *fy, twist, vs, push, need, has))),
        ("Stirrups are taken as closed; the outer two legs bear the torque.", *_said(design)),
        "torsion",
        s.x,
        t.combination,
        "strength",
    )


def _section(design: Design, t: Twisted) -> Check:
    pen, e, s, tu = design.pen, values.of(design), t.shear, t.tube
    m = s.made
    if tu.wall is None:
        need = pen(
            "vu",
            "shear stress of both, solid section",
            "√((Vu/(bw·d))^2 + (Tu·ph/(1.7·Aoh^2))^2)",
            (s.vu, m.bw, m.d, t.tu, tu.ph, tu.aoh),
            "stress",
            "22.7.7.1(a)",
        )
    elif tu.wall.value < tu.aoh.value / tu.ph.value:
        need = pen(
            "vu",
            "shear stress of both, hollow section with t < Aoh/ph",
            "Vu/(bw·d) + Tu/(1.7·Aoh·t)",
            (s.vu, m.bw, m.d, t.tu, tu.aoh, tu.wall),
            "stress",
            "22.7.7.1(b), 22.7.7.2",
        )
    else:
        need = pen(
            "vu",
            "shear stress of both, hollow section",
            "Vu/(bw·d) + Tu·ph/(1.7·Aoh^2)",
            (s.vu, m.bw, m.d, t.tu, tu.ph, tu.aoh),
            "stress",
            "22.7.7.1(b)",
        )
    text = e.pick(f"φt·(Vc/(bw·d) + 8·√({m.fc.name}))", f"φt·(Vc/(bw·d) + 0.66·√({m.fc.name}))")
    has = pen("φvmax", "that the section may bear", text, (t.head[-2], s.vc, m.bw, m.d, m.fc), "stress", "22.7.7.1")
    head = s.workings[: s.workings.index(s.phi)]
    return Check(
        "torsion with shear, size of the section",
        pen.cite("22.7.7.1"),
        need,
        has,
        tuple(dict.fromkeys((*t.head, *head, need, has))),
        _said(design),
        "torsion-section",
        s.x,
        t.combination,
        "strength",
    )


def _least(design: Design, t: Twisted) -> Check:
    pen, e, s = design.pen, values.of(design), t.shear
    assert s.stirrups is not None
    fyt = yield_of(design, s.stirrups)
    text = e.pick("max(0.75·√(f'c), 50)·bw/fyt", "max(0.062·√(f'c), 0.35)·bw/fyt")
    need = pen(
        "(Av + 2At)min/s", "least stirrups with torsion", text, (values.fc(design), s.made.bw, fyt), "length", "9.6.4.2"
    )
    has = pen(
        "(Av + 2At)/s",
        "all legs there",
        "Av/s",
        (Symbol("Av", s.stirrups.area, "area", "of all legs"), Symbol("s", s.stirrups.spacing, "length", "spacing")),
        "length",
    )
    fy = (fyt,) if isinstance(fyt, Working) else ()
    return Check(
        "least stirrups with torsion",
        pen.cite("9.6.4.2"),
        need,
        has,
        (*t.head, *fy, need, has),
        (),
        "torsion-minimum",
        s.x,
        t.combination,
        "strength",
    )


def _spacing(design: Design, t: Twisted) -> Check:
    pen, e, s = design.pen, values.of(design), t.shear
    assert s.stirrups is not None
    most = pen(
        "smax",
        "greatest spacing with torsion",
        e.pick("min(ph/8, 12)", "min(ph/8, 300)"),
        (t.tube.ph,),
        "length",
        "9.7.6.3.3",
    )
    is_ = pen(
        "s",
        "spacing of the stirrups",
        "s",
        (Symbol("s", s.stirrups.spacing, "length", "spacing of the stirrups"),),
        "length",
    )
    return Check(
        "spacing of stirrups with torsion",
        pen.cite("9.7.6.3.3"),
        is_,
        most,
        (*t.head, is_, most),
        (),
        "torsion-spacing",
        s.x,
        t.combination,
        "detailing",
    )


def _bars(design: Design, above: list[Twisted]) -> Iterator[Check]:
    """Bars of torsion beside those of bending, 22.7.6.1 (b), 9.6.4.3, 9.7.5."""
    pen, e = design.pen, values.of(design)
    for t in above:
        s, cut = t.shear, t.shear.cut
        bars = cut.bars
        fy = Symbol(
            "fy",
            min((min(b.yield_strength, 420.0) for b in bars), default=420.0),
            "stress",
            "of the bars, 60 ksi (420 MPa) at most, Table 20.2.2.4(a)",
        )
        ao, fyt, theta, twist = _one(design, t)
        along = pen(
            "Aℓ",
            "bars that the torque wants",
            "Tu·ph/(φt·2·Ao·fy·tan(θ))",
            (t.tu, t.tube.ph, t.head[-2], ao, fy, theta),
            "area",
            "22.7.6.1(b)",
        )
        text = e.pick(
            "max(0, 5·√(f'c)·Acp/fy − max(At/s, 25·bw/fyt)·ph·fyt/fy)",
            "max(0, 0.42·√(f'c)·Acp/fy − max(At/s, 0.175·bw/fyt)·ph·fyt/fy)",
        )
        least = pen(
            "Aℓ,min",
            "least bars, the lesser of both",
            text,
            (values.fc(design), t.tube.acp, fy, twist, s.made.bw, fyt, t.tube.ph),
            "area",
            "9.6.4.3",
        )
        asked, more = _bending(design, s.x, cut)
        need = pen(
            "Aℓ,tot", "with the bars of bending", "max(Aℓ, Aℓ,min) + As,req", (along, least, asked), "area", "9.5.4.3"
        )
        has = pen(
            "As,tot",
            "all bars there",
            "As,tot",
            (Symbol("As,tot", sum(b.area for b in bars), "area", "of all bars"),),
            "area",
        )
        shown = (fyt,) if isinstance(fyt, Working) else ()
        yield Check(
            "torsion with bending, bars",
            pen.cite("22.7.6.1, 9.6.4.3"),
            need,
            has,
            (*t.head, ao, *shown, twist, along, least, *more, asked, need, has),
            ("Tendons are not counted for torsion.",),
            "torsion-bars",
            s.x,
            t.combination,
            "strength",
        )


def _bending(design: Design, x: float, cut: Cut) -> tuple[Working, tuple[Working, ...]]:
    """Tension bars that bending wants at a place, in proportion to its use."""
    pen = design.pen
    try:
        made = bent(design, x, cut.sagging)
    except PhysicsError:
        return pen("As,req", "bending wants none", "0", (), "area"), ()
    steel = Symbol("As", cut.As, "area", "bars in the tension half")
    need = (
        pen(
            "As,req",
            "bars that bending wants, in proportion",
            "As·min(1, Mu/φMn)",
            (steel, made.demand, made.strength),
            "area",
        )
        if made.strength.value > 0.0
        else pen("As,req", "all bars are wanted", "As", (steel,), "area")
    )
    return need, (made.demand, made.strength)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "torsion",
        "torsion",
        "22.7, 9.6.4, 9.7.6.3",
        "Tu against the threshold; above it stirrups with shear, bars with bending, the section, spacing.",
        torsion,
    ),
)

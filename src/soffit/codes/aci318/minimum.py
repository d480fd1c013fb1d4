"""The least bending steel by ACI 318-19 9.6.1, 9.6.2 and skin steel 9.7.2.3; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Literal

from soffit.codes.aci318 import gross, values
from soffit.codes.aci318.bent import Bent, Rough, bent_at, hard_places, roughly
from soffit.codes.aci318.flexure import refused
from soffit.codes.aci318.sheared import all_sheared
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.working import Check, Symbol, Working
from soffit.materials.standards import PSI
from soffit.member.layout import cover

TRIED = 3
DEEP = {"inch-pound": 36.0 * 25.4, "SI": 900.0}
"""h above which there is skin steel, mm."""


def minimum(design: Design) -> Found:
    """As ≥ As,min; φMn ≥ 1.2 Mcr with bonded tendons; bars beside unbonded ones; the worst place of each."""
    if refused(design) is not None:
        return
    for sagging in (True, False):
        found = [
            b
            for b in bent_at(design, _places(design, sagging), sagging)[0]
            if b.cut.tension_bars or b.cut.tension_tendons
        ]
        kinds = (
            [_steel(design, b) for b in found if not b.cut.prestressed],
            [_cracking(design, b) for b in found if any(t.bonded and t.full > 0.0 for t in b.cut.tension_tendons)],
            [_beside(design, b) for b in found if b.cut.prestressed and not any(t.bonded for t in b.cut.tendons)],
        )
        for checks in kinds:
            most = worst(checks)
            if most is not None:
                yield most
        yield from _skin(design, found, sagging)


def _places(design: Design, sagging: bool) -> tuple[float, ...]:
    """Where the least steel may be hardest to keep: the least strength for what is asked of it."""
    section, rough = gross.bare(design), roughly(design, sagging)
    side = 1.0 if sagging else -1.0
    yt = section.centroid if sagging else section.depth - section.centroid
    modulus = section.inertia / yt
    both = gross.whole(design)
    composite = both.inertia / (both.centroid if sagging else both.depth - both.centroid)

    def use(r: Rough) -> float:
        cut = design.cut(r.x, sagging)
        if r.strength <= 0.0:
            return 0.0
        if not cut.prestressed:
            # as much steel everywhere, or a third more than required
            return min(modulus / r.strength, 4.0 / 3.0 * r.use)
        first = sum(t.force * side * (section.centroid - _height(cut, t.depth)) for t in cut.tendons)
        face = cut.P / section.area + first / modulus
        load = gross.early(design, r.x) * side
        cracking = composite * (0.62 * design.strength**0.5 + face - load / modulus) + load
        return 1.2 * cracking / r.strength

    def waived(r: Rough) -> float:
        cracked = use(r)
        return cracked if cracked <= 1.0 else min(cracked, 2.0 * r.use)

    hard = [*sorted(rough, key=waived, reverse=True)[:TRIED], *sorted(rough, key=use, reverse=True)[:1]]
    return tuple(dict.fromkeys([*(r.x for r in hard), *hard_places(design, sagging)[:1]]))


def _height(cut: Cut, depth: float) -> float:
    return cut.h - depth if cut.sagging else depth


def _sign(bent: Bent) -> Literal["sagging", "hogging"]:
    return "sagging" if bent.cut.sagging else "hogging"


def _determinate(design: Design) -> bool:
    held = design.beam.supports
    return len(held.x) + held.fixed_left + held.fixed_right <= 2


def _steel(design: Design, bent: Bent) -> Check:
    """9.6.1.2, or a third more than required, 9.6.1.3."""
    pen, e, cut = design.pen, values.of(design), bent.cut
    bars = cut.tension_bars
    bw = Symbol("bw", cut.bw, "length", "width of the web")
    said: list[str] = []
    wide = cut.tension_flange
    if wide[1] > 0.0 and _determinate(design):
        bw = Symbol("bw", min(wide[0], 2.0 * cut.bw), "length", "the lesser of the flange in tension and twice the web")
        said.append("Statically determinate with a flange in tension: bw is the lesser of bf and 2 bw (9.6.1.2).")
    d = Symbol("d", cut.d, "length", "effective depth")
    limit = 80e3 * PSI if e.key == "inch-pound" else 550.0
    fy = Symbol(
        "fy", min(min(b.yield_strength for b in bars), limit), "stress", "of the bars, 80 ksi (550 MPa) at most"
    )
    text = e.pick("max(3·√(f'c), 200)·bw·d/fy", "max(0.25·√(f'c), 1.4)·bw·d/fy")
    least = pen("As,min", "least tension steel", text, (values.fc(design), bw, d, fy), "area", "9.6.1.2")
    has = pen("As", "tension steel there", "As", (Symbol("As", cut.As, "area", "bars in the tension half"),), "area")
    asked = pen(
        "As,req",
        "that the moment wants, in proportion: no less than the exact area",
        "As·Mu/φMn",
        (has, bent.demand, bent.strength),
        "area",
    )
    need = pen(
        "As,need",
        "the lesser of the least steel and a third more than required",
        "min(As,min, 4/3·As,req)",
        (least, asked),
        "area",
        "9.6.1.2, 9.6.1.3",
    )
    return Check(
        f"least steel, {_sign(bent)}",
        pen.cite("9.6.1"),
        need,
        has,
        (*bent.workings, least, has, asked, need),
        tuple(said),
        f"minimum-{_sign(bent)}",
        cut.x,
        bent.combination,
        "strength",
    )


def cracking_moment(design: Design, bent: Bent) -> tuple[Working, ...]:
    """Mcr from fr and the prestress, with what the bare beam carries before its topping; the last is Mcr."""
    pen, e, cut = design.pen, values.of(design), bent.cut
    bare, whole = gross.bare(design), gross.whole(design)
    side = 1.0 if cut.sagging else -1.0
    lam = values.lightness(design)
    fr = pen(
        "fr",
        "modulus of rupture",
        e.pick("7.5·λ·√(f'c)", "0.62·λ·√(f'c)"),
        (lam, values.fc(design)),
        "stress",
        "19.2.3.1",
    )
    pulls = [(t.force, cut.h - t.depth if cut.sagging else t.depth) for t in cut.tendons]
    force = Symbol("Pe", sum(f for f, _ in pulls), "force", "effective prestress at the cut")
    lever = Symbol(
        "Mp",
        sum(f * (bare.centroid - y) * side for f, y in pulls),
        "moment",
        "of it about the beam's centroid, compressing the tension face",
    )
    area = Symbol("Ag", bare.area, "area", "of the beam")
    ig = Symbol("Ig", bare.inertia, "inertia", "of the beam")
    yt = Symbol("yt", bare.centroid if cut.sagging else bare.depth - bare.centroid, "length", "to its tension face")
    fpe = pen(
        "fpe",
        "compression of the tension face by prestress",
        "Pe/Ag + Mp·yt/Ig",
        (force, area, lever, yt, ig),
        "stress",
    )
    if design.cast is None:
        return fr, fpe, pen("Mcr", "cracking moment", "Ig/yt·(fr + fpe)", (ig, yt, fr, fpe), "moment", "9.6.2.1")
    ic = Symbol("Ic", whole.inertia, "inertia", "of the whole section (one modulus)")
    yc = Symbol("yc", whole.centroid if cut.sagging else whole.depth - whole.centroid, "length", "to its tension face")
    early = gross.early(design, cut.x) * side
    mb = Symbol("Mdb", early, "moment", "of what acts on the beam before its topping has hardened")
    mcr = pen(
        "Mcr",
        "cracking moment",
        "Ic/yc·(fr + fpe − Mdb·yt/Ig) + Mdb",
        (ic, yc, fr, fpe, mb, yt, ig),
        "moment",
        "9.6.2.1",
    )
    return fr, fpe, mcr


def _cracking(design: Design, bent: Bent) -> Check:
    """9.6.2.1, unless bending and shear are twice as strong as required, 9.6.2.2."""
    pen, cut = design.pen, bent.cut
    *more, mcr = cracking_moment(design, bent)
    need = pen("1.2Mcr", "load of 1.2 times that which cracks it", "1.2·Mcr", (mcr,), "moment", "9.6.2.1")
    said: tuple[str, ...] = ()
    workings = (*bent.workings, *more, mcr, need)
    if need.value > bent.strength.value and max((s.ratio for s in all_sheared(design)), default=1.0) <= 0.5:
        need = pen(
            "Mneed",
            "the lesser of 1.2 Mcr and twice the required strength",
            "min(1.2Mcr, 2·Mu)",
            (need, bent.demand),
            "moment",
            "9.6.2.2",
        )
        workings = (*workings, need)
        said = ("φVn is at least twice Vu along the beam, so that twice Mu is enough (9.6.2.2).",)
    return Check(
        f"strength beyond cracking, {_sign(bent)}",
        pen.cite("9.6.2.1"),
        need,
        bent.strength,
        workings,
        said,
        f"minimum-cracking-{_sign(bent)}",
        cut.x,
        bent.combination,
        "strength",
    )


def _beside(design: Design, bent: Bent) -> Check:
    """Bonded bars beside unbonded tendons, 9.6.2.3."""
    pen, cut = design.pen, bent.cut
    act = cut.outline.area - cut.zone(cut.centroid)[0]
    area = Symbol("Act", act, "area", "concrete between the tension face and the centroid")
    need = pen("As,min", "least bonded steel beside unbonded tendons", "0.004·Act", (area,), "area", "9.6.2.3")
    has = pen("As", "bars in the tension half", "As", (Symbol("As", cut.As, "area", "of deformed bars"),), "area")
    return Check(
        f"bars beside unbonded tendons, {_sign(bent)}",
        pen.cite("9.6.2.3"),
        need,
        has,
        (need, has),
        (),
        f"minimum-unbonded-{_sign(bent)}",
        cut.x,
        bent.combination,
        "detailing",
    )


def _class_c(design: Design, bent: Bent) -> bool:
    """Whether service loads pull the tension face beyond Class T, 24.5.2.1: 12 √f'c (1.0 √f'c)."""
    cut, pen, e = bent.cut, design.pen, values.of(design)
    bare, whole = gross.bare(design), gross.whole(design)
    served = design.actions.at("characteristic", _sign(bent), cut.x, "M").working.value
    fpe = cracking_moment(design, bent)[1].value
    early = gross.early(design, cut.x) * (1.0 if cut.sagging else -1.0)
    yt = bare.centroid if cut.sagging else bare.depth - bare.centroid
    yc = whole.centroid if cut.sagging else whole.depth - whole.centroid
    pull = early * yt / bare.inertia + (served - early) * yc / whole.inertia - fpe
    most = pen("ft", "Class T", e.pick("12·√(f'c)", "1.0·√(f'c)"), (values.fc(design),), "stress", "24.5.2.1")
    return pull > most.value


def _skin(design: Design, found: list[Bent], sagging: bool) -> Iterator[Check]:
    """9.7.2.3: bars along the sides of the tension half of deep beams without prestress or of Class C, as 24.3.2."""
    pen, e = design.pen, values.of(design)
    places = [b for b in found if b.cut.h > DEEP[e.key] + 1e-6]
    if not places:
        return
    bent = max(places, key=lambda b: b.ratio)
    cut = bent.cut
    if cut.prestressed and not _class_c(design, bent):
        return
    layers = sorted({round(b.depth, 1) for b in cut.bars} | {round(t.depth, 1) for t in cut.tendons if t.bonded})
    low = [z for z in layers if z >= 0.5 * cut.h]
    steps = [0.5 * cut.h, *low]
    above = [z for z in layers if z < 0.5 * cut.h]
    if above:  # a layer above mid-depth bounds the topmost gap
        steps[0] = max(above)
    gap = max((b - a for a, b in pairwise(steps)), default=0.5 * cut.h)
    side = min((cover(design.beam, b.group).side for b in cut.tension_bars), default=40.0)
    fy = min((b.yield_strength for b in cut.tension_bars), default=420.0)
    cc = Symbol("cc", side, "length", "clear cover of the skin bars at the side, taken as that of the tension bars")
    fs = pen(
        "fs",
        "stress of the bars in service",
        "2/3·fy",
        (Symbol("fy", fy, "stress", "of the bars"),),
        "stress",
        "24.3.2.1",
    )
    text = e.pick("min(15·40000/fs − 2.5·cc, 12·40000/fs)", "min(380·280/fs − 2.5·cc, 300·280/fs)")
    most = pen("smax", "greatest distance of bars along the side", text, (fs, cc), "length", "9.7.2.3, Table 24.3.2")
    is_ = pen(
        "s",
        "greatest distance of layers in the tension half",
        "s",
        (Symbol("s", gap, "length", "from the layers of the file"),),
        "length",
    )
    sign = bending(sagging)
    yield Check(
        f"skin steel, {sign}",
        pen.cite("9.7.2.3"),
        is_,
        most,
        (fs, most, is_),
        ("Every layer of bars and bonded tendons is taken to have a bar at both sides.",),
        f"minimum-skin-{sign}",
        cut.x,
        bent.combination,
        "detailing",
    )


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "minimum",
        "least bending steel",
        "9.6.1, 9.6.2, 9.7.2.3",
        "As,min of bars; strength beyond 1.2 Mcr with bonded tendons; bars beside unbonded tendons; skin steel.",
        minimum,
    ),
)

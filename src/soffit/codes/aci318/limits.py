"""Stresses of prestressed beams at transfer and in service, ACI 318-19 24.5; of tendons, 20.3.2.5; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.aci318 import gross, inservice, values
from soffit.codes.actions import State
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.en1992.service import elastic_line, gross_stress
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.member.loading import self_weight

SAID = "The section is gross and uncracked (24.5.2.2)."
ENDS = "Ends of simply supported beams reach as far as the transfer length, or half the depth from an anchor."


def classes(design: Design) -> Found:
    """24.5.2.1: for information, because a beam may be of any class; limits and deflection go by it."""
    if not inservice.prestressed(design):
        return
    u, t = inservice.class_limits(design)
    for sagging in (True, False):
        found, kind = inservice.worst_tension(design, sagging), inservice.class_of(design, sagging)
        if found is None or kind is None or (found.stress.value <= 0.0 and not sagging):
            continue
        sign = bending(sagging)
        most = {"U": u, "T": t, "C": t}[kind]
        text = {"U": "uncracked", "T": "between uncracked and cracked", "C": "cracked"}[kind]
        yield Check(
            f"class {kind}, {sign}", design.pen.cite("24.5.2.1"), found.stress, most, (*found.workings, u, t),
            (f"Class {kind}: {text}.", SAID), f"class-{sign}", found.cut.x, found.combination, "information",
        )  # fmt: skip


def concrete(design: Design) -> Found:
    """24.5.3 at transfer; 24.5.4 in service, of classes U and T alone."""
    if not inservice.prestressed(design):
        return
    yield from _transfer(design)
    for sagging in (True, False):
        if inservice.class_of(design, sagging) == "C":
            sign = bending(sagging)
            yield Unchecked(
                f"compression in service, {sign}",
                "the beam is of class C there, which has no limit of stress: cracks and deflection are checked instead",
                design.pen.cite("24.5.4.1"), "stress", scope=True,
            )  # fmt: skip
            continue
        yield from _pressed(design, sagging)


def _pressed(design: Design, sagging: bool) -> Iterator[Check]:
    pen, sign = design.pen, bending(sagging)
    fc = values.fc(design)
    sustained = pen("fc,lim", "greatest compression, prestress and sustained load", "0.45·f'c", (fc,), "stress",
                    "Table 24.5.4.1")  # fmt: skip
    total = pen("fc,lim", "greatest compression, prestress and total load", "0.60·f'c", (fc,), "stress",
                "Table 24.5.4.1")  # fmt: skip
    both: tuple[tuple[State, str, Working], ...] = (
        ("quasi-permanent", "sustained", sustained),
        ("characteristic", "total", total),
    )
    for state, name, limit in both:
        checks = []
        for x in inservice.ranked(design, state, sagging, True):
            cut = design.cut(x, sagging)
            m = design.actions.at(state, bending(sagging), x, "M")
            if m.working.value <= 0.0:
                continue
            z = inservice.faces(design, cut)[0]
            found = gross_stress(design, cut, m.working, z, m.axial, None, where="compressed face of the beam")
            is_ = pen("fc", "compression of that face", "max(0, −σc)", (found.stress,), "stress")
            checks.append(Check(
                f"compression of the concrete, {name} load, {sign}", pen.cite("24.5.4.1"), is_, limit,
                (m.working, *found.workings, is_, limit), (SAID,), f"stress-{name}-{sign}", x, m.combination,
                "service",
            ))  # fmt: skip
        most = worst(checks)
        if most is not None:
            yield most


def _at_end(design: Design, x: float) -> bool:
    """Whether a place lies at an end of a simply supported beam (*ours*)."""
    beam = design.beam
    if len(beam.supports.x) != 2 or beam.supports.fixed_left or beam.supports.fixed_right:
        return False
    for i, t in enumerate(beam.tendons):
        reach = design.prestress.reach(i) or 0.5 * beam.outline.depth
        if min(x - t.x_from, t.x_to - x) <= reach + 1e-6:
            return True
    return False


def _transfer(design: Design) -> Found:
    """24.5.3: both faces under prestress just after transfer and the own weight of the beam on its supports."""
    pen = design.pen
    if design.opened.transfer is None:
        yield Unchecked("stress at transfer", "the file gives no strength_at_transfer", pen.cite("24.5.3.1"), "stress")
        return
    bare = gross.bare(design)
    loads = [self_weight(design.beam)] if design.beam.self_weight else []
    moments = np.interp(design.places, design.actions.x, elastic_line(design).respond(loads).moment)
    if design.prestress.early_moments is not None:
        early = design.prestress.early_moments
        moments = moments + np.interp(design.places, early.x, early.secondary)
    worst_of: dict[tuple[bool, bool, bool], tuple[float, float, float]] = {}
    for x, m in zip(design.places, moments.tolist(), strict=True):
        cut = design.cut(x, True)
        z0, end = cut.depth_of(bare.centroid), _at_end(design, x)
        push = sum(t.at_transfer * t.area for t in cut.tendons)
        bend = m - sum(t.at_transfer * t.area * (t.depth - z0) for t in cut.tendons)
        for top in (True, False):
            z = cut.h - bare.depth if top else cut.h
            stress = -push / bare.area + bend * (z - z0) / bare.inertia
            for squeeze in (True, False):
                size, key = (-stress if squeeze else stress), (top, squeeze, end)
                if size > worst_of.get(key, (0.0, 0.0, 0.0))[0]:
                    worst_of[key] = (size, x, m)
    checks: dict[bool, list[Check]] = {True: [], False: []}
    for (top, squeeze, end), (_, x, m) in worst_of.items():
        checks[squeeze].append(_early(design, x, m, top, squeeze, end))
    for some in checks.values():
        most = worst(some)
        if most is not None:
            yield most


def _early(design: Design, x: float, m: float, top: bool, squeeze: bool, end: bool) -> Check:
    pen, e, cut = design.pen, values.of(design), design.cut(x, True)
    fci = Symbol("f'ci", design.opened.transfer or 0.0, "stress", "strength of the concrete at transfer")
    own = given("M", "of the beam's own weight on its supports, with what prestress adds there", m, "moment",
                pen.system)  # fmt: skip
    where = "top of the beam" if top else "soffit"
    z = cut.h - gross.bare(design).depth if top else cut.h
    found = gross_stress(design, cut, own, z, 0.0, None, early=True, where=where)
    place = "at the end of a simply supported beam" if end else "elsewhere"
    kind = "compression" if squeeze else "tension"
    head = (own, *found.workings)
    said = (SAID, ENDS)
    if squeeze:
        is_ = pen("fc", f"compression of the {where}", "max(0, −σc)", (found.stress,), "stress")
        limit = pen("fc,lim", f"greatest compression, {place}", "0.70·f'ci" if end else "0.60·f'ci", (fci,), "stress",
                    "Table 24.5.3.1")  # fmt: skip
    else:
        is_ = pen("ft", f"tension of the {where}", "max(0, σc)", (found.stress,), "stress")
        text = e.pick("6·√(f'ci)", "0.50·√(f'ci)") if end else e.pick("3·√(f'ci)", "0.25·√(f'ci)")
        limit = pen("ft,lim", f"greatest tension, {place}", text, (fci,), "stress", "Table 24.5.3.2")
        if is_.value > limit.value and _bars(cut, top):
            return _held(design, cut, top, m, is_, limit, head)
    return Check(
        f"{kind} at transfer", pen.cite("24.5.3.1" if squeeze else "24.5.3.2"), is_, limit, (*head, is_, limit), said,
        f"stress-transfer-{kind}", x, "own weight and prestress at transfer", "service",
    )  # fmt: skip


def _bars(cut: Cut, top: bool) -> list[tuple[float, float]]:
    """Area and yield strength of the beam's bars in the half of a face."""
    middle = 0.5 * cut.beam.outline.depth
    return [
        (b.area, b.yield_strength) for b in cut.bars if (b.group.y > middle) == top and b.group.part == "beam"
    ]  # fmt: skip


def _held(
    design: Design, cut: Cut, top: bool, m: float, ft: Working, limit: Working, head: tuple[Working, ...]
) -> Check:
    """24.5.3.2.1: bonded bars bear the whole tension of the concrete, at 0.6 fy, 30 ksi (210 MPa) at most (that stress
    is of the commentary)."""
    pen, e = design.pen, values.of(design)
    own = given("M", "of the beam's own weight on its supports", m, "moment", pen.system)
    deep = gross.bare(design).depth
    z = cut.h if top else cut.h - deep
    other = gross_stress(design, cut, own, z, 0.0, None, early=True, name="σo", where="opposite face").stress
    outline = design.beam.outline
    h = Symbol("h", deep, "length", "depth of the beam")
    x = pen("x", "depth of the concrete in tension", "h·ft/(ft + max(0, −σo))", (h, ft, other), "length")
    inside = np.linspace(0.0, min(x.value, deep), 21)
    widest = max(outline.width(float(deep - y if top else y)) for y in np.clip(inside, 1e-3, deep - 1e-3))
    b = Symbol("b", widest, "length", "greatest width of the concrete in tension, taken for all of it")
    pull = pen("N", "tension of the concrete", "0.5·ft·b·x", (ft, b, x), "force", "24.5.3.2.1")
    area, fy = sum(a for a, _ in _bars(cut, top)), min(f for _, f in _bars(cut, top))
    low = Symbol("fy", fy, "stress", "least yield strength of the bars there")
    stress = pen("fs", "stress that they may have", e.pick("min(0.6·fy, 30000)", "min(0.6·fy, 210)"), (low,), "stress",
                 "R24.5.3.2")  # fmt: skip
    need = pen("As,t", "bars that bear the tension", "N/fs", (pull, stress), "area", "24.5.3.2.1")
    have = given("As", "bonded bars in the half in tension", area, "area", pen.system)
    return Check(
        "bars for the tension at transfer", pen.cite("24.5.3.2.1"), need, have,
        (*head, ft, limit, other, x, pull, stress, need, have),
        (SAID, "The tension goes beyond what concrete may bear alone."), "stress-transfer-tension", cut.x,
        "own weight and prestress at transfer", "service",
    )  # fmt: skip


def tendons(design: Design) -> Found:
    """Table 20.3.2.5.1: at the jack, and of post-tensioned tendons at their anchors after lock-off. A limit after
    transfer (0.74 fpu of older editions) is none of this one."""
    for kind in (_jacked, _locked):
        most = worst(kind(design))
        if most is not None:
            yield most


def _strengths(design: Design, i: int) -> tuple[Symbol, Symbol, str]:
    t = design.beam.tendons[i]
    name = t.label or f"tendon {t.name or i + 1}"
    return (
        Symbol("fpy", t.steel.yield_strength, "stress", f"yield strength of {name}"),
        Symbol("fpu", t.steel.tensile, "stress", f"tensile strength of {name}"),
        name,
    )


def _jacked(design: Design) -> Iterator[Check]:
    pen = design.pen
    for i, t in enumerate(design.beam.tendons):
        if t.steel.kind == "linear" or t.stress <= 0.0 or t.stress_is != "at the jack":
            continue
        fpy, fpu, name = _strengths(design, i)
        is_ = given("fpj", f"stress of {name} at the jack", t.stress, "stress", pen.system)
        limit = pen("fpj,lim", "greatest stress at the jack", "min(0.94·fpy, 0.80·fpu)", (fpy, fpu), "stress",
                    "Table 20.3.2.5.1")  # fmt: skip
        yield Check("stress of tendons at the jack", pen.cite("20.3.2.5.1"), is_, limit, (is_, limit),
                    ("A lower limit of the supplier governs; the file gives none.",), "stress-tendons-jack", None, "",
                    "service")  # fmt: skip


def _locked(design: Design) -> Iterator[Check]:
    pen = design.pen
    for i, t in enumerate(design.beam.tendons):
        if t.steel.kind == "linear" or t.stress <= 0.0 or t.when != "after curing":
            continue
        _, fpu, name = _strengths(design, i)
        ends = {x: design.prestress.stress(i, x, early=True) for x in (t.x_from, t.x_to)}
        x, most = max(ends.items(), key=lambda p: p[1])
        is_ = given("fpt", f"stress of {name} at an anchor after lock-off", most, "stress", pen.system)
        limit = pen("fpt,lim", "greatest stress there", "0.70·fpu", (fpu,), "stress", "Table 20.3.2.5.1")
        yield Check("stress of tendons at anchors", pen.cite("20.3.2.5.1"), is_, limit, (is_, limit), (),
                    "stress-tendons-anchor", x, "", "service")  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("class", "class of prestressed beams", "24.5.2.1",
          "Greatest tension in service against the limits of classes U and T.", classes),
    Entry("stress", "stress of the concrete of prestressed beams", "24.5.3, 24.5.4",
          "Compression and tension at transfer; compression under sustained and total load, classes U and T.",
          concrete),
    Entry("stress-tendons", "stress of tendons", "20.3.2.5",
          "Tendons at the jack, and at anchors after lock-off.", tendons),
)  # fmt: skip

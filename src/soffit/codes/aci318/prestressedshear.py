"""The shear strength of prestressed concrete by ACI 318-19 22.5.6, 22.5.7; *from memory*."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.codes.aci318 import gross, values
from soffit.codes.aci318.concreteshear import Shape, text_of
from soffit.codes.cut import Cut, TendonsAt
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working
from soffit.materials.curve import Array

STRANDS, WIRES = 50.0, 100.0
"""Transfer length in diameters, 22.5.7.2 as 21.2.3 has it for shear."""
SHARE = 0.4
"""Of the tensile strength of all steel that the effective prestress must reach, Table 22.5.6.2."""


def built_up(t: TendonsAt) -> float:
    """Effective stress at the cut with the transfer length of shear, MPa."""
    if t.group.when != "before casting" or not t.bonded:
        return t.stress
    reach = (WIRES if t.group.wire else STRANDS) * t.group.diameter
    return t.full * min(max(min(t.left, t.right), 0.0) / reach, 1.0)


def enough(design: Design, cut: Cut) -> bool:
    """Aps fse ≥ 0.4 (Aps fpu + As fy) of the steel in tension."""
    effective = sum(t.area * built_up(t) for t in cut.tension_tendons)
    whole = sum(t.area * t.group.steel.tensile for t in cut.tension_tendons)
    whole += sum(b.area * b.yield_strength for b in cut.tension_bars)
    return effective > 0.0 and effective >= SHARE * whole


@dataclass(frozen=True)
class Under:
    """The loads of a place, as 22.5.6 asks for them; all signed."""

    shear: float
    moment: float
    """With the worst shear."""
    most: float
    along: float
    """Moment and shear of the combination with the greatest moment."""
    dead_shear: float
    dead_moment: float
    bare_moment: float
    """Of what acts on the beam before its topping has hardened."""


def dead(design: Design) -> tuple[Array, Array, Array]:
    """Moments of permanent loads at the stations, their shears midway between, and those middles."""

    def make() -> tuple[Array, Array, Array]:
        x, m = design.actions.x, design.actions.permanent()
        return m, np.diff(m) / np.diff(x), 0.5 * (x[1:] + x[:-1])

    return design.kept("aci-dead", make)


def prestressed(design: Design, cut: Cut, made: Shape, loads: Under) -> tuple[Working, ...]:
    """Vc of 22.5.6: the detailed method, and the approximate one where it may be used; the last is the greater."""
    pen, e = design.pen, values.of(design)
    fc, lam, bw, d = made.fc, made.lam, made.bw, made.d
    found: list[Working] = [*made.shown]
    test = enough(design, cut)
    ways: list[Working] = []
    detailed = _detailed(design, cut, made, loads, test)
    found += detailed
    ways.append(detailed[-1])
    if test and abs(loads.moment) > 0.0:
        dp = Symbol("dp", cut.dp, "length", "depth of the tendons in tension")
        vu = Symbol("Vu", abs(loads.shear), "force", "factored shear")
        mu = Symbol("Mu", abs(loads.moment), "moment", "that goes with Vu")
        text = e.pick(
            "max(2·λ·√(f'c)·bw·d, min((0.6·λ·√(f'c) + 700·min(1, Vu·dp/Mu))·bw·d, 5·λ·√(f'c)·bw·d))",
            "max(0.17·λ·√(f'c)·bw·d, min((0.05·λ·√(f'c) + 4.8·min(1, Vu·dp/Mu))·bw·d, 0.42·λ·√(f'c)·bw·d))",
        )
        approx = pen(
            "Vc,app",
            "approximate method, Aps·fse ≥ 0.4·(Aps·fpu + As·fy)",
            text_of(made, text),
            (lam, fc, vu, dp, mu, bw, d),
            "force",
            "Table 22.5.6.2",
        )
        found.append(approx)
        ways.append(approx)
    names = ", ".join(w.name for w in ways)
    text = f"max({names})" if len(ways) > 1 else names
    found.append(pen("Vc", "strength of the concrete, either method", text, tuple(ways), "force", "22.5.6.1"))
    return tuple(found)


@dataclass(frozen=True)
class _Before:
    """A cut under prestress and dead loads without factors, before the other loads come."""

    fpe: Working
    fd: Working
    fpc: Working
    modulus: str
    """Formula of the section modulus of the tension face that the other loads act on."""
    of_it: tuple[Symbol, Symbol]
    moment: float
    """Of dead loads in the direction of the bending, N·mm."""


def _detailed(design: Design, cut: Cut, made: Shape, loads: Under, test: bool) -> list[Working]:
    before = _before(design, cut, loads)
    deep = cut.tension_tendons
    own = sum(t.area * t.depth for t in deep) / sum(t.area for t in deep) if deep else 0.0
    dp = Symbol("dp", max(own, 0.8 * cut.h), "length", "depth of the tendons in tension, 0.8 h at least")
    flexural = _flexural(design, cut, made, loads, before, dp, test)
    web = _web(design, cut, made, loads, before, dp)
    ways = (*flexural[-1:], web)
    names = ", ".join(w.name for w in ways)
    text = f"max(0, min({names}))" if len(ways) > 1 else f"max(0, {names})"
    least = design.pen("Vc,det", "detailed method, the lesser", text, ways, "force", "22.5.6.3")
    return [before.fpe, before.fd, *flexural, before.fpc, web, least]


def _before(design: Design, cut: Cut, loads: Under) -> _Before:
    pen, bare, whole = design.pen, gross.bare(design), gross.whole(design)
    pulls = [(t.area * built_up(t), cut.h - t.depth if cut.sagging else t.depth) for t in cut.tendons]
    force = Symbol("Pe", sum(f for f, _ in pulls), "force", "effective prestress at the cut, 22.5.7")
    side = 1.0 if cut.sagging else -1.0
    first = sum(f * (bare.centroid - y) * side for f, y in pulls)
    lever = Symbol("Mp", first, "moment", "of it about the beam's centroid, compressing the tension face")
    area = Symbol("Ag", bare.area, "area", "of the beam")
    ig = Symbol("Ig", bare.inertia, "inertia", "of the beam")
    yt = Symbol("yt", bare.centroid if cut.sagging else bare.depth - bare.centroid, "length", "to its tension face")
    md, mb = loads.dead_moment * side, loads.bare_moment * side
    text, what = "Pe/Ag + Mp·yt/Ig", "compression of the tension face by prestress"
    fpe = pen("fpe", what, text, (force, area, lever, yt, ig), "stress")
    tension, middle = "tension of that face by dead loads", "compression at the centroid"
    if design.cast is None:
        dead = Symbol("Md", md, "moment", "of dead loads without factors")
        fd = pen("fd", tension, "Md·yt/Ig", (dead, yt, ig), "stress")
        return _Before(fpe, fd, pen("fpc", middle, "Pe/Ag", (force, area), "stress"), "Ig/yt", (ig, yt), md)
    ic = Symbol("Ic", whole.inertia, "inertia", "of the whole section (one modulus)")
    edge = whole.centroid if cut.sagging else whole.depth - whole.centroid
    yc = Symbol("yc", edge, "length", "to its tension face")
    alone = Symbol("Mdb", mb, "moment", "of dead loads on the beam alone")
    later = Symbol("Mdc", md - mb, "moment", "of dead loads on the whole section")
    fd = pen("fd", tension, "Mdb·yt/Ig + Mdc·yc/Ic", (alone, yt, ig, later, yc, ic), "stress")
    rise, where = side * (whole.centroid - bare.centroid), "from the beam's centroid to that of the whole section"
    up = Symbol("yu", rise, "length", f"{where}, away from the tension face")
    text = "Pe/Ag − (Mp − Mdb)·yu/Ig"
    fpc = pen("fpc", f"{middle} of the whole section", text, (force, area, lever, alone, up, ig), "stress")
    return _Before(fpe, fd, fpc, "Ic/yc", (ic, yc), md)


def _flexural(
    design: Design, cut: Cut, made: Shape, loads: Under, before: _Before, dp: Symbol, test: bool
) -> tuple[Working, ...]:
    """Mcre and Vci, 22.5.6.3.1; nothing where the other loads do not bend the cut further."""
    pen, e = design.pen, values.of(design)
    outer = loads.most * (1.0 if cut.sagging else -1.0) - before.moment
    if outer <= 1.0:
        return ()
    z = before.modulus
    text = text_of(made, e.pick(f"{z}·(6·λ·√(f'c) + fpe − fd)", f"{z}·(0.50·λ·√(f'c) + fpe − fd)"))
    symbols = (*before.of_it, made.lam, made.fc, before.fpe, before.fd)
    mcre = pen("Mcre", "moment that cracks it beyond the dead loads", text, symbols, "moment", "22.5.6.3.1")
    vd = Symbol("Vd", abs(loads.dead_shear), "force", "shear of dead loads without factors")
    along = abs(loads.along - loads.dead_shear)
    vi = Symbol("Vi", along, "force", "shear of the other loads with the greatest moment")
    mmax = Symbol("Mmax", outer, "moment", "greatest factored moment of the other loads")
    least = ("2", "0.17") if test else ("1.7", "0.14")
    floor = e.pick(f"{least[0]}·λ·√(f'c)·bw·d", f"{least[1]}·λ·√(f'c)·bw·d")
    own = e.pick("0.6·λ·√(f'c)·bw·dp", "0.05·λ·√(f'c)·bw·dp")
    text = text_of(made, f"max({own} + Vd + Vi·Mcre/Mmax, {floor})")
    every = (made.lam, made.fc, made.bw, dp, vd, vi, mcre, mmax, made.d)
    return mcre, pen("Vci", "flexure–shear cracking", text, every, "force", "22.5.6.3.1")


def _web(design: Design, cut: Cut, made: Shape, loads: Under, before: _Before, dp: Symbol) -> Working:
    """Vcw, 22.5.6.3.2."""
    sign = 1.0 if loads.shear >= 0.0 else -1.0
    vp = Symbol("Vp", sign * cut.rise, "force", "vertical part of the prestress, against the shear")
    text = values.of(design).pick("(3.5·λ·√(f'c) + 0.3·fpc)·bw·dp + Vp", "(0.29·λ·√(f'c) + 0.3·fpc)·bw·dp + Vp")
    symbols = (made.lam, made.fc, before.fpc, made.bw, dp, vp)
    return design.pen("Vcw", "cracking of the web", text_of(made, text), symbols, "force", "22.5.6.3.2")

"""A section in service: its stresses uncracked and cracked, with the prestress that EN 1992-1-1:2004 counts there.

Uncracked: the gross section, on which prestress acts as a force (5.10.1). Composite beams carry what comes before the
topping has hardened, prestress with it, on the beam alone. Cracked: :mod:`soffit.section.elastic`, concrete without
tension, bonded tendons with the strain that they have when the concrete beside them has none. Moments here are positive
in the direction of the bending of the cut.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from soffit.codes.actions import State
from soffit.codes.cut import Cut, TendonsAt
from soffit.codes.design import Design, Found
from soffit.codes.en1992 import values
from soffit.codes.working import Symbol, Unchecked, Working, given
from soffit.member.elastic_line import ElasticLine
from soffit.section.elastic import ElasticLayer, Plane, cracked, cracked_plane


def of_steel(title: str, run: Callable[[Design], Found]) -> Callable[[Design], Found]:
    """A check that is for reinforcing steel alone: bars of fibre-reinforced polymer are refused (3.2.1)."""

    def guarded(design: Design) -> Found:
        if any(b.steel.kind == "linear" for b in design.beam.bars):
            why = "bars of fibre-reinforced polymer are no reinforcing steel of 3.2"
            yield Unchecked(title, why, design.pen.cite("3.2.1"), scope=True)
            return
        yield from run(design)

    return guarded


def spread(design: Design, tendon: TendonsAt, low: bool) -> float:
    """rinf or rsup of a tendon, 5.10.9, recommended values."""
    pre = tendon.group.when == "before casting" or not tendon.bonded
    name, value = ("rinf", 0.95 if pre else 0.90) if low else ("rsup", 1.05 if pre else 1.10)
    return design.choices.nationally(name, value)


def force(design: Design, cut: Cut, low: bool | None = True, early: bool = False) -> tuple[Working, Working]:
    """Prestress on a cut, N, and its depth, mm; ``low``: the lower characteristic value, the upper, or the mean."""
    total = first = mean = 0.0
    for t in cut.tendons:
        p = (t.at_transfer if early else t.stress) * t.area
        mean += p
        p *= 1.0 if low is None else spread(design, t, low)
        total, first = total + p, first + p * t.depth
    when = "just after transfer" if early else "after all losses"
    zp = given("zp", "depth of the prestress", first / total if total else cut.centroid, "length")
    if low is None or not total:
        return given("P", f"prestress {when}", total, "force"), zp
    pm = Symbol("Pm", mean, "force", f"mean prestress {when}")
    name = "rinf" if low else "rsup"
    r = Symbol(name, total / mean if mean else 1.0, "ratio", "for its scatter, 5.10.9 (recommended)")
    which = "lower" if low else "upper"
    return design.pen("P", f"its {which} characteristic value", f"{name}·Pm", (r, pm), "force", "(5.47), (5.48)"), zp


@dataclass(frozen=True)
class Shape:
    """Of a gross section; computed once for a design."""

    area: float
    inertia: float
    centroid: float
    depth: float


def shape(design: Design, whole: bool = True) -> Shape:
    """Of the section with its topping, or of the beam alone."""

    def make() -> Shape:
        outline = design.outline if whole else design.beam.outline
        return Shape(outline.area, outline.inertia, outline.centroid, outline.depth)

    return design.kept(("shape", whole), make)


NEGLIGIBLE = 0.005
"""Of the greatest moment: bending that is not looked at."""


@dataclass(frozen=True)
class Gross:
    """Stress of the gross section at one depth by a working, tension positive."""

    stress: Working
    workings: tuple[Working, ...]


def elastic_line(design: Design) -> ElasticLine:
    """Of the gross stiffness, at the stations of the actions."""
    ei = design.modulus * design.outline.inertia
    beam = design.beam
    return design.kept("elastic line", lambda: ElasticLine(design.actions.x, beam.length, beam.supports, ei))


def bare_moment(design: Design, x: float) -> float:
    """Of what acts on the beam before its topping has hardened, N·mm, sagging positive; 0 without a topping."""
    if design.cast is None:
        return 0.0
    bare = design.kept("bare moments", design.actions.bare)
    return float(np.interp(x, design.actions.x, bare))


def gross_stress(
    design: Design, cut: Cut, moment: Working, depth: float, axial: float = 0.0, low: bool | None = True,
    early: bool = False, name: str = "σc", where: str = "tension face",
) -> Gross:  # fmt: skip
    """Stress at a depth of the cut under a moment (positive in its direction) and the prestress."""
    pen = design.pen
    p, zp = force(design, cut, low, early)
    z = Symbol("z", depth, "length", f"depth of the {where}")
    n = Symbol("N", axial, "force", "axial force, tension positive")
    with_axial = " + N/Ac" if axial else ""
    more: tuple[Symbol, ...] = (n,) if axial else ()
    if design.cast is None or early:
        outline = shape(design, False)
        ac = Symbol("Ac", outline.area, "area", "gross section")
        ic = Symbol("Ic", outline.inertia, "inertia", "gross section")
        z0 = Symbol("z0", cut.depth_of(outline.centroid), "length", "depth of its centroid")
        if p.value:
            text = f"−P/Ac + ({moment.name} − P·(zp − z0))·(z − z0)/Ic{with_axial}"
            stress = pen(name, f"stress of the {where}, gross section", text, (p, ac, moment, zp, z0, z, ic, *more),
                         "stress")  # fmt: skip
            return Gross(stress, (p, zp, stress))
        symbols = (moment, z, z0, ic, *((ac, n) if axial else ()))
        stress = pen(name, f"stress of the {where}, gross section", f"{moment.name}·(z − z0)/Ic{with_axial}", symbols,
                     "stress")  # fmt: skip
        return Gross(stress, (stress,))
    bare, whole = shape(design, False), shape(design)
    sign = 1.0 if cut.sagging else -1.0
    m0 = Symbol("M0", sign * bare_moment(design, cut.x), "moment", "of what comes before the topping has hardened")
    ac, ic = Symbol("Ac", bare.area, "area", "of the beam alone"), Symbol("Ic", bare.inertia, "inertia", "beam alone")
    i2 = Symbol("I2", whole.inertia, "inertia", "of the beam with its topping")
    z0 = Symbol("z0", cut.depth_of(bare.centroid), "length", "depth of the beam's own centroid")
    z2 = Symbol("z2", cut.depth_of(whole.centroid), "length", "depth of the centroid with the topping")
    text = f"−P/Ac + (M0 − P·(zp − z0))·(z − z0)/Ic + ({moment.name} − M0)·(z − z2)/I2{with_axial}"
    stress = pen(name, f"stress of the {where}, beam alone and with its topping", text,
                 (p, ac, m0, zp, z0, z, ic, moment, z2, i2, *more), "stress")  # fmt: skip
    return Gross(stress, (p, zp, stress))


@dataclass(frozen=True)
class Cracked:
    """A cracked section; stresses MPa, tension positive."""

    depth: float
    """x: depth of the neutral axis, mm."""
    plane: Plane
    cut: Cut
    modulus: float
    """Of the concrete, MPa."""
    inertia: float
    """Of the cracked section in terms of the concrete, mm⁴; 0 with prestress or axial force."""
    layers: tuple[ElasticLayer, ...]

    def strain(self, depth: float) -> float:
        return self.plane.strain(self.cut.h - depth if self.cut.sagging else depth)

    def steel(self, depth: float, modulus: float) -> float:
        """Stress of a bar; of a tendon its rise since the concrete beside it had none."""
        return modulus * self.strain(depth)

    @property
    def concrete(self) -> float:
        """Of the compressed face, a compression positive."""
        return max(-self.modulus * self.strain(0.0), 0.0)


def layers(design: Design, cut: Cut, low: bool | None = True) -> tuple[list[ElasticLayer], float, float]:
    """Steel of a cut, and the force (N, tension positive) and moment about the soffit (N·mm) of unbonded tendons."""
    found = [ElasticLayer(b.group.y, b.area, b.group.steel.modulus, 0.0) for b in cut.bars]
    axial = about = 0.0
    outline = shape(design, False)
    p, zp = force(design, cut, low)
    yp = cut.h - zp.value if cut.sagging else zp.value
    for t in cut.tendons:
        r = 1.0 if low is None else spread(design, t, low)
        y = cut.h - t.depth if cut.sagging else t.depth
        pull = r * t.stress
        if not t.bonded:
            axial -= pull * t.area
            about += pull * t.area * y
            continue
        # compression of the concrete beside it by all prestress, given back at once until it has none
        beside = p.value / outline.area + p.value * (yp - outline.centroid) * (y - outline.centroid) / outline.inertia
        strain = pull / t.group.steel.modulus + beside / design.modulus
        found.append(ElasticLayer(y, t.area, t.group.steel.modulus, strain))
    return found, axial, about


def crack(
    design: Design, cut: Cut, moment: float, modulus: float, axial: float = 0.0, low: bool | None = True
) -> Cracked | None:
    """The cut cracked under a moment (positive in its direction); none where no steel holds it."""
    found, pull, about = layers(design, cut, low)
    outline = design.outline
    if not any(layer.area > 0.0 for layer in found):
        return None
    if not cut.prestressed and not axial:
        key = ("cracked", tuple(b.index for b in cut.bars), cut.sagging, modulus)
        section, y = design.kept(key, lambda: cracked(outline, modulus, found, hogging=not cut.sagging))
        curvature = (moment if cut.sagging else -moment) / (modulus * section.inertia)
        x = cut.h - y if cut.sagging else y
        return Cracked(x, Plane(curvature * y, curvature), cut, modulus, section.inertia, tuple(found))
    acting = (moment if cut.sagging else -moment) + about + pull * shape(design).centroid
    plane = cracked_plane(outline, modulus, found, axial + pull, acting)
    if np.isnan(plane.soffit):
        return None
    y = min(max(plane.neutral_axis, 0.0), outline.depth)
    return Cracked(cut.h - y if cut.sagging else y, plane, cut, modulus, 0.0, tuple(found))


def tensile(design: Design) -> Working:
    """fct,eff, with the tensile strength at 28 days (7.1 (2))."""
    fctm = values.fctm(design)
    return design.pen("fct,eff", "tensile strength when cracks come", "fctm", (fctm,), "stress", "7.1 (2)")


def places(design: Design, state: State, sagging: bool, most: int = 2) -> tuple[float, ...]:
    """Where steel or concrete is likely to be stressed most in a state, the worst first; none where it does not bend
    that way. By M/Σ(A·d) without prestress, by the stress of the tension face with it.
    """
    key = ("en1992 places", state, sagging)
    return design.kept(key, lambda: _places(design, state, sagging))[:most]


def _places(design: Design, state: State, sagging: bool) -> tuple[float, ...]:
    values_ = design.actions.envelope(state)
    moments = values_.sagging if sagging else values_.hogging
    whole = shape(design)
    centroid = whole.depth - whole.centroid if sagging else whole.centroid
    floor = NEGLIGIBLE * float(max(np.max(values_.sagging), np.max(values_.hogging)))
    rank = []
    prestressed = any(t.stress > 0.0 for t in design.beam.tendons)
    for x, m in zip(design.places, np.interp(design.places, design.actions.x, moments).tolist(), strict=True):
        if m <= floor or m <= 0.0:
            continue
        cut = design.cut(x, sagging)
        if prestressed:
            arm = whole.depth - centroid
            bend = m - sum(t.force * (t.depth - centroid) for t in cut.tendons)
            rank.append((bend * arm / whole.inertia - cut.P / whole.area, x))
        else:
            hold = sum(b.area * b.depth for b in cut.tension_bars)
            rank.append((m / hold if hold else np.inf, x))
    return tuple(x for _, x in sorted(rank, reverse=True))

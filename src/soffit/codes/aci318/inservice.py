"""Prestressed sections in service by ACI 318-19 24.5: stress of a face, and class U, T or C; *from memory*.

Gross sections; what comes before a topping has hardened, the prestress with it, acts on the beam alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from soffit.codes.aci318 import gross, values
from soffit.codes.actions import State
from soffit.codes.cut import Cut
from soffit.codes.design import Design, bending
from soffit.codes.en1992.service import gross_stress
from soffit.codes.working import Symbol, Working

MANY = 2
Class = Literal["U", "T", "C"]


def prestressed(design: Design) -> bool:
    return any(t.stress > 0.0 for t in design.beam.tendons)


def faces(design: Design, cut: Cut) -> tuple[float, float]:
    """Depths of the compressed and of the tension face of the beam's own concrete, mm; a topping lies on it."""
    on = cut.h - gross.bare(design).depth
    return (on, cut.h) if cut.sagging else (0.0, cut.h - on)


def ranked(design: Design, state: State, sagging: bool, pressed: bool) -> tuple[float, ...]:
    """Places where the face that the moment presses has the greatest compression, or the other one the greatest
    tension, worst first; by numbers alone, once for a design."""
    return design.kept(("aci-ranked", state, sagging, pressed), lambda: _ranked(design, state, sagging, pressed))


def _ranked(design: Design, state: State, sagging: bool, pressed: bool) -> tuple[float, ...]:
    envelope, at = design.actions.envelope(state), design.actions.x
    moments = np.interp(design.places, at, envelope.sagging if sagging else envelope.hogging)
    bare, whole = gross.bare(design), gross.whole(design)
    sign, rank = (1.0 if sagging else -1.0), []
    for x, m in zip(design.places, moments.tolist(), strict=True):
        if m <= 0.0:
            continue
        cut = design.cut(x, sagging)
        z = faces(design, cut)[0 if pressed else 1]
        first = sign * gross.early(design, x)
        z0, z2 = cut.depth_of(bare.centroid), cut.depth_of(whole.centroid)
        bend = first - sum(t.force * (t.depth - z0) for t in cut.tendons)
        stress = -cut.P / bare.area + bend * (z - z0) / bare.inertia + (m - first) * (z - z2) / whole.inertia
        rank.append((-stress if pressed else stress, x))
    return tuple(x for _, x in sorted(rank, reverse=True)[:MANY])


@dataclass(frozen=True)
class Tension:
    """ft of 24.5.2.1 at one place."""

    cut: Cut
    stress: Working
    workings: tuple[Working, ...]
    combination: str
    moment: Working


def tension(design: Design, x: float, sagging: bool) -> Tension:
    """Greatest tension of the face that service loads pull, D + L."""
    cut = design.cut(x, sagging)
    demand = design.actions.at("characteristic", bending(sagging), x, "M")
    z = faces(design, cut)[1]
    found = gross_stress(design, cut, demand.working, z, demand.axial, None, where="tension face of the beam")
    ft = design.pen("ft", "tension of that face", "max(0, σc)", (found.stress,), "stress")
    return Tension(cut, ft, (demand.working, *found.workings, ft), demand.combination, demand.working)


def worst_tension(design: Design, sagging: bool) -> Tension | None:
    """Of the places where the prestress compresses the face that the loads pull; none without such places."""

    def make() -> Tension | None:
        places = [x for x in ranked(design, "characteristic", sagging, False) if _precompressed(design, x, sagging)]
        found = [tension(design, x, sagging) for x in places]
        return max(found, key=lambda t: t.stress.value, default=None)

    return design.kept(("aci-ft", sagging), make)


def _precompressed(design: Design, x: float, sagging: bool) -> bool:
    cut, bare = design.cut(x, sagging), gross.bare(design)
    z, z0 = faces(design, cut)[1], cut.depth_of(bare.centroid)
    bend = sum(t.force * (t.depth - z0) for t in cut.tendons)
    return -cut.P / bare.area - bend * (z - z0) / bare.inertia < 0.0


def class_of(design: Design, sagging: bool) -> Class | None:
    """24.5.2.1 for the worst place; none where no precompressed face is pulled."""
    found = worst_tension(design, sagging)
    if found is None:
        return None
    u, t = class_limits(design)
    ft = found.stress.value
    return "U" if ft <= u.value else "T" if ft <= t.value else "C"


def member_class(design: Design) -> Class:
    """The worse of both signs; U where nothing is pulled."""
    found = [c for c in (class_of(design, True), class_of(design, False)) if c is not None]
    return max(found, key="UTC".index, default="U")


def class_limits(design: Design) -> tuple[Working, Working]:
    """Greatest ft of classes U and T, Table 24.5.2.1."""
    pen, e = design.pen, values.of(design)
    fc: Symbol = values.fc(design)
    u = pen("ft,U", "greatest tension of class U", e.pick("7.5·√(f'c)", "0.62·√(f'c)"), (fc,), "stress",
            "Table 24.5.2.1")  # fmt: skip
    t = pen("ft,T", "greatest tension of class T", e.pick("12·√(f'c)", "1.0·√(f'c)"), (fc,), "stress",
            "Table 24.5.2.1")  # fmt: skip
    return u, t

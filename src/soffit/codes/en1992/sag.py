"""Long-term deflection of ordinary beams by EN 1992-1-1:2004 7.4.3 beside that computed step by step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from soffit.codes.bent import Bent, Watched
from soffit.codes.en1992 import deflection
from soffit.codes.explained import Difference, Input, sentence
from soffit.codes.instants import jumps
from soffit.codes.lost import Ours, of_standard
from soffit.errors import PhysicsError
from soffit.materials.ageing.en1992 import En1992
from soffit.materials.ageing.models import model
from soffit.materials.curve import Array
from soffit.member.time.schedule import making_of
from soffit.section.elastic import cracked, uncracked

NAME = "EN 1992-1-1:2004"
KEY = "EN 1992-1-1"


@dataclass(frozen=True)
class Long:
    """What enters the curvature: Ec,eff, MPa; free shrinkage; β; fctm, MPa."""

    modulus: float
    shrinkage: float
    beta: float
    tensile: float
    short: float
    """Ecm, MPa, of the cracking moment."""


def row(watched: Watched, ours: Bent) -> Bent:
    """Curvatures at every station by (7.18) to (7.21), integrated (7.4.3 (7)); one creep coefficient, that of each load
    from its own day weighted by its moment. Raises ``PhysicsError`` where a cracked section has no steel."""
    past, t = watched.past, watched.t
    law = model(KEY, making_of(past.beam).casting)
    assert isinstance(law, En1992)
    ecm, fctm = float(law.secant_modulus(28.0)), float(law.tensile(28.0))
    phi = _creep(watched, lambda t0: of_standard(past, KEY, t, t0)[0])
    shrinkage = of_standard(past, KEY, t, float(past.t[0]))[1]
    late = Long(deflection.effective_modulus(ecm, phi), shrinkage, deflection.SUSTAINED, fctm, ecm)
    total = watched.sag(curvatures(watched, late))
    immediate = watched.sag(curvatures(watched, Long(ecm, 0.0, deflection.SHORT, fctm, ecm)))
    shrunk = total - watched.sag(curvatures(watched, Long(late.modulus, 0.0, late.beta, fctm, ecm)))
    mine = Ours(past)
    phi_ours = _creep(watched, lambda t0: mine.creep(t, t0) * ecm)
    changed = Long(deflection.effective_modulus(ecm, phi_ours), shrinkage, late.beta, fctm, ecm)
    crept = watched.sag(curvatures(watched, changed))
    own = float(past.shrinkage[watched.until] - past.shrinkage[0])
    dried = watched.sag(curvatures(watched, Long(changed.modulus, own, late.beta, fctm, ecm)))
    at = watched.governing
    cracking = _cracking(watched, at, fctm, ecm, float(watched.greatest[at]) >= 0.0)
    inputs = (
        Input("Ecm", ecm, "MPa", "at 28 days"),
        Input("fctm", fctm, "MPa", "at 28 days"),
        Input("φ", phi, "", "of each load from its day on, weighted by its moment"),
        Input("Ec,eff", late.modulus, "MPa", "(7.20)"),
        Input("εcs", shrinkage, "", ""),
        Input("Mcr", cracking, "N·mm", ""),
        Input("M", abs(float(watched.greatest[at])), "N·mm", "the greatest that it has borne"),
        Input("ζ", deflection.share(float(watched.greatest[at]), cracking), "", "(7.19), β = 0.5"),
        Input("by shrinkage", shrunk, "mm", "(7.21)"),
    )
    causes = (
        Difference(f"its creep coefficient of {phi:.2f} on Ecm, ours {phi_ours:.2f} on the same", total - crept),
        Difference(f"its shrinkage of {1000 * shrinkage:.3f} ‰, ours {1000 * own:.3f} ‰", crept - dried),
        Difference(
            "one effective modulus for all that stays, and cracks from the first day as under the greatest moment",
            dried - ours.total,
        ),
    )
    text = sentence(f"{NAME} 7.4.3", total, ours.total, causes, "mm", 1)
    return Bent(NAME, "7.4.3", t, watched.x, immediate, total, inputs, causes, text)


def curvatures(watched: Watched, long: Long) -> Array:
    """(stations,), 1/mm."""
    sustained, greatest = watched.sustained, watched.greatest
    found = [_curvature(watched, i, float(sustained[i]), float(greatest[i]), long) for i in range(len(watched.past.x))]
    return np.array(found)


def _curvature(watched: Watched, i: int, moment: float, greatest: float, long: Long) -> float:
    outline, bars = watched.past.beam.outline, watched.bars(i)
    whole = uncracked(outline, long.modulus, bars)
    share = deflection.share(greatest, _cracking(watched, i, long.tensile, long.short, greatest >= 0.0), long.beta)

    def bend(centroid: float, inertia: float) -> float:
        if not bars or long.shrinkage == 0.0:
            return moment / (long.modulus * inertia)
        # each steel with its own ratio
        shrunk = sum(
            deflection.shrinkage_curvature(long.shrinkage, b.modulus / long.modulus, b.area * (centroid - b.y), inertia)
            for b in bars
        )
        return moment / (long.modulus * inertia) + shrunk

    first = bend(whole.centroid, whole.inertia)
    if share == 0.0:
        return first
    if not bars:
        raise PhysicsError(f"the section at x = {watched.past.x[i]:.0f} mm cracks and has no steel")
    split, _ = cracked(outline, long.modulus, bars, hogging=greatest < 0.0)
    return deflection.mean(first, bend(split.centroid, split.inertia), share)


def _cracking(watched: Watched, i: int, tensile: float, modulus: float, sagging: bool) -> float:
    """Mcr of the uncracked transformed section, N·mm."""
    whole = uncracked(watched.past.beam.outline, modulus, watched.bars(i))
    arm = whole.centroid if sagging else watched.past.beam.outline.depth - whole.centroid
    return tensile * whole.inertia / arm


def _creep(watched: Watched, coefficient: Callable[[float], float]) -> float:
    """Creep coefficient of every load from its own day, weighted by the moment that it brings to the governing
    section."""
    at = watched.governing
    steps = [(float(j.moment[at]), j.age) for j in jumps(watched.past, watched.until)]
    whole = sum(m for m, _ in steps)
    if abs(whole) <= 1e-6 * max((abs(m) for m, _ in steps), default=1.0):
        return coefficient(watched.loaded)
    return max(sum(m * coefficient(t0) for m, t0 in steps) / whole, 0.0)

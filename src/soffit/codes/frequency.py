"""The first vertical frequency of a beam, for information: what walkers feel on a footbridge. No clause of a standard.

Elastic and uncracked, one stiffness along the beam, on any spans; the permanent loads swing with it as mass. Bending
elements with cubic shapes and their consistent mass. Ranges of comfort: Sétra, "Footbridges: assessment of vibrational
behaviour of footbridges under pedestrian loading", Paris 2006; *from memory*.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from soffit.codes.design import Design, Entry, Found
from soffit.codes.working import FROM_MEMORY, Check, Symbol, given, work
from soffit.materials.curve import Array
from soffit.member.beam import Load
from soffit.member.loading import PERMANENT_CASES, self_weight, topping_weight

SOURCE = "Sétra 2006"
GRAVITY = 9810.0
"""mm/s²."""
WORST, NEAR, SECOND = (1.7, 2.1), (1.0, 2.6), 5.0
"""Hz: walkers meet the first range most and the second at times; of the second part of a step, the last is the end."""
FEET = ("crowd",)
ELEMENTS = 10
"""A span."""


@dataclass(frozen=True)
class Swing:
    frequency: float
    """Hz."""
    stiffness: float
    """Of the shape with a greatest deflection of 1 mm: ∫ EI κ² dx, N/mm."""
    weight: float
    """∫ g m w² dx of it, N: the weight that swings."""


def first(design: Design) -> Found:
    """The first frequency of a beam that bears a crowd, with the range in which walkers would excite it."""
    if not any(load.case in FEET for load in design.beam.loads):
        return
    found = swing(design)
    if found is None:
        return
    k = Symbol("k", found.stiffness, "line load", "stiffness of the first shape, ∫ EI κ² dx for 1 mm of deflection")
    w = Symbol("W", found.weight, "force", "weight that swings in it, ∫ g m w² dx")
    g = Symbol("g", GRAVITY, "ratio", "acceleration of gravity, mm/s²")
    f1 = work("f1", "first vertical frequency", "√(k·g/W)/(2·3.14159265)", (k, g, w), "frequency")
    limit = given("f0", "above which walkers hardly excite a bridge", SECOND, "frequency")
    yield Check(
        "first vertical frequency", SOURCE, limit, f1, (f1, limit),
        (
            f"{comfort(f1.value)} Ranges of {SOURCE}, {FROM_MEMORY}.",
            "Elastic and uncracked; the permanent loads swing and nobody stands on the beam. A bridge of several beams "
            "swings as a whole.",
        ),
        "frequency", None, "", "information",
    )  # fmt: skip


def comfort(f: float) -> str:
    """The range of a frequency, Hz, in words."""
    if WORST[0] <= f <= WORST[1]:
        return f"{f:.2f} Hz lies where walkers step most, 1.7 to 2.1 Hz: how far it swings wants to be looked at."
    if NEAR[0] <= f <= NEAR[1]:
        return f"{f:.2f} Hz lies where walkers step at times, 1.0 to 2.6 Hz."
    if NEAR[1] < f <= SECOND:
        return f"{f:.2f} Hz lies where only the second part of a step reaches, 2.6 to 5.0 Hz."
    return f"{f:.2f} Hz lies outside what walkers excite, 1.0 to 5.0 Hz."


def permanent(design: Design) -> tuple[Load, ...]:
    """All loads that swing with the beam."""
    beam = design.beam
    loads = [load for load in beam.loads if load.case in PERMANENT_CASES and load.value > 0.0]
    if beam.self_weight:
        loads.append(self_weight(beam))
        if beam.making is not None and beam.making.topping is not None:
            loads.append(topping_weight(beam.making.topping, beam.length))
    return tuple(loads)


def swing(design: Design) -> Swing | None:
    """The first shape; none without mass."""
    loads, beam = permanent(design), design.beam
    x = _nodes(design, loads)
    n = len(x)
    stiffness, mass = np.zeros((2 * n, 2 * n)), np.zeros((2 * n, 2 * n))
    ei = design.modulus * design.outline.inertia
    for i, (a, b) in enumerate(pairwise(x)):
        size, at = b - a, slice(2 * i, 2 * i + 4)
        middle = 0.5 * (a + b)
        per = sum(load.value for load in loads if not load.is_point and load.x_from <= middle <= load.x_to) / GRAVITY
        stiffness[at, at] += ei / size**3 * _stiff(size)
        mass[at, at] += per * size / 420.0 * _heavy(size)
    for load in loads:
        if load.is_point:
            i = int(np.argmin(np.abs(x - load.x_from)))
            mass[2 * i, 2 * i] += load.value / GRAVITY
    held = beam.supports
    out = {2 * int(np.argmin(np.abs(x - s))) for s in held.x}
    if held.fixed_left:
        out.add(2 * int(np.argmin(np.abs(x - held.x[0]))) + 1)
    if held.fixed_right:
        out.add(2 * int(np.argmin(np.abs(x - held.x[-1]))) + 1)
    free = [i for i in range(2 * n) if i not in out]
    k, m = stiffness[np.ix_(free, free)], mass[np.ix_(free, free)]
    if not np.any(m > 0.0):
        return None
    # k is positive definite once the beam is held, m need not be: the greatest of m/k
    lower = np.linalg.inv(np.linalg.cholesky(k))
    values, vectors = np.linalg.eigh(lower @ m @ lower.T)
    shape = lower.T @ vectors[:, -1]
    full = np.zeros(2 * n)
    full[free] = shape
    shape = shape / float(np.max(np.abs(full[::2])))
    return Swing(
        float(1.0 / np.sqrt(values[-1]) / (2.0 * np.pi)), float(shape @ k @ shape), float(shape @ m @ shape) * GRAVITY
    )


def _nodes(design: Design, loads: tuple[Load, ...]) -> Array:
    beam = design.beam
    ends = sorted({0.0, beam.length, *beam.supports.x})
    found = [np.linspace(a, b, ELEMENTS + 1) for a, b in pairwise(ends)]
    places = [x for load in loads for x in (load.x_from, load.x_to)]
    rows = np.unique(np.concatenate([*found, [x for x in places if 0.0 <= x <= beam.length]]))
    # a node too near to another one would only spoil the numbers; supports and ends stay
    kept = [float(rows[0])]
    fixed = np.array(ends)
    for x in rows[1:].tolist():
        if x - kept[-1] > 1e-4 * beam.length:
            kept.append(x)
        elif np.min(np.abs(fixed - x)) < 1e-6:
            kept[-1] = x
    return np.array(kept)


def _stiff(a: float) -> Array:
    return np.array(
        [
            [12.0, 6.0 * a, -12.0, 6.0 * a],
            [6.0 * a, 4.0 * a**2, -6.0 * a, 2.0 * a**2],
            [-12.0, -6.0 * a, 12.0, -6.0 * a],
            [6.0 * a, 2.0 * a**2, -6.0 * a, 4.0 * a**2],
        ]
    )


def _heavy(a: float) -> Array:
    return np.array(
        [
            [156.0, 22.0 * a, 54.0, -13.0 * a],
            [22.0 * a, 4.0 * a**2, 13.0 * a, -3.0 * a**2],
            [54.0, 13.0 * a, 156.0, -22.0 * a],
            [-13.0 * a, -3.0 * a**2, -22.0 * a, 4.0 * a**2],
        ]
    )


def entry() -> Entry:
    """For the register of a standard."""
    about = "First vertical frequency with the ranges in which walkers excite a footbridge; for information."
    return Entry("frequency", "first frequency", SOURCE, about, first)

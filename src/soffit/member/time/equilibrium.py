"""Equilibrium of every section and compatibility of the whole member in one step of time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from soffit.errors import ConvergenceError, PhysicsError
from soffit.materials.curve import Array
from soffit.member.time import fissures
from soffit.member.time import plane as planes
from soffit.member.time.schedule import days
from soffit.member.time.state import Concrete, State, along

COMPATIBLE = 1e-9
"""Change of an unknown, over its size, at which compatibility is met."""
ROUNDS = 60
DAMPINGS = (1.0, 0.5, 0.2)
"""Shares of Newton's step, tried in turn where cracks open and close from one iteration to the next."""


@dataclass(frozen=True)
class Solved:
    """(stations, 2) planes, and what goes with them."""

    plane: Array
    cracked: Array
    mean: Array
    open: Array
    """Changes of the open moments, N·mm."""
    slid: Array
    """(layers,): changes of stress of the sliding groups by the strain of the member, MPa."""
    stress: list[Array]
    """Increment of the plane of stress of each concrete."""
    fissured: fissures.Fissured
    share: Array
    """ζ."""
    ratio: Array
    """(2, stations): of soffit and top."""
    sums: Array
    """Stiffness of the uncracked sections in this step, (stations, 3)."""


def solve(s: State, n: int, load: Array, relaxed: Array) -> Solved:
    """Step n under a further ``load`` (moments, stations) and relaxation (layers, stations).

    Linear but for cracks: one solution where nothing cracks, else Newton on the unknowns that compatibility asks for
    (open moments, stresses of sliding tendons). Raises ``PhysicsError`` where a section breaks as it cracks,
    ``ConvergenceError`` where the unknowns do not settle.
    """
    linear = _linear(s, n)
    since = s.since.copy()
    fault: PhysicsError | None = None
    for damping in DAMPINGS:
        try:
            solved = _seek(s, n, load, relaxed, linear, damping)
        except PhysicsError as error:
            # an iteration may ask for what the solution does not
            solved, fault = None, error
        if solved is not None:
            return solved
        s.since = since.copy()
    if fault is not None:
        raise fault
    raise ConvergenceError(f"the member found no compatible state {days(float(s.t[n]))} after casting")


def _seek(s: State, n: int, load: Array, relaxed: Array, linear: _Linear, damping: float) -> Solved | None:
    """Newton with steps of ``damping``; none where it does not settle."""
    sliding = np.flatnonzero(s.layers.sliding)
    units = _units(s, sliding)
    reply = [planes.solve(linear.sums, u) for u in units]
    base = _outside(s, load, relaxed)
    unknown, opened = np.zeros(len(units)), len(units) - len(sliding)
    size = np.concatenate([np.full(opened, _moment_size(s, n, load)), np.full(len(sliding), 100.0)])
    counts = None
    for round_ in range(round(ROUNDS / damping)):
        forces = base + sum((z * u for z, u in zip(unknown, units, strict=True)), np.zeros_like(base))
        plane = planes.solve(linear.sums, forces - linear.locked)
        stress = [(plane - linear.free[c]) / c.creep(n) if c.born is not None else 0.0 * plane for c in s.concretes]
        # before compatibility is met once, stresses are not yet those of this beam
        watch = not len(units) or round_ > 0
        face = fissures.watched(s, n, stress, planes.solve(linear.sums, forces), watch, counts)
        counts = face.counts if watch else None
        fissured = fissures.cracked(s, n, forces, plane, linear.steel, face.ratio.max(axis=0))
        zeta = face.share
        mean = plane + zeta[:, None] * (fissured.plane - plane)
        met = not len(units)
        if not met:
            slope = [_slope(s, n, r, u, plane, fissured, face, zeta) for r, u in zip(reply, units, strict=True)]
            miss, change = _compatible(s, mean, unknown, slope, sliding)
            step = np.linalg.solve(change, -miss)
            unknown = unknown + (step if round_ == 0 else damping * step)
            met = round_ > 0 and bool(np.max(np.abs(step) / (np.abs(unknown) + size)) < COMPATIBLE)
        if met:
            slid = np.zeros(len(s.layers.share))
            slid[sliding] = unknown[opened:]
            return Solved(
                plane, fissured.plane, mean, unknown[:opened], slid, stress, fissured, zeta, face.ratio, linear.sums
            )
    return None


@dataclass(frozen=True)
class _Linear:
    sums: Array
    """Stiffness of the uncracked sections in this step, (stations, 3)."""
    steel: Array
    """The part of the bonded steel."""
    locked: Array
    """(N, Q) without any strain."""
    free: dict[Concrete, Array]
    """Of each concrete: the plane of strain at which its stress would not change."""


def _linear(s: State, n: int) -> _Linear:
    held = s.layers
    area = held.steel.area * held.bonded[:, None]
    stiff = planes.layers(area * held.steel.modulus, held.steel.y)
    locked = planes.pull(area * (held.held - (held.relaxed - held.before_bond)), held.steel.y)
    sums = stiff
    free: dict[Concrete, Array] = {}
    for c in s.acting:
        free[c] = unstressed(c, n)
        sums = sums + c.part.sums / c.creep(n)
        locked = locked + planes.resultants(c.part.sums, c.stress - free[c] / c.creep(n))
    return _Linear(sums, stiff, locked, free)


def unstressed(c: Concrete, n: int) -> Array:
    """Plane of strain at which the stress of a concrete would not change in step n: what creep and shrinkage want."""
    assert c.born is not None
    free = np.tensordot(c.viscous.compliance[n, c.born : n], c.steps[c.born : n], axes=1) + c.act
    free[:, 0] -= c.shrunk(n)
    return np.asarray(free)


def _moment_size(s: State, n: int, load: Array) -> float:
    """A moment against which a change of another is small, N·mm: of the loads, and of the section's own strength."""
    own = s.concretes[0]
    strength = own.viscous.tensile[n] * float(own.part.sums[0, 0]) * own.part.high / 6.0
    return 1e-3 * float(np.max(np.abs(s.moment + load))) + 1e-5 * strength


def _outside(s: State, load: Array, relaxed: Array) -> Array:
    """(N, Q) of moments and sliding tendons, before the unknowns of the step."""
    held = s.layers
    force = -(held.slide - relaxed) * held.sliding[:, None] * held.steel.area
    out = planes.pull(force, held.steel.y)
    out[:, 1] -= s.moment + load
    return out


def _units(s: State, sliding: NDArray[np.int64]) -> list[Array]:
    """(N, Q) of a unit of every unknown: open moments, then stresses of the sliding groups."""
    units = [np.stack([np.zeros_like(d), -d], axis=-1) for d in (s.on.diagrams if s.on is not None else ())]
    for layer in sliding:
        force = -s.layers.steel.area[layer]
        units.append(np.stack([force, force * s.layers.steel.y[layer]], axis=-1))
    return units


def _slope(
    s: State,
    n: int,
    reply: Array,
    unit: Array,
    plane: Array,
    fissured: fissures.Fissured,
    face: fissures.Watched,
    zeta: Array,
) -> Array:
    """How the mean plane changes with one unknown: both states, and the share between them."""
    if not s.cracks.any():
        return reply
    there = planes.solve(fissured.stiffness, unit)
    grows = face.slope(s, n, reply)
    return np.asarray(reply + zeta[:, None] * (there - reply) + grows[:, None] * (fissured.plane - plane))


def _compatible(
    s: State, mean: Array, unknown: Array, slope: list[Array], sliding: NDArray[np.int64]
) -> tuple[Array, Array]:
    """What is missing at compatibility, and how it changes with the unknowns."""
    size = len(unknown)
    miss, change = np.zeros(size), np.zeros((size, size))
    open_ = size - len(sliding)
    for i in range(open_):
        assert s.on is not None
        w = s.on.weights[i]
        miss[i] = w @ (mean[:, 1] - s.on.settled)
        change[i] = [w @ each[:, 1] for each in slope]
    for i, layer in enumerate(sliding, start=open_):
        w = along(s, int(layer)) * s.layers.share[layer] * s.layers.steel.modulus[layer]
        y = s.layers.steel.y[layer]
        miss[i] = unknown[i] - w @ planes.at(mean - s.mean, y)
        change[i] = [-(w @ planes.at(each, y)) for each in slope]
        change[i, i] += 1.0
    return miss, change

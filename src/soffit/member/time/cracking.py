"""Sections whose concrete has cracked, under stresses that have a history.

A fibre carries no tension. What it would carry is counted from its whole history, so that a crack closes where and when
creep, shrinkage or load close it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from soffit.errors import PhysicsError
from soffit.materials.curve import Array
from soffit.member.time import plane as planes

SUSTAINED = 20.0
"""Days in which tension stiffening falls from its short-term to its sustained value (R. H. Scott and A. W. Beeby,
"Long-term tension-stiffening effects in concrete", ACI Structural Journal 102(1), 2005, *from memory*)."""
ROUNDS = 80
SUPPORT = 1e-6
"""Share of the whole section's stiffness that leads Newton back from where the section has none."""


@dataclass(frozen=True)
class Fibres:
    """One concrete at the cracked stations: σ = min(stress + (ε − free)/compliance, 0) at each fibre."""

    y: Array
    """(fibres,)"""
    area: Array
    """(stations, fibres)"""
    stress: Array
    """At the step before, MPa."""
    free: Array
    """Strain at which the stress would not change."""
    compliance: float

    def trial(self, plane: Array) -> Array:
        strain = plane[:, :1] - plane[:, 1:] * self.y[None, :]
        return np.asarray(self.stress + (strain - self.free) / self.compliance)


def share(ratio: Array, days: Array) -> Array:
    """ζ = 1 − β (fct/σct)², EN 1992-1-1:2004 (7.19): the share of cracked behaviour in a mean curvature.

    ratio: greatest stress that the uncracked face would have had, over the tensile strength; with σsr/σs = fct/σct, and
    so for prestressed sections too. days: since the first crack; β falls from 1.0 to 0.5 over ``SUSTAINED`` days.
    """
    beta = 1.0 - 0.5 * np.clip(days / SUSTAINED, 0.0, 1.0)
    return np.where(ratio > 1.0, np.clip(1.0 - beta / np.maximum(ratio, 1.0) ** 2, 0.0, 1.0), 0.0)


def equilibrium(
    concretes: list[Fibres], steel: Array, steel_pull: Array, forces: Array, start: Array, depth: float
) -> tuple[Array, Array]:
    """Planes of strain (stations, 2) under which the sections have ``forces``, and the stiffness (stations, 3) there.

    steel: sums of the steel's stiffness (stations, 3); steel_pull: (N, Q) of its stress at zero strain. The energy is
    convex in the plane, so Newton with halving finds the one equilibrium there is. Raises ``PhysicsError`` where there
    is none: no steel holds the crack together.
    """
    plane = start.copy()
    unit = np.array([1.0, depth])
    size = np.max(np.abs(forces) / unit, axis=1) + np.max(np.abs(steel_pull) / unit, axis=1)
    for part in concretes:
        size = size + np.sum(np.abs(part.stress) * part.area, axis=1)
    size = np.maximum(size, 1.0)
    whole = steel + sum((_sums(part.area / part.compliance, part.y) for part in concretes), np.zeros_like(steel))
    energy, miss, tangent = _balance(concretes, steel, steel_pull, forces, plane)
    norm = np.max(np.abs(miss) / unit, axis=1) / size
    for _ in range(ROUNDS):
        open_ = norm > 1e-10
        if not open_.any():
            return plane, tangent
        # a plane under which nothing is left that carries bending is left again with a little of the whole section
        bending = tangent[:, 0] * tangent[:, 2] - tangent[:, 1] ** 2
        lost = bending <= 1e-9 * (whole[:, 0] * whole[:, 2] - whole[:, 1] ** 2)
        step = planes.solve(tangent + np.where(lost, SUPPORT, 0.0)[:, None] * whole, -miss)
        slope = miss[:, 0] * step[:, 0] - miss[:, 1] * step[:, 1]
        alpha = np.where(open_, 1.0, 0.0)
        for _ in range(40):
            tried = plane + alpha[:, None] * step
            new_energy, new_miss, new_tangent = _balance(concretes, steel, steel_pull, forces, tried)
            new = np.max(np.abs(new_miss) / unit, axis=1) / size
            falls = new_energy <= energy + 1e-4 * alpha * slope
            # near the end the energy no longer tells two planes apart
            worse = open_ & ~falls & ~(new < 0.9 * norm) & (new > 1e-10)
            if not worse.any():
                break
            alpha[worse] *= 0.5
        plane, energy, miss, tangent, norm = tried, new_energy, new_miss, new_tangent, new
    if np.max(norm) > 1e-6:
        raise PhysicsError("no steel holds a crack together")
    return plane, tangent


def _balance(
    concretes: list[Fibres], steel: Array, steel_pull: Array, forces: Array, plane: Array
) -> tuple[Array, Array, Array]:
    """Energy (stations,), what is missing at equilibrium (stations, 2), and the stiffness (stations, 3)."""
    s, k = plane[:, 0], plane[:, 1]
    own = planes.resultants(steel, plane)
    total = own + steel_pull
    energy = 0.5 * (own[:, 0] * s - own[:, 1] * k) + (steel_pull - forces)[:, 0] * s - (steel_pull - forces)[:, 1] * k
    sums = steel.copy()
    for part in concretes:
        trial = part.trial(plane)
        pressed: NDArray[np.bool_] = trial < 0.0
        stress = np.where(pressed, trial, 0.0)
        force = stress * part.area
        energy = energy + 0.5 * part.compliance * np.sum(force * stress, axis=1)
        total = total + np.stack([force.sum(1), force @ part.y], axis=-1)
        sums = sums + _sums(np.where(pressed, part.area / part.compliance, 0.0), part.y)
    return energy, total - forces, sums


def _sums(stiff: Array, y: Array) -> Array:
    """(stations, 3) of fibres' stiffness (stations, fibres)."""
    return np.stack([stiff.sum(1), stiff @ y, stiff @ (y * y)], axis=-1)

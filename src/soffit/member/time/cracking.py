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

    steel: sums of the steel's stiffness (stations, 3); steel_pull: (N, Q) of its stress at zero strain. Newton with
    halving on a convex energy. Raises ``PhysicsError`` where none is found: no steel holds the crack together.
    """
    plane = start.copy()
    unit = np.array([1.0, depth])
    size = np.max(np.abs(forces) / unit, axis=1) + np.max(np.abs(steel_pull) / unit, axis=1)
    for part in concretes:
        size = size + np.sum(np.abs(part.stress) * part.area, axis=1)
    size = np.maximum(size, 1.0)
    miss, tangent = _residual(concretes, steel, steel_pull, forces, plane)
    norm = np.max(np.abs(miss) / unit, axis=1) / size
    for _ in range(ROUNDS):
        open_ = norm > 1e-10
        if not open_.any():
            return plane, tangent
        # a section in which nothing is left that carries bending
        bending = tangent[:, 0] * tangent[:, 2] - tangent[:, 1] ** 2
        if np.any(bending[open_] <= 1e-12 * (tangent[open_, 0] * depth) ** 2):
            break
        step = planes.solve(np.where(open_[:, None], tangent, np.array([1.0, 0.0, 1.0])), -miss)
        alpha = np.where(open_, 1.0, 0.0)
        for _ in range(14):
            tried = plane + alpha[:, None] * step
            new_miss, new_tangent = _residual(concretes, steel, steel_pull, forces, tried)
            new = np.max(np.abs(new_miss) / unit, axis=1) / size
            worse = open_ & ~(new < norm * (1.0 - 1e-4 * alpha)) & (new > 1e-10)
            if not worse.any():
                break
            alpha[worse] *= 0.5
        plane, miss, tangent, norm = tried, new_miss, new_tangent, new
    if np.max(norm) > 1e-6:
        raise PhysicsError("no steel holds a crack together")
    return plane, tangent


def _residual(
    concretes: list[Fibres], steel: Array, steel_pull: Array, forces: Array, plane: Array
) -> tuple[Array, Array]:
    total = planes.resultants(steel, plane) + steel_pull
    sums = steel.copy()
    for part in concretes:
        trial = part.trial(plane)
        pressed: NDArray[np.bool_] = trial < 0.0
        force = np.where(pressed, trial, 0.0) * part.area
        stiff = np.where(pressed, part.area / part.compliance, 0.0)
        y = part.y[None, :]
        total = total + np.stack([force.sum(1), (force * y).sum(1)], axis=-1)
        sums = sums + np.stack([stiff.sum(1), (stiff * y).sum(1), (stiff * y * y).sum(1)], axis=-1)
    return total - forces, sums

"""Planes of strain (or stress) over a section, many stations at once: value(y) = plane[0] − plane[1] · y.

Resultants are (N, Q): force, and its moment about y = 0 as ∫ σ y dA, so that a sagging moment M is Q = −M.
Sums are (B0, B1, B2) = ∫ E, ∫ E y, ∫ E y². All arrays (stations, 2) or (stations, 3).
"""

from __future__ import annotations

import numpy as np

from soffit.materials.curve import Array


def at(plane: Array, y: Array | float) -> Array:
    """Value at height y (scalar or (stations,))."""
    return np.asarray(plane[..., 0] - plane[..., 1] * y)


def resultants(sums: Array, plane: Array) -> Array:
    """(N, Q) of a section of stiffness ``sums`` under a plane of strain."""
    s, k = plane[..., 0], plane[..., 1]
    return np.stack([sums[..., 0] * s - sums[..., 1] * k, sums[..., 1] * s - sums[..., 2] * k], axis=-1)


def solve(sums: Array, forces: Array) -> Array:
    """The plane of strain under which a section of stiffness ``sums`` has the resultants ``forces``."""
    b0, b1, b2 = sums[..., 0], sums[..., 1], sums[..., 2]
    n, q = forces[..., 0], forces[..., 1]
    det = b1 * b1 - b0 * b2
    return np.stack([(b1 * q - b2 * n) / det, (b0 * q - b1 * n) / det], axis=-1)


def layers(stiffness: Array, y: Array) -> Array:
    """Sums of steel layers: (layers, stations) of EA and of height to (stations, 3)."""
    return np.stack([stiffness.sum(0), (stiffness * y).sum(0), (stiffness * y * y).sum(0)], axis=-1)


def pull(force: Array, y: Array) -> Array:
    """(N, Q) of forces at heights, (layers, stations) each."""
    return np.stack([force.sum(0), (force * y).sum(0)], axis=-1)

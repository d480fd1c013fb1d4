"""A stress–strain curve as a table of cubics with their integrals, so that a kernel looks resultants up.

With plane sections the force of a strip of constant width is (width/curvature) × the integral of stress
over strain between its two edges. Where that integral stands in a table, a section costs two look-ups
whatever the law, and no grid of fibres exists whose size could change the answer
(docs/decisions/integrals-in-a-table.md).

Columns of a table, one row a piece: lower strain, four coefficients of the cubic in (strain − lower
strain), and the integrals of stress, stress·strain and stress·strain² from strain 0 to the lower strain.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from soffit.materials.curve import Array, Piece, StressStrain

COLUMNS = 8
TOLERANCE = 1e-7
"""Largest error of a cubic, relative to the largest stress of the curve."""
FIRST_PARTS = 4
"""Equal parts that a smooth piece is cut into before any is halved."""
MOST_HALVINGS = 12
NARROWEST = 1e-12
"""Strain that a piece must span to count."""
_FAR = 1e3
"""Strain beyond which nothing is ever asked."""
# Gauss–Lobatto points: the integral of the interpolating cubic is exact to the fifth degree
_LOBATTO = np.array([0.0, 0.5 - 0.5 / np.sqrt(5.0), 0.5 + 0.5 / np.sqrt(5.0), 1.0])
_PROBE = np.array([0.13, 0.5, 0.87])
_TO_COEFFICIENTS = np.linalg.inv(np.vander(_LOBATTO, 4, increasing=True))


def tabulate(curve: StressStrain) -> Array:
    """Table of one curve, shape (rows, 8). Outside the curve the stress is zero.

    Parts of a smooth piece are halved until the cubic through four points of a part errs by less than
    ``TOLERANCE`` of the largest stress (or ``MOST_HALVINGS`` are reached, beside a point where the law is
    not smooth).
    """
    largest = max(float(np.max(np.abs(_sample(piece)))) for piece in curve.pieces) or 1.0
    # two strains that meet but for rounding leave a piece that is none
    pieces = [piece for piece in curve.pieces if piece.high - piece.low > NARROWEST]
    parts = [_cubics(piece, largest) for piece in pieces]
    lows = np.concatenate([[-_FAR], *(low for low, _ in parts), [curve.high]])
    coefficients = np.vstack([np.zeros((1, 4)), *(c for _, c in parts), np.zeros((1, 4))])
    return with_integrals(lows, coefficients)


def with_integrals(lows: Array, coefficients: Array) -> Array:
    """Complete a table from lower strains (n,) and cubic coefficients (n, 4); integrals are zero at
    strain 0.
    """
    n = len(lows)
    table = np.zeros((n, COLUMNS))
    table[:, 0], table[:, 1:5] = lows, coefficients
    widths = np.diff(lows)
    powers = widths[:, None] ** np.arange(1, 7)
    c = coefficients[:-1]
    j0, j1, j2 = (sum(c[:, i] * powers[:, i + k] / (i + k + 1) for i in range(4)) for k in range(3))
    e = lows[:-1]
    steps = np.stack([j0, e * j0 + j1, e * e * j0 + 2 * e * j1 + j2], axis=1)
    # summed outward from zero: the integrals near zero are small, and a sum from the far end would drown
    # them
    zero = int(np.searchsorted(lows, 0.0, side="right")) - 1
    table[zero, 5:8] = -_integrals_at(table, 0.0)
    table[zero + 1 :, 5:8] = table[zero, 5:8] + np.cumsum(steps[zero:], axis=0)
    table[:zero, 5:8] = table[zero, 5:8] - np.cumsum(steps[:zero][::-1], axis=0)[::-1]
    return table


@dataclass(frozen=True)
class Laws:
    """Several tables in one array: rows ``first[i]`` to ``last[i]`` hold law i."""

    table: Array
    first: NDArray[np.int64]
    last: NDArray[np.int64]


def stack(tables: Sequence[Array]) -> Laws:
    """Put tables one under another, as the kernels want them."""
    ends = np.cumsum([len(t) for t in tables])
    first = np.concatenate([[0], ends[:-1]])
    return Laws(np.ascontiguousarray(np.vstack(tables)), first.astype(np.int64), (ends - 1).astype(np.int64))


def _sample(piece: Piece) -> Array:
    return piece.stress(np.linspace(piece.low, piece.high, 33))


def _cubics(piece: Piece, largest: float) -> tuple[Array, Array]:
    if piece.straight:
        ends = piece.stress(np.array([piece.low, piece.high]))
        slope = (ends[1] - ends[0]) / (piece.high - piece.low)
        return np.array([piece.low]), np.array([[ends[0], slope, 0.0, 0.0]])
    edges = np.linspace(piece.low, piece.high, FIRST_PARTS + 1)
    edges[-1] = piece.high
    lows, highs = edges[:-1], edges[1:]
    done = []
    for halving in range(MOST_HALVINGS + 1):
        coefficients, error = _fit(piece, lows, highs)
        close = (error <= TOLERANCE * largest) | (halving == MOST_HALVINGS)
        done.append((lows[close], coefficients[close]))
        lows, highs = lows[~close], highs[~close]
        middles = 0.5 * (lows + highs)
        lows, highs = np.concatenate([lows, middles]), np.concatenate([middles, highs])
        if not len(lows):
            break
    starts, cubics = np.concatenate([x for x, _ in done]), np.vstack([c for _, c in done])
    order = np.argsort(starts)
    return starts[order], cubics[order]


def _fit(piece: Piece, lows: Array, highs: Array) -> tuple[Array, Array]:
    """Cubics through four points of each part, and their largest error at three points between."""
    widths = highs - lows
    points = np.minimum(lows[:, None] + widths[:, None] * _LOBATTO, piece.high)
    unit = piece.stress(points) @ _TO_COEFFICIENTS.T
    there = unit @ np.vander(_PROBE, 4, increasing=True).T
    error = np.max(np.abs(there - piece.stress(lows[:, None] + widths[:, None] * _PROBE)), axis=1, initial=0.0)
    return unit / widths[:, None] ** np.arange(4), error


def _integrals_at(table: Array, strain: float) -> Array:
    row = table[np.searchsorted(table[:, 0], strain, side="right") - 1]
    t, e = strain - row[0], row[0]
    j0, j1, j2 = (sum(row[1 + i] * t ** (i + k + 1) / (i + k + 1) for i in range(4)) for k in range(3))
    return row[5:8] + np.array([j0, e * j0 + j1, e * e * j0 + 2 * e * j1 + j2])

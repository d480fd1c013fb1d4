"""What a topping adds to the sections of a beam whose past has left the two with strains of their own."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials import compression, tension
from soffit.materials.curve import Array, StressStrain, join
from soffit.member.standing import Standing, shifted


@dataclass(frozen=True)
class Topped:
    """A topping as the sections see it, asked by the plane of strain of the beam's own concrete."""

    low: float
    """Height of its soffit above the beam's, mm."""
    offset: float
    """By how much it is strained more than that plane says, where sections crack and fail."""
    laws: tuple[StressStrain, StressStrain]
    """Without tension and with it."""
    sums: tuple[float, float, float]
    """What ΣEA, ΣEAy, ΣEAy² change by, for its modulus is its own."""
    force: Array
    """(stations,): its force where the plane has no strain, N."""
    moment: Array
    """The same about the axis, N·mm."""


def topped(standing: Standing, x: Array, modulus: float, axis: float, band: float) -> Topped | None:
    """The topping at the stations ``x``; none without one.

    modulus: of the beam's concrete, with which the whole outline is counted, MPa; axis: about which moments are taken,
    mm; band: over which one bending crack is spread, mm.
    """
    cast = standing.topping
    if cast is None:
        return None
    own, more, plane = cast.outline, cast.concrete.modulus - modulus, standing.offset(x)
    y = own.centroid + cast.low
    e = cast.concrete.modulus
    force = e * own.area * (plane[:, 0] - plane[:, 1] * y)
    offset = _offset(standing, cast.low + 0.5 * own.depth)
    squeeze, pull = compression.curve(cast.concrete), tension.cohesive(cast.concrete, band)
    both = join("topping", f"{squeeze.source}; {pull.source}", squeeze, pull)
    return Topped(
        low=cast.low,
        offset=offset,
        laws=(shifted(squeeze, offset), shifted(both, offset)),
        sums=(more * own.area, more * own.area * y, more * (own.inertia + own.area * y * y)),
        force=force,
        moment=-force * (y - axis) + e * own.inertia * plane[:, 1],
    )


def _offset(standing: Standing, y: float) -> float:
    """Strain of the topping over the beam's plane at height ``y`` in the section with the greatest moment."""
    plane = standing.offset(standing.x)[int(np.argmax(np.abs(standing.moment)))]
    return float(plane[0] - plane[1] * y)

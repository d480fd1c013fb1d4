"""The supports as they stand at a time: unit diagrams of their open moments, reactions, what a change of them does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from soffit.errors import PhysicsError
from soffit.materials.curve import Array
from soffit.member import statics
from soffit.member.beam import Load
from soffit.member.supports import Supports

SIDE = 1e-3
"""mm beside a support, for the jump of the shear there."""


@dataclass(frozen=True)
class Structure:
    supports: Supports
    diagrams: Array
    """(open moments, stations)."""
    weights: Array
    """(open moments, stations): ∫ κ m dx = weights · κ."""
    settled: Array
    """(stations,): curvature with which the beam came to lie on these supports, 1/mm."""


def structure(x: Array, length: float, supports: Supports, settled: Array) -> Structure:
    units = statics.redundant_diagrams(x, length, supports)
    diagrams = np.array([d.moment for d in units]).reshape(len(units), len(x))
    weights = np.array([statics.product_weights(x, m) for m in diagrams]).reshape(diagrams.shape)
    return Structure(supports, diagrams, weights, settled)


def reactions(length: float, supports: Supports, loads: Sequence[Load], open_moments: Sequence[float]) -> list[Load]:
    """What the supports carry under loads and open moments, as the downward loads that would replace them."""
    found = []
    for s in supports.x:
        sides = np.array([s - SIDE, s + SIDE])
        shear = statics.released(sides, length, supports, loads).shear
        for moment, unit in zip(open_moments, statics.redundant_diagrams(sides, length, supports), strict=True):
            shear = shear + moment * unit.shear
        left = 0.0 if s - SIDE < 0.0 else float(shear[0])
        right = 0.0 if s + SIDE > length else float(shear[1])
        found.append(statics.point(right - left, s))
    return found


def taken_away(
    length: float, old: Supports, new: Supports, loads: Sequence[Load], open_moments: Sequence[float]
) -> list[Load]:
    """Downward loads that stand for the supports which go. Raises ``PhysicsError`` where a fixed end goes."""
    if (old.fixed_left and not new.fixed_left) or (old.fixed_right and not new.fixed_right):
        raise PhysicsError("a fixed end cannot be let go in a stage: give the beam simple supports until it is fixed")
    kept = set(new.x)
    return [r for r in reactions(length, old, loads, open_moments) if r.x_from not in kept]

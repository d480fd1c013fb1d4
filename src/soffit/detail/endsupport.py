"""The support at one end of a beam: its reactions, and the bearing plate under the beam."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from soffit.codes.endzone import Reaction
from soffit.detail.endplaces import Side
from soffit.materials.curve import Array
from soffit.member import balance, statics
from soffit.member.beam import Beam, Load
from soffit.member.loading import PERMANENT_CASES, topping_weight

POINTS = 2001
"""Stations over the beam at which diagrams are integrated."""


def reaction(beam: Beam, side: Side) -> Reaction | None:
    """Of the support at this end, N; none where it holds the rotation, or where there is one support alone.

    Over more than two supports: elastic, uncracked, one stiffness all along, with the secondary reaction of the
    post-tensioned tendons as they act in the life. Loads stand as the file gives them; of the variable ones those that
    lift the end are left out.
    """
    held, left = beam.supports, side == "left"
    if len(held.x) < 2 or held.fixed_left or held.fixed_right:
        return None
    permanent = [*balance.permanent_loads(beam), *_topping(beam)]
    variable = [load for load in beam.loads if load.case not in PERMANENT_CASES]
    opened = _open(beam, [permanent, *([load] for load in variable)], left)
    shares = [_released(beam, load, left) for load in variable]
    span = abs(held.x[1] - held.x[0]) if left else abs(held.x[-1] - held.x[-2])
    total = sum(_released(beam, load, left) for load in permanent) + opened[0] / span
    secondary = 0.0
    if len(held.x) > 2:
        secondary = balance.moments(beam, balance.acting(beam)).reactions[0 if left else -1]
    if abs(secondary) < 1e-6 * abs(total):
        secondary = 0.0  # concordant: what is left is rounding
    rising = sum(max(share + moment / span, 0.0) for share, moment in zip(shares, opened[1:], strict=True))
    return Reaction(float(total), float(rising), float(secondary))


def _topping(beam: Beam) -> list[Load]:
    topping = beam.making.topping if beam.making else None
    if topping is None or not beam.self_weight:
        return []
    return [topping_weight(topping, beam.length)]


def _released(beam: Beam, load: Load, left: bool) -> float:
    """Reaction of the end's support where every interior support is a hinge, N."""
    x = beam.supports.x
    here, there = (x[0], x[1]) if left else (x[-1], x[-2])
    low, high = (0.0, beam.length) if len(x) == 2 else (0.0, there) if left else (there, beam.length)
    a, b = max(load.x_from, low), min(load.x_to, high)
    if a > b or (a == b and not load.is_point):
        return 0.0
    force = load.value if load.is_point else load.value * (b - a)
    return force * (there - (a + b) / 2) / (there - here)


def _open(beam: Beam, cases: Sequence[Sequence[Load]], left: bool) -> Array:
    """Moment over the support next to the end's, sagging positive, of each case, N·mm; zeros on two supports."""
    if len(beam.supports.x) == 2:
        return np.zeros(len(cases))
    loads = [load for case in cases for load in case]
    places = {*beam.supports.x, *(x for load in loads for x in (load.x_from, load.x_to))}
    x = np.unique(np.concatenate([np.linspace(0.0, beam.length, POINTS), sorted(places)]))
    units = [d.moment for d in statics.redundant_diagrams(x, beam.length, beam.supports)]
    weights = np.array([statics.product_weights(x, unit) for unit in units])
    free = np.array([statics.released(x, beam.length, beam.supports, case).moment for case in cases])
    found = np.linalg.solve(weights @ np.array(units).T, -weights @ free.T)
    return np.asarray(found[0 if left else -1])


def bearing_length(beam: Beam, side: Side) -> float:
    """Length of the bearing plate that lies under the beam, mm."""
    x = beam.supports.x[0 if side == "left" else -1]
    half = beam.supports.bearing / 2
    return max(min(x + half, beam.length) - max(x - half, 0.0), 0.0)

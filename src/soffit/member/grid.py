"""Stations along the beam: every place where something changes, and enough between them."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import numpy as np

from soffit.materials.curve import Array
from soffit.member.beam import Beam

PIECES = 50
"""Stretches into which the beam is cut at the least."""
NEAR = (0.125, 0.25, 0.5)
"""Distances from a concentrated force, in depths, at which there are stations too: curvature changes fast there."""
_SIDE = 1e-6
"""Two stations this far apart (mm) stand for the two sides of a jump."""


def stations(beam: Beam, jumps_at: Iterable[float] = ()) -> Array:
    """Rising x of the stations, mm; where reinforcement begins or ends there is one on each side."""
    jumps = {*jumps_at, *(e for bar in beam.bars for e in (bar.x_from, bar.x_to))}
    forces = {load.x_from for load in beam.loads if load.is_point}
    forces |= set(beam.press.points if beam.press else ()) | set(beam.supports.x)
    jumps |= forces
    plain = {0.0, beam.length}
    plain |= {0.5 * (a + b) for a, b in pairwise(sorted({0.0, *forces, beam.length}))}
    plain |= {e for load in beam.loads for e in (load.x_from, load.x_to)}
    plain |= {x + side * share * beam.outline.depth for x in forces for share in NEAR for side in (-1.0, 1.0)}
    plain |= {e for zone in beam.stirrups for e in (zone.x_from, zone.x_to)}
    plain |= {x for tendon in beam.tendons for x in (*tendon.profile.x, tendon.x_from, tendon.x_to)}
    if beam.press and beam.press.gauge is not None:
        plain.add(beam.press.gauge)
    points = sorted(x for x in plain | jumps if 0.0 <= x <= beam.length)
    longest = beam.length / PIECES
    x: list[float] = []
    for a, b in pairwise(points):
        n = max(1, int(np.ceil((b - a) / longest - 1e-9)))
        x.extend(np.linspace(a, b, n + 1)[:-1])
    x.append(beam.length)
    both = [e + side for e in jumps for side in (-_SIDE, _SIDE)]
    every = np.array(sorted([*x, *(e for e in both if 0.0 < e < beam.length)]))
    return every[np.concatenate([[True], np.diff(every) > 0.4 * _SIDE])]

"""The days at which the state is computed: close together after every deed, then further and further apart."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from soffit.materials.curve import Array
from soffit.member import profile, transfer_length
from soffit.member.beam import Beam
from soffit.member.making import Making

PER_DECADE = 8
"""Steps in a tenfold of the time since the last deed."""
A_SPAN = 32
"""Pieces of each span where moments over supports are open: they come out within 0.1 %."""
FIRST = 0.05
"""Days of the first step after a deed."""


def times(start: float, deeds: Sequence[float], per_decade: int = PER_DECADE) -> tuple[Array, tuple[int, ...]]:
    """Days of the steps, from ``start`` to the last deed, and the step just after each deed.

    Every deed has a step before it and one after it at the same day, so that its instant change is a step of no length.
    ``per_decade`` of 0: one step from deed to deed, as the age-adjusted method has them.
    """
    t: list[float] = [start]
    after: list[int] = []
    for at in deeds:
        if at > t[-1] + 1e-9:
            t += _between(t[-1], at, per_decade)
        t.append(at)
        after.append(len(t) - 1)
    return np.array(t), tuple(after)


def _between(a: float, b: float, per_decade: int) -> list[float]:
    """Days after ``a`` up to ``b``; steps grow in a geometric series that ends at ``b`` exactly."""
    span = b - a
    if per_decade == 0:
        return [b]
    first = min(FIRST * 8.0 / per_decade, span)
    n = max(2, int(np.ceil(per_decade * np.log10(span / first + 1.0))))
    grown = (np.geomspace(1.0, span / first + 1.0, n + 1) - 1.0) * first
    return [*(a + grown[1:-1]), b]


def stations(beam: Beam, making: Making, pieces: int = 40) -> Array:
    """Rising x along the beam, mm: even pieces (of more than one span at least ``A_SPAN`` each), supports, point loads,
    and the ends and corners of the tendons."""
    pieces = max(pieces, A_SPAN * (len(beam.supports.x) - 1) if len(beam.supports.x) > 2 else 0)
    wanted = {*np.linspace(0.0, beam.length, pieces + 1), *beam.supports.x}
    for stage in making.stages:
        wanted |= set(stage.supports.x if stage.supports else ())
    wanted |= {load.x_from for load in beam.loads} | {load.x_to for load in beam.loads}
    wanted |= {e for bar in beam.bars for e in (bar.x_from, bar.x_to)}
    wanted |= {x for t in beam.tendons for x in (*profile.breaks(t.profile), t.x_from, t.x_to)}
    for t in beam.tendons:
        if t.when == "before casting":
            reach = transfer_length.transfer_length(beam, t, t.stress)
            wanted |= {t.x_from + reach, t.x_to - reach}
    x = np.array(sorted(w for w in wanted if -1e-9 <= w <= beam.length + 1e-9))
    keep = np.concatenate([[True], np.diff(x) > 1e-3 * beam.length / pieces])
    x = x[keep]
    x[0], x[-1] = 0.0, beam.length
    return np.asarray(x)

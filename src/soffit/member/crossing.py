"""Find in a history when and where a quantity first reaches a limit."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from soffit.materials.curve import Array


@dataclass(frozen=True)
class Crossing:
    step: float
    """Position in the history; 2.25 is a quarter of the way from step 2 to step 3."""
    station: int


def first_crossing(values: Array, limit: Array | float, where: NDArray[np.bool_] | None = None) -> Crossing | None:
    """The earliest step at which ``values`` (steps, stations) reach ``limit`` at a station of ``where``.

    Between steps the values are linear. Already reached in the first step: step 0.
    """
    over = values >= limit
    if where is not None:
        over = over & where
    rows = np.flatnonzero(over.any(axis=1))
    if not len(rows):
        return None
    i = int(rows[0])
    limits = np.broadcast_to(limit, values.shape)
    stations = np.flatnonzero(over[i])
    if i == 0:
        past = values[0, stations] - limits[0, stations]
        return Crossing(0.0, _middle(stations[past >= past.max() - 1e-9 * abs(past.max())]))
    before, after = values[i - 1, stations], values[i, stations]
    goal = limits[i, stations]
    rise = np.where(after > before, after - before, 1.0)
    t = np.clip((goal - before) / rise, 0.0, 1.0)
    least = float(t.min())
    return Crossing(i - 1 + least, _middle(stations[t <= least + 1e-6]))


def _middle(tied: NDArray[np.intp]) -> int:
    """Of stations that are equally far (a stretch of equal moment), the middle one."""
    return int(tied[len(tied) // 2])


def at(values: Array, step: float) -> Array:
    """Values (steps, …) at a position in the history, linear between steps."""
    i = int(np.clip(np.floor(step), 0, len(values) - 1))
    if i + 1 >= len(values) or step == i:
        return np.asarray(values[i])
    t = step - i
    return np.asarray(values[i] * (1.0 - t) + values[i + 1] * t)

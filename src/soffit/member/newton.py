"""Newton's method with slopes by differences, corrected from step to step (Broyden 1965), shortened when need be.

Written out here because the slopes are kept between the steps of a march, which a library solver does not do.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array
from soffit.member.step import Step

ATTEMPTS = 40
HALVINGS = 7
GAIN = 0.98
"""Share of the residual below which a shortened step is worth taking."""


@dataclass(frozen=True)
class Lost:
    """No solution was found; ``last`` is the last trial."""

    last: Step


def settle(
    trial: Callable[[Array], Step],
    residual: Callable[[Step], Array],
    start: Array,
    tolerance: Array,
    size: Array,
    slopes: Array | None,
    held: int,
) -> tuple[Step | Lost, Array | None]:
    """The step whose residual is within ``tolerance``, and the slopes to begin the next search with.

    ``size``: what is a small change of each unknown; ``held``: the first so many unknowns keep their values.
    """
    u, step = start, trial(start)
    r = residual(step)
    fresh = False
    for _ in range(ATTEMPTS):
        if not np.all(np.isfinite(r)):
            break
        if np.all(np.abs(r) <= tolerance):
            return step, slopes
        if slopes is None or len(slopes) != len(u):
            slopes, fresh = _differences(trial, residual, u, size, r, held), True
        if not np.all(np.isfinite(slopes)):
            break
        change = np.linalg.lstsq(slopes * size, -r, rcond=None)[0] * size
        new, change, after = _shortened(trial, residual, u, change, r, tolerance)
        if new is None:
            if fresh:
                break
            slopes = None
            continue
        # correct the slopes by what this step has shown
        miss = after - r - slopes @ change
        scaled = change / size**2
        slopes = slopes + np.outer(miss, scaled) / max(float(scaled @ change), 1e-300)
        u, step, r, fresh = u + change, new, after, False
    return Lost(step), None


def _shortened(
    trial: Callable[[Array], Step],
    residual: Callable[[Step], Array],
    u: Array,
    change: Array,
    r: Array,
    tolerance: Array,
) -> tuple[Step | None, Array, Array]:
    """The step along ``change``, halved until it brings the residual down; None where no part of it does."""
    before = float(np.max(np.abs(r) / tolerance))
    for _ in range(HALVINGS):
        new = trial(u + change)
        after = residual(new)
        if np.all(np.isfinite(after)) and float(np.max(np.abs(after) / tolerance)) < GAIN * before:
            return new, change, after
        change = 0.5 * change
    return None, change, r


def _differences(
    trial: Callable[[Array], Step], residual: Callable[[Step], Array], u: Array, size: Array, r: Array, held: int
) -> Array:
    out = np.empty((len(u), len(u)))
    for i in range(len(u)):
        v = u.copy()
        v[i] += size[i]
        out[:, i] = (residual(trial(v)) - r) / size[i]
    out[:held, :held] = np.eye(held)
    return out

"""What no concrete and no clock has is refused here, in one sentence."""

from __future__ import annotations

import numpy as np

from soffit.materials.curve import Array

EARLIEST_LOADING = 0.1
"""Days. Before about 2.4 hours concrete is not hard, and no standard has a creep coefficient for it."""


def between(what: str, value: float, low: float, high: float, unit: str = "") -> float:
    """``value``, or ``ValueError`` where it is outside (or not a number)."""
    if not low <= value <= high:
        u = f" {unit}" if unit else ""
        raise ValueError(f"the {what} is {value:g}{u}, and only values from {low:g} to {high:g}{u} are accepted")
    return float(value)


def one_of(what: str, value: str, known: tuple[str, ...]) -> str:
    """``value``, or ``ValueError`` with the list of what there is."""
    if value not in known:
        raise ValueError(f"there is no {what} {value!r}: choose one of {', '.join(known)}")
    return value


def ages(age: Array | float) -> Array:
    """Days since casting as an array. Raises ``ValueError`` for what is not a positive number."""
    t = np.asarray(age, dtype=float)
    if not (np.all(np.isfinite(t)) and np.all(t > 0.0)):
        raise ValueError("the age of a concrete must be a positive number of days since casting")
    return t


def loading_ages(loaded: Array | float) -> Array:
    """Ages at loading, days. Raises ``ValueError`` before the concrete is hard."""
    t0 = ages(loaded)
    if not np.all(t0 >= EARLIEST_LOADING):
        raise ValueError(
            f"a load at an age of {float(np.min(t0)):g} days meets no hard concrete: the earliest age is "
            f"{EARLIEST_LOADING:g} days"
        )
    return t0


def under_load(age: Array | float, loaded: Array | float) -> Array:
    """Days under load, zero before loading."""
    return np.maximum(ages(age) - loading_ages(loaded), 0.0)

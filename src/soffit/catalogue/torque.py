"""Torque on a nut and force in the rod, by the nut factor; torque is a poor measure of force."""

from __future__ import annotations

from math import isfinite

from soffit.catalogue.load import rows
from soffit.catalogue.miss import miss, near_names
from soffit.catalogue.records import NutFactor
from soffit.catalogue.spelling import grade_key
from soffit.errors import SoffitError

USUAL_NUT_FACTOR = 0.20
"""Steel as received, neither cleaned nor greased (*common practice*)."""

TORQUE_SCATTER = 0.30
"""Half-width of the band of force at a given torque, relative (*from memory*; common practice ±25–30 %)."""


def force_from_torque(torque: float, diameter: float, factor: float = USUAL_NUT_FACTOR) -> float:
    """Force in the rod, N: F = T / (K d). ``torque`` in N mm, nominal ``diameter`` in mm.

    Source: the nut-factor method of machine design (*common practice*). Raises for values not above zero.
    """
    _positive(torque=torque, diameter=diameter, factor=factor)
    return torque / (factor * diameter)


def torque_for_force(force: float, diameter: float, factor: float = USUAL_NUT_FACTOR) -> float:
    """Torque on the nut, N mm: T = K d F. ``force`` in N, nominal ``diameter`` in mm."""
    _positive(force=force, diameter=diameter, factor=factor)
    return factor * diameter * force


def nut_factor(condition: str) -> NutFactor:
    """The range of the nut factor for a state of the surfaces (``"dry steel"``, …). Raises CatalogueMiss."""
    table = {grade_key(row["name"]): row for row in rows("nut-factors")}
    key = grade_key(condition)
    if key not in table:
        keys = {k: row["name"] for k, row in table.items()}
        raise miss("state of thread surfaces", condition, near_names(key, keys), keys.values())
    row = table[key]
    return NutFactor(row["name"], row["low"], row["high"], row["source"])


def _positive(**values: float) -> None:
    for name, value in values.items():
        if not (isfinite(value) and value > 0.0):
            raise SoffitError(f"the {name} must be positive, not {value:g}")

"""The strengths that limits of stress and losses go by, from the mean strength of a past; MPa.

Limits go by the specified strength: the one ordered, or the mean less 8 MPa.
"""

from __future__ import annotations

from dataclasses import dataclass

from soffit.member.time.result import Past
from soffit.member.time.schedule import days, making_of

MARGIN = 8.0
"""Mean over specified strength, MPa (EN 1992-1-1:2004 Table 3.1)."""
SAME_DAY = 0.5


@dataclass(frozen=True)
class Strength:
    value: float
    said: str
    """Where it comes from."""


def ordered(past: Past) -> Strength:
    """fck or f'c at 28 days."""
    cast = making_of(past.beam).casting
    if cast.specified is not None:
        return Strength(cast.specified, f"{cast.specified:.4g} MPa as ordered")
    return Strength(cast.ordered, f"mean {cast.strength:.4g} − 8 = {cast.ordered:.4g} MPa at 28 days")


def at_age(past: Past, step: int) -> Strength:
    """Before 28 days the mean less 8 MPa (EN 1992-1-1:2004 3.1.2 (5)), never above the ordered one.

    Raises ``ValueError`` where nothing is left.
    """
    age, mean, full = float(past.t[step]), float(past.strength[step]), ordered(past)
    if age >= 28.0 or mean - MARGIN >= full.value:
        return full
    if mean <= MARGIN:
        raise ValueError(f"a mean strength of {mean:.1f} MPa at {days(age)} leaves no specified one (less 8 MPa)")
    return Strength(mean - MARGIN, f"mean {mean:.1f} − 8 = {mean - MARGIN:.1f} MPa at {days(age)}")


def at_release(past: Past, step: int) -> Strength:
    """f'ci of ACI 318 and AASHTO: that which cylinders must show before release, where the file gives it; else as
    :func:`at_age`."""
    cast, age = making_of(past.beam).casting, float(past.t[step])
    given, day = cast.transfer_strength, cast.transfer_age
    if given is not None and (day is None or abs(age - day) <= SAME_DAY):
        return Strength(given, f"{given:.4g} MPa, the strength at transfer")
    return at_age(past, step)

"""Real diameters of mating threads: the basic profile less allowance and tolerance."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import sqrt
from typing import Literal

from soffit.catalogue.records import Thread

Fit = Literal["basic", "middle", "least"]

_SHARE: dict[Fit, float] = {"basic": 0.0, "middle": 0.5, "least": 1.0}
# ISO 965-1: the tolerance of a diameter is that of the geometric mean of its range, mm
_RANGES = (2.8, 5.6, 11.2, 22.4, 45.0, 90.0)


@dataclass(frozen=True)
class Mating:
    """Diameters that decide how much thread is sheared when it strips, mm."""

    rod_major: float
    rod_pitch: float
    nut_pitch: float
    nut_minor: float


def mating(thread: Thread, fit: Fit) -> Mating:
    """Diameters of rod and nut: ``"basic"`` without play, ``"middle"`` of the tolerances, ``"least"`` metal.

    Sources: ISO 965-1:2013 class 6g/6H; ASME B1.1-2003 class 2A/2B (formulas *from memory*, compared in the
    tests with published stripping areas).
    """
    play, rod_major, rod_pitch, nut_pitch, nut_minor = (
        _metric_tolerances(thread) if thread.system == "metric" else _inch_tolerances(thread)
    )
    share = _SHARE[fit]
    allowance = 0.0 if fit == "basic" else play
    return Mating(
        rod_major=thread.diameter - allowance - share * rod_major,
        rod_pitch=thread.pitch_diameter - allowance - share * rod_pitch,
        nut_pitch=thread.pitch_diameter + share * nut_pitch,
        nut_minor=thread.minor_diameter + share * nut_minor,
    )


def _metric_tolerances(thread: Thread) -> tuple[float, ...]:
    """Allowance g and tolerances of grade 6 (rod major, rod pitch, nut pitch, nut minor), mm; ISO 965-1."""
    p, d = thread.pitch, thread.diameter
    low, high = next((a, b) for a, b in pairwise(_RANGES) if a < d <= b)
    mean = sqrt(low * high)
    allowance = 15.0 + 11.0 * p
    rod_major = 180.0 * p ** (2 / 3) - 3.15 / sqrt(p)
    rod_pitch = 90.0 * p**0.4 * mean**0.1
    nut_minor = 433.0 * p - 190.0 * p**1.22 if p <= 0.8 else 230.0 * p**0.7
    return tuple(x / 1000.0 for x in (allowance, rod_major, rod_pitch, 1.32 * rod_pitch, nut_minor))


def _inch_tolerances(thread: Thread) -> tuple[float, ...]:
    """Allowance and tolerances of class 2 (rod major, rod pitch, nut pitch, nut minor), mm; ASME B1.1.

    The engagement in the pitch tolerance is one diameter; the nut's minor tolerance holds from 1/4 in. on.
    Rounded as the standard does: to 0.0001 in., the nut's largest minor diameter to 0.001 in. (the flanks of
    rod and nut overlap so little that 0.001 in. moves the stripping area of the rod by about 1 %).
    """
    p, d = thread.pitch / 25.4, thread.diameter / 25.4
    rod_pitch = 0.0015 * d ** (1 / 3) + 0.0015 * sqrt(d) + 0.015 * p ** (2 / 3)
    rod_major = 0.060 * p ** (2 / 3)
    minor = thread.minor_diameter / 25.4
    nut_minor = round(minor + 0.25 * p - 0.4 * p**2, 3) - minor
    rounded = (round(x, 4) for x in (0.3 * rod_pitch, rod_major, rod_pitch, 1.3 * rod_pitch))
    return tuple(25.4 * x for x in (*rounded, nut_minor))

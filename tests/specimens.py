"""Invented beams that tests of the member cast and break, in base units (N, mm, MPa)."""

from __future__ import annotations

from math import pi
from typing import Any

from soffit.materials.concrete import Concrete
from soffit.materials.steel import Steel
from soffit.member.beam import BarGroup, Beam, Load, Press, Profile, StirrupZone, Supports, TendonGroup
from soffit.section.outline import Outline, rectangle

CONCRETE = Concrete(strength=35.0, tensile=2.7, modulus=30000.0, fracture_energy=0.14, max_aggregate=16.0)
BAR = Steel("plateau", 200000.0, 550.0, 640.0, 0.08, 0.02)
FLAT = Steel("plateau", 200000.0, 500.0, 500.0, 0.05)
"""Elastic, then plastic without hardening."""
STRAND = Steel("strand", 195000.0, 1640.0, 1860.0, 0.035)
ROD = Steel("bilinear", 205000.0, 640.0, 800.0, 0.06)
FIBRE = Steel("linear", 45000.0, 800.0, 800.0, 800.0 / 45000.0)


def bars(count: int, diameter: float, y: float, length: float, steel: Steel = BAR, **more: Any) -> BarGroup:
    """Bars from end to end of a beam ``length`` long, welded to plates so that bond is no matter unless asked."""
    more = {"x_from": 0.0, "x_to": length, "end_left": "welded plate", "end_right": "welded plate"} | more
    return BarGroup(count, diameter, count * pi * diameter**2 / 4, y, steel, **more)


def tendon(area: float, y: float | Profile, length: float, stress: float, **more: Any) -> TendonGroup:
    """One tendon, unbonded in its duct unless asked otherwise, with the given stress left after all losses."""
    profile = y if isinstance(y, Profile) else Profile((0.0,), (y,))
    more = {
        "count": 1, "diameter": 12.5, "steel": STRAND, "when": "after curing", "bond": "unbonded",
        "stress_is": "effective", "x_from": 0.0, "x_to": length,
    } | more  # fmt: skip
    return TendonGroup(area=area, profile=profile, stress=stress, **more)


def stirrups(length: float, diameter: float = 8.0, spacing: float = 100.0, **more: Any) -> StirrupZone:
    more = {"legs": 2, "steel": BAR, "x_from": 0.0, "x_to": length} | more
    return StirrupZone(area=more["legs"] * pi * diameter**2 / 4, spacing=spacing, diameter=diameter, **more)


def beam(length: float, outline: Outline | None = None, **more: Any) -> Beam:
    """A beam 200 × 300 mm on a simple span, pressed in its third points, without weight, unless asked otherwise."""
    more = {"concrete": CONCRETE, "supports": Supports((0.0, length)), "self_weight": False} | more
    if "press" not in more and "loads" not in more:
        more["press"] = Press((length / 3, 2 * length / 3))
    return Beam("specimen", outline=outline or rectangle(200.0, 300.0), length=length, **more)


def uniform(length: float, value: float = 1.0, case: str = "live") -> Load:
    return Load(case, value, 0.0, length)

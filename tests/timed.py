"""Beams with a making, for the tests of what time does to them."""

from __future__ import annotations

from collections.abc import Sequence

from soffit.materials.ageing.casting import Casting
from soffit.materials.properties import concrete
from soffit.materials.steel import Steel
from soffit.member.beam import BarGroup, Beam, Load, Profile, Supports, TendonGroup
from soffit.member.making import Making, Scales, Stage, Topping
from soffit.section.outline import rectangle

STRAND = Steel("strand", 195e3, 1640.0, 1860.0, 0.035)
BAR = Steel("bilinear", 200e3, 500.0, 550.0, 0.05)
STILL = Scales(creep=1e-12, shrinkage=1e-12, relaxation=1e-12)
"""Nothing creeps, shrinks or relaxes."""
ONLY_CREEP = Scales(shrinkage=1e-12, relaxation=1e-12)
YEARS = 18262.0


def cast(strength: float = 43.0, **more: float) -> Casting:
    return Casting(strength=strength, humidity=60.0, notional_size=200.0, **more)  # type: ignore[arg-type]


def making(
    stages: Sequence[Stage],
    scales: Scales | None = None,
    topping: Topping | None = None,
    model: str = "EN 1992-1-1",
    casting: Casting | None = None,
) -> Making:
    return Making(model, casting or cast(), tuple(stages), topping, scales or Scales())


def strands(y: float, length: float, count: int = 8, stress: float = 1250.0, name: str = "A") -> TendonGroup:
    return TendonGroup(
        count,
        12.5,
        count * 93.0,
        STRAND,
        Profile((0.0, length), (y, y)),
        "before casting",
        "bonded",
        stress,
        x_to=length,
        name=name,
        transfer_length=1e-3,
    )


def in_duct(
    profile: Profile, length: float, count: int = 4, bond: str = "bonded", stress: float = 1300.0, name: str = "A"
) -> TendonGroup:
    return TendonGroup(
        count,
        15.7,
        count * 150.0,
        STRAND,
        profile,
        "after curing",
        bond,  # type: ignore[arg-type]
        stress,
        x_to=length,
        name=name,
    )


def beam(
    made: Making,
    length: float = 10000.0,
    width: float = 400.0,
    depth: float = 500.0,
    supports: Supports | None = None,
    tendons: Sequence[TendonGroup] = (),
    bars: Sequence[BarGroup] = (),
    loads: Sequence[Load] = (),
    self_weight: bool = True,
    strength: float = 43.0,
) -> Beam:
    return Beam(
        "timed",
        concrete(strength),
        rectangle(width, depth),
        length,
        supports or Supports((0.0, length)),
        tuple(bars),
        tuple(tendons),
        loads=tuple(loads),
        self_weight=self_weight,
        making=made,
    )


def bars(area: float, y: float, length: float = 10000.0) -> BarGroup:
    return BarGroup(2, 20.0, area, y, BAR, 0.0, length)

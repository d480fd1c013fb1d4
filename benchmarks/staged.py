"""A staged composite girder over thirty years: 20 groups of strands, 21 stations, a slab cast on it later."""

from __future__ import annotations

from soffit.materials.ageing.casting import Casting
from soffit.materials.properties import concrete
from soffit.materials.steel import Steel
from soffit.member.beam import BarGroup, Beam, Load, Profile, Supports, TendonGroup
from soffit.member.making import Making, Stage, Topping
from soffit.section.outline import i_section, rectangle

LENGTH, DEPTH = 30000.0, 1800.0
GROUPS, PIECES = 20, 20
STRAND = Steel("strand", 195e3, 1640.0, 1860.0, 0.035)
BAR = Steel("bilinear", 200e3, 500.0, 550.0, 0.05)


def girder() -> Beam:
    """Invented: 40 strands in 20 groups, straight below and harped above, released at a day, slab at 90 days."""
    groups = tuple(range(GROUPS))
    tendons = tuple(_group(i) for i in groups)
    stages = (
        Stage("stress", -1.0, groups),
        Stage("cast", 0.0),
        Stage("release", 1.0, groups),
        Stage("support", 60.0),
        Stage("topping", 90.0),
        Stage("load", 120.0, cases=("dead",)),
        Stage("load", 150.0, cases=("live",), share=0.3),
        Stage("age", 30 * 365.25),
    )
    slab = Topping(rectangle(2400.0, 220.0), DEPTH, concrete(38.0), Casting(38.0, 70.0, 200.0), 2.0)
    cast = Casting(58.0, 70.0, 180.0, cement="R", cured_until=1.0, transfer_strength=38.0, transfer_age=1.0)
    return Beam(
        "staged girder",
        concrete(58.0, strength_at_transfer=38.0),
        i_section(DEPTH, 180.0, 900.0, 150.0, 700.0, 220.0, 80.0, 120.0),
        LENGTH,
        Supports((200.0, LENGTH - 200.0)),
        (BarGroup(4, 16.0, 804.0, DEPTH - 60.0, BAR, 0.0, LENGTH),),
        tendons,
        loads=(Load("dead", 6.0, 0.0, LENGTH), Load("live", 12.0, 0.0, LENGTH)),
        making=Making("EN 1992-1-1", cast, stages, slab),
    )


def _group(i: int) -> TendonGroup:
    low = 60.0 + 25.0 * (i % 8)
    if i < 14:
        profile = Profile((0.0, LENGTH), (low, low))
    else:
        profile = Profile((0.0, 0.4 * LENGTH, 0.6 * LENGTH, LENGTH), (low + 900.0, low, low, low + 900.0))
    return TendonGroup(
        2, 15.7, 300.0, STRAND, profile, "before casting", "bonded", 1300.0, x_to=LENGTH, name=f"G{i + 1}"
    )

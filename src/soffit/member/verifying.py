"""What a verification wants to know beyond the beam itself, as the table ``[verify]`` of the file gives it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Finishes = Literal["none", "tough", "fragile"]


@dataclass(frozen=True)
class Vehicle:
    """A row of axles that goes over the beam, from either end."""

    name: str
    case: str
    """Of the loads, which decides its factors: ``"traffic"``."""
    axles: tuple[float, ...]
    """Load of each on this beam, N, without ``dynamic``."""
    gaps: tuple[float, ...]
    """Distances from each axle to the next, mm; one fewer."""
    dynamic: float = 1.0
    """By which the loads are multiplied for their movement."""
    both_ways: bool = True
    """Whether the row may also come from the right, last axle last."""


@dataclass(frozen=True)
class Project:
    """For the cover of a calculation; empty where the file does not say."""

    name: str = ""
    number: str = ""
    part: str = ""
    made_by: str = ""
    checked_by: str = ""
    revision: str = ""
    date: str = ""


@dataclass(frozen=True)
class Verifying:
    """Choices that standards leave to the engineer; every default is said in the assumptions."""

    edition: Literal["SI", "inch-pound"] | None = None
    """Of ACI 318-19; none: the units of the file."""
    exposure: tuple[str, ...] = ()
    """Classes as the standards name them: ``"XC3"``, ``"XD1"``; ACI 318 ``"F1"``, ``"W0"``, ``"S0"``, ``"C1"``;
    ``"indoors"``, ``"outdoors"``, ``"ground"`` for the cover by ACI 318."""
    category: str = ""
    """Of use, EN 1990 Table A1.1: A to H; for the loads of the case live."""
    working_life: float = 50.0
    """Years."""
    fire: int | None = None
    """Minutes that the beam is to resist a standard fire; none: not asked."""
    fire_sides: Literal["three sides", "four sides"] = "three sides"
    pattern: bool = True
    """Whether variable loads stand on any choice of spans of a continuous beam."""
    redistribution: float = 0.0
    """Share by which the elastic support moments are reduced."""
    stirrup_angle: float | None = None
    """cot θ of the struts in EN 1992-1-1 and MC 2010; none: the flattest that the struts bear."""
    finishes: Finishes = "none"
    """What rests on the beam and does not bear its deflection: fragile (partitions), tough, or nothing."""
    joint: Literal["very smooth", "smooth", "rough", "keyed"] = "smooth"
    """Surface of the beam under a topping."""
    shape: Literal["slab", "beam"] = "beam"
    reduced_live: bool = False
    """ACI 318-19 5.3.3: whether the load factor of live loads beside others may be 0.5."""
    national: tuple[tuple[str, float], ...] = ()
    """Values of a national annex that take the place of the recommended ones, by name: ``("αcc", 0.85)``."""
    laps: float | None = None
    """Share of the bars lapped in one place; none: no laps."""
    lap_at: tuple[float, ...] = ()
    """Middles of the laps, mm."""
    residual: tuple[float, float] | None = None
    """fR1k and fR3k of a fibre concrete, MPa (MC 2010)."""
    vehicles: tuple[Vehicle, ...] = ()
    axial: tuple[tuple[str, float], ...] = ()
    """Force along the whole beam by cases, N, tension positive: ``("dead", -200e3)``."""
    project: Project = Project()

    def nationally(self, name: str, recommended: float) -> float:
        """The value of a nationally determined parameter."""
        return dict(self.national).get(name, recommended)

"""The beam as the physics sees it: resolved geometry and materials in base units (N, mm, MPa), no text.

x runs from the left end of the beam (overhang included), y upward from the soffit.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from soffit.materials.concrete import Concrete
from soffit.materials.steel import Steel
from soffit.member.making import Making
from soffit.member.supports import Supports
from soffit.member.verifying import Verifying
from soffit.section.outline import Outline

__all__ = [
    "Anchor",
    "BarEnd",
    "BarGroup",
    "Beam",
    "Bed",
    "Load",
    "Making",
    "Press",
    "Profile",
    "StirrupZone",
    "Supports",
    "Surface",
    "TendonGroup",
]

Surface = Literal["deformed", "plain", "threaded"]
BarEnd = Literal["straight", "hook", "welded plate"]


@dataclass(frozen=True)
class BarGroup:
    """Bars of one size at one height."""

    count: int
    diameter: float
    """Nominal, mm."""
    area: float
    """Of the whole group, mm²."""
    y: float
    """Height of the bar centres above the soffit, mm."""
    steel: Steel
    x_from: float
    x_to: float
    end_left: BarEnd = "straight"
    end_right: BarEnd = "straight"
    surface: Surface = "deformed"
    label: str = ""
    """As a person would call it, for tables and pictures: ``"2 × 10 B500B"``."""
    part: Literal["beam", "topping"] = "beam"
    """Which concrete it is cast into."""


@dataclass(frozen=True)
class Profile:
    """Height of a tendon along the beam: straight pieces, one parabola through each three points in turn, or reversed
    parabolas that are level at every given high and low point between the ends."""

    x: tuple[float, ...]
    y: tuple[float, ...]
    shape: Literal["straight", "parabola", "reversed"] = "straight"
    inflection: float = 0.1
    """Reversed parabolas: where the curvature changes sign between a high and a low point, as a share of their distance
    from the high one."""


@dataclass(frozen=True)
class Anchor:
    """What holds the end of a post-tensioned tendon.

    ``capacity`` is the force of one tendon at which the anchor fails, N, and ``reason`` says by what
    (nut stripping, rod thread stripping, wedge efficiency, a measured capacity).
    """

    kind: Literal["wedge", "nut", "bond"]
    capacity: float
    reason: str
    draw_in: float = 0.0
    """Slip of the anchor when it takes the force, mm."""
    plate: tuple[float, float] | None = None
    """Width and height of the plate that presses on the concrete, mm; none: not given."""
    plate_hole: float = 0.0
    """Diameter of the hole in the concrete behind the plate, mm; 0: the duct's."""


@dataclass(frozen=True)
class Bed:
    """The pretensioning bed, for the losses before release."""

    length: float | None = None
    """Between its anchors, mm."""
    slip: float = 0.0
    """Of its anchors and give of the bed, both ends together, mm."""
    warming: float = 0.0
    """How much warmer the strands become in the bed than they were stressed, before the concrete holds them, K."""


@dataclass(frozen=True)
class TendonGroup:
    """Tendons of one size on one profile."""

    count: int
    diameter: float
    area: float
    """Of the whole group, mm²."""
    steel: Steel
    profile: Profile
    when: Literal["before casting", "after curing"]
    bond: Literal["bonded", "unbonded"]
    stress: float
    """At the jack or effective, as ``stress_is`` says, MPa."""
    stress_is: Literal["at the jack", "effective"] = "at the jack"
    stress_scatter: float = 0.0
    """Relative scatter (coefficient of variation) of the way the stress is given (torque, turns); 0 where stated."""
    long_term_loss: float = 0.0
    """Fraction of the stress after the immediate losses."""
    friction: float = 0.0
    """Coefficient per radian (post-tensioned)."""
    wobble: float = 0.0
    """Per mm; the force falls by exp(−(friction·angle + wobble·length))."""
    anchor: Anchor | None = None
    transfer_length: float | None = None
    """mm; none: derived (pretensioned)."""
    duct: float = 0.0
    """Diameter of the hole, mm (post-tensioned)."""
    x_from: float = 0.0
    x_to: float = 0.0
    """Where the tendon begins and ends (its anchors)."""
    jacked_from: Literal["left", "right", "both"] = "left"
    surface: Surface = "deformed"
    label: str = ""
    wire: bool = False
    """Single wires, which need more of their diameters to take up stress than strand does."""
    name: str = ""
    """By which stages call the group: A, B, … unless the file names it."""
    sheathed: tuple[float, float] = (0.0, 0.0)
    """Pretensioned: lengths beyond ``x_from`` and ``x_to`` that run on in the concrete without bond, mm."""
    relaxation: Literal["low relaxation", "ordinary", "bar", "none"] = "low relaxation"
    """Class of relaxation: strand and wire of low or ordinary relaxation, hot-rolled bars, or what does not relax."""
    rho: float | None = None
    """Relaxation in 1000 hours, per cent, by certificate."""
    least_radius: float | None = None
    """mm; none: not given."""
    bed: Bed | None = None
    thread: str = ""
    """Thread in the catalogue on which a nut turns; none where the tendon has none."""
    nut_factor: float | None = None
    """Torque over force times diameter, where the file gives it."""


@dataclass(frozen=True)
class StirrupZone:
    area: float
    """Of all legs of one stirrup, mm²."""
    spacing: float
    diameter: float
    legs: int
    steel: Steel
    x_from: float
    x_to: float
    label: str = ""


@dataclass(frozen=True)
class Load:
    """A downward load. A point load has ``x_from == x_to`` and ``value`` in N; else ``value`` is in N/mm."""

    case: str
    value: float
    x_from: float
    x_to: float
    eccentricity: float = 0.0
    """Of its line from the axis of the beam, mm; the load then twists the beam (verification alone counts it)."""
    category: str = ""
    """Of use, EN 1990 Table A1.1, where it is not that of the whole beam."""

    @property
    def is_point(self) -> bool:
        return self.x_from == self.x_to


@dataclass(frozen=True)
class Press:
    points: tuple[float, ...]
    """Where it pushes; each point takes an equal share of the total."""
    capacity: float | None = None
    """N."""
    stroke: float | None = None
    plate: float = 0.0
    """Length of the loading plates along the beam, mm; 0 where not given."""
    gauge: float | None = None
    """Where the deflection is read; none: where it is greatest."""


@dataclass(frozen=True)
class Beam:
    name: str
    concrete: Concrete
    outline: Outline
    length: float
    """End to end, overhangs included, mm."""
    supports: Supports
    bars: tuple[BarGroup, ...] = ()
    tendons: tuple[TendonGroup, ...] = ()
    stirrups: tuple[StirrupZone, ...] = ()
    loads: tuple[Load, ...] = ()
    press: Press | None = None
    self_weight: bool = True
    about: str = ""
    notes: tuple[str, ...] = field(default=())
    """Assumptions made while the file was read, one sentence each; the life repeats them."""
    units: Literal["SI", "US"] = "SI"
    """The units that the file was written in, for showing results."""
    verifying: Verifying = field(default_factory=Verifying)
    """What a verification is to assume."""
    making: Making | None = None
    """What its ageing needs; none where the file does not say how humid it is."""

"""The life of a beam as plain data, in base units (N, mm, N·mm, MPa)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from soffit.member.beam import Beam

Array: TypeAlias = NDArray[np.float64]

EVENTS = (
    "transfer",
    "decompression",
    "first crack",
    "crack 0.3 mm",
    "bar yield",
    "tendon yield",
    "concrete crushes",
    "bar rupture",
    "tendon rupture",
    "anchor fails",
    "bar slips",
    "shear failure",
    "peak",
    "collapse",
)

MODES = (
    "first crack",
    "tension-controlled flexure",
    "compression-controlled flexure",
    "bar rupture",
    "tendon rupture",
    "anchor",
    "bond",
    "shear",
)


@dataclass(frozen=True)
class Event:
    event: str
    load: float
    """Total of the press (or of the scaled live load), N; self weight and dead load not counted."""
    moment: float
    """At ``x``, everything counted, N·mm."""
    x: float
    deflection: float
    crack_width: float | None
    note: str
    step: int
    """Index into the arrays of :class:`Curve`: the step at or just after the event."""


@dataclass(frozen=True)
class Failure:
    mode: str
    x: float
    brittle: bool
    sentence: str


@dataclass(frozen=True)
class Warnings:
    """How much the beam shows before it fails."""

    deflection_ratio: float
    """Deflection at the peak over that at first crack."""
    energy_ratio: float
    """Work done up to the peak over the work done up to first crack."""
    word: str


@dataclass(frozen=True)
class Curve:
    """One value a step, from the start of loading (load 0, deflection 0) past the peak."""

    load: Array
    deflection: Array
    """Downward, at ``Life.gauge``, from the state before loading."""
    moment: Array
    """At the critical section, everything counted."""
    crack_width: Array
    """Greatest along the beam, at the tension face."""


@dataclass(frozen=True)
class Stations:
    """The state along the beam: one row a step of :class:`Curve`, one column a station."""

    x: Array
    """Shape (stations,), mm."""
    moment: Array
    """(steps, stations), N·mm, everything counted, sagging positive."""
    shear: Array
    curvature: Array
    """Mean over the cracks, 1/mm, sagging positive."""
    deflection: Array
    """Downward from the straight, uncambered beam (so that row 0 holds the camber before loading), mm."""
    crack_width: Array
    """At the tension face, mm; 0 where uncracked."""
    crack_depth: Array
    """Length of the crack from the tension face, mm, negative where it runs down from the top face."""


@dataclass(frozen=True)
class SectionState:
    """Strain and stress through the depth of the critical section at one event."""

    event: str
    x: float
    load: float
    moment: float
    curvature: float
    y: Array
    """Heights above the soffit, mm, from soffit to top."""
    strain: Array
    """Plane strain at ``y``, elongation positive."""
    stress: Array
    """Of the concrete at ``y``, MPa, tension positive."""
    steel_y: Array
    steel_area: Array
    steel_strain: Array
    """Total strain of each layer (prestrain included)."""
    steel_stress: Array
    steel_is_tendon: NDArray[np.bool_]


@dataclass(frozen=True)
class PressUse:
    can_break_it: bool
    capacity_used: float | None
    """Peak load over the press's capacity; none where that is not given."""
    stroke_used: float | None = None
    """Deflection at the peak over the press's stroke; none where that is not given."""


@dataclass(frozen=True)
class Life:
    """All that happens to a beam from casting to collapse, in order."""

    name: str
    beam: Beam
    events: tuple[Event, ...]
    peak: Event
    failure: Failure
    warning: Warnings
    curve: Curve
    stations: Stations
    sections: tuple[SectionState, ...]
    """At decompression (prestressed), first crack, first yield and peak, as far as each happens."""
    gauge: float
    """x of the place whose deflection ``curve`` gives."""
    critical: float
    """x of the section that governs."""
    press: PressUse | None
    assumptions: tuple[str, ...]
    cautions: tuple[str, ...]
    models: dict[str, str]
    """Which named model served for what: ``{"compression": "Popovics …", …}``."""
    crack_spacing: float | None = None
    age: float | None = None
    """Days after casting at which loading begins; none where time is only a percentage of loss."""
    """Mean spacing of the bending cracks near the critical section, mm; none where one crack takes all."""

    def __repr__(self) -> str:
        """One line; the arrays are for use, not for reading."""
        peak = self.peak
        return (
            f"<Life of {self.name!r}: peak {peak.load / 1e3:.4g} kN at {peak.deflection:.3g} mm, {self.failure.mode}>"
        )

"""What a beam has gone through, from casting to old age."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array
from soffit.member.beam import Beam, Load, Supports, TendonGroup
from soffit.member.making import Making, Stage


@dataclass(frozen=True)
class TendonPast:
    """One tendon group over time. Stresses MPa, tension positive; (steps, stations); NaN where it has no stress yet or
    does not run."""

    tendon: TendonGroup
    index: int
    """In ``beam.tendons``."""
    full: Array
    """Stress where bond is built up, mean over cracked and uncracked."""
    uncracked: Array
    """The same of the uncracked section."""
    at_crack: Array
    """The same at a crack; 0 where there is none."""
    hold: Array
    """(stations,): share of the bond that is built up at a pretensioned end, 0 to 1."""
    jack: float
    """Stress at the jack (or in the bed), MPa."""
    friction: Array
    """(stations,): loss by friction, wobble and deviators, MPa, positive."""
    draw_in: Array
    """(stations,): loss by draw-in (or slip of the bed), MPa."""
    bed: Array
    """(stations,): loss in the bed before release (relaxation and heat), MPa."""
    relaxation: Array
    """(steps, stations): loss by relaxation since stressing or release, MPa, positive."""
    elastic: Array
    """(steps, stations): change by the elastic strain of the concrete beside it, MPa; a loss is positive, a gain by
    loads negative."""
    creep: Array
    shrinkage: Array
    """(steps, stations): losses, MPa, positive."""
    cracking: Array
    """(steps, stations): what open cracks take (mostly they give), MPa, a loss positive."""

    @property
    def stress(self) -> Array:
        """(steps, stations): with the share of it that bond has built up."""
        return self.full * self.hold

    def force(self) -> Array:
        """Of the whole group, N."""
        return self.stress * self.tendon.area

    def left(self, step: int) -> Array:
        """Stress at a step where bond is built up, MPa (stations,): that at the jack less every loss."""
        immediate = self.jack - self.friction - self.draw_in - self.bed
        late = self.elastic[step] + self.creep[step] + self.shrinkage[step] + self.relaxation[step]
        return np.where(np.isfinite(self.full[step]), immediate - late - self.cracking[step], np.nan)


@dataclass(frozen=True)
class Instant:
    """The state just after a stage."""

    stage: Stage
    step: int
    label: str
    """In words: "strands released", "age of 30 years"."""


@dataclass(frozen=True)
class Past:
    """A beam over time: (steps, stations) unless said otherwise; N, mm, MPa, days; tension and downward positive.

    Steps come in pairs at an instant where something happens: the state just before, and just after.
    """

    beam: Beam
    making: Making
    """With the stages that were followed, the usual ones where the file gives none."""
    model: str
    t: Array
    """(steps,): days since casting, rising; equal for the two sides of an instant."""
    x: Array
    """(stations,)"""
    instants: tuple[Instant, ...]
    moment: Array
    """Of the loads with the supports' open moments, N·mm, sagging positive; prestress is inside the section."""
    secondary: Array
    """The part of ``moment`` that the supports hold back from prestress, creep and shrinkage: moment less that of the
    loads on the elastic beam."""
    axial: Array
    bottom: Array
    """Stress of the beam's concrete at its soffit, MPa; of the uncracked section also where it has cracked."""
    top: Array
    """At the top of the beam's own concrete."""
    topping_bottom: Array | None
    topping_top: Array | None
    cracked: Array
    """Share of cracked behaviour ζ, 0 where uncracked (EN 1992-1-1 7.4.3)."""
    crack_stress: Array
    """Greatest stress of a bar in tension at a crack, MPa; 0 where uncracked."""
    bars: Array
    """(steps, bar groups, stations): stress of the bars where the section has not cracked, MPa."""
    loads: tuple[tuple[int, Load], ...]
    """What acts on the beam, each with the step from which it does; what is taken off is a load of negative value."""
    supports: tuple[Supports | None, ...]
    """On which it stands at each step; none while it lies in its form or bed."""
    curvature: Array
    """Mean over cracked and uncracked, 1/mm, sagging positive, since casting."""
    deflection: Array
    """From the straight beam on the supports it then has."""
    tendons: tuple[TendonPast, ...]
    strength: Array
    """(steps,): mean cylinder strength of the beam's concrete, MPa."""
    topping_strength: Array
    """(steps,): zero where there is none yet."""
    tensile: Array
    modulus: Array
    shrinkage: Array
    """(steps,): strain, a shortening positive."""
    notes: tuple[str, ...]
    """What was assumed, one sentence each."""
    cautions: tuple[str, ...] = ()

    def acting(self, step: int) -> tuple[Load, ...]:
        """The loads that act at a step."""
        return tuple(load for since, load in self.loads if since <= step)

    def at(self, age: float) -> int:
        """The last step at or before an age in days (just after what happens then)."""
        return int(np.searchsorted(self.t, age + 1e-9, side="right")) - 1

    @property
    def middle(self) -> int:
        """Station where the deflection is greatest in size at the end."""
        return int(np.argmax(np.abs(self.deflection[-1])))


@dataclass(frozen=True)
class Band:
    """A history with the scatter of what it depends on: 5 % and 95 % fractiles beside the mean."""

    mean: Past
    station: int
    """For which the band is told."""
    deflection: tuple[Array, Array]
    """(steps,) low and high, mm."""
    bottom: tuple[Array, Array]
    top: tuple[Array, Array]
    stress: tuple[tuple[Array, Array], ...]
    """Of each tendon group."""
    sources: tuple[str, ...]
    """What was let scatter, by how much, and by what source, one sentence each."""

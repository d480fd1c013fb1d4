"""The state that goes from step to step of a march through time, and the record that it leaves."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from soffit.materials.curve import Array
from soffit.member import statics
from soffit.member.beam import Beam, Load
from soffit.member.making import Making
from soffit.member.time import relaxing
from soffit.member.time.parts import FIBRES, Part, Steel, parts, steel
from soffit.member.time.structure import Structure
from soffit.member.time.viscous import Viscous


@dataclass(eq=False)
class Concrete:
    """One concrete: what it is, and the stress that it has and has had, as planes (:mod:`.plane`)."""

    part: Part
    viscous: Viscous
    born: int | None
    """Step from which it acts; none until then."""
    act: Array
    """(stations, 2): plane of strain of the section when it began to act."""
    act_cracked: Array
    steps: Array
    """(steps, stations, 2): increments of stress of the uncracked section."""
    stress: Array
    """(stations, 2)"""
    fibre_steps: Array
    """(steps, stations, fibres): the same where the section has cracked."""
    fibre_stress: Array

    def creep(self, n: int) -> float:
        """Compliance within step n, 1/MPa."""
        return float(self.viscous.compliance[n, n])

    def shrunk(self, n: int) -> float:
        """Shortening by shrinkage since it began to act."""
        assert self.born is not None
        return float(self.viscous.shrinkage[n] - self.viscous.shrinkage[self.born])


@dataclass
class Layers:
    """The steel, bars first; (layers, stations) unless said otherwise."""

    steel: Steel
    rules: list[relaxing.Law | None]
    """One a tendon group."""
    bonded: NDArray[np.bool_]
    """(layers,)"""
    sliding: NDArray[np.bool_]
    held: Array
    """Stress that a bonded layer would have where the section had no strain at all, MPa."""
    held_cracked: Array
    relaxed: Array
    """Relaxation since stressing, MPa."""
    before_bond: Array
    """The part of it that was over when the layer was bonded."""
    slide: Array
    """Stress along tendons that slide, MPa."""
    full: Array
    """Stress of every layer where bond is built up, mean over cracked and uncracked, MPa."""
    share: Array
    """(layers,): part of the concrete's shortening in this step that a sliding group takes part in."""


@dataclass
class Record:
    """What is kept of every step: (steps, stations), and (steps, groups, stations) for the tendons."""

    plane: Array
    """(steps, stations, 2): strain, mean over cracked and uncracked."""
    stress: list[Array]
    """Of each uncracked concrete, (steps, stations, 2)."""
    moment: Array
    by_loads: Array
    """Moment of the loads on the elastic beam."""
    axial: Array
    bars: Array
    """(steps, bars, stations)"""
    tendons: Array
    """Where bond is built up; NaN where there is none, or not yet."""
    uncracked: Array
    """The same of the uncracked section."""
    at_crack: Array
    relaxation: Array
    elastic: Array
    creep: Array
    shrinkage: Array
    cracking: Array
    cracked: Array
    crack_stress: Array
    """Of the bars."""
    crushed: Array
    """(steps,): greatest compression of concrete at a crack over its strength."""


@dataclass
class State:
    beam: Beam
    making: Making
    x: Array
    t: Array
    concretes: list[Concrete]
    layers: Layers
    record: Record
    plane: Array
    """(stations, 2): strain of the uncracked section."""
    plane_cracked: Array
    """The same of the cracked one; where nothing has cracked, the uncracked one's."""
    mean: Array
    moment: Array
    by_loads: Array
    ratio: Array
    """(2, stations): greatest stress that soffit and top would have had uncracked, over the tensile strength then."""
    since: Array
    """(2, stations): day of the first crack of each face; NaN where there is none."""
    on: Structure | None = None
    loads: list[tuple[int, Load]] = field(default_factory=list)
    """With the steps from which they act."""

    @property
    def cracks(self) -> NDArray[np.bool_]:
        """Where either face has cracked, (stations,)."""
        return np.asarray(np.isfinite(self.since).any(axis=0))

    @property
    def acting(self) -> list[Concrete]:
        return [c for c in self.concretes if c.born is not None]


def begin(beam: Beam, making: Making, x: Array, t: Array, viscous: tuple[Viscous, ...], fibres: int = FIBRES) -> State:
    """The beam in its form, before anything is done to it."""
    reinforcement = steel(beam, x)
    n, s, groups = len(t), len(x), len(beam.tendons)

    def rows(*shape: int) -> Array:
        return np.zeros(shape)

    made = [
        Concrete(
            part=part,
            viscous=law,
            born=0 if i == 0 else None,
            act=rows(s, 2),
            act_cracked=rows(s, 2),
            steps=rows(n, s, 2),
            stress=rows(s, 2),
            fibre_steps=rows(n, s, len(part.y)),
            fibre_stress=rows(s, len(part.y)),
        )
        for i, (part, law) in enumerate(zip(parts(beam, making.topping, reinforcement, fibres), viscous, strict=True))
    ]
    count = len(reinforcement.y)
    layers = Layers(
        steel=reinforcement,
        rules=[relaxing.law(making.model, tendon, making.scales.relaxation) for tendon in beam.tendons],
        bonded=np.array([bar.part == "beam" for bar in beam.bars] + [False] * groups, dtype=bool),
        sliding=np.zeros(count, dtype=bool),
        held=rows(count, s),
        held_cracked=rows(count, s),
        relaxed=rows(count, s),
        before_bond=rows(count, s),
        slide=rows(count, s),
        full=rows(count, s),
        share=np.ones(count),
    )
    record = Record(
        plane=rows(n, s, 2),
        stress=[rows(n, s, 2) for _ in made],
        moment=rows(n, s),
        by_loads=rows(n, s),
        axial=rows(n, s),
        bars=rows(n, len(beam.bars), s),
        tendons=np.full((n, groups, s), np.nan),
        uncracked=np.full((n, groups, s), np.nan),
        at_crack=rows(n, groups, s),
        relaxation=rows(n, groups, s),
        elastic=rows(n, groups, s),
        creep=rows(n, groups, s),
        shrinkage=rows(n, groups, s),
        cracking=rows(n, groups, s),
        cracked=rows(n, s),
        crack_stress=rows(n, s),
        crushed=rows(n),
    )
    return State(
        beam=beam,
        making=making,
        x=x,
        t=t,
        concretes=made,
        layers=layers,
        record=record,
        plane=rows(s, 2),
        plane_cracked=rows(s, 2),
        mean=rows(s, 2),
        moment=rows(s),
        by_loads=rows(s),
        ratio=rows(2, s),
        since=np.full((2, s), np.nan),
    )


def along(state: State, layer: int) -> Array:
    """Weights with which a sliding tendon takes the mean of what happens along it, (stations,)."""
    inside = state.layers.steel.inside[layer]
    w = statics.product_weights(state.x, inside) * inside
    return np.asarray(w / w.sum())

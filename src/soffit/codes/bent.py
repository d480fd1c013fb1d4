"""Deflections in a form in which those computed step by step and those of a formula stand side by side."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.codes import instants
from soffit.codes.explained import Difference, Input
from soffit.errors import PhysicsError
from soffit.materials.curve import Array
from soffit.member import statics
from soffit.member.beam import Supports
from soffit.member.time.result import Past
from soffit.section.elastic import ElasticLayer


@dataclass(frozen=True)
class Bent:
    """Downward deflection at one place, mm."""

    by: str
    """``"step by step"`` or the standard."""
    clause: str
    age: float | None
    """Days; none: the end of life, whenever that is."""
    x: float
    immediate: float
    """By the loads that stay, as they come on; of pretensioned members at release."""
    total: float
    inputs: tuple[Input, ...] = ()
    causes: tuple[Difference, ...] = ()
    """Their sum is the total less that step by step."""
    sentence: str = ""

    @property
    def added(self) -> float:
        """What time adds."""
        return self.total - self.immediate


@dataclass(frozen=True)
class Watched:
    """A past with the place and the step for which its deflection is told."""

    past: Past
    station: int
    until: int

    @property
    def x(self) -> float:
        return float(self.past.x[self.station])

    @property
    def t(self) -> float:
        return float(self.past.t[self.until])

    @property
    def supports(self) -> Supports:
        found = self.past.supports[self.until]
        if found is None:
            raise PhysicsError("the beam still lies in its form, and has no deflection")
        return found

    @property
    def sustained(self) -> Array:
        """(stations,): moment of what stays."""
        return self.past.moment[self.until]

    @property
    def greatest(self) -> Array:
        """(stations,): the greatest moment that each section has borne by then, with its sign."""
        m = self.past.moment[: self.until + 1]
        return np.asarray(m[np.argmax(np.abs(m), axis=0), np.arange(m.shape[1])])

    @property
    def loaded(self) -> float:
        """Day on which it first bears its own weight or a load."""
        return instants.jumps(self.past, self.until)[0].age

    def jumps(self) -> tuple[tuple[instants.Jump, float], ...]:
        """Every instant with the change of deflection in it, mm."""
        d = self.past.deflection[:, self.station]
        return tuple((j, float(d[j.step] - d[j.step - 1])) for j in instants.jumps(self.past, self.until))

    def bars(self, station: int) -> tuple[ElasticLayer, ...]:
        x = float(self.past.x[station])
        return tuple(
            ElasticLayer(b.y, b.area, b.steel.modulus)
            for b in self.past.beam.bars
            if b.part == "beam" and b.x_from - 1e-9 <= x <= b.x_to + 1e-9
        )

    def sag(self, curvature: Array) -> float:
        """Deflection at the place by curvatures (stations,), on the supports that it then has."""
        return float(statics.deflection(self.past.x, curvature, self.supports)[self.station])

    @property
    def governing(self) -> int:
        """Section whose stiffness stands for the span: the place itself, the support of a cantilever."""
        if len(self.supports.x) == 1:
            return int(np.argmax(np.abs(self.sustained)))
        return self.station

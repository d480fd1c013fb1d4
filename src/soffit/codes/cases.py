"""The loads of a beam by cases and spans, and its vehicles at all their places, with what each of them does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np

from soffit.codes.combining import PRESTRESS, Variable
from soffit.materials.curve import Array
from soffit.member.beam import Beam, Load
from soffit.member.elastic_line import ElasticLine, Response, split
from soffit.member.loading import SELF, self_weight, topping_weight
from soffit.member.verifying import Vehicle

What = Literal["moment", "shear", "torsion", "sag"]
PERMANENT = ("dead", "soil", "fluid")
"""Cases that are always there, besides the weights."""
OF_USE = ("live", "crowd", "traffic")
"""Cases to which the category of the whole beam applies."""


@dataclass(frozen=True)
class Part:
    """Loads that come and go together."""

    name: str
    """Of their case."""
    response: Response
    variable: Variable | None = None
    """None: permanent."""
    span: int | None = None
    """From 1 on, 0 and one more than there are: overhangs; none: of the whole beam."""
    side: int = 0
    """Sign of the eccentricity."""
    axial: float = 0.0


@dataclass(frozen=True)
class Train:
    """A vehicle at every place where one of its axles stands on a station."""

    vehicle: Vehicle
    variable: Variable
    first: Array
    """(p,), x of its first axle."""
    leftward: Array
    """(p,), whether it goes towards the left end."""
    moment: Array
    """(p, n)."""
    shear: Array
    """(p, 2, n)."""

    @property
    def name(self) -> str:
        return self.vehicle.name or self.variable.case


class Cases:
    """All parts on one elastic line. Deflections are those of ``elastic``, where moments are redistributed here."""

    def __init__(
        self, beam: Beam, line: ElasticLine, secondary: tuple[Array, Array] | None, elastic: Cases | None = None
    ) -> None:
        self.beam, self.line, self._secondary, self._elastic = beam, line, secondary, elastic
        self.fixed: tuple[Part, ...] = tuple(self._fixed())
        self.free: tuple[Part, ...] = tuple(self._free())
        self._stacks: dict[What, tuple[Array, Array]] = {}
        self._trains: dict[What, tuple[Array, ...]] = {}

    def _fixed(self) -> list[Part]:
        found: dict[str, list[Load]] = {}
        if self.beam.self_weight:
            found[SELF] = [self_weight(self.beam)]
        if self.beam.making is not None and self.beam.making.topping is not None:
            found["topping"] = [topping_weight(self.beam.making.topping, self.beam.length)]
        for load in self.beam.loads:
            if load.case in PERMANENT:
                found.setdefault(load.case, []).append(load)
        parts = [Part(name, self.line.respond(loads)) for name, loads in found.items()]
        parts += [self._axial(c, f, None) for c, f in self.beam.verifying.axial if c in PERMANENT]
        if self._secondary is not None:
            moment, shear = self._secondary
            parts.append(Part(PRESTRESS, Response(moment, np.array([shear, shear]), np.zeros((2, len(moment))))))
        return parts

    def _free(self) -> list[Part]:
        parts = []
        choosing = self.beam.verifying.pattern
        for variable in variables(self.beam):
            loads = [load for load in self.beam.loads if variable_of(self.beam, load) == variable]
            groups: dict[tuple[int | None, int], list[Load]] = {}
            for span, some in sorted(split(loads, self.beam.supports).items()):
                for load in some:
                    key = (span, int(np.sign(load.eccentricity))) if choosing else (None, 0)
                    groups.setdefault(key, []).append(load)
            for (number, side), some in groups.items():
                parts.append(Part(variable.case, self.line.respond(some), variable, number, side))
            parts += [
                self._axial(case, force, variable)
                for case, force in self.beam.verifying.axial
                if case not in PERMANENT and _whole(self.beam, case) == variable
            ]
        return parts

    def _axial(self, case: str, force: float, variable: Variable | None) -> Part:
        n = len(self.line.x)
        return Part(case, Response(np.zeros(n), np.zeros((2, n)), np.zeros((2, n))), variable, axial=force)

    def stack(self, what: What) -> tuple[Array, Array]:
        """Of the permanent (k, s, n) and of the variable parts (m, s, n); s: both sides of a station where it jumps."""
        if what not in self._stacks:
            if what == "sag":
                source = self._elastic or self
                fixed, free = (self.line.deflection(rows[:, 0])[:, None] for rows in source.stack("moment"))
            else:
                fixed, free = (_stacked(parts, what, len(self.line.x)) for parts in (self.fixed, self.free))
            self._stacks[what] = fixed, free
        return self._stacks[what]

    @cached_property
    def trains(self) -> tuple[Train, ...]:
        return tuple(train(self.line, v, _whole(self.beam, v.case)) for v in self.beam.verifying.vehicles)

    def moving(self, what: What) -> tuple[Array, ...]:
        """(p, s, n) of each train."""
        if what not in self._trains:
            if what == "sag":
                source = self._elastic or self
                self._trains[what] = tuple(self.line.deflection(t.moment)[:, None] for t in source.trains)
            elif what == "torsion":
                self._trains[what] = tuple(np.zeros_like(t.shear) for t in self.trains)
            else:
                self._trains[what] = tuple(t.shear if what == "shear" else t.moment[:, None] for t in self.trains)
        return self._trains[what]


def _stacked(parts: Sequence[Part], what: What, n: int) -> Array:
    if not parts:
        return np.zeros((0, 1 if what == "moment" else 2, n))
    if what == "moment":
        return np.array([p.response.moment for p in parts])[:, None]
    return np.array([p.response.shear if what == "shear" else p.response.twist for p in parts])


def variable_of(beam: Beam, load: Load) -> Variable:
    """The case and category of a load; where it has none of its own, that of the whole beam, for loads of use."""
    return Variable(load.case, load.category or (beam.verifying.category if load.case in OF_USE else ""))


def _whole(beam: Beam, case: str) -> Variable:
    """Of vehicles and axial forces, which have no category of their own."""
    return Variable(case, beam.verifying.category if case in OF_USE else "")


def variables(beam: Beam) -> tuple[Variable, ...]:
    """All there are, those of vehicles and axial forces too."""
    found = [variable_of(beam, load) for load in beam.loads if load.case not in PERMANENT]
    found += [_whole(beam, v.case) for v in beam.verifying.vehicles]
    found += [_whole(beam, case) for case, _ in beam.verifying.axial if case not in PERMANENT]
    return tuple(dict.fromkeys(found))


def train(line: ElasticLine, vehicle: Vehicle, variable: Variable) -> Train:
    """A row of axles at every place where one of them stands on a station; axles off the beam do not count.

    Between stations the influence lines are taken as straight, so no other place is worse.
    """
    moment, shear = line.influence
    n = len(line.x)
    axles = vehicle.dynamic * np.array(vehicle.axles)
    offsets = np.concatenate([[0.0], np.cumsum(vehicle.gaps)])
    firsts, lefts, weights = [], [], []
    # towards the right its other axles follow on the left
    for leftward in (False, True) if vehicle.both_ways else (False,):
        places = offsets if leftward else -offsets
        first = np.unique(np.round(np.concatenate([line.x - place for place in places]), 6))
        at = first[:, None] + places
        on = (at >= -1e-5) & (at <= line.length + 1e-5)
        i = np.clip(np.searchsorted(line.x, at) - 1, 0, n - 2)
        t = np.clip((at - line.x[i]) / (line.x[i + 1] - line.x[i]), 0.0, 1.0)
        weight = np.zeros((len(first), n))
        rows = np.broadcast_to(np.arange(len(first))[:, None], at.shape)
        np.add.at(weight, (rows, i), axles * on * (1.0 - t))
        np.add.at(weight, (rows, i + 1), axles * on * t)
        firsts.append(first)
        lefts.append(np.full(len(first), leftward))
        weights.append(weight)
    every = np.concatenate(weights)
    return Train(
        vehicle, variable, np.concatenate(firsts), np.concatenate(lefts), every @ moment,
        (every @ shear.reshape(n, -1)).reshape(len(every), 2, n),
    )  # fmt: skip

"""Losses of prestress in a form in which those computed step by step and those of a formula stand side by side."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.codes import instants
from soffit.codes.explained import Difference, Input
from soffit.codes.instants import Jump
from soffit.errors import PhysicsError
from soffit.materials.curve import Array
from soffit.member import statics
from soffit.member.making import Scales
from soffit.member.time.result import Past
from soffit.member.time.viscous import viscous

STEPS = "step by step"


@dataclass(frozen=True)
class Parts:
    """Losses, MPa, positive; after friction, draw-in and what is lost in the bed."""

    elastic: float
    """By stressing and release, and by tendons that are stressed later."""
    loads: float
    """By loads put on later: negative where they stretch the tendon."""
    shrinkage: float
    creep: float
    relaxation: float
    rest: float
    """Step by step: the concrete springs back as the prestress falls (and what a topping does to it). (5.46): what its
    denominator takes off. AASHTO refined: shrinkage of the deck. Mostly negative."""

    @property
    def long_term(self) -> float:
        return self.shrinkage + self.creep + self.relaxation + self.rest

    @property
    def total(self) -> float:
        return self.elastic + self.loads + self.long_term


@dataclass(frozen=True)
class Row:
    """Losses of some tendons at one place, by one way to compute them."""

    groups: tuple[int, ...]
    """Indices in ``beam.tendons``; several: their common centroid."""
    of: str
    """"tendon A", "all pretensioned tendons"."""
    by: str
    """``"step by step"`` or the standard."""
    clause: str
    age: float | None
    """Days until which they are meant; none: the end of life, whenever that is."""
    parts: Parts
    inputs: tuple[Input, ...] = ()
    causes: tuple[Difference, ...] = ()
    """Their sum is the total less that of the step-by-step row for the same tendons."""
    sentence: str = ""


@dataclass(frozen=True)
class Looked:
    """Some tendons looked at as one, at one place (unbonded ones: along their length), until one step."""

    past: Past
    groups: tuple[int, ...]
    of: str
    weights: Array
    """(stations,): 1 at the place, or spread over the length."""
    until: int

    @property
    def when(self) -> str:
        return self.past.beam.tendons[self.groups[0]].when

    @property
    def bonded(self) -> bool:
        return self.past.beam.tendons[self.groups[0]].bond == "bonded"

    @property
    def count(self) -> int:
        return sum(self.past.beam.tendons[i].count for i in self.groups)

    @property
    def area(self) -> float:
        return sum(self.past.beam.tendons[i].area for i in self.groups)

    @property
    def held(self) -> float:
        """Their area so far as bond has built their stress up, mm²: all of it but at pretensioned ends."""
        return sum(self.past.beam.tendons[i].area * self.here(self.past.tendons[i].hold) for i in self.groups)

    def mean(self, values: dict[int, float]) -> float:
        """Of a number for every group, by their areas."""
        return sum(self.past.beam.tendons[i].area * v for i, v in values.items()) / self.area

    @property
    def modulus(self) -> float:
        return self.mean({i: self.past.beam.tendons[i].steel.modulus for i in self.groups})

    @property
    def tensile(self) -> float:
        return min(self.past.beam.tendons[i].steel.tensile for i in self.groups)

    @property
    def yield_stress(self) -> float:
        return min(self.past.beam.tendons[i].steel.yield_strength for i in self.groups)

    @property
    def steel(self) -> str:
        """Class of relaxation; the worst where they differ."""
        kinds = {self.past.beam.tendons[i].relaxation for i in self.groups}
        return next(k for k in ("ordinary", "bar", "low relaxation", "none") if k in kinds)

    @property
    def y(self) -> Array:
        """(stations,): height of their centroid, mm."""
        area = {i: self.past.beam.tendons[i].area for i in self.groups}
        return np.asarray(sum(a * instants.heights(self.past, i) for i, a in area.items()) / self.area)

    @property
    def after(self) -> int:
        """Step just after they all have their stress."""
        return max(instants.settled(self.past, _first(self.past, i)) for i in self.groups)

    @property
    def t0(self) -> float:
        return float(self.past.t[self.after])

    @property
    def t(self) -> float:
        return float(self.past.t[self.until])

    @property
    def jumps(self) -> tuple[Jump, ...]:
        return instants.jumps(self.past, self.until)

    def here(self, values: Array) -> float:
        """At the place or along the tendons, of (stations,)."""
        return float(np.nan_to_num(values) @ self.weights)

    def before(self) -> float:
        """Stress just before release, or as the jack and friction leave it, MPa."""
        past = self.past
        lost = {i: past.tendons[i].friction + past.tendons[i].draw_in + past.tendons[i].bed for i in self.groups}
        return self.mean({i: past.tendons[i].jack - self.here(lost[i]) for i in self.groups})

    def stressed(self) -> float:
        """Stress just after they have it and the concrete has shortened, where bond is built up, MPa."""
        past = self.past
        lost = {i: self.here(past.tendons[i].elastic[self.after]) for i in self.groups}
        return self.before() - self.mean(lost)

    def pressed(self, jump: Jump) -> float:
        """Change of compression beside them in an instant, by hand on the gross section, MPa."""
        y = self.y
        return self.here(instants.by_prestress(self.past, jump, y) + instants.by_moment(self.past, jump, y))

    def later(self) -> tuple[Jump, ...]:
        """Loads that change after they are stressed."""
        return tuple(j for j in self.jumps if j.step > self.after and not j.prestress)

    def parts(self) -> Parts:
        """Step by step."""
        each = {i: self._parts(i) for i in self.groups}
        names = ("elastic", "loads", "shrinkage", "creep", "relaxation", "rest")
        return Parts(*(self.mean({i: getattr(p, name) for i, p in each.items()}) for name in names))

    def _parts(self, group: int) -> Parts:
        had = self.past.tendons[group]
        start = _first(self.past, group)

        def end(values: Array) -> float:
            return self.here(values[self.until])

        by = {True: 0.0, False: 0.0}
        for j in self.jumps:
            if j.step >= start:
                by[j.prestress] += self.here(had.elastic[j.step]) - self.here(had.elastic[j.step - 1])
        rest = end(had.elastic) - by[True] - by[False] + end(had.cracking)
        return Parts(by[True], by[False], end(had.shrinkage), end(had.creep), end(had.relaxation), rest)


def _first(past: Past, group: int) -> int:
    found = instants.first_step(past, group)
    if found is None:
        raise PhysicsError("a tendon that is never stressed has no losses")
    return found


@dataclass(frozen=True)
class Ours:
    """The concrete as the step-by-step computation has it."""

    past: Past

    def _two(self, t: float, t0: float) -> tuple[float, float]:
        made = instants.making(self.past)
        v = viscous(made.model, made.casting, np.array([t0, t]), 0, made.scales)
        return float(v.compliance[1, 0]), float(v.modulus[0])

    def modulus(self, t0: float) -> float:
        return self._two(t0 + 1.0, t0)[1]

    def creep(self, t: float, t0: float) -> float:
        """Creep strain by a unit stress that lasts from t0 to t, 1/MPa, without the elastic one."""
        if t <= t0:
            return 0.0
        j, e = self._two(t, t0)
        return j - 1.0 / e

    def shrinkage(self, t: float, t0: float) -> float:
        made = instants.making(self.past)
        v = viscous(made.model, made.casting, np.array([t0, max(t, t0)]), 0, made.scales)
        return float(v.shrinkage[1] - v.shrinkage[0])


def of_standard(past: Past, key: str, t: float, t0: float) -> tuple[float, float, float]:
    """Creep coefficient and shrinkage between t0 and t and the days by which the concrete is ahead of its age, by
    another ageing model than the one in use, unscaled."""
    made = instants.making(past)
    v = viscous(key, made.casting, np.array([t0, max(t, t0)]), 0, Scales())
    creep = v.compliance[1, 0] - 1.0 / v.modulus[0]
    coefficient = float(creep * v.law.creep_modulus(t0 + v.matured)) if t > t0 else 0.0
    return coefficient, float(v.shrinkage[1] - v.shrinkage[0]), v.matured


def spread(past: Past, group: int, station: int) -> Array:
    """Weights of a place; of the whole length for an unbonded tendon, whose stress is one."""
    weights = np.zeros_like(past.x)
    tendon = past.beam.tendons[group]
    if tendon.bond == "bonded":
        weights[station] = 1.0
        return weights
    inside = ((past.x >= tendon.x_from - 1e-9) & (past.x <= tendon.x_to + 1e-9)).astype(float)
    weights = statics.product_weights(past.x, inside) * inside
    return np.asarray(weights / weights.sum())

"""A linear elastic beam of one stiffness on its supports: moments, shears and deflections of loads, influence lines.

The released structure of :mod:`soffit.member.statics` with its redundants from compatibility; integrals by Gauss points
between all places where a diagram has a kink, so that moments are exact. Supports do not settle.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from soffit.materials.curve import Array
from soffit.member import statics
from soffit.member.beam import Load, Supports

EDGE = 1e-3
"""mm; a shear is told this far to the left and to the right of a place, for it may jump there."""
_PLACES, _WEIGHTS = np.polynomial.legendre.leggauss(3)


@dataclass(frozen=True)
class Response:
    """To one set of loads, at the stations."""

    moment: Array
    """(n,), N·mm, sagging positive."""
    shear: Array
    """(2, n), N, just left and just right of each station."""
    twist: Array
    """(2, n), N·mm: torque of loads off the axis, with forks at all supports."""

    def __add__(self, other: Response) -> Response:
        return Response(self.moment + other.moment, self.shear + other.shear, self.twist + other.twist)


@dataclass(frozen=True)
class ElasticLine:
    x: Array
    """(n,) stations, mm, in order."""
    length: float
    supports: Supports
    stiffness: float
    """EI, N·mm²; only deflections depend on it."""
    keep: float = 1.0
    """Share of the elastic support moments that is kept (1 − δ of a redistribution); statics stays satisfied."""

    @cached_property
    def _sides(self) -> Array:
        return np.concatenate([np.maximum(self.x - EDGE, 0.0), np.minimum(self.x + EDGE, self.length)])

    @cached_property
    def _unit(self) -> tuple[Array, Array]:
        """Redundant diagrams: moments (r, n), shears (r, 2, n)."""
        at = statics.redundant_diagrams(self.x, self.length, self.supports)
        beside = statics.redundant_diagrams(self._sides, self.length, self.supports)
        n = len(self.x)
        if not at:
            return np.zeros((0, n)), np.zeros((0, 2, n))
        return np.array([d.moment for d in at]), np.array([d.shear.reshape(2, n) for d in beside])

    def respond(self, loads: Sequence[Load]) -> Response:
        """To downward loads."""
        released = statics.released(self.x, self.length, self.supports, loads)
        sides = statics.released(self._sides, self.length, self.supports, loads)
        shear = sides.shear.reshape(2, -1)
        unit, unit_shear = self._unit
        open_moments = self.keep * self._redundants(loads) if len(unit) else np.zeros(0)
        twist = self._twist([load for load in loads if load.eccentricity])
        return Response(
            released.moment + open_moments @ unit, shear + np.tensordot(open_moments, unit_shear, axes=1), twist
        )

    def _twist(self, loads: Sequence[Load]) -> Array:
        """Torque (2, n): each span holds its own loads between its forks, an overhang those beyond the place."""
        sides, held = self._sides, self.supports.x
        total = np.zeros(len(sides))
        for span, some in split(loads, self.supports).items():
            on = np.ones(len(sides), dtype=bool)
            if span == 0:
                on = sides < held[0]
            elif span == len(held):
                on = sides > held[-1]
            for load in some:
                shear = statics.released(sides, self.length, self.supports, [load]).shear
                total += np.where(on, shear, 0.0) * load.eccentricity
        return total.reshape(2, -1)

    def _redundants(self, loads: Sequence[Load]) -> Array:
        cuts = {0.0, self.length, *self.supports.x}
        for load in loads:
            cuts |= {load.x_from, load.x_to}
        x, w = _gauss(cuts)
        unit = np.array([d.moment for d in statics.redundant_diagrams(x, self.length, self.supports)])
        moment = statics.released(x, self.length, self.supports, loads).moment
        return np.asarray(np.linalg.solve((unit * w) @ unit.T, -(unit * w) @ moment))

    def deflection(self, moment: Array) -> Array:
        """Downward, mm, of moments (n,) or (k, n) at the stations, taken as straight between them."""
        return statics.deflection(self.x, moment / self.stiffness, self.supports)

    # -- moving loads ------------------------------------------------------------------------------------------------

    @cached_property
    def influence(self) -> tuple[Array, Array]:
        """Moments (p, n) and shears (p, 2, n) of 1 N at each station in turn."""
        x, sides = self.x, self._sides
        moment = self._released_units(x)[0]
        shear = self._released_units(sides)[1].reshape(len(x), 2, len(x))
        unit, unit_shear = self._unit
        if len(unit):
            g, w = _gauss({*x, *self.supports.x})
            redundant = np.array([d.moment for d in statics.redundant_diagrams(g, self.length, self.supports)])
            turned = self._released_units(g)[0] @ (redundant * w).T
            open_moments = -self.keep * np.linalg.solve((redundant * w) @ redundant.T, turned.T).T
            moment = moment + open_moments @ unit
            shear = shear + np.tensordot(open_moments, unit_shear, axes=1)
        return moment, shear

    def _released_units(self, x: Array) -> tuple[Array, Array]:
        """Moment and shear (p, m) at ``x`` of 1 N at every station on the released structure."""
        held, a = self.supports.x, self.x[:, None]
        moment, shear = np.zeros((len(self.x), len(x))), np.zeros((len(self.x), len(x)))
        for low, high in itertools.pairwise(held):
            span = high - low
            on = (a >= low) & (a <= high) & (x >= low) & (x <= high)
            left = (high - a) / span
            before = x < a
            moment += np.where(on, np.where(before, left * (x - low), (1.0 - left) * (high - x)), 0.0)
            shear += np.where(on, np.where(before, left, left - 1.0), 0.0)
        if self.x[0] < held[0]:
            first = held[1] if len(held) > 1 else held[0]
            m, v = _overhang(a, x, held[0], first)
            moment, shear = moment + m, shear + v
        if self.x[-1] > held[-1]:
            last = held[-2] if len(held) > 1 else held[-1]
            m, v = _overhang(self.length - a, self.length - x, self.length - held[-1], self.length - last)
            moment, shear = moment + m, shear - v
        return moment, shear


def _overhang(a: Array, x: Array, support: float, following: float) -> tuple[Array, Array]:
    """1 N at ``a`` left of the first support; beyond the following support nothing."""
    on = a < support
    cantilever = on & (x <= support)
    moment = np.where(cantilever, -np.maximum(x - a, 0.0), 0.0)
    shear = np.where(cantilever & (x > a), -1.0, 0.0)
    if following > support:
        span = following - support
        inside = on & (x > support) & (x <= following)
        over = -(support - a)
        moment = moment + np.where(inside, over * (following - x) / span, 0.0)
        shear = shear + np.where(inside, -over / span, 0.0)
    return moment, shear


def _gauss(cuts: Iterable[float]) -> tuple[Array, Array]:
    ends = np.array(sorted(cuts))
    ends = ends[np.concatenate([[True], np.diff(ends) > 1e-9])]
    half = 0.5 * np.diff(ends)
    x = (0.5 * (ends[1:] + ends[:-1])[:, None] + half[:, None] * _PLACES).ravel()
    return x, (half[:, None] * _WEIGHTS).ravel()


def split(loads: Sequence[Load], supports: Supports) -> dict[int, list[Load]]:
    """The loads cut at the supports, by the number of their span from 1 on; 0 and the last are overhangs."""
    found: dict[int, list[Load]] = {}
    held = supports.x
    for load in loads:
        cuts = [load.x_from, *(s for s in held if load.x_from < s < load.x_to), load.x_to]
        pairs = [(load.x_from, load.x_to)] if load.is_point else list(itertools.pairwise(cuts))
        for a, b in pairs:
            span = int(np.searchsorted(held, 0.5 * (a + b)))
            part = Load(load.case, load.value, a, b, load.eccentricity, load.category)
            found.setdefault(span, []).append(part)
    return found

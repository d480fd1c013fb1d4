"""The state from which loading begins, where a beam has a past: what its concretes, bars and tendons carry by then."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from soffit.materials.concrete import Concrete
from soffit.materials.curve import Array, Piece, StressStrain
from soffit.member.beam import Beam
from soffit.section.outline import Outline, Point


@dataclass(frozen=True)
class Cast:
    """Another concrete on top of the beam's own, from ``low`` up."""

    concrete: Concrete
    outline: Outline
    """By itself, its soffit at 0."""
    low: float
    """mm above the soffit of the beam."""

    @property
    def strips(self) -> Array:
        """As rows of :class:`~soffit.section.outline.Outline`, at their heights in the whole section."""
        raised: Array = self.outline.strips.copy()
        raised[:, :2] += self.low
        return raised


@dataclass(frozen=True)
class Standing:
    """A beam under its permanent load at one age; (stations,) of the past unless said otherwise."""

    age: float
    """Days."""
    x: Array
    moment: Array
    """Of all that is on the beam, the supports' open moments in it, N·mm."""
    strain: Array
    """(stations, 2): elastic strain of the beam's concrete (stress over modulus) as soffit strain and curvature."""
    bars: Array
    """(groups, stations): stress, MPa."""
    tendons: Array
    """(groups, stations): stress where bond is built up, MPa; NaN where one does not run."""
    deflection: Array
    """From the straight beam, mm, downward."""
    release: tuple[Array, Array, float, float] | None
    """Stresses of soffit and top when the prestress was let in, with mean and tensile strength then, MPa."""
    topping: Cast | None = None
    topping_strain: Array | None = None
    """(stations, 2): elastic strain of the topping, as the plane above."""
    notes: tuple[str, ...] = ()

    def at(self, values: Array, x: Array) -> Array:
        """Values of the past's stations (…, stations) at other places."""
        rows = np.atleast_2d(values)
        return np.array([np.interp(x, self.x, row) for row in rows]).reshape(*values.shape[:-1], len(x))

    def plane(self, planes: Array, x: Array) -> Array:
        """(stations, 2) of the past at other places."""
        return np.column_stack([np.interp(x, self.x, planes[:, 0]), np.interp(x, self.x, planes[:, 1])])

    def concrete_strain(self, x: Array, y: Array | float) -> Array:
        """Elastic strain of the beam's concrete at heights ``y``."""
        plane = self.plane(self.strain, x)
        return np.asarray(plane[:, 0] - plane[:, 1] * y)

    def offset(self, x: Array) -> Array:
        """(stations, 2): elastic strain of the topping less that of the beam's concrete, were it there, as a plane."""
        assert self.topping_strain is not None
        return self.plane(self.topping_strain - self.strain, x)


def shifted(law: StressStrain, offset: float) -> StressStrain:
    """The law of a concrete that has ``offset`` more strain than the plane by which it is asked."""

    def piece(p: Piece) -> Piece:
        return Piece(p.low - offset, p.high - offset, lambda e: p.stress(e + offset), p.straight)

    return StressStrain(tuple(piece(p) for p in law.pieces), law.name, law.source)


def whole_outline(beam: Beam, cast: Cast | None) -> Outline:
    """The section with its topping; the beam's own without one."""
    if cast is None:
        return beam.outline
    strips = np.vstack([beam.outline.strips, cast.strips])
    return Outline("outline", strips, _ring(beam.outline, cast), beam.outline.holes)


def _ring(outline: Outline, cast: Cast) -> tuple[Point, ...]:
    """The beam's polygon with the topping's put on its highest edge, where it has one; else the beam's and no more."""
    points = list(outline.points)
    top = max(y for _, y in points)
    on = [i for i, (_, y) in enumerate(points) if abs(y - top) < 1e-6]
    raised = _turned([(px, py + cast.low) for px, py in cast.outline.points])
    for i in on:
        j = (i + 1) % len(points)
        if j in on:
            new = raised if points[i][0] > points[j][0] else raised[::-1]
            return (*points[: i + 1], *new, *points[i + 1 :])
    return outline.points


def _turned(ring: Sequence[Point]) -> list[Point]:
    """The ring from its lowest right corner round to its lowest left one."""
    low = min(y for _, y in ring)
    start = max((i for i, (_, y) in enumerate(ring) if abs(y - low) < 1e-6), key=lambda i: ring[i][0])
    turned = [*ring[start:], *ring[:start]]
    return turned if abs(turned[-1][1] - low) < 1e-6 else [turned[0], *turned[:0:-1]]

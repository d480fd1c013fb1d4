"""Axial force with bending at an ultimate strain: points of the N–M line, by the same kernel.

The section is made with a verification law of its concrete (:mod:`soffit.materials.design_laws`) and
reaches its ultimate strain at the outermost compressed fibre; a neutral axis depth c, counted from that
fibre, then fixes the whole plane of strain. Axial force positive in tension (a column's P is −N), moments
about the axis of the section, sagging positive. Base units N, mm, MPa.

A rectangular block stops at one strain. As its edge reaches a layer of steel, the concrete that the layer
displaces starts to count at once and the force of the section jumps back a little: a force near that jump
then has three neutral axes close together, and one of them is given.
"""

# mypy: allow-untyped-calls

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import inf, nan

import numpy as np

from soffit.section.model import Section


@dataclass(frozen=True)
class Limits:
    """The strains at which a section counts as failed, both positive.

    ACI 318-19 22.2.2.1: 0.003 throughout, so ``even`` equals ``ultimate``. EN 1992-1-1:2004 6.1 (figure
    6.1): εcu2 at the outermost fibre, and once the whole section is compressed the plane turns about the
    point (1 − εc2/εcu2)·h from that fibre, where the strain is εc2 (= ``even``).
    """

    ultimate: float
    even: float

    def __post_init__(self) -> None:
        if not 0 < self.even <= self.ultimate:
            raise ValueError("the strain under even compression must be positive and at most the ultimate strain")


ACI = Limits(0.003, 0.003)


@dataclass(frozen=True)
class Point:
    """One point of the N–M line."""

    depth: float
    """Neutral axis depth c from the outermost compressed fibre, mm; inf under even compression."""
    axial: float
    """N, tension positive."""
    moment: float
    """N·mm about the axis of the section."""
    soffit: float
    curvature: float
    """The plane of strain: soffit − curvature · y."""

    def strain(self, y: float) -> float:
        """Plane strain at height ``y`` (mm); the strain of prestressed steel has its prestrain on top."""
        return self.soffit - self.curvature * y


_NONE = Point(nan, nan, nan, nan, nan)


def at_depth(section: Section, limits: Limits, depth: float, hogging: bool = False) -> Point:
    """The point for a neutral axis ``depth`` (mm > 0, inf for even compression).

    Raises ``ValueError`` for a depth that is not positive: no concrete would then be compressed.
    """
    if not depth > 0:
        raise ValueError("the neutral axis depth must be above zero")
    h = section.depth
    if depth == inf:
        soffit, curvature = -limits.even, 0.0
    else:
        if depth <= h:
            curvature = limits.ultimate / depth
        else:
            curvature = limits.even / (depth - (1.0 - limits.even / limits.ultimate) * h)
        # strain is zero at the neutral axis, at h − c over the soffit (sagging) or at c (hogging)
        soffit = curvature * (h - depth)
        if hogging:
            soffit, curvature = -curvature * depth, -curvature
    axial, moment = section.resultants(soffit, curvature)
    return Point(depth, axial, moment, soffit, curvature)


def balanced(section: Section, limits: Limits, steel_strain: float, hogging: bool = False) -> Point:
    """The point at which the layer farthest from the compressed face just reaches ``steel_strain``.

    ``steel_strain`` is that of the steel, prestrain included (fy/Es for balanced failure).
    Raises ``ValueError`` without steel, or where prestrain alone is beyond ``steel_strain``.
    """
    if not len(section.layers):
        raise ValueError("a balanced point needs a layer of steel")
    row = section.layers[np.argmax(section.layers[:, 0]) if hogging else np.argmin(section.layers[:, 0])]
    d = float(row[0]) if hogging else section.depth - float(row[0])
    strain = steel_strain - float(row[2])
    if strain <= -limits.ultimate:
        raise ValueError(f"the steel is beyond a strain of {steel_strain:g} by its prestrain alone")
    return at_depth(section, limits, d * limits.ultimate / (limits.ultimate + strain), hogging)


def at_axial(section: Section, limits: Limits, axial: float = 0.0, hogging: bool = False) -> Point:
    """The point with a given axial force (N, tension positive); 0 for the moment strength in pure bending.

    NaN where the section cannot have that force at the ultimate strain.
    """
    return _solve(section, limits, lambda p: p.axial - axial, hogging)


def at_eccentricity(section: Section, limits: Limits, eccentricity: float, hogging: bool = False) -> Point:
    """The point of a compressive force at ``eccentricity`` (mm > 0) from the axis, on the compressed side.

    The moment is then the force times the eccentricity: that of a column, |M| = P e.
    NaN where there is no such point.
    """
    side = -1.0 if hogging else 1.0
    return _solve(section, limits, lambda p: side * p.moment + p.axial * eccentricity, hogging)


def even_compression(section: Section, limits: Limits) -> Point:
    """The point without curvature. It has a moment about the axis unless the section is symmetric."""
    return at_depth(section, limits, inf)


def even_tension(section: Section, strain: float) -> Point:
    """Force of a section drawn out evenly to ``strain``: its steel alone, once the concrete is cracked."""
    axial, moment = section.resultants(strain, 0.0)
    return Point(nan, axial, moment, strain, 0.0)


def line(section: Section, limits: Limits, points: int = 60, hogging: bool = False) -> list[Point]:
    """Points of the N–M line from even compression to a neutral axis close to the compressed face."""
    share = np.linspace(1.0, 0.02, points)
    depths = [*(section.depth * np.geomspace(20.0, 1.05, 8)), *(section.depth * share)]
    return [
        even_compression(section, limits),
        *(at_depth(section, limits, float(c), hogging) for c in depths),
    ]


def _solve(section: Section, limits: Limits, miss: Callable[[Point], float], hogging: bool) -> Point:
    """The deepest neutral axis at which ``miss`` is zero, negative below it and positive above.

    A deep neutral axis compresses everything, so ``miss`` is negative there. The deepest is the one on the
    branch without ruptured steel.
    """
    shares = np.concatenate([[1e3, 16, 4, 2], np.linspace(1.5, 0.03, 99), np.geomspace(0.02, 1e-4, 12)])
    deeper = at_depth(section, limits, float(section.depth * shares[0]), hogging)
    for share in shares[1:]:
        here = at_depth(section, limits, float(section.depth * share), hogging)
        if miss(here) >= 0.0 > miss(deeper):
            return _close_in(section, limits, miss, here, deeper, hogging)
        deeper = here
    return _NONE


def _close_in(
    section: Section, limits: Limits, miss: Callable[[Point], float], low: Point, high: Point, hogging: bool
) -> Point:
    for step in range(200):
        a, b = miss(low), miss(high)
        if a == 0.0 or high.depth - low.depth <= 1e-14 * section.depth:
            break
        middle = 0.5 * (low.depth + high.depth)
        depth = low.depth + (high.depth - low.depth) * a / (a - b)
        # false position by turns with bisection: the function may jump
        if step % 2 or not low.depth < depth < high.depth:
            depth = middle
        here = at_depth(section, limits, depth, hogging)
        low, high = (here, high) if miss(here) >= 0.0 else (low, here)
    return low

"""Elastic section: transformed properties uncracked and cracked, stresses, cracking and decompression.

Plane sections, linear steel and concrete; cracked concrete carries no tension at all. Everything here
follows from statics and the transformed section (area of steel × modular ratio), with no standard behind
it; see R. Park and T. Paulay, Reinforced Concrete Structures, Wiley 1975, chapter 10 (*from memory*).
Prestress enters as the strain of the steel where the concrete beside it has none. The concrete that
bonded steel displaces is deducted unless a layer says otherwise. Axial force positive in tension, moments
sagging positive, about the centroid of the bare concrete unless ``axis`` is given; base units N, mm, MPa.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, isnan, nan

import numpy as np

from soffit.materials.curve import Array
from soffit.section.model import Layer
from soffit.section.outline import Outline


@dataclass(frozen=True)
class ElasticLayer:
    """Steel at one height, linear."""

    y: float
    """mm above the soffit."""
    area: float
    """mm²."""
    modulus: float
    """MPa (or the modular ratio where the concrete modulus is given as 1)."""
    prestrain: float = 0.0
    displaces: bool = True
    """Whether it stands in concrete that the outline counts."""


@dataclass(frozen=True)
class Transformed:
    """Properties of a transformed section, in terms of the concrete."""

    area: float
    """mm²."""
    centroid: float
    """mm above the soffit."""
    inertia: float
    """About its own centroid, mm⁴."""


@dataclass(frozen=True)
class Plane:
    """strain(y) = ``soffit`` − ``curvature`` · y; NaN where no equilibrium exists."""

    soffit: float
    curvature: float
    """1/mm."""

    def strain(self, y: float) -> float:
        return self.soffit - self.curvature * y

    @property
    def neutral_axis(self) -> float:
        """Height of zero strain, mm above the soffit; it may lie outside the section (±inf: no
        curvature).
        """
        if self.curvature == 0.0:
            return inf if self.soffit > 0 else (-inf if self.soffit < 0 else nan)
        return self.soffit / self.curvature


def linear(layers: Sequence[Layer]) -> tuple[ElasticLayer, ...]:
    """The layers of a section with the slope of their law at the origin as their modulus."""
    tiny = 1e-7
    return tuple(ElasticLayer(x.y, x.area, float(x.law(tiny)) / tiny, x.prestrain, x.displaces) for x in layers)


def uncracked(outline: Outline, modulus: float, layers: Sequence[ElasticLayer] = ()) -> Transformed:
    """Transformed section with all its concrete; ``modulus`` of the concrete in MPa."""
    return _properties(outline, modulus, layers, -inf, inf)


def cracked(
    outline: Outline, modulus: float, layers: Sequence[ElasticLayer], hogging: bool = False
) -> tuple[Transformed, float]:
    """Transformed section in pure bending without axial force or prestress, and its neutral axis (mm
    above the soffit).

    The neutral axis is where the first moment of compressed concrete and transformed steel vanishes; that
    function of height is piecewise cubic and rises throughout, so it is closed in on to the last digit.
    Its centroid is the neutral axis. Raises ``ValueError`` without steel: a cracked plain section carries
    nothing.
    """
    if not any(x.area > 0 for x in layers):
        raise ValueError("a cracked section needs steel to carry the tension")
    low, high = 0.0, outline.depth

    def first_moment(y: float) -> tuple[float, float]:
        zone = (-inf, y) if hogging else (y, inf)
        area, first, _ = _sums(outline, modulus, layers, *zone, about=y)
        return first, area

    # ∫(y' − y) over the cracked transformed section: falls as y rises, its slope is minus the area
    y = 0.5 * high
    for _ in range(200):
        first, area = first_moment(y)
        if first > 0:
            low = y
        else:
            high = y
        step = first / area if area > 0 else nan
        new = y + step if low < y + step < high else 0.5 * (low + high)
        if new == y or high - low <= 1e-15 * outline.depth:
            break
        y = new
    zone = (-inf, y) if hogging else (y, inf)
    return _properties(outline, modulus, layers, *zone), y


def cracked_zone(outline: Outline, modulus: float, layers: Sequence[ElasticLayer], plane: Plane) -> Transformed:
    """Transformed section of what is in compression under ``plane``, with all steel."""
    if isnan(plane.soffit):
        return Transformed(nan, nan, nan)
    return _properties(outline, modulus, layers, *_compressed(plane))


def uncracked_plane(
    outline: Outline,
    modulus: float,
    layers: Sequence[ElasticLayer] = (),
    axial: float = 0.0,
    moment: float = 0.0,
    axis: float | None = None,
) -> Plane:
    """Strains of the uncracked section under axial force (N), moment (N·mm) and its prestress."""
    t = uncracked(outline, modulus, layers)
    force, about = _acting(outline, layers, axial, moment, axis)
    # the force acts at its own height: moved to the centroid of the transformed section
    bending = about + force * (t.centroid - _axis(outline, axis))
    curvature = bending / (modulus * t.inertia)
    return Plane(force / (modulus * t.area) + curvature * t.centroid, curvature)


def cracked_plane(
    outline: Outline,
    modulus: float,
    layers: Sequence[ElasticLayer],
    axial: float = 0.0,
    moment: float = 0.0,
    axis: float | None = None,
) -> Plane:
    """Strains of the section whose concrete carries no tension, under axial force (N), moment (N·mm) and
    prestress.

    The strain energy is convex in the two unknowns of the plane, so Newton with a line search finds the one
    equilibrium there is; NaN where there is none (a resultant that no steel holds). A section that stays in
    compression comes out as :func:`uncracked_plane` gives it.
    """
    at, depth = _axis(outline, axis), outline.depth
    force, about = _acting(outline, layers, axial, moment, axis)
    target = np.array([force, about / depth])
    size = max(abs(force), abs(about) / depth)
    if size == 0.0:
        return Plane(0.0, 0.0)
    start = uncracked_plane(outline, modulus, layers, axial, moment, axis)
    # unknowns: strain at the axis and curvature·depth, conjugate to N and M/depth
    u = np.array([start.strain(at), start.curvature * depth])

    def energy(v: Array) -> tuple[float, Array, Array]:
        plane = Plane(float(v[0] + v[1] / depth * at), float(v[1] / depth))
        zone = _compressed(plane)
        area, first, second = _sums(outline, modulus, layers, *zone, about=at)
        k = modulus * np.array([[area, -first / depth], [-first / depth, second / depth**2]])
        return float(0.5 * v @ k @ v - target @ v), k @ v - target, k

    value, gradient, k = energy(u)
    for _ in range(100):
        if float(np.max(np.abs(gradient))) <= 1e-13 * size:
            break
        if abs(float(np.linalg.det(k))) <= 1e-14 * float(np.trace(k)) ** 2:
            return Plane(nan, nan)
        step = -np.linalg.solve(k, gradient)
        share = 1.0
        while share > 1e-9:
            new_value, new_gradient, new_k = energy(u + share * step)
            if new_value <= value + 1e-4 * share * float(gradient @ step) + 1e-15 * abs(value):
                break
            # near the end the energy is flat to its last digit, and only the gradient still tells a gain
            flat = abs(new_value - value) <= 1e-12 * abs(value)
            if flat and float(np.max(np.abs(new_gradient))) < 0.5 * float(np.max(np.abs(gradient))):
                break
            share *= 0.5
        if share <= 1e-9 or not np.all(np.isfinite(u)):
            break
        u = u + share * step
        value, gradient, k = new_value, new_gradient, new_k
    if float(np.max(np.abs(gradient))) > 1e-9 * size:
        return Plane(nan, nan)
    return Plane(float(u[0] + u[1] / depth * at), float(u[1] / depth))


def concrete_stress(plane: Plane, modulus: float, y: float, carries_tension: bool = True) -> float:
    """Stress of the concrete at height ``y``, MPa."""
    stress = modulus * plane.strain(y)
    return stress if carries_tension else min(stress, 0.0)


def steel_stress(plane: Plane, layer: ElasticLayer) -> float:
    """Stress of a bonded layer, prestress included, MPa."""
    return layer.modulus * (plane.strain(layer.y) + layer.prestrain)


def moment_at_fibre_stress(
    outline: Outline,
    modulus: float,
    stress: float,
    y: float,
    layers: Sequence[ElasticLayer] = (),
    axial: float = 0.0,
    axis: float | None = None,
) -> float:
    """Moment (N·mm) under which the uncracked concrete at height ``y`` has ``stress`` (MPa, tension
    positive).
    """
    t = uncracked(outline, modulus, layers)
    force, _ = _acting(outline, layers, axial, 0.0, axis)
    if abs(y - t.centroid) < 1e-9 * outline.depth:
        raise ValueError("bending does not change the stress at the centroid")
    bending = (force / t.area - stress) * t.inertia / (y - t.centroid)
    # undo the shift to the centroid, and take the moment of the prestress off
    _, prestress_moment = _acting(outline, layers, 0.0, 0.0, axis)
    return bending - force * (t.centroid - _axis(outline, axis)) - prestress_moment


def cracking_moment(
    outline: Outline,
    modulus: float,
    tensile: float,
    layers: Sequence[ElasticLayer] = (),
    axial: float = 0.0,
    axis: float | None = None,
    hogging: bool = False,
) -> float:
    """Moment (N·mm, negative where hogging) at which the extreme fibre reaches ``tensile`` (MPa).

    ``tensile`` is whatever the rule in use says: the axial strength, or a modulus of rupture.
    """
    return moment_at_fibre_stress(outline, modulus, tensile, outline.depth if hogging else 0.0, layers, axial, axis)


def decompression_moment(
    outline: Outline,
    modulus: float,
    layers: Sequence[ElasticLayer],
    axial: float = 0.0,
    axis: float | None = None,
    y: float | None = None,
    hogging: bool = False,
) -> float:
    """Moment (N·mm) at which the concrete at ``y`` (mm; the extreme fibre unless given) has no stress
    left.
    """
    at = (outline.depth if hogging else 0.0) if y is None else y
    return moment_at_fibre_stress(outline, modulus, 0.0, at, layers, axial, axis)


def _compressed(plane: Plane) -> tuple[float, float]:
    """Heights between which a plane of strain compresses, mm (±inf where it is open)."""
    if plane.curvature == 0.0:
        return (-inf, inf) if plane.soffit < 0 else (inf, inf)
    return (plane.neutral_axis, inf) if plane.curvature > 0 else (-inf, plane.neutral_axis)


def _axis(outline: Outline, axis: float | None) -> float:
    return outline.centroid if axis is None else axis


def _acting(
    outline: Outline, layers: Sequence[ElasticLayer], axial: float, moment: float, axis: float | None
) -> tuple[float, float]:
    """Force and moment on the section once the steel's prestress is put on it from outside."""
    at = _axis(outline, axis)
    pull = [x.modulus * x.area * x.prestrain for x in layers]
    return axial - sum(pull), moment + sum(p * (x.y - at) for p, x in zip(pull, layers, strict=True))


def _properties(
    outline: Outline, modulus: float, layers: Sequence[ElasticLayer], low: float, high: float
) -> Transformed:
    area, first, _ = _sums(outline, modulus, layers, low, high, about=0.0)
    if area <= 0.0:
        return Transformed(0.0, nan, nan)
    centroid = first / area
    return Transformed(area, centroid, _sums(outline, modulus, layers, low, high, about=centroid)[2])


def _sums(
    outline: Outline, modulus: float, layers: Sequence[ElasticLayer], low: float, high: float, about: float
) -> tuple[float, float, float]:
    """Area, first and second moment about ``about`` of the concrete between two heights and the steel,
    transformed.
    """
    y0, y1, w0, w1 = outline.strips.T
    # finite, so that no product of zero and infinity arises
    low, high = (min(max(limit, -1.0), outline.depth + 1.0) for limit in (low, high))
    a, b = np.clip(y0, low, high), np.clip(y1, low, high)
    slope = (w1 - w0) / (y1 - y0)
    wa, wb = w0 + slope * (a - y0), w0 + slope * (b - y0)
    h, middle, half = b - a, 0.5 * (a + b) - about, 0.5 * (b - a)
    mean, tilt = 0.5 * (wa + wb), 0.5 * (wb - wa)
    # ∫ (mean + tilt s)(middle + half s)^k half ds, s from −1 to 1
    area = float(np.sum(mean * h))
    first = float(np.sum(h * (mean * middle + tilt * half / 3)))
    second = float(np.sum(h * (mean * (middle**2 + half**2 / 3) + 2 * tilt * middle * half / 3)))
    for x in layers:
        ratio = x.modulus / modulus - (1.0 if x.displaces and low <= x.y <= high else 0.0)
        arm = x.y - about
        area += ratio * x.area
        first += ratio * x.area * arm
        second += ratio * x.area * arm * arm
    return area, first, second

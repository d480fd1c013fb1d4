"""Moments and shears of a beam on its supports, with the support moments that statics alone cannot give left open.

The released structure is a row of simple spans with cantilevers at the ends; its redundants are the moments over
interior supports and at fixed ends. Whatever the stiffness, M = M(loads, released) + Σ X·(unit diagram).
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array
from soffit.member.beam import Load, Supports


@dataclass(frozen=True)
class Diagram:
    """Moment (N·mm, sagging positive) and shear (N, positive where the left part is pushed up) at the stations."""

    moment: Array
    shear: Array

    def __add__(self, other: Diagram) -> Diagram:
        return Diagram(self.moment + other.moment, self.shear + other.shear)

    def __mul__(self, factor: float) -> Diagram:
        return Diagram(self.moment * factor, self.shear * factor)


def point(value: float, x: float) -> Load:
    return Load("", value, x, x)


def released(x: Array, length: float, supports: Supports, loads: Sequence[Load]) -> Diagram:
    """Diagram of the released structure under downward loads, at stations ``x`` (n,)."""
    total = Diagram(np.zeros_like(x), np.zeros_like(x))
    for load in loads:
        for part in _parts(load, length, supports):
            total = total + _one(x, length, supports, part)
    return total


def redundant_diagrams(x: Array, length: float, supports: Supports) -> list[Diagram]:
    """Unit diagrams of the support moments that statics leaves open (sagging 1 N·mm at that support)."""
    held = list(supports.x)
    n = len(held)
    if n == 1:
        return []
    diagrams = []
    for i, xs in enumerate(held):
        end = i in (0, n - 1)
        fixed = (i == 0 and supports.fixed_left) or (i == n - 1 and supports.fixed_right)
        if end and not fixed:
            continue
        moment, shear = np.zeros_like(x), np.zeros_like(x)
        if i > 0:
            span = xs - held[i - 1]
            inside = (x >= held[i - 1]) & (x <= xs)
            moment[inside] = (x[inside] - held[i - 1]) / span
            shear[inside] = 1.0 / span
        if i < n - 1:
            span = held[i + 1] - xs
            inside = (x >= xs) & (x <= held[i + 1]) if i == 0 else (x > xs) & (x <= held[i + 1])
            moment[inside] = (held[i + 1] - x[inside]) / span
            shear[inside] = -1.0 / span
        diagrams.append(Diagram(moment, shear))
    return diagrams


def total(loads: Sequence[Load]) -> float:
    """Sum of the loads, N."""
    return float(sum(load.value if load.is_point else load.value * (load.x_to - load.x_from) for load in loads))


def _parts(load: Load, length: float, supports: Supports) -> list[Load]:
    """A spread load cut at the supports, so that each part lies in one span or one cantilever."""
    if load.is_point:
        return [load]
    cuts = [load.x_from, *(s for s in supports.x if load.x_from < s < load.x_to), load.x_to]
    return [Load(load.case, load.value, a, b) for a, b in itertools.pairwise(cuts)]


def _one(x: Array, length: float, supports: Supports, load: Load) -> Diagram:
    held = supports.x
    middle = 0.5 * (load.x_from + load.x_to)
    if middle <= held[0]:
        return _cantilever_left(x, held, load)
    if middle >= held[-1]:
        mirrored = _cantilever_left(length - x, tuple(length - s for s in reversed(held)), _mirror(load, length))
        return Diagram(mirrored.moment, -mirrored.shear)
    i = int(np.searchsorted(held, middle)) - 1
    return _simple_span(x, held[i], held[i + 1], load)


def _mirror(load: Load, length: float) -> Load:
    return Load(load.case, load.value, length - load.x_to, length - load.x_from)


def _beyond(x: Array, load: Load) -> tuple[Array, Array]:
    """Part of the load to the left of x, and its moment about x."""
    if load.is_point:
        left = (x > load.x_from).astype(float) * load.value
        return left, left * (x - load.x_from)
    run = np.clip(x - load.x_from, 0.0, load.x_to - load.x_from)
    return load.value * run, load.value * run * (x - load.x_from - run / 2)


def _simple_span(x: Array, a: float, b: float, load: Load) -> Diagram:
    force = total([load])
    centre = 0.5 * (load.x_from + load.x_to)
    left = force * (b - centre) / (b - a)
    passed, about = _beyond(x, load)
    inside = (x >= a) & (x <= b)
    moment = np.where(inside, left * (x - a) - about, 0.0)
    return Diagram(moment, np.where(inside, left - passed, 0.0))


def _cantilever_left(x: Array, held: tuple[float, ...], load: Load) -> Diagram:
    """A load left of the first support: hogging there, and back to zero over the first span (if there is one)."""
    passed, about = _beyond(x, load)
    moment, shear = -about, -passed
    over = -total([load]) * (held[0] - 0.5 * (load.x_from + load.x_to))
    beyond = x > held[0]
    if len(held) > 1:
        span = held[1] - held[0]
        inside = beyond & (x <= held[1])
        moment = np.where(beyond, np.where(inside, over * (held[1] - x) / span, 0.0), moment)
        shear = np.where(beyond, np.where(inside, -over / span, 0.0), shear)
    else:
        moment, shear = np.where(beyond, 0.0, moment), np.where(beyond, 0.0, shear)
    return Diagram(moment, shear)


def product_weights(x: Array, factor: Array) -> Array:
    """Weights w (n,) with which Σ w·f is ∫ factor·f dx, both linear between the stations (Mohr's integral)."""
    dx = np.diff(x)
    w = np.zeros_like(x)
    w[:-1] += dx / 6.0 * (2.0 * factor[:-1] + factor[1:])
    w[1:] += dx / 6.0 * (factor[:-1] + 2.0 * factor[1:])
    return w


def deflection(x: Array, curvature: Array, supports: Supports, shear_strain: Array | None = None) -> Array:
    """Downward deflection (mm) from curvature (n,) or (steps, n) at the stations, by the trapezoidal rule, with shear.

    The rigid motion is fixed by the supports: zero at the first and last, or zero with zero slope at a fixed end.
    """
    k = np.atleast_2d(curvature)
    dx = np.diff(x)
    # slope falls with sagging curvature: upward w'' = κ
    slope = np.concatenate([np.zeros((len(k), 1)), np.cumsum(0.5 * (k[:, 1:] + k[:, :-1]) * dx, axis=1)], axis=1)
    # exact for curvature linear between stations
    area = slope[:, :-1] * dx + (2 * k[:, :-1] + k[:, 1:]) * dx**2 / 6
    up = np.concatenate([np.zeros((len(k), 1)), np.cumsum(area, axis=1)], axis=1)
    if shear_strain is not None:
        g = np.atleast_2d(shear_strain)
        up = up - np.concatenate([np.zeros((len(k), 1)), np.cumsum(0.5 * (g[:, 1:] + g[:, :-1]) * dx, axis=1)], axis=1)
    first, last = supports.x[0], supports.x[-1]

    def at(values: Array, where: float) -> Array:
        i = int(np.clip(np.searchsorted(x, where), 1, len(x) - 1))
        t = (where - x[i - 1]) / (x[i] - x[i - 1])
        return np.asarray(values[:, i - 1] * (1 - t) + values[:, i] * t)

    if len(supports.x) > 1:
        turn = (at(up, last) - at(up, first)) / (last - first)
        up = up - at(up, first)[:, None] - turn[:, None] * (x - first)
    else:
        up = up - at(up, first)[:, None] - at(slope, first)[:, None] * (x - first)
    return np.asarray(-up).reshape(np.shape(curvature))

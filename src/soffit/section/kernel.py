"""Resultants and equilibrium of one section, as compiled functions of numbers and arrays.

Plane sections: strain(y) = strain at the soffit − curvature·y, elongation positive, sagging positive.
Axial force N is positive in tension; the moment M is about the height ``axis``, sagging positive.
A section reaches the kernels as five arrays:

* ``strips`` (s, 5): y_low, y_high, width_low, width_high, index of the concrete law;
* ``layers`` (l, 5): y, area, prestrain, index of the steel law, index of the concrete law it displaces (−1: none);
* ``table``, ``first``, ``last``: the laws (:mod:`soffit.section.lawtable`).

The strain of a layer is the plane strain plus its prestrain. Steel displaces the concrete it stands in.
Base units N, mm, MPa. Stress is looked up, resultants are exact for the table, the tangents are those of the
resultants themselves (jumps of stress included).
"""

from __future__ import annotations

from math import isnan, nan
from typing import TypeAlias

import numpy as np

from soffit.jit import kernel, parallel_kernel, prange
from soffit.materials.curve import Array
from soffit.section.strip import NARROW, Five, Ints, Pair, by_points, integrals, locate, stress_at, strip

SectionArrays: TypeAlias = tuple[Array, Array, Array, Ints, Ints]
"""strips, layers, table, first, last: one section as every kernel here takes it."""

_MOST_STEPS = 60


@kernel
def resultants(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    soffit: float,
    curvature: float,
) -> Five:
    """N, M, dN/d(soffit strain), dN/d(curvature), dM/d(curvature) of a section under a plane of strain."""
    force = moment = k_ee = k_ek = k_mk = 0.0
    for i in range(strips.shape[0]):
        law = int(strips[i, 4])
        f, m, kee, kek, kmk = strip(
            table,
            first[law],
            last[law],
            soffit,
            curvature,
            strips[i, 0],
            strips[i, 1],
            strips[i, 2],
            strips[i, 3],
            axis,
        )
        force += f
        moment += m
        k_ee += kee
        k_ek += kek
        k_mk += kmk
    for i in range(layers.shape[0]):
        y, area, law, displaced = layers[i, 0], layers[i, 1], int(layers[i, 3]), int(layers[i, 4])
        e = soffit - curvature * y
        s, k = stress_at(table, first[law], last[law], e + layers[i, 2])
        if displaced >= 0:
            sc, kc = stress_at(table, first[displaced], last[displaced], e)
            s -= sc
            k -= kc
        force += area * s
        moment -= area * s * (y - axis)
        k_ee += area * k
        k_ek -= area * k * y
        k_mk += area * k * y * (y - axis)
    return force, moment, k_ee, k_ek, k_mk


@kernel
def _axial(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    soffit: float,
    curvature: float,
) -> Pair:
    """N and dN/d(soffit strain) alone: what the search for equilibrium asks again and again."""
    force = k_ee = 0.0
    for i in range(strips.shape[0]):
        law = int(strips[i, 4])
        y0, y1, w0, w1 = strips[i, 0], strips[i, 1], strips[i, 2], strips[i, 3]
        ea, eb = soffit - curvature * y0, soffit - curvature * y1
        row_a, row_b = locate(table, first[law], last[law], ea), locate(table, first[law], last[law], eb)
        if row_a == row_b or abs(ea - eb) < NARROW:
            f, _, k, _, _ = by_points(table, row_a, row_b, soffit, curvature, y0, y1, w0, w1, 0.0)
        else:
            sa, ia0, ia1, _ = integrals(table, row_a, ea)
            sb, ib0, ib1, _ = integrals(table, row_b, eb)
            inv = 1.0 / curvature
            slope = (w1 - w0) / (y1 - y0)
            a, b = w0 + slope * (soffit * inv - y0), -slope * inv
            f = inv * (a * (ia0 - ib0) + b * (ia1 - ib1))
            k = inv * (w0 * sa - w1 * sb - b * (ia0 - ib0))
        force += f
        k_ee += k
    for i in range(layers.shape[0]):
        e = soffit - curvature * layers[i, 0]
        law, displaced = int(layers[i, 3]), int(layers[i, 4])
        s, k = stress_at(table, first[law], last[law], e + layers[i, 2])
        if displaced >= 0:
            sc, kc = stress_at(table, first[displaced], last[displaced], e)
            s -= sc
            k -= kc
        force += layers[i, 1] * s
        k_ee += layers[i, 1] * k
    return force, k_ee


@kernel
def equilibrium(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    curvature: float,
    axial: float,
    guess: float,
    scale: float,
) -> float:
    """Soffit strain at which the section carries ``axial`` under ``curvature``; NaN when there is none near.

    Newton from ``guess`` with the true slope; where that does not settle, the nearest bracket around the guess is
    searched and closed by bisection-guarded Newton. ``scale`` (N) is the force against which 1e-10 is measured.
    """
    tolerance = 1e-10 * scale
    e = guess
    for _ in range(12):
        force, slope = _axial(strips, layers, table, first, last, e, curvature)
        miss = force - axial
        if abs(miss) <= tolerance:
            return e
        if slope <= 0.0:
            break
        step = miss / slope
        if abs(step) > 2e-3:
            break
        e -= step
        if abs(step) < 1e-15:
            return e
    return _bracketed(strips, layers, table, first, last, curvature, axial, guess, tolerance)


@kernel
def _bracketed(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    curvature: float,
    axial: float,
    guess: float,
    tolerance: float,
) -> float:
    """Walk outward from the guess until the sign changes on a rising branch, then close in."""
    f0, _ = _axial(strips, layers, table, first, last, guess, curvature)
    miss0 = f0 - axial
    step = 2e-6
    up_e, up_m, down_e, down_m = guess, miss0, guess, miss0
    low, high = nan, nan
    for _ in range(_MOST_STEPS):
        e = up_e + step
        f, _ = _axial(strips, layers, table, first, last, e, curvature)
        if up_m <= 0.0 <= f - axial:
            low, high = up_e, e
            break
        up_e, up_m = e, f - axial
        e = down_e - step
        f, _ = _axial(strips, layers, table, first, last, e, curvature)
        if f - axial <= 0.0 <= down_m:
            low, high = e, down_e
            break
        down_e, down_m = e, f - axial
        step *= 1.3
        if step > 0.05:
            break
    if isnan(low):
        return nan
    e = 0.5 * (low + high)
    for _ in range(200):
        force, slope = _axial(strips, layers, table, first, last, e, curvature)
        miss = force - axial
        if abs(miss) <= tolerance or high - low < 1e-16:
            return e
        if miss > 0.0:
            high = e
        else:
            low = e
        new = e - miss / slope if slope > 0.0 else nan
        e = new if low < new < high else 0.5 * (low + high)
    return e


@kernel
def trace(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    curvatures: Array,
    axial: float,
    guess: float,
    scale: float,
) -> tuple[Array, Array]:
    """Equilibrium at each curvature in turn, each from the last: soffit strains and moments (NaN once it is lost)."""
    n = curvatures.shape[0]
    strain, moment = np.full(n, nan), np.full(n, nan)
    e = guess
    for i in range(n):
        start = e
        if i > 1 and curvatures[i - 1] != curvatures[i - 2]:
            # a parabola through the last three points, a line through the last two while there are no more
            step, one = curvatures[i] - curvatures[i - 1], curvatures[i - 1] - curvatures[i - 2]
            slope = (strain[i - 1] - strain[i - 2]) / one
            start = e + step * slope
            if i > 2 and curvatures[i - 2] != curvatures[i - 3]:
                before = (strain[i - 2] - strain[i - 3]) / (curvatures[i - 2] - curvatures[i - 3])
                start += step * (step + one) * (slope - before) / (curvatures[i - 1] - curvatures[i - 3])
        found = equilibrium(strips, layers, table, first, last, curvatures[i], axial, start, scale)
        if isnan(found) and start != e:
            found = equilibrium(strips, layers, table, first, last, curvatures[i], axial, e, scale)
        if isnan(found):
            break
        e = found
        strain[i] = e
        moment[i] = resultants(strips, layers, table, first, last, axis, e, curvatures[i])[1]
    return strain, moment


@parallel_kernel
def trace_many(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    curvatures: Array,
    axial: Array,
    guess: Array,
    scale: float,
) -> tuple[Array, Array]:
    """:func:`trace` for many sections of one outline: ``layers`` (k, l, 5), ``curvatures`` (k, n), ``axial`` (k,)."""
    k, n = curvatures.shape
    strain, moment = np.empty((k, n)), np.empty((k, n))
    for j in prange(k):
        strain[j], moment[j] = trace(
            strips, layers[j], table, first, last, axis, curvatures[j], axial[j], guess[j], scale
        )
    return strain, moment


@kernel
def find_plane(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    axial: float,
    moment: float,
    soffit: float,
    curvature: float,
    scale: float,
    depth: float,
) -> Pair:
    """Plane of strain that carries (axial, moment): Newton in two unknowns from a first guess; NaN where it fails."""
    e, k = soffit, curvature
    best = np.inf
    for _ in range(50):
        n, m, a, b, d = resultants(strips, layers, table, first, last, axis, e, k)
        # dM/d(soffit) from symmetry about the axis: M = −∫σ(y−axis), so dM/de = dN/dκ + axis·dN/de
        c = b + axis * a
        rn, rm = axial - n, moment - m
        miss = max(abs(rn), abs(rm) / depth)
        if miss <= 1e-11 * scale:
            return e, k
        best = min(best, miss)
        det = a * d - b * c
        if det == 0.0:
            break
        de, dk = (rn * d - rm * b) / det, (a * rm - c * rn) / det
        largest = max(abs(de), abs(dk) * depth)
        damp = min(1.0, 1e-3 / largest) if largest > 0 else 1.0
        e += damp * de
        k += damp * dk
    return nan, nan


def zeros() -> Array:
    """No layers of steel."""
    return np.zeros((0, 5))

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

from math import isnan, nan, sqrt
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from soffit.jit import kernel, parallel_kernel, prange
from soffit.materials.curve import Array

Ints: TypeAlias = NDArray[np.int64]
Pair: TypeAlias = tuple[float, float]
SectionArrays: TypeAlias = tuple[Array, Array, Array, Ints, Ints]
"""strips, layers, table, first, last: one section as every kernel here takes it."""
Five: TypeAlias = tuple[float, float, float, float, float]

NARROW = 1e-5
"""Strain difference over a strip below which differences of integrals would lose digits."""
_G1 = 0.5 - 0.5 * sqrt(0.6)
_G2 = 0.5 + 0.5 * sqrt(0.6)
_MOST_STEPS = 60


@kernel
def locate(
    table: Array,
    first: int,
    last: int,
    strain: float,
) -> int:
    """Row of the piece that holds ``strain``."""
    low, high = first, last
    while low < high:
        middle = (low + high + 1) >> 1
        if table[middle, 0] <= strain:
            low = middle
        else:
            high = middle - 1
    return low


@kernel
def stress_at(
    table: Array,
    first: int,
    last: int,
    strain: float,
) -> Pair:
    """Stress and its slope."""
    row = locate(table, first, last, strain)
    t = strain - table[row, 0]
    c1, c2, c3 = table[row, 2], table[row, 3], table[row, 4]
    return table[row, 1] + t * (c1 + t * (c2 + t * c3)), c1 + t * (2 * c2 + 3 * t * c3)


@kernel
def _integrals(
    table: Array,
    row: int,
    strain: float,
) -> tuple[float, float, float, float]:
    """Stress and the integrals of stress, stress·strain, stress·strain² from strain 0."""
    e = table[row, 0]
    t = strain - e
    c0, c1, c2, c3 = table[row, 1], table[row, 2], table[row, 3], table[row, 4]
    s = c0 + t * (c1 + t * (c2 + t * c3))
    j0 = t * (c0 + t * (c1 / 2 + t * (c2 / 3 + t * c3 / 4)))
    j1 = t * t * (c0 / 2 + t * (c1 / 3 + t * (c2 / 4 + t * c3 / 5)))
    j2 = t * t * t * (c0 / 3 + t * (c1 / 4 + t * (c2 / 5 + t * c3 / 6)))
    return s, table[row, 5] + j0, table[row, 6] + e * j0 + j1, table[row, 7] + e * (e * j0 + 2 * j1) + j2


@kernel
def _strip_by_points(
    table: Array,
    row_a: int,
    row_b: int,
    soffit: float,
    curvature: float,
    y0: float,
    y1: float,
    w0: float,
    w1: float,
    axis: float,
) -> Five:
    """A strip whose strains are nearly uniform: three Gauss points in each piece of the law (exact to degree 5)."""
    force = moment = k_ee = k_em = k_mm = 0.0
    low_row, high_row = min(row_a, row_b), max(row_a, row_b)
    slope = (w1 - w0) / (y1 - y0)
    for row in range(low_row, high_row + 1):
        ya, yb = y0, y1
        if low_row != high_row:
            # heights at which this piece begins and ends (curvature is not zero, or one row would hold both edges)
            if row > low_row:
                y = (soffit - table[row, 0]) / curvature
                if curvature > 0:
                    yb = min(yb, y)
                else:
                    ya = max(ya, y)
            if row < high_row:
                y = (soffit - table[row + 1, 0]) / curvature
                if curvature > 0:
                    ya = max(ya, y)
                else:
                    yb = min(yb, y)
        h = yb - ya
        if h <= 0:
            continue
        for g in range(3):
            place = 0.5 if g == 0 else (_G1 if g == 1 else _G2)
            weight = (8.0 if g == 0 else 5.0) / 18.0
            y = ya + place * h
            t = soffit - curvature * y - table[row, 0]
            c1, c2, c3 = table[row, 2], table[row, 3], table[row, 4]
            area = (w0 + slope * (y - y0)) * h * weight
            f = (table[row, 1] + t * (c1 + t * (c2 + t * c3))) * area
            k = (c1 + t * (2 * c2 + 3 * t * c3)) * area
            arm = y - axis
            force += f
            moment -= f * arm
            k_ee += k
            k_em -= k * y
            k_mm += k * arm * y
    return force, moment, k_ee, k_em, k_mm


@kernel
def _strip(
    table: Array,
    first: int,
    last: int,
    soffit: float,
    curvature: float,
    y0: float,
    y1: float,
    w0: float,
    w1: float,
    axis: float,
) -> Five:
    """Force, moment about ``axis`` and their slopes (dN/de, dN/dκ, dM/dκ) of one trapezoid of concrete."""
    ea, eb = soffit - curvature * y0, soffit - curvature * y1
    row_a, row_b = locate(table, first, last, ea), locate(table, first, last, eb)
    if row_a == row_b or abs(ea - eb) < NARROW:
        return _strip_by_points(table, row_a, row_b, soffit, curvature, y0, y1, w0, w1, axis)
    sa, ia0, ia1, ia2 = _integrals(table, row_a, ea)
    sb, ib0, ib1, ib2 = _integrals(table, row_b, eb)
    d0, d1, d2 = ia0 - ib0, ia1 - ib1, ia2 - ib2
    # width = a + b·strain; height above the axis = (r − strain)/curvature
    slope = (w1 - w0) / (y1 - y0)
    r = soffit - curvature * axis
    a = w0 + slope * (soffit / curvature - y0)
    b = -slope / curvature
    inv = 1.0 / curvature
    force = inv * (a * d0 + b * d1)
    first_moment = inv * (a * d1 + b * d2)  # ∫ width·stress·strain dy
    moment = inv * (first_moment - r * force)
    # slopes: integrate width·(power of y)·dstress by parts
    k_ee = inv * (w0 * sa - w1 * sb - b * d0)
    # d/dκ at fixed soffit strain: strain changes by −y; ∫ w·σ'·y dy with y = (soffit − e)/κ
    wa_y, wb_y = w0 * y0, w1 * y1
    # derivative of w·y with respect to strain, integrated against stress: d(wy)/de = −(w + slope·y)/κ
    swy = -inv * ((a + slope * soffit * inv) * d0 + (b - slope * inv) * d1)
    k_y = inv * (wa_y * sa - wb_y * sb - swy)  # ∫ w σ' y dy
    arm_a, arm_b = y0 - axis, y1 - axis
    # d(w·y·(y−axis))/de = −(slope·y·(y−axis) + w·(2y−axis))/κ, integrated against stress, by powers of strain
    # y = p − q e, w = a + b e with p = soffit/κ, q = 1/κ
    p, q = soffit * inv, inv
    z0 = slope * p * (p - axis) + a * (2 * p - axis)
    z1 = -slope * q * (2 * p - axis) + b * (2 * p - axis) - 2 * a * q
    z2 = slope * q * q - 2 * b * q
    swyy = -inv * (z0 * d0 + z1 * d1 + z2 * d2)
    k_mm = inv * (wa_y * arm_a * sa - wb_y * arm_b * sb - swyy)
    return force, moment, k_ee, -k_y, k_mm


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
        f, m, kee, kek, kmk = _strip(
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
            f, _, k, _, _ = _strip_by_points(table, row_a, row_b, soffit, curvature, y0, y1, w0, w1, 0.0)
        else:
            sa, ia0, ia1, _ = _integrals(table, row_a, ea)
            sb, ib0, ib1, _ = _integrals(table, row_b, eb)
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
            ratio = (curvatures[i] - curvatures[i - 1]) / (curvatures[i - 1] - curvatures[i - 2])
            start = strain[i - 1] + ratio * (strain[i - 1] - strain[i - 2])
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

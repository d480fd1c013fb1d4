"""Force and moment of one trapezoid of concrete under a plane of strain, looked up from the integrals of its law."""

from __future__ import annotations

from math import sqrt
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from soffit.jit import kernel
from soffit.materials.curve import Array

Ints: TypeAlias = NDArray[np.int64]
Pair: TypeAlias = tuple[float, float]
Five: TypeAlias = tuple[float, float, float, float, float]

NARROW = 1e-5
"""Strain difference over a strip below which differences of integrals would lose digits."""
_G1 = 0.5 - 0.5 * sqrt(0.6)
_G2 = 0.5 + 0.5 * sqrt(0.6)


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
def integrals(
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
def by_points(
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
def strip(
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
        return by_points(table, row_a, row_b, soffit, curvature, y0, y1, w0, w1, axis)
    sa, ia0, ia1, ia2 = integrals(table, row_a, ea)
    sb, ib0, ib1, ib2 = integrals(table, row_b, eb)
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

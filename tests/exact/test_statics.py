"""Moments, shears and deflections of a beam on its supports against closed forms."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from soffit.member import statics
from soffit.member.beam import Load, Supports

LENGTH = 6000.0
X = np.linspace(0.0, LENGTH, 1201)
SIMPLE = Supports((0.0, LENGTH))
EI, GA = 2.0e13, 5.0e8


def diagram(supports: Supports, *loads: Load, x: np.ndarray = X) -> statics.Diagram:
    return statics.released(x, LENGTH, supports, loads)


def test_uniform_load_on_a_simple_span():
    d = diagram(SIMPLE, Load("", 3.0, 0.0, LENGTH))
    np.testing.assert_allclose(d.moment, 3.0 * X * (LENGTH - X) / 2, atol=1e-3)
    np.testing.assert_allclose(d.shear, 3.0 * (LENGTH / 2 - X), atol=1e-8)


@pytest.mark.parametrize("at", [500.0, 2000.0, 5995.0])
def test_point_load_on_a_simple_span(at):
    d = diagram(SIMPLE, statics.point(7e3, at))
    far = LENGTH - at
    np.testing.assert_allclose(d.moment, 7e3 / LENGTH * np.where(at >= X, far * X, at * (LENGTH - X)), atol=1e-3)
    off = at != X
    np.testing.assert_allclose(d.shear[off], 7e3 / LENGTH * np.where(at > X, far, -at)[off], atol=1e-8)


def test_patch_load_is_the_sum_of_point_loads():
    a, b, w = 1100.0, 2900.0, 4.0
    left = w * (b - a) * (LENGTH - (a + b) / 2) / LENGTH
    d = diagram(SIMPLE, Load("", w, a, b))
    below = left * X - np.where(a < X, w * (np.minimum(X, b) - a) * (X - (np.minimum(X, b) + a) / 2), 0.0)
    np.testing.assert_allclose(d.moment, below, atol=1e-3)
    # influence line: a patch is many points
    n = 3600
    each = [statics.point(w * (b - a) / n, a + (i + 0.5) * (b - a) / n) for i in range(n)]
    np.testing.assert_allclose(diagram(SIMPLE, *each).moment, below, atol=1e-5 * below.max())


def test_overhangs_on_both_sides_under_uniform_load():
    a, b = 1000.0, 4500.0
    d = diagram(Supports((a, b)), Load("", 2.0, 0.0, LENGTH))
    np.testing.assert_allclose(d.moment[a >= X], -(X[a >= X] ** 2), atol=1e-4)
    np.testing.assert_allclose(d.moment[b <= X], -((LENGTH - X[b <= X]) ** 2), atol=1e-4)
    # between the supports: the parabola of the span under the line that joins the support moments
    inside = (a <= X) & (b >= X)
    t = (X[inside] - a) / (b - a)
    line = -(a**2) * (1 - t) - (LENGTH - b) ** 2 * t
    np.testing.assert_allclose(d.moment[inside], line + (X[inside] - a) * (b - X[inside]), atol=1e-3)


@pytest.mark.parametrize("held", [0.0, 2500.0, LENGTH])
def test_cantilevers_from_one_support(held):
    """Point loads and a patch on either side of a lone fixed support: each side stands by itself."""
    loads = [Load("", 2.0, 0.0, LENGTH), *(statics.point(5e3, x) for x in (600.0, 5200.0))]
    d = diagram(Supports((held,), fixed_left=True, fixed_right=True), *loads)
    for i in (100, 333, 777, 1100):
        x = X[i]
        away = -1.0 if x < held else 1.0
        tip = (x if away < 0 else LENGTH - x) ** 2
        points = sum(5e3 * max((p - x) * away, 0.0) for p in (600.0, 5200.0))
        assert d.moment[i] == pytest.approx(-tip - points, rel=1e-9)


@pytest.mark.parametrize(
    "supports", [SIMPLE, Supports((800.0, 3000.0, 5000.0)), Supports((0.0, 1500.0, 4000.0, 6000.0))]
)
def test_shear_is_the_slope_of_the_moment_and_steps_by_the_forces(supports):
    loads = [Load("", 1.5, 200.0, 5500.0), statics.point(4e3, 2503.0), statics.point(1e3, 5903.0)]
    d = diagram(supports, *loads)
    smooth = np.ones(len(X) - 1, dtype=bool)
    for p in (200.0, 2503.0, 5500.0, 5903.0, *supports.x):
        smooth &= (X[1:] <= p - 1e-9) | (X[:-1] >= p + 1e-9)
        smooth &= ~((X[:-1] <= p) & (X[1:] >= p))
    mean = 0.5 * (d.shear[1:] + d.shear[:-1])
    np.testing.assert_allclose((np.diff(d.moment) / np.diff(X))[smooth], mean[smooth], atol=1e-6)
    eps = 1e-6
    sides = np.array([s + e for s in supports.x for e in (-eps, eps)])
    sides = np.clip(sides, 0.0, LENGTH)
    v = statics.released(sides, LENGTH, supports, loads).shear.reshape(-1, 2)
    # at an end of the beam only one side exists
    v[:, 0] = np.where(np.array(supports.x) == 0.0, 0.0, v[:, 0])
    v[:, 1] = np.where(np.array(supports.x) == LENGTH, 0.0, v[:, 1])
    assert np.sum(v[:, 1] - v[:, 0]) == pytest.approx(statics.total(loads), rel=1e-6)


def support_moments(supports: Supports, *loads: Load, length: float = LENGTH) -> np.ndarray:
    """Redundants of a beam of constant EI, by the program's diagrams and Simpson's rule between the supports."""
    held = np.unique([0.0, *supports.x, length, *(e for load in loads for e in (load.x_from, load.x_to))])
    nodes, weights = np.polynomial.legendre.leggauss(8)
    x = np.concatenate([0.5 * (b - a) * nodes + 0.5 * (a + b) for a, b in pairwise(held)])
    w = np.concatenate([0.5 * (b - a) * weights for a, b in pairwise(held)])
    m = statics.released(x, length, supports, loads).moment
    units = np.array([d.moment for d in statics.redundant_diagrams(x, length, supports)])
    return np.linalg.solve((units * w) @ units.T, -(units * w) @ m)


FIXED = Supports((0.0, LENGTH), fixed_left=True, fixed_right=True)
UDL = Load("", 2.0, 0.0, LENGTH)
WLL = 2.0 * LENGTH**2
A, B = 1500.0, 4500.0


@pytest.mark.parametrize(
    ("supports", "load", "moments"),
    [
        (FIXED, UDL, [-WLL / 12, -WLL / 12]),
        (FIXED, statics.point(8.0, A), [-8 * A * B**2 / LENGTH**2, -8 * A**2 * B / LENGTH**2]),
        (Supports((0.0, LENGTH), fixed_left=True), UDL, [-WLL / 8]),
        (Supports((0.0, LENGTH), fixed_right=True), statics.point(8.0, 3000.0), [-3 * 8.0 * LENGTH / 16]),
        (Supports((0.0, 3000.0, LENGTH)), UDL, [-WLL / 32]),
        (Supports((0.0, 2000.0, 4000.0, LENGTH)), UDL, [-WLL / 90, -WLL / 90]),
        (Supports((0.0, 3000.0, LENGTH)), Load("", 2.0, 0.0, 3000.0), [-WLL / 64]),
    ],
)  # fmt: skip
def test_support_moments_of_the_tables(supports, load, moments):
    np.testing.assert_allclose(support_moments(supports, load), moments, rtol=1e-10)


def test_support_moments_by_the_equation_of_three_moments():
    """Clapeyron: M1 L1 + 2 M2 (L1 + L2) + M3 L2 = −(w1 L1³ + w2 L2³)/4, four spans and an overhang at each end."""
    held = np.array([400.0, 1500.0, 3300.0, 4000.0, 5600.0])
    spans, w = np.diff(held), np.array([3.0, 1.0, 6.0, 2.0])
    loads = [Load("", w[i], held[i], held[i + 1]) for i in range(4)]
    loads += [Load("", 5.0, 0.0, 400.0), Load("", 5.0, 5600.0, LENGTH)]
    ends = -5.0 * 400.0**2 / 2
    matrix, right = np.zeros((3, 3)), np.zeros(3)
    for i in range(3):
        matrix[i, i] = 2 * (spans[i] + spans[i + 1])
        if i > 0:
            matrix[i, i - 1] = spans[i]
        if i < 2:
            matrix[i, i + 1] = spans[i + 1]
        right[i] = -(w[i] * spans[i] ** 3 + w[i + 1] * spans[i + 1] ** 3) / 4
    right[0] -= ends * spans[0]
    right[2] -= ends * spans[3]
    found = support_moments(Supports(tuple(held)), *loads)
    np.testing.assert_allclose(found, np.linalg.solve(matrix, right), rtol=1e-10)


def test_a_cantilever_and_a_simple_span_have_no_redundants():
    for supports in (SIMPLE, Supports((0.0,), fixed_left=True), Supports((500.0, 4000.0))):
        assert statics.redundant_diagrams(X, LENGTH, supports) == []


def bent(supports: Supports, *loads: Load) -> np.ndarray:
    d = diagram(supports, *loads)
    return statics.deflection(X, d.moment / EI, supports, d.shear / GA)


def test_deflections_of_the_tables_with_their_shear():
    """5wL⁴/384EI + wL²/8GA · PL³/48EI + PL/4GA · wL⁴/8EI + wL²/2GA · PL³/3EI + PL/GA."""
    w, p, length = 2.0, 8e3, LENGTH
    middle = len(X) // 2
    udl, mid, tip = Load("", w, 0.0, length), statics.point(p, length / 2), statics.point(p, length)
    root = Supports((0.0,), fixed_left=True)
    simple = [
        5 * w * length**4 / (384 * EI) + w * length**2 / (8 * GA),
        p * length**3 / (48 * EI) + p * length / (4 * GA),
    ]
    held = [w * length**4 / (8 * EI) + w * length**2 / (2 * GA), p * length**3 / (3 * EI) + p * length / GA]
    assert bent(SIMPLE, udl)[middle] == pytest.approx(simple[0], rel=2e-6)
    # the shear jumps at the load, which is one station here: the trapezoid loses half a stretch of it
    stretch = X[1] - X[0]
    assert bent(SIMPLE, mid)[middle] == pytest.approx(simple[1], abs=1.001 * p / (4 * GA) * stretch)
    assert bent(root, udl)[-1] == pytest.approx(held[0], rel=2e-6)
    assert bent(root, tip)[-1] == pytest.approx(held[1], abs=1.001 * p / (2 * GA) * stretch)


def test_deflection_of_linear_curvature_is_exact_on_the_coarsest_stations():
    """Only two stretches: P L³/48 E I at the load, and the tip of an overhang under its own load."""
    x = np.array([0.0, LENGTH / 2, LENGTH])
    m = statics.released(x, LENGTH, SIMPLE, [statics.point(8e3, LENGTH / 2)]).moment
    assert statics.deflection(x, m / EI, SIMPLE)[1] == pytest.approx(8e3 * LENGTH**3 / (48 * EI), rel=1e-12)
    span, over = 4000.0, 2000.0
    supports = Supports((0.0, span))
    x = np.array([0.0, span, LENGTH])
    m = statics.released(x, LENGTH, supports, [statics.point(8e3, LENGTH)]).moment
    tip = 8e3 * over**2 * (span + over) / (3 * EI)
    assert statics.deflection(x, m / EI, supports)[2] == pytest.approx(tip, rel=1e-12)


def test_many_steps_at_once_are_the_same_as_one_by_one():
    d = diagram(SIMPLE, UDL)
    steps = np.stack([d.moment / EI, -2 * d.moment / EI])
    both = statics.deflection(X, steps, SIMPLE)
    np.testing.assert_allclose(both[1], -2 * statics.deflection(X, d.moment / EI, SIMPLE), rtol=1e-12, atol=1e-12)
    assert both.shape == steps.shape

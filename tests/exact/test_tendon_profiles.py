"""Tendon profiles against geometry: heights, slopes, angles and radii of straight, parabolic and reversed pieces."""

from __future__ import annotations

from math import atan

import numpy as np
import pytest

from soffit.member import profile as way
from soffit.member.beam import Profile

L, SAG = 20000.0, 400.0
PARABOLA = Profile((0.0, L / 2, L), (900.0, 900.0 - SAG, 900.0), "parabola")
HARPED = Profile((0.0, 8000.0, 12000.0, L), (900.0, 100.0, 100.0, 900.0))
REVERSED = Profile(
    (0.0, 4000.0, 10000.0, 16000.0, L), (500.0, 100.0, 700.0, 200.0, 450.0), "reversed", inflection=0.15
)  # fmt: skip


def at(function: object, profile: Profile, *x: float) -> np.ndarray:
    assert callable(function)
    return np.asarray(function(profile, np.array(x)))


def test_a_parabola_turns_by_eight_sags_over_its_length():
    """2 atan(4 f/L), which is 8 f/L for a flat one; at midspan half of it."""
    turned = at(way.turned, PARABOLA, 0.0, L / 2, L)
    assert turned == pytest.approx([0.0, atan(4 * SAG / L), 2 * atan(4 * SAG / L)], rel=1e-12)
    assert turned[2] == pytest.approx(8 * SAG / L, rel=(4 * SAG / L) ** 2)


def test_slope_and_curvature_of_a_parabola():
    x = np.linspace(0.0, L, 9)
    slope = 8 * SAG / L**2 * (x - L / 2)
    np.testing.assert_allclose(way.slope(PARABOLA, x), slope, atol=1e-15)
    np.testing.assert_allclose(way.curvature(PARABOLA, x), 8 * SAG / L**2 / (1 + slope**2) ** 1.5, rtol=1e-12)


def test_least_radius_of_a_parabola_is_at_its_vertex():
    bend = way.least_radius(PARABOLA)
    assert bend is not None
    assert (bend.radius, bend.x) == pytest.approx((L**2 / (8 * SAG), L / 2))
    # half of it, whose vertex is an end
    half = way.least_radius(Profile((0.0, L / 4, L / 2), (900.0, 600.0, 500.0), "parabola"))
    assert half is not None
    assert (half.radius, half.x) == pytest.approx((L**2 / (8 * SAG), L / 2))


def test_straight_pieces_have_kinks_and_no_radius():
    assert way.least_radius(HARPED) is None
    assert [(k.x, k.angle) for k in way.kinks(HARPED)] == [
        (8000.0, pytest.approx(atan(0.1))), (12000.0, pytest.approx(atan(0.1))),
    ]  # fmt: skip
    assert at(way.turned, HARPED, 7999.0, 8000.0, 8001.0, L) == pytest.approx(atan(0.1) * np.array([0, 0, 1, 2]))
    assert way.turned(HARPED, np.array([8000.0]), after=True) == pytest.approx(atan(0.1))
    # a kink shows the mean of its sides, and each side for itself
    assert at(way.slope, HARPED, 4000.0, 8000.0, 10000.0) == pytest.approx([-0.1, -0.05, 0.0])
    left, right = way.slopes(HARPED, np.array([8000.0]))
    assert (left[0], right[0]) == pytest.approx((-0.1, 0.0))


def test_a_high_kink_pushes_downward():
    (kink,) = way.kinks(Profile((0.0, 5000.0, L), (100.0, 500.0, 200.0)))
    assert kink.angle == pytest.approx(-atan(0.08) - atan(0.02))


def test_reversed_parabolas_are_level_at_every_inner_point_and_meet_on_the_chord():
    p = REVERSED
    np.testing.assert_allclose(way.height(p, np.array(p.x)), p.y, atol=1e-9)
    assert at(way.slope, p, *p.x[1:-1]) == pytest.approx([0.0, 0.0, 0.0], abs=1e-15)
    # between (4000, 100) and (10 000, 700) the high point is on the right: 0.15 of 6000 before it, and on the chord
    x, h = 10000.0 - 0.15 * 6000.0, 700.0 - 0.15 * 600.0
    assert at(way.height, p, x)[0] == pytest.approx(h)
    left, right = way.slopes(p, np.array([x]))
    assert (left[0], right[0]) == pytest.approx((2 * 600.0 / 6000.0,) * 2)
    before, after = at(way.curvature, p, x - 1.0, x + 1.0)
    assert before > 0 > after
    assert way.kinks(p) == ()
    # falling again the high point is on the left
    assert at(way.height, p, 10000.0 + 0.15 * 6000.0)[0] == pytest.approx(700.0 - 0.15 * 500.0)


def test_least_radius_of_reversed_parabolas_is_at_the_high_point():
    """λ d²/(2 h): the sharper of its two sides."""
    bend = way.least_radius(REVERSED)
    assert bend is not None
    assert (bend.radius, bend.x) == pytest.approx((0.15 * 6000.0**2 / (2 * 600.0), 10000.0))


def test_reversed_parabolas_turn_up_to_their_inflections_and_back():
    """Twice the angle of each inflection, and the slope at each end (2 h/d)."""
    inner = 2 * atan(2 * 600 / 6000) + 2 * atan(2 * 500 / 6000)
    ends = atan(2 * 400 / 4000) + atan(2 * 250 / 4000)
    assert at(way.turned, REVERSED, L)[0] == pytest.approx(inner + ends, rel=1e-12)


def test_level_stretch_between_two_points_of_one_height():
    p = Profile((0.0, 2000.0, 5000.0, 8000.0), (300.0, 100.0, 100.0, 300.0), "reversed")
    assert at(way.height, p, 2000.0, 3300.0, 5000.0) == pytest.approx([100.0] * 3)
    assert at(way.curvature, p, 3300.0)[0] == 0.0


def test_two_parabolas_in_a_row_have_a_kink_where_they_meet():
    p = Profile((0.0, 4000.0, 8000.0, 12000.0, 16000.0), (300.0, 100.0, 500.0, 100.0, 300.0), "parabola")
    (kink,) = way.kinks(p)
    # slopes there: (3·500 − 4·100 + 300)/8000 before and its negative after
    assert (kink.x, kink.angle) == pytest.approx((8000.0, -2 * atan(1400 / 8000)))


@pytest.mark.parametrize("inflection", [0.0, 1.0, -0.1, float("nan")])
def test_an_inflection_must_lie_between_the_points(inflection):
    p = Profile((0.0, 4000.0, 8000.0, 12000.0), (300.0, 100.0, 500.0, 300.0), "reversed", inflection)
    with pytest.raises(ValueError, match="lies between 0 and 1"):
        way.height(p, np.array([1.0]))


def test_a_level_tendon_needs_one_point():
    p = Profile((0.0,), (80.0,))
    assert at(way.height, p, 0.0, 5000.0) == pytest.approx([80.0, 80.0])
    assert not at(way.turned, p, 0.0, 5000.0).any()
    assert way.least_radius(p) is None
    assert way.breaks(p) == way.kinks(p) == ()

"""Equivalent loads and secondary moments of tendons against closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from soffit.errors import PhysicsError
from soffit.member import balance
from soffit.member import profile as way
from soffit.member.balance import constant
from soffit.member.beam import Anchor, Beam, Load, Profile, Supports
from soffit.member.life import life
from soffit.section.outline import rectangle
from specimens import beam, tendon, uniform

L, P = 12000.0, 1e6
OUTLINE = rectangle(300.0, 600.0)
AXIS = 300.0
TWO = Supports((0.0, L, 2 * L))


def cast(profile: Profile, length: float, supports: Supports, **more: object) -> Beam:
    given = {"tendons": (tendon(1000.0, profile, length, P / 1000.0),), "loads": (uniform(length),)} | more
    return beam(length, OUTLINE, supports=supports, **given)


def moments(profile: Profile, length: float, supports: Supports) -> balance.Moments:
    specimen = cast(profile, length, supports)
    return balance.moments(specimen, [constant(specimen.tendons[0], P)])


def level(e: float, length: float) -> Profile:
    return Profile((0.0, length), (AXIS - e, AXIS - e))


# -- equivalent loads ----------------------------------------------------------------------------------------------


def test_a_parabola_pushes_up_by_8_p_f_over_l_squared():
    profile = Profile((0.0, L / 2, L), (AXIS, AXIS - 200.0, AXIS), "parabola")
    specimen = cast(profile, L, Supports((0.0, L)))
    found = balance.equivalent_loads(specimen, constant(specimen.tendons[0], P))
    np.testing.assert_allclose(found.up, 8 * P * 200.0 / L**2, rtol=1e-9)
    ends = [(p.where, p.up, p.right, p.moment) for p in found.points]
    assert ends == [("anchor", pytest.approx(-4 * P * 200 / L), P, pytest.approx(0.0, abs=1e-3)),
                    ("anchor", pytest.approx(-4 * P * 200 / L), -P, pytest.approx(0.0, abs=1e-3))]  # fmt: skip
    dead = Load("dead", 8 * P * 200.0 / L**2 / 0.8, 0.0, L)
    assert balance.balanced_shares(specimen, [found], [dead]) == (pytest.approx(0.8, rel=1e-9),)


def test_harped_tendon_pushes_at_its_kinks():
    profile = Profile((0.0, 4000.0, 8000.0, L), (AXIS, AXIS - 200.0, AXIS - 200.0, AXIS))
    specimen = cast(profile, L, Supports((0.0, L)))
    found = balance.equivalent_loads(specimen, constant(specimen.tendons[0], P))
    assert [(p.where, p.x, p.up) for p in found.points] == [
        ("anchor", 0.0, pytest.approx(-50000.0)), ("kink", 4000.0, pytest.approx(50000.0)),
        ("kink", 8000.0, pytest.approx(50000.0)), ("anchor", L, pytest.approx(-50000.0)),
    ]  # fmt: skip
    # two forces in the third points bend the middle by F L/3
    shares = balance.balanced_shares(specimen, [found], [Load("dead", 1.0, 0.0, L)])
    assert shares == (pytest.approx(50000.0 * 4000.0 / (L**2 / 8)),)


def test_eccentric_straight_tendon_balances_nothing():
    specimen = cast(level(150.0, L), L, Supports((0.0, L)))
    found = balance.equivalent_loads(specimen, constant(specimen.tendons[0], P))
    assert not found.up.any()
    assert [p.moment for p in found.points] == [-150.0 * P, 150.0 * P]
    assert balance.balanced_shares(specimen, [found], [Load("dead", 1.0, 0.0, L)]) == (0.0,)
    assert balance.balanced_shares(specimen, [found], []) == (None,)


def test_friction_is_a_load_along_the_tendon():
    profile = level(150.0, L)
    specimen = cast(profile, L, Supports((0.0, L)))
    along = balance.Along(specimen.tendons[0], np.array([0.0, L]), np.array([P, 0.9 * P]))
    found = balance.equivalent_loads(specimen, along)
    np.testing.assert_allclose(found.right, -0.1 * P / L)
    assert [p.right for p in found.points] == [P, -0.9 * P]


# -- secondary moments ---------------------------------------------------------------------------------------------


def test_straight_tendon_over_two_spans():
    """Primary −P e, over the middle support +P e/2 in all: 3/2 P e of it secondary, reactions 3/2 P e/L at the ends."""
    found = moments(level(100.0, 2 * L), 2 * L, TWO)
    np.testing.assert_allclose(found.primary, -100.0 * P)
    assert found.at_supports == pytest.approx((0.0, 150.0 * P, 0.0))
    assert found.reactions == pytest.approx((150 * P / L, -300 * P / L, 150 * P / L))
    # the line of thrust: half the eccentricity above the axis over the support
    assert np.interp(L, found.x, found.line) == pytest.approx(AXIS + 50.0)
    assert found.shift[0] == 0.0


def test_straight_tendon_in_a_propped_cantilever_and_between_walls():
    one = moments(level(100.0, L), L, Supports((0.0, L), fixed_left=True))
    assert one.at_supports == pytest.approx((150.0 * P, 0.0))
    both = moments(level(100.0, L), L, Supports((0.0, L), fixed_left=True, fixed_right=True))
    np.testing.assert_allclose(both.total, 0.0, atol=1e-3)
    assert both.reactions == pytest.approx((0.0, 0.0), abs=1e-6)


def test_statics_alone_leaves_nothing_secondary():
    for supports in (Supports((0.0, L)), Supports((1000.0, L - 1000.0)), Supports((0.0,), fixed_left=True)):
        found = moments(level(100.0, L), L, supports)
        assert not found.secondary.any()
        np.testing.assert_array_equal(found.total, found.primary)


def test_parabolas_over_two_spans_answer_like_their_load():
    """Their upward load w on two spans gives w L²/8 over the support."""
    e = 150.0
    y = (AXIS, AXIS - e, AXIS + e, AXIS - e, AXIS)
    found = moments(Profile((0.0, L / 2, L, 1.5 * L, 2 * L), y, "parabola"), 2 * L, TWO)
    w = 8 * P * 1.5 * e / L**2
    assert np.interp(L, found.x, found.total) == pytest.approx(w * L**2 / 8)
    assert found.at_supports[1] == pytest.approx(w * L**2 / 8 - P * e)


def test_moment_diagram_of_any_load_is_a_concordant_profile():
    """Eccentricity in proportion to 3x/8 − x²/2, the moments of a load on both spans."""
    s = np.linspace(0.0, 1.0, 41)
    e = 1000.0 * (3 * s / 8 - s**2 / 2)
    x, e = np.concatenate([s, 2 - s[-2::-1]]) * L, np.concatenate([e, e[-2::-1]])
    # between its points the polygon leaves the parabola by h²/8 of its bend
    found = moments(Profile(tuple(x), tuple(AXIS - e)), 2 * L, TWO)
    assert abs(found.at_supports[1]) < 1e-3 * P * np.max(np.abs(e))
    exact = Profile((0.0, L / 2, L, 1.5 * L, 2 * L), tuple(AXIS - 1000.0 * c for c in (0, 1 / 16, -1 / 8, 1 / 16, 0)),
                    "parabola")  # fmt: skip
    assert moments(exact, 2 * L, TWO).at_supports[1] == pytest.approx(0.0, abs=1e-6 * P)


def test_linear_transformation_keeps_the_total_moments():
    profile = Profile((0.0, L / 2, L, 1.5 * L, 2 * L), (350.0, 120.0, 480.0, 90.0, 280.0), "parabola")
    found = moments(profile, 2 * L, TWO)
    moved = way_moved(profile, found)
    other = moments(moved, 2 * L, TWO)
    np.testing.assert_allclose(np.interp(found.x, other.x, other.total), found.total, atol=1e-6 * P)
    assert other.at_supports[1] == pytest.approx(0.0, abs=1e-6 * P)


def way_moved(profile: Profile, found: balance.Moments) -> Profile:
    return balance.transformed(profile, found.supports, [m / P for m in found.at_supports])


@pytest.mark.parametrize(
    ("profile", "sentence"),
    [
        (Profile((0.0, L, 2 * L), (300.0, 500.0, 300.0), "reversed"), "reversed parabolas are level over the supports"),
        (Profile((0.0, L, 2 * L), (300.0, 500.0, 300.0), "parabola"), "a parabola that runs over a support is none"),
        (Profile((0.0,), (300.0,)), "give a level tendon two points"),
    ],
)
def test_profiles_that_cannot_be_moved_in_straight_lines(profile, sentence):
    with pytest.raises(PhysicsError, match=f"^{sentence}"):
        balance.transformed(profile, TWO.x, (0.0, 50.0, 0.0))


def test_straight_pieces_gain_a_point_over_the_support():
    moved = balance.transformed(level(100.0, 2 * L), TWO.x, (0.0, 50.0, 0.0))
    assert (moved.x, moved.y) == ((0.0, L, 2 * L), (200.0, 250.0, 200.0))


def test_pretensioned_tendons_bend_the_unit_before_supports_hold_it():
    specimen = cast(level(100.0, 2 * L), 2 * L, TWO)
    early = tendon(1000.0, level(100.0, 2 * L), 2 * L, P / 1000, when="before casting", bond="bonded")
    found = balance.moments(specimen, [constant(early, P)])
    assert not found.secondary.any()
    assert len(found.notes) == 1


# -- the same in the life ------------------------------------------------------------------------------------------


def test_the_life_has_the_same_secondary_moments():
    """Three unlike spans, reversed parabolas, friction, draw-in; too weak to crack it. Shear deformation, which
    the life alone has, is 5e-4 of the flexibility of such spans; its few stations take a polygon for the curve (with
    sixteen times as many it comes within 4e-4)."""
    spans = np.array([0.0, 20000.0, 44000.0, 60000.0])
    x = (0.0, 9000.0, 20000.0, 32000.0, 44000.0, 53000.0, 60000.0)
    profile = Profile(x, (300.0, 100.0, 500.0, 90.0, 520.0, 110.0, 320.0), "reversed", 0.12)
    cable = tendon(1000.0, profile, 60000.0, 200.0, stress_is="at the jack", friction=0.2, wobble=1e-6,
                   anchor=Anchor("wedge", 1e9, "", 1.0), jacked_from="both")  # fmt: skip
    specimen = beam(60000.0, OUTLINE, supports=Supports(tuple(spans)), tendons=(cable,), loads=(uniform(60000.0),))
    found = balance.moments(specimen, balance.acting(specimen))
    told = life(specimen)
    theirs = np.interp(spans[1:3], told.stations.x, told.stations.moment[0])
    assert theirs == pytest.approx(found.at_supports[1:3], rel=3e-3)


def test_forces_that_act_follow_the_build_up_of_pretensioned_strand():
    early = tendon(200.0, 60.0, 6000.0, 1000.0, when="before casting", bond="bonded", transfer_length=800.0)
    specimen = beam(6000.0, tendons=(early,))
    (along,) = balance.acting(specimen)
    assert along.at(np.array([0.0, 400.0, 800.0, 3000.0, 5600.0])) == pytest.approx(
        np.array([0.0, 0.5, 1.0, 1.0, 0.5]) * 200e3
    )
    assert way.kinks(early.profile) == ()

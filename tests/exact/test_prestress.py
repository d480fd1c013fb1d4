"""Stress along a tendon after friction, draw-in and elastic shortening, against closed forms."""

from __future__ import annotations

from dataclasses import replace
from math import atan, exp, log

import numpy as np
import pytest

from soffit.materials.steel import Steel
from soffit.member import friction
from soffit.member.beam import Anchor, Profile, TendonGroup
from soffit.member.life import life
from soffit.member.profile import height, slope
from soffit.member.transfer_length import built_up, transfer_length
from specimens import CONCRETE, STRAND, beam, tendon

LENGTH, JACK, E = 20000.0, 1350.0, 195000.0
PARABOLA = Profile((0.0, LENGTH / 2, LENGTH), (900.0, 500.0, 900.0), "parabola")
LEVEL = Profile((0.0,), (400.0,))
STRAIGHT = Steel("bilinear", E, 1600.0, 1860.0, 0.035)
"""Elastic to more than is asked of it here, which strand is not."""


def jacked(profile: Profile = LEVEL, slip: float = 0.0, **more: object) -> friction.Jacked:
    anchor = Anchor("wedge", 1e9, "", slip)
    return friction.jacked(tendon(1000.0, profile, LENGTH, JACK, stress_is="at the jack", anchor=anchor, **more))


def slackened(after: friction.Jacked, before: friction.Jacked) -> float:
    """Length that the tendon has given back, mm."""
    return float(np.trapezoid(before.stress - after.stress, after.x)) / E


# -- profile -------------------------------------------------------------------------------------------------------


def test_heights_of_a_parabola_through_three_points():
    x = np.linspace(0.0, LENGTH, 41)
    np.testing.assert_allclose(height(PARABOLA, x), 500 + 400 * (2 * x / LENGTH - 1) ** 2, atol=1e-9)


def test_heights_of_two_parabolas_in_a_row():
    """The second one needs not continue the slope of the first."""
    profile = Profile((0.0, 4000.0, 8000.0, 12000.0, 16000.0), (300.0, 100.0, 500.0, 100.0, 300.0), "parabola")
    assert height(profile, np.array([2000.0, 6000.0, 10000.0])) == pytest.approx([125.0, 225.0, 225.0])
    np.testing.assert_allclose(height(profile, np.array(profile.x)), profile.y)


def test_harped_profile_is_straight_between_its_points_and_level_beyond():
    profile = Profile((1000.0, 8000.0), (900.0, 200.0))
    assert height(profile, np.array([0.0, 1000.0, 4500.0, 8000.0, 9000.0])) == pytest.approx(
        [900.0, 900.0, 550.0, 200.0, 200.0]
    )
    assert slope(profile, np.array([500.0, 4500.0, 8500.0])) == pytest.approx([0.0, -0.1, 0.0])


# -- friction ------------------------------------------------------------------------------------------------------


def test_wobble_of_a_straight_tendon():
    after = jacked(wobble=3e-6)
    np.testing.assert_allclose(after.stress, JACK * np.exp(-3e-6 * after.x), rtol=1e-12)


def test_friction_along_a_parabola():
    """The angle turned from one end to the other is twice the end's, whose tangent is 4 sag/L."""
    after = jacked(PARABOLA, friction=0.2)
    end = atan(4 * 400 / LENGTH)
    assert after.stress[-1] == pytest.approx(JACK * exp(-0.2 * 2 * end), rel=1e-6)
    assert after.stress[len(after.x) // 2] == pytest.approx(JACK * exp(-0.2 * end), rel=1e-6)
    assert after.stress[0] == JACK


def test_a_straight_inclined_tendon_turns_no_angle():
    assert jacked(Profile((0.0, LENGTH), (900.0, 200.0)), friction=0.3).stress == pytest.approx(JACK)


def test_harped_tendon_loses_at_its_kinks():
    profile = Profile((0.0, 8000.0, 12000.0, LENGTH), (900.0, 100.0, 100.0, 900.0))
    after = jacked(profile, friction=0.25)
    kink = atan(0.1)
    parts = np.interp([4000.0, 10000.0, 16000.0], after.x, after.stress)
    np.testing.assert_allclose(parts, JACK * np.exp(-0.25 * kink * np.array([0, 1, 2])), rtol=1e-9)


def test_jacked_from_the_other_end_is_the_mirror_image():
    profile = Profile((0.0, 5000.0, LENGTH), (900.0, 300.0, 600.0))
    mirror = Profile((0.0, 15000.0, LENGTH), (600.0, 300.0, 900.0))
    given = {"friction": 0.2, "wobble": 1e-6, "slip": 4.0}
    left, right = jacked(mirror, **given), jacked(profile, jacked_from="right", **given)
    np.testing.assert_allclose(left.stress, right.stress[::-1], rtol=1e-9)


def test_jacked_from_both_ends():
    """Each half from its own end; least in the middle."""
    after = jacked(PARABOLA, friction=0.2, wobble=1e-6, jacked_from="both")
    one = jacked(PARABOLA, friction=0.2, wobble=1e-6)
    half = len(after.x) // 2
    np.testing.assert_allclose(after.stress[: half + 1], one.stress[: half + 1], rtol=1e-12)
    np.testing.assert_allclose(after.stress, after.stress[::-1], rtol=1e-9)


# -- draw-in -------------------------------------------------------------------------------------------------------


def test_draw_in_without_friction_slackens_the_whole_tendon():
    assert jacked(slip=6.0).stress == pytest.approx(JACK - E * 6.0 / LENGTH)


def test_influence_length_of_draw_in():
    """Friction reversed: σ e^(k x − 2 k ℓ) from the anchor to ℓ. ∫ of the drop is σ (1 − e^(−k ℓ))²/k = E slip."""
    k, slip = 6e-6, 5.0
    reach = -log(1 - (k * E * slip / JACK) ** 0.5) / k
    assert reach < LENGTH
    after = jacked(wobble=k, slip=slip)
    np.testing.assert_allclose(after.before, JACK * np.exp(-k * after.x), rtol=1e-12)
    np.testing.assert_allclose(after.stress, JACK * np.exp(-k * np.maximum(after.x, 2 * reach - after.x)), rtol=1e-9)
    assert after.influence == (pytest.approx(reach, rel=1e-9), None)
    assert not after.whole
    assert after.draw_in_loss == pytest.approx(slip * E / LENGTH, rel=1e-4)


def test_draw_in_of_a_tendon_shorter_than_its_influence_length():
    after, before = jacked(wobble=1e-7, slip=6.0), jacked(wobble=1e-7)
    assert slackened(after, before) == pytest.approx(6.0, rel=1e-9)
    # the loss is greatest at the jack
    assert np.all(np.diff(before.stress - after.stress) < 0)


@pytest.mark.parametrize("friction", [0.0, 0.05, 0.2, 0.5])
@pytest.mark.parametrize("wobble", [0.0, 1e-6, 8e-6])
def test_two_jacked_ends_give_back_two_slips(friction, wobble):
    """Whether or not the two influence lengths meet."""
    given = {"friction": friction, "wobble": wobble, "jacked_from": "both"}
    after, before = jacked(PARABOLA, slip=6.0, **given), jacked(PARABOLA, **given)
    assert slackened(after, before) == pytest.approx(12.0, rel=2e-3)


# -- elastic shortening and transfer --------------------------------------------------------------------------------


def pretensioned(**more: object) -> TendonGroup:
    return tendon(200.0, 60.0, 6000.0, 1300.0, when="before casting", bond="bonded", stress_is="at the jack", **more)


@pytest.mark.parametrize("steel", [STRAND, STRAIGHT])
def test_elastic_shortening_of_a_pretensioned_beam(steel):
    """σ = σ0 − n P (1/A + e²/I) with the P that remains, at a section free of its transfer length."""
    told = life(beam(6000.0, tendons=(pretensioned(steel=steel),)))
    n, e, area, void = E / CONCRETE.modulus, 90.0, 200.0 * 300.0, 200.0
    inertia = 200.0 * 300.0**3 / 12
    left = 1300.0 / (1 + n * void * (1 / area + e**2 / inertia))
    # camber on the section that the tendon leaves of the concrete
    shift = void * e / (area - void)
    net = inertia - void * e**2 - shift**2 * (area - void)
    camber = left * void * (e + shift) * 6000.0**2 / (8 * CONCRETE.modulus * net)
    said = next(a for a in told.assumptions if "elastic shortening at transfer" in a)
    assert f"takes {1300.0 - left:.0f} MPa" in said
    # the transfer lengths curve less: with ℓ = σ φ/21 the camber lacks ℓ²/6 of L²/8 at each end
    reach = left * 12.5 / 21
    lacking = 1 - 4 * reach**2 / 3 / 6000.0**2
    middle = int(np.argmin(np.abs(told.stations.x - 3000.0)))
    assert -told.stations.deflection[0, middle] == pytest.approx(camber * lacking, rel=1e-3)


def test_long_term_loss_is_a_share_of_what_the_immediate_losses_leave():
    first, second = (
        life(beam(6000.0, tendons=(tendon(200.0, 60.0, 6000.0, 1300.0, stress_is="at the jack", **more),)))
        for more in ({}, {"long_term_loss": 0.2})
    )
    row = np.array([told.stations.deflection[0] for told in (first, second)])
    middle = row.shape[1] // 2
    assert row[1, middle] / row[0, middle] == pytest.approx(0.8, rel=1e-9)


def test_transfer_length_of_the_code():
    """ACI 318-19 25.4.8.1 in its own units: (fse/3000 psi) db with fse in psi."""
    fse = 160000.0
    held = beam(6000.0)
    strand = tendon(100.0, 60.0, 6000.0, 1000.0, when="before casting", bond="bonded", diameter=12.7)
    assert transfer_length(held, strand, fse * 0.00689476) == pytest.approx(fse / 3000 * 12.7, rel=0.02)
    assert transfer_length(held, replace(strand, transfer_length=650.0), 1000.0) == 650.0
    # EN (8.16): 1.25 · 0.25 · φ σ/(2.7 fct)
    by_hand = 1.25 * 0.25 * 12.7 * 1000.0 / (2.7 * held.concrete.tensile)
    assert transfer_length(held, replace(strand, wire=True), 1000.0) == pytest.approx(by_hand)


def test_stress_builds_up_linearly_from_both_ends():
    share = built_up(np.array([0.0, 200.0, 400.0, 3000.0, 5800.0, 6000.0]), pretensioned(), 400.0)
    assert share == pytest.approx([0.0, 0.5, 1.0, 1.0, 0.5, 0.0])


def test_influence_is_short_where_friction_is_great():
    """ℓ = √(E slip/p) for a constant loss of p a length (EN 1992-1-1 5.10.4 in words; here p = σ k)."""
    k, slip = 2e-5, 3.0
    after = jacked(wobble=k, slip=slip)
    before = JACK * np.exp(-k * after.x)
    touched = after.x[before - after.stress > 1e-6][-1]
    p = JACK * k
    approximate = (E * slip / p) ** 0.5
    assert touched == pytest.approx(approximate, rel=0.06)
    assert log(JACK / before[-1]) == pytest.approx(k * LENGTH)

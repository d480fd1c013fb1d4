"""Draw-in with kinks, from both ends, to the far end; losses in the bed; transfer lengths: closed forms, by hand."""

from __future__ import annotations

from dataclasses import replace
from math import atan, exp, log, sqrt

import numpy as np
import pytest

from soffit.errors import PhysicsError
from soffit.materials.concrete import Concrete
from soffit.member import friction
from soffit.member.beam import Anchor, Bed, Profile, TendonGroup
from soffit.member.bed import before_release
from soffit.member.life import life
from soffit.member.transfer_length import by_standards, good_bond
from soffit.section.outline import rectangle
from specimens import CONCRETE, beam, tendon

L, JACK, E = 20000.0, 1350.0, 195000.0
LEVEL = Profile((0.0,), (400.0,))
KINK = Profile((0.0, 8000.0, L), (900.0, 100.0, 700.0))
ANGLE = atan(0.1) + atan(0.05)


def jacked(profile: Profile = LEVEL, slip: float = 0.0, **more: object) -> friction.Jacked:
    anchor = Anchor("wedge", 1e9, "", slip)
    return friction.jacked(tendon(1000.0, profile, L, JACK, stress_is="at the jack", anchor=anchor, **more))


def given_back(found: friction.Jacked) -> float:
    return float(np.trapezoid(found.before - found.stress, found.x)) / E


# -- one jack ------------------------------------------------------------------------------------------------------


def test_draw_in_triangle():
    """A small loss p a length: ℓ = √(E slip/p), and the anchor loses 2 p ℓ."""
    k, slip = 1e-9, 0.001
    found = jacked(wobble=k, slip=slip)
    reach = sqrt(E * slip / (JACK * k))
    assert reach < L
    assert found.influence[0] == pytest.approx(reach, rel=1e-4)
    assert JACK - found.stress[0] == pytest.approx(2 * JACK * k * reach, rel=1e-4)


def test_draw_in_that_ends_at_a_kink():
    """Friction at one kink alone: a small slip slackens evenly up to it and nothing beyond."""
    slip, mu = 3.0, 0.25
    drop = E * slip / 8000.0
    assert drop < JACK * (1 - exp(-2 * mu * ANGLE))
    found = jacked(KINK, slip, friction=mu)
    assert found.influence[0] == 8000.0
    left = found.x < 8000.0
    np.testing.assert_allclose(found.stress[left], JACK - drop, rtol=1e-12)
    np.testing.assert_allclose(found.stress[found.x > 8000.0], JACK * exp(-mu * ANGLE), rtol=1e-12)
    assert np.count_nonzero(found.x == 8000.0) == 2
    assert found.at(np.array([8000.0]))[0] == pytest.approx((JACK - drop + JACK * exp(-mu * ANGLE)) / 2)


def test_draw_in_that_passes_a_kink_slackens_the_whole_tendon():
    """Nothing stops it beyond: A before the kink, A e^(μ θ) after it, with one slip given back in all."""
    slip, mu = 20.0, 0.25
    up = exp(mu * ANGLE)
    a = (JACK * 8000.0 + JACK / up * 12000.0 - E * slip) / (8000.0 + up * 12000.0)
    found = jacked(KINK, slip, friction=mu)
    assert found.whole
    assert (found.stress[0], found.stress[-1]) == pytest.approx((a, a * up), rel=1e-12)
    assert given_back(found) == pytest.approx(slip, rel=1e-9)


def test_draw_in_that_reaches_the_far_end():
    """A e^(k x) with ∫ of the drop = E slip."""
    k, slip = 2e-7, 6.0
    a = (JACK * (1 - exp(-k * L)) / k - E * slip) / ((exp(k * L) - 1) / k)
    found = jacked(wobble=k, slip=slip)
    assert found.whole
    assert found.influence == (L, None)
    np.testing.assert_allclose(found.stress, a * np.exp(k * found.x), rtol=1e-12)


def test_the_right_jack_is_the_left_one_mirrored():
    mirror = Profile((0.0, 12000.0, L), (700.0, 100.0, 900.0))
    for slip in (3.0, 8.0, 25.0):
        one, other = (jacked(p, slip, friction=0.2, wobble=1e-6, jacked_from=side)
                      for p, side in ((KINK, "left"), (mirror, "right")))  # fmt: skip
        np.testing.assert_allclose(one.stress, other.stress[::-1], rtol=1e-12)
        assert one.influence == pytest.approx(other.influence[::-1])


def test_a_slip_longer_than_the_elongation_leaves_a_slack_tendon():
    assert not jacked(slip=JACK / E * L * 1.01).stress.any()
    assert not jacked(slip=JACK / E * L * 0.51, jacked_from="both", wobble=1e-6).stress.any()


# -- both jacks ----------------------------------------------------------------------------------------------------


def test_two_draw_ins_without_friction_meet_in_the_middle():
    found = jacked(slip=6.0, jacked_from="both")
    np.testing.assert_allclose(found.stress, JACK - E * 12.0 / L, rtol=1e-12)
    assert found.influence == pytest.approx((L / 2, L / 2))
    assert found.whole


def test_two_draw_ins_that_meet_leave_the_highest_stress_where_the_steel_stands_still():
    """Symmetric: each half gives one slip back, A e^(k x) up to the middle."""
    k, slip, half = 1e-6, 6.0, L / 2
    a = (JACK * (1 - exp(-k * half)) / k - E * slip) / ((exp(k * half) - 1) / k)
    found = jacked(wobble=k, slip=slip, jacked_from="both")
    assert found.whole
    np.testing.assert_allclose(found.stress, a * np.exp(k * np.minimum(found.x, L - found.x)), rtol=1e-7)


def test_two_draw_ins_that_do_not_meet_are_those_of_one_jack():
    k, slip = 2e-5, 3.0
    one, both = jacked(wobble=k, slip=slip), jacked(wobble=k, slip=slip, jacked_from="both")
    assert not both.whole
    assert both.influence == pytest.approx((one.influence[0], one.influence[0]))
    np.testing.assert_allclose(both.stress[both.x < L / 2], one.stress[one.x < L / 2], rtol=1e-12)


def test_draw_ins_that_meet_at_unlike_friction():
    """All friction in a kink near the left: the still place is where each side gives one slip back."""
    near, mu, slip = Profile((0.0, 2000.0, L), (500.0, 100.0, 1000.0)), 0.3, 6.0
    up = exp(mu * (atan(0.2) + atan(0.05)))
    found = jacked(near, slip, friction=mu, jacked_from="both")
    # from the right nothing resists: A before the kink, A up = B beyond it up to the still place
    still = found.x[0] + found.influence[0]
    a, b = found.stress[0], found.stress[-1]
    assert b == pytest.approx(a * up)
    before = np.interp(1000.0, found.x, found.before), np.interp(9000.0, found.x, found.before)
    assert 2000.0 * (before[0] - a) + (still - 2000.0) * (before[1] - b) == pytest.approx(E * slip, rel=1e-6)
    assert (L - still) * (before[1] - b) == pytest.approx(E * slip, rel=1e-6)


def test_the_unintended_angle_of_en_is_multiplied_by_the_friction():
    """(5.45) μ(θ + k x): 0.19 · 0.007 rad/m, not 0.007/m."""
    assert friction.wobble_en(0.19, 0.007e-3) == pytest.approx(1.33e-6)
    found = jacked(wobble=friction.wobble_en(0.19, 0.007e-3), friction=0.19)
    assert log(JACK / found.before[-1]) == pytest.approx(0.19 * 0.007 * 20)


# -- the bed -------------------------------------------------------------------------------------------------------


def pretensioned(profile: Profile = LEVEL, **more: object) -> TendonGroup:
    given = {"when": "before casting", "bond": "bonded", "stress_is": "at the jack", "name": "A"} | more
    return tendon(1000.0, profile, L, JACK, **given)


BED = Bed(length=60000.0, slip=5.0, warming=30.0)


def test_losses_in_the_bed_by_hand():
    found = before_release(pretensioned(bed=BED), lambda days, ratio: 0.02 if days == 1.5 else 1.0, 1.0, 0.5)
    assert found.slip == pytest.approx(E * 5 / 60000)
    assert found.warming == pytest.approx(0.5 * E * 1e-5 * 30)
    assert found.relaxation == pytest.approx(0.02 * (JACK - E * 5 / 60000))
    assert found.deviators == pytest.approx(0.0, abs=1e-9)
    np.testing.assert_allclose(found.stress, JACK - found.total)
    assert found.notes == ()


def test_friction_at_deviators_is_lost_beyond_each():
    profile = Profile((0.0, 8000.0, 12000.0, L), (900.0, 100.0, 100.0, 900.0))
    q = exp(-0.1 * atan(0.1))
    found = before_release(pretensioned(profile, friction=0.1))
    assert np.interp([4000.0, 10000.0, 16000.0], found.x, found.stress) == pytest.approx(JACK * np.array([1, q, q * q]))
    mean = 0.4 + 0.2 * q + 0.4 * q * q
    assert found.deviators == pytest.approx(JACK * (1 - mean), rel=1e-12)
    # jacked at both ends every point has the nearer one's
    both = before_release(pretensioned(profile, friction=0.1, jacked_from="both"))
    assert np.interp([4000.0, 10000.0, 16000.0], both.x, both.stress) == pytest.approx(JACK * np.array([1, q, 1]))


def test_what_the_bed_does_not_tell_is_said():
    harped = Profile((0.0, 8000.0, L), (900.0, 100.0, 900.0))
    assert before_release(pretensioned(harped)).notes == (
        "A: no bed was described, so no slip of its anchors and no warming is counted.",
        "A: no friction at the deviators was given, so none is taken.",
        "A: no relaxation before release is counted, for nothing says how the steel relaxes.",
    )


def test_a_bed_that_cannot_be_computed():
    with pytest.raises(PhysicsError, match=r"^A: a slip in the bed takes E slip/length; give the bed's length too\.$"):
        before_release(pretensioned(bed=Bed(slip=5.0)))
    with pytest.raises(PhysicsError, match="take all of the 1350 MPa"):
        before_release(pretensioned(bed=Bed(length=500.0, slip=5.0)))


def test_the_life_begins_with_what_the_bed_leaves():
    """σ = σ_bed/(1 + n A (1/Ac + e²/I)) free of its transfer lengths."""
    strand = tendon(200.0, 60.0, 6000.0, JACK, when="before casting", bond="bonded", stress_is="at the jack", bed=BED)
    told = life(beam(6000.0, tendons=(strand,)))
    assert "tendon: the bed takes 46 MPa before release, without relaxation." in told.assumptions
    start = JACK - E * 5 / 60000 - 0.5 * E * 1e-5 * 30
    n, area = E / CONCRETE.modulus, 200.0 * 300.0
    left = start / (1 + n * 200.0 * (1 / area + 90.0**2 / (200.0 * 300.0**3 / 12)))
    assert f"tendon: elastic shortening at transfer takes {start - left:.0f} MPa at most." in told.assumptions


# -- transfer lengths ----------------------------------------------------------------------------------------------


def test_transfer_lengths_by_hand():
    """15.2 mm strand, 1200 MPa after release, 1100 at the end; fctm at release 2.9 MPa, so fctd = 0.7·2.9/1.5."""
    held = beam(6000.0, rectangle(300.0, 600.0), concrete=Concrete(35.0, 2.9, 30000.0, 0.14))
    strand = pretensioned(Profile((0.0,), (60.0,)), diameter=15.2)
    fctd = 0.7 * 2.9 / 1.5
    aci, fifty, sixty, en, fib = by_standards(held, strand, 1200.0, 1100.0)
    assert aci.basic == pytest.approx(1100 / 21 * 15.2)
    assert (fifty.basic, sixty.basic) == pytest.approx((760.0, 912.0))
    lpt = 1.25 * 0.19 * 15.2 * 1200 / (3.2 * fctd)
    assert (en.lower, en.basic, en.upper) == pytest.approx((0.8 * lpt, lpt, 1.2 * lpt))
    upper = 1.25 * 0.5 * 7 / 36 * 15.2 * 1200 / (1.2 * fctd)
    assert (fib.lower, fib.upper) == pytest.approx((upper / 2, upper))
    gradual = by_standards(held, strand, 1200.0, 1100.0, sudden=False)[3]
    assert gradual.basic == pytest.approx(lpt / 1.25)
    high = by_standards(held, replace(strand, profile=Profile((0.0,), (560.0,))), 1200.0, 1100.0)[3]
    assert high.basic == pytest.approx(lpt / 0.7)
    assert high.said == "other bond conditions, sudden release"


def test_wires_have_no_value_for_strand():
    held = beam(6000.0, concrete=Concrete(35.0, 2.9, 30000.0, 0.14))
    found = by_standards(held, pretensioned(Profile((0.0,), (60.0,)), diameter=5.0, wire=True), 1200.0, 1100.0)
    assert [each.standard for each in found] == ["ACI 318-19", "EN 1992-1-1:2004", "fib Model Code 2010"]
    assert found[0].basic == pytest.approx(500.0)
    assert found[1].basic == pytest.approx(1.25 * 0.25 * 5 * 1200 / (2.7 * 0.7 * 2.9 / 1.5))


@pytest.mark.parametrize(
    ("depth", "y", "good"), [(250, 240, True), (400, 240, True), (400, 260, False), (600, 260, False),
                             (1000, 690, True), (1000, 710, False)],
)  # fmt: skip
def test_bond_conditions(depth, y, good):
    assert good_bond(beam(6000.0, rectangle(300.0, depth)), pretensioned(Profile((0.0,), (float(y),)))) is good

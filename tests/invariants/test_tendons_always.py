"""What holds for every tendon: smooth profiles, friction that only takes, draw-in that gives back its slip, equivalent
loads in equilibrium, secondary moments that are straight between supports."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from soffit.member import balance, friction
from soffit.member import profile as way
from soffit.member.balance import Along
from soffit.member.beam import Anchor, Profile, Supports, TendonGroup
from soffit.section.outline import rectangle
from specimens import beam, tendon, uniform

some = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
OUTLINE = rectangle(400.0, 1000.0)
JACK, E = 1350.0, 195000.0


@st.composite
def profiles(draw: st.DrawFn, shape: str | None = None) -> Profile:
    shape = shape or draw(st.sampled_from(["straight", "parabola", "reversed"]))
    count = draw(st.integers(3, 7)) if shape != "parabola" else draw(st.sampled_from([3, 5, 7]))
    steps = draw(st.lists(st.floats(1000.0, 12000.0), min_size=count - 1, max_size=count - 1))
    heights = draw(st.lists(st.floats(60.0, 940.0), min_size=count, max_size=count))
    x = np.concatenate([[0.0], np.cumsum(steps)])
    return Profile(tuple(x), tuple(heights), shape, draw(st.floats(0.05, 0.5)))


@st.composite
def cables(draw: st.DrawFn, sides: tuple[str, ...] = ("left", "right", "both")) -> TendonGroup:
    profile = draw(profiles())
    return tendon(
        1000.0, profile, profile.x[-1], JACK, stress_is="at the jack",
        friction=draw(st.sampled_from([0.0, 0.05, 0.19, 0.6])), wobble=draw(st.sampled_from([0.0, 1e-7, 1e-6, 1e-5])),
        anchor=Anchor("wedge", 1e9, "", draw(st.floats(0.2, 12.0))), jacked_from=draw(st.sampled_from(sides)),
    )  # fmt: skip


def mirrored(cable: TendonGroup) -> TendonGroup:
    p, length = cable.profile, cable.x_to
    x, y = tuple(length - each for each in reversed(p.x)), tuple(reversed(p.y))
    side = {"left": "right", "right": "left", "both": "both"}[cable.jacked_from]
    return replace(cable, profile=replace(p, x=x, y=y), jacked_from=side)


@some
@given(profiles())
def test_profiles_go_through_their_points_with_the_slope_they_say(profile):
    np.testing.assert_allclose(way.height(profile, np.array(profile.x)), profile.y, rtol=1e-9)
    x = np.linspace(0.0, profile.x[-1], 60)[1:-1]
    x = x[np.min(np.abs(x[:, None] - np.array([*way.breaks(profile), -1e9])), axis=1) > 0.02]
    by_difference = (way.height(profile, x + 0.01) - way.height(profile, x - 0.01)) / 0.02
    np.testing.assert_allclose(way.slope(profile, x), by_difference, atol=1e-6)
    bend = (way.slope(profile, x + 0.01) - way.slope(profile, x - 0.01)) / 0.02
    np.testing.assert_allclose(way.curvature(profile, x) * (1 + way.slope(profile, x) ** 2) ** 1.5, bend, atol=1e-8)
    turned = way.turned(profile, x)
    assert np.all(np.diff(turned) >= 0.0)
    assert np.all(np.diff(turned) >= np.abs(np.diff(np.arctan(way.slope(profile, x)))) - 1e-12)


@some
@given(profiles("reversed"))
def test_reversed_profiles_are_smooth_level_and_between_their_points(profile):
    assert way.kinks(profile) == ()
    np.testing.assert_allclose(way.slope(profile, np.array(profile.x[1:-1])), 0.0, atol=1e-12)
    for (xa, ya), (xb, yb) in pairwise(zip(profile.x, profile.y, strict=True)):
        y = way.height(profile, np.linspace(xa, xb, 33))
        assert np.all(np.diff(y) * np.sign(yb - ya) >= -1e-9)
    bend = way.least_radius(profile)
    if bend is not None:
        dense = np.abs(way.curvature(profile, np.linspace(0.0, profile.x[-1], 500)))
        assert np.max(dense) * bend.radius <= 1.0 + 1e-9


@some
@given(cables(("left",)))
def test_stress_falls_from_the_jack_and_draw_in_only_takes(cable):
    found = friction.jacked(cable)
    assert found.before[0] == JACK
    assert np.all(np.diff(found.before) <= 0.0)
    assert np.all(found.stress <= found.before * (1 + 1e-12))
    assert np.all(found.stress >= 0.0)


@some
@given(cables())
def test_draw_in_gives_back_one_slip_at_each_jack(cable):
    """Within the spacing of the stations, between which an influence length may end."""
    found = friction.jacked(cable)
    slip = cable.anchor.draw_in
    back = float(np.trapezoid(found.before - found.stress, found.x)) / E
    ends = 2 if cable.jacked_from == "both" else 1
    assert np.isclose(back, ends * slip, rtol=3e-3) or not found.stress.any()
    # friction is nowhere exceeded: the stress never changes by more than a factor e^g, either way
    g = friction.exponent(cable, found.x)
    held = found.stress > 0.0
    assert np.all(np.abs(np.diff(np.log(found.stress[held]))) <= np.diff(g[held]) + 1e-9)


@some
@given(cables())
def test_a_mirrored_tendon_has_the_mirrored_stress(cable):
    one, other = friction.jacked(cable), friction.jacked(mirrored(cable))
    np.testing.assert_allclose(one.x, (cable.x_to - other.x)[::-1], atol=1e-6)
    np.testing.assert_allclose(one.stress, other.stress[::-1], rtol=1e-6, atol=1e-6)
    assert one.whole == other.whole


@some
@given(cables(("both",)))
def test_two_jacks_never_leave_less_than_one_without_draw_in(cable):
    bare = replace(cable, anchor=None)
    both = friction.jacked(bare)
    for side in ("left", "right"):
        assert np.all(both.before >= friction.jacked(replace(bare, jacked_from=side)).before - 1e-9)


@some
@given(cables())
def test_equivalent_loads_are_in_equilibrium(cable):
    """Up, along, and about the left end; the forces along stand at the height of the tendon."""
    found = friction.jacked(cable)
    # the loads are even over each stretch: short ones, for a cable may turn by a tenth of a radian within a metre
    # (a kink stands twice in found.x and stays so)
    at, part = np.divmod(np.arange(12 * (len(found.x) - 1) + 1), 12)
    keep = (part == 0) | (np.diff(found.x, append=np.inf)[at] > 0.0)
    places = (at + part / 12)[keep]
    x, stress = (np.interp(places, np.arange(len(found.x)), each) for each in (found.x, found.stress))
    along = Along(cable, x, stress * cable.area)
    specimen = beam(cable.x_to, OUTLINE, tendons=(cable,), loads=(uniform(cable.x_to),))
    loads = balance.equivalent_loads(specimen, along)
    length, middle = np.diff(loads.x), 0.5 * (loads.x[1:] + loads.x[:-1])
    pull = JACK * cable.area
    assert abs(np.sum(loads.up * length) + sum(p.up for p in loads.points)) < 1e-9 * pull
    assert abs(np.sum(loads.right * length) + sum(p.right for p in loads.points)) < 1e-9 * pull
    turn = np.sum(loads.up * length * middle) + sum(p.up * p.x for p in loads.points)
    turn -= np.sum(loads.right * length * way.height(cable.profile, middle)) + sum(p.right * p.y for p in loads.points)
    assert abs(turn) < 1e-4 * pull * OUTLINE.depth


@st.composite
def continuous(draw: st.DrawFn) -> tuple[TendonGroup, Supports]:
    """A tendon over two or three spans, with its points over the inner supports, perhaps with fixed ends."""
    spans = draw(st.lists(st.floats(5000.0, 20000.0), min_size=2, max_size=3))
    held = np.concatenate([[0.0], np.cumsum(spans)])
    x = sorted({*held, *(0.5 * (a + b) for a, b in pairwise(held))})
    y = draw(st.lists(st.floats(80.0, 920.0), min_size=len(x), max_size=len(x)))
    shape = draw(st.sampled_from(["parabola", "straight"]))
    ends = draw(st.booleans()), draw(st.booleans())
    return tendon(1000.0, Profile(tuple(x), tuple(y), shape), x[-1], 1000.0), Supports(tuple(held), *ends)


@some
@given(continuous())
def test_secondary_moments_are_straight_and_their_reactions_add_up_to_nothing(case):
    cable, supports = case
    specimen = beam(cable.x_to, OUTLINE, tendons=(cable,), supports=supports, loads=(uniform(cable.x_to),))
    found = balance.moments(specimen, [balance.constant(cable, 1e6)])
    np.testing.assert_allclose(found.secondary, np.interp(found.x, found.supports, found.at_supports))
    size = max(map(abs, found.at_supports)) + 1.0
    assert abs(sum(found.reactions)) < 1e-9 * size
    turn = sum(r * x for r, x in zip(found.reactions, found.supports, strict=True))
    # what the walls hold at fixed ends balances the rest
    assert abs(turn + found.at_supports[-1] - found.at_supports[0]) < 1e-9 * size * len(found.supports) + 1e-3


@some
@given(continuous())
def test_a_tendon_along_the_line_of_thrust_is_concordant(case):
    cable, supports = case
    specimen = beam(cable.x_to, OUTLINE, tendons=(cable,), supports=supports, loads=(uniform(cable.x_to),))
    force = 1e6
    found = balance.moments(specimen, [balance.constant(cable, force)])
    moved = balance.transformed(cable.profile, found.supports, [m / force for m in found.at_supports])
    other = balance.moments(specimen, [balance.constant(replace(cable, profile=moved), force)])
    size = force * OUTLINE.depth
    assert max(map(abs, other.at_supports)) < 1e-8 * size
    total = np.interp(found.x, other.x, other.total)
    np.testing.assert_allclose(total, found.total, atol=1e-7 * size)

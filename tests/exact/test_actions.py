"""Actions: elastic effects in closed form, combinations, arrangements, vehicles."""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest
from tests import specimens

from soffit.codes.actions import actions
from soffit.errors import PhysicsError
from soffit.materials.ageing.casting import Casting
from soffit.member.beam import Load, Supports
from soffit.member.elastic_line import ElasticLine
from soffit.member.making import Making, Stage, Topping
from soffit.member.verifying import Vehicle, Verifying
from soffit.section.outline import rectangle

CASTING = Casting(40.0, 70.0, 200.0)
W, L = 12.0, 6000.0
E, I = 30000.0, 4.5e8  # noqa: E741


def spans(*lengths, **more):
    held = np.concatenate([[0.0], np.cumsum(lengths)])
    return specimens.beam(float(held[-1]), supports=Supports(tuple(float(s) for s in held)), **more)


def stations(beam, parts=40):
    held = beam.supports.x
    fine = [np.linspace(a, b, parts + 1) for a, b in itertools.pairwise(held)]
    more = [load.x_from for load in beam.loads] + [load.x_to for load in beam.loads] + [0.0, beam.length]
    return sorted(set(np.round(np.concatenate([*fine, more]), 9)))


def of(beam, standard="aci318-19", **more):
    return actions(beam, standard, stations(beam), E, I, **more)


def live(value, low=0.0, high=L, case="live", **more):
    return Load(case, value, low, high, **more)


def test_a_simple_span():
    beam = spans(L, loads=(live(W),))
    found = of(beam)
    at = found.at("characteristic", "sagging", L / 2, "M")
    assert at.working.value == pytest.approx(W * L**2 / 8, rel=1e-12)
    assert found.at("characteristic", "shear", 0.0, "V").working.value == pytest.approx(W * L / 2, rel=1e-5)
    assert found.at("characteristic", "sag", L / 2, "w").working.value == pytest.approx(
        5 * W * L**4 / (384 * E * I), rel=1e-3
    )
    assert found.at("characteristic", "hogging", L / 2, "M").working.value == 0.0


def test_two_spans_loaded_alike_and_one_alone():
    # over the middle support w L²/8; in the span 9/128 w L² at 3/8 L, with one span loaded 0.0957 w L² at 0.4375 L
    beam = spans(L, L, loads=(live(W, 0.0, 2 * L),))
    found = of(beam)
    assert found.at("characteristic", "hogging", L, "M").working.value == pytest.approx(W * L**2 / 8, rel=1e-10)
    one = found.at("characteristic", "sagging", 0.4375 * L, "M").working.value
    assert one == pytest.approx(49 / 512 * W * L**2, rel=1e-3)
    together = of(replace(beam, verifying=Verifying(pattern=False)))
    assert together.at("characteristic", "sagging", 0.375 * L, "M").working.value == pytest.approx(
        9 / 128 * W * L**2, rel=1e-9
    )


def test_three_spans_by_the_three_moment_equation():
    # spans 1 and 3 loaded: X = w L²/20 over both; midspan 1 then has w L²/8 − w L²/40 = w L²/10; spans 1 and 2 loaded:
    # over the first interior support 7/60 w L², the greatest of all arrangements
    beam = spans(L, L, L, loads=(live(W, 0.0, 3 * L),))
    found = of(beam)
    assert found.at("characteristic", "sagging", L / 2, "M").working.value == pytest.approx(W * L**2 / 10, rel=1e-10)
    hog = found.at("characteristic", "hogging", L, "M")
    assert hog.working.value == pytest.approx(7 / 60 * W * L**2, rel=1e-10)
    assert "spans 1, 2" in hog.combination
    mid = found.at("characteristic", "sagging", 1.5 * L, "M")
    assert mid.working.value == pytest.approx(W * L**2 * (1 / 8 - 1 / 20), rel=1e-10)
    assert "live on span 2" in mid.combination


def test_fixed_ends():
    beam = specimens.beam(L, supports=Supports((0.0, L), True, True), loads=(live(W),))
    found = of(beam)
    assert found.at("characteristic", "hogging", 0.0, "M").working.value == pytest.approx(W * L**2 / 12, rel=1e-10)
    assert found.at("characteristic", "sagging", L / 2, "M").working.value == pytest.approx(W * L**2 / 24, rel=1e-10)


def test_redistribution_lowers_the_ultimate_support_moment_and_keeps_equilibrium():
    beam = spans(L, L, loads=(live(W, 0.0, 2 * L),), verifying=Verifying(pattern=False, redistribution=0.2))
    found = of(beam)
    over = found.at("ultimate", "hogging", L, "M").working.value
    span = found.at("ultimate", "sagging", L / 2, "M").working.value
    assert over == pytest.approx(0.8 * 1.6 * W * L**2 / 8, rel=1e-10)
    assert span + over / 2 == pytest.approx(1.6 * W * L**2 / 8, rel=1e-10)
    # in service the beam is elastic
    assert found.at("characteristic", "hogging", L, "M").working.value == pytest.approx(W * L**2 / 8, rel=1e-10)
    assert found.permanent() == pytest.approx(np.zeros(len(found.x)))


def test_the_shear_beside_an_interior_support_is_that_of_one_side():
    beam = spans(L, L, loads=(live(W, 0.0, 2 * L),), verifying=Verifying(pattern=False))
    assert of(beam).at("characteristic", "shear", L, "V").working.value == pytest.approx(5 / 8 * W * L, rel=1e-5)


@pytest.mark.parametrize(
    ("standard", "factors"), [("aci318-19", (1.2, 1.6)), ("en1992", (1.35, 1.5)), ("aashto-lrfd", (1.25, 1.75))]
)
def test_the_usual_combination_of_dead_and_live(standard, factors):
    beam = spans(L, loads=(live(10.0, case="dead"), live(8.0)))
    found = of(beam, standard).at("ultimate", "sagging", L / 2, "M")
    assert found.working.value == pytest.approx((factors[0] * 10 + factors[1] * 8) * L**2 / 8, rel=1e-10)
    assert found.working.formula == f"{factors[0]:g}·Mdead + {factors[1]:g}·Mlive"


def test_dead_alone_governs_where_there_is_little_else():
    beam = spans(L, loads=(live(10.0, case="dead"), live(0.1)))
    assert of(beam).at("ultimate", "sagging", L / 2, "M").working.value == pytest.approx(1.4 * 10 * L**2 / 8, rel=1e-10)
    assert "Strength IV" in of(beam, "aashto-lrfd").at("ultimate", "sagging", L / 2, "M").combination


def test_the_leading_variable_load_is_the_worse_of_the_two():
    # ψ0 of snow 0.5, of an office 0.7: 1.5 (20 + 0.5 · 4) against 1.5 (4 + 0.7 · 20)
    beam = spans(L, loads=(live(20.0, category="B"), live(4.0, case="snow")))
    found = of(beam, "en1992").at("ultimate", "sagging", L / 2, "M")
    assert found.working.value == pytest.approx(1.5 * (20 + 0.5 * 4) * L**2 / 8, rel=1e-10)


def test_6_10ab_with_the_recommended_reduction_of_permanent_loads():
    # 0.85, not 0.89 or 0.925
    beam = spans(
        L, loads=(live(10.0, case="dead"), live(8.0, category="B")), verifying=Verifying(national=(("6.10ab", 1.0),))
    )
    found = of(beam, "en1992").at("ultimate", "sagging", L / 2, "M")
    a, b = 1.35 * 10 + 1.5 * 0.7 * 8, 0.85 * 1.35 * 10 + 1.5 * 8
    assert found.working.value == pytest.approx(max(a, b) * L**2 / 8, rel=1e-10)


def test_the_three_states_of_serviceability():
    beam = spans(L, loads=(live(10.0, case="dead"), live(8.0, category="C")))
    found = of(beam, "en1992")
    for state, psi in (("characteristic", 1.0), ("frequent", 0.7), ("quasi-permanent", 0.6)):
        assert found.at(state, "sagging", L / 2, "M").working.value == pytest.approx(
            (10 + psi * 8) * L**2 / 8, rel=1e-10
        )


def test_permanent_load_that_helps_has_the_lower_factor():
    # an overhang: dead load there and in the span are one action, live load on the overhang lifts the span
    beam = specimens.beam(
        8000.0, supports=Supports((0.0, L)), loads=(live(5.0, 0.0, 8000.0, "dead"), live(30.0, L, 8000.0))
    )
    found = of(beam, "en1992").at("ultimate", "hogging", L / 2, "M")
    dead, lift = 5.0 * L**2 / 8 - 5.0 * 2000**2 / 4, 30.0 * 2000**2 / 4
    assert found.working.value == pytest.approx(1.5 * lift - 1.0 * dead, rel=1e-9)


def test_two_axles_at_their_worst():
    # two equal loads P at a distance a < 0.586 L: M = P/(2 L) (L − a/2)², under one of them at L/2 − a/4 (Barré)
    p, a = 40e3, 1800.0
    beam = spans(L, loads=(), verifying=Verifying(vehicles=(Vehicle("cart", "traffic", (p, p), (a,)),)))
    held = [*stations(beam), L / 2 - a / 4]
    found = actions(beam, "aci318-19", sorted(set(held)), E, I)
    at = found.at("characteristic", "sagging", L / 2 - a / 4, "M")
    assert at.working.value == pytest.approx(p / (2 * L) * (L - a / 2) ** 2, rel=1e-10)
    assert np.max(found.envelope("characteristic").sagging) <= at.working.value * (1 + 1e-9)
    assert at.combination == "1 cart, first axle at 4.35 m (D + L)"
    # at the support one axle stands over it and the other on the span
    shear = found.at("characteristic", "shear", 0.0, "V").working.value
    assert shear == pytest.approx(p * (1 + (L - a) / L), rel=1e-3)


def test_axles_off_the_beam_do_not_count_and_movement_multiplies():
    cart = Vehicle("cart", "traffic", (10e3, 90e3), (20000.0,), dynamic=1.3)
    beam = spans(L, loads=(), verifying=Verifying(vehicles=(cart,)))
    assert of(beam).at("characteristic", "sagging", L / 2, "M").working.value == pytest.approx(
        1.3 * 90e3 * L / 4, rel=1e-10
    )


def test_a_vehicle_that_comes_from_both_sides_makes_a_symmetric_envelope():
    cart = Vehicle("cart", "traffic", (10e3, 60e3, 20e3), (1500.0, 2500.0))
    found = of(spans(L, L, loads=(), verifying=Verifying(vehicles=(cart,)))).envelope("characteristic")
    assert found.sagging == pytest.approx(found.sagging[::-1], rel=1e-9)
    assert found.hogging == pytest.approx(found.hogging[::-1], rel=1e-9)


def test_the_influence_of_one_newton_is_the_response_to_it():
    beam = specimens.beam(15000.0, supports=Supports((1000.0, 6000.0, 12000.0)))
    x = np.array(sorted({*np.linspace(0.0, 15000.0, 61), 1000.0, 6000.0, 12000.0}))
    line = ElasticLine(x, beam.length, beam.supports, E * I)
    moment, shear = line.influence
    for i in (0, 2, 10, 30, 55, len(x) - 1):
        alone = line.respond([Load("", 1.0, float(x[i]), float(x[i]))])
        assert moment[i] == pytest.approx(alone.moment, abs=1e-6)
        far = np.abs(x - x[i]) > 1.0
        assert shear[i][:, far] == pytest.approx(alone.shear[:, far], abs=1e-9)


def test_a_load_beside_the_axis_twists_the_beam_between_forks():
    beam = spans(L, loads=(live(W, eccentricity=100.0),))
    found = of(beam)
    assert found.at("characteristic", "torsion", 0.0, "T").working.value == pytest.approx(W * L / 2 * 100.0, rel=1e-5)
    assert found.at("characteristic", "torsion", L / 2, "T").working.value == pytest.approx(0.0, abs=W * 100.0)


def test_axial_forces_go_with_their_case():
    beam = spans(
        L, loads=(live(10.0, case="dead"), live(8.0)), verifying=Verifying(axial=(("dead", -50e3), ("live", -20e3)))
    )
    at = of(beam).at("ultimate", "sagging", L / 2, "M")
    assert at.axial == pytest.approx(-(1.2 * 50e3 + 1.6 * 20e3))


def test_secondary_moments_of_prestress_take_part_with_their_own_factor():
    beam = spans(L, L, loads=(live(10.0, 0.0, 2 * L, "dead"),))
    x = np.array(stations(beam))
    secondary = np.interp(x, [0.0, L, 2 * L], [0.0, 20e6, 0.0])
    shear = np.where(x < L, 20e6 / L, -20e6 / L)
    found = actions(beam, "aci318-19", x, E, I, (secondary, shear)).at("ultimate", "hogging", L, "M")
    assert found.working.value == pytest.approx(1.4 * 10.0 * L**2 / 8 - 20e6, rel=1e-9)
    assert "1·Mprestress" in found.working.formula


def test_an_overhang_twists_only_itself():
    # its torque ends in the fork of its support; in the span the twist is that of the span's own loads
    beam = specimens.beam(
        8000.0, supports=Supports((2000.0, 8000.0)), loads=(live(W, 0.0, 2000.0, eccentricity=100.0),)
    )
    found = of(beam).envelope("characteristic").torsion
    x = np.array(stations(beam))
    assert found[x == 2000.0] == pytest.approx(W * 2000.0 * 100.0, rel=1e-5)
    assert found[x > 2000.0] == pytest.approx(0.0, abs=1e-6)
    assert found[x == 1000.0] == pytest.approx(W * 1000.0 * 100.0, rel=1e-5)


def test_a_crowd_on_one_side_twists_most():
    both = (live(W, case="crowd", eccentricity=400.0), live(W, case="crowd", eccentricity=-400.0))
    found = of(spans(L, loads=both))
    torque = found.at("characteristic", "torsion", 0.0, "T")
    assert torque.working.value == pytest.approx(W * L / 2 * 400.0, rel=1e-5)
    assert torque.combination == "1 crowd with eccentricity above 0 (D + L)"
    assert torque.moment == pytest.approx(0.0, abs=1e-3)
    # the crowd on both sides bends most
    assert found.at("characteristic", "sagging", L / 2, "M").working.value == pytest.approx(2 * W * L**2 / 8)


def test_live_loads_of_two_categories_are_told_apart():
    beam = spans(L, loads=(live(8.0, category="B"), live(3.0, category="E")))
    at = of(beam, "en1992").at("ultimate", "sagging", L / 2, "MEd")
    assert at.working.formula == "1.5·Mlive_B + 1.5·Mlive_E"  # ψ0 of storage is 1.0
    assert at.combination == "1.5 live (B) + 1.5 live (E) (6.10)"


def test_the_worse_of_two_vehicles_stands_beside_the_loads_of_its_case():
    light, heavy = Vehicle("light", "traffic", (20e3,), ()), Vehicle("heavy", "traffic", (50e3,), ())
    beam = spans(L, loads=(live(5.0, case="traffic"),), verifying=Verifying(vehicles=(light, heavy)))
    at = of(beam, "aashto-lrfd").at("ultimate", "sagging", L / 2, "Mu")
    assert at.working.value == pytest.approx(1.75 * (5.0 * L**2 / 8 + 50e3 * L / 4), rel=1e-10)
    assert at.combination == "1.75 traffic + 1.75 heavy, axle at 3.00 m (Strength I)"


def test_soil_and_fluid_have_factors_of_their_own():
    overhung = {"supports": Supports((0.0, L)), "length": 8000.0}
    soil = specimens.beam(**overhung, loads=(live(5.0, case="dead"), live(6.0, L, 8000.0, "soil")))
    dead, pulls = 5.0 * L**2 / 8, 6.0 * 2000.0**2 / 4
    found = of(soil).at("ultimate", "sagging", L / 2, "Mu").working
    assert found.value == pytest.approx(1.4 * dead - 0.9 * pulls, rel=1e-9)
    assert found.formula == "1.4·Mdead + 0.9·Msoil"
    fluid = specimens.beam(**overhung, loads=(live(5.0, case="dead"), live(6.0, L, 8000.0, "fluid")))
    assert of(fluid).at("ultimate", "sagging", L / 2, "Mu").working.value == pytest.approx(1.4 * dead, rel=1e-9)
    assert of(soil, "en1992").at("ultimate", "sagging", L / 2, "MEd").working.value == pytest.approx(
        1.35 * dead - pulls, rel=1e-9
    )


def test_an_axial_force_of_a_load_that_is_left_out_is_left_out_too():
    loads = (live(10.0, 0.0, 2 * L, "dead"), live(8.0, 0.0, 2 * L))
    beam = spans(L, L, loads=loads, verifying=Verifying(axial=(("live", -9e3),)))
    at = of(beam, "aashto-lrfd").at("ultimate", "hogging", L, "M")
    assert at.axial == pytest.approx(-1.75 * 9e3)
    assert at.combination == "1.25 dead + 1.75 live (Strength I)"
    # no live load sags the beam over its middle support, and dead alone does not
    assert of(beam).at("ultimate", "sagging", L, "M").axial == 0.0


def test_what_is_concurrent_comes_from_the_same_loads():
    beam = spans(L, L, loads=(live(10.0, 0.0, 2 * L, "dead"), live(8.0, 0.0, 2 * L)))
    found = of(beam)
    at = found.at("ultimate", "sagging", 2400.0, "M")
    moments = found.diagram("ultimate", "sagging", 2400.0)
    assert np.interp(2400.0, found.x, moments) == pytest.approx(at.moment, rel=1e-12)
    assert at.moment == pytest.approx(at.working.value, rel=1e-12)
    # the live load on span 1 alone: shear from the support moments of statics
    over = -(1.2 * 10 * L**2 / 8 + 1.6 * 8 * L**2 / 16)
    assert at.shear == pytest.approx((1.2 * 10 + 1.6 * 8) * (L / 2 - 2400.0) + over / L, abs=0.03)  # 1e-3 mm beside


def test_a_beam_without_loads_has_no_actions():
    found = of(spans(L, L, loads=()))
    at = found.at("ultimate", "sagging", 2000.0, "M")
    assert (at.working.value, at.working.formula, at.shear) == (0.0, "0", 0.0)
    assert found.diagram("ultimate", "sagging", 2000.0) == pytest.approx(np.zeros(len(found.x)))


def test_places_of_vehicles_are_told_in_the_units_of_the_file():
    beam = spans(L, loads=(), units="US", verifying=Verifying(vehicles=(Vehicle("cart", "traffic", (1e4,), ()),)))
    assert "axle at 9.84 ft" in of(beam).at("characteristic", "sagging", L / 2, "M").combination


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"standard": "bs8110"}, "'bs8110' has no combinations of actions here; there are aci318-19, en1992"),
        ({"stations": [0.0, 4000.0, 3000.0, L]}, "the stations of the actions must be two or more numbers that rise"),
        ({"stations": [0.0, 4000.0]}, "the stations of the actions must go from end to end of the beam"),
        ({"inertia": 0.0}, "the stiffness of the beam must be above 0, not 0 N·mm²"),
        ({"modulus": float("nan")}, "the stiffness of the beam must be above 0, not nan N·mm²"),
        ({"secondary": (np.zeros(2), np.zeros(3))}, "secondary moments and shears must be given at every station"),
    ],
)
def test_what_cannot_be_computed_is_refused(change, said):
    beam = spans(L, loads=(live(W),))
    given = {"standard": "en1992", "stations": [0.0, 3000.0, L], "modulus": E, "inertia": I} | change
    with pytest.raises(PhysicsError, match=said):
        actions(beam, **given)


def test_a_place_off_the_beam_and_an_unknown_category_are_refused():
    with pytest.raises(PhysicsError, match="no action is known at 7000 mm: the beam goes from 0 to 6000 mm"):
        of(spans(L, loads=(live(W),))).at("ultimate", "sagging", 7000.0, "M")
    with pytest.raises(PhysicsError, match=r"live has no category of use 'Q' in EN 1990 Table A1\.1; write A to H"):
        of(spans(L, loads=(live(W, category="Q"),)), "en1992")
    with pytest.raises(PhysicsError, match=r"between 0 and 1, not at 1\.5"):
        of(spans(L, L, loads=(live(W),), verifying=Verifying(redistribution=1.5)))


def test_what_acts_on_the_bare_beam_before_its_topping_has_hardened():
    topping = Topping(rectangle(1000.0, 100.0), 300.0, specimens.CONCRETE, CASTING)
    weight, cast = (specimens.CONCRETE.density * area * 9.80665e-9 for area in (200.0 * 300.0, 1000.0 * 100.0))

    def beam(propped):
        making = Making("en1992", CASTING, (Stage("topping", 30.0, propped=propped),), topping)
        return spans(L, loads=(live(5.0, case="dead"),), self_weight=True, making=making)

    for propped, bears in ((False, weight + cast), (True, weight)):
        found = of(beam(propped))
        middle = int(np.argmin(np.abs(found.x - L / 2)))
        assert found.bare()[middle] == pytest.approx(bears * L**2 / 8, rel=1e-10)
        assert found.permanent()[middle] == pytest.approx((weight + cast + 5.0) * L**2 / 8, rel=1e-10)
    assert "1.4 self weight + 1.4 topping + 1.4 dead" in found.at("ultimate", "sagging", L / 2, "M").combination

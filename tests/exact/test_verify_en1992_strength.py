"""Strength by EN 1992-1-1 by hand: bending, least steel, shear, torsion, joints; the mistakes that are often made."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest
from tests import specimens

from soffit.codes.en1992 import shear
from soffit.codes.verification import verify
from soffit.materials.properties import concrete
from soffit.member.beam import Load, Supports
from soffit.member.verifying import Verifying
from soffit.section.outline import ell, rectangle, tee

L = 6000.0
C30 = concrete(30.0, "specified", max_aggregate=16.0, density=2400.0)
FLAT = specimens.FLAT
A20 = 314.159265


def beam(stirrups=150.0, load=40.0, count=4, outline=None, **more):
    rows = (specimens.bars(count, 20.0, 50.0, L, FLAT),)
    ties = (specimens.stirrups(L, 8.0, stirrups, steel=FLAT),) if stirrups else ()
    more = {"concrete": C30, "bars": rows, "stirrups": ties, "loads": (Load("live", load, 0.0, L),)} | more
    return specimens.beam(L, outline or rectangle(300.0, 500.0), **more)


def checks(made, *only):
    return {c.key: c for c in verify(made, "en1992", only).checks}


def value(check, name):
    return next(w.value for w in check.workings if w.name == name)


def test_bending_is_that_of_the_block():
    check = checks(beam(), "flexure")["flexure-sagging"]
    pull = 4 * A20 * 500 / 1.15
    depth = pull / (30 / 1.5 * 300)
    assert check.resistance.value == pytest.approx(pull * (450 - depth / 2), rel=1e-6)
    assert check.demand.value == pytest.approx(1.5 * 40 * L**2 / 8, rel=1e-9)


def test_high_strength_lowers_the_block():
    strong = concrete(70.0, "specified", density=2400.0)
    check = checks(beam(concrete=strong), "flexure")["flexure-sagging"]
    assert value(check, "λ") == pytest.approx(0.8 - 20 / 400)
    assert value(check, "η") == pytest.approx(1 - 20 / 200)


def test_the_national_factor_on_sustained_strength():
    mine = beam(verifying=Verifying(national=(("αcc", 0.85),)))
    assert value(checks(mine, "flexure")["flexure-sagging"], "fcd") == pytest.approx(0.85 * 30 / 1.5)


def test_unbonded_tendons_gain_100_mpa():
    made = beam(bars=(), tendons=(specimens.tendon(600.0, 80.0, L, 1000.0),))
    check = checks(made, "flexure")["flexure-sagging"]
    assert value(check, "fp1") == pytest.approx(1100.0)


def test_least_steel():
    check = checks(beam(count=2), "minimum")["minimum-sagging"]
    assert check.demand.value == pytest.approx(max(0.26 * 0.3 * 30 ** (2 / 3) / 500, 0.0013) * 300 * 450, rel=1e-9)
    assert check.resistance.value == pytest.approx(2 * A20)


def test_shear_without_stirrups_and_the_least_that_has_no_partial_factor():
    check = checks(beam(stirrups=None, load=10.0), "shear")["shear"]
    k, rho = 1 + sqrt(200 / 450), 4 * A20 / (300 * 450)
    main = 0.12 * k * (100 * rho * 30) ** (1 / 3)
    assert value(check, "vmin") == pytest.approx(0.035 * k**1.5 * sqrt(30), rel=1e-9)
    assert check.resistance.value == pytest.approx(max(main, 0.035 * k**1.5 * sqrt(30)) * 300 * 450, rel=1e-6)


def test_the_concrete_is_not_added_to_the_stirrups():
    check = checks(beam(load=60.0, count=8), "shear")["shear"]
    assert value(check, "VRd,c") < check.demand.value
    asw = 2 * 50.265482 / 150
    assert check.resistance.value == pytest.approx(asw * 0.9 * 450 * 500 / 1.15 * 2.5, rel=1e-6)


def test_struts_stand_steeper_where_the_flattest_would_crush():
    # sizing with 2.5 where the crushing check needs a smaller value is a common mistake
    made = beam(load=150.0, count=12, stirrups=60.0)
    check = checks(made, "shear")["shear"]
    cot = next(s.value for w in check.workings for s in w.symbols if s.name == "cotθ")
    assert 1.0 < cot < 2.5
    nu = 0.6 * (1 - 30 / 250)
    # at that angle the struts bear VEd and no more
    assert value(check, "VRd,max") == pytest.approx(300 * 405 * nu * 20 / (cot + 1 / cot), rel=1e-9)
    assert value(check, "VRd,max") == pytest.approx(check.demand.value, rel=1e-9)
    assert value(check, "VRd,s") == pytest.approx(2 * 50.265482 / 60 * 405 * 500 / 1.15 * cot, rel=1e-6)
    assert check.resistance.value == min(value(check, "VRd,s"), value(check, "VRd,max"))


def test_beyond_the_steepest_the_struts_crush():
    struts = checks(beam(load=260.0, count=12, stirrups=60.0), "shear")["shear-struts"]
    assert not struts.kept
    assert struts.resistance.value == pytest.approx(300 * 405 * 0.6 * (1 - 30 / 250) * 20 / 2, rel=1e-9)


def test_the_file_may_fix_the_struts_and_the_tension_shift_goes_with_them():
    from soffit.codes.design import Design
    from soffit.codes.en1992 import values

    made = beam(load=60.0, count=8, verifying=Verifying(stirrup_angle=1.5))
    assert checks(made, "shear")["shear"].resistance.value == pytest.approx(
        2 * 50.265482 / 150 * 405 * 500 / 1.15 * 1.5, rel=1e-6
    )
    design = Design(made, "en1992", values.opened(made))
    assert shear.cot_theta(design, design.cut(1000.0)) == 1.5


def test_least_stirrups_and_their_spacing():
    found = checks(beam(stirrups=400.0), "shear")
    assert found["shear-least"].demand.value == pytest.approx(0.08 * sqrt(30) / 500, rel=1e-9)
    assert found["shear-spacing"].resistance.value == pytest.approx(0.75 * 450)
    assert not found["shear-spacing"].kept
    assert not checks(beam(stirrups=None), "shear")["shear-least"].kept


def test_ducts_narrow_the_web():
    grouted = specimens.tendon(600.0, 80.0, L, 900.0, bond="bonded", duct=60.0)
    loose = specimens.tendon(600.0, 80.0, L, 900.0, duct=60.0)
    for tendon, width in ((grouted, 300.0 - 30.0), (loose, 300.0 - 72.0)):
        check = checks(beam(tendons=(tendon,)), "shear")["shear-struts"]
        bw = next(s.value for w in check.workings for s in w.symbols if s.name == "bw")
        assert bw == pytest.approx(width)


def test_torsion_with_shear_by_hand():
    made = beam(load=30.0, loads=(Load("live", 30.0, 0.0, L, 150.0),))
    found = checks(made, "torsion")
    struts = found["torsion-struts"]
    tef = min(max(300 * 500 / 1600, 100.0), 150.0)
    ak = (300 - tef) * (500 - tef)
    assert value(struts, "Ak") == pytest.approx(ak)
    need = found["torsion-stirrups"]
    assert value(need, "TRd,c") == pytest.approx(2 * ak * tef * 0.7 * 0.3 * 30 ** (2 / 3) / 1.5, rel=1e-9)
    # crushing is told for struts at 45 degrees, both strengths with one angle
    nu = 0.6 * (1 - 30 / 250)
    most = (2 * nu * 20 * ak * tef / 2, 300 * 405 * nu * 20 / 2)
    assert struts.ratio == pytest.approx(value(struts, "TEd") / most[0] + value(struts, "VEd") / most[1], rel=1e-9)
    t, v = value(need, "TEd"), value(need, "VEd")
    cot = next(s.value for w in need.workings for s in w.symbols if s.name == "cotθ")
    fywd = 500 / 1.15
    assert need.demand.value == pytest.approx(t / (2 * ak * fywd * cot) + v / (405 * fywd * cot) / 2, rel=1e-9)


def test_no_torque_no_torsion():
    assert not checks(beam(), "torsion")


def test_redistribution_is_limited_by_the_neutral_axis():
    held = Supports((0.0, L / 2, L))
    top = specimens.bars(6, 20.0, 450.0, L, FLAT)
    made = replace(beam(supports=held, verifying=Verifying(redistribution=0.25)), bars=(*beam().bars, top))
    check = checks(made, "flexure")["flexure-redistribution"]
    assert check.resistance.value == pytest.approx(0.75)
    assert check.demand.value == pytest.approx(max(0.7, 0.44 + 1.25 * value_of_axis(check)), rel=1e-6)


def value_of_axis(check):
    symbols = {s.name: s.value for s in check.demand.symbols}
    return symbols["xu"] / symbols["d"]


def test_plain_concrete_bears_what_section_12_allows():
    check = checks(beam(bars=(), load=1.0), "flexure")["flexure-sagging"]
    assert check.resistance.value == pytest.approx(0.8 * 0.7 * 0.3 * 30 ** (2 / 3) / 1.5 * 300 * 500**2 / 6, rel=1e-9)


def flanged(load, shape=tee, width=900.0):
    return beam(load=load, count=6, stirrups=100.0, outline=shape(500.0, 250.0, width, 120.0))


@pytest.mark.parametrize(("shape", "sides"), [(tee, 2.0), (ell, 1.0)])
def test_the_flange_beside_the_web_by_hand(shape, sides):
    load = 4.0
    found = checks(flanged(load, shape), "interface")
    # over the quarter of the span next to the support the moment of a uniform load rises by 3/4 of its greatest
    rise, d = 0.75 * 1.5 * load * L**2 / 8, 450.0
    force = rise / (0.9 * d) * (900 - 250) / (sides * 900)
    assert found["interface-flange"].demand.value == pytest.approx(force / (120 * L / 4), rel=1e-3)
    assert found["interface-flange"].resistance.value == pytest.approx(0.6 * (1 - 30 / 250) * 20 / 2)
    fctd = 0.7 * 0.3 * 30 ** (2 / 3) / 1.5
    assert found["interface-flange-bare"].resistance.value == pytest.approx(0.4 * fctd)


def test_the_steel_a_flange_wants_is_told_and_not_guessed():
    told = {u.title: u.why for u in verify(flanged(40.0), "en1992", ("interface",)).unchecked}
    ved = 0.75 * 1.5 * 40 * L**2 / 8 / 405 * 650 / 1800 / (120 * L / 4)
    assert f"{1e3 * ved * 120 / 2 / (500 / 1.15):.0f} mm² a metre" in told["transverse steel of the flange"]


def test_a_rectangle_has_no_flange():
    assert not checks(beam(), "interface")


def test_a_pulled_flange_is_told():
    ends = Supports((0.0,), fixed_left=True)
    made = replace(flanged(4.0), supports=ends)
    assert "pulled flange beside web" in {u.title for u in verify(made, "en1992", ("interface",)).unchecked}

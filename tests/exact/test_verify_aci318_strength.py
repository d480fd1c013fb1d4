"""Strength by ACI 318-19 against plain arithmetic; the mistakes that are often made, one test each."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sqrt

import pytest
from tests.specimens import CONCRETE, FIBRE, FLAT, STRAND, bars, beam, stirrups, tendon, uniform

from soffit.codes.verification import Verification, verify
from soffit.codes.working import Check
from soffit.member.beam import Beam, Load, Supports
from soffit.member.verifying import Vehicle, Verifying
from soffit.section.outline import box, rectangle, tee

L = 8000.0
PSI = 4.4482216152605 / 25.4**2
INCH_POUND = Verifying(edition="inch-pound")
C30 = replace(CONCRETE, specified=30.0, strength=38.0)
C40 = replace(CONCRETE, specified=40.0, strength=48.0, strength_at_transfer=38.0)
TIE = replace(FLAT, yield_strength=400.0, tensile=400.0)
LOW = bars(4, 20.0, 53.0, L, FLAT)
AS = 4 * pi / 4 * 20**2


def plain(**more) -> Beam:
    """300 × 600 mm, d = 547 mm, 4 ⌀20 of 500 MPa, f'c = 30 MPa, on 8 m."""
    more = {"concrete": C30, "bars": (LOW,), "loads": (uniform(L, 10.0),)} | more
    return beam(L, more.pop("outline", rectangle(300.0, 600.0)), **more)


def strand(**more):
    more = {"bond": "bonded", "when": "before casting", "label": "8 strands"} | more
    return tendon(more.pop("area", 744.0), more.pop("y", 80.0), L, more.pop("stress", 1100.0), **more)


def stressed(**more) -> Beam:
    return plain(**({"concrete": C40, "tendons": (strand(),), "bars": ()} | more))


def done(b: Beam, *keys: str) -> Verification:
    return verify(b, "aci318-19", keys)


def checks(b: Beam, *keys: str) -> dict[str, Check]:
    return {c.key: c for c in done(b, *keys).checks}


def named(check: Check, name: str) -> float:
    return next(w.value for w in check.workings if w.name == name)


# -- bending -----------------------------------------------------------------------------------------------------------


def test_bending_by_hand():
    found = checks(plain(), "flexure")["flexure-sagging"]
    a = AS * 500.0 / (0.85 * 30.0 * 300.0)
    assert named(found, "Mn") == pytest.approx(AS * 500.0 * (547.0 - a / 2), rel=1e-9)
    assert found.demand.value == pytest.approx(1.6 * 10.0 * L**2 / 8)
    assert found.resistance.value == pytest.approx(0.9 * named(found, "Mn"))


@pytest.mark.parametrize("fy", [280.0, 420.0, 550.0, 690.0])
def test_tension_control_begins_at_the_own_yield_strain(fy):
    """Not at 0.005 for every grade."""
    steel = replace(FLAT, yield_strength=fy, tensile=fy)
    found = checks(plain(bars=(bars(4, 20.0, 53.0, L, steel),)), "flexure")["flexure-ductility-sagging"]
    assert found.demand.value == pytest.approx(fy / 200000.0 + 0.003)


def test_in_transition_the_beam_fails_by_ductility_and_has_less_than_090():
    found = checks(plain(bars=(bars(6, 25.0, 60.0, L, FLAT),)), "flexure")
    c = 6 * pi / 4 * 25**2 * 500.0 / (0.85 * 30.0 * (0.85 - 0.05 * 2 / 7) * 300.0)
    et = 0.003 * (540.0 - c) / c
    assert 0.0025 < et < 0.0055
    assert named(found["flexure-sagging"], "φ") == pytest.approx(0.65 + 0.25 * (et - 0.0025) / 0.003, rel=1e-6)
    assert not found["flexure-ductility-sagging"].kept


def test_prestressed_steel_yields_at_0002():
    assert checks(stressed(), "flexure")["flexure-ductility-sagging"].demand.value == pytest.approx(0.005)


def test_axial_compression_is_that_over_phi_and_has_a_cap():
    b = plain(verifying=Verifying(axial=(("dead", -1000e3),)))
    found = checks(b, "flexure")
    bend, push = found["flexure-sagging"], found["flexure-axial"]
    pu = push.demand.value
    assert pu == pytest.approx(1200e3)
    po = 0.85 * 30.0 * (300.0 * 600.0 - AS) + 500.0 * AS
    assert push.resistance.value == pytest.approx(0.65 * 0.80 * po)
    phi = bend.resistance.value / named(bend, "Mn")
    c = named(bend, "c")
    a = named(bend, "β1") * c
    steel = AS * min(500.0, 600.0 * (547.0 - c) / c)
    assert 0.85 * 30.0 * 300.0 * a - steel == pytest.approx(pu / phi, rel=1e-3)
    assert named(bend, "Mn") == pytest.approx(0.85 * 30 * 300 * a * (300 - a / 2) + steel * 247.0, rel=1e-6)
    assert "flexure-ductility-sagging" not in found  # 1200 kN is more than 0.10 f'c Ag


def test_strand_by_strain_compatibility_by_hand():
    """Equilibrium solved by bisection, with the curve of the PCI design aid typed again in ksi."""
    found = checks(stressed(), "flexure")["flexure-sagging"]
    ec = named(found, "ε0p1") - 1100.0 / 195000.0
    modulus = 33.0 * (2400.0 / 16.018463) ** 1.5 * sqrt(40.0 / PSI) * PSI
    force, e = 744.0 * 1100.0, 220.0
    assert ec == pytest.approx((force / 18e4 + force * e**2 / (300 * 600**3 / 12)) / modulus, rel=1e-9)

    def stress(strain):
        ksi = 1000.0 * PSI
        return min(195000.0 * strain, 1860.0 - 0.04 * ksi / max(strain - 0.007, 0.0016))

    low, high = 1.0, 600.0
    beta = 0.85 - 0.05 * 12 / 7
    for _ in range(100):
        c = (low + high) / 2
        pull = 744.0 * stress(1100.0 / 195000.0 + ec + 0.003 * (520.0 - c) / c)
        low, high = (c, high) if pull > 34.0 * 300.0 * beta * c else (low, c)
    assert named(found, "Mn") == pytest.approx(pull * (520.0 - beta * c / 2), rel=1e-6)


def test_the_approximate_fps_has_rho_with_dp_and_gamma_028_for_low_relaxation():
    steel = replace(STRAND, yield_strength=0.9 * 1860.0)
    b = stressed(tendons=(strand(steel=steel),), bars=(bars(2, 16.0, 50.0, L, FLAT),))
    found = checks(b, "flexure-approximate")["flexure-approximate-sagging"]
    beta = 0.85 - 0.05 * 12 / 7
    rho_p, rho = 744.0 / (300 * 520), 2 * pi / 4 * 16**2 / (300 * 550)
    assert named(found, "fps") == pytest.approx(
        1860 * (1 - 0.28 / beta * (rho_p * 1860 / 40 + 550 / 520 * 500 / 40 * rho))
    )
    assert found.state == "information"
    lazy = checks(stressed(), "flexure-approximate")["flexure-approximate-sagging"]
    assert named(lazy, "γp") == 0.40  # 1640/1860 = 0.88


def test_below_half_of_fpu_there_is_no_approximate_fps():
    found = done(stressed(tendons=(strand(stress=900.0),)), "flexure-approximate")
    assert not found.checks
    assert found.unchecked[0].why == "fse = 900 MPa lies below 0.5 fpu = 930 MPa"
    assert found.unchecked[0].scope


@pytest.mark.parametrize(("span", "share", "most"), [(L, 100.0, 420.0), (24000.0, 300.0, 210.0)])
def test_unbonded_tendons_by_both_slendernesses(span, share, most):
    b = beam(span, rectangle(300.0, 600.0), concrete=C40, tendons=(tendon(744.0, 80.0, span, 1100.0),),
             loads=(uniform(span, 1.0),))  # fmt: skip
    found = checks(b, "flexure")["flexure-sagging"]
    rho = 744.0 / (300 * 520)
    assert named(found, "fps1") == pytest.approx(min(1100 + 70 + 40 / (share * rho), 1100 + most, 1640.0))


def test_an_unbonded_tendon_below_half_of_fpu_gains_nothing():
    b = plain(concrete=C40, bars=(), tendons=(tendon(744.0, 80.0, L, 500.0, label="one rod"),))
    found = checks(b, "flexure")["flexure-sagging"]
    assert named(found, "fp1") == 500.0
    assert "one rod has less than 0.5 fpu, for which 20.3.2.4.1 gives no fps: fse is taken." in found.assumptions


def test_near_its_end_strand_has_what_is_developed_and_phi_falls():
    """A point load 600 mm from the end: lx = 600, ltr = 1100/21 · 12.5 = 655 mm."""
    b = stressed(loads=(Load("live", 50e3, 600.0, 600.0),))
    found = checks(b, "flexure")["flexure-sagging"]
    assert found.x == pytest.approx(600.0, abs=60.0)
    assert named(found, "fp1") == pytest.approx(21 * found.x / 12.5)
    assert named(found, "φend") == 0.75
    debonded = checks(replace(b, tendons=(strand(sheathed=(300.0, 0.0)),)), "flexure")["flexure-sagging"]
    assert named(debonded, "fp1") == pytest.approx(10.5 * debonded.x / 12.5)


def test_plain_concrete_by_chapter_14():
    found = done(plain(bars=()), "flexure")
    check = found.checks[0]
    assert check.resistance.value == pytest.approx(0.60 * 0.42 * sqrt(30.0) * 300 * 600**2 / 6)
    assert "14.1.3" in found.unchecked[0].clause


def test_bars_that_do_not_yield_are_out_of_scope():
    found = done(plain(bars=(bars(4, 20.0, 53.0, L, FIBRE, label="4 × 20 GFRP"),)), "flexure", "minimum")
    assert not found.checks
    assert found.unchecked[0].scope
    assert found.unchecked[0].why == "4 × 20 GFRP does not yield: fibre polymer is for ACI 440.11"


# -- least steel -------------------------------------------------------------------------------------------------------


def test_least_steel_in_both_editions_and_its_waiver():
    heavy = (uniform(L, 25.0),)
    si = checks(plain(loads=heavy), "minimum")["minimum-sagging"]
    assert named(si, "As,min") == pytest.approx(max(0.25 * sqrt(30.0), 1.4) * 300 * 547 / 500)
    us = checks(plain(loads=heavy, verifying=INCH_POUND), "minimum")["minimum-sagging"]
    assert named(us, "As,min") == pytest.approx(max(3 * sqrt(30 / PSI), 200.0) * 300 * 547 / (500 / PSI))
    light = checks(plain(loads=(uniform(L, 1.0),)), "minimum")["minimum-sagging"]
    assert light.demand.value == pytest.approx(4 / 3 * AS * light.workings[0].value / named(light, "φMn"))
    assert light.demand.value < named(light, "As,min")


def test_a_flange_in_tension_doubles_the_web_where_the_beam_is_determinate():
    b = plain(outline=tee(600.0, 300.0, 900.0, 120.0), supports=Supports((0.0,), fixed_left=True),
              bars=(bars(4, 20.0, 547.0, L, FLAT),), loads=(uniform(L, 3.0),))  # fmt: skip
    found = checks(b, "minimum")["minimum-hogging"]
    assert named(found, "As,min") == pytest.approx(1.4 * 600 * 547 / 500, rel=1e-9)


def test_bonded_tendons_must_outlast_cracking_unless_all_is_twice_as_strong():
    found = checks(stressed(tendons=(strand(stress=600.0, area=300.0),), loads=(uniform(L, 8.0),)), "minimum")
    check = found["minimum-cracking-sagging"]
    p = 600.0 * 300.0
    mcr = 300 * 600**2 / 6 * (0.62 * sqrt(40.0) + p / 18e4 + p * 220 / (300 * 600**2 / 6))
    assert named(check, "Mcr") == pytest.approx(mcr)
    assert check.demand.value == pytest.approx(1.2 * mcr)


def test_bars_beside_unbonded_tendons():
    b = plain(concrete=C40, tendons=(tendon(744.0, 80.0, L, 1100.0),))
    found = checks(b, "minimum")["minimum-unbonded-sagging"]
    assert (found.demand.value, found.resistance.value) == pytest.approx((0.004 * 300 * 300, AS))


def test_skin_steel_begins_above_36_inches():
    deep = plain(outline=rectangle(300.0, 1000.0), loads=(uniform(L, 30.0),))
    assert "minimum-skin-sagging" in checks(deep, "minimum")
    assert "minimum-skin-sagging" not in checks(replace(deep, outline=rectangle(300.0, 900.0)), "minimum")


# -- shear -------------------------------------------------------------------------------------------------------------


def test_without_least_stirrups_size_and_steel_count():
    """318-19, not 2√f'c of 318-14."""
    found = checks(plain(), "shear")["shear"]
    rho, size = AS / (300 * 547), sqrt(2 / (1 + 0.004 * 547))
    assert named(found, "Vc") == pytest.approx(0.66 * size * rho ** (1 / 3) * sqrt(30.0) * 300 * 547)
    us = checks(plain(verifying=INCH_POUND), "shear")["shear"]
    size = sqrt(2 / (1 + 547 / 254))
    assert named(us, "Vc") == pytest.approx(8 * size * rho ** (1 / 3) * sqrt(30.0 / PSI) * PSI * 300 * 547)


def test_with_least_stirrups_no_size_effect():
    found = checks(plain(stirrups=(stirrups(L, steel=TIE, spacing=200.0),)), "shear")["shear"]
    rho = AS / (300 * 547)
    assert named(found, "Vc") == pytest.approx(max(0.17, 0.66 * rho ** (1 / 3)) * sqrt(30.0) * 300 * 547)
    assert named(found, "Vs") == pytest.approx(2 * pi / 4 * 8**2 * 400 * 547 / 200)
    assert all(w.name != "λs" for w in found.workings)


def test_the_size_effect_is_no_gain_in_shallow_beams():
    found = checks(plain(outline=rectangle(300.0, 200.0)), "shear")["shear"]
    assert named(found, "λs") == 1.0


def test_the_limits_of_the_concrete_and_of_axial_compression():
    b = plain(bars=(bars(16, 32.0, 53.0, L, FLAT),), verifying=Verifying(axial=(("dead", -4000e3),)))
    found = checks(b, "shear")["shear"]
    assert named(found, "σN") == pytest.approx(0.05 * 30.0)  # not 4800e3/6Ag = 4.4 MPa
    assert named(found, "Vc") == pytest.approx(0.42 * sqrt(30.0) * 300 * 547)


def test_axial_tension_leaves_no_negative_strength():
    found = checks(plain(verifying=Verifying(axial=(("dead", 3000e3),))), "shear")["shear"]
    assert named(found, "Vc") == 0.0


def test_the_root_of_strong_concrete_is_limited_without_least_stirrups():
    strong = replace(CONCRETE, specified=100.0, strength=108.0)
    bare = checks(plain(concrete=strong), "shear")["shear"]
    assert named(bare, "f'c,v") == pytest.approx(8.3**2)
    tied = checks(plain(concrete=strong, stirrups=(stirrups(L, steel=TIE),)), "shear")["shear"]
    assert named(tied, "Vca") == pytest.approx(0.17 * 10.0 * 300 * 547)


def test_stirrups_are_wanted_above_phi_lambda_root_fc_not_above_half_of_vc():
    limit = 0.75 * 0.083 * sqrt(30.0) * 300 * 547
    for times, wanted in ((0.97, False), (1.03, True)):
        w = times * limit / (1.6 * (L / 2 - 547))
        found = checks(plain(loads=(uniform(L, w),)), "shear")
        assert ("shear-minimum" in found) is wanted
    half = 0.5 * 0.75 * named(checks(plain(), "shear")["shear"], "Vc")
    assert abs(half / limit - 1) > 0.1


def test_least_stirrups_with_prestress_are_the_lesser_of_one_and_the_greater_of_two():
    """min[max(c, d), e]: where (d) < (e) < (c) it is (e), and not the least of three."""
    b = stressed(
        stirrups=(stirrups(L, steel=TIE),),
        loads=(uniform(L, 20.0),),
        tendons=(strand(area=320.0, when="after curing"),),
    )
    least = next(w for w in checks(b, "shear")["shear"].workings if w.name == "Av,min/s")
    c, d = 0.062 * sqrt(40.0) * 300 / 400, 0.35 * 300 / 400
    e = 320.0 * 1860 / (80 * 400 * 520) * sqrt(520 / 300)
    assert e < d < c
    assert least.value == pytest.approx(min(max(c, d), e))
    more = replace(b, tendons=(strand(area=2600.0, when="after curing"),))
    least = next(w for w in checks(more, "shear")["shear"].workings if w.name == "Av,min/s")
    assert least.value == pytest.approx(c)


def test_the_critical_section_is_d_from_the_face_unless_a_load_stands_before_it():
    far = checks(plain(supports=Supports((0.0, L), bearing=200.0)), "shear")["shear"]
    assert min(far.x, L - far.x) == pytest.approx(100.0 + 547.0)
    near = checks(
        plain(supports=Supports((0.0, L), bearing=200.0), loads=(Load("live", 300e3, 500.0, 500.0),)), "shear"
    )
    assert near["shear"].x <= 500.0
    assert near["shear"].demand.value == pytest.approx(1.6 * 300e3 * 7500 / 8000, rel=1e-6)
    half = checks(stressed(supports=Supports((0.0, L), bearing=200.0), stirrups=(stirrups(L, steel=TIE),)), "shear")
    assert min(half["shear-section"].x, L - half["shear-section"].x) == pytest.approx(400.0)


def test_under_a_vehicle_shear_is_looked_at_in_the_face_itself():
    """An axle may stand between the face and d; the face was once missed among the places that were tried."""
    lorry = Vehicle("lorry", "traffic", (80e3,), ())
    b = plain(supports=Supports((0.0, 3000.0, L), bearing=200.0), loads=(uniform(L, 5.0),),
              verifying=Verifying(vehicles=(lorry,)))  # fmt: skip
    assert checks(b, "shear")["shear"].x in (2900.0, 3100.0)


def test_prestressed_shear_by_hand_in_the_units_of_its_constants():
    """700 psi is 4.83 MPa: the two editions agree within their rounding, and 700 is not put beside MPa."""
    b = stressed(stirrups=(stirrups(L, steel=TIE),), tendons=(strand(when="after curing"),))
    si = checks(b, "shear")["shear"]
    us = checks(replace(b, verifying=INCH_POUND), "shear")["shear"]
    assert si.x == pytest.approx(us.x)
    vu, mu = 16.0 * abs(L / 2 - si.x), 16.0 * si.x * (L - si.x) / 2
    bend = min(1.0, vu * 520.0 / mu)
    assert named(si, "Vc,app") == pytest.approx(
        max(0.17 * sqrt(40), min(0.05 * sqrt(40) + 4.8 * bend, 0.42 * sqrt(40))) * 300 * 520)  # fmt: skip
    root = sqrt(40 / PSI) * PSI
    assert named(us, "Vc,app") == pytest.approx(
        max(2 * root, min(0.6 * root + 700 * PSI * bend, 5 * root)) * 300 * 520)  # fmt: skip
    p, wt = 744.0 * 1100.0, 300 * 600**2 / 6
    mcre = wt * (0.5 * sqrt(40) + p / 18e4 + p * 220 / wt)
    vci = 0.05 * sqrt(40) * 300 * 520 + vu * mcre / mu
    vcw = (0.29 * sqrt(40) + 0.3 * p / 18e4) * 300 * 520
    assert named(si, "Vc,det") == pytest.approx(min(max(vci, 0.17 * sqrt(40) * 300 * 520), vcw))


def test_stirrups_too_far_apart_are_not_counted_and_fail_where_wanted():
    found = checks(plain(stirrups=(stirrups(L, spacing=400.0),), loads=(uniform(L, 25.0),)), "shear")
    assert found["shear-spacing"].resistance.value == pytest.approx(547 / 2)
    assert not found["shear-spacing"].kept
    assert "Vs" not in {w.name for w in found["shear"].workings}


def test_where_much_is_asked_of_stirrups_they_stand_twice_as_close():
    b = plain(stirrups=(stirrups(L, 12.0, 150.0, steel=TIE),), loads=(uniform(L, 90.0),))
    found = checks(b, "shear")
    assert found["shear-spacing"].resistance.value == pytest.approx(547 / 4)
    assert found["shear-legs"].resistance.value == pytest.approx(547 / 2)
    vc = 0.17 * sqrt(30) * 300 * 547
    assert found["shear-section"].resistance.value == pytest.approx(0.75 * (vc + 0.66 * sqrt(30) * 300 * 547))


# -- torsion -----------------------------------------------------------------------------------------------------------


def twisted(e: float, **more) -> Beam:
    more = {"stirrups": (stirrups(L, 10.0, 100.0, steel=TIE),), "bars": (LOW, bars(2, 16.0, 550.0, L, FLAT)),
            "loads": (Load("live", 10.0, 0.0, L, eccentricity=e),)} | more  # fmt: skip
    return plain(**more)


def test_little_torsion_is_neglected():
    found = checks(twisted(50.0), "torsion")["torsion"]
    assert found.resistance.value == pytest.approx(0.75 * 0.083 * sqrt(30.0) * 180000.0**2 / 1800)
    assert found.demand.value == pytest.approx(1.6 * 10 * 50 * (L / 2 - 547))


def test_torsion_with_shear_by_hand():
    """Stirrups ⌀10, bars ⌀20 at 53 mm from the face: their middles stand 43 − 5 = 38 mm from the faces."""
    found = checks(twisted(300.0), "torsion")
    tu, vu = 16.0 * 300 * (L / 2 - 547), 16.0 * (L / 2 - 547)
    aoh, ph = (300 - 76) * (600 - 76), 2 * (300 + 600 - 152)
    leg = tu / (0.75 * 2 * 0.85 * aoh * 400)
    check = found["torsion"]
    assert named(check, "At/s") == pytest.approx(leg)
    vs = max(0.0, vu / 0.75 - 0.17 * sqrt(30) * 300 * 547)
    assert check.demand.value == pytest.approx(leg + vs / (400 * 547 * 2))
    assert check.resistance.value == pytest.approx(pi / 4 * 10**2 / 100)
    stress = sqrt((vu / (300 * 547)) ** 2 + (tu * ph / (1.7 * aoh**2)) ** 2)
    assert found["torsion-section"].demand.value == pytest.approx(stress)
    assert found["torsion-section"].resistance.value == pytest.approx(0.75 * (0.17 + 0.66) * sqrt(30))
    assert found["torsion-spacing"].resistance.value == pytest.approx(min(ph / 8, 300))
    bar, x = named(found["torsion-bars"], "Aℓ"), found["torsion-bars"].x
    tu = 16.0 * 300 * abs(L / 2 - x)
    leg = tu / (0.75 * 2 * 0.85 * aoh * 400)
    assert bar == pytest.approx(tu * ph / (0.75 * 2 * 0.85 * aoh * 420))
    least = 0.42 * sqrt(30) * 180000 / 420 - max(leg, 0.175 * 300 / 400) * ph * 400 / 420
    assert named(found["torsion-bars"], "Aℓ,min") == pytest.approx(max(least, 0.0))


def test_a_hollow_section_adds_its_stresses_and_counts_its_concrete():
    b = twisted(
        500.0, outline=box(600.0, 600.0, 60.0, 100.0, 100.0), loads=(Load("live", 20.0, 0, L, eccentricity=500.0),)
    )
    found = checks(b, "torsion")["torsion-section"]
    aoh = (600 - 76) ** 2
    vu, tu = 32.0 * (L / 2 - 547), 32.0 * 500 * (L / 2 - 547)
    # walls of 60 mm are thinner than Aoh/ph = 131 mm
    assert found.demand.value == pytest.approx(vu / (120 * 547) + tu / (1.7 * aoh * 60))
    ag = 600 * 600 - 480 * 400
    assert named(found, "Tth") == pytest.approx(0.083 * sqrt(30) * ag**2 / 2400)


def test_torsion_with_prestress_has_flatter_struts_and_a_higher_threshold():
    b = twisted(300.0, concrete=C40, tendons=(strand(when="after curing"),), bars=(bars(2, 16.0, 50.0, L, FLAT),))
    found = checks(b, "torsion")["torsion"]
    push = 744.0 * 1100 / 18e4
    assert named(found, "Tth") == pytest.approx(
        0.083 * sqrt(40) * 180000**2 / 1800 * sqrt(1 + push / (0.33 * sqrt(40))))  # fmt: skip
    assert "37.5°" in " ".join(s.what for w in found.workings for s in w.symbols)


def test_no_stirrups_at_all_cannot_bear_torsion():
    assert checks(twisted(300.0, stirrups=()), "torsion")["torsion"].ratio == float("inf")


def test_straight_loads_ask_for_no_torsion():
    assert not done(twisted(0.0), "torsion").checks

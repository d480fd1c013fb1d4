"""AASHTO LRFD by hand, its formulas *from memory*: common mistakes, limits of scope, sums in kips and inches."""

from __future__ import annotations

from dataclasses import replace
from math import pi, radians, sqrt, tan

import pytest
from tests.specimens import CONCRETE, FLAT, STRAND, bars, beam, stirrups, tendon, uniform

from soffit import read
from soffit.codes.verification import verify
from soffit.codes.working import POUND
from soffit.member.beam import Supports
from soffit.member.verifying import Verifying
from soffit.section.outline import rectangle

INCH = 25.4
KIP = 1000.0 * POUND
KSI = KIP / INCH**2
L = 240.0 * INCH
GRADE60 = replace(FLAT, modulus=29000.0 * KSI, yield_strength=60.0 * KSI, tensile=90.0 * KSI)
C4 = replace(CONCRETE, specified=4.0 * KSI, strength=4.0 * KSI + 8.0, max_aggregate=0.75 * INCH, density=2400.0)
AS = 4.0 * pi / 4.0
"""Four bars of an inch, in²."""


def made(load=30.0, spacing=6.0, **more):
    """12 × 24 in with four bars of 1 in at 21.5 in, stirrups of 0.5 in, f'c 4 ksi, 20 ft span."""
    links = (stirrups(L, 0.5 * INCH, spacing * INCH, steel=GRADE60),) if spacing else ()
    more = {
        "concrete": C4, "bars": (bars(4, INCH, 2.5 * INCH, L, GRADE60),), "stirrups": links,
        "loads": (uniform(L, load),), "supports": Supports((0.0, L)),
    } | more  # fmt: skip
    return beam(L, more.pop("outline", rectangle(12.0 * INCH, 24.0 * INCH)), **more)


def found(checked, key):
    return next(c for c in checked.checks if c.key == key)


def value(check, name):
    return next(w.value for w in check.workings if w.name == name)


def test_bending_of_a_rectangle_in_kips_and_inches():
    check = found(verify(made(), "aashto-lrfd"), "flexure-sagging")
    a = AS * 60.0 / (0.85 * 4.0 * 12.0)
    assert check.resistance.value == pytest.approx(0.9 * AS * 60.0 * (21.5 - a / 2) * KIP * INCH, rel=1e-6)
    assert check.demand.value == pytest.approx(1.75 * 30.0 * L**2 / 8.0, rel=1e-9)


def test_shear_of_a_rectangle_with_the_strain_at_the_steel_and_degrees():
    """Mistakes 24, 25, 28: εs to 6.0e-3, at the steel (750, 3500), θ in degrees; no cot θ in εs."""
    check = found(verify(made(), "aashto-lrfd"), "shear")
    x, w = check.x / INCH, 1.75 * 30.0 * INCH / KIP
    dv = max(0.9 * 21.5, 0.72 * 24.0)
    vu, mu = w * (120.0 - x), w * x * (240.0 - x) / 2.0
    strain = (max(mu, vu * dv) / dv + vu) / (29000.0 * AS)
    theta = radians(29.0 + 3500.0 * strain)
    vc = 0.0316 * 4.8 / (1.0 + 750.0 * strain) * 2.0 * 12.0 * dv
    vs = 2.0 * pi / 16.0 * 60.0 * dv / tan(theta) / 6.0
    assert value(check, "εs") == pytest.approx(strain, rel=1e-6)
    assert check.resistance.value == pytest.approx(0.9 * min(vc + vs, 0.25 * 4.0 * 12.0 * dv) * KIP, rel=1e-6)


def test_the_constant_of_the_root_is_that_of_ksi():
    """Mistake 12: 0.0316 is 1/√1000, for √f'c in ksi; in MPa it is 0.083."""
    check = found(verify(made(), "aashto-lrfd"), "shear")
    b, dv, beta = 12.0 * INCH, value(check, "dv"), value(check, "β")
    assert value(check, "Vc") == pytest.approx(0.0316 * sqrt(KSI) * beta * sqrt(C4.specified) * b * dv, rel=1e-9)
    assert 0.0316 * sqrt(KSI) == pytest.approx(0.083, rel=2e-3)


def test_the_greatest_strain_is_six_per_mille():
    check = found(verify(made(load=400.0, bars=(bars(1, 10.0, 60.0, L, GRADE60),)), "aashto-lrfd"), "shear")
    assert value(check, "εs") == 0.006
    assert value(check, "θ") == pytest.approx(radians(50.0), rel=1e-12)


def test_without_the_least_stirrups_the_spacing_of_cracks_counts():
    check = found(verify(made(spacing=0.0), "aashto-lrfd"), "shear")
    sxe = 0.9 * 21.5 * 1.38 / (0.75 + 0.63)
    assert value(check, "sxe") == pytest.approx(sxe * INCH, rel=1e-9)
    strain = value(check, "εs")
    assert value(check, "β") == pytest.approx(4.8 / (1 + 750 * strain) * 51 / (39 + sxe), rel=1e-9)


def test_cracks_are_fewer_than_twelve_inches_apart_at_least():
    small = made(spacing=0.0, outline=rectangle(12.0 * INCH, 10.0 * INCH), load=4.0)
    assert value(found(verify(small, "aashto-lrfd"), "shear"), "sxe") == pytest.approx(12.0 * INCH)


def test_the_longitudinal_tie_at_the_bearing():
    check = next(c for c in verify(made(load=60.0), "aashto-lrfd", ("tie",)).checks)
    assert check.key in ("tie-end", "tie-along")
    if check.key == "tie-end":
        vu, vs, theta = value(check, "Vu"), value(check, "Vs"), value(check, "θ")
        assert check.demand.value == pytest.approx((vu / 0.9 - 0.5 * min(vs, vu / 0.9)) / tan(theta), rel=1e-9)


def test_least_steel_with_the_factors_of_today():
    """Mistake 26: γ1 is 1.6, not 1.56; γ3 = fy/fu, 0.67 for Grade 60 that breaks at 90 ksi."""
    check = found(verify(made(), "aashto-lrfd"), "min-steel-sagging")
    mcr = 60.0 / 90.0 if 60.0 / 90.0 > 0.67 else 0.67
    expected = mcr * 1.6 * 0.24 * 2.0 * 12.0 * 24.0**2 / 6.0
    assert value(check, "Mcr") == pytest.approx(expected * KIP * INCH, rel=1e-9)


@pytest.mark.parametrize(("bonded", "most"), [(True, 1.0), (False, 0.9)])
def test_the_resistance_factor_of_bonded_and_unbonded_tendons(bonded, most):
    more = {"when": "after curing", "bond": "bonded" if bonded else "unbonded", "steel": STRAND}
    t = tendon(400.0, 80.0, L, 1100.0, **more)
    check = found(verify(made(bars=(), tendons=(t,)), "aashto-lrfd"), "flexure-sagging")
    assert value(check, "φ") == most


def pretensioned(stress=1200.0, **more):
    t = tendon(560.0, 100.0, L, stress, when="before casting", bond="bonded", diameter=15.2, count=4,
               stress_is="at the jack", long_term_loss=0.1)  # fmt: skip
    early = replace(C4, specified=6.0 * KSI, strength=6.0 * KSI + 8.0, strength_at_transfer=4.0 * KSI)
    return made(bars=(), tendons=(t,), concrete=early, **more)


def test_transfer_length_is_sixty_diameters():
    """Mistake 27: 60 diameters here, 50 in ACI 318."""
    checked = verify(pretensioned(load=3.0), "aashto-lrfd", ("tie",))
    for check in checked.checks:
        for w in check.workings:
            assert w.name != "lt1" or w.value == pytest.approx(60.0 * 15.2)


def test_transfer_limit_is_that_of_2016():
    check = found(verify(pretensioned(), "aashto-lrfd", ("stress",)), "stress-transfer-compression")
    assert check.resistance.value == pytest.approx(0.65 * 4.0 * KSI, rel=1e-9)


def test_stress_of_service_iii_by_hand():
    check = found(verify(pretensioned(load=55.0), "aashto-lrfd", ("stress",)), "stress-tension-sagging")
    p, b, h = value(check, "P"), 12.0 * INCH, 24.0 * INCH
    m = 0.8 * 55.0 * L**2 / 8.0
    stress = -p / (b * h) + (m - p * (h / 2 - 100.0)) * 6.0 / (b * h**2)
    assert check.demand.value == pytest.approx(max(stress, 0.0), rel=1e-6)
    assert check.demand.value > 0.0


def test_severe_exposure_halves_the_tension():
    b = pretensioned(load=20.0, verifying=Verifying(exposure=("XD1",)))
    check = found(verify(b, "aashto-lrfd", ("stress",)), "stress-tension-sagging")
    assert check.resistance.value == pytest.approx(min(0.0948 * sqrt(6.0), 0.3) * KSI, rel=1e-9)


def test_interface_of_the_girder_by_hand():
    checked = verify(read("examples/alder-weir-girder.toml"), "aashto-lrfd", ("interface",))
    check = found(checked, "interface-shear")
    de = next(s.value for w in check.workings for s in w.symbols if s.name == "de")
    stress = check.demand.value
    assert stress == pytest.approx(value(check, "Vu") / (450.0 * (de - 75.0)), rel=1e-9)
    spacing = 150.0
    steel = 2.0 * pi * 25.0 * min(500.0, 60.0 * KSI) / (450.0 * spacing)
    assert check.resistance.value == pytest.approx(0.9 * min(0.28 * KSI + steel, 0.3 * 35.0, 1.8 * KSI), rel=1e-6)


def test_the_girder_comes_out_complete():
    checked = verify(read("examples/alder-weir-girder.toml"), "aashto-lrfd")
    kinds = {c.key for c in checked.checks}
    assert {
        "flexure-sagging", "flexure-approximate-sagging", "min-steel-sagging", "shear", "tie-end", "interface-shear",
        "stress-transfer-compression", "stress-permanent-sagging", "stress-total-sagging", "stress-slab-total",
        "stress-tension-sagging", "stress-tendons-service", "sagging", "ends-splitting", "development-strand",
        "cover-bars",
    } <= kinds  # fmt: skip
    assert {u.title for u in checked.unchecked} == {"fire", "lateral stability", "fatigue"}
    assert all(0.0 <= c.ratio < 20.0 for c in checked.checks)


def test_torsion_that_counts_wants_stirrups_and_bars():
    load = replace(uniform(L, 20.0), eccentricity=300.0)
    checked = verify(made(loads=(load,)), "aashto-lrfd", ("torsion",))
    check = found(checked, "torsion-stirrups")
    # 0.126 √4 Acp²/pc, K = 1
    tcr = 0.126 * 2.0 * (12.0 * 24.0) ** 2 / 72.0
    assert value(found(checked, "torsion-threshold"), "Tcr") == pytest.approx(tcr * KIP * INCH, rel=1e-9)
    assert value(check, "Tu") == pytest.approx(1.75 * 20.0 * 300.0 * (L / 2 - check.x), rel=1e-6)
    assert found(checked, "torsion-bars").demand.value > 0.0


def test_spacing_of_bars_against_cracks_by_hand():
    check = found(verify(made(load=60.0), "aashto-lrfd", ("cracks",)), "cracks-sagging")
    fss, beta = value(check, "fss") / KSI, 1.0 + 2.5 / (0.7 * 21.5)
    assert check.resistance.value == pytest.approx((700.0 / (beta * fss) - 2.0 * 2.5) * INCH, rel=1e-6)
    assert fss == pytest.approx(36.0, rel=1e-9)  # 0.6 fy


def test_deflection_of_live_load_by_branson():
    check = found(verify(made(load=20.0), "aashto-lrfd", ("sagging",)), "sagging")
    ec = 120000.0 * (2400.0 / 16018.463) ** 2 * 4.0**0.33 * KSI
    ig = 12.0 * 24.0**3 / 12.0 * INCH**4
    # the curvature is taken straight between 41 stations, which gives 0.8/40² less
    assert value(check, "Δg") == pytest.approx(5.0 * 20.0 * L**4 / (384.0 * ec * ig), rel=6e-4)
    mcr, ma = 0.24 * 2.0 * 12.0 * 24.0**2 / 6.0 * KIP * INCH, 20.0 * L**2 / 8.0
    icr = next(s.value for w in check.workings for s in w.symbols if s.name == "Icr")
    assert value(check, "Ie") == pytest.approx((mcr / ma) ** 3 * ig + (1.0 - (mcr / ma) ** 3) * icr, rel=1e-6)


@pytest.mark.parametrize(("ksi", "why"), [
    (2.3, "f'c of 2.30 ksi lies below the 2.4 ksi of structural concrete"),
    (15.5, "f'c of 15.50 ksi lies above the 15.0 ksi up to which the articles hold"),
])  # fmt: skip
def test_concrete_outside_the_scope_gives_no_number(ksi, why):
    odd = replace(C4, specified=ksi * KSI, strength=ksi * KSI + 8.0)
    checked = verify(made(concrete=odd), "aashto-lrfd")
    assert checked.checks == ()
    assert [u.why for u in checked.unchecked] == [why]
    assert checked.unchecked[0].scope


def test_plain_concrete_is_refused():
    checked = verify(made(bars=()), "aashto-lrfd")
    assert checked.checks == ()
    assert checked.unchecked[0].why == (
        "the beam has neither bars nor tendons, and beams of plain concrete are not in AASHTO LRFD"
    )

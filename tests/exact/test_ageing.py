"""Ageing against closed forms and hand values; the common mistakes of the trade, each by its name."""

from __future__ import annotations

from math import exp, log, log10, sqrt

import numpy as np
import pytest

from soffit.materials import standards
from soffit.materials.ageing import cement, en1992, models, relaxation
from soffit.materials.ageing.aashto import KSI, Aashto
from soffit.materials.ageing.aci209 import Aci209
from soffit.materials.ageing.casting import Casting
from soffit.materials.ageing.en1992 import En1992
from soffit.materials.ageing.mc2010 import Mc2010

EN = En1992(38.0, 50.0, 300.0)
CAST = Casting(38.0, 50.0, 300.0, specified=30.0)
NEVER = 1e12
HOUR = 1.0 / 24.0


# --- EN 1992-1-1 -----------------------------------------------------------------------------------------------------


def test_en_creep_by_hand() -> None:
    """φ(∞, 28) of C20/25 (fcm 28 < 35: no α), RH 50, h0 200; written out with the root under 16.8."""
    humid = 1 + 0.5 / (0.1 * 200 ** (1 / 3))
    by_hand = humid * 16.8 / sqrt(28.0) / (0.1 + 28**0.2)
    assert En1992(28.0, 50.0, 200.0).creep(NEVER, 28.0) == pytest.approx(by_hand, rel=1e-6)


@pytest.mark.parametrize("strength", [20.0, 28.0, 34.9])
def test_mistake_13_alpha_only_above_35(strength: float) -> None:
    """Used below 35 MPa, the α would raise φRH above 1 + (1 − RH)/(0.1 h0^⅓)."""
    assert en1992.humidity_factor(strength, 50.0, 300.0) == pytest.approx(1 + 0.5 / (0.1 * 300 ** (1 / 3)))
    assert en1992.humidity_factor(60.0, 50.0, 300.0) < 1 + 0.5 / (0.1 * 300 ** (1 / 3))


def test_mistake_13_humidity_in_per_cent() -> None:
    """0.012 RH is 0.6 at 50 % and 1.2 at 100 %, where the bracket is 26.6 and the bound of 1500 days governs."""
    assert en1992.time_constant(30.0, 50.0, 300.0) == pytest.approx(1.5 * (1 + 0.6**18) * 300 + 250)
    assert en1992.time_constant(30.0, 100.0, 300.0) == 1500.0
    with pytest.raises(ValueError, match=r"wanted in per cent: 50, not 0\.5"):
        En1992(38.0, 0.5, 300.0)


def test_mistake_13_creep_refers_to_the_tangent_modulus() -> None:
    """J is 1/Ec(t0) + φ/Ec with Ec = 1.05 Ecm at 28 days, also when the load comes at 7 days."""
    ecm = standards.en_secant_modulus(38.0)
    creep_strain = EN.compliance(3000.0, 7.0) - 1.0 / EN.modulus(7.0)
    assert creep_strain == pytest.approx(EN.creep(3000.0, 7.0) / (1.05 * ecm), rel=1e-12)
    assert EN.secant_modulus(28.0) == pytest.approx(ecm)
    assert EN.modulus(7.0) / EN.modulus(28.0) == pytest.approx(EN.gain(7.0) ** 0.3)


def test_mistake_14_drying_time_terms() -> None:
    """Half of the drying after 0.04 √(h0³) days in EN; after 0.035 h²/3 days in MC 2010, under its root."""
    en, mc = En1992(38.0, 50.0, 300.0, drying_from=3.0), Mc2010(38.0, 50.0, 300.0, drying_from=3.0)
    assert en.drying(3.0 + 0.04 * sqrt(300.0**3)) == pytest.approx(0.5 * en.drying(NEVER), rel=1e-9)
    assert mc.drying(3.0 + 0.035 * 300.0**2 / 3) == pytest.approx(0.5 * mc.drying(NEVER), rel=1e-6)


def test_en_size_factor_of_drying() -> None:
    """kh 1.0, 0.85, 0.75, 0.70 at h0 100, 200, 300, 500 mm; straight between, held outside."""
    whole = en1992.nominal_drying(38.0, 50.0, "N")
    for size, factor in ((50, 1.0), (100, 1.0), (150, 0.925), (200, 0.85), (300, 0.75), (400, 0.725), (900, 0.70)):
        assert En1992(38.0, 50.0, float(size)).drying(NEVER) == pytest.approx(factor * whole, rel=1e-5)


def test_en_autogenous_and_characteristic_strength() -> None:
    assert EN.autogenous(NEVER) == pytest.approx(2.5e-6 * 20.0)
    assert EN.autogenous(25.0) == pytest.approx(50e-6 * (1 - exp(-1.0)))
    assert En1992(18.0, 50.0, 300.0).autogenous(100.0) == 0.0  # fck = 10
    age = np.array([1.0, 14.0, 28.0, 365.0])
    assert EN.characteristic(age) == pytest.approx(np.clip(EN.strength(age) - 8.0, 0.0, 30.0))
    assert EN.characteristic(365.0) == 30.0 < EN.strength(365.0) - 8.0


def test_en_nonlinear_creep_from_045_of_the_characteristic_strength() -> None:
    linear, at = EN.creep(1000.0, 28.0), 0.45 * 30.0
    assert EN.creep(1000.0, 28.0, at) == pytest.approx(linear)
    assert EN.creep(1000.0, 28.0, 0.6 * 30.0) == pytest.approx(linear * exp(1.5 * 0.15))
    assert "above 0.45" in EN.remarks(28.0, 0.6 * 30.0)[0]
    assert EN.remarks(28.0, 0.44 * 30.0) == ()


def test_adjusted_age_serves_the_age_factor_alone() -> None:
    """N leaves the age, R ages, S makes younger, never below half a day; the growth under load is that of real days."""
    assert cement.adjusted_age(7.0, "N") == 7.0
    assert cement.adjusted_age(7.0, "R") == pytest.approx(7.0 * (9 / (2 + 7**1.2) + 1))
    assert cement.adjusted_age(7.0, "S") == pytest.approx(7.0 / (9 / (2 + 7**1.2) + 1))
    assert cement.adjusted_age(0.5, "S") == 0.5
    days = np.array([10.0, 100.0, 1000.0])
    growth = [En1992(38.0, 50.0, 300.0, c).creep(7.0 + days, 7.0) for c in "SNR"]
    for one in growth:
        assert one / one[-1] == pytest.approx(growth[0] / growth[0][-1])
    warm = EN.creep(8.0, 1.0, effective_age=5.0)
    assert warm / EN.creep(8.0, 1.0) == pytest.approx((0.1 + 1.0) / (0.1 + 5.0**0.2))


def test_strength_gain_is_the_one_that_derives_properties() -> None:
    for kind in "SNR":
        ours = cement.gain(7.0, cement.en_coefficient(kind))
        assert ours == pytest.approx(standards.en_gain(7.0, kind))
    assert Mc2010(70.0, 50.0, 300.0, "S").gain(7.0) == pytest.approx(exp(-0.20))
    assert EN.tensile(7.0) == pytest.approx(EN.gain(7.0) * EN.tensile(28.0))
    assert EN.tensile(365.0) == pytest.approx(EN.gain(365.0) ** (2 / 3) * EN.tensile(28.0))


# --- fib Model Code 2010 ---------------------------------------------------------------------------------------------


def test_mc_basic_creep_is_logarithmic_without_a_bound() -> None:
    """Late decades each add the same 1.8 ln 10/fcm^0.7; at 100 % humidity nothing else is left."""
    sealed = Mc2010(38.0, 100.0, 300.0)
    decade = 1.8 * log(10.0) / 38.0**0.7
    assert sealed.creep(28.0 + 1e6, 28.0) - sealed.creep(28.0 + 1e5, 28.0) == pytest.approx(decade, rel=1e-4)


def test_mc_moduli_and_nonlinear_creep() -> None:
    mc = Mc2010(38.0, 50.0, 300.0)
    assert mc.modulus(28.0) == pytest.approx(21500 * 3.8 ** (1 / 3))
    assert mc.modulus(7.0) / mc.modulus(28.0) == pytest.approx(sqrt(mc.gain(7.0)))
    assert mc.creep(999.0, 28.0, 0.55 * 38.0) / mc.creep(999.0, 28.0) == pytest.approx(exp(1.5 * 0.15))
    assert mc.remarks(28.0, 0.39 * 38.0) == ()
    assert len(mc.remarks(28.0, 0.7 * 38.0)) == 2
    assert Mc2010(38.0, 100.0, 300.0).drying(999.0) < 0.0  # it swells
    assert mc.autogenous(NEVER) == pytest.approx(700e-6 * (3.8 / 9.8) ** 2.5)


# --- relaxation ------------------------------------------------------------------------------------------------------


def test_mistake_15_days_per_cent_and_the_value_at_07() -> None:
    """1000 h are 41.7 days; class 2 at μ = 0.7 gives 0.96 %, not 2.5 %, 3.9 % at the end; ρ1000 is in per cent."""
    thousand = 1000.0 * HOUR
    assert relaxation.en1992(thousand, 0.7, "low relaxation") == pytest.approx(0.66 * 2.5 * exp(6.37) * 1e-5)
    assert relaxation.en1992(thousand, 0.7, "low relaxation") == pytest.approx(0.0096, abs=0.00005)
    assert relaxation.en1992(500000 * HOUR, 0.7, "low relaxation") == pytest.approx(0.039, abs=0.0005)
    assert relaxation.en1992(500000 * HOUR, 0.75, "low relaxation") == pytest.approx(0.049, abs=0.0005)
    assert relaxation.en1992(1e9, 0.7, "bar") == relaxation.en1992(500000 * HOUR, 0.7, "bar")
    with pytest.raises(ValueError, match="in per cent"):
        relaxation.en1992(10.0, 0.7, "low relaxation", rho=0.025)


def test_relaxation_elsewhere() -> None:
    assert relaxation.mc2010(1000.0 * HOUR, np.array([0.5, 0.65, 0.7, 0.8]), "low relaxation") == pytest.approx(
        [0.0, 0.0175, 0.025, 0.045]
    )
    assert relaxation.mc2010(1000.0 * HOUR, 0.7, "low relaxation", 2.0) == pytest.approx(0.02)
    half_century = relaxation.mc2010(50 * 365.25, 0.7, "low relaxation") / 0.025
    assert half_century == pytest.approx(3.0, rel=0.07)  # "about three times the value at 1000 hours"
    assert relaxation.us(1000.0 * HOUR, 0.75, "low relaxation") == pytest.approx(3 / 45 * (0.75 / 0.9 - 0.55))
    assert relaxation.us(1000.0 * HOUR, 0.75, "ordinary") == pytest.approx(3 / 10 * (0.75 / 0.85 - 0.55))
    assert relaxation.us(NEVER, 0.54 * 0.9, "low relaxation") == 0.0
    assert relaxation.us(0.5 * HOUR, 0.75, "low relaxation") == 0.0
    assert relaxation.us(30.0, 0.75, "low relaxation") == pytest.approx(log10(720) / 45 * (0.75 / 0.9 - 0.55))
    for formula in (relaxation.us, relaxation.mc2010):
        with pytest.raises(ValueError, match=r"use .*EN 1992-1-1"):
            formula(10.0, 0.7, "bar")


# --- the registry and bad input --------------------------------------------------------------------------------------


def test_registry() -> None:
    found = models.all_models(CAST)
    assert list(found) == ["EN 1992-1-1", "ACI 209R", "MC 2010", "AASHTO LRFD"]
    assert models.model("EN 1992-1-1:2004", CAST) == found["EN 1992-1-1"]
    assert models.model("aci 209r-92", CAST) == found["ACI 209R"]
    with pytest.raises(ValueError, match=r"'BS 8110'.*EN 1992-1-1, ACI 209R, MC 2010, AASHTO LRFD"):
        models.model("BS 8110", CAST)


def test_casting_gives_each_model_its_own_inputs() -> None:
    cast = Casting(50.0, 60.0, 200.0, "R", 1.0, 1.0, 42.0, 32.0, 1.0, "ordinary")
    found = models.all_models(cast)
    assert found["EN 1992-1-1"] == En1992(50.0, 60.0, 200.0, "R", 1.0, steel="ordinary")
    assert found["MC 2010"] == Mc2010(50.0, 60.0, 200.0, "R", 1.0, steel="ordinary")
    assert found["ACI 209R"] == Aci209(50.0, 60.0, 100.0, "III", "steam", 1.0, steel="ordinary")
    assert found["AASHTO LRFD"] == Aashto(42.0, 60.0, 100.0, 1.0, 32.0, 1.0, 1.0, steel="ordinary")
    assert Casting(38.0, 50.0, 300.0).ordered == 30.0


def test_notes_outside_the_range() -> None:
    assert En1992(38.0, 50.0, 300.0).notes == ()
    assert "30 % is outside 40 to 100 %" in En1992(38.0, 30.0, 300.0).notes[0]
    assert "110 MPa is outside 20 to 98 MPa" in En1992(110.0, 50.0, 300.0).notes[0]
    assert any("slump" in n for n in Aci209(38.0, 50.0, 60.0).notes)
    assert Aci209(38.0, 50.0, 60.0, slump=75.0, fines=40.0, air=2.0, cement_content=350.0).notes == ()
    assert "from an age of 7 d on: at 3 days" in Aci209(38.0, 50.0, 60.0).remarks(3.0)[0]
    assert any("0.80 f'c" in n for n in Aashto(38.0, 50.0, 60.0).notes)
    assert any("outside 0 to 152.4 mm" in n for n in Aashto(38.0, 50.0, 200.0).notes)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: En1992(float("nan"), 50.0, 300.0), "mean strength is nan"),
        (lambda: En1992(38.0, 101.0, 300.0), "relative humidity is 101 %"),
        (lambda: En1992(38.0, 50.0, 0.0), "notional size is 0 mm"),
        (lambda: En1992(38.0, 50.0, 300.0, "X"), "no cement class 'X': choose one of S, N, R"),
        (lambda: Mc2010(38.0, 50.0, 300.0, drying_from=0.0), "drying begins is 0 days"),
        (lambda: Mc2010(38.0, 50.0, 300.0, aggregate="slag"), "no aggregate 'slag'"),
        (lambda: Aci209(38.0, 50.0, 60.0, cement="II"), "no cement type 'II'"),
        (lambda: Aci209(38.0, 50.0, 60.0, air=-1.0), "air content is -1 %"),
        (lambda: Aashto(38.0, 50.0, 60.0, transfer_strength=30.0), "wanted together"),
        (lambda: Aashto(38.0, 50.0, 60.0, transfer_strength=40.0, transfer_age=1.0), "strength at transfer is 40 MPa"),
        (lambda: Aashto(38.0, 50.0, 60.0, edition="1998"), "choose one of 2015 on, before 2015"),
        (lambda: Casting(38.0, 50.0, 300.0, steel="rope"), "no tendon steel 'rope'"),
        (lambda: EN.strength(0.0), "positive number of days"),
        (lambda: EN.drying(np.array([1.0, np.nan])), "positive number of days"),
        (lambda: EN.creep(10.0, 0.05), "meets no hard concrete"),
        (lambda: EN.creep(1000.0, 28.0, 31.0), "cannot be put on a concrete whose strength counts as 30.0 MPa"),
        (lambda: EN.creep(1000.0, 28.0, -5.0), "zero or above"),
        (lambda: Aci209(38.0, 50.0, 60.0).compliance(99.0, 2.0, effective_age=9.0), 'by curing="steam"'),
        (lambda: Aashto(38.0, 50.0, 60.0).creep(99.0, 2.0, effective_age=9.0), "by heat_days"),
        (lambda: EN.relaxation(-1.0, 0.7), "time since stressing"),
        (lambda: EN.relaxation(1.0, 1.0), "between zero and the tensile strength"),
    ],
)
def test_nonsense_is_refused_in_one_sentence(make, says: str) -> None:
    with pytest.raises(ValueError) as caught:
        make()
    assert says in str(caught.value)


def test_en_strong_concrete_by_hand() -> None:
    """C60/75, RH 60, h0 250, loaded at 14 days: α1 to α3 all count."""
    a1, a2, a3 = ((35 / 68) ** p for p in (0.7, 0.2, 0.5))
    humid = (1 + a1 * 0.4 / (0.1 * 250 ** (1 / 3))) * a2
    late = 1.5 * (1 + (0.012 * 60) ** 18) * 250 + 250 * a3
    by_hand = humid * 16.8 / sqrt(68.0) / (0.1 + 14**0.2) * (1000 / (late + 1000)) ** 0.3
    assert En1992(68.0, 60.0, 250.0).creep(1014.0, 14.0) == pytest.approx(by_hand, rel=1e-12)
    assert En1992(68.0, 100.0, 2000.0).creep(NEVER, 28.0) == pytest.approx(a2 * 16.8 / sqrt(68) / (0.1 + 28**0.2))
    assert en1992.time_constant(68.0, 100.0, 2000.0) == pytest.approx(1500 * a3)


def test_mc_strong_concrete_by_hand() -> None:
    """fcm 68, RH 60, h 250, 1000 days under load from 14 days."""
    basic = 1.8 / 68**0.7 * log((30 / 14 + 0.035) ** 2 * 1000 + 1)
    late = 1.5 * 250 + 250 * sqrt(35 / 68)
    power = 1 / (2.3 + 3.5 / sqrt(14))
    dry = 412 / 68**1.4 * 0.4 / 0.25 ** (1 / 3) / (0.1 + 14**0.2) * (1000 / (late + 1000)) ** power
    assert Mc2010(68.0, 60.0, 250.0).creep(1014.0, 14.0) == pytest.approx(basic + dry, rel=1e-12)
    # so massive that the bound of βh governs
    massive, bound = Mc2010(68.0, 60.0, 2000.0), 1500 * sqrt(35 / 68)
    dry *= (250 / 2000) ** (1 / 3) * ((late + 1000) / (bound + 1000)) ** power
    assert massive.creep(1014.0, 14.0) == pytest.approx(basic + dry, rel=1e-12)


@pytest.mark.parametrize(
    ("kind", "en", "mc", "basic"),
    [
        ("S", (550, 0.13), (550, 0.013), 800),
        ("N", (660, 0.12), (660, 0.012), 700),
        ("R", (880, 0.11), (880, 0.012), 600),
    ],
)
def test_shrinkage_of_every_cement(kind: str, en: tuple, mc: tuple, basic: int) -> None:
    """220 + 110 αds1 is 550, 660, 880 for S, N, R."""
    dry = 1.55 * (1 - 0.5**3)
    en_whole = 0.85 * en[0] * exp(-en[1] * 3.8) * 1e-6 * dry * 0.75
    assert En1992(38.0, 50.0, 300.0, kind).drying(NEVER) == pytest.approx(en_whole, rel=1e-6)
    model = Mc2010(38.0, 50.0, 300.0, kind)
    assert model.drying(NEVER) == pytest.approx(mc[0] * exp(-mc[1] * 38) * 1e-6 * dry, rel=1e-6)
    assert model.autogenous(NEVER) == pytest.approx(basic * 1e-6 * (3.8 / 9.8) ** 2.5)


def test_mc_swelling_begins_at_a_humidity_that_falls_with_strength() -> None:
    """99 (35/80)^0.1 = 91.1 %; beyond it a quarter of the whole, as a lengthening; 99 % up to 35 MPa."""
    whole = 660 * exp(-0.012 * 80) * 1e-6
    assert Mc2010(80.0, 91.2, 300.0).drying(NEVER) == pytest.approx(-0.25 * whole, rel=1e-6)
    assert Mc2010(80.0, 91.0, 300.0).drying(NEVER) == pytest.approx(1.55 * (1 - 0.91**3) * whole, rel=1e-6)
    assert Mc2010(30.0, 98.9, 300.0).drying(500.0) > 0.0 > Mc2010(30.0, 99.1, 300.0).drying(500.0)


def test_mc_with_age_and_outside_its_ranges() -> None:
    mc = Mc2010(38.0, 50.0, 300.0)
    assert mc.tensile(7.0) == pytest.approx(mc.gain(7.0) * mc.tensile(28.0))
    assert mc.tensile(365.0) == pytest.approx(mc.gain(365.0) ** (2 / 3) * mc.tensile(28.0))
    assert mc.tensile(27.9) < mc.tensile(28.0) < mc.tensile(28.1)
    assert "131 MPa is outside 20 to 130 MPa" in Mc2010(131.0, 50.0, 300.0).notes[0]
    assert "39 % is outside 40 to 100 %" in Mc2010(38.0, 39.0, 300.0).notes[0]
    assert [len(mc.remarks(28.0, share * 38.0)) for share in (0.39, 0.41, 0.59, 0.61)] == [0, 1, 1, 2]
    assert Mc2010(61.0, 50.0, 300.0, "S").gain(7.0) > Mc2010(60.0, 50.0, 300.0, "S").gain(7.0)


@pytest.mark.parametrize(("aggregate", "factor"), [("limestone", 0.9), ("sandstone", 0.7), ("basalt", 1.2)])
def test_aggregate(aggregate: str, factor: float) -> None:
    for kind in (En1992, Mc2010):
        plain, other = kind(38.0, 50.0, 300.0), kind(38.0, 50.0, 300.0, aggregate=aggregate)
        assert other.modulus(28.0) == pytest.approx(factor * plain.modulus(28.0))
        assert other.creep(999.0, 28.0) == plain.creep(999.0, 28.0)


@pytest.mark.parametrize(
    ("steel", "k1", "k2", "rho"), [("ordinary", 5.39, 6.7, 8), ("low relaxation", 0.66, 9.1, 2.5), ("bar", 1.98, 8, 4)]
)
def test_relaxation_classes_of_en(steel: str, k1: float, k2: float, rho: float) -> None:
    by_hand = k1 * rho * exp(k2 * 0.75) * 20 ** (0.75 * 0.25) * 1e-5
    assert relaxation.en1992(20000.0 * HOUR, 0.75, steel) == pytest.approx(by_hand)


def test_relaxation_of_ordinary_steel_by_mc() -> None:
    lost = relaxation.mc2010(20000.0 * HOUR, np.array([0.6, 0.7, 0.8, 0.9]), "ordinary")
    assert lost == pytest.approx(np.array([0.04, 0.08, 0.12, 0.16]) * 20**0.12)


def test_defaults() -> None:
    """Seven days of curing wherever the end of curing is not given."""
    for model in (EN, Mc2010(38.0, 50.0, 300.0), Aci209(38.0, 50.0, 150.0), Aashto(38.0, 50.0, 150.0)):
        assert model.drying(7.0) == 0.0 < model.drying(7.01)


@pytest.mark.parametrize(
    ("inside", "outside"),
    [
        (Aci209(38.0, 40.0, 60.0), Aci209(38.0, 39.0, 60.0)),
        (Aci209(38.0, 50.0, 60.0, drying_from=90.0), Aci209(38.0, 50.0, 60.0, drying_from=91.0)),
        (Aashto(38.0, 35.0, 60.0), Aashto(38.0, 34.0, 60.0)),
        (Aashto(4.01 * KSI, 50.0, 60.0), Aashto(3.99 * KSI, 50.0, 60.0)),
        (Aashto(14.9 * KSI, 50.0, 60.0), Aashto(15.1 * KSI, 50.0, 60.0)),
        (Aashto(38.0, 50.0, 152.0), Aashto(38.0, 50.0, 153.0)),
        (En1992(98.0, 50.0, 300.0), En1992(98.5, 50.0, 300.0)),
        (En1992(20.0, 50.0, 300.0), En1992(19.5, 50.0, 300.0)),
    ],
)
def test_the_ends_of_the_ranges(inside, outside) -> None:
    assert not any("extrapolated" in n for n in inside.notes)
    assert sum("extrapolated" in n for n in outside.notes) == 1

"""ACI 209R-92 and AASHTO LRFD against closed forms and hand values; the common mistakes, each by its name."""

from __future__ import annotations

from math import exp, sqrt

import numpy as np
import pytest

from soffit.materials.ageing import aashto_losses
from soffit.materials.ageing.aashto import INCH, KSI, Aashto
from soffit.materials.ageing.aci209 import PCF, Aci209
from soffit.materials.standards import PSI

NEVER = 1e12


def test_aci_standard_conditions_give_factors_of_one() -> None:
    """RH 40 %, V/S 1.5 in, slump 2.7 in, half fines, 6 % air: every factor is 1 within its printed figures.

    The factors are from memory: that they close in one place is a check that no constant was misremembered.
    """
    m = Aci209(30.0, 40.0, 1.5 * INCH, slump=2.7 * INCH, fines=50.0, air=6.0)
    assert m.creep_factor == pytest.approx(1.0, abs=0.006)
    assert m.shrinkage_factor == pytest.approx(1.0, abs=0.006)
    assert m.age_factor(7.0) == pytest.approx(1.0, abs=0.01)
    assert Aci209(30.0, 40.0, 40.0, curing="steam").age_factor(3.0) == pytest.approx(1.02, abs=0.01)
    half = Aci209(30.0, 80.0, 40.0, fines=50.0), Aci209(30.0, 80.0001, 40.0, fines=50.0001)
    assert half[0].shrinkage_factor == pytest.approx(half[1].shrinkage_factor, rel=1e-4)  # both branches meet


def test_aci_growth_and_strength() -> None:
    m = Aci209(30.0, 40.0, 40.0)
    assert m.drying(7.0 + 35.0) == pytest.approx(0.5 * 780e-6 * m.shrinkage_factor)
    assert m.creep(7.0 + 10.0 ** (1 / 0.6), 7.0) == pytest.approx(0.5 * 2.35 * m.creep_factor * 1.25 * 7.0**-0.118)
    assert m.strength(7.0) / 30.0 == pytest.approx(0.70, abs=0.005)
    assert m.strength(28.0) / 30.0 == pytest.approx(1.007, abs=0.0005)
    steam = Aci209(30.0, 40.0, 40.0, curing="steam", drying_from=1.0)
    assert steam.drying(56.0) == pytest.approx(0.5 * 780e-6 * steam.shrinkage_factor)
    assert Aci209(30.0, 40.0, 40.0, drying_from=1.0).drying(NEVER) == pytest.approx(1.2 / 1.0 * m.drying(NEVER))
    # 4000 psi at 145 lb/ft³: Ec 3644 ksi, ft = 4.01 √f'c
    four = Aci209(4000.0 * PSI * 4 / 28 + 4000.0 * PSI * 0.85, 40.0, 40.0, density=145.0 * PCF)
    assert four.modulus(28.0) / KSI == pytest.approx(33 * 145**1.5 * sqrt(4000.0) / 1000.0)
    assert four.tensile(28.0) / PSI == pytest.approx(4.01 * sqrt(4000.0), rel=0.001)


def test_aci_and_aashto_refer_creep_to_the_modulus_at_loading() -> None:
    for m in (Aci209(30.0, 50.0, 60.0), Aashto(30.0, 50.0, 60.0)):
        assert m.compliance(500.0, 7.0) == pytest.approx((1 + m.creep(500.0, 7.0)) / m.modulus(7.0))
        assert m.creep_modulus(7.0) < m.modulus(28.0)


def test_mistake_26_the_strength_factor_is_that_of_2005() -> None:
    """kf = 5/(1 + f'ci) is 1 at 4 ksi; the old 1/(0.67 + f'c/9) gives 0.90 there."""
    assert Aashto(5.0 * KSI, 70.0, 90.0).strength_factor == pytest.approx(1.0)


def test_aashto_factors() -> None:
    """At H 70 %, f'ci 4 ksi, V/S of 3.5 in and more, all factors but those of time are 1 (shrinkage: 1.02)."""
    m = Aashto(5.0 * KSI, 70.0, 100.0)
    assert m.creep(NEVER, 1.0) == pytest.approx(1.9, rel=1e-6)
    assert m.drying(NEVER) == pytest.approx(1.02 * 0.48e-3)
    assert m.creep(NEVER, 28.0) == pytest.approx(1.9 * 28.0**-0.118)
    assert Aashto(5.0 * KSI, 70.0, 1.0 * INCH).size_factor == pytest.approx(1.32)
    half = 12.0 * (100 - 16) / 24.0
    assert m.creep(10.0 + half, 10.0) == pytest.approx(0.5 * m.creep(NEVER, 10.0))
    assert Aashto(5.0 * KSI, 70.0, 100.0, edition="before 2015").drying(7.0 + 45.0) == pytest.approx(0.51 * 0.48e-3)


def test_mistake_12_constants_of_ksi_are_used_in_ksi() -> None:
    """5 ksi, 0.145 kcf: Ec = 120000 · 0.145² · 5^0.33 = 4291 ksi, and f'ci enters kf in ksi."""
    m = Aashto(5.0 * KSI, 70.0, 100.0)
    assert m.modulus(28.0) / KSI == pytest.approx(120000 * 0.145**2 * 5**0.33, rel=1e-9)
    assert m.modulus(28.0) / KSI == pytest.approx(4291.0, abs=1.0)


def test_aashto_curing() -> None:
    """One day of heat counts as seven at loading; drying before five days of curing costs 20 %."""
    cold, warm = (Aashto(5.0 * KSI, 70.0, 90.0, drying_from=1.0, heat_days=d) for d in (0.0, 1.0))
    assert warm.creep(100.0, 1.0) / cold.creep(100.0, 1.0) == pytest.approx(7.0**-0.118)
    assert warm.creep(100.0, 10.0) / cold.creep(100.0, 10.0) == pytest.approx(1.6**-0.118)
    assert (cold.dries_early, warm.dries_early) == (True, False)
    assert cold.drying(500.0) == pytest.approx(1.2 * warm.drying(500.0))


def test_aashto_strength_goes_through_what_was_given() -> None:
    m = Aashto(45.0, 70.0, 90.0, transfer_strength=32.0, transfer_age=1.5)
    assert m.strength(np.array([1.5, 28.0])) == pytest.approx([32.0, 45.0])
    assert m.transfer == 32.0


def test_aashto_losses_in_their_limits() -> None:
    g = aashto_losses.Girder(4000.0, 5e5, 2e11, 700.0, 197000.0, 32000.0)
    none = aashto_losses.Girder(0.0, 5e5, 2e11, 700.0, 197000.0, 32000.0)
    assert none.restraint(1.5) == 1.0 > g.restraint(1.0) > g.restraint(2.0)
    # a centric tendon: the strain of steel and concrete together, by hand
    centric = aashto_losses.Girder(5000.0, 5e5, 2e11, 0.0, 200000.0, 40000.0)
    assert centric.restraint(2.0) == pytest.approx(1 / (1 + 5 * 0.01 * 2.4))
    assert aashto_losses.shrinkage_loss(3e-4, 197000.0, 1.0) == pytest.approx(59.1)
    assert aashto_losses.creep_loss(20.0, 6.0, 1.5, 0.8) == pytest.approx(144.0)
    whole = aashto_losses.creep_loss_after_deck(20.0, 6.0, 0.5, 0.0, 5.5, 0.6, 0.8)
    assert whole == pytest.approx(48.0)
    assert aashto_losses.creep_loss_after_deck(20.0, 6.0, 0.5, -10.0, 5.5, 0.6, 0.8) < whole
    # a deck that shrinks above stretches the strands below, unless they lie in the centroid
    assert aashto_losses.deck_shrinkage_gain(1e6, 1e6, 4e11, 900.0, 600.0, 0.0) == pytest.approx(1 - 1.35)
    assert aashto_losses.deck_shrinkage_gain(1e6, 1e6, 4e11, 0.0, 600.0, 1.0) == pytest.approx(1 / 1.7)
    assert aashto_losses.relaxation_loss(0.5 * 1676.0, 1676.0) == 0.0
    assert aashto_losses.relaxation_loss(1200.0, 1676.0, False) / aashto_losses.relaxation_loss(
        1200.0, 1676.0
    ) == pytest.approx(30 / 7)
    with pytest.raises(ValueError, match="yield stress"):
        aashto_losses.relaxation_loss(1700.0, 1676.0)


@pytest.mark.parametrize(
    ("kind", "curing", "a", "b"),
    [("I", "moist", 4.0, 0.85), ("I", "steam", 1.0, 0.95), ("III", "moist", 2.3, 0.92), ("III", "steam", 0.70, 0.98)],
)
def test_aci_strength_gain_of_every_cement(kind: str, curing: str, a: float, b: float) -> None:
    m = Aci209(30.0, 50.0, 60.0, kind, curing)
    assert m.strength(3.0) == pytest.approx(30.0 * 3 / (a + 3 * b))
    # type III and steam reach their 28-day strength within 1.5 % of what they are named for
    assert m.strength(28.0) == pytest.approx(30.0, rel=0.015)


def test_aci_density_in_pounds_a_cubic_foot() -> None:
    """2400 kg/m³ is 149.8 lb/ft³."""
    pcf = 2400.0 / 0.45359237 * 0.3048**3
    m = Aci209(30.0, 50.0, 60.0, density=2400.0)
    assert m.modulus(28.0) == pytest.approx(33 * pcf**1.5 * sqrt(m.strength(28.0) / PSI) * PSI, rel=1e-6)


def test_aci_curing_factor_of_shrinkage() -> None:
    """1.2, 1.1, 1.0, 0.93, 0.86, 0.75 for 1, 3, 7, 14, 28, 90 days of moist curing; none for steam."""
    final = {d: float(Aci209(30.0, 50.0, 60.0, drying_from=d).drying(NEVER)) for d in (1.0, 3.0, 7.0, 14.0, 28.0, 90.0)}
    assert [v / final[7.0] for v in final.values()] == pytest.approx([1.2, 1.1, 1.0, 0.93, 0.86, 0.75])
    assert Aci209(30.0, 50.0, 60.0, curing="steam", drying_from=1.0).drying(NEVER) == pytest.approx(final[7.0])


def test_aci_mix_factors_by_hand() -> None:
    """Slump 5 in, 60 % fines, 8 % air, 600 lb/yd³ (356 kg/m³), RH 90 %, V/S 3 in, steam, loaded at 2 days."""
    m = Aci209(
        30.0,
        90.0,
        76.2,
        curing="steam",
        slump=127.0,
        fines=60.0,
        air=8.0,
        cement_content=600 * 0.45359237 / 0.764554858,
    )
    creep = (1.27 - 0.603) * 2 / 3 * (1 + 1.13 * exp(-1.62)) * (0.82 + 0.335) * (0.88 + 0.144) * (0.46 + 0.72)
    shrink = 0.30 * 1.2 * exp(-0.36) * (0.89 + 0.205) * (0.90 + 0.12) * (0.95 + 0.064) * (0.75 + 0.216)
    assert m.creep_factor == pytest.approx(creep)
    assert m.shrinkage_factor == pytest.approx(shrink)
    assert m.age_factor(2.0) == pytest.approx(1.13 * 2**-0.094)
    assert Aci209(30.0, 90.0, 76.2, air=2.0).creep_factor == Aci209(30.0, 90.0, 76.2).creep_factor  # at least 1


def test_aashto_weight_tension_and_gain() -> None:
    """wc 0.145 to 5 ksi, 0.140 + 0.001 f'c above; 2400 kg/m³ is 0.1498 kcf; ft = 0.23 √f'c ksi."""
    assert [Aashto(f * KSI, 70.0, 90.0).weight for f in (4.9, 5.1, 10.0)] == pytest.approx([0.145, 0.1451, 0.150])
    assert Aashto(30.0, 70.0, 90.0, density=2400.0).weight == pytest.approx(2400 / 453.59237 * 0.3048**3, rel=1e-6)
    assert Aashto(4.0 * KSI, 70.0, 90.0).tensile(28.0) == pytest.approx(0.46 * KSI)
    assert Aashto(30.0, 70.0, 90.0).strength(7.0) / 30.0 == pytest.approx(7 / 9.95 * 27.8 / 28)
    assert [Aashto(30.0, 70.0, 90.0, drying_from=d).dries_early for d in (4.9, 5.0)] == [True, False]


@pytest.mark.parametrize("model", [Aci209(38.0, 50.0, 60.0), Aashto(38.0, 50.0, 60.0)], ids=lambda m: m.record.key)
def test_linear_models_say_where_creep_is_not(model: Aci209 | Aashto) -> None:
    limit = {"ACI 209R": 0.50, "AASHTO LRFD": 0.45}[model.record.key] * float(model.strength(28.0))
    assert model.remarks(28.0, 0.999 * limit) == ()
    assert "underestimated" in model.remarks(28.0, 1.001 * limit)[0]
    assert model.creep(999.0, 28.0, 1.5 * limit) == model.creep(999.0, 28.0)


def test_steam_cured_concrete_may_be_loaded_at_one_day() -> None:
    steam = Aci209(38.0, 50.0, 60.0, curing="steam", drying_from=1.0)
    assert steam.remarks(1.0) == ()
    assert "steam curing holds from an age of 1 d on" in steam.remarks(0.9)[0]

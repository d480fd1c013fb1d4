"""Every ageing model for the same concrete: the spread is printed, and each outlier is explained by name."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from soffit.materials.ageing import maturity as m
from soffit.materials.ageing.casting import Casting
from soffit.materials.ageing.models import MODELS, all_models
from soffit.materials.ageing.templog import temperature_log

C30 = Casting(38.0, 50.0, 300.0, specified=30.0)
YEARS = 365.25
LAST = 30 * YEARS
EN, ACI, MC, AASHTO = MODELS
PAGE = Path(__file__).parents[2] / "docs" / "theory" / "ageing.md"


def row(words: str, values: dict[str, float]) -> float:
    """Print one quantity by model, and give the largest over the least."""
    least, most = min(values.values()), max(values.values())
    print(f"{words}: " + ", ".join(f"{k} {v:.4g}" for k, v in values.items()) + f"; spread {most / least:.2f}")
    return most / least


@pytest.mark.parametrize("humidity", [50.0, 80.0])
@pytest.mark.parametrize("loaded", [7.0, 28.0])
def test_compliance_after_thirty_years(humidity: float, loaded: float) -> None:
    """J within a fifth of its mean, ACI 209R lowest every time; the three others within 9 % of each other.

    The coefficients alone spread by 1.7 to 2.0, for they refer to different moduli.
    """
    found = all_models(replace(C30, humidity=humidity))
    j = {k: 1e6 * float(a.compliance(LAST, loaded)) for k, a in found.items()}
    phi = {k: float(a.creep(LAST, loaded)) for k, a in found.items()}
    words = f"loaded at {loaded:g} d, RH {humidity:g} %"
    spread = row(f"J, 10⁻⁶/MPa, {words}", j)
    assert row(f"φ, {words}", phi) > 1.4 * spread
    mean = sum(j.values()) / 4
    assert all(abs(v / mean - 1) < 0.20 for v in j.values())
    assert min(j, key=j.__getitem__) == ACI
    assert row("J without ACI 209R", {k: v for k, v in j.items() if k != ACI}) < 1.10
    page = PAGE.read_text(encoding="utf-8")
    numbers = " | ".join(f"{j[k]:.0f}" for k in MODELS)
    assert f"| $J$, loaded at {loaded:g} days, {humidity:g} % | {numbers} |" in page


def test_aci_209_is_low_because_it_does_not_know_the_strength() -> None:
    """Its coefficient is the same for every concrete: the lowest of all in weak concrete, the highest in strong."""
    weak, strong = (
        {k: float(a.creep(LAST, 28.0)) for k, a in all_models(Casting(f, 50.0, 300.0)).items()} for f in (38.0, 88.0)
    )
    row("φ(30 years, 28) at 38 MPa", weak)
    row("φ(30 years, 28) at 88 MPa", strong)
    assert weak[ACI] == strong[ACI]
    assert min(weak, key=weak.__getitem__) == ACI == max(strong, key=strong.__getitem__)
    others = [strong[k] / weak[k] for k in (EN, MC, AASHTO)]
    assert max(others) < 0.55


@pytest.mark.parametrize("humidity", [50.0, 80.0])
def test_shrinkage_after_thirty_years(humidity: float) -> None:
    """AASHTO is highest: its size factor stops at 1 from V/S of 88 mm on (h0 176 mm), where others go on falling."""
    cast = replace(C30, humidity=humidity)
    thick = {k: 1e6 * float(a.shrinkage(LAST)) for k, a in all_models(cast).items()}
    thin = {k: 1e6 * float(a.shrinkage(LAST)) for k, a in all_models(replace(cast, notional_size=100.0)).items()}
    massive = all_models(replace(cast, notional_size=600.0))
    spread = row(f"shrinkage, 10⁻⁶, h0 300, RH {humidity:g} %", thick)
    assert row(f"shrinkage, 10⁻⁶, h0 100, RH {humidity:g} %", thin) < spread < 2.0
    assert max(thick, key=thick.__getitem__) == AASHTO
    assert 1e6 * float(massive[AASHTO].shrinkage(LAST)) == thick[AASHTO]
    assert all(1e6 * float(massive[k].shrinkage(LAST)) < 0.95 * thick[k] for k in (EN, ACI, MC))
    page = PAGE.read_text(encoding="utf-8")
    assert f"| shrinkage, {humidity:g} % | {' | '.join(f'{thick[k]:.0f}' for k in MODELS)} |" in page


def test_size_slows_drying_in_the_european_models_alone() -> None:
    """Share of the 30 years' drying done in one year: ACI 209R and AASHTO have one pace for all sizes."""
    pace = {}
    for size in (100.0, 600.0):
        found = all_models(replace(C30, notional_size=size))
        pace[size] = {k: float(a.drying(YEARS) / a.drying(LAST)) for k, a in found.items()}
        row(f"drying after a year over that after 30, h0 {size:g}", pace[size])
    for k in (ACI, AASHTO):
        assert pace[600.0][k] == pytest.approx(pace[100.0][k])
    for k in (EN, MC):
        assert pace[600.0][k] < 0.6 * pace[100.0][k]


def test_strength_gain() -> None:
    """At 7 days the European normal cement is ahead of ASTM type I (0.78 to 0.70), class S is behind it (0.68)."""
    found = all_models(C30)
    early = {k: float(a.strength(7.0) / a.strength(28.0)) for k, a in found.items()}
    assert row("fc(7)/fc(28)", early) < 1.15
    slow = all_models(replace(C30, cement="S"))[EN]
    assert slow.strength(7.0) / slow.strength(28.0) < early[ACI] < early[EN]
    late = {k: float(a.strength(365.0) / a.strength(28.0)) for k, a in found.items()}
    assert row("fc(1 year)/fc(28)", late) < 1.1


def test_tensile_strength() -> None:
    """AASHTO's is highest, of the ordered 30 MPa at that: its commentary estimates 7.3 √f'c (psi), ACI 4."""
    found = {k: float(a.tensile(28.0)) for k, a in all_models(C30).items()}
    assert row("ft at 28 days, MPa", found) < 1.7
    assert max(found, key=found.__getitem__) == AASHTO
    assert min(found, key=found.__getitem__) == ACI


def test_relaxation_of_strand() -> None:
    """Low relaxation at 0.7 of the strength. MC 2010, the outlier, starts from the class value of 2.5 % in 1000 hours;
    EN's formula returns 0.96 % there, ACI and AASHTO share one American formula.
    """
    found = all_models(C30)
    thousand = {k: 100 * float(a.relaxation(1000 / 24, 0.7)) for k, a in found.items()}
    final = {k: 100 * float(a.relaxation(50 * YEARS, 0.7)) for k, a in found.items()}
    row("relaxation in 1000 hours, %", thousand)
    row("relaxation in 50 years, %", final)
    assert thousand[MC] == pytest.approx(2.5)
    assert thousand[ACI] == thousand[AASHTO]
    assert max(final, key=final.__getitem__) == MC
    assert row("50 years without MC 2010", {k: v for k, v in final.items() if k != MC}) < 1.5
    high = {k: 100 * float(found[k].relaxation(1000 / 24, 0.8)) for k in (EN, ACI)}
    print(f"at 0.8: {high}")
    assert high[EN] == pytest.approx(2.4, abs=0.05)


def test_maturity_functions() -> None:
    """A day at 20, 40 and 60 °C as days at 20 °C. Nurse–Saul, straight in temperature, falls behind above 40 °C."""
    functions = {
        "EN": m.en1992_age(),
        "Arrhenius 41.5 kJ/mol": m.arrhenius(reference=20.0),
        "Nurse–Saul 0 °C": m.nurse_saul_age(0.0, 20.0),
        "Nurse–Saul −10 °C": m.nurse_saul_age(-10.0, 20.0),
    }
    for temperature, limit in ((20.0, 1.01), (40.0, 1.8), (60.0, 3.5)):
        day = temperature_log(np.arange(25) / 24, np.full(25, temperature))
        ages = {k: float(m.maturity(day, f)[-1]) for k, f in functions.items()}
        assert row(f"a day at {temperature:g} °C", ages) < limit
    assert max(ages, key=ages.__getitem__) == "Arrhenius 41.5 kJ/mol"
    assert min(ages, key=ages.__getitem__) == "Nurse–Saul −10 °C"

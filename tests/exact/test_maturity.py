"""Maturity, heat and release against closed forms; every kind of bad log in one sentence."""

from __future__ import annotations

from math import exp, log

import numpy as np
import pytest

from soffit.materials.ageing import maturity as m
from soffit.materials.ageing.en1992 import En1992
from soffit.materials.ageing.heat import relaxation_age
from soffit.materials.ageing.release import Calibration, by_age, release
from soffit.materials.ageing.templog import TemperatureLog, temperature_log

HOUR = 1.0 / 24.0
EN = En1992(48.0, 70.0, 150.0, "R")


def steady(temperature: float, hours: float) -> TemperatureLog:
    times = np.linspace(0.0, hours * HOUR, round(2 * hours) + 1)
    return temperature_log(times, np.full(times.size, temperature))


def grown(log_: TemperatureLog, function: m.MaturityFunction) -> float:
    return float(m.maturity(log_, function)[-1])


def test_maturity_at_one_temperature() -> None:
    day = steady(35.0, 24.0)
    assert grown(day, m.nurse_saul(-10.0)) == pytest.approx(45.0)
    assert grown(day, m.nurse_saul_age(0.0, 20.0)) == pytest.approx(1.75)
    assert grown(day, m.arrhenius(40000.0, 35.0)) == pytest.approx(1.0)
    by_hand = exp(-41500 / 8.314 * (1 / 308.15 - 1 / 293.15))
    assert grown(day, m.arrhenius(41500.0, 20.0)) == pytest.approx(by_hand)
    assert grown(steady(-5.0, 24.0), m.nurse_saul(0.0)) == 0.0


def test_the_temperature_adjusted_age_of_en() -> None:
    """At 20 °C a day is a day (0.998 by the rounded 13.65); it is the Arrhenius form with Ea = 4000 K · R."""
    assert grown(steady(20.0, 24.0), m.en1992_age()) == pytest.approx(exp(13.65 - 4000 / 293))
    assert grown(steady(20.0, 24.0), m.en1992_age()) == pytest.approx(1.0, abs=0.002)
    for temperature in (5.0, 40.0, 75.0):
        day = steady(temperature, 24.0)
        like = grown(day, m.arrhenius(4000.0 * m.GAS, 20.0))
        assert grown(day, m.en1992_age()) == pytest.approx(like, rel=0.005)


def test_defaults_of_the_standard_from_memory() -> None:
    """Datum 0 °C, 41.5 kJ/mol, 23 °C: a day at 23 °C is one day by all that give an age; ranges are said beyond."""
    day = steady(23.0, 24.0)
    assert grown(day, m.nurse_saul()) == pytest.approx(23.0)
    assert grown(day, m.nurse_saul_age()) == pytest.approx(1.0)
    assert grown(day, m.arrhenius()) == pytest.approx(1.0)
    assert grown(steady(33.0, 24.0), m.arrhenius()) == pytest.approx(exp(-41500 / 8.314 * (1 / 306.15 - 1 / 296.15)))
    for function, hottest in ((m.nurse_saul(), 40.0), (m.arrhenius(), 60.0), (m.en1992_age(), 80.0)):
        assert m.outside(steady(hottest, 2.0), function) == ()
        assert m.outside(steady(hottest + 1.0, 2.0), function) != ()
    assert relaxation_age(steady(80.0, 1.0)) == pytest.approx(1.14**60 * HOUR)


def test_a_straight_ramp() -> None:
    """10 to 50 °C over a day, in two readings: Nurse–Saul is exact, the datum at its first temperature."""
    ramp = temperature_log([0.0, 1.0], [10.0, 50.0])
    assert grown(ramp, m.nurse_saul(10.0)) == pytest.approx(20.0)


def test_heat_brings_relaxation_forward() -> None:
    """10 h at 60 °C: 1.14^40/40 · 40 · 10 h; stressed half way in, half of it; nothing at 20 °C."""
    log_ = steady(60.0, 10.0)
    assert relaxation_age(log_) == pytest.approx(1.14**40 * 10.0 * HOUR)
    assert relaxation_age(log_, 5.0 * HOUR) == pytest.approx(1.14**40 * 5.0 * HOUR)
    assert relaxation_age(log_, 11.0 * HOUR) == 0.0
    assert relaxation_age(steady(20.0, 10.0)) == 0.0
    whole = relaxation_age(temperature_log([0.0, 0.1, 0.5], [20.0, 60.0, 60.0]))
    assert whole == pytest.approx(1.14**40 / 40 * (20 * 0.1 + 40 * 0.4))
    assert EN.relaxation(1.0 + relaxation_age(log_), 0.7) > 2.0 * EN.relaxation(1.0, 0.7)
    with pytest.raises(ValueError, match="up to 80 °C"):
        relaxation_age(steady(90.0, 5.0))


def test_release_at_one_temperature() -> None:
    """The age at which βcc fcm = 30 MPa, by the inverse of the gain, over the rate at 45 °C."""
    need = 28.0 / (1.0 - log(30.0 / 48.0) / 0.20) ** 2
    rate = float(m.en1992_age().rate(np.array(45.0)))
    answer = release(steady(45.0, 48.0), 30.0, by_age(EN.strength), m.en1992_age())
    assert answer.reached
    assert answer.time == pytest.approx(need / rate, rel=1e-9)
    assert answer.verdict.startswith(f"Yes: 30.0 MPa were reached {24 * need / rate:.1f} hours after casting")
    assert answer.forecast is None
    assert any("C1074" in n for n in answer.notes)


def test_release_not_yet_and_its_forecast() -> None:
    """If the log goes on as long as the forecast says, it ends at the wanted strength."""
    short = steady(30.0, 10.0)
    answer = release(short, 25.0, by_age(EN.strength), m.en1992_age())
    assert (answer.reached, answer.time) == (False, None)
    assert answer.verdict.startswith("Not yet: 10.0 hours after casting the concrete has")
    assert answer.forecast is not None
    longer = temperature_log(np.append(short.times, short.end + answer.forecast + 1e-9), np.full(22, 30.0))
    assert release(longer, 25.0, by_age(EN.strength), m.en1992_age()).time == pytest.approx(longer.end, rel=1e-6)


def test_release_never() -> None:
    cold = release(steady(-5.0, 24.0), 25.0, Calibration((5.0, 50.0), (5.0, 30.0)), m.nurse_saul())
    assert "does not get there within 28 days" in cold.verdict
    assert cold.strength == 0.0
    assert any("begins at a higher maturity" in n for n in cold.notes)
    assert any("beyond the 0 to 40 °C" in n for n in cold.notes)


def test_calibration() -> None:
    """Straight over the logarithm, nothing claimed below it, held beyond it."""
    mix = Calibration((10.0, 40.0, 160.0), (8.0, 20.0, 32.0))
    assert [mix(v) for v in (9.9, 10.0, 20.0, 40.0, 80.0, 500.0)] == pytest.approx([0.0, 8.0, 14.0, 20.0, 26.0, 32.0])
    hot = release(steady(40.0, 200.0), 26.0, mix, m.nurse_saul())
    assert hot.time == pytest.approx(2.0)  # 80 °C·days at 40 °C
    assert any("strength is held" in n for n in hot.notes)
    assert hot.unit == "°C·days"


def test_a_log_is_put_in_order_and_says_so() -> None:
    tidy = temperature_log([0.0, 0.02, 0.04, 0.06], [20.0, 24.0, 28.0, 32.0])
    assert tidy.notes == ()
    messy = temperature_log([0.06, 0.0, 0.02, 0.03, 0.04, 0.04], [32.0, 20.0, 24.0, np.nan, 28.0, 28.0])
    assert np.array_equal(messy.times, tidy.times)
    assert np.array_equal(messy.temperatures, tidy.temperatures)
    assert [n.split(" ")[:2] for n in messy.notes] == [["1", "reading"], ["The", "readings"], ["1", "repeated"]]
    late = temperature_log([0.1, 0.5], [20.0, 75.0])
    assert [n[:14] for n in late.notes] == ["The log begins", "Between 2.4 an", "The concrete r"]


@pytest.mark.parametrize(
    ("times", "temperatures", "says"),
    [
        ([0.0, 0.1, 0.2], [20.0, 20.0], "3 times and 2 temperatures"),
        ([0.0, np.nan, 0.2], [20.0, 20.0, 20.0], "reading 2 of the temperature log has no time"),
        ([-0.1, 0.2], [20.0, 20.0], "at -2.4 hours: time counts from casting"),
        ([0.0, 0.2], [20.0, 140.0], "140 °C at 4.8 hours is none of curing concrete"),
        ([0.0, 0.2], [20.0, np.inf], "inf °C"),
        ([0.0, 0.2, 0.2], [20.0, 30.0, 31.0], "both 30 °C and 31 °C at 4.8 hours"),
        ([0.0, 0.2], [20.0, np.nan], "two readings at least"),
        ([], [], "two readings at least"),
    ],
)
def test_a_bad_log_is_refused(times, temperatures, says: str) -> None:
    with pytest.raises(ValueError) as caught:
        temperature_log(times, temperatures)
    assert says in str(caught.value)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: m.arrhenius(41.5), "activation energy is 41.5 J/mol"),
        (lambda: m.nurse_saul(32.0), "datum temperature is 32 °C"),
        (lambda: m.nurse_saul_age(10.0, 10.0), "reference temperature"),
        (lambda: Calibration((10.0,), (5.0,)), "two points"),
        (lambda: Calibration((10.0, 5.0), (5.0, 8.0)), "rise from point to point"),
        (lambda: Calibration((10.0, 15.0), (9.0, 8.0)), "may not fall"),
        (lambda: Calibration((10.0, np.nan), (8.0, 9.0)), "maturities"),
        (
            lambda: release(steady(20.0, 5.0), float("nan"), by_age(EN.strength), m.en1992_age()),
            "wanted strength is nan",
        ),
        (lambda: release(steady(20.0, 5.0), 0.0, by_age(EN.strength), m.en1992_age()), "wanted strength is 0 MPa"),
    ],
)
def test_bad_maturity_input_is_refused(make, says: str) -> None:
    with pytest.raises(ValueError) as caught:
        make()
    assert says in str(caught.value)

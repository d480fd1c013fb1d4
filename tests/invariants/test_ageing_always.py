"""What holds for every ageing model, whatever the concrete and its surroundings, and for every temperature log."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soffit.materials.ageing import maturity as m
from soffit.materials.ageing.casting import CEMENTS, Casting
from soffit.materials.ageing.models import MODELS, all_models
from soffit.materials.ageing.release import by_age, release
from soffit.materials.ageing.templog import TemperatureLog, temperature_log

castings = st.builds(
    Casting,
    strength=st.floats(36.0, 98.0),  # where all four standards give their formulas
    humidity=st.floats(40.0, 100.0),
    notional_size=st.floats(50.0, 1500.0),
    cement=st.sampled_from(CEMENTS),
    cured_until=st.floats(1.0, 28.0),
    heat_days=st.sampled_from([0.0, 1.0, 3.0]),
    steel=st.sampled_from(["low relaxation", "ordinary"]),
)
loadings = st.floats(0.5, 3000.0)
AGES = np.geomspace(0.2, 36500.0, 60)
FUNCTIONS = (m.nurse_saul(), m.nurse_saul(-10.0), m.nurse_saul_age(), m.arrhenius(), m.en1992_age())
functions = st.sampled_from(FUNCTIONS)
few = settings(max_examples=60, deadline=None)


@st.composite
def logs(draw: st.DrawFn) -> TemperatureLog:
    n = draw(st.integers(2, 30))
    steps = draw(st.lists(st.floats(0.01, 0.3), min_size=n, max_size=n))
    temperatures = draw(st.lists(st.floats(-10.0, 78.0), min_size=n, max_size=n))
    return temperature_log(np.cumsum(steps) - steps[0], temperatures)


@few
@given(castings)
def test_concrete_only_hardens(cast: Casting) -> None:
    for model in all_models(cast).values():
        for law in (model.strength, model.modulus, model.tensile):
            values = law(AGES)
            assert np.all(values > 0)
            assert np.all(np.diff(values) >= 0)
        assert 0.03 < model.tensile(28.0) / model.strength(28.0) < 0.2
        assert 15000 < model.modulus(28.0) < 55000


@few
@given(castings, loadings)
def test_creep_begins_at_zero_and_never_goes_back(cast: Casting, loaded: float) -> None:
    for model in all_models(cast).values():
        ages = loaded + np.concatenate(([-0.4 * loaded, 0.0], AGES))
        creep, compliance = model.creep(ages, loaded), model.compliance(ages, loaded)
        assert creep[0] == creep[1] == compliance[0] == 0.0
        assert np.all(np.diff(creep[1:]) > 0)
        assert compliance[1] == pytest.approx(1.0 / model.modulus(loaded))
        assert np.all(np.diff(compliance) > 0)


@few
@given(castings, loadings, loadings)
def test_older_concrete_creeps_less(cast: Casting, one: float, other: float) -> None:
    """For the same time under load; before one day EN and MC hold the adjusted age of slow cement at half a day."""
    young, old = sorted((one, other))
    for model in all_models(cast).values():
        assert np.all(model.creep(old + AGES, old) <= model.creep(young + AGES, young) * (1 + 1e-12))
        assert np.all(model.compliance(old + AGES, old) <= model.compliance(young + AGES, young) * (1 + 1e-12))


@few
@given(castings, st.floats(40.0, 100.0))
def test_wetter_is_less_creep_and_shrinkage(cast: Casting, humidity: float) -> None:
    dry, wet = (replace(cast, humidity=h) for h in sorted((cast.humidity, humidity)))
    for dryer, wetter in zip(all_models(dry).values(), all_models(wet).values(), strict=True):
        assert np.all(wetter.creep(28.0 + AGES, 28.0) <= dryer.creep(28.0 + AGES, 28.0) * (1 + 1e-12))
        assert np.all(wetter.shrinkage(AGES) <= dryer.shrinkage(AGES) + 1e-15)


@few
@given(castings, st.floats(50.0, 1500.0))
def test_thicker_is_less_creep_and_shrinkage(cast: Casting, size: float) -> None:
    """But for AASHTO, whose size factor stops at 1, never the other way. Up to 85 %: above, MC 2010 may swell."""
    dry = replace(cast, humidity=min(cast.humidity, 85.0))
    thin, thick = (replace(dry, notional_size=s) for s in sorted((cast.notional_size, size)))
    for slim, stout in zip(all_models(thin).values(), all_models(thick).values(), strict=True):
        assert np.all(stout.creep(28.0 + AGES, 28.0) <= slim.creep(28.0 + AGES, 28.0) * (1 + 1e-12))
        assert np.all(stout.drying(AGES) <= slim.drying(AGES) + 1e-15)


@few
@given(castings)
def test_nothing_dries_while_it_is_cured(cast: Casting) -> None:
    for model in all_models(cast).values():
        assert np.all(model.drying(AGES[cast.cured_until >= AGES]) == 0.0)
        assert np.all(np.diff(model.autogenous(AGES)) >= 0.0)
        assert model.shrinkage(AGES) == pytest.approx(model.drying(AGES) + model.autogenous(AGES))
        assert np.all(np.abs(model.shrinkage(AGES)) < 2e-3)


@few
@given(castings, st.floats(0.0, 0.95), st.floats(0.0, 0.95))
def test_creep_rises_with_stress_where_it_is_nonlinear(cast: Casting, one: float, other: float) -> None:
    low, high = sorted((one, other))
    for model in all_models(cast).values():
        strength = float(model.loading_strength(14.0))
        less, more = (model.creep(AGES, 14.0, share * strength) for share in (low, high))
        assert np.all(less <= more)
        if high <= model.record.linear_limit:
            assert np.array_equal(less, more)
            assert not any("sustained" in s for s in model.remarks(14.0, high * strength))


@few
@given(castings, st.floats(0.55, 0.79))
def test_relaxation_rises_with_time_and_stress(cast: Casting, ratio: float) -> None:
    days = np.concatenate(([0.0], AGES))
    for model in all_models(cast).values():
        lost = model.relaxation(days, ratio)
        assert lost[0] == 0.0
        assert np.all(np.diff(lost) >= 0.0)
        assert lost[-1] < 0.4
        assert np.all(model.relaxation(AGES, ratio + 0.01) >= model.relaxation(AGES, ratio))


@pytest.mark.parametrize("key", MODELS)
def test_times_may_be_arrays_of_any_shape(key: str) -> None:
    """A step-by-step table of ages by loading ages is what single calls give, and no dtype leaks."""
    model = MODELS[key].of(Casting(45.0, 65.0, 220.0))
    t, t0 = np.geomspace(1.0, 9000.0, 7), np.geomspace(1.0, 9000.0, 5)
    for law in (model.creep, model.compliance):
        table = law(t[:, None], t0[None, :])
        assert table.shape == (7, 5)
        assert table == pytest.approx(np.array([[float(law(a, b)) for b in t0] for a in t]), rel=1e-14, abs=0.0)
    for law in (model.strength, model.modulus, model.tensile, model.drying, model.autogenous):
        assert law(t) == pytest.approx([float(law(a)) for a in t], rel=1e-14, abs=0.0)
        assert law(7).dtype == np.float64


@pytest.mark.parametrize("key", MODELS)
def test_a_record_says_all_of_itself(key: str) -> None:
    record = MODELS[key].record
    assert record.key == key
    for name in record.__dataclass_fields__:
        assert getattr(record, name), name
    fields = MODELS[key].__dataclass_fields__
    assert all(r.field in fields and r.low < r.high for r in record.ranges)


# --- maturity --------------------------------------------------------------------------------------------------------


@few
@given(logs(), functions)
def test_maturity_only_grows_and_adds_up(log: TemperatureLog, function: m.MaturityFunction) -> None:
    grown = m.maturity(log, function)
    assert grown[0] == 0.0
    assert np.all(np.diff(grown) >= 0.0)
    cut = log.times.size // 2
    if 1 <= cut < log.times.size - 1:
        first = TemperatureLog(log.times[: cut + 1], log.temperatures[: cut + 1])
        second = TemperatureLog(log.times[cut:], log.temperatures[cut:])
        parts = m.maturity(first, function)[-1] + m.maturity(second, function)[-1]
        assert parts == pytest.approx(grown[-1], rel=1e-12)


@few
@given(logs(), functions, st.floats(0.0, 20.0))
def test_warmer_is_riper(log: TemperatureLog, function: m.MaturityFunction, more: float) -> None:
    warmer = TemperatureLog(log.times, log.temperatures + more)
    assert np.all(m.maturity(warmer, function) >= m.maturity(log, function))


@few
@given(logs(), st.randoms(use_true_random=False))
def test_the_order_of_readings_does_not_matter(log: TemperatureLog, random) -> None:
    order = list(range(log.times.size))
    random.shuffle(order)
    again = temperature_log(log.times[order], log.temperatures[order])
    assert np.array_equal(again.times, log.times)
    assert np.array_equal(again.temperatures, log.temperatures)


@given(logs())
@settings(max_examples=30, deadline=None)
def test_finer_logs_converge_in_second_order(log: TemperatureLog) -> None:
    """Readings put between along straight lines: the last halving moves the age by a quarter of the one before."""
    ages = []
    for parts in (1, 2, 4, 8):
        fine = np.interp(np.arange((log.times.size - 1) * parts + 1) / parts, np.arange(log.times.size), log.times)
        ages.append(m.maturity(TemperatureLog(fine, np.interp(fine, log.times, log.temperatures)), m.arrhenius())[-1])
    steps = np.abs(np.diff(ages))
    if steps[1] > 1e-7 * ages[-1]:
        assert 3.0 < steps[1] / steps[2] < 5.5


@few
@given(logs(), castings, st.floats(2.0, 60.0))
def test_release_is_when_the_strength_is_there(log: TemperatureLog, cast: Casting, wanted: float) -> None:
    model, function = MODELS["EN 1992-1-1"].of(cast), m.en1992_age()
    answer = release(log, wanted, by_age(model.strength), function)
    assert answer.reached == (answer.strength >= wanted) == answer.verdict.startswith("Yes")
    assert (answer.time is None) != answer.reached
    if answer.time is not None:
        assert log.times[0] <= answer.time <= log.end
        age = np.interp(answer.time, log.times, m.maturity(log, function))
        assert model.strength(max(float(age), 1e-9)) == pytest.approx(wanted, rel=1e-5)
    elif answer.forecast is not None:
        rate = float(function.rate(log.temperatures[-1]))
        assert model.strength(answer.maturity + answer.forecast * rate) == pytest.approx(wanted, rel=1e-6)

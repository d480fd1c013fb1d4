"""What holds for every anchorage zone, whatever the standard."""

from __future__ import annotations

from dataclasses import replace
from types import ModuleType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soffit.codes.aashto import ends as aashto
from soffit.codes.aci318 import ends as aci318
from soffit.codes.en1992 import ends as en1992
from soffit.codes.endzone import Anchors, Plate
from soffit.codes.working import evaluate

ALL = pytest.mark.parametrize("rules", [en1992, aci318, aashto])
zones = st.builds(
    lambda jack, depth, share, off: Anchors(jack, share * depth, depth, depth, off * depth),
    st.floats(1e3, 1e8),
    st.floats(50.0, 5000.0),
    st.floats(0.0, 1.0),
    st.floats(0.0, 0.4),
)
quick = settings(max_examples=60, deadline=None, derandomize=True)


@ALL
@given(zone=zones, more=st.floats(0.0, 1.0))
@quick
def test_a_larger_plate_bursts_less(rules: ModuleType, zone: Anchors, more: float) -> None:
    larger = replace(zone, size=zone.size + more * (zone.section - zone.size))
    whole = rules.bursting(replace(zone, size=zone.section), 500.0).force.value
    force, less = (rules.bursting(z, 500.0).force.value for z in (zone, larger))
    assert less <= force * (1 + 1e-9) + 1e-9 * zone.jack
    assert abs(whole) <= 1e-9 * zone.jack
    assert force <= 0.25 * 1.2 * zone.jack * (1 + 1e-9)


@ALL
@given(zone=zones, times=st.floats(0.1, 10.0))
@quick
def test_forces_and_steel_grow_as_the_prestress_does(rules: ModuleType, zone: Anchors, times: float) -> None:
    for of in (rules.bursting, rules.spalling):
        one = of(zone, 500.0)
        more = of(replace(zone, jack=times * zone.jack, edge_tension=times * zone.edge_tension), 500.0)
        assert more.force.value == pytest.approx(times * one.force.value, rel=1e-9, abs=1e-6)
        assert more.steel.value == pytest.approx(times * one.steel.value, rel=1e-9, abs=1e-6)
        assert more.length.value == one.length.value


@ALL
@given(zone=zones)
@quick
def test_every_working_is_what_its_text_says(rules: ModuleType, zone: Anchors) -> None:
    """And every result that a later formula uses is the result that was shown."""
    shown: dict[str, float] = {}
    for working in rules.bursting(zone, 500.0).workings:
        assert working.value == evaluate(working.formula, working.symbols)
        for symbol in working.symbols:
            assert shown.get(symbol.name, symbol.value) == symbol.value
        shown[working.name] = working.value


@ALL
@given(ratio=st.floats(1.0, 6.0), wider=st.floats(0.0, 3.0), strength=st.floats(15.0, 80.0))
@quick
def test_more_concrete_around_a_plate_never_weakens_it(
    rules: ModuleType, ratio: float, wider: float, strength: float
) -> None:
    plate = Plate(40000.0, 36000.0, ratio, 1e6)
    narrow, wide = (rules.plate(p, strength).resistance.value for p in (plate, replace(plate, ratio=ratio + wider)))
    assert 0.0 < narrow <= wide * (1 + 1e-12)
    assert wide <= 3.0 * strength * plate.net

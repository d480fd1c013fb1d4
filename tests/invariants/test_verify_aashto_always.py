"""What holds of every verification by AASHTO LRFD: more load is never less used, and a mirror changes nothing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.specimens import CONCRETE, FLAT, bars, beam, stirrups, tendon, uniform

from soffit.codes.verification import verify
from soffit.member.beam import Load, Supports
from soffit.section.outline import rectangle, tee

L = 8000.0
C35 = replace(CONCRETE, specified=35.0, strength=43.0, strength_at_transfer=28.0)
FEW = settings(max_examples=12, deadline=None)
STRENGTH = ("flexure-sagging", "shear", "tie-along", "tie-end", "min-steel-sagging")


def made(load, area=400.0, high=90.0, point=3000.0, spacing=150.0, flipped=False, prestressed=True):
    x = L - point if flipped else point
    ends = (0.0, 5000.0)
    zone = (L - ends[1], L - ends[0]) if flipped else ends
    links = tuple(
        replace(stirrups(L, 10.0, s, steel=FLAT), x_from=a, x_to=b)
        for s, a, b in ((spacing, *zone), (200.0, *((0.0, zone[0]) if flipped else (zone[1], L))))
    )
    strand = tendon(area, high, L, 1200.0, when="before casting", bond="bonded", diameter=12.7, count=4,
                    stress_is="at the jack", long_term_loss=0.15)  # fmt: skip
    return beam(L, tee(700.0, 220.0, 900.0, 130.0), concrete=C35, bars=(bars(3, 16.0, 50.0, L, FLAT),),
                tendons=(strand,) if prestressed else (), stirrups=links, supports=Supports((0.0, L), bearing=200.0),
                loads=(uniform(L, load), Load("dead", 30e3, x, x)))  # fmt: skip


def ratios(b):
    return {c.key: c.ratio for c in verify(b, "aashto-lrfd").checks}


@FEW
@given(load=st.floats(5.0, 60.0), more=st.floats(1.05, 2.0), area=st.floats(200.0, 800.0), pre=st.booleans())
def test_more_load_is_never_less_used(load, more, area, pre):
    one, two = ratios(made(load, area, prestressed=pre)), ratios(made(load * more, area, prestressed=pre))
    for key in ("flexure-sagging", "shear"):
        assert two[key] >= one[key] * (1.0 - 1e-9), key


@FEW
@given(load=st.floats(5.0, 60.0), point=st.floats(1500.0, 4000.0), spacing=st.floats(80.0, 190.0), pre=st.booleans())
def test_the_mirror_image_is_used_as_much(load, point, spacing, pre):
    one = ratios(made(load, point=point, spacing=spacing, prestressed=pre))
    two = ratios(made(load, point=point, spacing=spacing, flipped=True, prestressed=pre))
    assert one.keys() == two.keys()
    for key, ratio in one.items():
        assert two[key] == pytest.approx(ratio, rel=2e-4, abs=1e-9), key


@FEW
@given(count=st.integers(2, 8), load=st.floats(5.0, 40.0))
def test_more_bars_bear_more(count, load):
    def resistance(n):
        b = beam(L, rectangle(300.0, 600.0), concrete=C35, bars=(bars(n, 16.0, 50.0, L, FLAT),),
                 stirrups=(stirrups(L, 10.0, 150.0, steel=FLAT),), loads=(uniform(L, load),))  # fmt: skip
        checks = verify(b, "aashto-lrfd", ("flexure", "shear")).checks
        return {c.key: (c.ratio, c.resistance.value) for c in checks}

    few, many = resistance(count), resistance(count + 1)
    assert many["flexure-sagging"][1] > few["flexure-sagging"][1]
    assert many["shear"][0] <= few["shear"][0] * (1.0 + 1e-9)


@FEW
@given(spacing=st.floats(60.0, 250.0), load=st.floats(10.0, 40.0))
def test_shear_never_bears_more_than_the_web(spacing, load):
    check = next(c for c in verify(made(load, spacing=spacing), "aashto-lrfd", ("shear",)).checks)
    bv, dv = 220.0, next(w.value for w in check.workings if w.name == "dv")
    assert check.resistance.value <= 0.9 * 0.25 * 35.0 * bv * dv * (1.0 + 1e-9)

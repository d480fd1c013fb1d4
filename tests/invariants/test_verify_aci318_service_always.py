"""What holds of the checks of service and anchorage by ACI 318-19, whatever the beam."""

from __future__ import annotations

from dataclasses import replace
from math import isfinite

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.specimens import CONCRETE, FLAT, bars, beam, stirrups, tendon, uniform

from soffit.codes.aci318 import values
from soffit.codes.aci318.development import developed, development
from soffit.codes.aci318.register import ENTRIES
from soffit.codes.design import Design
from soffit.codes.verification import verify
from soffit.codes.working import Check
from soffit.member.beam import Beam, Supports
from soffit.member.verifying import Verifying
from soffit.section.outline import box, circle, i_section, rectangle, tee

L = 8000.0
MINE = (
    "development", "support-bars", "curtailment", "laps", "stress", "cracks", "sagging", "spacing", "cover", "class",
    "fire", "ends", "frequency", "durability",
)  # fmt: skip
KEYS = tuple(e.key for e in ENTRIES if e.key in MINE)
assert set(KEYS) == set(MINE)


def plain(**more) -> Beam:
    steel = (
        bars(2, 20.0, 53.0, L, FLAT, end_left="straight", end_right="straight"),
        bars(2, 20.0, 53.0, L, FLAT, end_left="straight", end_right="straight", x_from=1000.0, x_to=L - 1500.0),
    )
    more = {
        "concrete": replace(CONCRETE, specified=30.0, strength=38.0), "bars": steel, "stirrups": (stirrups(L),),
        "loads": (uniform(L, 8.0, "dead"), uniform(L, 10.0, "live")),
        "supports": Supports((100.0, L - 100.0), bearing=200.0),
    } | more  # fmt: skip
    return beam(L, more.pop("outline", rectangle(300.0, 600.0)), **more)


def ratios(b: Beam, *keys: str) -> dict[str, float]:
    return {c.key: c.ratio for c in verify(b, "aci318-19", keys or KEYS).checks}


def mirrored(b: Beam) -> Beam:
    turned = tuple(
        replace(x, x_from=L - x.x_to, x_to=L - x.x_from, end_left=x.end_right, end_right=x.end_left) for x in b.bars
    )
    loads = tuple(replace(x, x_from=L - x.x_to, x_to=L - x.x_from) for x in b.loads)
    held = replace(b.supports, x=tuple(L - x for x in reversed(b.supports.x)))
    return replace(b, bars=turned, loads=loads, supports=held)


def test_a_mirrored_beam_is_used_as_much():
    b = plain(loads=(uniform(L, 8.0, "dead"), replace(uniform(L, 20.0, "live"), x_to=3000.0)),
              verifying=Verifying(finishes="tough", exposure=("outdoors",)))  # fmt: skip
    here, there = ratios(b), ratios(mirrored(b))
    assert set(here) == set(there)
    for key, value in here.items():
        assert there[key] == pytest.approx(value, rel=0.02), key


@settings(max_examples=15, deadline=None)
@given(live=st.floats(1.0, 25.0), more=st.floats(1.0, 10.0))
def test_deflection_and_cracks_grow_with_the_load(live, more):
    one, two = (
        ratios(plain(loads=(uniform(L, 8.0, "dead"), uniform(L, q, "live"))), "sagging", "cracks")
        for q in (live, live + more)
    )
    for key, value in one.items():
        assert two[key] >= value - 1e-9, key


@settings(max_examples=25, deadline=None)
@given(
    diameter=st.floats(8.0, 32.0), fy=st.floats(400.0, 690.0), fc=st.floats(20.0, 60.0), y=st.floats(40.0, 560.0),
    end=st.sampled_from(["straight", "hook"]),
)  # fmt: skip
def test_stronger_concrete_and_weaker_steel_want_no_longer_ends(diameter, fy, fc, y, end):
    def length(fy: float, fc: float) -> float:
        steel = bars(2, diameter, y, L, replace(FLAT, yield_strength=fy, tensile=fy), end_left=end, end_right=end)
        b = plain(bars=(steel,), concrete=replace(CONCRETE, specified=fc, strength=fc + 8.0))
        found = development(Design(b, "aci318-19", values.opened(b)), steel, "left")
        assert found is not None
        return found.length.value

    here = length(fy, fc)
    # of hooks ψc grows with f'c while 1/√f'c falls
    if end == "straight":
        assert length(fy, fc + 5.0) <= here + 1e-9
    assert length(fy - 20.0, fc) <= here + 1e-9
    assert here >= 8.0 * diameter - 1e-9 if end == "hook" else here >= 300.0 - 1e-9


@settings(max_examples=20, deadline=None)
@given(x=st.floats(0.0, L))
def test_what_is_developed_is_a_share_and_rises_from_the_ends(x):
    d = Design(b := plain(), "aci318-19", values.opened(b))
    for bar in d.cut(x).bars:
        share = developed(d, bar)
        assert 0.0 <= share <= 1.0
        assert share == pytest.approx(min(1.0, min(bar.left, bar.right) / max(1e-9, _needed(d, bar))), abs=1e-9)


def _needed(d, bar) -> float:
    found = development(d, bar.group, "left")
    assert found is not None
    return found.length.value


LOW = tendon(900.0, 90.0, L, 1100.0)
BEAMS = {
    "circle": plain(outline=circle(600.0)),
    "tee": plain(outline=tee(700.0, 200.0, 900.0, 120.0)),
    "i": plain(outline=i_section(800.0, 120.0, 400.0, 150.0, 350.0, 160.0)),
    "box": plain(outline=box(500.0, 700.0, 100.0, 120.0, 120.0)),
    "cantilever": plain(supports=Supports((0.0,), fixed_left=True), bars=(bars(4, 20.0, 547.0, L, FLAT),)),
    "fixed": plain(supports=Supports((0.0, L), fixed_left=True, fixed_right=True)),
    "continuous": plain(supports=Supports((0.0, 3000.0, L)), bars=(*plain().bars, bars(3, 20.0, 547.0, L, FLAT))),
    "no steel": plain(bars=(), stirrups=()),
    "unbonded": plain(tendons=(LOW,)),
    "tendons alone": plain(bars=(), stirrups=(), tendons=(LOW, replace(LOW, bond="bonded", duct=60.0))),
    "strand": plain(bars=(), tendons=(replace(LOW, when="before casting", bond="bonded", transfer_length=600.0),)),
    "no loads": plain(loads=()),
    "overhangs": plain(supports=Supports((1500.0, 6500.0), bearing=200.0)),
}


@pytest.mark.parametrize("edition", ["SI", "inch-pound"])
@pytest.mark.parametrize("name", BEAMS)
def test_no_beam_breaks_a_check_and_no_number_is_undefined(name, edition):
    chosen = Verifying(
        edition=edition, finishes="tough", fire=120, laps=0.5, lap_at=(2000.0,), exposure=("outdoors", "F1", "C1")
    )
    found = verify(replace(BEAMS[name], verifying=chosen), "aci318-19", KEYS)
    assert found.checks or found.unchecked
    for check in found.checks:
        assert isinstance(check, Check)
        assert check.demand in check.workings, check.key
        assert check.resistance in check.workings, check.key
        for w in check.workings:
            assert isfinite(w.value), (check.key, w.name)

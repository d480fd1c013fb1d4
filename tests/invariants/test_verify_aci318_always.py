"""What holds of every strength by ACI 318-19."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.specimens import CONCRETE, FLAT, bars, beam, stirrups, tendon, uniform

from soffit.codes.verification import verify
from soffit.member.beam import Beam, Load, Profile, Supports
from soffit.member.verifying import Verifying
from soffit.section.outline import box, circle, i_section, inverted_tee, rectangle, tee

L = 6000.0
KEYS = ("flexure", "flexure-approximate", "minimum", "shear", "torsion", "interface")
C40 = replace(CONCRETE, specified=40.0, strength=48.0, strength_at_transfer=38.0)
SHAPES = {
    "rectangle": rectangle(300.0, 600.0),
    "tee": tee(600.0, 300.0, 900.0, 120.0),
    "inverted tee": inverted_tee(600.0, 300.0, 600.0, 150.0),
    "i": i_section(600.0, 160.0, 400.0, 120.0, 400.0, 150.0),
    "box": box(600.0, 600.0, 100.0, 120.0, 120.0),
    "circle": circle(600.0),
}


def made(shape="rectangle", **more) -> Beam:
    more = {
        "concrete": C40, "loads": (uniform(L, 15.0), Load("live", 40e3, 2000.0, 2000.0, eccentricity=200.0)),
        "bars": (bars(4, 20.0, 53.0, L, FLAT), bars(2, 16.0, 550.0, L, FLAT)),
        "stirrups": (stirrups(L, 10.0, 125.0, steel=FLAT),), "supports": Supports((0.0, L), bearing=150.0),
    } | more  # fmt: skip
    return beam(L, SHAPES[shape], **more)


def ratios(b: Beam) -> dict[str, float]:
    return {c.key: c.ratio for c in verify(b, "aci318-19", KEYS).checks}


def strand(**more):
    line = Profile((0.0, L / 2, L), (350.0, 80.0, 350.0), "parabola")
    return tendon(600.0, line, L, 1100.0, **({"bond": "bonded"} | more))


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("held", ["bars", "bonded", "unbonded", "pretensioned", "nothing"])
def test_every_shape_with_every_steel_has_an_answer_or_a_reason(shape, held):
    straight = tendon(600.0, 80.0, L, 1100.0, bond="bonded", when="before casting")
    more = {
        "bars": {}, "nothing": {"bars": (), "stirrups": ()}, "bonded": {"tendons": (strand(),)},
        "unbonded": {"tendons": (strand(bond="unbonded"),)},
        "pretensioned": {"tendons": (straight,), "stirrups": ()},
    }[held]  # fmt: skip
    found = verify(made(shape, **more), "aci318-19", KEYS)
    assert {"flexure-sagging", "shear", "torsion"} <= {c.key for c in found.checks}
    assert all(c.ratio >= 0.0 for c in found.checks)


HELD = (
    Supports((0.0, L)), Supports((0.0, 3500.0, L)), Supports((500.0, L - 900.0)), Supports((0.0,), True),
    Supports((0.0, L), True, True),
)  # fmt: skip


@pytest.mark.parametrize("supports", HELD, ids=range(len(HELD)))
@pytest.mark.parametrize("tendons", [(), (strand(),)], ids=["bars", "tendons"])
def test_a_mirrored_beam_has_the_same_ratios(supports, tendons):
    one = made(supports=supports, tendons=tendons, loads=(uniform(L, 15.0), Load("live", 40e3, 2000.0, 2000.0)))
    other = replace(
        one, supports=Supports(tuple(L - x for x in reversed(supports.x)), supports.fixed_right, supports.fixed_left),
        loads=(uniform(L, 15.0), Load("live", 40e3, L - 2000.0, L - 2000.0)),
    )  # fmt: skip
    assert ratios(other) == pytest.approx(ratios(one), rel=2e-3)


@settings(max_examples=15, deadline=None)
@given(st.floats(1.0, 40.0), st.floats(1.01, 3.0), st.sampled_from(["SI", "inch-pound"]))
def test_more_load_uses_more(load, times, edition):
    def used(w):
        b = made(loads=(uniform(L, w),), verifying=Verifying(edition=edition))
        return {k: r for k, r in ratios(b).items() if k in ("flexure-sagging", "shear", "shear-section")}

    low, high = used(load), used(load * times)
    assert all(high[k] >= low[k] * (1 - 1e-9) for k in low)


@settings(max_examples=15, deadline=None)
@given(st.integers(1, 5), st.floats(20.0, 60.0))
def test_more_steel_is_stronger_until_the_strain_runs_out(count, fc):
    """φMn of a tension-controlled beam grows with its bars."""
    concrete = replace(CONCRETE, specified=fc, strength=fc + 8.0)

    def strength(n):
        b = made(bars=(bars(n, 20.0, 53.0, L, FLAT),), concrete=concrete)
        found = {c.key: c for c in verify(b, "aci318-19", ("flexure",)).checks}
        return found["flexure-sagging"].resistance.value, found["flexure-ductility-sagging"].kept

    (less, _), (more, tough) = strength(count), strength(count + 1)
    assert more > less or not tough


@settings(max_examples=10, deadline=None)
@given(st.floats(5.0, 30.0))
def test_the_two_editions_differ_by_their_rounding_alone(load):
    si, us = (ratios(made(loads=(uniform(L, load),), verifying=Verifying(edition=e))) for e in ("SI", "inch-pound"))
    for key in ("flexure-sagging", "shear", "shear-section"):
        assert us[key] == pytest.approx(si[key], rel=0.04)

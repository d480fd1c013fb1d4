"""What holds for every anchorage zone, whatever the standard."""

from __future__ import annotations

from dataclasses import replace
from math import pi
from types import ModuleType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soffit.codes.aashto import ends as aashto
from soffit.codes.aci318 import ends as aci318
from soffit.codes.en1992 import ends as en1992
from soffit.codes.endzone import Anchors, Plate
from soffit.codes.working import evaluate
from soffit.detail.ends import STANDARDS, ends
from soffit.errors import SoffitError
from soffit.member.beam import Anchor, Beam, Profile, Supports
from soffit.section import outline as outlines
from soffit.show.ends import told
from specimens import beam, stirrups, tendon, uniform

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


@st.composite
def stressed_beams(draw: st.DrawFn) -> Beam:
    """Any section, one or two groups at any height with any plate or none, stressed before or after, some stirrups."""
    depth = draw(st.floats(150.0, 2500.0))
    wide = draw(st.floats(0.3, 1.0)) * depth
    section = draw(
        st.sampled_from(
            [
                outlines.rectangle(wide, depth),
                outlines.tee(depth, wide / 2, wide, depth / 5),
                outlines.i_section(depth, wide / 3, wide, depth / 6, 0.7 * wide, depth / 5, depth / 20, depth / 20),
                outlines.box(wide, depth, wide / 5, depth / 6, depth / 6),
                outlines.circle(depth),
            ]
        )
    )
    length = 12.0 * depth
    groups = []
    for _ in range(draw(st.integers(1, 2))):
        at = [draw(st.floats(0.05, 0.95)) * depth for _ in range(3)]
        early = draw(st.booleans())
        plate = draw(st.none() | st.tuples(st.floats(30.0, 500.0), st.floats(30.0, 500.0)))
        groups.append(
            tendon(
                draw(st.floats(50.0, 5000.0)), Profile((0.0, length / 2, length), tuple(at), "parabola"), length, 1e3,
                count=draw(st.integers(1, 4)), when="before casting" if early else "after curing",
                bond="bonded" if early else "unbonded", stress_is="at the jack",
                anchor=None if early else Anchor("wedge", 1e7, "", 0.0, plate, draw(st.floats(0.0, 80.0))),
            )
        )  # fmt: skip
    zones = (stirrups(length, 10.0, draw(st.floats(50.0, 400.0))),) if draw(st.booleans()) else ()
    supports = draw(st.sampled_from([(0.0, length), (0.1 * length, 0.9 * length), (0.0, length / 3, length)]))
    return beam(
        length, section, tendons=tuple(groups), stirrups=zones, supports=Supports(supports, bearing=200.0),
        loads=(uniform(length, 20.0),), self_weight=True,
    )  # fmt: skip


@given(found=stressed_beams(), to=st.sampled_from(STANDARDS))
@settings(max_examples=150, deadline=None, derandomize=True)
def test_any_beam_has_checks_or_one_sentence(found: Beam, to: str) -> None:
    """Never a nonsense number: forces, areas and ratios are not negative, and what has no steel has no ratio."""
    try:
        made = ends(found, to)
    except SoffitError:
        return
    text = told(made)
    assert "nan" not in text
    for end in made.ends:
        assert end.lines or end.not_checked
        for line in end.lines:
            assert line.check.ratio >= -1e-9
            assert line.check.demand.value >= -1e-6
            assert line.check.resistance.value >= 0.0
            if line.tie is not None:
                assert line.tie.length.value > 0.0
                assert line.tie.force.value >= -1e-6
                # the stirrups that are asked for are enough
                legs = line.legs if line.side == "upright" else min(line.legs, 2)
                assert line.stirrups * legs * pi * line.diameter**2 / 4 >= line.tie.steel.value * (1 - 1e-9)

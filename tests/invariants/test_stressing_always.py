"""What holds of every tendon that is stressed and measured."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from soffit.detail import elongation, order
from soffit.detail.measured import Reading, judge
from soffit.detail.stressing import sheet
from soffit.member.beam import Anchor, Profile, TendonGroup
from specimens import BAR, ROD, STRAND, beam, tendon

LENGTH = 18000.0


@st.composite
def tendons(draw: st.DrawFn) -> TendonGroup:
    heights = [draw(st.floats(40.0, 260.0)) for _ in range(3)]
    profile = Profile((0.0, LENGTH * draw(st.floats(0.2, 0.8)), LENGTH), tuple(heights), draw(SHAPES))
    steel = draw(st.sampled_from([STRAND, ROD, BAR]))
    return tendon(
        draw(st.floats(100.0, 2000.0)),
        profile,
        LENGTH,
        draw(st.floats(0.2, 0.85)) * steel.yield_strength,
        steel=steel,
        count=draw(st.integers(1, 4)),
        friction=draw(st.floats(0.0, 0.4)),
        wobble=draw(st.floats(0.0, 1e-5)),
        stress_is="at the jack",
        jacked_from=draw(st.sampled_from(["left", "right", "both"])),
        anchor=Anchor("wedge", 1e9, "", draw(st.floats(0.0, 8.0))),
    )


SHAPES = st.sampled_from(["straight", "parabola", "reversed"])


@given(tendons(), st.floats(0.0, 0.4))
@settings(max_examples=40, deadline=None)
def test_the_expected_elongation_implies_the_force_at_the_jack(made: TendonGroup, mark: float) -> None:
    """From whatever mark on: the elongation that the sheet expects is judged as the force of the sheet."""
    found = sheet(beam(LENGTH, tendons=(made,)))
    group = found.groups[0]
    early = elongation.pulled(made, mark * made.stress).total if mark > 1e-6 else 0.0
    verdict = judge(found, [Reading("A1", group.elongation - early, mark if mark > 1e-6 else 0.0)])[0]
    assert verdict.implied == pytest.approx(group.force, rel=1e-6)
    assert verdict.word == "agrees"


@given(tendons(), st.floats(0.3, 1.0), st.floats(0.3, 1.0))
@settings(max_examples=30, deadline=None)
def test_more_force_more_elongation(made: TendonGroup, a: float, b: float) -> None:
    less, more = sorted((a, b))
    stretch = elongation.stretch(made)
    short, long = stretch(less * made.stress), stretch(more * made.stress)
    assert short <= long
    assert stretch.inverse(short) == pytest.approx(less * made.stress, rel=1e-6)
    assert stretch.inverse(long) == pytest.approx(more * made.stress, rel=1e-6)


@given(tendons())
@settings(max_examples=30, deadline=None)
def test_friction_never_makes_it_longer_nor_two_jacks_shorter(made: TendonGroup) -> None:
    own = elongation.pulled(made)
    assert own.total <= elongation.pulled(replace(made, friction=0.0, wobble=0.0)).total * (1 + 1e-9)
    assert own.total == pytest.approx(own.left + own.right)
    assert elongation.pulled(replace(made, jacked_from="both")).total >= own.total * (1 - 1e-9)


@given(st.lists(tendons(), min_size=1, max_size=4), st.data())
@settings(max_examples=25, deadline=None)
def test_names_change_neither_order_nor_numbers(made: list[TendonGroup], data: st.DataObject) -> None:
    names = data.draw(st.permutations(["Z", "A", "cable 7", "mid"]))[: len(made)]
    renamed = [replace(t, name=name) for t, name in zip(made, names, strict=True)]
    plain, other = (sheet(beam(LENGTH, tendons=tuple(each))) for each in (made, renamed))
    told = [[(line.group.force, line.group.elongation, line.loss) for line in each.tendons] for each in (plain, other)]
    assert told[0] == told[1]
    assert len({line.name for line in other.tendons}) == len(other.tendons)


@given(st.lists(tendons(), min_size=1, max_size=4))
@settings(max_examples=25, deadline=None)
def test_the_last_loses_nothing_and_every_tendon_has_one_turn(made: list[TendonGroup]) -> None:
    whole = beam(LENGTH, tendons=tuple(made))
    turns = order.order(whole, "after curing")
    assert len(turns) == len(set(turns)) == sum(t.count for t in made)
    losses = [line.loss for line in sheet(whole).tendons]
    assert losses[-1] == 0.0
    assert np.all(np.isfinite(np.array(losses, dtype=float)))


@given(st.text(min_size=1, max_size=6), st.text(min_size=1, max_size=6), st.integers(1, 40), st.integers(1, 40))
def test_no_two_tendons_share_a_name(a: str, b: str, m: int, n: int) -> None:
    if (a, m) != (b, n):
        assert order.name(a, m) != order.name(b, n)

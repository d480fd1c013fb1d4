"""The same beam by every standard: strengths that mean the same lie close, and behave alike."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from tests import specimens

from soffit.codes.verification import STANDARDS, verify
from soffit.materials.properties import concrete
from soffit.member.beam import Load, Supports
from soffit.member.verifying import Verifying
from soffit.section.outline import rectangle

L = 6000.0
C30 = concrete(30.0, "specified", max_aggregate=16.0, density=2400.0)
FLAT = specimens.FLAT


def beam(load=30.0, count=4, **more):
    rows = (specimens.bars(count, 20.0, 50.0, L, FLAT), specimens.bars(2, 12.0, 455.0, L, FLAT))
    ties = (specimens.stirrups(L, 8.0, 150.0, steel=FLAT),)
    more = {"concrete": C30, "bars": rows, "stirrups": ties, "loads": (Load("live", load, 0.0, L),)} | more
    return specimens.beam(L, rectangle(300.0, 500.0), **more)


def check(made, standard, key="flexure-sagging"):
    return next(c for c in verify(made, standard, (key.split("-")[0],)).checks if c.key == key)


def test_bending_strengths_differ_by_their_factors_alone():
    # As fy z with 0.90 in the American standards and 1/1.15 in the European ones; lever arms within 3 %
    found = {standard: check(beam(), standard).resistance.value for standard in STANDARDS}
    reduced = {"aci318-19": 0.90, "aashto-lrfd": 0.90, "en1992": 1 / 1.15, "mc2010": 1 / 1.15}
    nominal = [found[s] / reduced[s] for s in STANDARDS]
    assert max(nominal) / min(nominal) < 1.03


@pytest.mark.parametrize("standard", STANDARDS)
def test_the_ratio_is_proportional_to_the_load(standard):
    one, two = check(beam(20.0), standard), check(beam(40.0), standard)
    assert two.ratio == pytest.approx(2.0 * one.ratio, rel=1e-9)
    assert two.resistance.value == pytest.approx(one.resistance.value, rel=1e-9)


@pytest.mark.parametrize("standard", STANDARDS)
def test_strength_grows_with_steel_until_the_concrete_governs(standard):
    strengths = [check(beam(count=n), standard).resistance.value for n in (2, 3, 4, 6, 8)]
    assert strengths == sorted(strengths)
    gains = [b - a for a, b in itertools.pairwise(strengths)]
    # each bar adds less than the one before it
    assert gains[1] < gains[0]


def test_the_two_editions_of_aci_agree_to_the_rounding_of_their_constants():
    si = verify(replace(beam(), verifying=Verifying(edition="SI")), "aci318-19")
    inch = verify(replace(beam(), verifying=Verifying(edition="inch-pound")), "aci318-19")
    mine, other = ({c.key: c for c in v.checks} for v in (si, inch))
    assert mine.keys() == other.keys()
    for key in ("flexure-sagging", "shear", "shear-least", "minimum-sagging"):
        if key in mine:
            assert mine[key].ratio == pytest.approx(other[key].ratio, rel=0.03), key
    assert mine["flexure-sagging"].ratio == pytest.approx(other["flexure-sagging"].ratio, rel=1e-3)


@pytest.mark.parametrize("standard", STANDARDS)
def test_a_mirrored_beam_has_the_same_checks(standard):
    loads = (Load("live", 20.0, 0.0, L), Load("live", 25e3, 1500.0, 1500.0))
    turned = (Load("live", 20.0, 0.0, L), Load("live", 25e3, L - 1500.0, L - 1500.0))
    one, two = ({c.key: c.ratio for c in verify(beam(loads=w), standard).checks} for w in (loads, turned))
    assert one.keys() == two.keys()
    for key, ratio in one.items():
        assert two[key] == pytest.approx(ratio, rel=1e-4), key


@pytest.mark.parametrize("standard", STANDARDS)
def test_every_working_is_its_formula(standard):
    """What is shown is what was computed, for every working of every check."""
    from soffit.codes.working import Symbol, evaluate, size

    count = 0
    for found in verify(beam(), standard).checks:
        for w in found.workings:
            own = tuple(Symbol(s.name, s.value / size(s.kind, w.system), s.kind, "") for s in w.symbols)
            assert w.value == pytest.approx(evaluate(w.formula, own) * size(w.kind, w.system), rel=1e-12, abs=1e-12), (
                w.name
            )
            count += 1
        assert found.demand in found.workings
    assert count > 30


@pytest.mark.parametrize("standard", STANDARDS)
def test_bars_of_a_cantilever_are_held_beyond_its_fixed_end(standard):
    # As fy z by hand, whatever anchors the bars in the wall is not in the file
    top = specimens.bars(3, 20.0, 455.0, 2000.0, FLAT, end_left="straight", end_right="straight")
    ties = (specimens.stirrups(2000.0, 8.0, 150.0, steel=FLAT),)
    made = specimens.beam(
        2000.0, rectangle(300.0, 500.0), concrete=C30, bars=(top,), stirrups=ties, supports=Supports((0.0,), True),
        loads=(Load("live", 15.0, 0.0, 2000.0),),
    )  # fmt: skip
    found = verify(made, standard)
    strength = next(c for c in found.checks if c.key == "flexure-hogging")
    assert strength.x == 0.0
    factor = {"aci318-19": 0.90, "aashto-lrfd": 0.90}.get(standard, 1 / 1.15)
    pull = 3 * 314.159265 * 500.0
    assert strength.resistance.value / factor == pytest.approx(
        pull * (455.0 - 0.5 * pull / (0.85 * 30.0 * 300.0)), rel=0.02
    )
    assert any("anchored beyond it" in text for text in found.assumptions)

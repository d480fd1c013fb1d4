"""What would cure a check that fails, and the check beside the life of the same beam."""

from __future__ import annotations

import numpy as np
import pytest
from tests import specimens

import soffit
from soffit.codes.crosscheck import crosscheck
from soffit.codes.cure import cures
from soffit.codes.verification import verify
from soffit.materials.properties import concrete
from soffit.member.beam import Load
from soffit.section.outline import rectangle, tee

L = 6000.0
C30 = concrete(30.0, "specified", max_aggregate=16.0, density=2400.0)


def beam(load, outline=None, spacing=150.0, count=4, **more):
    shape = outline or rectangle(300.0, 500.0)
    rows = (
        specimens.bars(count, 20.0, 50.0, L, specimens.FLAT),
        specimens.bars(2, 12.0, shape.depth - 45.0, L, specimens.FLAT),
    )
    ties = (specimens.stirrups(L, 8.0, spacing, steel=specimens.FLAT),)
    more = {"concrete": C30, "bars": rows, "stirrups": ties, "loads": (Load("live", load, 0.0, L),)} | more
    return specimens.beam(L, shape, **more)


def failing(checked, key):
    return next(c for c in checked.checks if c.key == key and not c.kept)


def test_the_cure_is_the_least_with_which_the_check_holds():
    checked = verify(beam(48.0), "mc2010")
    check = failing(checked, "flexure-sagging")
    found = {cure.kind: cure for cure in cures(checked, check)}
    assert "bars" in found
    for kind, cure in found.items():
        again = next(c for c in verify(cure.beam, "mc2010").checks if c.key == check.key)
        assert again.kept
        assert again.ratio == pytest.approx(cure.ratio)
        if kind == "bars":
            # one bar fewer does not do
            fewer = beam(48.0, count=round(4 + cure.amount - 1))
            assert not next(c for c in verify(fewer, "mc2010").checks if c.key == check.key).kept
        if kind == "depth":
            assert cure.beam.outline.depth == pytest.approx(500.0 + cure.amount)
            less = beam(48.0, rectangle(300.0, 500.0 + cure.amount - 10.0))
            assert not next(c for c in verify(less, "mc2010").checks if c.key == check.key).kept


def test_a_shear_failure_is_cured_by_closer_stirrups():
    checked = verify(beam(46.0, spacing=400.0, count=8), "mc2010")
    check = (
        failing(checked, "shear-level-3")
        if any(c.key == "shear-level-3" for c in checked.checks)
        else failing(checked, "shear-level-2")
    )
    kinds = {cure.kind: cure for cure in cures(checked, check)}
    assert "stirrups" in kinds
    assert kinds["stirrups"].beam.stirrups[0].spacing == kinds["stirrups"].amount < 400.0


def test_a_deeper_tee_keeps_its_flange_and_what_lies_at_the_top():
    from soffit.codes.cure import _deeper

    deeper = _deeper(beam(10.0, tee(600.0, 300.0, 900.0, 150.0)), 100.0)
    assert deeper.outline.depth == 700.0
    assert deeper.outline.width(660.0) == 900.0
    assert deeper.outline.width(540.0) == 300.0
    assert [bar.y for bar in deeper.bars] == [50.0, 655.0]


def test_nothing_is_cured_that_holds():
    checked = verify(beam(5.0), "mc2010")
    assert checked.governing.kept
    assert cures(checked, checked.governing) == ()


def test_the_life_lies_above_the_design_strength_and_fails_alike():
    made = beam(30.0)
    checked, life = verify(made, "mc2010"), soffit.life(made)
    found = crosscheck(checked, life)
    assert found.predicted == "bending"
    first = found.first
    assert first.family == "bending"
    assert first.effect == pytest.approx(life.peak.moment, rel=0.02)
    # mean over design strength: steel 1.15, lever arm nearly alike
    assert 1.1 < first.times < 1.35
    assert found.agree
    assert found.warnings == ()


def test_it_warns_where_the_check_and_the_life_would_not_fail_alike():
    # a short stout beam without stirrups: the life ends in shear, and only bending is asked of the standard
    made = beam(30.0, stirrups=(), count=8)
    life = soffit.life(made)
    assert life.failure.mode == "shear"
    found = crosscheck(verify(made, "mc2010", ("flexure",)), life)
    assert not found.agree
    assert any("find out why before either is trusted" in text for text in found.warnings)


def test_effects_at_the_peak_are_read_at_the_place_of_the_check():
    made = beam(30.0)
    life = soffit.life(made)
    row = next(r for r in crosscheck(verify(made, "mc2010"), life).rows if r.family == "shear")
    step = life.peak.step
    assert row.effect == pytest.approx(abs(np.interp(row.check.x, life.stations.x, life.stations.shear[step])))

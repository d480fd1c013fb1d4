"""Parts of the evidence: bands that a real break leaves, far wider than any claim of precision.

The numbers themselves are in docs/evidence.md, which ``make evidence`` writes from all rows. A band here comes from
what the data's own header says of them or from the spread that such tests are known to have, not from the last run.
"""

from __future__ import annotations

from functools import cache
from math import pi

import pytest
from evidence import bond, classic, curves, flexure, groups, plain, statics, tables, tensile, web
from evidence.found import find
from evidence.groups import Group
from evidence.page import page
from evidence.predicted import run
from evidence.specimen import Bars, Measured, Specimen
from evidence.statistics import modes, summary
from evidence.table import DATA, ROOT, rows

from soffit.beamfile import read_text


@cache
def graded() -> Group:
    tests = [t for t in flexure.flexure() if t[1].labels[0] == "A-"]
    return groups.group("bending", "A-", tests)


def test_bending() -> None:
    found = summary(graded().ratios)
    # the header: measured over calculated yield moment, median 1.10, from an independent elastic section
    assert 0.95 < found.mean < 1.25
    assert found.variation < 0.15
    right, known = modes(graded().outcomes)
    assert right >= 0.75 * known


def test_first_yield() -> None:
    pairs = [(o, o.yielding) for o in graded().outcomes if o.yielding]
    assert len(pairs) >= 10
    loads = summary(o.measured.yield_load / y[0] for o, y in pairs if o.measured.yield_load)
    # the header's own elastic check has medians of 1.10 (moment) and 1.25 (deflection, without shear and slip)
    assert 0.95 < loads.median < 1.25
    bends = summary(o.measured.yield_deflection / y[1] for o, y in pairs if o.measured.yield_deflection)
    assert 0.9 < bends.median < 1.5


def test_shear_without_stirrups() -> None:
    found = groups.group("bare web", "every fifth", web.without_stirrups()[::5])
    s = summary(found.ratios)
    assert s.n == 25
    assert 0.8 < s.mean < 1.35
    assert s.variation < 0.40
    right, known = modes(found.outcomes)
    assert right >= 0.7 * known


def test_shear_with_stirrups() -> None:
    found = groups.carried(groups.stirruped_webs())
    assert 5 <= len(found.outcomes) < 10
    assert 0.75 < summary(found.ratios).mean < 1.5


def test_bresler_and_scordelis() -> None:
    found = groups.group("classic", "all", classic.classic())
    s = summary(found.ratios)
    assert s.n == 12
    assert 0.85 < s.mean < 1.35
    assert s.variation < 0.2
    bare = [o for o in found.outcomes if o.specimen.stirrups is None]
    assert [o.mode for o in bare] == ["shear"] * 3


def test_plain_beams_break_as_they_crack() -> None:
    found = [run(*test) for test in plain.plain()]
    assert [o.mode for o in found] == ["first crack"] * 2
    # limits of the test itself: 4.28 to 5.21 kN
    assert 4280.0 < found[0].life.peak.load < 5212.0
    assert 0.7 < found[1].ratio < 1.2


def test_curve_of_the_five_metre_beam() -> None:
    sets, points = curves.five_metres()
    for o in sets.values():
        assert o.mode == "tension-controlled flexure"
        assert 0.95 < o.ratio < 1.2
        before = [p / q for d, p, q in curves.loads_at(o, points) if d < 20.0]
        assert len(before) == 6
        assert all(0.75 < r < 1.1 for r in before)
    # never softer than cracked from end to end
    load = points.load[4]
    assert curves.deflection_at(sets["a"], load) < curves.fully_cracked(sets["a"], load) * 1.1


def test_deflection_as_a_load_comes_on() -> None:
    seen, said = curves.first_loading()
    assert 0.7 < seen / said < 1.3


def test_bond_law() -> None:
    usual = [b.ratio for b in bond.bond() if not b.plain and b.embedment <= 10.0]
    assert len(usual) > 20
    assert 0.9 < summary(usual).mean < 1.7


def test_derived_tensile_strength() -> None:
    s = summary(p.tensile / p.derived for p in tensile.pairs())
    assert s.n > 200
    assert 0.9 < s.mean < 1.15
    assert s.variation < 0.2


@pytest.mark.long
def test_the_page_is_what_the_command_writes() -> None:
    assert page(find()) == (ROOT / "docs" / "evidence.md").read_text(encoding="utf-8")


# ---- the bookkeeping itself ----


def test_statistics_by_hand() -> None:
    s = summary([1.0, 1.1, 1.3, 1.0])
    assert (s.n, s.mean, s.median) == (4, pytest.approx(1.1), pytest.approx(1.05))
    # deviations −0.1, 0, 0.2, −0.1: sum of squares 0.06 over 3
    assert s.variation == pytest.approx((0.06 / 3) ** 0.5 / 1.1)
    with pytest.raises(ValueError, match="mean"):
        summary([])


def test_every_row_is_counted() -> None:
    listed = sum(1 for _ in rows("rc_beams_intact_yield_deflection_149"))
    assert len(flexure.flexure()) + len(flexure.left_out()) == listed
    assert flexure.left_out() == ["M284"]


def test_a_row_becomes_the_beam_it_describes() -> None:
    made = {s.id: s for s, _ in flexure.flexure()}["M028"]
    beam = read_text(made.text())
    tension, top = beam.bars
    assert tension.area == pytest.approx(3 * pi * 13.0**2 / 4)
    assert (tension.y, top.y) == (30.0, 220.0)
    assert (tension.steel.yield_strength, tension.steel.tensile) == (343.0, 477.0)
    assert beam.concrete.strength == 39.2  # a cylinder's
    assert beam.stirrups[0].area == pytest.approx(2 * pi * 6.0**2 / 4)
    assert beam.press is not None
    assert [p - beam.supports.x[0] for p in beam.press.points] == [750.0, 1250.0]
    cube = {s.id: s for s, _ in flexure.flexure()}["M032"]
    assert read_text(cube.text()).concrete.strength == pytest.approx(0.8 * 40.0)


def test_equilibrium_bounds_the_moment() -> None:
    bars = Bars(2, 10.0, 30.0, 400.0, 500.0)
    beam = Specimen("S", 100.0, 200.0, 1200.0, (400.0, 800.0), 30.0, (bars,))
    bound = 2 * pi * 25.0 * 500.0 * 170.0
    for share, beyond in ((0.99, False), (1.01, True)):
        outcome = run(beam, Measured(share * bound / 400.0 * 2, "flexure"))
        assert statics.most(outcome) == pytest.approx(bound)
        assert statics.moment(outcome) == pytest.approx(share * bound)
        assert statics.impossible(outcome) is beyond


def test_tables_hold_every_beam() -> None:
    assert len(tables.every_beam([graded()]).splitlines()) == 1 + len(graded().outcomes)
    assert tables.markdown(("a", "b"), [["x", "1"]]).splitlines() == ["| a | b |", "| --- | ---: |", "| x | 1 |"]


@pytest.mark.parametrize("path", sorted(DATA.glob("*.csv")), ids=lambda p: p.stem)
def test_every_file_says_where_it_comes_from(path: object) -> None:
    first = str(DATA.joinpath(str(path)).read_text(encoding="utf-8")).splitlines()[0]
    assert first.startswith("# ")
    assert "SEEN" in first or "MEMORY" in first


def test_notices_are_kept() -> None:
    text = (DATA / "LICENCES.txt").read_text(encoding="utf-8")
    assert "Copyright (c) 2024 Mark Hobbs" in text
    assert "Permission is hereby granted, free of charge" in text

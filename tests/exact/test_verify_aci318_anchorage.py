"""Development, bars at supports, curtailment and laps by ACI 318-19 against plain arithmetic; the common mistakes."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sqrt

import pytest
from tests.specimens import CONCRETE, FLAT, bars, beam, stirrups, uniform

from soffit.codes.aci318 import values
from soffit.codes.aci318.development import developed, development
from soffit.codes.design import Design
from soffit.codes.verification import verify
from soffit.codes.working import Check
from soffit.materials.standards import PSI
from soffit.member.beam import BarGroup, Beam, Supports
from soffit.member.verifying import Verifying
from soffit.section.outline import rectangle

IN = 25.4
L = 6000.0
C30 = replace(CONCRETE, specified=30.0, strength=38.0)
GRADE_60 = replace(FLAT, yield_strength=60e3 * PSI, tensile=60e3 * PSI)
US = Verifying(edition="inch-pound")


def plain(**more) -> Beam:
    held = Supports((150.0, L - 150.0), bearing=200.0)
    more = {"concrete": C30, "loads": (uniform(L, 30.0, "dead"),), "supports": held,
            "bars": (straight(4, 20.0, 53.0),)} | more  # fmt: skip
    return beam(L, more.pop("outline", rectangle(300.0, 600.0)), **more)


def straight(count: int, diameter: float, y: float, **more) -> BarGroup:
    return bars(count, diameter, y, L, **({"steel": FLAT, "end_left": "straight", "end_right": "straight"} | more))


def design(b: Beam) -> Design:
    return Design(b, "aci318-19", values.opened(b))


def checks(b: Beam, *keys: str) -> dict[str, Check]:
    return {c.key: c for c in verify(b, "aci318-19", keys).checks}


def test_mistake_7_the_hook_grows_with_the_diameter_to_the_power_of_one_and_a_half():
    """2019: fy ψr ψo ψc/(55 √f'c) db^1.5, not 0.02 fy/√f'c db; four bars close together, 1.6 · 1.25."""
    b = plain(verifying=US, bars=(straight(4, 20.0, 53.0, end_left="hook", end_right="hook"),))
    d = design(b)
    psi, fy, db = 30.0 / PSI, 500.0 / PSI, 20.0 / IN
    by_hand = fy * 1.25 * (psi / 15000 + 0.6) / (55 * sqrt(psi)) * db**1.5 * IN  # 67 mm apart: not 6 db = 120
    found = development(d, b.bars[0], "left")
    assert found is not None
    gap = (300 - 2 * 43 - 4 * 20) / 3 + 20
    assert gap < 120
    assert found.length.value == pytest.approx(1.6 * by_hand, rel=1e-12)
    alone = plain(verifying=US, bars=(straight(1, 20.0, 53.0, end_left="hook", end_right="hook"),))
    one = development(design(alone), alone.bars[0], "left")
    # one bar in the middle of 300 mm: 140 mm of cover at its sides, more than 6 db, and no neighbour
    assert one is not None
    assert one.length.value == pytest.approx(by_hand / 1.25, rel=1e-12)


def test_mistake_7_the_grade_has_a_factor_and_the_cover_a_cap():
    """ℓd = 3/40 fy/√f'c ψg/2.5 db with ψg = 1.0, 1.15, 1.3 for Grades 60, 80, 100; (cb + Ktr)/db stays at 2.5."""
    psi = 30.0 / PSI
    for ksi, factor in ((60, 1.0), (80, 1.15), (100, 1.3)):
        steel = replace(FLAT, yield_strength=ksi * 1e3 * PSI, tensile=ksi * 1e3 * PSI)
        # No. 8 bars, 3 in from all, so (cb + Ktr)/db would be 3
        b = plain(verifying=US, outline=rectangle(700.0, 600.0), bars=(straight(2, IN, 3.0 * IN, steel=steel),))
        found = development(design(b), b.bars[0], "left")
        assert found is not None
        by_hand = 3 / 40 * ksi * 1e3 / sqrt(psi) * factor / 2.5 * IN
        assert found.length.value == pytest.approx(by_hand, rel=1e-12)


def test_no_factor_is_given_beyond_grade_100():
    steel = replace(FLAT, yield_strength=800.0, tensile=900.0)
    b = plain(bars=(straight(4, 20.0, 53.0, steel=steel),))
    found = verify(b, "aci318-19", ("development",)).unchecked
    assert [u.scope for u in found] == [True]
    assert found[0].why.endswith("there is no ψg for bars above Grade 100 (690 MPa)")
    assert developed(design(b), design(b).cut(L / 2).bars[0]) == 0.0


def test_stirrups_hold_a_bar_together_and_only_where_they_stand():
    """Ktr = 40 Atr/(s n)."""
    thick = straight(4, 28.0, 53.0)
    bare, held = plain(bars=(thick,)), plain(bars=(thick,), stirrups=(stirrups(L, 8.0, 150.0),))
    partly = plain(bars=(thick,), stirrups=(stirrups(L, 8.0, 150.0, x_from=900.0),))
    lengths = []
    for b in (bare, held, partly):
        found = development(design(b), b.bars[0], "left")
        assert found is not None
        lengths.append(found.length.value)
    cb = min(53.0, (300 - 2 * 39 - 28) / 3 / 2)
    ktr = 40 * 2 * pi / 4 * 64 / (150 * 4)
    by_hand = [500 / (1.1 * sqrt(30)) * 1.15 / ((cb + k) / 28) * 28 for k in (0.0, ktr)]
    assert lengths == pytest.approx([*by_hand, by_hand[0]], rel=1e-12)


def test_bars_above_much_fresh_concrete_want_longer():
    b = plain(bars=(straight(2, 16.0, 547.0), straight(2, 16.0, 53.0)))
    top, low = (development(design(b), bar, "left") for bar in b.bars)
    assert top is not None
    assert low is not None
    assert top.uncut.value == pytest.approx(1.3 * low.uncut.value, rel=1e-12)


def test_strong_concrete_counts_to_100_psi_of_its_root():
    b = plain(concrete=replace(C30, specified=100.0, strength=108.0), verifying=US)
    found = development(design(b), b.bars[0], "left")
    capped = plain(concrete=replace(C30, specified=1e4 * PSI, strength=80.0), verifying=US)
    same = development(design(capped), capped.bars[0], "left")
    assert found is not None
    assert same is not None
    assert found.length.value == pytest.approx(same.length.value, rel=1e-12)


def test_mistake_8_the_lap_has_the_least_length_and_not_the_development_in_it():
    """No. 3 bars of Grade 60 far from everything: ℓd before its least is 6.6 in; the lap is 12 in, not 1.3 · 12 in."""
    b = plain(
        verifying=Verifying(edition="inch-pound", laps=1.0, lap_at=(L / 2,)), loads=(uniform(L, 1.0, "dead"),),
        bars=(straight(3, 9.525, 60.0, steel=GRADE_60),),
    )  # fmt: skip
    lap = checks(b, "laps")["laps-1"]
    uncut = 3 / 40 * 60e3 / sqrt(30.0 / PSI) * 0.8 / 2.5 * 0.375
    assert 1.3 * uncut < 12.0
    assert lap.demand.value == pytest.approx(12.0 * IN, rel=1e-12)
    assert lap.resistance.value == L


def test_a_lap_is_of_class_a_only_with_twice_the_steel_and_half_of_it_lapped():
    def lap(load: float, share: float) -> float:
        chosen = Verifying(laps=share, lap_at=(L / 2,))
        found = checks(plain(verifying=chosen, loads=(uniform(L, load, "dead"),)), "laps")["laps-1"]
        return found.demand.value

    b = plain()
    found = development(design(b), b.bars[0], "left")
    assert found is not None
    ld = found.uncut.value
    # φMn = 0.9 · 332 kNm; 1.4 (4.4 + w) 5.7²/8
    assert lap(20.0, 0.5) == pytest.approx(ld, rel=1e-12)
    assert lap(20.0, 0.6) == pytest.approx(1.3 * ld, rel=1e-12)
    assert lap(40.0, 0.5) == pytest.approx(1.3 * ld, rel=1e-12)


def test_bond_at_a_simple_support_by_hand():
    """ℓd ≤ 1.3 Mn/Vu + ℓa; 4 φ20, 300 × 600, d = 547."""
    found = checks(plain(), "support-bars")["support-bars-bond"]
    pull = 4 * pi / 4 * 400 * 500
    mn = pull * (547 - pull / (0.85 * 30 * 300) / 2)
    # self weight is left out; Vu = 1.4 w l/2 beside the support of a beam with 150 mm beyond it
    vu = 1.4 * 30.0 * (L / 2 - 151.0)
    assert found.resistance.value == pytest.approx(1.3 * mn / vu + 150.0, rel=1e-4)


def test_a_third_of_the_bars_goes_into_a_simple_support():
    b = plain(bars=(straight(1, 20.0, 53.0), straight(3, 20.0, 53.0, x_from=700.0, x_to=L - 700.0)))
    found = checks(b, "support-bars")["support-bars-share"]
    assert found.ratio == pytest.approx(4 / 3)


def test_bars_end_beyond_where_the_others_suffice_by_hand():
    """Half of the bars ends; with w the place where 0.9 Mn of the others bears 1.4 w x (l − x)/2 is known."""
    ends = (1200.0, L - 1200.0)
    b = plain(bars=(straight(2, 20.0, 53.0), straight(2, 20.0, 53.0, x_from=ends[0], x_to=ends[1])))
    found = checks(b, "curtailment")["curtailment-past"]
    pull = 2 * pi / 4 * 400 * 500
    bears = 0.9 * pull * (547 - pull / (0.85 * 30 * 300) / 2)
    w, span = 1.4 * 30.0, L - 300.0
    # the moment over the supports, −1.4 w 150²/2, is taken off all along
    from_support = span / 2 - sqrt(span**2 / 4 - 2 * (bears / w + 150.0**2 / 2))
    assert found.resistance.value == pytest.approx(from_support + 150.0 - ends[0], abs=5.0)
    assert found.demand.value == 547.0


def test_a_bar_has_developed_in_proportion_on_its_weaker_side():
    b = plain()
    d = design(b)
    found = development(d, b.bars[0], "left")
    assert found is not None
    ld = found.length.value
    for x in (0.25 * ld, L - 0.25 * ld):
        assert developed(d, d.cut(x).bars[0]) == pytest.approx(0.25, rel=1e-9)
    assert developed(d, d.cut(L / 2).bars[0]) == 1.0
    plates = plain(bars=(bars(4, 20.0, 53.0, L, FLAT),))
    assert developed(design(plates), design(plates).cut(1.0).bars[0]) == 1.0


def test_plain_bars_are_not_for_this_standard():
    found = verify(plain(bars=(straight(4, 20.0, 53.0, surface="plain"),)), "aci318-19", ("development",))
    assert [(u.scope, u.clause) for u in found.unchecked] == [(True, "ACI 318M-19 20.2.1.1")]

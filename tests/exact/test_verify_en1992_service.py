"""Service, anchorage, detailing and fire by EN 1992 against plain arithmetic; the mistakes that are often made."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sqrt

import numpy as np
import pytest
from tests.specimens import CONCRETE, FIBRE, FLAT, bars, beam, stirrups, tendon, uniform

from soffit.codes.design import Design
from soffit.codes.en1992 import (
    bond,
    cracks,
    curtailment,
    laps,
    longterm,
    sagging,
    service,
    transfer,
    transmission,
    values,
)
from soffit.codes.verification import verify
from soffit.codes.working import Check, Unchecked
from soffit.member import statics
from soffit.member.beam import Beam, Supports
from soffit.member.verifying import Verifying
from soffit.section.outline import i_section, rectangle, tee

L = 8000.0
C30 = replace(CONCRETE, specified=30.0, strength=38.0)
C40 = replace(CONCRETE, specified=40.0, strength=48.0, strength_at_transfer=38.0)
LOW = bars(4, 20.0, 53.0, L, FLAT)


def design(b: Beam) -> Design:
    return Design(b, "en1992", values.opened(b))


def plain(**more) -> Beam:
    more = {"concrete": C30, "bars": (LOW,), "loads": (uniform(L, 18.0, "dead"),), "stirrups": (stirrups(L),)} | more
    return beam(L, more.pop("outline", rectangle(300.0, 600.0)), **more)


def checks(b: Beam, *keys: str) -> dict[str, Check]:
    return {c.key: c for c in verify(b, "en1992", keys).checks}


def named(check: Check, name: str) -> float:
    return next(w.value for w in check.workings if w.name == name)


# -- cracks ------------------------------------------------------------------------------------------------------------


def hand_width(kt: float = 0.4) -> float:
    """wk of ``plain``: 300 × 600, 4 φ20 at d = 547, M = 18 · 8²/8 = 144 kNm, by hand."""
    fcm = 38.0
    # φ(∞, 28): h0 = 2·300·600/1800 = 200 mm, RH 50 %, factors (35/fcm) count above 35 MPa
    dry = (1 + (35 / fcm) ** 0.7 * 0.5 / (0.1 * 200 ** (1 / 3))) * (35 / fcm) ** 0.2
    phi = dry * 16.8 / sqrt(fcm) / (0.1 + 28**0.20)
    ecm = 22000 * (fcm / 10) ** 0.3
    steel, n = 4 * pi / 4 * 20**2, 200000 * (1 + phi) / ecm
    x = (-n * steel + sqrt((n * steel) ** 2 + 2 * 300 * n * steel * 547)) / 300
    inertia = 300 * x**3 / 3 + n * steel * (547 - x) ** 2
    stress = n * 144e6 * (547 - x) / inertia
    high = min(2.5 * 53, (600 - x) / 3, 300)
    ratio = steel / (300 * high)
    fct = 0.3 * 30 ** (2 / 3)
    strain = max((stress - kt * fct / ratio * (1 + 200000 / ecm * ratio)) / 200000, 0.6 * stress / 200000)
    return (3.4 * 43 + 0.8 * 0.5 * 0.425 * 20 / ratio) * strain


def test_a_crack_width_by_hand():
    found = checks(plain(), "cracks")["cracks-sagging"]
    assert found.demand.value == pytest.approx(hand_width(), rel=1e-9)
    assert found.resistance.value == 0.4  # XC1


def test_mistake_19_the_effective_depth_has_three_terms():
    """(h − x)/3 governs where the bars lie high and the section is shallow, h/2 where it is shallower still."""
    shallow = plain(outline=rectangle(600.0, 250.0), bars=(bars(8, 16.0, 60.0, L, FLAT),),
                    loads=(uniform(L, 6.0, "dead"),))  # fmt: skip
    found = checks(shallow, "cracks")["cracks-sagging"]
    x = named(found, "x")
    assert named(found, "hc,ef") == pytest.approx((250.0 - x) / 3.0)
    assert (250.0 - x) / 3.0 < 2.5 * 60.0


def test_mistake_19_kt_is_that_of_loads_that_last():
    assert hand_width(0.4) != pytest.approx(hand_width(0.6), rel=0.01)
    assert "0.4" in next(w for w in checks(plain(), "cracks")["cracks-sagging"].workings if w.name == "Δεt").written(
        lambda s: f"{s.value:.3g}"
    )


def test_mistake_19_the_strain_has_a_lower_bound():
    """Little more than cracking: the concrete between cracks would take nearly all, and 0.6 σs/Es stays."""
    found = checks(plain(bars=(bars(2, 20.0, 53.0, L, FLAT),), loads=(uniform(L, 7.0, "dead"),)), "cracks")
    c = found["cracks-sagging"]
    assert named(c, "Δε") == pytest.approx(0.6 * named(c, "σs") / 200000.0)
    assert named(c, "Δεt") < named(c, "Δε")


def test_mistake_19_the_cover_is_that_of_the_bar_and_not_of_the_stirrup():
    thick, thin = (checks(plain(stirrups=s), "cracks")["cracks-sagging"] for s in ((stirrups(L, 16.0),), ()))
    assert thick.demand.value == thin.demand.value


def test_bars_far_apart_have_cracks_as_if_there_were_none():
    far = plain(outline=rectangle(1200.0, 300.0), bars=(bars(3, 20.0, 40.0, L, FLAT),),
                loads=(uniform(L, 8.0, "dead"),))  # fmt: skip
    found = checks(far, "cracks")["cracks-sagging"]
    assert named(found, "sr,max") == pytest.approx(1.3 * (300.0 - named(found, "x")))


@pytest.mark.parametrize(
    ("exposure", "prestressed", "width", "decompression"),
    [((), False, 0.4, None), (("XC3",), False, 0.3, None), (("XD1", "XC1"), False, 0.3, None),
     ((), True, 0.2, None), (("XC4",), True, 0.2, "quasi-permanent"), (("XS1",), True, None, "frequent")],
)  # fmt: skip
def test_what_table_7_1n_asks(exposure, prestressed, width, decompression):
    strands = (tendon(600.0, 80.0, L, 1000.0, when="before casting", bond="bonded"),) if prestressed else ()
    asked = cracks.wanted(design(plain(tendons=strands, verifying=Verifying(exposure=exposure))))
    assert (asked.width, asked.decompression) == (width, decompression)


def test_the_decompression_moment_leaves_no_stress():
    strands = tendon(600.0, 100.0, L, 1000.0, when="before casting", bond="bonded", count=6)
    b = plain(concrete=C40, bars=(), tendons=(strands,), verifying=Verifying(exposure=("XC4",)))
    found = checks(b, "decompression")["decompression-sagging"]
    p, area, inertia = 0.95 * 600.0 * 1000.0, 300.0 * 600.0, 300.0 * 600.0**3 / 12.0
    y = 300.0 - (100.0 - 12.5 / 2 - 25.0)  # from the centroid down to 25 mm below the strand
    stress = -p / area + (found.resistance.value - p * 200.0) * y / inertia
    assert stress == pytest.approx(0.0, abs=1e-9)


def test_a_cracked_prestressed_section_is_in_equilibrium():
    """Without mild steel, at twice the decompression moment: C = T, and their couple is the moment."""
    strands = tendon(600.0, 100.0, L, 1000.0, when="before casting", bond="bonded", count=6)
    d = design(plain(concrete=C40, bars=(), tendons=(strands,)))
    cut, modulus, moment = d.cut(L / 2), 20000.0, 350e6
    found = service.crack(d, cut, moment, modulus, low=None)
    assert found is not None
    push = 0.5 * found.concrete * found.depth * 300.0
    locked = 1000.0 + 195000.0 / d.modulus * (600e3 / 180000.0 + 600e3 * 200.0**2 / (300.0 * 600.0**3 / 12))
    pull = 600.0 * (locked + found.steel(500.0, 195000.0))
    assert push == pytest.approx(pull, rel=1e-6)
    assert pull * (500.0 - found.depth / 3.0) == pytest.approx(moment, rel=1e-6)


# -- deflection and long-term values -----------------------------------------------------------------------------------


def test_mistake_13_creep_has_its_factors_above_35_mpa_alone():
    weak = replace(CONCRETE, specified=20.0, strength=28.0)
    phi = longterm.longterm(design(plain(concrete=weak))).creep.value
    by_hand = (1 + 0.5 / (0.1 * 200 ** (1 / 3))) * 16.8 / sqrt(28.0) / (0.1 + 28**0.20)
    assert phi == pytest.approx(by_hand)


def test_creep_and_shrinkage_are_those_of_the_ageing_model():
    from soffit.materials.ageing.en1992 import En1992

    found, law = longterm.longterm(design(plain())), En1992(38.0, 50.0, 200.0, "N", 7.0)
    assert found.creep.value == pytest.approx(float(law.creep(1e9, 28.0)), rel=1e-4)
    assert found.shrinkage.value == pytest.approx(float(law.drying(1e9) + law.autogenous(1e9)), rel=1e-4)


def test_an_uncracked_beam_sags_as_the_closed_form_says():
    b = plain(loads=(uniform(L, 4.0, "dead"),))
    found = checks(b, "sagging")["sagging-total"]
    ec = named(found, "Ec,eff")
    n, steel = 200000.0 / ec, LOW.area
    area = 300.0 * 600.0 + (n - 1) * steel
    c = (300.0 * 600.0 * 300.0 + (n - 1) * steel * 53.0) / area
    inertia = 300.0 * 600.0**3 / 12 + 180000.0 * (300.0 - c) ** 2 + (n - 1) * steel * (c - 53.0) ** 2
    assert named(found, "w1") == pytest.approx(5 * 4.0 * L**4 / (384 * ec * inertia), rel=1e-3)
    shrunk = named(found, "εcs") * n * steel * (c - 53.0) / inertia * L**2 / 8
    assert found.demand.value - named(found, "w1") == pytest.approx(shrunk, rel=1e-6)


def test_a_cracked_beam_sags_as_its_curvatures_integrated_by_hand():
    b = plain(stirrups=())
    found = checks(b, "sagging")["sagging-total"]
    ec, eps = named(found, "Ec,eff"), named(found, "εcs")
    n, steel = 200000.0 / ec, LOW.area
    area = 300.0 * 600.0 + (n - 1) * steel
    c = (180000.0 * 300.0 + (n - 1) * steel * 53.0) / area
    whole = 300.0 * 600.0**3 / 12 + 180000.0 * (300.0 - c) ** 2 + (n - 1) * steel * (c - 53.0) ** 2
    x = (-n * steel + sqrt((n * steel) ** 2 + 600 * n * steel * 547)) / 300
    split = 300 * x**3 / 3 + n * steel * (547 - x) ** 2
    at = np.linspace(0.0, L, 4001)
    m = 9.0 * at * (L - at)
    mcr = 0.3 * 30 ** (2 / 3) * 300 * 600**2 / 6
    zeta = np.where(m > mcr, 1 - 0.5 * (mcr / np.maximum(m, 1.0)) ** 2, 0.0)
    one = m / (ec * whole) + eps * n * steel * (c - 53.0) / whole
    two = m / (ec * split) + eps * n * steel * (547 - x) / split
    k = zeta * two + (1 - zeta) * one
    w = np.trapezoid(k * np.minimum(at, L - at) / 2, at)
    assert found.demand.value == pytest.approx(float(w), rel=3e-3)


def test_the_inner_support_of_a_cracked_continuous_beam_does_not_move():
    b = beam(2 * L, rectangle(300.0, 600.0), supports=Supports((0.0, L, 2 * L)), concrete=C30,
             bars=(bars(4, 20.0, 53.0, 2 * L, FLAT), bars(2, 20.0, 547.0, 2 * L, FLAT)),
             loads=(uniform(2 * L, 25.0, "dead"),))  # fmt: skip
    made = design(b)
    bent = sagging.Bent(made)
    m = made.actions.permanent()
    k = bent.curvature(m, m, 10000.0, 4e-4, 0.5)
    w = statics.deflection(made.actions.x, k, b.supports)
    flat = np.asarray(w).ravel()
    assert float(np.interp(L, made.actions.x, flat)) == pytest.approx(0.0, abs=1e-6 * float(flat.max()))
    assert flat.max() > 1.0


def test_mistake_20_the_stress_of_310_mpa_is_compared_with_the_computed_one():
    found = checks(plain(), "slenderness")["slenderness"]
    assert named(found, "f1") == pytest.approx(310.0 / named(found, "σs"))
    assert named(found, "ρ0") == pytest.approx(sqrt(30.0) / 1000.0)
    assert 0.0 < named(found, "ρ") < 0.02


def test_a_wide_flange_and_a_long_span_with_partitions_want_less():
    wide = plain(outline=tee(600.0, 300.0, 1200.0, 150.0), verifying=Verifying(finishes="fragile"))
    found = checks(wide, "slenderness")["slenderness"]
    assert named(found, "f2") == 0.8
    assert named(found, "f3") == pytest.approx(7.0 / 8.0)


# -- anchorage ---------------------------------------------------------------------------------------------------------


def straight(**more) -> Beam:
    low = bars(2, 20.0, 53.0, L, FLAT, end_left="straight", end_right="straight", **more)
    return plain(bars=(low,), stirrups=())


def test_an_anchorage_length_by_hand():
    """φ 20, C30, good: fbd 2.25 · 0.7 · 2.896/1.5 = 3.04; lb,rqd = 5 · 434.8/3.04 = 714.8; cd = 43: α2 = 0.8275."""
    d = design(straight())
    full = bond.full(d, d.beam.bars[0], 0, "left")
    assert full == pytest.approx(20 / 4 * (500 / 1.15) / (2.25 * 0.7 * 0.3 * 30 ** (2 / 3) / 1.5) * 0.8275)
    cut = d.cut(300.0)
    assert bond.developed(d, cut.bars[0]) == pytest.approx(300.0 / full)
    assert bond.developed(d, d.cut(L / 2).bars[0]) == 1.0


def test_all_bars_of_a_layer_share_its_width():
    """Two groups of two stand as four: (300 − 2 · 43 − 80)/3 = 44.7 mm apart, so cd is 22.3 mm and not 43."""
    low = bars(2, 20.0, 53.0, L, FLAT, end_left="straight", end_right="straight")
    d = design(plain(bars=(low, replace(low, x_from=500.0)), stirrups=()))
    a2 = 1 - 0.15 * ((300 - 2 * 43 - 80) / 3 / 2 - 20) / 20
    assert bond.full(d, low, 0, "left") == pytest.approx(714.799 * a2, rel=1e-5)


def test_bars_high_in_a_section_have_poor_bond():
    """Figure 8.2: all is good to 250 mm of depth; the lower 250 mm to 600; all but the upper 300 beyond."""
    assert [bond.settles_little(250.0, 240.0), bond.settles_little(500.0, 251.0), bond.settles_little(700.0, 399.0),
            bond.settles_little(700.0, 401.0)] == [True, False, True, False]  # fmt: skip


def test_hooks_halve_nothing_unless_the_cover_is_wide():
    """α1 = 0.7 needs cd > 3 φ; else a hook has no more than the 5 φ of its tail."""
    d = design(plain(bars=(bars(2, 12.0, 53.0, L, FLAT, end_left="hook", end_right="straight"),), stirrups=()))
    basic = 12 / 4 * (500 / 1.15) / (2.25 * 0.7 * 0.3 * 30 ** (2 / 3) / 1.5)
    # side cover 47 mm > 36 mm
    a2 = 1 - 0.15 * (47 - 36) / 12
    assert bond.full(d, d.beam.bars[0], 0, "left") == pytest.approx(min(0.7 * basic, 0.7 * a2 * basic - 60.0))


def test_a_welded_plate_holds_all_and_a_plain_bar_nothing():
    d = design(plain(bars=(replace(LOW, surface="plain", end_left="hook"),)))
    assert bond.developed(d, d.cut(L / 2).bars[0]) == 0.0
    plates = design(plain(bars=(replace(LOW, surface="plain"),)))
    assert bond.developed(plates, plates.cut(L / 2).bars[0]) == 1.0
    found = verify(d.beam, "en1992", ["end-anchorage"]).unchecked
    assert found[0].why == "3.2.2 and 8.4 are for ribbed bars: plain ones count with welded plates alone"
    assert found[0].scope


def test_mistake_21_laps_have_no_alpha_4_and_count_the_bars_lapped_there():
    d = design(straight())
    _, half = laps.length(d, d.cut(L / 2).bars[0], 0.5)
    _, quarter = laps.length(d, d.cut(L / 2).bars[0], 0.25)
    assert "α4" not in half.formula
    assert half.value / quarter.value == pytest.approx(sqrt(2.0))
    _, every = laps.length(d, d.cut(L / 2).bars[0], 1.0)
    assert every.value / quarter.value == pytest.approx(1.5)


def test_mistake_22_the_short_length_is_for_release_and_the_long_one_for_strength():
    strands = tendon(600.0, 100.0, L, 1000.0, when="before casting", bond="bonded", count=6)
    b = plain(concrete=C40, bars=(), tendons=(strands,))
    d = design(b)
    found = transmission.transmission(d, 0)
    assert found.short.value == pytest.approx(0.8 * found.basic.value)
    assert found.long.value == pytest.approx(1.2 * found.basic.value)
    assert found.stress(found.long.value) == pytest.approx(found.final.value)
    assert found.stress(found.short.value) < found.final.value
    # the whole prestress, times rsup, presses at lpt1 already
    press = next(c for c in transfer.concrete(d) if isinstance(c, Check) and c.key == "transfer-compression")
    assert named(press, "P") == pytest.approx(1.05 * 600.0 * found.released.value)


def test_the_tension_is_that_of_a_place_shifted_towards_the_middle():
    """The cut-off bars: at 1.5 m the tension is M(1.5 m + al)/(0.9 d), with al = 0.45 d · 2.5."""
    long = bars(2, 20.0, 53.0, L, FLAT)
    short = bars(2, 20.0, 53.0, L, FLAT, x_from=1500.0, x_to=L - 1500.0, end_left="straight", end_right="straight")
    b = plain(bars=(long, short), loads=(uniform(L, 25.0, "dead"),), verifying=Verifying(stirrup_angle=2.5))
    found = next(iter(curtailment.curtailment(design(b))))
    x = found.x if found.x < L / 2 else L - found.x
    al = 0.45 * 547.0 * 2.5
    at = min(x + al, L / 2)
    assert found.demand.value == pytest.approx(1.35 * 12.5 * at * (L - at) / (0.9 * 547.0), rel=2e-3)
    assert x <= 1500.0 + bond.full(design(b), short, 1, "left")
    assert found.ratio > checks(plain(loads=(uniform(L, 25.0, "dead"),)), "curtailment")["curtailment-sagging"].ratio


# -- stresses at transfer, cover, distances, fire ----------------------------------------------------------------------


def test_stresses_at_transfer_by_hand():
    post = tendon(800.0, 120.0, L, 1000.0, bond="bonded", duct=60.0)
    d = design(plain(concrete=C40, bars=(), tendons=(post,)))
    found = {c.key: c for c in transfer.concrete(d) if isinstance(c, Check)}
    p, w = 1.10 * 800e3, 300.0 * 600.0**2 / 6
    assert found["transfer-compression"].demand.value == pytest.approx(p / 180000.0 + p * 180.0 / w)
    assert found["transfer-compression"].resistance.value == pytest.approx(0.6 * 30.0)
    assert found["transfer-tension"].demand.value == pytest.approx(p * 180.0 / w - p / 180000.0)
    assert found["transfer-tension"].resistance.value == pytest.approx(38.0 / 48.0 * 0.3 * 40 ** (2 / 3))


@pytest.mark.parametrize(
    ("exposure", "life", "shape", "fck", "need"),
    [("XC3", 50.0, "beam", 30.0, 35.0), ("XC3", 100.0, "beam", 30.0, 45.0), ("XC3", 50.0, "slab", 30.0, 30.0),
     ("XC3", 50.0, "beam", 35.0, 30.0), ("XD3", 50.0, "beam", 35.0, 55.0), ("XC1", 50.0, "slab", 30.0, 30.0)],
)  # fmt: skip
def test_the_nominal_cover_by_structural_class(exposure, life, shape, fck, need):
    made = replace(CONCRETE, specified=fck, strength=fck + 8.0)
    b = plain(concrete=made, stirrups=(), verifying=Verifying(exposure=(exposure,), working_life=life, shape=shape))
    assert checks(b, "cover")["cover-bars"].demand.value == pytest.approx(need)


def test_bars_that_stand_too_close_fail():
    assert checks(plain(bars=(bars(9, 20.0, 53.0, L, FLAT),)), "spacing")["spacing-bars"].ratio > 1.0
    assert checks(plain(), "spacing")["spacing-bars"].demand.value == pytest.approx(21.0)


def test_bars_of_two_sizes_with_one_cover_stand_in_one_layer():
    thick, thin = bars(2, 25.0, 52.5, L, FLAT), bars(2, 16.0, 48.0, L, FLAT)
    found = checks(plain(bars=(thick, thin)), "spacing")
    assert set(found) == {"spacing-bars"}
    assert found["spacing-bars"].resistance.value == pytest.approx((300 - 2 * 40 - 2 * 25 - 2 * 16) / 3)


def test_cover_is_told_for_information_where_no_exposure_is_named():
    assert checks(plain(), "cover")["cover-bars"].state == "information"
    named = checks(plain(verifying=Verifying(exposure=("XC3",))), "cover")["cover-bars"]
    assert named.state == "detailing"


@pytest.mark.parametrize(("minutes", "width", "a"), [(60, 160.0, 35.0), (90, 300.0, 40.0), (120, 270.0, 57.5)])
def test_axis_distances_of_table_5_5(minutes, width, a):
    b = plain(outline=rectangle(width, 600.0), bars=(bars(2, 20.0, 53.0, L, FLAT),), verifying=Verifying(fire=minutes))
    assert checks(b, "fire")["fire-axis"].demand.value == pytest.approx(a)


def test_strand_wants_15_mm_more_in_fire():
    strands = tendon(600.0, 60.0, L, 1000.0, when="before casting", bond="bonded", count=6)
    b = plain(concrete=C40, outline=rectangle(160.0, 600.0), bars=(), tendons=(strands,), verifying=Verifying(fire=60))
    assert checks(b, "fire")["fire-axis"].demand.value == pytest.approx(50.0)


def test_fire_is_refused_where_its_tables_end():
    fast = verify(plain(verifying=Verifying(fire=45)), "en1992", ["fire"])
    assert fast.unchecked[0].why == "the tables are for 30, 60, 90, 120, 180, 240 minutes, not for 45"
    strong = replace(CONCRETE, specified=70.0, strength=78.0)
    found = verify(plain(concrete=strong, verifying=Verifying(fire=60)), "en1992", ["fire"]).unchecked
    assert found[0].why == "fck of 70 MPa lies above C50/60, for which section 6 has other rules than the tables"
    assert found[0].scope


def test_the_web_of_an_i_section_and_its_flange():
    shape = i_section(900.0, 90.0, 400.0, 120.0, 400.0, 100.0, 60.0, 60.0)
    found = checks(plain(outline=shape, verifying=Verifying(fire=60)), "fire")
    assert found["fire-web"].ratio == pytest.approx(100.0 / 90.0)
    assert found["fire-flange"].resistance.value == pytest.approx(130.0)


STRANDS = tendon(600.0, 100.0, L, 1000.0, when="before casting", bond="bonded", count=6)


def test_limits_of_stress_in_service():
    """7.2: 0.6 fck characteristic, 0.45 fck quasi-permanent, 0.75 fpk of tendons."""
    b = plain(concrete=C40, bars=(), tendons=(STRANDS,))
    found = checks(b, "stress-concrete", "stress-steel")
    assert found["stress-concrete-characteristic-sagging"].resistance.value == pytest.approx(24.0)
    assert found["stress-concrete-quasi-permanent-sagging"].resistance.value == pytest.approx(18.0)
    assert found["stress-steel-tendons-sagging"].resistance.value == pytest.approx(0.75 * 1860.0)


def test_compression_binds_in_salt_and_is_told_elsewhere():
    for exposure, state in (("XC4", "information"), ("XD1", "service")):
        b = plain(verifying=Verifying(exposure=(exposure,)))
        found = checks(b, "stress-concrete")
        assert found["stress-concrete-characteristic-sagging"].state == state
        assert found["stress-concrete-quasi-permanent-sagging"].state == "information"


def test_minimum_steel_against_cracks_by_hand():
    """kc = 0.4, k = 1 − 0.35 · 300/500, Act = half of the section, σs = fyk."""
    found = checks(plain(), "crack-steel")["crack-steel-sagging"]
    assert found.demand.value == pytest.approx(0.4 * 0.79 * 0.3 * 30 ** (2 / 3) * 300.0 * 300.0 / 500.0)
    assert found.resistance.value == pytest.approx(LOW.area)


def test_the_tables_beside_a_crack_width():
    found = checks(plain(), "crack-tables")
    c = found["crack-tables-diameter-sagging"]
    stress = named(c, "σs")
    table = float(np.interp(stress, (160, 200, 240, 280, 320, 360, 400, 450), (40, 32, 20, 16, 12, 10, 8, 6)))
    assert c.resistance.value == pytest.approx(table * 0.3 * 30 ** (2 / 3) / 2.9 * 0.4 * 300.0 / (2 * 53.0))
    assert found["crack-tables-spacing-sagging"].demand.value == pytest.approx((300 - 2 * 43 - 80) / 3 + 20)


def test_the_force_at_an_end_support_by_hand():
    """(9.3): FE = VEd al/z with al/z = cot θ/2; a quarter of the span's steel over the support."""
    found = checks(
        replace(straight(), verifying=Verifying(stirrup_angle=2.0), stirrups=(stirrups(L),)), "end-anchorage"
    )
    v = 1.35 * 18.0 * (L / 2 - 1.0)
    assert found["end-anchorage-force"].demand.value == pytest.approx(v * 2.0 / 2.0, rel=1e-6)
    assert found["end-anchorage-force"].resistance.value == 0.0  # the bars end over the support
    assert found["end-anchorage-share"].demand.value == pytest.approx(0.25 * straight().bars[0].area)
    bare = checks(straight(), "end-anchorage")["end-anchorage-force"]
    assert bare.demand.value == pytest.approx(v / 0.9, rel=1e-6)  # al = d without stirrups


def test_deflection_may_be_a_250th_and_a_500th():
    found = checks(plain(verifying=Verifying(finishes="fragile")), "sagging")
    assert found["sagging-total"].resistance.value == pytest.approx(L / 250.0)
    assert found["sagging-later"].resistance.value == pytest.approx(L / 500.0)
    assert found["sagging-later"].state == "service"
    assert "sagging-later" not in checks(plain(), "sagging")


def test_strands_and_ducts_keep_their_distances():
    """8.10.1.2: 2 φ between strands; 8.10.1.3: φ and 50 mm between ducts. 10 mm more cover than bars in XC3."""
    b = plain(concrete=C30, bars=(), stirrups=(), tendons=(STRANDS,), verifying=Verifying(exposure=("XC3",)))
    found = checks(b, "spacing-tendons", "cover")
    assert found["spacing-tendons"].demand.value == pytest.approx(25.0)
    assert found["spacing-tendons"].resistance.value == pytest.approx((300 - 2 * 45 - 6 * 12.5) / 5)
    assert found["cover-tendons"].demand.value == pytest.approx(25.0 + 10.0 + 10.0)
    ducts = tendon(900.0, 120.0, L, 1000.0, bond="bonded", duct=45.0, count=2)
    both = checks(replace(b, tendons=(ducts,)), "spacing-tendons", "cover")
    assert both["spacing-tendons"].demand.value == pytest.approx(50.0)
    assert named(both["cover-tendons"], "cmin,b") == pytest.approx(45.0)


def test_fibre_bars_get_no_number():
    found = verify(plain(bars=(bars(4, 20.0, 53.0, L, FIBRE),)), "en1992", ["cracks", "sagging", "stress-steel"])
    assert not found.checks
    assert {(u.key, u.scope) for u in found.unchecked} == {(k, True) for k in ("cracks", "sagging", "stress-steel")}
    assert found.unchecked[0].why == "bars of fibre-reinforced polymer are no reinforcing steel of 3.2"


def test_what_is_left_out_is_told():
    silent = verify(plain(verifying=Verifying(laps=0.5)), "en1992", ["laps"]).unchecked
    assert isinstance(silent[0], Unchecked)
    assert silent[0].why == "the file says how many bars are lapped, but not where (lap_at)"

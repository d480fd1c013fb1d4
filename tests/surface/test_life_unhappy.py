"""Beams that go wrong: each ends in a life that says how, or in one sentence, never in anything else.

Warnings of numpy are errors here as in every test, so that no number that is none slips through.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from soffit.errors import PhysicsError
from soffit.materials.properties import concrete
from soffit.member.beam import Anchor, Beam, Load, Press, Profile, Supports, TendonGroup
from soffit.member.life import life
from soffit.member.result import EVENTS, MODES, Life, PressUse
from soffit.section import outline as shapes
from specimens import BAR, CONCRETE, FIBRE, FLAT, ROD, STRAND, bars, beam, stirrups, tendon, uniform

L = 4000.0
STRAIGHT = {"end_left": "straight", "end_right": "straight"}


def told(specimen: Beam) -> Life:
    """The life, after looking that it is whole."""
    found = life(specimen)
    assert {e.event for e in found.events} <= set(EVENTS)
    assert found.failure.mode in MODES
    assert found.events[-1].event == "collapse"
    for values in (found.curve.load, found.curve.deflection, found.stations.moment, found.stations.deflection):
        assert np.all(np.isfinite(values))
    sentence = found.failure.sentence
    assert sentence.endswith(".")
    assert sentence[0].isupper()
    assert "\n" not in sentence
    return found


def names(found: Life) -> list[str]:
    return [e.event for e in found.events]


# -- no load can be put on --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("put", [{}, {"bars": (bars(2, 8.0, 40.0, 20000.0),)}])
def test_a_beam_that_cannot_carry_its_own_weight(put):
    found = told(beam(20000.0, self_weight=True, **put))
    assert found.peak.load == 0.0
    assert found.failure.brittle
    assert "own weight" in found.failure.sentence
    assert found.warning.word == "none"


def test_a_beam_that_cannot_carry_its_dead_load():
    found = told(beam(L, bars=(bars(2, 10.0, 40.0, L),), loads=(uniform(L, 60.0, "dead"), uniform(L))))
    assert found.peak.load == 0.0
    assert "dead load" in found.failure.sentence


@pytest.mark.parametrize(
    ("put", "mode"),
    [
        ((2, 12.0, 260.0, FLAT), "first crack"),  # on the compressed side: nothing holds the crack together
        ((3, 16.0, 40.0, FLAT), "tension-controlled flexure"),
        ((8, 32.0, 40.0, FLAT), "compression-controlled flexure"),
    ],
)
def test_how_a_beam_fails_that_cannot_carry_its_dead_load(put, mode):
    count, diameter, y, steel = put
    load = (uniform(L, 200.0, "dead"), uniform(L))
    found = told(beam(L, bars=(bars(count, diameter, y, L, steel),), stirrups=(stirrups(L),), loads=load))
    assert found.failure.mode == mode
    assert names(found)[0] == "first crack"
    assert found.events[0].load == found.peak.load == 0.0


@pytest.mark.parametrize(
    ("count", "diameter", "strain", "said"),
    [
        (2, 12.0, 0.02, "The bars yield and break before the concrete crushes"),
        (3, 14.0, 0.03, "The bar steel yields, the concrete crushes, and at last a bar breaks"),
    ],
)
def test_the_sentence_of_a_rupture_says_what_came_before_it(count, diameter, strain, said):
    """The order of crushing and rupture in the sentence is that of the events."""
    brittle = replace(BAR, strain_at_max=strain, hardening_strain=0.01)
    both = (bars(count, diameter, 40.0, L, brittle), bars(count, diameter, 260.0, L, brittle))
    fixed = Supports((0.0, L), fixed_left=True, fixed_right=True)
    found = told(beam(L, bars=both, supports=fixed, stirrups=(stirrups(L),), loads=(uniform(L),)))
    assert found.failure.mode == "bar rupture"
    before = names(found)[: names(found).index("bar rupture")]
    assert ("concrete crushes" in before) == ("at last" in said)
    assert found.failure.sentence.startswith(said)


def test_what_is_said_of_a_stroke_and_of_stirrups_without_room():
    bar = bars(2, 16.0, 10.0, L)
    found = told(beam(L, bars=(bar,), stirrups=(stirrups(L),), press=Press((L / 2,), stroke=1.0)))
    assert found.press == PressUse(False, None, pytest.approx(found.peak.deflection))
    assert any("leave no room for stirrups of 8 mm" in said for said in found.assumptions)
    other = told(beam(L, bars=(replace(bar, y=16.0),), stirrups=(stirrups(L),)))
    assert not any("leave no room" in said for said in other.assumptions)


@pytest.mark.parametrize(("span", "deep"), [(890.0, True), (900.0, False)])
def test_a_deep_beam_is_said_to_be_one(span, deep):
    found = told(beam(span, bars=(bars(2, 12.0, 40.0, span),), stirrups=(stirrups(span),)))
    assert any("deep beam" in said for said in found.cautions) == deep


def test_the_first_crack_of_a_beam_that_its_weight_has_cracked_shows_a_cracked_section():
    """Steel stress at a crack is M / (As z), some three times what an uncracked section would give it."""
    dead = uniform(L, 15.0, "dead")
    found = told(beam(L, bars=(bars(3, 16.0, 40.0, L),), stirrups=(stirrups(L),), loads=(dead, uniform(L))))
    crack = next(s for s in found.sections if s.event == "first crack")
    assert crack.load == 0.0
    by_hand = crack.moment / (crack.steel_area[0] * 0.88 * 260.0)
    assert crack.steel_stress[0] == pytest.approx(by_hand, rel=0.05)


def test_a_prestress_that_crushes_the_young_concrete():
    young = replace(CONCRETE, strength_at_transfer=8.0)
    strands = tendon(600.0, 60.0, L, 1300.0, when="before casting", bond="bonded")
    found = told(beam(L, concrete=young, tendons=(strands,)))
    assert found.peak.load == 0.0
    assert names(found)[0] == "transfer"
    assert "crushes the concrete at transfer" in found.failure.sentence
    assert "crushed" in found.events[0].note


def test_an_anchor_that_cannot_hold_the_jack():
    rods = tendon(116.0, 60.0, L, 300.0, steel=ROD, anchor=Anchor("nut", 30e3, "the nut strips"))
    found = told(beam(L, tendons=(rods,)))
    assert found.failure.mode == "anchor"
    assert found.peak.load == 0.0


# -- nothing to follow -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("put", "said"),
    [
        ({"loads": ()}, "nothing rises"),
        ({"loads": (uniform(L, 5.0, "dead"),)}, "nothing rises"),
        ({"loads": (uniform(L, 0.0),)}, "nothing rises"),
        ({"loads": (uniform(L, -3.0, "wind"),)}, "push upward"),
        ({"loads": (uniform(L, 1.0), Load("wind", -1.0, 0.0, L))}, "add up to nothing"),
        ({"press": Press((0.0,))}, "over a support"),
        ({"press": Press((0.0, L))}, "over a support"),
    ],
)
def test_loads_that_break_nothing(put, said):
    with pytest.raises(PhysicsError, match=said) as error:
        life(beam(L, bars=(bars(2, 16.0, 40.0, L),), **put))
    assert "\n" not in str(error.value)


# -- how each beam ends ------------------------------------------------------------------------------------------------


def strands(area: float, y: float, length: float, stress: float = 1100.0, **more: object) -> TendonGroup:
    return tendon(area, y, length, stress, when="before casting", bond="bonded", **more)


ENDS: dict[str, tuple[Beam, set[str]]] = {
    "plain": (beam(L), {"first crack"}),
    "steel on the wrong side": (beam(L, bars=(bars(3, 16.0, 260.0, L),)), {"first crack"}),
    "prestress on the wrong side": (beam(L, tendons=(tendon(100.0, 240.0, L, 200.0),)), {"first crack"}),
    "hardly any steel": (beam(L, bars=(bars(1, 6.0, 40.0, L),), stirrups=(stirrups(L),)), {"first crack"}),
    "too much steel": (
        beam(L, bars=(bars(6, 25.0, 50.0, L),), stirrups=(stirrups(L, 10.0, 60.0),)),
        {"compression-controlled flexure"},
    ),
    "a little fibre": (beam(L, bars=(bars(2, 10.0, 40.0, L, FIBRE),), stirrups=(stirrups(L),)), {"bar rupture"}),
    "much fibre": (
        beam(L, bars=(bars(6, 16.0, 50.0, L, FIBRE),), stirrups=(stirrups(L),)),
        {"compression-controlled flexure"},
    ),
    "steel that breaks": (
        beam(L, bars=(bars(2, 10.0, 40.0, L, replace(BAR, strain_at_max=0.022)),), stirrups=(stirrups(L),)),
        {"bar rupture"},
    ),
    "bars too short": (
        beam(L, bars=(bars(3, 16.0, 40.0, L, x_from=1200.0, x_to=2800.0, **STRAIGHT),), stirrups=(stirrups(L),)),
        {"bond", "first crack"},
    ),
    "plain round bars": (
        beam(2000.0, bars=(bars(3, 16.0, 40.0, 2000.0, surface="plain", **STRAIGHT),), stirrups=(stirrups(2000.0),)),
        {"bond"},
    ),
    "strand without room to anchor": (beam(1500.0, tendons=(strands(200.0, 60.0, 1500.0),)), {"bond", "shear"}),
    "deep and short": (
        beam(1500.0, shapes.rectangle(200.0, 600.0), bars=(bars(4, 25.0, 50.0, 1500.0),)),
        {"shear"},
    ),
    "no stirrups": (beam(L, shapes.rectangle(200.0, 400.0), bars=(bars(4, 25.0, 50.0, L),)), {"shear"}),
    "thin web": (
        beam(6000.0, shapes.i_section(800.0, 60.0, 300.0, 100.0, 300.0, 150.0), bars=(bars(8, 25.0, 75.0, 6000.0),)),
        {"shear"},
    ),
    "weak nut": (
        beam(1050.0, shapes.rectangle(100.0, 150.0), stirrups=(stirrups(1050.0, 6.0, 75.0),), tendons=(
            tendon(116.0, 45.0, 1050.0, 300.0, steel=ROD, count=2, diameter=10.0,
                   anchor=Anchor("nut", 20e3, "the nut strips")),)),
        {"anchor"},
    ),
    "tendon that breaks": (
        beam(L, shapes.rectangle(300.0, 300.0), tendons=(strands(40.0, 60.0, L, 1200.0, diameter=6.0),),
             stirrups=(stirrups(L),)),
        {"tendon rupture", "first crack"},
    ),
    "slack tendons": (
        beam(L, bars=(bars(2, 12.0, 40.0, L),), stirrups=(stirrups(L),),
             tendons=(tendon(100.0, 60.0, L, 0.0), strands(100.0, 60.0, L, 0.0, stress_is="at the jack"))),
        {"tension-controlled flexure", "bond"},
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", ENDS)
def test_how_it_ends(name):
    specimen, modes = ENDS[name]
    found = told(specimen)
    assert found.failure.mode in modes
    assert found.peak.load > 0.0
    if found.failure.mode in ("first crack", "shear", "bond", "anchor", "compression-controlled flexure"):
        assert found.failure.brittle
        assert found.warning.word not in ("fair", "ample"), "a brittle end must not be sold as a warning"


def test_a_beam_that_breaks_as_it_cracks_has_hardly_moved():
    """Neither the crack nor the deflection is that of a beam whose steel drags it on."""
    for name in ("plain", "hardly any steel", "steel on the wrong side"):
        found = told(ENDS[name][0])
        crack = next(e for e in found.events if e.event == "first crack")
        assert found.peak.deflection < 3 * crack.deflection
        assert "bar yield" not in names(found)[: names(found).index("peak")]


def test_fibre_breaks_without_yielding():
    found = told(ENDS["a little fibre"][0])
    assert "yield" not in " ".join(names(found))
    assert "yield" not in found.failure.sentence
    assert found.failure.brittle
    # it breaks at the peak, not somewhere down the branch behind it
    broken = next(e for e in found.events if e.event == "bar rupture")
    assert broken.load == pytest.approx(found.peak.load, rel=1e-2)


# -- shapes and supports -----------------------------------------------------------------------------------------------


def hung(length: float, supports: Supports, press: Press | None = None, **more: object) -> Beam:
    """Bars at both faces and stirrups, on any supports."""
    load = {"press": press} if press else {"loads": (uniform(length),)}
    steel = (bars(3, 16.0, 40.0, length), bars(3, 16.0, 260.0, length))
    return beam(length, supports=supports, bars=steel, stirrups=(stirrups(length),), self_weight=True, **load, **more)


WHOLE: dict[str, Beam] = {
    "cantilever": hung(2500.0, Supports((0.0,), fixed_left=True)),
    "cantilever to the left": hung(2500.0, Supports((2500.0,), fixed_right=True), Press((0.0,))),
    "cantilevers both ways": hung(L, Supports((1500.0,), fixed_left=True, fixed_right=True), Press((0.0, L))),
    "overhang": hung(L, Supports((0.0, 3000.0)), Press((L,))),
    "two overhangs": hung(L, Supports((800.0, 3200.0))),
    "fixed ends": hung(6000.0, Supports((0.0, 6000.0), fixed_left=True, fixed_right=True)),
    "propped": hung(6000.0, Supports((0.0, 6000.0), fixed_right=True), Press((3000.0,))),
    "two spans": hung(9000.0, Supports((0.0, 4000.0, 9000.0))),
    "three spans": hung(15000.0, Supports((0.0, 5000.0, 10000.0, 15000.0)), Press((7500.0,))),
    "tee": beam(6000.0, shapes.tee(400.0, 150.0, 600.0, 100.0), bars=(bars(3, 20.0, 50.0, 6000.0),),
                stirrups=(stirrups(6000.0),)),
    "tee with its flange in tension": beam(
        3000.0, shapes.tee(400.0, 150.0, 600.0, 100.0), supports=Supports((0.0,), fixed_left=True),
        bars=(bars(4, 16.0, 350.0, 3000.0),), stirrups=(stirrups(3000.0),), press=Press((3000.0,)),
    ),
    "box": beam(8000.0, shapes.box(600.0, 600.0, 100.0, 100.0, 100.0), bars=(bars(4, 20.0, 50.0, 8000.0),),
                stirrups=(stirrups(8000.0, 10.0),)),
    "circle": beam(6000.0, shapes.circle(400.0), stirrups=(stirrups(6000.0, 10.0),),
                   bars=(bars(2, 20.0, 60.0, 6000.0), bars(2, 20.0, 200.0, 6000.0), bars(2, 20.0, 340.0, 6000.0))),
    "unbonded with bars": beam(6000.0, bars=(bars(2, 12.0, 40.0, 6000.0),), stirrups=(stirrups(6000.0),),
                               tendons=(tendon(200.0, Profile((0.0, 3000.0, 6000.0), (150.0, 60.0, 150.0), "parabola"),
                                               6000.0, 1200.0, stress_is="at the jack", friction=0.2, wobble=1e-6,
                                               anchor=Anchor("wedge", 4e5, "wedges", 5.0)),)),
    "unbonded alone": beam(6000.0, tendons=(tendon(200.0, 60.0, 6000.0, 1200.0),), stirrups=(stirrups(6000.0),)),
    "strong concrete": beam(L, concrete=concrete(120.0), bars=(bars(3, 16.0, 40.0, L),), stirrups=(stirrups(L),)),
    "weak concrete": beam(L, concrete=concrete(6.0), bars=(bars(2, 12.0, 40.0, L),), stirrups=(stirrups(L),)),
}  # fmt: skip


@pytest.mark.parametrize("name", WHOLE)
def test_every_kind_of_beam_has_a_life(name):
    found = told(WHOLE[name])
    peak = int(np.argmax(found.curve.load))
    assert peak > 0
    # the peak is a peak: what comes after is less, or the beam parts there in one blow
    parted = found.failure.mode in ("shear", "bond", "anchor", "bar rupture", "tendon rupture")
    assert parted or peak < len(found.curve.load) - 1 or "concrete crushes" in names(found)
    assert found.peak.deflection > 0.0


def test_a_girder_of_thirty_metres():
    """Forty strands in twelve rows, six of them draped."""
    length = 30000.0
    outline = shapes.i_section(1600.0, 180.0, 1100.0, 150.0, 650.0, 200.0, 80.0, 120.0)
    wire = {"when": "before casting", "bond": "bonded", "stress_is": "at the jack", "diameter": 15.2}
    low = [tendon(560.0, 60.0 + 50 * i, length, 1350.0, count=4, **wire) for i in range(6)]
    x = (0.0, 0.4 * length, 0.6 * length, length)
    high = [
        tendon(280.0, Profile(x, (1500.0 - 50 * i, *(110.0 + 50 * i,) * 2, 1500.0 - 50 * i)), length, 1350.0,
               count=2, **wire)
        for i in range(6)
    ]  # fmt: skip
    girder = beam(
        length, outline, concrete=concrete(55.0, strength_at_transfer=40.0), tendons=(*low, *high), self_weight=True,
        stirrups=(stirrups(length, 12.0, 150.0),), loads=(uniform(length),),
    )  # fmt: skip
    found = told(girder)
    assert found.failure.mode in ("tension-controlled flexure", "tendon rupture")
    order = [e for e in names(found) if e in ("transfer", "decompression", "first crack", "tendon yield", "peak")]
    assert order == ["transfer", "decompression", "first crack", "tendon yield", "peak"]
    # no line is drawn to a state that the section cannot have
    falls = np.diff(found.curve.deflection[int(np.argmax(found.curve.load)) :])
    assert np.all(falls > -0.05 * found.peak.deflection)


def test_a_deep_plain_beam_says_that_it_cracks():
    """Where the crack snaps through at once, first crack and peak are one."""
    found = told(beam(12000.0, shapes.rectangle(500.0, 3000.0)))
    assert names(found) == ["first crack", "peak", "collapse"]


def test_strand_of_any_kind_keeps_below_its_strength():
    found = told(WHOLE["unbonded alone"])
    last = found.sections[-1]
    assert np.max(last.steel_stress) <= STRAND.tensile

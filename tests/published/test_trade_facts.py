"""What every concrete engineer knows (*common practice*: no source is named), seen in the bench beams of examples/."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

import soffit
from soffit.materials import standards
from soffit.member.beam import BarGroup, Beam
from soffit.member.result import Event, Life, SectionState

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@cache
def beam(kind: str) -> Beam:
    return soffit.read(EXAMPLES / f"bench-{kind}.toml")


@cache
def life(kind: str) -> Life:
    return soffit.life(beam(kind))


def event(told: Life, name: str) -> Event:
    return next(e for e in told.events if e.event == name)


def at(told: Life, name: str) -> SectionState:
    return next(s for s in told.sections if s.event == name)


@pytest.mark.parametrize("tensile", [standards.en_tensile, standards.aci_tensile])
@pytest.mark.parametrize("strength", [20.0, 28.0, 38.0, 48.0, 58.0])
def test_direct_tension_is_below_a_tenth_of_compression(tensile: Callable[[float], float], strength: float) -> None:
    assert 0.04 * strength < tensile(strength) < 0.1 * strength


def test_a_plain_beam_fails_as_it_cracks() -> None:
    told = life("plain")
    assert told.failure.mode == "first crack"
    assert told.failure.brittle
    # a crack carries a little more load while it is still stuck together, over a fraction of a millimetre
    assert told.peak.deflection < 2.5 * event(told, "first crack").deflection
    assert event(told, "collapse").deflection < 3.0 * event(told, "first crack").deflection


def test_bars_make_it_strong_and_ductile() -> None:
    plain, barred = life("plain"), life("bars")
    assert barred.peak.load > 3.0 * plain.peak.load
    assert barred.peak.deflection > 10.0 * plain.peak.deflection
    assert barred.warning.energy_ratio > 10.0 * plain.warning.energy_ratio
    assert not barred.failure.brittle
    # they do nothing for the first crack
    assert event(barred, "first crack").load == pytest.approx(event(plain, "first crack").load, rel=0.15)


def test_steel_carries_almost_nothing_until_the_concrete_cracks() -> None:
    told = life("bars")
    crack, peak = at(told, "first crack"), at(told, "peak")
    bars = told.beam.bars[0]
    assert crack.steel_stress[0] < 0.05 * bars.steel.yield_strength
    assert peak.steel_stress[0] >= bars.steel.yield_strength * (1.0 - 1e-6)

    def share(state: SectionState) -> float:
        """Of the moment: the pull of the bars about a point two thirds up."""
        arm = 2.0 / 3.0 * told.beam.outline.depth
        return float(state.steel_stress[0] * bars.area * arm / state.moment)

    assert share(crack) < 0.15
    assert share(peak) > 0.8


@cache
def rods(how: str) -> Life:
    """The post-tensioned bench beam's rods: grouted and stressed, grouted and slack, or cast in as bars."""
    whole = beam("post-tensioned")
    (rod,) = whole.tendons
    if how == "cast in":
        bars = BarGroup(
            rod.count, rod.diameter, rod.area, rod.profile.y[0], rod.steel, 0.0, whole.length, "welded plate",
            "welded plate", "threaded",
        )  # fmt: skip
        return soffit.life(replace(whole, tendons=(), bars=(bars,)))
    if how == "slack":
        rod = replace(rod, stress=1.0, stress_is="effective")
    return soffit.life(replace(whole, tendons=(replace(rod, bond="bonded"),)))


def test_stressing_the_same_steel_raises_the_cracking_load_much_and_the_peak_little() -> None:
    passive, stressed = rods("cast in"), rods("stressed")
    assert event(stressed, "first crack").load > 3.0 * event(passive, "first crack").load
    assert stressed.peak.load == pytest.approx(passive.peak.load, rel=0.05)


def test_a_slack_grouted_rod_is_a_bar() -> None:
    slack, passive = rods("slack"), rods("cast in")
    # the stress of 1 MPa that is left and the deduction of the duct are all that differs
    assert slack.peak.load == pytest.approx(passive.peak.load, rel=0.005)
    assert event(slack, "first crack").load == pytest.approx(event(passive, "first crack").load, rel=0.02)


def test_prestress_keeps_the_crack_away_and_warns_less() -> None:
    barred = life("bars")
    for kind in ("pretensioned", "post-tensioned"):
        told = life(kind)
        assert event(told, "first crack").load > 3.0 * event(barred, "first crack").load
        assert told.warning.deflection_ratio < barred.warning.deflection_ratio

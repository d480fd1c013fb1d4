"""Long-term deflection by the standards: closed forms, and rows beside the steps."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

import aged
from soffit.codes import beside, camber
from soffit.codes.aci318 import deflection as aci
from soffit.codes.bent import Bent
from soffit.codes.en1992 import deflection as en
from soffit.codes.lost import STEPS
from soffit.errors import PhysicsError
from soffit.materials.standards import aci_modulus, en_secant_modulus
from soffit.member.beam import Beam
from soffit.member.time.engine import past


def test_multiplier_and_mistake_6() -> None:
    assert aci.multiplier(2.0, 0.0) == 2.0
    assert aci.multiplier(2.0, 0.01) == pytest.approx(2.0 / 1.5)
    months = [3.0, 6.0, 12.0, 60.0, 600.0]
    assert [aci.time_factor(m * aci.MONTH) for m in months] == pytest.approx([1.0, 1.2, 1.4, 2.0, 2.0])
    # two thirds of Mcr, and Icr/Ig = ½: Ie = Icr/(1 − 4/9 · ½) at Ma = Mcr, where Branson has Ig
    assert aci.effective_inertia(1.0, 1.0, 2.0, 1.0) == pytest.approx(9.0 / 7.0)
    assert aci.branson(1.0, 1.0, 2.0, 1.0) == 2.0
    assert aci.effective_inertia(2.0 / 3.0, 1.0, 2.0, 1.0) == 2.0
    assert aci.branson(2.0, 1.0, 2.0, 1.0) == pytest.approx(1.125)


@given(st.floats(0.05, 1.0), st.floats(0.3, 50.0), st.floats(0.01, 5.0))
def test_effective_inertia_falls_from_gross_to_cracked(icr: float, ma: float, more: float) -> None:
    now, later = (aci.effective_inertia(m, 1.0, 1.0, icr) for m in (ma, ma + more))
    assert icr <= later <= now <= 1.0
    assert aci.effective_inertia(1e6, 1.0, 1.0, icr) == pytest.approx(icr, rel=1e-6)
    assert aci.effective_inertia(-ma, 1.0, 1.0, icr) == now


def test_en_by_hand() -> None:
    assert en.effective_modulus(33000.0, 2.0) == 11000.0
    assert [en.share(m, 1.0) for m in (0.5, 1.0, 2.0, -2.0)] == pytest.approx([0.0, 0.0, 0.875, 0.875])
    assert en.share(2.0, 1.0, en.SHORT) == pytest.approx(0.75)
    assert en.mean(1.0, 3.0, 0.25) == pytest.approx(1.5)
    # plain concrete below, 1000 mm² of steel 200 mm under the centroid
    assert en.shrinkage_curvature(5e-4, 20.0, 1000.0 * 200.0, 2e9) == pytest.approx(1e-6)
    assert en.shrinkage_curvature(5e-4, 20.0, 0.0, 2e9) == 0.0


def rows(beam: Beam) -> dict[str, Bent]:
    found = {r.by: r for r in beside.deflections(past(beam))}
    ours = found[STEPS].total
    for row in found.values():
        if row.by != STEPS:
            assert sum(c.value for c in row.causes) == pytest.approx(row.total - ours, abs=1e-9)
    return found


def test_an_uncracked_beam_bends_as_its_gross_section() -> None:
    """5 M L²/(48 E I) with ACI 318's Ec and Ig; five years double it, without compression steel."""
    beam = aged.joist(dead=2.0)
    found = rows(beam)["ACI 318-19"]
    inputs = {i.name: i.value for i in found.inputs}
    ec = aci_modulus(30.0)
    assert inputs["Ie"] == inputs["Ig"] == pytest.approx(300.0 * 500.0**3 / 12)
    assert found.immediate == pytest.approx(5 * inputs["Ma"] * 6000.0**2 / (48 * ec * inputs["Ig"]), rel=2e-3)
    assert found.added == pytest.approx(2.0 * found.immediate)


def test_a_cracked_beam_bends_with_ie() -> None:
    """One Ie for the whole span, that of the place."""
    found = rows(aged.joist())["ACI 318-19"]
    inputs = {i.name: i.value for i in found.inputs}
    assert inputs["Icr"] < inputs["Ie"] < 0.6 * inputs["Ig"]
    by_hand = 5 * inputs["Ma"] * 6000.0**2 / (48 * inputs["Ec"] * inputs["Ie"])
    assert found.immediate == pytest.approx(by_hand, rel=2e-3)


def test_plain_concrete_creeps_with_the_effective_modulus() -> None:
    """No steel, no crack: shrinkage bends nothing, and EN's deflection is (1 + φ) 5 M L²/(48 Ecm I)."""
    beam = replace(aged.joist(dead=1.0), bars=(), self_weight=False)
    found = {r.by: r for r in beside.deflections(past(beam))}["EN 1992-1-1:2004"]
    inputs = {i.name: i.value for i in found.inputs}
    at_once = 5 * (1.0 * 6000.0**2 / 8) * 6000.0**2 / (48 * en_secant_modulus(38.0) * 300.0 * 500.0**3 / 12)
    assert found.immediate == pytest.approx(at_once, rel=2e-3)
    assert found.total == pytest.approx((1 + inputs["φ"]) * at_once, rel=2e-3)
    assert inputs["by shrinkage"] == 0.0
    # ACI has no cracked stiffness for it
    left = beside.sags(past(beam)).left_out
    assert left == ("ACI 318-19 gives nothing here: its section has no steel there, and no cracked stiffness.",)


def test_compression_steel_takes_from_what_time_adds() -> None:
    bare, doubled = rows(aged.joist()), rows(aged.joist(top=3))
    for by in bare:
        assert doubled[by].added < 0.9 * bare[by].added, by


def test_a_cantilever_goes_by_its_support() -> None:
    beam = aged.joist(length=2500.0, cantilever=True)
    inputs = {i.name: i.value for i in rows(beam)["ACI 318-19"].inputs}
    weight = inputs["Ma"] / (2500.0**2 / 2)
    assert 8.0 + 3.5 < weight < 8.0 + 4.0


@pytest.mark.parametrize(
    "beam", [aged.joist(), aged.joist(top=3), aged.joist(dead=2.0)], ids=["cracked", "doubled", "whole"]
)
def test_steps_and_standards_are_of_one_size(beam: Beam) -> None:
    found = rows(beam)
    totals = [r.total for r in found.values()]
    assert len(totals) == 3
    assert max(totals) < 1.6 * min(totals)
    # EN's method, its creep and its shrinkage are those of the steps: what is left is the march
    assert found["EN 1992-1-1:2004"].total == pytest.approx(found[STEPS].total, rel=0.1)


def test_multipliers_of_a_plank() -> None:
    found = rows(aged.plank())
    row = found["PCI multipliers"]
    i = {x.name: x.value for x in row.inputs}
    assert row.immediate == pytest.approx(found[STEPS].immediate) == pytest.approx(i["down"] - i["up"])
    by_hand = 2.70 * i["down"] - 2.45 * i["up"] + 3.0 * i["loads"]
    assert row.total == pytest.approx(by_hand)
    assert i["down"] > 0.0
    assert camber.FINAL_TOPPED.weight < camber.FINAL.weight


def test_what_has_no_formula_is_said() -> None:
    found = beside.sags(past(aged.girder()))
    assert [r.by for r in found.rows] == [STEPS]
    assert "PCI multipliers gives nothing here: the multipliers are for pretensioned members." in found.left_out
    with pytest.raises(PhysicsError) as error:
        beside.deflections(past(aged.joist()), step=0)
    assert str(error.value) == "nothing loads the beam by then, and it has no deflection"

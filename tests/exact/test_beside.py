"""What the side-by-side tables put into the standards' formulas, against hand values on the gross section."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

import aged
from soffit.codes import beside
from soffit.codes.lost import Looked, Row
from soffit.codes.strengths import at_age
from soffit.materials.standards import aci_modulus, en_secant_modulus
from soffit.member.time.engine import past
from soffit.member.time.result import Past

AREA, INERTIA, STRANDS, ARM = 600.0 * 250.0, 600.0 * 250.0**3 / 12, 930.0, 65.0


@cache
def plank(topped: bool = False, height: float = 60.0) -> Past:
    return past(aged.plank(((10, height),), topped=topped))


def middle(found: Past) -> int:
    return int(np.argmin(np.abs(found.x - 4600.0)))


def row(found: Past, by: str) -> tuple[Row, dict[str, float]]:
    one = next(r for r in beside.approximate(found, middle(found)) if r.by == by)
    return one, {i.name: i.value for i in one.inputs}


def moment(load: float, x: float = 4600.0) -> float:
    """N·mm of a uniform load (N/mm) on 9.2 m with overhangs of 0.1 m."""
    return load * 9200.0 / 2 * (x - 100.0) - load * x**2 / 2


def test_stress_of_the_tendon_just_after_release() -> None:
    found = plank()
    at = middle(found)
    weights = np.zeros_like(found.x)
    weights[at] = 1.0
    looked = Looked(found, (0,), "tendon A", weights, len(found.t) - 1)
    assert looked.before() == pytest.approx(1300.0)
    assert looked.stressed() == pytest.approx(found.tendons[0].stress[looked.after, at])
    assert looked.t0 == 1.0


def test_stress_of_the_concrete_for_5_46() -> None:
    """σc,QP = P/A + (P e − M) e/I with the force just after release and the moment of all that stays."""
    found = plank()
    _, inputs = row(found, "EN 1992-1-1:2004")
    at = middle(found)
    force = STRANDS * found.tendons[0].stress[1, at]
    m = found.moment[-1, at]
    assert m - found.moment[1, at] == pytest.approx(moment(3.0 + 0.3 * 6.0))
    assert inputs["σc,QP"] == pytest.approx(force / AREA + (force * ARM - m) * ARM / INERTIA)
    assert (inputs["Ac"], inputs["Ic"], inputs["zcp"]) == pytest.approx((AREA, INERTIA, ARM))
    assert inputs["Ecm"] == pytest.approx(en_secant_modulus(48.0))


def test_what_zia_is_given() -> None:
    """fcpi by the force before shortening, fg and fcds as tension by weight and by later loads."""
    found = plank()
    one, inputs = row(found, "ACI 318-19 (Zia and others)")
    force = STRANDS * 1300.0
    assert inputs["fcpi"] == pytest.approx(force / AREA + force * ARM**2 / INERTIA)
    assert inputs["fg"] == pytest.approx(found.moment[1, middle(found)] * ARM / INERTIA)
    assert inputs["fcds"] == pytest.approx(moment(4.8) * ARM / INERTIA)
    assert inputs["fcir"] == pytest.approx(0.9 * inputs["fcpi"] - inputs["fg"])
    assert one.parts.elastic == pytest.approx(195e3 / aci_modulus(30.0) * inputs["fcir"])
    assert one.parts.creep == pytest.approx(2.0 * 195e3 / aci_modulus(40.0) * (inputs["fcir"] - inputs["fcds"]))


def test_what_the_deck_of_aashto_is_given() -> None:
    """A topping that shrinks above strands near the soffit stretches the concrete beside them."""
    _, inputs = row(plank(topped=True, height=45.0), "AASHTO LRFD, refined")
    n = 80.0 * 600.0  # the topping of the same modulus as the beam
    area = AREA + n
    centroid = (AREA * 125.0 + n * 290.0) / area
    inertia = 600.0 * 330.0**3 / 12
    force = inputs["εddf"] * n * inputs["Ecd"]
    by_hand = force / (1 + 0.7 * inputs["ψd"]) * (1 / area - (centroid - 45.0) * (290.0 - centroid) / inertia)
    assert inputs["Δfcdf"] == pytest.approx(by_hand)
    assert by_hand < 0.0
    assert inputs["td"] == 28.0
    assert row(plank(), "AASHTO LRFD, refined")[1]["td"] == 40.0  # the first change of load


def test_later_loads_act_on_the_composite_section() -> None:
    """fcds: the topping's weight on the beam alone, what comes later on both."""
    found = plank(topped=True, height=45.0)
    _, inputs = row(found, "ACI 318-19 (Zia and others)")
    n = 80.0 * 600.0
    centroid = (AREA * 125.0 + n * 290.0) / (AREA + n)
    weight = 2400.0 * n * 9.80665e-9
    by_hand = moment(weight) * 80.0 / INERTIA + moment(4.8) * (centroid - 45.0) / (600.0 * 330.0**3 / 12)
    assert inputs["fcds"] == pytest.approx(by_hand, rel=1e-6)


def test_strength_before_28_days() -> None:
    found = past(aged.girder())
    step = found.instants[0].step
    assert at_age(found, step).value == pytest.approx(found.strength[step] - 8.0)
    assert at_age(found, len(found.t) - 1).value == 40.0

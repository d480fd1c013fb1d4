"""Elongation and torque that sources print, or that were computed by hand from a named formula."""

from __future__ import annotations

from collections.abc import Callable
from math import tan
from typing import Any

import pytest
from printed import KSI, agrees

from soffit.catalogue import thread, torque_for_force
from soffit.detail import elongation
from soffit.detail.rods import Nut, turned
from soffit.materials.steel import Steel
from soffit.member.beam import Anchor, Profile
from specimens import tendon

Example = Callable[[str], dict[str, Any]]
FOOT = 304.8


def test_elongation_with_friction(example: Example) -> None:
    """A parabola that turns by 0.3 rad in all; own recomputation of f(x) = fj exp(−(μ α + K x)) and ∫ f/E.

    The angle is taken along a flat parabola, evenly, as the hand calculation does; along the curve, the tendon is
    longer than its projection by 8 f²/(3 L²) = α²/24, which is taken off.
    """
    given = example("own-elongation")
    value = {key: entry["value"] for key, entry in given["inputs"].items()}
    length = value["L"] * FOOT
    # y = 4 f x (L − x)/L²: the ends slope by 4 f/L, each half turns by 0.15 rad
    sag = length * tan(value["alpha"] / 2) / 4
    profile = Profile((0.0, length / 2, length), (sag, 0.0, sag), "parabola")
    steel = Steel("bilinear", value["E"] * KSI, 243.0 * KSI, 270.0 * KSI, 0.035)
    made = tendon(1000.0, profile, length, value["fj"] * KSI, steel=steel, stress_is="at the jack",
                  friction=value["mu"], wobble=value["K"] / FOOT)  # fmt: skip
    found = elongation.pulled(made)
    agrees(given, "f_end", float(found.stress[-1]), "recomputed")
    # the angle turns not quite evenly along x, and the mean by the trapezium has an error of its own
    assert found.total * length / found.path[-1] / 25.4 == pytest.approx(
        given["recomputed"]["elong"]["value"], rel=2e-5
    )
    free = elongation.pulled(tendon(1000.0, 100.0, length, value["fj"] * KSI, steel=steel, stress_is="at the jack"))
    agrees(given, "elong_no_friction", free.total, "recomputed")


def test_torque_of_an_m12(example: Example) -> None:
    """A public page with a worked case; 70 % of the proof load of class 8.8."""
    given = example("ps-torque-m12")
    value = {key: entry["value"] for key, entry in given["inputs"].items()}
    screw = thread("M12")
    force = value["fraction"] * value["proof"] * value["As"]
    assert force / 1e3 == pytest.approx(given["expected"]["F"]["value"], rel=given["expected"]["F"]["tol"])
    assert torque_for_force(force, screw.diameter, value["K"]) / 1e3 == pytest.approx(
        given["expected"]["T"]["value"], rel=given["expected"]["T"]["tol"]
    )
    steel = Steel("bilinear", 205e3, 640.0, 800.0, 0.06, name="8.8")
    rod = tendon(screw.area, 100.0, 3000.0, force / screw.area, steel=steel, thread="M12", stress_is="at the jack",
                 anchor=Anchor("nut", 1e6, ""))  # fmt: skip
    found = turned(rod, Nut(screw, value["K"]), force, 5.0)
    assert found.torque / 1e3 == pytest.approx(given["expected"]["T"]["value"], rel=given["expected"]["T"]["tol"])
    assert found.proof == pytest.approx(force / value["fraction"], rel=1e-3)

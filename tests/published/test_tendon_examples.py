"""Printed examples of equivalent loads, secondary moments and concordant tendons. Sources in ``data/examples.json``.

Entries of the kind ``own-reference`` there are worked out by their author, not printed; they are marked below.
"""

from __future__ import annotations

import numpy as np
import pytest
from printed import INCH, KIP, KIP_FT, KSI, PSI, agrees

from soffit.member import balance, friction
from soffit.member.balance import constant
from soffit.member.beam import Beam, Load, Profile, Supports, TendonGroup
from soffit.section.outline import Outline, rectangle
from specimens import beam, tendon, uniform

FOOT = 12 * INCH


def cast(profile: Profile, span: float, outline: Outline, supports: Supports, force: float) -> tuple[Beam, TendonGroup]:
    cable = tendon(force / (150 * KSI), profile, span, 150 * KSI)
    return beam(span, outline, tendons=(cable,), supports=supports, loads=(uniform(span),)), cable


def test_prestress_shear_and_moment(example):
    """Hicks: a tendon that falls by 0.014 and is 8 in below the centroid: V = −F tan, M = −F e."""
    ex = example("ps-hicks-vp-mp")
    span, depth = 40 * FOOT, 40 * INCH
    force, slope, e = (ex["inputs"][key]["value"] for key in ("Fi", "slope", "e"))
    force, low = force * KIP / 1000, depth / 2 - e * INCH
    profile = Profile((0.0, span), (low + slope * span / 2, low - slope * span / 2))
    specimen, cable = cast(profile, span, rectangle(20 * INCH, depth), Supports((0.0, span)), force)
    along = constant(cable, force)
    first = balance.equivalent_loads(specimen, along).points[0]
    agrees(ex, "Vp", first.up)
    found = balance.moments(specimen, [along])
    assert np.interp(span / 2, found.x, found.primary) / (KIP * INCH) * 1000 == pytest.approx(
        ex["expected"]["Mp"]["value"], rel=1e-6
    )


def test_camber_of_a_girder_by_its_equivalent_load(example):
    """Hicks' post-tensioned girder: 5 w L⁴/384 E I of the upward load of its parabola."""
    ex = example("ps-hicks-pt-girder")
    x = {key: ex["inputs"][key]["value"] for key in ("L", "Ec", "I", "w_self", "Fi", "e_mid")}
    span, depth = x["L"] * FOOT, 72 * INCH
    outline = rectangle(12 * x["I"] * INCH**4 / depth**3, depth)
    middle, force, rigid = depth / 2, x["Fi"] * KIP / 1000, x["Ec"] * PSI * outline.inertia
    profile = Profile((0.0, span / 2, span), (middle, middle - x["e_mid"] * INCH, middle), "parabola")
    specimen, cable = cast(profile, span, outline, Supports((0.0, span)), force)
    loads = balance.equivalent_loads(specimen, constant(cable, force))
    camber = 5 * loads.up[0] * span**4 / (384 * rigid)
    sag = 5 * x["w_self"] * KIP / 1000 / FOOT * span**4 / (384 * rigid)
    agrees(ex, "dp", camber)
    agrees(ex, "dw", sag)
    agrees(ex, "net", camber - sag)
    own = Load("dead", x["w_self"] * KIP / 1000 / FOOT, 0.0, span)
    assert balance.balanced_shares(specimen, [loads], [own])[0] == pytest.approx(camber / sag)


SPAN = 120 * FOOT
SECTIONS = np.array([0.2, 0.4, 0.6, 0.8, 1.0])


@pytest.mark.parametrize("case", ["a", "b"])
def test_stresses_of_a_concordant_tendon(example, case):
    """Hicks' two-span girder: ordinates and stresses at five sections, in both cases, from moments without a secondary
    part. Its unsymmetrical section enters by its printed moduli and kern lengths alone."""
    ex = example("ps-hicks-two-span-concordant")
    given = {key: each["value"] for key, each in ex["inputs"].items()}
    force, e2 = given[f"Fi_{case}"] * KIP / 1000, given[f"e2_{case}"] * INCH
    depth = 120 * INCH

    def share(x: np.ndarray) -> np.ndarray:
        return 3 * x / 8 - x**2 / 2

    along = np.linspace(0.0, 2.0, 5)
    e = e2 * share(np.where(along > 1, 2 - along, along)) / share(np.array(0.4))
    profile = Profile(tuple(along * SPAN), tuple(depth / 2 - e), "parabola")
    supports = Supports((0.0, SPAN, 2 * SPAN))
    specimen, cable = cast(profile, 2 * SPAN, rectangle(30 * INCH, depth), supports, force)
    found = balance.moments(specimen, [constant(cable, force)])
    assert abs(found.at_supports[1]) < 1e-9 * force * e2
    total = np.interp(SECTIONS * SPAN, found.x, found.total)
    if case == "a":
        ordinates = -total / force / INCH
        for i in (1, 3, 4, 5):
            assert ordinates[i - 1] == pytest.approx(ex["expected"][f"econ_a_{i}"]["value"], abs=0.02)
    for face, kern, sign, modulus in (("b", "kt", 1, "Sb"), ("t", "kb", -1, "St")):
        stress = (force * given[kern] * INCH - sign * total) / (given[modulus] * INCH**3) / PSI
        printed = [ex["expected"][f"f{face}p_{case}_{i}"]["value"] for i in range(1, 6)]
        np.testing.assert_allclose(stress, printed, atol=2)


def test_load_balancing_over_two_spans(example):
    """Own reference: 9 in parabolas, 200 kip: 1.125 kip/ft upward, 225 kip-ft over the support, 75 of it secondary."""
    ex = example("own-load-balance")["recomputed"]
    span, depth, force = 40 * FOOT, 30 * INCH, 200 * KIP
    middle, e = depth / 2, 0.75 * FOOT
    x, y = np.arange(5) * span / 2, middle + e * np.array([0, -1, 1, -1, 0])
    profile = Profile(tuple(x), tuple(y), "parabola")
    supports = Supports((0.0, span, 2 * span))
    specimen, cable = cast(profile, 2 * span, rectangle(16 * INCH, depth), supports, force)
    along = constant(cable, force)
    loads, found = balance.equivalent_loads(specimen, along), balance.moments(specimen, [along])
    np.testing.assert_allclose(loads.up / KIP * FOOT, ex["w_eq"]["value"], rtol=1e-9)
    at_b = {"total": np.interp(span, found.x, found.total), "primary": np.interp(span, found.x, found.primary),
            "secondary": found.at_supports[1]}  # fmt: skip
    for key, value in at_b.items():
        assert value / KIP_FT == pytest.approx(ex[f"M_{key}_B"]["value"], rel=1e-9)
    assert found.reactions[0] / KIP == pytest.approx(ex["R_secondary_end"]["value"], rel=1e-9)
    half = Load("dead", 2 * ex["w_eq"]["value"] * KIP / FOOT, 0.0, 2 * span)
    assert balance.balanced_shares(specimen, [loads], [half]) == pytest.approx((0.5, 0.5))


def test_friction_loss_of_a_tendon(example):
    """Own reference: μ 0.2 over 0.3 rad and K 0.0002/ft over 100 ft; its mean spreads the angle evenly."""
    ex = example("own-elongation")["recomputed"]
    length = 100 * FOOT
    sag = np.tan(0.15) * length / 4
    profile = Profile((0.0, length / 2, length), (sag, 0.0, sag), "parabola")
    cable = tendon(100.0, profile, length, 202.5 * KSI, stress_is="at the jack", friction=0.2, wobble=0.0002 / FOOT)
    found = friction.jacked(cable)
    assert found.before[-1] / KSI == pytest.approx(ex["f_end"]["value"], rel=1e-7)
    assert (202.5 * KSI - found.friction_loss) / KSI == pytest.approx(ex["f_avg"]["value"], rel=2e-4)

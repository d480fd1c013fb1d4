"""Printed examples of prestress: camber, balanced load, secondary moments, losses. Sources in ``data/examples.json``.

Entries of the kind ``own-reference`` there are worked out by their author, not printed; they are marked below.
"""

from __future__ import annotations

import numpy as np
import pytest
from printed import INCH, KIP, KIP_FT, KSI, PSI, agrees, given

from soffit.materials.concrete import Concrete
from soffit.materials.steel import Steel
from soffit.member import friction, grid, statics
from soffit.member import profile as way
from soffit.member.beam import Anchor, Beam, Load, Profile, Supports
from soffit.member.life import life
from soffit.member.result import Life
from soffit.member.transfer import at_transfer
from soffit.section.outline import rectangle
from specimens import beam, tendon, uniform

FOOT = 12 * INCH
ELASTIC = Steel("bilinear", 28500 * KSI, 240 * KSI, 270 * KSI, 0.035)


def concrete(modulus: float, strength: float = 6000 * PSI) -> Concrete:
    """Strong in tension, so that what the source takes as uncracked stays so."""
    return Concrete(strength, 0.2 * strength, modulus, 0.15)


def at(told: Life, rows: np.ndarray, x: float) -> float:
    """A quantity before any load rises, at ``x``."""
    return float(np.interp(x, told.stations.x, rows[0]))


# -- camber ---------------------------------------------------------------------------------------------------------


@pytest.fixture
def girder(example):
    """Hicks' girder as a rectangle of the same inertia, deep enough to stand its force; shear kept out by its width."""
    ex = example("ps-hicks-camber-transfer")
    # 33 w^1.5 √f'c, which the source prints rounded
    x = given(ex) | {"Eci": ex["recomputed"]["Eci"]["value"] * PSI}
    agrees(ex, "Eci", x["Eci"])
    depth = 40 * INCH
    outline = rectangle(12 * 40000 * INCH**4 / depth**3, depth)
    assert outline.inertia == pytest.approx(40000 * INCH**4)
    centre = depth / 2

    def cast(profile: Profile, **more: object) -> Beam:
        # strands that take next to no concrete away: their force is what counts
        force = tendon(x["Fi"] / (180 * KSI), profile, x["L"], 180 * KSI, steel=ELASTIC)
        return beam(x["L"], outline, concrete=concrete(x["Eci"]), tendons=(force,), loads=(uniform(x["L"]),), **more)

    return x, centre, cast


@pytest.mark.parametrize("kind", ["straight", "harped", "parabolic"])
def test_camber_of_three_profiles(example, girder, kind):
    """Hicks: straight, harped in the third points, parabolic, each with 8.8 in at midspan."""
    ex = example("ps-hicks-camber-transfer")
    (x, centre, cast), e = girder, 8.8 * INCH
    span, low = x["L"], centre - e
    profile = {
        "straight": Profile((0.0,), (low,)),
        "harped": Profile((0.0, span / 3, 2 * span / 3, span), (centre, low, low, centre)),
        "parabolic": Profile((0.0, span / 2, span), (centre, low, centre), "parabola"),
    }[kind]
    told = life(cast(profile))
    up = -at(told, told.stations.deflection, span / 2)
    agrees(ex, f"dp_{kind}", up)
    assert up / INCH == pytest.approx(ex["recomputed"][f"dp_{kind}"]["value"], rel=1e-3)


def test_sag_under_self_weight_and_net_camber(example, girder):
    """With the weight given as dead load; shear deformation, which the source leaves out, is taken off."""
    ex = example("ps-hicks-camber-transfer")
    x, centre, cast = girder
    span, w = x["L"], 340 * KIP / 1000 / FOOT
    specimen = cast(Profile((0.0,), (centre - 8.8 * INCH,)))
    heavy = Beam(**{**specimen.__dict__, "loads": (*specimen.loads, Load("dead", w, 0.0, span))})
    slide = w * span**2 / 8 / (5 / 6 * x["Eci"] / 2.4 * specimen.outline.area)
    rows = [life(each).stations for each in (specimen, heavy)]
    down = [float(np.interp(span / 2, r.x, r.deflection[0])) for r in rows]
    agrees(ex, "dw", down[1] - down[0] - slide)
    agrees(ex, "net_straight", -(down[1] - slide))


def test_prestress_shear_and_moment_at_a_section(example):
    """Hicks: a tendon at a slope of 0.014, 8 in below the centroid."""
    ex = example("ps-hicks-vp-mp")
    span, depth = 40 * FOOT, 40 * INCH
    middle, slope = depth / 2, 0.014
    # falls to the right: its vertical part pushes the left piece down, which is a negative shear
    profile = Profile((0.0, span), (middle - 8 * INCH + slope * span / 2, middle - 8 * INCH - slope * span / 2))
    force = 300000 * KIP / 1000
    assert way.height(profile, np.array([span / 2]))[0] == pytest.approx(middle - 8 * INCH)
    assert force * way.slope(profile, np.array([span / 2]))[0] / KIP * 1000 == pytest.approx(
        ex["expected"]["Vp"]["value"], rel=1e-6
    )
    cable = tendon(force / (150 * KSI), profile, span, 150 * KSI, steel=ELASTIC)
    told = life(beam(span, rectangle(20 * INCH, depth), concrete=concrete(3600 * KSI), tendons=(cable,)))
    bent = at(told, told.stations.curvature, span / 2) * 3600 * KSI * 20 * INCH * depth**3 / 12
    assert bent / (KIP * INCH) * 1000 == pytest.approx(ex["expected"]["Mp"]["value"], rel=1e-4)


# -- two spans ------------------------------------------------------------------------------------------------------


def test_balanced_load_and_secondary_moment(example, monkeypatch):
    """Own reference: parabolas of 9 in in two spans of 40 ft, 200 kip: 225 kip-ft over the support, 75 of it secondary.

    The moment of the loads and reactions alone (what the life gives) is the secondary moment. The reference bends
    without shear deformation, which takes 1/(1 + 3 E I/G A L²) of it. On fine stations.
    """
    monkeypatch.setattr(grid, "PIECES", 240)
    ex = example("own-load-balance")["recomputed"]
    span, depth, force = 40 * FOOT, 30 * INCH, 200 * KIP
    middle, e = depth / 2, 0.75 * FOOT
    profile = Profile(
        (0.0, span / 2, span, 1.5 * span, 2 * span), (middle, middle - e, middle + e, middle - e, middle), "parabola"
    )
    cable = tendon(force / (150 * KSI), profile, 2 * span, 150 * KSI, steel=ELASTIC)
    told = life(
        beam(
            2 * span, rectangle(16 * INCH, depth), concrete=concrete(4000 * KSI), tendons=(cable,),
            supports=Supports((0.0, span, 2 * span)), loads=(uniform(2 * span),),
        )
    )  # fmt: skip
    slide = 1 + 3 * (depth**2 / 12) * 2.4 * 6 / 5 / span**2
    secondary = at(told, told.stations.moment, span) * slide
    assert secondary / KIP_FT == pytest.approx(ex["M_secondary_B"]["value"], rel=2e-3)
    assert (secondary + force * e) / KIP_FT == pytest.approx(ex["M_total_B"]["value"], rel=1e-3)
    assert at(told, told.stations.shear, 1.0) * slide / KIP == pytest.approx(ex["R_secondary_end"]["value"], rel=2e-3)


SPAN = 120 * FOOT
TWO = Supports((0.0, SPAN, 2 * SPAN))


def share(x: np.ndarray) -> np.ndarray:
    """Moment of a load on both spans over w L², at x/L of a span from its outer end: 3x/8 − x²/2."""
    return 3 * x / 8 - x**2 / 2


def test_weight_of_a_two_span_girder(example):
    """Hicks: stresses of the girder's own weight at five sections, from the support moment w L²/8."""
    ex = example("ps-hicks-two-span-concordant")
    w = ex["inputs"]["w_beam"]["value"] * KIP / 1000 / FOOT
    x = np.array([0.2, 0.4, 0.6, 0.8, 1.0]) * SPAN
    (unit,) = statics.redundant_diagrams(x, 2 * SPAN, TWO)
    moment = statics.released(x, 2 * SPAN, TWO, [Load("dead", w, 0.0, 2 * SPAN)]).moment - w * SPAN**2 / 8 * unit.moment
    for face, sign, modulus in (("b", -1, "Sb"), ("t", 1, "St")):
        found = sign * moment / (ex["inputs"][modulus]["value"] * INCH**3) / PSI
        printed = [ex["expected"][f"f{face}w_{i}"]["value"] for i in range(1, 6)]
        np.testing.assert_allclose(found, printed, atol=2)


def test_concordant_tendon_of_two_spans(example):
    """Hicks: a trajectory in proportion to the moments of a load on both spans bends the girder without reactions."""
    ex = example("ps-hicks-two-span-concordant")
    e2 = ex["inputs"]["e2_a"]["value"]
    for i, at_x in ((1, 0.2), (3, 0.6), (4, 0.8), (5, 1.0)):
        printed = ex["expected"][f"econ_a_{i}"]
        assert e2 * share(np.array(at_x)) / share(np.array(0.4)) == pytest.approx(printed["value"], abs=printed["tol"])
    # that trajectory at half its size, so that it stays inside a rectangle
    along = np.linspace(0.0, 2.0, 161)
    depth = 60 * INCH
    heights = depth / 2 - 0.5 * e2 * INCH * share(np.where(along > 1, 2 - along, along)) / share(np.array(0.4))
    force = 0.5 * ex["inputs"]["Fi_a"]["value"] * KIP / 1000
    cable = tendon(
        force / (150 * KSI), Profile(tuple(along * SPAN), tuple(heights)), 2 * SPAN, 150 * KSI, steel=ELASTIC
    )
    told = life(
        beam(
            2 * SPAN, rectangle(30 * INCH, depth), concrete=concrete(4000 * KSI), tendons=(cable,), supports=TWO,
            loads=(uniform(2 * SPAN),),
        )
    )  # fmt: skip
    assert at(told, told.stations.moment, SPAN) == pytest.approx(0.0, abs=2e-3 * force * 0.5 * e2 * INCH)


# -- stresses ---------------------------------------------------------------------------------------------------------


def test_beam_with_straight_tendons_at_its_allowed_stresses(example):
    """Hicks' 8 × 10 in beam: faces of its end at transfer, and the load at which the soffit has its allowed tension.

    The allowed tension stands for the tensile strength, so that the first crack marks it. The tendon is thin (and
    stressed beyond what steel can bear), for the source leaves its own stiffness out.
    """
    ex = example("ps-hicks-8x10-allow")
    span, depth, width = 20 * FOOT, 10 * INCH, 8 * INCH
    force, e = ex["expected"]["Fi_max"]["value"] * KIP / 1000, ex["recomputed"]["e_max"]["value"] * INCH
    thin = Steel("bilinear", 28500 * KSI, 90000 * KSI, 99000 * KSI, 5.0)
    stress = 20000 * KSI
    cable = tendon(
        force / stress, depth / 2 - e, span, stress, steel=thin, stress_is="at the jack", long_term_loss=0.15
    )
    weight = uniform(span, ex["inputs"]["w_self"]["value"] * KIP / 1000 / FOOT, "dead")
    allowed = Concrete(5000 * PSI, 425 * PSI, 4000 * KSI, 0.14)
    specimen = beam(span, rectangle(width, depth), concrete=allowed, tendons=(cable,), loads=(weight, uniform(span)))
    ends = at_transfer(specimen, np.array([0.0, span / 2]), np.array([0.0, weight.value * span**2 / 8]))
    assert ends is not None
    # the source rounds S = 133.3 to 133 in³, which is 3.2 of the 1295 psi of bending
    assert ends.bottom[0] / PSI == pytest.approx(-2400, abs=3.5)
    assert ends.top[0] / PSI == pytest.approx(190, abs=3.5)
    assert (ends.bottom[1] - ends.bottom[0]) / PSI == pytest.approx(ex["expected"]["fbw"]["value"], rel=3e-3)
    crack = next(e for e in life(specimen).events if e.event == "first crack")
    assert crack.load * span / 8 / (width * depth**2 / 6) / PSI == pytest.approx(
        ex["expected"]["fbs"]["value"], rel=1e-3
    )


# -- losses -----------------------------------------------------------------------------------------------------------


def test_draw_in_without_friction(example):
    """E times slip over length. The first printed answer carries a rounded strain."""
    ex = example("ps-slip-mcq")
    x = given(ex)
    for case, slip in (("a", 5.0), ("b", 3.0)):
        given_stress = x[f"f_{case}"]
        rod = Steel("bilinear", 210000.0, 1500.0, 1600.0, 0.03)
        cable = tendon(100.0, 100.0, 30000.0, given_stress, steel=rod, stress_is="at the jack",
                       anchor=Anchor("wedge", 1e9, "", slip))  # fmt: skip
        after = friction.jacked(cable)
        loss = given_stress - after.stress
        assert np.ptp(loss) == pytest.approx(0.0, abs=1e-9)
        agrees(ex, f"loss_{case}", float(loss[0]))
        assert 100 * loss[0] / given_stress == pytest.approx(ex["expected"][f"pct_{case}"]["value"], rel=3e-3)


def test_friction_and_elongation(example):
    """Own reference: 100 ft, μ 0.2 over 0.3 rad, K 0.0002/ft: stress at the far end, mean, elongation."""
    ex = example("own-elongation")["recomputed"]
    length = 100 * FOOT
    # one parabola that turns 0.3 rad in all
    sag = length / 4 * np.tan(0.15)
    profile = Profile((0.0, length / 2, length), (sag, 0.0, sag), "parabola")
    cable = tendon(1.0, profile, length, 202.5 * KSI, steel=ELASTIC, friction=0.2, wobble=0.0002 / FOOT,
                   stress_is="at the jack")  # fmt: skip
    after = friction.jacked(cable)
    assert after.stress[-1] / KSI == pytest.approx(ex["f_end"]["value"], rel=1e-5)
    mean = float(np.trapezoid(after.stress, after.x)) / length
    # the reference spreads the angle evenly; a parabola does so but for the difference of tan and angle
    assert mean / KSI == pytest.approx(ex["f_avg"]["value"], rel=2e-4)
    assert mean / (28500 * KSI) * length / INCH == pytest.approx(ex["elong"]["value"], rel=2e-4)


def test_elastic_shortening_statement(example):
    """Statement only: loss = n fc with the whole force; the member solves for the force that remains."""
    ex = example("ps-es-statement")
    n, area, h, b, e, force = 6.0, 188.0, 300.0, 100.0, 50.0, 150e3
    fc = force / (b * h) + force * e**2 / (b * h**3 / 12)
    assert fc == pytest.approx(ex["recomputed"]["fc"]["value"], rel=1e-7)
    wire = Steel("bilinear", 210000.0, 1500.0, 1700.0, 0.03)
    cable = tendon(area, h / 2 - e, 6000.0, force / area, steel=wire, when="before casting", bond="bonded",
                   stress_is="at the jack", transfer_length=500.0)  # fmt: skip
    told = life(beam(6000.0, rectangle(b, h), concrete=Concrete(50.0, 3.5, 35000.0, 0.14), tendons=(cable,)))
    said = next(a for a in told.assumptions if "elastic shortening" in a)
    # n fc/(1 + n fc/σ0): the loss of the statement, less what the loss itself takes off the force
    first = ex["recomputed"]["loss"]["value"]
    assert first == pytest.approx(n * fc)
    assert f"takes {first / (1 + first / (force / area)):.0f} MPa" in said

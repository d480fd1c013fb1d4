"""The section floor against closed forms: resultants, equilibrium, moment–curvature, elastic sections,
N–M points.
"""

from __future__ import annotations

from itertools import pairwise
from math import inf, isnan, pi, sqrt

import numpy as np
import pytest
from scipy.integrate import quad

from soffit.materials import compression, steel_laws, tension
from soffit.materials.concrete import Concrete
from soffit.materials.curve import StressStrain, join, line
from soffit.materials.design_laws import aci_block, en_strains, parabola_rectangle
from soffit.materials.steel import Steel
from soffit.section import elastic, kernel, population
from soffit.section.elastic import ElasticLayer
from soffit.section.interaction import (
    ACI,
    Limits,
    at_axial,
    at_depth,
    at_eccentricity,
    balanced,
    even_compression,
    even_tension,
)
from soffit.section.interaction import line as n_m_line
from soffit.section.model import Layer, section
from soffit.section.moment_curvature import moment_curvature
from soffit.section.outline import box, circle, i_section, polygon, rectangle, tee
from soffit.section.population import (
    ConcreteSamples,
    LayerSamples,
    Population,
    SteelSamples,
    summarise,
)

E_C, E_S, FT, FY = 30000.0, 200000.0, 3.0, 500.0
# short pieces near zero: in a piece far longer than the strains asked for, differences of integrals lose digits
STEPS = [0.0, 1e-4, 1e-3, 1e-2]
DOWN = [line(-b, -a, -b * E_C, -a * E_C) for a, b in pairwise(STEPS)][::-1]
LINEAR = StressStrain((*DOWN, *(line(a, b, a * E_C, b * E_C) for a, b in pairwise(STEPS))), "linear")
NO_TENSION = StressStrain(tuple(DOWN), "linear, no tension")
CRACKING = StressStrain((*DOWN, line(0.0, FT / E_C, 0.0, FT)), "linear, brittle tension")
ELASTIC_STEEL = StressStrain((line(-1.0, 1.0, -E_S, E_S),), "linear steel")
ELASTIC_PLASTIC = StressStrain(
    (
        line(-1.0, -FY / E_S, -FY, -FY),
        line(-FY / E_S, FY / E_S, -FY, FY),
        line(FY / E_S, 1.0, FY, FY),
    ),
    "elastic–plastic",
)
MEAN = Concrete(35.0, 2.7, 34000.0, 0.14, peak_strain=0.0021)

OUTLINES = {
    "rectangle": rectangle(300, 500),
    "tee": tee(600, 150, 500, 120),
    "i": i_section(1000, 150, 600, 120, 500, 200, 80, 60),
    "box": box(900, 700, 120, 150, 130),
    "circle": circle(500),
    "triangle": polygon([(-200, 0), (200, 0), (0, 500)]),
}


# --- resultants
# ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", OUTLINES)
@pytest.mark.parametrize(("soffit", "curvature"), [(1e-3, 0.0), (1e-3, 3e-6), (-2e-4, -4e-7), (1e-4, 1e-12)])
def test_linear_resultants(name, soffit, curvature):
    """N = E (A ε(y) ) at the centroid, M = E I κ, steel as (n − 1) times its area."""
    outline = OUTLINES[name]
    layers = [Layer(60, 800, ELASTIC_STEEL), Layer(400, 500, ELASTIC_STEEL, prestrain=1e-3)]
    s = section(outline, LINEAR, layers)
    force, moment = s.resultants(soffit, curvature)
    y = outline.centroid
    n = E_C * outline.area * (soffit - curvature * y)
    m = E_C * outline.inertia * curvature
    for layer in layers:
        strain = soffit - curvature * layer.y
        f = layer.area * (E_S * (strain + layer.prestrain) - E_C * strain)
        n, m = n + f, m - f * (layer.y - y)
    size = E_C * outline.area * (abs(soffit) + abs(curvature) * outline.depth)
    assert force == pytest.approx(n, abs=1e-10 * size)
    assert moment == pytest.approx(m, abs=1e-10 * size * outline.depth)


@pytest.mark.parametrize("name", OUTLINES)
@pytest.mark.parametrize(("soffit", "curvature"), [(2e-3, 8e-6), (-1.2e-3, -6e-6), (5e-5, 2e-7), (4e-5, 1e-8)])
def test_resultants_of_a_mean_law_are_its_integrals(name, soffit, curvature):
    """Against adaptive quadrature of the law itself between its kinks; the table errs by 1e-7 of the
    strength.
    """
    outline = OUTLINES[name]
    law = join("mean", "", compression.curve(MEAN), tension.cohesive(MEAN, 100.0))
    s = section(outline, law)
    force = moment = 0.0
    breaks = [p.low for p in law.pieces] + [law.high]
    for y0, y1, w0, w1 in outline.strips:
        kinks = sorted(y for y in ((soffit - e) / curvature for e in breaks) if y0 < y < y1)
        for a, b in zip([y0, *kinks], [*kinks, y1], strict=True):

            def stress(y, y0=y0, y1=y1, w0=w0, w1=w1):
                return float(law(soffit - curvature * y)) * (w0 + (w1 - w0) * (y - y0) / (y1 - y0))

            force += quad(stress, a, b, epsabs=1e-9, epsrel=1e-11)[0]
            moment -= quad(lambda y, f=stress: f(y) * (y - s.axis), a, b, epsabs=1e-7, epsrel=1e-11)[0]
    size = 35.0 * outline.area
    assert s.resultants(soffit, curvature) == pytest.approx(
        (force, moment), rel=0, abs=2e-7 * size * max(1.0, outline.depth / 2)
    )
    assert s.resultants(soffit, curvature)[0] == pytest.approx(force, abs=2e-7 * size)


def test_displaced_concrete_is_that_of_the_core_where_the_steel_stands_in_it():
    """Cover and core of different laws: a stiff core inside a soft cover, all linear."""
    soft, stiff = (StressStrain((line(-0.01, 0.01, -0.01 * e, 0.01 * e),), "") for e in (2e4, 4e4))
    core = np.array([[50.0, 450.0, 200.0, 200.0]])
    s = section(
        rectangle(300, 500), soft, [Layer(60, 500, ELASTIC_STEEL), Layer(30, 500, ELASTIC_STEEL)], core=(core, stiff)
    )
    force, _ = s.resultants(1e-4, 0.0)
    expected = 20000 * (300 * 500 - 200 * 400) + 40000 * 200 * 400
    expected += 500 * (E_S - 40000) + 500 * (E_S - 20000)
    assert force == pytest.approx(expected * 1e-4, rel=1e-12)


# --- equilibrium and moment–curvature
# -----------------------------------------------------------------------


def test_elastic_compression_and_plastic_tension():
    """Plain rectangle, E in compression, E to ft and then ft for ever in tension; no axial force.

    ½ E κ c² = ft (h − c) − ½ ft²/(E κ) gives c, and the moment follows from the two stress blocks.
    """
    b, h = 200.0, 400.0
    law = StressStrain((*DOWN, line(0.0, FT / E_C, 0.0, FT), line(FT / E_C, 0.05, FT, FT)), "plastic tension")
    curvatures = np.linspace(2e-7, 3e-5, 150)
    strain, moment = section(rectangle(b, h), law).trace(curvatures)
    for k, e, m in zip(curvatures, strain, moment, strict=True):
        if E_C * k * h / 2 <= FT:
            assert m == pytest.approx(E_C * b * h**3 / 12 * k, rel=1e-9)
            continue
        a = FT / (E_C * k)  # height of the elastic part of the tension zone
        c = -a + sqrt(2 * a * h)
        assert e == pytest.approx(k * (h - c), rel=1e-7)
        plastic = h - c - a
        about_axis = E_C * k * c**2 / 2 * 2 * c / 3 + FT * a / 2 * 2 * a / 3 + FT * plastic * (a + plastic / 2)
        assert m == pytest.approx(b * about_axis, rel=1e-8)


def test_brittle_plain_beam_peaks_as_it_cracks():
    """ft b h²/6; nothing beyond."""
    found = moment_curvature(section(rectangle(150, 300), CRACKING))
    assert found.peak.moment == pytest.approx(FT * 150 * 300**2 / 6, rel=1e-9)
    crack = found.event("first crack")
    assert crack is not None
    assert (crack.curvature, crack.moment) == (found.peak.curvature, found.peak.moment)
    assert crack.curvature == pytest.approx(2 * FT / E_C / 300, rel=1e-9)
    # without steel the only equilibrium left is a sliver above a crack through the depth
    assert abs(found.moment[-1]) < 0.3 * found.peak.moment


def test_cohesive_plain_beam_turns_into_a_plastic_or_a_brittle_one():
    """Much fracture energy over the depth: towards 3 times the elastic moment; little: the elastic
    moment.
    """

    def peak(energy):
        c = Concrete(1e4, FT, E_C, energy, peak_strain=1.0)
        law = join("", "", NO_TENSION, tension.cohesive(c, 100.0))
        return moment_curvature(section(rectangle(150, 300), law)).peak.moment / (FT * 150 * 300**2 / 6)

    assert peak(1e-4) == pytest.approx(1.0, abs=2e-3)
    assert 2.8 < peak(1e3) < 3.0
    ratios = [peak(g) for g in (0.02, 0.1, 0.5, 2.5)]
    assert ratios == sorted(ratios)


@pytest.mark.parametrize("hogging", [False, True])
def test_events_of_an_elastic_cracking_section(hogging):
    """First crack, decompression, yield are those of elastic theory, to the last digits."""
    outline = OUTLINES["tee"]
    tendon = Layer(520 if hogging else 80, 700, ELASTIC_PLASTIC, prestrain=1e-3)
    bar = Layer(60, 400, ELASTIC_PLASTIC)
    both = [ElasticLayer(x.y, x.area, E_S, x.prestrain) for x in (tendon, bar)]
    found = moment_curvature(section(outline, CRACKING, [tendon, bar]), axial=-50e3, hogging=hogging)
    force = {"axial": -50e3, "hogging": hogging}
    decompression, crack = found.event("decompression"), found.event("first crack")
    assert decompression is not None
    assert crack is not None
    assert decompression.moment == pytest.approx(elastic.decompression_moment(outline, E_C, both, **force), rel=1e-9)
    assert crack.moment == pytest.approx(elastic.cracking_moment(outline, E_C, FT, both, **force), rel=1e-9)
    # the path starts without moment and the section is elastic up to the crack
    assert found.moment[0] == pytest.approx(0.0, abs=1.0)
    before = np.abs(found.curvature - found.curvature[0]) < abs(crack.curvature - found.curvature[0])
    for k, e, m in np.column_stack([found.curvature, found.soffit, found.moment])[before]:
        plane = elastic.uncracked_plane(outline, E_C, both, axial=-50e3, moment=float(m))
        assert (e, k) == pytest.approx((plane.soffit, plane.curvature), rel=1e-7)


def test_yield_and_rupture_of_a_cracked_elastic_section():
    """No tension in the concrete: yield and rupture at σ I/(n (d − x)) with the cracked transformed
    section.
    """
    outline = rectangle(250, 500)
    frp = StressStrain((line(0.0, 1000 / 50000, 0.0, 1000.0),), "to rupture at 1000 MPa")
    for law, modulus, stress, kind in ((ELASTIC_PLASTIC, E_S, FY, "yield"), (frp, 50000.0, 1000.0, "rupture")):
        bars = [ElasticLayer(50, 900, modulus)]
        cracked, y = elastic.cracked(outline, E_C, bars)
        expected = stress * cracked.inertia / (modulus / E_C * (y - 50))
        found = moment_curvature(section(outline, NO_TENSION, [Layer(50, 900, law)]))
        event = found.event(kind, 0)
        assert event is not None
        assert event.moment == pytest.approx(expected, rel=1e-8)
        assert event.soffit - event.curvature * 50 == pytest.approx(stress / modulus, rel=1e-10)
    # FRP ruptures and nothing is left: the peak is that very moment
    assert found.peak.moment == event.moment
    assert found.ended == "the moment fell"


def test_events_come_in_order_and_on_the_path():
    bar = steel_laws.LAWS["plateau"].curve(Steel("plateau", E_S, FY, 600.0, 0.08, hardening_strain=0.01))
    law = join("", "", compression.curve(MEAN), tension.cohesive(MEAN, 100.0))
    s = section(rectangle(100, 150), law, [Layer(25, 157, bar), Layer(125, 56, bar)])
    found = moment_curvature(s)
    kinds = [e.kind for e in found.events]
    assert kinds == ["first crack", "yield", "concrete crushes", "peak", "yield in compression"]
    for event in found.events:
        assert s.resultants(event.soffit, event.curvature) == pytest.approx((0.0, event.moment), abs=1e-3)
    assert found.peak.moment >= found.moment.max()
    assert found.moment.max() == pytest.approx(found.peak.moment, rel=2e-3)


def test_no_equilibrium_gives_nan_and_no_path():
    s = section(rectangle(300, 300), aci_block(30.0), [Layer(50, 500, ELASTIC_PLASTIC)])
    too_much = -1.2 * (0.85 * 30 * 300 * 300 + 500 * FY)
    found = moment_curvature(s, axial=too_much)
    assert len(found.moment) == 0
    assert isnan(found.peak.moment)
    assert found.event("yield") is None
    strain, moment = s.trace(np.array([1e-6, 2e-6]), axial=too_much)
    assert np.all(np.isnan(strain))
    assert np.all(np.isnan(moment))
    assert all(isnan(x) for x in s.plane(too_much, 0.0))
    # more tension than the steel yields
    assert np.isnan(s.trace(np.array([0.0]), axial=1.01 * 500 * FY)[0][0])
    # more moment than the section has
    assert all(isnan(x) for x in s.plane(0.0, 1e12))
    # once lost, everything behind is NaN
    strain, _ = s.trace(np.array([1e-6, 0.5, 1e-6]), axial=-1e6)
    assert list(np.isnan(strain)) == [False, True, True]


def test_plane_is_the_inverse_of_resultants():
    law = join("", "", compression.curve(MEAN), tension.cohesive(MEAN, 100.0))
    s = section(OUTLINES["i"], law, [Layer(60, 1500, ELASTIC_PLASTIC), Layer(940, 600, ELASTIC_PLASTIC)])
    for plane in ((-1e-4, 1e-7), (-8e-4, -5e-7), (3e-5, 2e-8)):
        n, m = s.resultants(*plane)
        assert s.plane(n, m) == pytest.approx(plane, rel=1e-6)


# --- elastic sections
# ---------------------------------------------------------------------------------------


def test_cracked_rectangle():
    """kd = n ρ d (√(1 + 2/(n ρ)) − 1), I = b (kd)³/3 + n As (d − kd)²."""
    b, h, d, area, n = 300.0, 500.0, 440.0, 1500.0, E_S / E_C
    t, y = elastic.cracked(rectangle(b, h), E_C, [ElasticLayer(h - d, area, E_S)])
    r = n * area / (b * d)
    kd = r * d * (sqrt(1 + 2 / r) - 1)
    assert h - y == pytest.approx(kd, rel=1e-13)
    assert t.centroid == pytest.approx(y, rel=1e-13)
    assert t.inertia == pytest.approx(b * kd**3 / 3 + n * area * (d - kd) ** 2, rel=1e-12)
    # the same upside down
    t2, y2 = elastic.cracked(rectangle(b, h), E_C, [ElasticLayer(d, area, E_S)], hogging=True)
    assert (y2, t2.inertia) == pytest.approx((kd, t.inertia), rel=1e-12)


@pytest.mark.parametrize("eccentricity", [0.1, 0.25, 0.4])
def test_block_that_carries_no_tension(eccentricity):
    """A plain rectangle under P at e: uncracked to h/6, then a triangle of depth 3 (h/2 − e)."""
    b, h, p = 300.0, 600.0, 1e6
    e = eccentricity * h
    plane = elastic.cracked_plane(rectangle(b, h), E_C, (), axial=-p, moment=p * e)
    top = elastic.concrete_stress(plane, E_C, h)
    if e <= h / 6:
        assert top == pytest.approx(-p / (b * h) * (1 + 6 * e / h), rel=1e-10)
        assert plane.neutral_axis < 0
    else:
        depth = 3 * (h / 2 - e)
        assert h - plane.neutral_axis == pytest.approx(depth, rel=1e-9)
        assert top == pytest.approx(-2 * p / (b * depth), rel=1e-9)
        zone = elastic.cracked_zone(rectangle(b, h), E_C, (), plane)
        assert zone.area == pytest.approx(b * depth, rel=1e-9)
        assert zone.inertia == pytest.approx(b * depth**3 / 12, rel=1e-9)


@pytest.mark.parametrize("name", OUTLINES)
@pytest.mark.parametrize(("axial", "moment"), [(0.0, 80e6), (-3e5, 120e6), (1e5, 60e6), (-2e5, -60e6), (0.0, 0.0)])
def test_cracked_plane_is_the_kernels(name, axial, moment):
    """The convex solution and the kernel with a law without tension meet, prestress and all."""
    outline = OUTLINES[name]
    given = [(60.0, 900.0, 0.0), (0.6 * outline.depth, 500.0, 8e-4), (outline.depth - 60.0, 500.0, 0.0)]
    plane = elastic.cracked_plane(outline, E_C, [ElasticLayer(y, a, E_S, p) for y, a, p in given], axial, moment)
    s = section(outline, NO_TENSION, [Layer(y, a, ELASTIC_STEEL, p) for y, a, p in given])
    n, m = s.resultants(plane.soffit, plane.curvature)
    assert n == pytest.approx(axial, abs=1e-3)
    assert m == pytest.approx(moment, abs=1.0)


def test_cracked_sections_that_do_not_exist():
    outline = rectangle(300, 500)
    with pytest.raises(ValueError, match="needs steel"):
        elastic.cracked(outline, E_C, [])
    # a load outside the section that no steel holds
    assert isnan(elastic.cracked_plane(outline, E_C, (), axial=-1e5, moment=1e5 * 300).soffit)
    assert isnan(elastic.cracked_plane(outline, E_C, (), axial=1e5, moment=0.0).soffit)
    none = elastic.cracked_zone(outline, E_C, (), elastic.Plane(float("nan"), float("nan")))
    assert isnan(none.area)
    with pytest.raises(ValueError, match="centroid"):
        elastic.moment_at_fibre_stress(outline, E_C, 1.0, 250.0)


def test_a_plane_is_found_where_the_energy_is_flat_to_its_last_digit():
    # the energy of the last step differs by less than its rounding: the gradient alone tells that it is one
    shape = tee(650.0, 350.0, 1200.0, 160.0)
    layers = [ElasticLayer(62.5, 1963.4954084936207, 200e3), ElasticLayer(592.0, 402.1238596594935, 200e3)]
    for moment in (-2092433.3765051805, *np.linspace(-3e6, -1e6, 40)):
        plane = elastic.cracked_plane(shape, 31386.221180193956, layers, 0.0, float(moment))
        whole, axis = elastic.cracked(shape, 31386.221180193956, layers, hogging=True)
        assert plane.neutral_axis == pytest.approx(axis, rel=1e-8)
        assert plane.curvature == pytest.approx(moment / (31386.221180193956 * whole.inertia), rel=1e-8)


def test_prestress_is_an_eccentric_load_on_the_section():
    """A stretched layer acts as the force that undoes its own stretch: P/A + P e²…, transformed section."""
    outline, y = rectangle(300, 600), 100.0
    layer = ElasticLayer(y, 1000.0, E_S, 5e-3)
    t = elastic.uncracked(outline, E_C, [layer])
    p = E_S * 1000 * 5e-3
    e = t.centroid - y
    plane = elastic.uncracked_plane(outline, E_C, [layer])
    assert elastic.concrete_stress(plane, E_C, 0.0) == pytest.approx(
        -p / t.area - p * e * t.centroid / t.inertia, rel=1e-12
    )
    assert elastic.steel_stress(plane, layer) == pytest.approx(
        1000.0 + E_S / E_C * (-p / t.area - p * e * e / t.inertia), rel=1e-12
    )
    assert plane.curvature < 0  # it arches up
    assert elastic.linear([Layer(y, 1000.0, ELASTIC_STEEL, 5e-3)])[0].modulus == pytest.approx(E_S, rel=1e-8)


# --- N–M points
# ---------------------------------------------------------------------------------------------


def test_block_in_a_triangle():
    """Point up, sagging: the block of depth a in the tip has the area b a²/(2h), its force at 2a/3 from
    the tip.
    """
    b, h, area = 400.0, 600.0, 300.0
    s = section(
        polygon([(-b / 2, 0), (b / 2, 0), (0, h)]), aci_block(25.0), [Layer(80, area, ELASTIC_PLASTIC, displaces=False)]
    )
    a = sqrt(2 * h * area * FY / (0.85 * 25 * b))
    point = at_axial(s, ACI)
    assert point.depth == pytest.approx(a / 0.85, rel=1e-9)
    assert point.moment == pytest.approx(area * FY * (h - 80 - 2 * a / 3), rel=1e-9)


def test_eurocode_pivot_under_small_eccentricity():
    """Even compression is at εc2, whose stress is fcd; the plane turns about the point where the strain
    is εc2.
    """
    c2, cu2, _ = en_strains(30.0)
    limits = Limits(cu2, c2)
    s = section(
        rectangle(300, 500), parabola_rectangle(20.0, 30.0), [Layer(y, 800, ELASTIC_PLASTIC) for y in (50, 450)]
    )
    even = even_compression(s, limits)
    steel = min(FY, E_S * c2)
    assert even.axial == pytest.approx(-20 * 300 * 500 - 1600 * (steel - 20), rel=1e-7)
    assert even.moment == pytest.approx(0.0, abs=1.0)
    pivot = 500 * c2 / cu2
    for depth in (510.0, 700.0, 5000.0):
        assert at_depth(s, limits, depth).strain(pivot) == pytest.approx(-c2, rel=1e-9)
    # without a jump where the neutral axis leaves the section, and towards even compression
    here, there = at_depth(s, limits, 500 - 1e-6), at_depth(s, limits, 500 + 1e-6)
    assert (here.axial, here.moment) == pytest.approx((there.axial, there.moment), rel=1e-6)
    assert at_depth(s, limits, 1e9).axial == pytest.approx(even.axial, rel=1e-6)
    # full parabola–rectangle: 0.8095 of the block at 0.4160 of its depth (n = 2, 2.0 and 3.5 ‰)
    plain = section(rectangle(300, 500), parabola_rectangle(20.0, 30.0))
    point = at_depth(plain, limits, 200.0)
    assert -point.axial == pytest.approx(17 / 21 * 20 * 300 * 200, rel=1e-7)
    assert point.moment == pytest.approx(-point.axial * (250 - 200 * 99 / 238), rel=1e-7)


def test_force_where_displaced_concrete_begins_to_count():
    """As the block's edge reaches a layer the force jumps back; every force around it is still met exactly."""
    s = section(
        rectangle(300, 500), aci_block(30.0), [Layer(60, 900, ELASTIC_PLASTIC), Layer(400, 2000, ELASTIC_PLASTIC)]
    )
    depths = np.linspace(115, 125, 2001)
    forces = np.array([at_depth(s, ACI, float(c)).axial for c in depths])
    at = int(np.argmax(np.diff(forces)))
    assert forces[at + 1] - forces[at] == pytest.approx(0.85 * 30 * 2000, rel=0.05)
    for wanted in np.linspace(forces[at] - 2e4, forces[at + 1] + 2e4, 12):
        assert at_axial(s, ACI, float(wanted)).axial == pytest.approx(wanted, abs=1e-3)


def test_limits_of_the_n_m_line():
    s = section(rectangle(300, 500), aci_block(30.0), [Layer(y, 800, ELASTIC_PLASTIC) for y in (50, 450)])
    points = n_m_line(s, ACI)
    forces = [p.axial for p in points]
    assert forces == sorted(forces)
    assert points[0].depth == inf
    assert even_tension(s, 0.01).axial == pytest.approx(1600 * FY, rel=1e-12)
    assert balanced(s, ACI, FY / E_S).strain(50) == pytest.approx(FY / E_S, rel=1e-12)
    assert balanced(s, ACI, FY / E_S, hogging=True).strain(450) == pytest.approx(FY / E_S, rel=1e-12)
    # nothing to be had beyond even compression or the steel's yield
    assert isnan(at_axial(s, ACI, 1.01 * forces[0]).moment)
    assert isnan(at_axial(s, ACI, 1.01 * 1600 * FY).moment)
    assert at_eccentricity(s, ACI, 100.0).moment == pytest.approx(-100 * at_eccentricity(s, ACI, 100.0).axial)
    plain = section(rectangle(300, 500), aci_block(30.0))
    with pytest.raises(ValueError, match="needs a layer"):
        balanced(plain, ACI, 0.002)
    with pytest.raises(ValueError, match="above zero"):
        at_depth(s, ACI, 0.0)
    with pytest.raises(ValueError, match="ultimate strain"):
        Limits(0.002, 0.003)
    stretched = section(rectangle(300, 500), aci_block(30.0), [Layer(50, 800, ELASTIC_PLASTIC, prestrain=0.01)])
    with pytest.raises(ValueError, match="prestrain alone"):
        balanced(stretched, ACI, 0.002)


# --- populations
# --------------------------------------------------------------------------------------------

STEELS = {
    "plateau": Steel("plateau", E_S, FY, 600.0, 0.08, hardening_strain=0.01),
    "bilinear": Steel("bilinear", E_S, FY, 550.0, 0.05),
    "strand": Steel("strand", 195000.0, 1674.0, 1860.0, 0.035),
    "linear": Steel("linear", 50000.0, 1000.0, 1000.0, 0.02),
}


@pytest.mark.parametrize("kind", STEELS)
@pytest.mark.parametrize("law", ["popovics", "en1992"])
@pytest.mark.parametrize(("softening", "hogging"), [("cohesive", False), ("brittle", True), ("none", False)])
def test_a_sample_is_the_single_section(kind, law, softening, hogging):
    """Laws built in compiled code and walked there give what the section alone gives."""
    random = np.random.default_rng(7)
    n, steel, outline = 12, STEELS[kind], OUTLINES["i"]

    def scatter(mean, variation=0.08):
        return mean * np.exp(random.normal(0.0, variation, n))

    prestrain = scatter(4e-3) if kind == "strand" else 0.0
    concrete = ConcreteSamples(
        scatter(40.0), scatter(34000.0), scatter(0.0022), scatter(2.8), scatter(0.14), 150.0, law, softening
    )
    stretch = scatter(1.0)
    steels = SteelSamples(
        kind, scatter(steel.modulus, 0.02), steel.yield_strength * stretch, steel.tensile * stretch,
        steel.strain_at_max, steel.hardening_strain,
    )  # fmt: skip
    layers = [
        LayerSamples(scatter(80.0), scatter(1500.0), 0, prestrain),
        LayerSamples(scatter(850.0, 0.02), 500.0, displaces=False),
    ]
    width, depth, axial = scatter(1.0, 0.03), scatter(1.0, 0.03), -50e3 * scatter(1.0)
    found = summarise(Population(outline, concrete, [steels], layers, width, depth, axial), n, hogging=hogging)

    def at(value, i):
        return float(np.broadcast_to(value, n)[i])

    for i in range(n):
        c = Concrete(
            at(concrete.strength, i), at(concrete.tensile, i), at(concrete.modulus, i),
            at(concrete.fracture_energy, i), peak_strain=at(concrete.peak_strain, i), law=law,
        )  # fmt: skip
        pulls = {"cohesive": tension.cohesive(c, 150.0), "brittle": tension.brittle(c), "none": None}[softening]
        whole = join("", "", compression.curve(c), *([pulls] if pulls else []))
        bar = steel_laws.LAWS[kind].curve(
            Steel(
                kind, at(steels.modulus, i), at(steels.yield_strength, i), at(steels.tensile, i),
                steel.strain_at_max, steel.hardening_strain,
            )
        )  # fmt: skip
        scaled = polygon([(x * width[i], y * depth[i]) for x, y in outline.points])
        single = moment_curvature(
            section(
                scaled, whole,
                [Layer(at(x.y, i), at(x.area, i), bar, at(x.prestrain, i), x.displaces) for x in layers],
            ),
            axial=axial[i],
            hogging=hogging,
        )  # fmt: skip
        for kind_of_event, name in (
            ("peak", "peak"), ("first crack", "cracking"), ("yield", "yield"), ("concrete crushes", "crushing"),
            ("rupture", "rupture"),
        ):  # fmt: skip
            event = single.event(kind_of_event)
            moment = getattr(found, f"{name}_moment")[i]
            curvature = getattr(found, f"{name}_curvature")[i]
            if event is None:
                assert isnan(moment), (name, i)
                continue
            # crushing or rupture in a snap stands at a fold of the path, where the kernel's tolerance of 1e-10
            # of the force counts with its square root
            face = event.soffit - event.curvature * (0.0 if hogging else scaled.depth)
            snap = name == "crushing" and abs(face + 0.0035) > 1e-9
            if name == "rupture":
                torn = layers[event.layer]
                strain = event.soffit - event.curvature * at(torn.y, i) + at(torn.prestrain, i)
                snap = abs(strain - bar.high) > 1e-9
            close = 1e-3 if snap else 1e-6
            assert moment == pytest.approx(event.moment, rel=close), (name, i)
            assert curvature == pytest.approx(event.curvature, rel=close), (name, i)


def test_samples_that_are_no_sections_are_nan():
    concrete = ConcreteSamples(
        np.array([35.0, 35.0, 35.0, -1.0, 35.0]), np.array([3e4, 3e4, 1e3, 3e4, 3e4]), 0.0021, tension="none"
    )
    steel = SteelSamples("bilinear", E_S, FY, 550.0, 0.05)
    layers = [LayerSamples(np.array([50.0, 600.0, 50.0, 50.0, 50.0]), 900.0)]
    axial = np.array([0.0, 0.0, 0.0, 0.0, -1e8])
    found = summarise(Population(rectangle(300, 500), concrete, [steel], layers, axial=axial), 5)
    assert list(np.isnan(found.peak_moment)) == [False, True, True, True, True]


def test_chunks_of_a_population_do_not_show(monkeypatch):
    strengths = np.linspace(20.0, 60.0, 23)
    steel = SteelSamples("bilinear", E_S, FY, 550.0, 0.05)
    concrete = ConcreteSamples(strengths, 3e4, 0.0025, tension="none")
    many = Population(rectangle(300, 500), concrete, [steel], [LayerSamples(50.0, 900.0)])
    whole = summarise(many, 23)
    monkeypatch.setattr(population, "CHUNK", 5)
    assert np.array_equal(summarise(many, 23).events, whole.events, equal_nan=True)
    assert np.all(np.diff(whole.peak_moment) > 0)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"concrete": ConcreteSamples(35.0, 3e4, 0.002, law="guess")}, "compression law"),
        ({"concrete": ConcreteSamples(35.0, 3e4, 0.002, tension="guess")}, "tension law"),
        ({"steels": [SteelSamples("guess", E_S, FY, FY, 0.05)]}, "kind of steel"),
        ({"layers": [LayerSamples(50.0, 900.0, 1)]}, "names steel 1"),
        ({"width": np.ones(3)}, "does not describe 5 samples"),
    ],
)
def test_a_population_that_cannot_be(change, message):
    whole = {
        "outline": rectangle(300, 500),
        "concrete": ConcreteSamples(35.0, 3e4, 0.002, tension="none"),
        "steels": [SteelSamples("bilinear", E_S, FY, FY, 0.05)],
    }
    with pytest.raises(ValueError, match=message):
        summarise(Population(**(whole | change)), 5)


def test_trace_many_is_trace():
    law = join("", "", compression.curve(MEAN), tension.cohesive(MEAN, 100.0))
    s = section(rectangle(300, 500), law, [Layer(50, 1200, ELASTIC_PLASTIC), Layer(450, 400, ELASTIC_PLASTIC)])
    areas = np.linspace(0.5, 1.5, 5)
    layers = np.repeat(s.layers[None], 5, 0)
    layers[:, :, 1] *= areas[:, None]
    k = np.linspace(1e-7, 4e-5, 40)
    args = (s.laws.table, s.laws.first, s.laws.last, s.axis)
    axial = np.linspace(-2e5, 1e5, 5)
    strain, moment = kernel.trace_many(s.strips, layers, *args, np.tile(k, (5, 1)), axial, np.zeros(5), s.scale)
    for i in range(5):
        one = kernel.trace(s.strips, layers[i], *args, k, axial[i], 0.0, s.scale)
        assert np.array_equal(strain[i], one[0])
        assert np.array_equal(moment[i], one[1])


def test_circle_under_a_block():
    """Hand formula of the circular segment: A = r² (θ − sin θ cos θ), arm 2 r sin³θ/(3 (θ − sin θ cos
    θ)).
    """
    d = 400.0
    s = section(circle(d), aci_block(25.0))
    theta = pi / 3
    depth = d / 2 * (1 - np.cos(theta)) / 0.85
    point = at_depth(s, ACI, depth)
    area = (d / 2) ** 2 * (theta - np.sin(theta) * np.cos(theta))
    arm = 2 * (d / 2) * np.sin(theta) ** 3 / (3 * (theta - np.sin(theta) * np.cos(theta)))
    # the polygon of 96 sides is 2e-4 less deep than the circle
    assert -point.axial == pytest.approx(0.85 * 25 * area, rel=1e-3)
    assert point.moment == pytest.approx(0.85 * 25 * area * arm, rel=1e-3)

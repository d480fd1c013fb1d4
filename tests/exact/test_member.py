"""The life of a member against what can be worked out by hand: elastic states, mechanisms, one crack's energy."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt
from typing import Any

import numpy as np
import pytest

from soffit.materials import steel_laws
from soffit.materials.steel import Steel
from soffit.member import grid, march
from soffit.member import life as whole
from soffit.member.beam import Beam, Press, Profile, Supports
from soffit.member.life import life
from soffit.member.nodes import concrete_laws
from soffit.member.result import Event, Life, SectionState
from soffit.section.elastic import ElasticLayer, uncracked
from soffit.section.model import Layer, section
from soffit.section.moment_curvature import moment_curvature
from soffit.section.outline import rectangle
from specimens import CONCRETE, FLAT, STRAND, bars, beam, stirrups, tendon, uniform

L, B, H = 3000.0, 200.0, 300.0
E, FT = CONCRETE.modulus, CONCRETE.tensile
EI, Z = E * B * H**3 / 12, B * H**2 / 6
GA = E / 2.4 * B * H * 5 / 6
CLOSE = 2e-6
"""A crack is seen when its strain is reached to a millionth."""


def event(told: Life, name: str) -> Event:
    return next(e for e in told.events if e.event == name)


# -- elastic, up to the first crack ----------------------------------------------------------------------------


def test_first_crack_of_a_plain_beam_in_third_point_bending():
    """M = P L/6 = ft Z, and 23 P L³/1296 E I + P L/6 G A under it."""
    told = life(beam(L))
    crack = event(told, "first crack")
    p = FT * Z * 6 / L
    assert crack.load == pytest.approx(p, rel=CLOSE)
    assert crack.deflection == pytest.approx(23 * p * L**3 / (1296 * EI) + p * L / (6 * GA), rel=1e-5)


def test_the_way_to_the_first_crack_is_straight():
    told = life(beam(L, bars=(bars(3, 16.0, 40.0, L),)))
    upto = event(told, "first crack").step
    load, deflection = told.curve.load[1:upto], told.curve.deflection[1:upto]
    np.testing.assert_allclose(load / deflection, load[0] / deflection[0], rtol=1e-9)


@pytest.mark.parametrize("fixed", [{"fixed_left": True}, {"fixed_left": False}])
def test_first_crack_of_a_cantilever_on_either_side(fixed):
    """P L = ft Z; P L³/3 E I + P L/G A at the tip."""
    at, tip = (0.0, L) if fixed["fixed_left"] else (L, 0.0)
    told = life(beam(L, supports=Supports((at,), **fixed), press=Press((tip,))))
    crack = event(told, "first crack")
    assert crack.load == pytest.approx(FT * Z / L, rel=CLOSE)
    assert crack.moment == pytest.approx(-FT * Z, rel=CLOSE)
    assert crack.deflection == pytest.approx(crack.load * (L**3 / (3 * EI) + L / GA), rel=1e-6)
    assert told.gauge == tip


def test_first_crack_with_bars_and_dead_load_uses_the_transformed_section():
    steel = bars(3, 16.0, 40.0, L)
    dead = uniform(L, 2.0, "dead")
    told = life(beam(L, bars=(steel,), loads=(dead,), press=Press((L / 2,))))
    layer = ElasticLayer(40.0, steel.area, steel.steel.modulus)
    t = uncracked(rectangle(B, H), E, [layer])
    cracking = FT * t.inertia / t.centroid
    p = (cracking - 2.0 * L**2 / 8) * 4 / L
    crack = event(told, "first crack")
    assert crack.load == pytest.approx(p, rel=CLOSE)
    assert crack.moment == pytest.approx(cracking, rel=CLOSE)
    assert crack.deflection == pytest.approx(p * L**3 / (48 * E * t.inertia) + p * L / (4 * GA), rel=1e-5)


@pytest.mark.parametrize(
    ("supports", "share"),
    [
        (Supports((0.0, L), fixed_left=True, fixed_right=True), 1 / 12),
        # the bending of a propped beam and of two spans meets the shear deformation of the span
        (Supports((0.0, L), fixed_left=True), 1 / 24 / (1 / 3 + EI / (GA * L**2))),
        (Supports((0.0, L), fixed_right=True), 1 / 24 / (1 / 3 + EI / (GA * L**2))),
        (Supports((0.0, L / 2, L)), 1 / 96 / (1 / 3 + EI / (GA * (L / 2) ** 2))),
    ],
)  # fmt: skip
def test_first_crack_of_redundant_beams_under_uniform_load(supports, share, monkeypatch):
    """Over the support, where w L² times ``share`` reaches the cracking moment (on fine stations)."""
    monkeypatch.setattr(grid, "PIECES", 240)
    told = life(beam(L, supports=supports, loads=(uniform(L),)))
    crack = event(told, "first crack")
    assert crack.moment == pytest.approx(-FT * Z, rel=CLOSE)
    assert crack.load == pytest.approx(FT * Z / share / L, rel=3e-4)


def test_deflection_of_a_fixed_beam_is_zero_with_zero_slope_at_its_ends():
    told = life(beam(L, supports=Supports((0.0, L), fixed_left=True, fixed_right=True), loads=(uniform(L),)))
    row = told.stations.deflection[4]
    w = told.curve.load[4] / L
    middle = np.interp(L / 2, told.stations.x, row)
    assert middle == pytest.approx(w * L**4 / (384 * EI) + w * L**2 / (8 * GA), rel=2e-3)
    assert row[0] == row[-1] == pytest.approx(0.0, abs=1e-12)


# -- plastic: the section's strength, mechanisms ----------------------------------------------------------------


def strength(specimen: Beam, hogging: bool = False, cohesive: bool = False) -> float:
    """Greatest moment of the section by the section kernel's own walk."""
    law = concrete_laws(specimen, 0.5 * specimen.outline.depth)[1 if cohesive else 0]
    layers = [Layer(b.y, b.area, steel_laws.curve(b.steel)) for b in specimen.bars]
    return abs(moment_curvature(section(specimen.outline, law, layers), hogging=hogging).peak.moment)


def test_peak_of_a_simple_span_is_the_strength_of_its_section():
    # stirrups of one leg hold the web but confine nothing
    specimen = beam(
        L,
        bars=(bars(3, 16.0, 40.0, L), bars(2, 10.0, 260.0, L)),
        stirrups=(stirrups(L, legs=1),),
        press=Press((L / 2,)),
    )
    told = life(specimen)
    assert told.peak.load * L / 4 == pytest.approx(strength(specimen), rel=1e-3)


def plastic(supports: Supports, length: float, below: int, above: int) -> tuple[Life, float, float]:
    """A long beam of flat steel (no hardening, so that the hinges hold) under uniform load, with its two strengths."""
    specimen = beam(
        length,
        supports=supports,
        bars=(bars(below, 12.0, 40.0, length, FLAT), bars(above, 12.0, 260.0, length, FLAT)),
        stirrups=(stirrups(length),),
        loads=(uniform(length),),
    )
    return life(specimen), strength(specimen), strength(specimen, hogging=True)


@pytest.mark.parametrize(("below", "above"), [(3, 3), (3, 2), (2, 3)])
def test_collapse_of_a_fixed_beam(below, above):
    """w L²/8 = Mp + Mp'. Above the bound no load can go; a hinge may be past its own peak when the last one turns."""
    told, sagging, hogging = plastic(Supports((0.0, 6000.0), fixed_left=True, fixed_right=True), 6000.0, below, above)
    bound = 8 * (sagging + hogging) / 6000.0
    assert 0.97 * bound <= told.peak.load <= 1.002 * bound


@pytest.mark.parametrize("supports", [{"fixed_left": True}, {"fixed_right": True}])
@pytest.mark.parametrize(("below", "above"), [(3, 3), (3, 2)])
def test_collapse_of_a_propped_beam(supports, below, above):
    """w L² = 2 (Mp' + 2 Mp + 2 √(Mp² + Mp Mp')), the hinge in the span where the moment is greatest."""
    told, sagging, hogging = plastic(Supports((0.0, 6000.0), **supports), 6000.0, below, above)
    bound = 2 * (hogging + 2 * sagging + 2 * sqrt(sagging**2 + sagging * hogging)) / 6000.0
    assert 0.97 * bound <= told.peak.load <= 1.002 * bound


def test_collapse_of_two_spans():
    told, sagging, hogging = plastic(Supports((0.0, 5000.0, 10000.0)), 10000.0, 3, 3)
    bound = 2 * 2 * (hogging + 2 * sagging + 2 * sqrt(sagging**2 + sagging * hogging)) / 5000.0
    assert 0.97 * bound <= told.peak.load <= 1.002 * bound


def test_a_fixed_beam_without_top_steel_ends_as_a_simple_span():
    """Its ends crack and let go; what is left carries w L²/8 = Mp, and what the low bars hold at the ends at most."""
    supports = Supports((0.0, 6000.0), fixed_left=True, fixed_right=True)
    specimen = beam(
        6000.0,
        supports=supports,
        bars=(bars(3, 16.0, 40.0, 6000.0),),
        stirrups=(stirrups(6000.0, legs=1),),
        loads=(uniform(6000.0),),
    )
    least = 8 * strength(specimen) / 6000.0
    most = least + 8 * strength(specimen, hogging=True) / 6000.0
    assert 0.99 * least <= life(specimen).peak.load <= 1.002 * most


# -- one crack ---------------------------------------------------------------------------------------------------


def whole_curve(specimen: Beam, monkeypatch: pytest.MonkeyPatch) -> tuple[np.ndarray, np.ndarray]:
    """Load and deflection under the load until hardly anything is left, not cut at the collapse."""
    monkeypatch.setattr(march, "FALLEN", 0.008)
    monkeypatch.setattr(whole, "COLLAPSED", 0.01)
    told = life(specimen)
    return told.curve.load, told.curve.deflection


@pytest.mark.parametrize("depth", [100.0, 300.0, 800.0])
def test_work_of_a_plain_beam_is_its_fracture_energy(depth, monkeypatch):
    """Bent until it parts: the area under load over deflection is GF times the ligament.

    In third-point bending, where the moment is the same over the whole band that stands for the crack.
    """
    load, deflection = whole_curve(
        beam(6 * depth, rectangle(100.0, depth), press=Press((2 * depth, 4 * depth), gauge=2 * depth)), monkeypatch
    )
    work = float(np.trapezoid(load, deflection))
    # the crack then turns about a sliver: its moment falls with the square of the opening, so ∫P dδ beyond is P δ
    work += load[-1] * deflection[-1]
    assert work == pytest.approx(CONCRETE.fracture_energy * 100.0 * depth, rel=5e-3)


def test_size_effect_of_a_plain_beam():
    """Peak over first crack falls with depth, to 1 where the beam is huge beside the fracture process."""
    ratios = []
    for depth in (50.0, 100.0, 200.0, 400.0, 800.0, 20000.0):
        told = life(beam(4 * depth, rectangle(100.0, depth)))
        ratios.append(told.peak.load / event(told, "first crack").load)
    assert all(a > b for a, b in pairwise(ratios))
    assert ratios[-1] == pytest.approx(1.0, abs=0.02)
    # a fully plastic tension zone would give 3; nothing gives more
    assert ratios[0] < 3.0


# -- unbonded tendons ---------------------------------------------------------------------------------------------

AREA, ECC, STRESS = 200.0, 90.0, 1000.0
"""mm², mm below the centroid, MPa."""
ELASTIC = Steel("bilinear", 195000.0, 1600.0, 1860.0, 0.035)
"""Straight up to more than is asked of it here."""


def prestressed(
    profile: float | Profile = H / 2 - ECC,
    stress: float = STRESS,
    bond: str = "unbonded",
    steel: Steel = ELASTIC,
    **more: Any,
) -> Beam:
    tendons = (tendon(AREA, profile, L, stress, steel=steel, bond=bond),)
    return beam(L, tendons=tendons, **more)


def opened(told: Life) -> SectionState:
    return next(s for s in told.sections if s.event == "decompression")


def test_stress_of_an_unbonded_tendon_by_compatibility():
    """Elastic: ΔF (L/EpAp + L/EA + e² L/EI) = e/EI ∫M dx, ∫M dx = P L²/9 in third-point bending."""
    found = opened(life(prestressed()))
    give = 1 / (ELASTIC.modulus * AREA) + 1 / (E * B * H) + ECC**2 / EI
    rise = found.load * L / 9 * ECC / EI / give
    assert rise > 0.02 * STRESS * AREA
    assert found.steel_stress[-1] * AREA == pytest.approx(STRESS * AREA + rise, rel=1e-6)
    # P L/6 = F (e + Z/A) with the force that has risen
    assert found.load * L / 6 == pytest.approx((STRESS * AREA + rise) * (ECC + H / 6), rel=1e-5)


def test_draped_unbonded_tendon_stretches_along_its_own_line():
    """Eccentricity e(x) of a parabola from 0 to ECC: e² → 8/15, e·M under uniform load → 8/15 of the greatest."""
    draped = Profile((0.0, L / 2, L), (H / 2, H / 2 - ECC, H / 2), "parabola")
    found = opened(life(prestressed(draped, loads=(uniform(L),))))
    give = 1 / (ELASTIC.modulus * AREA) + 1 / (E * B * H) + 8 / 15 * ECC**2 / EI
    rise = found.load * L / 8 * 8 / 15 * ECC / EI / give
    assert found.steel_stress[-1] * AREA == pytest.approx(STRESS * AREA + rise, rel=1e-4)


@pytest.mark.parametrize("bond", ["bonded", "unbonded"])
def test_strand_has_the_stress_it_was_given(bond):
    """Strand bends from its straight line long before it yields: 1350 MPa are 1350 MPa all the same."""
    told = life(prestressed(stress=1350.0, bond=bond, steel=STRAND))
    found = opened(told)
    # loading up to decompression can only add to it: by some tens of MPa where the tendon is bonded
    assert 1350.0 < found.steel_stress[-1] < 1350.0 * 1.07
    least = 1350.0 * AREA * (ECC + H / 6)
    assert least < found.moment < 1.07 * least


@pytest.mark.parametrize("bond", ["bonded", "unbonded"])
def test_secondary_moment_of_a_straight_tendon_in_two_spans(bond):
    """Straight and eccentric, it would lift the beam off its middle support: 3/2 F e of moment holds it down.

    Three-moment equation with the end rotations F e l/2 E I of both spans, shear deformation in.
    """
    told = life(prestressed(bond=bond, supports=Supports((0.0, L / 2, L)), loads=(uniform(L),)))
    half = L / 2
    secondary = STRESS * AREA * ECC * (half / 2) / (half / 3 + EI / (GA * half))
    middle = int(np.argmin(np.abs(told.stations.x - half)))
    assert told.stations.moment[0, middle] == pytest.approx(secondary, rel=2e-3 if bond == "unbonded" else 1e-2)


@pytest.mark.parametrize("bond", ["bonded", "unbonded"])
def test_camber_of_a_straight_tendon(bond):
    """F e L²/8 E I up. A bonded tendon displaces concrete: e and I are those of the net section then."""
    told = life(prestressed(bond=bond))
    middle = int(np.argmin(np.abs(told.stations.x - L / 2)))
    void = AREA if bond == "bonded" else 0.0
    shift = void * ECC / (B * H - void)
    inertia = B * H**3 / 12 - void * ECC**2 - shift**2 * (B * H - void)
    camber = STRESS * AREA * (ECC + shift) * L**2 / (8 * E * inertia)
    # the strain beside the bonded tendon is counted on the gross section: an error of the second order in the void
    assert -told.stations.deflection[0, middle] == pytest.approx(camber, rel=1e-3 if bond == "bonded" else 1e-6)


def test_decompression_of_a_bonded_tendon():
    """Net section under the prestress and the dead load, transformed section under what comes after."""
    dead = 3.0 * L**2 / 8
    told = life(prestressed(bond="bonded", loads=(uniform(L, 3.0, "dead"),), press=Press((L / 2,))))
    net = uncracked(rectangle(B, H), E, [ElasticLayer(H / 2 - ECC, AREA, 0.0)])
    arm = net.centroid - (H / 2 - ECC)
    soffit = -STRESS * AREA / net.area - (STRESS * AREA * arm - dead) * net.centroid / net.inertia
    t = uncracked(rectangle(B, H), E, [ElasticLayer(H / 2 - ECC, AREA, ELASTIC.modulus)])
    found = event(told, "decompression")
    assert found.moment == pytest.approx(dead - soffit * t.inertia / t.centroid, rel=1e-3)
    assert found.load == pytest.approx((found.moment - dead) * 4 / L, rel=1e-9)

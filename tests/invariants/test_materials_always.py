"""What holds for every law in the registries, whatever the material."""

from __future__ import annotations

from itertools import pairwise
from math import pi

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from soffit.materials import (
    bond_laws,
    compression,
    confinement,
    crack_width,
    design_laws,
    properties,
    shear_laws,
    standards,
    steel_laws,
    tension,
    tension_stiffening,
)
from soffit.materials.concrete import Concrete
from soffit.materials.curve import StressStrain
from soffit.materials.steel import Steel

strengths = st.floats(2.0, 200.0)
concretes = st.builds(
    properties.concrete,
    strength=strengths,
    standard=st.sampled_from(sorted(standards.STANDARDS)),
    law=st.sampled_from(sorted(compression.LAWS)),
)
bands = st.floats(5.0, 5000.0)
softenings = st.sampled_from(sorted(tension.SOFTENING))


def both_sides(curve: StressStrain, strain: float) -> tuple[float, float]:
    """Stress at a break as the pieces on its left and on its right have it."""
    at = np.array(strain)
    left = next(p for p in curve.pieces if p.high == strain)
    right = next(p for p in curve.pieces if p.low == strain)
    return float(left.stress(at)), float(right.stress(at))


def area(curve: StressStrain) -> float:
    """Integral of the stress over the strain, exact for the straight pieces of a tension law."""
    total = 0.0
    for p in curve.pieces:
        ends = p.stress(np.array([p.low, p.high]))
        total += float(ends.mean()) * (p.high - p.low)
    return total


# --- concrete ---------------------------------------------------------------------------------------------


@given(concretes)
def test_compression_curve_passes_origin_with_the_modulus_and_peaks_at_the_strength(made: Concrete) -> None:
    curve = compression.curve(made)
    e0 = made.peak_strain
    assert curve.high == 0.0
    assert abs(float(curve(0.0))) < 1e-9
    small = 1e-5 * e0
    # the exponent of the power law is above 1, so its own share of the slope dies out slowly
    assert float(curve(-small)) / -small == pytest.approx(made.modulus, rel=0.03)
    assert float(curve(-e0)) == pytest.approx(-made.strength, rel=1e-9)
    strain = np.linspace(curve.low, 0.0, 2001)
    stress = curve(strain)
    assert stress.min() >= -made.strength * (1 + 1e-9)
    assert stress.max() <= 1e-9


@given(concretes)
def test_compression_rises_then_falls_without_jumps(made: Concrete) -> None:
    curve = compression.curve(made)
    rise = -curve(np.linspace(0.0, -made.peak_strain, 300))
    fall = -curve(np.linspace(-made.peak_strain, curve.low, 300))
    assert (np.diff(rise) > 0).all()
    assert (np.diff(fall) <= 1e-9 * made.strength).all()
    for p in curve.pieces[1:]:
        left, right = both_sides(curve, p.low)
        assert left == pytest.approx(right, abs=1e-9 * made.strength)


@given(concretes, st.floats(2.0, 200.0))
def test_tension_is_the_weak_side_of_concrete(made: Concrete, other: float) -> None:
    assert 0.02 * made.strength < made.tensile < 0.34 * made.strength
    if made.strength >= 20:
        assert made.tensile < 0.1 * made.strength
    again = properties.at_strength(made, other, "EN 1992-1-1")
    assert (again.tensile > made.tensile) == (other > made.strength) or other == made.strength
    compression.curve(again)


@given(strengths, st.sampled_from(sorted(standards.STANDARDS)), st.floats(0.0, 5.0))
def test_a_stronger_concrete_is_stronger_in_everything(f: float, key: str, more: float) -> None:
    s = standards.STANDARDS[key]
    g = f + more
    assert s.mean(f) > f
    assert s.tensile(g) >= s.tensile(f) * (1 - 0.01)  # the two branches of EN meet to 1 % at C50/60
    assert s.modulus(g, None) >= s.modulus(f, None)
    assert standards.fracture_energy(g) >= standards.fracture_energy(f)


@given(st.sampled_from(sorted(standards.STANDARDS)), st.floats(1.0, 365.0), st.floats(1.0, 365.0))
def test_concrete_only_gains_strength(key: str, a: float, b: float) -> None:
    gain = standards.STANDARDS[key].gain
    a, b = sorted((a, b))
    assert gain(a, None) <= gain(b, None)
    assert gain(28.0, None) == pytest.approx(1.0)


# --- tension ----------------------------------------------------------------------------------------------


@given(concretes, bands, softenings)
def test_a_crack_consumes_the_fracture_energy_unless_it_snaps(made: Concrete, band: float, key: str) -> None:
    curve = tension.cohesive(made, band, key)
    energy = area(curve) * band
    corners = tension.SOFTENING[key](made)
    below = sum((w1 - w0) * (s0 + s1) / 2 for (w0, s0), (w1, s1) in pairwise(corners))
    assert below == pytest.approx(made.fracture_energy, rel=0.005)
    steepest = max((s0 - s1) / (w1 - w0) for (w0, s0), (w1, s1) in pairwise(corners))
    if steepest < made.modulus / band:
        assert energy == pytest.approx(below, rel=1e-9)
    else:
        assert energy >= below * (1 - 1e-9)


@given(concretes, bands, softenings)
def test_tension_never_exceeds_its_strength_and_never_pulls_apart(made: Concrete, band: float, key: str) -> None:
    curve = tension.cohesive(made, band, key)
    first = curve.pieces[0].high
    strain = np.linspace(0.0, curve.high, 1001)
    stress = curve(strain)
    assert stress.max() <= made.tensile * (1 + 1e-9)
    assert stress.min() >= -1e-9
    assert float(curve.pieces[0].stress(np.array(first))) == pytest.approx(made.tensile)
    assert (np.diff(curve(np.linspace(first, curve.high, 300))) <= 1e-9).all()
    assert tension.brittle(made).high == first


@given(concretes, st.floats(0.0, 1.0), softenings)
def test_opening_and_stress_are_inverse(made: Concrete, share: float, key: str) -> None:
    stress = share * made.tensile
    assert tension.carried(made, tension.opening(made, stress, key), key) == pytest.approx(stress, abs=1e-9)


@pytest.mark.parametrize("law", tension_stiffening.LAWS.values(), ids=lambda law: law.key)
@given(made=concretes)
def test_stiffening_dies_out_with_strain(law: tension_stiffening.StiffeningLaw, made: Concrete) -> None:
    strain = np.linspace(made.tensile / made.modulus, 0.003, 200)
    stress = law.stress(strain, made.tensile, made.modulus)
    assert (np.diff(stress) < 0).all()
    assert 0 < stress[-1] < stress[0] <= made.tensile * (1 + 1e-12)


@given(st.floats(0.0, 1000.0), st.floats(1.0, 500.0), st.sampled_from([0.5, 1.0]))
def test_distribution_goes_from_uncracked_to_cracked(stress: float, cracking: float, beta: float) -> None:
    zeta = float(tension_stiffening.distribution(np.array(stress), np.array(cracking), beta))
    more = float(tension_stiffening.distribution(np.array(stress + 1.0), np.array(cracking), beta))
    assert 0.0 <= zeta <= more <= 1.0


# --- confinement ------------------------------------------------------------------------------------------


@given(concretes, st.floats(0.0, 0.5), st.floats(0.0, 0.5))
def test_pressure_makes_stronger(made: Concrete, a: float, b: float) -> None:
    a, b = sorted((a, b))
    f = made.strength
    assert f * (1 - 1e-9) <= confinement.mander_strength(f, a * f) <= confinement.mander_strength(f, b * f) + 1e-9
    for low, high in zip(confinement.en_confined(f, a * f), confinement.en_confined(f, b * f), strict=True):
        assert low <= high


@given(concretes, st.floats(30.0, 300.0), st.floats(0.0, 500.0))
def test_confined_core_is_never_worse_than_plain_concrete(made: Concrete, spacing: float, area_: float) -> None:
    hoops = confinement.Hoops(200.0, 400.0, spacing, 10.0, area_, area_, 500.0, 0.08, [150.0, 350.0] * 2)
    core = confinement.mander(made, hoops)
    assert core.strength >= made.strength * (1 - 1e-9)
    assert core.peak_strain >= made.peak_strain * (1 - 1e-9)
    curve = confinement.curve(made, core)
    assert curve(np.linspace(curve.low, 0, 500)).min() >= -core.strength * (1 + 1e-9)


# --- verification -----------------------------------------------------------------------------------------


@given(st.floats(17.5, 90.0), st.floats(0.5, 1.0))
def test_verification_laws_stay_below_the_mean_law(specified: float, factor: float) -> None:
    made = properties.concrete(specified, "specified")
    fcd = factor * specified
    for law in (design_laws.parabola_rectangle(fcd, specified), design_laws.en_block(fcd, specified)):
        stress = law(np.linspace(law.low, 0.0, 400))
        assert -fcd * (1 + 1e-9) <= stress.min() < -0.7 * fcd
        assert stress.max() <= 1e-12
    assert design_laws.aci_block(specified)(np.array(-0.0029)) > -made.strength


# --- steel ------------------------------------------------------------------------------------------------


@st.composite
def steels(draw: st.DrawFn) -> Steel:
    kind = draw(st.sampled_from(sorted(steel_laws.LAWS)))
    if kind == "strand":
        fu = draw(st.floats(1000.0, 2200.0))
        proof = draw(st.floats(0.8, 0.95)) * fu
        return Steel(kind, draw(st.floats(190e3, 206e3)), min(proof, 1850.0), fu, draw(st.floats(0.025, 0.08)))
    fy = draw(st.floats(200.0, 800.0))
    fu = fy * draw(st.floats(1.0, 1.6))
    if kind == "linear":
        e = draw(st.floats(40e3, 160e3))
        return Steel(kind, e, fu, fu, fu / e)
    return Steel(kind, draw(st.floats(180e3, 210e3)), fy, fu, draw(st.floats(0.03, 0.15)), draw(st.floats(0.0, 0.025)))


@settings(max_examples=200)
@given(steels())
def test_steel_passes_its_own_numbers_and_breaks(steel: Steel) -> None:
    curve = steel_laws.curve(steel)
    small = 1e-5
    assert float(curve(small)) / small == pytest.approx(steel.modulus, rel=1e-3)
    assert float(curve(curve.high)) == pytest.approx(steel.tensile, rel=1e-9)
    assert float(curve(curve.high * (1 + 1e-9))) == 0.0
    if steel.kind == "strand":
        assert float(curve(0.01)) == pytest.approx(steel.yield_strength, rel=1e-9)
    if steel.kind in ("plateau", "bilinear"):
        assert float(curve(steel.yield_strength / steel.modulus)) == pytest.approx(steel.yield_strength)


@settings(max_examples=200)
@given(steels())
def test_steel_never_softens_and_is_the_same_in_compression(steel: Steel) -> None:
    curve = steel_laws.curve(steel)
    strain = np.linspace(0.0, curve.high, 500)
    stress = curve(strain)
    assert (np.diff(stress) >= -1e-9).all()
    assert stress.max() <= steel.tensile * (1 + 1e-9)
    if steel.kind == "linear":
        assert curve(-strain[1:]).tolist() == [0.0] * 499
    else:
        # not at the breaks themselves, where the piece on the right counts
        assert curve(-strain[:-1]) == pytest.approx(-stress[:-1], abs=1e-9)
        assert float(curve(-0.099)) == pytest.approx(-steel.tensile, rel=0.25)
    for p in curve.pieces[1:]:
        left, right = both_sides(curve, p.low)
        assert left == pytest.approx(right, abs=1e-6)


# --- crack width, shear, bond -----------------------------------------------------------------------------


@given(st.floats(50.0, 500.0), st.floats(0.005, 0.1), st.floats(10.0, 60.0), st.floats(6.0, 32.0))
def test_cracks_widen_with_stress_cover_and_diameter(stress: float, ratio: float, cover: float, bar: float) -> None:
    for law in (crack_width.width, crack_width.mc2010_width):
        base = float(law(stress, ratio, 2.9, 2e5, 33e3, cover, bar))
        assert 0.0 <= base <= float(law(stress + 10, ratio, 2.9, 2e5, 33e3, cover, bar))
        assert base <= float(law(stress, ratio, 2.9, 2e5, 33e3, cover + 5, bar)) + 1e-12
        assert base <= float(law(stress, ratio, 2.9, 2e5, 33e3, cover, bar + 2)) + 1e-12


@given(st.floats(10.0, 100.0), st.floats(-0.001, 0.003), st.floats(50.0, 2000.0), st.floats(5.0, 40.0))
def test_shear_falls_with_strain_and_size(f: float, strain: float, depth: float, aggregate: float) -> None:
    s = float(shear_laws.crack_spacing(depth, aggregate, f))
    assert 0.85 * depth <= s <= 35 / 16 * depth * (1 + 1e-12)
    v = float(shear_laws.concrete_share(f, strain, s))
    assert 0 < float(shear_laws.concrete_share(f, strain + 1e-4, s)) <= v
    assert float(shear_laws.concrete_share(f, strain, float(shear_laws.crack_spacing(2 * depth, aggregate, f)))) < v
    assert 0.3 < float(shear_laws.angle(strain, s)) <= 75 * pi / 180
    assert float(shear_laws.shear_strength(f, strain, s, 0.005, 500.0)) <= 0.25 * f
    assert float(shear_laws.strut_strength(f, max(strain, 0.0))) <= 0.85 * f


@given(st.floats(15.0, 110.0), st.floats(6.0, 40.0), st.floats(0.5, 5.0), st.booleans(), st.floats(0.0, 0.05))
def test_bond_starts_at_nothing_rises_and_never_turns_negative(
    f: float, bar: float, cover: float, good: bool, ktr: float
) -> None:
    for law in (
        bond_laws.deformed(f, bar, cover * bar, 2 * cover * bar, good, 12.0, ktr),
        bond_laws.plain(f, good),
        bond_laws.threaded(f, 1.5),
    ):
        slip = np.linspace(0.0, 1.5 * law.s3, 400)
        stress = law(slip)
        assert stress[0] == 0.0
        assert stress.min() >= -1e-9
        assert stress.max() == pytest.approx(law.strength, rel=2e-2)
        assert stress[-1] == pytest.approx(law.residual, abs=1e-9)
        assert law.s1 <= law.s2 <= law.s3


@given(st.floats(0.0, 3000.0), st.floats(600.0, 1300.0), st.floats(9.0, 16.0))
def test_strand_holds_more_the_further_in_it_sits(x: float, stress: float, bar: float) -> None:
    assume(x > 1.0)
    here = float(bond_laws.aci_strand_stress(x, stress, bar))
    assert here < float(bond_laws.aci_strand_stress(x + 1.0, stress, bar))
    length = bond_laws.aci_development_length(stress, 1.2 * stress, bar)
    assert float(bond_laws.aci_strand_stress(length, stress, bar)) == pytest.approx(1.2 * stress)

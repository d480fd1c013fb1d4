"""Crack width, shear, bond and scatter against values worked out by hand."""

from __future__ import annotations

from math import pi, sqrt, tan

import numpy as np
import pytest

from soffit.materials import bond_laws, crack_width, scatter, shear_laws

PSI = 0.006894757293168


def rel(value: float, digits: float = 1e-9) -> object:
    return pytest.approx(value, rel=digits)


# --- crack width ------------------------------------------------------------------------------------------


def test_crack_width_terms_by_hand() -> None:
    assert crack_width.effective_depth(600.0, 550.0, 240.0) == rel(120.0)
    assert crack_width.effective_depth(600.0, 580.0, 120.0) == rel(50.0)
    assert crack_width.greatest_spacing(30.0, 16.0, 0.04) == rel(102 + 68)
    # (300 − 0.6·3/0.04·1.24)/2e5 = 244.2/2e5 with αe = 6
    assert crack_width.mean_strain_difference(300.0, 0.04, 3.0, 2e5, 2e5 / 6) == rel(244.2 / 2e5)
    # lightly loaded: 0.6 σs/Es governs
    assert crack_width.mean_strain_difference(60.0, 0.04, 3.0, 2e5, 2e5 / 6) == rel(36 / 2e5)
    assert crack_width.bond_ratio(0.6, 16.0, 20.0) == rel(sqrt(0.48))
    assert crack_width.effective_ratio(500.0, 50000.0, 200.0, 0.5) == rel(0.011)
    assert crack_width.mean_diameter(np.array([2, 1]), np.array([20.0, 10.0])) == rel(18.0)
    assert crack_width.spacing_without_bars(500.0, 100.0) == rel(520.0)


def test_model_code_crack_width_by_hand() -> None:
    # ls = 30 + 16/(4·1.8·0.04), σsr = 75·1.24 = 93
    length = 30 + 16 / (7.2 * 0.04)
    assert crack_width.mc2010_width(300.0, 0.04, 3.0, 2e5, 2e5 / 6, 30.0, 16.0) == rel(
        2 * length * (300 - 0.6 * 93) / 2e5
    )
    assert crack_width.mc2010_width(300.0, 0.04, 3.0, 2e5, 2e5 / 6, 30.0, 16.0, shrinkage=3e-4, long_term=True) == rel(
        2 * length * ((300 - 0.4 * 93) / 2e5 + 3e-4)
    )
    assert crack_width.mc2010_width(10.0, 0.04, 3.0, 2e5, 2e5 / 6, 30.0, 16.0) == 0.0


# --- shear ------------------------------------------------------------------------------------------------


def test_simplified_compression_field_by_hand() -> None:
    assert shear_laws.beta(0.001, 300.0) == rel(0.16)
    assert shear_laws.angle(0.001, 300.0) == rel(36 * pi / 180)
    assert shear_laws.angle(0.003, 3000.0) == rel(75 * pi / 180)
    assert shear_laws.crack_spacing(900.0, 19.0, 40.0) == rel(900.0)
    assert shear_laws.crack_spacing(900.0, 40.0, 40.0) == rel(0.85 * 900)
    assert shear_laws.crack_spacing(900.0, 19.0, 80.0) == rel(35 * 900 / 16)
    assert shear_laws.effective_aggregate(20.0, np.array([50.0, 65.0, 75.0])).tolist() == [20.0, 10.0, 0.0]
    theta = 36 * pi / 180
    assert shear_laws.shear_strength(36.0, 0.001, 300.0, 0.002, 500.0) == rel(0.16 * 6 + 1.0 / tan(theta))
    assert shear_laws.shear_strength(36.0, 0.001, 300.0, 0.1, 500.0) == rel(9.0)
    assert shear_laws.concrete_share(100.0, 0.001, 300.0) == rel(0.16 * 8)
    assert shear_laws.minimum_stirrups(36.0, 400.0) == rel(0.0009)


def test_strut_strength_by_hand() -> None:
    # ε1 = 0.001 + 0.003 cot² 45° = 0.004
    e1 = shear_laws.transverse_strain(0.001, pi / 4)
    assert e1 == rel(0.004)
    assert shear_laws.strut_strength(37.0, e1) == rel(37 / 1.48)
    assert shear_laws.strut_strength(37.0, 0.0) == rel(0.85 * 37)


def test_zsutty_in_psi() -> None:
    psi = 60 * (5000 * 0.02 / 3.0) ** (1 / 3)
    assert shear_laws.zsutty(5000 * PSI, 0.02, 3.0) == pytest.approx(psi * PSI, rel=3e-3)
    assert shear_laws.zsutty(30.0, 0.02, 1.25) == rel(2 * 2.17 * (30 * 0.02 / 1.25) ** (1 / 3))


# --- bond -------------------------------------------------------------------------------------------------


def test_bond_slip_by_hand() -> None:
    law = bond_laws.pull_out(36.0, rib_spacing=6.0)
    assert law(np.array([0.0, 1.0, 1.5, 4.0, 6.0, 9.0])).tolist() == pytest.approx([0, 15, 15, 10.5, 6, 6])
    assert law(0.5) == rel(15 * 0.5**0.4)
    assert bond_laws.pull_out(36.0, good=False).strength == rel(7.5)
    assert bond_laws.plain(25.0).strength == rel(1.5)


def test_splitting_by_hand() -> None:
    # φ = 25, fcm = 25, cover ratios 1 and 1: η2 · 6.5
    assert bond_laws.splitting_strength(25.0, 25.0, 25.0, 25.0) == rel(6.5)
    assert bond_laws.splitting_strength(25.0, 25.0, 25.0, 25.0, good=False, km=12.0, ktr=0.025) == rel(0.7 * 6.5 * 1.3)
    law = bond_laws.deformed(25.0, 25.0, 25.0, 25.0)
    assert law.failure == "splitting"
    assert law(law.s1) == rel(6.5)
    assert law(2 * law.s1) == rel(0.0)
    assert bond_laws.deformed(25.0, 10.0, 50.0, 250.0, km=12.0, ktr=0.05).failure == "pull-out"


def test_strand_lengths_by_hand() -> None:
    assert bond_laws.aci_transfer_length(1050.0, 12.7) == rel(635.0)
    assert bond_laws.aci_development_length(1050.0, 1750.0, 12.7) == rel(635 + 1270)
    assert bond_laws.aci_strand_stress(np.array([0.0, 317.5, 635.0, 1905.0]), 1050.0, 12.7) == pytest.approx(
        [0, 525, 1050, 1750]
    )
    # standards.md 2.6: 12.5 mm, 1300 MPa, design tensile strength of C30, sudden release: 892 mm
    fctd = 0.7 * 0.3 * 30 ** (2 / 3) / 1.5
    assert bond_laws.en_transfer_length(1300.0, 12.5, fctd) == pytest.approx(892, abs=0.5)
    assert bond_laws.en_anchorage_length(1000.0, 12.5, 1500.0, 1000.0, 1.0) == rel(1000 + 0.19 * 12.5 * 500 / 1.2)


def test_scatter_of_bars_is_a_fixed_number_of_megapascals() -> None:
    assert scatter.bar_yield(600.0).variation == rel(0.05)
    assert all(0 < s.variation < 0.5 and "JCSS" in s.source for s in scatter.SCATTER.values())

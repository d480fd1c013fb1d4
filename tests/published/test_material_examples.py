"""Material laws against numbers that other people printed; sources in data/examples.json."""

from __future__ import annotations

from itertools import pairwise
from math import degrees, sqrt

import numpy as np
import pytest

from soffit.materials import crack_width, properties, shear_laws, standards, steel_laws
from soffit.materials.steel import Steel

KSI = 6.894757293168


def test_table_3_1_of_eurocode_2(example):
    """mat-ec2-table3-1: fctm to 0.1 MPa and Ecm to 1 GPa, as the table prints them."""
    found = example("mat-ec2-table3-1")
    for specified in found["inputs"]["fck"]["value"]:
        made = properties.concrete(float(specified), "specified")
        tensile, modulus = (found["expected"][f"{key}_C{specified}"] for key in ("fctm", "Ecm"))
        assert made.tensile == pytest.approx(tensile["value"], abs=tensile["tol"])
        secant = standards.en_secant_modulus(made.strength) / 1000
        assert secant == pytest.approx(modulus["value"], abs=modulus["tol"])
        assert made.modulus == pytest.approx(1050 * secant)


def test_crack_width_of_the_worked_example(example):
    """crack-ec2-ecp-ex7-3: steel stress to 234 MPa and width to 0.184 mm, from its own cracked section."""
    found = example("crack-ec2-ecp-ex7-3")
    given = {key: each["value"] for key, each in found["inputs"].items()}
    b, h, d, d2 = (float(given[k]) for k in ("b", "h", "d", "d_prime"))
    bars, top, alpha = given["As"], given["As_prime"], given["alpha_e"]
    # b x²/2 + αe As' (x − d') = αe As (d − x)
    p = alpha * (bars + top) / b
    x = -p + sqrt(p * p + 2 * alpha * (bars * d + top * d2) / b)
    inertia = b * x**3 / 3 + alpha * (bars * (d - x) ** 2 + top * (x - d2) ** 2)
    stress = alpha * given["M"] * 1e6 * (d - x) / inertia
    assert stress == pytest.approx(found["expected"]["sigma_s"]["value"], rel=0.005)
    ratio = float(crack_width.effective_ratio(bars, b * float(crack_width.effective_depth(h, d, x))))
    width = crack_width.width(
        stress, ratio, given["fct_eff"], given["Es"], given["Es"] / alpha, given["c"], 24.0, given["kt"]
    )
    assert width == pytest.approx(found["expected"]["wk"]["value"], abs=0.0005)


def test_strand_curve_against_devalapura_and_tadros(example):
    """own-dt-curve: fitted to E, 1 % stress and strength alone, the curve keeps within 0.7 %."""
    found = example("own-dt-curve")
    curve = steel_laws.curve(Steel("strand", 28500 * KSI, 243 * KSI, 270 * KSI, 0.03))
    printed = {float(key[2:]): each["value"] for key, each in found["recomputed"].items() if key[2:3] == "0"}
    assert len(printed) == 11
    for strain, stress in printed.items():
        assert float(curve(strain)) / KSI == pytest.approx(stress, rel=0.007)
    anchor = found["expected"]["f_at_1pct"]
    assert float(curve(0.01)) / KSI == pytest.approx(anchor["value"], rel=anchor["tol"])


def test_shear_factors_against_the_general_procedure(example):
    """own-mcft: AASHTO's form has the strain of the steel, twice that at mid-depth, and US units.

    Its constants are rounded: 4.8 √psi is 0.3986 √MPa, not 0.4, and 51/(39 + s) is 1295/(991 + s) in mm.
    """
    found = {key: each["value"] for key, each in example("own-mcft")["recomputed"].items()}
    root_psi = sqrt(0.001 * KSI)
    for strain in ("0", "0.0005", "0.001", "0.002"):
        mid = float(strain) / 2
        assert shear_laws.beta(mid, 300.0) == pytest.approx(found[f"beta_{strain}"] * root_psi, rel=0.005)
        # (0.88 + 300/2500) = 1: with stirrups the angle has no size term
        assert degrees(float(shear_laws.angle(mid, 300.0))) == pytest.approx(found[f"theta_{strain}"])
    for inches in (20, 40):
        ours = shear_laws.beta(0.0005, inches * 25.4)
        assert ours == pytest.approx(found[f"beta_nostirrup_sxe{inches}"] * root_psi, rel=0.005)


def test_strengths_above_the_table_stay_in_its_trend(example):
    """Beyond C90 nothing is tabulated: the values go on rising, and the concrete says so."""
    last = example("mat-ec2-table3-1")["expected"]["fctm_C90"]["value"]
    made = [properties.concrete(f) for f in np.linspace(100.0, 200.0, 5)]
    assert all(b.tensile > a.tensile > last for a, b in pairwise(made))
    assert all(any("extrapolated" in note for note in m.notes) for m in made)

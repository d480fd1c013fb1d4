"""Shear strength of webs: the compression field against an independent solution, and the short formulas by hand."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq

from soffit.materials import shear_laws
from soffit.materials.compression_field import web_strength


def independent(strength: float, strain: float, ratio: float, fy: float, rough: float) -> float:
    """The same theory, written out again: for each angle and tensile strain solve for the compressive strain."""
    best = 0.0
    for theta in np.radians(np.arange(14.0, 60.0, 0.25)):
        t = np.tan(theta)

        def state(e2: float, t: float = t) -> tuple[float, float, float]:
            # Mohr: tan²θ = (εx − ε2)/(εz − ε2), ε1 = εx + εz − ε2
            across = e2 + (strain - e2) / t**2
            e1 = strain + across - e2
            steel = min(max(across, 0.0) * 200e3, fy)
            interlock = 0.18 * np.sqrt(strength) / (0.31 + 24 * e1 * 300.0 / (rough + 16))
            f1 = min(0.33 * np.sqrt(strength) / (1 + np.sqrt(500 * max(e1, 0.0))), interlock * t + ratio * (fy - steel))
            v = (f1 + ratio * steel) / t
            f2 = v * (t + 1 / t) - f1
            softened = min(strength / (0.8 + 170 * e1), strength)
            return v, f2, softened

        def miss(e2: float, state=state) -> float:
            # stress of the softened parabola at e2 against what equilibrium asks
            _, f2, softened = state(e2)
            x = e2 / -0.002
            return softened * (2 * x - x * x) - f2

        grid = np.linspace(-0.002, min(strain, 0.0) - 1e-6, 60)
        values = [miss(e) for e in grid]
        for a, b, fa, fb in zip(grid, grid[1:], values, values[1:], strict=False):
            if fa * fb < 0:
                v, _, _ = state(float(brentq(miss, a, b)))
                best = max(best, v)
    return min(best, 0.25 * strength)


@pytest.mark.parametrize(
    ("strength", "strain", "ratio", "fy"),
    [
        (35.0, 0.0007, 0.003, 450.0),
        (24.0, 0.001, 0.001, 325.0),
        (45.0, 0.0004, 0.006, 500.0),
        (35.0, 0.0012, 0.012, 500.0),
    ],
)
def test_compression_field_against_an_independent_search(strength, strain, ratio, fy):
    found = float(web_strength(strength, np.array([strain]), ratio, fy, 16.0)[0])
    assert found == pytest.approx(independent(strength, strain, ratio, fy, 16.0), rel=0.02)


def test_strain_stirrups_and_strength_move_the_web_the_right_way():
    strains = np.linspace(-2e-4, 2e-3, 12)
    base = web_strength(35.0, strains, 0.003, 450.0, 16.0)
    assert np.all(np.diff(base) <= 0.0)
    assert np.all(web_strength(35.0, strains, 0.005, 450.0, 16.0) > base)
    assert np.all(web_strength(50.0, strains, 0.003, 450.0, 16.0) > base)
    assert np.all(base <= 0.25 * 35.0)


def test_critical_shear_crack_by_hand():
    # √36/3 / (1 + 120 · 0.001 · 400/(16 + 16)) = 2/2.5
    assert shear_laws.critical_crack(36.0, 0.001, 400.0, 16.0) == pytest.approx(0.8)
    # no aggregate roughens a crack in concrete above 70 MPa: 3/(1 + 3)
    assert shear_laws.critical_crack(81.0, 0.001, 400.0, 16.0) == pytest.approx(0.75)
    assert shear_laws.critical_crack(36.0, -0.001, 400.0, 16.0) == pytest.approx(2.0)


def test_shear_compression_by_hand():
    # ρ 1.92 %, f'c 26 MPa, a/d 1: q = 0.44308, c/d = 0.48013, R = 1 + 0.0032/0.0192, cs/d = 0.29138
    q = 600 * 0.0192 / 26.0
    c = 0.5 * (np.sqrt(q * q + 4 * q) - q)
    r = 1 + 0.0032 / 0.0192
    cs = c * (1 + 0.27 * r) / (1 + r)
    by_hand = cs * (1 - cs / 2) * 26.0 + 0.5 * 0.0032 * 275.0 * (1 - cs) ** 2
    assert by_hand == pytest.approx(6.69, abs=0.01)
    assert shear_laws.shear_compression(26.0, 0.0192, 1.0, 0.0032, 275.0) == pytest.approx(by_hand, rel=1e-12)
    # a shorter span is given no more
    assert shear_laws.shear_compression(26.0, 0.0192, 0.5, 0.0032, 275.0) == pytest.approx(by_hand, rel=1e-12)

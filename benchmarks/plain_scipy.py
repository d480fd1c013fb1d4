"""The same equilibrium written plainly with SciPy: quad through the depth inside brentq for the axial
force.

What an engineer with SciPy at hand would write, with Python's own floats (which ``quad`` calls fastest) and
with the kinks of the laws told to ``quad`` so that it reaches its accuracy.
"""

from __future__ import annotations

from collections.abc import Callable

from cases import BAND, BAR, BARS, CONCRETE, DEPTH, WIDTH
from scipy.integrate import quad
from scipy.optimize import brentq

from soffit.materials.compression import fall_exponent, fall_factor, rise_exponent

F, E0 = CONCRETE.strength, CONCRETE.peak_strain
RISE, FALL, FALL_FACTOR = rise_exponent(CONCRETE), fall_exponent(F), fall_factor(F)
CRACK = CONCRETE.tensile / CONCRETE.modulus
OPENING = CONCRETE.fracture_energy / CONCRETE.tensile
KINK = 0.2 * CRACK + OPENING / BAND
OPEN = 5.0 * OPENING / BAND


def concrete(strain: float) -> float:
    """Popovics–Thorenfeldt–Collins in compression, bilinear cohesive tension (soffit.materials)."""
    if strain <= 0.0:
        x = -strain / E0
        n, k = (RISE, 1.0) if x <= 1.0 else (FALL, FALL_FACTOR)
        return -F * n * x / (n - 1.0 + x ** (n * k))
    ft = CONCRETE.tensile
    if strain < CRACK:
        return CONCRETE.modulus * strain
    if strain < KINK:
        return ft + (0.2 * ft - ft) * (strain - CRACK) / (KINK - CRACK)
    return 0.2 * ft * (OPEN - strain) / (OPEN - KINK) if strain < OPEN else 0.0


def steel(strain: float) -> float:
    """Elastic, plateau, hardening with the power 4 (soffit.materials)."""
    e, side = abs(strain), (1.0 if strain >= 0.0 else -1.0)
    if e <= BAR.yield_strength / BAR.modulus:
        return BAR.modulus * strain
    if e <= BAR.hardening_strain:
        return side * BAR.yield_strength
    if e > BAR.strain_at_max:
        return side * BAR.tensile if side < 0 else 0.0
    left = (BAR.strain_at_max - e) / (BAR.strain_at_max - BAR.hardening_strain)
    return side * (BAR.tensile - (BAR.tensile - BAR.yield_strength) * left**4)


def _through_depth(stress_times: Callable[[float], float], soffit: float, curvature: float) -> float:
    kinks = [(soffit - e) / curvature for e in (-E0, 0.0, CRACK, KINK, OPEN)]
    inside = sorted(y for y in kinks if 0.0 < y < DEPTH)
    return float(quad(stress_times, 0.0, DEPTH, points=inside or None, epsrel=1e-9)[0])


def axial(soffit: float, curvature: float) -> float:
    force = _through_depth(lambda y: WIDTH * concrete(soffit - curvature * y), soffit, curvature)
    for y, area in BARS:
        e = soffit - curvature * y
        force += area * (steel(e) - concrete(e))
    return force


def moment(soffit: float, curvature: float) -> float:
    middle = DEPTH / 2
    total = -_through_depth(lambda y: WIDTH * concrete(soffit - curvature * y) * (y - middle), soffit, curvature)
    for y, area in BARS:
        e = soffit - curvature * y
        total -= area * (steel(e) - concrete(e)) * (y - middle)
    return total


def equilibrium(curvature: float, guess: float) -> tuple[float, float]:
    """Soffit strain and moment at one curvature, without axial force, the root bracketed around
    ``guess``.
    """
    step = 1e-5
    low, high = guess - step, guess + step
    while axial(low, curvature) > 0.0:
        low -= (step := 2.0 * step)
    while axial(high, curvature) < 0.0:
        high += (step := 2.0 * step)
    soffit = brentq(axial, low, high, args=(curvature,), xtol=1e-13, rtol=1e-12)
    return soffit, moment(soffit, curvature)


def trace(curvatures: list[float]) -> list[tuple[float, float]]:
    """Equilibrium at each curvature in turn, each guessed from the last two as the kernel does."""
    found: list[tuple[float, float]] = []
    for i, curvature in enumerate(curvatures):
        guess = found[-1][0] if found else 0.0
        if i > 1:
            guess += (
                (found[-1][0] - found[-2][0])
                * (curvature - curvatures[i - 1])
                / (curvatures[i - 1] - curvatures[i - 2])
            )
        found.append(equilibrium(curvature, guess))
    return found

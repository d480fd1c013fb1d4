"""Concrete in tension: linear to the tensile strength, then a cohesive crack that consumes the fracture
energy.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise

import numpy as np

from soffit.materials.concrete import Concrete
from soffit.materials.curve import Array, StressStrain, line

FIRST_BRANCH = 0.2
"""Share of the tensile strength at the kink of the bilinear law."""


def bilinear(concrete: Concrete) -> tuple[tuple[float, float], ...]:
    """Corners (crack opening in mm, stress in MPa) of the bilinear softening law.

    fib Model Code 2010, 5.1.8.2 (*from memory*): w1 = GF/ft at 0.2 ft, wc = 5 GF/ft; the area below is GF.
    """
    ft, w1 = concrete.tensile, concrete.fracture_energy / concrete.tensile
    return ((0.0, ft), (w1, FIRST_BRANCH * ft), (5.0 * w1, 0.0))


def hordijk_stress(opening: Array, tensile: float, fracture_energy: float) -> Array:
    """Cohesive stress, MPa, at crack ``opening`` (mm, any shape) between 0 and wc = 5.14 GF/ft.

    σ/ft = [1 + (c1 w/wc)³] exp(−c2 w/wc) − (w/wc)(1 + c1³) exp(−c2), c1 = 3, c2 = 6.93. Elementwise, no
    branches.

    D. A. Hordijk, "Local approach to fatigue of concrete", Delft University of Technology 1991 (*from
    memory*).
    """
    x = opening * tensile / (5.14 * fracture_energy)
    return tensile * ((1.0 + (3.0 * x) ** 3) * np.exp(-6.93 * x) - x * 28.0 * np.exp(-6.93))


def hordijk(concrete: Concrete, chords: int = 40) -> tuple[tuple[float, float], ...]:
    """Corners (mm, MPa) of a chord polygon through Hordijk's curve, closer together where it is steep."""
    end = 5.14 * concrete.fracture_energy / concrete.tensile
    w = end * np.linspace(0.0, 1.0, chords + 1) ** 2
    stress = hordijk_stress(w, concrete.tensile, concrete.fracture_energy)
    stress[-1] = 0.0
    return tuple(zip(w.tolist(), stress.tolist(), strict=True))


SOFTENING: dict[str, Callable[[Concrete], tuple[tuple[float, float], ...]]] = {
    "bilinear": bilinear,
    "hordijk": hordijk,
}
"""Softening laws by key; each gives the corners of stress over crack opening."""


def brittle(concrete: Concrete) -> StressStrain:
    """Linear to the tensile strength, nothing after it; strain >= 0, MPa.

    Raises ``ValueError`` for a tensile strength or modulus that is not positive.
    """
    _positive(concrete)
    first = concrete.tensile / concrete.modulus
    return StressStrain((line(0.0, first, 0.0, concrete.tensile),), "brittle tension", "elastic to ft")


def cohesive(concrete: Concrete, band: float, softening: str = "bilinear") -> StressStrain:
    """Stress over the mean strain of a stretch of length ``band`` (mm) in which one crack opens; strain >= 0,
    MPa.

    Mean strain = stress/E + opening/band (crack band: Z. P. Bažant and B. H. Oh, Materials and Structures 16,
    1983). The area below the curve times ``band`` is the fracture energy.

    Over a long band the elastic part shortens faster than the crack opens (about ``band`` > 1.25 E GF/ft² for
    the bilinear law), so that the mean strain would have to go back. Under growing strain the stress then
    drops at once, at the cracking strain, to the level at which the law passes that strain again (to zero if
    it never does); the drop sets more energy free than the crack consumes, as a snapping specimen does.

    Raises ``ValueError`` for a band or a property that is not positive and for an unknown softening law.
    """
    _positive(concrete)
    if not band > 0:
        raise ValueError("the length over which a crack is spread must be above zero")
    if softening not in SOFTENING:
        raise ValueError(f"there is no softening law {softening!r}: choose one of {', '.join(SOFTENING)}")
    corners = SOFTENING[softening](concrete)
    path = [(stress / concrete.modulus + w / band, stress) for w, stress in corners]
    first = path[0][0]
    pieces = [line(0.0, first, 0.0, concrete.tensile)]
    for (e0, s0), (e1, s1) in _forward(path):
        pieces.append(line(e0, e1, s0, s1))
    return StressStrain(
        tuple(pieces), f"cohesive tension over {band:g} mm", "fib Model Code 2010 5.1.8.2; Bažant & Oh 1983"
    )


def _positive(concrete: Concrete) -> None:
    if not (concrete.tensile > 0 and concrete.modulus > 0 and concrete.fracture_energy > 0):
        raise ValueError("tensile strength, modulus and fracture energy of the concrete must be above zero")


Corner = tuple[float, float]


def _forward(path: Sequence[Corner]) -> list[tuple[Corner, Corner]]:
    """Segments of (strain, stress) beyond the first corner's strain; what would go back is left out."""
    first = path[0][0]
    kept = []
    for (e0, s0), (e1, s1) in pairwise(path):
        if e1 <= first or e1 <= e0:
            continue
        if e0 < first:
            e0, s0 = first, s0 + (s1 - s0) * (first - e0) / (e1 - e0)
        kept.append(((e0, s0), (e1, s1)))
    return kept


def opening(concrete: Concrete, stress: float, softening: str = "bilinear") -> float:
    """Opening of a cohesive crack that still carries ``stress`` (MPa), mm; 0 at ft, wc at zero.

    Raises ``ValueError`` for a stress outside 0 … ft.
    """
    w, s = np.array(SOFTENING[softening](concrete)).T
    if not 0.0 <= stress <= concrete.tensile:
        raise ValueError(f"a crack carries between 0 and {concrete.tensile:g} MPa, not {stress:g} MPa")
    return float(np.interp(stress, s[::-1], w[::-1]))


def carried(concrete: Concrete, width: float, softening: str = "bilinear") -> float:
    """Stress carried across a crack that is open by ``width`` (mm), MPa; zero beyond wc."""
    w, s = np.array(SOFTENING[softening](concrete)).T
    return float(np.interp(width, w, s))

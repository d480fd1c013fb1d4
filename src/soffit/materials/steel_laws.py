"""Stress–strain curves of steel and other bar materials.

Tension ends by rupture at ``strain_at_max``, beyond which the stress is zero. In compression the curve is
the mirror image, held at the tensile strength from −``strain_at_max`` on to −10 %: bars do not rupture
there, and their buckling is not considered. Fibre-reinforced polymer (``"linear"``) carries nothing in
compression.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache, partial

import numpy as np

from soffit.materials.curve import Array, Piece, StressStrain, line
from soffit.materials.steel import Steel

FURTHEST_COMPRESSION = 0.1
"""Compressive strain to which a steel curve is continued (ours)."""
HARDENING_POWER = 4.0
"""Exponent P of the hardening branch; Mander gives P = Esh (εu − εsh)/(fu − fy), which is 3 to 6 for common
bars (*from memory*); 4 where Esh was not measured is *common practice*."""
KNEE = 1.04
"""K of the strand formula: its two asymptotes meet at K times the 1 % stress (Mattock 1979, *from
memory*).
"""
PROOF_STRAIN = 0.01
"""Extension at which ``yield_strength`` of a strand is measured (ASTM A416/A416M)."""


def hardening(strain: Array, low: float, high: float, yield_strength: float, tensile: float, power: float) -> Array:
    """Stress between the end of the plateau ``low`` and the strain at maximum ``high``, MPa.

    f = fu − (fu − fy) ((εu − ε)/(εu − εsh))^P for 0 < εsh <= ε <= εu; flat at ``high``. Elementwise, no
    branches.

    J. B. Mander, Seismic design of bridge piers, PhD thesis, University of Canterbury, 1983 (*from
    memory*).
    """
    left = np.abs(high - strain) / (high - low)
    return tensile - (tensile - yield_strength) * left**power


def power_formula(strain: Array, modulus: float, q: float, knee: float, r: float) -> Array:
    """Stress of strand, MPa: f = E ε [Q + (1 − Q)/(1 + |E ε/f0|^R)^(1/R)], ``knee`` being f0 = K fpy.

    Slope E at the origin, Q E far beyond the knee. Odd in strain. Elementwise, no branches.

    A. H. Mattock, "Flexural strength of prestressed concrete sections by programmable calculator", PCI
    Journal 24(1), 1979; the form goes back to M. Menegotto and P. E. Pinto, IABSE 1973 (*from memory*).
    """
    elastic = modulus * strain
    return elastic * (q + (1.0 - q) / (1.0 + np.abs(elastic / knee) ** r) ** (1.0 / r))


@lru_cache(maxsize=256)
def strand_constants(modulus: float, proof: float, tensile: float, strain_at_max: float) -> tuple[float, float, float]:
    """Q, f0 and R for which the power formula has the slope ``modulus`` and passes exactly through two
    points.

    They are ``proof`` at 1 % and ``tensile`` at ``strain_at_max`` (MPa). One constant stays free: f0 =
    1.04 × proof as Mattock has it, or half-way between proof and tensile where that is less (little
    hardening). Q follows linearly from the last point for every R, and R by bisection from the 1 % point.

    Raises ``ValueError`` where no curve of this form passes through the points.
    """
    if not 0 < proof < tensile or not strain_at_max > PROOF_STRAIN or modulus * PROOF_STRAIN <= proof:
        raise ValueError(
            f"a strand needs a 1 % stress ({proof:g} MPa) below its tensile strength ({tensile:g} MPa) and "
            f"below {modulus * PROOF_STRAIN:g} MPa, and a strain at maximum ({strain_at_max:g}) above 0.01"
        )
    knee = min(KNEE * proof, 0.5 * (proof + tensile))

    def q_of(r: float) -> float:
        last = modulus * strain_at_max
        g = (1.0 + (last / knee) ** r) ** (-1.0 / r)
        return (tensile / last - g) / (1.0 - g)

    def excess(r: float) -> float:
        elastic = modulus * PROOF_STRAIN
        q = q_of(r)
        return elastic * (q + (1.0 - q) * (1.0 + (elastic / knee) ** r) ** (-1.0 / r)) - proof

    low, high = 1.0, 100.0
    if excess(low) > 0 or excess(high) < 0:
        raise ValueError(
            f"no strand curve with a modulus of {modulus:g} MPa passes through {proof:g} MPa at 1 % and "
            f"{tensile:g} MPa at {100 * strain_at_max:g} %"
        )
    for _ in range(100):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if excess(middle) < 0 else (low, middle)
    return q_of(high), knee, high


def _plateau(steel: Steel) -> StressStrain:
    fy, fu, last = steel.yield_strength, steel.tensile, steel.strain_at_max
    first = fy / steel.modulus
    start = max(steel.hardening_strain, first)
    if fu <= fy:
        return _mirrored(steel, [line(first, last, fy, fy)])
    if start >= last:
        raise ValueError(
            f"the yield plateau ends at a strain of {start:g}, which must be below the strain {last:g} at the maximum"
        )
    law = partial(hardening, low=start, high=last, yield_strength=fy, tensile=fu, power=HARDENING_POWER)
    flat = [line(first, start, fy, fy)] if start > first else []
    return _mirrored(steel, [*flat, Piece(start, last, law)])


def _bilinear(steel: Steel) -> StressStrain:
    first = steel.yield_strength / steel.modulus
    return _mirrored(steel, [line(first, steel.strain_at_max, steel.yield_strength, steel.tensile)])


def _strand(steel: Steel) -> StressStrain:
    q, knee, r = strand_constants(steel.modulus, steel.yield_strength, steel.tensile, steel.strain_at_max)
    law = partial(power_formula, modulus=steel.modulus, q=q, knee=knee, r=r)
    last = steel.strain_at_max
    pieces = [Piece(-last, 0.0, law), Piece(0.0, last, law)]
    return StressStrain((*_held(steel), *pieces), steel.name or "strand", LAWS["strand"].source)


def _linear(steel: Steel) -> StressStrain:
    rupture = steel.tensile / steel.modulus
    pieces = (line(0.0, rupture, 0.0, steel.tensile),)
    return StressStrain(pieces, steel.name or "linear", LAWS["linear"].source)


def _mirrored(steel: Steel, tension: list[Piece]) -> StressStrain:
    """Elastic part, ``tension`` beyond yield, and the mirror image of both."""
    first = steel.yield_strength / steel.modulus
    elastic = line(-first, first, -steel.yield_strength, steel.yield_strength)
    mirror = [Piece(-p.high, -p.low, _odd(p.stress), p.straight) for p in reversed(tension)]
    pieces = (*_held(steel), *mirror, elastic, *tension)
    return StressStrain(pieces, steel.name or steel.kind, LAWS[steel.kind].source)


def _odd(stress: Callable[[Array], Array]) -> Callable[[Array], Array]:
    return lambda strain: -stress(-strain)


def _held(steel: Steel) -> list[Piece]:
    """The tensile strength held in compression beyond the mirrored curve."""
    if steel.strain_at_max >= FURTHEST_COMPRESSION:
        return []
    return [line(-FURTHEST_COMPRESSION, -steel.strain_at_max, -steel.tensile, -steel.tensile)]


@dataclass(frozen=True)
class SteelLaw:
    """One form of curve; ``curve`` makes it for a steel whose numbers have been checked."""

    kind: str
    name: str
    source: str
    range: str
    curve: Callable[[Steel], StressStrain]


LAWS: dict[str, SteelLaw] = {
    law.kind: law
    for law in (
        SteelLaw(
            "plateau",
            "elastic, yield plateau, power hardening",
            "Mander, PhD thesis, University of Canterbury 1983",
            "Hot-rolled bars. Rupture at the strain at maximum; flat where the tensile strength is the yield strength.",
            _plateau,
        ),
        SteelLaw(
            "bilinear",
            "elastic, linear hardening",
            "EN 1992-1-1:2004 3.2.7 (2)a with mean values",
            "Cold-worked bars, threaded rods. Rupture at the strain at maximum.",
            _bilinear,
        ),
        SteelLaw(
            "strand",
            "power formula",
            "Mattock, PCI Journal 24(1), 1979; Menegotto & Pinto 1973",
            "Strand, wire and bars without a yield point. Rupture at the strain at maximum.",
            _strand,
        ),
        SteelLaw(
            "linear",
            "elastic to rupture",
            "ACI 440.1R-15 chapter 6 (from memory)",
            "Fibre-reinforced polymer; it carries nothing in compression.",
            _linear,
        ),
    )
}


def curve(steel: Steel) -> StressStrain:
    """Stress over strain of ``steel``, MPa, from compression to rupture (zero outside).

    Raises ``ValueError`` for an unknown kind and for numbers that make no curve.
    """
    if steel.kind not in LAWS:
        raise ValueError(f"there is no steel law {steel.kind!r}: choose one of {', '.join(LAWS)}")
    if not (steel.modulus > 0 and steel.yield_strength > 0):
        raise ValueError("the modulus and the yield strength of a steel must be above zero")
    if not steel.tensile >= steel.yield_strength:
        raise ValueError(
            f"the tensile strength {steel.tensile:g} MPa is below the yield strength {steel.yield_strength:g} MPa"
        )
    if steel.kind != "linear" and not steel.strain_at_max > steel.yield_strength / steel.modulus:
        raise ValueError(
            f"the strain at maximum {steel.strain_at_max:g} is not beyond the yield strain "
            f"{steel.yield_strength / steel.modulus:g}"
        )
    return LAWS[steel.kind].curve(steel)

"""Concrete confined by stirrups: strength, peak strain and curve of the core inside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from math import sqrt

from soffit.materials.compression import popovics
from soffit.materials.concrete import Concrete
from soffit.materials.curve import Piece, StressStrain


@dataclass(frozen=True)
class Hoops:
    """Rectangular closed stirrups round a core, all lengths in mm."""

    width: float
    """Of the core, centre to centre of the stirrup legs, bc."""
    depth: float
    """Of the core, centre to centre of the stirrup legs, dc."""
    spacing: float
    """Centre to centre along the beam."""
    diameter: float
    area_across: float
    """Legs that run across the width, of one stirrup, mm²."""
    area_down: float
    """Legs that run over the depth, of one stirrup, mm²."""
    yield_strength: float
    strain_at_max: float
    gaps: Sequence[float]
    """Clear distances between neighbouring longitudinal bars that a stirrup corner or hook holds, all
    round, w'.
    """
    bar_share: float = 0.0
    """Area of longitudinal bars over the area of the core, ρcc."""
    closed: bool = True
    """Whether the stirrups are closed with hooks bent into the core."""


@dataclass(frozen=True)
class Confined:
    """What the stirrups make of the core."""

    pressure: float
    """Effective lateral pressure, MPa; 0 where the stirrups do not qualify."""
    strength: float
    peak_strain: float
    ultimate_strain: float
    """Strain at which the stirrups break, positive."""
    why: str
    """One sentence: what confines, or why nothing does."""


def qualify(hoops: Hoops) -> str:
    """Empty where the stirrups confine, else the reason why not.

    They confine when closed and no further apart than half the least dimension of the core (EN 1998-1:2004
    5.4.3.2.2 (11) for columns, *from memory*; taken over for beams). Beyond it nothing is added.
    """
    if not hoops.closed:
        return "The stirrups are not closed with hooks into the core, so they do not confine it."
    if hoops.spacing > min(hoops.width, hoops.depth) / 2.0:
        return "The stirrups are further apart than half the core, so they do not confine it."
    return ""


def effectiveness(hoops: Hoops) -> float:
    """ke, effectively confined area over concrete area of the core.

    ke = (1 − Σ w'²/(6 bc dc)) (1 − s'/2bc) (1 − s'/2dc)/(1 − ρcc), never below 0 or above 1.
    Source: Mander, Priestley and Park 1988, eq. (22).
    """
    clear = max(hoops.spacing - hoops.diameter, 0.0)
    arches = 1.0 - sum(w * w for w in hoops.gaps) / (6.0 * hoops.width * hoops.depth)
    along = (1.0 - clear / (2.0 * hoops.width)) * (1.0 - clear / (2.0 * hoops.depth))
    return min(max(arches, 0.0) * max(along, 0.0) / (1.0 - hoops.bar_share), 1.0)


def mander_strength(strength: float, pressure: float) -> float:
    """f'cc = f'co (−1.254 + 2.254 √(1 + 7.94 f'l/f'co) − 2 f'l/f'co), MPa.

    Mander, Priestley and Park 1988, eq. (29), for equal pressure from all sides; rises to a pressure of
    about half the strength.
    """
    ratio = pressure / strength
    return strength * (-1.254 + 2.254 * sqrt(1.0 + 7.94 * ratio) - 2.0 * ratio)


def mander(concrete: Concrete, hoops: Hoops) -> Confined:
    """Strength and strains of the core.

    εcc = εco (1 + 5 (f'cc/f'co − 1)), eq. (5); the paper's chart for unequal pressures is replaced by the
    smaller pressure, which is on the safe side. Rupture strain 0.004 + 1.4 ρs fyh εsm/f'cc (T. Paulay and
    M. J. N. Priestley, Seismic Design of Reinforced Concrete and Masonry Buildings, Wiley 1992, *from
    memory*).

    Source: J. B. Mander, M. J. N. Priestley and R. Park, "Theoretical stress–strain model for confined
    concrete", Journal of Structural Engineering 114(8), 1988. Tests of 25 to 40 MPa concrete; no more
    pressure than half the strength is counted. Where the stirrups do not qualify, the concrete is
    returned as it is, and ``why`` says so.
    """
    reason = qualify(hoops)
    if reason:
        return Confined(0.0, concrete.strength, concrete.peak_strain, 0.004, reason)
    across = hoops.area_across / (hoops.spacing * hoops.depth)
    down = hoops.area_down / (hoops.spacing * hoops.width)
    pressure = effectiveness(hoops) * min(across, down) * hoops.yield_strength
    pressure = min(pressure, 0.5 * concrete.strength)
    f = mander_strength(concrete.strength, pressure)
    peak = concrete.peak_strain * (1.0 + 5.0 * (f / concrete.strength - 1.0))
    ultimate = 0.004 + 1.4 * (across + down) * hoops.yield_strength * hoops.strain_at_max / f
    said = (
        f"The stirrups press the core with {pressure:.2f} MPa and raise its strength to {f:.1f} MPa "
        "(Mander, Priestley & Park 1988)."
    )
    return Confined(pressure, f, peak, ultimate, said)


def curve(concrete: Concrete, core: Confined) -> StressStrain:
    """Curve of the core on strain <= 0: Popovics with n = Ec/(Ec − f'cc/εcc), k = 1, to the rupture of the
    stirrups.

    Mander, Priestley and Park 1988, eq. (3)–(6). Beyond the ultimate strain the stress is zero at once.
    Raises ``ValueError`` where the modulus does not reach the peak.
    """
    k = concrete.modulus * core.peak_strain / core.strength
    if k <= 1.0:
        raise ValueError("the modulus is too low for the strength and the peak strain of the confined core")
    law = partial(popovics, strength=core.strength, peak_strain=core.peak_strain, n=k / (k - 1.0), k=1.0)
    pieces = [Piece(-core.peak_strain, 0.0, law)]
    if core.ultimate_strain > core.peak_strain:
        pieces.insert(0, Piece(-core.ultimate_strain, -core.peak_strain, law))
    source = "Mander, Priestley & Park, Journal of Structural Engineering 114(8), 1988"
    return StressStrain(tuple(pieces), "confined core", source)


def en_confined(
    specified: float, pressure: float, peak_strain: float = 0.002, ultimate_strain: float = 0.0035
) -> tuple[float, float, float]:
    """fck,c, εc2,c and εcu2,c under the lateral pressure σ2 (MPa); EN 1992-1-1:2004 3.1.9, eq.
    (3.24)–(3.27).

    ``peak_strain`` and ``ultimate_strain`` are εc2 and εcu2 without confinement.
    Raises ``ValueError`` for a negative pressure.
    """
    if not pressure >= 0:
        raise ValueError("a confining pressure is not negative")
    ratio = pressure / specified
    strength = specified * (1.0 + 5.0 * ratio if ratio <= 0.05 else 1.125 + 2.5 * ratio)
    return strength, peak_strain * (strength / specified) ** 2, ultimate_strain + 0.2 * ratio

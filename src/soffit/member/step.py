"""What a march is made of: the statics it stands on, its hinges, and one step of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from soffit.materials.curve import Array


@dataclass(frozen=True)
class Statics:
    """Moments and shears at the stations: permanent, of the unit rising load, and of each unit redundant."""

    permanent: Array
    rising: Array
    permanent_shear: Array
    rising_shear: Array
    redundant: Array
    """(r, stations)."""
    redundant_shear: Array
    shear_stiffness: Array
    """(stations,), N: G times the shear area."""
    own: Array
    own_shear: Array
    """Of the self weight alone, which is there when tendons are stressed."""


@dataclass(frozen=True)
class Hinge:
    station: int
    sign: int
    """+1 sagging, −1 hogging."""
    zone: NDArray[np.bool_]
    """Stations that share the hinge's state."""
    length: float
    snaps: bool
    """Led by the section with cohesive tension (one crack), not by the fully cracked one."""


@dataclass
class Step:
    factor: float
    unknown: Array
    """Forces of the unbonded tendons, then the redundants, then the curvatures of further hinges."""
    state: Array
    """(stations, 5), as :func:`soffit.member.sweep.sweep`."""
    moment: Array
    """Of the loads, at the stations."""
    shear: Array
    axial: Array
    """On the section (bonded steel included), at the stations."""
    hinge_curvature: float
    hinge_soffit: float
    hinge_moment: float
    """On the section, at the hinge."""
    missing: Array | None = None
    """By how much each hinge holds more than it is asked for, N·mm, the leading one first; zero in equilibrium."""


@dataclass
class FurtherHinge:
    """A section other than the leading one that has reached its strength and turns at what its curve still holds."""

    hinge: Hinge
    curvature: float
    soffit: float
    """The plane of its last step."""
    greatest: float
    """Moment it has carried at most."""
    furthest: float
    """Curvature of the step in which it had turned furthest."""
    elastic: tuple[float, float, float, float] | None = None
    """Its mean and cracked plane (e, κ, e, κ) when it began to yield or crush; none while it has not."""


class CannotStand(Exception):
    """The permanent load alone asks a section for more than its strength."""

    def __init__(self, x: float) -> None:
        self.x = x
        super().__init__(f"the permanent load exceeds the strength at x = {x:.0f} mm")

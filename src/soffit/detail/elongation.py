"""What a post-tensioned tendon stretches by while it is stressed, and the stress that a stretch implies."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from soffit.errors import SoffitError
from soffit.materials import steel_laws
from soffit.materials.curve import Array
from soffit.member import friction, profile
from soffit.member.beam import TendonGroup
from soffit.member.nodes import strain_at


@dataclass(frozen=True)
class Pulled:
    """A tendon at its greatest force, before its anchors take over. Arrays have one value a station."""

    x: Array
    path: Array
    """Length along the tendon from its left anchor, mm."""
    stress: Array
    """MPa."""
    strain: Array
    split: int
    """Station of the least stress, from which the steel moves towards the jacks; an end for one jack."""

    @property
    def left(self) -> float:
        """What comes out at the left end, mm."""
        return float(np.trapezoid(self.strain[: self.split + 1], self.path[: self.split + 1]))

    @property
    def right(self) -> float:
        """What comes out at the right end, mm."""
        return float(np.trapezoid(self.strain[self.split :], self.path[self.split :]))

    @property
    def total(self) -> float:
        return self.left + self.right


def pulled(tendon: TendonGroup, stress: float | None = None) -> Pulled:
    """Stress and strain of a post-tensioned tendon along its way, with ``stress`` (MPa) at the jack, else its own.

    σ(x) = σ_jack exp(−(μ α + k x)) as :func:`soffit.member.friction.jacked` has it, before the draw-in; the strain is
    the one at which the steel's own curve has that stress, so beyond the proportional part it is more than σ/E.
    The elongation is ∫ ε ds along the inclined tendon. Two jacks pull at once. Raises :class:`SoffitError` for a stress
    that is not positive or is above the tensile strength.
    """
    wanted = tendon.stress if stress is None else stress
    if not 0.0 < wanted <= tendon.steel.tensile * (1.0 + 1e-12):
        raise SoffitError(
            f"a stress of {wanted:g} MPa at the jack is not between 0 and the tensile strength of "
            f"{tendon.steel.tensile:g} MPa"
        )
    found = friction.jacked(replace(tendon, stress=wanted, anchor=None))
    steps = 0.5 * (_stretch(tendon, found.x)[1:] + _stretch(tendon, found.x)[:-1]) * np.diff(found.x)
    path = np.concatenate([[0.0], np.cumsum(steps)])
    last = len(found.x) - 1
    split = {"left": last, "right": 0}.get(tendon.jacked_from)
    if split is None:
        # where friction takes nothing the stress is level, and the halves are equal
        least = np.flatnonzero(found.stress <= np.min(found.stress) * (1.0 + 1e-12))
        split = int(least[len(least) // 2])
    return Pulled(found.x, path, found.stress, strain_of(tendon, found.stress), split)


def strain_of(tendon: TendonGroup, stress: Array) -> Array:
    """Strain that goes with a stress (MPa) on the steel's own curve, when it is reached for the first time."""
    return strain_at(steel_laws.curve(tendon.steel), np.asarray(stress, dtype=float), tendon.steel.modulus)


def one_jack(tendon: TendonGroup) -> tuple[float, float]:
    """Elongations, mm, of a tendon that one jack pulls at the left, locks off, and then pulls at the right.

    The first anchor slips back by its draw-in before the jack moves. The second pull raises the stress from the right
    only as far as it is then the higher; what had been stretched before goes up again along the modulus.
    """
    first = pulled(replace(tendon, jacked_from="left"))
    locked = friction.jacked(replace(tendon, jacked_from="left")).stress
    from_right = pulled(replace(tendon, jacked_from="right")).stress
    modulus = tendon.steel.modulus
    held = first.strain - (first.stress - locked) / modulus
    raised = np.maximum(from_right, locked)
    new = np.where(raised > first.stress, strain_of(tendon, raised), held + (raised - locked) / modulus)
    return first.total, float(np.trapezoid(new - held, first.path))


def implied_stress(tendon: TendonGroup, elongation: float, run: float | None = None) -> float:
    """Stress at the jack, MPa, at which the tendon comes out by ``elongation`` (mm, of all jacks together).

    Same friction, same curve, by bisection. ``run``: length of the bed, mm, of a pretensioned tendon, which has no
    friction. Raises :class:`SoffitError` where no stress up to the tensile strength gives that elongation.
    """
    modulus, tensile = tendon.steel.modulus, tendon.steel.tensile
    shape = np.ones(2) if run is not None else pulled(tendon, 1.0).stress
    path = np.array([0.0, run]) if run is not None else pulled(tendon, 1.0).path
    law = steel_laws.curve(tendon.steel)

    def stretched(stress: float) -> float:
        return float(np.trapezoid(strain_at(law, stress * shape, modulus), path))

    if not elongation > 0.0:
        raise SoffitError(f"an elongation of {elongation:g} mm is not above zero")
    longest = stretched(tensile)
    if elongation > longest:
        raise SoffitError(
            f"it stretches by {longest:.0f} mm when the stress at the jack is its tensile strength, and by no more"
        )
    low, high = 0.0, tensile
    while high - low > 1e-9 * tensile:
        middle = 0.5 * (low + high)
        low, high = (middle, high) if stretched(middle) < elongation else (low, middle)
    return 0.5 * (low + high)


def _stretch(tendon: TendonGroup, x: Array) -> Array:
    """Length of the tendon over that of its projection on x."""
    return np.hypot(1.0, profile.slope(tendon.profile, x))

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

    σ(x) = σ_jack exp(−(μ α + K x)) as :func:`soffit.member.friction.jacked` has it, before the draw-in; the strain is
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
    # chords between the stations: exact for straight pieces, and to 1e-6 of the length for parabolas
    rise = np.diff(profile.height(tendon.profile, found.x))
    path = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(found.x), rise))])
    last = len(found.x) - 1
    split = {"left": last, "right": 0}.get(tendon.jacked_from)
    if split is None:
        # where friction takes nothing the stress is level, and the halves are equal
        least = np.flatnonzero(found.before <= np.min(found.before) * (1.0 + 1e-12))
        split = int(least[len(least) // 2])
    return Pulled(found.x, path, found.before, strain_of(tendon, found.before), split)


def strain_of(tendon: TendonGroup, stress: Array) -> Array:
    """Strain that goes with a stress (MPa) on the steel's own curve, when it is reached for the first time."""
    return strain_at(steel_laws.curve(tendon.steel), np.asarray(stress, dtype=float), tendon.steel.modulus)


def one_jack(tendon: TendonGroup) -> tuple[float, float]:
    """Elongations, mm, of a tendon that one jack pulls at the left, locks off, and then pulls at the right.

    The first anchor slips back by its draw-in before the jack moves. The second pull raises the stress from the right
    only as far as it is then the higher; what had been stretched before goes up again along the modulus. Where the
    first draw-in ends before the two pulls meet, both together are what two jacks draw out at once.
    """
    first = pulled(replace(tendon, jacked_from="left"))
    locked = friction.jacked(replace(tendon, jacked_from="left")).stress
    from_right = pulled(replace(tendon, jacked_from="right")).stress
    modulus = tendon.steel.modulus
    held = first.strain - (first.stress - locked) / modulus
    raised = np.maximum(from_right, locked)
    new = np.where(raised > first.stress, strain_of(tendon, raised), held + (raised - locked) / modulus)
    return first.total, float(np.trapezoid(new - held, first.path))


@dataclass(frozen=True)
class Stretch:
    """Elongation as a function of the stress at the jack, for one way of friction."""

    tendon: TendonGroup
    shape: Array
    """Stress over that at the jack, at the stations."""
    path: Array
    """mm."""

    def __call__(self, stress: float) -> float:
        """mm, of all jacks together, at ``stress`` (MPa) at the jack."""
        return float(np.trapezoid(strain_of(self.tendon, stress * self.shape), self.path))

    @property
    def longest(self) -> float:
        """mm, with the tensile strength at the jack."""
        return self(self.tendon.steel.tensile)

    def inverse(self, elongation: float) -> float:
        """Stress at the jack, MPa, at which the tendon comes out by ``elongation`` mm.

        Raises :class:`SoffitError` where no stress up to the tensile strength gives that elongation.
        """
        from scipy.optimize import brentq

        if not elongation > 0.0:
            raise SoffitError(f"an elongation of {elongation:g} mm is not above zero")
        if elongation > self.longest:
            raise SoffitError(
                f"it stretches by {self.longest:.0f} mm when the stress at the jack is its tensile strength, "
                "and by no more"
            )
        tensile = self.tendon.steel.tensile
        return float(brentq(lambda stress: self(stress) - elongation, 0.0, tensile, xtol=1e-9 * tensile))


def stretch(tendon: TendonGroup, run: float | None = None) -> Stretch:
    """How a tendon stretches. ``run``: length of the bed, mm, of a pretensioned tendon, which has no friction."""
    if run is not None:
        return Stretch(tendon, np.ones(2), np.array([0.0, run]))
    unit = pulled(tendon, 1.0)
    return Stretch(tendon, unit.stress, unit.path)


def friction_for(tendon: TendonGroup, elongation: float, most: float = 5.0) -> float | None:
    """By what friction and wobble are both to be multiplied for that elongation (mm) at the tendon's own stress.

    None where no factor from 0 to ``most`` gives it, and for a tendon without friction.
    """
    from scipy.optimize import brentq

    if tendon.friction == 0.0 and tendon.wobble == 0.0:
        return None

    def off(factor: float) -> float:
        other = replace(tendon, friction=factor * tendon.friction, wobble=factor * tendon.wobble)
        return pulled(other).total - elongation

    if off(0.0) < 0.0 or off(most) > 0.0:
        return None
    return float(brentq(off, 0.0, most, xtol=1e-6))

"""What a pretensioned tendon loses in its bed, between the jack and its release into the concrete."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from soffit.errors import PhysicsError
from soffit.materials.curve import Array
from soffit.member import profile as way
from soffit.member.beam import TendonGroup
from soffit.member.friction import exponent, stations

Relaxation = Callable[[float, float], float]
"""Share of the initial stress lost after so many **days** at a ratio of initial stress to tensile strength."""

EXPANSION = 1e-5
"""Of concrete, 1/K: EN 1992-1-1:2004 3.1.3 (5)."""


@dataclass(frozen=True)
class BeforeRelease:
    """Losses of a pretensioned tendon before release, MPa, each the mean along it."""

    x: Array
    """Stations, mm; a deviator stands there twice."""
    stress: Array
    """Left just before release."""
    held: Array
    """After slip and deviators, before warming and relaxation."""
    relaxed: Array
    slip: float
    """To the slip and the give of the bed's anchors: E slip/length."""
    deviators: float
    """To friction at the deviators of harped strands."""
    warming: float
    """To the warming of the strands before the concrete holds them."""
    relaxation: float
    notes: tuple[str, ...]

    @property
    def total(self) -> float:
        return self.slip + self.deviators + self.warming + self.relaxation


def before_release(
    tendon: TendonGroup,
    relaxation: Relaxation | None = None,
    days: float = 0.0,
    heat_days: float = 0.0,
    expansion: float = EXPANSION,
) -> BeforeRelease:
    """Stress of a pretensioned tendon just before its release, and each loss on the way, MPa.

    Slip of the bed: E slip/length. Deviators: σ e^(−μ θ) by ``tendon.friction`` at each, from the jacked end (EN
    1992-1-1:2004 5.10.4 (1) (i); none where no friction is given). Warming: ½ E α (T − T₀) (EN 1992-1-1:2004 (10.3),
    *from memory*), α of concrete (1/K). Relaxation over ``days`` under stress and ``heat_days`` more that heat curing
    counts for (:func:`soffit.materials.ageing.heat.relaxation_age`), at the stress that slip and friction leave and not
    below; without a law none is taken. Raises :class:`PhysicsError` for a slip in a bed of unknown length and where
    nothing of the stress is left.
    """
    bed, modulus, jack = tendon.bed, tendon.steel.modulus, tendon.stress
    name = tendon.name or tendon.label or "tendon"
    notes: list[str] = []
    slip = warming = 0.0
    if bed is None:
        notes.append(f"{name}: no bed was described, so no slip of its anchors and no warming is counted.")
    else:
        if bed.slip > 0.0 and not bed.length:
            raise PhysicsError(f"{name}: a slip in the bed takes E slip/length; give the bed's length too.")
        slip = modulus * bed.slip / bed.length if bed.length else 0.0
        # a strand that cools before the concrete holds it gains, which EN 1992-1-1 does not count
        warming = 0.5 * modulus * expansion * max(bed.warming, 0.0)
    x = stations(tendon)
    bends = way.kinks(tendon.profile)
    if bends and tendon.friction == 0.0:
        notes.append(f"{name}: no friction at the deviators was given, so none is taken.")
    share = np.exp(-_at_deviators(tendon, x))
    held = (jack - slip) * share
    taken = np.zeros_like(held)
    if relaxation is None:
        notes.append(f"{name}: no relaxation before release is counted, for nothing says how the steel relaxes.")
    elif held.min() > 0.0:
        time = days + heat_days
        known = {stress: relaxation(time, stress / tendon.steel.tensile) for stress in np.unique(held)}
        taken = held * np.array([known[stress] for stress in held])
    stress = held - taken - warming
    if not stress.min() > 0.0:
        raise PhysicsError(
            f"{name}: slip, warming and relaxation in the bed take all of the {jack:.0f} MPa; give it more stress, or "
            "check the bed's length, slip and warming."
        )
    run = float(x[-1] - x[0])
    mean_held, mean_taken = (float(np.trapezoid(each, x)) / run for each in (held, taken))
    return BeforeRelease(x, stress, held, taken, slip, jack - slip - mean_held, warming, mean_taken, tuple(notes))


def released(tendon: TendonGroup) -> float:
    """Mean stress of a tendon just before its release where no days are known, so without relaxation, MPa: what its bed
    leaves; its own stress where no bed is described, or none belongs to it."""
    if tendon.bed is None or tendon.when != "before casting" or tendon.stress_is == "effective":
        return tendon.stress
    found = before_release(tendon)
    return float(np.trapezoid(found.stress, found.x) / (found.x[-1] - found.x[0]))


def _at_deviators(tendon: TendonGroup, x: Array) -> Array:
    """μ θ from the jacked end, or from the nearer one, to the stations."""
    if tendon.friction == 0.0:
        return np.zeros_like(x)
    g = exponent(tendon, x) - tendon.wobble * (x - x[0])
    back = g[-1] - g
    return {"left": g, "right": back, "both": np.minimum(g, back)}[tendon.jacked_from]

"""The stress in a tendon along the beam, from the jack to the state in which loading begins.

Only the immediate losses are computed here (friction, wobble, draw-in, elastic shortening); what time takes is one
stated percentage.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials import bond_laws
from soffit.materials.curve import Array
from soffit.materials.properties import at_strength
from soffit.member.beam import Beam, Profile, TendonGroup

POINTS = 401
"""Along a tendon, for the friction and draw-in integrals."""
TRANSFER = 1.0 / 21.0
"""Transfer length over (stress · diameter), 1/MPa: ACI 318-19 25.4.8.1, (fse/3000 psi) db = fse db/21 in MPa."""


def height(profile: Profile, x: Array) -> Array:
    """Height of the tendon above the soffit at ``x``, mm; level beyond the first and last point.

    ``"parabola"``: one parabola through points 1-2-3, the next through 3-4-5, …; two points left over are joined
    by a straight line.
    """
    px, py = np.array(profile.x), np.array(profile.y)
    if len(px) == 1:
        return np.full_like(x, py[0])
    if profile.shape == "straight" or len(px) < 3:
        return np.interp(x, px, py)
    y = np.interp(x, px, py)
    for i in range(0, len(px) - 2, 2):
        inside = (x >= px[i]) & (x <= px[i + 2])
        y[inside] = np.polyval(np.polyfit(px[i : i + 3] - px[i], py[i : i + 3], 2), x[inside] - px[i])
    return y


def slope(profile: Profile, x: Array) -> Array:
    """dy/dx of the tendon at ``x``, by difference over 0.1 mm that never reaches beyond the profile's ends."""
    first, last = min(profile.x), max(profile.x)
    if last <= first:
        return np.zeros_like(x)
    low, high = np.clip(x - 0.05, first, last - 0.1), np.clip(x + 0.05, first + 0.1, last)
    inside = (x >= first) & (x <= last)
    return np.where(inside, (height(profile, high) - height(profile, low)) / (high - low), 0.0)


@dataclass(frozen=True)
class Jacked:
    """Stress along a post-tensioned tendon after the immediate losses that belong to it alone, MPa."""

    x: Array
    stress: Array
    friction_loss: float
    """Mean, MPa."""
    draw_in_loss: float


def jacked(tendon: TendonGroup) -> Jacked:
    """Friction, wobble and draw-in of a post-tensioned tendon stressed to ``tendon.stress`` at the jack.

    σ(s) = σ_jack exp(−(μ α + k s)) with α the angle turned and k the wobble per mm (EN 1992-1-1 5.10.5.2 writes
    μ(θ + k's): then k = μ k'). Draw-in is taken back by the same friction over the length whose strain makes it up;
    where that is longer than the tendon the whole tendon slackens.
    """
    x = np.linspace(tendon.x_from, tendon.x_to, POINTS)
    if tendon.jacked_from == "both":
        before = np.maximum(_from_left(tendon, x)[0], _from_left_mirrored(tendon, x)[0])
        # each anchor slips back into its own side of the place where the stress is least
        least = np.flatnonzero(before <= np.min(before) * (1.0 + 1e-12))
        low = int(np.clip(least[len(least) // 2], 1, len(x) - 2))
        after = np.concatenate(
            [
                _drawn_in(before[: low + 1], x[: low + 1] - x[0], tendon)[:-1],
                _drawn_in(before[low:][::-1], (x[-1] - x[low:])[::-1], tendon)[::-1],
            ]
        )
    elif tendon.jacked_from == "right":
        before, after = _from_left_mirrored(tendon, x)
    else:
        before, after = _from_left(tendon, x)
    return Jacked(x, after, float(tendon.stress - np.mean(before)), float(np.mean(before) - np.mean(after)))


def _from_left(tendon: TendonGroup, x: Array) -> tuple[Array, Array]:
    angle = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(np.arctan(slope(tendon.profile, x)))))])
    run = x - x[0]
    stress = tendon.stress * np.exp(-(tendon.friction * angle + tendon.wobble * run))
    return stress, _drawn_in(stress, run, tendon)


def _from_left_mirrored(tendon: TendonGroup, x: Array) -> tuple[Array, Array]:
    angle = np.abs(np.diff(np.arctan(slope(tendon.profile, x))))[::-1]
    run = (x[-1] - x)[::-1]
    stress = tendon.stress * np.exp(
        -(tendon.friction * np.concatenate([[0.0], np.cumsum(angle)]) + tendon.wobble * run)
    )
    return stress[::-1], _drawn_in(stress, run, tendon)[::-1]


def _drawn_in(stress: Array, run: Array, tendon: TendonGroup) -> Array:
    """Stress after the anchor slips back: mirrored about the stress at the end of the influence length."""
    slip = tendon.anchor.draw_in if tendon.anchor else 0.0
    if slip <= 0.0:
        return stress
    needed = slip * tendon.steel.modulus
    # area between the curve and its mirror image about the level at station i
    area = np.concatenate([[0.0], np.cumsum(0.5 * (stress[1:] + stress[:-1]) * np.diff(run))])
    taken = 2.0 * (area - stress * run)
    if taken[-1] >= needed:
        level = float(np.interp(needed, taken, stress))
        return np.asarray(np.minimum(stress, 2.0 * level - stress))
    rest = (needed - taken[-1]) / run[-1]
    return np.asarray(np.maximum(2.0 * stress[-1] - stress - rest, 0.0))


def transfer_length(beam: Beam, tendon: TendonGroup, stress: float) -> float:
    """Length over which a pretensioned tendon takes up ``stress`` (MPa), mm, unless the file gives it.

    Strand: ACI 318-19 25.4.8.1. Wire: EN 1992-1-1:2004 (8.16) for sudden release, with the mean tensile strength of the
    concrete at transfer.
    """
    if tendon.transfer_length is not None:
        return tendon.transfer_length
    if not tendon.wire:
        return TRANSFER * stress * tendon.diameter
    c = beam.concrete
    young = c if c.strength_at_transfer is None else at_strength(c, c.strength_at_transfer)
    return bond_laws.en_transfer_length(stress, tendon.diameter, young.tensile, strand=False)


def built_up(x: Array, tendon: TendonGroup, length: float) -> Array:
    """Share of the stress that bond has built up at ``x``, 0 to 1, linear over the transfer length from each end."""
    reach = np.minimum(x - tendon.x_from, tendon.x_to - x)
    return np.clip(reach / max(length, 1e-9), 0.0, 1.0)

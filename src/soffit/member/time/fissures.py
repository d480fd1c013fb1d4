"""Where sections crack, and the planes of those that have."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from soffit.errors import PhysicsError
from soffit.materials.curve import Array
from soffit.member.time import cracking
from soffit.member.time import plane as planes
from soffit.member.time.schedule import days
from soffit.member.time.state import Concrete, State

FADE = 0.1
"""Difference of the stresses of the two faces, over the tensile strength, within which what counts passes from the one
to the other, so that no moment makes a section jump (ours)."""


@dataclass(frozen=True)
class Watched:
    """The faces under tension: soffit and top, (2, stations)."""

    ratio: Array
    """Greatest stress over tensile strength, so far or now."""
    each: Array
    """That of now."""
    now: NDArray[np.bool_]
    """Whether the greatest is that of now."""
    counts: NDArray[np.bool_]
    """Whether the section is bent enough there to be looked at."""
    shares: Array
    """ζ of each face."""

    @property
    def soffit(self) -> Array:
        """(stations,): how much the soffit counts and not the top, 0 to 1: the face that is stretched more now."""
        return np.asarray(np.clip(0.5 + (self.each[0] - self.each[1]) / (2.0 * FADE), 0.0, 1.0))

    @property
    def share(self) -> Array:
        """ζ, (stations,)."""
        w = self.soffit
        return np.asarray(w * self.shares[0] + (1.0 - w) * self.shares[1])

    def slope(self, s: State, n: int, reply: Array) -> Array:
        """How ζ changes when the plane of strain changes by ``reply``, (stations,)."""
        change = np.array([planes.at(reply, y) / c.creep(n) / c.viscous.tensile[n] for c, y in _faces(s)])
        # ζ = 1 − β/r², so dζ/dr = 2 (1 − ζ)/r
        grows = np.where(self.now & (self.shares > 0.0), 2.0 * (1.0 - self.shares) / np.maximum(self.ratio, 1.0), 0.0)
        w = self.soffit
        passes = np.where((w > 0.0) & (w < 1.0), (change[0] - change[1]) / (2.0 * FADE), 0.0)
        each = grows * change
        return np.asarray(w * each[0] + (1.0 - w) * each[1] + passes * (self.shares[0] - self.shares[1]))


def _faces(s: State) -> list[tuple[Concrete, float]]:
    """The concrete at the soffit and that at the top, with the heights of these faces."""
    bottom, top = s.acting[0], s.acting[-1]
    return [(bottom, bottom.part.low), (top, top.part.high)]


SLIGHT = 0.25
"""Share of the tensile strength that bending alone has to reach at a face of a section without prestress. Below it,
what shrinkage opens near the ends of bars is not followed: a section cracked through and hardly bent has no plane."""


def watched(
    s: State, n: int, stress: list[Array], bent: Array, count: bool, counts: NDArray[np.bool_] | None
) -> Watched:
    """The faces after increments ``stress`` of the concretes; sections that crack now are marked in the state.

    bent: plane of strain of the outer forces alone, (stations, 2); count: whether these stresses are meant (else only
    what was before counts); counts: where sections are bent enough, as it was found earlier in this step.
    """
    faces = _faces(s)
    if counts is None:
        least = [planes.at(bent, y) / c.creep(n) >= SLIGHT * c.viscous.tensile[n] for c, y in faces]
        counts = _stressed(s) | np.array(least)
    index = {c: i for i, c in enumerate(s.concretes)}
    each = np.array([planes.at(c.stress + stress[index[c]], y) / c.viscous.tensile[n] for c, y in faces])
    now = (each > s.ratio) & counts & count
    ratio = np.where(now, each, s.ratio)
    new = now & (each > 1.0) & np.isnan(s.since)
    fresh = new.any(axis=0) & ~s.cracks
    s.since[new] = s.t[n]
    if fresh.any():
        for c in s.concretes:
            past = c.steps[:n, fresh]
            c.fibre_steps[:n, fresh] = past[:, :, :1] - past[:, :, 1:] * c.part.y
            c.fibre_stress[fresh] = c.stress[fresh][:, :1] - c.stress[fresh][:, 1:] * c.part.y
    return Watched(ratio, each, now, counts, cracking.share(ratio, np.nan_to_num(s.t[n] - s.since)))


def _stressed(s: State) -> NDArray[np.bool_]:
    """Where a tendon presses the section together."""
    held = s.layers
    on = (held.bonded | held.sliding)[held.steel.bars :, None]
    return np.asarray(np.any(on & (held.steel.area[held.steel.bars :] > 0.0), axis=0))


@dataclass(frozen=True)
class Fissured:
    plane: Array
    """(stations, 2): of the cracked sections; of the others the uncracked one."""
    stiffness: Array
    """(stations, 3)"""
    where: NDArray[np.int64]
    stress: list[Array]
    """Of the fibres of each concrete at the cracked stations."""


def cracked(s: State, n: int, forces: Array, plane: Array, steel: Array, ratio: Array) -> Fissured:
    """Planes of the sections without tension in their concrete.

    steel: stiffness of what is bonded, (stations, 3); ratio: how far each is beyond its first crack, (stations,).

    Raises ``PhysicsError`` where no steel holds a crack together.
    """
    stiffness = steel + sum((c.part.sums / c.creep(n) for c in s.acting), np.zeros_like(steel))
    where = np.flatnonzero(s.cracks)
    out, fibres = plane.copy(), [np.zeros((0, len(c.part.y))) for c in s.concretes]
    if not len(where):
        return Fissured(out, stiffness, where, fibres)
    found = []
    for c in s.acting:
        assert c.born is not None
        free = np.tensordot(c.viscous.compliance[n, c.born : n], c.fibre_steps[c.born : n, where], axes=1)
        act = c.act_cracked[where]
        free = free + act[:, :1] - act[:, 1:] * c.part.y - c.shrunk(n)
        found.append(cracking.Fibres(c.part.y, c.part.area[where], c.fibre_stress[where], free, c.creep(n)))
    held = s.layers
    area = held.steel.area[:, where] * held.bonded[:, None]
    relaxed = (held.relaxed - held.before_bond)[:, where]
    y = held.steel.y[:, where]
    pull = planes.pull(area * (held.held_cracked[:, where] - relaxed), y)
    start = np.where(np.any(s.plane_cracked[where] != 0.0, axis=1)[:, None], s.plane_cracked[where], plane[where])
    try:
        there, tangent = cracking.equilibrium(
            found, steel[where], pull, forces[where], start, s.concretes[-1].part.high
        )
    except PhysicsError as error:
        worst = float(s.x[where[int(np.argmax(ratio[where]))]])
        raise PhysicsError(
            f"{error} at x = {worst:.0f} mm, {days(float(s.t[n]))} after casting: the beam breaks as it cracks"
        ) from None
    out[where] = there
    stiffness = stiffness.copy()
    stiffness[where] = tangent
    for c, each in zip(s.acting, found, strict=True):
        fibres[s.concretes.index(c)] = np.minimum(each.trial(there), 0.0)
    return Fissured(out, stiffness, where, fibres)

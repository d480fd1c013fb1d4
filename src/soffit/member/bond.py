"""Bond along the life: the stress of a bar or strand at a crack against what its embedment can hold."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials import bond_laws
from soffit.materials.curve import Array
from soffit.member.beam import BarEnd, BarGroup, Beam, TendonGroup
from soffit.member.crossing import first_crossing
from soffit.member.history import History
from soffit.member.layout import cover, stirrups, tension_steel
from soffit.member.nodes import Nodes
from soffit.member.transfer_length import transfer_length

HOOK = 60.0
"""Stress that a standard hook or bend adds, in multiples of the mean bond stress of a straight anchorage of
``HOOK_REFERENCE`` diameters: fib Model Code 2010 6.1.3.4 gives the force 60 fbd Ab (*from memory*)."""
HOOK_REFERENCE = 25.0
POOR_ABOVE = 250.0
"""Height above the soffit from which a bar is cast in poor bond conditions, mm (EN 1992-1-1:2004 8.4.2)."""
KM = 12.0
"""Efficiency of stirrups against splitting, bars in their corners (fib Model Code 2010 6.1.3.2, *from memory*)."""
FLEXURAL_BOND = 7.0
"""Stress gained beyond the transfer length for each diameter of embedment, MPa: ACI 318-19 25.4.8.1, (fps − fse)/1000
psi of db, in MPa /7."""
SHIFT_TIED = 0.7
"""How far along the moments pull on the steel, over the lever arm, where there are stirrups: ½ cot 35°.

EN 1992-1-1:2004 9.2.1.3 (2), a_l = z cot θ/2."""
SHIFT_BARE = 1.0
"""The same over the effective depth, without stirrups (a_l = d)."""
BEYOND = 1e-3
"""By how much more than its whole strength steel must be asked for, that its neighbours' pull is told from its own."""


@dataclass(frozen=True)
class Slip:
    step: float
    x: float
    label: str
    torn: bool = False
    """Whether the steel holds, but too little of it runs on past a cut-off for the diagonal crack there."""


@dataclass(frozen=True)
class Bond:
    """What one group of bars bonds with: the local strength (MPa), by what it ends, and the splitting of its cover."""

    local: float
    ends_by: str
    beam: Beam
    bar: BarGroup
    good: bool
    ktr: float

    def anchors(self, length: Array | float) -> Array:
        """Stress that a straight ``length`` (mm) holds, MPa: local bond all along, or the anchorage splits before."""
        full = np.asarray(4.0 * self.local * np.maximum(length, 0.0) / self.bar.diameter)
        return full if self.bar.surface == "plain" else np.minimum(full, self._ribbed(length))

    def end(self, kind: BarEnd) -> float:
        """Stress that the end itself holds, MPa; a hook bears on the concrete whatever the surface of the bar."""
        if kind == "welded plate":
            return float(np.inf)
        if kind == "straight":
            return 0.0
        return HOOK * float(self._ribbed(HOOK_REFERENCE * self.bar.diameter)) / (4.0 * HOOK_REFERENCE)

    def _ribbed(self, length: Array | float) -> Array:
        c = cover(self.beam, self.bar)
        strength = self.beam.concrete.strength
        return bond_laws.anchorage_strength(
            strength, self.bar.diameter, length, c.least, c.greatest, self.good, KM, self.ktr
        )


def bond_of(beam: Beam, bar: BarGroup) -> Bond:
    """Bond of a group of bars by fib Model Code 2010 6.1, stirrups along its whole length counted."""
    c = beam.concrete
    good = bar.y <= POOR_ABOVE
    if bar.surface == "plain":
        law = bond_laws.plain(c.strength, good)
        return Bond(law.strength, law.failure, beam, bar, good, 0.0)
    covers = cover(beam, bar)
    ties = [z for z in beam.stirrups if z.x_from < bar.x_to and z.x_to > bar.x_from]
    ktr = 0.0
    if ties:
        zone = min(ties, key=lambda z: z.area / z.spacing)
        whole = zone.x_from <= bar.x_from + 0.05 * beam.length and zone.x_to >= bar.x_to - 0.05 * beam.length
        if whole or len(ties) > 1:
            ktr = bond_laws.stirrup_confinement(zone.legs, zone.area / zone.legs, zone.spacing, bar.count, bar.diameter)
    law = bond_laws.deformed(c.strength, bar.diameter, covers.least, covers.greatest, good, KM, ktr)
    return Bond(law.strength, law.failure, beam, bar, good, ktr)


def held(beam: Beam, bar: BarGroup, x: Array) -> Array:
    """Stress that the embedment on either side of ``x`` can hold, MPa, and what the end adds.

    A bar that reaches a fixed support is anchored in what holds the beam there.
    """
    bond = bond_of(beam, bar)
    supports = beam.supports
    walled_left = supports.fixed_left and bar.x_from <= supports.x[0]
    walled_right = supports.fixed_right and bar.x_to >= supports.x[-1]
    left = bond.anchors(x - bar.x_from) + (np.inf if walled_left else bond.end(bar.end_left))
    right = bond.anchors(bar.x_to - x) + (np.inf if walled_right else bond.end(bar.end_right))
    return np.asarray(np.minimum(left, right))


def held_tendon(beam: Beam, tendon: TendonGroup, x: Array, stress: float) -> Array:
    """Stress that a pretensioned tendon can have at ``x``, MPa: up to ``stress`` over the transfer length, then
    7 MPa for each diameter (ACI 318-19 25.4.8.1)."""
    reach = np.maximum(np.minimum(x - tendon.x_from, tendon.x_to - x), 0.0)
    transfer = transfer_length(beam, tendon, stress)
    first = stress * np.minimum(reach / max(transfer, 1e-9), 1.0)
    return np.asarray(first + FLEXURAL_BOND * np.maximum(reach - transfer, 0.0) / tendon.diameter)


def first_slip(nodes: Nodes, beam: Beam, history: History) -> Slip | None:
    """The first step in which the steel of a face is asked, at a crack, for more than its embedment holds.

    Bars of one face share: one that has just begun (or ends) hands over to those that go on. What each can give is
    the lesser of its bond and its strength.
    """
    for_faces = [_face(nodes, beam, history, sagging) for sagging in (True, False)]
    return min((f for f in for_faces if f is not None), key=lambda f: f.step, default=None)


def _face(nodes: Nodes, beam: Beam, history: History, sagging: bool) -> Slip | None:
    asked, given = np.zeros_like(history.moment), np.zeros_like(nodes.x)
    weakest = np.full(len(nodes.x), np.inf)
    label = np.full(len(nodes.x), "", dtype=object)
    for i, info in enumerate(nodes.infos):
        y, area, pre = nodes.layers[:, i, 0], nodes.layers[:, i, 1], nodes.layers[:, i, 2]
        # a tendon that rises carries its own force on: it belongs to a face all along if it ever reaches it
        reaches = np.any(y[area > 0] < nodes.axis) if sagging else np.any(y[area > 0] > nodes.axis)
        here = (area > 0) & reaches
        if not here.any():
            continue
        strain = history.cracked_soffit - history.cracked_curvature * y + pre
        asked = asked + np.where(here, np.maximum(np.asarray(info.law(strain)), 0.0) * area, 0.0)
        limit = np.minimum(_held(nodes, beam, i), info.group.steel.tensile)
        given = given + np.where(here, limit * area, 0.0)
        short = here & (limit / info.group.steel.tensile < weakest)
        weakest = np.where(short, limit / info.group.steel.tensile, weakest)
        label[short] = info.group.label or ("tendon" if info.is_tendon else "bar")
    cracked = history.sign == (1.0 if sagging else -1.0)
    asked = _shifted(nodes, beam, np.where(cracked, asked, 0.0), sagging)
    cracked = asked > 0.0
    # at the very end of all bars nothing is held and nothing asked
    ratio = np.where(cracked & (given > 1e-3), asked / np.maximum(given, 1e-3), 0.0)
    # steel that is fully anchored does not slip; it tears where its neighbours pull more than all its strength
    anchored = weakest >= 1.0 - 1e-9
    ratio = np.where(anchored, np.where(ratio > 1.0 + BEYOND, ratio, 0.0), ratio)
    crossing = first_crossing(ratio, 1.0)
    if crossing is None:
        return None
    j = crossing.station
    return Slip(crossing.step, float(nodes.x[j]), str(label[j]), bool(anchored[j]))


def _shifted(nodes: Nodes, beam: Beam, asked: Array, sagging: bool) -> Array:
    """What the steel is asked for where diagonal cracks lean over it: the most within the shift on either side.

    Not within that distance of a support: that the steel is anchored over the support itself is taken for granted.
    """
    x = nodes.x
    depth = tension_steel(nodes, sagging).depth
    tied = stirrups(beam, x)[0] > 0.0
    reach = np.where(tied, SHIFT_TIED * 0.9 * depth, SHIFT_BARE * depth)
    low, high = np.searchsorted(x, x - reach), np.searchsorted(x, x + reach, side="right")
    near = np.min(np.abs(x[:, None] - np.array(beam.supports.x)), axis=1) < reach
    most = asked.copy()
    for j in np.flatnonzero(~near):
        most[:, j] = np.max(asked[:, low[j] : high[j]], axis=1)
    return most


def _held(nodes: Nodes, beam: Beam, layer: int) -> Array:
    """Stress that the embedment of a layer holds at each station, MPa; no bound for grouted tendons (anchors hold)."""
    info = nodes.infos[layer]
    if info.bar is not None:
        return held(beam, info.bar, nodes.x)
    assert info.tendon is not None
    if info.tendon.when != "before casting":
        return np.full(len(nodes.x), np.inf)
    full = float(np.max(np.asarray(info.law(nodes.layers[:, layer, 2]))))
    return held_tendon(beam, info.tendon, nodes.x, full)

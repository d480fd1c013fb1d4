"""Bond along the life: the stress of a bar or strand at a crack against what its embedment can hold."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials import bond_laws
from soffit.materials.curve import Array
from soffit.member import prestress
from soffit.member.beam import BarEnd, BarGroup, Beam, TendonGroup
from soffit.member.crossing import first_crossing
from soffit.member.layout import cover
from soffit.member.march import History
from soffit.member.nodes import Nodes

HOOK = 60.0
"""Stress that a standard hook or bend adds, in multiples of the bond strength: fib Model Code 2010 6.1.3.4 gives the
force 60 fbd Ab (*from memory*)."""
KM = 12.0
"""Efficiency of stirrups against splitting, bars in their corners (fib Model Code 2010 6.1.3.2, *from memory*)."""
FLEXURAL_BOND = 7.0
"""Stress gained beyond the transfer length for each diameter of embedment, MPa: ACI 318-19 25.4.8.1, (fps − fse)/1000
psi of db, in MPa /7."""


@dataclass(frozen=True)
class Slip:
    step: float
    x: float
    label: str


def strength(beam: Beam, bar: BarGroup) -> tuple[float, str]:
    """Mean bond stress that a group of bars reaches, MPa, and by what it ends (pull-out, splitting, friction)."""
    c = beam.concrete
    if bar.surface == "plain":
        law = bond_laws.plain(c.strength)
        return law.strength, law.failure
    covers = cover(beam, bar)
    ties = [z for z in beam.stirrups if z.x_from < bar.x_to and z.x_to > bar.x_from]
    ktr = 0.0
    if ties:
        zone = min(ties, key=lambda z: z.area / z.spacing)
        whole = zone.x_from <= bar.x_from + 0.05 * beam.length and zone.x_to >= bar.x_to - 0.05 * beam.length
        if whole or len(ties) > 1:
            ktr = bond_laws.stirrup_confinement(zone.legs, zone.area / zone.legs, zone.spacing, bar.count, bar.diameter)
    law = bond_laws.deformed(c.strength, bar.diameter, covers.least, covers.greatest, True, KM, ktr)
    return law.strength, law.failure


def _end(kind: BarEnd, tau: float) -> float:
    return {"straight": 0.0, "hook": HOOK * tau, "welded plate": np.inf}[kind]


def held(beam: Beam, bar: BarGroup, x: Array) -> Array:
    """Stress that the embedment on either side of ``x`` can hold, MPa: 4 τ ℓ/φ, and what the end adds.

    A bar that reaches a fixed support is anchored in what holds the beam there.
    """
    tau, _ = strength(beam, bar)
    supports = beam.supports
    walled_left = supports.fixed_left and bar.x_from <= supports.x[0]
    walled_right = supports.fixed_right and bar.x_to >= supports.x[-1]
    left = 4.0 * tau * np.maximum(x - bar.x_from, 0.0) / bar.diameter
    right = 4.0 * tau * np.maximum(bar.x_to - x, 0.0) / bar.diameter
    left = left + (np.inf if walled_left else _end(bar.end_left, tau))
    right = right + (np.inf if walled_right else _end(bar.end_right, tau))
    return np.asarray(np.minimum(left, right))


def held_tendon(tendon: TendonGroup, x: Array, stress: float) -> Array:
    """Stress that a pretensioned tendon can have at ``x``, MPa: up to ``stress`` over the transfer length, then
    7 MPa for each diameter (ACI 318-19 25.4.8.1)."""
    reach = np.maximum(np.minimum(x - tendon.x_from, tendon.x_to - x), 0.0)
    transfer = prestress.transfer_length(stress, tendon.diameter, tendon.transfer_length)
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
        here = (area > 0) & ((y < nodes.axis) if sagging else (y > nodes.axis))
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
    # at the very end of all bars nothing is held and nothing asked
    ratio = np.where(cracked & (given > 1e-3), asked / np.maximum(given, 1e-3), 0.0)
    # steel that is at its strength has broken, not slipped
    ratio = np.where(weakest < 1.0 - 1e-9, ratio, 0.0)
    crossing = first_crossing(ratio, 1.0)
    if crossing is None:
        return None
    j = crossing.station
    return Slip(crossing.step, float(nodes.x[j]), str(label[j]))


def _held(nodes: Nodes, beam: Beam, layer: int) -> Array:
    """Stress that the embedment of a layer holds at each station, MPa; no bound for grouted tendons (anchors hold)."""
    info = nodes.infos[layer]
    if info.bar is not None:
        return held(beam, info.bar, nodes.x)
    assert info.tendon is not None
    if info.tendon.when != "before casting":
        return np.full(len(nodes.x), np.inf)
    full = float(np.max(np.asarray(info.law(nodes.layers[:, layer, 2]))))
    return held_tendon(info.tendon, nodes.x, full)

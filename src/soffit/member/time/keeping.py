"""Take a solved step into the state, and write it down."""

from __future__ import annotations

import numpy as np

from soffit.materials.curve import Array
from soffit.member.time import plane as planes
from soffit.member.time.equilibrium import Solved
from soffit.member.time.state import State, along


def keep(s: State, n: int, solved: Solved, load: Array, relaxed: Array) -> None:
    before = s.mean
    held = s.layers
    held.slide = held.slide + held.sliding[:, None] * (solved.slid[:, None] - relaxed)
    _moments(s, load, solved)
    s.ratio = solved.ratio
    for i, c in enumerate(s.concretes):
        c.steps[n] = solved.stress[i]
        c.stress = c.stress + solved.stress[i]
        s.record.stress[i][n] = c.stress
        where = solved.fissured.where
        if len(where) and c.born is not None:
            c.fibre_steps[n, where] = solved.fissured.stress[i] - c.fibre_stress[where]
            c.fibre_stress[where] = solved.fissured.stress[i]
    s.plane, s.plane_cracked, s.mean = solved.plane, solved.cracked, solved.mean
    r = s.record
    r.plane[n], r.cracked[n], r.moment[n], r.by_loads[n] = s.mean, solved.share, s.moment, s.by_loads
    r.axial[n] = -np.sum(held.slide * held.sliding[:, None] * held.steel.area, axis=0)
    _steel(s, n, solved)
    _losses(s, n, before, solved)


def _moments(s: State, load: Array, solved: Solved) -> None:
    if s.on is None:
        return
    s.moment = s.moment + load + solved.open @ s.on.diagrams
    # the same load on the uncracked member, without prestress, creep and shrinkage
    bent = planes.solve(solved.sums, np.stack([np.zeros_like(load), -load], axis=-1))[:, 1]
    units = [planes.solve(solved.sums, np.stack([np.zeros_like(d), -d], axis=-1))[:, 1] for d in s.on.diagrams]
    s.by_loads = s.by_loads + load
    if units:
        flexibility = np.array([[w @ u for u in units] for w in s.on.weights])
        s.by_loads = s.by_loads + np.linalg.solve(flexibility, -(s.on.weights @ bent)) @ s.on.diagrams


def bonded_stress(s: State, held: Array, plane: Array) -> Array:
    """Stress of every layer were it bonded, (layers, stations), MPa."""
    k = s.layers
    strain = plane[None, :, 0] - plane[None, :, 1] * k.steel.y
    return np.asarray(held + k.steel.modulus * strain - (k.relaxed - k.before_bond))


def _steel(s: State, n: int, solved: Solved) -> None:
    held, bars = s.layers, s.layers.steel.bars
    uncracked = bonded_stress(s, held.held, s.plane)
    at_crack = bonded_stress(s, held.held_cracked, s.plane_cracked)
    mean = uncracked + solved.share * (at_crack - uncracked)
    stress = np.where(held.sliding[:, None], held.slide, mean)
    for group, tendon in enumerate(s.beam.tendons):
        layer = bars + group
        if held.bonded[layer] or held.sliding[layer]:
            hold = held.steel.area[layer] / tendon.area
            s.record.tendons[n, group] = np.where(held.steel.inside[layer] > 0, stress[layer] * hold, np.nan)
    s.record.bars[n] = uncracked[:bars] * (held.bonded[:bars, None] & (held.steel.area[:bars] > 0))
    where = solved.fissured.where
    if len(where):
        there = np.where(held.bonded[:, None] & (held.steel.area > 0), at_crack, 0.0)
        s.record.crack_stress[n, where] = np.max(there, axis=0, initial=0.0)[where]


def _losses(s: State, n: int, before: Array, solved: Solved) -> None:
    """What the strain of the concrete beside each tendon takes from it, told apart."""
    r, held, own = s.record, s.layers, s.concretes[0]
    shrunk = -(own.viscous.shrinkage[n] - own.viscous.shrinkage[n - 1])
    for group in range(len(s.beam.tendons)):
        layer = held.steel.bars + group
        for kept in (r.relaxation, r.elastic, r.creep, r.shrinkage):
            kept[n, group] = kept[n - 1, group]
        r.relaxation[n, group] = held.relaxed[layer]
        if not (held.bonded[layer] or held.sliding[layer]):
            continue
        y = held.steel.y[layer]
        total = planes.at(s.mean - before, y)
        elastic = planes.at(solved.stress[0], y) * own.viscous.elastic[n]
        if held.sliding[layer]:
            w = along(s, layer) * held.share[layer]
            total, elastic, shrink = (w @ v + np.zeros_like(s.x) for v in (total, elastic, shrunk + 0.0 * s.x))
        else:
            shrink = shrunk + np.zeros_like(s.x)
        modulus = float(held.steel.modulus[layer, 0])
        r.elastic[n, group] -= modulus * elastic
        r.shrinkage[n, group] -= modulus * shrink
        r.creep[n, group] -= modulus * (total - elastic - shrink)

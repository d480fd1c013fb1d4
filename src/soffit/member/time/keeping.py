"""Take a solved step into the state, and write it down."""

from __future__ import annotations

import numpy as np

from soffit.materials.curve import Array
from soffit.member.time import plane as planes
from soffit.member.time.equilibrium import Solved
from soffit.member.time.state import State, along


def keep(s: State, n: int, solved: Solved, load: Array, relaxed: Array) -> None:
    before = s.plane
    held = s.layers
    held.slide = held.slide + held.sliding[:, None] * (solved.slid[:, None] - relaxed)
    _moments(s, load, solved)
    s.ratio = solved.ratio
    # what an iteration took for a crack on its way and is none in the end
    s.since[s.ratio <= 1.0] = np.nan
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
    r.crushed[n] = max(
        float(-c.fibre_stress[s.cracks].min(initial=0.0)) / float(c.viscous.strength[n]) for c in s.acting
    )
    r.axial[n] = -np.sum(held.slide * held.sliding[:, None] * held.steel.area, axis=0)
    _losses(s, n, before, _steel(s, n, solved), solved, relaxed)


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


def _steel(s: State, n: int, solved: Solved) -> Array:
    """Write the stresses down; what they were before, (layers, stations)."""
    held, bars, r = s.layers, s.layers.steel.bars, s.record
    uncracked = bonded_stress(s, held.held, s.plane)
    at_crack = bonded_stress(s, held.held_cracked, s.plane_cracked)
    sliding = held.sliding[:, None]
    before = held.full
    held.full = np.where(sliding, held.slide, uncracked + solved.share * (at_crack - uncracked))
    alone, opened = np.where(sliding, held.slide, uncracked), np.where(sliding, held.slide, at_crack)
    where = np.zeros(len(s.x), dtype=bool)
    where[solved.fissured.where] = True
    for group in range(len(s.beam.tendons)):
        layer = bars + group
        if held.bonded[layer] or held.sliding[layer]:
            there = held.steel.inside[layer] > 0
            r.tendons[n, group] = np.where(there, held.full[layer], np.nan)
            r.uncracked[n, group] = np.where(there, alone[layer], np.nan)
            r.at_crack[n, group] = np.where(there & where, opened[layer], 0.0)
    r.bars[n] = uncracked[:bars] * (held.bonded[:bars, None] & (held.steel.area[:bars] > 0))
    there = held.bonded[:bars, None] & (held.steel.area[:bars] > 0) & where
    r.crack_stress[n] = np.max(np.where(there, at_crack[:bars], 0.0), axis=0, initial=0.0)
    return before


def _losses(s: State, n: int, before: Array, was: Array, solved: Solved, relaxed: Array) -> None:
    """What takes from each tendon in this step, told apart.

    before: plane of the uncracked section at the step before; was: stress of the layers then. The stress itself says
    how much is lost in all; the uncracked section how much of it is elastic, shrinkage and creep; cracks are the rest.
    """
    r, held, own = s.record, s.layers, s.concretes[0]
    shrunk = -(own.viscous.shrinkage[n] - own.viscous.shrinkage[n - 1])
    for group in range(len(s.beam.tendons)):
        layer = held.steel.bars + group
        for kept in (r.relaxation, r.elastic, r.creep, r.shrinkage, r.cracking):
            kept[n, group] = kept[n - 1, group]
        r.relaxation[n, group] = held.relaxed[layer]
        if not (held.bonded[layer] or held.sliding[layer]):
            continue
        y, modulus = held.steel.y[layer], float(held.steel.modulus[layer, 0])
        strain = planes.at(s.plane - before, y)
        elastic = planes.at(solved.stress[0], y) * own.viscous.elastic[n]
        shrink = shrunk + np.zeros_like(s.x)
        if held.sliding[layer]:
            w = along(s, layer) * held.share[layer]
            strain, elastic, shrink = (w @ v + np.zeros_like(s.x) for v in (strain, elastic, shrink))
        r.elastic[n, group] -= modulus * elastic
        r.shrinkage[n, group] -= modulus * shrink
        r.creep[n, group] -= modulus * (strain - elastic - shrink)
        gone = was[layer] - held.full[layer] - relaxed[layer]
        if s.cracks.any():
            r.cracking[n, group] += gone + modulus * strain

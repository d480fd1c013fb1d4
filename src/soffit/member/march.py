"""March a member from the permanent state to collapse and keep what every station went through."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from soffit.errors import ConvergenceError
from soffit.materials.curve import Array
from soffit.member.hinge import Choice
from soffit.member.hinge import hinge as make_hinge
from soffit.member.nodes import Nodes
from soffit.member.path import Hinge, Member, Statics, Step
from soffit.member.sweep import cracked_plane, limits, uncracked
from soffit.section import kernel

GROWTH = 1.06
"""Ratio of one step's curvature to the last, counted from decompression."""
UNCRACKED_STEPS = 8
FALLEN = 0.5
"""Share of the peak at which the march stops."""
MOST = 400


@dataclass(frozen=True)
class History:
    """One row a step, one column a station (or an unknown)."""

    factor: Array
    """(steps,): the rising load, N."""
    unknown: Array
    moment: Array
    shear: Array
    axial: Array
    on_section: Array
    """Moment on the section, unbonded tendons' part included."""
    soffit: Array
    curvature: Array
    """Mean over the cracks."""
    cracked_soffit: Array
    cracked_curvature: Array
    sign: Array
    hinge_curvature: Array
    """(steps,): NaN in the steps led by the load."""
    hinge_soffit: Array
    station: NDArray[np.int64]
    """(steps,): the station that led."""
    lost: str
    """Why the march ended before the load had fallen to ``FALLEN`` of the peak; empty when it did not."""

    def __len__(self) -> int:
        return len(self.factor)

    def cut(self, last: int) -> History:
        """The first ``last`` + 1 steps."""
        end = last + 1
        arrays = {name: getattr(self, name)[:end] for name in self.__dataclass_fields__ if name != "lost"}
        return History(**arrays, lost=self.lost)


def march(nodes: Nodes, statics: Statics, hinge: Hinge, ceiling: float = np.inf) -> tuple[History, Hinge]:
    """All steps from the permanent load past the peak; the last hinge is the one that governed.

    ``ceiling``: load at which to stop although nothing has failed, N.
    Raises ``ConvergenceError`` (place and load named) when a state before the peak is not found.
    """
    member = Member(nodes, statics, hinge)
    steps: list[Step] = []
    leaders: list[int] = []
    first = member.solve(None, 0.0)
    member.keep(first)
    member.set_reference(first)
    steps.append(first)
    leaders.append(hinge.station)
    lost = ""
    for step in _uncracked(member, first):
        member.keep(step)
        steps.append(step)
        leaders.append(hinge.station)
    walker = _curvatures(member, steps[-1])
    while len(steps) < MOST:
        last = steps[-1]
        try:
            curvature, guess = next(walker)
        except StopIteration:
            break
        try:
            step = member.solve(last, None, curvature, guess)
        except ConvergenceError as error:
            if max(s.factor for s in steps) > last.factor or len(steps) > UNCRACKED_STEPS + 4:
                lost = str(error)
                break
            raise
        other = _exhausted(member, step)
        if other is not None:
            # what this step asks of that section it cannot hold: let it turn, and seek the step again
            member.add_hinge(_further(member, other, last), last)
            try:
                step = member.solve(last, None, curvature, guess)
            except ConvergenceError as error:
                lost = str(error)
                break
        steps.append(step)
        leaders.append(member.hinge.station)
        member.keep(step)
        if step.factor > ceiling:
            break
        top = max(s.factor for s in steps)
        if step.factor < FALLEN * top or (top <= 0 and step.factor < top - 1.0):
            break
    return _history(member, steps, leaders, lost), member.hinge


def _uncracked(member: Member, start: Step) -> Iterator[Step]:
    """Steps of equal load up to the hinge's first crack, when there is any way to go."""
    nodes, h, sign = member.nodes, member.hinge.station, member.hinge.sign
    _, cracking = limits(nodes.elastic[h], nodes.axis, nodes.depth, start.axial[h], member.strain, sign > 0)
    missing = (cracking - start.hinge_moment) * sign
    rate = member.statics.rising[h] * sign
    if missing <= 0:
        return
    step = start
    if member.redundants:
        # what the hinge takes of a load depends on the rest: find the share with a small trial
        small = 1e-3 * nodes.tensile * nodes.depth**2
        rate = (member.solve(start, small).hinge_moment - start.hinge_moment) * sign / small
    for i in range(1, UNCRACKED_STEPS + 1):
        step = member.solve(step, i / UNCRACKED_STEPS * missing / rate * (1.0 - 1e-9))
        yield step


def _curvatures(member: Member, start: Step) -> Iterator[tuple[float, float]]:
    """Curvatures of the hinge in growing steps, with a guess of the soffit strain; the kinks of its steel are hit."""
    nodes, h, sign = member.nodes, member.hinge.station, member.hinge.sign
    axial = start.axial[h]
    arrays = member.hinge_arrays
    soffit, curvature = start.state[h, 0], start.state[h, 1]
    if not member.hinge.snaps:
        # the lead passes from the uncracked to the cracked plane under the same moment
        e1, k1 = uncracked(nodes.elastic[h], nodes.axis, axial, start.hinge_moment)
        e2, k2 = (start.state[h, 2], start.state[h, 3]) if start.state[h, 4] else (np.nan, np.nan)
        soffit, curvature, _ = cracked_plane(
            *arrays, nodes.axis, nodes.depth, nodes.scale, axial, start.hinge_moment, e1, k1, e2, k2, sign
        )
    found = kernel.equilibrium(*arrays, curvature, axial, soffit, nodes.scale)
    if found != found:
        return
    soffit = found
    base = _decompressed(member, axial)
    smallest = member.strain / nodes.depth
    kinks = _kinks(nodes, h)
    watched = _watched(nodes, h, soffit, curvature)
    grown = (curvature - base) * sign
    while True:
        grown = max(grown * GROWTH, grown + 0.05 * smallest)
        k = base + sign * grown
        if abs(k) * nodes.depth > 0.5:
            return
        e = kernel.equilibrium(*arrays, k, axial, soffit, nodes.scale)
        if e != e:
            return
        # a layer that passes a kink of its law inside this step gets a step of its own there
        now = _watched(nodes, h, e, k)
        between = sorted(
            t
            for i, values in enumerate(kinks)
            for value in values
            for t in [(value - watched[i]) / (now[i] - watched[i]) if now[i] != watched[i] else 2.0]
            if 1e-9 < t < 1.0 - 1e-9
        )
        for t in between:
            kk = curvature + t * (k - curvature)
            yield kk, soffit + t * (e - soffit)
        yield k, e
        soffit, curvature, watched = e, k, now


def _decompressed(member: Member, axial: float) -> float:
    """Curvature of the hinge when its tension face has no strain, elastic."""
    nodes, h, sign = member.nodes, member.hinge.station, member.hinge.sign
    moment, _ = limits(nodes.elastic[h], nodes.axis, nodes.depth, axial, member.strain, sign > 0)
    return float(uncracked(nodes.elastic[h], nodes.axis, axial, moment)[1])


def _kinks(nodes: Nodes, station: int) -> list[tuple[float, ...]]:
    """Strains at which each layer's law changes its course (yield, end of plateau, just before and after rupture)."""
    out: list[tuple[float, ...]] = []
    for i, info in enumerate(nodes.infos):
        if nodes.layers[station, i, 1] == 0.0:
            out.append(())
            continue
        inner = [p.low for p in info.law.pieces[1:] if p.low != 0.0]
        end = info.law.high
        out.append((*inner, end * (1 - 1e-6), end * (1 + 1e-6)))
    return out


def _watched(nodes: Nodes, station: int, soffit: float, curvature: float) -> Array:
    layers = nodes.layers[station]
    return np.asarray(soffit - curvature * layers[:, 0] + layers[:, 2])


def _exhausted(member: Member, step: Step) -> int | None:
    """A station outside the hinge that is asked for more than its strength (only with redundants)."""
    if member.redundants == 0:
        return None
    over = (np.abs(step.state[:, 4]) > 1.5) & ~member.hinge.zone
    for hinge in member.further:
        over &= ~hinge.hinge.zone
    if not over.any():
        return None
    candidates = np.flatnonzero(over)
    return int(candidates[np.argmax(np.abs(step.moment[candidates]))])


def _further(member: Member, station: int, step: Step) -> Hinge:
    """A hinge like the leading one at another station."""
    sign = int(np.sign(step.state[station, 4])) or int(np.sign(step.moment[station]))
    choice = Choice(station, sign, 0.0, False)
    return make_hinge(member.nodes, choice, member.hinge.length, np.sign(step.moment))


def _history(member: Member, steps: list[Step], leaders: list[int], lost: str) -> History:
    state = np.array([s.state for s in steps])
    return History(
        factor=np.array([s.factor for s in steps]),
        unknown=np.array([s.unknown[: member.groups + member.redundants] for s in steps]),
        moment=np.array([s.moment for s in steps]),
        shear=np.array([s.shear for s in steps]),
        axial=np.array([s.axial for s in steps]),
        on_section=np.array([s.moment + member.eccentric(s.unknown) for s in steps]),
        soffit=state[:, :, 0],
        curvature=state[:, :, 1],
        cracked_soffit=state[:, :, 2],
        cracked_curvature=state[:, :, 3],
        sign=np.sign(state[:, :, 4]),
        hinge_curvature=np.array([s.hinge_curvature if s.hinge_soffit == s.hinge_soffit else np.nan for s in steps]),
        hinge_soffit=np.array([s.hinge_soffit for s in steps]),
        station=np.array(leaders),
        lost=lost,
    )

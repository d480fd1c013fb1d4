"""Where a beam will break in bending: the strength of every section, and the stretch over which it turns."""

from __future__ import annotations

from dataclasses import dataclass
from math import isnan, nan

import numpy as np
from numpy.typing import NDArray

from soffit.errors import PhysicsError
from soffit.jit import kernel
from soffit.materials.curve import Array
from soffit.member.nodes import COHESIVE_BAND, Nodes, yield_strain
from soffit.member.statics import product_weights
from soffit.member.step import Hinge, Statics
from soffit.member.sweep import uncracked
from soffit.section.kernel import equilibrium, resultants
from soffit.section.strip import Ints

TIE = 2e-3
"""Sections whose failure loads differ by less than this share are equally likely to break; the middle one is taken."""


@kernel
def strength(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    depth: float,
    scale: float,
    elastic: Array,
    axial: float,
    sign: float,
    only_first: bool,
) -> tuple[float, float, float]:
    """Greatest moment of one section for one sense of bending, N·mm, signed, with its curvature and soffit strain.

    NaN when it carries none.

    ``only_first``: the first peak, that of the crack where there is one.
    """
    e, k1 = uncracked(elastic, axis, axial, 0.0)
    best = at = at_e = nan
    k = k1
    step = sign * 2e-6 / depth
    for _ in range(220):
        found = equilibrium(strips, layers, table, first, last, k, axial, e, scale)
        if isnan(found):
            break
        e = found
        m = resultants(strips, layers, table, first, last, axis, e, k)[1] * sign
        if isnan(best) or m > best:
            best, at, at_e = m, k, e
        elif best > 1e-9 * scale * depth and m < (0.999 if only_first else 0.5) * best:
            # bars that shrunk concrete has squeezed carry nothing before the crack is wide enough
            break
        k += step
        step *= 1.07
        if abs(k) * depth > 0.6:
            break
    return best * sign, at, at_e


@kernel
def strengths(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    depth: float,
    scale: float,
    elastic: Array,
    axial: Array,
    sign: Array,
    only_first: bool,
) -> Array:
    """:func:`strength` at every station for the sense of bending in ``sign`` (±1 each)."""
    n = layers.shape[0]
    out = np.empty((n, 3))
    for j in range(n):
        same = j > 0 and axial[j] == axial[j - 1] and sign[j] == sign[j - 1]
        if same:
            for i in range(layers.shape[1]):
                for c in range(5):
                    if layers[j, i, c] != layers[j - 1, i, c]:
                        same = False
        if same:
            out[j] = out[j - 1]
        else:
            out[j, 0], out[j, 1], out[j, 2] = strength(
                strips,
                layers[j],
                table,
                first,
                last,
                axis,
                depth,
                scale,
                elastic[j],
                axial[j],
                sign[j],
                only_first,
            )
    return out


@dataclass(frozen=True)
class Choice:
    """The governing section and how much load it stands when nothing redistributes."""

    station: int
    sign: int
    factor: float
    snaps: bool
    """Whether one crack takes all the rotation."""


def choose(nodes: Nodes, permanent: Array, rising: Array, axial: Array, eccentric: Array) -> Choice:
    """The section that reaches its bending strength first as the load factor grows.

    ``permanent`` and ``rising``: moments of the loads, N·mm; ``axial``, ``eccentric``: what unbonded tendons add.
    Raises ``PhysicsError`` when the rising load bends nothing.
    """
    if not np.any(np.abs(rising) > 0):
        raise PhysicsError("the load that rises bends no part of the beam: it stands over a support")
    sign = np.where(rising >= 0, 1.0, -1.0)
    carried, snapping = _carried(nodes, axial, sign)
    with np.errstate(divide="ignore", invalid="ignore"):
        factor = (carried - eccentric - permanent) / rising
    factor[np.abs(rising) < 1e-9 * np.max(np.abs(rising))] = np.inf
    factor[np.isnan(factor)] = np.inf
    least = float(np.min(factor))
    if not np.isfinite(least):
        raise PhysicsError("no section of the beam reaches its strength in bending under the load that rises")
    tied = np.flatnonzero(factor <= least + TIE * abs(least))
    station = int(_middle(nodes.x, tied, int(np.argmin(factor))))
    return Choice(station, int(sign[station]), least, bool(snapping[station]))


def light(nodes: Nodes, axial: Array, sagging: bool) -> NDArray[np.bool_]:
    """Stations whose crack carries more than the steel behind it: they stay whole until that crack comes."""
    sign = 1.0 if sagging else -1.0
    senses = np.full(len(nodes.x), sign)
    crack, cracked = (_strengths(nodes, axial, senses, cohesive=c)[:, 0] for c in (True, False))
    return np.asarray(np.isnan(cracked) | (sign * crack > sign * cracked * (1.0 + 1e-3)))


def _carried(nodes: Nodes, axial: Array, sign: Array) -> tuple[Array, NDArray[np.bool_]]:
    """Strength of every section (signed), and whether one crack takes all the rotation there.

    It does where the crack, its steel not yet yielding, carries more than the steel behind it ever will (the strength
    is then the crack's), and wherever no bonded steel stands in the tension zone.
    """
    cracked = _strengths(nodes, axial, sign, cohesive=False)[:, 0]
    crack, curvature, soffit = _strengths(nodes, axial, sign, cohesive=True).T
    bonded = np.where(sign > 0, nodes.bonded_below, nodes.bonded_above)
    nothing = np.isnan(cracked) | (cracked * sign <= 1e-3 * crack * sign)
    idle = _yield_used(nodes, curvature, soffit) < 1.0 - 1e-3
    breaking = nothing | ((sign * crack > sign * cracked) & idle)
    return np.where(breaking, crack, cracked), ~bonded | breaking


def _yield_used(nodes: Nodes, curvature: Array, soffit: Array) -> Array:
    """Greatest strain of the bonded steel over its yield strain at each station, under given planes."""
    used = np.zeros(len(nodes.x))
    for i, info in enumerate(nodes.infos):
        strain = soffit - curvature * nodes.layers[:, i, 0] + nodes.layers[:, i, 2]
        used = np.where(nodes.layers[:, i, 1] > 0, np.fmax(used, strain / yield_strain(info)), used)
    return used


def overloaded(nodes: Nodes, permanent: Array, axial: Array, eccentric: Array) -> int | None:
    """The station whose strength the permanent load alone exceeds most, if there is one."""
    on_section = permanent + eccentric
    # a moment on the section of either sense has to be carried
    sign = np.where(on_section >= 0, 1.0, -1.0)
    carried = np.nan_to_num(sign * _carried(nodes, axial, sign)[0], nan=0.0)
    excess = sign * on_section - carried
    worst = int(np.argmax(excess))
    return worst if excess[worst] > 1e-9 * nodes.scale * nodes.depth else None


def _strengths(nodes: Nodes, axial: Array, sign: Array, cohesive: bool) -> Array:
    laws = nodes.laws
    strips = nodes.cohesive_strips if cohesive else nodes.strips
    return np.asarray(
        strengths(
            strips, nodes.layers, laws.table, laws.first, laws.last, nodes.axis, nodes.depth, nodes.scale,
            nodes.elastic, axial, sign, cohesive,
        )
    )  # fmt: skip


def _middle(x: Array, tied: NDArray[np.intp], argmin: int) -> int:
    """The middle of the run of tied stations that holds the least one."""
    run = [argmin]
    for step in (-1, 1):
        i = argmin
        while i + step in tied:
            i += step
            run.append(i)
    low, high = x[min(run)], x[max(run)]
    inside = np.arange(min(run), max(run) + 1)
    return int(inside[np.argmin(np.abs(x[inside] - 0.5 * (low + high)))])


def length(nodes: Nodes, rising: Array, choice: Choice, effective_depth: float) -> float:
    """Length of beam that shares the hinge's curvature, both sides together, mm.

    With bonded steel d/2 + 0.05 z on each side, z the distance to the point of no moment: A. H. Mattock, discussion
    of "Rotational capacity of hinging regions in reinforced concrete beams", J. Struct. Div. ASCE 93(ST2), 1967
    (*from memory*). Where one crack takes all, half the depth (:data:`soffit.member.nodes.COHESIVE_BAND`).
    """
    if choice.snaps:
        return COHESIVE_BAND * nodes.depth
    x, here = nodes.x, choice.station
    same = rising * choice.sign > 0
    left = here
    while left > 0 and same[left - 1]:
        left -= 1
    right = here
    while right < len(x) - 1 and same[right + 1]:
        right += 1
    sides = [d for d in (x[here] - x[left], x[right] - x[here]) if d > 1.0]
    z = float(np.mean(sides)) if sides else 0.0
    return 2 * (0.5 * effective_depth + 0.05 * z)


def reach(length: float, place: float, long: float, snaps: bool) -> tuple[float, float]:
    """Ends of a hinge of length ``long`` at ``place``; a single crack at a wall has its whole band inside the beam."""
    low, high = place - long / 2, place + long / 2
    if snaps and low < 0.0:
        low, high = 0.0, min(long, length)
    if snaps and high > length:
        low, high = max(length - long, 0.0), length
    return low, high


def hinge(nodes: Nodes, choice: Choice, long: float, rising: Array) -> Hinge:
    """The hinge with its zone: stations within its length with the same steel, where the load bends the same way."""
    low, high = reach(float(nodes.x[-1]), float(nodes.x[choice.station]), long, choice.snaps)
    zone = (nodes.x >= low - 1e-9) & (nodes.x <= high + 1e-9) & (rising * choice.sign > 0)
    areas = nodes.layers[:, :, 1]
    zone &= np.all(areas == areas[choice.station], axis=1)
    zone[choice.station] = True
    return Hinge(choice.station, choice.sign, zone, long, choice.snaps)


def elastic_redundants(nodes: Nodes, statics: Statics, moment: Array, axial: Array) -> Array:
    """Support moments of the uncracked member under ``moment`` (of the loads and unbonded tendons, released)."""
    r = statics.redundant
    if len(r) == 0:
        return np.zeros(0)
    w = np.array([product_weights(nodes.x, m) for m in r])

    def curvature(m: Array) -> Array:
        return np.array([uncracked(nodes.elastic[j], nodes.axis, axial[j], m[j])[1] for j in range(len(m))])

    base = curvature(moment)
    # pretensioned steel bent the unit in its bed, before these supports held it
    free = base - nodes.bed
    flexibility = np.array([w @ (curvature(moment + m) - base) for m in r]).T
    return np.asarray(np.linalg.solve(flexibility, -(w @ free)))


def elastic_permanent(nodes: Nodes, statics: Statics) -> Array:
    """Moments of the permanent load on the uncracked member."""
    axial, extra = nodes.unbonded_forces()
    return np.asarray(
        statics.permanent + elastic_redundants(nodes, statics, statics.permanent + extra, axial) @ statics.redundant
    )

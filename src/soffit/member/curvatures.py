"""The curvatures through which the leading section is taken, one after another."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.materials.curve import Array
from soffit.member.nodes import Nodes
from soffit.member.path import Member
from soffit.member.step import Step
from soffit.member.sweep import cracked_plane, limits, uncracked
from soffit.section import kernel
from soffit.section.kernel import SectionArrays

GROWTH = 1.06
"""Ratio of one step's curvature to the last, counted from decompression."""
PAST = 1e-4
"""Share of a step beyond a rupture at which the march stands next."""


def curvatures(member: Member, start: Step, known: bool = False) -> Iterator[tuple[float, float]]:
    """Curvatures of the hinge in growing steps, with a guess of the soffit strain; the kinks of its steel are hit.

    ``known``: the hinge stands in ``start`` with its own plane already (it followed another one until now).
    """
    nodes, h, sign = member.nodes, member.hinge.station, member.hinge.sign
    member.snapped = False
    axial = float(start.axial[h])
    arrays = member.hinge_arrays
    soffit, curvature = start.state[h, 0], start.state[h, 1]
    if known:
        soffit, curvature = start.state[h, 2], start.state[h, 3]
    elif not member.hinge.snaps:
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
        if member.latest is not None:
            # unbonded tendons pull harder from step to step
            axial = float(member.latest.axial[h])
        grown = max(grown * GROWTH, grown + 0.05 * smallest)
        k = base + sign * grown
        if abs(k) * nodes.depth > 0.5:
            return
        e = _near(arrays, nodes, k, axial, soffit, curvature)
        for _ in range(6):
            if e == e:
                break
            k = 0.5 * (k + curvature)
            grown = (k - base) * sign
            e = _near(arrays, nodes, k, axial, soffit, curvature)
        if e != e:
            # within a sixty-fourth of a step the section snaps to another state: its concrete has given way
            member.snapped = True
            return
        # a layer that passes a kink of its law inside this step gets a step of its own there
        now = _watched(nodes, h, e, k)
        between = sorted(
            (t, i, value)
            for i, values in enumerate(kinks)
            for value in values
            for t in [(value - watched[i]) / (now[i] - watched[i]) if now[i] != watched[i] else 2.0]
            if 1e-9 < t < 1.0 - 1e-9
        )
        for _, i, value in between:
            kk, ee = _at_kink(arrays, nodes, h, axial, (curvature, soffit, k), i, value)
            yield kk, ee
            if value == kinks[i][-1]:
                # just beyond rupture
                yield kk + PAST * (k - curvature), ee + PAST * (e - soffit)
        yield k, e
        soffit, curvature, watched = e, k, now


def _at_kink(
    arrays: SectionArrays,
    nodes: Nodes,
    station: int,
    axial: float,
    span: tuple[float, float, float],
    layer: int,
    strain: float,
) -> tuple[float, float]:
    """Curvature and soffit strain at which ``layer`` comes to ``strain``; ``span``: curvature and soffit strain before
    it, and the curvature behind it.

    Halving from the near side, each guess carried on from the last state before the kink, so that a rupture behind it
    is never looked into.
    """
    k, e, far = span
    y, pre = nodes.layers[station, layer, 0], nodes.layers[station, layer, 2]
    rising = e - k * y + pre < strain
    rate = e / k if k != 0.0 else 0.0
    for _ in range(50):
        middle = 0.5 * (k + far)
        found = float(kernel.equilibrium(*arrays, middle, axial, e + rate * (middle - k), nodes.scale))
        short = found == found and (found - middle * y + pre < strain) == rising
        if short:
            rate = (found - e) / (middle - k) if middle != k else rate
            k, e = middle, found
        else:
            far = middle
    return k, e


def _near(arrays: SectionArrays, nodes: Nodes, curvature: float, axial: float, soffit: float, before: float) -> float:
    """Soffit strain at the next curvature; NaN unless it lies as near to the last as turning about an axis inside the
    depth explains (three times over), so that the walk never leaps to another branch."""
    e = float(kernel.equilibrium(*arrays, curvature, axial, soffit, nodes.scale))
    return e if abs(e - soffit) <= 3.0 * abs(curvature - before) * nodes.depth + 1e-6 else float("nan")


def _decompressed(member: Member, axial: float) -> float:
    """Curvature of the hinge when its tension face has no strain, elastic."""
    nodes, h, sign = member.nodes, member.hinge.station, member.hinge.sign
    moment, _ = limits(nodes.elastic[h], nodes.axis, nodes.depth, axial, member.strain, sign > 0)
    return float(uncracked(nodes.elastic[h], nodes.axis, axial, moment)[1])


def _kinks(nodes: Nodes, station: int) -> list[tuple[float, ...]]:
    """Strains at which each layer's law changes its course (yield, end of plateau, just before rupture)."""
    out: list[tuple[float, ...]] = []
    for i, info in enumerate(nodes.infos):
        if nodes.layers[station, i, 1] == 0.0:
            out.append(())
            continue
        inner = [p.low for p in info.law.pieces[1:] if p.low != 0.0]
        end = info.law.high
        out.append((*inner, end * (1 - 1e-6)))
    return out


def _watched(nodes: Nodes, station: int, soffit: float, curvature: float) -> Array:
    layers = nodes.layers[station]
    return np.asarray(soffit - curvature * layers[:, 0] + layers[:, 2])

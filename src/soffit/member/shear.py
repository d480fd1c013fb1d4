"""Shear along the life: what the web carries from strains, and what a direct strut carries to a near support.

Sectional strength: simplified modified compression field theory (Bentz, Vecchio & Collins 2006). Within a shear span
it is judged no nearer than the lever arm to the load and to the support, where the spreading of the forces holds the
web (CSA A23.3-14 11.3.2 for the support; the same at the load in Bentz 2006's comparison with beams, *from memory*).
A load near a support may also reach it by a strut; the shear span fails when neither way carries it any more.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials import shear_laws
from soffit.materials.curve import Array
from soffit.member.beam import Beam
from soffit.member.layout import stirrups, tension_steel
from soffit.member.march import History
from soffit.member.nodes import Nodes

DEFAULT_PLATE = 0.1
"""Length of a bearing or loading plate that was not given, as a share of the depth (an assumption that is stated)."""


@dataclass(frozen=True)
class ShearFailure:
    step: float
    """Where in the history it happens (fraction between steps)."""
    x: float
    strength: float
    demand: float
    note: str


@dataclass(frozen=True)
class Span:
    """A stretch of one sign of shear between a support and a concentrated load (or the end of the shear)."""

    support: float
    load: float
    concentrated: bool
    """Whether a point load stands at the far end (only then can one strut carry it)."""


def spans(beam: Beam, points: tuple[float, ...]) -> list[Span]:
    """Stretches between each support and the nearest rising point load on either side, without another support."""
    found = []
    for s in beam.supports.x:
        for sense in (-1, 1):
            ahead = [p for p in points if (p - s) * sense > 1e-6]
            if not ahead:
                continue
            near = min(ahead, key=lambda p: abs(p - s))
            between = [o for o in beam.supports.x if o != s and min(s, near) < o < max(s, near)]
            if not between:
                found.append(Span(s, near, True))
    return found


def strength(nodes: Nodes, beam: Beam, history: History) -> tuple[Array, Array]:
    """Sectional shear strength (N) and the lever arm dv (mm), both (steps, stations).

    εx = (|M|/dv + |V| + 0.5 N − F0)/(2 ΣEA) at mid-depth, half of the strain of the tension steel (CSA A23.3-14
    11.3.6.4, whose εx this is); where it is compressive the uncracked concrete of the tension half is counted too.
    The strain is held at the yield strain of the tension steel: beyond it bending decides.
    """
    outline, c = beam.outline, beam.concrete
    x = nodes.x
    web = outline.web_width
    sagging = history.on_section >= 0
    sides = {sense: tension_steel(nodes, sense) for sense in (True, False)}

    def pick(name: str) -> Array:
        return np.where(sagging, getattr(sides[True], name), getattr(sides[False], name))

    d, stiffness, locked = pick("depth"), pick("stiffness"), pick("locked")
    dv = np.maximum(0.9 * d, 0.72 * outline.depth)
    rising = _vertical(nodes, history)
    demand = np.abs(history.shear - rising)
    # the tendons' pull is on the resisting side: unbonded force as it is, bonded by what is locked in
    moment = np.abs(history.moment)
    tie = moment / dv + demand - locked
    with np.errstate(divide="ignore", invalid="ignore"):
        strain = tie / (2.0 * stiffness)
    half = c.modulus * 0.5 * outline.area
    strain = np.where(tie < 0, tie / (2.0 * (stiffness + half)), strain)
    strain = np.where(stiffness > 0, strain, 0.0)
    ratio, fy, _ = stirrups(beam, x)
    ratio = ratio / web
    enough = ratio >= shear_laws.minimum_stirrups(c.strength, np.maximum(fy, 1.0))
    bare = shear_laws.crack_spacing(dv, c.max_aggregate, c.strength)
    spacing = np.where(enough & (fy > 0), shear_laws.SPACING_WITH_STIRRUPS, bare)
    v = shear_laws.shear_strength(c.strength, strain, spacing, ratio, fy)
    return np.asarray(v * web * dv + np.abs(rising)), dv


def _vertical(nodes: Nodes, history: History) -> Array:
    """Shear that inclined tendons carry, with the sign of the shear they relieve, (steps, stations)."""
    total = np.zeros_like(history.shear)
    for i, info in enumerate(nodes.infos):
        if info.tendon is None:
            continue
        y, area, pre = nodes.layers[:, i, 0], nodes.layers[:, i, 1], nodes.layers[:, i, 2]
        slope = np.gradient(y, nodes.x)
        total = total - info.group.steel.modulus * area * pre * slope
    for i, u in enumerate(nodes.unbonded):
        total = total - history.unknown[:, i : i + 1] * u.shape * u.slope
    # only the part that helps
    return np.asarray(np.where(total * history.shear > 0, total, 0.0))


def strut(nodes: Nodes, beam: Beam, span: Span) -> float:
    """Shear that one strut from the load to the support carries, N.

    Strut and tie by CSA A23.3-14 11.4 (Collins & Mitchell 1986): the strut, as wide as the bearing and twice the
    cover of the tie allow at the support, crushes at f'c/(0.8 + 170 ε1); the tie must carry its thrust, elastic until
    it yields. Solved by bisection, since the strut weakens as the tie stretches.
    """
    outline, c = beam.outline, beam.concrete
    sagging = True
    steel = tension_steel(nodes, sagging)
    near = int(np.argmin(np.abs(nodes.x - span.load)))
    d = float(steel.depth[near])
    stiffness, locked = float(steel.stiffness[near]), float(steel.locked[near])
    if stiffness <= 0.0:
        return 0.0
    arm = 0.9 * d
    reach = abs(span.load - span.support)
    theta = float(np.arctan2(arm, reach))
    plate = beam.supports.bearing or DEFAULT_PLATE * outline.depth
    width = plate * np.sin(theta) + 2.0 * (outline.depth - d) * np.cos(theta)

    def carried(v: float) -> float:
        tie = max(v / np.tan(theta) - locked, 0.0) / stiffness
        weak = shear_laws.strut_strength(c.strength, shear_laws.transverse_strain(tie, theta))
        return float(weak) * width * outline.web_width * float(np.sin(theta))

    low, high = 0.0, c.strength * outline.area
    for _ in range(60):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if carried(middle) > middle else (low, middle)
    return low


def first_failure(
    nodes: Nodes, beam: Beam, history: History, points: tuple[float, ...]
) -> ShearFailure | None:
    """The first step at which a shear span can be carried neither by its web nor by a strut; None if there is none.

    ``points``: where concentrated rising loads stand.
    """
    if not len(nodes.infos) and not nodes.unbonded:
        return None
    capacity, dv = strength(nodes, beam, history)
    demand = np.abs(history.shear)
    x = nodes.x
    judged = np.zeros(len(x), dtype=bool)
    floor = np.zeros(len(x))
    arm = float(np.median(dv[-1]))
    stretches = spans(beam, points)
    if points and stretches:
        for s in stretches:
            a, b = min(s.support, s.load), max(s.support, s.load)
            inside = (x >= a + arm) & (x <= b - arm)
            if not inside.any():
                inside = np.abs(x - 0.5 * (a + b)) <= 0.5 * (b - a) / 2
            judged |= inside
            floor = np.where((x >= a) & (x <= b), np.maximum(floor, strut(nodes, beam, s)), floor)
    else:
        near = np.min(np.abs(x[:, None] - np.array(beam.supports.x)), axis=1)
        judged = near >= arm
    capacity = np.maximum(capacity, floor)
    ratio = np.where(judged, demand / np.maximum(capacity, 1e-9), 0.0)
    worst = np.max(ratio, axis=1)
    over = np.flatnonzero(worst >= 1.0)
    if not len(over):
        return None
    i = int(over[0])
    j = int(np.argmax(ratio[i]))
    t = float(i)
    if i > 0:
        before = ratio[i - 1, j]
        t = i - 1 + float(np.clip((1.0 - before) / max(ratio[i, j] - before, 1e-12), 0.0, 1.0))
    return ShearFailure(t, float(x[j]), float(capacity[i, j]), float(demand[i, j]), "")

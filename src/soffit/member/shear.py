"""Shear along the life: what the web carries from strains, and what direct compression carries to a near support.

With stirrups: the modified compression field theory (Vecchio & Collins 1986), the strain at mid-depth taken from the
section's own plane of strain; with fewer than the minimum its simplified form (Bentz, Vecchio & Collins 2006).
Without: the critical shear crack theory (Muttoni & Fernández Ruiz 2008), the strain again from the section
(docs/decisions/shear-models.md says why). A shear span is judged no nearer to its load and its support than where the
spreading of their forces holds the web. A load near a support may also reach it by direct compression (Zararis 2003);
the span fails when neither way carries it any more.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import isnan, nan

import numpy as np
from numpy.typing import NDArray

from soffit.jit import kernel
from soffit.materials import compression_field, shear_laws
from soffit.materials.concrete import Concrete
from soffit.materials.curve import Array
from soffit.member.beam import Beam
from soffit.member.history import History
from soffit.member.layout import stirrups, tension_steel
from soffit.member.nodes import Nodes, yield_strain
from soffit.member.sweep import Flags, limits, share_cracked, uncracked
from soffit.section.kernel import find_plane
from soffit.section.strip import Ints

FULL_ARCH = 2.0
"""Slenderness a/d to which direct compression counts in full."""
PROJECTION = 1.4
"""Length along the beam of a diagonal crack over the lever arm it crosses: cot 35°, the usual angle at failure."""
FIELD_POINTS = 25
"""Strains at which the compression field is solved; between them the strength is nearly straight."""


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


@dataclass(frozen=True)
class Web:
    """Shear strength along the life, (steps, stations), and how near to forces it need not be judged, (stations,)."""

    strength: Array
    margin: Array


def web(nodes: Nodes, beam: Beam, history: History, within: NDArray[np.bool_]) -> Web:
    """Sectional shear strength, N, and the margin, mm: the lever arm with stirrups, half the depth d without.

    ``within``: stations that are to be judged at all.
    """
    outline, c = beam.outline, beam.concrete
    width = nominal_width(beam)
    sagging = history.on_section >= 0
    sides = {sense: tension_steel(nodes, sense) for sense in (True, False)}
    d = np.where(sagging, sides[True].depth, sides[False].depth)
    dv = np.maximum(0.9 * d, 0.72 * outline.depth)
    relief = _vertical(nodes, history)
    # strain of the cracked section 0.6 d from the compressed face
    from_soffit = np.where(sagging, outline.depth - 0.6 * d, 0.6 * d)
    there = history.cracked_soffit - history.cracked_curvature * from_soffit
    # a yielding bar stretches at the crack it yields in; the strain that weakens the web is held at yield
    at_steel = history.cracked_soffit - history.cracked_curvature * np.where(sagging, outline.depth - d, d)
    there = there * np.minimum(1.0, _yield(nodes) / np.maximum(at_steel, 1e-9))
    light = lightness(c)
    aggregate = c.max_aggregate if light == 1.0 else 0.0
    bare = light * shear_laws.critical_crack(c.strength, there, d, aggregate) * width * d
    ratio, fy, apart = stirrups(beam, nodes.x)
    # a diagonal crack may pass between stirrups that stand further apart than it is long: they are not counted
    meets = apart <= PROJECTION * np.median(dv, axis=0)
    ratio = np.where(meets, ratio, 0.0) / width
    held = ratio > 0
    strength = bare
    if held.any():
        spacing = shear_laws.crack_spacing(dv, aggregate, c.strength)
        enough = ratio >= shear_laws.minimum_stirrups(c.strength, np.maximum(fy, 1.0))
        spacing = np.where(enough, shear_laws.SPACING_WITH_STIRRUPS, spacing)
        strain = _mid_depth(nodes, history, history.shear - relief, held & within)
        simple = shear_laws.shear_strength(light**2 * c.strength, strain, spacing, ratio, fy)
        field = _field(light**2 * c.strength, aggregate, strain, ratio, fy, held & enough)
        tied = np.where(enough, field, simple) * width * dv
        # stirrups below the minimum do not make a web weaker than it is without them
        strength = np.where(held, np.where(enough, tied, np.maximum(tied, bare)), bare)
    margin = np.where(held, np.median(dv, axis=0), 0.5 * np.median(d, axis=0))
    return Web(np.asarray(strength + np.abs(relief)), margin)


def nominal_width(beam: Beam) -> float:
    """Web width less what ducts take, mm: half of grouted ducts over an eighth of the web, 1.2 times empty ones.

    EN 1992-1-1:2004 6.2.3 (6), ducts of one height side by side; a duct whose diameter is not given takes nothing.
    """
    web = beam.outline.web_width
    taken = [0.0]
    for tendon in beam.tendons:
        if tendon.duct <= 0.0:
            continue
        side_by_side = tendon.count * tendon.duct
        if tendon.bond == "unbonded":
            taken.append(1.2 * side_by_side)
        elif tendon.duct > web / 8.0:
            taken.append(0.5 * side_by_side)
    return max(web - max(taken), 0.2 * web)


def lightness(c: Concrete) -> float:
    """Tensile strength over that of normal concrete: η1 = 0.40 + 0.60 ρ/2200 below 2200 kg/m³.

    EN 1992-1-1:2004 11.3.1 (3).
    Cracks run through light aggregate, which then roughens nothing (Muttoni & Fernández Ruiz 2008).
    """
    return 1.0 if c.density >= 2200.0 else 0.4 + 0.6 * c.density / 2200.0


def _field(
    strength: float, aggregate: float, strain: Array, ratio: Array, fy: Array, where: NDArray[np.bool_]
) -> Array:
    """Shear stress by the whole compression field theory, (steps, stations), from a table over the strain."""
    rough = float(shear_laws.effective_aggregate(aggregate, strength))
    grid = np.linspace(-2e-4, max(float(np.max(strain)), 0.0) + 1e-4, FIELD_POINTS)
    out = np.zeros_like(strain)
    for pair in {(float(r), float(y)) for r, y in zip(ratio[where], fy[where], strict=True)}:
        same = where & (ratio == pair[0]) & (fy == pair[1])
        table = compression_field.web_strength(strength, grid, *pair, rough)
        out[:, same] = np.interp(strain[:, same], grid, table)
    return out


def _mid_depth(nodes: Nodes, history: History, shear: Array, where: NDArray[np.bool_]) -> Array:
    """Mean longitudinal strain at mid-depth, (steps, stations), with the tension that the shear puts on both chords.

    The diagonal compression pulls with V cot θ, half on each chord; with cot θ = 2 (CSA A23.3-14 11.3.6.4 takes the
    same) that is 2 V on the axis. Where the section cannot carry it, the strain at the yield of its steel stands.
    """
    laws = nodes.laws
    strain = mid_depth_strains(
        nodes.strips, nodes.layers, laws.table, laws.first, laws.last, nodes.axis, nodes.depth, nodes.scale,
        nodes.elastic, nodes.tensile / nodes.modulus, nodes.bonded_below, nodes.bonded_above,
        history.axial + 2.0 * np.abs(shear), history.on_section, history.cracked_soffit, history.cracked_curvature,
        where,
    )  # fmt: skip
    ceiling = _yield(nodes)
    return np.where(np.isnan(strain), 0.5 * ceiling, np.minimum(strain, 0.5 * ceiling))


def _yield(nodes: Nodes) -> float:
    """Strain at which the bars yield; for tendons alone, that of a bar of their kind of work (0.25 %)."""
    return max((yield_strain(i) for i in nodes.infos if not i.is_tendon), default=0.0025)


@kernel
def _mean_at_mid_depth(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    depth: float,
    scale: float,
    elastic: Array,
    strain: float,
    below: bool,
    above: bool,
    axial: float,
    moment: float,
    soffit: float,
    curvature: float,
) -> float:
    """As :func:`soffit.member.sweep.one_state`, but NaN as soon as Newton finds no plane: the section then yields."""
    e1, k1 = uncracked(elastic, axis, axial, moment)
    top = e1 - k1 * depth
    sagging = e1 >= top
    if max(e1, top) <= strain or (sagging and not below) or (not sagging and not above):
        return e1 - 0.5 * k1 * depth
    e2, k2 = find_plane(strips, layers, table, first, last, axis, axial, moment, soffit, curvature, scale, depth)
    if isnan(e2) or (k2 > 0.0) != sagging:
        return nan
    decompression, cracking = limits(elastic, axis, depth, axial, strain, sagging)
    z = share_cracked(moment, decompression, cracking)
    return e1 + z * (e2 - e1) - 0.5 * depth * (k1 + z * (k2 - k1))


@kernel
def mid_depth_strains(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    depth: float,
    scale: float,
    elastic: Array,
    strain: float,
    below: Flags,
    above: Flags,
    axial: Array,
    moment: Array,
    soffit: Array,
    curvature: Array,
    where: Flags,
) -> Array:
    """Mean strain at mid-depth under (axial, moment), both (steps, stations); NaN where it is not carried."""
    out = np.zeros(moment.shape)
    for s in range(moment.shape[0]):
        for j in range(moment.shape[1]):
            if not where[j]:
                continue
            out[s, j] = _mean_at_mid_depth(
                strips, layers[j], table, first, last, axis, depth, scale, elastic[j], strain, below[j], above[j],
                axial[s, j], moment[s, j], soffit[s, j], curvature[s, j],
            )  # fmt: skip
    return out


def _vertical(nodes: Nodes, history: History) -> Array:
    """Shear that inclined tendons carry, with the sign of the shear they relieve, (steps, stations)."""
    total = np.zeros_like(history.shear)
    for i, info in enumerate(nodes.infos):
        if info.tendon is None:
            continue
        y, area, pre = nodes.layers[:, i, 0], nodes.layers[:, i, 1], nodes.layers[:, i, 2]
        slope = np.gradient(y, nodes.x)
        total = total - np.asarray(info.law(pre)) * area * slope
    for i, u in enumerate(nodes.unbonded):
        total = total - history.unknown[:, i : i + 1] * u.shape * u.slope
    # only the part that helps
    return np.asarray(np.where(total * history.shear > 0, total, 0.0))


def arch(nodes: Nodes, beam: Beam, span: Span, moment: Array) -> tuple[float, float]:
    """Shear that a load near its support carries by direct compression, N, and how far that way is open, 1 to 0.

    In full to a/d = 2 (the 2 d of EN 1992-1-1:2004 6.2.2 (6)), then less, to nothing at 2.5, where the two mechanisms
    meet (G. N. J. Kani, "The riddle of shear failure and its solution", ACI Journal 61(4), 1964, *from memory*).
    Zararis 2003, loads and supports on opposite faces; tension steel where the shear span is bent most. ``moment``:
    at the stations, for the sense of bending.
    """
    c = beam.concrete
    ends = [int(np.argmin(np.abs(nodes.x - x))) for x in (span.load, span.support)]
    near = max(ends, key=lambda j: abs(moment[j]))
    steel = tension_steel(nodes, sagging=bool(moment[near] >= 0))
    # the tie of the arch is only what runs on over the support
    d, area = float(steel.depth[near]), float(np.min(steel.area[ends]))
    slenderness = abs(span.load - span.support) / d
    if area <= 0.0 or slenderness >= shear_laws.LONGEST:
        return 0.0, 0.0
    width = nominal_width(beam)
    over, fy, _ = stirrups(beam, np.array([0.5 * (span.load + span.support)]))
    v = shear_laws.shear_compression(c.strength, area / (width * d), slenderness, float(over[0]) / width, float(fy[0]))
    share = min(1.0, (shear_laws.LONGEST - slenderness) / (shear_laws.LONGEST - FULL_ARCH))
    return float(v) * width * d, share


def _judged(beam: Beam, x: Array, points: tuple[float, ...], margin: Array) -> NDArray[np.bool_]:
    """Stations away from all concentrated forces by the margin; the middle half of a stretch that is too short."""
    forces = sorted({*beam.supports.x, *points})
    judged = np.zeros(len(x), dtype=bool)
    for a, b in pairwise([0.0, *forces, beam.length]):
        if b - a < 1.0:
            continue
        within = (x >= a) & (x <= b)
        low = margin if a in forces else 0.0
        high = margin if b in forces else 0.0
        inside = within & (x >= a + low) & (x <= b - high)
        judged |= inside if inside.any() else within & (np.abs(x - 0.5 * (a + b)) <= 0.25 * (b - a))
    return judged


def first_failure(nodes: Nodes, beam: Beam, history: History, points: tuple[float, ...]) -> ShearFailure | None:
    """The first step at which a shear span can be carried neither by its web nor by a strut; None if there is none.

    ``points``: where concentrated rising loads stand.
    """
    if not len(nodes.infos) and not nodes.unbonded:
        return None
    demand = np.abs(history.shear)
    x = nodes.x
    resisting = web(nodes, beam, history, np.max(demand, axis=0) > 0.0)
    judged = _judged(beam, x, points, resisting.margin)
    capacity = resisting.strength
    for s in spans(beam, points):
        between = (x >= min(s.support, s.load)) & (x <= max(s.support, s.load))
        strut, share = arch(nodes, beam, s, history.moment[-1])
        gain = share * np.maximum(strut - capacity, 0.0)
        capacity = np.where(between, capacity + gain, capacity)
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

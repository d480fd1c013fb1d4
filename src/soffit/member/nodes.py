"""The sections of a beam at its stations, as the arrays that the member's kernels want.

At every station the section is known in two states: uncracked (elastic, transformed) and cracked (no tension in the
concrete). Bonded steel is in the section; an unbonded tendon acts on it from outside with the force it has.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from soffit.materials import compression, steel_laws, tension
from soffit.materials.curve import Array, StressStrain, join
from soffit.materials.properties import at_strength
from soffit.member import friction, profile
from soffit.member.beam import BarGroup, Beam, TendonGroup
from soffit.member.bed import released
from soffit.member.confined import Core
from soffit.member.standing import Standing
from soffit.member.topped import topped
from soffit.member.transfer_length import built_up, transfer_length
from soffit.section.kernel import SectionArrays
from soffit.section.lawtable import Laws, stack, tabulate
from soffit.section.model import split_core
from soffit.section.outline import Outline

COHESIVE_BAND = 0.5
"""Length over which one bending crack is spread, as a share of the depth: the hinge of J. P. Ulfkjær, S. Krenk and
R. Brincker, "Analytical model for fictitious crack propagation in concrete beams", J. Eng. Mech. 121(1), 1995
(*from memory*)."""
NAKED, COHESIVE, CORE = 0, 1, 2
"""Indices of the concrete laws; the core's stands there only where stirrups confine one. A topping has two further
laws, without tension and with it, at ``Nodes.topping`` and the next."""


@dataclass(frozen=True)
class LayerInfo:
    """What a column of ``Nodes.layers`` is."""

    bar: BarGroup | None
    tendon: TendonGroup | None
    law: StressStrain

    @property
    def is_tendon(self) -> bool:
        return self.tendon is not None

    @property
    def group(self) -> BarGroup | TendonGroup:
        found = self.bar or self.tendon
        assert found is not None
        return found


def yield_strain(info: LayerInfo) -> float:
    """Strain at which a layer is said to yield: 1 % for strand (ASTM A416), else yield strength over modulus."""
    steel = info.group.steel
    return 0.01 if steel.kind == "strand" else steel.yield_strength / steel.modulus


@dataclass(frozen=True)
class Unbonded:
    """An unbonded tendon group: its height and slope along the beam and its force before loading."""

    tendon: TendonGroup
    law: StressStrain
    y: Array
    slope: Array
    inside: NDArray[np.bool_]
    shape: Array
    """Force at the station over the mean force (friction), zero outside the anchors."""
    stress: float
    """Mean along the tendon before loading, MPa."""
    strain: float
    """That goes with it."""


@dataclass(frozen=True)
class Nodes:
    x: Array
    layers: Array
    """(stations, layers, 5) as the section kernel has them."""
    infos: tuple[LayerInfo, ...]
    strips: Array
    """(s, 5), concrete without tension."""
    laws: Laws
    axis: float
    depth: float
    scale: float
    tensile: float
    modulus: float
    elastic: Array
    """(stations, 5): ΣEA, ΣEAy, ΣEAy² of the transformed section; force and moment locked in by prestrain."""
    bed: Array
    """(stations,): curvature that pretensioned steel gives the released unit, before supports hold it, 1/mm."""
    bonded_below: NDArray[np.bool_]
    bonded_above: NDArray[np.bool_]
    """Whether bonded steel stands in the tension zone of a sagging / hogging crack."""
    unbonded: tuple[Unbonded, ...] = ()
    topping: int | None = None
    """Index of the law of a topping; none where there is none."""
    topping_strain: float = 0.0
    """By how much the topping is strained more than the plane of the beam's concrete says."""
    notes: tuple[str, ...] = field(default=())

    @property
    def cohesive_strips(self) -> Array:
        strips = self.strips.copy()
        strips[strips[:, 4] == NAKED, 4] = COHESIVE
        if self.topping is not None:
            strips[strips[:, 4] == self.topping, 4] = self.topping + 1
        return strips

    def unbonded_forces(self) -> tuple[Array, Array]:
        """Axial force, and moment about the axis, of the unbonded tendons before loading."""
        axial, extra = np.zeros_like(self.x), np.zeros_like(self.x)
        for u in self.unbonded:
            force = u.stress * u.tendon.area * u.shape
            axial = axial - force
            extra = extra + force * (u.y - self.axis)
        return axial, extra

    def section(self, station: int, cohesive: bool = False) -> SectionArrays:
        """The five arrays of the section kernel at one station."""
        laws = self.laws
        strips = self.cohesive_strips if cohesive else self.strips
        return strips, self.layers[station], laws.table, laws.first, laws.last


def strain_at(law: StressStrain, stress: Array, modulus: float) -> Array:
    """The least strain at which ``law`` has each ``stress`` (MPa, below its strength): Hooke's, or by bisection."""
    hooke = np.asarray(stress, dtype=float) / modulus
    low, high = hooke, np.full_like(hooke, law.high)
    for _ in range(60):
        middle = 0.5 * (low + high)
        short = law(middle) < stress
        low, high = np.where(short, middle, low), np.where(short, high, middle)
    return np.where(np.abs(law(hooke) - stress) < 1e-9, hooke, high)


def concrete_laws(beam: Beam, band: float) -> tuple[StressStrain, StressStrain]:
    """The beam's concrete without tension, and with cohesive tension over a band (mm)."""
    squeeze = compression.curve(beam.concrete)
    pull = tension.cohesive(beam.concrete, band)
    return squeeze, join("concrete", f"{squeeze.source}; {pull.source}", squeeze, pull)


def build(beam: Beam, x: Array, permanent: Array, core: Core | None = None, standing: Standing | None = None) -> Nodes:
    """Sections at the stations. ``permanent``: moments of self weight and dead load there, N·mm (for the state in
    which an effective prestress is counted). ``core``: what stirrups confine at the section that governs.
    ``standing``: the state that a past has left, else it is computed from the immediate losses."""
    outline = beam.outline
    naked, cohesive = concrete_laws(beam, COHESIVE_BAND * outline.depth)
    laws: list[StressStrain] = [naked, cohesive] if core is None else [naked, cohesive, core.law]
    infos: list[LayerInfo] = []
    columns: list[Array] = []
    locked: list[Array] = []
    notes: list[str] = [] if core is None else [core.said]
    known: dict[object, StressStrain] = {}

    def law_of(group: BarGroup | TendonGroup) -> tuple[int, StressStrain]:
        if group.steel not in known:
            known[group.steel] = steel_laws.curve(group.steel)
            laws.append(known[group.steel])
        return laws.index(known[group.steel]), known[group.steel]

    for bar in beam.bars:
        index, law = law_of(bar)
        inside = (x >= bar.x_from) & (x <= bar.x_to)
        columns.append(_column(np.full_like(x, bar.y), inside * bar.area, 0.0 * x, index))
        infos.append(LayerInfo(bar, None, law))
        locked.append(np.zeros_like(x))
    if standing is not None:
        _strain_bars(beam, x, standing, columns, locked, infos)
    net = _sums(outline.area, outline.centroid, outline.inertia, beam.concrete.modulus, columns, infos)
    young = beam.concrete
    if young.strength_at_transfer is not None:
        young = at_strength(young, young.strength_at_transfer)
    at_release = _sums(outline.area, outline.centroid, outline.inertia, young.modulus, columns, infos)
    if standing is None:
        pulls = [_pull(beam, tendon, x, at_release, permanent) for tendon in beam.tendons]
    else:
        left = standing.at(np.nan_to_num(standing.tendons), x)
        pulls = [_held(beam, tendon, x, stress) for tendon, stress in zip(beam.tendons, left, strict=True)]
        notes.extend(standing.notes)
    unbonded: list[Unbonded] = []
    for tendon, pull in zip(beam.tendons, pulls, strict=True):
        index, law = law_of(tendon)
        notes.extend(pull.notes)
        y, stress, inside = pull.y, pull.stress, pull.inside
        if tendon.bond == "bonded":
            # the strain beside it under all tendons together, whatever group they are told in
            if standing is None:
                here = _concrete_strain(net, pulls, y, outline.centroid, permanent)
            else:
                here = standing.concrete_strain(x, y)
            strain = pull.share * strain_at(law, stress, tendon.steel.modulus)
            columns.append(_column(y, inside * tendon.area, strain - here, index))
            # the elastic state begins with the stress that was computed, and goes on with the modulus
            locked.append(pull.share * stress - tendon.steel.modulus * here)
            infos.append(LayerInfo(None, tendon, law))
        else:
            mean = float(np.trapezoid(stress * inside, x) / max(np.trapezoid(1.0 * inside, x), 1e-9))
            shape = np.where(inside, stress / mean if mean > 0.0 else 1.0, 0.0)
            strained = float(strain_at(law, np.array(mean), tendon.steel.modulus))
            slope = profile.slope(tendon.profile, x)
            unbonded.append(Unbonded(tendon, law, y, slope, inside, shape, mean, strained))
    layers = np.stack(columns, axis=1) if columns else np.zeros((len(x), 0, 5))
    sums = _sums(outline.area, outline.centroid, outline.inertia, beam.concrete.modulus, columns, infos)
    middle = outline.centroid
    force, moment = _locked(layers, locked, middle)
    strips, bed, topping = _strips(outline, core), _bed(sums, layers, locked, infos, middle), None
    if standing is not None:
        # it has come to lie on its supports as it is
        bed = standing.plane(standing.strain, x)[:, 1]
        topping = topped(standing, x, beam.concrete.modulus, middle, COHESIVE_BAND * outline.depth)
    first = len(laws) if topping else None
    if topping:
        layers[:, [i for i, info in enumerate(infos) if info.bar and info.bar.part == "topping"], 4] = first
        strips[strips[:, 0] >= topping.low - 1e-9, 4] = first
        laws.extend(topping.laws)
        sums = (sums[0] + topping.sums[0], sums[1] + topping.sums[1], sums[2] + topping.sums[2])
        force, moment = force + topping.force, moment + topping.moment
    return Nodes(
        x=x,
        layers=np.ascontiguousarray(layers),
        infos=tuple(infos),
        strips=np.ascontiguousarray(strips),
        laws=stack([tabulate(law) for law in laws]),
        axis=middle,
        depth=outline.depth,
        scale=beam.concrete.strength * outline.area,
        tensile=beam.concrete.tensile,
        modulus=beam.concrete.modulus,
        elastic=np.ascontiguousarray(np.column_stack([*(s + 0.0 * x for s in sums), force, moment])),
        bed=bed,
        bonded_below=_bonded(layers, infos, lambda y: y < middle),
        bonded_above=_bonded(layers, infos, lambda y: y > middle),
        unbonded=tuple(unbonded),
        topping=first,
        topping_strain=topping.offset if topping else 0.0,
        notes=tuple(notes),
    )


def _strain_bars(
    beam: Beam, x: Array, standing: Standing, columns: list[Array], locked: list[Array], infos: list[LayerInfo]
) -> None:
    """Give the bars the strain that creep and shrinkage of the concrete have left between it and them."""
    stresses = standing.at(standing.bars, x)
    for i, (bar, stress) in enumerate(zip(beam.bars, stresses, strict=True)):
        here = standing.concrete_strain(x, bar.y)
        columns[i][:, 2] = strain_at(infos[i].law, stress, bar.steel.modulus) - here
        locked[i] = stress - bar.steel.modulus * here


def _held(beam: Beam, tendon: TendonGroup, x: Array, stress: Array) -> _Pull:
    """A tendon group with the stress that a past has left it."""
    inside = (x >= tendon.x_from) & (x <= tendon.x_to)
    share = _built_up(beam, tendon, x, np.full_like(x, tendon.stress)) if tendon.bond == "bonded" else np.ones_like(x)
    return _Pull(profile.height(tendon.profile, x), np.maximum(stress, 0.0), inside, share, tendon.area, [])


def _strips(outline: Outline, core: Core | None) -> Array:
    """Strips with the index of their law: all of one concrete, or cover and confined core."""
    if core is None:
        return np.column_stack([outline.strips, np.full(len(outline.strips), NAKED)])
    strips = split_core(outline, core.strips)
    strips[strips[:, 4] == 1, 4] = CORE
    return strips


def effective(
    beam: Beam, tendon: TendonGroup, x: Array, net: tuple[Array, Array, Array], permanent: Array
) -> tuple[Array, list[str]]:
    """Stress of a tendon before loading begins, with the permanent load on, MPa at the stations; and what was assumed.

    Raises nothing: a stress that the tendon cannot have is refused when the file is read.
    """
    notes: list[str] = []
    name = tendon.label or "tendon"
    if tendon.stress_is == "effective":
        stress = np.full_like(x, tendon.stress)
    elif tendon.when == "before casting":
        # bed to concrete: the strain is kept, the concrete shortens
        shortened = _shortening(beam, tendon, x, net, permanent)
        start = released(tendon)
        stress = start - shortened
        if start < tendon.stress:
            notes.append(f"{name}: the bed takes {tendon.stress - start:.0f} MPa before release, without relaxation.")
        notes.append(f"{name}: elastic shortening at transfer takes {np.max(shortened):.0f} MPa at most.")
    else:
        stress = friction.jacked(tendon).at(x)
        if tendon.friction == 0.0 and tendon.wobble == 0.0:
            notes.append(f"{name}: no friction or wobble was given, so none is taken.")
        if tendon.anchor is None or tendon.anchor.draw_in == 0.0:
            notes.append(f"{name}: no draw-in was given, so none is taken.")
        count = sum(t.count for t in beam.tendons if t.when == "after curing")
        if count > 1:
            others = 0.5 * (count - 1) / count
            lost = others * _shortening(beam, tendon, x, net, permanent)
            stress = stress - lost
            notes.append(
                f"{name}: stressed one after another, they lose {np.mean(lost):.0f} MPa on average to each other's "
                "elastic shortening (half of the full loss for many tendons)."
            )
    if tendon.stress_is == "at the jack" and tendon.long_term_loss == 0.0:
        notes.append(f"{name}: no long-term loss was given, so none is taken.")
    if tendon.stress_is == "at the jack":
        stress = stress * (1.0 - tendon.long_term_loss)
    return np.maximum(stress, 0.0), notes


def _column(y: Array, area: NDArray[np.floating], pre: Array, law: int) -> Array:
    return np.column_stack([y, area, pre, np.full_like(y, law), np.full_like(y, NAKED)])


def _sums(
    area: float, centroid: float, inertia: float, modulus: float, columns: list[Array], infos: list[LayerInfo]
) -> tuple[Array, Array, Array]:
    """ΣEA, ΣEAy, ΣEAy² of the transformed section, displaced concrete deducted; scalars where there is no steel."""
    s0: Array = np.asarray(modulus * area)
    s1: Array = np.asarray(modulus * area * centroid)
    s2: Array = np.asarray(modulus * (inertia + area * centroid**2))
    for column, info in zip(columns, infos, strict=True):
        more = (info.group.steel.modulus - modulus) * column[:, 1]
        s0, s1, s2 = s0 + more, s1 + more * column[:, 0], s2 + more * column[:, 0] ** 2
    return s0, s1, s2


@dataclass(frozen=True)
class _Pull:
    """One tendon group before loading: its stress where it is fully bonded, and the share of it that is built up."""

    y: Array
    stress: Array
    inside: NDArray[np.bool_]
    share: Array
    area: float
    notes: list[str]

    @property
    def force(self) -> Array:
        return self.stress * self.share * self.area * self.inside


def _pull(beam: Beam, tendon: TendonGroup, x: Array, net: tuple[Array, Array, Array], permanent: Array) -> _Pull:
    stress, said = effective(beam, tendon, x, net, permanent)
    inside = (x >= tendon.x_from) & (x <= tendon.x_to)
    share = _built_up(beam, tendon, x, stress) if tendon.bond == "bonded" else np.ones_like(x)
    return _Pull(profile.height(tendon.profile, x), stress, inside, share, tendon.area, said)


def _concrete_strain(
    sums: tuple[Array, Array, Array], pulls: list[_Pull], y: Array, axis: float, permanent: Array
) -> Array:
    """Elastic strain of the concrete at height y under the tendons' forces and the permanent moment."""
    s0, s1, s2 = sums
    n, m = np.zeros_like(permanent), permanent
    for pull in pulls:
        n, m = n - pull.force, m + pull.force * (pull.y - axis)
    a, b, c, d = s0, -s1, -(s1 - axis * s0), s2 - axis * s1
    det = a * d - b * c
    return np.asarray((n * d - b * m) / det - y * (a * m - c * n) / det)


def _shortening(beam: Beam, tendon: TendonGroup, x: Array, net: tuple[Array, Array, Array], permanent: Array) -> Array:
    """Stress that all the tendons stressed alike take from this one by shortening the concrete, MPa, at the stations.

    For a pretensioned tendon the force is the one that remains: the drop solves Δ = E·strain(σ − Δ).
    """
    y = profile.height(tendon.profile, x)
    axis = beam.outline.centroid
    alike = [t for t in beam.tendons if t.when == tendon.when]
    full = np.zeros_like(x)
    for other in alike:
        force = released(other) * other.area * ((x >= other.x_from) & (x <= other.x_to))
        s0, s1, s2 = net
        yo = profile.height(other.profile, x)
        n, m = -force, force * (yo - axis)
        a, b, c, d = s0, -s1, -(s1 - axis * s0), s2 - axis * s1
        det = a * d - b * c
        full = full + (n * d - b * m) / det - y * (a * m - c * n) / det
    modulus = tendon.steel.modulus
    if tendon.when == "before casting" and tendon.stress > 0.0:
        # full is proportional to the remaining force: one division solves it for one group, and nearly for several
        own = _concrete_strain(net, [], y, axis, permanent)
        start = released(tendon)
        share = -modulus * full / start
        return np.asarray((share * start - modulus * own) / (1.0 + share))
    # dead load is not on while tendons are stressed, and self weight only relieves
    return np.maximum(-modulus * full, 0.0)


def _built_up(beam: Beam, tendon: TendonGroup, x: Array, stress: Array) -> Array:
    """Share of its stress that a bonded tendon has at the stations: less than all within a transfer length."""
    if tendon.when != "before casting":
        return np.ones_like(x)
    length = transfer_length(beam, tendon, float(np.max(stress)))
    return built_up(x, tendon, length)


def _bed(
    sums: tuple[Array, Array, Array], layers: Array, locked: list[Array], infos: list[LayerInfo], axis: float
) -> Array:
    """Curvature of the transformed section under the locked stress of pretensioned steel alone."""
    early = [
        stress if info.tendon is not None and info.tendon.when == "before casting" else 0.0 * stress
        for stress, info in zip(locked, infos, strict=True)
    ]
    force, moment = _locked(layers, early, axis)
    s0, s1, s2 = (s + 0.0 * force for s in sums)
    a, b, c, d = s0, -s1, -(s1 - axis * s0), s2 - axis * s1
    return np.asarray((a * -moment - c * -force) / (a * d - b * c))


def _locked(layers: Array, stresses: list[Array], axis: float) -> tuple[Array, Array]:
    """Force, and moment about the axis, of bonded tendons where the concrete beside them has no strain."""
    n = len(layers)
    force, moment = np.zeros(n), np.zeros(n)
    for i, stress in enumerate(stresses):
        f = stress * layers[:, i, 1]
        force = force + f
        moment = moment - f * (layers[:, i, 0] - axis)
    return force, moment


def _bonded(layers: Array, infos: list[LayerInfo], where: Callable[[Array], NDArray[np.bool_]]) -> NDArray[np.bool_]:
    found = np.zeros(len(layers), dtype=bool)
    for i in range(len(infos)):
        found |= (layers[:, i, 1] > 0) & where(layers[:, i, 0])
    return found

"""What tendons do to the beam as a load: equivalent loads, primary and secondary moments, concordance, balancing.

Elastic and uncracked, of the gross section, which is one all along. Tendons are shallow, as everywhere in the member:
the force P along them counts as its horizontal part and P y' as the vertical one. Supports let the beam shorten.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from soffit.errors import PhysicsError
from soffit.materials.curve import Array
from soffit.materials.properties import at_strength
from soffit.member import nodes, statics
from soffit.member import profile as way
from soffit.member.beam import Beam, Load, Profile, Supports, TendonGroup
from soffit.member.friction import SAME_PLACE, between, jacked, stations
from soffit.member.loading import self_weight, topping_weight
from soffit.member.transfer_length import built_up, transfer_length

GAUSS = np.polynomial.legendre.leggauss(3)
"""Exact to the fifth degree: a force that is linear, on a parabola, times a linear diagram has the fourth."""


@dataclass(frozen=True)
class Along:
    """Force of a tendon group along it, N at ``x`` (mm), straight between; a jump stands twice."""

    tendon: TendonGroup
    x: Array
    force: Array

    def at(self, x: Array) -> Array:
        """N at ``x``: the mean of both sides at a jump, zero beyond the tendon."""
        inside = (x >= self.tendon.x_from) & (x <= self.tendon.x_to)
        return np.where(inside, between(x, self.x, self.force), 0.0)


def constant(tendon: TendonGroup, force: float) -> Along:
    """The same force all along, N."""
    x = stations(tendon)
    return Along(tendon, x, np.full_like(x, force))


def permanent_loads(beam: Beam) -> list[Load]:
    """Self weight, that of a topping, and the loads of the case dead."""
    own = [self_weight(beam)] if beam.self_weight else []
    if beam.making is not None and beam.making.topping is not None:
        own.append(topping_weight(beam.making.topping, beam.length))
    return [*own, *(load for load in beam.loads if load.case == "dead")]


def acting(beam: Beam) -> tuple[Along, ...]:
    """Force of each tendon group as the life has it before loading begins: after friction, draw-in, elastic shortening
    and the stated long-term loss, with the build-up of pretensioned steel at its ends. Gross section."""
    outline, concrete = beam.outline, beam.concrete
    if concrete.strength_at_transfer is not None:
        concrete = at_strength(concrete, concrete.strength_at_transfer)
    rigid = concrete.modulus * outline.area
    about = concrete.modulus * (outline.inertia + outline.area * outline.centroid**2)
    net = (np.asarray(rigid), np.asarray(rigid * outline.centroid), np.asarray(about))
    loads = permanent_loads(beam)
    found = []
    for tendon in beam.tendons:
        x, early = stations(tendon), tendon.when == "before casting"

        def stress_at(x: Array, tendon: TendonGroup = tendon) -> Array:
            moment = statics.released(x, beam.length, beam.supports, loads).moment
            return nodes.effective(beam, tendon, x, net, moment)[0]

        stress = stress_at(x)
        if early:
            length = transfer_length(beam, tendon, float(np.max(stress)))
            ends = [e for e in (tendon.x_from + length, tendon.x_to - length) if tendon.x_from < e < tendon.x_to]
            x = np.sort(np.concatenate([x, [e for e in ends if np.min(np.abs(x - e)) > SAME_PLACE]]))
            stress = stress_at(x) * built_up(x, tendon, length)
        found.append(Along(tendon, x, _both_sides(tendon, x, stress) * tendon.area))
    return tuple(found)


def _both_sides(tendon: TendonGroup, x: Array, stress: Array) -> Array:
    """The jumps of friction at kinks put back, which the life has as means of both sides."""
    jump = np.flatnonzero(np.diff(x) == 0.0)
    if not len(jump) or tendon.stress_is == "effective" or tendon.when == "before casting":
        return stress
    own = jacked(tendon)
    return np.asarray(np.maximum(stress + (own.stress - own.at(x)) * (1.0 - tendon.long_term_loss), 0.0))


# -- equivalent loads ------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class PointForce:
    """A concentrated force of a tendon on the concrete, N."""

    where: str
    """"anchor" or "kink"."""
    x: float
    y: float
    up: float
    right: float
    moment: float
    """Of ``right`` about the centroid, N·mm, sagging positive where it acts on the part beyond."""


@dataclass(frozen=True)
class Equivalent:
    """What one tendon group does to the concrete. All forces together are in equilibrium."""

    x: Array
    """Ends of the stretches, (n + 1)."""
    up: Array
    """Mean upward load on each stretch, N/mm, (n): P y'' and what friction does along an inclined tendon, P' y'."""
    right: Array
    """Mean load to the right on each stretch, N/mm, at the height of the tendon: P', of friction or bond."""
    points: tuple[PointForce, ...]


def equivalent_loads(beam: Beam, along: Along) -> Equivalent:
    """Forces of a tendon on the concrete: spread where it is curved or held by friction, concentrated at kinks and at
    its anchors (P y' across, P along, and P e about the centroid)."""
    profile, x, force = along.tendon.profile, along.x, along.force
    y, axis = way.height(profile, x), beam.outline.centroid
    left, right = way.slopes(profile, x)
    # at each end of a stretch the side that lies in it
    across = force[1:] * left[1:] - force[:-1] * right[:-1]
    length = np.diff(x)
    spread = length > 0.0
    points = [
        PointForce("anchor", float(x[0]), float(y[0]), float(force[0] * right[0]), float(force[0]), 0.0),
        *(
            PointForce(
                "kink", float(x[i]), float(y[i]), float(force[i + 1] * right[i + 1] - force[i] * left[i]),
                float(force[i + 1] - force[i]), 0.0,
            )
            for i in np.flatnonzero(~spread)
        ),
        PointForce("anchor", float(x[-1]), float(y[-1]), float(-force[-1] * left[-1]), float(-force[-1]), 0.0),
    ]  # fmt: skip
    known = [replace(p, moment=p.right * (p.y - axis)) for p in points if p.up or p.right]
    ends = np.append(x[:-1][spread], x[-1])
    along_x = np.diff(force)[spread] / length[spread]
    return Equivalent(ends, across[spread] / length[spread], along_x, tuple(known))


# -- secondary moments -----------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Moments:
    """Moments of the tendons on the beam, N·mm at ``x``, sagging positive."""

    x: Array
    primary: Array
    """Σ P (y − centroid): of the forces on the released beam."""
    secondary: Array
    """Of the reactions that the supports answer with; straight between supports."""
    supports: tuple[float, ...]
    at_supports: tuple[float, ...]
    """Secondary moments there."""
    reactions: tuple[float, ...]
    """N, upward positive; they add up to nothing."""
    line: Array
    """Height of the line of thrust above the soffit, mm: where the force acts once the secondary moments are in it."""
    tendon: Array
    """Height of the force of all these tendons together, mm."""
    notes: tuple[str, ...] = ()

    @property
    def total(self) -> Array:
        return self.primary + self.secondary

    @property
    def shift(self) -> Array:
        """How far the line of thrust lies above the tendons, mm; zero all along where they are concordant."""
        return self.line - self.tendon


def moments(beam: Beam, forces: Sequence[Along]) -> Moments:
    """Primary and secondary moments of the tendons by the force method.

    Pretensioned tendons bent the unit in its bed before these supports held it, so they have primary moments and no
    secondary ones, as in the life. Raises nothing.
    """
    held = beam.supports
    cuts = {0.0, beam.length, *held.x}
    for each in forces:
        cuts |= set(each.x)
    ends = np.array(sorted(x for x in cuts if 0.0 <= x <= beam.length))
    later = [each for each in forces if each.tendon.when == "after curing"]
    open_moments = _redundants(beam, later, ends)
    at = _at_supports(held, open_moments)
    secondary = np.interp(ends, held.x, at) if len(held.x) > 1 else np.zeros_like(ends)
    primary, force = _primary(beam, forces, ends), sum((each.at(ends) for each in forces), np.zeros_like(ends))
    there = force > 0.0
    some = np.where(there, force, 1.0)
    axis = beam.outline.centroid
    tendon = np.where(there, axis + primary / some, np.nan)
    notes = []
    if len(later) < len(forces) and statics.redundant_diagrams(ends, beam.length, held):
        notes.append(
            "Pretensioned tendons bend the unit before these supports hold it, so they cause no secondary moments "
            "(those that creep causes later are not in these elastic figures)."
        )
    return Moments(
        ends, primary, secondary, held.x, tuple(at), tuple(_reactions(held, at)), tendon + secondary / some, tendon,
        tuple(notes),
    )  # fmt: skip


def _primary(beam: Beam, forces: Sequence[Along], x: Array) -> Array:
    axis = beam.outline.centroid
    total = np.zeros_like(x)
    for each in forces:
        total = total + each.at(x) * (way.height(each.tendon.profile, x) - axis)
    return total


def _redundants(beam: Beam, forces: Sequence[Along], ends: Array) -> Array:
    """The support moments that statics leaves open: flexibility times them answers the primary moments' turn."""
    half = 0.5 * np.diff(ends)
    places, weights = GAUSS
    x = (0.5 * (ends[1:] + ends[:-1])[:, None] + half[:, None] * places).ravel()
    w = (half[:, None] * weights).ravel()
    unit = np.array([d.moment for d in statics.redundant_diagrams(x, beam.length, beam.supports)])
    if not len(unit) or not forces:
        return np.zeros(len(unit))
    return np.asarray(np.linalg.solve((unit * w) @ unit.T, -(unit * w) @ _primary(beam, forces, x)))


def _at_supports(held: Supports, open_moments: Array) -> list[float]:
    """Secondary moment at each support; none at an end that can turn."""
    found = [float(m) for m in open_moments]
    n = len(held.x)
    if n == 1:
        return [0.0]
    at = []
    for i in range(n):
        free = (i == 0 and not held.fixed_left) or (i == n - 1 and not held.fixed_right)
        at.append(0.0 if free else found.pop(0))
    return at


def _reactions(held: Supports, at: Sequence[float]) -> list[float]:
    shear = [(b - a) / (xb - xa) for (xa, a), (xb, b) in pairwise(zip(held.x, at, strict=True))]
    return [right - left for left, right in pairwise([0.0, *shear, 0.0])]


# -- concordance and balancing ---------------------------------------------------------------------------------------


def transformed(profile: Profile, supports: Sequence[float], shifts: Sequence[float]) -> Profile:
    """The profile moved by ``shifts`` (mm, upward) at the supports and in a straight line between them: its total
    moments stay, with a shift of secondary moment over force it is concordant.

    Raises :class:`PhysicsError` for a profile whose curves run over a support, or that is level there by its shape,
    for it is then no longer of that shape.
    """
    first, last = profile.x[0], profile.x[-1]
    inner = [x for x in supports if first < x < last]
    if profile.shape == "reversed" and any(shifts):
        raise PhysicsError("reversed parabolas are level over the supports; moved in a straight line they are not")
    if profile.shape == "parabola" and set(inner) - set(way.breaks(profile)):
        raise PhysicsError("a parabola that runs over a support is none once it is moved in straight lines")
    if len(profile.x) == 1:
        raise PhysicsError("give a level tendon two points to move it by")
    x = np.array(sorted({*profile.x, *inner}) if profile.shape == "straight" else profile.x)
    y = way.height(profile, x) + np.interp(x, supports, shifts)
    return replace(profile, x=tuple(map(float, x)), y=tuple(map(float, y)))


def balanced_shares(beam: Beam, loads: Sequence[Equivalent], against: Sequence[Load]) -> tuple[float | None, ...]:
    """For each span, the share of the loads ``against`` that the tendons balance: midspan moment of their transverse
    loads on the simple span over that of the loads. For parabolas under a level load that is load over load.

    What anchors and friction bend the span by along it is no load and not in it. None where the loads bend it not.
    """
    found: list[float | None] = []
    for a, b in pairwise(beam.supports.x):
        x = np.array([a, 0.5 * (a + b), b])
        down = statics.released(x, beam.length, beam.supports, against).moment
        bent = float(down[1] - 0.5 * (down[0] + down[2]))
        own = sum(_midspan_moment(each, a, b) for each in loads)
        found.append(own / bent if abs(bent) > 1e-9 else None)
    return tuple(found)


def _midspan_moment(load: Equivalent, a: float, b: float) -> float:
    """Of the upward load on the simple span from ``a`` to ``b``, hogging positive: by its influence line, a tent."""
    span = b - a

    def area(x: Array) -> Array:
        """Of the tent up to x."""
        u = np.clip(x - a, 0.0, span)
        return np.where(u <= 0.5 * span, 0.25 * u * u, 0.125 * span**2 - 0.25 * (span - u) ** 2)

    moment = float(np.sum(load.up * np.diff(area(load.x))))
    inner = [p for p in load.points if p.where == "kink" and a < p.x < b]
    return moment + sum(p.up * 0.5 * min(p.x - a, b - p.x) for p in inner)

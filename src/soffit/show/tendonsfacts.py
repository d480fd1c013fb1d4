"""What there is to tell of the tendons of a beam, computed once for the text, the JSON and the sheet."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from soffit.detail.order import letters
from soffit.errors import PhysicsError
from soffit.materials.curve import Array
from soffit.member import profile as way
from soffit.member.balance import (
    Along,
    Equivalent,
    Moments,
    acting,
    balanced_shares,
    equivalent_loads,
    moments,
    permanent_loads,
)
from soffit.member.beam import Beam, TendonGroup
from soffit.member.bed import BeforeRelease, before_release
from soffit.member.friction import Jacked, jacked, stations
from soffit.member.profile import Bend, Kink
from soffit.member.time.bedded import in_bed
from soffit.member.time.schedule import making_of
from soffit.member.transfer_length import TransferLength, by_standards

SAME = 1e-3
"""Places nearer than this are one, mm."""
CONCORDANT = 0.01
"""Secondary moments below this share of the greatest primary one are none."""


@dataclass(frozen=True)
class Least:
    """A radius below which a tendon is not to be bent, mm, and who says so."""

    radius: float
    source: str
    """Goes on after the number: "that the file gives"."""


DUCT = Least(6096.0, "that AASHTO LRFD 5.4.6.1 asks of ducts (from memory)")
MONOSTRAND = Least(2500.0, "usual for greased and sheathed strands (common practice)")


@dataclass(frozen=True)
class Ordinate:
    """Height of a tendon at a place that matters."""

    what: str
    x: float
    height: float
    below: float
    """The centroid; negative above it."""


@dataclass(frozen=True)
class Stretch:
    """Mean upward load of a tendon group on one piece of its profile, N/mm."""

    x_from: float
    x_to: float
    up: float


@dataclass(frozen=True)
class Group:
    """One tendon group."""

    name: str
    tendon: TendonGroup
    ordinates: tuple[Ordinate, ...]
    bend: Bend | None
    least: Least | None
    """None where the tendon has no curve, or is a rod, which is bent by its own stiffness."""
    kinks: tuple[Kink, ...]
    jacked: Jacked | None
    """Post-tensioned, with the stress at the jack given."""
    bed: BeforeRelease | None
    """Pretensioned, with the stress at the jack given."""
    lengths: tuple[TransferLength, ...]
    along: Along
    loads: Equivalent
    stretches: tuple[Stretch, ...]
    alone: Moments
    """Moments of this group by itself: how far its own profile is from a concordant one."""

    @property
    def too_sharp(self) -> bool:
        return self.bend is not None and self.least is not None and self.bend.radius < self.least.radius * (1 - 1e-9)


@dataclass(frozen=True)
class Facts:
    beam: Beam
    groups: tuple[Group, ...]
    moments: Moments
    places: tuple[tuple[str, float], ...]
    """Supports and midspans, by name."""
    shares: tuple[float | None, ...]
    """Of the permanent load that the tendons balance, a span."""
    redundant: bool
    notes: tuple[str, ...]

    @property
    def concordant(self) -> bool:
        most = float(np.max(np.abs(self.moments.primary), initial=0.0))
        return max(map(abs, self.moments.at_supports), default=0.0) <= CONCORDANT * most

    def at(self, values: Array, x: float) -> float:
        """A diagram of ``moments`` at x: the larger in size where it jumps."""
        found = self.moments.x
        near = np.flatnonzero(np.abs(found - x) < SAME)
        if len(near):
            return float(values[near[np.argmax(np.abs(values[near]))]])
        return float(np.interp(x, found, values))


def facts(beam: Beam) -> Facts:
    """Raises :class:`PhysicsError` for a beam without tendons and for a bed that takes all stress."""
    if not beam.tendons:
        raise PhysicsError(
            "this beam has no tendons: `soffit tendons` tells of [[tendons]] (`soffit new post-tensioned-bonded` "
            "prints a file with some)"
        )
    forces = acting(beam)
    places = _places(beam)
    groups = tuple(_group(beam, i, force, places) for i, force in enumerate(forces))
    found = moments(beam, forces)
    held = beam.supports
    redundant = len(held.x) + held.fixed_left + held.fixed_right > 2
    loads = permanent_loads(beam)
    shares = balanced_shares(beam, [group.loads for group in groups], loads) if loads else ()
    return Facts(beam, groups, found, places, shares, redundant, _notes(beam, groups, found))


def _group(beam: Beam, index: int, force: Along, places: tuple[tuple[str, float], ...]) -> Group:
    tendon = beam.tendons[index]
    at_jack, early = tendon.stress_is == "at the jack", tendon.when == "before casting"
    bed = None
    if early and at_jack:
        bed = in_bed(beam, making_of(beam), index) if beam.making is not None else before_release(tendon)
    lengths: tuple[TransferLength, ...] = ()
    if early:
        # the greatest stress along it: what is left inside its transfer lengths
        effective = float(np.max(force.force)) / tendon.area
        released = float(np.mean(bed.stress)) if bed is not None else effective
        lengths = by_standards(beam, tendon, released, effective)
    loads = equivalent_loads(beam, force)
    return Group(
        tendon.name or letters(index), tendon, _ordinates(beam, tendon, places), way.least_radius(tendon.profile),
        _least(tendon), way.kinks(tendon.profile), jacked(tendon) if at_jack and not early else None, bed, lengths,
        force, loads, _stretches(force, loads), moments(beam, [force]),
    )  # fmt: skip


def _least(tendon: TendonGroup) -> Least | None:
    if tendon.least_radius is not None:
        return Least(tendon.least_radius, "that the file gives")
    if tendon.when == "before casting" or tendon.steel.kind != "strand":
        return None
    return DUCT if tendon.bond == "bonded" or tendon.duct > 0.0 else MONOSTRAND


def _places(beam: Beam) -> tuple[tuple[str, float], ...]:
    held = beam.supports.x
    found = [(f"support {i}", x) for i, x in enumerate(held, start=1)]
    found += [(f"midspan {i}", 0.5 * (a + b)) for i, (a, b) in enumerate(pairwise(held), start=1)]
    if len(held) == 1:
        found.append(("free end", beam.length if held[0] < 0.5 * beam.length else 0.0))
    if len(held) == 2:
        found = [(name.removesuffix(" 1") if name.startswith("midspan") else name, x) for name, x in found]
    return tuple(sorted(found, key=lambda place: place[1]))


def _ordinates(beam: Beam, tendon: TendonGroup, places: tuple[tuple[str, float], ...]) -> tuple[Ordinate, ...]:
    axis = beam.outline.centroid
    wanted = [(name, x) for name, x in places if tendon.x_from - SAME <= x <= tendon.x_to + SAME]
    ends = "anchor" if tendon.when == "after curing" else "end"
    points = [x for x in tendon.profile.x if tendon.x_from < x < tendon.x_to]
    if len(points) > 12:
        points = []  # a profile by many points is told by its places alone
    for name, x in [*((ends, e) for e in (tendon.x_from, tendon.x_to)), *(("given point", x) for x in points)]:
        if all(abs(x - other) > SAME for _, other in wanted):
            wanted.append((name, x))
    wanted.sort(key=lambda each: each[1])
    heights = way.height(tendon.profile, np.array([x for _, x in wanted]))
    return tuple(Ordinate(name, x, float(y), float(axis - y)) for (name, x), y in zip(wanted, heights, strict=True))


def _stretches(along: Along, loads: Equivalent) -> tuple[Stretch, ...]:
    """Means over the pieces of the profile, and over the lengths in which bond builds the force up."""
    tendon = along.tendon
    inner = {*way.breaks(tendon.profile), *(set(map(float, along.x)) - set(map(float, stations(tendon))))}
    cuts = [tendon.x_from, *sorted(x for x in inner if tendon.x_from < x < tendon.x_to), tendon.x_to]
    total = np.concatenate([[0.0], np.cumsum(loads.up * np.diff(loads.x))])
    sums = np.interp(cuts, loads.x, total)
    return tuple(
        Stretch(a, b, float(high - low) / (b - a))
        for (a, low), (b, high) in pairwise(zip(cuts, sums, strict=True))
        if b - a > SAME
    )


def _notes(beam: Beam, groups: tuple[Group, ...], found: Moments) -> tuple[str, ...]:
    notes = [
        "Forces are those before loading begins, after friction, draw-in, elastic shortening and the long-term loss "
        "that the file states; moments are those of the gross section on supports that let the beam shorten.",
        *found.notes,
    ]
    for group in groups:
        t = group.tendon
        if group.bed is not None:
            notes += group.bed.notes
            if group.bed.relaxation > 0.0:
                notes.append(
                    f"{group.name}: the relaxation before release is not in these forces, which know no days; "
                    "soffit age has it."
                )
            if beam.making is not None and group.bed.relaxation == 0.0 and t.relaxation != "none":
                notes.append(
                    f"{group.name}: no stage says when it was stressed, so no relaxation before release is told."
                )
        if t.when == "after curing" and group.jacked is not None:
            if t.friction == t.wobble == 0.0:
                notes.append(f"{group.name}: no friction or wobble was given, so none is taken.")
            if t.anchor is None or t.anchor.draw_in == 0.0:
                notes.append(f"{group.name}: no draw-in was given, so none is taken.")
        if t.stress_is == "effective":
            notes.append(f"{group.name}: the stress is effective, after all losses, so no immediate losses are told.")
        if max(t.sheathed) > 0.0:
            notes.append(
                f"{group.name}: ACI 318 doubles the development length of strand that is sheathed at its ends where "
                "the concrete there is in tension under service loads (from memory)."
            )
    return tuple(dict.fromkeys(notes))

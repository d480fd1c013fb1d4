"""The stressing sheet: what the crew needs of every tendon before it starts the pump."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import isfinite
from typing import Literal

import numpy as np

from soffit.detail import elongation, limits, order
from soffit.detail.rods import Nut, Turned, turned
from soffit.errors import SoffitError
from soffit.materials.curve import Array
from soffit.member import friction
from soffit.member.beam import Beam, TendonGroup

When = Literal["before casting", "after curing"]
SEATING = 0.10
"""Share of the force at which the slack is out and the first mark is made (*common practice*: 10 to 20 %)."""
FURTHER = 1e-3
"""The steel's curve is mentioned where it stretches the tendon by this share more than Hooke's law."""


@dataclass(frozen=True)
class GroupSheet:
    """What the tendons of one group have in common; forces of one tendon in N, lengths in mm."""

    name: str
    """A, B, … in the order of the file."""
    tendon: TendonGroup
    force: float
    """At the jack."""
    gauge: float | None
    """Pressure on the jack's gauge, MPa; none without the area of the ram."""
    run: float | None
    """Length that is stretched: between the anchors, or of the bed where it is known."""
    elongation: float | None
    """Before lock-off, of all jacks together; none for a bed of unknown length."""
    per_length: float
    """Elongation over the length that is stretched."""
    hooke: float
    """The same with σ/E instead of the steel's curve."""
    ends: tuple[float, float]
    """Elongation at the left and at the right end, both jacks pulling at once; zeros for a bed."""
    one_jack: tuple[float, float] | None
    """At the left first, then at the right, with one jack; none unless it is stressed from both ends."""
    seating: float
    """Share of the elongation that has come out at ``SEATING`` of the force."""
    draw_in: float
    """Slip of each anchor that a jack leaves."""
    kept: float | None
    """Elongation left after lock-off."""
    locked: tuple[Array, Array]
    """Stations and stress, MPa, after lock-off."""
    tolerance: float
    limits: tuple[limits.Limit, ...]
    rod: Turned | None

    @property
    def locked_force(self) -> float:
        """Mean along the tendon, after lock-off."""
        x, stress = self.locked
        return float(np.trapezoid(stress, x) / (x[-1] - x[0])) * self.tendon.area / self.tendon.count

    @property
    def band(self) -> tuple[float, float] | None:
        """Least and greatest elongation within the tolerance."""
        if self.elongation is None:
            return None
        return self.elongation * (1.0 - self.tolerance), self.elongation * (1.0 + self.tolerance)


@dataclass(frozen=True)
class TendonLine:
    """One tendon, in its turn."""

    place: int
    name: str
    """The group's letter and the tendon's number in it, from 1 at the left face seen along x."""
    group: GroupSheet
    loss: float | None
    """Mean stress that the tendons after it take by shortening the concrete, MPa; none in a bed."""

    @property
    def force_left(self) -> float | None:
        """Mean force when all are stressed, N."""
        if self.loss is None:
            return None
        return self.group.locked_force - self.loss * self.group.tendon.area / self.group.tendon.count


@dataclass(frozen=True)
class StressingSheet:
    beam: Beam
    groups: tuple[GroupSheet, ...]
    tendons: tuple[TendonLine, ...]
    """Pretensioned before post-tensioned, each kind in the order of stressing."""
    ram: float | None
    """Area of the ram, mm²."""
    bed: float | None
    """Length of the bed between its anchors, mm."""
    notes: tuple[str, ...]
    cautions: tuple[str, ...]


CAUTIONS = (
    "Stressed steel stores energy: stand clear of the line of the tendon, at both ends, and never over the nut or the "
    "anchor, while it is stressed and as long as it is.",
    "Nobody passes behind the jack or the dead end; stop the pump before anything is measured by hand.",
    "Force and elongation must both be right: where they disagree by more than the tolerance, stop, find the cause, "
    "and have it put right before going on.",
)


def sheet(
    beam: Beam, nuts: Sequence[Nut | None] = (), ram: float | None = None, bed: float | None = None
) -> StressingSheet:
    """The stressing sheet of a beam.

    nuts: one a tendon group, none where no nut turns on a thread; may be left out. ram: area of the jack's ram, mm².
    bed: length between the anchors of the pretensioning bed, mm.

    Raises :class:`SoffitError` for a beam without tendons, for tendons whose stress is given after all losses, for a
    ram or a bed that cannot be, and for a bed without a tendon to be stressed in it.
    """
    _refuse(beam, ram, bed)
    nuts = tuple(nuts) or (None,) * len(beam.tendons)
    groups = tuple(
        _group(order.letters(i), tendon, nut, ram, bed)
        for i, (tendon, nut) in enumerate(zip(beam.tendons, nuts, strict=True))
    )
    return StressingSheet(beam, groups, _lines(beam, groups), ram, bed, _notes(beam, groups, bed), _cautions(groups))


def _refuse(beam: Beam, ram: float | None, bed: float | None) -> None:
    if not beam.tendons:
        raise SoffitError("the beam has no tendons, so there is nothing to stress; describe them in [[tendons]]")
    given = [t.label or "a tendon" for t in beam.tendons if t.stress_is == "effective"]
    if given:
        raise SoffitError(
            f"the stress of {', '.join(given)} is effective, after all losses; a stressing sheet needs the stress at "
            'the jack: write stress_is = "at the jack"'
        )
    for what, value in (("area of the ram", ram), ("length of the bed", bed)):
        if value is not None and not (isfinite(value) and value > 0.0):
            raise SoffitError(f"the {what} must be above zero, not {value:g}")
    beds = [t for t in beam.tendons if t.when == "before casting"]
    if bed is not None and not beds:
        raise SoffitError("no tendon is stressed before casting, so there is no bed; leave out its length")
    if bed is not None and bed < max(t.x_to - t.x_from for t in beds):
        raise SoffitError(f"a bed of {bed:g} mm is shorter than the beam that is cast in it; give its whole length")


def _group(name: str, tendon: TendonGroup, nut: Nut | None, ram: float | None, bed: float | None) -> GroupSheet:
    force = tendon.stress * tendon.area / tendon.count
    common = {
        "name": name,
        "tendon": tendon,
        "force": force,
        "gauge": None if ram is None else force / ram,
        "tolerance": limits.TOLERANCE[tendon.when],
        "limits": limits.limits(tendon.steel, tendon.stress, "at the jack"),
    }
    if tendon.when == "before casting":
        return _in_bed(common, tendon, bed)
    return _post(common, tendon, nut, force)


def _in_bed(common: dict[str, object], tendon: TendonGroup, bed: float | None) -> GroupSheet:
    strain, early = (float(elongation.strain_of(tendon, np.array(s * tendon.stress))) for s in (1.0, SEATING))
    whole = None if bed is None else strain * bed
    return GroupSheet(
        **common,  # type: ignore[arg-type]
        run=bed,
        elongation=whole,
        per_length=strain,
        hooke=tendon.stress / tendon.steel.modulus * (bed or 1.0),
        ends=(0.0, 0.0),
        one_jack=None,
        seating=early / strain,
        draw_in=0.0,
        kept=whole,
        locked=(np.array([tendon.x_from, tendon.x_to]), np.full(2, tendon.stress)),
        rod=None,
    )


def _post(common: dict[str, object], tendon: TendonGroup, nut: Nut | None, force: float) -> GroupSheet:
    most = elongation.pulled(tendon)
    early = elongation.pulled(tendon, SEATING * tendon.stress)
    after = friction.jacked(tendon)
    slip = tendon.anchor.draw_in if tendon.anchor else 0.0
    both = tendon.jacked_from == "both"
    at_ends = {"left": after.stress[0], "right": after.stress[-1], "both": max(after.stress[0], after.stress[-1])}
    run = float(most.path[-1])
    found = common["limits"]
    assert isinstance(found, tuple)
    locked = limits.limits(tendon.steel, float(at_ends[tendon.jacked_from]), "after lock-off")
    return GroupSheet(
        **(common | {"limits": (*found, *locked)}),  # type: ignore[arg-type]
        run=run,
        elongation=most.total,
        per_length=most.total / run,
        hooke=float(np.trapezoid(most.stress, most.path)) / tendon.steel.modulus,
        ends=(most.left, most.right),
        one_jack=elongation.one_jack(tendon) if both else None,
        seating=early.total / most.total,
        draw_in=slip,
        kept=max(most.total - slip * (2.0 if both else 1.0), 0.0),
        locked=(after.x, after.stress),
        rod=turned(tendon, nut, force, most.total) if nut and tendon.anchor and tendon.anchor.kind == "nut" else None,
    )


def _lines(beam: Beam, groups: Sequence[GroupSheet]) -> tuple[TendonLine, ...]:
    lines: list[TendonLine] = []
    for when in ("before casting", "after curing"):
        turns = order.order(beam, when)
        losses: Sequence[float | None] = [None] * len(turns)
        if when == "after curing":
            locked = {turn.group: groups[turn.group].locked for turn in turns}
            losses = order.shortening_losses(beam, turns, locked)
        for place, (turn, loss) in enumerate(zip(turns, losses, strict=True), start=1):
            group = groups[turn.group]
            lines.append(TendonLine(place, f"{group.name}{turn.number}", group, loss))
    return tuple(lines)


def _cautions(groups: Sequence[GroupSheet]) -> tuple[str, ...]:
    said = list(CAUTIONS)
    if any(g.tendon.anchor and g.tendon.anchor.kind == "nut" for g in groups):
        said.append(
            "Torque measures force poorly (± 30 %), and twisting adds to the pull, so that a rod yields earlier under "
            "the wrench than under a jack (from memory): accept no prestress by torque alone."
        )
    for g in groups:
        said += [
            f"{g.name}: the stress at the jack is {100 * limit.ratio:.0f} % of what {limit.standard} {limit.clause} "
            f"allows; do not stress."
            for limit in g.limits
            if limit.when == "at the jack" and not limit.kept
        ]
        said += [
            f"{g.name}: the stress at the anchor after lock-off is {100 * limit.ratio:.0f} % of what {limit.standard} "
            f"{limit.clause} allows."
            for limit in g.limits
            if limit.when == "after lock-off" and not limit.kept
        ]
        if g.rod and g.rod.risk:
            said.append(
                f"{g.name}: at this torque, within its scatter of ± 30 %, {g.rod.risk}; measure the elongation."
            )
        if g.locked_force <= 0.0:
            said.append(f"{g.name}: the draw-in of the anchor takes the whole force.")
    return tuple(said)


def _notes(beam: Beam, groups: Sequence[GroupSheet], bed: float | None) -> tuple[str, ...]:
    said: list[str] = []
    early = [g for g in groups if g.tendon.when == "before casting"]
    post = [g for g in groups if g.tendon.when == "after curing"]
    said.append(f"Order: {order.RULE}. Numbers run from the left face, seen along x.")
    if early:
        said.append(
            "Stressed in the bed: the elongation is that of the steel between the anchors of the bed; their slip, the "
            "give of the bed and friction at deviators are not in the file and not counted. All are released at once, "
            "so the order changes no shortening."
        )
    if post:
        said.append(
            "The elongation is counted before lock-off and along the tendon, with the friction and wobble of the file; "
            "the strand inside the jack and the slip of a dead end are not in it."
        )
        said += _post_notes(beam, post)
    curved = [g.name for g in groups if (g.elongation or g.per_length) > (1.0 + FURTHER) * g.hooke]
    if curved:
        said.append(f"{', '.join(curved)}: the steel's own curve stretches further than stress over modulus.")
    polymer = [g.name for g in groups if not g.limits]
    if polymer:
        said.append(f"{', '.join(polymer)}: not of steel, so the limits at the jack do not apply; ask the supplier.")
    strength = beam.concrete.strength_at_transfer
    if strength is None:
        said.append("The strength that the concrete must have before it is stressed is not in the file.")
    said.append(
        "The limits use the strengths of the file as they stand; a supplier's lower limit governs. Not checked: "
        "bearing and bursting behind the anchors, and the stresses of the concrete."
    )
    return tuple(said)


def _post_notes(beam: Beam, post: Sequence[GroupSheet]) -> list[str]:
    said = []
    still = [g.name for g in post if g.tendon.friction == 0.0 and g.tendon.wobble == 0.0]
    if still:
        said.append(f"{', '.join(still)}: no friction or wobble is given, so none is taken.")
    tight = [g.name for g in post if g.draw_in == 0.0]
    if tight:
        said.append(f"{', '.join(tight)}: no draw-in is given, so none is taken.")
    if sum(g.tendon.count for g in post) > 1:
        said.append(
            "Force when all are stressed: after the shortening of the concrete by every later tendon, gross section, "
            "mean along the tendon" + (", moments of the supports left out." if _redundant(beam) else ".")
        )
    return said


def _redundant(beam: Beam) -> bool:
    held = beam.supports
    return len(list(pairwise(held.x))) > 1 or ((held.fixed_left or held.fixed_right) and len(held.x) > 1)


def at_force(group: GroupSheet, force: float) -> float | None:
    """Elongation of a tendon of the group, mm, at another force at the jack (N); none for a bed of unknown length."""
    stress = force * group.tendon.count / group.tendon.area
    if group.tendon.when == "after curing":
        return elongation.pulled(replace(group.tendon), stress).total
    if group.run is None:
        return None
    return float(elongation.strain_of(group.tendon, np.array(stress))) * group.run

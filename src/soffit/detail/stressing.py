"""The stressing sheet: what the crew needs of every tendon before it starts the pump."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf, isfinite
from typing import Any

import numpy as np

from soffit.detail import elongation, limits, order
from soffit.detail.rods import Turned, nut_of, turned
from soffit.errors import SoffitError
from soffit.materials.curve import Array
from soffit.member import friction
from soffit.member.beam import Anchor, Beam, TendonGroup

SEATING = 0.10
"""Share of the force at which the slack is out and the first mark is made (*common practice*: 10 to 20 %)."""


@dataclass(frozen=True)
class Tolerance:
    """How far force by gauge and force by elongation may differ, as a share, and who says so."""

    share: float
    source: str


@dataclass(frozen=True)
class GroupSheet:
    """What the tendons of one group have in common; forces of one tendon in N, lengths in mm, stresses in MPa."""

    name: str
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
    at_mark: float
    """Share of the elongation that has come out at ``SEATING`` of the force."""
    draw_in: float
    """Slip of each anchor that a jack leaves; of a bed, all its slip."""
    kept: float | None
    """Elongation left after lock-off."""
    locked: tuple[Array, Array]
    """Stations and stress after lock-off."""
    friction_loss: float
    """Mean along the tendon."""
    draw_in_loss: float
    """Mean along the tendon."""
    tolerance: Tolerance
    limits: tuple[limits.Limit, ...]
    rod: Turned | None

    @property
    def one(self) -> float:
        """Area of one tendon, mm²."""
        return self.tendon.area / self.tendon.count

    @property
    def locked_force(self) -> float:
        """Mean along the tendon, after lock-off."""
        x, stress = self.locked
        return float(np.trapezoid(stress, x) / (x[-1] - x[0])) * self.one

    @property
    def band(self) -> tuple[float, float] | None:
        """Least and greatest elongation within the tolerance."""
        if self.elongation is None:
            return None
        return self.elongation * (1.0 - self.tolerance.share), self.elongation * (1.0 + self.tolerance.share)

    @property
    def pretensioned(self) -> bool:
        return self.tendon.when == "before casting"

    @property
    def both(self) -> bool:
        return not self.pretensioned and self.tendon.jacked_from == "both"


@dataclass(frozen=True)
class TendonLine:
    """One tendon, in its turn."""

    place: int
    """From 1, in each kind of stressing."""
    name: str
    """The group's name and the tendon's number in it, from 1 at the left face seen along x."""
    group: GroupSheet
    loss: float | None
    """Mean stress that the tendons after it take by shortening the concrete, MPa; none in a bed."""
    day: float | None
    """Age of the beam, by the stages of the file."""

    @property
    def force_left(self) -> float | None:
        """Mean force when all are stressed, N."""
        return None if self.loss is None else self.group.locked_force - self.loss * self.group.one


@dataclass(frozen=True)
class StressingSheet:
    beam: Beam
    groups: tuple[GroupSheet, ...]
    tendons: tuple[TendonLine, ...]
    """Pretensioned before post-tensioned, each kind in the order of stressing."""
    ram: float | None
    """Area of the ram, mm²."""


def sheet(
    beam: Beam, ram: float | None = None, bed: float | None = None, tolerance: Tolerance | None = None
) -> StressingSheet:
    """The stressing sheet of a beam.

    ram: area of the jack's ram, mm². bed: length between the anchors of the pretensioning bed, mm; else that of the
    file. tolerance: in place of that of ACI 318-19 26.10.2.

    Raises :class:`SoffitError` for a beam without tendons, for tendons whose stress is given after all losses, and for
    a ram, a bed or a tolerance that cannot be.
    """
    _refuse(beam, ram, bed, tolerance)
    groups = tuple(
        _group(tendon.name or order.letters(i), tendon, ram, bed, tolerance) for i, tendon in enumerate(beam.tendons)
    )
    return StressingSheet(beam, groups, _lines(beam, groups), ram)


def _refuse(beam: Beam, ram: float | None, bed: float | None, tolerance: Tolerance | None) -> None:
    if not beam.tendons:
        raise SoffitError("the beam has no tendons, so there is nothing to stress; describe them in [[tendons]]")
    given = [t.name or order.letters(i) for i, t in enumerate(beam.tendons) if t.stress_is == "effective"]
    if given:
        raise SoffitError(
            f"the stress of {', '.join(given)} is effective, after all losses; a stressing sheet needs the stress at "
            'the jack: write stress_is = "at the jack"'
        )
    for what, value in (("area of the ram", ram), ("length of the bed", bed)):
        if value is not None and not (isfinite(value) and value > 0.0):
            raise SoffitError(f"the {what} must be above zero, not {value:g}")
    if tolerance is not None and not 0.0 < tolerance.share <= 0.2:
        raise SoffitError(f"a tolerance of {100.0 * tolerance.share:g} % is none; give one above 0 and up to 20 %")
    beds = [t for t in beam.tendons if t.when == "before casting"]
    if bed is not None and not beds:
        raise SoffitError("no tendon is stressed before casting, so there is no bed; leave out its length")
    if beds:
        reach = max(t.x_to + t.sheathed[1] for t in beds) - min(t.x_from - t.sheathed[0] for t in beds)
        for length in [bed] if bed is not None else [t.bed.length for t in beds if t.bed]:
            if length is not None and length < reach:
                raise SoffitError(
                    f"a bed of {length:g} mm is shorter than the {reach:g} mm of tendon in the beam cast in it; "
                    "give the length between its anchors"
                )


def _group(
    name: str, tendon: TendonGroup, ram: float | None, bed: float | None, tolerance: Tolerance | None
) -> GroupSheet:
    force = tendon.stress * tendon.area / tendon.count
    common: dict[str, Any] = {
        "name": name,
        "tendon": tendon,
        "force": force,
        "gauge": None if ram is None else force / ram,
        "tolerance": tolerance or Tolerance(limits.TOLERANCE[tendon.when], limits.AGREEMENT),
    }
    if tendon.when == "before casting":
        return _in_bed(common, tendon, bed or (tendon.bed.length if tendon.bed else None))
    return _post(common, tendon, force)


def _in_bed(common: dict[str, Any], tendon: TendonGroup, bed: float | None) -> GroupSheet:
    strain, early = (float(elongation.strain_of(tendon, np.array(s * tendon.stress))) for s in (1.0, SEATING))
    slip = tendon.bed.slip if tendon.bed else 0.0
    lost = tendon.steel.modulus * slip / bed if bed else 0.0
    whole = None if bed is None else strain * bed
    return GroupSheet(
        **common,
        run=bed,
        elongation=whole,
        per_length=strain,
        hooke=tendon.stress / tendon.steel.modulus * (bed or 1.0),
        ends=(0.0, 0.0),
        one_jack=None,
        at_mark=early / strain,
        draw_in=slip,
        kept=None if whole is None else max(whole - slip, 0.0),
        locked=(np.array([tendon.x_from, tendon.x_to]), np.full(2, max(tendon.stress - lost, 0.0))),
        friction_loss=0.0,
        draw_in_loss=min(lost, tendon.stress),
        limits=limits.limits(tendon.steel, tendon.stress, "at the jack"),
        rod=None,
    )


def _post(common: dict[str, Any], tendon: TendonGroup, force: float) -> GroupSheet:
    most = elongation.pulled(tendon)
    early = elongation.pulled(tendon, SEATING * tendon.stress)
    after = friction.jacked(tendon)
    slip = tendon.anchor.draw_in if tendon.anchor else 0.0
    both = tendon.jacked_from == "both"
    run = float(most.path[-1])
    at_anchors = float(max(after.stress[0], after.stress[-1]))
    nut = nut_of(tendon)
    return GroupSheet(
        **common,
        run=run,
        elongation=most.total,
        per_length=most.total / run,
        hooke=float(np.trapezoid(most.stress, most.path)) / tendon.steel.modulus,
        ends=(most.left, most.right),
        one_jack=elongation.one_jack(tendon) if both else None,
        at_mark=early.total / most.total,
        draw_in=slip,
        kept=max(most.total - slip * (2.0 if both else 1.0), 0.0),
        locked=(after.x, after.stress),
        friction_loss=after.friction_loss,
        draw_in_loss=after.draw_in_loss,
        limits=(
            *limits.limits(tendon.steel, tendon.stress, "at the jack"),
            *limits.limits(tendon.steel, at_anchors, "after lock-off", float(np.max(after.stress))),
        ),
        rod=turned(tendon, nut, force, most.total) if nut else None,
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
            lines.append(TendonLine(place, order.name(group.name, turn.number), group, loss, turn.day))
    return tuple(lines)


def at_force(group: GroupSheet, force: float) -> float | None:
    """Elongation of a tendon of the group, mm, at another force at the jack (N); none for a bed of unknown length.

    Raises :class:`SoffitError` for a force that is not positive or above the strength of the tendon.
    """
    stress = force / group.one
    if not group.pretensioned:
        return elongation.pulled(group.tendon, stress).total
    if not 0.0 < stress <= group.tendon.steel.tensile:
        raise SoffitError(f"a stress of {stress:g} MPa is not between 0 and the tensile strength")
    return None if group.run is None else float(elongation.strain_of(group.tendon, np.array(stress))) * group.run


def locked_off(group: GroupSheet, stress: float, draw_in: float) -> float | None:
    """Mean force, N, of one tendon after lock-off from ``stress`` (MPa) at the jack with a draw-in, mm, of each anchor
    that a jack leaves (of a bed, all its slip); none for a bed of unknown length."""
    tendon = group.tendon
    if group.pretensioned:
        return None if group.run is None else max(stress - tendon.steel.modulus * draw_in / group.run, 0.0) * group.one
    anchor = replace(tendon.anchor or Anchor("wedge", inf, ""), draw_in=draw_in)
    after = friction.jacked(replace(tendon, stress=stress, anchor=anchor))
    return float(np.trapezoid(after.stress, after.x) / (after.x[-1] - after.x[0])) * group.one

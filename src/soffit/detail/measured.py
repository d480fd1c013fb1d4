"""What the crew wrote down, judged: whether force and elongation agree, and the force that the elongation implies."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from soffit.detail import elongation
from soffit.detail.stressing import GroupSheet, StressingSheet, TendonLine, at_force, locked_off
from soffit.errors import SoffitError

Word = Literal["agrees", "too short", "too long", "gauge too low", "gauge too high", "slipped back", "cannot be"]


@dataclass(frozen=True)
class Reading:
    """One tendon as it was stressed."""

    tendon: str
    """Its name in the sheet."""
    elongation: float
    """mm, before lock-off, of all jacks together, from the first mark on."""
    mark: float = 0.0
    """Share of the jacking force at which the first mark was made; 0: measured from a slack tendon."""
    draw_in: float | None = None
    """mm, at each anchor that a jack left."""
    gauge: float | None = None
    """MPa at the end of the pull; none: as the sheet says."""
    one_jack: bool = False
    """Whether one jack pulled first at the left and then at the right, of a tendon stressed from both ends."""


@dataclass(frozen=True)
class Cause:
    """One thing that alone would explain the whole difference."""

    kind: Literal["friction", "friction not given", "modulus", "gauge", "slip", "slack", "mark", "nut factor"]
    value: float = 0.0
    """friction: factor on friction and wobble; modulus: factor on modulus times area; slip: of the dead end, mm; mark:
    share of the sheet's force at which the first mark was made in truth; nut factor: that of this nut."""
    least: float = 0.0
    """friction: the least force along the tendon that it leaves, N."""


@dataclass(frozen=True)
class Verdict:
    """Forces of one tendon in N, lengths in mm."""

    line: TendonLine
    reading: Reading
    elongation: float
    """From zero force: what was measured, and what came out before the first mark."""
    expected: float
    """At the force by the gauge."""
    by_gauge: float
    """Force at the jack."""
    implied: float | None
    """Force at the jack by the elongation, through friction and the steel's curve; none where no force gives it."""
    locked: float | None
    """Mean force after lock-off by the elongation and the measured draw-in; none where that was not measured."""
    word: Word
    causes: tuple[Cause, ...]
    """What could explain an elongation that does not agree."""

    @property
    def difference(self) -> float:
        """Of the elongation from the expected one, as a share."""
        return self.elongation / self.expected - 1.0

    @property
    def force_difference(self) -> float | None:
        """Of the force by the elongation from the force by the gauge, as a share."""
        return None if self.implied is None else self.implied / self.by_gauge - 1.0

    @property
    def lost(self) -> float | None:
        """Share of the implied force that is not there after lock-off, mean along the tendon."""
        return None if self.locked is None or not self.implied else 1.0 - self.locked / self.implied


def judge(sheet: StressingSheet, readings: Sequence[Reading]) -> tuple[Verdict, ...]:
    """A verdict for each reading, in the order of the sheet.

    A tendon agrees where the elongation differs from the one expected at the force by the gauge, the force that it
    implies from that force, and that force from the one of the sheet, each by no more than the tolerance. What came
    out before the first mark, at a share s of the sheet's force, is taken in proportion to the computed elongations:
    measured · e(F)/(e(F) − e(s F)), for elastic steel measured/(1 − s). Of one jack that pulls twice, what the first
    draw-in makes the pulls longer is taken off first, as the sheet computes it.

    Raises :class:`SoffitError` for a tendon that is not in the sheet or is read twice, for a bed of unknown length,
    for a gauge reading without the area of the ram, and for readings that are no numbers of their kind.
    """
    lines = {line.name: line for line in sheet.tendons}
    found: dict[str, Verdict] = {}
    for reading in readings:
        if reading.tendon not in lines:
            raise SoffitError(f"there is no tendon {reading.tendon} in the sheet; it has {', '.join(lines)}")
        if reading.tendon in found:
            raise SoffitError(f"tendon {reading.tendon} is read twice")
        found[reading.tendon] = _judged(sheet, lines[reading.tendon], reading)
    return tuple(found[name] for name in lines if name in found)


def _judged(sheet: StressingSheet, line: TendonLine, reading: Reading) -> Verdict:
    group, name = line.group, line.name
    if group.elongation is None:
        raise SoffitError(f"what tendon {name} stretches by is not known without the length of the bed")
    if not reading.elongation > 0.0:
        raise SoffitError(f"tendon {name}: an elongation of {reading.elongation:g} mm is not above zero")
    if not 0.0 <= reading.mark < 1.0:
        raise SoffitError(f"tendon {name}: a first mark at {100.0 * reading.mark:g} % of the force is none below it")
    if reading.draw_in is not None and not reading.draw_in >= 0.0:
        raise SoffitError(f"tendon {name}: a draw-in of {reading.draw_in:g} mm is below zero")
    by_gauge = _by_gauge(sheet, group, reading, name)
    if not reading.mark * group.force < by_gauge <= group.tendon.steel.tensile * group.one:
        raise SoffitError(
            f"tendon {name}: the force by the gauge is {100.0 * by_gauge / group.force:.3g} % of that of the sheet; it "
            "must lie above that of the first mark and not above the strength of the tendon"
        )
    expected = at_force(group, by_gauge)
    before = at_force(group, reading.mark * group.force) if reading.mark else 0.0
    assert expected is not None
    assert before is not None
    drawn = reading.elongation - _more_by_one_jack(group, reading, name)
    whole = drawn * expected / (expected - before)
    if not whole > 0.0:
        raise SoffitError(
            f"tendon {name}: nothing is left of the elongation of two pulls when the draw-in is taken off"
        )
    try:
        stress = _stretch(group).inverse(whole)
    except SoffitError:
        return Verdict(line, reading, whole, expected, by_gauge, None, None, "cannot be", ())
    implied = stress * group.one
    locked = None if reading.draw_in is None else locked_off(group, stress, reading.draw_in)
    word = _word(group, whole / expected, implied / by_gauge, by_gauge / group.force)
    if word == "agrees" and locked is not None and locked < (1.0 - group.tolerance.share) * group.locked_force:
        # pulled rightly and lost again at the anchor
        return Verdict(line, reading, whole, expected, by_gauge, implied, locked, "slipped back", ())
    causes = _causes(group, word, whole, expected, by_gauge)
    if causes:
        causes += _mark(group, reading, expected - drawn)
    if causes and group.rod and reading.gauge is None:
        # a wrench tells less of the force than anything else here
        nut = Cause("nut factor", group.rod.factor * by_gauge / implied)
        causes = (nut, *(cause for cause in causes if cause.kind != "gauge"))
    return Verdict(line, reading, whole, expected, by_gauge, implied, locked, word, causes)


def _more_by_one_jack(group: GroupSheet, reading: Reading, name: str) -> float:
    """What two pulls of one jack draw out beyond two jacks at once, mm: of what the first anchor slipped back."""
    if not reading.one_jack:
        return 0.0
    if group.one_jack is None or group.elongation is None:
        raise SoffitError(f"tendon {name} is stressed from one end, so one jack does not pull it twice")
    return sum(group.one_jack) - group.elongation


def _by_gauge(sheet: StressingSheet, group: GroupSheet, reading: Reading, name: str) -> float:
    if reading.gauge is None:
        return group.force
    if sheet.ram is None:
        raise SoffitError(f"tendon {name}: its gauge reading tells no force without the area of the ram")
    if not reading.gauge > 0.0:
        raise SoffitError(f"tendon {name}: a gauge reading of {reading.gauge:g} MPa is not above zero")
    return reading.gauge * sheet.ram


def _stretch(group: GroupSheet) -> elongation.Stretch:
    return elongation.stretch(group.tendon, group.run if group.pretensioned else None)


def _word(group: GroupSheet, stretched: float, implied: float, gauge: float) -> Word:
    """The worst that is said of the three ratios."""
    most = group.tolerance.share * (1.0 + 1e-9)
    if min(stretched, implied) < 1.0 - most:
        return "too short"
    if max(stretched, implied) > 1.0 + most:
        return "too long"
    if abs(gauge - 1.0) > most:
        return "gauge too low" if gauge < 1.0 else "gauge too high"
    return "agrees"


def _causes(group: GroupSheet, word: Word, whole: float, expected: float, force: float) -> tuple[Cause, ...]:
    """Single causes that would each explain the whole difference, with the number that it would take."""
    if word not in ("too short", "too long"):
        return ()
    last = Cause("gauge") if word == "too short" else Cause("slip", whole - expected)
    return (*_friction(group, whole, force), Cause("modulus", expected / whole), last)


def _mark(group: GroupSheet, reading: Reading, before: float) -> tuple[Cause, ...]:
    """A first mark at another force than was written down, or slack that was measured; ``before``: what would have to
    have come out before the first mark, mm."""
    if before > 0.0:
        return (Cause("mark", _stretch(group).inverse(before) * group.one / group.force),) if reading.mark else ()
    return (Cause("slack"),)


def _friction(group: GroupSheet, whole: float, force: float) -> list[Cause]:
    if group.pretensioned:
        return []
    if group.tendon.friction == 0.0 and group.tendon.wobble == 0.0:
        return [Cause("friction not given")] if whole < (group.elongation or 0.0) else []
    jacked = replace(group.tendon, stress=force / group.one)
    factor = elongation.friction_for(jacked, whole)
    if factor is None:
        return []
    other = replace(jacked, friction=factor * jacked.friction, wobble=factor * jacked.wobble)
    return [Cause("friction", factor, float(np.min(elongation.pulled(other).stress)) * group.one)]

"""The lines of one end while they are found: checks, what is assumed and what is not checked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, inf, pi
from typing import Protocol

from soffit.codes import specified
from soffit.codes.endzone import Anchors, Plate, Reaction, Tie
from soffit.codes.working import Check, Symbol, Working, work
from soffit.detail import endplaces as places
from soffit.detail.endplaces import Side
from soffit.member.beam import Beam, StirrupZone


class Rules(Protocol):
    """What a standard's module of ends has."""

    NAME: str
    bursting: Callable[[Anchors, float], Tie]
    spalling: Callable[[Anchors, float], Tie]
    plate: Callable[[Plate, float], Check]
    bearing: Callable[[Reaction, float, float], Check]


ASSUMED = {"SI": (500.0, 10.0, "10 mm, of 500 MPa"), "US": (60.0 * specified.KSI, 12.7, "1/2 in, of 60 ksi")}
"""Yield strength, MPa, and diameter, mm, of the two-legged stirrups that are counted in where the beam has none."""


@dataclass(frozen=True)
class Line:
    """One check at an end; ``tie`` where it is of steel."""

    title: str
    check: Check
    tie: Tie | None = None
    stirrups: int = 0
    """That are needed within the length of the tie."""
    spacing: float = 0.0
    """Of these, mm."""
    legs: int = 0
    diameter: float = 0.0
    """mm."""
    side: str = "upright"
    """``"upright"`` or ``"across"``: which way the force pulls."""


class Collected:
    """What is found at one end, while it is being found."""

    def __init__(self, beam: Beam, side: Side, rules: Rules) -> None:
        self.beam, self.side, self.rules = beam, side, rules
        self.lines: list[Line] = []
        self.more: list[tuple[str, tuple[Working, ...]]] = []
        self.not_checked: list[str] = []
        self.assumptions: list[str] = []
        near = [zone for zone, _ in places.near(beam, side, beam.outline.depth)]
        self.yield_strength, self.diameter, words = ASSUMED[beam.units]
        self.leg, self.legs = pi * self.diameter**2 / 4, 2
        if near:
            self.yield_strength = min(zone.steel.yield_strength for zone in near)
            first = min(near, key=lambda zone: zone.x_from if side == "left" else -zone.x_to)
            self.leg, self.legs, self.diameter = first.area / first.legs, first.legs, first.diameter
        else:
            self.say(f"No steel stirrups stand near the end: those needed are counted with two legs of {words}.")

        if any(zone.steel.kind == "linear" for zone in beam.stirrups):
            self.say("Stirrups of fibre-reinforced polymer are not counted.")

    def missing(self, sentence: str) -> None:
        if sentence not in self.not_checked:
            self.not_checked.append(sentence)

    def say(self, sentence: str) -> None:
        if sentence not in self.assumptions:
            self.assumptions.append(sentence)

    def tie(self, title: str, tie: Tie, across: bool = False) -> None:
        """A line for a tie: steel needed against the legs that cross it within its length."""
        length = tie.length.value
        if length <= 0.0:
            self.missing(f"{title}: the force stands too far out for the formulas; a strut-and-tie model is needed")
            return
        there = self._there(length, across)
        one = self.leg * (min(self.legs, 2) if across else self.legs)
        count = ceil(tie.steel.value / one - 1e-9) if tie.steel.value > 0.0 else 0
        workings = (*tie.workings, there)
        check = Check(title, tie.clause, tie.steel, there, workings, tie.assumptions)
        way = "across" if across else "upright"
        apart = length / count if count else inf
        self.lines.append(Line(title, check, tie, count, apart, self.legs, self.diameter, way))
        if any(s <= 1e-6 for zone in self.beam.stirrups for s in self._from_face(zone)):
            self.say("A stirrup that the file puts into the face itself is counted, behind its cover.")

    def _from_face(self, zone: StirrupZone) -> list[float]:
        return [x if self.side == "left" else self.beam.length - x for x in places.positions(zone)]

    def _there(self, length: float, across: bool) -> Working:
        found = places.near(self.beam, self.side, length)
        symbols: list[Symbol] = []
        terms = []
        for i, (zone, count) in enumerate(found, start=1):
            one = zone.area / zone.legs * min(zone.legs, 2) if across else zone.area
            n, area = f"n{i}" if len(found) > 1 else "n", f"A{i}"
            symbols += [
                Symbol(n, float(count), "count", f"stirrups within the length ({zone.label or 'as in the file'})"),
                Symbol(area, one, "area", "of the legs of one"),
            ]
            terms.append(f"{n}·{area}")
        return work("A_there", "steel there", " + ".join(terms) or "0", tuple(symbols), "area")

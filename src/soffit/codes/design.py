"""A beam as one standard verifies it: its strengths, its actions, its prestress, and its cuts."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from functools import cached_property
from math import inf
from typing import Any, Literal, TypeVar

import numpy as np

from soffit.codes.actions import Actions, Effect, Factored, State, actions
from soffit.codes.cut import BarsAt, Cut, TendonsAt, stirrups_at
from soffit.codes.prestress import Prestress, prestress
from soffit.codes.working import Check, Pen, Unchecked, Working
from soffit.member import profile as way
from soffit.member.beam import Beam
from soffit.member.standing import Cast, whole_outline
from soffit.member.verifying import Verifying
from soffit.section.outline import Outline

Kept = TypeVar("Kept")
PARTS = 20
"""Of a span, at whose ends a beam is cut for its checks."""


@dataclass(frozen=True)
class Opened:
    """What a standard makes of a beam before its checks."""

    pen: Pen
    name: str
    """As it is cited, with its edition."""
    strength: float
    """Specified, MPa: fck, f'c."""
    transfer: float | None
    """The same when the prestress is let in; none without tendons or where it has no such value."""
    modulus: float
    """Ecm, Ec, MPa."""
    said: tuple[str, ...]
    topping: float | None = None
    """Specified strength of the topping, MPa; none without one."""
    refused: tuple[Unchecked, ...] = ()
    """Why the whole beam lies outside the scope; nothing is then checked."""


@dataclass(frozen=True)
class Design:
    beam: Beam
    standard: str
    """``"aci318-19"``, ``"en1992"``, ``"aashto-lrfd"``, ``"mc2010"``."""
    opened: Opened
    _cuts: dict[tuple[float, bool], Cut] = field(default_factory=dict, compare=False, repr=False)
    _kept: dict[object, Any] = field(default_factory=dict, compare=False, repr=False)

    def kept(self, key: object, make: Callable[[], Kept]) -> Kept:
        """What ``make`` gives, made once for this design."""
        if key not in self._kept:
            self._kept[key] = make()
        found: Kept = self._kept[key]
        return found

    @property
    def pen(self) -> Pen:
        return self.opened.pen

    @property
    def choices(self) -> Verifying:
        return self.beam.verifying

    @property
    def strength(self) -> float:
        return self.opened.strength

    @property
    def modulus(self) -> float:
        return self.opened.modulus

    @cached_property
    def prestress(self) -> Prestress:
        return prestress(self.beam)

    @cached_property
    def cast(self) -> Cast | None:
        """The topping, once it has hardened."""
        topping = self.beam.making.topping if self.beam.making else None
        return None if topping is None else Cast(topping.concrete, topping.outline, topping.base)

    @cached_property
    def outline(self) -> Outline:
        """With its topping."""
        return whole_outline(self.beam, self.cast)

    @cached_property
    def actions(self) -> Actions:
        stations = np.array(self.stations)
        return actions(
            self.beam,
            self.standard,
            self.stations,
            self.modulus,
            self.outline.inertia,
            self.prestress.secondary(stations),
        )

    @cached_property
    def stations(self) -> tuple[float, ...]:
        """Where the actions are computed: fine, with every place at which something changes."""
        beam = self.beam
        ends = sorted({0.0, beam.length, *beam.supports.x})
        fine = [x for a, b in itertools.pairwise(ends) for x in np.linspace(a, b, 2 * PARTS + 1)]
        return _sorted([*fine, *self._changes()], beam.length)

    @cached_property
    def places(self) -> tuple[float, ...]:
        """Where checks along the beam are made."""
        beam = self.beam
        held = beam.supports.x
        rough = [x for a, b in itertools.pairwise(held) for x in np.linspace(a, b, PARTS + 1)]
        if held[0] > 0.0:
            rough += list(np.linspace(0.0, held[0], 5))
        if held[-1] < beam.length:
            rough += list(np.linspace(held[-1], beam.length, 5))
        return _sorted([*rough, *self._changes()], beam.length)

    def _changes(self) -> list[float]:
        beam = self.beam
        half, deep = 0.5 * beam.supports.bearing, 0.9 * self.outline.depth
        found = [s + side * (half + more) for s in beam.supports.x for side in (-1.0, 1.0) for more in (0.0, deep)]
        found += [x for load in beam.loads for x in (load.x_from, load.x_to)]
        found += [x for bar in beam.bars for x in (bar.x_from, bar.x_to)]
        for i, tendon in enumerate(beam.tendons):
            reach = self.prestress.reach(i)
            found += [tendon.x_from, tendon.x_to, tendon.x_from + reach, tendon.x_to - reach]
            found += way.breaks(tendon.profile)
        found += [x for zone in beam.stirrups for x in (zone.x_from, zone.x_to)]
        return found

    @property
    def faces(self) -> tuple[float, ...]:
        """Faces of the supports that have beam beyond them, mm: the supports themselves without bearing."""
        half = 0.5 * self.beam.supports.bearing
        found = [s + side * half for s in self.beam.supports.x for side in (-1.0, 1.0)]
        return tuple(sorted({x for x in found if 1e-6 < x < self.beam.length - 1e-6}))

    def from_face(self, x: float) -> float:
        """Distance of a place to the nearest face of a support, mm; 0 over a bearing."""
        half = 0.5 * self.beam.supports.bearing
        return max(min(abs(x - s) for s in self.beam.supports.x) - half, 0.0)

    def cut(self, x: float, sagging: bool = True) -> Cut:
        """The beam cut at ``x``; the same again for the same place."""
        key = (round(x, 6), sagging)
        if key not in self._cuts:
            self._cuts[key] = self._cut(x, sagging)
        return self._cuts[key]

    def _cut(self, x: float, sagging: bool) -> Cut:
        beam, outline, eps = self.beam, self.outline, 1e-6

        def depth(y: float) -> float:
            return outline.depth - y if sagging else y

        bars = tuple(
            BarsAt(b, i, depth(b.y), x - b.x_from, b.x_to - x)
            for i, b in enumerate(beam.bars)
            if b.x_from - eps <= x <= b.x_to + eps
        )
        tendons = []
        for i, t in enumerate(beam.tendons):
            if not t.x_from - eps <= x <= t.x_to + eps:
                continue
            at = min(max(x, t.x_from), t.x_to)
            y, slope = self._line(i, at)
            tendons.append(
                TendonsAt(
                    t, i, depth(y), slope, self.prestress.stress(i, at), self.prestress.full(i, at),
                    self.prestress.stress(i, at, early=True), x - t.x_from, t.x_to - x,
                )
            )  # fmt: skip
        return Cut(beam, x, sagging, outline, bars, tuple(tendons), stirrups_at(beam, x))

    def hardest(self, state: State, effect: Effect, ends: bool = True) -> tuple[float, ...]:
        """Of all places with the same section, that where the effect is greatest: one place a section.

        Sections are the same where the same bars, tendons (to 1 mm and 1 MPa) and stirrups stand and, with ``ends``,
        bars reach as far. For checks whose resistance depends on the section alone.
        """
        values = self.actions.envelope(state)
        if effect == "shear":
            size = np.maximum(np.abs(values.shear_max), np.abs(values.shear_min))
        else:
            size = {"sagging": values.sagging, "hogging": values.hogging, "torsion": values.torsion}.get(
                effect, values.sag_max
            )
        here = np.interp(self.places, self.actions.x, size).tolist()
        best: dict[object, tuple[float, float]] = {}
        for x, key, value in zip(self.places, self._sections(effect != "hogging", ends), here, strict=True):
            if key not in best or value > best[key][0]:
                best[key] = (value, x)
        return tuple(sorted(x for value, x in best.values() if value > 0.0))

    def overbent(self, sagging: bool, strength: Callable[[Cut], float], ends: bool = True) -> tuple[float, ...]:
        """Of the hardest bent places those two where the moment over ``strength`` (N·mm, without working) is greatest;
        all of them where an axial force acts, for that goes with the combination."""
        places = self.hardest("ultimate", bending(sagging), ends)
        if self.choices.axial or len(places) <= 2:
            return places
        envelope = self.actions.envelope("ultimate")
        moments = np.interp(places, self.actions.x, envelope.sagging if sagging else envelope.hogging).tolist()
        ratios = []
        for x, m in zip(places, moments, strict=True):
            has = strength(self.cut(x, sagging))
            ratios.append((m / has if has > 0.0 else inf, m, x))
        return tuple(x for _, _, x in sorted(ratios)[-2:])

    def _sections(self, sagging: bool, ends: bool) -> tuple[object, ...]:
        """What stands in the section of each place; see :meth:`hardest`."""

        def section(cut: Cut) -> object:
            return (
                tuple((b.index, round(min(b.left, 5e3)), round(min(b.right, 5e3))) for b in cut.bars if b.short)
                if ends
                else (),
                tuple(b.index for b in cut.bars),
                tuple((t.index, round(t.depth), round(t.stress)) for t in cut.tendons),
                tuple(round(min(t.left, t.right)) for t in cut.tendons if t.short) if ends else (),
                None if cut.stirrups is None else tuple(id(z) for z in cut.stirrups.zones),
            )

        key = ("sections", sagging, ends)
        return self.kept(key, lambda: tuple(section(self.cut(x, sagging)) for x in self.places))

    def _line(self, group: int, x: float) -> tuple[float, float]:
        """Height and slope of a tendon group; at all places they are found at once."""
        found = self._lines[group].get(round(x, 6))
        if found is None:
            at = np.array([x])
            profile = self.beam.tendons[group].profile
            found = float(way.height(profile, at)[0]), float(way.slope(profile, at)[0])
        return found

    @cached_property
    def _lines(self) -> tuple[dict[float, tuple[float, float]], ...]:
        found = []
        for t in self.beam.tendons:
            x = np.array([min(max(each, t.x_from), t.x_to) for each in self.places])
            rows = zip(x.tolist(), way.height(t.profile, x).tolist(), way.slope(t.profile, x).tolist(), strict=True)
            found.append({round(at, 6): (y, slope) for at, y, slope in rows})
        return tuple(found)

    @cached_property
    def spans(self) -> tuple[tuple[float, float], ...]:
        held = self.beam.supports.x
        return tuple(itertools.pairwise(held))


def _sorted(found: Iterable[float], length: float) -> tuple[float, ...]:
    """In order, within the beam, none twice."""
    kept: list[float] = []
    for x in sorted(float(x) for x in found if -1e-6 <= x <= length + 1e-6):
        x = min(max(x, 0.0), length)
        if not kept or x - kept[-1] > 1e-3:
            kept.append(x)
    return tuple(kept)


Found = Iterator[Check | Unchecked]


@dataclass(frozen=True)
class Entry:
    """One kind of check in the register of a standard."""

    key: str
    """One word or words with hyphens, as ``--working`` takes it: ``"shear"``, ``"min-steel"``."""
    title: str
    clause: str
    about: str
    """What is compared, in one sentence, for the reference."""
    run: Callable[[Design], Iterable[Check | Unchecked]]


def under(
    demand: Factored,
    title: str,
    clause: str,
    resistance: Working,
    workings: tuple[Working, ...],
    key: str,
    said: tuple[str, ...] = (),
    effect: Working | None = None,
    state: str = "strength",
) -> Check:
    """A check of what acts at one place under one combination. ``effect``: what is compared, where that is not the
    effect itself but follows from it; it then stands among ``workings``."""
    every = tuple(dict.fromkeys((demand.working, *workings)))
    return Check(
        title, clause, effect or demand.working, resistance, every, said, key, demand.x, demand.combination, state
    )


def bending(sagging: bool) -> Literal["sagging", "hogging"]:
    """The effect that bends a cut so."""
    return "sagging" if sagging else "hogging"


def worst(checks: Iterable[Check | None]) -> Check | None:
    """The check with the greatest ratio, of equal ones that with the greatest demand; none of none."""
    found = [c for c in checks if c is not None]
    return max(found, key=lambda c: (c.ratio, c.demand.value), default=None)


def keyed(check: Check, entry: Entry) -> Check:
    """The check with the key of its entry, unless it has one that begins with it."""
    return check if check.key.startswith(entry.key) else replace(check, key=entry.key)

"""Actions on a beam: cases, combinations, arrangements and vehicles, and what is worst at each place.

Elastic, with one stiffness along the beam. Every variable load is counted where it makes an effect worse and left out
where it does not, span by span on continuous beams: that is the envelope of all arrangements.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from importlib import import_module
from typing import Literal

import numpy as np

from soffit.codes.combining import Combination, Rules, State, Variable
from soffit.codes.working import Kind, Symbol, Working, work
from soffit.materials.curve import Array
from soffit.member.beam import Beam, Load
from soffit.member.elastic_line import ElasticLine, Response, split
from soffit.member.loading import SELF, self_weight, topping_weight
from soffit.member.verifying import Vehicle

__all__ = ["Actions", "Effect", "Envelope", "Factored", "State", "actions"]

Effect = Literal["sagging", "hogging", "shear", "torsion", "sag"]
COMBINATIONS = {
    "aci318-19": "soffit.codes.aci318.combinations",
    "en1992": "soffit.codes.en1992.combinations",
    "aashto-lrfd": "soffit.codes.aashto.combinations",
    "mc2010": "soffit.codes.mc2010.combinations",
}
BESIDE = 0.1
"""mm."""
PERMANENT = ("dead", "soil", "fluid")
"""Cases that are always there, besides the weights."""
_LETTER: dict[Effect, tuple[str, Kind]] = {
    "sagging": ("M", "moment"), "hogging": ("M", "moment"), "shear": ("V", "force"), "torsion": ("T", "moment"),
    "sag": ("w", "length"),
}  # fmt: skip
_ENDS: tuple[tuple[str, Effect, float], ...] = (
    ("sagging", "sagging", 1.0),
    ("hogging", "hogging", -1.0),
    ("shear_max", "shear", 1.0),
    ("shear_min", "shear", -1.0),
    ("torsion", "torsion", 0.0),
    ("sag_max", "sag", 1.0),
    ("sag_min", "sag", -1.0),
)
"""Ends of the envelopes, with the sign that is sought; 0: the greatest magnitude."""
_WORD: dict[Effect, str] = {
    "sagging": "sagging moment", "hogging": "hogging moment", "shear": "shear", "torsion": "torque",
    "sag": "deflection",
}  # fmt: skip


@dataclass(frozen=True)
class Factored:
    """One effect at one place under the combination, and the arrangement of loads, that make it worst."""

    working: Working
    """Its value is a magnitude; 0 where the effect does not occur."""
    combination: str
    x: float
    moment: float
    """Signed and concurrent with it, N·mm, N."""
    shear: float
    torsion: float
    axial: float
    """Tension positive."""


@dataclass(frozen=True)
class Envelope:
    """(n,) at ``Actions.x``; magnitudes but for the shears."""

    sagging: Array
    hogging: Array
    shear_max: Array
    shear_min: Array
    torsion: Array
    sag_max: Array
    """mm, downward, with the stiffness that the actions were given."""
    sag_min: Array
    governing: Mapping[str, tuple[str, ...]]
    """Name of the combination at each station, for ``"sagging"``, ``"hogging"``, ``"shear_max"``, ``"shear_min"``,
    ``"torsion"``, ``"sag_max"``, ``"sag_min"``."""


@dataclass(frozen=True)
class _Part:
    """Loads that come and go together."""

    name: str
    span: int
    """0: of the whole beam."""
    response: Response
    sag: Array
    axial: float = 0.0

    def values(self, effect: Effect) -> Array:
        """(1, n) or (2, n): both sides of each station where it may jump."""
        if effect == "shear":
            return self.response.shear
        if effect == "torsion":
            return self.response.twist
        return (self.sag if effect == "sag" else self.response.moment)[None]


@dataclass(frozen=True)
class _Train:
    """A vehicle at every place where one of its axles stands on a station, (p, …)."""

    vehicle: Vehicle
    first: Array
    """x of its first axle."""
    moment: Array
    shear: Array
    sag: Array

    def values(self, effect: Effect) -> Array:
        if effect == "shear":
            return self.shear
        if effect == "torsion":
            return np.zeros_like(self.shear)
        return (self.sag if effect == "sag" else self.moment)[:, None]


class Actions:
    """See the module; made by :func:`actions`."""

    def __init__(self, beam: Beam, rules: Rules, line: ElasticLine, secondary: tuple[Array, Array] | None) -> None:
        self.beam, self.line, self.x = beam, line, line.x
        self._rules = rules
        self._secondary = secondary
        self.said = (*rules.said, *_said(beam))

    # -- cases -------------------------------------------------------------------------------------------------------

    @cached_property
    def _permanent(self) -> tuple[_Part, ...]:
        found = [self._part(name, 0, loads) for name, loads in _permanent(self.beam).items()]
        for case, force in self.beam.verifying.axial:
            if case in PERMANENT:
                found.append(self._axial(case, force))
        return tuple(found)

    @cached_property
    def _prestress(self) -> _Part | None:
        if self._secondary is None:
            return None
        moment, shear = self._secondary
        response = Response(moment, np.array([shear, shear]), np.zeros((2, len(self.x))))
        return _Part("prestress", 0, response, self.line.deflection(moment))

    @cached_property
    def _variable(self) -> dict[Variable, tuple[_Part, ...]]:
        found: dict[Variable, tuple[_Part, ...]] = {}
        for variable in variables(self.beam):
            loads = [load for load in self.beam.loads if variable_of(self.beam, load) == variable]
            parts = split(loads, self.beam.supports)
            if not self.beam.verifying.pattern:
                parts = {0: [load for some in parts.values() for load in some]} if parts else {}
            made = [self._part(variable.case, span, some) for span, some in sorted(parts.items())]
            made += [
                self._axial(case, force)
                for case, force in self.beam.verifying.axial
                if case not in PERMANENT and variable_of(self.beam, Load(case, 0.0, 0.0, 0.0)) == variable
            ]
            found[variable] = tuple(made)
        return found

    @cached_property
    def _trains(self) -> dict[Variable, tuple[_Train, ...]]:
        found: dict[Variable, list[_Train]] = {}
        for vehicle in self.beam.verifying.vehicles:
            variable = variable_of(self.beam, Load(vehicle.case, 0.0, 0.0, 0.0))
            found.setdefault(variable, []).append(_train(self.line, vehicle))
        return {variable: tuple(trains) for variable, trains in found.items()}

    def _part(self, name: str, span: int, loads: Sequence[Load]) -> _Part:
        response = self.line.respond(loads)
        return _Part(name, span, response, self.line.deflection(response.moment))

    def _axial(self, case: str, force: float) -> _Part:
        n = len(self.x)
        none = Response(np.zeros(n), np.zeros((2, n)), np.zeros((2, n)))
        return _Part(f"{case} axial", 0, none, np.zeros(n), force)

    # -- what is worst -----------------------------------------------------------------------------------------------

    def envelope(self, state: State) -> Envelope:
        """Of all combinations of a state."""
        return self._envelopes(state)

    @cached_property
    def _envelopes(self) -> Callable[[State], Envelope]:
        known: dict[State, Envelope] = {}

        def find(state: State) -> Envelope:
            if state not in known:
                known[state] = self._envelope(state)
            return known[state]

        return find

    def _envelope(self, state: State) -> Envelope:
        most: dict[str, Array] = {}
        names: dict[str, tuple[str, ...]] = {}
        combinations = self._rules.combinations[state]
        for key, effect, sign in _ENDS:
            rows = np.array([self._worst(c, effect, sign) for c in combinations])
            best = np.argmax(rows, axis=0)
            most[key] = rows[best, np.arange(len(self.x))]
            names[key] = tuple(combinations[i].name for i in best)
        return Envelope(
            np.maximum(most["sagging"], 0.0), np.maximum(most["hogging"], 0.0), most["shear_max"], -most["shear_min"],
            np.maximum(most["torsion"], 0.0), most["sag_max"], -most["sag_min"], names,
        )  # fmt: skip

    def _worst(self, combination: Combination, effect: Effect, sign: float) -> Array:
        """(n,): the greatest sign · effect of a combination; with sign 0 the greatest magnitude."""
        if sign == 0.0:
            return np.maximum(self._worst(combination, effect, 1.0), self._worst(combination, effect, -1.0))
        total = np.zeros((1, len(self.x)))
        for part in self._permanent:
            total = total + sign * combination.permanent * part.values(effect)
        if self._prestress is not None:
            total = total + sign * combination.prestress * self._prestress.values(effect)
        for variable, factor in combination.variable.items():
            for part in self._variable.get(variable, ()):
                total = total + factor * np.maximum(sign * part.values(effect), 0.0)
            for train in self._trains.get(variable, ()):
                total = total + factor * np.maximum(np.max(sign * train.values(effect), axis=0), 0.0)
        return np.asarray(total.max(axis=0))

    # -- one place ---------------------------------------------------------------------------------------------------

    def at(self, state: State, effect: Effect, x: float, symbol: str) -> Factored:
        """One effect at one place, with its working; between stations everything is taken as straight."""
        chosen = self._choose(state, effect, x)
        letter, kind = _LETTER[effect]
        terms, symbols = [], []
        for factor, name, value in chosen.terms:
            label = f"{letter}{name}"
            terms.append(f"{factor:g}·{label}")
            symbols.append(Symbol(label, value, kind, f"{_WORD[effect]} of {name}"))
        text = " + ".join(terms) or "0"
        if chosen.sign < 0.0 and terms:
            text = f"−({text})"
        if chosen.value <= 0.0:
            text, symbols = "0", []
        working = work(symbol, f"{_WORD[effect]} by {chosen.combination.name}", text, tuple(symbols), kind,
                       chosen.combination.clause)  # fmt: skip
        return Factored(
            working, chosen.said, x, chosen.sum("moment"), chosen.sum("shear"), chosen.sum("torsion"), chosen.axial
        )

    def diagram(self, state: State, effect: Effect, x: float) -> Array:
        """Moments (n,) at ``self.x`` of the arrangement that makes an effect worst at ``x``."""
        return self._choose(state, effect, x).moments

    def permanent(self) -> Array:
        """Moments (n,) of the permanent loads alone, without factors."""
        return sum((part.response.moment for part in self._permanent), np.zeros(len(self.x)))

    def bare(self) -> Array:
        """Moments (n,), without factors, of what acts on the beam before its topping has hardened."""
        loads = [self_weight(self.beam)] if self.beam.self_weight else []
        making = self.beam.making
        if making is not None and making.topping is not None:
            propped = any(stage.what == "topping" and stage.propped for stage in making.stages)
            if not propped:
                loads.append(topping_weight(making.topping, self.beam.length))
        return self.line.respond(loads).moment

    def _choose(self, state: State, effect: Effect, x: float) -> _Chosen:
        signs = {"sagging": (1.0,), "hogging": (-1.0,), "sag": (1.0,)}.get(effect, (1.0, -1.0))
        found = [
            self._chosen(combination, effect, x, sign, side)
            for combination in self._rules.combinations[state]
            for sign in signs
            for side in ((0, 1) if effect in ("shear", "torsion") else (0,))
        ]
        return max(found, key=lambda each: each.value)

    def _chosen(self, combination: Combination, effect: Effect, x: float, sign: float, side: int) -> _Chosen:
        here = _Reader(self.x, x, side)
        taken: list[tuple[float, str, float, _Part | None, tuple[_Train, int] | None]] = []
        for part in self._permanent:
            taken.append((combination.permanent, part.name, here.of(part.values(effect)), part, None))
        if self._prestress is not None:
            value = here.of(self._prestress.values(effect))
            taken.append((combination.prestress, "prestress", value, self._prestress, None))
        spans: list[str] = []
        for variable, factor in combination.variable.items():
            if not factor:
                continue
            parts = self._variable.get(variable, ())
            worse = [(part, here.of(part.values(effect))) for part in parts]
            # an axial force goes with any of the loads of its case
            kept = [(p, v) for p, v in worse if sign * v > 0.0 or p.axial]
            for part, value in kept:
                taken.append((factor, part.name, value, part, None))
            if len(self.beam.supports.x) > 2 and 0 < len(kept) < len(parts):
                spans.append(f"{variable.case} on {_spans([p.span for p, _ in kept], len(self.beam.supports.x))}")
            for train in self._trains.get(variable, ()):
                values = here.of_many(train.values(effect))
                i = int(np.argmax(sign * values))
                if sign * values[i] > 0.0:
                    name = train.vehicle.name or variable.case
                    taken.append((factor, name, float(values[i]), None, (train, i)))
                    spans.append(f"first axle of {name} at {train.first[i] / 1000.0:.2f} m")
        return _Chosen(combination, sign, here, taken, spans)


class _Reader:
    """Values at one place."""

    def __init__(self, x: Array, at: float, side: int) -> None:
        self.side = side
        self.i = int(np.clip(np.searchsorted(x, at) - 1, 0, len(x) - 2))
        self.t = float((at - x[self.i]) / (x[self.i + 1] - x[self.i]))
        self.on = abs(self.t) < 1e-9 or abs(self.t - 1.0) < 1e-9

    def of(self, rows: Array) -> float:
        return float(self.of_many(rows[None])[0])

    def of_many(self, rows: Array) -> Array:
        """(k, 1 or 2, n) to (k,)."""
        if rows.shape[1] == 1:
            return np.asarray(rows[:, 0, self.i] * (1.0 - self.t) + rows[:, 0, self.i + 1] * self.t)
        if self.on:
            return np.asarray(rows[:, self.side, self.i + round(self.t)])
        # between stations: from the right side of the one to the left side of the next
        return np.asarray(rows[:, 1, self.i] * (1.0 - self.t) + rows[:, 0, self.i + 1] * self.t)


class _Chosen:
    """A combination with the loads that make one effect worst at one place."""

    def __init__(
        self, combination: Combination, sign: float, here: _Reader,
        taken: list[tuple[float, str, float, _Part | None, tuple[_Train, int] | None]], spans: list[str],
    ) -> None:  # fmt: skip
        self.combination, self.sign, self._here, self._taken, self._spans = combination, sign, here, taken, spans
        self.value = sign * sum(factor * value for factor, _, value, _, _ in taken)

    @property
    def terms(self) -> list[tuple[float, str, float]]:
        """Factor, name and value of each case that takes part, the parts of a case together."""
        found: dict[tuple[float, str], float] = {}
        for factor, name, value, _, _ in self._taken:
            found[factor, name] = found.get((factor, name), 0.0) + value
        return [(factor, _label(name), value) for (factor, name), value in found.items() if value != 0.0]

    @property
    def said(self) -> str:
        factors: dict[str, float] = {}
        for factor, name, _, _, _ in self._taken:
            factors.setdefault(name.removesuffix(" axial"), factor)
        text = " + ".join(f"{factor:g} {name}" for name, factor in factors.items())
        more = f", {'; '.join(self._spans)}" if self._spans else ""
        return f"{text}{more} ({self.combination.name})" if text else self.combination.name

    def sum(self, what: Literal["moment", "shear", "torsion"]) -> float:
        total = 0.0
        effect: Effect = "sagging" if what == "moment" else what
        for factor, _, _, part, train in self._taken:
            if part is not None:
                total += factor * self._here.of(part.values(effect))
            elif train is not None:
                total += factor * float(self._here.of_many(train[0].values(effect)[train[1]][None])[0])
        return total

    @property
    def axial(self) -> float:
        return sum(factor * part.axial for factor, _, _, part, _ in self._taken if part is not None)

    @property
    def moments(self) -> Array:
        rows = [
            factor * (part.response.moment if part is not None else train[0].moment[train[1]])  # type: ignore[index]
            for factor, _, _, part, train in self._taken
        ]
        return np.asarray(sum(rows)) if rows else np.zeros(0)


def _label(name: str) -> str:
    """A name as a symbol's index: no spaces."""
    return "," + "".join(c if c.isalnum() else "_" for c in name)


def _spans(numbers: Sequence[int], supports: int) -> str:
    words = [
        "the left overhang" if n == 0 else "the right overhang" if n == supports else str(n) for n in sorted(numbers)
    ]
    plain = [w for w in words if w.isdigit()]
    other = [w for w in words if not w.isdigit()]
    text = [f"span {plain[0]}" if len(plain) == 1 else f"spans {', '.join(plain)}"] if plain else []
    return " and ".join([*text, *other])


def _permanent(beam: Beam) -> dict[str, list[Load]]:
    found: dict[str, list[Load]] = {}
    if beam.self_weight:
        found[SELF] = [self_weight(beam)]
    if beam.making is not None and beam.making.topping is not None:
        found["topping"] = [topping_weight(beam.making.topping, beam.length)]
    for load in beam.loads:
        if load.case in PERMANENT:
            found.setdefault(load.case, []).append(load)
    return found


def variable_of(beam: Beam, load: Load) -> Variable:
    """The case and category of a load; for the case live the category of the whole beam stands in."""
    category = load.category or (beam.verifying.category if load.case in ("live", "crowd", "traffic") else "")
    return Variable(load.case, category)


def variables(beam: Beam) -> tuple[Variable, ...]:
    """All there are, vehicles and axial forces too."""
    found = [variable_of(beam, load) for load in beam.loads if load.case not in PERMANENT]
    found += [variable_of(beam, Load(v.case, 0.0, 0.0, 0.0)) for v in beam.verifying.vehicles]
    found += [variable_of(beam, Load(c, 0.0, 0.0, 0.0)) for c, _ in beam.verifying.axial if c not in PERMANENT]
    return tuple(dict.fromkeys(found))


def _train(line: ElasticLine, vehicle: Vehicle) -> _Train:
    """A row of axles at every place where one of them stands on a station; axles off the beam do not count."""
    moment, shear = line.influence
    offsets = np.concatenate([[0.0], np.cumsum(vehicle.gaps)])
    ways: list[tuple[Array, Array]] = [(np.array(vehicle.axles), -offsets)]
    if vehicle.both_ways:
        ways.append((np.array(vehicle.axles), offsets))
    first, moments, shears = [], [], []
    for axles, places in ways:
        lead = np.unique(np.concatenate([line.x - place for place in places]))
        at = lead[:, None] + places[None]
        on = (at >= -1e-9) & (at <= line.length + 1e-9)
        i = np.clip(np.searchsorted(line.x, at) - 1, 0, len(line.x) - 2)
        t = np.clip((at - line.x[i]) / (line.x[i + 1] - line.x[i]), 0.0, 1.0)
        load = vehicle.dynamic * axles * on
        low, high = load * (1.0 - t), load * t
        moments.append(np.einsum("pa,pan->pn", low, moment[i]) + np.einsum("pa,pan->pn", high, moment[i + 1]))
        shears.append(np.einsum("pa,pasn->psn", low, shear[i]) + np.einsum("pa,pasn->psn", high, shear[i + 1]))
        first.append(lead)
    m = np.concatenate(moments)
    return _Train(vehicle, np.concatenate(first), m, np.concatenate(shears), line.deflection(m))


def _said(beam: Beam) -> list[str]:
    found = []
    if any(not load.is_point or load.value for load in beam.loads if load.eccentricity):
        found.append("Loads beside the axis twist the beam, which forks hold against it at every support.")
    if len(beam.supports.x) > 2:
        found.append(
            "Variable loads stand on any choice of spans."
            if beam.verifying.pattern
            else "Variable loads stand on all spans at once, as the file says."
        )
    delta = beam.verifying.redistribution
    if delta and (len(beam.supports.x) > 2 or beam.supports.fixed_left or beam.supports.fixed_right):
        found.append(f"Elastic support moments of all loads are reduced by {100 * delta:.0f} %, in equilibrium.")
    for vehicle in beam.verifying.vehicles:
        found.append(f"{vehicle.name or 'The vehicle'} stands alone, wherever it is worst, {vehicle.dynamic:g} times.")
    return found


def actions(
    beam: Beam,
    standard: str,
    stations: Sequence[float],
    modulus: float,
    inertia: float,
    secondary: tuple[Array, Array] | None = None,
) -> Actions:
    """The actions on a beam by a standard's combinations.

    stations: mm, in order; modulus, inertia: of the reference stiffness of deflections, MPa, mm⁴; secondary: moments
    and shears of the secondary effects of prestress at the stations.
    """
    rules: Rules = import_module(COMBINATIONS[standard]).rules(beam, variables(beam))
    keep = 1.0 - beam.verifying.redistribution
    x = np.asarray(stations, dtype=float)
    if beam.verifying.vehicles:
        # an axle over a support presses on it alone: the worst shear comes from one just beside it
        beside = [s + side for s in beam.supports.x for side in (-BESIDE, BESIDE)]
        more = np.union1d(x, [s for s in beside if 0.0 < s < beam.length])
        if secondary is not None:
            secondary = np.interp(more, x, secondary[0]), np.interp(more, x, secondary[1])
        x = more
    return Actions(beam, rules, ElasticLine(x, beam.length, beam.supports, modulus * inertia, keep), secondary)

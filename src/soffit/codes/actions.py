"""Actions on a beam: cases, combinations, arrangements and vehicles, and what is worst at each place.

Elastic, with one stiffness along the beam. Every variable load is counted where it makes an effect worse and left out
where it does not, span by span: that is the envelope of all arrangements. Redistribution is of the ultimate state alone
(EN 1992-1-1 5.5, ACI 318-19 6.6.5); service states have the elastic moments.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from importlib import import_module
from typing import Literal

import numpy as np

from soffit.codes.arrangement import Arrangement, Reader, arrange
from soffit.codes.cases import PERMANENT, Cases, What, variable_of, variables
from soffit.codes.combining import Combination, Rules, State
from soffit.codes.working import Kind, Working, work
from soffit.errors import PhysicsError
from soffit.materials.curve import Array
from soffit.member.beam import Beam
from soffit.member.elastic_line import ElasticLine
from soffit.member.loading import self_weight, topping_weight

__all__ = [
    "COMBINATIONS", "PERMANENT", "Actions", "Effect", "Envelope", "Factored", "State", "actions", "rules_of",
    "variable_of", "variables",
]  # fmt: skip

Effect = Literal["sagging", "hogging", "shear", "torsion", "sag"]
COMBINATIONS = {
    "aci318-19": "soffit.codes.aci318.combinations",
    "en1992": "soffit.codes.en1992.combinations",
    "aashto-lrfd": "soffit.codes.aashto.combinations",
    "mc2010": "soffit.codes.mc2010.combinations",
}
BESIDE = 0.1
"""mm."""
_OF: dict[Effect, What] = {
    "sagging": "moment", "hogging": "moment", "shear": "shear", "torsion": "torsion", "sag": "sag",
}  # fmt: skip
_SIGNS: dict[Effect, tuple[float, ...]] = {
    "sagging": (1.0,), "hogging": (-1.0,), "sag": (1.0,), "shear": (1.0, -1.0), "torsion": (1.0, -1.0),
}  # fmt: skip
_LETTER: dict[What, tuple[str, Kind]] = {
    "moment": ("M", "moment"), "shear": ("V", "force"), "torsion": ("T", "moment"), "sag": ("w", "length"),
}  # fmt: skip
_WORD: dict[Effect, str] = {
    "sagging": "sagging moment", "hogging": "hogging moment", "shear": "shear", "torsion": "torque",
    "sag": "deflection",
}  # fmt: skip
_ENDS: dict[str, tuple[What, tuple[float, ...]]] = {
    "sagging": ("moment", (1.0,)), "hogging": ("moment", (-1.0,)), "shear_max": ("shear", (1.0,)),
    "shear_min": ("shear", (-1.0,)), "torsion": ("torsion", (1.0, -1.0)), "sag_max": ("sag", (1.0,)),
    "sag_min": ("sag", (-1.0,)),
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
    """(n,) at ``Actions.x``; magnitudes but for the shears and the deflections."""

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


class _Factors:
    """Factors of the combinations of a state on the parts of its cases, a row each."""

    def __init__(self, combinations: Sequence[Combination], cases: Cases) -> None:
        pairs = np.array([[c.factors(p.name) for p in cases.fixed] for c in combinations], dtype=float)
        pairs = pairs.reshape(len(combinations), len(cases.fixed), 2)
        self.adds, self.helps = pairs[:, :, 0], pairs[:, :, 1]
        self.free = np.array(
            [[c.variable.get(p.variable, 0.0) if p.variable else 0.0 for p in cases.free] for c in combinations]
        ).reshape(len(combinations), len(cases.free))
        self.moving = list(dict.fromkeys(t.variable for t in cases.trains))
        self.trains = np.array([[c.variable.get(v, 0.0) for v in self.moving] for c in combinations]).reshape(
            len(combinations), len(self.moving)
        )


class Actions:
    """See the module; made by :func:`actions`."""

    def __init__(self, beam: Beam, rules: Rules, line: ElasticLine, secondary: tuple[Array, Array] | None) -> None:
        self.beam, self.x = beam, line.x
        self._rules = rules
        elastic = ElasticLine(line.x, line.length, line.supports, line.stiffness)
        self._elastic = Cases(beam, elastic, secondary)
        self._ultimate = self._elastic if line.keep == 1.0 else Cases(beam, line, secondary, self._elastic)
        self._envelopes: dict[State, Envelope] = {}
        self._factors: dict[State, _Factors] = {}
        self.said = (*rules.said, *_said(beam))

    def _cases(self, state: State) -> Cases:
        return self._ultimate if state == "ultimate" else self._elastic

    def _of(self, state: State) -> _Factors:
        if state not in self._factors:
            self._factors[state] = _Factors(self._rules.combinations[state], self._cases(state))
        return self._factors[state]

    def envelope(self, state: State) -> Envelope:
        """Of all combinations of a state."""
        if state not in self._envelopes:
            self._envelopes[state] = self._envelope(state)
        return self._envelopes[state]

    def _envelope(self, state: State) -> Envelope:
        combinations = self._rules.combinations[state]
        most: dict[str, Array] = {}
        names: dict[str, tuple[str, ...]] = {}
        known: dict[tuple[What, float], Array] = {}
        for key, (what, signs) in _ENDS.items():
            for sign in signs:
                if (what, sign) not in known:
                    known[what, sign] = self._worst(state, what, sign)
            rows = np.max([known[what, sign] for sign in signs], axis=0)
            best = np.argmax(rows, axis=0)
            most[key] = rows[best, np.arange(len(self.x))]
            names[key] = tuple(combinations[i].name for i in best)
        return Envelope(
            np.maximum(most["sagging"], 0.0), np.maximum(most["hogging"], 0.0), most["shear_max"], -most["shear_min"],
            np.maximum(most["torsion"], 0.0), most["sag_max"], -most["sag_min"], names,
        )  # fmt: skip

    def _worst(self, state: State, what: What, sign: float) -> Array:
        """(combinations, n): the greatest sign · effect of each."""
        cases, of = self._cases(state), self._of(state)
        fixed, free = (sign * rows for rows in cases.stack(what))
        total = np.tensordot(of.adds, np.maximum(fixed, 0.0), axes=1)
        total = total + np.tensordot(of.helps, np.minimum(fixed, 0.0), axes=1)
        if len(free):
            total = total + np.tensordot(of.free, np.maximum(free, 0.0), axes=1)
        if of.moving:
            moving = np.zeros((len(of.moving), *total.shape[1:]))
            for train, rows in zip(cases.trains, cases.moving(what), strict=True):
                i = of.moving.index(train.variable)
                moving[i] = np.maximum(moving[i], (sign * rows).max(axis=0))
            total = total + np.tensordot(of.trains, moving, axes=1)
        return np.asarray(total.max(axis=1))

    def at(self, state: State, effect: Effect, x: float, symbol: str) -> Factored:
        """One effect at one place, with its working; between stations everything is taken as straight.

        Raises ``PhysicsError`` where there is no beam.
        """
        chosen = self._choose(state, effect, x)
        letter, kind = _LETTER[_OF[effect]]
        text, symbols = chosen.formula(letter, kind, _WORD[effect]) if chosen.value > 0.0 else ("0", ())
        by = chosen.combination
        working = work(symbol, f"{_WORD[effect]} by {by.name}", text, symbols, kind, by.clause, by.mark)
        return Factored(
            working, chosen.said, x, chosen.total("moment"), chosen.total("shear"), chosen.total("torsion"),
            chosen.axial,
        )  # fmt: skip

    def diagram(self, state: State, effect: Effect, x: float) -> Array:
        """Moments (n,) at ``self.x`` of the arrangement that makes an effect worst at ``x``."""
        return self._choose(state, effect, x).moments

    def permanent(self) -> Array:
        """Elastic moments (n,) of the permanent loads alone, without factors and without prestress."""
        parts = [p.response.moment for p in self._elastic.fixed if p.name != "prestress"]
        return np.asarray(sum(parts, np.zeros(len(self.x))))

    def bare(self) -> Array:
        """Moments (n,), without factors, of what acts on the beam before its topping has hardened."""
        loads = [self_weight(self.beam)] if self.beam.self_weight else []
        making = self.beam.making
        if making is not None and making.topping is not None:
            propped = any(stage.what == "topping" and stage.propped for stage in making.stages)
            if not propped:
                loads.append(topping_weight(making.topping, self.beam.length))
        return self._elastic.line.respond(loads).moment

    def _choose(self, state: State, effect: Effect, x: float) -> Arrangement:
        if not self.x[0] - 1e-6 <= x <= self.x[-1] + 1e-6:
            raise PhysicsError(f"no action is known at {x:g} mm: the beam goes from {self.x[0]:g} to {self.x[-1]:g} mm")
        cases, of, what = self._cases(state), self._of(state), _OF[effect]
        combinations = self._rules.combinations[state]
        best: tuple[float, int, Reader, float] | None = None
        for side in (0, 1) if what in ("shear", "torsion") else (0,):
            here = Reader(self.x, x, side)
            fixed, free = (here.of(rows) for rows in cases.stack(what))
            moving = [here.of(rows) for rows in cases.moving(what)]
            for sign in _SIGNS[effect]:
                v = sign * fixed
                totals = of.adds @ np.maximum(v, 0.0) + of.helps @ np.minimum(v, 0.0)
                totals = totals + of.free @ np.maximum(sign * free, 0.0)
                if moving:
                    most = np.zeros(len(of.moving))
                    for train, values in zip(cases.trains, moving, strict=True):
                        i = of.moving.index(train.variable)
                        most[i] = max(most[i], float((sign * values).max()))
                    totals = totals + of.trains @ most
                i = int(np.argmax(totals))
                # of equal ones the first, whatever the last digit says
                if best is None or totals[i] > best[0] * (1.0 + 1e-12) + 1e-12:
                    best = float(totals[i]), i, here, sign
        assert best is not None
        _, i, here, sign = best
        return arrange(cases, combinations[i], (of.adds[i], of.helps[i], of.free[i]), what, here, sign)


def _said(beam: Beam) -> list[str]:
    found = []
    eccentric = any(load.eccentricity and load.value for load in beam.loads)
    if eccentric:
        found.append("Loads beside the axis twist the beam, which forks hold against it at every support.")
    overhangs = beam.supports.x[0] > 0.0 or beam.supports.x[-1] < beam.length
    if len(beam.supports.x) > 2 or (overhangs and len(beam.supports.x) > 1) or eccentric:
        sides = ", and on one side of the axis or both" if eccentric else ""
        found.append(
            f"Variable loads stand on any choice of spans{sides}."
            if beam.verifying.pattern
            else "Variable loads stand on all spans at once, as the file says."
        )
    delta = beam.verifying.redistribution
    if delta and (len(beam.supports.x) > 2 or beam.supports.fixed_left or beam.supports.fixed_right):
        found.append(
            f"In the ultimate state elastic support moments of all loads are reduced by {100 * delta:.3g} %, in "
            "equilibrium; secondary moments of prestress are not."
        )
    for vehicle in beam.verifying.vehicles:
        times = f", its axles multiplied by {vehicle.dynamic:g}" if vehicle.dynamic != 1.0 else ""
        ways = "either way" if vehicle.both_ways else "from the left"
        found.append(
            f"{vehicle.name or 'The vehicle'} goes over the axis of the beam {ways} and is alone of its case at "
            f"its worst place, beside the loads that are no vehicles{times}."
        )
    return found


def rules_of(beam: Beam, standard: str) -> Rules:
    """The combinations of a standard for the loads of a beam. Raises ``PhysicsError`` for a standard without them."""
    if standard not in COMBINATIONS:
        raise PhysicsError(f"{standard!r} has no combinations of actions here; there are {', '.join(COMBINATIONS)}")
    found: Rules = import_module(COMBINATIONS[standard]).rules(beam, variables(beam))
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

    stations: mm, rising, from end to end; modulus, inertia: of the reference stiffness of deflections, MPa, mm⁴;
    secondary: moments and shears (n,) of the secondary effects of prestress at the stations.
    Raises ``PhysicsError`` for what is none of these.
    """
    x = np.asarray(stations, dtype=float)
    if x.ndim != 1 or len(x) < 2 or not bool(np.all(np.diff(x) > 0.0)):
        raise PhysicsError("the stations of the actions must be two or more numbers that rise")
    if x[0] > 1e-6 or x[-1] < beam.length - 1e-6:
        raise PhysicsError("the stations of the actions must go from end to end of the beam")
    if not modulus * inertia > 0.0:
        raise PhysicsError(f"the stiffness of the beam must be above 0, not {modulus * inertia:g} N·mm²")
    if not 0.0 <= beam.verifying.redistribution < 1.0:
        raise PhysicsError(f"the redistribution must lie between 0 and 1, not at {beam.verifying.redistribution:g}")
    if secondary is not None and any(np.shape(part) != x.shape for part in secondary):
        raise PhysicsError("secondary moments and shears must be given at every station of the actions")
    rules = rules_of(beam, standard)
    if beam.verifying.vehicles:
        # an axle over a support presses on it alone: the worst shear comes from one just beside it
        beside = [s + side for s in beam.supports.x for side in (-BESIDE, BESIDE)]
        more = np.union1d(x, [s for s in beside if 0.0 < s < beam.length])
        if secondary is not None:
            secondary = np.interp(more, x, secondary[0]), np.interp(more, x, secondary[1])
        x = more
    keep = 1.0 - beam.verifying.redistribution
    return Actions(beam, rules, ElasticLine(x, beam.length, beam.supports, modulus * inertia, keep), secondary)

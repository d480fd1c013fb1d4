"""The loads of one combination that make one effect worst at one place, and how they are told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from soffit.codes.cases import Cases, Part, What
from soffit.codes.combining import Combination, Variable
from soffit.codes.working import Kind, Symbol
from soffit.materials.curve import Array

FOOT = 304.8
LEAST = 1e-9
"""Share of a part's greatest effect below which it has none."""


class Reader:
    """Values at one place; between stations everything is taken as straight."""

    def __init__(self, x: Array, at: float, side: int) -> None:
        self.side = side
        self.i = min(max(int(x.searchsorted(at)) - 1, 0), len(x) - 2)
        low, high = float(x[self.i]), float(x[self.i + 1])
        self.t = min(max((at - low) / (high - low), 0.0), 1.0)
        if min(self.t, 1.0 - self.t) < 1e-9:
            self.t = float(round(self.t))

    def of(self, rows: Array) -> Array:
        """(k, s, n) to (k,); s = 2: left and right of each station."""
        if rows.shape[1] == 1:
            return np.asarray(rows[:, 0, self.i] * (1.0 - self.t) + rows[:, 0, self.i + 1] * self.t)
        if self.t in (0.0, 1.0):
            return np.asarray(rows[:, self.side, self.i + int(self.t)])
        # from the right side of the one to the left side of the next
        return np.asarray(rows[:, 1, self.i] * (1.0 - self.t) + rows[:, 0, self.i + 1] * self.t)


@dataclass(frozen=True)
class Stand:
    """One vehicle at one of its places."""

    train: int
    place: int
    factor: float
    value: float


@dataclass(frozen=True)
class Arrangement:
    cases: Cases
    combination: Combination
    sign: float
    """−1 where the greatest negative effect is sought."""
    here: Reader
    fixed: Array
    """Factor of each permanent part."""
    free: Array
    """Factor of each variable part, 0 where it is left out."""
    values: tuple[Array, Array]
    """Of the effect, without factors."""
    vehicles: tuple[Stand, ...]

    @property
    def value(self) -> float:
        total = self.fixed @ self.values[0] + self.free @ self.values[1]
        return self.sign * float(total + sum(v.factor * v.value for v in self.vehicles))

    def total(self, what: What) -> float:
        """Signed, of another effect of the same loads at the same place."""
        fixed, free = (self.here.of(rows) for rows in self.cases.stack(what))
        moving = self.cases.moving(what) if self.vehicles else ()
        more = sum(v.factor * self.here.of(moving[v.train][v.place][None])[0] for v in self.vehicles)
        return float(self.fixed @ fixed + self.free @ free + more)

    @property
    def moments(self) -> Array:
        """(n,) along the beam."""
        fixed, free = self.cases.stack("moment")
        more = sum((v.factor * self.cases.trains[v.train].moment[v.place] for v in self.vehicles), np.zeros(1))
        return np.asarray(self.fixed @ fixed[:, 0] + self.free @ free[:, 0] + more)

    @property
    def axial(self) -> float:
        pairs = ((self.fixed, self.cases.fixed), (self.free, self.cases.free))
        return float(sum(f * p.axial for factors, parts in pairs for f, p in zip(factors, parts, strict=True)))

    def formula(self, letter: str, kind: Kind, word: str) -> tuple[str, tuple[Symbol, ...]]:
        """The effect as a sum of cases with their factors; no symbol has the name of another."""
        found: dict[tuple[float, str], float] = {}
        for key, value in self._values():
            found[key] = found.get(key, 0.0) + value
        terms: list[str] = []
        symbols: list[Symbol] = []
        for (factor, name), value in found.items():
            if value == 0.0:
                continue
            label = letter + "_".join("".join(c if c.isalnum() else " " for c in name).split())
            while any(s.name == label for s in symbols):
                label += "'"
            terms.append(f"{factor:.6g}·{label}")
            symbols.append(Symbol(label, value, kind, f"{word} of {name}"))
        text = " + ".join(terms) or "0"
        return (f"−({text})" if self.sign < 0.0 and terms else text), tuple(symbols)

    def _values(self) -> list[tuple[tuple[float, str], float]]:
        names = _Names(self.cases)
        found = []
        for factors, parts, values in (
            (self.fixed, self.cases.fixed, self.values[0]),
            (self.free, self.cases.free, self.values[1]),
        ):
            found += [((float(f), names(p)), float(v)) for f, p, v in zip(factors, parts, values, strict=True) if f]
        return found + [((v.factor, self.cases.trains[v.train].name), v.value) for v in self.vehicles]

    @property
    def said(self) -> str:
        """``"1.35 self weight + 1.5 crowd on spans 1, 3 (6.10)"``."""
        names = _Names(self.cases)
        terms: dict[str, float] = {}
        for factor, part in zip(self.fixed, self.cases.fixed, strict=True):
            if factor:
                terms.setdefault(part.name, float(factor))
        for variable in dict.fromkeys(p.variable for p in self.cases.free):
            every = [(f, p) for f, p in zip(self.free, self.cases.free, strict=True) if p.variable == variable]
            kept = [p for f, p in every if f]
            if kept:
                where = _where(kept, [p for _, p in every], len(self.cases.beam.supports.x))
                terms[names(kept[0]) + where] = float(max(f for f, _ in every))
        for v in self.vehicles:
            terms[self._stands(v)] = v.factor
        text = " + ".join(f"{factor:.6g} {name}" for name, factor in terms.items())
        name = self.combination.name
        return f"{text} {name if name.startswith('(') else f'({name})'}" if text else name

    def _stands(self, stand: Stand) -> str:
        train = self.cases.trains[stand.train]
        x = float(train.first[stand.place])
        place = f"{x / FOOT:.2f} ft" if self.cases.beam.units == "US" else f"{x / 1000.0:.2f} m"
        way = ", going left" if train.leftward[stand.place] and len(train.vehicle.axles) > 1 else ""
        first = "first axle" if len(train.vehicle.axles) > 1 else "axle"
        return f"{train.name}, {first} at {place}{way}"


def arrange(
    cases: Cases, combination: Combination, factors: tuple[Array, Array, Array], what: What, here: Reader, sign: float
) -> Arrangement:
    """``factors``: of the permanent parts where they add and where they help, and of the variable parts."""
    adds, helps, variable = factors
    fixed, free = (here.of(rows) for rows in cases.stack(what))
    free_rows = cases.stack(what)[1]
    size = np.abs(free_rows).max(axis=(1, 2), initial=0.0) if len(free_rows) else np.zeros(0)
    kept = variable * (sign * free > LEAST * size)
    for i, part in enumerate(cases.free):
        if part.axial:
            # it goes with the loads of its case, where there are any
            others = [j for j, p in enumerate(cases.free) if p.variable == part.variable and not p.axial]
            kept[i] = variable[i] if not others or any(kept[j] for j in others) else 0.0
    taken = np.where(sign * fixed >= 0.0, adds, helps)
    vehicles: dict[Variable, Stand] = {}
    for k, (train, rows) in enumerate(zip(cases.trains, cases.moving(what), strict=True)):
        factor = combination.variable.get(train.variable, 0.0)
        values = here.of(rows)
        place = int(np.argmax(sign * values))
        before = vehicles.get(train.variable)
        least = sign * before.value if before else 0.0
        if factor and sign * values[place] > least:
            vehicles[train.variable] = Stand(k, place, factor, float(values[place]))
    return Arrangement(cases, combination, sign, here, taken, kept, (fixed, free), tuple(vehicles.values()))


class _Names:
    """What a part is called: by its category too where its case has several."""

    def __init__(self, cases: Cases) -> None:
        kinds = dict.fromkeys(p.variable for p in cases.free if p.variable)
        self._several = {v.case for v in kinds if sum(u.case == v.case for u in kinds) > 1}

    def __call__(self, part: Part) -> str:
        return part.variable.name if part.variable and part.name in self._several else part.name


def _where(kept: Sequence[Part], every: Sequence[Part], supports: int) -> str:
    """`` on spans 1, 3``; nothing where all parts are there."""

    def of(parts: Sequence[Part]) -> tuple[list[int], set[int]]:
        held = [p for p in parts if p.span is not None]
        return sorted({p.span for p in held if p.span is not None}), {p.side for p in held}

    (spans, sides), (all_spans, all_sides) = of(kept), of(every)
    text = f" on {_spans(spans, supports)}" if spans and spans != all_spans else ""
    if sides != all_sides and {-1, 1} <= all_sides and len(sides) == 1:
        text += " with eccentricity above 0" if sides == {1} else " with eccentricity below 0"
    return text


def _spans(numbers: Sequence[int], supports: int) -> str:
    plain = [str(n) for n in numbers if 0 < n < supports]
    text = [f"span {plain[0]}" if len(plain) == 1 else f"spans {', '.join(plain)}"] if plain else []
    text += ["the left overhang"] if 0 in numbers else []
    text += ["the right overhang"] if supports in numbers else []
    return " and ".join(text)

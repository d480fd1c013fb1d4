"""The prestress that a verification counts with: after all losses, just after transfer, and its secondary moments.

Immediate losses are those of the life (friction, draw-in, the bed, elastic shortening). Later ones: the stated
``long_term_loss`` of each tendon; where none is stated and the file says how the beam ages, those that the march
through time finds; else none, and that is said.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from soffit.materials.curve import Array
from soffit.member import balance
from soffit.member.balance import Along, Moments
from soffit.member.beam import Beam
from soffit.member.friction import SAME_PLACE
from soffit.member.transfer_length import transfer_length


@dataclass(frozen=True)
class Prestress:
    beam: Beam
    final: tuple[Along, ...]
    """Of each group, after all losses."""
    early: tuple[Along, ...]
    """Just after transfer."""
    moments: Moments | None
    """Primary and secondary, after all losses; none without tendons."""
    early_moments: Moments | None
    said: tuple[str, ...]

    def stress(self, group: int, x: float, early: bool = False) -> float:
        """MPa, with what bond has built up."""
        tendon = self.beam.tendons[group]
        if not tendon.x_from <= x <= tendon.x_to:
            return 0.0
        at, force = self._lists[early][group]
        low, high = bisect_left(at, x - SAME_PLACE), bisect_right(at, x + SAME_PLACE)
        if high > low:  # on a place, or the mean of both sides of a jump
            return 0.5 * (force[low] + force[high - 1]) / tendon.area
        t = (x - at[low - 1]) / (at[low] - at[low - 1])
        return (force[low - 1] * (1.0 - t) + force[low] * t) / tendon.area

    @cached_property
    def _lists(self) -> dict[bool, list[tuple[list[float], list[float]]]]:
        """Of the forces, for a cut reads one place at a time."""
        return {
            early: [(each.x.tolist(), each.force.tolist()) for each in (self.early if early else self.final)]
            for early in (False, True)
        }

    def full(self, group: int, x: float) -> float:
        """MPa after all losses, were bond complete at ``x``; zero beyond the tendon."""
        tendon = self.beam.tendons[group]
        if not tendon.x_from <= x <= tendon.x_to:
            return 0.0
        if tendon.when == "after curing" or tendon.bond == "unbonded":
            return self.stress(group, x)
        reach = self.reach(group)
        if reach <= 0.0:
            return self.stress(group, x)
        inner = min(max(x, tendon.x_from + reach), tendon.x_to - reach)
        share = min(max(min(inner - tendon.x_from, tendon.x_to - inner) / reach, 0.0), 1.0)
        return self.stress(group, inner) / share if share > 0.0 else 0.0

    def reach(self, group: int) -> float:
        """The transfer length of a pretensioned group that the life counts with, mm; 0 for others."""
        return self._reaches[group]

    @cached_property
    def _reaches(self) -> tuple[float, ...]:
        return tuple(
            0.0
            if along.tendon.when == "after curing"
            else transfer_length(self.beam, along.tendon, float(np.max(along.force)) / along.tendon.area)
            for along in self.final
        )

    def secondary(self, x: Array) -> tuple[Array, Array] | None:
        """Secondary moments and shears at ``x``; none where there are none."""
        m = self.moments
        if m is None or not np.any(np.abs(m.secondary) > 1e-6):
            return None
        moment = np.interp(x, m.x, m.secondary)
        inside = np.clip(x, m.supports[0], m.supports[-1])
        i = np.clip(np.searchsorted(m.supports, inside, side="right") - 1, 0, len(m.supports) - 2)
        at, places = np.array(m.at_supports), np.array(m.supports)
        return moment, np.asarray((at[i + 1] - at[i]) / (places[i + 1] - places[i]))


def prestress(beam: Beam) -> Prestress:
    """Raises what the march through time raises, where the losses are to be found by it."""
    if not beam.tendons:
        return Prestress(beam, (), (), None, None, ())
    said: list[str] = []
    silent = [
        i for i, t in enumerate(beam.tendons) if t.stress_is == "at the jack" and t.long_term_loss == 0.0 and t.stress
    ]
    final = balance.acting(beam)
    if silent and beam.making is not None:
        final = _aged(beam, final, silent)
        said.append("Long-term losses that the file does not state are those of the march through time (soffit age).")
    elif silent:
        names = ", ".join(_name(beam, i) for i in silent)
        said.append(f"No long-term loss is stated for {names}, and none is taken: that is on the unsafe side.")
    stated = [i for i, t in enumerate(beam.tendons) if t.long_term_loss]
    if stated:
        losses = ", ".join(f"{100 * beam.tendons[i].long_term_loss:.0f} % of {_name(beam, i)}" for i in stated)
        said.append(f"Long-term losses are those stated in the file: {losses}.")
    if any(t.stress_is == "effective" for t in beam.tendons):
        said.append(
            "Stresses given as effective are taken as they stand, at transfer too: the higher one is not known."
        )
    fresh = replace(beam, tendons=tuple(replace(t, long_term_loss=0.0) for t in beam.tendons), loads=(), making=None)
    early = balance.acting(fresh)
    return Prestress(beam, final, early, balance.moments(beam, final), balance.moments(beam, early), tuple(said))


def _aged(beam: Beam, final: tuple[Along, ...], groups: list[int]) -> tuple[Along, ...]:
    """The forces of some groups at the end of the march through time."""
    from soffit.member.time import past

    found = past(beam)
    last = found.instants[-1].step
    made = list(final)
    for i in groups:
        stress = np.nan_to_num(found.tendons[i].stress[last])
        made[i] = replace(final[i], force=np.interp(final[i].x, found.x, stress) * final[i].tendon.area)
    return tuple(made)


def _name(beam: Beam, group: int) -> str:
    return f"tendon {beam.tendons[group].name or group + 1}"

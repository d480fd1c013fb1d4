"""One stress at one stage against one limit, and the state of a beam just after a stage as the limits ask for it."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from soffit.codes.strengths import Strength
from soffit.materials.curve import Array
from soffit.member.loading import PERMANENT_CASES
from soffit.member.time.result import Instant, Past
from soffit.member.transfer_length import transfer_length
from soffit.section.elastic import ElasticLayer, cracked_plane

Kind = Literal["transfer", "sustained", "total"]
What = Literal["compression", "tension", "tendon", "bar"]
Mask = NDArray[np.bool_]
SETTLED = 1e-6
NOT_YET = "The standard means it after all losses; told before that for comparison."


@dataclass(frozen=True)
class StageCheck:
    """MPa, tension positive."""

    instant: Instant
    age: float
    """Days."""
    kind: Kind
    """Which limits apply: just after release or stressing, under what stays, or with all of a variable load on."""
    standard: str
    clause: str
    rule: str
    """As the standard writes it: "0.6 fck(t)"."""
    what: What
    where: str
    """Face, part of the beam or tendon: "soffit", "top, at an end", "tendon A"."""
    x: float
    """mm; where it is worst."""
    stress: float
    limit: float
    """A magnitude."""
    strength: str = ""
    """The strength in it and where that is from."""
    binding: bool = True
    """False: nothing is forbidden beyond it, but something else follows, which ``note`` says."""
    note: str = ""

    @property
    def ratio(self) -> float:
        """Stress over limit, 0 where it is of the other sign; infinite where nothing is allowed."""
        size = max(-self.stress if self.what == "compression" else self.stress, 0.0)
        if size <= 1e-9:
            return 0.0
        return size / self.limit if self.limit > 0.0 else inf

    @property
    def kept(self) -> bool:
        return self.ratio <= 1.0 + 1e-9


@dataclass(frozen=True)
class At:
    """A beam just after a stage."""

    past: Past
    instant: Instant
    kind: Kind

    @property
    def step(self) -> int:
        return self.instant.step

    @property
    def age(self) -> float:
        return float(self.past.t[self.step])

    @property
    def last(self) -> bool:
        return self.instant.step == self.past.instants[-1].step

    @property
    def faces(self) -> dict[str, Array]:
        """Stress of the beam's own faces, (stations,)."""
        return {"soffit": self.past.bottom[self.step], "top": self.past.top[self.step]}

    @property
    def topping(self) -> dict[str, Array]:
        """Of the topping's faces, once it acts."""
        low, high = self.past.topping_bottom, self.past.topping_top
        if low is None or high is None:
            return {}
        found = {"topping, low": low[self.step], "topping, top": high[self.step]}
        return found if any(np.any(np.nan_to_num(v) != 0.0) for v in found.values()) else {}

    @property
    def stretched(self) -> dict[str, Array]:
        """The faces where the moment makes tension, NaN elsewhere and at the ends, where prestress is still building
        up: the precompressed tensile zone in service."""
        m, inside = self.past.moment[self.step], ~self.ends()
        return {
            "soffit": np.where((m > 0.0) & inside, self.past.bottom[self.step], np.nan),
            "top": np.where((m < 0.0) & inside, self.past.top[self.step], np.nan),
        }

    def ends(self) -> Mask:
        """Ends of a simply supported member: within the transfer length of pretensioned tendons that are bonded from
        the end on, within the depth of the section where post-tensioned (*ours*)."""
        beam, x = self.past.beam, self.past.x
        simple = len(beam.supports.x) == 2 and not (beam.supports.fixed_left or beam.supports.fixed_right)
        if not simple or not beam.tendons:
            return np.zeros(len(x), dtype=bool)
        reach = max(
            transfer_length(beam, t, t.stress) if t.when == "before casting" else beam.outline.depth
            for t in beam.tendons
        )
        return np.asarray((x <= reach + SETTLED) | (x >= beam.length - reach - SETTLED))

    def check(
        self,
        faces: dict[str, Array],
        what: What,
        limit: float,
        strength: Strength | None,
        standard: str,
        clause: str,
        rule: str,
        mask: Mask | None = None,
        part: str = "",
        binding: bool = True,
        note: str = "",
    ) -> StageCheck | None:
        """The worst stress on some faces, where ``mask`` holds; none where there is no such place."""
        sign = -1.0 if what == "compression" else 1.0
        worst: tuple[float, str, int] | None = None
        for face, values in faces.items():
            size = sign * np.where(mask, values, np.nan) if mask is not None else sign * values
            if np.all(np.isnan(size)):
                continue
            i = int(np.nanargmax(size))
            if worst is None or size[i] > worst[0]:
                worst = (float(size[i]), face, i)
        if worst is None:
            return None
        size_, face, i = worst
        where = f"{face}, {part}" if part else face
        return StageCheck(
            self.instant, self.age, self.kind, standard, clause, rule, what, where, float(self.past.x[i]),
            sign * size_, limit, strength.said if strength else "", binding, note,
        )  # fmt: skip

    def tendon(
        self, group: int, limit: float, standard: str, clause: str, rule: str, stress: float, x: float, note: str = ""
    ) -> StageCheck:
        name = f"tendon {self.past.beam.tendons[group].name or group + 1}"
        return StageCheck(
            self.instant, self.age, self.kind, standard, clause, rule, "tendon", name, x, stress, limit, note=note
        )

    def acting(self, group: int) -> tuple[float, float] | None:
        """Greatest stress along a tendon, and where; none where it has none."""
        values = self.past.tendons[group].stress[self.step]
        if np.all(~np.isfinite(values)) or np.nanmax(values) <= 0.0:
            return None
        i = int(np.nanargmax(values))
        return float(values[i]), float(self.past.x[i])

    def anchored(self, group: int) -> tuple[float, float]:
        """Greatest stress at its ends, and where."""
        tendon, values = self.past.beam.tendons[group], self.past.tendons[group].stress[self.step]
        found = [(float(np.interp(x, self.past.x, values)), x) for x in (tendon.x_from, tendon.x_to)]
        return max(found)

    def stressed_now(self) -> tuple[int, ...]:
        """Tendon groups that this stage releases or stresses."""
        stage = self.instant.stage
        when = {"release": "before casting", "stress": "after curing"}.get(stage.what)
        return tuple(i for i in stage.tendons if self.past.beam.tendons[i].when == when)

    def worst_crack(self) -> tuple[float, float] | None:
        """Compression (MPa, negative) of a cracked section under the moment alone, and where; none where the beam is
        prestressed or nowhere cracked. Elastic, with the modulus of the day."""
        past, beam = self.past, self.past.beam
        where = np.flatnonzero(past.cracked[self.step] > SETTLED)
        if beam.tendons or not len(where):
            return None
        worst = (0.0, 0.0)
        modulus = float(past.modulus[self.step])
        for i in where:
            x, m = float(past.x[i]), float(past.moment[self.step, i])
            bars = [ElasticLayer(b.y, b.area, b.steel.modulus) for b in beam.bars if b.x_from <= x <= b.x_to]
            if not bars or m == 0.0:
                continue
            plane = cracked_plane(beam.outline, modulus, bars, moment=m)
            stress = min(modulus * plane.strain(0.0), modulus * plane.strain(beam.outline.depth))
            worst = min(worst, (stress, x))
        return worst


def kind_of(past: Past, instant: Instant) -> Kind:
    """Just after release and stressing the limits at transfer; with the whole of a load on that is not permanent those
    of the total load; else, and with a part of it, those of what stays."""
    if instant.stage.what in ("release", "stress"):
        return "transfer"
    acting: dict[str, float] = {}
    for load in past.acting(instant.step):
        acting[load.case] = acting.get(load.case, 0.0) + abs(load.value) * (1.0 if load.value > 0.0 else -1.0)
    for case, value in acting.items():
        whole = sum(load.value for load in past.beam.loads if load.case == case)
        if case not in (*PERMANENT_CASES, "topping") and whole > 0.0 and value >= whole * (1.0 - SETTLED):
            return "total"
    return "sustained"

"""Beams under a lasting load: the deflections of Gilbert and Nejadi (2004) against the ages that are followed."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from evidence.specimen import Bars, Specimen
from evidence.table import Row, given, rows
from soffit.beamfile import read_text
from soffit.materials.ageing.models import MODELS, model
from soffit.materials.curve import Array
from soffit.member.beam import Beam
from soffit.member.making import Scales
from soffit.member.time import band, past
from soffit.member.time.result import Band, Past
from soffit.member.time.schedule import making_of
from soffit.show.agemeasured import Measured

SPAN, OVERHANG = 3500.0, 75.0
"""mm; the overhang is not given."""
LOADED, LAST = 14.0, 394.0
"""Days: age at loading, and after 380 days under load."""
STRENGTH = 24.8
"""Mean at 28 days, MPa."""
MODULUS, CREEP, SHRINKAGE = 22800.0, 1.71, 825e-6
"""Measured (*from memory*): modulus at 14 days, MPa; creep coefficient and shrinkage from 14 days to the end."""
HUMIDITIES = (40, 50, 60)
"""Of the air, %, which is not given."""
USUAL = 50
EN = "EN 1992-1-1"
READING = 0.1
"""Error of the digitised deflections, mm, by the head of the file."""


@dataclass(frozen=True)
class Sustained:
    """A specimen, and the last deflection that was seen of it, mm."""

    name: str
    beam: Beam
    final: float
    seen: bool
    """Whether the deflection was read in print; else it is from memory."""


@dataclass(frozen=True)
class History:
    """A predicted history, and its midspan deflection as a gauge reads it that is set to zero just before loading."""

    past: Past
    station: int
    deflection: Array
    """(steps,), mm"""

    def at(self, age: Array) -> Array:
        """mm, at these ages in days; at that of loading, as the load has come on."""
        return Measured(age, age).computed(self.past, self.deflection)

    @property
    def instant(self) -> float:
        return float(self.at(np.array([LOADED]))[0])

    @property
    def final(self) -> float:
        return float(self.at(np.array([LAST]))[0])


@dataclass(frozen=True)
class Told:
    """Everything that the page tells of these beams."""

    printed: Array
    """Ages as they were read from the curve, days; the first is half a day too early, for it is that of loading."""
    points: Measured
    """Beam B1-a."""
    plain: dict[tuple[str, int], History]
    """B1-a by model and humidity, nothing measured but the strength."""
    measured: dict[str, History]
    """B1-a by model, its modulus, creep and shrinkage brought to what was measured."""
    alone: dict[str, History]
    """B1-a by EN at the usual humidity, with one change at a time."""
    bands: dict[int, Band]
    """B1-a by EN with nothing measured but the strength, by humidity."""
    finals: list[tuple[Sustained, float, float]]
    """All specimens with their last deflections by EN, mm: plain, measured."""


def text(row: Row, key: str = EN, humidity: float = USUAL) -> str:
    """The beam file of one specimen: of the concrete only its strength is told."""
    depth, count = given(row, "h_mm"), int(row["bars"][0])
    size = float(row["bars"].split("N")[1])
    bars = Bars(count, size, depth - given(row, "d_mm"), 500.0, area=given(row, "As_mm2") / count)
    specimen = Specimen(row["specimen"], given(row, "b_mm"), depth, SPAN, (), STRENGTH, (bars,), overhang=OVERHANG)
    made = specimen.text().replace("[section]", f'relative_humidity = "{humidity:g} %"\n{_AGEING}[section]')
    head, _, _ = made.partition("[press]")
    return head.replace("{model}", key) + _loads(row["sustained_load"]) + _STAGES


_AGEING = f'[ageing]\nmodel = "{{model}}"\ncured_until = "{LOADED:g} days"\n'
_STAGES = f"""\
[[stages]]
what = "support"
at = "{LOADED:g} days"
[[stages]]
what = "load"
at = "{LOADED:g} days"
cases = ["dead"]
[[stages]]
what = "age"
at = "{LAST:g} days"
"""


def _loads(said: str) -> str:
    value, unit = said.split()[:2]
    if unit == "kN/m":
        return f'[[loads]]\ncase = "dead"\nuniform = "{value} kN/m"\n'
    thirds = (OVERHANG + SPAN / 3, OVERHANG + 2 * SPAN / 3)
    return "".join(f'[[loads]]\ncase = "dead"\npoint = "{value} kN"\nat = "{x:.6f} mm"\n' for x in thirds)


def specimens(key: str = EN, humidity: float = USUAL) -> dict[str, Sustained]:
    """All six by name."""
    return {row["specimen"]: _cast(row, key, humidity) for row in rows("gilbert_nejadi_2004_inputs")}


def first(key: str = EN, humidity: float = USUAL) -> Beam:
    """B1-a, whose whole curve was published."""
    row = next(r for r in rows("gilbert_nejadi_2004_inputs") if r["specimen"] == "B1-a")
    return _cast(row, key, humidity).beam


def _cast(row: Row, key: str, humidity: float) -> Sustained:
    name, curve = row["specimen"], row["final_deflection_mm_seen"].split()
    final = float(curve[0]) if curve else given(row, "final_deflection_mm")
    return Sustained(name, read_text(text(row, key, humidity), name), final, bool(curve))


def points() -> tuple[Array, Measured]:
    """Printed ages, and the readings of B1-a under load; none of these is before the load came on."""
    table = [r for r in rows("gilbert_nejadi_2004_b1a_time_deflection") if given(r, "midspan_deflection_mm") > 0.0]
    printed, seen = (np.array([given(r, k) for r in table]) for k in ("age_days", "midspan_deflection_mm"))
    return printed, Measured(np.maximum(printed, LOADED), seen)


def scales(beam: Beam) -> Scales:
    """What brings modulus at loading, creep and shrinkage of the beam's model to the measured ones, at the end of the
    test; nothing is fitted to a deflection."""
    making = making_of(beam)
    law = model(making.model, making.casting)
    stiff = MODULUS / float(law.modulus(LOADED))
    # the model's coefficient refers to a modulus of its own; what is measured refers to the modulus at loading
    strain = float(law.creep(LAST, LOADED)) / float(law.creep_modulus(LOADED))
    shrunk = float(law.shrinkage(LAST) - law.shrinkage(LOADED))
    return Scales(modulus=stiff, creep=CREEP / MODULUS * stiff / strain, shrinkage=SHRINKAGE / shrunk)


def follow(beam: Beam, scale: Scales | None = None) -> History:
    told = past(_scaled(beam, scale))
    return _gauge(told)


def _scaled(beam: Beam, scale: Scales | None) -> Beam:
    return replace(beam, making=replace(making_of(beam), scales=scale or Scales()))


def _gauge(told: Past) -> History:
    middle = int(np.argmin(np.abs(told.x - (OVERHANG + SPAN / 2))))
    standing = next(i.step for i in told.instants if i.stage.what == "support")
    read = told.deflection[:, middle] - told.deflection[standing, middle]
    return History(told, middle, read)


def spread(beam: Beam) -> Band:
    """The band of B1-a at midspan, nothing measured but the strength."""
    return band(_scaled(beam, None), follow(beam).station)


def limits(found: Band) -> tuple[History, History]:
    """The 5 % and 95 % fractiles as the gauge reads them."""
    mean = _gauge(found.mean)
    zero = found.mean.deflection[:, found.station] - mean.deflection
    return replace(mean, deflection=found.deflection[0] - zero), replace(mean, deflection=found.deflection[1] - zero)


def outside(found: Band, seen: Measured) -> Array:
    """By how much each reading lies outside the band, mm."""
    low, high = (h.at(seen.age) for h in limits(found))
    return np.maximum(np.maximum(low - seen.deflection, seen.deflection - high), 0.0)


def _alone(scale: Scales) -> dict[str, Scales]:
    """Each measured value alone, and what is left where creep or shrinkage is taken out."""
    whole, none = Scales(), 1e-9
    return {
        "nothing measured but the strength": whole,
        "modulus alone measured": replace(whole, modulus=scale.modulus),
        # so that the strain of creep is the measured one on the model's own modulus
        "creep alone measured": replace(whole, creep=scale.creep / scale.modulus),
        "shrinkage alone measured": replace(whole, shrinkage=scale.shrinkage),
        "all three measured": scale,
        "all measured, but no creep": replace(scale, creep=none),
        "all measured, but no shrinkage": replace(scale, shrinkage=none),
        "all measured, tensile strength 30 % lower": replace(scale, tensile=0.7),
        "all measured, tensile strength 30 % higher": replace(scale, tensile=1.3),
    }


def tell() -> Told:
    printed, seen = points()
    ours = first()
    scale = scales(ours)
    usual = {key: first(key) for key in MODELS}
    return Told(
        printed,
        seen,
        {(key, h): follow(first(key, h)) for key in MODELS for h in HUMIDITIES},
        {key: follow(beam, scales(beam)) for key, beam in usual.items()},
        {name: follow(ours, each) for name, each in _alone(scale).items()},
        {h: spread(first(EN, h)) for h in HUMIDITIES},
        [(s, follow(s.beam).final, follow(s.beam, scales(s.beam)).final) for s in specimens().values()],
    )

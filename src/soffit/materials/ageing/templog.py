"""A temperature log of curing concrete: what a recorder wrote, put in order, with a sentence for everything that was
done to it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from soffit.materials.curve import Array

COLDEST, HOTTEST = -40.0, 100.0
"""°C between which a reading is believed."""
LONGEST_INTERVAL = 1.0 / 24.0
"""Days. ASTM C1074: a reading every half hour in the first 48 hours, then every hour (*from memory*)."""


@dataclass(frozen=True)
class TemperatureLog:
    """Readings in order: ``times``, days since casting, strictly rising; ``temperatures`` of the concrete, °C."""

    times: Array
    temperatures: Array
    notes: tuple[str, ...] = field(default=())

    @property
    def durations(self) -> Array:
        """Days between readings."""
        return np.diff(self.times)

    @property
    def means(self) -> Array:
        """Mean temperature of each interval, °C."""
        return 0.5 * (self.temperatures[1:] + self.temperatures[:-1])

    @property
    def end(self) -> float:
        """Days since casting at the last reading."""
        return float(self.times[-1])


def temperature_log(times: Sequence[float] | Array, temperatures: Sequence[float] | Array) -> TemperatureLog:
    """A log from raw readings: ``times`` in days since casting, ``temperatures`` in °C, of equal length.

    Readings without a temperature are left out, readings out of order are sorted, a reading that stands twice counts
    once; each is said in ``notes``. Raises ``ValueError`` for a reading without a time or before casting, for two
    temperatures at one time, for a temperature that no curing concrete has, and for fewer than two readings.
    """
    t, temps = np.asarray(times, dtype=float), np.asarray(temperatures, dtype=float)
    notes: list[str] = []
    if t.ndim != 1 or t.shape != temps.shape:
        raise ValueError(f"the log has {t.size} times and {temps.size} temperatures: one of each makes a reading")
    t, temps = _without_gaps(t, temps, notes)
    t, temps = _in_order(t, temps, notes)
    if t.size < 2:
        raise ValueError("a temperature log needs two readings at least")
    _hints(t, temps, notes)
    return TemperatureLog(t, temps, tuple(notes))


def _without_gaps(t: Array, temps: Array, notes: list[str]) -> tuple[Array, Array]:
    if not np.all(np.isfinite(t)):
        raise ValueError(f"reading {int(np.argmin(np.isfinite(t))) + 1} of the temperature log has no time")
    missing = np.isnan(temps)
    if missing.any():
        how_many = "1 reading" if missing.sum() == 1 else f"{missing.sum()} readings"
        notes.append(f"{how_many} without a temperature left out; it is taken to run straight between the neighbours.")
        t, temps = t[~missing], temps[~missing]
    if t.size and t.min() < 0.0:
        raise ValueError(f"the temperature log has a reading at {24 * t.min():g} hours: time counts from casting")
    wrong = ~((temps >= COLDEST) & (temps <= HOTTEST))
    if wrong.any():
        k = int(np.argmax(wrong))
        raise ValueError(
            f"a temperature of {temps[k]:g} °C at {24 * t[k]:.4g} hours is none of curing concrete "
            f"({COLDEST:g} to {HOTTEST:g} °C): is the log in °C?"
        )
    return t, temps


def _in_order(t: Array, temps: Array, notes: list[str]) -> tuple[Array, Array]:
    if np.any(np.diff(t) < 0.0):
        notes.append("The readings were not in the order of time; they are sorted.")
        order = np.argsort(t, kind="stable")
        t, temps = t[order], temps[order]
    same = np.diff(t) == 0.0
    if not same.any():
        return t, temps
    differ = same & (np.diff(temps) != 0.0)
    if differ.any():
        k = int(np.argmax(differ))
        raise ValueError(
            f"the temperature log has both {temps[k]:g} °C and {temps[k + 1]:g} °C at {24 * t[k]:.4g} hours: "
            "which one is right?"
        )
    notes.append(f"{same.sum()} repeated reading{'s' if same.sum() > 1 else ''} counted once.")
    keep = np.append(True, ~same)
    return t[keep], temps[keep]


def _hints(t: Array, temps: Array, notes: list[str]) -> None:
    if t[0] > 0.0:
        notes.append(f"The log begins {24 * t[0]:.3g} hours after casting; what was gained before is not counted.")
    k = int(np.argmax(np.diff(t)))
    if t[k + 1] - t[k] > LONGEST_INTERVAL * (1.0 + 1e-9):
        notes.append(
            f"Between {24 * t[k]:.4g} and {24 * t[k + 1]:.4g} hours there is no reading; ASTM C1074 asks for one an "
            "hour at least (from memory)."
        )
    if temps.max() > 70.0:
        notes.append(
            f"The concrete reached {temps.max():.0f} °C: above about 70 °C later expansion (delayed ettringite) is a "
            "known danger (common practice)."
        )

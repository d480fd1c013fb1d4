"""May the strands be released now? From a temperature log, a maturity function and a strength for every maturity."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from soffit.materials.ageing.maturity import MaturityFunction, maturity, outside
from soffit.materials.ageing.templog import TemperatureLog
from soffit.materials.curve import Array

StrengthLaw = Callable[[float], float]
"""Strength, MPa, at a maturity in the unit of the maturity function; never falling."""
CAUTION = (
    "Maturity tells nothing of a wrong mix, lost water or bad compaction: before the strands are released, test "
    "cylinders that were cured with the member or its strength in place (ASTM C1074, from memory)."
)


@dataclass(frozen=True)
class Calibration:
    """Strength over maturity from cylinders of the same mix: straight lines over the logarithm of maturity.

    Below the first point nothing is claimed (zero strength), beyond the last the strength is held.
    """

    maturities: tuple[float, ...]
    strengths: tuple[float, ...]

    def __post_init__(self) -> None:
        m, s = np.array(self.maturities, dtype=float), np.array(self.strengths, dtype=float)
        if m.shape != s.shape or m.size < 2:
            raise ValueError("a strength–maturity calibration needs two points or more of maturity and strength")
        if not (np.all(np.isfinite(m)) and np.all(m > 0.0) and np.all(np.diff(m) > 0.0)):
            raise ValueError("the maturities of a calibration must be above zero and rise from point to point")
        if not (np.all(np.isfinite(s)) and np.all(s > 0.0) and np.all(np.diff(s) >= 0.0)):
            raise ValueError("the strengths of a calibration must be above zero and may not fall from point to point")

    def __call__(self, reached: float) -> float:
        if reached < self.maturities[0]:
            return 0.0
        return float(np.interp(np.log(reached), np.log(self.maturities), self.strengths))


def by_age(strength: Callable[[Array | float], Array]) -> StrengthLaw:
    """A strength law from a model's ``strength`` over equivalent age, in days (at 20 °C)."""
    return lambda reached: float(strength(reached)) if reached > 0.0 else 0.0


@dataclass(frozen=True)
class Release:
    """When a wanted strength is reached."""

    reached: bool
    time: float | None
    """Days since casting when it is reached; none where it is not within the log."""
    strength: float
    """MPa, at the end of the log."""
    maturity: float
    unit: str
    forecast: float | None
    """Days after the end of the log until it is reached if the last temperature stays; none where reached or never."""
    verdict: str
    notes: tuple[str, ...]


def release(log: TemperatureLog, wanted: float, law: StrengthLaw, function: MaturityFunction) -> Release:
    """Whether and when the concrete of ``log`` reaches ``wanted`` MPa, with a plain verdict.

    ``law`` must be calibrated for ``function``: in its unit and with its datum, energy and reference temperature.
    Raises ``ValueError`` for a wanted strength that is not positive.
    """
    if not 0.0 < wanted < 200.0:
        raise ValueError(f"the wanted strength is {wanted:g} MPa, and only values from 0 to 200 MPa are accepted")
    grown = maturity(log, function)
    strengths = np.array([law(float(m)) for m in grown])
    notes = [*log.notes, *outside(log, function), *_beyond(law, float(grown[-1])), CAUTION]
    time = _when(log.times, grown, strengths, wanted, law)
    forecast = None if time is not None else _forecast(log, float(grown[-1]), wanted, law, function)
    now = float(strengths[-1])
    return Release(
        time is not None,
        time,
        now,
        float(grown[-1]),
        function.unit,
        forecast,
        _verdict(log, wanted, time, now, forecast),
        tuple(notes),
    )


def _when(times: Array, grown: Array, strengths: Array, wanted: float, law: StrengthLaw) -> float | None:
    enough = strengths >= wanted
    if not enough.any():
        return None
    k = int(np.argmax(enough))
    if k == 0:
        return float(times[0])
    need = _maturity_for(law, wanted, float(grown[k - 1]), float(grown[k]))
    share = (need - grown[k - 1]) / (grown[k] - grown[k - 1])
    return float(times[k - 1] + share * (times[k] - times[k - 1]))


def _maturity_for(law: StrengthLaw, wanted: float, low: float, high: float) -> float:
    """The least maturity in ``low`` … ``high`` with the wanted strength, which the upper end has."""
    for _ in range(80):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if law(middle) >= wanted else (middle, high)
    return high


def _forecast(
    log: TemperatureLog, now: float, wanted: float, law: StrengthLaw, function: MaturityFunction
) -> float | None:
    """Days until the strength is reached at the last temperature; none within 28 days."""
    rate = float(function.rate(log.temperatures[-1]))
    most = now + 28.0 * rate
    if rate <= 0.0 or law(most) < wanted:
        return None
    return (_maturity_for(law, wanted, now, most) - now) / rate


def _beyond(law: StrengthLaw, reached: float) -> Sequence[str]:
    if not isinstance(law, Calibration) or law.maturities[0] <= reached <= law.maturities[-1]:
        return ()
    if reached < law.maturities[0]:
        return ("The calibration begins at a higher maturity than the log reaches: no strength is claimed yet.",)
    return ("The log goes beyond the calibration; from its last point on the strength is held.",)


def _verdict(log: TemperatureLog, wanted: float, time: float | None, now: float, forecast: float | None) -> str:
    end = f"{24 * log.end:.1f} hours after casting"
    if time is not None:
        return (
            f"Yes: {wanted:.1f} MPa were reached {24 * time:.1f} hours after casting; at the end of the log, {end}, "
            f"the concrete has {now:.1f} MPa by its temperature."
        )
    short = f"Not yet: {end} the concrete has {now:.1f} MPa by its temperature, and {wanted:.1f} MPa are wanted"
    if forecast is None:
        return f"{short}; at the last temperature it does not get there within 28 days."
    return f"{short}; if it stays at {log.temperatures[-1]:.0f} °C it gets there in about {24 * forecast:.1f} hours."

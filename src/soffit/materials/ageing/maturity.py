"""Maturity of concrete from its temperature log: Nurse–Saul, Arrhenius, and the temperature-adjusted age of EN
1992-1-1.

A maturity function gives, for a temperature in °C, how much it adds a day. Each interval of a log counts with its mean
temperature, as in ASTM C1074.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from soffit.materials.ageing.check import between
from soffit.materials.ageing.templog import TemperatureLog
from soffit.materials.curve import Array

GAS = 8.314
"""J/(mol K)."""
KELVIN = 273.15
ASTM_DATUM = 0.0
"""°C: ASTM C1074 for type I cement without admixtures, cured at 0 to 40 °C (*from memory*); −10 °C is the old value of
Saul.
"""
ASTM_ENERGY = 41500.0
"""J/mol: ASTM C1074, type I cement without admixtures: 40 000 to 45 000 J/mol, or Q = 5000 K (*from memory*)."""
ASTM_REFERENCE = 23.0
"""°C; in European use 20 °C (*from memory*)."""


@dataclass(frozen=True)
class MaturityFunction:
    """How fast concrete matures: ``rate`` of a temperature (°C, any shape), in ``unit`` a day."""

    name: str
    source: str
    unit: str
    rate: Callable[[Array], Array]
    low: float
    high: float
    """°C, the range it was given for."""


def nurse_saul(datum: float = ASTM_DATUM) -> MaturityFunction:
    """Temperature–time factor Σ (T − T0) Δt in °C·days, ASTM C1074 (1) (*form from memory*); nothing below the datum.

    ``datum``: T0, °C, from tests on the concrete's own mortar, else by cement. Raises ``ValueError`` outside −20 to 20
    °C.
    """
    t0 = between("datum temperature", datum, -20.0, 20.0, "°C")
    return MaturityFunction(
        f"Nurse–Saul, datum {t0:g} °C",
        "ASTM C1074 (from memory); R. W. Nurse 1949, A. G. A. Saul 1951",
        "°C·days",
        lambda temps: np.maximum(temps - t0, 0.0),
        0.0,
        40.0,
    )


def nurse_saul_age(datum: float = ASTM_DATUM, reference: float = ASTM_REFERENCE) -> MaturityFunction:
    """Equivalent age in days at ``reference`` °C by Nurse–Saul: Σ (T − T0)/(Tref − T0) Δt. Raises as ``nurse_saul``."""
    factor = nurse_saul(datum)
    between("reference temperature", reference, datum + 1.0, 60.0, "°C")
    return MaturityFunction(
        f"Nurse–Saul equivalent age, datum {datum:g} °C",
        factor.source,
        f"days at {reference:g} °C",
        lambda temps: factor.rate(temps) / (reference - datum),
        factor.low,
        factor.high,
    )


def arrhenius(energy: float = ASTM_ENERGY, reference: float = ASTM_REFERENCE) -> MaturityFunction:
    """Equivalent age Σ exp(−Ea/R (1/T − 1/Tref)) Δt in days at ``reference`` °C, T in kelvin: ASTM C1074 (2) (*form
    from memory*); P. Freiesleben Hansen and E. J. Pedersen, Nordisk Betong 1, 1977 (*from memory*).

    ``energy``: apparent activation energy, J/mol. Raises ``ValueError`` outside 10 000 to 100 000 J/mol (is it in kJ?).
    """
    ea = between("activation energy", energy, 10000.0, 100000.0, "J/mol")
    between("reference temperature", reference, 0.0, 60.0, "°C")
    return MaturityFunction(
        f"Arrhenius, {ea / 1000:g} kJ/mol",
        "ASTM C1074 (from memory); Freiesleben Hansen & Pedersen 1977",
        f"days at {reference:g} °C",
        lambda temps: np.exp(-ea / GAS * (1.0 / (temps + KELVIN) - 1.0 / (reference + KELVIN))),
        0.0,
        60.0,
    )


def en1992_age() -> MaturityFunction:
    """Temperature-adjusted age tT = Σ exp(−(4000/(273 + T) − 13.65)) Δt, days at 20 °C: EN 1992-1-1:2004 (B.10), used
    by 10.3.1.1(3) for heat-cured precast concrete. For 0 to 80 °C (*from memory*).
    """
    return MaturityFunction(
        "temperature-adjusted age",
        "EN 1992-1-1:2004 (B.10), 10.3.1.1(3)",
        "days at 20 °C",
        lambda temps: np.exp(-(4000.0 / (273.0 + temps) - 13.65)),
        0.0,
        80.0,
    )


def maturity(log: TemperatureLog, function: MaturityFunction) -> Array:
    """Maturity at every reading of ``log``, zero at the first, in the function's unit."""
    steps = function.rate(log.means) * log.durations
    return np.concatenate(([0.0], np.cumsum(steps)))


def outside(log: TemperatureLog, function: MaturityFunction) -> tuple[str, ...]:
    """A sentence where the log leaves the range of the function."""
    low, high = float(log.temperatures.min()), float(log.temperatures.max())
    if low >= function.low and high <= function.high:
        return ()
    return (
        f"The log runs from {low:.0f} to {high:.0f} °C, beyond the {function.low:g} to {function.high:g} °C for which "
        f"{function.name} is meant.",
    )

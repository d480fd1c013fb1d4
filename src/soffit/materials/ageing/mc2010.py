"""Ageing by fib Model Code 2010: 5.1.9 (strength, creep, shrinkage with time), 5.3 (relaxation). *From memory*, but for
the strength gain and the formula of the tensile strength.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from soffit.materials import standards
from soffit.materials.ageing import cement as gains
from soffit.materials.ageing import relaxation
from soffit.materials.ageing.base import Ageing, Range, Record, check_surroundings
from soffit.materials.ageing.casting import CEMENTS, STEELS, Casting
from soffit.materials.ageing.check import ages, between, loading_ages, one_of, under_load
from soffit.materials.curve import Array

AGGREGATE = {"quartzite": 1.0, "limestone": 0.9, "sandstone": 0.7, "basalt": 1.2}
"""αE of Table 5.1-6."""
DRYING = {"S": (3.0, 0.013), "N": (4.0, 0.012), "R": (6.0, 0.012)}
"""αds1, αds2 of Table 5.1-13."""
BASIC = {"S": 800.0, "N": 700.0, "R": 600.0}
"""αbs of Table 5.1-13."""
SWELLING = 0.25
"""−βRH from 99 βs1 per cent of humidity on."""


@dataclass(frozen=True)
class Mc2010(Ageing):
    """A concrete by fib Model Code 2010.

    strength_28: fcm, MPa; humidity: %; notional_size: h = 2 Ac/u, mm; cement: S (32.5 N), N (32.5 R, 42.5 N) or R (42.5
    R, 52.5); drying_from: ts, days; aggregate: αE; steel and rho (ρ1000 at 0.7, per cent): for relaxation. Raises
    ``ValueError`` for values that no concrete has.
    """

    strength_28: float
    humidity: float
    notional_size: float
    cement: str = "N"
    drying_from: float = 7.0
    aggregate: str = "quartzite"
    steel: str = "low relaxation"
    rho: float | None = None

    record: ClassVar[Record] = Record(
        key="MC 2010",
        name="fib Model Code 2010",
        source="fib Model Code for Concrete Structures 2010, 5.1.5, 5.1.7, 5.1.9, 5.3",
        edition="2013",
        ranges=(
            Range("mean strength", "strength_28", 20.0, 130.0, "MPa"),
            Range("relative humidity", "humidity", 40.0, 100.0, "%"),
        ),
        strength="βcc(t) fcm; s = 0.20 for all cements above fcm = 60 MPa",
        modulus="tangent at the origin, Eci(t) = √βcc(t) Eci, Eci = 21500 αE (fcm/10)^(1/3)",
        creep_refers_to="the tangent modulus at 28 days, Eci, whatever the age at loading",
        linear_limit=0.40,
        nonlinear="creep is raised by exp(1.5 (kσ − 0.4)), which the Model Code gives up to a share of 0.6.",
        shrinkage="drying and basic (autogenous) apart",
        relaxation="ρ1000 (t/1000 h)^k, 50 years near three times ρ1000",
        sizes="h = 2 Ac/u, mm",
        doubts="everything but βcc and fctm; relaxation most of all",
    )

    def __post_init__(self) -> None:
        between("mean strength", self.strength_28, 8.5, 200.0, "MPa")
        check_surroundings(self.humidity, self.notional_size, "notional size", self.drying_from)
        one_of("cement class", self.cement, CEMENTS)
        one_of("aggregate", self.aggregate, tuple(AGGREGATE))
        one_of("tendon steel", self.steel, STEELS)

    @classmethod
    def of(cls, cast: Casting) -> Mc2010:
        """The model for a casting. Heat is not an input of its own: give temperature-adjusted ages."""
        return cls(cast.strength, cast.humidity, cast.notional_size, cast.cement, cast.cured_until, steel=cast.steel)

    def _assumed(self) -> tuple[str, ...]:
        return ("The tensile strength with age follows EN 1992-1-1:2004 3.1.2(9): fib Model Code 2010 gives no law.",)

    @property
    def modulus_28(self) -> float:
        """Eci, MPa."""
        return float(21500.0 * AGGREGATE[self.aggregate] * (self.strength_28 / 10.0) ** (1.0 / 3.0))

    def gain(self, age: Array | float) -> Array:
        """βcc(t)."""
        return gains.gain(age, gains.mc_coefficient(self.cement, self.strength_28))

    def strength(self, age: Array | float) -> Array:
        return self.gain(age) * self.strength_28

    def tensile(self, age: Array | float) -> Array:
        power = np.where(ages(age) < 28.0, 1.0, 2.0 / 3.0)
        # Table 3.1 of EN 1992-1-1 has the Model Code's formulas of fctm
        return self.gain(age) ** power * standards.en_tensile(self.strength_28)

    def modulus(self, age: Array | float) -> Array:
        return np.sqrt(self.gain(age)) * self.modulus_28

    def creep_modulus(self, loaded: Array | float) -> Array:
        return np.full(np.shape(loaded), self.modulus_28)

    def basic_creep(self, days: Array, adjusted: Array) -> Array:
        """φbc = 1.8/fcm^0.7 ln((30/t0,adj + 0.035)² (t − t0) + 1): logarithmic, without an upper bound."""
        rate = (30.0 / adjusted + 0.035) ** 2
        return 1.8 / self.strength_28**0.7 * np.log1p(rate * days)

    def drying_creep(self, days: Array, adjusted: Array) -> Array:
        """φdc = β(fcm) β(RH) β(t0) βdc(t, t0), with γ(t0) and βh."""
        dry = (1.0 - self.humidity / 100.0) / (0.1 * self.notional_size / 100.0) ** (1.0 / 3.0)
        notional = 412.0 / self.strength_28**1.4 * dry / (0.1 + adjusted**0.2)
        a = (35.0 / self.strength_28) ** 0.5
        bound = min(1.5 * self.notional_size + 250.0 * a, 1500.0 * a)
        power = 1.0 / (2.3 + 3.5 / np.sqrt(adjusted))
        return notional * (days / (bound + days)) ** power

    def creep(
        self,
        age: Array | float,
        loaded: Array | float,
        compression: Array | float = 0.0,
        effective_age: Array | float | None = None,
    ) -> Array:
        """φ = φbc + φdc, and × exp(1.5 (kσ − 0.4)) beyond 0.4 fcm(t0)."""
        strong = loading_ages(loaded if effective_age is None else effective_age)
        adjusted = gains.adjusted_age(strong, self.cement)
        days = under_load(age, loaded)
        k = self.stress_share(strong, compression)
        linear = self.basic_creep(days, adjusted) + self.drying_creep(days, adjusted)
        return linear * np.exp(1.5 * np.maximum(k - 0.40, 0.0))

    def remarks(self, loaded: float, compression: float = 0.0) -> tuple[str, ...]:
        said = super().remarks(loaded, compression)
        if compression > 0.6 * float(self.strength(loading_ages(loaded))):
            said = (*said, "Above 0.6 of the strength the creep of fib Model Code 2010 is extrapolated.")
        return said

    def drying(self, age: Array | float) -> Array:
        """εcds0(fcm) βRH √((t − ts)/(0.035 h² + t − ts)); negative (swelling) from 99 βs1 per cent of humidity on."""
        days = np.maximum(ages(age) - self.drying_from, 0.0)
        a1, a2 = DRYING[self.cement]
        whole = (220.0 + 110.0 * a1) * np.exp(-a2 * self.strength_28) * 1e-6
        wet = 99.0 * min((35.0 / self.strength_28) ** 0.1, 1.0)
        dry = 1.55 * (1.0 - (self.humidity / 100.0) ** 3) if self.humidity < wet else -SWELLING
        return whole * dry * np.sqrt(days / (0.035 * self.notional_size**2 + days))

    def autogenous(self, age: Array | float) -> Array:
        """εcbs = αbs ((0.1 fcm)/(6 + 0.1 fcm))^2.5 10⁻⁶ (1 − exp(−0.2 √t))."""
        f = 0.1 * self.strength_28
        whole = BASIC[self.cement] * (f / (6.0 + f)) ** 2.5 * 1e-6
        return whole * -np.expm1(-0.2 * np.sqrt(ages(age)))

    def relaxation(self, time: Array | float, stress_ratio: Array | float) -> Array:
        return relaxation.mc2010(time, stress_ratio, self.steel, self.rho)

"""Ageing by EN 1992-1-1:2004 (with corrigenda to 2010): 3.1.2 to 3.1.4, Annex B, 3.3.2; recommended values.

The formulas of creep and drying were seen in secondary print; what was not is marked *from memory* where it stands.
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
"""Factor on Ecm by aggregate, 3.1.3(2)."""
DRYING = {"S": (3.0, 0.13), "N": (4.0, 0.12), "R": (6.0, 0.11)}
"""αds1 and αds2 of (B.11) by cement class."""
SIZES, SIZE_FACTORS = (100.0, 200.0, 300.0, 500.0), (1.0, 0.85, 0.75, 0.70)
"""h0, mm, and kh of Table 3.3 (*from memory*); held outside."""


def humidity_factor(strength: float, humidity: float, notional_size: float) -> float:
    """φRH, (B.3a), (B.3b). ``strength``: fcm, MPa; ``humidity`` %; ``notional_size`` mm. α1, α2 count above 35 MPa
    only.
    """
    a1 = min(1.0, (35.0 / strength) ** 0.7)
    a2 = min(1.0, (35.0 / strength) ** 0.2)
    return float((1.0 + a1 * (1.0 - humidity / 100.0) / (0.1 * notional_size ** (1.0 / 3.0))) * a2)


def time_constant(strength: float, humidity: float, notional_size: float) -> float:
    """βH in days, (B.8a), (B.8b); humidity in per cent."""
    a3 = min(1.0, (35.0 / strength) ** 0.5)
    whole = 1.5 * (1.0 + (0.012 * humidity) ** 18) * notional_size + 250.0 * a3
    return float(min(whole, 1500.0 * a3))


def nominal_drying(strength: float, humidity: float, cement: str) -> float:
    """εcd,0, (B.11), (B.12): a shortening, positive."""
    a1, a2 = DRYING[cement]
    dry = 1.55 * (1.0 - (humidity / 100.0) ** 3)
    return float(0.85 * (220.0 + 110.0 * a1) * np.exp(-a2 * 0.1 * strength) * 1e-6 * dry)


@dataclass(frozen=True)
class En1992(Ageing):
    """A concrete by EN 1992-1-1:2004.

    strength: fcm at 28 days, MPa; humidity: %; notional_size: h0 = 2 Ac/u, mm; cement: S, N or R; drying_from: ts,
    days; aggregate: for Ecm; steel and rho (ρ1000 in per cent, by certificate): for relaxation. Ages of the strength,
    the moduli and the tensile strength are ages at 20 °C (else temperature-adjusted ones, (B.10)). Raises
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
        key="EN 1992-1-1",
        name="EN 1992-1-1",
        source="EN 1992-1-1, 3.1.2 to 3.1.4, Annex B, 3.3.2, recommended values",
        edition="2004 with corrigenda AC:2008 and AC:2010",
        ranges=(
            Range("mean strength", "strength_28", 20.0, 98.0, "MPa"),
            Range("relative humidity", "humidity", 40.0, 100.0, "%"),
        ),
        strength="βcc(t) fcm, 3.1.2(6)",
        modulus="tangent at the origin, 1.05 Ecm(t), Ecm(t) = (fcm(t)/fcm)^0.3 Ecm (3.1.3(3))",
        creep_refers_to="the tangent modulus at 28 days, Ec = 1.05 Ecm (3.1.4(2)), whatever the age at loading",
        linear_limit=0.45,
        nonlinear="creep is raised by exp(1.5 (kσ − 0.45)), 3.1.4(4).",
        shrinkage="drying and autogenous apart (3.1.4(6))",
        relaxation="3.3.2(7), classes 1 to 3, held from 500 000 hours on",
        sizes="h0 = 2 Ac/u, mm",
        doubts="adjustment of the age at loading (B.9), kh, nonlinear creep, exponent of fctm(t), 500 000 hours",
    )

    def __post_init__(self) -> None:
        between("mean strength", self.strength_28, 8.5, 200.0, "MPa")
        check_surroundings(self.humidity, self.notional_size, "notional size", self.drying_from)
        one_of("cement class", self.cement, CEMENTS)
        one_of("aggregate", self.aggregate, tuple(AGGREGATE))
        one_of("tendon steel", self.steel, STEELS)

    @classmethod
    def of(cls, cast: Casting) -> En1992:
        """The model for a casting. Heat is not an input of its own: give temperature-adjusted ages."""
        return cls(cast.strength, cast.humidity, cast.notional_size, cast.cement, cast.cured_until, steel=cast.steel)

    @property
    def characteristic_28(self) -> float:
        """fck = fcm − 8 MPa (Table 3.1)."""
        return self.strength_28 - 8.0

    @property
    def modulus_28(self) -> float:
        """Ec = 1.05 Ecm at 28 days, MPa."""
        return 1.05 * AGGREGATE[self.aggregate] * standards.en_secant_modulus(self.strength_28)

    def gain(self, age: Array | float) -> Array:
        """βcc(t), (3.2)."""
        return gains.gain(age, gains.en_coefficient(self.cement))

    def strength(self, age: Array | float) -> Array:
        return self.gain(age) * self.strength_28

    def characteristic(self, age: Array | float) -> Array:
        """fck(t) = fcm(t) − 8 MPa before 28 days, fck from then on (3.1.2(5)); not below zero. The standard asks for
        tests up to 3 days.
        """
        return np.clip(self.strength(age) - 8.0, 0.0, self.characteristic_28)

    def tensile(self, age: Array | float) -> Array:
        # 3.1.2(9), (3.4); the exponent from memory
        power = np.where(ages(age) < 28.0, 1.0, 2.0 / 3.0)
        return self.gain(age) ** power * standards.en_tensile(self.strength_28)

    def modulus(self, age: Array | float) -> Array:
        return self.gain(age) ** 0.3 * self.modulus_28

    def secant_modulus(self, age: Array | float) -> Array:
        """Ecm(t), MPa, the secant to 0.4 fcm(t) (3.1.3(3))."""
        return self.modulus(age) / 1.05

    def creep_modulus(self, loaded: Array | float) -> Array:
        return np.full(np.shape(loaded), self.modulus_28)

    def loading_strength(self, loaded: Array | float) -> Array:
        return self.characteristic(loading_ages(loaded))

    def creep(
        self,
        age: Array | float,
        loaded: Array | float,
        compression: Array | float = 0.0,
        effective_age: Array | float | None = None,
    ) -> Array:
        """φ(t, t0) = φRH β(fcm) β(t0) βc(t, t0), (B.1) to (B.9), and (3.7) beyond 0.45 fck(t0)."""
        strong = loading_ages(loaded if effective_age is None else effective_age)
        t0 = gains.adjusted_age(strong, self.cement)
        notional = (
            humidity_factor(self.strength_28, self.humidity, self.notional_size)
            * (16.8 / np.sqrt(self.strength_28))  # (B.4)
            / (0.1 + t0**0.20)  # (B.5)
        )
        days = under_load(age, loaded)
        growth = (days / (time_constant(self.strength_28, self.humidity, self.notional_size) + days)) ** 0.3  # (B.7)
        k = self.stress_share(strong, compression)
        return notional * growth * np.exp(1.5 * np.maximum(k - 0.45, 0.0))

    def drying(self, age: Array | float) -> Array:
        """βds(t, ts) kh εcd,0, (3.9), (3.10): 0.04 √(h0³) with h0 in mm."""
        days = np.maximum(ages(age) - self.drying_from, 0.0)
        growth = days / (days + 0.04 * self.notional_size**1.5)
        size = float(np.interp(self.notional_size, SIZES, SIZE_FACTORS))
        return growth * size * nominal_drying(self.strength_28, self.humidity, self.cement)

    def autogenous(self, age: Array | float) -> Array:
        """2.5 (fck − 10) 10⁻⁶ (1 − exp(−0.2 √t)), (3.11) to (3.13); none below fck = 10 MPa."""
        return 2.5e-6 * max(self.characteristic_28 - 10.0, 0.0) * -np.expm1(-0.2 * np.sqrt(ages(age)))

    def relaxation(self, time: Array | float, stress_ratio: Array | float) -> Array:
        return relaxation.en1992(time, stress_ratio, self.steel, self.rho)

"""Ageing by AASHTO LRFD, the refined method: 5.4.2.3 (creep, shrinkage), 5.4.2.4 (modulus), 5.9.3.4 (relaxation). *From
memory*; 8th and 9th editions. Computed in ksi and in, the units of its constants. The losses built on it are in
``aashto_losses``.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from soffit.materials.ageing import relaxation
from soffit.materials.ageing.base import Ageing, Range, Record, check_surroundings, no_effective_age
from soffit.materials.ageing.casting import STEELS, Casting
from soffit.materials.ageing.check import ages, between, loading_ages, one_of, under_load
from soffit.materials.curve import Array
from soffit.materials.standards import PSI

INCH = 25.4
KSI = 1000.0 * PSI
KCF = 16018.463
"""One kip a cubic foot in kg/m³."""
EDITIONS = ("2015 on", "before 2015")
"""The time factor ktd was changed with the 2015 interim revisions (7th edition)."""


def time_factor(days: Array, transfer_strength: float, edition: str = "2015 on") -> Array:
    """ktd: t/(12 (100 − 4 f'ci)/(f'ci + 20) + t), before 2015 t/(61 − 4 f'ci + t); ``transfer_strength`` in **ksi**."""
    f = transfer_strength
    half = 12.0 * (100.0 - 4.0 * f) / (f + 20.0) if edition == "2015 on" else 61.0 - 4.0 * f
    return days / (half + days)


@dataclass(frozen=True)
class Aashto(Ageing):
    """A concrete by AASHTO LRFD, refined.

    strength_28: f'c, MPa; humidity: %; volume_surface: V/S, mm; drying_from: end of curing, days; transfer_strength:
    f'ci at transfer_age (days), MPa: none takes 0.80 f'c, as the standard says where the age at loading is not known;
    heat_days: days of accelerated curing, each of which counts as seven in the age at loading; early_drying: whether
    drying began before five days of curing (20 % more shrinkage), decided from drying_from and heat_days where not
    given; density: kg/m³, by Table 3.5.1-1 where not given; k1: aggregate factor of the modulus. Raises ``ValueError``
    for values that no concrete has.
    """

    strength_28: float
    humidity: float
    volume_surface: float
    drying_from: float = 7.0
    transfer_strength: float | None = None
    transfer_age: float | None = None
    heat_days: float = 0.0
    early_drying: bool | None = None
    density: float | None = None
    k1: float = 1.0
    edition: str = "2015 on"
    steel: str = "low relaxation"

    record: ClassVar[Record] = Record(
        key="AASHTO LRFD",
        name="AASHTO LRFD, refined",
        source="AASHTO LRFD Bridge Design Specifications, 5.4.2.3, 5.4.2.4, 5.9.3.4",
        edition="8th (2017) and 9th (2020); ktd of before 2015 as a choice",
        ranges=(
            Range("strength", "strength_28", 4.0 * KSI, 15.0 * KSI, "MPa"),
            Range("volume over surface", "volume_surface", 0.0, 6.0 * INCH, "mm"),
            Range("relative humidity", "humidity", 35.0, 100.0, "%"),
        ),
        strength="none of its own: the form t/(a + β t) of ACI 209R-92 through f'ci and f'c (ours)",
        modulus="Ec = 120000 K1 wc² f'c(t)^0.33 ksi, 5.4.2.4",
        creep_refers_to="the modulus at the age of loading: Eci at transfer, Ec for later loads (5.9.3.4)",
        linear_limit=0.45,
        nonlinear="AASHTO LRFD has no nonlinear creep (nor a limit to it; that of EN 1992-1-1 is taken), "
        "so the strain is underestimated.",
        shrinkage="one total from the end of curing; autogenous not told apart",
        relaxation="C5.9.3.4.2c: log10(hours)/45 (fpi/fpy − 0.55), /10 for stress-relieved",
        sizes="V/S, mm",
        doubts="everything",
    )

    def __post_init__(self) -> None:
        between("strength", self.strength_28, 7.0, 165.0, "MPa")
        check_surroundings(self.humidity, self.volume_surface, "volume over surface", self.drying_from)
        one_of("edition", self.edition, EDITIONS)
        one_of("tendon steel", self.steel, STEELS)
        between("time of accelerated curing", self.heat_days, 0.0, 28.0, "days")
        between("aggregate factor K1", self.k1, 0.3, 3.0)
        if (self.transfer_strength is None) != (self.transfer_age is None):
            raise ValueError("strength at transfer and age at transfer are wanted together, or neither")
        if self.transfer_strength is not None and self.transfer_age is not None:
            between("age at transfer", self.transfer_age, 0.1, 27.0, "days")
            between("strength at transfer", self.transfer_strength, 0.1 * self.strength_28, self.strength_28, "MPa")
        if self.density is not None:
            between("density", self.density, 1000.0, 4000.0, "kg/m³")
        # 61 − 4 f'ci and 100 − 4 f'ci must stay well above zero
        f, most = self.transfer / KSI, 24.0 if self.edition == "2015 on" else 15.0
        between("strength at transfer", f * KSI, 0.0, round(most * KSI), "MPa")

    @classmethod
    def of(cls, cast: Casting) -> Aashto:
        """The model for a casting, with its ordered strength, for which the refined method was calibrated."""
        return cls(
            cast.ordered,
            cast.humidity,
            cast.notional_size / 2.0,
            cast.cured_until,
            cast.transfer_strength,
            cast.transfer_age,
            cast.heat_days,
            steel=cast.steel,
        )

    def _assumed(self) -> tuple[str, ...]:
        said = ["AASHTO LRFD has no strength gain: the form of ACI 209R-92 is used."]
        if self.transfer_strength is None:
            said.append(f"The strength at transfer is taken as 0.80 f'c = {self.transfer:.1f} MPa (5.4.2.3.2).")
        if self.dries_early:
            said.append("Drying begins before five days of curing: shrinkage is 20 % more (5.4.2.3.3).")
        return tuple(said)

    @property
    def transfer(self) -> float:
        """f'ci, MPa."""
        return 0.80 * self.strength_28 if self.transfer_strength is None else self.transfer_strength

    @property
    def dries_early(self) -> bool:
        if self.early_drying is not None:
            return self.early_drying
        return bool(self._matured(self.drying_from) < 5.0)

    @property
    def weight(self) -> float:
        """wc, kcf: as given, or 0.145 to 5 ksi and 0.140 + 0.001 f'c above (Table 3.5.1-1)."""
        if self.density is not None:
            return self.density / KCF
        return 0.145 if self.strength_28 <= 5.0 * KSI else 0.140 + 0.001 * self.strength_28 / KSI

    def _matured(self, age: Array | float) -> Array:
        """Age with each day of accelerated curing counted as seven (5.4.2.3.2)."""
        t = ages(age)
        return t + 6.0 * np.minimum(t, self.heat_days)

    def strength(self, age: Array | float) -> Array:
        """t/(a + (1 − a/28) t) f'c: f'c at 28 days and f'ci at transfer; a as for type I of ACI 209R-92 without it."""
        a = 4.0 / (4.0 / 28.0 + 0.85) if self.transfer_age is None else self._gain()
        t = ages(age)
        return t / (a + (1.0 - a / 28.0) * t) * self.strength_28

    def _gain(self) -> float:
        t = self.transfer_age or 0.0
        return t * (self.strength_28 / self.transfer - 1.0) / (1.0 - t / 28.0)

    def tensile(self, age: Array | float) -> Array:
        """0.23 √f'c(t) ksi, the commentary's estimate of the direct tensile strength (C5.4.2.7)."""
        return 0.23 * np.sqrt(self.strength(age) / KSI) * KSI

    def modulus(self, age: Array | float) -> Array:
        return 120000.0 * self.k1 * self.weight**2 * (self.strength(age) / KSI) ** 0.33 * KSI

    def creep_modulus(self, loaded: Array | float) -> Array:
        return self.modulus(loaded)

    @property
    def size_factor(self) -> float:
        """ks = 1.45 − 0.13 V/S, at least 1."""
        return max(1.45 - 0.13 * self.volume_surface / INCH, 1.0)

    @property
    def strength_factor(self) -> float:
        """kf = 5/(1 + f'ci), since 2005."""
        return 5.0 / (1.0 + self.transfer / KSI)

    def creep(
        self,
        age: Array | float,
        loaded: Array | float,
        compression: Array | float = 0.0,
        effective_age: Array | float | None = None,
    ) -> Array:
        """ψ = 1.9 ks khc kf ktd ti^−0.118, (5.4.2.3.2-1); khc = 1.56 − 0.008 H; linear in stress.

        The age at loading counts each day of heat as seven; ``effective_age`` is refused.
        """
        no_effective_age(effective_age, "AASHTO LRFD", "heat_days")
        ti = self._matured(loading_ages(loaded))
        self.stress_share(loaded, compression)
        humid = 1.56 - 0.008 * self.humidity
        grown = time_factor(under_load(age, loaded), self.transfer / KSI, self.edition)
        return 1.9 * self.size_factor * humid * self.strength_factor * grown * ti**-0.118

    def drying(self, age: Array | float) -> Array:
        """εsh = ks khs kf ktd 0.48·10⁻³, (5.4.2.3.3-1); khs = 2.00 − 0.014 H; 20 % more where drying begins early."""
        days = np.maximum(ages(age) - self.drying_from, 0.0)
        humid = 2.00 - 0.014 * self.humidity
        more = 1.2 if self.dries_early else 1.0
        grown = time_factor(days, self.transfer / KSI, self.edition)
        return more * self.size_factor * humid * self.strength_factor * grown * 0.48e-3

    def autogenous(self, age: Array | float) -> Array:
        return np.zeros_like(ages(age))

    def relaxation(self, time: Array | float, stress_ratio: Array | float) -> Array:
        return relaxation.us(time, stress_ratio, self.steel)

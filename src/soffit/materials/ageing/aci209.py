"""Ageing by ACI 209R-92, chapter 2. The forms of creep, shrinkage and strength gain were seen in secondary print; the
correction factors are *from memory*. Computed in the report's own units (psi, in, lb/yd³), so that no rounded
constant enters.
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
PCF = 16.018463
"""One pound a cubic foot in kg/m³."""
LB_PER_YD3 = 0.5932764
"""One pound a cubic yard in kg/m³."""
GAIN = {
    ("I", "moist"): (4.0, 0.85),
    ("I", "steam"): (1.0, 0.95),
    ("III", "moist"): (2.3, 0.92),
    ("III", "steam"): (0.70, 0.98),
}
"""a and β of f'c(t)/f'c28 = t/(a + β t), 2.2.1."""
CURING_DAYS, CURING_FACTORS = (1.0, 3.0, 7.0, 14.0, 28.0, 90.0), (1.2, 1.1, 1.0, 0.93, 0.86, 0.75)
"""Factor on shrinkage by the days of moist curing, Table 2.5.3; straight lines between."""


@dataclass(frozen=True)
class Aci209(Ageing):
    """A concrete by ACI 209R-92.

    strength_28: f'c at 28 days, MPa (a mean strength gives the mean behaviour); humidity: %; volume_surface: V/S, mm
    (half the notional size); cement: ASTM type "I" or "III"; curing: "moist" or "steam"; drying_from: end of curing,
    days; density: kg/m³. slump (mm), fines (% of the aggregate by weight), air (%), cement_content (kg/m³): none leaves
    the factor at one, the report's standard conditions. Raises ``ValueError`` for values that no concrete has.
    """

    strength_28: float
    humidity: float
    volume_surface: float
    cement: str = "I"
    curing: str = "moist"
    drying_from: float = 7.0
    density: float = 145.0 * PCF
    slump: float | None = None
    fines: float | None = None
    air: float | None = None
    cement_content: float | None = None
    steel: str = "low relaxation"

    record: ClassVar[Record] = Record(
        key="ACI 209R",
        name="ACI 209R-92",
        source="ACI 209R-92, Prediction of Creep, Shrinkage, and Temperature Effects in Concrete Structures, chapter 2",
        edition="1992, reapproved 1997 and 2008",
        ranges=(
            Range("relative humidity", "humidity", 40.0, 100.0, "%"),
            Range("end of curing", "drying_from", 1.0, 90.0, "days"),
        ),
        strength="t/(a + β t) f'c28, 2.2.1; 1.007 at 28 days for type I, moist",
        modulus="secant to 0.45 f'c(t), 33 w^1.5 √f'c(t) psi",
        creep_refers_to="the modulus at the age of loading, Ec(t0)",
        linear_limit=0.50,
        nonlinear="ACI 209R-92 has no nonlinear creep: the strain is underestimated.",
        shrinkage="one total from the end of curing; autogenous not told apart",
        relaxation="Magura, Sozen & Siess 1964: log10(hours)/45 (fpi/fpy − 0.55), /10 for stress-relieved",
        sizes="V/S, mm",
        doubts="all correction factors, the steam-cured strength gain, the axial tensile strength, the 0.50 limit",
    )

    def __post_init__(self) -> None:
        between("strength", self.strength_28, 2.0, 200.0, "MPa")
        check_surroundings(self.humidity, self.volume_surface, "volume over surface", self.drying_from)
        one_of("cement type", self.cement, ("I", "III"))
        one_of("curing", self.curing, ("moist", "steam"))
        one_of("tendon steel", self.steel, STEELS)
        between("density", self.density, 1000.0, 4000.0, "kg/m³")
        for what, value, low, high, unit in (
            ("slump", self.slump, 0.0, 300.0, "mm"),
            ("share of fine aggregate", self.fines, 0.0, 100.0, "%"),
            ("air content", self.air, 0.0, 30.0, "%"),
            ("cement content", self.cement_content, 50.0, 1200.0, "kg/m³"),
        ):
            if value is not None:
                between(what, value, low, high, unit)

    @classmethod
    def of(cls, cast: Casting) -> Aci209:
        """The model for a casting, with its mean strength; class R is taken as type III, S and N as type I."""
        return cls(
            cast.strength,
            cast.humidity,
            cast.notional_size / 2.0,
            "III" if cast.cement == "R" else "I",
            "steam" if cast.heat_days > 0.0 else "moist",
            cast.cured_until,
            steel=cast.steel,
        )

    def _assumed(self) -> tuple[str, ...]:
        left = {
            "slump": self.slump,
            "fine aggregate": self.fines,
            "air": self.air,
            "cement content": self.cement_content,
        }
        missing = [name for name, value in left.items() if value is None]
        if not missing:
            return ()
        return (f"Not given: {', '.join(missing)}; each is taken as in the standard conditions of ACI 209R-92.",)

    def strength(self, age: Array | float) -> Array:
        a, b = GAIN[self.cement, self.curing]
        t = ages(age)
        return t / (a + b * t) * self.strength_28

    def tensile(self, age: Array | float) -> Array:
        """⅓ √(w f'c(t)) in psi and lb/ft³, 2.2.2."""
        return np.sqrt(self.density / PCF * self.strength(age) / PSI) / 3.0 * PSI

    def modulus(self, age: Array | float) -> Array:
        return 33.0 * (self.density / PCF) ** 1.5 * np.sqrt(self.strength(age) / PSI) * PSI

    def creep_modulus(self, loaded: Array | float) -> Array:
        return self.modulus(loaded)

    def age_factor(self, loaded: Array | float) -> Array:
        """γla: 1.25 tla^−0.118 moist (from 7 days on), 1.13 tla^−0.094 steam (from 1 day on)."""
        t0 = loading_ages(loaded)
        return 1.25 * t0**-0.118 if self.curing == "moist" else 1.13 * t0**-0.094

    @property
    def creep_factor(self) -> float:
        """The product of the correction factors of the ultimate creep coefficient, without the age at loading."""
        product = 1.27 - 0.0067 * self.humidity
        product *= 2.0 / 3.0 * (1.0 + 1.13 * np.exp(-0.54 * self.volume_surface / INCH))
        if self.slump is not None:
            product *= 0.82 + 0.067 * self.slump / INCH
        if self.fines is not None:
            product *= 0.88 + 0.0024 * self.fines
        if self.air is not None:
            product *= max(0.46 + 0.09 * self.air, 1.0)
        return float(product)

    @property
    def shrinkage_factor(self) -> float:
        """The product of the correction factors of the ultimate shrinkage."""
        h = self.humidity
        product = 1.40 - 0.010 * h if h <= 80.0 else 3.00 - 0.030 * h
        product *= 1.2 * np.exp(-0.12 * self.volume_surface / INCH)
        if self.curing == "moist":
            product *= np.interp(self.drying_from, CURING_DAYS, CURING_FACTORS)
        if self.slump is not None:
            product *= 0.89 + 0.041 * self.slump / INCH
        if self.fines is not None:
            product *= 0.30 + 0.014 * self.fines if self.fines <= 50.0 else 0.90 + 0.002 * self.fines
        if self.air is not None:
            product *= 0.95 + 0.008 * self.air
        if self.cement_content is not None:
            product *= 0.75 + 0.00036 * self.cement_content / LB_PER_YD3
        return float(product)

    def creep(
        self,
        age: Array | float,
        loaded: Array | float,
        compression: Array | float = 0.0,
        effective_age: Array | float | None = None,
    ) -> Array:
        """φ = (t − t0)^0.6/(10 + (t − t0)^0.6) 2.35 γ, (2-8); linear in stress. ``effective_age`` is refused."""
        no_effective_age(effective_age, "ACI 209R-92", 'curing="steam"')
        self.stress_share(loaded, compression)
        grown = under_load(age, loaded) ** 0.6
        return grown / (10.0 + grown) * 2.35 * self.creep_factor * self.age_factor(loaded)

    def remarks(self, loaded: float, compression: float = 0.0) -> tuple[str, ...]:
        first = 7.0 if self.curing == "moist" else 1.0
        said = super().remarks(loaded, compression)
        if loaded >= first:
            return said
        since = f"The age factor of ACI 209R-92 for {self.curing} curing holds from an age of {first:g} d on"
        return (*said, f"{since}: at {loaded:g} days it is extrapolated.")

    def drying(self, age: Array | float) -> Array:
        """εsh = t/(35 + t) 780·10⁻⁶ γ after moist, t/(55 + t) after steam curing, t from the end of curing, (2-9),
        (2-10).
        """
        days = np.maximum(ages(age) - self.drying_from, 0.0)
        half = 35.0 if self.curing == "moist" else 55.0
        return days / (half + days) * 780e-6 * self.shrinkage_factor

    def autogenous(self, age: Array | float) -> Array:
        return np.zeros_like(ages(age))

    def relaxation(self, time: Array | float, stress_ratio: Array | float) -> Array:
        return relaxation.us(time, stress_ratio, self.steel)

"""What every ageing model offers: the record on itself, its notes, and the functions of time that all share."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from soffit.materials.ageing.check import ages, between, loading_ages
from soffit.materials.curve import Array


@dataclass(frozen=True)
class Range:
    """The range of one input for which a standard gives its formulas; outside it they are extrapolated, and said so."""

    what: str
    field: str
    """Name of the attribute of the model that the range is for."""
    low: float
    high: float
    unit: str


@dataclass(frozen=True)
class Record:
    """What one ageing model is."""

    key: str
    name: str
    source: str
    edition: str
    ranges: tuple[Range, ...]
    strength: str
    """The strength law and where it is from."""
    modulus: str
    """What ``modulus`` is."""
    creep_refers_to: str
    """The modulus that turns a stress into the strain which the creep coefficient multiplies."""
    linear_limit: float
    """Share of the strength at loading up to which creep is proportional to stress."""
    nonlinear: str
    """What is done beyond it."""
    shrinkage: str
    """Which parts of shrinkage are told apart."""
    relaxation: str
    sizes: str
    """The measure of the member's size that the model asks for."""
    doubts: str
    """What was written down from memory."""


class Ageing(ABC):
    """One concrete with its curing and surroundings, seen by one standard.

    Times are days since casting, scalars or arrays that broadcast; stresses MPa. ``compression`` is a sustained
    compressive stress, **positive**. Shrinkage is a **shortening, positive**, as the standards print it (the strain is
    its negative). Every function raises ``ValueError`` for ages that are not positive numbers.
    """

    record: ClassVar[Record]

    @property
    def notes(self) -> tuple[str, ...]:
        """One sentence for every input outside the standard's range and for everything that was assumed."""
        said = []
        for r in self.record.ranges:
            value = getattr(self, r.field)
            if value is not None and not r.low <= value <= r.high:
                said.append(
                    f"The {r.what} of {value:.4g} {r.unit} is outside {r.low:g} to {r.high:g} {r.unit}, for which "
                    f"{self.record.name} was given: it is extrapolated."
                )
        return (*said, *self._assumed())

    def _assumed(self) -> tuple[str, ...]:
        return ()

    @abstractmethod
    def strength(self, age: Array | float) -> Array:
        """Mean compressive cylinder strength, MPa. ``age``: the equivalent age at 20 °C, where that differs."""

    @abstractmethod
    def tensile(self, age: Array | float) -> Array:
        """Mean axial tensile strength, MPa."""

    @abstractmethod
    def modulus(self, age: Array | float) -> Array:
        """Modulus of elasticity, MPa; ``record.modulus`` says which."""

    @abstractmethod
    def creep_modulus(self, loaded: Array | float) -> Array:
        """The modulus that the creep coefficient refers to, MPa, for a load put on at age ``loaded``."""

    @abstractmethod
    def creep(
        self,
        age: Array | float,
        loaded: Array | float,
        compression: Array | float = 0.0,
        effective_age: Array | float | None = None,
    ) -> Array:
        """Creep coefficient at ``age`` under a stress put on at age ``loaded`` and kept; zero before.

        ``effective_age``: temperature-adjusted age at loading, days, where curing was not at 20 °C. ``compression``
        matters beyond ``record.linear_limit``, where the standard has nonlinear creep. Raises ``ValueError`` for a
        loading age under 0.1 days and for a compression that the concrete cannot carry when it is put on.
        """

    @abstractmethod
    def drying(self, age: Array | float) -> Array:
        """Drying shrinkage since the end of curing (all shrinkage, where the standard does not tell it apart)."""

    @abstractmethod
    def autogenous(self, age: Array | float) -> Array:
        """Autogenous shrinkage since casting; zero where the standard counts it within ``drying``."""

    @abstractmethod
    def relaxation(self, time: Array | float, stress_ratio: Array | float) -> Array:
        """Share of its initial stress that the tendon steel loses at constant strain.

        ``time``: **days** since stressing (the standards print hours; they are converted here). ``stress_ratio``:
        initial stress over the tensile strength (fpk, fpu). Raises ``ValueError`` outside 0 to 1.
        """

    def shrinkage(self, age: Array | float) -> Array:
        """All shrinkage, a shortening, positive."""
        return self.drying(age) + self.autogenous(age)

    def compliance(
        self,
        age: Array | float,
        loaded: Array | float,
        compression: Array | float = 0.0,
        effective_age: Array | float | None = None,
    ) -> Array:
        """J(t, t0), 1/MPa: elastic and creep strain at ``age`` by a unit stress put on at age ``loaded``; zero before.

        1/E(t0) + φ(t, t0)/Eφ, with Eφ the model's own ``creep_modulus``. Models are compared by this, not by φ.
        """
        t, t0 = ages(age), loading_ages(loaded)
        strong = t0 if effective_age is None else loading_ages(effective_age)
        creep = self.creep(t, t0, compression, effective_age) / self.creep_modulus(strong)
        return np.where(t >= t0, 1.0 / self.modulus(strong) + creep, 0.0)

    def remarks(self, loaded: float, compression: float = 0.0) -> tuple[str, ...]:
        """Sentences on a load at age ``loaded`` of ``compression`` (MPa, positive) outside the standard's range."""
        share = compression / float(self.loading_strength(loaded))
        if share <= self.record.linear_limit:
            return ()
        return (
            f"The sustained compression of {compression:.1f} MPa is {share:.2f} of the strength at {loaded:g} days, "
            f"above {self.record.linear_limit:g}: {self.record.nonlinear}",
        )

    def loading_strength(self, loaded: Array | float) -> Array:
        """The strength, MPa, with which the standard compares a sustained compression."""
        return self.strength(loading_ages(loaded))

    def stress_share(self, loaded: Array | float, compression: Array | float) -> Array:
        """Sustained compression over the strength it is compared with. Raises ``ValueError`` outside 0 to 1."""
        stress = np.asarray(compression, dtype=float)
        if not np.all(stress >= 0.0):
            raise ValueError("the sustained compression must be a number of MPa, zero or above")
        if not np.any(stress):
            return stress
        strength = self.loading_strength(loaded)
        share = stress / np.maximum(strength, 1e-9)
        if not np.all(share < 1.0):
            raise ValueError(
                f"a sustained compression of {float(np.max(stress)):.1f} MPa cannot be put on a concrete whose "
                f"strength counts as {float(np.min(strength)):.1f} MPa by then: load it later or less"
            )
        return share


def check_surroundings(humidity: float, size: float, size_name: str, drying_from: float) -> None:
    """The inputs that all models share. Raises ``ValueError``."""
    if 0.0 < humidity <= 1.0:
        raise ValueError(f"the relative humidity is wanted in per cent: {100 * humidity:g}, not {humidity:g}")
    between("relative humidity", humidity, 0.0, 100.0, "%")
    between(size_name, size, 5.0, 10000.0, "mm")
    between("age at which drying begins", drying_from, 0.1, 40000.0, "days")


def no_effective_age(effective_age: Array | float | None, name: str, instead: str) -> None:
    """Raises ``ValueError`` where a model has its own way with heat and is given a temperature-adjusted age."""
    if effective_age is not None:
        raise ValueError(f"{name} has no temperature-adjusted age at loading: heat enters it by {instead}")

"""One concrete, its curing and its surroundings, in terms from which every ageing model takes what it needs."""

from __future__ import annotations

from dataclasses import dataclass

from soffit.materials.ageing.check import between, one_of

CEMENTS = ("S", "N", "R")
"""Slow, normal and rapid hardening, EN 1992-1-1:2004 3.1.2(6)."""
STEELS = ("low relaxation", "ordinary", "bar")
"""Strand or wire of low or ordinary relaxation (stress-relieved), and hot-rolled bars."""


@dataclass(frozen=True)
class Casting:
    """What is known of a concrete as it is cast.

    ``strength``: mean cylinder strength at 28 days, MPa. ``specified``: the strength ordered (fck, f'c), MPa; a model
    that wants it takes ``strength`` − 8 MPa where it is missing (EN 1992-1-1:2004 Table 3.1) and says so.
    ``notional_size``: h0 = 2 Ac/u, mm, twice the volume over surface; u is the perimeter that dries.
    ``cured_until``: days; drying begins then. ``heat_days``: days of steam or other accelerated curing, 0 for none.
    ``transfer_strength``: f'ci, MPa, mean cylinder strength at ``transfer_age``, days, for AASHTO.

    Raises ``ValueError`` for an unknown cement or steel; the numbers are checked by the models.
    """

    strength: float
    humidity: float
    notional_size: float
    cement: str = "N"
    cured_until: float = 7.0
    heat_days: float = 0.0
    specified: float | None = None
    transfer_strength: float | None = None
    transfer_age: float | None = None
    steel: str = "low relaxation"

    def __post_init__(self) -> None:
        one_of("cement class", self.cement, CEMENTS)
        one_of("tendon steel", self.steel, STEELS)
        between("time of accelerated curing", self.heat_days, 0.0, 28.0, "days")

    @property
    def ordered(self) -> float:
        return self.strength - 8.0 if self.specified is None else self.specified

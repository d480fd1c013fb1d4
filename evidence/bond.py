"""Bond strength of bars in beam-type tests against the bond law that a life uses."""

from __future__ import annotations

from dataclasses import dataclass

from evidence.table import given, rows
from soffit.materials import bond_laws

SHORT = 6.0
"""Embedment over bar diameter up to which the measured mean stress is nearly the local strength (*common practice*:
RILEM bond tests use 5 to 10 diameters)."""


@dataclass(frozen=True)
class Bond:
    row: str
    plain: bool
    embedment: float
    """Over the diameter."""
    measured: float
    predicted: float
    """MPa, both."""
    failure: str
    """What the law says ends it: pull-out, splitting, friction."""

    @property
    def ratio(self) -> float:
        return self.measured / self.predicted


def bond() -> list[Bond]:
    """Every row; the larger cover is not given and taken equal to the least one, and no stirrups are counted."""
    found = []
    for row in rows("bond_beam_tests_steel_bars"):
        fc, diameter, cover = (given(row, k) for k in ("fc_MPa", "bar_dia_mm", "c_min_mm"))
        plain = row["bar"] == "plain steel"
        law = bond_laws.plain(fc) if plain else bond_laws.deformed(fc, diameter, cover, cover)
        found.append(
            Bond(
                row["src_row"], plain, given(row, "embed_mm") / diameter, given(row, "tau_max_MPa"), law.strength,
                law.failure,
            )
        )  # fmt: skip
    return found

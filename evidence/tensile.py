"""Tensile strength from splitting tests against the strength that is derived when none was measured."""

from __future__ import annotations

from dataclasses import dataclass

from evidence.flexure import CUBE
from evidence.table import given, rows
from soffit.materials import standards

AXIAL = 0.9
"""Axial over splitting strength: EN 1992-1-1:2004 3.1.2 (8)."""
LEAST = 20.0
"""Cylinder strength, MPa, from which a concrete is one of EN 1992-1-1 Table 3.1 (its weakest, C12/15, has fcm = 20)."""


@dataclass(frozen=True)
class Pair:
    """Cylinder and axial tensile strength, both converted, MPa."""

    compressive: float
    tensile: float

    @property
    def derived(self) -> float:
        return standards.standard("EN 1992-1-1").tensile(self.compressive)

    @property
    def share(self) -> float:
        """Tensile over compressive strength."""
        return self.tensile / self.compressive


def pairs() -> list[Pair]:
    """The structural concretes among the rows; cubes are assumed, as the file says."""
    all_rows = (
        Pair(CUBE * given(r, "fcu_MPa"), AXIAL * given(r, "fst_MPa"))
        for r in rows("splitting_vs_compressive_manufactured_sand_690")
    )
    return [p for p in all_rows if p.compressive >= LEAST]

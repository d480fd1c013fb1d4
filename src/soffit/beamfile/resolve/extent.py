"""Where a thing begins and ends along the beam."""

from __future__ import annotations

from typing import Protocol

from soffit.beamfile.faults import Spot


class Run(Protocol):
    @property
    def x_from(self) -> float | None: ...

    @property
    def x_to(self) -> float | None: ...


def extent(table: Run, spot: Spot, length: float) -> tuple[float, float] | None:
    """From and to, mm from the left end of the beam; the ends of the beam where they are not given."""
    sound = on_beam(spot, "from", table.x_from, length) and on_beam(spot, "to", table.x_to, length)
    if not sound:
        return None
    x_from = 0.0 if table.x_from is None else table.x_from
    x_to = length if table.x_to is None else min(table.x_to, length)
    if x_from >= x_to:
        key = "to" if spot.has("to") else "from"
        other = f"from = {spot.show(x_from)}" if key == "to" else f"to = {spot.show(x_to)}"
        spot.wrong(key, f"but {other}", "let it begin before it ends")
        return None
    return x_from, x_to


def on_beam(spot: Spot, key: str, x: float | None, length: float) -> bool:
    """Whether a place is on the beam; says so where it is not."""
    if x is None or x <= length * (1 + 1e-9):
        return True
    problem = f"but the beam ends at {spot.show(length)} (x is measured from its left end)"
    spot.wrong(key, problem, f"give at most {spot.show(length)}")
    return False

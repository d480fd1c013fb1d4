"""What equilibrium alone says about a row of a table: inputs that no model of a beam could fit."""

from __future__ import annotations

from math import pi

from evidence.predicted import Outcome


def moment(outcome: Outcome) -> float:
    """Measured moment under the inner load, own weight left out, N·mm (loads are symmetric)."""
    s = outcome.specimen
    return outcome.measured.peak / 2 * min(s.loads)


def most(outcome: Outcome, strength: bool = True) -> float:
    """Moment that the tension bars could give with the whole effective depth as lever arm, N·mm.

    All lower bars at their tensile strength (``strength``) or at yield; those in the upper half of the depth are not
    counted. The lever arm of a real section is about a tenth shorter, so this is an upper bound.
    """
    s = outcome.specimen
    total = 0.0
    for b in s.bars:
        if b.y < s.depth / 2:
            area = b.count * (b.area if b.area is not None else pi * b.diameter**2 / 4)
            total += area * ((b.fu or b.fy) if strength else b.fy) * (s.depth - b.y)
    return total


def impossible(outcome: Outcome) -> bool:
    """Whether the measured moment is above what the listed bars can give at their tensile strength."""
    return bool(outcome.specimen.bars) and moment(outcome) > most(outcome)

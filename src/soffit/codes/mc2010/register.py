"""What Soffit checks by the fib Model Code 2010."""

from __future__ import annotations

from soffit.codes.design import Entry
from soffit.codes.mc2010 import cracks, fibre, flexure, shear
from soffit.codes.mc2010.values import KEY, NAME, opened
from soffit.codes.working import Unchecked

__all__ = ["ENTRIES", "KEY", "LEFT_OUT", "NAME", "opened"]

ENTRIES: tuple[Entry, ...] = (*flexure.ENTRIES, *shear.ENTRIES, *cracks.ENTRIES, *fibre.ENTRIES)
LEFT_OUT: tuple[Unchecked, ...] = (
    Unchecked(
        "what EN 1992-1-1 shares",
        "torsion, joints, deflection, stress limits, anchorage, detailing, cover and fire are those of EN 1992-1-1 in "
        "substance: verify to en1992 too",
        NAME,
    ),
    Unchecked("lateral instability", "the bracing of the compressed flange is not in the beam file", NAME),
)

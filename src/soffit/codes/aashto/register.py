"""What Soffit checks by AASHTO LRFD, 9th edition."""

from __future__ import annotations

from soffit.codes import endchecks, frequency
from soffit.codes.aashto import (
    anchorage,
    cracks,
    detailing,
    flexure,
    interface,
    limits,
    minimum,
    sagging,
    shear,
    torsion,
)
from soffit.codes.aashto.values import KEY, NAME, opened
from soffit.codes.design import Entry
from soffit.codes.working import Unchecked

__all__ = ["ENTRIES", "KEY", "LEFT_OUT", "NAME", "opened"]

ENTRIES: tuple[Entry, ...] = (
    *flexure.ENTRIES,
    *minimum.ENTRIES,
    *shear.ENTRIES,
    *torsion.ENTRIES,
    *interface.ENTRIES,
    *cracks.ENTRIES,
    *sagging.ENTRIES,
    *limits.ENTRIES,
    *anchorage.ENTRIES,
    *detailing.ENTRIES,
    endchecks.entry("5.8.4, 5.9.4.4"),
    frequency.entry(),
)
LEFT_OUT: tuple[Unchecked, ...] = (
    Unchecked("fire", "AASHTO LRFD has no rules for fire: verify to aci318-19 or en1992", NAME),
    Unchecked("lateral stability", "lifting, transport and the bracing of girders (5.5.4.3) are not in the beam file",
              f"{NAME} 5.5.4.3"),
    Unchecked("fatigue", "the fatigue load and its stress ranges (5.5.3) are not in the beam file", f"{NAME} 5.5.3"),
)  # fmt: skip

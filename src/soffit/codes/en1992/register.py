"""What Soffit checks by EN 1992-1-1."""

from __future__ import annotations

from soffit.codes import endchecks, frequency
from soffit.codes.design import Entry
from soffit.codes.en1992 import (
    anchorage,
    cover,
    cracks,
    cracksteel,
    cracktables,
    curtailment,
    detailing,
    fire,
    flexure,
    interface,
    laps,
    limits,
    minimum,
    sagging,
    shear,
    slender,
    torsion,
    transfer,
    transmission,
)
from soffit.codes.en1992.values import KEY, NAME, opened
from soffit.codes.working import Unchecked

__all__ = ["ENTRIES", "KEY", "LEFT_OUT", "NAME", "opened"]

ENTRIES: tuple[Entry, ...] = (
    *flexure.ENTRIES,
    *minimum.ENTRIES,
    *shear.ENTRIES,
    *torsion.ENTRIES,
    *interface.ENTRIES,
    *limits.ENTRIES,
    *transfer.ENTRIES,
    *transmission.ENTRIES,
    *cracks.ENTRIES,
    *cracksteel.ENTRIES,
    *cracktables.ENTRIES,
    *sagging.ENTRIES,
    *slender.ENTRIES,
    *curtailment.ENTRIES,
    *anchorage.ENTRIES,
    *laps.ENTRIES,
    *cover.ENTRIES,
    *detailing.ENTRIES,
    *fire.ENTRIES,
    endchecks.entry("8.10.3, 10.9.4"),
    frequency.entry(),
)
LEFT_OUT: tuple[Unchecked, ...] = (
    Unchecked("lateral instability", "the bracing of the compressed flange is not in the beam file", f"{NAME} 5.9"),
)

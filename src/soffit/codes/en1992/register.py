"""What Soffit checks by EN 1992-1-1."""

from __future__ import annotations

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
    laps,
    limits,
    sagging,
    slender,
    transfer,
    transmission,
)
from soffit.codes.en1992.values import KEY, NAME, opened
from soffit.codes.working import Unchecked

__all__ = ["ENTRIES", "KEY", "LEFT_OUT", "NAME", "opened"]

ENTRIES: tuple[Entry, ...] = (
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
)
LEFT_OUT: tuple[Unchecked, ...] = (
    Unchecked("lateral instability", "the bracing of the compressed flange is not in the beam file", f"{NAME} 5.9"),
)

"""What Soffit checks by ACI 318-19."""

from __future__ import annotations

from soffit.codes import endchecks, frequency
from soffit.codes.aci318 import (
    anchorage,
    approximate,
    cracks,
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
    torsion,
)
from soffit.codes.aci318.values import KEY, opened
from soffit.codes.design import Entry
from soffit.codes.working import Unchecked

__all__ = ["ENTRIES", "KEY", "LEFT_OUT", "NAME", "opened"]

NAME = "ACI 318-19"
ENTRIES: tuple[Entry, ...] = (
    *flexure.ENTRIES,
    *approximate.ENTRIES,
    *minimum.ENTRIES,
    *shear.ENTRIES,
    *torsion.ENTRIES,
    *interface.ENTRIES,
    *anchorage.ENTRIES,
    *curtailment.ENTRIES,
    *laps.ENTRIES,
    *limits.ENTRIES,
    *cracks.ENTRIES,
    *sagging.ENTRIES,
    *detailing.ENTRIES,
    *fire.ENTRIES,
    endchecks.entry("22.8, 25.9"),
    frequency.entry(),
)
LEFT_OUT: tuple[Unchecked, ...] = (
    Unchecked(
        "lateral stability", "the bracing of the compressed flange (9.2.3) is not in the beam file", "ACI 318-19 9.2.3"
    ),
)

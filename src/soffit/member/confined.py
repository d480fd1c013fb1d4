"""The core that stirrups hold together at a section, where they qualify as confinement."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials import confinement
from soffit.materials.curve import Array, StressStrain
from soffit.member.beam import Beam, StirrupZone


@dataclass(frozen=True)
class Core:
    """Strips of the core, (n, 4) as an outline's, and its law."""

    strips: Array
    law: StressStrain
    said: str


def core(beam: Beam, x: float) -> Core | None:
    """The confined core at ``x``; None where the stirrups there do not qualify, or their place is not known.

    The file gives no cover to the stirrups: they are taken to touch the lowest bars, and to stand as far from the
    other faces as from the soffit. Two legs at least, closed; Mander, Priestley & Park 1988.
    """
    zones = [z for z in beam.stirrups if z.x_from <= x <= z.x_to and z.legs >= 2]
    bars = [b for b in beam.bars if b.x_from <= x <= b.x_to]
    if not zones or not bars:
        return None
    zone = min(zones, key=lambda z: z.spacing)
    lowest = min(bars, key=lambda b: b.y)
    inset = lowest.y - lowest.diameter / 2 - zone.diameter / 2
    width, depth = beam.outline.web_width - 2 * inset, beam.outline.depth - 2 * inset
    if inset <= 0.0 or width <= 0.0 or depth <= 0.0:
        return None
    hoops = _hoops(zone, width, depth, sum(b.area for b in bars))
    made = confinement.mander(beam.concrete, hoops)
    if made.pressure <= 0.0:
        return None
    law = confinement.curve(beam.concrete, made)
    return Core(np.array([[inset, beam.outline.depth - inset, width, width]]), law, made.why)


def _hoops(zone: StirrupZone, width: float, depth: float, steel: float) -> confinement.Hoops:
    """Gaps between held bars: the corners alone hold, so each side of the core is one gap."""
    leg = zone.area / zone.legs
    return confinement.Hoops(
        width=width,
        depth=depth,
        spacing=zone.spacing,
        diameter=zone.diameter,
        area_across=2.0 * leg,
        area_down=zone.area,
        yield_strength=zone.steel.yield_strength,
        strain_at_max=zone.steel.strain_at_max,
        gaps=(width, width, depth, depth),
        bar_share=min(steel / (width * depth), 0.2),
    )

"""What a pretensioned tendon has left when it is let go, on the day that its stages say."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from soffit.errors import PhysicsError
from soffit.materials.ageing.heat import HOTTEST
from soffit.member.beam import Beam, TendonGroup
from soffit.member.bed import BeforeRelease, before_release
from soffit.member.making import Making
from soffit.member.time import relaxing
from soffit.member.time.schedule import stressed_on

STRESSED_AT = 20.0
"""°C at which the strands are stressed."""


def in_bed(beam: Beam, making: Making, group: int) -> BeforeRelease:
    """Losses of a pretensioned group between stressing, where a stage says its day, and release.

    Heat brings relaxation forward: 1.14^ΔT of each heated day, EN 1992-1-1:2004 (10.2) (*from memory*) for a steady
    temperature, with the warming of the bed and the time of accelerated curing that the file gives; up to 80 °C. Raises
    ``PhysicsError`` beyond.
    """
    tendon = beam.tendons[group]
    pulled = replace(tendon, stress=tendon.stress * making.scales.prestress)
    start = stressed_on(beam, making, group)
    released = next(s.at for s in making.stages if s.what == "release" and group in s.tendons)
    rule = relaxing.law(making.model, tendon, making.scales.relaxation)
    if rule is None or start is None:
        return before_release(pulled, lambda days, ratio: 0.0)
    return before_release(
        pulled,
        lambda days, ratio: float(rule.scale * rule.share(np.array(days), np.array(ratio))),
        released - start,
        heated(tendon, making),
    )


def heated(tendon: TendonGroup, making: Making) -> float:
    """Days under stress at 20 °C that the heat of the bed counts for in relaxation; 0 without heat."""
    over = tendon.bed.warming if tendon.bed else 0.0
    if over > HOTTEST - STRESSED_AT:
        raise PhysicsError(
            f"{tendon.name or tendon.label}: relaxation under heat is known up to {HOTTEST:g} °C, and the bed warms "
            f"the strands by {over:.0f} K: ask for the strand's own test"
        )
    return float(1.14**over * making.casting.heat_days) if over > 0.0 else 0.0

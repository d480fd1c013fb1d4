"""What a pretensioned tendon has left when it is let go, on the day that its stages say."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from soffit.member.beam import Beam
from soffit.member.bed import BeforeRelease, before_release
from soffit.member.making import Making
from soffit.member.time import relaxing
from soffit.member.time.schedule import stressed_on


def in_bed(beam: Beam, making: Making, group: int) -> BeforeRelease:
    """Losses of a pretensioned group between stressing, where a stage says its day, and release.

    Heat counts as the days of accelerated curing do, not in the relaxation of the steel.
    """
    tendon = beam.tendons[group]
    pulled = replace(tendon, stress=tendon.stress * making.scales.prestress)
    start = stressed_on(beam, making, group)
    released = next(s.at for s in making.stages if s.what == "release" and group in s.tendons)
    rule = relaxing.law(making.model, tendon, making.scales.relaxation)
    if rule is None or start is None:
        return before_release(pulled, lambda days, ratio: 0.0)
    return before_release(
        pulled, lambda days, ratio: float(rule.scale * rule.share(np.array(days), np.array(ratio))), released - start
    )

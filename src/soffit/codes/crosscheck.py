"""The predicted mean behaviour beside the design resistance: how far apart they lie, and whether they fail alike."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from soffit.codes.verification import Verification
from soffit.codes.working import Check
from soffit.member.result import Life

Family = Literal["bending", "shear", "anchorage"]
FAMILIES: dict[str, Family] = {"flexure": "bending", "shear": "shear", "anchorage": "anchorage", "strand": "anchorage"}
"""Of the keys of strength checks, by their beginning."""
MODES: dict[str, Family] = {
    "first crack": "bending",
    "tension-controlled flexure": "bending",
    "compression-controlled flexure": "bending",
    "bar rupture": "bending",
    "tendon rupture": "bending",
    "shear": "shear",
    "bond": "anchorage",
    "anchor": "anchorage",
}
"""Of the failure modes of a life."""


@dataclass(frozen=True)
class Beside:
    """One strength check beside the life."""

    check: Check
    family: Family
    effect: float
    """|M| or |V| at its place as the life reaches its peak, everything counted, N·mm or N."""
    resistance: float

    @property
    def times(self) -> float:
        """The effect at the peak over the design resistance."""
        return self.effect / self.resistance if self.resistance > 0.0 else np.inf


@dataclass(frozen=True)
class Crosscheck:
    rows: tuple[Beside, ...]
    """The one whose resistance is used up first as the loads of the life rise stands first."""
    mode: str
    """In which the life ends."""
    predicted: Family
    x: float
    """Where it ends, mm."""
    load: float
    """Of its peak, N."""
    warnings: tuple[str, ...]

    @property
    def first(self) -> Beside | None:
        return self.rows[0] if self.rows else None

    @property
    def agree(self) -> bool:
        return self.first is not None and self.first.family == self.predicted


def crosscheck(verification: Verification, life: Life) -> Crosscheck:
    """Compare the bending and shear checks with the peak of the life of the same beam.

    The life has mean strengths and the loads that rise in it; the check has design strengths and its own combination.
    Compared are the effects at the place of each check. Raises nothing.
    """
    rows = [row for check in verification.checks if (row := _beside(check, life)) is not None]
    rows.sort(key=lambda row: -row.times)
    predicted = MODES.get(life.failure.mode, "bending")
    found = Crosscheck(tuple(rows), life.failure.mode, predicted, life.failure.x, life.peak.load, ())
    return Crosscheck(found.rows, found.mode, found.predicted, found.x, found.load, tuple(_warnings(found)))


def _beside(check: Check, life: Life) -> Beside | None:
    kind = check.key.split("-")[0]
    moment, shear = check.resistance.kind == "moment", check.resistance.kind == "force"
    if check.state != "strength" or check.x is None or kind not in ("flexure", "shear") or not (moment or shear):
        return None
    if (kind == "flexure") != moment:
        return None
    values = life.stations.moment if moment else life.stations.shear
    step = min(life.peak.step, len(values) - 1)
    effect = float(np.interp(check.x, life.stations.x, values[step]))
    if moment:
        effect = -effect if "hogging" in check.key else effect
    else:
        effect = abs(effect)
    if effect <= 0.0:
        return None
    return Beside(check, FAMILIES[kind], effect, check.resistance.value)


def _warnings(found: Crosscheck) -> list[str]:
    first = found.first
    if first is None:
        return ["No strength check can be laid beside the life."]
    said = []
    if first.times < 1.0:
        said.append(
            f"The predicted mean failure lies below the design strength ({100 * first.times:.0f} % of that of "
            f"{first.check.title}): the check does not see what ends this life, {found.mode}."
        )
    if not found.agree:
        said.append(
            f"The checks would be used up first in {first.family} ({first.check.title}), but the life ends by "
            f"{found.predicted} ({found.mode}) at {found.x / 1000.0:.2f} m: find out why before either is trusted."
        )
    return said

"""US units in N, mm, MPa, and beams for worked examples."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from soffit.materials.concrete import Concrete
from soffit.materials.steel import Steel
from soffit.member.beam import Beam, Profile, Supports, TendonGroup
from soffit.section.outline import Outline

INCH = 25.4
FOOT = 12 * INCH
KIP = 4448.2216152605
POUND = KIP / 1000
KSI = KIP / INCH**2
PSI = KSI / 1000
STRAND = Steel("bilinear", 28500 * KSI, 240 * KSI, 270 * KSI, 0.035)
STRESS = 150 * KSI
"""Of a tendon of which an example gives the force alone."""


def given(example: Mapping[str, Any]) -> dict[str, float]:
    """The inputs that are numbers, in their own units."""
    return {k: v["value"] for k, v in example["inputs"].items() if isinstance(v["value"], int | float)}


def made(
    profile: Profile,
    length: float,
    outline: Outline,
    supports: Supports,
    force: float,
    stress: float = STRESS,
    **more: Any,
) -> tuple[Beam, TendonGroup]:
    """A beam without weight with one post-tensioned tendon of ``force`` (N) at ``stress`` (MPa) at the jack."""
    usual: dict[str, Any] = {"steel": STRAND, "when": "after curing", "bond": "unbonded", "x_to": length}
    cable = TendonGroup(1, 12.5, force / stress, profile=profile, stress=stress, **(usual | more))
    concrete = Concrete(40.0, 8.0, 30000.0, 0.15)
    return Beam("worked", concrete, outline, length, supports, tendons=(cable,), self_weight=False), cable

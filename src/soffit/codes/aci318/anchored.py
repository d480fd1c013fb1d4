"""How much of fy a bar has developed at a cut: one place where it is decided for the strength checks."""

from __future__ import annotations

from soffit.codes.cut import BarsAt
from soffit.codes.design import Design

DIAMETERS = 40.0
"""Taken for ℓd/db."""


def developed(design: Design, bar: BarsAt) -> float:
    """Share of fy, 0 to 1, on the weaker side: hooks and plates have all, straight ends grow over 40 diameters."""
    sides = zip((bar.left, bar.right), bar.ends, strict=True)
    return min(
        1.0 if end != "straight" else min(max(along, 0.0) / (DIAMETERS * bar.group.diameter), 1.0)
        for along, end in sides
    )

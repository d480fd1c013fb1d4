"""Gross sections and dead moments of a beam, computed once for all its checks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.codes.design import Design
from soffit.materials.curve import Array
from soffit.section.outline import Outline


@dataclass(frozen=True)
class Gross:
    area: float
    inertia: float
    centroid: float
    """Above the soffit, mm."""
    depth: float


def _of(outline: Outline) -> Gross:
    return Gross(outline.area, outline.inertia, outline.centroid, outline.depth)


def bare(design: Design) -> Gross:
    """Of the beam alone."""
    return design.kept("aci-gross-bare", lambda: _of(design.beam.outline))


def whole(design: Design) -> Gross:
    """With the topping."""
    return design.kept("aci-gross-whole", lambda: _of(design.outline))


def early(design: Design, x: float) -> float:
    """Moment without factors of what acts on the beam before its topping has hardened, N·mm; 0 without a topping."""
    if design.cast is None:
        return 0.0
    moments: Array = design.kept("aci-bare-moments", design.actions.bare)
    return float(np.interp(x, design.actions.x, moments))

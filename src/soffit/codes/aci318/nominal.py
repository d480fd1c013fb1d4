"""The nominal moment of a few bars, all at fy, as 9.7.3 wants it for anchorage and curtailment; *from memory*."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from soffit.codes.cut import BarsAt, Cut
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working
from soffit.materials.standards import aci_lightweight_factor


@dataclass(frozen=True)
class Nominal:
    moment: Working
    d: float
    """Of the centroid of the pull, mm."""
    workings: tuple[Working, ...]


def weakest(design: Design) -> float:
    """f'c of the block: of beam and topping the lesser."""
    top = design.opened.topping
    return design.strength if design.cast is None or top is None else min(design.strength, top)


def value(design: Design, cut: Cut, bars: Sequence[BarsAt]) -> tuple[float, float, float, float]:
    """Pull, its depth, depth of the block and of the block's centroid (N, mm) of bars at fy; zeros without bars.

    Compressed steel is left out.
    """
    pull = sum(b.area * b.yield_strength for b in bars)
    if pull <= 0.0:
        return 0.0, 0.0, 0.0, 0.0
    d = sum(b.area * b.yield_strength * b.depth for b in bars) / pull
    want = pull / (0.85 * weakest(design))
    low, high = 0.0, cut.h
    for _ in range(40):
        a = 0.5 * (low + high)
        low, high = (a, high) if cut.zone(a)[0] < want else (low, a)
    return pull, d, high, cut.zone(high)[1]


def moment(design: Design, cut: Cut, bars: Sequence[BarsAt]) -> float:
    """Mn without working, N·mm."""
    pull, d, _, z = value(design, cut, bars)
    return max(pull * (d - z), 0.0)


def nominal(design: Design, cut: Cut, bars: Sequence[BarsAt]) -> Nominal:
    """Mn with its working."""
    pen = design.pen
    pull, d, a, z = value(design, cut, bars)
    steel = Symbol("As", sum(b.area for b in bars), "area", "of the bars in tension that count here")
    fy = Symbol("fy", pull / steel.value if steel.value else 0.0, "stress", "their yield strength, by area")
    t = pen("T", "pull of the bars at fy", "As·fy", (steel, fy), "force")
    depth = Symbol("d", d, "length", "depth of these bars")
    arm = Symbol("za", z, "length", f"depth of the centroid of the block, {a:.1f} mm deep with 0.85 f'c")
    mn = pen("Mn", "nominal moment of these bars at fy", "T·(d − za)", (t, depth, arm), "moment", "22.3.1.1")
    return Nominal(mn, d, (t, mn))


def uncracked(design: Design, cut: Cut, demand: float) -> bool:
    """Whether the bare concrete bears a moment (N·mm) with the strength and φ of chapter 14, 0.60·5 λ√f'c St: bars are
    then not asked to be developed (*ours*, for moments of short stubs beyond a support)."""
    outline = design.outline
    yt = outline.centroid if cut.sagging else outline.depth - outline.centroid
    rupture = 0.42 * aci_lightweight_factor(design.beam.concrete.density) * sqrt(weakest(design))
    return demand <= 0.60 * rupture * outline.inertia / yt

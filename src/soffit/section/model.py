"""One section, ready for the kernels: an outline with its concrete laws and its layers of steel."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array, StressStrain
from soffit.section import kernel
from soffit.section.kernel import SectionArrays
from soffit.section.lawtable import Laws, stack, tabulate
from soffit.section.outline import Outline


@dataclass(frozen=True)
class Layer:
    """Steel at one height, bonded to the concrete around it."""

    y: float
    """mm above the soffit."""
    area: float
    """mm²."""
    law: StressStrain
    prestrain: float = 0.0
    """Strain of the steel where the concrete beside it has none."""
    displaces: bool = True
    """Whether it stands in concrete that the outline counts (false: in a duct that is left out of the outline)."""


@dataclass(frozen=True)
class Section:
    """Arrays as :mod:`soffit.section.kernel` wants them, with the height about which moments are taken."""

    strips: Array
    layers: Array
    laws: Laws
    axis: float
    """mm above the soffit; the centroid of the bare concrete unless it was given."""
    scale: float
    """N; the size of force against which equilibrium is judged."""

    @property
    def depth(self) -> float:
        return float(self.strips[-1, 1])

    def trace(self, curvatures: Array, axial: float = 0.0, guess: float = 0.0) -> tuple[Array, Array]:
        """Soffit strain and moment (N·mm) at each curvature (1/mm) in turn, under an axial force (N, tension positive).

        Each point is sought from the one before it, so ``curvatures`` should walk in small steps from ``guess``'s
        state. NaN from where equilibrium is lost.
        """
        strain, moment = kernel.trace(
            *self.arrays,
            self.axis,
            np.asarray(curvatures, dtype=float),
            float(axial),
            float(guess),
            self.scale,
        )
        return strain, moment

    def resultants(self, soffit: float, curvature: float) -> tuple[float, float]:
        """Axial force (N) and moment about the axis (N·mm) under a plane of strain."""
        n, m, *_ = kernel.resultants(*self.arrays, self.axis, float(soffit), float(curvature))
        return float(n), float(m)

    def plane(self, axial: float, moment: float, guess: tuple[float, float] = (0.0, 0.0)) -> tuple[float, float]:
        """Soffit strain and curvature that carry (axial, moment); NaN where none is found from the guess."""
        e, k = kernel.find_plane(*self.arrays, self.axis, float(axial), float(moment), *guess, self.scale, self.depth)
        return float(e), float(k)

    @property
    def arrays(self) -> SectionArrays:
        laws = self.laws
        return self.strips, self.layers, laws.table, laws.first, laws.last


def section(
    outline: Outline,
    concrete: StressStrain,
    layers: Sequence[Layer] = (),
    axis: float | None = None,
    core: tuple[Array, StressStrain] | None = None,
) -> Section:
    """A section of one concrete, with an optional core of another.

    ``core`` is (strips of the core (n, 4), its law): the core's width is taken out of the outline strip by strip.
    """
    laws: list[StressStrain] = [concrete]
    strips = np.column_stack([outline.strips, np.zeros(len(outline.strips))])
    if core is not None:
        laws.append(core[1])
        strips = split_core(outline, core[0])
    rows = []
    for layer in layers:
        if layer.law not in laws:
            laws.append(layer.law)
        rows.append(
            (
                layer.y,
                layer.area,
                layer.prestrain,
                laws.index(layer.law),
                _law_there(strips, layer.y) if layer.displaces else -1,
            )
        )
    tables = stack([tabulate(law) for law in laws])
    strongest = float(np.max(np.abs(tables.table[tables.first[0] : tables.last[0] + 1, 1])))
    return Section(
        strips=np.ascontiguousarray(strips),
        layers=np.array(rows, dtype=float).reshape(-1, 5),
        laws=tables,
        axis=outline.centroid if axis is None else axis,
        scale=strongest * outline.area,
    )


def _law_there(strips: Array, y: float) -> int:
    """Concrete law that steel at height y stands in: the core's where there is one."""
    here = (strips[:, 0] <= y) & (y <= strips[:, 1])
    return int(strips[here, 4].max()) if here.any() else 0


def split_core(outline: Outline, core: Array) -> Array:
    """Strips of cover (law 0) and core (law 1), cut at the heights where either changes."""
    cuts = np.unique(np.concatenate([outline.strips[:, :2].ravel(), core[:, :2].ravel()]))
    rows: list[tuple[float, float, float, float, float]] = []
    for y0, y1 in itertools.pairwise(cuts):
        outer = _widths(outline.strips, y0, y1)
        inner = _widths(core, y0, y1)
        inner = (min(inner[0], outer[0]), min(inner[1], outer[1]))
        rows.append((y0, y1, outer[0] - inner[0], outer[1] - inner[1], 0.0))
        if max(inner) > 0:
            rows.append((y0, y1, *inner, 1.0))
    return np.array(rows)


def _widths(strips: Array, y0: float, y1: float) -> tuple[float, float]:
    middle = 0.5 * (y0 + y1)
    for a, b, wa, wb in strips[:, :4]:
        if a <= middle <= b:
            slope = (wb - wa) / (b - a)
            return float(wa + slope * (y0 - a)), float(wa + slope * (y1 - a))
    return 0.0, 0.0

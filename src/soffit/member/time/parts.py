"""The concretes and the steel of a beam at its stations, as arrays for the march through time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array
from soffit.member import profile, transfer_length
from soffit.member.beam import Beam
from soffit.member.making import Topping
from soffit.section.outline import Outline

FIBRES = 60
"""Into which the depth of each concrete is cut where it has cracked; before that the state is exact without them."""


@dataclass(frozen=True)
class Part:
    """One concrete. Its area is what is left beside the steel in it."""

    sums: Array
    """(stations, 3): area and its moments about y = 0, net of the steel bonded in it."""
    y: Array
    """(fibres,): heights of the centroids of its fibres."""
    area: Array
    """(stations, fibres): their areas, net of steel; together they have the sums' area."""
    low: float
    high: float


@dataclass(frozen=True)
class Steel:
    """Bars, then tendon groups. (layers, stations) unless said otherwise."""

    y: Array
    area: Array
    """Zero where it does not run; reduced where bond is still building up its hold."""
    modulus: Array
    """(layers, 1)."""
    slope: Array
    inside: Array
    bars: int
    """How many layers are bars."""


def steel(beam: Beam, x: Array) -> Steel:
    """Steel at the stations ``x``. A pretensioned tendon holds by the share of its bond that is built up."""
    y, area, slope, inside = [], [], [], []
    for bar in beam.bars:
        here = (x >= bar.x_from) & (x <= bar.x_to)
        y.append(np.full_like(x, bar.y))
        area.append(bar.area * here)
        slope.append(np.zeros_like(x))
        inside.append(1.0 * here)
    for tendon in beam.tendons:
        here = (x >= tendon.x_from - 1e-9) & (x <= tendon.x_to + 1e-9)
        hold = np.ones_like(x)
        if tendon.when == "before casting":
            hold = transfer_length.built_up(x, tendon, transfer_length.transfer_length(beam, tendon, tendon.stress))
        y.append(profile.height(tendon.profile, x))
        area.append(tendon.area * here * hold)
        slope.append(profile.slope(tendon.profile, x) * here)
        inside.append(1.0 * here)
    shape = (0, len(x))
    modulus = [bar.steel.modulus for bar in beam.bars] + [tendon.steel.modulus for tendon in beam.tendons]
    return Steel(
        np.array(y) if y else np.zeros(shape),
        np.array(area) if area else np.zeros(shape),
        np.array(modulus).reshape(-1, 1),
        np.array(slope) if slope else np.zeros(shape),
        np.array(inside) if inside else np.zeros(shape),
        len(beam.bars),
    )


def parts(beam: Beam, topping: Topping | None, reinforcement: Steel, fibres: int = FIBRES) -> tuple[Part, ...]:
    """The beam's own concrete, and the topping where there is one."""
    of_topping = np.array([bar.part == "topping" for bar in beam.bars] + [False] * len(beam.tendons), dtype=bool)
    bonded = np.array([True] * len(beam.bars) + [t.bond == "bonded" for t in beam.tendons], dtype=bool)
    found = [_part(beam.outline, 0.0, reinforcement, bonded & ~of_topping, fibres)]
    if topping is not None:
        found.append(_part(topping.outline, topping.base, reinforcement, bonded & of_topping, fibres))
    return tuple(found)


def _part(outline: Outline, base: float, s: Steel, within: Array, fibres: int) -> Part:
    area, first = outline.area, outline.area * (outline.centroid + base)
    second = outline.inertia + outline.area * (outline.centroid + base) ** 2
    taken, y = s.area * within[:, None], s.y
    n = s.area.shape[1] if s.area.size else s.y.shape[1]
    sums = np.column_stack(
        [
            np.full(n, area) - taken.sum(0),
            np.full(n, first) - (taken * y).sum(0),
            np.full(n, second) - (taken * y * y).sum(0),
        ]
    )
    heights, areas = _fibres(outline, fibres)
    heights = heights + base
    net = np.tile(areas, (n, 1))
    for layer in range(len(taken)):
        nearest = np.argmin(np.abs(heights[None, :] - y[layer][:, None]), axis=1)
        net[np.arange(n), nearest] -= taken[layer]
    return Part(sums, heights, np.maximum(net, 0.0), base, base + outline.depth)


def _fibres(outline: Outline, count: int) -> tuple[Array, Array]:
    """Heights of the centroids and areas of fibres, cut so that none spans a corner of the outline."""
    y, area = [], []
    for y0, y1, w0, w1 in outline.strips:
        n = max(1, round(count * (y1 - y0) / outline.depth))
        edge = np.linspace(y0, y1, n + 1)
        width = w0 + (w1 - w0) * (edge - y0) / (y1 - y0)
        h, a, b = np.diff(edge), width[:-1], width[1:]
        area.append(0.5 * (a + b) * h)
        y.append(edge[:-1] + h * (a + 2.0 * b) / (3.0 * np.maximum(a + b, 1e-12)))
    return np.concatenate(y), np.concatenate(area)

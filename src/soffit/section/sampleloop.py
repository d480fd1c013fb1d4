"""The compiled loop behind :mod:`soffit.section.population`: a row of numbers to the events of one
section.
"""

# numba infers the types of compiled functions
# mypy: allow-untyped-defs, allow-untyped-calls, no-check-untyped-defs

from __future__ import annotations

from math import isnan, nan

import numpy as np

from soffit.jit import kernel, parallel_kernel, prange
from soffit.section import march as steps
from soffit.section.march import furthest_curvature, march, start_plane, watch_strains
from soffit.section.samplelaws import MOST_ROWS, concrete_rows, steel_rows

COLUMNS_BEFORE, OF_A_STEEL, OF_A_LAYER = 9, 5, 3
"""Columns of a sample: 9 of the section and its concrete, 5 a steel, 3 a layer."""

# rows of the events of a sample behind those that every section has (march.DECOMPRESSION, CRACK, CRUSH)
YIELD, RUPTURE, PEAK = 3, 4, 5

_FIRST, _YIELD, _RUPTURE = steps.FIRST_LAYER, steps.YIELD, steps.RUPTURE


@parallel_kernel
def walk_samples(
    strips, area, centroid, numbers, law, tension, kinds, of_layers, direction, crushing, until, bend, out
):
    """Events (n, 6, 2) of samples (n, columns) of one outline, spread over the cores."""
    for i in prange(numbers.shape[0]):
        _walk(
            strips,
            area,
            centroid,
            numbers[i],
            law,
            tension,
            kinds,
            of_layers,
            direction,
            crushing,
            until,
            bend,
            out[i],
        )


@kernel
def _walk(strips, area, centroid, x, law, tension, kinds, of_layers, direction, crushing, until, bend, out):
    out[:] = nan
    width, depth = x[0], x[1]
    table, first, last = _tables(x, law, tension, kinds)
    if table.shape[0] == 0 or not (width > 0.0 and depth > 0.0):
        return
    strips, layers = _geometry(strips, x, len(kinds), of_layers)
    height = strips[-1, 1]
    for j in range(layers.shape[0]):
        if not (0.0 < layers[j, 0] < height and layers[j, 1] >= 0.0):
            return
    strongest = 0.0
    for row in range(first[0], last[0] + 1):
        strongest = max(strongest, abs(table[row, 1]))
    scale = strongest * area * width * depth
    arrays = (strips, layers, table, first, last)
    watches = np.empty((_FIRST + 3 * layers.shape[0], 3))
    watch_strains(table, first, last, 0, crushing, layers, height, direction, watches)
    axis = centroid * depth
    e, k = start_plane(arrays, axis, height, x[2], scale)
    if isnan(e) or isnan(k):
        return
    events = np.empty((watches.shape[0] + 1, 3))
    furthest = furthest_curvature(table, last, 0, layers, height)
    kept = np.empty((0, 3))
    march(arrays, axis, height, x[2], scale, e, k, direction, watches, furthest, until, bend, kept, events)
    _pick(events, layers.shape[0], direction, out)


@kernel
def _pick(events, n_layers, direction, out):
    """Moment and curvature of the common events, of the first yield and rupture of any layer, and of the
    peak.
    """
    for row in range(_FIRST):
        out[row, 0], out[row, 1] = events[row, 2], events[row, 0]
    for j in range(n_layers):
        for into, which in ((YIELD, _YIELD), (RUPTURE, _RUPTURE)):
            found = events[_FIRST + 3 * j + which]
            if not isnan(found[0]) and not direction * found[0] >= direction * out[into, 1]:
                out[into, 0], out[into, 1] = found[2], found[0]
    out[PEAK, 0], out[PEAK, 1] = events[-1, 2], events[-1, 0]


@kernel
def _tables(x, law, tension, kinds):
    """Stacked tables of the concrete (law 0) and the steels; no rows where one of them is no law."""
    n_steels = len(kinds)
    first, last = np.zeros(1 + n_steels, dtype=np.int64), np.zeros(1 + n_steels, dtype=np.int64)
    room = np.empty((MOST_ROWS * (1 + n_steels), 8))
    n = concrete_rows(law, tension, x[3], x[4], x[5], x[6], x[7], x[8], room)
    if n == 0:
        return room[:0], first, last
    last[0] = n - 1
    for s in range(n_steels):
        p = x[COLUMNS_BEFORE + OF_A_STEEL * s :]
        rows = steel_rows(int(kinds[s]), p[0], p[1], p[2], p[3], p[4], room[n:])
        if rows == 0:
            return room[:0], first, last
        first[s + 1], last[s + 1] = n, n + rows - 1
        n += rows
    return room[:n], first, last


@kernel
def _geometry(strips, x, n_steels, of_layers):
    """Strips scaled by the sample's width and depth, and its layers."""
    scaled = np.zeros((strips.shape[0], 5))
    for i in range(strips.shape[0]):
        scaled[i, 0], scaled[i, 1] = strips[i, 0] * x[1], strips[i, 1] * x[1]
        scaled[i, 2], scaled[i, 3] = strips[i, 2] * x[0], strips[i, 3] * x[0]
    layers = np.empty((of_layers.shape[0], 5))
    for j in range(of_layers.shape[0]):
        p = x[COLUMNS_BEFORE + OF_A_STEEL * n_steels + OF_A_LAYER * j :]
        layers[j, 0], layers[j, 1], layers[j, 2] = p[0], p[1], p[2]
        layers[j, 3] = 1.0 + of_layers[j, 0]
        layers[j, 4] = 0.0 if of_layers[j, 1] > 0.0 else -1.0
    return scaled, layers

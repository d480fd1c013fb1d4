"""A section bent further and further: the march along its moment–curvature path, as one compiled function.

One section (:mod:`soffit.section.moment_curvature`) and each of a million
(:mod:`soffit.section.population`) walk by this same function. The step follows the bend of the path; what
happens on the way is not read off the steps but located by root finding on the kernel, so the step decides
only how many points are kept.

A watch is a height at which a strain is looked for: it has happened once sign · (strain at y) reaches
limit. Base units N, mm, MPa; strain(y) = strain at the soffit − curvature · y.
"""

# numba infers the types of compiled functions
# mypy: allow-untyped-defs, allow-untyped-calls, no-check-untyped-defs

from __future__ import annotations

from math import isnan, nan

import numpy as np

from soffit.jit import kernel
from soffit.section.kernel import equilibrium, find_plane, resultants

# rows of the watches that every section has; behind them three for each layer of steel
DECOMPRESSION, CRACK, CRUSH = 0, 1, 2
FIRST_LAYER = 3
YIELD, YIELD_COMPRESSION, RUPTURE = 0, 1, 2

# why a march ended
FELL, LOST, CURVATURE, FULL = 0, 1, 2, 3

JUST_BEFORE = 1e-14
"""Strain by which a limit is approached from below, so that a law that jumps there still counts with the
left value.
"""
_ARMED = -1e-9
"""A watch whose strain is not at least this far below its limit at the start is not watched: it has
happened before.
"""
MOST_POINTS = 4000
_NEAR_THE_TOP = 1e-4
"""``bend`` at most, where the moment is above 0.95 of its peak so far."""
_SMALLEST = 1e-6
"""Strain over the depth below which a step is not cut further: what still jumps there is a jump."""


@kernel
def watch_strains(table, first, last, concrete, crushing, layers, depth, direction, watches):
    """Fill ``watches`` (3 + 3 l, 3) with y, sign, limit of every watch of a section, read from the tables.

    First crack: the strain of the largest tensile stress of law ``concrete``, at the tension face.
    Crushing: the strain ``crushing`` (positive) at the compression face. Yield of a layer: the end of the
    straight first part of its law; where there is none (strand) 1 % extension, at which ASTM A416
    measures yield. Rupture: where the law of the layer ends. NaN where a law has no such strain.
    """
    tension_face = 0.0 if direction > 0 else depth
    watches[DECOMPRESSION] = np.array([tension_face, 1.0, 0.0])
    watches[CRACK] = np.array([tension_face, 1.0, _strain_of_most_tension(table, first[concrete], last[concrete])])
    watches[CRUSH] = np.array([depth - tension_face, -1.0, crushing])
    for i in range(layers.shape[0]):
        y, prestrain, law = layers[i, 0], layers[i, 2], int(layers[i, 3])
        first_yield, rupture = _yield_and_rupture(table, first[law], last[law])
        row = FIRST_LAYER + 3 * i
        watches[row + YIELD] = np.array([y, 1.0, first_yield - prestrain])
        watches[row + YIELD_COMPRESSION] = np.array([y, -1.0, first_yield + prestrain])
        watches[row + RUPTURE] = np.array([y, 1.0, rupture - prestrain])


@kernel
def _strain_of_most_tension(table, first, last):
    most, strain = 0.0, nan
    for row in range(first, last):
        high = table[row + 1, 0]
        if high <= 0.0:
            continue
        t = high - table[row, 0]
        stress = table[row, 1] + t * (table[row, 2] + t * (table[row, 3] + t * table[row, 4]))
        if stress > most * (1.0 + 1e-9):
            most, strain = stress, high
    return strain


@kernel
def _yield_and_rupture(table, first, last):
    rupture = table[last, 0] if table[last, 0] < 100.0 else nan
    row = first
    while row < last and table[row + 1, 0] <= 1e-12:
        row += 1
    straight = table[row, 3] == 0.0 and table[row, 4] == 0.0
    if not straight:
        return (0.01 if rupture > 0.01 else nan), rupture
    if row + 1 >= last:
        return nan, rupture
    return table[row + 1, 0], rupture


@kernel
def furthest_curvature(table, last, concrete, layers, depth):
    """Curvature beyond which no march goes, 1/mm: four times the longest strain of any law over the
    depth.
    """
    longest = max(0.02, table[last[concrete], 0])
    for i in range(layers.shape[0]):
        longest = max(longest, table[last[int(layers[i, 3])], 0] - layers[i, 2])
    return 4.0 * min(longest, 0.2) / depth


@kernel
def start_plane(arrays, axis, depth, axial, scale):
    """Soffit strain and curvature under ``axial`` and no moment, from several first guesses; NaN where
    none is found.

    Guesses: no strain at all, a little compression (so that a concrete without tension has stiffness), and
    the equilibrium without curvature.
    """
    for guess in (0.0, -1e-5, -1e-4):
        e, k = find_plane(*arrays, axis, axial, 0.0, guess, 0.0, scale, depth)
        if not isnan(e):
            return e, k
    even = equilibrium(*arrays, 0.0, axial, 0.0, scale)
    if isnan(even):
        return nan, nan
    return find_plane(*arrays, axis, axial, 0.0, even, 0.0, scale, depth)


@kernel
def _state(arrays, axis, e, k):
    """Moment, and along the path of constant axial force de/dκ and dM/dκ (NaN where none can be held)."""
    _, m, a, b, d = resultants(*arrays, axis, e, k)
    if a <= 0.0:
        return m, nan, nan
    return m, -b / a, d - (b + axis * a) * b / a


@kernel
def _fall(arrays, axial, scale, e, k):
    """Equilibrium into which a section at ``e`` falls that has none near; NaN where it falls for ever.

    Too little force stretches it, too much shortens it, until the force is right again: the first root in
    that direction. Which of several equilibria follows a snap is then not left to the search.
    """
    force = resultants(*arrays, 0.0, e, k)[0]
    side = 1.0 if force < axial else -1.0
    near, step = e, 2e-6
    while step < 0.02:
        far = near + side * step
        if side * (resultants(*arrays, 0.0, far, k)[0] - axial) >= 0.0:
            break
        near = far
        step *= 1.2
    else:
        return nan
    for _ in range(100):
        middle = 0.5 * (near + far)
        force = resultants(*arrays, 0.0, middle, k)[0]
        if abs(force - axial) <= 1e-10 * scale or middle in (near, far):
            break
        if side * (force - axial) < 0.0:
            near = middle
        else:
            far = middle
    return middle


@kernel
def _where(arrays, axis, axial, scale, y, strain, start, end):
    """Point of the path between ``start`` and ``end`` where the strain at ``y`` is ``strain``.

    Points are (curvature, soffit strain, moment, …). With the strain at one height given, the curvature is
    the one unknown of the axial equilibrium: Newton. Where that leaves the step, the curvature is bisected
    with the equilibrium found anew each time.
    """
    k0, e0, k1, e1 = start[0], start[1], end[0], end[1]
    g0, g1 = e0 - k0 * y - strain, e1 - k1 * y - strain
    k = k0 + (k1 - k0) * g0 / (g0 - g1)
    low, high = min(k0, k1), max(k0, k1)
    for _ in range(30):
        e = strain + k * y
        n, m, a, b, _ = resultants(*arrays, axis, e, k)
        if abs(n - axial) <= 1e-10 * scale:
            return k, e, m
        slope = a * y + b
        if slope == 0.0:
            break
        k -= (n - axial) / slope
        if not low <= k <= high:
            break
    ka, kb, ea = k0, k1, e0
    for _ in range(80):
        k = 0.5 * (ka + kb)
        if k in (ka, kb):
            break
        e = equilibrium(*arrays, k, axial, ea, scale)
        if isnan(e) or (e - k * y - strain) * g0 <= 0.0:
            kb = k
        else:
            ka, ea = k, e
    return ka, ea, resultants(*arrays, axis, ea, ka)[1]


@kernel
def _summit(arrays, axis, axial, scale, start, end):
    """Point between two points of the path where dM/dκ vanishes (false position, damped); NaN if lost."""
    ka, ea, ta = start[0], start[1], start[4]
    kb, eb, tb = end[0], end[1], end[4]
    k, e, m, side = ka, ea, nan, 0
    for _ in range(60):
        k = ka + (kb - ka) * ta / (ta - tb)
        if not min(ka, kb) < k < max(ka, kb):
            k = 0.5 * (ka + kb)
        guess = ea + (eb - ea) * (k - ka) / (kb - ka)
        e = equilibrium(*arrays, k, axial, guess, scale)
        if isnan(e):
            return k, e, nan
        m, _, t = _state(arrays, axis, e, k)
        if isnan(t) or t == 0.0 or abs(kb - ka) <= 1e-9 * abs(k):
            break
        if t * ta > 0.0:
            ka, ta, ea = k, t, e
            tb *= 0.5 if side == 1 else 1.0
            side = 1
        else:
            kb, tb, eb = k, t, e
            ta *= 0.5 if side == -1 else 1.0
            side = -1
    return k, e, m


@kernel
def _look(arrays, axis, axial, scale, direction, watches, armed, events, start, end, peak):
    """Locate the watches that happened in a step, and the peak of the path so far."""
    for i in range(watches.shape[0]):
        y, sign, limit = watches[i, 0], watches[i, 1], watches[i, 2]
        if armed[i] and sign * (end[1] - end[0] * y) >= limit:
            armed[i] = False
            found = _where(arrays, axis, axial, scale, y, sign * (limit - JUST_BEFORE), start, end)
            events[i, 0], events[i, 1], events[i, 2] = found
            if direction * found[2] > direction * peak[2]:
                peak = found
    if start[4] > 0.0 and end[4] < 0.0:
        found = _summit(arrays, axis, axial, scale, start, end)
        if direction * found[2] > direction * peak[2]:
            peak = found
    if direction * end[2] > direction * peak[2]:
        peak = (end[0], end[1], end[2])
    return peak


@kernel
def _steel_pulls(layers, watches, e, k):
    """Whether any layer is in tension and has not ruptured."""
    for i in range(layers.shape[0]):
        strain = e - k * layers[i, 0]
        if strain + layers[i, 2] > 0.0 and not strain >= watches[FIRST_LAYER + 3 * i + RUPTURE, 2]:
            return True
    return False


@kernel
def march(arrays, axis, depth, axial, scale, e0, k0, direction, watches, furthest, until, bend, points, events):
    """Walk from the plane (e0, k0) with growing direction · curvature, until the moment has fallen.

    ``arrays`` are the five of :mod:`soffit.section.kernel`. ``points`` (p, 3) receives curvature, soffit
    strain and moment as far as it has room; ``events`` (w + 1, 3) the same of every watch, NaN where it did
    not happen, and of the peak in the last row. ``bend`` is the part of the largest moment by which a step
    may miss the trapezoid of its end slopes. Ends when direction · moment is below ``until`` of its peak
    and either the concrete has crushed or no steel pulls any more; at ``furthest`` (1/mm) of change in
    curvature; or where no equilibrium is found. Returns the number of points and why it ended (FELL, LOST,
    CURVATURE, FULL).
    """
    events[:] = nan
    m, slope, t = _state(arrays, axis, e0, k0)
    here = (k0, e0, m, slope, t)
    armed = np.empty(watches.shape[0], dtype=np.bool_)
    for i in range(watches.shape[0]):
        armed[i] = watches[i, 1] * (e0 - k0 * watches[i, 0]) - watches[i, 2] < _ARMED
    peak = (k0, e0, m)
    _keep(points, 0, here)
    n, dk, why = 1, 10 * _SMALLEST / depth, FULL
    while n < MOST_POINTS:
        smallest = dk * depth <= _SMALLEST
        k = here[0] + direction * dk
        guess = here[1] if isnan(here[3]) else here[1] + direction * dk * here[3]
        e = equilibrium(*arrays, k, axial, guess, scale)
        if isnan(e):
            if smallest:
                why = LOST
                break
            dk *= 0.5
            continue
        m, slope, t = _state(arrays, axis, e, k)
        miss = m - here[2] - 0.5 * (t + here[4]) * (k - here[0])
        size = max(abs(peak[2]), abs(m), 1e-300)
        # two summits may lie close together: look harder where the moment is high
        allowed = size * (min(bend, _NEAR_THE_TOP) if direction * m > 0.95 * size else bend)
        part = np.inf if isnan(miss) else abs(miss) / allowed
        if part > 1.0 and not smallest:
            dk *= 0.5
            continue
        if part > 1.0:
            fallen = _fall(arrays, axial, scale, here[1], k)
            if not isnan(fallen):
                e = fallen
                m, slope, t = _state(arrays, axis, e, k)
        there = (k, e, m, slope, t)
        peak = _look(arrays, axis, axial, scale, direction, watches, armed, events, here, there, peak)
        here = there
        _keep(points, n, here)
        n += 1
        gone = abs(k - k0)
        if gone >= furthest:
            why = CURVATURE
            break
        if direction * m < until * direction * peak[2] and (
            not isnan(events[CRUSH, 0]) or not _steel_pulls(arrays[1], watches, e, k)
        ):
            why = FELL
            break
        dk *= 1.7 if part < 0.1 else (1.2 if part < 0.5 else 1.0)
        dk = min(dk, 0.25 * gone + 20 * _SMALLEST / depth, max(furthest - gone, _SMALLEST / depth))
    events[-1, 0], events[-1, 1], events[-1, 2] = peak
    return n, why


@kernel
def _keep(points, n, here):
    if n < points.shape[0]:
        points[n, 0], points[n, 1], points[n, 2] = here[0], here[1], here[2]

"""The state of every station under given forces: one compiled pass along the beam.

Uncracked stations are elastic. A cracked station with bonded steel has the mean curvature between its uncracked and
its fully cracked state, EN 1992-1-1:2004 7.4.3 (7.18): α = ζ α_II + (1 − ζ) α_I with ζ = 1 − (M_cr/M)²; M is counted
from the moment at which the tension face has no strain, so that prestress and axial force are in it. Without bonded
steel one crack takes all the rotation, so every station but the hinge stays elastic.
"""

from __future__ import annotations

from math import isnan, nan
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from soffit.jit import kernel
from soffit.materials.curve import Array
from soffit.section.kernel import equilibrium, find_plane, resultants
from soffit.section.strip import Five, Ints, Pair

Flags: TypeAlias = NDArray[np.bool_]

# columns of the result
SOFFIT, CURVATURE, CRACKED_SOFFIT, CRACKED_CURVATURE, CRACKED = range(5)


@kernel
def uncracked(
    elastic: Array,
    axis: float,
    axial: float,
    moment: float,
) -> Pair:
    """Soffit strain and curvature of the transformed section under (N, M)."""
    s0, s1, s2 = elastic[0], elastic[1], elastic[2]
    n, m = axial - elastic[3], moment - elastic[4]
    b, c, d = -s1, -(s1 - axis * s0), s2 - axis * s1
    det = s0 * d - b * c
    return (n * d - b * m) / det, (s0 * m - c * n) / det


@kernel
def limits(
    elastic: Array,
    axis: float,
    depth: float,
    axial: float,
    strain: float,
    sagging: bool,
) -> Pair:
    """Moments at which the tension face has no strain, and at which it has ``strain``: (decompression, cracking)."""
    e0, k0 = uncracked(elastic, axis, axial, 0.0)
    e1, k1 = uncracked(elastic, axis, axial, 1.0e6)
    if sagging:
        face, rate = e0, (e1 - e0) / 1.0e6
    else:
        face, rate = e0 - k0 * depth, ((e1 - k1 * depth) - (e0 - k0 * depth)) / 1.0e6
    return -face / rate, (strain - face) / rate


@kernel
def share_cracked(
    moment: float,
    decompression: float,
    cracking: float,
) -> float:
    """ζ of EN 1992-1-1 (7.19) with β = 1, moments counted from decompression."""
    over = (cracking - decompression) / (moment - decompression)
    return max(0.0, 1.0 - over * over)


@kernel
def _climb(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    depth: float,
    scale: float,
    axial: float,
    moment: float,
    e1: float,
    k1: float,
    sign: int,
) -> tuple[float, float, bool]:
    """Cracked plane by walking up the moment–curvature curve: slower than Newton, but it knows where the peak is.

    Returns the plane and whether the moment was reached; past the peak, the plane at the peak.
    """
    target = moment * sign
    k_low = nan
    k = sign * max(abs(k1), 1e-3 * abs(e1) / depth)
    e, best_e, best_k, best_m, falls = e1, nan, nan, -np.inf, 0
    for _ in range(400):
        found = equilibrium(strips, layers, table, first, last, k, axial, e, scale)
        if isnan(found):
            break
        e = found
        m = sign * resultants(strips, layers, table, first, last, axis, e, k)[1]
        if m >= target:
            break
        if m > best_m:
            best_e, best_k, best_m, falls = e, k, m, 0
        else:
            falls += 1
            if falls > 25:
                break
        k_low = k
        k *= 1.06
        if abs(k) * depth > 0.5:
            break
    else:
        return best_e, best_k, False
    if isnan(e) or isnan(k_low) or m < target:
        return best_e, best_k, False
    low, high = k_low, k
    for _ in range(60):
        k = 0.5 * (low + high)
        found = equilibrium(strips, layers, table, first, last, k, axial, e, scale)
        if isnan(found):
            return best_e, best_k, False
        e = found
        m = sign * resultants(strips, layers, table, first, last, axis, e, k)[1]
        if m < target:
            low = k
        else:
            high = k
        if abs(high - low) <= 1e-12 * abs(high):
            break
    return e, k, True


@kernel
def cracked_plane(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    depth: float,
    scale: float,
    axial: float,
    moment: float,
    e1: float,
    k1: float,
    e2: float,
    k2: float,
    sign: int,
) -> tuple[float, float, bool]:
    """Plane of the cracked section under (N, M), and whether the section can carry M (else the plane at its strength).

    ``e1, k1``: the uncracked plane; ``e2, k2``: a guess of the cracked one (NaN: none).
    """
    guess_e, guess_k = (e1, k1) if isnan(e2) else (e2, k2)
    e2, k2 = find_plane(strips, layers, table, first, last, axis, axial, moment, guess_e, guess_k, scale, depth)
    if isnan(e2) or k2 * sign <= 0.0:
        return _climb(strips, layers, table, first, last, axis, depth, scale, axial, moment, e1, k1, sign)
    return e2, k2, True


@kernel
def one_state(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    depth: float,
    scale: float,
    elastic: Array,
    strain: float,
    below: bool,
    above: bool,
    axial: float,
    moment: float,
    e2: float,
    k2: float,
) -> Five:
    """State of one station: mean soffit strain and curvature, those at a crack, and 1/−1/0 for sagging/hogging/none.

    ``strain``: cracking strain; ``e2, k2``: a guess for the cracked plane (NaN: none). Where the moment is beyond the
    section's strength the state is that at the strength (the uncracked one where it has none), marked 2/−2.
    """
    e1, k1 = uncracked(elastic, axis, axial, moment)
    top = e1 - k1 * depth
    sign = 0
    if e1 > strain and e1 >= top:
        sign = 1
    elif top > strain:
        sign = -1
    if sign == 0 or (sign == 1 and not below) or (sign == -1 and not above):
        return e1, k1, e1, k1, 0.0
    e2, k2, reached = cracked_plane(
        strips, layers, table, first, last, axis, depth, scale, axial, moment, e1, k1, e2, k2, sign
    )
    if isnan(e2):
        # the cracked section carries nothing of the kind at all
        return e1, k1, e1, k1, 2.0 * sign
    state = sign * (1.0 if reached else 2.0)
    decompression, cracking = limits(elastic, axis, depth, axial, strain, sign == 1)
    z = share_cracked(moment, decompression, cracking)
    return e1 + z * (e2 - e1), k1 + z * (k2 - k1), e2, k2, state


@kernel
def sweep(
    strips: Array,
    layers: Array,
    table: Array,
    first: Ints,
    last: Ints,
    axis: float,
    depth: float,
    scale: float,
    elastic: Array,
    strain: float,
    below: Flags,
    above: Flags,
    axial: Array,
    moment: Array,
    guess: Array,
    most: Array,
    closing: Flags,
) -> Array:
    """:func:`one_state` at every station, shape (stations, 5).

    ``guess`` (stations, 5): the result of the step before. ``most`` (stations, 6): the greatest moment (by its
    distance from zero) each station has carried, what cracking then added to the mean curvature and soffit strain,
    its sign, and what it added at the crack. A station of ``closing`` closes its cracks in proportion to its moment,
    back to the uncracked state at none.
    """
    n = moment.shape[0]
    out = np.empty((n, 5))
    for j in range(n):
        seen = most[j, 0]
        if closing[j] and moment[j] * seen >= 0.0:
            e1, k1 = uncracked(elastic[j], axis, axial[j], moment[j])
            part = moment[j] / seen
            out[j, 0] = e1 + part * most[j, 2]
            out[j, 1] = k1 + part * most[j, 1]
            out[j, 2] = e1 + part * most[j, 5]
            out[j, 3] = k1 + part * most[j, 4]
            out[j, 4] = most[j, 3]
            continue
        e, k, e2, k2, sign = one_state(
            strips, layers[j], table, first, last, axis, depth, scale, elastic[j], strain, below[j], above[j],
            axial[j], moment[j], guess[j, 2] if guess[j, 4] != 0.0 else nan, guess[j, 3],
        )  # fmt: skip
        out[j, 0], out[j, 1], out[j, 2], out[j, 3], out[j, 4] = e, k, e2, k2, sign
    return out


@kernel
def remember(
    elastic: Array,
    axis: float,
    axial: Array,
    moment: Array,
    state: Array,
    most: Array,
) -> None:
    """Update ``most`` in place with the state that a step ended in."""
    for j in range(moment.shape[0]):
        if abs(moment[j]) >= abs(most[j, 0]) or moment[j] * most[j, 0] < 0.0:
            e1, k1 = uncracked(elastic[j], axis, axial[j], moment[j])
            most[j, 0] = moment[j]
            most[j, 1] = state[j, 1] - k1
            most[j, 2] = state[j, 0] - e1
            most[j, 3] = np.sign(state[j, 4])
            most[j, 4] = state[j, 3] - k1
            most[j, 5] = state[j, 2] - e1

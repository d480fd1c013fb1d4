"""Where shear is checked by ACI 318-19 9.4.3; *from memory*."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from soffit.codes.aci318.concreteshear import sizes
from soffit.codes.design import Design


def shear_places(design: Design) -> list[tuple[float, bool, tuple[float, ...]]]:
    """Places, whether each must be looked at (ends, point loads, ends of stirrup zones), and, for a critical section,
    the places towards the face whose stirrups it answers for."""
    beam, size = design.beam, design.outline.depth
    half = 0.5 * beam.supports.bearing
    pieces: list[tuple[float, float]] = []
    critical: list[tuple[float, bool, tuple[float, ...]]] = []
    ends = [0.0, *beam.supports.x, beam.length]
    for i, (a, b) in enumerate(pairwise(ends)):
        low = a + half if i > 0 else a
        high = b - half if i < len(ends) - 2 else b
        if high - low < 1e-3 or (i == 0 and a == beam.supports.x[0]):
            continue
        left, right = low, high
        if i > 0:
            reach = _reach(design, low, 1.0, size)
            left = low + reach
        if i < len(ends) - 2:
            reach = _reach(design, high, -1.0, size)
            right = high - reach
        if left > right + 1e-6:
            continue
        pieces.append((left, right))
        for at, face in ((left, low), (right, high)):
            near = tuple(x for x in design.places if min(at, face) <= x <= max(at, face)) if at != face else ()
            critical.append((at, True, near or ((at,) if at != face else ())))
    marks = [load.x_from for load in beam.loads if load.is_point]
    marks += [x for zone in beam.stirrups for x in (zone.x_from, zone.x_to)]
    must = {round(x, 3) for x in marks}
    inner = [
        (x, round(x, 3) in must, ()) for x in design.places if any(lo - 1e-6 <= x <= hi + 1e-6 for lo, hi in pieces)
    ]
    taken = {round(x, 3) for x, _, _ in critical}
    return sorted([*critical, *(p for p in inner if round(p[0], 3) not in taken)])


def _reach(design: Design, face: float, way: float, size: float) -> float:
    """From the face to the critical section, 9.4.3.2, 9.4.3.3: none where a point load stands between."""
    beam = design.beam
    near = min(max(face + way * 0.5 * size, 0.0), beam.length)
    values = design.actions.envelope("ultimate")
    sag, hog = (float(np.interp(near, design.actions.x, m)) for m in (values.sagging, values.hogging))
    cut = design.cut(near, sag >= hog)
    reach = 0.5 * size if cut.prestressed else sizes(cut)[1].value
    if beam.verifying.vehicles:
        return 0.0
    for load in beam.loads:
        if load.is_point and 0.0 <= (load.x_from - face) * way <= reach:
            return 0.0
    return reach

"""Moment–curvature of one section, through the peak, with what happens on the way."""

# mypy: allow-untyped-calls

from __future__ import annotations

from dataclasses import dataclass
from math import isnan, nan
from typing import Literal

import numpy as np

from soffit.materials.curve import Array
from soffit.section import march
from soffit.section.model import Section

Kind = Literal[
    "decompression",
    "first crack",
    "concrete crushes",
    "yield",
    "yield in compression",
    "rupture",
    "peak",
]
_COMMON: tuple[Kind, ...] = ("decompression", "first crack", "concrete crushes")
_OF_A_LAYER: tuple[Kind, ...] = ("yield", "yield in compression", "rupture")
_ENDED = (
    "the moment fell",
    "equilibrium was lost",
    "the curvature went out of bounds",
    "too many points were needed",
)

CRUSHING_STRAIN = 0.0035
"""Compressive strain at which concrete is said to crush: εcu1 of EN 1992-1-1:2004 Table 3.1, up to
C50/60.
"""


@dataclass(frozen=True)
class Event:
    """One point of the path at which something happens."""

    kind: Kind
    curvature: float
    """1/mm."""
    soffit: float
    """Strain at the soffit."""
    moment: float
    """N·mm."""
    layer: int | None = None
    """Index of the layer of steel that yields or ruptures."""


@dataclass(frozen=True)
class MomentCurvature:
    """The path of one section, from the state without moment on. Arrays of one length, in the order
    walked.
    """

    axial: float
    """N, tension positive."""
    curvature: Array
    """1/mm, sagging positive."""
    soffit: Array
    """Strain at the soffit."""
    moment: Array
    """N·mm about the axis of the section."""
    events: tuple[Event, ...]
    """In the order in which they happen; the peak is one of them."""
    ended: str
    """Why the path ends."""

    @property
    def peak(self) -> Event:
        """Where the moment is greatest in the direction walked; NaN where there is no path."""
        found = self.event("peak")
        return found if found is not None else Event("peak", nan, nan, nan)

    def event(self, kind: Kind, layer: int | None = None) -> Event | None:
        """The first event of a kind (of one layer where it is given), or none."""
        for event in self.events:
            if event.kind == kind and layer in (None, event.layer):
                return event
        return None


def moment_curvature(
    section: Section,
    axial: float = 0.0,
    hogging: bool = False,
    start: tuple[float, float] | None = None,
    crushing_strain: float = CRUSHING_STRAIN,
    until: float = 0.3,
    furthest: float | None = None,
    bend: float = 1e-3,
) -> MomentCurvature:
    """Bend a section under a constant axial force (N, tension positive) until its moment has fallen.

    The path begins at the plane ``start`` (soffit strain, curvature), by default that of ``axial`` and
    the prestress without moment, and ends once the moment is below ``until`` of the peak and the concrete
    has crushed or no steel pulls any more. Curvature steps follow the bend of the path: each misses the
    trapezoid of its end slopes by less than ``bend`` of the peak moment. Events do not depend on the
    steps: they are solved for (:mod:`soffit.section.march`). Concrete crushes at the strain
    ``crushing_strain`` of its compressed face; first crack is the strain of the largest tensile stress at
    the face in tension; steel yields where the straight first part of its law ends (1 % extension where
    it has none). Curvature stops at ``furthest`` (1/mm).

    The path is empty and its peak NaN where no plane carries ``axial`` without moment.
    """
    arrays = section.arrays
    layers, table = section.layers, section.laws.table
    direction = -1.0 if hogging else 1.0
    watches = np.empty((march.FIRST_LAYER + 3 * len(layers), 3))
    march.watch_strains(
        table,
        section.laws.first,
        section.laws.last,
        0,
        crushing_strain,
        layers,
        section.depth,
        direction,
        watches,
    )
    if start is None:
        start = march.start_plane(arrays, section.axis, section.depth, float(axial), section.scale)
    if isnan(start[0]) or isnan(start[1]):
        return MomentCurvature(axial, *(np.empty(0),) * 3, (), "no plane carries the axial force alone")
    far = march.furthest_curvature(table, section.laws.last, 0, layers, section.depth) if furthest is None else furthest
    points = np.empty((march.MOST_POINTS, 3))
    found = np.empty((len(watches) + 1, 3))
    n, why = march.march(
        arrays, section.axis, section.depth, float(axial), section.scale, float(start[0]), float(start[1]),
        direction, watches, float(far), float(until), float(bend), points, found,
    )  # fmt: skip
    curvature, soffit, moment = points[:n].T.copy()
    return MomentCurvature(axial, curvature, soffit, moment, _events(found, direction), _ENDED[why])


def _events(found: Array, direction: float) -> tuple[Event, ...]:
    events = []
    for row, (k, e, m) in enumerate(found.tolist()):
        if isnan(k):
            continue
        if row == len(found) - 1:
            events.append(Event("peak", k, e, m))
        elif row < march.FIRST_LAYER:
            events.append(Event(_COMMON[row], k, e, m))
        else:
            layer, which = divmod(row - march.FIRST_LAYER, 3)
            events.append(Event(_OF_A_LAYER[which], k, e, m, layer))
    return tuple(sorted(events, key=lambda event: direction * event.curvature))

"""From the beam to the paper: the scale of an elevation, and the stated exaggeration of sag and cracks."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, log10
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from soffit.member.beam import Beam
from soffit.member.result import Life

Array: TypeAlias = NDArray[np.float64]
Places: TypeAlias = NDArray[np.floating[Any]] | float

SCALES = (1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.5)
"""Scales of drawings, each times a power of ten."""


@dataclass(frozen=True)
class View:
    """Where a point of the beam lies on a panel in mm (y downward), sag included."""

    scale: float
    """mm of the beam a mm of paper."""
    left: float
    """Panel position of the left end."""
    soffit: float
    """Panel position of the soffit of the straight beam."""
    sag_times: float
    """Exaggeration of the deflection."""
    crack_times: float
    """Exaggeration of the crack width."""
    x: Array
    """Stations, mm of the beam."""
    sag: Array
    """Downward deflection at the stations, mm of the beam, not exaggerated."""

    def across(self, x: Places) -> Array:
        return self.left + np.asarray(x, dtype=float) / self.scale

    def down(self, x: Places, y: Places) -> Array:
        """Panel position of height ``y`` above the soffit at ``x``, both of the beam."""
        sag = np.interp(np.asarray(x, dtype=float), self.x, self.sag)
        return self.soffit - (np.asarray(y, dtype=float) - self.sag_times * sag) / self.scale

    def straight(self, y: float) -> float:
        """Panel position of height ``y`` of the straight beam."""
        return self.soffit - y / self.scale

    @property
    def lowest(self) -> float:
        """Panel position of the lowest point of the soffit, straight or sagging."""
        return self.soffit + max(0.0, self.sag_times * float(self.sag.max()) / self.scale)

    @property
    def highest_rise(self) -> float:
        """How far the sagging beam stands above the straight one, mm of paper."""
        return max(0.0, -self.sag_times * float(self.sag.min()) / self.scale)


def drawing_scale(smallest: float) -> float:
    """The nearest scale of ``SCALES`` that makes the picture no larger than ``smallest`` would."""
    power = 10.0 ** floor(log10(smallest))
    return next((s * power for s in SCALES if s * power >= smallest * (1 - 1e-9)), 10 * power)


def round_times(largest: float) -> float:
    """The largest of 1, 2, 5, 10, 20, … that is not above ``largest``; at least 1."""
    if not largest > 1:
        return 1.0
    power = 10.0 ** floor(log10(largest))
    return max(m * power for m in (1, 2, 5) if m * power <= largest * (1 + 1e-9))


def view_of(life: Life, step: int, left: float, soffit: float, scale: float, sag_room: float = 6.0) -> View:
    """The view at one step. Its exaggerations come from the whole way to the peak, so that they are the same
    at every step of one life: at the peak the beam sags by a third of its drawn depth, or by ``sag_room`` mm
    where that is more, and the widest crack gapes by up to 1.2 mm, by no more than
    a seventeenth of the depth or a third of the spacing.
    """
    stations, last = life.stations, max(life.peak.step, 0) + 1
    depth = life.beam.outline.depth / scale
    sag = float(np.abs(stations.deflection[:last]).max(initial=0.0)) / scale
    crack = float(stations.crack_width[:last].max(initial=0.0)) / scale
    gape = min(1.2, 0.06 * depth, (life.crack_spacing or np.inf) / scale / 3)
    return View(
        scale=scale,
        left=left,
        soffit=soffit,
        sag_times=round_times(max(depth / 3, sag_room) / sag) if sag > 0 else 1.0,
        crack_times=round_times(gape / crack) if crack > 0 else 1.0,
        x=stations.x,
        sag=stations.deflection[step],
    )


def points_along(beam: Beam, low: float, high: float, count: int = 121) -> Array:
    """Places between ``low`` and ``high`` at which a sagging line is drawn, mm."""
    return np.linspace(max(low, 0.0), min(high, beam.length), count)

"""What a member's checks ask of its geometry at a station: effective depth, tension steel, stirrups, covers."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from soffit.materials.curve import Array
from soffit.member.beam import BarGroup, Beam
from soffit.member.nodes import Nodes


@dataclass(frozen=True)
class TensionSteel:
    """Longitudinal steel on the tension side at every station, bonded and not, for sagging and hogging each."""

    depth: Array
    """Effective depth to the centroid of the tension steel's force, mm; the section depth where there is none."""
    stiffness: Array
    """ΣEA, N."""
    locked: Array
    """Force of prestressed steel where the concrete around it has no stress, N."""
    area: Array


def tension_steel(nodes: Nodes, sagging: bool) -> TensionSteel:
    """Steel below (sagging) or above the centroid, at each station; unbonded tendons count with their force."""
    n = len(nodes.x)
    stiffness, locked, area, arm = np.zeros(n), np.zeros(n), np.zeros(n), np.zeros(n)

    def add(y: Array, a: Array, modulus: float, force: Array, strength: float) -> None:
        nonlocal stiffness, locked, area, arm
        side = (y < nodes.axis) if sagging else (y > nodes.axis)
        a = np.where(side, a, 0.0)
        stiffness = stiffness + modulus * a
        locked = locked + force * side
        area = area + a
        arm = arm + a * strength * ((nodes.depth - y) if sagging else y)

    weight = np.zeros(n)
    for i, info in enumerate(nodes.infos):
        steel = info.group.steel
        y, a, pre = nodes.layers[:, i, 0], nodes.layers[:, i, 1], nodes.layers[:, i, 2]
        add(y, a, steel.modulus, np.asarray(info.law(pre)) * a, steel.yield_strength)
        weight = weight + a * steel.yield_strength * ((y < nodes.axis) if sagging else (y > nodes.axis))
    for u in nodes.unbonded:
        a = np.where(u.inside, u.tendon.area, 0.0)
        add(u.y, a, u.tendon.steel.modulus, a * u.stress, u.tendon.steel.yield_strength)
        weight = weight + a * u.tendon.steel.yield_strength * ((u.y < nodes.axis) if sagging else (u.y > nodes.axis))
    depth = np.where(weight > 0, arm / np.maximum(weight, 1e-9), nodes.depth)
    return TensionSteel(depth, stiffness, locked, area)


def stirrups(beam: Beam, x: Array) -> tuple[Array, Array, Array]:
    """Area of one stirrup over its spacing (mm), its yield strength (MPa) and spacing at each station; 0 without."""
    ratio, strength, spacing = np.zeros_like(x), np.zeros_like(x), np.zeros_like(x)
    for zone in beam.stirrups:
        inside = (x >= zone.x_from) & (x <= zone.x_to)
        more = inside * zone.area / zone.spacing
        # where zones overlap the strength is the mean of what pulls
        both = np.maximum(ratio + more, 1e-12)
        strength = np.where(inside, (strength * ratio + zone.steel.yield_strength * more) / both, strength)
        ratio = ratio + more
        spacing = np.where(inside, np.where(spacing > 0, np.minimum(spacing, zone.spacing), zone.spacing), spacing)
    return ratio, strength, spacing


@dataclass(frozen=True)
class Cover:
    """Covers of a group of bars spread evenly over the width at its height, mm."""

    face: float
    """To the nearer of soffit and top."""
    side: float
    half_gap: float
    """Half the clear distance between bars; the side cover where there is one bar."""

    @property
    def least(self) -> float:
        return min(self.face, self.side, self.half_gap)

    @property
    def greatest(self) -> float:
        return max(self.side, self.half_gap)


def cover(beam: Beam, bar: BarGroup) -> Cover:
    """Bars are taken as spread evenly, with the same cover at the side as at the face (an assumption: the beam file
    gives heights only)."""
    face = max(min(bar.y, beam.outline.depth - bar.y) - bar.diameter / 2, 1.0)
    width = beam.outline.width(bar.y) or beam.outline.web_width
    side = max(min(face, (width - bar.count * bar.diameter) / 2), 1.0)
    if bar.count < 2:
        return Cover(face, max((width - bar.diameter) / 2, 1.0), max((width - bar.diameter) / 2, 1.0))
    gap = (width - 2 * side - bar.count * bar.diameter) / (bar.count - 1)
    return Cover(face, side, max(gap / 2, 1.0))


def circumference(bar: BarGroup) -> float:
    """Of all the bars of a group, mm."""
    return pi * bar.diameter * bar.count

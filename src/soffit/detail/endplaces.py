"""What stands at one end of a beam: anchors and their plates, the free face around them, stirrups."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, sin
from typing import Literal

import numpy as np

from soffit.detail.order import letters
from soffit.errors import SoffitError
from soffit.member import profile as way
from soffit.member.beam import Beam, StirrupZone, TendonGroup
from soffit.section.outline import Outline

Side = Literal["left", "right"]
AT_THE_FACE = 1.0
"""mm: tendons that end farther inside are anchored in the beam."""
CLOSE = 1.5
"""Anchors closer than so many times their plate, middle to middle, act as one group (ACI 318-19 R25.9.4.4, AASHTO LRFD
5.8.4.5.1, *from memory*)."""


@dataclass(frozen=True)
class Row:
    """The anchors of one tendon group at one end."""

    name: str
    tendon: TendonGroup
    y: float
    incline: float
    """Of the force that enters the beam, rad; positive where it rises into the beam."""
    force: float
    """Of all its tendons at the jack, N."""

    @property
    def plate(self) -> tuple[float, float] | None:
        return self.tendon.anchor.plate if self.tendon.anchor else None

    @property
    def bottom(self) -> float:
        return self.y - (self.plate[1] / 2 if self.plate else 0.0)

    @property
    def top(self) -> float:
        return self.y + (self.plate[1] / 2 if self.plate else 0.0)


@dataclass(frozen=True)
class Cluster:
    """Rows that stand so close that they act as one, lowest first."""

    rows: tuple[Row, ...]
    prism: float
    """Depth of the symmetric prism about the resultant, mm."""

    @property
    def force(self) -> float:
        return sum(row.force for row in self.rows)

    @property
    def y(self) -> float:
        """Height of the resultant, mm."""
        return sum(row.force * row.y for row in self.rows) / self.force

    @property
    def incline(self) -> float:
        up = sum(row.force * sin(row.incline) for row in self.rows)
        along = sum(row.force * cos(row.incline) for row in self.rows)
        return atan2(up, along)

    @property
    def size(self) -> float:
        """From the lowest to the highest edge of the plates, mm."""
        return max(row.top for row in self.rows) - min(row.bottom for row in self.rows)

    @property
    def abreast(self) -> int:
        """Anchors side by side."""
        return max(abreast(row, self.rows) for row in self.rows)

    @property
    def names(self) -> str:
        return ", ".join(row.name for row in self.rows)


def beside(row: Row, other: Row) -> bool:
    """Whether another row's plates reach to the height of this one's, so that they stand side by side."""
    return abs(row.y - other.y) < max((row.top - row.bottom + other.top - other.bottom) / 2, 1e-6) - 1e-9


def abreast(row: Row, others: Sequence[Row]) -> int:
    """Anchors side by side at the height of a row, which may be among ``others``."""
    return row.tendon.count + sum(r.tendon.count for r in others if r is not row and beside(row, r))


def named(beam: Beam) -> list[tuple[str, TendonGroup]]:
    return [(tendon.name or letters(i), tendon) for i, tendon in enumerate(beam.tendons)]


def place(beam: Beam, side: Side, distance: float) -> float:
    """x at a distance from the face of the end."""
    return distance if side == "left" else beam.length - distance


def inset(beam: Beam, side: Side, tendon: TendonGroup) -> float:
    """How far inside the face the tendon ends, mm."""
    return tendon.x_from if side == "left" else beam.length - tendon.x_to


def rows(beam: Beam, side: Side) -> list[Row]:
    """Post-tensioned anchors in the face, the lowest first; forces at the jack, wherever it stands."""
    found = []
    for name, tendon in named(beam):
        if tendon.when == "before casting" or inset(beam, side, tendon) > AT_THE_FACE:
            continue
        x = np.array([tendon.x_from if side == "left" else tendon.x_to])
        rise = float(way.slope(tendon.profile, x)[0])
        y = float(way.height(tendon.profile, x)[0])
        found.append(Row(name, tendon, y, np.arctan(rise if side == "left" else -rise), tendon.stress * tendon.area))
    return sorted(found, key=lambda row: row.y)


def clusters(beam: Beam, found: Sequence[Row]) -> tuple[Cluster, ...]:
    """The rows as groups of closely spaced anchors, each with its symmetric prism.

    Raises :class:`SoffitError` where plates reach out of the section.
    """
    depth = beam.outline.depth
    for row in found:
        if row.bottom < -1e-6 or row.top > depth + 1e-6:
            raise SoffitError(
                f"the plate of tendon {row.name} reaches from {row.bottom:g} to {row.top:g} mm above the soffit, out "
                f"of a section {depth:g} mm deep: give a smaller plate, or move the anchor"
            )
    groups: list[list[Row]] = []
    for row in found:
        last = groups[-1][-1] if groups else None
        if last is not None and row.y - last.y <= CLOSE * max(row.top - row.bottom, last.top - last.bottom):
            groups[-1].append(row)
        else:
            groups.append([row])
    if not groups:
        return ()
    bare = [Cluster(tuple(group), 0.0) for group in groups]
    between = [(a.y + b.y) / 2 for a, b in pairwise(bare)]
    return tuple(
        Cluster(group.rows, 2.0 * min(group.y - low, high - group.y))
        for group, low, high in zip(bare, [0.0, *between], [*between, depth], strict=True)
    )


def hollow(outline: Outline, low: float, high: float) -> bool:
    """Whether a hole of the section lies between two heights."""
    return any(min(y for _, y in ring) < high and max(y for _, y in ring) > low for ring in outline.holes)


def narrowest(outline: Outline, low: float, high: float) -> float:
    """Least width between two heights, mm."""
    heights = [low, high, *(float(y) for strip in outline.strips for y in strip[:2] if low < y < high)]
    return min(outline.width(y) for y in heights)


def free_ratio(outline: Outline, row: Row, others: Sequence[Row]) -> float:
    """Side of the largest area of the plate's shape, concentric with it, that lies in the face clear of its
    neighbours' equal areas, over the side of the plate; 1 where the plate just fits.

    Raises :class:`SoffitError` where the plates do not fit side by side.
    """
    assert row.plate is not None
    wide, tall = row.plate
    count = abreast(row, others)
    if count * wide > narrowest(outline, row.bottom, row.top) + 1e-6:
        room = narrowest(outline, row.bottom, row.top)
        plates = f"{count} plates {wide:g} mm wide do" if count > 1 else f"a plate {wide:g} mm wide does"
        raise SoffitError(
            f"{plates} not fit into the {room:g} mm of concrete at the anchors of tendon {row.name}: give a smaller "
            "plate, or one group for each height"
        )
    apart = (abs(other.y - row.y) / 2 for other in others if not beside(row, other))
    reach = min([row.y, outline.depth - row.y, *apart])
    low, high = 1.0, max(2.0 * reach / tall, 1.0)

    def fits(k: float) -> bool:
        return count * k * wide <= narrowest(outline, max(row.y - k * tall / 2, 0.0), row.y + k * tall / 2) + 1e-9

    if fits(high):
        return high
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low


def edge_tension(outline: Outline, force: float, y: float) -> float:
    """∫ σ b dy over the part that is pulled, N, where ``force`` presses at height ``y``; plane sections."""
    area, centre, inertia = outline.area, outline.centroid, outline.inertia

    def stress(at: float) -> float:
        return -force / area - force * (y - centre) * (at - centre) / inertia

    total = 0.0
    for low, high, wide_low, wide_high in outline.strips:
        at_low, at_high = stress(low), stress(high)
        if at_low <= 0.0 and at_high <= 0.0:
            continue
        a, b = 0.0, 1.0  # the pulled share of the strip
        if at_low < 0.0 or at_high < 0.0:
            zero = at_low / (at_low - at_high)
            a, b = (zero, 1.0) if at_low < 0.0 else (0.0, zero)

        def both(
            t: float, s: tuple[float, float] = (at_low, at_high), w: tuple[float, float] = (wide_low, wide_high)
        ) -> float:
            return (s[0] + (s[1] - s[0]) * t) * (w[0] + (w[1] - w[0]) * t)

        # Simpson's rule is exact, for stress and width are linear
        total += (high - low) * (b - a) / 6.0 * (both(a) + 4.0 * both((a + b) / 2) + both(b))
    return float(total)


def positions(zone: StirrupZone) -> list[float]:
    """x of the stirrups of a zone, as they are drawn: whole spacings, centred in the zone."""
    count = max(int((zone.x_to - zone.x_from) / zone.spacing + 1e-6), 0)
    first = zone.x_from + (zone.x_to - zone.x_from - count * zone.spacing) / 2
    return [first + i * zone.spacing for i in range(count + 1)]


def near(beam: Beam, side: Side, length: float) -> list[tuple[StirrupZone, int]]:
    """Zones with the number of their stirrups inside ``length`` of the face; fibre-reinforced polymer left out.

    One that stands in the face itself counts, for it will be put in behind its cover.
    """
    found = []
    for zone in beam.stirrups:
        at = (x if side == "left" else beam.length - x for x in positions(zone))
        count = sum(-1e-6 <= s <= length + 1e-6 for s in at)
        if count and zone.steel.kind != "linear":
            found.append((zone, count))
    return found


def widest(beam: Beam, side: Side, length: float) -> float | None:
    """Widest gap from the face to the first stirrup and between stirrups that begins within ``length``, mm; none
    without stirrups there."""
    at = sorted(x if side == "left" else beam.length - x for zone in beam.stirrups for x in positions(zone))
    at = [s for s in at if s >= -1e-6]
    if not at or at[0] > length:
        return None
    return max(b - a for a, b in pairwise([0.0, *at, max(at[-1], length)]) if a < length)

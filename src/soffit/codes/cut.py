"""A beam cut through at one place, as the checks of a section want it: depths count from the compressed face.

``sagging`` says which face is compressed. Bars and tendons stand with their areas at the cut, with how far they run on
to either side, and with the stress that prestress has there.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from soffit.member.beam import BarEnd, BarGroup, Beam, StirrupZone, TendonGroup
from soffit.section.outline import Outline

FLANGE = 1.02
"""A part wider than this times the web is a flange."""


@dataclass(frozen=True)
class BarsAt:
    group: BarGroup
    index: int
    """In ``beam.bars``."""
    depth: float
    """Of the centres below the compressed face, mm."""
    left: float
    """From the cut to the left end of the bars, mm."""
    right: float

    @property
    def area(self) -> float:
        return self.group.area

    @property
    def yield_strength(self) -> float:
        return self.group.steel.yield_strength

    @property
    def short(self) -> bool:
        """Whether an end is so near (60 diameters) that the bars may not be developed."""
        return min(self.left, self.right) < 60.0 * self.group.diameter

    @property
    def ends(self) -> tuple[BarEnd, BarEnd]:
        return self.group.end_left, self.group.end_right


@dataclass(frozen=True)
class TendonsAt:
    group: TendonGroup
    index: int
    """In ``beam.tendons``."""
    depth: float
    """Below the compressed face, mm."""
    slope: float
    """dy/dx of the profile, y upward."""
    stress: float
    """fpe at the cut after all losses, with what bond has built up of it, MPa."""
    full: float
    """The same were the bond complete, MPa."""
    at_transfer: float
    """Just after transfer, with build-up, MPa."""
    left: float
    """From the cut to where bond (or the anchor) begins at the left, mm."""
    right: float

    @property
    def area(self) -> float:
        return self.group.area

    @property
    def short(self) -> bool:
        """Whether an end is so near (250 diameters) that a pretensioned tendon may not be anchored."""
        early = self.group.when == "before casting"
        return early and min(self.left, self.right) < 250.0 * self.group.diameter

    @property
    def bonded(self) -> bool:
        return self.group.bond == "bonded"

    @property
    def force(self) -> float:
        """After all losses, N."""
        return self.stress * self.area


@dataclass(frozen=True)
class StirrupsAt:
    """All stirrups of the zones at the cut together."""

    zones: tuple[StirrupZone, ...]

    @property
    def per_length(self) -> float:
        """Asw/s of all legs, mm²/mm."""
        return sum(z.area / z.spacing for z in self.zones)

    @property
    def spacing(self) -> float:
        """The greatest, mm."""
        return max(z.spacing for z in self.zones)

    @property
    def area(self) -> float:
        """Of the legs at ``spacing`` that have the same area per length, mm²."""
        return self.per_length * self.spacing

    @property
    def yield_strength(self) -> float:
        return min(z.steel.yield_strength for z in self.zones)

    @property
    def diameter(self) -> float:
        return min(z.diameter for z in self.zones)

    @property
    def legs(self) -> int:
        return min(z.legs for z in self.zones)


@dataclass(frozen=True)
class Cut:
    beam: Beam
    x: float
    sagging: bool
    outline: Outline
    """With the topping, where there is one and it has hardened."""
    bars: tuple[BarsAt, ...]
    tendons: tuple[TendonsAt, ...]
    stirrups: StirrupsAt | None

    @property
    def h(self) -> float:
        return self.outline.depth

    @property
    def centroid(self) -> float:
        """Of the gross section, below the compressed face, mm."""
        return self.depth_of(self.outline.centroid)

    def depth_of(self, y: float) -> float:
        """Depth below the compressed face of a height above the soffit."""
        return self.h - y if self.sagging else y

    def width(self, depth: float) -> float:
        """Of the concrete at a depth, mm."""
        return self.outline.width(self.h - depth if self.sagging else depth)

    @cached_property
    def strips(self) -> tuple[tuple[float, float, float, float], ...]:
        """Depth and width at both ends of each trapezoid, from the compressed face on."""
        rows = [(float(y0), float(y1), float(w0), float(w1)) for y0, y1, w0, w1 in self.outline.strips]
        if self.sagging:
            return tuple((self.h - y1, self.h - y0, w1, w0) for y0, y1, w0, w1 in reversed(rows))
        return tuple(rows)

    def zone(self, depth: float) -> tuple[float, float]:
        """Area of the concrete down to a depth, mm², and the depth of its centroid, mm."""
        area = first = 0.0
        for z0, z1, w0, w1 in self.strips:
            if z0 >= depth:
                break
            end = min(z1, depth)
            long = end - z0
            we = w0 + (w1 - w0) * long / (z1 - z0)
            part = 0.5 * (w0 + we) * long
            area += part
            if w0 + we > 0.0:
                first += part * (z0 + long / 3.0 * (w0 + 2.0 * we) / (w0 + we))
        return area, (first / area if area > 0.0 else 0.0)

    @cached_property
    def b(self) -> float:
        """Width of the compressed face, mm: of a rounded or tapered one that at a twentieth of the depth."""
        return max(self.width(1e-6 * self.h), self.width(0.05 * self.h))

    @cached_property
    def bw(self) -> float:
        """Least width of the web, mm. Ducts are not taken off."""
        return self.outline.web_width

    @cached_property
    def flange(self) -> tuple[float, float]:
        """Width and depth of a flange at the compressed face, mm; depth 0 where there is none. A tapered part counts
        with half its depth."""
        return self._flange(self.strips)

    @cached_property
    def tension_flange(self) -> tuple[float, float]:
        """The same at the tension face."""
        turned = tuple((self.h - z1, self.h - z0, w1, w0) for z0, z1, w0, w1 in reversed(self.strips))
        return self._flange(turned)

    def _flange(self, strips: Iterable[tuple[float, float, float, float]]) -> tuple[float, float]:
        width = deep = 0.0
        for z0, z1, w0, w1 in strips:
            if min(w0, w1) > FLANGE * self.bw:
                width, deep = max(width, w0, w1), z1
            else:
                if deep and max(w0, w1) > FLANGE * self.bw:
                    deep += 0.5 * (z1 - z0)
                break
        if not deep or deep >= 0.999 * self.h:
            return self.b, 0.0
        return width, deep

    @cached_property
    def tension_bars(self) -> tuple[BarsAt, ...]:
        """Below mid-depth."""
        return tuple(b for b in self.bars if b.depth > 0.5 * self.h)

    @cached_property
    def compression_bars(self) -> tuple[BarsAt, ...]:
        return tuple(b for b in self.bars if b.depth <= 0.5 * self.h)

    @cached_property
    def tension_tendons(self) -> tuple[TendonsAt, ...]:
        return tuple(t for t in self.tendons if t.depth > 0.5 * self.h)

    @cached_property
    def As(self) -> float:
        """Bars in tension, mm²."""
        return sum(b.area for b in self.tension_bars)

    @cached_property
    def Asc(self) -> float:
        """Bars in the compressed half, mm²."""
        return sum(b.area for b in self.compression_bars)

    @cached_property
    def Ap(self) -> float:
        """Tendons in the tension half, mm²."""
        return sum(t.area for t in self.tension_tendons)

    @cached_property
    def ds(self) -> float:
        """Depth of the tension bars' centroid (by area), mm; 0 without."""
        return sum(b.area * b.depth for b in self.tension_bars) / self.As if self.As else 0.0

    @cached_property
    def dsc(self) -> float:
        """Depth of the compression bars' centroid, mm; 0 without."""
        return sum(b.area * b.depth for b in self.compression_bars) / self.Asc if self.Asc else 0.0

    @cached_property
    def dp(self) -> float:
        """Depth of the tension tendons' centroid, mm; 0 without."""
        return sum(t.area * t.depth for t in self.tension_tendons) / self.Ap if self.Ap else 0.0

    @cached_property
    def d(self) -> float:
        """Effective depth: of the centroid of the force that tension bars and tendons have at yield, mm; 0.8 h without
        either."""
        pulls = [
            *((b.area * b.yield_strength, b.depth) for b in self.tension_bars),
            *((t.area * t.group.steel.yield_strength, t.depth) for t in self.tension_tendons),
        ]
        total = sum(f for f, _ in pulls)
        return sum(f * z for f, z in pulls) / total if total else 0.8 * self.h

    @cached_property
    def deepest(self) -> float:
        """dt: depth of the outermost layer in tension, mm; 0 without one."""
        return max([*(b.depth for b in self.tension_bars), *(t.depth for t in self.tension_tendons)], default=0.0)

    @property
    def prestressed(self) -> bool:
        return any(t.full > 0.0 for t in self.tendons)

    @cached_property
    def P(self) -> float:
        """Force of all tendons after all losses, N."""
        return sum(t.force for t in self.tendons)

    @cached_property
    def rise(self) -> float:
        """Vertical part of the tendons' force, N: positive where it pushes the left part up, as a positive shear does
        (a tendon that falls towards the right)."""
        return -sum(t.force * t.slope for t in self.tendons)


def built_in(beam: Beam, bar: BarGroup, side: Literal["left", "right"]) -> bool:
    """Whether the bars run into the support that holds the beam's end against turning. They are taken as anchored in
    it: what lies beyond the beam's end is not in the beam file."""
    held = beam.supports
    if side == "left":
        return held.fixed_left and bar.x_from <= held.x[0] + 1e-6
    return held.fixed_right and bar.x_to >= held.x[-1] - 1e-6


def stirrups_at(beam: Beam, x: float) -> StirrupsAt | None:
    """Zones that hold ``x``; at the border of two the weaker one alone."""
    eps = 1e-6
    zones = [z for z in beam.stirrups if z.x_from - eps <= x <= z.x_to + eps]
    inner = [z for z in zones if z.x_from + eps < x < z.x_to - eps]
    edge = [z for z in zones if z not in inner]
    # at a border only one of the two that meet there counts, and it is the weaker one
    ends = [z for z in edge if abs(z.x_to - x) <= eps and x < beam.length - eps]
    starts = [z for z in edge if z not in ends]
    if ends and starts:
        edge = min((ends, starts), key=lambda some: sum(z.area * z.steel.yield_strength / z.spacing for z in some))
    found = (*inner, *edge)
    return StirrupsAt(found) if found else None

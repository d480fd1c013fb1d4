"""Curves of a calculation: effects along the beam with their peaks, and load against deflection."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

import numpy as np

from soffit.materials.curve import Array
from soffit.member.beam import Beam
from soffit.member.result import Life
from soffit.show import look
from soffit.show.numbers import Units, fixed, in_unit, quantity, unit
from soffit.show.reportdrawing import LONG, MARGIN, Drawn
from soffit.show.reportsvg import HEAVY, MEDIUM, SMALL, THIN, Svg, width
from soffit.show.view import drawing_scale


@dataclass(frozen=True)
class Peak:
    """One number at one place of a curve."""

    x: float
    value: float
    mark: str
    """A letter by which the words under the picture call it."""


def along(
    beam: Beam, x: Array, curves: Sequence[Array], peaks: Sequence[Peak], dimension: str, units: Units, room: float,
    height: float, down: bool, fine: Sequence[Array] = (),
) -> Drawn:  # fmt: skip
    """Curves of one effect along the beam, in base units, each filled to the axis; ``down``: positive downward.
    ``fine``: further curves as thin lines."""
    scale = drawing_scale(beam.length / (room - 2 * MARGIN))
    left = 0.5 * (room - beam.length / scale)
    values = [in_unit(1.0, dimension, units) * np.asarray(c) for c in (*curves, *fine)]
    high, low = max(float(max(v.max() for v in values)), 0.0), min(float(min(v.min() for v in values)), 0.0)
    reach = (high - low) or 1.0
    way, each = (1.0 if down else -1.0), height / reach
    first = 7.0
    axis = first - each * (low if down else -high)
    svg = Svg(room, height + 2 * first)

    def line(v: Array) -> list[tuple[float, float]]:
        return [(left + float(a) / scale, axis + way * each * float(b)) for a, b in zip(x, v, strict=True)]

    for v in values[: len(curves)]:
        points = line(v)
        svg.shape([[(points[0][0], axis), *points, (points[-1][0], axis)]], look.CONCRETE, opacity=0.55)
        svg.line(points, look.INK, MEDIUM)
    for v in values[len(curves) :]:
        svg.line(line(v), look.FAINT, THIN, (1.6, 1.0))
    svg.line([(left, axis), (left + beam.length / scale, axis)], look.INK, MEDIUM)
    for s in beam.supports.x:
        at = left + s / scale
        svg.shape([[(at, axis), (at - 1.1, axis + 1.8), (at + 1.1, axis + 1.8)]], "#FFFFFF", look.INK, THIN)
    for peak in peaks:
        _peak(svg, peak, left + peak.x / scale, axis, axis + way * each * in_unit(peak.value, dimension, units),
              f"{quantity(abs(peak.value), dimension, units)}", room)  # fmt: skip
    return Drawn(str(svg), room, "")


def _peak(svg: Svg, peak: Peak, at: float, axis: float, y: float, words: str, room: float) -> None:
    svg.line([(at, axis), (at, y)], look.FAINT, THIN)
    svg.circle((at, y), 0.6, look.INK)
    text = f"{peak.mark}  {words}"
    half = 0.5 * width(text, SMALL) + 0.5
    beyond = 3.8 if y > axis else -1.4
    svg.text((min(max(at, half), room - half), y + beyond), text, size=SMALL, place="middle", bold=True)


def load_curve(life: Life, units: Units, room: float, height: float) -> Drawn:
    """Load against deflection, with the numbers of the events."""
    u = in_unit(1.0, "length", units) * np.asarray(life.curve.deflection)
    p = in_unit(1.0, "force", units) * np.asarray(life.curve.load)
    left, top, right, bottom = 14.0, 4.0, room - 6.0, height - 9.0
    wide, tall = _nice(float(np.max(u, initial=0.0))), _nice(float(np.max(p, initial=0.0)))
    svg = Svg(room, height)

    def at(a: float, b: float) -> tuple[float, float]:
        return left + (right - left) * min(max(a / wide, 0.0), 1.0), bottom - (bottom - top) * max(b / tall, 0.0)

    step_u, step_p = _step(wide), _step(tall)
    for i in range(round(wide / step_u) + 1):
        px, _ = at(i * step_u, 0.0)
        svg.line([(px, top), (px, bottom)], look.HATCH)
        svg.text((px, bottom + 3.4), fixed(i * step_u, _places(step_u)), look.FAINT, SMALL, "middle")
    for i in range(round(tall / step_p) + 1):
        _, py = at(0.0, i * step_p)
        svg.line([(left, py), (right, py)], look.HATCH)
        svg.text((left - 1.2, py + 0.9), fixed(i * step_p, _places(step_p)), look.FAINT, SMALL, "end")
    svg.text((right, bottom + 7.2), f"deflection, {unit('length', units)}", look.FAINT, SMALL, "end")
    svg.text((left - 10.5, top), f"load, {unit('force', units)}", look.FAINT, SMALL, "end", turned=True)
    svg.line([at(float(a), float(b)) for a, b in zip(u, p, strict=True)], look.INK, 0.8 * HEAVY)
    taken: list[tuple[float, float]] = []
    for i, event in enumerate(life.events):
        px, py = at(in_unit(event.deflection, "length", units), in_unit(event.load, "force", units))
        svg.circle((px, py), 0.55, look.INK)
        spot = next(
            (place for place in _round_about(px, py, left, right, top, bottom)
             if all(np.hypot(place[0] - a, place[1] - b) > 3.7 for a, b in taken)), None,
        )  # fmt: skip
        if spot is None:
            continue
        taken.append(spot)
        svg.line([(px, py), spot], look.FAINT)
        svg.number(spot, i + 1)
    return Drawn(str(svg), room, "")


def _round_about(x: float, y: float, left: float, right: float, top: float, bottom: float) -> list[tuple[float, float]]:
    """Places for a number near a point, the nearest first, inside the frame."""
    found = []
    for reach in (3.4, 6.0, 9.0, 12.0, 15.0, 18.0):
        for turn in (-45.0, 45.0, -90.0, 0.0, 90.0, 135.0, -135.0):
            a, b = x + reach * np.cos(np.radians(turn)), y + reach * np.sin(np.radians(turn))
            if left + 2.0 < a < right - 2.0 and top < b < bottom - 2.0:
                found.append((float(a), float(b)))
    return found


def _nice(largest: float) -> float:
    """The end of an axis."""
    if not largest > 0.0:
        return 1.0
    step = _step(largest)
    return step * ceil(largest / step * (1.0 - 1e-9))


def _step(reach: float) -> float:
    power = 10.0 ** floor(log10(reach / 5.0))
    return next(m * power for m in (1.0, 2.0, 5.0, 10.0) if m * power >= reach / 5.0 * (1.0 - 1e-9))


def _places(step: float) -> int:
    return max(-floor(log10(step) + 1e-9), 0)


__all__ = ["LONG", "Peak", "along", "load_curve"]

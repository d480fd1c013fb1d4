"""Strain and stress through the depth of the critical section, one pair of diagrams a moment of the life."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from soffit.member.result import SectionState
from soffit.show import look
from soffit.show.numbers import Units, quantity

if TYPE_CHECKING:
    from matplotlib.axes import Axes

MOST = 3
"""Moments shown side by side."""


def chosen(states: Sequence[SectionState]) -> list[SectionState]:
    """First crack, first yield and peak as far as they are there, then whatever else there is, in the
    life's order.
    """
    rank = {name: i for i, name in enumerate(("peak", "first crack", "bar yield", "tendon yield"))}
    best = sorted(range(len(states)), key=lambda i: rank.get(states[i].event, 9))[:MOST]
    return [states[i] for i in sorted(best)]


def tension_kinds(state: SectionState) -> int:
    """How many kinds of steel (bars, tendons) are in tension: so many stresses stand at the tension face."""
    return len(set(state.steel_is_tendon[state.steel_stress > 0].tolist()))


def draw_state(
    axes: Axes, state: SectionState, left: float, width: float, soffit: float, scale: float, units: Units
) -> None:
    """Strain in the left two fifths, stress in the rest, at the scale of the section beside it.

    Every diagram has its own horizontal scale, so its end values are written at it."""
    strain_room, gap = 0.42 * width, 0.06 * width
    _strain(axes, state, left, strain_room, soffit, scale, units)
    _stress(axes, state, left + strain_room + gap, width - strain_room - gap, soffit, scale, units)


def _zero(low: float, high: float, left: float, room: float) -> tuple[float, float]:
    """Place of zero and mm a unit, so that everything from ``low`` to ``high`` fits the room."""
    low, high = min(low, 0.0), max(high, 0.0)
    size = room / (high - low) if high > low else 1.0
    return left - low * size, size


def _fill(axes: Axes, zero: float, size: float, heights: NDArray[np.float64], values: NDArray[np.float64]) -> None:
    """Compression to the left in blue, tension to the right in orange, with an outline in ink."""
    across = zero + size * values
    # the two fills differ in lightness too, for print in grey
    for sign, color, alpha in ((-1, look.COMPRESSION, 0.5), (1, look.TENSION, 0.28)):
        part = np.where(sign * values > 0, across, zero)
        axes.fill_betweenx(heights, zero, part, color=color, alpha=alpha, lw=0, zorder=2)
    axes.plot(across, heights, color=look.INK, lw=look.MEDIUM, zorder=4, solid_joinstyle="round")
    axes.plot([zero, zero], [heights.min() - 0.8, heights.max() + 0.8], color=look.INK, lw=look.THIN, zorder=3)


def _color(value: float) -> str:
    return look.COMPRESSION if value < 0 else look.TENSION


def _strain(
    axes: Axes, state: SectionState, left: float, room: float, soffit: float, scale: float, units: Units
) -> None:
    heights = soffit - state.y / scale
    zero, size = _zero(float(state.strain.min()), float(state.strain.max()), left, room)
    _fill(axes, zero, size, heights, state.strain)
    for value, y, va in (
        (state.strain[-1], heights.min() - 1.4, "baseline"),
        (state.strain[0], soffit + 3.4, "baseline"),
    ):
        axes.text(
            left + room / 2, y, quantity(float(value), "strain", units), ha="center", va=va,
            **look.style(look.FINE, _color(float(value))),
        )  # fmt: skip


def _stress(
    axes: Axes, state: SectionState, left: float, room: float, soffit: float, scale: float, units: Units
) -> None:
    """Concrete as an area, steel as bars from the same zero; concrete and steel each to their own scale."""
    heights = soffit - state.y / scale
    largest = float(np.abs(state.stress).max(initial=0.0)) or 1.0
    steel = float(np.abs(state.steel_stress).max(initial=0.0)) or 1.0
    low = min(float(state.stress.min()) / largest, float((state.steel_stress / steel).min(initial=0.0)))
    high = max(float(state.stress.max()) / largest, float((state.steel_stress / steel).max(initial=0.0)))
    zero, size = _zero(low, high, left, room)
    _fill(axes, zero, size, heights, state.stress / largest)
    for y, stress, tendon in zip(state.steel_y, state.steel_stress, state.steel_is_tendon, strict=True):
        at = soffit - float(y) / scale
        color = look.TENDON if tendon else look.BAR
        axes.plot([zero, zero + size * float(stress) / steel], [at, at], color=color, lw=look.HEAVY, zorder=5,
                  solid_capstyle="butt")  # fmt: skip
    _stress_words(axes, state, left + room / 2, heights.min() - 1.4, soffit + 3.4, units)


def _stress_words(axes: Axes, state: SectionState, x: float, above: float, below: float, units: Units) -> None:
    """Greatest compression of the concrete at its face; at the other face the greatest tension of the steel,
    or of the concrete where there is no steel in tension."""
    top_compressed = state.strain[-1] <= state.strain[0]
    compressed, tensile = (above, below) if top_compressed else (below, above)
    least, most = float(state.stress.min(initial=0.0)), float(state.stress.max(initial=0.0))
    if least < 0:
        axes.text(
            x,
            compressed,
            quantity(least, "stress", units),
            ha="center",
            **look.style(look.FINE, look.COMPRESSION),
        )
    lines = []
    for tendon, color in ((True, look.TENDON), (False, look.BAR)):
        mine = state.steel_stress[(state.steel_is_tendon == tendon) & (state.steel_stress > 0)]
        if mine.size:
            lines.append((quantity(float(mine.max()), "stress", units), color))
    if not lines and most > 0:
        lines = [(quantity(most, "stress", units), look.TENSION)]
    step = 1.2 * look.FINE / look.POINTS_A_MM
    for i, (words, color) in enumerate(lines):
        y = tensile + i * step if top_compressed else tensile - (len(lines) - 1 - i) * step
        axes.text(x, y, words, ha="center", **look.style(look.FINE, color))

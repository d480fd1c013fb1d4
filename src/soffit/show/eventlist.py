"""The numbered events as a small table beside the curve."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from soffit.member.result import Event
from soffit.show import look, marks
from soffit.show.numbers import Units, column, unit

if TYPE_CHECKING:
    from matplotlib.axes import Axes

PITCH = 4.5
"""mm from one event to the next."""
HEAD = 7.0
"""mm from the top to the first event."""


def height(events: Sequence[Event]) -> float:
    return HEAD + PITCH * len(events)


def draw_events(
    axes: Axes,
    events: Sequence[Event],
    step: int,
    now: int | None,
    place: tuple[float, float, float],
    units: Units,
) -> None:
    """Number, name, load, deflection and crack width; ``place`` is (left, top, width) in mm of the panel."""
    left, top, width = place
    columns = [
        ("load", unit("force", units), column([e.load for e in events], "force", units)),
        ("deflection", unit("length", units), column([e.deflection for e in events], "length", units)),
        ("crack", unit("crack width", units), column([e.crack_width for e in events], "crack width", units)),
    ]
    right = left + width
    rights = [right - 25.5, right - 10.5, right]
    for (name, of, _), x in zip(columns, rights, strict=True):
        axes.text(x, top + 1.0, name, ha="right", **look.style(look.FINE, look.FAINT))
        axes.text(x, top + 3.6, of, ha="right", **look.style(look.FINE, look.FAINT))
    for i, event in enumerate(events):
        y = top + HEAD + PITCH * i
        time = marks.when(event.step, step, i == now)
        color = look.FAINT if time == "future" else look.INK
        weight = "semibold" if time == "now" else "normal"
        marks.number(axes, left + marks.RADIUS, y, i + 1, time)
        room = rights[0] - left - 2 * marks.RADIUS - 1.2 - max(look.width(t, look.SMALL) for t in columns[0][2]) - 1
        name = look.clip(event.event, room, look.SMALL, weight)
        axes.text(left + 2 * marks.RADIUS + 1.2, y + 0.8, name, **look.style(look.SMALL, color, weight))
        for (_, _, texts), x in zip(columns, rights, strict=True):
            axes.text(x, y + 0.8, texts[i], ha="right", **look.style(look.SMALL, color, weight))

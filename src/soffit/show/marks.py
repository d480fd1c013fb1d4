"""Small marks that recur on every picture: numbered events, arrows, dimension lines. Panels are in mm, y
downward.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

from soffit.show import look

if TYPE_CHECKING:
    from matplotlib.axes import Axes

RADIUS = 1.75
"""Of a numbered circle, mm."""

When = Literal["past", "now", "future"]


def when(step: int, at: int, now: bool) -> When:
    """Whether an event at ``step`` lies before the drawn step ``at``; ``now`` marks the one that is drawn."""
    if now:
        return "now"
    return "past" if step <= at else "future"


def number(axes: Axes, x: float, y: float, n: int, time: When = "past", radius: float = RADIUS) -> None:
    """The number of an event in a circle: solid when it is the one that is drawn, faint when it is still
    to come.
    """
    from matplotlib.patches import Circle

    face, edge, ink = {
        "past": (look.PAPER, look.INK, look.INK),
        "now": (look.INK, look.INK, look.PAPER),
        "future": (look.PAPER, look.FAINT, look.FAINT),
    }[time]
    axes.add_patch(Circle((x, y), radius, fc=face, ec=edge, lw=look.THIN, zorder=8))
    size = look.FINE * radius / RADIUS * (0.92 if n > 9 else 1.0)
    # figures stand on the baseline and have no descent: half their height above the middle centres them
    shift = 0.33 * size / look.POINTS_A_MM
    weight = "semibold" if time == "now" else "normal"
    axes.text(x, y + shift, str(n), ha="center", va="baseline", zorder=9, **look.style(size, ink, weight))


def arrow(
    axes: Axes,
    x: float,
    y_from: float,
    y_to: float,
    color: str = look.INK,
    lw: float = look.MEDIUM,
    head: float = 1.6,
) -> None:
    """A vertical arrow that ends at ``y_to``."""
    from matplotlib.patches import Polygon

    way = 1.0 if y_to > y_from else -1.0
    head = min(head, 0.6 * abs(y_to - y_from))
    axes.plot([x, x], [y_from, y_to - way * head], color=color, lw=lw, solid_capstyle="butt", zorder=6)
    tip = [(x, y_to), (x - 0.36 * head, y_to - way * head), (x + 0.36 * head, y_to - way * head)]
    axes.add_patch(Polygon(tip, fc=color, ec="none", zorder=6))


def dimensions(axes: Axes, places: Sequence[float], y: float, texts: Sequence[str]) -> None:
    """A chain of horizontal dimensions: ``places`` in mm of the panel, one text a stretch above the line.

    A text that has no room in its stretch is left out, and so is the chain if none has."""
    stretches = list(zip(places, places[1:], texts, strict=False))
    if not any(b - a >= look.width(t, look.SMALL) + 1 for a, b, t in stretches):
        return
    axes.plot([places[0], places[-1]], [y, y], color=look.FAINT, lw=look.THIN, zorder=3)
    for x in places:
        axes.plot([x - 0.7, x + 0.7], [y + 0.7, y - 0.7], color=look.FAINT, lw=look.THIN, zorder=3)
    for a, b, text in stretches:
        if b - a >= look.width(text, look.SMALL) + 1:
            axes.text((a + b) / 2, y - 0.9, text, ha="center", va="baseline", **look.style(look.SMALL, look.FAINT))


def upright_dimension(axes: Axes, x: float, y_top: float, y_bottom: float, text: str) -> None:
    """A vertical dimension with its text to the left, set along the line."""
    axes.plot([x, x], [y_top, y_bottom], color=look.FAINT, lw=look.THIN, zorder=3)
    for y in (y_top, y_bottom):
        axes.plot([x - 0.7, x + 0.7], [y + 0.7, y - 0.7], color=look.FAINT, lw=look.THIN, zorder=3)
    middle = (y_top + y_bottom) / 2
    if abs(y_bottom - y_top) >= look.width(text, look.SMALL) + 1:
        axes.text(x - 0.9, middle, text, ha="right", va="center", rotation=90, **look.style(look.SMALL, look.FAINT))
    else:
        axes.text(x - 1.5, middle + 0.8, text, ha="right", va="baseline", **look.style(look.SMALL, look.FAINT))


def cross(axes: Axes, x: float, y: float, size: float = 1.5) -> None:
    """The place where something fails; a word always stands with it."""
    for way in (1, -1):
        axes.plot([x - size, x + size], [y - way * size, y + way * size], color=look.FAILS, lw=look.HEAVY, zorder=7)

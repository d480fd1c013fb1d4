"""A small writer of pictures as SVG: millimetres of paper, y downward, colours and weights from the one look."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from html import escape
from math import atan2, cos, isfinite, sin
from typing import Literal, TypeAlias

from soffit.show import look

Point: TypeAlias = tuple[float, float]
Place = Literal["start", "middle", "end"]

THIN, MEDIUM, HEAVY = (w / look.POINTS_A_MM for w in (look.THIN, look.MEDIUM, look.HEAVY))
"""Weights of lines, mm."""
TEXT, SMALL = 8.0 / look.POINTS_A_MM, 7.0 / look.POINTS_A_MM
"""Sizes of type, mm."""


class Svg:
    """What is drawn stands in the order in which it was drawn."""

    def __init__(self, width: float, height: float) -> None:
        self.width, self.height = width, height
        self._parts: list[str] = []

    def __str__(self) -> str:
        size = (
            f'width="{_n(self.width)}mm" height="{_n(self.height)}mm" viewBox="0 0 {_n(self.width)} {_n(self.height)}"'
        )
        return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{"".join(self._parts)}</svg>'

    def line(
        self, points: Iterable[Point], color: str = look.INK, weight: float = THIN, dash: Sequence[float] = (),
        opacity: float = 1.0,
    ) -> None:  # fmt: skip
        """An open line through all points."""
        dashes = f' stroke-dasharray="{" ".join(_n(d) for d in dash)}"' if dash else ""
        self._parts.append(
            f'<polyline points="{_points(points)}" fill="none" stroke="{color}" stroke-width="{_n(weight)}"'
            f"{dashes}{_seen(opacity)}/>"
        )

    def lines(
        self, pairs: Iterable[tuple[Point, Point]], color: str = look.INK, weight: float = THIN, opacity: float = 1.0
    ) -> None:
        """Many short lines of one kind."""
        path = "".join(f"M{_n(a)} {_n(b)}L{_n(c)} {_n(d)}" for (a, b), (c, d) in pairs)
        if path:
            self._parts.append(
                f'<path d="{path}" fill="none" stroke="{color}" stroke-width="{_n(weight)}"{_seen(opacity)}/>'
            )

    def shape(
        self, rings: Iterable[Iterable[Point]], fill: str = "none", edge: str = "none", weight: float = MEDIUM,
        opacity: float = 1.0,
    ) -> None:  # fmt: skip
        """A closed shape; further rings are holes."""
        path = "".join(f"M{_points(ring)}Z" for ring in rings)
        drawn = f' stroke="{edge}" stroke-width="{_n(weight)}"' if edge != "none" else ""
        self._parts.append(f'<path d="{path}" fill="{fill}" fill-rule="evenodd"{drawn}{_seen(opacity)}/>')

    def circle(self, at: Point, radius: float, fill: str = "none", edge: str = "none", weight: float = THIN) -> None:
        drawn = f' stroke="{edge}" stroke-width="{_n(weight)}"' if edge != "none" else ""
        self._parts.append(f'<circle cx="{_n(at[0])}" cy="{_n(at[1])}" r="{_n(radius)}" fill="{fill}"{drawn}/>')

    def text(
        self, at: Point, words: str, color: str = look.INK, size: float = TEXT, place: Place = "start",
        bold: bool = False, turned: bool = False,
    ) -> None:  # fmt: skip
        """One line of text on its base line; ``turned`` runs upward."""
        turn = f' transform="rotate(-90 {_n(at[0])} {_n(at[1])})"' if turned else ""
        self._parts.append(
            f'<text x="{_n(at[0])}" y="{_n(at[1])}" font-family="{look.FAMILY}" font-size="{_n(size)}" '
            f'font-weight="{600 if bold else 400}" fill="{color}" text-anchor="{place}"{turn}>'
            f"{escape(_printable(words))}</text>"
        )

    def arrow(self, start: Point, tip: Point, color: str = look.INK, weight: float = THIN, head: float = 1.4) -> None:
        angle = atan2(tip[1] - start[1], tip[0] - start[0])
        back = (tip[0] - head * cos(angle), tip[1] - head * sin(angle))
        side = (-0.32 * head * sin(angle), 0.32 * head * cos(angle))
        self.line([start, back], color, weight)
        self.shape([[tip, (back[0] + side[0], back[1] + side[1]), (back[0] - side[0], back[1] - side[1])]], color)

    def number(self, at: Point, n: int, radius: float = 1.75) -> None:
        """The number of an event in a circle."""
        self.circle(at, radius, look.PAPER, look.INK)
        self.text((at[0], at[1] + 0.34 * SMALL), str(n), size=SMALL, place="middle", bold=True)

    def upright_dimensions(self, x: float, places: Sequence[float], texts: Sequence[str]) -> None:
        """A chain of dimensions that stands; a text too long for its stretch is left out."""
        self.line([(x, places[0]), (x, places[-1])], look.FAINT)
        self.lines([((x - 0.8, y + 0.8), (x + 0.8, y - 0.8)) for y in places], look.FAINT)
        for a, b, words in zip(places, places[1:], texts, strict=False):
            if width(words, SMALL) <= abs(b - a) - 0.4:
                self.text((x - 1.0, 0.5 * (a + b)), words, look.FAINT, SMALL, "middle", turned=True)

    def dimensions(self, places: Sequence[float], y: float, texts: Sequence[str]) -> None:
        """A chain of dimensions; a text too long for its stretch is set smaller, or under the line beside the next."""
        self.line([(places[0], y), (places[-1], y)], look.FAINT)
        self.lines([((x - 0.8, y + 0.8), (x + 0.8, y - 0.8)) for x in places], look.FAINT)
        self.lines([((x, y - 1.6), (x, y + 1.0)) for x in places], look.FAINT)
        low = False
        for a, b, words in zip(places, places[1:], texts, strict=False):
            fits = width(words, SMALL) <= b - a - 0.6
            low = False if fits else not low
            at = (0.5 * (a + b), y - 0.9 if fits else y + (3.3 if low else 5.9))
            self.text(at, words, look.FAINT, SMALL, "middle")


def width(words: str, size: float = TEXT) -> float:
    """Width of a line of text in our face, mm; rather too wide than too narrow."""
    return size * sum(_advance(c) for c in words)


def _advance(c: str) -> float:
    if c in " .,;:'|!ijl\N{NARROW NO-BREAK SPACE}·()":
        return 0.3
    if c in "mwMW@%—…":
        return 0.86
    return 0.62 if c.isupper() or c in "+−=×" else 0.53


def clipped(words: str, room: float, size: float = TEXT) -> str:
    """The text, or as much of it as fits with an ellipsis."""
    if width(words, size) <= room:
        return words
    n = next((n for n in range(len(words), 0, -1) if width(words[:n] + "…", size) <= room), 0)
    return words[:n].rstrip() + "…"


_OURS = str.maketrans("\N{DIAMETER SIGN}\N{EMPTY SET}", "øø")
"""Signs that our face lacks; one of them would make a whole line change its face."""


def _printable(words: str) -> str:
    """Without what XML cannot hold."""
    return "".join(c for c in words.translate(_OURS) if c >= " " and c not in "\ufffe\uffff")


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _seen(opacity: float) -> str:
    return f' opacity="{_n(opacity)}"' if opacity < 1.0 else ""


def _n(value: float) -> str:
    """Thousandths of a millimetre are enough; a number without a value is a fault of ours."""
    if not isfinite(value):
        raise ValueError(f"{value} is no place on paper")
    return f"{value:.3f}".rstrip("0").rstrip(".") if abs(value) >= 5e-4 else "0"

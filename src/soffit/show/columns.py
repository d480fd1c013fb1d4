"""Text in columns for a terminal or a pipe: styled spans, figures that line up, hanging indents."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence

from soffit.show.numbers import THIN

Span = tuple[str, str]
"""A piece of text and the name of its style ("" for none)."""
Line = list[Span]

# A terminal does not say whether its ground is light or dark, so each colour stands midway between the light
# and the dark token of the same meaning (see `look.py`) and is legible on both.
STYLES = {
    "": "",
    "strong": "bold",
    "faint": "dim",
    "bar": "#70849a",
    "tendon": "#916cc3",
    "compression": "#4e80b8",
    "tension": "#d57c46",
    "fails": "bold #cc534e",
}
SIXTEEN = {
    "bar": "",
    "tendon": "magenta",
    "compression": "cyan",
    "tension": "yellow",
    "fails": "bold red",
}
"""The nearest of the palette of a terminal that has no more, each meaning still apart from the others."""


def plain(lines: Iterable[Line]) -> str:
    """The bare text, without spaces at the ends of lines."""
    return "\n".join(bare("".join(text for text, _ in line)).rstrip() for line in lines)


def coloured(lines: Iterable[Line], system: str) -> str:
    """The text with the terminal's own codes; ``system`` is rich's name of what the terminal can show.

    ``"mono"`` keeps bold and dim alone, as NO_COLOR asks.
    """
    from rich.color import ColorSystem
    from rich.style import Style

    systems = {
        "standard": ColorSystem.STANDARD,
        "256": ColorSystem.EIGHT_BIT,
        "truecolor": ColorSystem.TRUECOLOR,
        "windows": ColorSystem.WINDOWS,
    }
    named = STYLES if system in ("256", "truecolor") else STYLES | SIXTEEN
    styles = {name: Style.parse(text) for name, text in named.items()}
    if system not in systems:
        styles = {name: style.without_color for name, style in styles.items()}
    chosen = systems.get(system, ColorSystem.STANDARD)
    return "\n".join(
        "".join(styles[style].render(bare(text), color_system=chosen) if text else "" for text, style in line)
        for line in lines
    )


def grid(rows: Sequence[Sequence[str]], align: str) -> list[list[str]]:
    """Cells padded to the width of their column; ``align`` has one letter a column, ``l`` or ``r``."""
    widths = [max(len(row[i]) for row in rows) for i in range(len(align))]
    return [
        [cell.rjust(w) if a == "r" else cell.ljust(w) for cell, w, a in zip(row, widths, align, strict=True)]
        for row in rows
    ]


def hanging(label: str, texts: Sequence[str], width: int | None, indent: int, style: str = "") -> list[Line]:
    """Sentences beside a faint label in a column of ``indent``, each wrapped to ``width`` if there is one."""
    lines: list[Line] = []
    for text in texts:
        for piece in wrapped(text, None if width is None else width - indent):
            head = label if not lines else ""
            lines.append([(head.ljust(indent), "faint"), (piece, style)])
    return lines


def wrapped(text: str, width: int | None) -> list[str]:
    """Lines of at most ``width``; a number never leaves its unit (the thin space between does not break)."""
    text = " ".join(text.split(" "))
    if width is None or len(text) <= width:
        return [text]
    return textwrap.wrap(text, max(width, 20), break_on_hyphens=False) or [""]


def bare(text: str) -> str:
    """Text for a fixed-width face."""
    # in a fixed-width face a thin space is a full one, and a reader who searches types a full one
    return text.replace(THIN, " ")


__all__ = ["STYLES", "Line", "Span", "bare", "coloured", "grid", "hanging", "plain", "wrapped"]

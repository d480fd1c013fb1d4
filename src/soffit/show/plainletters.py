"""Plain letters for a terminal or pipe whose encoding lacks the typographic ones."""

from __future__ import annotations

import codecs

NAME = "soffit-plain"

PLAIN = {
    "−": "-", "–": "-", "×": "x", "·": "*", "…": "...", "“": '"', "”": '"', "’": "'", "‰": "o/oo",
    "²": "2", "³": "3", "⁴": "4", "°": " deg", "≤": "<=", "≥": ">=", "→": "->", "━": "#", "╌": "-",
    "\N{NARROW NO-BREAK SPACE}": " ", "\N{NO-BREAK SPACE}": " ", "ε": "eps", "σ": "sigma", "φ": "phi",
}  # fmt: skip


def replace(error: UnicodeError) -> tuple[str, int]:
    """Error handler for :func:`codecs.register_error`."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    wrong = error.object[error.start : error.end]
    return "".join(PLAIN.get(letter, "?") for letter in wrong), error.end


def register() -> str:
    """Make the handler known; the name under which a stream uses it."""
    codecs.register_error(NAME, replace)
    return NAME

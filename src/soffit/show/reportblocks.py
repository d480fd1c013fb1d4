"""What a calculation is made of, as plain data: the template sets it, and all text in it stays text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal, TypeAlias

from soffit.show.numbers import Units
from soffit.show.reportdrawing import Drawn

if TYPE_CHECKING:
    from soffit.codes.verification import Verification
    from soffit.member.result import Life

Block: TypeAlias = dict[str, Any]
Paper = Literal["a4", "us-letter"]


@dataclass(frozen=True)
class Calculation:
    """All that the pages tell of."""

    found: Verification
    units: Units
    cures: tuple[str, ...]
    """One sentence a failing check, of the first of them."""
    life: Life | None
    lifeless: str = ""
    """Why there is no life, where there is none."""


def heading(text: str, level: int = 1) -> Block:
    return {"kind": "heading", "level": level, "text": text}


def words(text: str, style: str = "") -> Block:
    """``style``: "", "title", "strong", "faint", "fails", or "lead", which stays with what follows."""
    return {"kind": "words", "text": text, "style": style}


def bullets(texts: Sequence[str]) -> Block:
    return {"kind": "bullets", "texts": list(texts)}


def facts(rows: Sequence[tuple[str, str]]) -> Block:
    """Names and what they are; rows without a value are left out."""
    return {"kind": "facts", "rows": [[name, value] for name, value in rows if value]}


def table(head: Sequence[str], rows: Sequence[Sequence[str]], align: str, wide: Sequence[int] = ()) -> Block:
    """``align``: one of l, r, c a column. ``wide``: columns that share the room that is left."""
    return {"kind": "table", "head": list(head), "rows": [list(r) for r in rows], "align": align, "wide": list(wide)}


def figure(drawn: Drawn, caption: str, title: str = "") -> Block:
    said = "; ".join(filter(None, [caption.rstrip("."), drawn.note])) + "."
    return {"kind": "figure", "svg": drawn.svg, "width": drawn.width, "caption": said, "title": title}


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def sentence(text: str) -> str:
    """With a capital and a full stop."""
    return capital(text) + ("" if text.endswith((".", "!", "?")) else ".")

"""One key for the many ways in which people write the same catalogue name."""

from __future__ import annotations

import re
import unicodedata

# what may stand behind a name without changing it: "10 bar", "M10 threaded rod"
_IDLE = re.compile(r" (?:bars?|rebars?|rods?|threaded rods?|threads?|studs?|bolts?)$")


def size_key(text: str) -> tuple[str, str]:
    """Key of a size name and the unit written in it: ``"mm"``, ``"in"`` or ``""``.

    ``"Ø10"``, ``"10 mm"``, ``"10mm"`` give ``10``; ``"No. 4"``, ``"# 4"`` give ``#4``;
    ``"1/2-13 UNC"`` gives ``1/2 13 unc``; ``"strand 9,30"`` gives ``9.3 strand``.
    """
    t = re.sub(r"(?<=\d)(?=[¼½¾⅛⅜⅝⅞])", " ", text.strip().lower().replace("×", "x"))
    t = unicodedata.normalize("NFKC", t).replace("⁄", "/")
    t = re.sub(r"[ø⌀∅φ]\s*", "", t)
    t = re.sub(r"(?<=\d),(?=\d)", ".", t)
    t = re.sub(r"^(?:no\.?|number|#)\s*(?=\d)", "#", t)
    t = re.sub(r"(?<=\d)\s*mm\b", " mm ", t)
    t = re.sub(r"(?<=\d)\s*(?:inch(?:es)?\b|in\b\.?|[\"″”])", " in ", t)
    t = re.sub(r"(?<=\S)[\s_\-–—]+", " ", t).strip()
    t = re.sub(r"^m (?=\d)", "m", t)
    t = re.sub(r"^(m[\d.]+) ?x ?(?=[\d.])", r"\1x", t)
    t = re.sub(r"(?<![\d/])\.(?=\d)", "0.", t)
    t = re.sub(r"(\d+\.\d*?)0+(?!\d)", r"\1", t)
    t = re.sub(r"(?<=\d)\.(?!\d)", "", t)
    t = re.sub(r"^(strand|wire|bar) (.+)$", r"\2 \1", t)
    t = re.sub(r"\bstrands\b", "strand", re.sub(r"\bwires\b", "wire", t))
    t = re.sub(r"\b7 wire strand\b", "strand", t)
    unit = ""
    for word in ("mm", "in"):
        if re.search(rf"\b{word}\b", t):
            unit, t = word, re.sub(rf" ?\b{word}\b", "", t)
    return t.strip(), unit


def without_idle_words(key: str) -> str:
    """``10 bar`` → ``10``, ``m10 rod`` → ``m10``; a prestressing bar keeps its name."""
    return key if key.endswith("prestressing bar") else _IDLE.sub("", key)


def first_number(key: str) -> float | None:
    """The leading number of a size key: ``1 1/4 …`` → 1.25, ``9.3 strand`` → 9.3; none for ``#4``."""
    match = re.match(r"m?(?:(\d+) )?(\d+)/(\d+)\b", key)
    if match:
        whole, over, under = match.groups()
        return int(whole or 0) + int(over) / int(under) if int(under) else None
    match = re.match(r"m?(\d+(?:\.\d+)?)", key)
    return float(match.group(1)) if match else None


def grade_key(text: str) -> str:
    """Key of a grade or class: case, spaces, hyphens and "class" do not count, "Gr." is "Grade"."""
    t = re.sub(r"[\s_\-–—]+", " ", text.strip().lower())
    t = re.sub(r"\bgr\.? ?(?=\d)", "grade ", t)
    t = re.sub(r"\b(?:property )?class\b", "", t)
    return t.replace(" ", "")

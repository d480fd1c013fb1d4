"""The look of every picture in one place: colours by meaning, line weights, type. Light theme, for paper."""

from __future__ import annotations

import re
import warnings
from functools import cache
from importlib.resources import files
from typing import Any

# one colour, one meaning, everywhere
PAPER = "#FBFAF7"
INK = "#1E2328"
FAINT = "#6F6A60"
CONCRETE = "#DDD8CE"
BAR = "#44566A"
TENDON = "#6B3FA0"
COMPRESSION = "#1D4E89"
TENSION = "#BA5420"
MEASURED = "#0F766E"
FAILS = "#A61B1B"
FOCUS = "#96630F"

HATCH = "#C6BFB1"
"""The even hatching of cut concrete: concrete, a shade darker."""

POINTS_A_MM = 72 / 25.4

# line weights at print size, in points
THIN = 0.25 * POINTS_A_MM
"""Dimensions, hidden lines."""
MEDIUM = 0.5 * POINTS_A_MM
"""Outlines."""
HEAVY = 0.9 * POINTS_A_MM
"""The cut section, and what governs."""

# sizes of type, in points
TITLE = 15.0
LEAD = 10.5
TEXT = 8.0
SMALL = 6.8
FINE = 6.2

MISSING = "Glyph .* missing from"
"""Matplotlib's warning of a script that neither face holds: it is drawn as boxes, no reason to fail."""
_NUMBER_AND_UNIT = re.compile(r"(\d) (mm|m|kN|MPa|GPa|in|ft|lb|kip|psi|ksi|%|°)\b")
FAMILY = "Soffit Sans"
FALLBACK = "Soffit Sans Fallback"
"""For scripts that our face lacks: the face that comes with matplotlib, under a name of our own."""
_FACES = {
    "normal": ("SoffitSans-Regular.ttf", "DejaVuSans.ttf"),
    "semibold": ("SoffitSans-SemiBold.ttf", "DejaVuSans-Bold.ttf"),
}
_WEIGHTS = {"normal": 400, "semibold": 600}


def style(size: float = TEXT, color: str = INK, weight: str = "normal", **more: Any) -> dict[str, Any]:
    """Keywords of a matplotlib text in our face. A dollar sign in a user's name stays a dollar sign."""
    register()
    return {
        "fontsize": size,
        "color": color,
        "fontweight": weight,
        "fontfamily": [FAMILY, FALLBACK],
        "parse_math": False,
        **more,
    }


@cache
def register() -> None:
    """Make the two faces known to matplotlib, once a process and not before something is drawn."""
    from matplotlib import font_manager as fonts

    for weight in _FACES:
        for family, path in zip((FAMILY, FALLBACK), _paths(weight), strict=True):
            entry = fonts.FontEntry(fname=path, name=family, style="normal", weight=_WEIGHTS[weight])
            fonts.fontManager.ttflist.append(entry)


def _paths(weight: str) -> tuple[str, str]:
    from matplotlib import get_data_path

    ours, theirs = _FACES[weight]
    # an install that is not a plain folder is not supported: matplotlib wants a path that stays
    return str(files("soffit.show") / "data" / ours), f"{get_data_path()}/fonts/ttf/{theirs}"


@cache
def _face(weight: str) -> Any:
    from matplotlib import font_manager as fonts

    return fonts.get_font(list(_paths(weight)))


@cache
def width(text: str, size: float = TEXT, weight: str = "normal") -> float:
    """Width of one line of text, mm on paper. ``weight`` is "normal" or "semibold"."""
    face = _face(weight)
    face.set_size(size * 16, 72)  # sixteen times, since the face rounds to 1/64 of a pixel
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", message=MISSING)
        face.set_text(text, 0.0)
    return float(face.get_width_height()[0]) / 64 / 16 / POINTS_A_MM


def wrap(text: str, room: float, size: float = TEXT, weight: str = "normal") -> list[str]:
    """Lines no wider than ``room`` mm. A number stays with its unit; a word wider than the room is broken."""
    text = _NUMBER_AND_UNIT.sub("\\1\N{NO-BREAK SPACE}\\2", text)
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        trial = f"{line} {word}" if line else word
        if width(trial, size, weight) <= room:
            line = trial
            continue
        if line:
            lines.append(line)
        while width(word, size, weight) > room and len(word) > 1:
            cut = max(next((n for n in range(len(word), 0, -1) if width(word[:n], size, weight) <= room), 1), 1)
            lines.append(word[:cut])
            word = word[cut:]
        line = word
    return [*lines, line] if line else lines


def clip(text: str, room: float, size: float = TEXT, weight: str = "normal") -> str:
    """The text, or as much of it as fits ``room`` mm with an ellipsis."""
    if width(text, size, weight) <= room:
        return text
    n = next((n for n in range(len(text), 0, -1) if width(text[:n].rstrip() + "…", size, weight) <= room), 0)
    return text[:n].rstrip() + "…"

"""A sheet of paper in millimetres: axes and text placed from the top left corner, and written to file in
one move.
"""

from __future__ import annotations

import os
import warnings
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from soffit.errors import SoffitError
from soffit.show import look

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

INCH = 25.4
DOTS_AN_INCH = 220
FORMATS = ("svg", "png", "pdf")
SETTINGS = {
    "svg.hashsalt": "soffit",
    "svg.fonttype": "path",
    "pdf.fonttype": 42,
    "path.simplify": False,
    # hinting moves letters to whole pixels, and then lines are not as wide as they were measured
    "text.hinting": "no_hinting",
}
"""How matplotlib draws while a picture is written."""


class Paper:
    """One sheet, ``width`` × ``height`` mm. Positions are mm from the left edge and down from the top
    edge.
    """

    def __init__(self, width: float, height: float) -> None:
        from matplotlib.figure import Figure

        look.register()
        self.width, self.height = width, height
        self.figure: Figure = Figure(figsize=(width / INCH, height / INCH), facecolor=look.PAPER)
        self.sheet = self.panel(0, 0, width, height)

    def panel(self, left: float, top: float, width: float, height: float) -> Axes:
        """Bare axes over a rectangle whose data coordinates are mm, y downward, until the caller sets
        others.
        """
        axes: Axes = self.figure.add_axes(
            (left / self.width, 1 - (top + height) / self.height, width / self.width, height / self.height)
        )
        axes.set_xlim(0, width)
        axes.set_ylim(height, 0)
        axes.set_axis_off()
        return axes

    def text(self, left: float, top: float, text: str, size: float = look.TEXT, **more: Any) -> None:
        """One line with its baseline ``top`` mm from the top edge."""
        more.setdefault("va", "baseline")
        self.sheet.text(left, top, text, **look.style(size, **more))

    def lines(self, left: float, top: float, lines: Sequence[str], size: float, **more: Any) -> float:
        """Lines under each other, the first baseline at ``top``; returns where the next would stand."""
        for line in lines:
            self.text(left, top, line, size, **more)
            top += leading(size)
        return top

    def rule(self, left: float, top: float, width: float) -> None:
        """A thin horizontal line."""
        self.sheet.plot([left, left + width], [top, top], color=look.FAINT, lw=look.THIN, alpha=0.6)


def leading(size: float) -> float:
    """Distance of two lines of text of ``size`` points, mm."""
    return 1.3 * size / look.POINTS_A_MM


def save(figure: Figure, stem: Path, formats: Sequence[str], title: str, about: str) -> list[Path]:
    """Write ``stem``.svg, … and return the paths. The same figure gives the same bytes.

    Each file is written beside its place under another name and then moved, so that a half-written picture is
    never seen. Raises :class:`SoffitError` for an unknown format or a folder that cannot be written.
    """
    for kind in formats:
        if kind not in FORMATS:
            raise SoffitError(f"{kind!r} is not a picture format; use one of {', '.join(FORMATS)}.")
    return [_write(figure, stem.with_name(f"{stem.name}.{kind}"), kind, title, about) for kind in formats]


def _write(figure: Figure, path: Path, kind: str, title: str, about: str) -> Path:
    import matplotlib as mpl

    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        with mpl.rc_context(SETTINGS), warnings.catch_warnings():
            warnings.filterwarnings("ignore", message=look.MISSING)
            figure.savefig(
                part,
                format=kind,
                dpi=DOTS_AN_INCH,
                facecolor=look.PAPER,
                metadata=_metadata(kind, title, about),
            )
        part.replace(path)
    except OSError as error:
        raise SoffitError(f"{path} cannot be written: {error.strerror or error}.") from error
    finally:
        part.unlink(missing_ok=True)
    return path


def _metadata(kind: str, title: str, about: str) -> dict[str, Any]:
    """Title and description for readers that cannot see; no date and no program version, so bytes do not
    change.
    """
    if kind == "svg":
        return {"Date": None, "Title": title, "Description": about, "Creator": "Soffit"}
    if kind == "pdf":
        return {"CreationDate": None, "ModDate": None, "Producer": None, "Title": title, "Subject": about}
    return {"Title": title, "Description": about, "Software": "Soffit"}

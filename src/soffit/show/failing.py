"""How a failure is shown in the elevation: its place, its mark, its few words."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from soffit.member.profile import height as tendon_height
from soffit.member.result import Life
from soffit.show import look, marks
from soffit.show.view import View

if TYPE_CHECKING:
    from matplotlib.axes import Axes

WORDS = {
    "first crack": "breaks as it cracks",
    "tension-controlled flexure": "fails in bending, the steel yields first",
    "compression-controlled flexure": "fails in bending, the concrete crushes first",
    "bar rupture": "a bar ruptures",
    "tendon rupture": "a tendon ruptures",
    "anchor": "an anchor fails",
    "bond": "bond fails",
    "shear": "fails in shear (crack indicative)",
}
"""One entry a mode of ``soffit.member.result.MODES``."""
SHEAR_SLOPE = 0.7
"""Rise over run of the diagonal crack that is drawn for a shear failure: some 35°, for the eye."""


def words(life: Life) -> str:
    if not life.curve.load.any():
        return "fails before any load is on it"
    return WORDS.get(life.failure.mode, f"fails: {life.failure.mode}")


def draw_failure(axes: Axes, view: View, life: Life) -> None:
    """The mark at the place of failure. Its words are the caller's to set; the mark never stands alone."""
    mode = life.failure.mode
    if mode == "shear":
        _diagonal(axes, view, life)
    elif "flexure" in mode:
        _crushed(axes, view, life)
    elif mode != "first crack":
        x, y = _steel_place(life)
        marks.cross(axes, float(view.across(x)), float(view.down(x, y)))


def _sagging(life: Life) -> bool:
    """Whether the top face is the compressed one where the beam fails. (Prestress can bend against the
    moment.)
    """
    s, step = life.stations, life.peak.step
    return float(np.interp(life.failure.x, s.x, s.curvature[step])) >= 0


def _crushed(axes: Axes, view: View, life: Life) -> None:
    """A lens of short strokes at the compressed face."""
    depth = life.beam.outline.depth
    face, way = (depth, -1.0) if _sagging(life) else (0.0, 1.0)
    half = max(0.22 * depth, 1.5 * view.scale)
    across = np.linspace(-0.8, 0.8, max(int(1.35 * half / view.scale), 3))
    for share in across:
        x = float(np.clip(life.failure.x + share * half, 0, life.beam.length))
        tall = max(0.42 * half, 2.0 * view.scale) * np.sqrt(1 - share**2)
        mid = float(view.across(x))
        top, low = float(view.down(x, face)), float(view.down(x, face + way * tall))
        axes.plot([mid, mid + 0.35, mid - 0.2, mid + 0.15], np.linspace(top, low, 4), color=look.FAILS,
                  lw=look.MEDIUM, zorder=5.5, solid_joinstyle="round")  # fmt: skip


def _diagonal(axes: Axes, view: View, life: Life) -> None:
    """A heavy crack through the depth that rises towards the greater moment."""
    s, depth, x0 = life.stations, life.beam.outline.depth, life.failure.x
    size = np.abs(s.moment[life.peak.step])
    reach = depth / SHEAR_SLOPE / 2
    ahead, behind = (float(np.interp(x, s.x, size)) for x in (x0 + reach, x0 - reach))
    way = 1.0 if ahead >= behind else -1.0
    t = np.linspace(0, 1, 25)
    rise = t if _sagging(life) else 1 - t
    x = np.clip(x0 + way * reach * (2 * t - 1), 0, life.beam.length)
    waver = 0.02 * depth * np.sin(9 * t) * np.sin(np.pi * t)
    axes.plot(view.across(x), view.down(x, depth * rise + waver), color=look.FAILS, lw=look.HEAVY, zorder=5.5,
              solid_capstyle="round")  # fmt: skip


def _steel_place(life: Life) -> tuple[float, float]:
    """x and height of the steel that fails: the outermost on the tension side."""
    beam, mode, x = life.beam, life.failure.mode, life.failure.x
    if mode == "anchor" and beam.tendons:
        tendon = beam.tendons[0]
        x = min((tendon.x_from, tendon.x_to), key=lambda end: abs(end - x))
    tendons = [float(tendon_height(t.profile, np.array([x]))[0]) for t in beam.tendons]
    heights = tendons if mode in ("tendon rupture", "anchor") else [b.y for b in beam.bars] or tendons
    if not heights:
        return x, beam.outline.depth / 2
    return x, min(heights) if _sagging(life) else max(heights)

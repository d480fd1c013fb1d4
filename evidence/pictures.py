"""Pictures of the page: measured in points, predicted in lines."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from evidence import plain, sustained
from evidence.found import Found, lines, yielding
from evidence.groups import Group
from evidence.predicted import Outcome
from evidence.statistics import summary
from evidence.tables import slenderness
from soffit.materials.curve import Array
from soffit.show import agechart, look
from soffit.show.paper import Paper, save

if TYPE_CHECKING:
    from matplotlib.axes import Axes

WIDTH = 170.0
POINT = {"color": look.MEASURED, "ms": 3.2, "mew": 0.0, "alpha": 0.75, "ls": "none"}
"""How a measured point is drawn."""


def draw(found: Found, folder: Path) -> list[Path]:
    """Write every picture as SVG into ``folder``."""
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for stem, picture in PICTURES.items():
        paper, title, about = picture(found)
        written += save(paper.figure, folder / stem, ("svg",), title, about)
    return written


def _axes(paper: Paper, box: tuple[float, float, float, float], across: str, up: str) -> Axes:
    """Axes with two quiet spines; ``box``: left, top, width, height, mm."""
    axes = paper.panel(*box)
    axes.set_axis_on()
    axes.set_facecolor("none")
    axes.invert_yaxis()
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    for side in ("left", "bottom"):
        axes.spines[side].set(color=look.FAINT, lw=look.THIN)
    axes.tick_params(color=look.FAINT, width=look.THIN, length=2)
    axes.set_xlabel(across, **look.style(look.TEXT, look.FAINT))
    axes.set_ylabel(up, **look.style(look.TEXT, look.FAINT))
    return axes


def _letter(axes: Axes) -> None:
    """Tick labels in our face, after the limits are set."""
    face = look.style(look.SMALL, look.FAINT)
    for label in [*axes.get_xticklabels(), *axes.get_yticklabels()]:
        label.set(fontfamily=face["fontfamily"], fontsize=face["fontsize"], color=face["color"])


def _spread(values: Sequence[float], near: float) -> list[float]:
    """Offsets that lay points of nearly one value side by side: 0, 1, −1, 2, −2 …"""
    counted: dict[int, int] = {}
    out = []
    for v in values:
        k = round(v / near)
        n = counted.get(k, 0)
        counted[k] = n + 1
        out.append((n + 1) // 2 * (1.0 if n % 2 else -1.0))
    return out


def _ratios(found: Found) -> tuple[Paper, str, str]:
    title = "Measured over predicted peak load, one point a beam"
    rows = [(g, part) for g, part in lines(found) if g.outcomes]
    step = 9.0
    paper = Paper(WIDTH, 26 + step * len(rows))
    paper.text(6, 9, title, look.LEAD, weight="semibold")
    axes = _axes(paper, (66, 13, 98, step * len(rows)), "measured / predicted", "")
    axes.set(xlim=(0.4, 2.4), ylim=(len(rows) - 0.4, -0.6), yticks=[])
    axes.axvspan(0.9, 1.1, color=look.CONCRETE, lw=0, zorder=0)
    axes.axvline(1.0, color=look.INK, lw=look.THIN, zorder=1)
    for i, (g, part) in enumerate(rows):
        s = summary(g.ratios)
        lift = _spread(g.ratios, 0.03)
        axes.plot(g.ratios, [i + max(-0.4, min(0.4, 0.09 * u)) for u in lift], marker="o", **POINT)  # type: ignore[arg-type]
        axes.plot([s.mean, s.mean], [i - 0.36, i + 0.36], color=look.INK, lw=look.HEAVY)
        top = 13 + step * (i + 0.6) / (len(rows) + 0.2) * len(rows)
        paper.text(6 + 3 * part, top + 0.5, g.title, look.SMALL if part else look.TEXT)
    axes.set_xticks([0.5, 0.75, 1.0, 1.25, 1.5, 1.75, 2.0, 2.25])
    _letter(axes)
    return paper, title, "Strip of points for each group with its mean; the band is 0.9 to 1.1."


def _loads(found: Found) -> tuple[Paper, str, str]:
    title = "Measured against predicted peak load"
    paper = Paper(WIDTH, 120)
    paper.text(6, 9, title, look.LEAD, weight="semibold")
    axes = _axes(paper, (20, 14, 100, 92), "predicted peak load, kN", "measured peak load, kN")
    kinds: list[tuple[Group, str, str]] = [
        (found.bending, "o", look.MEASURED),
        (found.bare[0], "v", look.TENSION),
        (found.stirrups, "s", look.COMPRESSION),
        (found.classic, "D", look.TENDON),
        (found.plain, "^", look.INK),
    ]
    top = 20.0
    for g, marker, colour in kinds:
        x = [o.life.peak.load / 1e3 for o in g.outcomes]
        y = [o.measured.peak / 1e3 for o in g.outcomes]
        axes.plot(x, y, marker=marker, ms=3.4, mew=0, color=colour, alpha=0.7, ls="none")
        paper.sheet.plot([126], [top - 1], marker=marker, ms=4, mew=0, color=colour)
        top = paper.lines(129, top, look.wrap(g.title, 38, look.SMALL), look.SMALL) + 3
    ends = (0.8, 1500.0)
    axes.plot(ends, ends, color=look.INK, lw=look.MEDIUM)
    for share in (0.8, 1.25):
        axes.plot(ends, [share * e for e in ends], color=look.FAINT, lw=look.THIN, ls=(0, (4, 3)))
    axes.set(xscale="log", yscale="log", xlim=ends, ylim=ends)
    for axis in (axes.xaxis, axes.yaxis):
        axis.set_major_formatter("{x:g}")
        axis.set_minor_formatter("")
    _letter(axes)
    return paper, title, "Full line: equal; dashed lines: measured 25 % above and 20 % below."


def _trends(found: Found) -> tuple[Paper, str, str]:
    title = "Shear without stirrups: what the ratio depends on"
    paper = Paper(WIDTH, 62)
    paper.text(6, 9, title, look.LEAD, weight="semibold")
    reads: list[tuple[str, Callable[[Outcome], float]]] = [
        ("effective depth, mm", lambda o: o.specimen.depth - o.specimen.bars[0].y),
        ("shear span / effective depth", slenderness),
        ("cylinder strength, MPa", lambda o: o.specimen.strength),
    ]
    for i, (name, read) in enumerate(reads):
        axes = _axes(paper, (17 + 52 * i, 14, 44, 34), name, "measured / predicted" if i == 0 else "")
        axes.plot([read(o) for o in found.bare[0].outcomes], found.bare[0].ratios, marker="o", **POINT)  # type: ignore[arg-type]
        axes.axhline(1.0, color=look.INK, lw=look.THIN)
        axes.autoscale()
        axes.set_ylim(0.4, 2.4)
        _letter(axes)
    return paper, title, "Ratio over effective depth, slenderness and strength, bars at 500 MPa."


def _five(found: Found) -> tuple[Paper, str, str]:
    title = "Beam of 5 m span, load at midspan"
    paper = Paper(WIDTH, 90)
    paper.text(6, 9, title, look.LEAD, weight="semibold")
    axes = _axes(paper, (20, 14, 140, 62), "midspan deflection, mm", "load, kN")
    for (name, o), dash in zip(found.five_metres.items(), ("-", (0, (4, 2))), strict=True):
        d, p = o.life.curve.deflection, o.life.curve.load / 1e3
        axes.plot(d, p, color=look.INK, lw=look.MEDIUM, ls=dash)
        axes.annotate(f"concrete {name}", (d[-1], p[-1]), (2, 0), textcoords="offset points",
                      **look.style(look.SMALL))  # fmt: skip
    points = found.five_metres_points
    axes.plot(points.deflection, [p / 1e3 for p in points.load], marker="o", **POINT)  # type: ignore[arg-type]
    axes.annotate("measured", (points.deflection[-1], points.load[-1] / 1e3), (-4, -10), ha="right",
                  textcoords="offset points", **look.style(look.SMALL, look.MEASURED))  # fmt: skip
    axes.set(xlim=(0, 55), ylim=(0, 250))
    _letter(axes)
    return paper, title, "Predicted curves for the two published sets of concrete, and the measured points."


def _opening(found: Found) -> tuple[Paper, str, str]:
    title = "Plain beam 50 mm deep: load over the opening of its crack"
    paper = Paper(WIDTH, 80)
    paper.text(6, 9, title, look.LEAD, weight="semibold")
    axes = _axes(paper, (20, 14, 140, 52), "crack opening at the soffit, mm (elastic part taken out)", "load, kN")
    seen = plain.opening()
    low, mean, high = ([p / 1e3 for p in v] for v in (seen.least, seen.mean, seen.most))
    axes.fill_between(seen.width, low, high, color=look.MEASURED, alpha=0.2, lw=0)
    axes.plot(seen.width, mean, marker="o", **POINT)  # type: ignore[arg-type]
    curve = found.plain.outcomes[0].life.curve
    axes.plot(curve.crack_width, curve.load / 1e3, color=look.INK, lw=look.MEDIUM)
    axes.annotate("predicted, to 80 % of its peak", (curve.crack_width[-1], curve.load[-1] / 1e3), (6, 6),
                  textcoords="offset points", **look.style(look.SMALL))  # fmt: skip
    axes.set(xlim=(0, 0.12), ylim=(0, 5.5))
    _letter(axes)
    return paper, title, "Points and band: measured mean and limits; line: predicted."


def _yield(found: Found) -> tuple[Paper, str, str]:
    title = "Bending tests graded A-: first yield"
    rows = [o for o in yielding(found) if o.yielding]
    paper = Paper(WIDTH, 66)
    paper.text(6, 9, title, look.LEAD, weight="semibold")
    for i, (k, name, scale, top) in enumerate([(0, "load, kN", 1e3, 200.0), (1, "deflection, mm", 1.0, 12.0)]):
        axes = _axes(paper, (20 + 82 * i, 14, 58, 38), f"predicted {name}", f"measured {name}")
        seen = [(o.measured.yield_load, o.measured.yield_deflection)[k] or 0.0 for o in rows]
        said = [o.yielding[k] for o in rows if o.yielding]
        axes.plot([v / scale for v in said], [v / scale for v in seen], marker="o", **POINT)  # type: ignore[arg-type]
        axes.plot([0, top], [0, top], color=look.INK, lw=look.THIN)
        axes.set(xlim=(0, top), ylim=(0, top))
        _letter(axes)
    return paper, title, "Measured over predicted load and deflection at first yield; the line is equality."


def _sustained(found: Found) -> tuple[Paper, str, str]:
    title = "Beam B1-a under its lasting load, 380 days"
    told, last = found.sustained, sustained.LAST
    paper = Paper(WIDTH, 96)
    paper.text(6, 9, title, look.LEAD, weight="semibold")
    axes = _axes(paper, (20, 14, 112, 66), "days under load", "midspan deflection, mm")
    plain_, better = told.plain[sustained.EN, sustained.USUAL], told.measured[sustained.EN]
    # where the axis begins, a quarter of an hour: what the load did as it came on is drawn there
    soonest = 0.01

    def under(age: Array) -> Array:
        return np.maximum(age - sustained.LOADED, soonest)

    age = sustained.LOADED + np.concatenate([[0.0], np.geomspace(2 * soonest, last - sustained.LOADED, 80)])
    low, high = (h.at(age) for h in sustained.limits(told.bands[sustained.USUAL]))
    axes.fill_between(under(age), low, high, color=look.INK, alpha=0.10, lw=0)
    lines_ = [
        (plain_, f"EN, {sustained.USUAL} %", "-", look.MEDIUM),
        (told.plain[sustained.EN, 40], "EN, 40 %", "-", look.THIN),
        (told.plain[sustained.EN, 60], "EN, 60 %", "-", look.THIN),
        (better, "EN, concrete as measured", (0, (4, 2)), look.MEDIUM),
    ]
    for history, _, dash, weight in lines_:
        axes.plot(under(age), history.at(age), color=look.INK, lw=weight, ls=dash)
    axes.plot(under(told.points.age), told.points.deflection, marker="o", **POINT)  # type: ignore[arg-type]
    ends = [(h.final, name, look.INK) for h, name, _, _ in lines_]
    ends += [(float(told.points.deflection[-1]), "measured", look.MEASURED), (float(high[-1]), "95 %", look.FAINT),
             (float(low[-1]), "5 %", look.FAINT)]  # fmt: skip
    top = 15.0
    ends.sort()
    for value, y in zip(ends, agechart.spread([v for v, _, _ in ends], 0.75), strict=True):
        axes.annotate(value[1], (last - sustained.LOADED, y), (5, -2), textcoords="offset points",
                      annotation_clip=False, **look.style(look.SMALL, value[2]))  # fmt: skip
    axes.annotate("as the load came on", (soonest, told.points.deflection[0]), (6, -9), textcoords="offset points",
                  **look.style(look.SMALL, look.MEASURED))  # fmt: skip
    axes.set(xscale="log", xlim=(0.8 * soonest, last - sustained.LOADED), ylim=(0, top))
    axes.xaxis.set_major_formatter("{x:g}")
    axes.xaxis.set_minor_formatter("")
    _letter(axes)
    return paper, title, "Points: measured; lines: predicted; band: 5 to 95 % of EN at 50 % humidity."


PICTURES: dict[str, Callable[[Found], tuple[Paper, str, str]]] = {
    "ratios": _ratios,
    "loads": _loads,
    "shear-trends": _trends,
    "five-metres": _five,
    "plain-opening": _opening,
    "yield": _yield,
    "sustained": _sustained,
}

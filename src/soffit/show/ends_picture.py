"""The end zones of a prestressed beam, to scale: plates, the spread of the force, and where steel is needed."""

from __future__ import annotations

from collections.abc import Sequence
from math import tan
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from soffit.codes.en1992.ends import SPREAD
from soffit.detail import endplaces as places
from soffit.detail.endplaces import Cluster, Side
from soffit.detail.ends import End, Ends, Line
from soffit.member import profile
from soffit.show import look
from soffit.show.ends import closing, stirrups
from soffit.show.numbers import Units, quantity
from soffit.show.paper import Paper, leading, save
from soffit.show.steel_places import stirrup_heights

if TYPE_CHECKING:
    from matplotlib.axes import Axes

WIDTH = 180.0
MARGIN = 12.0
FORCE_ROOM = 26.0
"""mm of paper beyond the face, for the forces."""
TALLEST = 70.0
"""Of a beam on paper, mm."""
BACK = {"fc": look.CONCRETE, "ec": "none", "pad": 0.8, "alpha": 0.85}
"""Behind words on the beam, so that stirrups do not cross them."""
BAR_ROOM = 4.6
"""For each bar of stirrups under the beam, mm of paper."""


def ends_sheet(
    found: Ends, stem: Path, formats: Sequence[str] = ("svg", "png"), units: Units | None = None
) -> list[Path]:
    """Draw both ends, or one where they are alike, and write the files."""
    units = units or found.beam.units
    ends = found.ends[:1] if found.alike else found.ends
    beam, length = found.beam, _length(found)
    scale = max(length / (WIDTH - 2 * MARGIN - FORCE_ROOM), beam.outline.depth / TALLEST)
    tall = beam.outline.depth / scale
    length = min((WIDTH - 2 * MARGIN - FORCE_ROOM) * scale, beam.length)  # a deep beam leaves room for more of it
    rows = max(sum(line.tie is not None for line in end.lines) for end in ends)
    under = 3.0 + BAR_ROOM * rows
    notes = [_notes(end, units) for end in ends]
    words = closing(found, units)
    lead = look.wrap(words, WIDTH - 2 * MARGIN, look.LEAD)
    head = 17.0 + len(lead) * leading(look.LEAD) + 4.0
    each = [8.0 + tall + under + 4.0 + len(n) * leading(look.TEXT) + 8.0 for n in notes]
    paper = Paper(WIDTH, head + sum(each) + 8.0)
    title = look.clip(f"{beam.name}: ends", WIDTH - 2 * MARGIN, look.TITLE, "semibold")
    paper.text(MARGIN, 14.0, title, look.TITLE, weight="semibold")
    paper.lines(MARGIN, 21.0, lead, look.LEAD)
    top = head
    for end, said, room in zip(ends, notes, each, strict=True):
        name = "both ends alike" if found.alike else f"{end.side} end"
        paper.text(MARGIN, top + 2.0, f"{name}, to scale, by {found.standard}", look.TEXT, color=look.FAINT)
        axes = paper.panel(0, top + 6.0, WIDTH, tall + 2.0 + under)
        _draw(axes, found, end, length, scale, units)
        paper.lines(MARGIN, top + 6.0 + tall + under + 6.0, said, look.TEXT)
        top += room
    about = f"End zones of {beam.name} with anchors, spread of the forces and the steel that they need. {words}"
    return save(paper.figure, stem, formats, f"{beam.name}: ends", about)


def _length(found: Ends) -> float:
    """Of the beam that is drawn, mm: all the zones of steel and some more, at least the depth and a fifth."""
    reach = [line.tie.length.value for end in found.ends for line in end.lines if line.tie]
    return float(min(max([1.2 * found.beam.outline.depth, *(1.1 * r for r in reach)]), found.beam.length))


def _notes(end: End, units: Units) -> list[str]:
    lines = []
    for line in end.lines:
        tie, word = line.tie, "holds" if line.check.kept else "fails"
        if tie is not None:
            need = "no steel needed" if not line.stirrups else f"needs {stirrups(line, units)}"
            said = f"{quantity(tie.force.value, 'force', units)}, {need}; {word} with those of the file."
        elif line.check.demand.kind == "force":
            demand, resistance = line.check.demand.value, line.check.resistance.value
            said = f"{quantity(demand, 'force', units)} on {quantity(resistance, 'force', units)}; {word}."
        else:
            said = f"{word}."
        title = line.title[:1].upper() + line.title[1:]
        lines += look.wrap(f"{title}: {said}", WIDTH - 2 * MARGIN)
    return lines or ["Nothing could be checked at this end."]


class _Frame:
    """Distances from the face and heights on the panel; both ends are drawn with their face to the left."""

    def __init__(self, depth: float, scale: float) -> None:
        self.depth, self.scale = depth, scale

    def x(self, distance: float) -> float:
        return MARGIN + FORCE_ROOM + distance / self.scale

    def y(self, height: float) -> float:
        return 2.0 + (self.depth - height) / self.scale


def _draw(axes: Axes, found: Ends, end: End, length: float, scale: float, units: Units) -> None:
    from matplotlib.patches import Rectangle

    beam = found.beam
    frame = _Frame(beam.outline.depth, scale)
    low, high = frame.y(0.0), frame.y(beam.outline.depth)
    left, right = frame.x(0.0), frame.x(length)
    axes.add_patch(Rectangle((left, high), right - left, low - high, fc=look.CONCRETE, ec="none", zorder=1))
    for y in (low, high):
        axes.plot([left, right - 0.8], [y, y], color=look.INK, lw=look.MEDIUM, zorder=4)
    axes.plot([left, left], [low, high], color=look.INK, lw=look.HEAVY, zorder=4)
    _break(axes, right, low, high)
    for line in end.lines:
        if line.tie is not None and line.tie.title == "spalling":
            _spalling(axes, frame, line, end.groups)
    _stirrups(axes, frame, found, end.side, length)
    _tendons(axes, frame, found, end.side, length)
    for cluster in end.groups:
        _spread(axes, frame, cluster, length)
        for row in cluster.rows:
            _anchor(axes, frame, row, units)
    _needed(axes, frame, end, length, units)


def _break(axes: Axes, x: float, low: float, high: float) -> None:
    y = np.linspace(high, low, 61)
    edge = x - 0.8 + 0.7 * np.sin((y - high) / 3.0)
    axes.fill_betweenx(y, edge, x + 2.0, color=look.PAPER, lw=0, zorder=5)
    axes.plot(edge, y, color=look.FAINT, lw=look.THIN, zorder=5.5)


def _stirrups(axes: Axes, frame: _Frame, found: Ends, side: Side, length: float) -> None:
    beam = found.beam
    for zone in beam.stirrups:
        bottom, top = stirrup_heights(beam, zone, (zone.x_from + zone.x_to) / 2)
        for x in places.positions(zone):
            s = x if side == "left" else beam.length - x
            if -1e-6 <= s <= length:
                s = max(s, 3.0 * zone.diameter)  # one that stands in the face is put behind its cover
                axes.plot(
                    [frame.x(s)] * 2, [frame.y(float(bottom)), frame.y(float(top))],
                    color=look.BAR, lw=look.MEDIUM, alpha=0.8, zorder=2.5,
                )  # fmt: skip


def _tendons(axes: Axes, frame: _Frame, found: Ends, side: Side, length: float) -> None:
    beam = found.beam
    for tendon in beam.tendons:
        s = np.linspace(max(places.inset(beam, side, tendon), 0.0), length, 80)
        if s[0] >= s[-1]:
            continue
        x = s if side == "left" else beam.length - s
        y = profile.height(tendon.profile, x)
        axes.plot(frame.x(0.0) + s / frame.scale, [frame.y(h) for h in y], color=look.TENDON, lw=look.HEAVY, zorder=3)


def _spread(axes: Axes, frame: _Frame, cluster: Cluster, length: float) -> None:
    """The force spreading at tan β = 2/3 from the edges of the plates to the edges of the symmetric prism."""
    top, bottom = max(r.top for r in cluster.rows), min(r.bottom for r in cluster.rows)
    for edge, way in ((top, 1.0), (bottom, -1.0)):
        target = cluster.y + way * cluster.prism / 2
        run = min(max((target - edge) * way, 0.0) / SPREAD, length)
        end = edge + way * run * SPREAD
        s, y = [frame.x(0), frame.x(run), frame.x(length)], [frame.y(edge), frame.y(end), frame.y(end)]
        axes.plot(s, y, color=look.COMPRESSION, lw=look.THIN, dashes=(5, 3), zorder=3.5)
    # named at the edge that does not lie in the face of the beam
    below = cluster.y - cluster.prism / 2 > 1e-6
    inside = frame.y(cluster.y + (-1.0 if below else 1.0) * cluster.prism / 2) - 1.2
    words = "edge of the symmetric prism"
    axes.text(
        frame.x(length) - 3.0, inside, words, ha="right", zorder=6, bbox=BACK, **look.style(look.FINE, look.COMPRESSION)
    )


def _anchor(axes: Axes, frame: _Frame, row: places.Row, units: Units) -> None:
    from matplotlib.patches import Rectangle

    x, y = frame.x(0.0), frame.y(row.y)
    if row.plate is not None:
        thick, tall = 1.3, frame.y(row.bottom) - frame.y(row.top)
        plate = Rectangle((x - thick, frame.y(row.top)), thick, tall, fc=look.BAR, ec=look.INK, lw=look.THIN, zorder=5)
        axes.add_patch(plate)
    back, slope = 15.0, tan(row.incline)
    axes.annotate(
        "", xy=(x - 1.3, y), xytext=(x - back, y + (back - 1.3) * slope),
        arrowprops={"arrowstyle": "-|>", "color": look.COMPRESSION, "lw": look.HEAVY, "shrinkA": 0, "shrinkB": 0},
    )  # fmt: skip
    label = f"{row.name}: {quantity(row.force, 'force', units)}"
    axes.text(
        x - back + 13.0, y + 0.8 * back * slope - 2.2, label, ha="right", **look.style(look.SMALL, look.COMPRESSION)
    )


def _spalling(axes: Axes, frame: _Frame, line: Line, groups: Sequence[Cluster]) -> None:
    from matplotlib.patches import Rectangle

    assert line.tie is not None
    top = frame.y(frame.depth)
    wide = line.tie.length.value / frame.scale
    band = Rectangle((frame.x(0.0), top), wide, frame.y(0.0) - top, fc=look.TENSION, ec="none", alpha=0.16, zorder=1.5)
    axes.add_patch(band)
    name = "spalling" if wide > look.width("spalling", look.SMALL) + 2.0 else ""
    # clear of the lines from the plates
    low, high = min(c.y for c in groups), max(c.y for c in groups)
    place = frame.y(0.0) - 1.5 if low > frame.depth - high else top + 3.2
    axes.text(
        frame.x(0.0) + wide / 2,
        place,
        name,
        ha="center",
        zorder=6,
        bbox=BACK if name else None,
        **look.style(look.SMALL, look.TENSION),
    )


def _needed(axes: Axes, frame: _Frame, end: End, length: float, units: Units) -> None:
    """Under the beam, a bar as long as each zone with a tick for each stirrup; in it, the force that pulls upright."""
    place = frame.y(0.0) + 4.5
    for line in end.lines:
        tie = line.tie
        if tie is None:
            continue
        reach = min(tie.length.value, length)
        left, right = frame.x(0.0), frame.x(reach)
        axes.plot([left, right], [place, place], color=look.TENSION, lw=look.MEDIUM)
        for s in [tie.length.value * (i + 0.5) / line.stirrups for i in range(min(line.stirrups, 60))]:
            axes.plot([frame.x(s)] * 2, [place - 1.1, place + 1.1], color=look.TENSION, lw=look.MEDIUM)
        for x in (left, right):
            axes.plot([x, x], [place - 1.8, place + 1.8], color=look.FAINT, lw=look.THIN)
        size = quantity(tie.length.value, "length", units)
        axes.text(right + 1.5, place, f"{line.title}: within {size}", va="center", **look.style(look.SMALL, look.FAINT))
        if tie.centre is not None and line.side == "upright" and tie.force.value > 0.0:
            _pull(axes, frame, end, line, units)
        place += BAR_ROOM


def _pull(axes: Axes, frame: _Frame, end: End, line: Line, units: Units) -> None:
    """The bursting force as two arrows that part, at its distance from the face."""
    assert line.tie is not None
    assert line.tie.centre is not None
    cluster = next((c for c in end.groups if f"({c.names})" in line.title), end.groups[0])
    x, y, half = frame.x(line.tie.centre.value), cluster.y, cluster.prism / 3
    for way in (1.0, -1.0):
        axes.annotate(
            "", xy=(x, frame.y(y + way * half)), xytext=(x, frame.y(y + way * half * 0.12)),
            arrowprops={"arrowstyle": "-|>", "color": look.TENSION, "lw": look.HEAVY, "shrinkA": 0, "shrinkB": 0},
            zorder=6,
        )  # fmt: skip
    label = quantity(line.tie.force.value, "force", units)
    axes.text(
        x + 1.5, frame.y(y + 0.55 * half), label, va="center", zorder=7,
        bbox=BACK, **look.style(look.SMALL, look.TENSION),
    )  # fmt: skip

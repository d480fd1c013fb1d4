"""One sheet of the tendons of a beam: how they run, their force along the way, the loads they put on the concrete, and
the moments that follow. All four pictures stand over one another at the same x."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from soffit.member import profile as way
from soffit.show import look, marks
from soffit.show.chart import Array, Chart, ticks
from soffit.show.numbers import THIN, Units, fixed, given, in_unit, quantity, sig, times, unit
from soffit.show.paper import Paper, leading, save
from soffit.show.placing import Ground
from soffit.show.tendonsfacts import Facts, Group
from soffit.show.tendonswords import balance, closing, concordance, place
from soffit.show.view import drawing_scale

Dashes: TypeAlias = tuple[float, tuple[float, ...]]

if TYPE_CHECKING:
    from matplotlib.axes import Axes

WIDTH = 297.0
MARGIN = 12.0
ROOM = WIDTH - 2 * MARGIN
LEFT, RIGHT = 26.0, 46.0
"""Room for scales at the left and for names at the right of the pictures, mm."""
TALLEST = 40.0
"""Height of the drawn concrete, mm, that a vertical exaggeration aims at."""
CHART = 30.0
"""Height of each chart, mm."""
NOTHING = 5.0
"""Room for the words that there are no equivalent loads."""
GAP = 13.0
EQUIVALENT = "Equivalent loads of all tendons"
DASHED = (0, (5, 2.2))
FARTHEST = 0.6
"""How far beyond the concrete the line of thrust is drawn, in depths."""


def tendons_sheet(
    facts: Facts, path_stem: Path, formats: Sequence[str] = ("svg", "png"), units: Units | None = None
) -> list[Path]:
    """Draw the sheet and write it as ``path_stem``.svg, … Returns the paths. ``units``: none: those of the file."""
    units = units or facts.beam.units
    beam = facts.beam
    across = WIDTH - 2 * MARGIN - LEFT - RIGHT
    scale = drawing_scale(beam.length / across)
    exaggerated = _whole(TALLEST / (beam.outline.depth / scale))
    tall = beam.outline.depth / scale * exaggerated
    sentence = closing(facts, units).removeprefix(f"{beam.name}: ")
    sentence = sentence[0].upper() + sentence[1:]
    head = [look.wrap(beam.name, ROOM, look.TITLE, "semibold"), look.wrap(sentence, ROOM, look.LEAD)]
    words = " ".join(filter(None, (concordance(facts, units), balance(facts))))
    foot = [look.wrap(text, ROOM, look.FINE) for text in (words, *facts.notes)]
    top = MARGIN + 4.0 + len(head[0]) * leading(look.TITLE) + len(head[1]) * leading(look.LEAD) + 5.0
    over, under = _beyond(facts)
    first = top + 8.0 + over * tall
    lower = first + tall * (1.0 + under) + 19.0
    loads = CHART if _pushed(facts) else NOTHING
    end = lower + 2 * CHART + loads + 2 * GAP + 12.0
    paper = Paper(WIDTH, max(end + sum(map(len, foot)) * leading(look.FINE) + 4.0 + MARGIN, 210.0))
    y = paper.lines(MARGIN, MARGIN + 4.0, head[0], look.TITLE, weight="semibold") - leading(look.TITLE)
    paper.lines(MARGIN, y + leading(look.LEAD) + 1.5, head[1], look.LEAD)
    width = beam.length / scale
    sheet = _Sheet(facts, units, paper, MARGIN + LEFT + (across - width) / 2, width)
    notes = f"length 1 : {sig(scale, 4).rstrip('0').rstrip('.') if '.' in sig(scale, 4) else sig(scale, 4)} on A4, "
    notes += f"heights {times(exaggerated)}" if exaggerated > 1 else "heights to the same scale"
    paper.text(MARGIN, top + 1.5, "How the tendons run", look.TEXT, weight="semibold")
    paper.text(WIDTH - MARGIN, top + 1.5, notes, look.SMALL, color=look.FAINT, ha="right")
    sheet.elevation(first + 2.0, tall)
    sheet.forces(lower)
    sheet.loads(lower + CHART + GAP)
    sheet.moments(lower + CHART + loads + 2 * GAP)
    y = end
    paper.rule(MARGIN, y - 3.5, ROOM)
    for i, lines in enumerate(foot):
        y = paper.lines(MARGIN, y, lines, look.FINE, color=look.INK if i == 0 else look.FAINT)
    return save(paper.figure, Path(path_stem), formats, f"Tendons of {beam.name}", closing(facts, units))


class _Sheet:
    """The four pictures; x of the beam goes across alike in all."""

    def __init__(self, facts: Facts, units: Units, paper: Paper, left: float, width: float) -> None:
        self.facts, self.units, self.paper = facts, units, paper
        self.left, self.width = left, width
        self.axes: Axes = paper.sheet
        self.length = facts.beam.length

    def across(self, x: Array | float) -> Array:
        return self.left + self.width * np.asarray(x, dtype=float) / self.length

    def verticals(self, top: float, bottom: float) -> None:
        """A thin line through every support and midspan."""
        for name, x in self.facts.places:
            at = [float(self.across(x))] * 2
            dots = (0, ()) if name.startswith("support") else (0, (1, 3))
            self.axes.plot(at, [top, bottom], color=look.FAINT, lw=0.5 * look.THIN, ls=dots, alpha=0.6, zorder=0.5)

    # -- elevation ---------------------------------------------------------------------------------------------------

    def elevation(self, top: float, tall: float) -> None:
        beam, axes, found = self.facts.beam, self.axes, self.facts.moments
        depth = beam.outline.depth

        def down(y: Array | float) -> Array:
            return top + tall * (1.0 - np.asarray(y, dtype=float) / depth)

        ends = self.across(np.array([0.0, self.length]))
        axes.fill_between(ends, down(depth), down(0.0), color=look.CONCRETE, lw=0, zorder=1)
        axes.plot(
            [*ends, *ends[::-1], ends[0]], [float(down(y)) for y in (0, 0, depth, depth, 0)], color=look.INK,
            lw=look.MEDIUM, zorder=3,
        )  # fmt: skip
        axis = beam.outline.centroid
        axes.plot(ends, [float(down(axis))] * 2, color=look.FAINT, lw=look.THIN, ls=(0, (8, 2, 1, 2)), zorder=2)
        ground = Ground((self.left - 12.0, top, self.left + self.width, top + tall))
        ground.keep_clear(ends, [float(down(axis))] * 2)
        for end in ends:
            ground.keep_clear([float(end)] * 2, [top, top + tall])
        labels: list[tuple[float, str, str]] = [(float(down(axis)), "centroid", look.FAINT)]
        for group in self.facts.groups:
            x = _close(group)
            y = down(way.height(group.tendon.profile, x))
            axes.plot(self.across(x), y, color=look.TENDON, lw=look.HEAVY, zorder=5, solid_capstyle="butt")
            labels.append((float(y[-1]), f"{group.name}  {group.tendon.label}", look.TENDON))
            ground.keep_clear(self.across(x), y)
            if group.too_sharp and group.bend is not None:
                low = way.height(group.tendon.profile, np.array([group.bend.x]))
                marks.cross(axes, float(self.across(group.bend.x)), float(down(low)[0]))
                self._note(group.bend.x, top - 1.2, "bent too sharply", look.FAILS)
        if self.facts.redundant and not self.facts.concordant:
            line = np.clip(found.line, -FARTHEST * depth, (1.0 + FARTHEST) * depth)
            axes.plot(self.across(found.x), down(line), color=look.FOCUS, lw=look.MEDIUM, ls=DASHED, zorder=6)
            labels.append((float(down(line[-1])), "line of thrust", look.FOCUS))
        self._names(labels)
        self._ordinates(ground, down)
        self.verticals(top, float(down(0.0)))
        held = beam.supports
        for i, x_held in enumerate(held.x):
            at = float(self.across(x_held))
            if (held.fixed_left and i == 0) or (held.fixed_right and i == len(held.x) - 1):
                self._wall(at, top, float(down(0.0)), -1 if held.fixed_left and i == 0 else 1)
            else:
                self._support(at, float(down(0.0)))

    def _ordinates(self, ground: Ground, down: Callable[[float], Array]) -> None:
        """Heights above the soffit where a tendon has an end, a support, a midspan or a given point."""
        tall = look.FINE / look.POINTS_A_MM
        if len(self.facts.groups) > 3:  # then they are in the table alone
            return
        for group in self.facts.groups:
            level = len({round(o.height, 3) for o in group.ordinates}) == 1
            for i, o in enumerate(group.ordinates):
                at, y = float(self.across(o.x)), float(down(o.height))
                self.axes.plot([at], [y], marker="o", ms=2.4, mfc=look.PAPER, mec=look.TENDON, mew=0.8, zorder=7)
                if level and i != len(group.ordinates) // 2:
                    continue
                words = given(o.height, "length", self.units).split(THIN)[0]
                u, v = ground.place(at, y, look.width(words, look.FINE), tall, reach=8.0)
                style = look.style(look.FINE, look.TENDON)
                self.axes.text(u, v + 0.33 * tall, words, ha="center", va="baseline", zorder=8, **style)
        words = f"heights, {unit('length', self.units)}"
        self.paper.text(self.left - 2.5, float(down(0.0)) + 3.0, words, look.FINE, color=look.TENDON, ha="right")

    def _support(self, at: float, top: float) -> None:
        from matplotlib.patches import Polygon

        corners = [(at, top), (at - 1.7, top + 3.0), (at + 1.7, top + 3.0)]
        self.axes.add_patch(Polygon(corners, fc=look.PAPER, ec=look.INK, lw=look.THIN, zorder=6))

    def _wall(self, at: float, top: float, bottom: float, way_out: int) -> None:
        """A hatched wall, which also holds the turn."""
        self.axes.plot([at, at], [top - 3.0, bottom + 3.0], color=look.INK, lw=look.HEAVY, zorder=6)
        for y in np.arange(top - 1.5, bottom + 3.1, 1.5):
            self.axes.plot([at, at + way_out * 1.5], [y, y - 1.5], color=look.FAINT, lw=look.THIN, zorder=2)

    def _names(self, labels: Sequence[tuple[float, str, str]], left: float | None = None) -> None:
        """Names at the right end of lines, moved apart where they would meet."""
        at = self.left + self.width + 2.0 if left is None else left
        last = -1e9
        for y, words, color in sorted(labels):
            y = max(y, last + leading(look.SMALL))
            last = y
            text = look.clip(words, WIDTH - MARGIN - at, look.SMALL)
            self.axes.text(at, y + 0.8, text, ha="left", va="baseline", zorder=8, **look.style(look.SMALL, color))

    def _note(self, x: float, y: float, words: str, color: str) -> None:
        half = look.width(words, look.SMALL, "semibold") / 2
        at = min(max(float(self.across(x)), MARGIN + half), WIDTH - MARGIN - half)
        self.axes.text(at, y, words, ha="center", va="baseline", **look.style(look.SMALL, color, "semibold"))

    # -- charts ------------------------------------------------------------------------------------------------------

    def _chart(self, top: float, title: str, low: float, high: float) -> Chart:
        """A frame with its scale at the left; ``low`` and ``high`` are the values at the bottom and the top."""
        chart = Chart(self.left, top, self.width, CHART, 0.0, self.length, low, high)
        self.paper.text(MARGIN, top - 3.4, title, look.TEXT, weight="semibold")
        self.verticals(top, top + CHART)
        values = ticks(min(low, high), max(low, high), 4)
        places = next((p for p in range(4) if all(abs(round(v, p) - v) < 1e-9 * (1.0 + abs(v)) for v in values)), 4)
        for value in values:
            y = float(chart.down(value))
            strong = value == 0.0
            self.axes.plot(
                [self.left, self.left + self.width], [y, y], color=look.INK if strong else look.FAINT,
                lw=look.THIN if strong else 0.5 * look.THIN, alpha=0.9 if strong else 0.4, zorder=1,
            )  # fmt: skip
            words = fixed(value, places)
            style = look.style(look.SMALL, look.FAINT)
            self.axes.text(self.left - 1.5, y + 0.8, words, ha="right", va="baseline", **style)
        return chart

    def forces(self, top: float) -> None:
        """Force of each group: after friction alone, after draw-in too, and as it acts."""
        force = in_unit(1.0, "force", self.units)
        high = max(float(np.max(g.along.force)) for g in self.facts.groups)
        low = min(float(np.min(g.along.force)) for g in self.facts.groups)
        for g in self.facts.groups:
            if g.jacked is not None:
                high = max(high, g.tendon.area * float(np.max(g.jacked.before)))
                low = min(low, g.tendon.area * float(np.min(g.jacked.stress)))
        # from zero, unless the variation would be lost
        bottom = 0.0 if low < 0.6 * high else max(low - 0.6 * (high - low), 0.0)
        if high - low < 0.02 * high:
            bottom = 0.0
        high = high or 1.0 / force  # not stressed: a scale all the same
        room = 0.12 * (high - bottom)
        title = f"Force of each group along it, {unit('force', self.units)}"
        chart = self._chart(top, title, force * bottom, force * (high + room))
        labels = []
        for g in self.facts.groups:
            x = self.across(g.along.x)
            self.axes.plot(x, chart.down(force * g.along.force), color=look.TENDON, lw=look.HEAVY, zorder=5)
            acts = "as it acts" if g.jacked is not None or g.bed is not None else "effective"
            if g.along.force[-1] > 0.05 * np.max(g.along.force):
                labels.append((float(chart.down(force * g.along.force[-1])), f"{g.name}  {acts}", look.TENDON))
            else:  # the names of tendons that end in bond would all stand at zero
                at = g.tendon.x_from + 0.62 * (g.tendon.x_to - g.tendon.x_from)
                over = float(chart.down(force * g.along.at(np.array([at]))[0])) - 1.4
                style = look.style(look.SMALL, look.TENDON)
                self.axes.text(float(self.across(at)), over, f"{g.name}  {acts}", va="baseline", zorder=8, **style)
            if g.jacked is None:
                continue
            for values, words, dots in (
                (g.jacked.before, "after friction", DASHED),
                (g.jacked.stress, "draw-in", (0, ())),
            ):
                y = chart.down(force * g.tendon.area * values)
                self.axes.plot(self.across(g.jacked.x), y, color=look.TENDON, lw=look.THIN, ls=dots, zorder=4)
                labels.append((float(y[-1]), f"{g.name}  {words if words[0] == 'a' else 'after draw-in'}", look.TENDON))
        self._names(_merged(labels))

    def loads(self, top: float) -> None:
        """Equivalent loads of all groups together: an area for what is spread, arrows for what is concentrated."""
        if not _pushed(self.facts):
            self._nothing(top)
            return
        groups = self.facts.groups
        x = np.unique(np.concatenate([g.loads.x for g in groups]))
        middle = 0.5 * (x[1:] + x[:-1])
        up = np.zeros_like(middle)
        for g in groups:
            i = np.clip(np.searchsorted(g.loads.x, middle) - 1, 0, len(g.loads.up) - 1)
            inside = (middle > g.loads.x[0]) & (middle < g.loads.x[-1])
            up += np.where(inside, g.loads.up[i], 0.0)
        each = in_unit(1.0, "line load", self.units)
        low, high = min(float(up.min(initial=0.0)), 0.0) * each, max(float(up.max(initial=0.0)), 0.0) * each
        points: dict[float, float] = {}
        for g in groups:
            for p in g.loads.points:
                points[round(p.x, 3)] = points.get(round(p.x, 3), 0.0) + p.up
        # an arrow needs room on its side of zero
        if max(points.values(), default=0.0) > 0.0:
            high = max(high, -0.45 * low)
        if min(points.values(), default=0.0) < 0.0:
            low = min(low, -0.45 * high)
        spread = high - low
        if spread < 1e-6:
            low, high, spread = -1.0, 1.0, 2.0
        title = f"{EQUIVALENT}, {unit('line load', self.units)} upward, and forces of anchors and kinks"
        chart = self._chart(top, title, low - 0.16 * spread, high + 0.16 * spread)
        steps_x, steps_y = np.repeat(x, 2)[1:-1], np.repeat(up * each, 2)
        zero = float(chart.down(0.0))
        y = chart.down(steps_y)
        self.axes.fill_between(self.across(steps_x), y, zero, color=look.TENDON, alpha=0.18, lw=0, zorder=2)
        self.axes.plot(self.across(steps_x), y, color=look.TENDON, lw=look.MEDIUM, zorder=4)
        most = max((abs(v) for v in points.values()), default=0.0)
        for at, value in points.items():
            if abs(value) < 1e-6 * max(most, 1.0):
                continue
            tip = zero - 7.0 if value > 0 else zero + 7.0
            marks.arrow(self.axes, float(self.across(at)), zero, tip, look.TENDON, look.MEDIUM, head=2.0)
            words = quantity(value, "force", self.units)
            side = -1 if at > 0.5 * self.length else 1
            self.axes.text(
                float(self.across(at)) + 1.2 * side, tip + (0.0 if value > 0 else 0.6), words,
                ha="left" if side > 0 else "right", va="baseline", zorder=8, **look.style(look.SMALL, look.TENDON),
            )  # fmt: skip

    def _nothing(self, top: float) -> None:
        self.paper.text(MARGIN, top - 3.4, EQUIVALENT, look.TEXT, weight="semibold")
        words = "None: straight tendons push nowhere up or down."
        self.paper.text(self.left, top + 2.5, words, look.TEXT, color=look.FAINT)

    def moments(self, top: float) -> None:
        """Primary, secondary and total, sagging downward."""
        found, moment = self.facts.moments, in_unit(1.0, "moment", self.units)
        rows: list[tuple[Array, str, float, Dashes]] = [(found.primary, "primary", look.HEAVY, (0, ()))]
        if self.facts.redundant:
            rows = [
                (found.primary, "primary", look.MEDIUM, (0, (1.2, 1.2))),
                (found.secondary, "secondary", look.MEDIUM, DASHED),
                (found.total, "total", look.HEAVY, (0, ())),
            ]
        high = max(float(v.max()) for v, *_ in rows) * moment
        low = min(float(v.min()) for v, *_ in rows) * moment
        high = high if high > low else 1.0
        room = 0.08 * (high - low)
        title = f"Moments of the tendons, {unit('moment', self.units)}, sagging downward"
        chart = self._chart(top, title, max(high, 0.0) + room, min(low, 0.0) - room)
        ground = Ground((self.left + 1.0, top - 2.0, self.left + self.width + RIGHT - 4.0, top + CHART + 2.0))
        for values, _, weight, dots in rows:
            y = chart.down(moment * values)
            self.axes.plot(self.across(found.x), y, color=look.INK, lw=weight, ls=dots, zorder=4)
            ground.keep_clear(self.across(found.x), y)
        ground.keep_clear([self.left, self.left + self.width], [float(chart.down(0.0))] * 2)
        for values, name, _, _ in reversed(rows):
            i = int(np.argmax(np.abs(values)))
            if abs(values[i]) <= 0.01 * max(abs(high), abs(low)) / moment:
                continue
            words, strong = f"{name} {quantity(float(values[i]), 'moment', self.units)}", name == "total"
            tall = look.SMALL / look.POINTS_A_MM
            at = float(self.across(found.x[i])), float(chart.down(moment * values[i]))
            wide = look.width(words, look.SMALL, "semibold" if strong else "normal")
            u, v = ground.place(*at, wide, tall)
            end = min(max(at[0], u - wide / 2), u + wide / 2), v + (tall / 2 if v < at[1] else -tall / 2)
            if np.hypot(end[0] - at[0], end[1] - at[1]) > 3.0:
                self.axes.plot([at[0], end[0]], [at[1], end[1]], color=look.INK, lw=look.THIN, zorder=5)
            style = look.style(look.SMALL, look.INK, "semibold" if strong else "normal")
            self.axes.text(u, v + 0.33 * tall, words, ha="center", va="baseline", zorder=8, **style)
        bottom = top + CHART + 6.0
        held = [0.0, *self.facts.beam.supports.x, self.length]
        places = sorted(set(held))
        texts = [place(b - a, self.facts, self.units) for a, b in pairwise(places)]
        marks.dimensions(self.axes, [float(self.across(x)) for x in places], bottom, texts)


def _whole(largest: float) -> float:
    """The largest round factor that is not above ``largest``; at least 1."""
    return max((m * 10.0**p for p in range(4) for m in (1, 2, 3, 4, 5, 6, 8) if m * 10.0**p <= largest), default=1.0)


def _beyond(facts: Facts) -> tuple[float, float]:
    """How far the line of thrust runs above and below the concrete, in depths."""
    if not facts.redundant or facts.concordant:
        return 0.0, 0.0
    line = facts.moments.line / facts.beam.outline.depth
    return (
        float(np.clip(np.nanmax(line, initial=1.0) - 1.0, 0.0, FARTHEST)),
        float(np.clip(-np.nanmin(line, initial=0.0), 0.0, FARTHEST)),
    )


def _pushed(facts: Facts) -> bool:
    """Whether any tendon pushes up or down somewhere."""
    size = max(float(np.max(g.along.force)) for g in facts.groups)
    spread = (float(np.max(np.abs(g.loads.up), initial=0.0)) * facts.beam.length for g in facts.groups)
    points = (abs(p.up) for g in facts.groups for p in g.loads.points)
    return max([*spread, *points], default=0.0) > 1e-6 * size


def _close(group: Group) -> Array:
    """Places along a tendon close enough to draw it, with the ends of its pieces."""
    t = group.tendon
    return np.unique(np.concatenate([np.linspace(t.x_from, t.x_to, 361), way.breaks(t.profile)]))


def _merged(labels: list[tuple[float, str, str]]) -> list[tuple[float, str, str]]:
    """One name for lines that end at one place."""
    found: list[tuple[float, str, str]] = []
    for y, words, color in sorted(labels):
        if found and abs(found[-1][0] - y) < 0.6:
            group, what = words.split("  ", 1)
            found[-1] = (found[-1][0], f"{found[-1][1]}, {what if found[-1][1].startswith(group) else words}", color)
        else:
            found.append((y, words, color))
    return found

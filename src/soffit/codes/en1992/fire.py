"""Resistance to a standard fire by the tables of EN 1992-1-2:2004 5.6; *from memory*.

Least width and mean axis distance, with the distance at the sides, the web of I sections, prestressing steel and beams
heated on four sides.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import inf

import numpy as np

from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found
from soffit.codes.working import Check, Pen, Symbol, Unchecked, Working, given

PEN = Pen("EN 1992-1-2:2004")
Row = tuple[tuple[float, float], ...]
SIMPLE: dict[int, Row] = {
    30: ((80, 25), (120, 20), (160, 15), (200, 15)),
    60: ((120, 40), (160, 35), (200, 30), (300, 25)),
    90: ((150, 55), (200, 45), (300, 40), (400, 35)),
    120: ((200, 65), (240, 60), (300, 55), (500, 50)),
    180: ((240, 80), (300, 70), (400, 65), (600, 60)),
    240: ((280, 90), (350, 80), (500, 75), (700, 70)),
}
"""Pairs of bmin and a, mm, of simply supported beams, Table 5.5."""
CONTINUOUS: dict[int, Row] = {
    30: ((80, 15), (160, 12)),
    60: ((120, 25), (200, 12)),
    90: ((150, 35), (250, 25)),
    120: ((200, 45), (300, 35), (450, 35), (500, 30)),
    180: ((240, 60), (400, 50), (550, 50), (600, 40)),
    240: ((280, 75), (500, 60), (650, 60), (700, 50)),
}
"""The same of continuous beams, Table 5.6."""
WEB: dict[int, float] = {30: 80, 60: 100, 90: 110, 120: 130, 180: 150, 240: 170}
"""Least web bw, mm, class WA, Table 5.5."""
WIDE_ENOUGH: dict[int, float] = {30: 160, 60: 200, 90: 300, 120: 300, 180: 400, 240: 500}
"""Width of column 4 of Table 5.5, from which corner bars need no more at the side, note to the table (asd = a + 10)."""
COLDER = {"bar": 10.0, "strand": 15.0}
"""mm that prestressing bars, and strand and wire, want beyond, 5.2 (5): critical at 400 °C and 350 °C."""


def fire(design: Design) -> Found:
    minutes = design.choices.fire
    if minutes is None:
        return
    if minutes not in SIMPLE:
        known = ", ".join(str(m) for m in SIMPLE)
        why = f"the tables are for {known} minutes, not for {minutes}"
        yield Unchecked("fire", why, PEN.cite("5.6"), "fire", scope=True)
        return
    if design.strength > 50.0 + 1e-9:
        why = f"fck of {design.strength:.0f} MPa lies above C50/60, for which section 6 has other rules than the tables"
        yield Unchecked("fire", why, PEN.cite("6.1"), "fire", scope=True)
        return
    if design.beam.outline.shape in ("circle", "outline", "box"):
        yield Unchecked("fire", "Figure 5.4 has rectangles, I sections and tapered webs, not this outline",
                        PEN.cite("5.6.1"), "fire", scope=True)  # fmt: skip
        return
    yield from _width(design, minutes)
    yield from _axis(design, minutes)
    yield from _web(design, minutes)


def _continuous(design: Design) -> bool:
    """Table 5.6 wants moments that are redistributed by no more than 15 %, 5.6.3 (1)."""
    held = design.beam.supports
    if design.choices.redistribution > 0.15:
        return False
    return len(held.x) > 2 or (len(held.x) == 2 and (held.fixed_left or held.fixed_right))


def _table(design: Design, minutes: int) -> tuple[Row, str]:
    return (CONTINUOUS[minutes], "Table 5.6") if _continuous(design) else (SIMPLE[minutes], "Table 5.5")


def _width_at(design: Design) -> float:
    """b at the centroid of the steel in tension, Figure 5.4."""
    cut = _middle(design)
    low = cut.h - cut.d if cut.sagging else cut.d
    return design.beam.outline.width(max(low, 1e-6)) or design.beam.outline.web_width


def _middle(design: Design) -> Cut:
    moments = design.actions.envelope("ultimate").sagging
    if float(np.max(moments)) > 0.0:
        x = max(design.places, key=lambda p: float(np.interp(p, design.actions.x, moments)))
        return design.cut(x)
    x = max(
        design.places, key=lambda p: float(np.interp(p, design.actions.x, design.actions.envelope("ultimate").hogging))
    )
    return design.cut(x, sagging=False)


def _width(design: Design, minutes: int) -> Iterator[Check]:
    row, table = _table(design, minutes)
    width = given("b", "width at the steel in tension", _width_at(design), "length")
    least = given("bmin", f"least width, R {minutes}, {table}", row[0][0], "length")
    workings: tuple[Working, ...] = (width, least)
    if design.choices.fire_sides == "four sides":
        need = PEN("Amin", "least area, heated on all sides", "2·bmin^2", (least,), "area", "5.6.4")
        have = given("A", "area of the section", design.beam.outline.area, "area")
        title = "fire, area heated on four sides"
        yield Check(title, PEN.cite("5.6.4"), need, have, (least, need, have), key="fire-area", state="detailing")
    yield Check(f"fire R {minutes}, width", PEN.cite(table), least, width, workings, _said(design), key="fire-width",
                state="detailing")  # fmt: skip


def _needed(row: Row, width: float) -> float:
    """a at a width, straight between the columns; beyond the last its own."""
    if width < row[0][0]:
        return inf
    return float(np.interp(width, [b for b, _ in row], [a for _, a in row]))


def _axis(design: Design, minutes: int) -> Iterator[Check]:
    row, table = _table(design, minutes)
    b = _width_at(design)
    wanted = _needed(row, max(b, row[0][0]))
    cut = _middle(design)
    steel: list[tuple[float, float, float, str]] = []
    edge = [(bar.area, cut.h - bar.depth, 0.0, bar.group.label) for bar in cut.tension_bars]
    cold = [
        (
            t.area,
            cut.h - t.depth,
            COLDER["strand" if t.group.steel.kind == "strand" else "bar"],
            f"tendon {t.group.name}",
        )
        for t in cut.tension_tendons
    ]
    steel = [*edge, *cold]
    if not steel:
        return
    total = sum(area for area, *_ in steel)
    symbols: list[Symbol] = []
    terms = []
    for i, (area, axis, _, name) in enumerate(steel):
        symbols += [
            Symbol(f"A{i + 1}", area, "area", name),
            Symbol(f"a{i + 1}", axis, "length", f"axis distance of {name}"),
        ]
        terms.append(f"A{i + 1}·a{i + 1}")
    below = " + ".join(f"A{i + 1}" for i in range(len(steel)))
    mean = PEN("am", "mean axis distance", f"({' + '.join(terms)})/({below})", tuple(symbols), "length", "(5.5)")
    extra = sum(area * more for area, _, more, _ in steel) / total
    base = Symbol("a", wanted, "length", f"R {minutes} at b = {b:.0f} mm, {table}, straight between its columns")
    add = Symbol("Δa", extra, "length", "for prestressing steel, by area, 5.2 (5)")
    need = PEN("a,need", "axis distance wanted", "a + Δa", (base, add), "length", "5.2 (5)")
    yield Check(f"fire R {minutes}, axis distance", PEN.cite(table), need, mean, (mean, need), _said(design),
                key="fire-axis", x=cut.x, state="detailing")  # fmt: skip
    if b <= WIDE_ENOUGH[minutes] and len({round(axis) for _, axis, *_ in steel}) == 1:
        side = min(axis for _, axis, *_ in steel)
        asd = PEN("asd", "distance of corner bars to the side, one layer", "a + 10", (base,), "length", table)
        has = given("as", "distance to the side, taken as that to the face", side, "length")
        yield Check(f"fire R {minutes}, distance to the side", PEN.cite(table), asd, has, (asd, has), _said(design),
                    key="fire-side", x=cut.x, state="detailing")  # fmt: skip


def _web(design: Design, minutes: int) -> Iterator[Check]:
    outline = design.beam.outline
    if outline.shape not in ("i", "inverted-tee"):
        return
    web = given("bw", "web", outline.web_width, "length")
    least = given("bw,min", f"least web, R {minutes}, class WA, Table 5.5", WEB[minutes], "length")
    where = PEN.cite("Table 5.5")
    yield Check(f"fire R {minutes}, web", where, least, web, (least, web), _said(design), key="fire-web",
                state="detailing")  # fmt: skip
    _, deep = _middle(design).tension_flange
    if deep:
        reach = given("deff", "effective depth of the heated flange, half of its taper counted", deep, "length")
        bmin = given("bmin", f"least width, R {minutes}", _table(design, minutes)[0][0][0], "length")
        yield Check(f"fire R {minutes}, flange", PEN.cite("(5.11)"), bmin, reach, (bmin, reach), _said(design),
                    key="fire-flange", state="detailing")  # fmt: skip


def _said(design: Design) -> tuple[str, ...]:
    sides = "four sides" if design.choices.fire_sides == "four sides" else "three sides, the slab above it being sound"
    return (
        f"Heated on {sides}; the tables stand for steel that is stressed to 0.6 of its strength in the fire (5.2).",
        *(("The rules of 5.6.3 (2), (3) for steel over supports are not checked.",) if _continuous(design) else ()),
    )


ENTRIES: tuple[Entry, ...] = (
    Entry("fire", "resistance to fire", "EN 1992-1-2 Tables 5.5, 5.6",
          "Width, axis distance, distance to the side and web against the tables of EN 1992-1-2.", fire),
)  # fmt: skip

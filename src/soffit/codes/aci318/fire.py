"""Cover and width of beams in a standard fire, ACI 216.1 (TMS 0216.1), the tables of cover; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import inf

import numpy as np

from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found
from soffit.codes.working import Check, Pen, Symbol, Unchecked, Working, given

PEN = Pen("ACI 216.1-14", "psi")
HOURS = (60, 90, 120, 180, 240)
Rows = tuple[tuple[float, tuple[float, ...]], ...]
BARS: dict[str, Rows] = {
    "unrestrained": (
        (5.0, (0.75, 1.0, 1.25, inf, inf)), (7.0, (0.75, 0.75, 0.75, 1.75, 3.0)), (10.0, (0.75, 0.75, 0.75, 1.0, 1.75)),
    ),
    "restrained": (
        (5.0, (0.75, 0.75, 0.75, 1.0, 1.25)), (7.0, (0.75, 0.75, 0.75, 0.75, 0.75)), (10.0, (0.75,) * 5),
    ),
}  # fmt: skip
"""Width and cover, in, of beams with bars, for 1, 1½, 2, 3, 4 hours."""
STRAND: dict[str, Rows] = {
    "unrestrained": ((8.0, (1.5, 1.75, 2.5, 5.0, inf)), (12.0, (1.5, 1.5, 1.875, 2.5, 3.0))),
    "restrained": ((8.0, (1.5, 1.5, 1.5, 1.75, 2.5)), (12.0, (1.5, 1.5, 1.5, 1.5, 1.875))),
}
"""The same of prestressed beams with carbonate or siliceous aggregate."""
INCH = 25.4


def fire(design: Design) -> Found:
    minutes = design.choices.fire
    if minutes is None:
        return
    if minutes > HOURS[-1]:
        yield Unchecked(
            "fire", f"the tables end at 240 minutes, before {minutes}", PEN.cite("tables of cover"), "fire", scope=True
        )
        return
    if design.choices.fire_sides == "four sides":
        yield Unchecked("fire", "the tables are for beams heated on three sides, not on four",
                        PEN.cite("tables of cover"), "fire", scope=True)  # fmt: skip
        return
    cut = _middle(design)
    if cut is None:
        yield Unchecked("fire", "the tables are for steel at the soffit, and none is in tension there",
                        PEN.cite("tables of cover"), "fire", scope=True)  # fmt: skip
        return
    yield from _check(design, cut, minutes)


def _middle(design: Design) -> Cut | None:
    """Where the beam sags most; none where it does not, or no steel stands low there."""
    moments = design.actions.envelope("ultimate").sagging
    if float(np.max(moments)) <= 0.0:
        return None
    x = max(design.places, key=lambda p: float(np.interp(p, design.actions.x, moments)))
    cut = design.cut(x)
    return cut if cut.tension_bars or cut.tension_tendons else None


def least(rows: Rows, width: float, minutes: int) -> float:
    """Cover, in, for a width, in; straight between widths, infinite below the least. Minutes between columns as the
    next longer."""
    column = next(i for i, m in enumerate(HOURS) if minutes <= m)
    if width < rows[0][0] - 1e-9:
        return inf
    for (w0, c0), (w1, c1) in pairwise(rows):
        if width < w1:
            if not (np.isfinite(c0[column]) and np.isfinite(c1[column])):
                return inf
            return c0[column] + (c1[column] - c0[column]) * (width - w0) / (w1 - w0)
    return rows[-1][1][column]


def _check(design: Design, cut: Cut, minutes: int) -> Iterator[Check]:
    stressed = any(t.stress > 0.0 for t in cut.tension_tendons)
    table = STRAND if stressed else BARS
    where = "table of cover of prestressed beams" if stressed else "table of cover of beams with bars"
    steel: list[tuple[float, float, str]] = [
        (b.area, cut.h - b.depth - 0.5 * b.group.diameter, b.group.label or "bars") for b in cut.tension_bars
    ]
    steel += [
        (t.area, cut.h - t.depth - 0.5 * max(t.group.diameter, t.group.duct), t.group.label or "tendon")
        for t in cut.tension_tendons
    ]
    symbols: list[Symbol] = []
    for i, (area, cover, name) in enumerate(steel, start=1):
        symbols += [Symbol(f"A{i}", area, "area", name), Symbol(f"c{i}", max(cover, 0.0), "length", f"cover of {name}")]
    over = " + ".join(f"A{i}·c{i}" for i in range(1, len(steel) + 1))
    under = " + ".join(f"A{i}" for i in range(1, len(steel) + 1))
    mean = PEN(
        "c", "mean cover of the steel, by area", f"({over})/({under})", tuple(symbols), "length", "tables of cover"
    )
    low = max(cut.h - cut.d, 1e-6)
    wide = design.beam.outline.width(low) or design.beam.outline.web_width
    width = given("b", "width at the steel in tension", wide, "length", "psi")
    hours = next(m for m in HOURS if minutes <= m) / 60.0
    kind = "prestressed" if stressed else "with bars"
    narrow = Symbol("b0", table["unrestrained"][0][0] * INCH, "length", "least width of the table")
    need: list[Working] = [PEN("bmin", f"least width, beam {kind}, {hours:g} h", "b0", (narrow,), "length", where)]
    said = (
        "Unrestrained against its expansion, heated on three sides"
        + (", carbonate or siliceous aggregate." if stressed else "."),
        "Minutes between the columns of the table count as the next longer; covers between widths are straight.",
    )
    yield Check(f"fire {minutes} min, width", PEN.cite(where), need[0], width, (width, need[0]), said, "fire-width",
                cut.x, "", "detailing")  # fmt: skip
    for restraint, state in (("unrestrained", "detailing"), ("restrained", "information")):
        found = least(table[restraint], wide / INCH, minutes)
        if not np.isfinite(found):
            continue
        text = Symbol("c0", found * INCH, "length", f"cover for b = {wide:.0f} mm and {hours:g} h, {restraint}")
        cmin = PEN("cmin", f"least cover, {restraint}", "c0", (text,), "length", where)
        more = said if restraint == "unrestrained" else ("For a beam that its neighbours restrain.", said[1])
        key = "fire-cover" if restraint == "unrestrained" else "fire-cover-restrained"
        yield Check(f"fire {minutes} min, cover, {restraint}", PEN.cite(where), cmin, mean, (width, mean, cmin), more,
                    key, cut.x, "", state)  # fmt: skip


def run(design: Design) -> Found:
    found = list(fire(design))
    yield from found
    if not found or not isinstance(found[0], Check):
        return
    if not any(isinstance(c, Check) and c.key == "fire-cover" for c in found):
        yield Unchecked(
            "cover in fire", "the table gives no cover for this width and time, unrestrained: the beam is too narrow",
            PEN.cite("tables of cover"), "fire", scope=True,
        )  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("fire", "resistance to fire", "ACI 216.1", "Width and mean cover against the tables of ACI 216.1.", run),
)

"""Laps of bars by EN 1992-1-1:2004 8.7; *from memory*. The file gives the share lapped and where, not the length."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.cut import BarsAt
from soffit.codes.design import Design, Entry, Found
from soffit.codes.en1992 import bond, service
from soffit.codes.working import Check, Symbol, Unchecked, Working, given

THICK = 32.0
"""mm, above which bars should not be lapped, 8.8 (4)."""


def length(design: Design, bar: BarsAt, share: float) -> tuple[tuple[Working, ...], Working]:
    """l0, (8.10), for the full strength: α4 is no part of it, and α6 counts the bars lapped within 0.65 l0."""
    pen = design.pen
    straight = bond.straightened(bar.group)
    found = bond.length(design, straight, "left")
    named = {w.name: w for w in found.workings}
    rho = Symbol("ρ1", 100.0 * share, "ratio", "bars lapped within 0.65·l0 of the middle, %")
    a6 = pen("α6", "share lapped", "min(1.5, max(1, √(ρ1/25)))", (rho,), "ratio", "8.7.3 (1)")
    d = Symbol("φ", bar.group.diameter, "length", "diameter of the bar")
    least = pen("l0,min", "least lap", "max(0.3·α6·lb,rqd, 15·φ, 200)", (a6, found.basic, d), "length", "(8.11)")
    parts = (named["α2"], named["α3"], named["α5"])
    lap = pen("l0", "lap, straight bars", "max(α2·α3·α5·α6·lb,rqd, l0,min)", (*parts, a6, found.basic, least),
              "length", "(8.10)")  # fmt: skip
    kept = [w for w in found.workings if w.name not in ("α235", "lbd0", "lbd", "lb,min", "lb,eq", "lb,eq0")]
    return (*kept, a6, least, lap), lap


def laps(design: Design) -> Found:
    """The lap that each place needs against what room there is, and whether it lies where bars are little stressed."""
    share = design.choices.laps
    if share is None:
        return
    pen = design.pen
    places = design.choices.lap_at
    if not places:
        yield Unchecked(
            "laps", "the file says how many bars are lapped, but not where (lap_at)", pen.cite("8.7"), "laps"
        )
        return
    for at in places:
        yield from _at(design, at, share)


def _at(design: Design, at: float, share: float) -> Iterator[Check | Unchecked]:
    pen = design.pen
    cut = design.cut(min(max(at, 0.0), design.beam.length))
    if not cut.bars:
        yield Unchecked("laps", f"no bars run at {at:.0f} mm, where a lap is to be", pen.cite("8.7"), "laps")
        return
    for bar in cut.bars:
        if bar.group.diameter > THICK:
            yield Unchecked("laps", f"{bar.group.label} are thicker than 32 mm and should not be lapped",
                            pen.cite("8.8 (4)"), "laps", scope=True)  # fmt: skip
            continue
        if not bond.bonded(bar.group):
            yield Unchecked("laps", "3.2.2 and 8.7 are for ribbed bars", pen.cite("3.2.2"), "laps", scope=True)
            continue
        workings, lap = length(design, bar, share)
        room = given("lroom", "twice the way from the middle of the lap to the nearer end of the bars",
                     2.0 * max(min(bar.left, bar.right), 0.0), "length")  # fmt: skip
        yield Check(
            f"lap of {bar.group.label}", pen.cite("8.7.3"), lap, room, (*workings, room),
            _said(design, at, share),
            key=f"laps-{bar.index + 1}", x=at, state="detailing",
        )  # fmt: skip


def _said(design: Design, at: float, share: float) -> tuple[str, ...]:
    first = f"{100.0 * share:.0f} % of the bars are lapped in one place; the file gives no length of laps: build l0."
    return (first, *_moderate(design, at))


def _moderate(design: Design, at: float) -> tuple[str, ...]:
    """8.7.2 (2): laps should not lie where moments are great."""
    envelope = design.actions.envelope("ultimate")
    here = max(float(np.interp(at, design.actions.x, m)) for m in (envelope.sagging, envelope.hogging))
    most = max(float(np.max(envelope.sagging)), float(np.max(envelope.hogging)))
    part = here / most if most else 0.0
    if part <= 0.5:
        return ()
    return (f"There the moment is {100.0 * part:.0f} % of the greatest: 8.7.2 (2) wants laps away from great moments.",)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "laps",
        "laps",
        "8.7.3",
        "The lap length that the bars need against the room that they have.",
        service.of_steel("laps", laps),
    ),
)

"""Laps of bars in tension by ACI 318-19 25.5.2; *from memory*. The file gives the share lapped and where, no length."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.aci318 import development, values
from soffit.codes.aci318.nominal import moment
from soffit.codes.cut import BarsAt, Cut
from soffit.codes.design import Design, Entry, Found, bending
from soffit.codes.working import Check, Unchecked, given

THICKEST = 36.5
"""No. 11 (36 mm): thicker bars must not be lapped, 25.5.1.1."""


def laps(design: Design) -> Found:
    share = design.choices.laps
    if share is None:
        return
    pen = design.pen
    if not design.choices.lap_at:
        why = "the file says how many bars are lapped, but not where (lap_at)"
        yield Unchecked("laps", why, pen.cite("25.5.2"), "laps")
    for at in design.choices.lap_at:
        cut = design.cut(min(max(at, 0.0), design.beam.length))
        if not cut.bars:
            yield Unchecked("laps", f"no bars run at {at:.0f} mm, where a lap is to be", pen.cite("25.5.2"), "laps")
        for bar in cut.bars:
            yield from _lap(design, cut, bar, share)


def _lap(design: Design, cut: Cut, bar: BarsAt, share: float) -> Iterator[Check | Unchecked]:
    pen, e, group = design.pen, values.of(design), bar.group
    name = group.label or "the bars"
    if group.diameter > THICKEST:
        yield Unchecked("laps", f"{name} are thicker than No. 11 (36 mm) and must not be lapped",
                        pen.cite("25.5.1.1"), "laps", scope=True)  # fmt: skip
        return
    # a lap is between straight ends, wherever the group itself ends
    found = development.development(design, group, "left", straight=True)
    if found is None:
        yield Unchecked("laps", f"25.4 gives no development length for {name}", pen.cite("25.4.2"), "laps", scope=True)
        return
    ratio, demand = _plenty(design, cut, bar)
    lenient = ratio >= 2.0 and share <= 0.5 + 1e-9
    factor = "1.0" if lenient else "1.3"
    which = (
        f"Class A: {100 * share:.0f} % lapped and As,provided/As,required = {min(ratio, 99.0):.2f} ≥ 2" if lenient
        else f"Class B: {100 * share:.0f} % lapped, As,provided/As,required = {min(ratio, 99.0):.2f}"
    )  # fmt: skip
    # the least is that of the lap: ℓd goes in without its own (25.5.1.4 with 25.4.2.1 (a))
    lap = pen("ℓst", f"lap, {which}", e.pick(f"max({factor}·ℓd,0, 12)", f"max({factor}·ℓd,0, 300)"), (found.uncut,),
              "length", "Table 25.5.2.1")  # fmt: skip
    room = given("ℓroom", "twice the way from the middle of the lap to the nearer end of the bars",
                 2.0 * max(min(bar.left, bar.right), 0.0), "length")  # fmt: skip
    yield Check(
        f"lap of {name}", pen.cite("25.5.2.1"), lap, room, (*found.workings[:-1], lap, room),
        (
            "The file gives no length of laps: build the one named here.",
            "As,provided/As,required is taken as φMn/Mu with φ = 0.90, on the safe side.",
        ),
        f"laps-{bar.index + 1}", cut.x, demand, "detailing",
    )  # fmt: skip


def _plenty(design: Design, cut: Cut, bar: BarsAt) -> tuple[float, str]:
    """φMn/Mu of the face in which a group lies, at the lap; and the combination of Mu."""
    sagging = bar.depth > 0.5 * cut.h
    there = cut if sagging else design.cut(cut.x, sagging=False)
    envelope = design.actions.envelope("ultimate")
    mu = float(np.interp(cut.x, design.actions.x, envelope.sagging if sagging else envelope.hogging))
    strength = 0.90 * moment(design, there, there.tension_bars)
    if mu <= 1e-9 * strength:
        return 99.0, ""
    return strength / mu, design.actions.at("ultimate", bending(sagging), cut.x, "Mu").combination


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "laps", "laps", "25.5.2", "The lap that bars in tension need, class A or B, against the room there is.", laps
    ),
)

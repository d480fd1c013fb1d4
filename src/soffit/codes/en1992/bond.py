"""Bond and anchorage length of bars by EN 1992-1-1:2004 8.4; *from memory*.

The basis of everything that asks how much of its strength a bar has at a place: :mod:`anchorage`, :mod:`curtailment`,
:mod:`laps`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf, pi
from typing import Literal

from soffit.codes.cut import BarsAt, built_in, stirrups_at
from soffit.codes.design import Design
from soffit.codes.en1992 import values
from soffit.codes.working import Symbol, Working
from soffit.member.beam import BarGroup
from soffit.member.layout import Cover, cover

Side = Literal["left", "right"]
STRONGEST = 60.0
"""fck, MPa, beyond which bond does not grow, 8.4.2 (2)."""
CORNERS = 2
"""Bars of a layer that stand in the corners of its stirrups."""


@dataclass(frozen=True)
class Anchored:
    """One end of a group of bars, anchored for a stress."""

    basic: Working
    """lb,rqd, mm."""
    length: Working
    """lbd (of hooks lb,eq), mm, at least lb,min."""
    uncut: Working
    """The same without lb,min: stress grows evenly over it."""
    least: Working
    """lb,min, mm."""
    workings: tuple[Working, ...]
    """All, in order."""


def covers(design: Design, bar: BarGroup) -> Cover:
    """Covers of a group, in the whole section where it lies in the topping; all bars of its layer, which run beside it,
    share the width evenly."""
    return design.kept(("en1992 covers", bar), lambda: _covers(design, bar))


def beside(one: BarGroup, other: BarGroup) -> bool:
    """Whether bars stand side by side in one layer: they overlap in height, and run together somewhere."""
    near = abs(one.y - other.y) < 0.5 * (one.diameter + other.diameter)
    return near and one.part == other.part and one.x_from < other.x_to and other.x_from < one.x_to


def _covers(design: Design, bar: BarGroup) -> Cover:
    alone = cover(replace(design.beam, outline=design.outline) if bar.part == "topping" else design.beam, bar)
    row = [b for b in design.beam.bars if beside(b, bar)]
    n = sum(b.count for b in row)
    if n == bar.count or n < 2:
        return alone
    width = design.outline.width(bar.y) or design.outline.web_width
    gap = (width - 2.0 * min(alone.face, alone.side) - sum(b.count * b.diameter for b in row)) / (n - 1)
    return Cover(alone.face, min(alone.face, alone.side), max(0.5 * gap, 1.0))


def settles_little(depth: float, y: float) -> bool:
    """Good bond conditions, Figure 8.2: ``y`` above the soffit of a pour of a ``depth``, mm."""
    return y <= 250.0 or depth <= 250.0 or (depth > 600.0 and y <= depth - 300.0)


def good(design: Design, bar: BarGroup) -> bool:
    if bar.part == "topping" and design.cast is not None:
        return settles_little(design.cast.outline.depth, bar.y - design.cast.low)
    return settles_little(design.beam.outline.depth, bar.y)


def strength(design: Design, bar: BarGroup) -> tuple[Working, ...]:
    """fbd of a group, (8.2), last; what leads to it before."""
    pen, fck = design.pen, design.strength
    if bar.part == "topping" and design.opened.topping is not None:
        fck = design.opened.topping
    taken = Symbol("fck", min(fck, STRONGEST), "stress", "strength of the concrete, at most that of C60/75, 8.4.2 (2)")
    mean, fctd = values.fctm(design, taken), values.fctd(design, taken)
    well = good(design, bar)
    e1 = Symbol("η1", 1.0 if well else 0.7, "ratio", f"{'good' if well else 'poor'} bond conditions, Figure 8.2")
    d = Symbol("φ", bar.diameter, "length", "diameter of the bar")
    e2 = pen("η2", "for thick bars", "(132 − φ)/100" if bar.diameter > 32.0 else "1",
             (d,) if bar.diameter > 32.0 else (), "ratio", "8.4.2 (2)")  # fmt: skip
    return mean, fctd, e2, pen("fbd", "bond strength", "2.25·η1·η2·fctd", (e1, e2, fctd), "stress", "(8.2)")


def end_of(bar: BarGroup, side: Side) -> str:
    return bar.end_left if side == "left" else bar.end_right


def straightened(bar: BarGroup) -> BarGroup:
    """The same bars with straight ends, as they are where they are lapped."""
    return replace(bar, end_left="straight", end_right="straight")


def bonded(bar: BarGroup) -> bool:
    """Whether the bars have the ribs on which 8.4 stands (3.2.2)."""
    return bar.surface != "plain"


def length(
    design: Design, bar: BarGroup, side: Side, stress: Working | None = None, pressure: Symbol | None = None
) -> Anchored:
    """Anchorage of an end in tension for ``stress`` (else fyd), 8.4.3 and 8.4.4; ``pressure``: across, over the whole
    length, MPa, with the symbol p."""
    pen = design.pen
    *head, fbd = strength(design, bar)
    gamma = values.gamma_s(design)
    d = Symbol("φ", bar.diameter, "length", "diameter of the bar")
    if stress is None:
        fyk = Symbol("fyk", bar.steel.yield_strength, "stress", f"yield strength of {bar.label or 'the bars'}")
        stress = pen("σsd", "stress to be anchored, the design strength", "fyk/γs", (fyk, gamma), "stress", "3.2.7")
        head.append(stress)
    basic = pen("lb,rqd", "basic anchorage length", "φ/4·σsd/fbd".replace("σsd", stress.name), (d, stress, fbd),
                "length", "(8.3)")  # fmt: skip
    least = pen("lb,min", "least anchorage length", "max(0.3·lb,rqd, 10·φ, 100)", (basic, d), "length", "(8.6)")
    c = covers(design, bar)
    hooked = end_of(bar, side) == "hook"
    which = "least of side cover and half the gap" + ("" if hooked else ", and cover")
    cd = Symbol("cd", min(c.half_gap, c.side, inf if hooked else c.face), "length", f"{which}, Figure 8.3")
    beyond = "3·φ" if hooked else "φ"
    a2 = pen("α2", "cover", f"min(1, max(0.7, 1 − 0.15·(cd − {beyond})/φ))", (cd, d), "ratio", "Table 8.2")
    ties, a3 = _ties(design, bar, side, basic)
    if pressure is None:
        a5 = pen("α5", "pressure across, none counted", "1", (), "ratio", "Table 8.2")
    else:
        a5 = pen("α5", "pressure across", "min(1, max(0.7, 1 − 0.04·p))", (pressure,), "ratio", "Table 8.2")
    product = pen("α235", "α2, α3, α5 together, at least 0.7", "max(0.7, α2·α3·α5)", (a2, a3, a5), "ratio", "(8.5)")
    head += [fbd, basic, least, a2, *ties, a3, a5, product]
    if not hooked:
        what = "straight bar, α1 = 1, nothing welded across, α4 = 1"
        uncut = pen("lbd0", what, "α235·lb,rqd", (product, basic), "length", "(8.4)")
        final = pen("lbd", "anchorage length, at least lb,min", "max(lbd0, lb,min)", (uncut, least), "length", "(8.4)")
        return Anchored(basic, final, uncut, least, (*head, uncut, final))
    eased = cd.value > 3.0 * bar.diameter
    text = f"bend or hook with cd {'above' if eased else 'of at most'} 3·φ"
    a1 = pen("α1", text, "0.7" if eased else "1.0", (), "ratio", "Table 8.2")
    what = "to the back of the bend; or along the bar, of which 5·φ are the tail"
    uncut = pen("lb,eq0", what, "min(α1·lb,rqd, α1·α235·lb,rqd − 5·φ)", (a1, basic, product, d), "length", "8.4.4")
    final = pen("lb,eq", "anchorage length, at least lb,min", "max(lb,eq0, lb,min)", (uncut, least), "length", "8.4.4")
    return Anchored(basic, final, uncut, least, (*head, a1, uncut, final))


def _ties(design: Design, bar: BarGroup, side: Side, basic: Working) -> tuple[tuple[Working, ...], Working]:
    """α3 for the stirrups along the bar's end, Table 8.2 and Figure 8.4."""
    pen, beam = design.pen, design.beam
    end, inward = (bar.x_from, 1.0) if side == "left" else (bar.x_to, -1.0)
    shortest = 0.7 * basic.value
    found = [stirrups_at(beam, min(max(end + inward * share * shortest, 0.0), beam.length)) for share in (0.1, 0.5, 1)]
    kept = [f for f in found if f is not None]
    none = pen("α3", "stirrups across, none counted", "1", (), "ratio", "Table 8.2")
    if len(kept) < len(found):
        return (), none
    weakest = min(kept, key=lambda f: f.per_length / f.legs)
    if weakest.legs < 2:
        return (), none
    leg = Symbol("At", weakest.area / weakest.legs, "area", "of one leg of a stirrup")
    s = Symbol("s", weakest.spacing, "length", "spacing of the stirrups")
    one = Symbol("As1", pi / 4.0 * bar.diameter**2, "area", "of one bar")
    across = pen("ΣAst", "legs across 0.7·lb,rqd, the shortest that lbd may be", "At·0.7·lb,rqd/s", (leg, basic, s),
                 "area", "Table 8.2")  # fmt: skip
    share = pen("λ", "what they are beyond 0.25·As1, over As1", "max(0, (ΣAst − 0.25·As1)/As1)", (across, one), "ratio",
                "Table 8.2")  # fmt: skip
    corner = bar.count <= CORNERS
    where = "bars in the corners of the stirrups" if corner else "bars between the corners of the stirrups"
    k = Symbol("K", 0.1 if corner else 0.05, "ratio", f"{where}, Figure 8.4")
    a3 = pen("α3", "stirrups across", "min(1, max(0.7, 1 − K·λ))", (k, share), "ratio", "Table 8.2")
    return (across, share), a3


def full(design: Design, bar: BarGroup, index: int, side: Side) -> float:
    """The embedment over which an end takes up fyd, mm; 0 where it is held at once, ∞ where it never is."""

    def find() -> float:
        if end_of(bar, side) == "welded plate" or built_in(design.beam, bar, side):
            return 0.0
        return length(design, bar, side).uncut.value if bonded(bar) else inf

    return design.kept(("en1992 anchorage", index, side), find)


def developed(design: Design, bar: BarsAt) -> float:
    """Share of fyd, 0 to 1, that a bar has at the cut: its embedment over lbd on the weaker side, 8.4.

    A hook counts by 8.4.4 (2); a welded plate, and a fixed support that the bar runs into, hold it wholly (the plate
    *ours*: 8.4 asks for tests). Plain bars have no bond by 8.4 and count with their plates alone.
    """
    share = 1.0
    sides: tuple[tuple[Side, float], ...] = (("left", bar.left), ("right", bar.right))
    for side, embedment in sides:
        needed = full(design, bar.group, bar.index, side)
        if needed > 0.0:
            share = min(share, max(embedment, 0.0) / needed)
    return share

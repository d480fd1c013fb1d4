"""Development of bars in tension by ACI 318-19 25.4.2, 25.4.3; *from memory*.

The basis of everything that asks how much of its strength a bar has at a place: :mod:`anchorage`, :mod:`curtailment`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf
from typing import Literal

from soffit.codes.aci318 import values
from soffit.codes.cut import BarsAt, built_in
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working
from soffit.materials.standards import PSI
from soffit.member.beam import BarGroup, StirrupZone
from soffit.member.layout import Cover, cover

Side = Literal["left", "right"]
INCH = 25.4
NO6, NO11 = 19.2, 35.9
"""Diameters of a No. 6 and a No. 11 bar with what rounding adds, mm."""
GRADES = ((420.0, 60e3, 1.0), (550.0, 80e3, 1.15), (690.0, 100e3, 1.3))
"""ψg of Table 25.4.2.5 up to a grade in MPa (318M) and psi; between grades that of the higher one (*ours*)."""
ROUNDED = 1.005
REACH = 50.0
"""Diameters from an end within which stirrups are looked for."""


@dataclass(frozen=True)
class Developed:
    """What one end of a group of bars needs to develop fy."""

    uncut: Working
    """ℓd or ℓdh by its formula, mm, without the least of 12 in (laps start from it)."""
    length: Working
    """With its least values, mm."""
    workings: tuple[Working, ...]
    """All, in order."""
    short: Working | None = None
    """By Table 25.4.2.3, for comparison."""
    hooked: bool = False


def end_of(bar: BarGroup, side: Side) -> str:
    return bar.end_left if side == "left" else bar.end_right


def bonded(bar: BarGroup) -> bool:
    """Whether the bars are deformed, as 20.2.1.1 wants them."""
    return bar.surface != "plain"


def covers(design: Design, bar: BarGroup) -> Cover:
    return cover(replace(design.beam, outline=design.outline) if bar.part == "topping" else design.beam, bar)


def fresh_below(design: Design, bar: BarGroup) -> float:
    """Fresh concrete that was placed below a group in the same pour, mm."""
    low = design.cast.low if bar.part == "topping" and design.cast is not None else 0.0
    return bar.y - low


def lightness(design: Design) -> Symbol:
    light = values.lightness(design).value < 1.0
    return Symbol("λ", 0.75 if light else 1.0, "ratio", "lightweight or normalweight concrete, Table 25.4.2.5")


def fc(design: Design, bar: BarGroup) -> Symbol:
    strength = design.strength
    if bar.part == "topping" and design.opened.topping is not None:
        strength = design.opened.topping
    # 25.4.1.4: √f'c at most 100 psi [8.3 MPa]
    most = 10000.0 * PSI if values.of(design).key == "inch-pound" else 8.3**2
    return Symbol(
        "f'c", min(strength, most), "stress", "of the concrete, with √f'c at most 100 psi (8.3 MPa), 25.4.1.4"
    )


def _grade(design: Design, fy: float) -> float | None:
    """ψg; none above the highest grade."""
    si = values.of(design).key == "SI"
    for metric, pounds, factor in GRADES:
        if fy <= (metric if si else pounds * PSI) * ROUNDED:
            return factor
    return None


def zones_near(design: Design, bar: BarGroup, side: Side) -> StirrupZone | None:
    """The weakest zone of stirrups within ``REACH`` of an end; none where a part of that has no stirrups."""
    end = bar.x_from if side == "left" else bar.x_to
    far = end + (1.0 if side == "left" else -1.0) * min(REACH * bar.diameter, bar.x_to - bar.x_from)
    low, high = min(end, far), max(end, far)
    zones = sorted((z for z in design.beam.stirrups if z.x_to > low and z.x_from < high), key=lambda z: z.x_from)
    reached = low
    for zone in zones:
        # the first and the last stirrup stand behind their cover, within a spacing of the end
        if zone.x_from - reached > zone.spacing:
            return None
        reached = max(reached, zone.x_to)
    if not zones or high - reached > max(z.spacing for z in zones):
        return None
    return min(zones, key=lambda z: z.area / z.spacing)


def development(design: Design, bar: BarGroup, side: Side, straight: bool = False) -> Developed | None:
    """What the end at a ``side`` needs; none where it is held by a plate or 25.4 gives no value (plain bars, grades
    above 100). ``straight``: as if it had no hook. Made once for a design."""
    return design.kept(("aci-ld", id(bar), side, straight), lambda: _development(design, bar, side, straight))


def _development(design: Design, bar: BarGroup, side: Side, straight: bool) -> Developed | None:
    grade = _grade(design, bar.steel.yield_strength)
    end = "straight" if straight else end_of(bar, side)
    if end == "welded plate" or not bonded(bar) or grade is None:
        return None
    return _hook(design, bar) if end == "hook" else _straight(design, bar, side, grade)


def _straight(design: Design, bar: BarGroup, side: Side, grade: float) -> Developed:
    """ℓd, 25.4.2.4, and that of Table 25.4.2.3 beside it."""
    pen, e, c = design.pen, values.of(design), covers(design, bar)
    fy = Symbol("fy", bar.steel.yield_strength, "stress", f"yield strength of {bar.label or 'the bars'}")
    db = Symbol("db", bar.diameter, "length", "diameter of the bar")
    strength, light = fc(design, bar), lightness(design)
    deep = fresh_below(design, bar) > (12.0 * INCH if e.key == "inch-pound" else 300.0)
    pt = Symbol(
        "ψt",
        1.3 if deep else 1.0,
        "ratio",
        f"{'more' if deep else 'not more'} than 12 in (300 mm) of fresh concrete below, Table 25.4.2.5",
    )
    pe = Symbol("ψe", 1.0, "ratio", "uncoated, Table 25.4.2.5")
    ps = Symbol("ψs", 0.8 if bar.diameter <= NO6 else 1.0, "ratio", "for the size of the bar, Table 25.4.2.5")
    pg = Symbol("ψg", grade, "ratio", "for the grade, that of the next higher between grades, Table 25.4.2.5")
    half = 0.5 * bar.diameter
    cb = Symbol(
        "cb",
        min(c.face, c.side, c.half_gap) + half,
        "length",
        "least of the distance of a bar's centre to a face and half the spacing of centres",
    )
    zone = zones_near(design, bar, side)
    if zone is None:
        ktr = pen("Ktr", "no stirrups all along the end", "0", (), "length", "25.4.2.4")
    else:
        layer = [
            b
            for b in design.beam.bars
            if abs(b.y - bar.y) <= bar.diameter and b.part == bar.part and b.x_from < bar.x_to and b.x_to > bar.x_from
        ]
        atr = Symbol("Atr", zone.area, "area", "of all legs of a stirrup that crosses the plane of splitting")
        s = Symbol("s", zone.spacing, "length", "spacing of the stirrups there")
        n = Symbol("n", float(sum(b.count for b in layer)), "count", "bars that would split along one plane")
        ktr = pen("Ktr", "of the stirrups", "40·Atr/(s·n)", (atr, s, n), "length", "(25.4.2.4b)")
    hold = pen("kc", "(cb + Ktr)/db, at most 2.5", "min((cb + Ktr)/db, 2.5)", (cb, ktr, db), "ratio", "25.4.2.4")
    text = e.pick("3/40·fy/(λ·√(f'c))·ψt·ψe·ψs·ψg/kc·db", "fy/(1.1·λ·√(f'c))·ψt·ψe·ψs·ψg/kc·db")
    raw = pen(
        "ℓd,0",
        "development length before its least",
        text,
        (fy, light, strength, pt, pe, ps, pg, hold, db),
        "length",
        "(25.4.2.4a)",
    )
    full = pen("ℓd", "development length", e.pick("max(ℓd,0, 12)", "max(ℓd,0, 300)"), (raw,), "length", "25.4.2.1")
    gap, least = 2.0 * c.half_gap, min(c.face, c.side)
    wide = least >= bar.diameter and (gap >= 2.0 * bar.diameter or (gap >= bar.diameter and zone is not None))
    # denominators of Table 25.4.2.3 hold the bar sizes already, so ψs does not stand beside them
    small = bar.diameter <= NO6
    under = (
        e.pick(*(("25", "2.1") if small else ("20", "1.7")))
        if wide
        else e.pick(*(("(50/3)", "1.4") if small else ("(40/3)", "1.1")))
    )
    short = pen(
        "ℓd,t",
        f"by Table 25.4.2.3, {'wide' if wide else 'other'} cover and spacing, for comparison",
        f"max(fy·ψt·ψe·ψg/({under}·λ·√(f'c))·db, {e.pick('12', '300')})",
        (fy, pt, pe, pg, light, strength, db),
        "length",
        "25.4.2.3",
    )
    return Developed(raw, full, (ktr, hold, raw, full), short)


def _hook(design: Design, bar: BarGroup) -> Developed:
    """ℓdh, 25.4.3 in the form of 2019: with db^1.5."""
    pen, e, c = design.pen, values.of(design), covers(design, bar)
    fy = Symbol("fy", bar.steel.yield_strength, "stress", f"yield strength of {bar.label or 'the bars'}")
    db = Symbol("db", bar.diameter, "length", "diameter of the bar")
    strength, light = fc(design, bar), lightness(design)
    spacing = 2.0 * c.half_gap + bar.diameter if bar.count > 1 else inf
    apart = bar.diameter <= NO11 and spacing >= 6.0 * bar.diameter
    covered = bar.diameter <= NO11 and c.side >= 6.0 * bar.diameter
    pe = Symbol("ψe", 1.0, "ratio", "uncoated, Table 25.4.3.2")
    pr = Symbol(
        "ψr",
        1.0 if apart else 1.6,
        "ratio",
        f"hooks {'at least' if apart else 'less than'} 6 db apart, no ties around them counted, Table 25.4.3.2",
    )
    po = Symbol(
        "ψo",
        1.0 if covered else 1.25,
        "ratio",
        f"side cover {'at least' if covered else 'less than'} 6 db, Table 25.4.3.2",
    )
    own = Symbol(
        "f'c",
        design.strength if bar.part == "beam" else (design.opened.topping or design.strength),
        "stress",
        "specified strength of the concrete",
    )
    pc = pen(
        "ψc",
        "for the strength of the concrete",
        e.pick("min(1, f'c/15000 + 0.6)", "min(1, f'c/105 + 0.6)"),
        (own,),
        "ratio",
        "Table 25.4.3.2",
    )
    text = e.pick("fy·ψe·ψr·ψo·ψc/(55·λ·√(f'c))·db^1.5", "fy·ψe·ψr·ψo·ψc/(23·λ·√(f'c))·db^1.5")
    raw = pen(
        "ℓdh,0",
        "development length of the hook before its least",
        text,
        (fy, pe, pr, po, pc, light, strength, db),
        "length",
        "25.4.3.1 (a)",
    )
    least = e.pick("max(ℓdh,0, 8·db, 6)", "max(ℓdh,0, 8·db, 150)")
    full = pen("ℓdh", "development length of the hook, to its outside", least, (raw, db), "length", "25.4.3.1")
    return Developed(raw, full, (pc, raw, full), hooked=True)


def needed(design: Design, bar: BarGroup, side: Side) -> float:
    """Length that an end needs for fy, mm: 0 with a plate or in a fixed support, infinite where 25.4 gives none."""
    if end_of(bar, side) == "welded plate" or built_in(design.beam, bar, side):
        return 0.0
    found = development(design, bar, side)
    return inf if found is None else found.length.value


def developed(design: Design, bar: BarsAt) -> float:
    """Share of fy, 0 to 1, that bars have developed at their cut: of both sides the lesser.

    Straight ends: in proportion to the length, 25.4.10.1 turned round. Hooks: the same over ℓdh (*ours*: the standard
    knows them developed or not). Plates: all. Plain bars and grades above 100 (690 MPa): none but with plates.
    """
    left, right = needed(design, bar.group, "left"), needed(design, bar.group, "right")
    return min(share(bar.left, left), share(bar.right, right))


def share(along: float, length: float) -> float:
    return 1.0 if length <= 0.0 else min(max(along, 0.0) / length, 1.0)

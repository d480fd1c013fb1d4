"""Development of bars, AASHTO LRFD 5.10.8.2; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from soffit.codes.aashto import values
from soffit.codes.cut import BarsAt, built_in
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working
from soffit.member.beam import BarEnd, BarGroup
from soffit.member.layout import cover

INCH = 25.4
Side = Literal["left", "right"]


def length(design: Design, bar: BarGroup, hook: bool) -> tuple[Working, tuple[Working, ...]]:
    """ℓd of a straight bar, (5.10.8.2.1a-1), or ℓdh of a standard hook, (5.10.8.2.4a-1)."""
    return design.kept(("aashto ld", id(bar), hook), lambda: _length(design, bar, hook))


def _length(design: Design, bar: BarGroup, hook: bool) -> tuple[Working, tuple[Working, ...]]:
    pen, lam, fc = design.pen, values.lightness(design), values.fc(design)
    fy = Symbol("fy", bar.steel.yield_strength, "stress", f"yield strength of {bar.label}")
    db = Symbol("db", bar.diameter, "length", "diameter of the bars")
    if hook:
        basic = pen("ℓhb", "basic length of a hook", "38·db/60·fy/(λ·√(f'c))", (db, fy, lam, fc), "length",
                    "(5.10.8.2.4a-2)")  # fmt: skip
        found = pen("ℓdh", "development length of a hook", "max(ℓhb, 8·db, 6)", (basic, db), "length", "5.10.8.2.4a")
        return found, (basic, found)
    low = bar.y - bar.diameter / 2
    place = Symbol("λrl", 1.3 if low > 12.0 * INCH else 1.0, "ratio", "for concrete cast below, 5.10.8.2.1b")
    around = cover(design.beam, bar)
    cb = Symbol("cb", min(around.face, around.side, around.half_gap) + bar.diameter / 2, "length",
                "from the bar's centre to the face, or half the spacing")  # fmt: skip
    held = pen("λrc", "for the confinement by cover", "min(1.0, max(0.4, db/cb))", (db, cb), "ratio", "(5.10.8.2.1c-1)")
    basic = pen("ℓdb", "basic development length", "2.4·db·fy/√(f'c)", (db, fy, fc), "length", "(5.10.8.2.1a-2)")
    found = pen("ℓd", "development length", "max(ℓdb·λrl·λrc/λ, 12)", (basic, place, held, lam), "length",
                "(5.10.8.2.1a-1)")  # fmt: skip
    return found, (held, basic, found)


def developed(design: Design, bar: BarsAt) -> float:
    """Share of fy that the bars have at the cut, 0 to 1: embedment over development length on the weaker side."""
    shares = []
    for _, reach, hook in loose(design, bar):
        need, _ = length(design, bar.group, hook)
        shares.append(min(max(reach, 0.0) / need.value, 1.0))
    return min(shares, default=1.0)


def loose(design: Design, bar: BarsAt) -> Iterator[tuple[Side, float, bool]]:
    """The ends that bond has to hold: their side, how far they are from the cut (mm), and whether they are hooked."""
    sides: tuple[tuple[Side, float, BarEnd], ...] = (("left", bar.left, bar.ends[0]), ("right", bar.right, bar.ends[1]))
    for side, reach, end in sides:
        if end != "welded plate" and not built_in(design.beam, bar.group, side):
            yield side, reach, end == "hook"

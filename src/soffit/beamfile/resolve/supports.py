"""``[supports]`` to the points that hold the beam, and its length."""

from __future__ import annotations

from soffit.beamfile.faults import Spot
from soffit.beamfile.tables.holding import SupportTable
from soffit.member.beam import Supports


def build_supports(table: SupportTable, spot: Spot) -> tuple[Supports, float] | None:
    """Supports and the length of the beam end to end, mm."""
    spans = _spans(table, spot)
    if spans is None:
        return None
    ends = (table.ends[0], table.ends[-1])
    left, right = (table.overhangs[0], table.overhangs[-1])
    x = [left]
    for span in spans:
        x.append(x[-1] + span)
    length = x[-1] + right
    if not _ends_hold(ends, (left, right), len(spans), spot):
        return None
    held = x[1 if ends[0] == "free" else 0 : len(x) - 1 if ends[1] == "free" else len(x)]
    if table.bearing >= min(spans):
        spot.wrong("bearing", "which is as long as the span", f"give less than {spot.show(min(spans))}")
    if not spot.has("bearing"):
        spot.note("The supports are taken as lines, for the length of the bearing plates is not given.")
    fixed = (ends[0] == "fixed", ends[1] == "fixed")
    return Supports(tuple(held), *fixed, bearing=table.bearing), length


def _spans(table: SupportTable, spot: Spot) -> tuple[float, ...] | None:
    if table.span is not None and table.spans is not None:
        spot.wrong("spans", "but span is given too", "give one of them")
        return None
    if table.span is not None:
        return (table.span,)
    if table.spans is None:
        spot.missing("span", 'write span = "1.05 m", or spans = ["5 m", "5 m"]')
    return table.spans


def _ends_hold(ends: tuple[str, str], overhangs: tuple[float, float], spans: int, spot: Spot) -> bool:
    """Whether the ends make a beam that stands."""
    held = spans + 1 - ends.count("free")
    if held < 1 or (held == 1 and "fixed" not in ends):
        problem = "which does not hold the beam"
        spot.wrong("ends", problem, 'write ["fixed", "free"] for a cantilever, or "pinned" for a simple span')
        return False
    for end, overhang in zip(ends, overhangs, strict=True):
        if end == "free" and overhang > 0:
            problem = "but an end is free, and its span is an overhang already"
            spot.wrong("overhangs", problem, 'write "0 m" at the free end')
            return False
    return True

"""What would mend a check that fails: the least change of one thing with which it holds, found by verifying again.

More bars, hooks, closer stirrups, more tendons, a deeper or wider section, stronger concrete: each alone, in steps that
can be built, up to a limit within reason (*ours*).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from soffit.codes.verification import Verification, verify
from soffit.codes.working import Check
from soffit.errors import SoffitError
from soffit.member.beam import BarEnd, Beam
from soffit.section.outline import Outline, polygon

STEP = {"SI": 10.0, "US": 12.7}
"""Of a size, mm."""
STRONGER = {"SI": 5.0, "US": 6.894757293168}
"""Of the strength of the concrete, MPa."""
MOST = 3
"""Cures that are told."""


@dataclass(frozen=True)
class Cure:
    kind: str
    """``"bars"``, ``"hooks"``, ``"stirrups"``, ``"tendons"``, ``"depth"``, ``"width"``, ``"concrete"``."""
    amount: float
    """Bars, tendons, mm, MPa; the new spacing of stirrups, mm; 0 for hooks."""
    ratio: float
    """Of the check with it."""
    beam: Beam
    breaks: tuple[str, ...]
    """Titles of checks that held before and fail with it."""


@dataclass(frozen=True)
class _Remedy:
    kind: str
    change: Callable[[Beam, int], Beam]
    """The beam with so many steps of it."""
    amount: Callable[[int], float]
    most: int


def cures(verification: Verification, check: Check) -> tuple[Cure, ...]:
    """The least changes that mend a failing check, those that break nothing else first; none where none does.

    A few verifications each; nothing is found for a check that holds.
    """
    if check.kept:
        return ()
    entry = _entry(verification, check)
    before = {c.key for c in verification.checks if c.kept}
    found = []
    for remedy in _remedies(verification.beam, check):
        steps = _least(verification, check, entry, remedy)
        if steps is None:
            continue
        beam = remedy.change(verification.beam, steps)
        after = verify(beam, verification.standard)
        ratio = next((c.ratio for c in after.checks if c.key == check.key), 0.0)
        broken = tuple(dict.fromkeys(c.title for c in after.checks if c.key in before and not c.kept))
        found.append(Cure(remedy.kind, remedy.amount(steps), ratio, beam, broken))
    found.sort(key=lambda cure: bool(cure.breaks))
    return tuple(found[:MOST])


def _entry(verification: Verification, check: Check) -> str:
    from soffit.codes.verification import register

    keys = [entry.key for entry in register(verification.standard) if check.key.startswith(entry.key)]
    return max(keys, key=len)


def _least(verification: Verification, check: Check, entry: str, remedy: _Remedy) -> int | None:
    """The fewest steps with which the check holds; none where not even the most do."""

    def holds(steps: int) -> bool:
        try:
            again = verify(remedy.change(verification.beam, steps), verification.standard, (entry,))
        except (SoffitError, ValueError):
            return False
        here = [c for c in again.checks if c.key == check.key]
        return bool(again.checks or not again.unchecked) and all(c.kept for c in here) and again.design is not None

    if remedy.most < 1 or not holds(remedy.most):
        return None
    low, high = 0, remedy.most
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high


def _remedies(beam: Beam, check: Check) -> Iterator[_Remedy]:
    x = beam.length / 2.0 if check.x is None else check.x
    step = STEP[beam.units]
    group = _main_bars(beam, x, check)
    if group is not None:
        yield _Remedy("bars", lambda b, n: _more_bars(b, group, n), float, 2 * max(beam.bars[group].count, 3))
    if any("straight" in (bar.end_left, bar.end_right) for bar in beam.bars):
        yield _Remedy("hooks", lambda b, n: _hooked(b), lambda n: 0.0, 1)
    here = [z for z in beam.stirrups if z.x_from - 1e-6 <= x <= z.x_to + 1e-6]
    if here:
        now = max(z.spacing for z in here)
        most = int((now - 50.0) / step)
        yield _Remedy("stirrups", lambda b, n: _closer(b, x, now - n * step), lambda n: now - n * step, most)
    if beam.tendons:
        count = max(t.count for t in beam.tendons)
        yield _Remedy("tendons", _more_tendons, float, count)
    yield _Remedy("depth", lambda b, n: _deeper(b, n * step), lambda n: n * step, int(beam.outline.depth / step))
    if beam.outline.shape in ("rectangle", "tee", "i"):
        yield _Remedy("width", lambda b, n: _wider(b, n * step), lambda n: n * step, int(beam.outline.web_width / step))
    yield _Remedy("concrete", lambda b, n: _stronger(b, n * STRONGER[b.units]), lambda n: n * STRONGER[beam.units], 4)


def _main_bars(beam: Beam, x: float, check: Check) -> int | None:
    """The strongest group on the face that the check puts in tension."""
    middle = beam.outline.centroid
    low = "hogging" not in check.key
    groups = [
        (bar.area * bar.steel.yield_strength, i)
        for i, bar in enumerate(beam.bars)
        if bar.x_from <= x <= bar.x_to and (bar.y < middle) == low
    ]
    return max(groups)[1] if groups else None


def _more_bars(beam: Beam, group: int, more: int) -> Beam:
    bars = list(beam.bars)
    old = bars[group]
    bars[group] = replace(old, count=old.count + more, area=old.area * (old.count + more) / old.count)
    return replace(beam, bars=tuple(bars))


def _hooked(beam: Beam) -> Beam:
    def end(found: BarEnd) -> BarEnd:
        return "hook" if found == "straight" else found

    bars = tuple(replace(b, end_left=end(b.end_left), end_right=end(b.end_right)) for b in beam.bars)
    return replace(beam, bars=bars)


def _closer(beam: Beam, x: float, spacing: float) -> Beam:
    zones = tuple(
        replace(z, spacing=min(z.spacing, spacing)) if z.x_from - 1e-6 <= x <= z.x_to + 1e-6 else z
        for z in beam.stirrups
    )
    return replace(beam, stirrups=zones)


def _more_tendons(beam: Beam, more: int) -> Beam:
    groups = list(beam.tendons)
    i = max(range(len(groups)), key=lambda j: groups[j].area)
    old = groups[i]
    groups[i] = replace(old, count=old.count + more, area=old.area * (old.count + more) / old.count)
    return replace(beam, tendons=tuple(groups))


def _deeper(beam: Beam, more: float) -> Beam:
    """The section pulled apart at mid-depth; what lies above goes up with the top."""
    middle = 0.5 * beam.outline.depth

    def up(y: float) -> float:
        return y + more if y > middle else y

    def ring(points: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
        return [(x, up(y)) for x, y in points]

    old = beam.outline
    outline = polygon(ring(old.points), [ring(hole) for hole in old.holes], old.shape)
    bars = tuple(replace(b, y=up(b.y)) for b in beam.bars)
    tendons = tuple(replace(t, profile=replace(t.profile, y=tuple(up(y) for y in t.profile.y))) for t in beam.tendons)
    making = beam.making
    if making is not None and making.topping is not None:
        making = replace(making, topping=replace(making.topping, base=making.topping.base + more))
    return replace(beam, outline=outline, bars=bars, tendons=tendons, making=making)


def _wider(beam: Beam, more: float) -> Beam:
    """Every width by as much, about the centre line."""
    half = 0.5 * more

    def ring(points: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
        return [(x + (half if x > 0.0 else -half), y) for x, y in points]

    old: Outline = beam.outline
    return replace(beam, outline=polygon(ring(old.points), [ring(hole) for hole in old.holes], old.shape))


def _stronger(beam: Beam, more: float) -> Beam:
    concrete = beam.concrete
    ordered = None if concrete.specified is None else concrete.specified + more
    return replace(beam, concrete=replace(concrete, strength=concrete.strength + more, specified=ordered))

"""What there is to tell of tendons, sentence by sentence."""

from __future__ import annotations

from math import degrees, isfinite

import numpy as np

from soffit.member.beam import TendonGroup
from soffit.member.friction import Jacked
from soffit.show.numbers import THIN, Units, fixed, given, quantity, sig
from soffit.show.tendonsfacts import Facts, Group

LONG = 4000.0
"""Beams longer than this, mm, are measured in m (ft) along their length, as in the pictures."""


def place(x: float, facts: Facts, units: Units) -> str:
    """A place along the beam with its unit."""
    return given(x, "span" if facts.beam.length > LONG else "length", units)


def bend(facts: Facts, group: Group, units: Units) -> str:
    """How sharply a group is bent, against the least radius that is given or usual."""
    found, least = group.bend, group.least
    kinks = ""
    if group.kinks:
        most = max(group.kinks, key=lambda kink: abs(kink.angle))
        many, angle = len(group.kinks), sig(degrees(abs(most.angle)))
        kinks = f"{many} kink{'s' if many > 1 else ''}, the sharpest {angle}° at {place(most.x, facts, units)}; "
    if found is None:
        if not kinks:
            return "straight, without a bend."
        told_by = "deviators" if group.tendon.when == "before casting" else "a bent piece of duct at each"
        return f"{kinks}a kink has no radius of its own, so none is checked: see to {told_by}."
    radius = quantity(found.radius, "span", units)
    where = f"{kinks}the least radius of the curves is {radius} at {place(found.x, facts, units)}"
    if group.tendon.steel.kind != "strand" and least is None:
        more = group.tendon.steel.modulus * group.tendon.diameter / (2.0 * found.radius)
        return (
            f"{where}; a rod bent to it has E·d/2R = {quantity(more, 'stress', units)} of bending on top of its pull."
        )
    if least is None:
        return f"{where}."
    wanted = quantity(least.radius, "span", units)
    who = f"the {wanted} {least.source}"
    if group.too_sharp:
        cure = "lay the tendon flatter"
        if group.tendon.profile.shape == "reversed":
            cure += ", or move the inflection away from its high points"
        return f"{where}: too sharp, below {who}; {cure}."
    return f"{where}, not below {who}."


def stress(facts: Facts, t: TendonGroup, found: Jacked, units: Units) -> list[str]:
    """Stress at the jack, after friction, after draw-in, in sentences."""
    low = int(np.argmin(found.before))
    held = float(np.max(found.stress))
    where = float(found.x[int(np.argmax(found.stress))])
    pull = quantity(t.stress, "stress", units)
    friction = (
        f"{pull} at the jack; friction and wobble leave {quantity(float(found.before[low]), 'stress', units)} at "
    )
    friction += (
        f"{place(float(found.x[low]), facts, units)} (mean loss {quantity(found.friction_loss, 'stress', units)})."
    )
    if found.friction_loss < 1e-9 * t.stress:
        friction = f"{pull} at the jack and, without friction, all along."
    slip = t.anchor.draw_in if t.anchor else 0.0
    if slip <= 0.0:
        return [friction]
    ends = [(float(found.stress[0]), "left"), (float(found.stress[-1]), "right")]
    locked = " and ".join(
        f"{quantity(value, 'stress', units)} at the {side} anchor"
        for (value, side), reach in zip(ends, found.influence, strict=True)
        if reach is not None
    )
    text = f"A draw-in of {given(slip, 'length', units)} leaves {locked}; {reach_words(facts, found, units)} "
    text += f"The stress is then highest, {quantity(held, 'stress', units)}, at {place(where, facts, units)} "
    text += f"(mean loss {quantity(found.draw_in_loss, 'stress', units)})."
    return [friction, text]


def reach_words(facts: Facts, found: Jacked, units: Units) -> str:
    """How far the draw-in reaches, as a clause that ends in a full stop."""
    known = [(side, r) for side, r in zip(("left", "right"), found.influence, strict=True) if r is not None]
    if found.whole and len(known) == 2:
        still = float(found.x[0]) + known[0][1]
        return f"the draw-ins of both ends meet at {place(still, facts, units)} and slacken the whole tendon."
    if found.whole:
        return "it reaches the far end and slackens the whole tendon."
    words = " and ".join(f"{quantity(r, 'span', units)} from the {side}" for side, r in known)
    return f"it reaches {words}."


def bed(group: Group, units: Units) -> str:
    """The losses before release in a sentence."""
    found = group.bed
    assert found is not None
    parts = [
        (found.slip, "slip and give of the bed"),
        (found.deviators, "friction at the deviators"),
        (found.warming, "warming"),
        (found.relaxation, "relaxation"),
    ]
    told = ", ".join(f"{what} {quantity(value, 'stress', units)}" for value, what in parts if value > 0.0)
    left = float(np.mean(found.stress))
    pull = quantity(group.tendon.stress, "stress", units)
    if not told:
        return f"{pull} at the jack, and no loss before release is known."
    return f"{pull} at the jack; before release it loses {told}, and has {quantity(left, 'stress', units)} left."


def forces(facts: Facts, group: Group, units: Units) -> str:
    """Least and greatest force of a group and where, as a sentence without its subject."""
    force = group.along.force
    low, high = float(np.min(force)), float(np.max(force))
    if high - low <= 1e-6 * high:
        return f"{quantity(high, 'force', units)} all along, all tendons of the group together."
    at_high = place(float(group.along.x[int(np.argmax(force))]), facts, units)
    at_low = place(float(group.along.x[int(np.argmin(force))]), facts, units)
    return (
        f"from {quantity(low, 'force', units)} at {at_low} to {quantity(high, 'force', units)} at {at_high}, all "
        "tendons of the group together."
    )


def concordance(facts: Facts, units: Units) -> str:
    """How far the line of thrust lies from the tendons."""
    found = facts.moments
    if not facts.redundant:
        return "Statics alone gives the moments: the line of thrust lies in the tendons, and no moment is secondary."
    if facts.concordant:
        return (
            "The tendons are concordant: the line of thrust lies in them, and the supports hold nothing against them."
        )
    shift = [(facts.at(np.nan_to_num(found.shift), x), x) for x in found.supports]
    them = "them" if len(facts.groups) == 1 else "their common centre"
    told = [
        f"{quantity(abs(s), 'length', units)} {'above' if s > 0 else 'below'} {them} at {place(x, facts, units)}"
        for s, x in shift
        if isfinite(s) and abs(s) > 0.05
    ]
    words = f"The tendons are not concordant: the line of thrust lies {' and '.join(told)}, straight between supports. "
    words += "A tendon along that line would have the same total moments and no secondary ones."
    later = [g for g in facts.groups if g.tendon.when == "after curing"]
    if len(later) < 2:
        return words
    each = ", ".join(f"{g.name} {quantity(max(g.alone.at_supports, key=abs), 'moment', units)}" for g in later)
    return f"{words} Greatest secondary moment of each group by itself: {each}."


def balance(facts: Facts) -> str:
    """Share of the permanent load that the tendons balance, span by span."""
    known = [(i, s) for i, s in enumerate(facts.shares, start=1) if s is not None]
    if not known:
        return ""
    if not _any(facts):
        return "Straight tendons push nowhere up or down, so they balance no load; they bend the beam by their moment."
    many = len(facts.shares) > 1
    told = ", ".join(f"{percent(s)}{f' in span {i}' if many else ''}" for i, s in known)
    return f"The tendons balance {told} of the self weight and dead load (midspan moments of the simple span compared)."


def percent(share: float) -> str:
    return f"{fixed(100.0 * share, 0)}{THIN}%"


def _any(facts: Facts) -> bool:
    return any(share is not None and abs(share) > 0.005 for share in facts.shares)


def _straight(facts: Facts, units: Units) -> str:
    """What straight tendons do, since they balance no load."""
    return f"{_pressed(facts, units, 'straight tendons')}, and balance no load"


def _pressed(facts: Facts, units: Units, what: str) -> str:
    """Force and greatest moment of all tendons together."""
    found = facts.moments
    i = int(np.argmax(np.abs(found.total)))
    force = float(np.max(sum((g.along.at(found.x) for g in facts.groups), np.zeros_like(found.x))))
    bent = f"bend it by {quantity(float(found.total[i]), 'moment', units)}"
    if abs(found.total[i]) <= 1e-6 * force * facts.beam.outline.depth:
        bent = "do not bend it"
    return f"{what} press the beam with {quantity(force, 'force', units)} and {bent}"


def closing(facts: Facts, units: Units) -> str:
    """One sentence that a colleague could be told on the phone."""
    sharp = [g for g in facts.groups if g.too_sharp]
    if sharp:
        first = sharp[0]
        assert first.bend is not None
        assert first.least is not None
        return (
            f"{first.name} is bent too sharply: {quantity(first.bend.radius, 'span', units)} at "
            f"{place(first.bend.x, facts, units)}, where {quantity(first.least.radius, 'span', units)} is the least."
        )
    known = [s for s in facts.shares if s is not None]
    text = f"{facts.beam.name}: "
    if known:
        low, high = percent(min(known)), percent(max(known))
        range_ = low if low == high else f"{low} to {high}"
        text += f"the tendons balance {range_} of the permanent load" if _any(facts) else _straight(facts, units)
    elif not facts.shares and len(facts.beam.supports.x) == 1:
        text += _pressed(facts, units, "the tendons")
    else:
        text += "the tendons act on a beam without permanent load"
    if not facts.redundant:
        return f"{text}."
    if facts.concordant:
        return f"{text} and are concordant."
    found = facts.moments
    i = int(np.argmax(np.abs(found.at_supports)))
    most = found.at_supports[i]
    return (
        f"{text}, and the supports answer them with a secondary moment of {quantity(most, 'moment', units)} at "
        f"{place(found.supports[i], facts, units)}."
    )

"""The tendons of a beam in words and figures: how they run, what they lose at once, what they do to the beam."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees, isfinite

import numpy as np

from soffit.member.beam import TendonGroup
from soffit.member.friction import Jacked
from soffit.show.columns import Line, coloured, grid, hanging, plain, wrapped
from soffit.show.numbers import THIN, Units, column, fixed, given, quantity, sig, unit
from soffit.show.story import beam_line
from soffit.show.tendonsfacts import Facts, Group, Ordinate

LABEL = 12
"""Columns of the labels at the left."""
LONG = 4000.0
"""Beams longer than this, mm, are measured in m (ft) along their length, as in the pictures."""
SHAPES = {"straight": "straight", "parabola": "parabolas", "reversed": "reversed parabolas"}


def told(
    facts: Facts,
    units: Units | None = None,
    width: int | None = None,
    colours: str | None = None,
    written: Sequence[str] = (),
) -> str:
    """The story as text, its last line the closing sentence; arguments as those of :func:`soffit.show.story.told`."""
    lines = story(facts, units or facts.beam.units, width, written)
    return coloured(lines, colours) if colours else plain(lines)


def story(facts: Facts, units: Units, width: int | None, written: Sequence[str] = ()) -> list[Line]:
    beam = facts.beam
    lines: list[Line] = [[(piece, "strong")] for piece in wrapped(beam.name, width)]
    lines += [[(piece, "faint")] for piece in wrapped(beam_line(beam, units), width)]
    for group in facts.groups:
        lines += [[], *_group(facts, group, units, width)]
    lines += [[], *_moments(facts, units, width), []]
    for label, texts in (("thrust", [concordance(facts, units)]), ("balance", [balance(facts)])):
        lines += hanging(label, [t for t in texts if t], width, LABEL)
    lines += hanging("assumed", facts.notes, width, LABEL, "faint")
    lines += hanging("written", [", ".join(written)] if written else [], width, LABEL)
    style = "fails" if any(g.too_sharp for g in facts.groups) else "strong"
    return [*lines, [], *([(piece, style)] for piece in wrapped(closing(facts, units), width))]


def place(x: float, facts: Facts, units: Units) -> str:
    """A place along the beam with its unit."""
    return given(x, "span" if facts.beam.length > LONG else "length", units)


def _along(values: Sequence[float], facts: Facts, units: Units) -> list[str]:
    return column(values, "span" if facts.beam.length > LONG else "length", units, 4)


def _along_unit(facts: Facts, units: Units) -> str:
    return unit("span" if facts.beam.length > LONG else "length", units)


# -- a group ---------------------------------------------------------------------------------------------------------


def _group(facts: Facts, group: Group, units: Units, width: int | None) -> list[Line]:
    t = group.tendon
    label = t.label or ("1 tendon" if t.count == 1 else f"{t.count} tendons")
    head = f"{label}, {_when(t)}, {SHAPES[t.profile.shape]}"
    lines: list[Line] = [[(f"{group.name}  ", "tendon"), (piece, "strong")] for piece in wrapped(head, width)]
    lines += _ordinates(facts, group.ordinates, units)
    lines += hanging("bend", [bend(facts, group, units)], width, LABEL, "fails" if group.too_sharp else "")
    if group.jacked is not None:
        lines += hanging("stress", stress(facts, group.tendon, group.jacked, units), width, LABEL)
    if group.bed is not None:
        lines += hanging("bed", [bed(group, units)], width, LABEL)
    if group.lengths:
        lines += _lengths(group, units, width)
    lines += hanging("force", [_force(facts, group, units)], width, LABEL)
    return [*lines, *_loads(facts, group, units)]


def _when(t: TendonGroup) -> str:
    if t.when == "before casting":
        return "stressed before casting"
    ends = {"left": "the left", "right": "the right", "both": "both ends"}[t.jacked_from]
    return f"stressed after curing from {ends}, {t.bond}"


def _table(label: str, rows: Sequence[Sequence[str]], align: str) -> list[Line]:
    cells = grid(rows, align)
    return [
        [((label if i == 0 else "").ljust(LABEL), "faint"), ("  ".join(row), "faint" if i == 0 else "")]
        for i, row in enumerate(cells)
    ]


def _ordinates(facts: Facts, found: Sequence[Ordinate], units: Units) -> list[Line]:
    length = unit("length", units)
    rows = [["place", f"x, {_along_unit(facts, units)}", f"above soffit, {length}", f"below centroid, {length}"]]
    places = _along([o.x for o in found], facts, units)
    heights, below = (column([getattr(o, key) for o in found], "length", units, 4) for key in ("height", "below"))
    rows += [[o.what, *cells] for o, *cells in zip(found, places, heights, below, strict=True)]
    return _table("runs", rows, "lrrr")


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


def _lengths(group: Group, units: Units, width: int | None) -> list[Line]:
    length = unit("length", units)
    rows = [["by", f"lower, {length}", f"basic, {length}", f"upper, {length}", "clause"]]
    texts = column([v for each in group.lengths for v in (each.lower, each.basic, each.upper)], "length", units)
    for i, each in enumerate(group.lengths):
        rows.append([each.standard, *texts[3 * i : 3 * i + 3], each.clause])
    lines = _table("transfer", rows, "lrrrl")
    said = next(each.said for each in group.lengths if each.said)
    text = f"Taken by the European ones: {said}, design tensile strength at release."
    if group.tendon.transfer_length is not None:
        text += f" The life takes the {given(group.tendon.transfer_length, 'length', units)} that the file gives."
    return lines + hanging("", [text], width, LABEL, "faint")


def _force(facts: Facts, group: Group, units: Units) -> str:
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


def _loads(facts: Facts, group: Group, units: Units) -> list[Line]:
    """Equivalent loads: pieces of the profile first, then kinks and anchors."""
    spread = [s for s in group.stretches if abs(s.up) * (s.x_to - s.x_from) > 1e-9 * float(np.max(group.along.force))]
    points, depth = group.loads.points, facts.beam.outline.depth
    rows = [["pushes up with", "from", "to", "moment"]]
    ends = [(place(s.x_from, facts, units), place(s.x_to, facts, units)) for s in spread]
    rows += [[quantity(s.up, "line load", units), *where, ""] for s, where in zip(spread, ends, strict=True)]
    for p in points:
        least = 1e-9 * float(np.max(group.along.force))
        up, moment = (0.0 if abs(v) < least * size else v for v, size in ((p.up, 1.0), (p.moment, depth)))
        turn = quantity(moment, "moment", units) if p.where == "anchor" else ""
        rows.append([quantity(up, "force", units), f"{p.where} at {place(p.x, facts, units)}", "", turn])
    return _table("loads", rows, "rllr") if len(rows) > 1 else []


# -- the beam --------------------------------------------------------------------------------------------------------


def _moments(facts: Facts, units: Units, width: int | None) -> list[Line]:
    found, force = facts.moments, unit("moment", units)
    rows = [["place", f"x, {_along_unit(facts, units)}", f"primary, {force}", "secondary", "total", "reaction"]]
    at = [[facts.at(v, x) for _, x in facts.places] for v in (found.primary, found.secondary, found.total)]
    texts = column([v for row in at for v in row], "moment", units)
    n = len(facts.places)
    reactions = dict(zip(found.supports, found.reactions, strict=True))
    most = max(map(abs, found.reactions), default=0.0)
    for i, ((name, x), where) in enumerate(
        zip(facts.places, _along([x for _, x in facts.places], facts, units), strict=True)
    ):
        r = reactions.get(x)
        pushed = "" if r is None else quantity(r if abs(r) > 1e-9 * most else 0.0, "force", units)
        rows.append([name, where, texts[i], texts[n + i], texts[2 * n + i], pushed if facts.redundant else ""])
    if not facts.redundant:
        rows = [[*row[:3]] for row in rows]
        return _table("moments", rows, "lrr")
    said = "Moments of all tendons, sagging positive; reactions of the supports on the beam, upward positive."
    return [*_table("moments", rows, "lrrrrr"), *hanging("", [said], width, LABEL, "faint")]


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


__all__ = ["balance", "bed", "bend", "closing", "concordance", "percent", "place", "story", "stress", "told"]

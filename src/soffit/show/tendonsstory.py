"""The tendons of a beam in words and figures: how they run, what they lose at once, what they do to the beam."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from soffit.member.beam import TendonGroup
from soffit.show.columns import Line, coloured, grid, hanging, plain, wrapped
from soffit.show.numbers import Units, column, given, quantity, unit
from soffit.show.story import beam_line
from soffit.show.tendonsfacts import Facts, Group, Ordinate
from soffit.show.tendonswords import LONG, balance, bed, bend, closing, concordance, forces, place, stress

LABEL = 12
"""Columns of the labels at the left."""
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
    lines += hanging("force", [forces(facts, group, units)], width, LABEL)
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

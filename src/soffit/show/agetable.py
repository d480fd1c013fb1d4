"""The ageing of a beam in tables: the state after every stage, the prestress of each group, and where it was lost."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from soffit.show.agewords import LONG, SETTLED, STRAIGHT, Told, age, place_words, ran
from soffit.show.columns import Line, grid
from soffit.show.numbers import NOTHING, Units, column, fixed, in_unit, unit

if TYPE_CHECKING:
    from soffit.member.time.result import TendonPast

GROUPS_A_BLOCK = 4
SHOWN_PLACE = ("length", "span")
"""How a place is shown along a short beam and along a long one."""
LEAST_LABEL = 12
"""Columns that what happened keeps in a narrow terminal."""
LOSSES = ("friction", "draw-in", "bed", "elastic", "creep", "shrinkage", "relaxation", "cracks")
OTHERWISE = {"rest": "bond"}
HELD = 0.9999
SPARE = 0.5
"""MPa: what the parts of a loss leave unexplained is told from here on."""


def stages(told: Told, units: Units, width: int | None = None) -> list[Line]:
    """One row an instant: age, what happened, force of the tendons, stresses, deflection, cracks. In a narrow terminal
    what happened is cut short."""
    past, at = told.past, told.station
    steps = [i.step for i in past.instants]
    heads: list[tuple[str, str]] = [("", ""), ("age", ""), ("", "")]
    align = "rrl"
    body: list[list[str]] = [
        [str(n) for n in range(1, len(steps) + 1)],
        [age(float(past.t[s]), short=True) for s in steps],
        [i.label for i in past.instants],
    ]

    def add(name: str, of: str, cells: list[str]) -> None:
        nonlocal align
        heads.append((name, of))
        body.append(cells)
        align += "r"

    here = [t for t in past.tendons if ran(t, at)]
    if here:
        jacked = sum(t.jack * t.tendon.area for t in here)
        force = np.sum([np.nan_to_num(t.force()[:, at]) for t in here], axis=0)
        acting = [float(force[s]) if force[s] > 0 else None for s in steps]
        if len(here) == 1:
            stress = [None if f is None else f / here[0].tendon.area for f in acting]
            add("prestress", unit("stress", units), column(stress, "stress", units, 4))
        add("" if len(here) == 1 else "prestress", unit("force", units), column(acting, "force", units, 4))
        add("", "% of jack", [NOTHING if f is None else fixed(100 * f / jacked, 1) for f in acting])
    for name, values in faces(told).items():
        add(name, unit("stress", units), _stresses([float(values[s]) for s in steps], units))
    add("bends", unit("length", units), bends([float(past.deflection[s, told.bent]) for s in steps], units))
    if past.cracked.max(initial=0.0) > SETTLED:
        at = told.section
        add("cracked", "%", [fixed(100 * float(past.cracked[s, at]), 0) for s in steps])
        add(
            "steel at",
            f"crack {unit('stress', units)}",
            column([float(past.crack_stress[s, at]) or None for s in steps], "stress", units),
        )
    table = set_table(heads, body, align)
    over = 0 if width is None else len(table[0][0][0]) - width
    if over <= 0:
        return table
    room = max(max(map(len, body[2])) - over, LEAST_LABEL)
    body[2] = [text if len(text) <= room else text[: room - 1].rstrip() + "…" for text in body[2]]
    return set_table(heads, body, align)


def faces(told: Told) -> dict[str, np.ndarray]:
    """Stress over the steps at the section that is told, MPa, of each face of beam and topping; NaN before it acts."""
    past, at = told.past, told.section
    found = {"soffit": past.bottom[:, at], "top": past.top[:, at]}
    if past.topping_bottom is not None and past.topping_top is not None:
        acts = past.topping_strength > 0
        for key, values in (("topping low", past.topping_bottom), ("topping top", past.topping_top)):
            found[key] = np.where(acts, values[:, at], np.nan)
    return found


def bends(values: Sequence[float], units: Units, more: int = 0) -> list[str]:
    """Deflections with a word instead of a sign, ``"12.3 up"``; ``more``: decimals beyond the usual."""
    places = more + (3 if units == "US" else 1 if max(map(abs, values), default=0.0) >= 1 else 2)
    return [
        f"{fixed(in_unit(abs(v), 'length', units), places)} {'' if abs(v) < STRAIGHT else 'up' if v < 0 else 'down':4}"
        for v in values
    ]


def extremes(told: Told, units: Units) -> list[Line]:
    """The most compressed and the most pulled place of each face along the beam after every instant."""
    past = told.past
    heads: list[tuple[str, str]] = [("", ""), ("age", "")]
    body: list[list[str]] = [
        [str(n) for n in range(1, len(past.instants) + 1)],
        [age(float(past.t[i.step]), short=True) for i in past.instants],
    ]
    x = SHOWN_PLACE[past.beam.length > LONG]
    for face, values in (("soffit", past.bottom), ("top", past.top)):
        for word, pick in (("least", np.nanargmin), ("most", np.nanargmax)):
            found = [int(pick(values[i.step])) for i in past.instants]
            stress = [float(values[i.step, k]) for i, k in zip(past.instants, found, strict=True)]
            heads += [(f"{face} {word}", unit("stress", units)), ("at x", unit(x, units))]
            body += [_stresses(stress, units), column([float(past.x[k]) for k in found], x, units)]
    if past.cracked.max(initial=0.0) > SETTLED:
        most = [int(np.argmax(past.cracked[i.step])) for i in past.instants]
        shares = [float(past.cracked[i.step, k]) for i, k in zip(past.instants, most, strict=True)]
        heads += [("cracked", "%"), ("at x", unit(x, units)), ("steel at", f"crack {unit('stress', units)}")]
        where = [float(past.x[k]) if s > SETTLED else None for s, k in zip(shares, most, strict=True)]
        steel = [float(past.crack_stress[i.step].max()) or None for i in past.instants]
        body += [[fixed(100 * s, 0) for s in shares], column(where, x, units), column(steel, "stress", units)]
    table = set_table(heads, body, "rr" + "r" * (len(heads) - 2))
    return [[("the least and the most along the beam, tension positive", "faint")], *table]


def groups(told: Told, units: Units) -> list[Line]:
    """Stress of each tendon group after every instant at the place, where there are several groups."""
    past, at = told.past, told.station
    if len(past.tendons) < 2:
        return []
    lines: list[Line] = [[(f"stress of each group, {unit('stress', units)} (% of jack)", "faint")]]
    for first in range(0, len(past.tendons), GROUPS_A_BLOCK):
        block = past.tendons[first : first + GROUPS_A_BLOCK]
        heads = [("", ""), ("age", ""), *((name(t), t.tendon.label) for t in block)]
        body = [
            [str(n) for n in range(1, len(past.instants) + 1)],
            [age(float(past.t[i.step]), short=True) for i in past.instants],
            *([_share(float(t.stress[i.step, at]), t.jack, units) for i in past.instants] for t in block),
        ]
        lines += set_table(heads, body, "rr" + "r" * len(block))
    return lines


def name(tendon: TendonPast) -> str:
    return tendon.tendon.name or str(tendon.index + 1)


def _share(stress: float, jack: float, units: Units, places: int = 0) -> str:
    if not np.isfinite(stress):
        return NOTHING
    return f"{_stress(stress, units)} ({fixed(100 * stress / jack, places)})"


def _stress(value: float, units: Units) -> str:
    return fixed(in_unit(value, "stress", units), 1 if units == "US" else 0)


def _stresses(values: Sequence[float], units: Units) -> list[str]:
    """Stresses of concrete: a hundredth of a MPa, as the limits are given."""
    return [fixed(in_unit(v, "stress", units), 3 if units == "US" else 2) for v in values]


def places(told: Told, tendon: TendonPast) -> dict[str, int]:
    """Stations at which the losses of a group are told: the place, and the outermost where it is fully held."""
    full = np.flatnonzero((tendon.hold > HELD) & np.isfinite(tendon.stress[-1]))
    here = {"place": told.station} if ran(tendon, told.station) else {}
    if not len(full):
        return here
    return {**here, "left end": int(full[0]), "right end": int(full[-1])}


def parts(tendon: TendonPast, step: int, station: int) -> dict[str, float]:
    """Losses of one group at one step and station, MPa; ``total`` is jack less stress, ``rest`` what the others leave
    of it (a pretensioned end whose bond has not built up all)."""
    early = {"friction": tendon.friction, "draw-in": tendon.draw_in, "bed": tendon.bed}
    late = {"elastic": tendon.elastic, "creep": tendon.creep, "shrinkage": tendon.shrinkage}
    late |= {"relaxation": tendon.relaxation, "cracks": tendon.cracking}
    found = {key: float(values[station]) for key, values in early.items()}
    found |= {key: float(values[step, station]) for key, values in late.items()}
    total = tendon.jack - float(tendon.stress[step, station])
    return {**found, "rest": total - sum(found.values()), "total": total}


def losses(told: Told, step: int, units: Units, width: int | None = None) -> list[Line]:
    """Where the prestress of each group went until ``step``, one row for the place and each end where it runs.

    In a terminal too narrow for them the per cents of the parts are left out."""
    tendons = [(t, places(told, t)) for t in told.past.tendons]
    rows = [(t, key, station, parts(t, step, station)) for t, at in tendons for key, station in at.items()]
    if not rows:
        return []
    least = {"rest": SPARE}
    keys = [k for k in (*LOSSES, "rest") if any(abs(found[k]) > least.get(k, 1e-9) for *_, found in rows)]
    heads = [("", ""), ("jack", ""), *((OTHERWISE.get(k, k), "") for k in keys), ("total", ""), ("left", "")]
    names = [f"{name(t)}  {t.tendon.label}" for t, *_ in rows]
    what = f"losses until {age(float(told.past.t[step]))}, {unit('stress', units)}"
    for full in (True, False):

        def cell(value: float, jack: float, full: bool = full) -> str:
            return _share(value, jack, units, 1) if full else _stress(value, units)

        body = [
            [
                place_words(told, units) if key == "place" else _end(told, t, key, station, units),
                _stress(t.jack, units),
                *(cell(found[k], t.jack) for k in keys),
                *(_share(v, t.jack, units, 1) for v in (found["total"], float(t.stress[step, station]))),
            ]
            for t, key, station, found in rows
        ]
        table = set_table(heads, list(zip(*body, strict=True)), "l" + "r" * (len(keys) + 3), strong=False)
        if width is None or len(table[0][0][0]) <= width:
            break
    return [[(f"{what} (% of jack)", "faint")], *lead(table, names, width)]


def lead(table: list[Line], names: Sequence[str], width: int | None) -> list[Line]:
    """A table with the name of each run of its rows in a first column, or in own lines where that is too wide."""
    wide = max(map(len, names)) + 2
    heads, rows = table[: len(table) - len(names)], table[len(table) - len(names) :]
    out: list[Line] = []
    fits = width is None or wide + len(rows[0][0][0]) <= width
    if fits:
        out = [[(" " * wide, ""), *line] for line in heads]
    else:
        out = list(heads)
    for i, (text, line) in enumerate(zip(names, rows, strict=True)):
        new = i == 0 or text != names[i - 1]
        if fits:
            out.append([(text.ljust(wide) if new else " " * wide, ""), *line])
        else:
            out += [[(text, "")], line] if new else [line]
    return out


def measured(told: Told, units: Units) -> list[Line]:
    """Every measured deflection beside the computed one, and by how much it is off."""
    if told.measured is None:
        return []
    was, days = told.measured.deflection, told.measured.age
    came = told.measured.computed(told.past, told.past.deflection[:, told.station])
    heads = [
        ("age", ""),
        ("measured", unit("length", units)),
        ("computed", ""),
        ("error", ""),
        ("measured /", "computed"),
    ]
    body = [
        [age(float(day), short=True) for day in days],
        bends([float(v) for v in was], units, 1),
        bends([float(v) for v in came], units, 1),
        [_signed(float(c - w), units) for c, w in zip(came, was, strict=True)],
        [fixed(float(w / c), 2) if abs(c) > STRAIGHT else NOTHING for c, w in zip(came, was, strict=True)],
    ]
    align = "rrrrr"
    if (band := told.banded) is not None:
        low, high = (told.measured.computed(told.past, side) for side in band.deflection)
        heads.append(("in the", "band"))
        body.append(["yes" if a <= w <= b else "no" for a, w, b in zip(low, was, high, strict=True)])
        align += "l"
    head = "measured deflections; error: computed less measured, down positive"
    return [[(head, "faint")], *set_table(heads, body, align, strong=False)]


def _signed(value: float, units: Units) -> str:
    text = fixed(in_unit(value, "length", units), 3 if units == "US" else 2)
    return text if text.startswith("\N{MINUS SIGN}") else f"+{text}"


def _end(told: Told, tendon: TendonPast, key: str, station: int, units: Units) -> str:
    if tendon.tendon.when == "after curing":
        return key
    return f"bond full, {place_words(told, units, float(told.past.x[station]))}"


def set_table(
    heads: Sequence[tuple[str, str]], body: Sequence[Sequence[str]], align: str, strong: bool = True
) -> list[Line]:
    """Two faint rows of headings over the columns of ``body``; ``strong``: the last row is what the years come to."""
    rows = [[h for h, _ in heads], [u for _, u in heads], *map(list, zip(*body, strict=True))]
    cells = grid(rows, align)
    lines: list[Line] = [[("  ".join(row), "faint")] for row in cells[:2] if any(c.strip() for c in row)]
    last = len(cells) - 1
    return lines + [
        [("  ".join(row), "strong" if strong and i == last else "")] for i, row in enumerate(cells) if i > 1
    ]

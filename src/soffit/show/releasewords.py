"""Whether the strands may be released, as text: the verdict, the readings, what the heat does, notes and cautions."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from soffit.materials.ageing.release import CAUTION
from soffit.show.columns import Line, coloured, grid, hanging, plain, wrapped
from soffit.show.numbers import Units, column, fixed, quantity, sig, unit
from soffit.show.release import GAP, Facts, Heat
from soffit.show.stressingwords import REVIEW

LABEL = 10
"""Columns of the labels at the left."""
STEPS = (0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 48.0, 168.0)
"""Hours between the readings that are shown."""
MOST_ROWS = 11
CAUTIONS = (
    "The log speaks for the place of its probe alone; the coolest part of the member, often its ends and edges, rules "
    "(common practice).",
    "Stressed strands store energy, and it is set free as they are let go: release them slowly and evenly, in the "
    "order of the plan; stand clear of the line of the strands, at both ends of the bed.",
)


def told(
    facts: Facts,
    units: Units | None = None,
    width: int | None = None,
    colours: str | None = None,
    written: Sequence[str] = (),
) -> str:
    """The answer as text; arguments as those of :func:`soffit.show.story.told`."""
    lines = text(facts, units or facts.beam.units, width, written)
    return coloured(lines, colours) if colours else plain(lines)


def text(facts: Facts, units: Units, width: int | None, written: Sequence[str] = ()) -> list[Line]:
    style = "strong" if facts.answer.reached else "fails"
    lines: list[Line] = [[(piece, style)] for piece in wrapped(verdict(facts, units), width)]
    lines += [[(piece, "")] for piece in wrapped(standing(facts, units), width)]
    lines += [[], *table(facts, units), []]
    lines += hanging("steel", heats(facts.heats), width, LABEL)
    lines += hanging("notes", notes(facts, units), width, LABEL)
    assumed = [*facts.law.notes, *facts.log.notes, *facts.heat_notes]
    lines += hanging("assumed", assumed, width, LABEL, "faint")
    lines += hanging("caution", [CAUTION, *CAUTIONS, REVIEW], width, LABEL)
    lines += hanging("written", [", ".join(written)] if written else [], width, LABEL)
    return [*lines, [], *([(piece, style)] for piece in wrapped(closing(facts, units), width))]


# -- sentences -------------------------------------------------------------------------------------------------------


def hours(days: float) -> str:
    """A time since casting: "13.4 h", "6.2 days"."""
    return quantity_of(24.0 * days, "h", 1) if days < 4.0 else quantity_of(days, "days", 1)


def quantity_of(value: float, name: str, places: int) -> str:
    return f"{fixed(value, places)}\N{NARROW NO-BREAK SPACE}{name}"


def degrees(celsius: float, units: Units) -> str:
    return quantity_of(warmth(celsius, units), "°F" if units == "US" else "°C", 0)


def warmth(celsius: float, units: Units) -> float:
    return 1.8 * celsius + 32.0 if units == "US" else celsius


def when(facts: Facts, days: float) -> str:
    """A time since casting, and what the recorder's clock showed."""
    clock = facts.log.clock(days)
    return f"{hours(days)} after casting" + (f" ({clock})" if clock else "")


def _stresses(now: float, wanted: float, units: Units) -> tuple[str, str]:
    """Two strengths with as many digits as tell them apart."""
    digits = next((d for d in (3, 4, 5) if len({quantity(v, "stress", units, d) for v in (now, wanted)}) == 2), 3)
    return quantity(now, "stress", units, digits), quantity(wanted, "stress", units, digits)


def verdict(facts: Facts, units: Units) -> str:
    answer, end = facts.answer, facts.log.log.end
    now, wanted = _stresses(answer.strength, facts.wanted, units)
    if answer.time is not None:
        return (
            f"Yes, as far as temperature tells: by {facts.law.words} the {wanted} wanted were there "
            f"{when(facts, answer.time)}, and at the end of the log, at {hours(end)}, there are {now}."
        )
    has = f"the concrete has {now}" if answer.strength > 0.0 else "no strength is claimed"
    short = f"Not yet: by {facts.law.words} {has} {when(facts, end)}, and {wanted} are wanted"
    last = float(facts.log.log.temperatures[-1])
    if answer.forecast is None:
        return f"{short}; at the last temperature, {degrees(last, units)}, it does not get there within 28 days."
    return f"{short}; if it stays at {degrees(last, units)} it gets there in about {hours(answer.forecast)}."


def standing(facts: Facts, units: Units) -> str:
    """How much the verdict is worth."""
    if facts.law.own:
        return "That is the strength of this mix's cylinders at the same maturity."
    kind = "mean of a standard and not of this mix: half of such concretes have less"
    if not facts.law.mean:
        kind = "gain of a standard and not of this mix, up to the strength that was ordered"
    said = f"That is the {kind}. Cylinders of the mix (--cylinders) make it the mix's own."
    lower = facts.lower
    if lower is None:
        return said
    at = quantity(lower.strength, "stress", units)
    reached = f"are reached {when(facts, lower.time)}" if lower.time is not None else f"are not reached; there are {at}"
    return (
        f"{said} With 8 MPa less, as EN 1992-1-1:2004 3.1.2(5) takes it for the strength that 95 % exceed (up to 3 "
        f"days it asks for tests instead), the {quantity(facts.wanted, 'stress', units)} {reached}."
    )


def heats(found: Sequence[Heat]) -> list[str]:
    """One sentence for all groups that fare alike."""
    alike: dict[str, list[str]] = {}
    for heat in found:
        alike.setdefault(_heat(heat), []).append(heat.group.name)
    return [f"{', '.join(names)}: {text}" for text, names in alike.items()]


def _heat(heat: Heat) -> str:
    days = hours(heat.days)
    loss = f"{sig(100 * heat.hot, 2)} % of its stress at the jack"
    if heat.added == 0.0:
        return f"the log never passes 20 °C, so no heat adds to relaxation; {loss} relaxes in {days}."
    return (
        f"for relaxation the heat counts as {hours(heat.added)} under stress besides the {days} by the clock "
        f"(EN 1992-1-1:2004 10.3.2.1, from memory): {loss} is lost by 3.3.2, and {sig(100 * heat.cold, 2)} % without "
        "heat. The other commands count heat as the bed's warming in the beam file."
    )


def notes(facts: Facts, units: Units) -> list[str]:
    """What the physics remarks of log and law, but for the caution that has a place of its own."""
    return [*(note for note in facts.answer.notes if note != CAUTION), *_cooler(facts, units)]


def _cooler(facts: Facts, units: Units) -> list[str]:
    """What becomes of the answer if nothing better than the cooler end is known of every long gap."""
    if facts.cooler is None:
        return []
    at = quantity(facts.cooler.strength, "stress", units)
    reached = (
        "would not be reached" if facts.cooler.time is None else f"would be reached {when(facts, facts.cooler.time)}"
    )
    return [
        "Between readings temperature is taken to run straight; were it that of the cooler neighbour wherever there is "
        f"no reading for {GAP:g} h or more, there would be {at} in the end, and the "
        f"{quantity(facts.wanted, 'stress', units)} {reached}."
    ]


def closing(facts: Facts, units: Units) -> str:
    """One sentence that a colleague could be told on the phone."""
    answer = facts.answer
    now, wanted = _stresses(answer.strength, facts.wanted, units)
    whose = "its own cylinders' law" if facts.law.own else f"a standard's {'mean' if facts.law.mean else 'gain'}"
    name = facts.beam.name
    if answer.reached:
        last = "crush a cylinder that was cured with it, and if it has them too, let go"
        return f"{name}: by {whose} it has {now}, {wanted} are wanted; {last}."
    more = "it does not get there like this" if answer.forecast is None else f"about {hours(answer.forecast)} more"
    has = f"it has {now}" if answer.strength > 0.0 else "no strength is claimed"
    return f"{name}: do not release yet; by {whose} {has}, {wanted} are wanted, {more}."


# -- the readings ----------------------------------------------------------------------------------------------------


def shown(facts: Facts) -> list[int]:
    """Indices of the readings that the table shows: at even steps, and where something happens."""
    log = facts.log.log
    at = 24.0 * log.times
    step = next((s for s in STEPS if (at[-1] - at[0]) / s <= MOST_ROWS - 1), (at[-1] - at[0]) / MOST_ROWS)
    even = np.arange(np.ceil(at[0] / step), np.floor(at[-1] / step) + 1) * step
    kept = {int(np.argmin(np.abs(at - each))) for each in even}
    return sorted(
        {0, len(at) - 1, int(np.argmax(log.temperatures)), *(i for k in gaps(facts) for i in (k, k + 1)), *kept}
    )


def gaps(facts: Facts) -> list[int]:
    """Readings after which there is none for long."""
    return [int(k) for k in np.flatnonzero(24.0 * facts.log.log.durations >= GAP)][:4]


def grown_in(facts: Facts, units: Units) -> tuple[float, str]:
    """What a maturity is multiplied by for the table, and how its column is called."""
    name = facts.law.function.unit
    if name.startswith("°C"):
        return (24.0 * 1.8, "maturity, °F·h") if units == "US" else (24.0, "maturity, °C·h")
    at = float(name.removeprefix("days at ").removesuffix(" °C"))
    return 24.0, f"age at {degrees(at, units)}, h"


def table(facts: Facts, units: Units) -> list[Line]:
    log, answer = facts.log.log, facts.answer
    factor, grown_name = grown_in(facts, units)
    remarks = {0: "first reading", int(np.argmax(log.temperatures)): "hottest", len(log.times) - 1: "end of the log"}
    for k in gaps(facts):
        remarks[k] = f"then no reading for {hours(float(log.durations[k]))}"
    rows = [
        (
            float(log.times[i]),
            float(log.temperatures[i]),
            float(facts.grown[i]),
            float(facts.strengths[i]),
            remarks.get(i, ""),
        )
        for i in shown(facts)
    ]
    if answer.time is not None and answer.time > log.times[0]:
        warm, grown = (float(np.interp(answer.time, log.times, values)) for values in (log.temperatures, facts.grown))
        rows = [row for row in rows if row[0] != answer.time]
        rows = sorted([*rows, (answer.time, warm, grown, facts.wanted, "← wanted strength reached")])
    grown_texts = [fixed(factor * row[2], 1 if factor * rows[-1][2] < 1000 else 0) for row in rows]
    head = ["after casting, h", f"temperature, °{'F' if units == 'US' else 'C'}", grown_name]
    cells = [[*head, f"strength, {unit('stress', units)}", ""]]
    strengths = column([row[3] or None for row in rows], "stress", units)
    for row, grown_text, strength in zip(rows, grown_texts, strengths, strict=True):
        cells.append([fixed(24.0 * row[0], 1), fixed(warmth(row[1], units), 1), grown_text, strength, row[4]])
    return [
        [("  ".join(row), "faint" if n == 0 else "strong" if row[4].startswith("←") else "")]
        for n, row in enumerate(grid(cells, "rrrrl"))
    ]

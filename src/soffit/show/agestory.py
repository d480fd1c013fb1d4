"""The ageing of a beam as text: sentences, the table of its stages, losses, scatter, and one closing sentence."""

from __future__ import annotations

from collections.abc import Sequence

from soffit.show import agebeside, agelimits, agetable, agewords
from soffit.show.agewords import Told, age
from soffit.show.columns import Line, coloured, hanging, plain, wrapped
from soffit.show.numbers import Units, quantity
from soffit.show.story import LABEL, beam_line

REVIEW = (
    "A prediction, not a design check: a licensed engineer must review it, and the local code governs; it did not "
    "check fatigue, fire, temperature gradients or settling supports."
)
READING = (
    "stresses: tension positive, of the uncracked section; bends: from the straight beam on its supports, up is camber"
)


def told_text(
    told: Told,
    units: Units | None = None,
    width: int | None = None,
    colours: str | None = None,
    written: Sequence[str] = (),
    until: int | None = None,
    every: bool = False,
) -> str:
    """The story as text, its last line the closing sentence; arguments as :func:`soffit.show.story.told`.

    ``until``: the step until which losses are told; none: the last. ``every``: all limits of
    stress, not only the most used.
    """
    lines = story(told, units or told.past.beam.units, width, written, until, every)
    return coloured(lines, colours) if colours else plain(lines)


def story(
    told: Told,
    units: Units,
    width: int | None,
    written: Sequence[str] = (),
    until: int | None = None,
    every: bool = False,
) -> list[Line]:
    past = told.past
    step = len(past.t) - 1 if until is None else until
    lines: list[Line] = [[(piece, "strong")] for piece in wrapped(past.beam.name, width)]
    for text in (past.beam.about, beam_line(past.beam, units)):
        if text:
            lines += [[(piece, "faint")] for piece in wrapped(text, width)]
    lead = [*agewords.sentences(told, units), agelimits.short(told)]
    lines += [[], *([(piece, "")] for piece in wrapped(" ".join(filter(None, lead)), width)), []]
    lines += agetable.stages(told, units, width)
    place = agewords.place_words(told, units)
    apart = [
        f"{what} at {agewords.place_words(told, units, float(past.x[station]))}"
        for what, station in (("stresses", told.section), ("bends", told.bent))
        if station != told.station
    ]
    where = ", ".join([*apart, f"{'all else' if apart else 'all'} at {place}"])
    lines += [[(piece, "faint")] for piece in wrapped(f"{where} from the left end; {READING}", width)]
    blocks = [
        agetable.extremes(told, units),
        agelimits.lines(told, units, width, every),
        agetable.groups(told, units),
        agetable.losses(told, step, units, width),
        agebeside.lines(told, step, units, width),
        agebeside.deflection_lines(told, step, units, width),
        agetable.measured(told, units),
    ]
    for block in blocks:
        lines += [[], *block] if block else []
    lines += [[]]
    lines += hanging("scatter", scatter(told, units), width, LABEL)
    lines += hanging("assumed", past.notes, width, LABEL, "faint")
    lines += hanging("caution", (*past.cautions, REVIEW), width, LABEL)
    lines += hanging("written", [", ".join(written)] if written else [], width, LABEL)
    return [*lines, [], *([(piece, "strong")] for piece in wrapped(agewords.closing(told, units), width))]


def scatter(told: Told, units: Units) -> list[str]:
    """The band at the last step, and what it comes from."""
    band, past = told.band, told.past
    if band is None:
        return []
    x = agewords.place_words(told, units, float(past.x[band.station]))
    low, high = (float(side[-1]) for side in band.deflection)
    parts = [f"bends {agewords.bend(low, units)} to {agewords.bend(high, units)}"]
    for name, (least, most) in (("soffit", band.bottom), ("top", band.top)):
        parts.append(
            f"{name} {quantity(float(least[-1]), 'stress', units)} to {quantity(float(most[-1]), 'stress', units)}"
        )
    for tendon, (least, most) in zip(past.tendons, band.stress, strict=True):
        if len(past.tendons) <= agetable.GROUPS_A_BLOCK:
            ends = (quantity(float(v[-1]), "stress", units) for v in (least, most))
            parts.append(f"{agetable.name(tendon)} {' to '.join(ends)}")
    head = f"At {age(float(past.t[-1]))} and {x}, nine times in ten (5 % to 95 %): {'; '.join(parts)}."
    return [head, f"{agewords.SCATTERS} {'; '.join(band.sources)}."]

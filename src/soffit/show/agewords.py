"""The ageing of a beam in sentences: what it does at first, what the years do, whether it cracks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from soffit.codes.stages import at_stages
from soffit.member.time.schedule import days
from soffit.show.numbers import THIN, Units, fixed, given, in_unit, quantity, unit

if TYPE_CHECKING:
    from soffit.member.time.result import Band, Instant, Past, TendonPast
    from soffit.show.agemeasured import Measured

STRAIGHT = 0.005
"""mm: a deflection smaller than this is called none."""
LONG = 4000.0
"""Beams longer than this, mm, are measured in m (ft) along their length."""
SCATTERS = "What was let scatter, each with its coefficient of variation:"
NONE = 0.05
"""MPa: a tension smaller than this is called none."""
BARE = 0.2
"""Share of the greatest moment below which a section says nothing of the stresses."""
SETTLED = 5e-4
"""Share ζ of cracked behaviour from which a place is called cracked."""


@dataclass(frozen=True)
class Told:
    """A past with what of it is told: one place, and the scatter if it was asked for."""

    past: Past
    station: int
    band: Band | None = None
    measured: Measured | None = None
    """Deflections at the place."""
    chosen: bool = True
    """Whether the place was asked for; else it is where the beam bends most."""

    @property
    def x(self) -> float:
        return float(self.past.x[self.station])

    @property
    def begun(self) -> int:
        """Step from which the beam bends."""
        return self.first.step if self.first else 0

    @property
    def section(self) -> int:
        """Station whose stresses are told: the place; unless it was asked for, the section with the greatest moment
        where there is next to none at the place, as at the tip of a cantilever."""
        moment = np.abs(self.past.moment[-1])
        bare = not self.chosen and moment[self.station] < BARE * moment.max(initial=0.0)
        return int(np.argmax(moment)) if bare else self.station

    @property
    def bent(self) -> int:
        """Station whose deflection is told: the place, or where the beam bends most if it never bends at the place, as
        over a support."""
        still = float(np.abs(self.past.deflection[:, self.station]).max()) < STRAIGHT
        return self.past.middle if still and self.measured is None else self.station

    @property
    def bent_band(self) -> Band | None:
        return self.banded if self.bent == self.station else None

    @property
    def banded(self) -> Band | None:
        """The band, if it is that of the place that is told."""
        return self.band if self.band is not None and self.band.station == self.station else None

    @property
    def first(self) -> Instant | None:
        """When the beam first bends."""
        bends = np.abs(self.past.deflection).max(axis=1) > STRAIGHT
        return next((i for i in self.past.instants if bends[i.step]), None)


def age(at: float, short: bool = False) -> str:
    """An age in days as people say it: hours below a day, years from two on; ``short``: "28 d"."""
    text = days(at)
    if not short:
        return text
    number, word = text.split(" ")
    return f"{number}{THIN}{word[0]}"


def bend(value: float, units: Units) -> str:
    """``"12.3 mm up"``: a deflection in words, since camber is negative and would be misread."""
    if abs(value) < STRAIGHT:
        return f"0{THIN}{unit('length', units)}"
    return f"{size(value, units)} {'up' if value < 0 else 'down'}"


def size(value: float, units: Units) -> str:
    """Size of a deflection: a tenth of a mm (a thousandth of an inch) is as fine as anybody measures it."""
    shown = in_unit(abs(value), "length", units)
    fine = 3 if units == "US" else 2 if shown < 1 else 1
    return f"{fixed(shown, fine)}{THIN}{unit('length', units)}"


def verb(value: float) -> str:
    return "stays straight" if abs(value) < STRAIGHT else "cambers" if value < 0 else "sags"


def sentences(told: Told, units: Units) -> list[str]:
    """Two to four sentences: at first, over the years, prestress, cracks."""
    past = told.past
    found = [_beginning(told, units), _years(told, units)]
    if past.tendons:
        found.append(_prestress(told, units))
    found.append(_cracks(told, units))
    return [text for text in found if text]


def closing(told: Told, units: Units) -> str:
    """One sentence for the phone."""
    past = told.past
    value = float(past.deflection[-1, told.bent])
    text = f"{past.beam.name}: at {age(float(past.t[-1]))} it {_bends(value, units)}{_between(told, units, past.t[-1])}"
    if past.tendons:
        text += f", keeps {_kept(told):.0f}{THIN}% of its jacking stress"
    cracked = past.cracked.max(initial=0.0) > SETTLED
    text += ", and is cracked" if cracked else ", and has not cracked"
    forbidden = any(check.binding and not check.kept for check in at_stages(past))
    return text + ("; limits of stress are not kept." if forbidden else ".")


def _bends(value: float, units: Units) -> str:
    return verb(value) if abs(value) < STRAIGHT else f"{verb(value)} {size(value, units)}"


def place_words(told: Told, units: Units, x: float | None = None) -> str:
    """A place along the beam (none: the one that is told), as one word that no line breaks."""
    kind = "span" if told.past.beam.length > LONG else "length"
    return f"x{THIN}={THIN}{given(round(told.x if x is None else x, 1), kind, units)}"


def _beginning(told: Told, units: Units) -> str:
    first = told.first
    if first is None:
        return "It does not bend."
    value = float(told.past.deflection[first.step, told.bent])
    when = f"At {age(float(told.past.t[first.step]))} ({first.label})"
    return f"{when} it {_bends(value, units)} at {place_words(told, units, float(told.past.x[told.bent]))}."


def _years(told: Told, units: Units) -> str:
    first, past = told.first, told.past
    if first is None:
        return ""
    start = float(past.deflection[first.step, told.bent])
    end = float(past.deflection[-1, told.bent])
    until = age(float(past.t[-1]))
    bends = _bends(end, units)
    if start * end < 0:
        text = f"Loads and years turn this round: at {until} it {bends}"
    elif abs(end) > 1.02 * abs(start):
        text = f"Loads and years let this grow: at {until} it {bends}"
    elif abs(end) < 0.98 * abs(start):
        text = f"Loads and years take from this: at {until} it {bends}"
    else:
        text = f"Loads and years change little: at {until} it {bends}"
    return f"{text}{_between(told, units, past.t[-1])}."


def _between(told: Told, units: Units, day: float) -> str:
    band = told.bent_band
    if band is None:
        return ""
    step = told.past.at(float(day))
    low, high = (float(side[step]) for side in band.deflection)
    if low < 0 and high < 0:
        low, high = high, low
    if low * high < 0 or max(abs(low), abs(high)) < STRAIGHT:
        words = f"{bend(low, units)} and {bend(high, units)}"
    else:
        words = f"{size(low, units)} and {size(high, units)}"
    return f" (nine times in ten between {words})"


def ran(tendon: TendonPast, station: int) -> bool:
    """Whether a group has stress at the station at the end."""
    return bool(np.isfinite(tendon.stress[-1, station]) and tendon.hold[station] > 0)


def _kept(told: Told) -> float:
    """Share of the jacking force that is left at the place, per cent; groups that do not run there do not count."""
    here = [t for t in told.past.tendons if ran(t, told.station)] or []
    jacked = sum(t.jack * t.tendon.area for t in here)
    left = sum(float(t.stress[-1, told.station]) * t.tendon.area for t in here)
    return 100 * left / jacked if jacked else float("nan")


def _prestress(told: Told, units: Units) -> str:
    past = told.past
    here = [t for t in past.tendons if ran(t, told.station)]
    if not here:
        return f"No tendon runs at {place_words(told, units)}."
    force = np.sum([np.nan_to_num(t.force()[:, told.station]) for t in here], axis=0)
    begun = next((i.step for i in past.instants if i.stage.what in ("release", "stress") and force[i.step] > 0), 0)
    jacked = sum(t.jack * t.tendon.area for t in here)
    ages = [age(float(past.t[n])) for n in (begun, -1)]
    left = [quantity(float(f), "force", units) for f in (force[begun], force[-1])]
    return (
        f"Of the {quantity(jacked, 'force', units)} at the jack {left[0]} stand at {place_words(told, units)} at "
        f"{ages[0]}, and {left[1]} ({_kept(told):.0f}{THIN}%) at {ages[1]}."
    )


def _cracks(told: Told, units: Units) -> str:
    past = told.past
    cracked = past.cracked.max(axis=1) > SETTLED
    if cracked.any():
        step = int(np.argmax(cracked))
        station = int(np.argmax(past.cracked[step]))
        face = "soffit" if past.bottom[step, station] >= past.top[step, station] else "top"
        place = place_words(told, units, float(past.x[station]))
        cause = [i for i in past.instants if i.step == step or i.step == step + 1]
        when = f" ({cause[-1].label})" if cause else ""
        text = f"It cracks at {age(float(past.t[step]))}{when}, first at the {face} at {place}"
        steel = float(past.crack_stress.max(initial=0.0))
        return text + (f"; the steel at a crack reaches {quantity(steel, 'stress', units)}." if steel > 0 else ".")
    return f"It does not crack: {_compressed(told, units)}."


def _compressed(told: Told, units: Units) -> str:
    """The greatest stress of the soffit after the beam first bends."""
    past, begun = told.past, told.begun
    faces = {"soffit": past.bottom[begun:], "top": past.top[begun:]}
    worst = {name: float(np.nanmax(values)) for name, values in faces.items()}
    if max(worst.values()) < NONE:
        return "the whole beam stays compressed"
    lead = "the soffit stays compressed" if worst["soffit"] < NONE else ""
    name = max(worst, key=lambda n: worst[n])
    step, station = np.unravel_index(int(np.nanargmax(faces[name])), faces[name].shape)
    tensile = float(past.tensile[begun + int(step)])
    place = place_words(told, units, float(past.x[station]))
    rest = (
        f"the tension at the {name} reaches {quantity(worst[name], 'stress', units, 2)} of a tensile strength of "
        f"{quantity(tensile, 'stress', units, 2)} ({place}, {age(float(past.t[begun + int(step)]))})"
    )
    return f"{lead}; {rest}" if lead else rest


__all__ = ["Told", "age", "bend", "closing", "sentences", "size", "verb"]

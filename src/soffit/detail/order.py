"""The order in which tendons are stressed, and what each loses to those that come after it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from soffit.materials.ageing import models
from soffit.materials.curve import Array
from soffit.materials.properties import at_strength
from soffit.member import profile
from soffit.member.beam import Beam, TendonGroup
from soffit.member.making import Stage

WITHIN = "in a group from the middle outwards in pairs"
RULE = (
    "group by group, the nearest to the centroid first and the outermost last, and "
    f"{WITHIN}: so the force stays as central as it can while little of it is on, and the beam is bent sideways least "
    "(common practice)"
)
POINTS = 201


@dataclass(frozen=True)
class Turn:
    """Whose turn it is: the group's index in the beam, and the tendon's number in it, from 1 at the left face."""

    group: int
    number: int
    day: float | None = None
    """Age of the beam when it is stressed, by the stages of the file."""


def letters(index: int) -> str:
    """A, B, …, Z, AA, …: names that no spreadsheet takes for a number or a date."""
    text = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def name(group: str, number: int) -> str:
    """Of one tendon: A1; with a space where the group's name is no letter or two, so that no two are alike."""
    return f"{group}{number}" if group.isalpha() and len(group) <= 2 else f"{group} {number}"


def order(beam: Beam, when: str) -> list[Turn]:
    """The tendons stressed ``when`` ("before casting" or "after curing"): as the stages say, else by ``RULE``."""
    said = [(i, s.at) for s in _stressing(beam) for i in s.tendons if beam.tendons[i].when == when]
    named = {i for i, _ in said}
    others = [i for i, t in enumerate(beam.tendons) if t.when == when and i not in named]
    turns = []
    for index, day in [*said, *((i, None) for i in sorted(others, key=lambda i: _eccentricity(beam, i)))]:
        count = beam.tendons[index].count
        middle = (count + 1) / 2
        turns += [Turn(index, n, day) for n in sorted(range(1, count + 1), key=lambda n: abs(n - middle))]
    return turns


def from_stages(beam: Beam, when: str) -> bool:
    """Whether the file's stages say the order."""
    return any(beam.tendons[i].when == when for stage in _stressing(beam) for i in stage.tendons)


def _stressing(beam: Beam) -> list[Stage]:
    return [stage for stage in beam.making.stages if stage.what == "stress"] if beam.making else []


def _eccentricity(beam: Beam, index: int) -> float:
    """Mean distance from the centroid; rounded, so that like groups keep the order of the file."""
    tendon = beam.tendons[index]
    x = np.linspace(tendon.x_from, tendon.x_to, POINTS)
    return round(float(np.mean(np.abs(profile.height(tendon.profile, x) - beam.outline.centroid))), 6)


def shortening_losses(beam: Beam, turns: Sequence[Turn], locked: dict[int, tuple[Array, Array]]) -> list[float]:
    """Stress, MPa, that each tendon of ``turns`` loses on average along it to the tendons stressed after it.

    ``locked``: stations and stress (MPa) of each group's tendons after lock-off. A force P at e shortens the concrete
    at e' by P (1/A + e e'/I)/Ec; a tendon stressed before loses E times the mean of that along it, grouted by then or
    not. Gross section, :func:`modulus` of the concrete on the day of the later one; self weight, bars, the slope of
    the tendons and the moments that supports leave open are left out. Negative where later tendons stretch the
    concrete beside it.

    For n tendons alike the mean is ½ (n − 1)/n of the shortening by all: EN 1992-1-1:2004 5.10.5.1 (*from memory*).
    """
    groups = sorted({turn.group for turn in turns})
    each = {(i, j): _taken(beam, beam.tendons[i], beam.tendons[j], locked[j]) for i in groups for j in groups}
    stiff = {turn.day: modulus(beam, turn.day) for turn in turns}
    return [
        sum(each[turn.group, later.group] / stiff[later.day] for later in turns[place + 1 :])
        for place, turn in enumerate(turns)
    ]


def modulus(beam: Beam, day: float | None) -> float:
    """Modulus of the beam's concrete, MPa, when tendons are stressed.

    On the first day of stressing, and where no day is known, at the strength at transfer where the file gives it, else
    as it stands; on a known day by the ageing model of the file, without correction of the age for temperature.
    """
    days = [stage.at for stage in _stressing(beam)]
    first = day is None or day <= min(days)
    if first and beam.concrete.strength_at_transfer is not None:
        return at_strength(beam.concrete, beam.concrete.strength_at_transfer).modulus
    if day is None or beam.making is None:
        return beam.concrete.modulus
    ageing = models.model(beam.making.model, beam.making.casting)
    return float(ageing.modulus(day)) * beam.making.scales.modulus


def _taken(beam: Beam, mine: TendonGroup, other: TendonGroup, locked: tuple[Array, Array]) -> float:
    """Mean stress that one tendon of ``other`` takes from one of ``mine``, MPa, times the concrete's modulus."""
    outline = beam.outline
    x = np.linspace(mine.x_from, mine.x_to, POINTS)
    force = np.interp(x, *locked) * other.area / other.count * ((x >= other.x_from) & (x <= other.x_to))
    axis = outline.centroid
    arms = (profile.height(mine.profile, x) - axis) * (profile.height(other.profile, x) - axis)
    strain = force * (1.0 / outline.area + arms / outline.inertia)
    return float(mine.steel.modulus * np.trapezoid(strain, x) / (x[-1] - x[0]))

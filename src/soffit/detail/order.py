"""The order in which tendons are stressed, and what each loses to those that come after it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array
from soffit.materials.properties import at_strength
from soffit.member import profile
from soffit.member.beam import Beam, TendonGroup

RULE = (
    "group by group, the nearest to the centroid first and the outermost last, and in a group from the middle outwards "
    "in pairs: so the force stays as central as it can while little of it is on, and the beam is bent sideways least "
    "(common practice)"
)
POINTS = 201


@dataclass(frozen=True)
class Turn:
    """Whose turn it is: the group's index in the beam, and the tendon's number in it, from 1 at the left face."""

    group: int
    number: int


def letters(index: int) -> str:
    """A, B, …, Z, AA, …: names that no spreadsheet takes for a number or a date."""
    text = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        text = chr(ord("A") + rest) + text
    return text


def order(beam: Beam, when: str) -> list[Turn]:
    """The tendons stressed ``when`` ("before casting" or "after curing"), by ``RULE``."""
    groups = [i for i, t in enumerate(beam.tendons) if t.when == when]
    centroid = beam.outline.centroid

    def eccentricity(index: int) -> float:
        tendon = beam.tendons[index]
        x = np.linspace(tendon.x_from, tendon.x_to, POINTS)
        return round(float(np.mean(np.abs(profile.height(tendon.profile, x) - centroid))), 6)

    turns = []
    for index in sorted(groups, key=eccentricity):
        middle = (beam.tendons[index].count + 1) / 2
        numbers = range(1, beam.tendons[index].count + 1)
        turns += [Turn(index, n) for n in sorted(numbers, key=lambda n: abs(n - middle))]
    return turns


def shortening_losses(beam: Beam, turns: Sequence[Turn], locked: dict[int, tuple[Array, Array]]) -> list[float]:
    """Stress, MPa, that each tendon of ``turns`` loses on average along it to the tendons stressed after it.

    ``locked``: stations and stress (MPa) of each group's tendons after lock-off. A force P at e shortens the concrete
    at e' by P (1/A + e e'/I)/Ec; between its anchors a tendon not yet grouted loses E times the mean of that. Gross
    section, modulus of the concrete at transfer where its strength then is given; self weight, bars and the moments
    that supports leave open are left out. Negative where later tendons stretch the concrete beside it.

    For n tendons alike the mean is ½ (n − 1)/n of the shortening by all: EN 1992-1-1:2004 5.10.5.1 (*from memory*).
    """
    groups = sorted({turn.group for turn in turns})
    each = {(i, j): _taken(beam, beam.tendons[i], beam.tendons[j], locked[j]) for i in groups for j in groups}
    return [
        sum(each[turn.group, later.group] for later in turns[place + 1 :]) if place + 1 < len(turns) else 0.0
        for place, turn in enumerate(turns)
    ]


def _taken(beam: Beam, mine: TendonGroup, other: TendonGroup, locked: tuple[Array, Array]) -> float:
    """Mean stress that one tendon of ``other`` takes from a tendon of ``mine``, MPa."""
    concrete, outline = beam.concrete, beam.outline
    if concrete.strength_at_transfer is not None:
        concrete = at_strength(concrete, concrete.strength_at_transfer)
    x = np.linspace(mine.x_from, mine.x_to, POINTS)
    force = np.interp(x, *locked) * other.area / other.count * ((x >= other.x_from) & (x <= other.x_to))
    axis = outline.centroid
    arms = (profile.height(mine.profile, x) - axis) * (profile.height(other.profile, x) - axis)
    strain = force * (1.0 / outline.area + arms / outline.inertia) / concrete.modulus
    return float(mine.steel.modulus * np.trapezoid(strain, x) / (x[-1] - x[0]))

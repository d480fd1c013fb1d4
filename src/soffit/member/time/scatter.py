"""How far a history scatters: what it depends on is moved by a standard deviation each way, one thing at a time."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from soffit.errors import SoffitError
from soffit.materials.curve import Array
from soffit.member.beam import Beam
from soffit.member.making import Making, Scales
from soffit.member.time.engine import past
from soffit.member.time.result import Band, Past
from soffit.member.time.schedule import making_of

FRACTILE = 1.645
"""Standard deviations from the mean to the 5 % and 95 % fractiles of a normal distribution."""


@dataclass(frozen=True)
class Source:
    """One thing that scatters: a field of :class:`Scales`, its coefficient of variation and where that is from."""

    scale: str
    deviation: float
    said: str


CREEP_SOURCE = "fib Model Code 2010 5.1.9.4.3 (from memory)"
SHRINKAGE_SOURCE = "fib Model Code 2010 5.1.9.4.4 (from memory)"
JCSS = "JCSS Probabilistic Model Code, part 3"
SOURCES = (
    Source("creep", 0.25, f"creep 25 % ({CREEP_SOURCE})"),
    Source("shrinkage", 0.35, f"shrinkage 35 % ({SHRINKAGE_SOURCE})"),
    Source("modulus", 0.15, f"modulus 15 % ({JCSS})"),
    Source("tensile", 0.30, f"tensile strength 30 % ({JCSS})"),
    Source("relaxation", 0.30, f"relaxation 30 % ({JCSS}, loss of prestress)"),
    Source("prestress", 0.05, f"stress at the jack 5 % ({JCSS}, 4 to 6 %)"),
)
"""Coefficients of variation, each of an independent normal variable."""


def band(beam: Beam, station: int | None = None, mean: Past | None = None, *, pieces: int = 40) -> Band:
    """The history of ``beam`` with its 5 % and 95 % fractiles at one station (that of the greatest deflection unless
    given).

    Each source is moved by its standard deviation up and down; the changes are added as squares, those upward and those
    downward apart (first order, second moment). Raises as :func:`soffit.member.time.past` does for the mean history; a
    source whose move breaks the beam is left out and said.
    """
    made = making_of(beam)
    middle = mean or past(beam, pieces=pieces)
    place = middle.middle if station is None else station
    looks: list[Callable[[Past], Array]] = [
        lambda p: p.deflection[:, place],
        lambda p: p.bottom[:, place],
        lambda p: p.top[:, place],
        *(_stress_of(i, place) for i in range(len(middle.tendons))),
    ]
    base = [look(middle) for look in looks]
    up, down = ([np.zeros_like(b) for b in base] for _ in range(2))
    said = []
    for source in SOURCES:
        if source.scale in ("relaxation", "prestress") and not beam.tendons:
            continue
        moved = [_moved(beam, made, source, sign, pieces) for sign in (1.0, -1.0)]
        kept = [m for m in moved if m is not None]
        said.append(
            source.said if len(kept) == 2 else f"{source.said}, on one side only, for the other breaks the beam"
        )
        for i, look in enumerate(looks):
            changes = np.array([np.nan_to_num(look(other) - base[i]) for other in kept]).reshape(len(kept), -1)
            up[i] += np.max(changes, axis=0, initial=0.0) ** 2
            down[i] += np.min(changes, axis=0, initial=0.0) ** 2
    pairs = [(b - FRACTILE * np.sqrt(d), b + FRACTILE * np.sqrt(u)) for b, u, d in zip(base, up, down, strict=True)]
    return Band(middle, place, pairs[0], pairs[1], pairs[2], tuple(pairs[3:]), tuple(said))


def _stress_of(group: int, place: int) -> Callable[[Past], Array]:
    return lambda p: p.tendons[group].stress[:, place]


def _moved(beam: Beam, made: Making, source: Source, sign: float, pieces: int) -> Past | None:
    was: Scales = made.scales
    value = getattr(was, source.scale) * (1.0 + sign * source.deviation)
    try:
        return past(beam, making=replace(made, scales=replace(was, **{source.scale: value})), pieces=pieces)
    except SoffitError:
        return None

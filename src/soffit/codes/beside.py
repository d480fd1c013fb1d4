"""What the standards' approximate formulas say, side by side with the computation step by step."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from soffit.codes import instants, multiplied
from soffit.codes.aashto import beside as aashto
from soffit.codes.aci318 import beside as aci
from soffit.codes.aci318 import sag as aci_sag
from soffit.codes.bent import Bent, Watched
from soffit.codes.en1992 import beside as en
from soffit.codes.en1992 import sag as en_sag
from soffit.codes.lost import STEPS, Looked, Row, spread
from soffit.errors import PhysicsError, SoffitError
from soffit.member.time.result import Past

Way = Callable[[Looked, Looked, Row], Row]
EACH: tuple[tuple[str, Way], ...] = ((en.NAME, en.row),)
"""Formulas that are asked for every tendon group."""
TOGETHER: tuple[tuple[str, Way], ...] = (
    ("AASHTO LRFD, approximate", aashto.approximate),
    ("AASHTO LRFD, refined", aashto.refined),
    ("ACI 318-19 (Zia and others)", aci.row),
)
"""Formulas that know one centroid of all tendons."""

CRACKED = " The section has cracked, of which the formula knows nothing: there the tendon is stretched more."


@dataclass(frozen=True)
class Beside:
    rows: tuple[Row, ...]
    left_out: tuple[str, ...]
    """Which formula does not speak of these tendons, and why; one sentence each."""


def approximate(past: Past, station: int, step: int | None = None) -> tuple[Row, ...]:
    """The rows of :func:`losses`."""
    return losses(past, station, step).rows


def losses(past: Past, station: int, step: int | None = None) -> Beside:
    """Losses until ``step`` (none: the last) at a station: step by step and by EN 1992-1-1 (5.44) and (5.46) for every
    tendon group that runs there; for the centroid of those that are stressed in the same manner by AASHTO LRFD and, as
    ACI 318 refers to it, by Zia and others. Of unbonded tendons the mean along their length.

    Every block begins with its step-by-step row. A tendon that is not stressed by then has no row.
    """
    until = len(past.t) - 1 if step is None else step
    rows: list[Row] = []
    out: list[str] = []
    here = [i for i in range(len(past.tendons)) if _runs(past, i, station, until)]
    if not here:
        return Beside((), ())
    everything = Looked(past, tuple(here), "all tendons", _at(past, station), until)
    kinds = {(past.beam.tendons[i].when, past.beam.tendons[i].bond) for i in here}
    for i in here:
        looked = Looked(past, (i,), f"tendon {_name(past, i)}", spread(past, i, station), until)
        ways = EACH if len(here) > 1 else EACH + TOGETHER
        _block(looked, everything, ways, rows, out)
    if len(here) > 1:
        for when, bond in sorted(kinds):
            same = tuple(i for i in here if (past.beam.tendons[i].when, past.beam.tendons[i].bond) == (when, bond))
            word = "pretensioned" if when == "before casting" else f"post-tensioned {bond}"
            looked = Looked(past, same, f"all {word} tendons", spread(past, same[0], station), until)
            _block(looked, everything, TOGETHER, rows, out)
    return Beside(tuple(rows), tuple(dict.fromkeys(out)))


def _block(
    looked: Looked, everything: Looked, ways: tuple[tuple[str, Way], ...], rows: list[Row], out: list[str]
) -> None:
    ours = Row(looked.groups, looked.of, STEPS, looked.past.model, looked.t, looked.parts())
    rows.append(ours)
    cracked = CRACKED if looked.here(looked.past.cracked[looked.until]) > 0.0 else ""
    for name, way in ways:
        try:
            row = way(looked, everything, ours)
            rows.append(replace(row, sentence=row.sentence + cracked))
        except (ValueError, SoffitError) as error:
            out.append(f"{name} gives nothing for {looked.of}: {error}.")


def _runs(past: Past, group: int, station: int, until: int) -> bool:
    tendon = past.tendons[group]
    if past.beam.tendons[group].bond == "unbonded":
        return bool(np.any(np.nan_to_num(tendon.stress[until]) > 0.0))
    return bool(np.nan_to_num(tendon.stress[until, station]) > 0.0)


def _at(past: Past, station: int) -> np.ndarray:
    weights = np.zeros_like(past.x)
    weights[station] = 1.0
    return weights


def _name(past: Past, group: int) -> str:
    return past.beam.tendons[group].name or str(group + 1)


@dataclass(frozen=True)
class Sagged:
    rows: tuple[Bent, ...]
    left_out: tuple[str, ...]


def deflections(past: Past, station: int | None = None, step: int | None = None) -> tuple[Bent, ...]:
    """The rows of :func:`sags`."""
    return sags(past, station, step).rows


def sags(past: Past, station: int | None = None, step: int | None = None) -> Sagged:
    """Deflection at a station (none: where it is greatest at the end) and a step (none: the last): step by step, and of
    ordinary beams by ACI 318-19 24.2 and EN 1992-1-1 7.4.3, of pretensioned ones by multipliers.

    The first row is the one step by step. Raises ``PhysicsError`` before the beam bears anything.
    """
    at = past.middle if station is None else station
    watched = Watched(past, at, len(past.t) - 1 if step is None else step)
    if not instants.jumps(past, watched.until):
        raise PhysicsError("nothing loads the beam by then, and it has no deflection")
    ours = _stepped(watched)
    ways: tuple[tuple[str, Callable[[Watched, Bent], Bent]], ...] = (
        (aci_sag.NAME, aci_sag.row),
        (en_sag.NAME, en_sag.row),
    )
    out: list[str] = []
    if past.beam.tendons:
        ways = ((multiplied.NAME, multiplied.row),)
        out.append(
            "ACI 318-19 24.2.4.2 and EN 1992-1-1 7.4.3 have no formula of their own for prestressed beams: they ask "
            "for creep, shrinkage and relaxation to be followed."
        )
    elif past.topping_top is not None:
        ways = ()
        out.append("The formulas for ordinary beams know no topping that is cast later.")
    rows = [ours]
    for name, way in ways:
        try:
            rows.append(way(watched, ours))
        except (ValueError, SoffitError) as error:
            out.append(f"{name} gives nothing here: {error}.")
    return Sagged(tuple(rows), tuple(out))


def _stepped(watched: Watched) -> Bent:
    """At once: of prestressed beams the state just after they all have their stress, else what every load adds at
    once."""
    past, at = watched.past, watched.station
    if past.beam.tendons:
        first = [j for j in instants.jumps(past, watched.until) if j.groups]
        immediate = float(past.deflection[instants.settled(past, first[-1].step), at]) if first else 0.0
    else:
        immediate = sum(change for _, change in watched.jumps())
    return Bent(STEPS, past.model, watched.t, watched.x, immediate, float(past.deflection[watched.until, at]))

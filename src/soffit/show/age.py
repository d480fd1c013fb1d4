"""``soffit age``: from beam files to what their ageing prints, draws and writes; one file's fault reaches no other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from soffit.errors import SoffitError
from soffit.show.agewords import LONG, Told, age
from soffit.show.batch import Units, sentences
from soffit.show.numbers import THIN, given
from soffit.show.place import Place, Usage

if TYPE_CHECKING:
    from soffit.member.beam import Beam


@dataclass(frozen=True)
class Order:
    """What is wanted of one beam file."""

    path: str
    at: float | None = None
    """Days: an age to be told besides those of the stages, and until which losses are told."""
    place: float | None = None
    """mm from the left end; none: where it bends most at the end."""
    measured: str | None = None
    """A table of deflections that were measured there."""
    with_band: bool = True
    every_limit: bool = False
    units: Units | None = None
    brief: bool = False
    width: int | None = None
    colours: str | None = None
    json: Place | None = None
    picture: Place | None = None
    csv: Place | None = None


@dataclass(frozen=True)
class Outcome:
    story: str | None
    problems: tuple[str, ...]


def typed(text: str | None, option: str, dimension: str) -> float | None:
    """A quantity that was typed after an option. Raises :class:`Usage` with one sentence."""
    if text is None:
        return None
    from soffit.units import UnitError, parse

    try:
        value = parse(text, dimension)
    except UnitError as error:
        raise Usage(f"{option}: {error}.".replace("?.", "?")) from error
    if dimension == "time" and value <= 0:
        raise Usage(f"{option} “{text}”: that is not after casting; ages are counted from the day of casting.")
    return value


def carry_out(order: Order) -> Outcome:
    """Whatever happens comes back as an outcome; only an interruption is raised."""
    try:
        told, until = told_of(order)
    except Exception as error:
        return Outcome(None, tuple(sentences(error, order.path)))
    problems: list[str] = []
    for write in (_write_json, _write_csv, _draw):
        try:
            write(order, told)
        except Exception as error:
            problems += sentences(error, order.path)
    try:
        return Outcome(_tell(order, told, until), tuple(problems))
    except Exception as error:
        return Outcome(None, (*problems, *sentences(error, order.path)))


def told_of(order: Order) -> tuple[Told, int | None]:
    """The past of the beam in the file, and the step of the age that was asked for.

    Raises :class:`SoffitError` for a place outside the beam and an age outside its stages.
    """
    from soffit.beamfile import read
    from soffit.member import time
    from soffit.show.agemeasured import check_ages, read_measured

    beam = read(Path(order.path))
    check_place(beam, order.place)
    looked = looked_at(beam, order.at)
    # the beam as it is in the file, so that its notes are too
    found = time.past(beam, making=None if order.at is None else looked.making)
    station = found.middle if order.place is None else int(np.argmin(np.abs(found.x - order.place)))
    scatter = time.band(looked, station, found) if order.with_band else None
    points = None
    if order.measured is not None:
        points = read_measured(order.measured)
        check_ages(order.measured, points, found)
    return Told(found, station, scatter, points, order.place is not None), None if order.at is None else found.at(
        order.at
    )


def check_place(beam: Beam, place: float | None) -> None:
    if place is not None and not 0 <= place <= beam.length:
        kind = "span" if beam.length > LONG else "length"
        asked, end = (given(x, kind, beam.units).replace(THIN, " ") for x in (place, beam.length))
        raise SoffitError(f"--place {asked} lies outside the beam; it runs from 0 to {end}.")


def looked_at(beam: Beam, at: float | None) -> Beam:
    """The beam with one more age at which its state is told."""
    from soffit.member.making import Stage
    from soffit.member.time.schedule import making_of

    if at is None:
        return beam
    making = making_of(beam)
    begun, ended = (
        min(s.at for s in making.stages if s.what not in ("cast", "stress") or s.at > 0),
        making.stages[-1].at,
    )
    if at < begun:
        raise SoffitError(f"--at {age(at)}: before {age(begun)} nothing happens to this beam; give a later age.")
    if at > ended:
        raise SoffitError(f"--at {age(at)}: the last stage is at {age(ended)}; give an earlier age, or add a stage.")
    stages = sorted((*making.stages, Stage("age", at)), key=lambda stage: stage.at)
    return replace(beam, making=replace(making, stages=tuple(stages)))


def _tell(order: Order, told: Told, until: int | None) -> str:
    from soffit.show import agestory, agewords

    if order.brief:
        return agewords.closing(told, order.units or told.past.beam.units).replace(THIN, " ")
    written = [name for place in (order.json, order.csv, order.picture) if place for name in place.names()]
    return agestory.told_text(told, order.units, order.width, order.colours, written, until, order.every_limit)


def _write_json(order: Order, told: Told) -> None:
    if order.json is not None:
        from soffit.show.agejson import to_json

        _write(order.json, f"{Path(order.path).stem}.age.json", to_json(told))


def _write_csv(order: Order, told: Told) -> None:
    if order.csv is not None:
        from soffit.show.agejson import to_csv

        _write(order.csv, f"{Path(order.path).stem}.age.csv", to_csv(told))


def _write(place: Place, name: str, text: str) -> None:
    (place.make() / name).write_text(text, encoding="utf-8", newline="\n")


def _draw(order: Order, told: Told) -> None:
    if order.picture is None:
        return
    from soffit.show.agesheet import age_sheet

    age_sheet(told, order.picture.make() / f"{Path(order.path).stem}.age", ("svg", "png"), order.units)


def endings(parts: Sequence[str]) -> tuple[str, ...]:
    """Endings of the files of ``soffit age``."""
    return tuple(f".age.{part}" for part in parts)

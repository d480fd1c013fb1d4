"""Many beam files, one after another or over the cores; the fault of one file never reaches another.

Every result is written into a work folder of the caller and put in its place only when it is whole, so an
interrupted run leaves no half-written file.
"""

from __future__ import annotations

import os
import traceback
from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from soffit.errors import BeamFileError, SoffitError
from soffit.show import pool
from soffit.show.place import Place

if TYPE_CHECKING:
    from soffit.member.result import Life

Units = Literal["SI", "US"]

# A new process imports and loads the kernels for about as long as many lives take: with fewer files than
# these a process, fewer processes are faster (measured on two cores).
LIVES_A_START = 10
PICTURES_A_START = 2


@dataclass(frozen=True)
class Order:
    """What is wanted of one beam file; plain data, because it travels to another process."""

    path: str
    law: str | None = None
    age: float | None = None
    """Days after casting at which loading begins; none: as the file has it."""
    units: Units | None = None
    """None: as the file was written."""
    at: str | None = None
    """The event whose cracks the picture shows."""
    brief: bool = False
    """Only the closing sentence."""
    width: int | None = None
    """Columns of the terminal; none: lines as long as they are."""
    colours: str | None = None
    """Colour system of the terminal, as rich names it; none: plain text."""
    json: Place | None = None
    """Where the JSON file goes, this order's own part; none: not wanted."""
    picture: Place | None = None
    """Where the pictures go, this order's own part; none: not wanted."""


@dataclass(frozen=True)
class Outcome:
    order: Order
    story: str | None
    """As it is to be printed; none where there is no life."""
    problems: tuple[str, ...]
    """One sentence a fault."""


def life_of(path: str, law: str | None = None, age: float | None = None) -> Life:
    """The life of the beam in one file, with another mean compression law or from another age where one is named."""
    from soffit.beamfile import read
    from soffit.member.time.lived import lived

    beam = read(Path(path))
    if law is not None:
        beam = replace(beam, concrete=replace(beam.concrete, law=law))
    return lived(beam, age)


def carry_out(order: Order) -> Outcome:
    """Whatever happens comes back as an outcome; only an interruption is raised."""
    try:
        life = life_of(order.path, order.law, order.age)
    except Exception as error:
        return Outcome(order, None, tuple(sentences(error, order.path)))
    problems: list[str] = []
    for step in (_write_json, _draw):
        try:
            step(order, life)
        except Exception as error:
            problems += sentences(error, order.path)
    try:
        return Outcome(order, _tell(order, life), tuple(problems))
    except Exception as error:
        return Outcome(order, None, (*problems, *sentences(error, order.path)))


def lives(paths: Sequence[str]) -> tuple[list[Life], list[str]]:
    """The lives that could be computed, and a sentence for each fault of the others."""
    found, problems = [], []
    for path in paths:
        try:
            found.append(life_of(path))
        except Exception as error:
            problems += sentences(error, path)
    return found, problems


def draw_comparison(
    lives: Sequence[Life], place: Place | None, stem: str, formats: tuple[str, ...], units: Units | None
) -> list[str]:
    """Draw the chart in its work folder; the names of the files as the user will find them."""
    if place is None:
        return []
    from soffit.show.compare import compare_sheet

    compare_sheet(lives, place.make() / stem, formats, units=units or lives[0].beam.units)
    return place.names()


def sentences(error: Exception, path: str) -> list[str]:
    """What the user reads of an error: one sentence a fault, each naming the file."""
    if isinstance(error, BeamFileError):
        found = list(error.problems)
    elif isinstance(error, SoffitError):
        found = [str(error)]
    elif isinstance(error, OSError):
        found = [f"{error.filename or path}: cannot be read or written ({(error.strerror or str(error)).lower()})."]
    else:
        found = [unexpected(error)]
    return [text if path in text else f"{path}: {text}" for text in found]


def unexpected(error: BaseException) -> str:
    """One sentence for a fault of the program itself; with ``SOFFIT_DEBUG=1`` also where it happened."""
    if os.environ.get("SOFFIT_DEBUG") == "1":
        return "".join(traceback.format_exception(error)).rstrip()
    detail = " ".join(str(error).split())
    name = type(error).__name__ + (f": {detail[:200]}" if detail else "")
    return f"Soffit itself failed ({name}); please report it with the input (SOFFIT_DEBUG=1 shows where)."


def outcomes(
    orders: Sequence[Order], jobs: int, cold: bool = False, done: Callable[[int], None] = lambda count: None
) -> Generator[Outcome]:
    """The outcomes in the order of the orders, as :func:`soffit.show.pool.run` gives them.

    ``cold`` kernels are compiled by the first order alone, so that the processes find them compiled.
    """
    return pool.run(orders, carry_out, _lost, jobs, int(cold), done)


def _lost(order: Order) -> Outcome:
    return Outcome(order, None, (pool.lost(order.path, "life"),))


def processes(orders: Sequence[Order], jobs: int | None) -> int:
    """How many processes to use: as many as asked for, or as many as pay for their own start."""
    if jobs is not None:
        return min(jobs, len(orders))
    each = PICTURES_A_START if any(order.picture for order in orders) else LIVES_A_START
    return max(1, min(pool.cores(), len(orders) // each))


def _tell(order: Order, life: Life) -> str:
    from soffit.show import story

    if order.brief:
        return f"{life.name}: {life.failure.sentence}"
    written = [name for place in (order.json, order.picture) if place for name in place.names()]
    return story.told(life, order.units, order.width, order.colours, written)


def _write_json(order: Order, life: Life) -> None:
    if order.json is not None:
        from soffit.show.jsonout import to_json

        text = to_json(life)
        target = order.json.make() / f"{Path(order.path).stem}.json"
        target.write_text(text, encoding="utf-8", newline="\n")


def _draw(order: Order, life: Life) -> None:
    if order.picture is None:
        return
    from soffit.show.sheet import life_sheet

    stem = order.picture.make() / Path(order.path).stem
    try:
        life_sheet(life, stem, ("svg", "png"), at=order.at or "peak", units=order.units)
    except SoffitError as error:
        raise SoffitError(f"{order.path}: no picture was drawn. {error}") from error

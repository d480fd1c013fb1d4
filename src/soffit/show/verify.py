"""From beam files to what is said, written and tabled of their verification."""

from __future__ import annotations

import os
from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass
from pathlib import Path

from soffit.errors import SoffitError
from soffit.show import pool
from soffit.show.batch import sentences
from soffit.show.numbers import Units
from soffit.show.place import Place, Usage
from soffit.show.typed import beam_files
from soffit.show.verifytable import ENDINGS, Row

BEAMS_A_START = 20
"""With fewer files than these a process, fewer processes are faster (measured on two cores)."""


@dataclass(frozen=True)
class Order:
    path: str
    to: str
    units: Units | None = None
    working: str | None = None
    brief: bool = False
    width: int | None = None
    colours: str | None = None
    json: Place | None = None
    """Where the JSON file goes, this order's own part; none: not wanted."""
    as_json: bool = False
    """Whether the story itself is the JSON."""


@dataclass(frozen=True)
class Outcome:
    order: Order
    story: str | None
    """As it is to be printed; none where there is a fault."""
    row: Row
    problems: tuple[str, ...] = ()
    holds: bool = False


def files(given: Sequence[str]) -> list[str]:
    """The beam files that were typed; of a folder all that end in .toml."""
    found: list[str] = []
    for name in given:
        if os.path.isdir(name):
            inside = sorted(str(path) for path in Path(name).glob("*.toml"))
            if not inside:
                raise Usage(f"{name}: there is no beam file (.toml) in this folder.")
            found += inside
        else:
            found += beam_files([name])
    return found or beam_files(given)


def table_name(text: str | None) -> tuple[str | None, str]:
    """Folder and name of the table. Raises :class:`Usage` for another ending than those that are written."""
    if text is None:
        return None, ""
    path = Path(text)
    if path.suffix.lower() not in ENDINGS:
        raise Usage(f"--table {text}: tables are written as .csv or .xlsx.")
    if path.is_dir():
        raise Usage(f"--table {text}: that is a folder; name a file.")
    return str(path.parent), path.name


def carry_out(order: Order) -> Outcome:
    """Whatever happens comes back as an outcome; only an interruption is raised."""
    from soffit.beamfile import read
    from soffit.codes.verification import verify
    from soffit.show import verifytable
    from soffit.show.verifyjson import to_json
    from soffit.show.verifytext import told, wanted

    try:
        found = verify(read(Path(order.path)), order.to)
        if order.working is not None and not wanted(found, order.working):
            keys = ", ".join(dict.fromkeys(c.key for c in found.checks))
            raise SoffitError(f"--working {order.working}: there is no such check; there are: {keys or 'none'}.")
        written: list[str] = []
        if order.json is not None:
            target = order.json.make() / f"{Path(order.path).stem}.json"
            target.write_text(to_json(found), encoding="utf-8", newline="\n")
            written = order.json.names()
        story = None
        if order.as_json:
            story = to_json(found).rstrip("\n")
        else:
            story = told(found, order.units, order.width, order.colours, written, order.working, order.brief)
        return Outcome(order, story, verifytable.row(order.path, found), (), found.kept)
    except Exception as error:
        problems = tuple(sentences(error, order.path))
        return Outcome(order, None, Row(order.path, fault=" ".join(problems)), problems)


def outcomes(
    orders: Sequence[Order], jobs: int | None, done: Callable[[int], None] = lambda count: None
) -> Generator[Outcome]:
    """In the order of the orders, over as many processes as were asked for or as pay."""
    count = min(jobs, len(orders)) if jobs else max(1, min(pool.cores(), len(orders) // BEAMS_A_START))
    return pool.run(orders, carry_out, _lost, count, 0, done)


def _lost(order: Order) -> Outcome:
    sentence = pool.lost(order.path, "verification")
    return Outcome(order, None, Row(order.path, fault=sentence), (sentence,))

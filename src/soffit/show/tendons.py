"""``soffit tendons``: from a beam file to what is told, drawn and written of its tendons."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from soffit.show.batch import Units, sentences
from soffit.show.place import Place, Usage, write_whole
from soffit.show.typed import beam_files, chart_name


@dataclass(frozen=True)
class Order:
    """What is wanted of one beam file."""

    path: str
    units: Units | None = None
    width: int | None = None
    colours: str | None = None
    json: str | None = None
    """File for the JSON."""
    picture: Place | None = None
    stem: str = ""
    formats: tuple[str, ...] = ()


@dataclass(frozen=True)
class Outcome:
    story: str | None
    problems: tuple[str, ...]


def one_file(given: str) -> str:
    """The beam file that was typed. Raises :class:`Usage` for a pattern that fits several."""
    found = beam_files([given])
    if len(found) > 1:
        raise Usage(f"{given} fits {len(found)} files, and tendons tells of one beam; name one of them.")
    return found[0]


def sheet_name(path: str, picture: str | None) -> tuple[str | None, str, tuple[str, ...]]:
    """Folder, stem and formats of what ``--picture`` names; in a folder the sheet bears the beam file's name."""
    folder, stem, formats = chart_name(picture)
    if picture is not None and (os.path.isdir(picture) or picture.endswith(("/", os.sep))):
        stem = f"{Path(path).stem}-tendons"
    return folder, stem, formats


def check_json(path: str, json: str | None) -> None:
    """Raise :class:`Usage` where the JSON has no name, would be a folder or would replace the beam file."""
    if json is None:
        return
    if not json or os.path.isdir(json) or json.endswith(("/", os.sep)):
        raise Usage(f"--json {json or '“”'}: name a file, such as tendons.json.")
    if os.path.realpath(json) == os.path.realpath(path):
        raise Usage(f"--json {json} would overwrite the beam file; use another name.")


def carry_out(order: Order) -> Outcome:
    """Whatever happens comes back as an outcome; only an interruption is raised."""
    from soffit.beamfile import read
    from soffit.show.tendonsfacts import facts
    from soffit.show.tendonsjson import to_json
    from soffit.show.tendonsstory import told

    try:
        found = facts(read(Path(order.path)))
        written: list[str] = []
        if order.picture is not None:
            from soffit.show.tendonssheet import tendons_sheet

            tendons_sheet(found, order.picture.make() / order.stem, order.formats, order.units)
            written += order.picture.names()
        if order.json is not None:
            write_whole(to_json(found), order.json, force=True)
            written.append(order.json)
        return Outcome(told(found, order.units, order.width, order.colours, written), ())
    except Exception as error:
        return Outcome(None, tuple(sentences(error, order.path)))

"""From a path to a TOML document with the line of every key; whatever goes wrong here is one sentence."""

from __future__ import annotations

import re
import tomllib
from difflib import get_close_matches
from os import PathLike, fspath
from pathlib import Path as FilePath
from typing import Any

from soffit.beamfile.positions import Path, positions
from soffit.errors import BeamFileError

LARGEST = 1_000_000
"""Bytes; a beam file is text that a person wrote."""


def read_bytes(path: str | PathLike[str]) -> bytes:
    """The bytes of a beam file. Raises ``BeamFileError`` with one sentence."""
    name = fspath(path)
    try:
        file = FilePath(name)
        if file.is_dir():
            raise BeamFileError([f"{name}: this is a folder; name a beam file in it, such as {_example(file)}."])
        with file.open("rb") as stream:
            data = stream.read(LARGEST + 1)
    except FileNotFoundError:
        raise BeamFileError([f"{name}: there is no such file; {_near(name)}."]) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "the name is not that of a file"
        raise BeamFileError([f"{name}: the file cannot be read ({reason}); check its name and rights."]) from None
    if len(data) > LARGEST:
        raise BeamFileError([f"{name}: this is more than a megabyte; name a beam file, which is a short text."])
    return data


def decode(data: bytes, name: str) -> str:
    """UTF-8 text, with or without a byte order mark. Raises ``BeamFileError``."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise BeamFileError([f"{name}:1: the text is UTF-16; save it as UTF-8."])
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        byte = data[error.start]
        raise BeamFileError(
            [f"{name}:{line}: found byte 0x{byte:02x}, which is no UTF-8 text; save the file as UTF-8."]
        ) from None


def load(text: str, name: str) -> tuple[dict[str, Any], dict[Path, int]]:
    """The document and the line of every key. Raises ``BeamFileError`` where it is no TOML, or empty."""
    text = text.removeprefix("\ufeff")
    try:
        document = tomllib.loads(text)
        lines = positions(text.replace("\r\n", "\n"))
    except tomllib.TOMLDecodeError as error:
        raise BeamFileError([_syntax(str(error), text, name)]) from None
    except RecursionError:
        raise BeamFileError([f"{name}:1: the lists are nested too deeply; a beam file needs two levels."]) from None
    except ValueError:
        raise BeamFileError([f"{name}:1: a number has too many digits; write numbers as engineers do."]) from None
    if not document:
        raise BeamFileError([f"{name}:1: the file is empty; write [concrete], [section] and [supports] at least."])
    return document, lines


_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")


def _syntax(message: str, text: str, name: str) -> str:
    found = _PLACE.search(message)
    line = int(found[1]) if found and found[1] else text.rstrip().count("\n") + 1
    what = _PLACE.sub("", message)
    what = what[:1].lower() + what[1:]
    lines = text.replace("\r\n", "\n").split("\n")
    shown = lines[line - 1].strip()[:60] if line <= len(lines) else ""
    there = f' in "{shown}"' if shown.isprintable() and shown else ""
    return f"{name}:{line}: {what}{there}; {_cure(what)}."


def _cure(what: str) -> str:
    if "overwrite" in what or "twice" in what or "cannot declare" in what or "mutate" in what:
        return "give each key and each [table] once, and write [[bars]] with two brackets for each group"
    if "value" in what or "=" in what:
        return 'write lines like depth = "150 mm", with every quantity in quotes'
    return 'write TOML: [tables] and lines like depth = "150 mm"'


def _near(name: str) -> str:
    """A beam file in the same folder whose name is close."""
    wanted = FilePath(name)
    try:
        stems = [each.stem for each in wanted.parent.iterdir() if each.suffix == ".toml"]
    except OSError:
        return "check the folder's name"
    close = get_close_matches(wanted.stem, stems, n=1, cutoff=0.5)
    return f"did you mean {wanted.parent / close[0]}.toml" if close else "check its name"


def _example(folder: FilePath) -> str:
    try:
        first = min((each for each in folder.iterdir() if each.suffix == ".toml"), default=None)
    except OSError:
        first = None
    return str(first or folder / "beam.toml")

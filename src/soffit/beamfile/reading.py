"""A beam file to a beam."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from os import PathLike, fspath
from pathlib import Path as FilePath
from typing import Any

from soffit.beamfile.faults import Faults
from soffit.beamfile.source import decode, load, read_bytes
from soffit.errors import BeamFileError
from soffit.member.beam import Beam
from soffit.units import System, system_of


def read(path: str | PathLike[str]) -> Beam:
    """The beam that a file describes, in base units.

    Raises ``BeamFileError`` with every fault of the file, each as one sentence.
    """
    name = fspath(path)
    text = decode(read_bytes(name), name)
    return _read(text, name, FilePath(name).stem)


def read_text(text: str, name: str = "beam file") -> Beam:
    """The beam that a text describes; ``name`` stands for the file in errors. Raises ``BeamFileError``."""
    return _read(text, name, FilePath(name).stem or name)


def _read(text: str, name: str, stem: str) -> Beam:
    # the models need pydantic, which takes a while to load
    from soffit.beamfile.check import check
    from soffit.beamfile.resolve.assemble import assemble

    document, lines = load(text, name)
    faults = Faults(system=system(document))
    beam = assemble(check(document, faults), faults, stem)
    if beam is None:
        raise BeamFileError(faults.told(name, lines))
    return beam


def system(document: dict[str, Any]) -> System:
    """The units of the file: those it names, or those of most of its quantities."""
    named = document.get("units")
    if named in ("SI", "US"):
        return "US" if named == "US" else "SI"
    count = Counter(system_of(text) for text in _texts(document))
    return "US" if count["US"] > count["SI"] else "SI"


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for each in value.values() if isinstance(value, dict) else value:
            yield from _texts(each)

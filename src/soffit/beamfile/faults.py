"""Faults of a beam file, gathered as they are found and told all at once, each as one sentence.

A sentence names file and line, the key (``bars[2].at`` is ``at`` in the second ``[[bars]]``), what was found
and what would do.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from soffit.beamfile.positions import Path, line_of
from soffit.units import System, quote, show


@dataclass(frozen=True)
class Fault:
    path: Path
    sentence: str
    """Without file, line and key."""


@dataclass
class Faults:
    """All faults and all assumptions of one file."""

    system: System = "SI"
    """The units in which sentences give lengths and forces."""
    found: list[Fault] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def add(self, path: Path, sentence: str) -> None:
        fault = Fault(path, sentence)
        if fault not in self.found:
            self.found.append(fault)

    def note(self, sentence: str) -> None:
        if sentence not in self.notes:
            self.notes.append(sentence)

    def told(self, file: str, lines: Mapping[Path, int]) -> list[str]:
        """One sentence a fault, in the order of the file."""
        placed = [(line_of(lines, fault.path), fault) for fault in self.found]
        placed.sort(key=lambda each: each[0])
        return [f"{file}:{line}: {key_of(fault.path)}: {fault.sentence}" for line, fault in placed]


def key_of(path: Path) -> str:
    """A key path as a person counts: the first table of a list is 1."""
    text = ""
    for part in path:
        text += f"[{part + 1}]" if isinstance(part, int) else f".{part}" if text else str(part)
    return text if text.isprintable() else quote(text)


def sentence(problem: str, cure: str) -> str:
    return f"{problem}; {cure}" + ("" if cure.endswith("?") else ".")


@dataclass(frozen=True)
class Spot:
    """One table of the file while it is turned into a part of the beam: where its faults and notes go.

    ``mended`` says that some of its keys were faulty and are left out of it, so that a key which now seems to
    be missing is not reported again.
    """

    faults: Faults
    path: Path
    raw: Mapping[str, Any]
    mended: bool = False

    def wrong(self, key: str, problem: str, cure: str) -> None:
        """``problem`` follows "found …, "; where the key is not in the table it stands alone."""
        if key in self.raw:
            self.faults.add((*self.path, key), sentence(f"found {quote(self.raw[key])}, {problem}", cure))
        elif not self.mended:
            self.faults.add(self.path, sentence(problem.removeprefix("but "), cure))

    def missing(self, key: str, cure: str) -> None:
        if not self.mended:
            self.faults.add((*self.path, key), sentence("is missing", cure))

    def note(self, text: str) -> None:
        """An assumption that the life repeats: one sentence, with its full stop."""
        self.faults.note(text)

    def has(self, key: str) -> bool:
        return key in self.raw

    def inner(self, key: str) -> Spot:
        return Spot(self.faults, (*self.path, key), self.raw[key], self.mended)

    def show(self, value: float, dimension: str = "length") -> str:
        return show(value, dimension, self.faults.system)

    @property
    def name(self) -> str:
        """The table as its sentences call it: ``bars[2]``."""
        return key_of(self.path)

"""Where results go: beside their place first and into it when whole; nothing is lost by accident."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from soffit.errors import SoffitError


class Usage(SoffitError):
    """What was typed cannot be meant; nothing has been done yet."""


@dataclass(frozen=True)
class Place:
    """A folder that was asked for, and a hidden one inside it where files stand until they are whole."""

    folder: str
    work: str

    def part(self, index: int) -> Place:
        """The same place with a work folder of its own, so that parallel runs never meet."""
        return Place(self.folder, os.path.join(self.work, str(index)))

    def make(self) -> Path:
        path = Path(self.work)
        path.mkdir(exist_ok=True)
        return path

    def names(self) -> list[str]:
        """The files written so far, as the user will find them."""
        if not os.path.isdir(self.work):
            return []
        return [os.path.join(self.folder, name) for name in sorted(os.listdir(self.work))]


@contextmanager
def work_place(option: str, folder: str | None) -> Iterator[Place | None]:
    """Make the folder and a work folder in it, which is gone at the end whatever happens."""
    if folder is None:
        yield None
        return
    if not folder:
        raise Usage(f"{option}: the name of the folder is empty.")
    if os.path.exists(folder) and not os.path.isdir(folder):
        raise Usage(f"{option} {folder}: that is a file; name a folder.")
    try:
        os.makedirs(folder, exist_ok=True)
        work = TemporaryDirectory(prefix=".soffit-", dir=folder, ignore_cleanup_errors=True)
    except OSError as error:
        raise Usage(f"{option} {folder}: cannot write there ({(error.strerror or str(error)).lower()}).") from error
    with work as name:
        yield Place(folder, name)


def put(*places: Place | None) -> list[str]:
    """Move what is whole to where it belongs; one sentence for each file that would not go."""
    problems = []
    for place in places:
        for target in place.names() if place else ():
            assert place is not None
            try:
                os.replace(os.path.join(place.work, os.path.basename(target)), target)
            except OSError as error:
                problems.append(f"{target}: cannot be written ({(error.strerror or str(error)).lower()}).")
    return problems


def write_whole(text: str, output: str, force: bool) -> None:
    """Write a file that is whole or not there at all; one that exists is overwritten only by ``force``."""
    path = Path(output)
    if path.exists() and (path.is_dir() or not force):
        fault = "is a folder; name a file." if path.is_dir() else "exists; --force overwrites it."
        raise Usage(f"{output} {fault}")
    with work_place("--output", str(path.parent)) as place:
        assert place is not None
        written = place.make() / path.name
        written.write_text(text, encoding="utf-8", newline="\n")
        os.replace(written, path)

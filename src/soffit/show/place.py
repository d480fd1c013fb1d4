"""Where results go: beside their place first and into it when whole; nothing is lost by accident."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from glob import glob
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
    if os.path.exists(folder) and not os.path.isdir(folder):
        raise Usage(f"{option} {folder}: that is a file; name a folder.")
    try:
        os.makedirs(folder, exist_ok=True)
        work = TemporaryDirectory(prefix=".soffit-", dir=folder, ignore_cleanup_errors=True)
    except OSError as error:
        raise Usage(
            f"{option} {folder}: cannot write there ({(error.strerror or str(error)).lower()})."
        ) from error
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


def beam_files(given: Sequence[str]) -> list[str]:
    """The files that were typed; patterns are resolved where the shell did not. Never empty."""
    if not given:
        raise Usage("Give at least one beam file; `soffit new bars -o beam.toml` writes one to start from.")
    found: list[str] = []
    for name in given:
        if any(c in name for c in "*?[") and not os.path.exists(name):
            matches = sorted(glob(name))
            if not matches:
                raise Usage(f"{name}: no file matches this pattern.")
            found += matches
        else:
            found.append(name)
    return found


def refuse_clashes(paths: Sequence[str], wanted: Mapping[str, tuple[str | None, tuple[str, ...]]]) -> None:
    """Raise :class:`Usage` where two results would bear one name, or a result the name of a beam file.

    ``wanted`` gives for each option its folder (none: not used) and the endings of its files.
    """
    for option, (folder, endings) in wanted.items():
        if folder is None:
            continue
        inputs = {os.path.realpath(path): path for path in paths}
        seen: dict[str, str] = {}
        for path in paths:
            stem = Path(path).stem
            key = os.path.normcase(stem)
            if key in seen:
                pair = (
                    f"{path} is given twice" if seen[key] == path else f"{seen[key]} and {path} share a stem"
                )
                raise Usage(
                    f"{pair}, so both would be {os.path.join(folder, stem + endings[0])}; "
                    f"rename one, or use two folders for {option}. Nothing was written."
                )
            seen[key] = path
            for ending in endings:
                target = os.path.join(folder, stem + ending)
                if (clash := inputs.get(os.path.realpath(target))) is not None:
                    raise Usage(f"{option} {folder} would overwrite {clash}; use another folder.")

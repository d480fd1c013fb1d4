"""What was typed: files, folders, events, laws and numbers, each checked before anything is done."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from glob import glob
from pathlib import Path
from typing import Any

from soffit.show.place import Usage

NO_CHARTS = ("bmp", "eps", "gif", "jpeg", "jpg", "ps", "tif", "tiff", "webp")
"""Endings of pictures that are not drawn; any other ending is taken as a part of the name."""


def beam_files(given: Sequence[str]) -> list[str]:
    """The files that were typed; patterns are resolved where the shell did not. Never empty."""
    if not given:
        raise Usage("Give at least one beam file; `soffit new bars -o beam.toml` writes one to start from.")
    found: list[str] = []
    for name in given:
        if not name:
            raise Usage("An empty name was given where a beam file was expected.")
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
                pair = f"{path} is given twice" if seen[key] == path else f"{seen[key]} and {path} share a stem"
                raise Usage(
                    f"{pair}, so both would be {os.path.join(folder, stem + endings[0])}; "
                    f"rename one, or use two folders for {option}. Nothing was written."
                )
            seen[key] = path
            for ending in endings:
                target = os.path.join(folder, stem + ending)
                if (clash := inputs.get(os.path.realpath(target))) is not None:
                    raise Usage(f"{option} {folder} would overwrite {clash}; use another folder.")


def number_of_jobs(text: str | None) -> int | None:
    """The processes that were asked for; none where it was left open."""
    if text is None:
        return None
    if not text.isdecimal() or int(text) < 1:
        raise Usage(f"--jobs {text}: give the number of processes, 1 or more.")
    return int(text)


def an_age(text: str | None, option: str = "--age") -> float | None:
    """Days after casting; none where it was left open. Raises :class:`Usage` for what is no age."""
    if text is None:
        return None
    from soffit.units import UnitError, parse

    try:
        days = parse(text, "time")
    except UnitError as error:
        raise Usage(f"{option}: {error}.") from None
    if not 0.0 < days < 1e6:
        raise Usage(f"{option} {text}: give a time after casting, such as “30 years”.")
    return days


def check_life(at: str | None, picture: str | None, law: str | None) -> None:
    """Raise :class:`Usage` for an event or a law that there is not, with the names of those there are."""
    if at is not None:
        from soffit.member.result import EVENTS

        if at not in EVENTS:
            raise Usage(f"--at “{at}”: no such event{_meant(at, EVENTS)}; the events are: {', '.join(EVENTS)}.")
        if picture is None:
            raise Usage("--at chooses the moment that a picture shows; say with --picture where the picture goes.")
    if law is not None:
        from soffit.materials.compression import LAWS

        if law not in LAWS:
            raise Usage(f"--law “{law}”: no such law{_meant(law, LAWS)}; the laws are: {', '.join(LAWS)}.")


def _meant(found: str, names: Any) -> str:
    from difflib import get_close_matches

    close = get_close_matches(found, list(names), n=1)
    return f", did you mean “{close[0]}”" if close else ""


def chart_name(picture: str | None, usual: str = "compare") -> tuple[str | None, str, tuple[str, ...]]:
    """Folder, stem and formats of what ``--picture`` names, for a command that draws one picture; ``usual`` is the stem
    of one in a folder."""
    if picture is None:
        return None, "", ()
    path = Path(picture)
    if path.is_dir() or picture.endswith(("/", os.sep)):
        return picture, usual, ("svg", "png")
    ending = path.suffix.lower().lstrip(".")
    if ending in NO_CHARTS:
        raise Usage(f"--picture {picture}: charts are written as .svg, .png or .pdf.")
    if ending in ("svg", "png", "pdf"):
        return str(path.parent), path.stem, (ending,)
    return str(path.parent), path.name, ("svg", "png")

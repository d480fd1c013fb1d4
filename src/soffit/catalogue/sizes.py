"""Find a bar, strand, wire, prestressing bar or thread by its trade name."""

from __future__ import annotations

import re
from functools import cache
from math import isclose, pi
from typing import Any

from soffit.catalogue.load import rows
from soffit.catalogue.miss import CatalogueMiss, miss, near_names
from soffit.catalogue.records import Size, Thread
from soffit.catalogue.spelling import first_number, size_key, without_idle_words
from soffit.catalogue.threads import make_thread, thread_spellings

STEEL_DENSITY = 7850.0
"""kg/m³ (EN 10080:2005, 7.3; EN 1991-1-1 table A.4)."""

# data file -> a word that tells its names from the others'; files whose word is in the name are read first
_FILES = {
    "bars-metric": "",
    "bars-inch": "#",
    "threads": "m",
    "strands": "strand",
    "wires": "wire",
    "prestressing-bars": "prestressing",
}
_EXAMPLES = ("10", "#4", "1/2 strand", "9.3 strand", "5 wire", "26.5 prestressing bar", "M10", "1/2-13 UNC")


def size(name: str) -> Size:
    """The size of that trade name; a thread comes as a :class:`Thread`.

    Case, spaces, hyphens, ``Ø``, ``mm``, ``in.`` and "No." for ``#`` do not matter. A unit that contradicts
    the size (``"0.6 mm strand"``) is a miss. Raises :class:`CatalogueMiss`.
    """
    found = _find(name, tuple(_FILES))
    if found is None:
        keys = _keys(tuple(_FILES))
        key = size_key(name)[0]
        near = near_names(key, keys, _neighbours(key))
        raise miss("bar, strand, wire or thread", name, near, dict.fromkeys(keys.values()), _EXAMPLES)
    return found


def thread(name: str) -> Thread:
    """The screw thread of that name (``"M10"``, ``"1/2-13 UNC"``). Raises :class:`CatalogueMiss`."""
    found = _find(name, ("threads",))
    if not isinstance(found, Thread):
        keys = _keys(("threads",))
        key = size_key(name)[0]
        around = [each for each in _neighbours(key) if each in keys.values()]
        raise miss("thread", name, near_names(key, keys, around), dict.fromkeys(keys.values()))
    return found


def all_sizes() -> tuple[Size, ...]:
    """Every size of the catalogue, in the order of the data files."""
    return tuple(entry for stem in _FILES for entry in dict.fromkeys(_index(stem).values()))


def _find(name: str, stems: tuple[str, ...]) -> Size | None:
    key, unit = size_key(name)
    for spelling in dict.fromkeys((key, without_idle_words(key))):
        for stem in sorted(stems, key=lambda s: not (_FILES[s] and _FILES[s] in spelling)):
            entry = _index(stem).get(spelling)
            if entry is not None and _unit_fits(entry, spelling, unit):
                return entry
    return None


def _unit_fits(entry: Size, key: str, unit: str) -> bool:
    """Whether the number in the name, read in the unit that was written with it, is about the diameter."""
    number = first_number(key)
    if not unit:
        return True
    scale = 25.4 if unit == "in" else 1.0
    return number is not None and isclose(number * scale, entry.diameter, rel_tol=0.08)


@cache
def _index(stem: str) -> dict[str, Size]:
    """Every accepted spelling of every size of one data file."""
    index: dict[str, Size] = {}
    for row in rows(stem):
        entry = make_thread(row) if stem == "threads" else _make_size(row)
        also = thread_spellings(entry) if isinstance(entry, Thread) else row.get("also", ())
        for spelling in (entry.name, *also):
            key = size_key(spelling)[0]
            if key in index:
                raise CatalogueMiss(f"the catalogue names {spelling!r} twice in {stem}.toml")
            index[key] = entry
    return index


def _make_size(row: dict[str, Any]) -> Size:
    """A row as a record; area and mass follow from the diameter where the source does not list them."""
    diameter = float(row["diameter"])
    area = float(row.get("area", pi * diameter**2 / 4.0))
    mass = float(row.get("mass", area * 1e-6 * row.get("density", STEEL_DENSITY)))
    return Size(
        name=row["name"],
        family=row["family"],
        diameter=diameter,
        area=area,
        mass=mass,
        surface=row["surface"],
        source=row["source"],
        note=row.get("note", ""),
    )


def _keys(stems: tuple[str, ...]) -> dict[str, str]:
    return {key: entry.name for stem in stems for key, entry in _index(stem).items()}


def _neighbours(key: str) -> list[str]:
    """The sizes on either side of a number that is no size: ``11`` → 10, 12; ``m11`` → M10, M12."""
    match = re.match(r"(m|#|)(\d{1,4}(?:\.\d+)?)(?: |x|$)", key)
    if not match:
        return []
    mark, wanted = match.group(1), float(match.group(2))
    series = [entry.name for stem in _FILES for entry in _index(stem).values()]
    numbers = sorted({(float(n[len(mark) :]), n) for n in series if re.fullmatch(rf"{mark}\d+", n.lower())})
    exact = [name for number, name in numbers if number == wanted]
    below = [name for number, name in numbers if number < wanted][-1:]
    above = [name for number, name in numbers if number > wanted][:1]
    return exact + below + above

"""Find a steel grade, a strength class of threaded rods, or a nut class by name."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any, TypeVar

from soffit.catalogue.load import rows
from soffit.catalogue.miss import CatalogueMiss, miss, near_names
from soffit.catalogue.records import Grade, NutClass, PropertyClass, System
from soffit.catalogue.spelling import grade_key

Class = TypeVar("Class", PropertyClass, NutClass)

_GRADE_FILES = ("grades-bars", "grades-prestressing")


def grade(name: str, diameter: float | None = None) -> Grade:
    """The steel of that name; a strength class of rods (``"8.8"``) too, for a thread of ``diameter`` mm.

    Case, spaces and hyphens do not matter, "Gr." is "Grade". Raises :class:`CatalogueMiss`, also for a
    strength class that changes with the diameter when none is given.
    """
    key = grade_key(name)
    index = _grades()
    if key in index:
        return index[key]
    classes = _property_classes()
    if key in classes:
        return _of_diameter("property class", name, classes[key], diameter)
    keys = {k: g.name for k, g in index.items()} | {k: c[0].name for k, c in classes.items()}
    raise miss("grade", name, near_names(key, keys), dict.fromkeys(keys.values()))


def property_class(name: str, diameter: float) -> PropertyClass:
    """The strength class of rods and bolts of that name (``"8.8"``, ``"A193 B7"``) at a diameter in mm.

    Raises :class:`CatalogueMiss` for an unknown name or a diameter that the class is not made in.
    """
    classes = _property_classes()
    key = grade_key(name)
    if key not in classes:
        keys = {k: c[0].name for k, c in classes.items()}
        raise miss("property class", name, near_names(key, keys), dict.fromkeys(keys.values()))
    return _of_diameter("property class", name, classes[key], diameter)


def nut_class(name: str, diameter: float, system: System | None = None) -> NutClass:
    """The strength class of nuts of that name at a thread diameter in mm.

    With ``system="inch"`` a bare ``"8"`` is SAE Grade 8, else it is ISO class 8; a class of the other system
    than the one asked for is a miss. Raises :class:`CatalogueMiss`.
    """
    classes = _nut_classes()
    legal = {k: c for k, c in classes.items() if system in (None, c[0].system)}
    key = grade_key(name)
    key = f"grade{key}" if system == "inch" and f"grade{key}" in legal else key
    if key not in legal:
        keys = {k: c[0].name for k, c in legal.items()}
        what = "nut class" if system is None else f"nut class for {system} threads"
        raise miss(what, name, near_names(key, keys), dict.fromkeys(keys.values()))
    return _of_diameter("nut class", name, legal[key], diameter)


def all_grades() -> tuple[Grade, ...]:
    """Every steel grade, without the strength classes of rods."""
    return tuple(dict.fromkeys(_grades().values()))


def all_property_classes() -> tuple[PropertyClass, ...]:
    return tuple(dict.fromkeys(each for ranges in _property_classes().values() for each in ranges))


def all_nut_classes() -> tuple[NutClass, ...]:
    return tuple(dict.fromkeys(each for ranges in _nut_classes().values() for each in ranges))


def _of_diameter(what: str, name: str, ranges: Sequence[Class], diameter: float | None) -> Class:
    """The entry whose range of diameters holds ``diameter``; a lone entry needs no diameter."""
    if diameter is None:
        if len(ranges) == 1:
            return ranges[0]
        raise CatalogueMiss(f"{what} {name!r} changes with the thread; say which thread it is for")
    for each in ranges:
        # an inch limit, 1 in or 25.4 mm, may come with a rounding error
        if each.diameter_over < diameter * (1 - 1e-9) and diameter <= each.diameter_to * (1 + 1e-9):
            return each
    over, to = ranges[0].diameter_over, ranges[-1].diameter_to
    least = f"from over {over:g} mm " if over else ""
    raise CatalogueMiss(
        f"{what} {name!r} is made for threads {least}up to {to:g} mm, not for {diameter:g} mm",
        legal=[each.name for each in ranges[:1]],
    )


@cache
def _grades() -> dict[str, Grade]:
    index: dict[str, Grade] = {}
    for stem in _GRADE_FILES:
        for row in rows(stem):
            made = Grade(**_strength(row), family=row["family"])
            for spelling in (made.name, *row["also"]):
                if index.setdefault(grade_key(spelling), made) is not made:
                    raise CatalogueMiss(f"the catalogue names the grade {spelling!r} twice")
    return index


def _strength(row: dict[str, Any]) -> dict[str, Any]:
    numbers = ("modulus", "yield_strength", "tensile", "strain_at_max", "hardening_strain")
    text = {"name": row["name"], "kind": row["kind"], "source": row["source"], "note": row.get("note", "")}
    return text | {key: float(row[key]) for key in numbers}


@cache
def _property_classes() -> dict[str, tuple[PropertyClass, ...]]:
    index: dict[str, tuple[PropertyClass, ...]] = {}
    for row in rows("property-classes"):
        # half of the elongation after fracture: see the head of the data file
        strength = _strength(row | {"strain_at_max": row["elongation"] / 2.0})
        made = PropertyClass(
            **strength,
            family="rod",
            proof=float(row["proof"]),
            elongation=float(row["elongation"]),
            diameter_over=float(row["diameter_over"]),
            diameter_to=float(row["diameter_to"]),
        )
        for key in _keys(row):
            index[key] = (*index.get(key, ()), made)
    return index


@cache
def _nut_classes() -> dict[str, tuple[NutClass, ...]]:
    index: dict[str, tuple[NutClass, ...]] = {}
    for row in rows("nut-classes"):
        made = NutClass(
            name=row["name"],
            system=row["system"],
            proof=float(row["proof"]),
            hardness=float(row["hardness"]),
            source=row["source"],
            note=row.get("note", ""),
            thin=row.get("thin", False),
            diameter_over=float(row["diameter_over"]),
            diameter_to=float(row["diameter_to"]),
        )
        for key in _keys(row):
            index[key] = (*index.get(key, ()), made)
    return index


def _keys(row: dict[str, Any]) -> list[str]:
    return [grade_key(spelling) for spelling in (row["name"], *row.get("also", ()))]

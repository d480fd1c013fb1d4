"""Lists of what the catalogue holds, for menus, help and error messages."""

from __future__ import annotations

from collections.abc import Callable

from soffit.catalogue.miss import miss
from soffit.catalogue.records import Grade, NutClass


def names(family: str) -> list[str]:
    """All names of one family, in catalogue order.

    Families: ``"bar"``, ``"strand"``, ``"wire"``, ``"prestressing bar"``, ``"thread"``, ``"grade"``,
    ``"property class"``, ``"nut class"``. Raises :class:`CatalogueMiss` for any other.
    """
    from soffit.catalogue import grades, sizes

    records: dict[str, Callable[[], tuple[Grade | NutClass, ...]]] = {
        "grade": grades.all_grades,
        "property class": grades.all_property_classes,
        "nut class": grades.all_nut_classes,
    }
    if family in records:
        return list(dict.fromkeys(each.name for each in records[family]()))
    found = [each.name for each in sizes.all_sizes() if each.family == family]
    if not found:
        legal = [*dict.fromkeys(each.family for each in sizes.all_sizes()), *records]
        raise miss("family of the catalogue", family, [], legal, legal)
    return found

"""What can be bought: bars, strands, wires, prestressing bars, threaded rods and nuts, and their grades.

Each record carries its source. The data are TOML tables in ``data/``, read when a name is first asked for.

>>> from soffit.catalogue import size, grade
>>> size("#4").area
129.032
>>> grade("B500B").yield_strength
500.0
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from soffit.catalogue.grades import grade, nut_class, property_class
    from soffit.catalogue.listing import names
    from soffit.catalogue.miss import CatalogueMiss
    from soffit.catalogue.records import Grade, NutClass, NutFactor, PropertyClass, Size, Thread
    from soffit.catalogue.sizes import size, thread
    from soffit.catalogue.stripping import StripCapacity, strip_areas, strip_capacity
    from soffit.catalogue.torque import force_from_torque, nut_factor, torque_for_force

_LAZY = {
    "size": "sizes",
    "thread": "sizes",
    "grade": "grades",
    "property_class": "grades",
    "nut_class": "grades",
    "names": "listing",
    "strip_areas": "stripping",
    "strip_capacity": "stripping",
    "StripCapacity": "stripping",
    "nut_factor": "torque",
    "force_from_torque": "torque",
    "torque_for_force": "torque",
    "CatalogueMiss": "miss",
    "Size": "records",
    "Thread": "records",
    "Grade": "records",
    "PropertyClass": "records",
    "NutClass": "records",
    "NutFactor": "records",
}

__all__ = [
    "CatalogueMiss",
    "Grade",
    "NutClass",
    "NutFactor",
    "PropertyClass",
    "Size",
    "StripCapacity",
    "Thread",
    "force_from_torque",
    "grade",
    "names",
    "nut_class",
    "nut_factor",
    "property_class",
    "size",
    "strip_areas",
    "strip_capacity",
    "thread",
    "torque_for_force",
]


def __getattr__(name: str) -> Any:
    if name in _LAZY:
        return getattr(import_module(f"soffit.catalogue.{_LAZY[name]}"), name)
    raise AttributeError(f"module 'soffit.catalogue' has no attribute {name!r}")

"""All parts of the file to one beam."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from soffit.beamfile.check import Part, Parts
from soffit.beamfile.faults import Faults, Spot
from soffit.beamfile.resolve.bars import build_bars, build_stirrups
from soffit.beamfile.resolve.concrete import build_concrete
from soffit.beamfile.resolve.loads import build_load, build_press
from soffit.beamfile.resolve.section import build_section
from soffit.beamfile.resolve.supports import build_supports
from soffit.beamfile.resolve.tendons import build_tendons
from soffit.beamfile.tables.base import Table
from soffit.member.beam import Beam

Made = TypeVar("Made")
Kept = TypeVar("Kept", bound=Table)


def assemble(parts: Parts, faults: Faults, name: str) -> Beam | None:
    """The beam, or none where ``faults`` holds any. ``name`` is used where the file gives none."""
    concrete = _one(parts.concrete, build_concrete)
    outline = _one(parts.section, build_section)
    held = _one(parts.supports, build_supports)
    supports, length = held if held else (None, None)
    bars = _each(parts.bars, lambda part: build_bars(part.table, part.spot, outline, length))
    tendons = _each(parts.tendons, lambda part: build_tendons(part.table, part.spot, outline, length))
    stirrups = _each(parts.stirrups, lambda part: build_stirrups(part.table, part.spot, outline, length))
    loads = _each(parts.loads, lambda part: build_load(part.table, part.spot, length))
    press = _one(parts.press, lambda table, spot: build_press(table, spot, length, supports))
    head = parts.head.table if parts.head else None
    if faults.found or not (concrete and outline and supports and length and head):
        return None
    return Beam(
        name=head.name or name,
        concrete=concrete,
        outline=outline,
        length=length,
        supports=supports,
        bars=bars,
        tendons=tendons,
        stirrups=stirrups,
        loads=loads,
        press=press,
        self_weight=head.self_weight,
        about=head.about,
        notes=tuple(faults.notes),
        units=faults.system,
    )


def _one(part: Part[Kept] | None, build: Callable[[Kept, Spot], Made | None]) -> Made | None:
    return None if part is None else build(part.table, part.spot)


def _each(parts: Iterable[Part[Any]], build: Callable[[Part[Any]], Made | None]) -> tuple[Made, ...]:
    made = [build(part) for part in parts]
    return tuple(each for each in made if each is not None)

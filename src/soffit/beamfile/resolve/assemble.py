"""All parts of the file to one beam."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from soffit.beamfile.check import Part, Parts
from soffit.beamfile.faults import Faults, Spot, sentence
from soffit.beamfile.resolve.ageing import Surroundings, build_casting, surroundings
from soffit.beamfile.resolve.bars import Into, build_bars, build_stirrups
from soffit.beamfile.resolve.concrete import build_concrete
from soffit.beamfile.resolve.loads import build_load, build_press
from soffit.beamfile.resolve.section import build_section
from soffit.beamfile.resolve.stages import build_stages
from soffit.beamfile.resolve.supports import build_supports
from soffit.beamfile.resolve.tendonkeys import tendon_names
from soffit.beamfile.resolve.tendons import build_tendons
from soffit.beamfile.resolve.topping import build_topping, into
from soffit.beamfile.resolve.verifying import build_verifying
from soffit.beamfile.tables.base import Table
from soffit.beamfile.tables.steel import BarTable
from soffit.member.beam import Beam, TendonGroup
from soffit.member.making import Making, Stage, Topping
from soffit.section.outline import Outline

Made = TypeVar("Made")
Kept = TypeVar("Kept", bound=Table)


def assemble(parts: Parts, faults: Faults, name: str) -> Beam | None:
    """The beam, or none where ``faults`` holds any. ``name`` is used where the file gives none."""
    concrete = _one(parts.concrete, build_concrete)
    outline = _one(parts.section, build_section)
    held = _one(parts.supports, build_supports)
    supports, length = held if held else (None, None)
    around = surroundings(parts)
    topping = _topping(parts, outline, around)
    bars = _each(parts.bars, lambda part: build_bars(part.table, part.spot, _into(parts, part, outline), length))
    names = tendon_names(parts.tendons)
    tendons = tuple(
        made
        for part, name in zip(parts.tendons, names, strict=True)
        if (made := build_tendons(part.table, part.spot, outline, length, name, bool(parts.stages))) is not None
    )
    stages = build_stages(parts, names, length, faults)
    stirrups = _each(parts.stirrups, lambda part: build_stirrups(part.table, part.spot, outline, length))
    loads = _each(parts.loads, lambda part: build_load(part.table, part.spot, length))
    press = _one(parts.press, lambda table, spot: build_press(table, spot, length, supports))
    making = _making(parts, outline, around, tendons, stages, topping)
    verifying = build_verifying(parts, length)
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
        verifying=verifying,
        making=making,
    )


def _making(
    parts: Parts,
    outline: Outline | None,
    around: Surroundings | None,
    tendons: tuple[TendonGroup, ...],
    stages: tuple[Stage, ...],
    topping: Topping | None,
) -> Making | None:
    if around is None or outline is None or parts.lost & {"concrete", "ageing"}:
        return None
    casting = build_casting(parts, around, outline, tendons, stages)
    return None if casting is None else Making(around.model, casting, stages, topping)


def _topping(parts: Parts, outline: Outline | None, around: Surroundings | None) -> Topping | None:
    if parts.topping is None:
        return None
    if not parts.stages and "stages" not in parts.lost:
        told = sentence("is never poured", 'write a [[stages]] with what = "topping" and at = "60 days"')
        parts.topping.spot.faults.add(parts.topping.spot.path, told)
    if outline is None or around is None:
        return None
    return build_topping(parts.topping.table, parts.topping.spot, outline, around)


def _into(parts: Parts, part: Part[BarTable], outline: Outline | None) -> Into | None:
    """The concrete that bars are cast into."""
    if part.table.part == "beam" or outline is None:
        return Into("beam", outline) if outline else None
    if parts.topping is None:
        if "topping" not in parts.lost:
            part.spot.wrong("in", "but there is no [topping]", 'write the table [topping], or in = "beam"')
        return None
    return into(parts.topping.table, outline)


def _one(part: Part[Kept] | None, build: Callable[[Kept, Spot], Made | None]) -> Made | None:
    return None if part is None else build(part.table, part.spot)


def _each(parts: Iterable[Part[Any]], build: Callable[[Part[Any]], Made | None]) -> tuple[Made, ...]:
    made = [build(part) for part in parts]
    return tuple(each for each in made if each is not None)

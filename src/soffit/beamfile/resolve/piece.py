"""Size of a bar, tendon or stirrup leg: from the catalogue, from the file, or from both; the file wins."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, sqrt

from soffit.beamfile.faults import Spot
from soffit.beamfile.tables.steel import PieceKeys
from soffit.catalogue import CatalogueMiss, Size, Thread, size, thread
from soffit.member.beam import Surface
from soffit.units import plain_number

FULLEST = 1.3
"""Largest area over that of a circle of the diameter: a square bar has 4/π."""


@dataclass(frozen=True)
class Piece:
    name: str
    diameter: float
    area: float
    family: str = ""
    """Of the catalogue; empty where the file gives the size."""
    surface: Surface = "deformed"
    thread: Thread | None = None


def build_piece(table: PieceKeys, spot: Spot, thread_name: str | None = None) -> Piece | None:
    """``thread_name`` is a thread given in place of a size (tendons)."""
    if table.size is not None and thread_name is not None:
        spot.wrong("thread", "but size is given too", "give one of them")
        return None
    found: Size | None = None
    if table.size is not None or thread_name is not None:
        found = _look_up(table.size, thread_name, spot)
        if found is None:
            return None
    piece = _sized(table, spot, found)
    if piece and piece.area > FULLEST * pi / 4 * piece.diameter**2:
        key = "area" if spot.has("area") else "diameter"
        problem = f"but {spot.show(piece.area, 'area')} does not fit in a diameter of {spot.show(piece.diameter)}"
        spot.wrong(key, problem, "check the unit, and give the area of one piece")
        return None
    return piece


def _look_up(name: str | None, thread_name: str | None, spot: Spot) -> Size | None:
    try:
        found = size(name) if name is not None else thread(str(thread_name))
    except CatalogueMiss as miss:
        not_in_catalogue(spot, "size" if name is not None else "thread", miss)
        return None
    spot.note("The nominal sizes and areas of the catalogue are used for the steel.")
    if isinstance(found, Thread):
        spot.note(f"The stress area of the thread, {found.area:.1f} mm², is the area of a rod {found.name}.")
    return found


def _sized(table: PieceKeys, spot: Spot, found: Size | None) -> Piece | None:
    diameter, area = table.diameter, table.area
    if found is not None:
        if area is None:
            area = found.area if diameter is None else pi / 4 * diameter**2
        screw = found if isinstance(found, Thread) else None
        return Piece(found.name, diameter or found.diameter, area, found.family, found.surface, screw)
    if diameter is not None:
        return Piece(f"⌀{plain_number(diameter)}", diameter, area or pi / 4 * diameter**2)
    if area is not None:
        diameter = sqrt(4 * area / pi)
        spot.note(f"{spot.name}: the diameter {spot.show(diameter)} is that of a circle of the given area.")
        return Piece(f"{plain_number(area)} mm²", diameter, area)
    spot.missing("size", 'write size = "10" or another name of the catalogue, or diameter, or area')
    return None


def not_in_catalogue(spot: Spot, key: str, miss: CatalogueMiss) -> None:
    """A name that the catalogue does not hold, with the names that come near."""
    if miss.near:
        near = [f'"{each}"' for each in miss.near[:3]]
        listed = near[0] if len(near) == 1 else ", ".join(near[:-1]) + " or " + near[-1]
        spot.wrong(key, "which is not in the catalogue", f"did you mean {listed}?")
        return
    some = ", ".join(f'"{each}"' for each in miss.legal[:5])
    several = f"write a name of the catalogue such as {some}"
    cure = several if len(miss.legal) > 1 else "choose another, or give its properties"
    spot.wrong(key, f"but {str(miss).split(';')[0]}", cure)

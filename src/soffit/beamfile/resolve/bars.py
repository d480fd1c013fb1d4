"""``[[bars]]`` and ``[[stirrups]]`` to groups of bars and zones of stirrups."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, cast

from soffit.beamfile.faults import Spot
from soffit.beamfile.resolve.extent import extent
from soffit.beamfile.resolve.piece import Piece, build_piece
from soffit.beamfile.resolve.place import in_concrete
from soffit.beamfile.resolve.steel import build_steel
from soffit.beamfile.tables.steel import BarTable, StirrupTable
from soffit.materials.steel import Steel
from soffit.member.beam import BarEnd, BarGroup, StirrupZone, Surface
from soffit.section.outline import Outline


@dataclass(frozen=True)
class Into:
    """The concrete into which bars are cast."""

    part: Literal["beam", "topping"]
    outline: Outline
    base: float = 0.0
    """Height of its soffit above the beam's, mm."""

    @property
    def top(self) -> float:
        return self.base + self.outline.depth


def build_bars(table: BarTable, spot: Spot, into: Into | None, length: float | None) -> BarGroup | None:
    """``into``: the concrete that the table names; none where it could not be read."""
    piece = build_piece(table, spot)
    steel = build_steel(table, spot, piece)
    y = _height(table, spot, piece, into)
    run = extent(table, spot, length) if length is not None else None
    if piece is None or y is None or into is None:
        return None
    key = "at" if table.at is not None else "cover"
    if not in_concrete(into.outline, y, piece.diameter, table.count, spot, key, "bar", into.base):
        return None
    if steel is None or run is None:
        return None
    return BarGroup(
        count=table.count,
        diameter=piece.diameter,
        area=table.count * piece.area,
        y=y,
        steel=steel,
        x_from=run[0],
        x_to=run[1],
        end_left=cast(BarEnd, table.ends[0]),
        end_right=cast(BarEnd, table.ends[-1]),
        surface=cast(Surface, table.surface) if table.surface else piece.surface,
        label=label(table.count, piece, steel),
        part=into.part,
    )


def _height(table: BarTable, spot: Spot, piece: Piece | None, into: Into | None) -> float | None:
    """Height of the centres above the beam's soffit, mm."""
    if table.at is not None and table.cover is not None:
        spot.wrong("cover", "but at is given too", "give one of them")
        return None
    if table.cover is None and table.face is not None:
        spot.wrong("face", "but cover is not given", 'write cover = "20 mm" beside face, or at alone')
        return None
    if table.at is None and table.cover is None:
        spot.missing("at", 'write at = "25 mm from bottom", or cover = "20 mm" with face = "bottom"')
        return None
    if into is None:
        return None
    if table.at is not None:
        return table.at.above_soffit(into.top)
    if piece is None or table.cover is None:
        return None
    inward = table.cover + piece.diameter / 2
    return into.top - inward if table.face == "top" else inward


def build_stirrups(
    table: StirrupTable, spot: Spot, outline: Outline | None, length: float | None
) -> StirrupZone | None:
    piece = build_piece(table, spot)
    steel = build_steel(table, spot, piece)
    run = extent(table, spot, length) if length is not None else None
    if piece is None:
        return None
    if outline is not None and table.legs * piece.diameter > outline.web_width:
        web = spot.show(outline.web_width)
        problem = f"but {table.legs} of {spot.show(piece.diameter)} do not fit in a web of {web}"
        spot.wrong("legs" if spot.has("legs") else "size", problem, "use fewer or thinner legs")
        return None
    if steel is None or run is None:
        return None
    return StirrupZone(
        area=table.legs * piece.area,
        spacing=table.spacing,
        diameter=piece.diameter,
        legs=table.legs,
        steel=steel,
        x_from=run[0],
        x_to=run[1],
        label=f"{piece.name}, {table.legs} legs, every {spot.show(table.spacing)}",
    )


def label(count: int, piece: Piece, steel: Steel) -> str:
    """As a person would call it: ``2 × 10 B500B``."""
    return f"{count} × {piece.name} {steel.name}".strip()

"""What an anchor holds: measured, by its efficiency, or by the threads of rod and nut."""

from __future__ import annotations

from dataclasses import replace

from soffit.beamfile.faults import Spot
from soffit.beamfile.resolve.piece import Piece, not_in_catalogue
from soffit.beamfile.tables.tendons import NutAnchor, TendonTable, WedgeAnchor
from soffit.catalogue import CatalogueMiss, Thread, nut_class, strip_capacity, thread
from soffit.errors import SoffitError
from soffit.materials.steel import Steel
from soffit.member.beam import Anchor

EFFICIENCY = 0.95
"""Of a wedge anchor: 95 % of the tendon's specified strength, ACI 318-19 25.8.1 (*from memory*)."""


def find_thread(table: TendonTable, spot: Spot, piece: Piece | None) -> Thread | None:
    """The thread on which the nut turns: the anchor's own, or that of the rod."""
    named = table.anchor.thread if isinstance(table.anchor, NutAnchor) else None
    if named is None:
        return piece.thread if piece else None
    try:
        return thread(named)
    except CatalogueMiss as miss:
        not_in_catalogue(spot.inner("anchor"), "thread", miss)
        return None


def build_anchor(table: TendonTable, spot: Spot, piece: Piece, steel: Steel, screw: Thread | None) -> Anchor | None:
    """None where the file describes no anchor, or a faulty one."""
    anchor = table.anchor
    if anchor is None:
        return None
    inner = spot.inner("anchor")
    if not _plate_holds(anchor, inner):
        return None
    if anchor.strength is not None:
        made: Anchor | None = Anchor(anchor.kind, anchor.strength, "measured capacity of the anchor", anchor.draw_in)
    elif isinstance(anchor, WedgeAnchor):
        made = _wedge(anchor, inner, piece, steel)
    else:
        made = _nut(anchor, inner, piece, steel, screw)
    return made and replace(made, plate=anchor.plate, plate_hole=anchor.plate_hole or 0.0)


def _plate_holds(anchor: WedgeAnchor | NutAnchor, spot: Spot) -> bool:
    if anchor.plate_hole is None:
        return True
    if anchor.plate is None:
        spot.wrong("plate_hole", "but plate is not given", 'write plate = ["150 mm", "150 mm"] beside it')
    elif anchor.plate_hole >= min(anchor.plate):
        problem = f"which leaves nothing of a plate of {spot.show(min(anchor.plate))}"
        spot.wrong("plate_hole", problem, "give the diameter of the hole behind the plate")
    else:
        return True
    return False


def _wedge(anchor: WedgeAnchor, spot: Spot, piece: Piece, steel: Steel) -> Anchor:
    efficiency = EFFICIENCY if anchor.efficiency is None else anchor.efficiency
    if anchor.efficiency is None:
        spot.note(f"{spot.name}: the wedges hold {EFFICIENCY:g} of the tendon's strength (ACI 318-19 25.8.1).")
    reason = f"the wedges hold {100 * efficiency:.0f} % of the tendon's strength"
    return Anchor("wedge", efficiency * steel.tensile * piece.area, reason, anchor.draw_in)


def _nut(anchor: NutAnchor, spot: Spot, piece: Piece, steel: Steel, screw: Thread | None) -> Anchor | None:
    if screw is None:
        if anchor.thread is None:
            spot.missing("thread", 'write thread = "M10", for the size of the tendon is no thread')
        return None
    if anchor.nut_class is None:
        spot.missing("class", 'write class = "8", the property class of the nut, or strength = "40 kN"')
        return None
    try:
        found = nut_class(anchor.nut_class, screw.diameter, screw.system)
        held = strip_capacity(screw, anchor.engagement, steel.tensile, found)
    except CatalogueMiss as miss:
        not_in_catalogue(spot, "class", miss)
        return None
    except SoffitError as error:
        spot.wrong("engagement" if spot.has("engagement") else "class", f"but {error}", "give another")
        return None
    ways = {"the nut strips": held.nut_strips, "the thread of the rod strips": held.rod_strips}
    # a rod that is threaded all along breaks anywhere, which is the tendon's own rupture
    if piece.area > 1.001 * screw.area:
        ways["the rod breaks in its thread"] = held.rod_breaks
    reason = min(ways, key=lambda way: ways[way])
    spot.note(
        f"{spot.name}: a nut of class {found.name} on {screw.name} holds {spot.show(ways[reason], 'force')} "
        f"({reason}; by specified values)."
    )
    return Anchor("nut", ways[reason], f"{reason} ({screw.name}, class {found.name})", anchor.draw_in)

"""``[[loads]]`` and ``[press]`` to the loads of the beam."""

from __future__ import annotations

from soffit.beamfile.faults import Spot
from soffit.beamfile.resolve.extent import extent, on_beam
from soffit.beamfile.tables.holding import LoadTable, PressTable
from soffit.member.beam import Load, Press, Supports

KINDS = ("uniform", "point", "patch", "compression")


def build_load(table: LoadTable, spot: Spot, length: float | None) -> Load | None:
    given = [kind for kind in KINDS if getattr(table, kind) is not None]
    if len(given) > 1:
        spot.wrong(given[1], f"but {given[0]} is given too", "write each load as its own [[loads]]")
        return None
    if not given:
        spot.missing("uniform", 'write uniform = "5 kN/m", or point with at, or patch with from and to')
        return None
    kind = given[0]
    if not _goes_with(kind, table, spot) or length is None or kind == "compression":
        return None
    more = (table.eccentricity, table.category or "")
    if kind == "point":
        at = table.at or 0.0
        assert table.point is not None
        return Load(table.case, table.point, at, at, *more) if on_beam(spot, "at", table.at, length) else None
    run = extent(table, spot, length)
    value = table.uniform if kind == "uniform" else table.patch
    if run is None or value is None:
        return None
    return Load(table.case, value, *run, *more)


_NEEDS = {"uniform": (), "point": ("at",), "patch": ("from", "to"), "compression": ()}


def _goes_with(kind: str, table: LoadTable, spot: Spot) -> bool:
    """Whether the keys beside the load are those of its kind."""
    sound = True
    for key in ("at", "from", "to"):
        if key in _NEEDS[kind] and not spot.has(key):
            spot.missing(key, f'write {key} = "1 m" beside {kind}')
            sound = False
        elif spot.has(key) and key not in _NEEDS[kind]:
            cure = "write point with at, patch with from and to, or uniform alone"
            spot.wrong(key, f"but a {kind} load has no such key", cure)
            sound = False
    return sound


def build_press(table: PressTable, spot: Spot, length: float | None, supports: Supports | None) -> Press | None:
    if len(set(table.points)) < len(table.points):
        spot.wrong("points", "which names a place twice", "name each once; all of them push alike")
        return None
    if length is None or supports is None:
        return None
    sound = on_beam(spot, "gauge", table.gauge, length)
    for i, x in enumerate(table.points):
        place = f"found {spot.show(x)}, "
        if x > length:
            told = f"{place}but the beam ends at {spot.show(length)} (x is measured from its left end)"
        elif any(abs(x - each) < 1e-6 for each in supports.x):
            told = f"{place}which is over a support"
        else:
            continue
        cure = "put it where it bends the beam"
        spot.faults.add((*spot.path, "points", i), f"{told}; {cure}.")
        sound = False
    if table.plate >= length:
        spot.wrong("plate", "which is as long as the beam", f"give less than {spot.show(length)}")
        sound = False
    if not sound:
        return None
    if not spot.has("plate"):
        spot.note("The press is taken to push on lines, for the length of its plates is not given.")
    points = tuple(sorted(table.points))
    return Press(points, table.capacity, table.stroke, table.plate, table.gauge)

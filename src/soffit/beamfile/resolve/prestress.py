"""The stress in a tendon, however the file gives it: stress, force, torque on the nut or turns of it."""

from __future__ import annotations

from typing import TypeAlias

from soffit.beamfile.faults import Spot
from soffit.beamfile.resolve.piece import Piece
from soffit.beamfile.tables.tendons import TendonTable
from soffit.catalogue import Thread, force_from_torque
from soffit.catalogue.torque import TORQUE_SCATTER, USUAL_NUT_FACTOR
from soffit.materials.steel import Steel

Run: TypeAlias = tuple[float, float] | None
WAYS = ("stress", "force", "torque", "turns")
TURN_SCATTER = 0.15
"""Relative scatter of the force by turns of the nut (*from memory*; common practice in bolting)."""


def build_stress(
    table: TendonTable, spot: Spot, piece: Piece, steel: Steel, thread: Thread | None, run: Run
) -> tuple[float, float] | None:
    """Stress, MPa, and its relative scatter. ``run`` is where the tendon begins and ends, mm, if known."""
    given = [way for way in WAYS if getattr(table, way) is not None]
    if not given:
        spot.missing("stress", 'write stress = "1200 MPa", or force, or torque, or turns')
        return None
    if len(given) > 1:
        spot.wrong(given[1], f"but {given[0]} is given too", "give one of them")
        return None
    if table.nut_factor is not None and table.torque is None:
        spot.wrong("nut_factor", "but torque is not given", "leave it out")
        return None
    made = _stress(table, spot, piece, steel, thread, run)
    if made is None:
        return None
    stress, scatter = made
    if stress > steel.tensile:
        problem = f"above the tensile strength of {spot.show(steel.tensile, 'stress')}"
        if given[0] != "stress":
            problem = f"a stress of {spot.show(stress, 'stress')}, which is {problem}"
        else:
            problem = f"which is {problem}"
        spot.wrong(given[0], problem, "lower it, or choose a stronger tendon")
        return None
    if stress > steel.yield_strength:
        at, limit = spot.show(stress, "stress"), spot.show(steel.yield_strength, "stress")
        spot.note(f"{spot.name}: the tendon is stressed to {at}, beyond its yield strength of {limit}.")
    return stress, scatter


def _stress(
    table: TendonTable, spot: Spot, piece: Piece, steel: Steel, thread: Thread | None, run: Run
) -> tuple[float, float] | None:
    if table.stress is not None:
        return table.stress, 0.0
    if table.force is not None:
        return table.force / piece.area, 0.0
    way = "torque" if table.torque is not None else "turns"
    if table.when == "before casting":
        cure = 'give stress or force, or write when = "after curing"'
        spot.wrong(way, "but a tendon stressed before casting has no nut to turn", cure)
        return None
    if thread is None:
        spot.wrong(way, "but the tendon has no thread", 'give its thread, such as thread = "M10"')
        return None
    if table.torque is not None:
        return _by_torque(table.torque, table.nut_factor, spot, piece, thread)
    return _by_turns(table.turns or 0.0, spot, steel, thread, run[1] - run[0]) if run else None


def _by_torque(torque: float, factor: float | None, spot: Spot, piece: Piece, thread: Thread) -> tuple[float, float]:
    k = USUAL_NUT_FACTOR if factor is None else factor
    force = force_from_torque(torque, thread.diameter, k)
    how = "" if factor is not None else ", dry steel taken"
    spot.note(
        f"{spot.name}: the torque gives {spot.show(force, 'force')} in a rod by T = K·d·F, K = {k:g}{how}; "
        f"the force scatters by ± {100 * TORQUE_SCATTER:.0f} %, so measure it where it matters."
    )
    # half the band stands for two standard deviations
    return force / piece.area, TORQUE_SCATTER / 2.0


def _by_turns(turns: float, spot: Spot, steel: Steel, thread: Thread, run: float) -> tuple[float, float]:
    stretch = turns * thread.pitch
    stress = steel.modulus * stretch / run
    at = spot.show(stress, "stress")
    spot.note(
        f"{spot.name}: {turns:g} turns stretch a rod by {spot.show(stretch)} over {spot.show(run)}, "
        f"a stress of {at}; the give of nuts and plates and the shortening of the concrete are neglected, "
        f"and the force scatters by ± {100 * TURN_SCATTER:.0f} % (from memory)."
    )
    return stress, TURN_SCATTER / 2.0

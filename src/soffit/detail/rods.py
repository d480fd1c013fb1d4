"""Rods that a nut stresses: torque and turns for the wanted force, how far it scatters, what rod and nut stand."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from soffit.catalogue import CatalogueMiss, Thread, property_class, torque_for_force
from soffit.catalogue import thread as find_thread
from soffit.catalogue.torque import TORQUE_SCATTER, USUAL_NUT_FACTOR
from soffit.errors import SoffitError
from soffit.member.beam import TendonGroup

TURN_SCATTER = 0.15
"""Relative scatter of the force by turns of the nut (*from memory*; common practice in bolting)."""


@dataclass(frozen=True)
class Nut:
    """What the beam file says of a nut beyond the anchor's capacity."""

    thread: Thread
    factor: float | None = None
    """Torque over force times diameter; none: ``USUAL_NUT_FACTOR``."""

    def __post_init__(self) -> None:
        if self.factor is not None and not 0.0 < self.factor < 10.0:
            raise SoffitError(f"a nut factor of {self.factor:g} is none: give torque over force times diameter")


def nut_of(tendon: TendonGroup) -> Nut | None:
    """The nut that turns on a tendon's thread; none where the tendon has no thread, or wedges hold it."""
    if not tendon.thread or tendon.when != "after curing" or (tendon.anchor and tendon.anchor.kind != "nut"):
        return None
    return Nut(find_thread(tendon.thread), tendon.nut_factor)


@dataclass(frozen=True)
class Turned:
    """One rod of a group, forces in N."""

    thread: Thread
    factor: float
    factor_given: bool
    torque: float
    """On the nut for the wanted force, N·mm."""
    band: tuple[float, float]
    """Force that this torque may give, by the scatter of the nut factor."""
    turns: float
    """From snug: elongation over pitch."""
    turn_band: tuple[float, float]
    yields: float
    """Yield or 0.2 % force of the rod in its thread."""
    proof: float | None
    """Proof force of its property class; none where the rod is of none."""
    breaks: float
    holds: float
    """What nut and thread hold."""
    holds_by: str

    @property
    def holding(self) -> tuple[tuple[str, float], ...]:
        """What can give way, in words that follow "at … kN", with the force at which it does, the least first."""
        ways = [
            ("the nut or its thread gives way", self.holds),
            ("the rod breaks", self.breaks),
            ("the rod yields", self.yields),
            ("the rod reaches its proof load", self.proof),
        ]
        known = [(way, force) for way, force in ways if force is not None and isfinite(force)]
        return tuple(sorted(known, key=lambda each: each[1]))

    @property
    def reached(self) -> tuple[str, ...]:
        """What the highest force of the torque's scatter reaches; empty for nothing."""
        return tuple(way for way, force in self.holding if self.band[1] >= force)


def turned(tendon: TendonGroup, nut: Nut, force: float, elongation: float) -> Turned:
    """``force`` in one rod, N, and its elongation, mm, between the nuts.

    T = K d F with K of the file, else 0.20 (dry steel, *common practice*); force ± 30 % at that torque and ± 15 % at
    those turns (*from memory*). The give of nuts and plates and the shortening of the concrete, which cost more turns,
    are left out.
    """
    thread, steel = nut.thread, tendon.steel
    factor = USUAL_NUT_FACTOR if nut.factor is None else nut.factor
    area = min(thread.area, tendon.area / tendon.count)
    try:
        proof: float | None = property_class(steel.name, thread.diameter).proof * thread.area or None
    except CatalogueMiss:
        proof = None
    anchor = tendon.anchor
    return Turned(
        thread=thread,
        factor=factor,
        factor_given=nut.factor is not None,
        torque=torque_for_force(force, thread.diameter, factor),
        band=(force * (1.0 - TORQUE_SCATTER), force * (1.0 + TORQUE_SCATTER)),
        turns=elongation / thread.pitch,
        turn_band=(force * (1.0 - TURN_SCATTER), force * (1.0 + TURN_SCATTER)),
        yields=steel.yield_strength * area,
        proof=proof,
        breaks=steel.tensile * area,
        holds=anchor.capacity if anchor else float("inf"),
        holds_by=anchor.reason if anchor else "",
    )

"""What rests on the beam from the start, and what rises until it breaks."""

from __future__ import annotations

from dataclasses import dataclass

from soffit.errors import PhysicsError
from soffit.member import statics
from soffit.member.beam import Beam, Load
from soffit.member.making import Topping

GRAVITY = 9.80665
"""m/s² (standard gravity, CGPM 1901)."""
STEEL_DENSITY = 7850.0
"""kg/m³ (EN 1991-1-1:2002 Table A.4 gives 77.0 to 78.5 kN/m³; 7850 is that of EN 10080 bar masses)."""
SELF = "self weight"
PERMANENT_CASES = ("dead", SELF)


@dataclass(frozen=True)
class Loading:
    permanent: tuple[Load, ...]
    rising: tuple[Load, ...]
    """Scaled so that their sum is 1 N: the load factor is the total in N."""
    by_press: bool
    notes: tuple[str, ...]

    @property
    def points(self) -> tuple[float, ...]:
        """Where concentrated rising loads stand."""
        return tuple(sorted({load.x_from for load in self.rising if load.is_point}))


def self_weight(beam: Beam) -> Load:
    """Concrete by its density and steel by its own, N/mm over the whole beam.

    The mean over the length of bars that stop earlier; unbonded tendons and stirrups are left out (below 1 %).
    """
    length = beam.length
    steel = sum(b.area * (b.x_to - b.x_from) / length for b in beam.bars)
    steel += sum(t.area * (t.x_to - t.x_from) / length for t in beam.tendons if t.bond == "bonded")
    mass = beam.concrete.density * (beam.outline.area - steel) + STEEL_DENSITY * steel
    return Load(SELF, mass * GRAVITY * 1e-9, 0.0, length)


def topping_weight(topping: Topping, length: float) -> Load:
    """A topping along the whole beam, N/mm; its bars are left out (below 1 %)."""
    return Load("topping", topping.concrete.density * topping.outline.area * GRAVITY * 1e-9, 0.0, length)


def loading(beam: Beam) -> Loading:
    """Split the loads. A press alone rises where there is one; else every load that is not dead, in proportion.

    Raises ``PhysicsError`` when nothing rises.
    """
    notes: list[str] = []
    permanent = [load for load in beam.loads if load.case == "dead"]
    if beam.self_weight:
        permanent.insert(0, self_weight(beam))
    else:
        notes.append("Self weight is left out, as the file says.")
    others = [load for load in beam.loads if load.case != "dead" and load.value != 0.0]
    if beam.press is not None:
        if others:
            cases = ", ".join(sorted({load.case for load in others}))
            notes.append(f"The press alone rises; the loads of case {cases} are left out.")
        share = 1.0 / len(beam.press.points)
        rising = [Load("press", share, p, p) for p in beam.press.points]
    else:
        if not others:
            raise PhysicsError(
                "nothing rises, so there is no life to follow: "
                "add a [press], or a [[loads]] table of a case other than dead"
            )
        total = statics.total(others)
        if total <= 0.0:
            raise PhysicsError("the loads that rise add up to nothing or push upward: give them positive values")
        rising = [Load(load.case, load.value / total, load.x_from, load.x_to) for load in others]
        notes.append("All loads that are not dead rise together, in the proportion in which the file gives them.")
    return Loading(tuple(permanent), tuple(rising), beam.press is not None, tuple(notes))

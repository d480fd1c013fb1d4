"""Ends of prestressed beams by ACI 318-19; all clauses *from memory*.

Post-tensioned anchorage zones only (25.9, whose commentary has the formulas of AASHTO LRFD): for the ends of
pretensioned beams ACI 318-19 has no formula.
"""

from __future__ import annotations

from soffit.codes.aashto import ends as aashto
from soffit.codes.endzone import Anchors, Check, Plate, Reaction, Tie
from soffit.codes.working import FROM_MEMORY, OURS, Symbol, Working, work

NAME = "ACI 318-19"
ZONE = Symbol("φ", 0.85, "ratio", "for anchorage zones, 21.2.1")


def factored(jack: float) -> Working:
    """Ppu: 1.2 times the largest force at the jack (5.3)."""
    return aashto.factored(jack, f"{NAME} 5.3")


def bursting(zone: Anchors, yield_strength: float) -> Tie:
    """Tburst and d_burst of R25.9.4.4, for a rectangular end with one anchor or one group of closely spaced ones.

    The part of an inclined force is that of AASHTO LRFD 5.8.4.5.3. The steel is counted over 2 d_burst, so that its
    middle lies at d_burst (*ours*; the commentary names the middle alone).
    """
    pu = factored(zone.jack)
    clause = f"{NAME} R25.9.4.4"
    force = aashto.bursting_force(zone, pu, clause)
    depth = Symbol("h", zone.section, "length", "size of the section")
    e = Symbol("e", zone.eccentricity, "length", "eccentricity of the anchors")
    centre = work("d_burst", "its distance from the face", "0.5·(h − 2·e)", (depth, e), "length", clause, FROM_MEMORY)
    length = work("l_burst", "where the steel counts", "2·d_burst", (centre.symbol,), "length", "", OURS)
    steel = aashto.tie_steel(force, yield_strength, ZONE, f"{NAME} 25.9.4.4, 21.2.1")
    return Tie("bursting", clause, force, steel, length, centre, (pu, force, centre, length, steel))


def spalling(zone: Anchors, yield_strength: float) -> Tie:
    """The least 2 % of R25.9.4.4, or the edge tension of a force outside the kern."""
    clause = f"{NAME} R25.9.4.4"
    pu = factored(zone.jack)
    force = aashto.spalling_force(zone, pu, clause)
    steel = aashto.tie_steel(force, yield_strength, ZONE, f"{NAME} 25.9.4.4, 21.2.1")
    length = aashto.near_face(zone)
    return Tie("spalling", clause, force, steel, length, None, (pu, force, length, steel))


def plate(found: Plate, strength: float) -> Check:
    """Bearing under a plate: fn of AASHTO LRFD 5.8.4.4.2 with φ = 0.85, for 22.8 leaves anchorage zones out (22.8.1.2).

    ``strength``: f'ci, MPa.
    """
    clause = "AASHTO LRFD 5.8.4.4.2 with φ of ACI 318-19 21.2.1"
    return aashto.plate_bearing(found, strength, factored(found.jack), ZONE, clause)


def bearing(reaction: Reaction, area: float, strength: float) -> Check:
    """Bearing at a support, 22.8.3.2: φ 0.85 f'c A1 with φ = 0.65, and A2 = A1."""
    demand = aashto.factored_reaction("Bu", "max(1.4·D, 1.2·D + 1.6·L)", reaction, f"{NAME} 5.3.1")
    return aashto.support(demand, Symbol("φ", 0.65, "ratio", "for bearing, 21.2.1"), area, strength, f"{NAME} 22.8.3.2")

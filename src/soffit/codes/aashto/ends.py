"""Ends of prestressed beams by AASHTO LRFD, 8th and 9th edition; all clauses *from memory*.

The formulas of the commentary of ACI 318 for anchorage zones are the same, so :mod:`soffit.codes.aci318.ends` uses them
with its own factors.
"""

from __future__ import annotations

from soffit.codes.endzone import Anchors, Check, Plate, Reaction, Tie
from soffit.codes.specified import KSI
from soffit.codes.working import FROM_MEMORY, OURS, Symbol, Working, work

NAME = "AASHTO LRFD"
TENSION = Symbol("φ", 1.0, "ratio", "for steel in tension, anchorage zones, 5.5.4.2")
COMPRESSION = Symbol("φ", 0.80, "ratio", "for compression, anchorage zones, 5.5.4.2")
SPLITTING_STRESS = 20.0 * KSI
"""MPa, 5.9.4.4.1."""
CLOSE = 6.0 * 25.4
"""Greatest spacing of the steel that confines the strands, mm, 5.9.4.4.2."""
STEEPEST_UP, STEEPEST_DOWN = 20.0, -5.0
"""Inclinations within which the approximate formulas hold, degrees, 5.8.4.5.1."""


def factored(jack: float, clause: str = f"{NAME} 3.4.3.2") -> Working:
    """Ppu: 1.2 times the largest force at the jack."""
    total = Symbol("ΣPj", jack, "force", "force at the jack")
    return work("Ppu", "factored force", "1.2·ΣPj", (total,), "force", clause, FROM_MEMORY)


def bursting(zone: Anchors, yield_strength: float) -> Tie:
    """Tburst and d_burst of 5.8.4.5.3; steel within the lesser of 2.5 d_burst and 1.5 h (that rule from memory too, its
    clause not known for sure)."""
    clause = f"{NAME} 5.8.4.5.3"
    pu = factored(zone.jack)
    force = bursting_force(zone, pu, clause)
    e, depth = _eccentricity(zone), _depth(zone)
    incline = _incline(zone)
    centre = work(
        "d_burst",
        "its distance from the face",
        "0.5·(h − 2·e) + 5·e·sin(α)",
        (depth, e, incline),
        "length",
        clause,
        FROM_MEMORY,
    )
    length = work(
        "l_burst",
        "where the steel counts",
        "min(2.5·d_burst, 1.5·h)",
        (centre.symbol, depth),
        "length",
        clause,
        FROM_MEMORY,
    )
    steel = tie_steel(force, yield_strength, TENSION, clause)
    return Tie("bursting", clause, force, steel, length, centre, (pu, force, centre, length, steel))


def bursting_force(zone: Anchors, pu: Working, clause: str) -> Working:
    """Tburst = 0.25 ΣPu (1 − a/h) + 0.5 |ΣPu sin α|, N."""
    size = Symbol("a", zone.size, "length", "size of the plates together")
    return work(
        "Tburst",
        "bursting force",
        "0.25·Ppu·(1 − a/h) + 0.5·Ppu·abs(sin(α))",
        (pu.symbol, size, _depth(zone), _incline(zone)),
        "force",
        clause,
        FROM_MEMORY,
    )


def tie_steel(force: Working, yield_strength: float, phi: Symbol, clause: str) -> Working:
    """As = T/(φ fy), mm²."""
    fy = Symbol("fy", yield_strength, "stress", "yield strength of the stirrups")
    formula = f"{force.name}/(φ·fy)"
    return work("As", "steel needed", formula, (force.symbol, phi, fy), "area", clause, FROM_MEMORY)


def spalling(zone: Anchors, yield_strength: float) -> Tie:
    """5.8.4.5.4: 2 % of the force, or the edge tension of a force outside the kern."""
    clause = f"{NAME} 5.8.4.5.4"
    pu = factored(zone.jack)
    force = spalling_force(zone, pu, clause)
    steel, length = tie_steel(force, yield_strength, TENSION, clause), near_face(zone)
    return Tie("spalling", clause, force, steel, length, None, (pu, force, length, steel))


def spalling_force(zone: Anchors, pu: Working, clause: str) -> Working:
    """The edge tension grows with the force, from ΣPj to Ppu."""
    edge = Symbol("T_edge", zone.edge_tension, "force", "tension at the edge under ΣPj, linear over the section")
    jack = Symbol("ΣPj", zone.jack, "force", "force at the jack")
    formula = "max(0.02·Ppu, T_edge·Ppu/ΣPj)"
    return work("Tspall", "spalling force", formula, (pu.symbol, edge, jack), "force", clause, FROM_MEMORY)


def near_face(zone: Anchors) -> Working:
    """The standards say "near the face"; 0.2 h is *ours*."""
    return work("l_face", "near the face, where steel counts", "0.2·h", (_depth(zone),), "length", "", OURS)


def plate(found: Plate, strength: float) -> Check:
    """Bearing under a plate, 5.8.4.4.2. ``strength``: f'ci, MPa."""
    return plate_bearing(found, strength, factored(found.jack), COMPRESSION, f"{NAME} 5.8.4.4.2")


def plate_bearing(found: Plate, strength: float, pu: Working, phi: Symbol, clause: str) -> Check:
    """φ fn Ab with fn = min(0.7 f'ci √(A/Ag), 2.25 f'ci), for a plate that does not bend."""
    fci = Symbol("f'ci", strength, "stress", "strength of the concrete when stressed")
    gross = Symbol("Ag", found.gross, "area", "plate")
    net = Symbol("Ab", found.net, "area", "plate without its hole")
    around = Symbol("k", found.ratio, "ratio", "side of the concentric area of the face over that of the plate")
    area = work("A", "concentric area", "k^2·Ag", (around, gross), "area", clause, FROM_MEMORY)
    formula = "min(0.7·f'ci·√(A/Ag), 2.25·f'ci)"
    fn = work("fn", "bearing strength", formula, (fci, area.symbol, gross), "stress", clause, FROM_MEMORY)
    resists = work("Pr", "resistance", "φ·fn·Ab", (phi, fn.symbol, net), "force", clause, FROM_MEMORY)
    said = ("The plate is taken as stiff; its thickness is not checked.",)
    return Check("bearing under the plate", clause, pu, resists, (pu, area, fn, resists), said)


def bearing(reaction: Reaction, area: float, strength: float) -> Check:
    """Bearing at a support, 5.6.5: φ 0.85 f'c A1 m, φ = 0.70 and m = 1, under Strength I."""
    demand = factored_reaction("Ru", "1.25·D + 1.75·L", reaction, f"{NAME} 3.4.1")
    clause = f"{NAME} 5.6.5"
    return support(demand, Symbol("φ", 0.70, "ratio", "for bearing, 5.5.4.2"), area, strength, clause)


def factored_reaction(name: str, formula: str, reaction: Reaction, clause: str) -> Working:
    """A combination of D and L; the secondary reaction of the prestress, where there is one, counts once."""
    symbols = [
        Symbol("D", reaction.permanent, "force", "reaction of permanent loads"),
        Symbol("L", reaction.variable, "force", "reaction of all other loads"),
    ]
    if reaction.prestress != 0.0:
        symbols.append(Symbol("P", reaction.prestress, "force", "secondary reaction of the prestress"))
        formula += " + P"
    return work(name, "factored reaction", formula, tuple(symbols), "force", clause, FROM_MEMORY)


def support(demand: Working, phi: Symbol, area: float, strength: float, clause: str) -> Check:
    """φ 0.85 f'c A1; no spreading, for the bearing is as wide as the soffit."""
    fc = Symbol("f'c", strength, "stress", "specified strength")
    a1 = Symbol("A1", area, "area", "bearing length times width of the soffit")
    resists = work("Rr", "resistance", "φ·0.85·f'c·A1", (phi, fc, a1), "force", clause, FROM_MEMORY)
    return Check("bearing at the support", clause, demand, resists, (demand, resists))


def splitting(total: float, depth: float, yield_strength: float) -> Tie:
    """Splitting of a pretensioned end, 5.9.4.4.1: 4 % of the prestress at transfer by steel at 20 ksi or less, within
    h/4. ``total``: N; ``depth``: mm."""
    clause = f"{NAME} 5.9.4.4.1"
    prestress = Symbol("ΣP", total, "force", "prestress at transfer")
    force = work("Psplit", "splitting force", "0.04·ΣP", (prestress,), "force", clause, FROM_MEMORY)
    limit = Symbol("f_lim", SPLITTING_STRESS, "stress", "most that counts, 20 ksi")
    fy = Symbol("fy", yield_strength, "stress", "yield strength of the stirrups")
    stress = work("fs", "stress in the steel", "min(f_lim, fy)", (limit, fy), "stress", clause, FROM_MEMORY)
    symbols = (force.symbol, stress.symbol)
    steel = work("As", "steel needed", "Psplit/fs", symbols, "area", clause, FROM_MEMORY)
    h = Symbol("h", depth, "length", "depth of the beam")
    length = work("l_split", "where steel counts", "h/4", (h,), "length", clause, FROM_MEMORY)
    return Tie("splitting", clause, force, steel, length, None, (force, stress, length, steel))


def confined_length(depth: float) -> Working:
    """1.5 d from the end, over which the strands are enclosed (5.9.4.4.2), mm."""
    d = Symbol("d", depth, "length", "depth of the beam")
    return work("l_conf", "where the strands are enclosed", "1.5·d", (d,), "length", f"{NAME} 5.9.4.4.2", FROM_MEMORY)


def confinement(length: Working, gap: float) -> Check:
    """5.9.4.4.2: stirrups no farther apart than 6 in. ``gap``: the widest there is within ``length``, mm."""
    clause = f"{NAME} 5.9.4.4.2"
    widest = Symbol("s_there", gap, "length", "widest gap of the stirrups")
    most = Symbol("s_most", CLOSE, "length", "6 in")
    there = work("s", "spacing there", "s_there", (widest,), "length")
    limit = work("s_lim", "greatest spacing", "s_most", (most,), "length", clause, FROM_MEMORY)
    return Check("confinement of the strands", clause, there, limit, (length, there, limit))


def _depth(zone: Anchors) -> Symbol:
    return Symbol("h", zone.section, "length", "size of the section")


def _eccentricity(zone: Anchors) -> Symbol:
    return Symbol("e", zone.eccentricity, "length", "eccentricity of the anchors")


def _incline(zone: Anchors) -> Symbol:
    return Symbol("α", zone.incline, "angle", "inclination of the tendons")

"""Ends of prestressed beams by EN 1992-1-1:2004 with the recommended values; all clauses *from memory*."""

from __future__ import annotations

from soffit.codes.endzone import Anchors, Check, Plate, Reaction, Tie
from soffit.codes.working import FROM_MEMORY, OURS, Symbol, Working, work

NAME = "EN 1992-1-1:2004"
SPREAD = 2.0 / 3.0
"""tan β, with which the force spreads behind the anchor (8.10.3 (5))."""
GAMMA_C = Symbol("γc", 1.5, "ratio", "for concrete, 2.4.2.4")
QUIET = Symbol("σ_lim", 300.0, "stress", "above which crack widths must be checked, 8.10.3 (4)")


def factored(jack: float) -> Working:
    """Fd = γp,unfav Pmax with γp,unfav = 1.2 for local effects (8.10.3 (2), 2.4.2.2 (3))."""
    total = Symbol("ΣPmax", jack, "force", "force at the jack")
    return work("Fd", "factored force", "1.2·ΣPmax", (total,), "force", f"{NAME} 8.10.3 (2)", FROM_MEMORY)


def bursting(zone: Anchors, yield_strength: float) -> Tie:
    """The tie of a partial discontinuity, (6.58): T = ¼ (b − a)/b F, with b the depth of the symmetric prism.

    Steel at 300 MPa at most, for which no crack width needs to be checked, and within b of the face (figure 6.25 a).
    ``yield_strength``: fyk, MPa.
    """
    fd = factored(zone.jack)
    clause = f"{NAME} 6.5.3 (6.58)"
    b = Symbol("b", zone.prism, "length", "depth of the symmetric prism")
    a = Symbol("a", zone.size, "length", "size of the plates together")
    force = work("T", "bursting force", "0.25·(b − a)/b·Fd", (b, a, fd.symbol), "force", clause, FROM_MEMORY)
    length = work("l_burst", "where the steel counts", "b", (b,), "length", clause, FROM_MEMORY)
    centre = work("d_burst", "its distance from the face", "b/2", (b,), "length", clause, FROM_MEMORY)
    stress, steel = tie_steel(force, yield_strength)
    workings = (fd, force, centre, length, stress, steel)
    return Tie("bursting", clause, force, steel, length, centre, workings)


def tie_steel(force: Working, yield_strength: float) -> tuple[Working, Working]:
    """σs = min(300 MPa, fyk/1.15) and As = T/σs."""
    fyk = Symbol("fyk", yield_strength, "stress", "yield strength of the stirrups")
    clause = f"{NAME} 8.10.3 (4)"
    stress = work("σs", "stress in the steel", "min(σ_lim, fyk/1.15)", (QUIET, fyk), "stress", clause, FROM_MEMORY)
    symbols = (force.symbol, stress.symbol)
    return stress, work("As", "steel needed", f"{force.name}/σs", symbols, "area", clause, FROM_MEMORY)


def spalling(zone: Anchors, yield_strength: float) -> Tie:
    """Steel at the loaded face, EN 1992-2:2005 J.104.2 (bridges, informative): 3 % of the force; or the edge tension.

    EN 1992-1-1 names no formula; the tension at the edge of a force outside the kern is that of beam theory.
    """
    clause = "EN 1992-2:2005 J.104.2"
    fd = factored(zone.jack)
    edge = Symbol("T_edge", zone.edge_tension, "force", "tension at the edge under ΣPmax, linear over the section")
    jack = Symbol("ΣPmax", zone.jack, "force", "force at the jack")
    force = work(
        "T", "spalling force", "max(0.03·Fd, T_edge·Fd/ΣPmax)", (fd.symbol, edge, jack), "force", clause, FROM_MEMORY
    )
    depth = Symbol("h", zone.section, "length", "size of the section")
    length = work("l_face", "near the face, where steel counts", "0.2·h", (depth,), "length", "", OURS)
    stress, steel = tie_steel(force, yield_strength)
    return Tie("spalling", clause, force, steel, length, None, (fd, force, length, stress, steel))


def plate(found: Plate, strength: float) -> Check:
    """Partially loaded area under a plate, 6.7 (6.63): FRdu = Ac0 fcd √(Ac1/Ac0) <= 3 fcd Ac0.

    ``strength``: fck(t) when stressed, MPa. Ac1 is of the shape of Ac0, concentric, its sides at most three times as
    long. The anchor's own technical assessment governs (8.10.3 (3)).
    """
    clause = f"{NAME} 6.7 (6.63)"
    fd, fcd = factored(found.jack), design_strength(strength, "strength of the concrete when stressed")
    ac0 = Symbol("Ac0", found.net, "area", "plate without its hole")
    around = Symbol("k", found.ratio, "ratio", "side of the concentric area of the face over that of the plate")
    ac1 = work("Ac1", "area it spreads to", "min(k, 3)^2·Ac0", (around, ac0), "area", clause, FROM_MEMORY)
    resists = work(
        "FRdu",
        "resistance",
        "min(Ac0·fcd·√(Ac1/Ac0), 3·fcd·Ac0)",
        (ac0, fcd.symbol, ac1.symbol),
        "force",
        clause,
        FROM_MEMORY,
    )
    said = ("The technical assessment of the anchor governs (8.10.3 (3)). The plate is taken as stiff.",)
    return Check("bearing under the plate", clause, fd, resists, (fd, fcd, ac1, resists), said)


def design_strength(strength: float, what: str) -> Working:
    """fcd = αcc fck/γc with αcc = 1.0 (3.1.6)."""
    fck = Symbol("fck", strength, "stress", what)
    symbols = (fck, GAMMA_C)
    return work("fcd", "design strength", "1.0·fck/γc", symbols, "stress", f"{NAME} 3.1.6", FROM_MEMORY)


def bearing(reaction: Reaction, area: float, strength: float) -> Check:
    """Bearing at a support: fcd Ac0 (6.7 without spreading) under 1.35 G + 1.5 Q (EN 1990 (6.10))."""
    symbols = [
        Symbol("G", reaction.permanent, "force", "reaction of permanent loads"),
        Symbol("Q", reaction.variable, "force", "reaction of all other loads"),
    ]
    formula = "1.35·G + 1.5·Q"
    if reaction.prestress != 0.0:
        symbols.append(Symbol("P", reaction.prestress, "force", "secondary reaction of the prestress, γP = 1.0"))
        formula += " + P"
    demand = work("FEd", "factored reaction", formula, tuple(symbols), "force", "EN 1990 (6.10)", FROM_MEMORY)
    fcd = design_strength(strength, "characteristic strength")
    ac0 = Symbol("Ac0", area, "area", "bearing length times width of the soffit")
    clause = f"{NAME} 6.7"
    resists = work("FRdu", "resistance", "Ac0·fcd", (ac0, fcd.symbol), "force", clause, FROM_MEMORY)
    return Check("bearing at the support", clause, demand, resists, (demand, fcd, resists))


def transmission(
    stress: float, diameter: float, tensile: float, strand: bool, good: bool = True
) -> tuple[Working, ...]:
    """Transmission length, 8.10.2.2, sudden release: lpt1 = 0.8 lpt governs the end.

    ``stress``: σpm0, MPa; ``tensile``: mean tensile strength at release, MPa; ``diameter``: mm; ``good``: by 8.4.2.
    """
    clause = f"{NAME} 8.10.2.2"
    fctm = Symbol("fctm(t)", tensile, "stress", "mean tensile strength at release")
    fctd = work("fctd", "design tensile strength", "0.7·fctm(t)/γc", (fctm, GAMMA_C), "stress", clause, FROM_MEMORY)
    eta = Symbol("ηp1", 3.2 if strand else 2.7, "ratio", "strand" if strand else "indented wire")
    place = Symbol("η1", 1.0 if good else 0.7, "ratio", "good bond" if good else "other bond conditions")
    bond = work("fbpt", "bond stress", "ηp1·η1·fctd", (eta, place, fctd.symbol), "stress", clause, FROM_MEMORY)
    a2 = Symbol("α2", 0.19 if strand else 0.25, "ratio", "strand" if strand else "wire")
    size = Symbol("φp", diameter, "length", "diameter of the tendon")
    sigma = Symbol("σpm0", stress, "stress", "just after release")
    lpt = work(
        "lpt",
        "transmission length",
        "1.25·α2·φp·σpm0/fbpt",
        (a2, size, sigma, bond.symbol),
        "length",
        f"{NAME} (8.16)",
        FROM_MEMORY,
    )
    low = work("lpt1", "lower value", "0.8·lpt", (lpt.symbol,), "length", f"{NAME} (8.17)", FROM_MEMORY)
    return fctd, bond, lpt, low

"""Plain concrete by ACI 318-19 chapter 14; *from memory*."""

from __future__ import annotations

from soffit.codes.aci318 import values
from soffit.codes.cut import Cut
from soffit.codes.design import Design, bending
from soffit.codes.working import Check, Kind, Symbol, Unchecked, Working

PHI = "0.60"


def permission(design: Design, x: float) -> Unchecked:
    """14.1.3: what the chapter lets stand without reinforcement."""
    return Unchecked(
        "plain concrete",
        f"at {x / 1000.0:.2f} m no reinforcement holds the bent beam: plain concrete is permitted only where "
        "soil or other members carry it all along or an arch compresses it, and that is for the engineer to judge",
        design.pen.cite("14.1.3"),
        "plain",
    )


def bears(design: Design, cut: Cut, demand: Working) -> bool:
    """Whether a cut without steel in its tension half needs none: its concrete with the prestress bears the moment
    uncracked, with the strength and φ of this chapter (*ours*: 9.3.3.1 is then not asked)."""
    if cut.tension_bars or cut.tension_tendons:
        return False
    outline = design.beam.outline
    low = outline.centroid
    yt = low if cut.sagging else outline.depth - low
    side = 1.0 if cut.sagging else -1.0
    first = sum(t.force * side * (low - (cut.h - t.depth if cut.sagging else t.depth)) for t in cut.tendons)
    face = cut.P / outline.area + first * yt / outline.inertia
    rupture = 0.42 * values.lightness(design).value * design.strength**0.5
    return demand.value <= 0.60 * (rupture + face) * outline.inertia / yt


def bent(design: Design, x: float, sagging: bool) -> Check | None:
    """Mu ≤ φMn of the uncracked section, 14.5.2.1."""
    pen, e = design.pen, values.of(design)
    demand = design.actions.at("ultimate", bending(sagging), x, "Mu")
    if demand.working.value <= 0.0:
        return None
    outline = design.beam.outline
    arms = outline.centroid, outline.depth - outline.centroid
    tension, compression = arms if sagging else arms[::-1]
    second = Symbol("Ig", outline.inertia, "inertia", "of the section")
    st = pen(
        "St",
        "modulus of the tension face",
        "Ig/yt",
        (second, Symbol("yt", tension, "length", "to the tension face")),
        "volume",
    )
    sc = pen(
        "Sc",
        "modulus of the compressed face",
        "Ig/yc",
        (second, Symbol("yc", compression, "length", "to the compressed face")),
        "volume",
    )
    text = e.pick("min(5·λ·√(f'c)·St, 0.85·f'c·Sc)", "min(0.42·λ·√(f'c)·St, 0.85·f'c·Sc)")
    mn = pen(
        "Mn",
        "strength of plain concrete",
        text,
        (values.lightness(design), values.fc(design), st, sc),
        "moment",
        "14.5.2.1",
    )
    phi, strength = reduced(design, mn, "φMn", "moment")
    sign = bending(sagging)
    return Check(
        f"bending, {sign}, plain concrete",
        pen.cite("14.5.1.1"),
        demand.working,
        strength,
        (demand.working, st, sc, mn, phi, strength),
        ("Chapter 14 for a part of the beam without reinforcement.",),
        f"flexure-{sign}",
        x,
        demand.combination,
        "strength",
    )


def reduced(design: Design, nominal: Working, name: str, kind: Kind) -> tuple[Working, Working]:
    """φ of plain concrete and the strength with it."""
    phi = design.pen("φ", "plain concrete", PHI, (), "ratio", "Table 21.2.1")
    return phi, design.pen(name, "design strength", f"φ·{nominal.name}", (phi, nominal), kind, "14.5.1.1")

"""Shear in the joint under a topping by EN 1992-1-1:2004 6.2.5; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.en1992 import shear, values
from soffit.codes.working import Check, Symbol, Unchecked

ROUGHNESS = {"very smooth": (0.025, 0.5), "smooth": (0.20, 0.6), "rough": (0.40, 0.7), "keyed": (0.50, 0.9)}
"""c and μ, 6.2.5 (2)."""


def interface(design: Design) -> Found:
    """vEdi ≤ vRdi at the worst place; flanges beside the web are left to the engineer."""
    if design.beam.outline.shape in ("tee", "ell", "i", "box", "inverted-tee") or design.cast is not None:
        yield Unchecked(
            "flange beside web", "the transverse bars of the flange are not in the beam file", design.pen.cite("6.2.4")
        )
    if design.cast is None:
        return
    found = worst(_joint(design))
    if found is not None:
        yield found


def _joint(design: Design) -> Iterator[Check]:
    pen, cast = design.pen, design.cast
    assert cast is not None
    c, mu = ROUGHNESS[design.choices.joint]
    weak = min(design.strength, design.opened.topping or design.strength)
    low = Symbol("fck", weak, "stress", "of the weaker concrete")
    fcd = values.fcd(design, low)
    fctm = pen("fctm", "mean tensile strength of the weaker concrete", "0.30·fck^(2/3)", (low,), "stress", "Table 3.1")
    gamma = values.national(design, "γc", 1.5, "for concrete, Table 2.1N")
    fctd = pen("fctd", "its design tensile strength", "0.7·fctm/γc", (fctm, gamma), "stress", "(3.16)")
    bi = Symbol(
        "bi",
        min(cast.outline.width(1e-6), design.beam.outline.width(design.beam.outline.depth - 1e-6)),
        "length",
        "width of the joint",
    )
    for x in shear.places(design):
        demand = design.actions.at("ultimate", "shear", x, "VEd")
        cut = design.cut(x, demand.moment >= 0.0)
        if demand.working.value <= 0.0 or not cut.sagging:
            continue
        made = shear.web(design, cut, demand.axial)
        beta = Symbol("β", 1.0, "ratio", "force in the topping over that in the compressed zone, at most 1")
        acting = pen(
            "vEdi", "shear in the joint", "β·VEd/(z·bi)", (beta, demand.working, made.z, bi), "stress", "(6.24)"
        )
        has = cut.stirrups
        fyk = Symbol("fywk", has.yield_strength if has else 0.0, "stress", "yield strength of the stirrups")
        rho = Symbol("ρ", has.per_length / bi.value if has else 0.0, "ratio", "stirrups that cross the joint")
        nu = pen("ν", "for cracked concrete", "0.6·(1 − fck/250)", (low,), "ratio", "(6.6N)")
        factors = (
            Symbol("c", c, "ratio", f"{design.choices.joint} joint"),
            Symbol("μ", mu, "ratio", f"{design.choices.joint} joint"),
        )
        strength = pen(
            "vRdi",
            "strength of the joint",
            "min(c·fctd + μ·ρ·fywk/γs, 0.5·ν·fcd)",
            (*factors, fctd, rho, fyk, values.gamma_s(design), nu, fcd),
            "stress",
            "(6.25)",
        )
        said = (
            "All stirrups are taken to cross the joint and to be anchored on both sides; no stress acts across it.",
        )
        yield Check(
            "joint under the topping",
            pen.cite("6.2.5"),
            acting,
            strength,
            (demand.working, made.z, acting, fctm, fctd, fcd, nu, strength),
            said,
            "interface-joint",
            x,
            demand.combination,
            "strength",
        )


ENTRIES = (
    Entry(
        "interface",
        "joint under a topping, flanges",
        "6.2.4, 6.2.5",
        "vEdi against vRdi in the joint of composite beams.",
        interface,
    ),
)

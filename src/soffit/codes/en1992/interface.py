"""Shear in the joint under a topping by EN 1992-1-1:2004 6.2.5; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.design import Design, Entry, Found, under, worst
from soffit.codes.en1992 import shear, values
from soffit.codes.working import Check, Symbol, Unchecked

ROUGHNESS = {"very smooth": (0.025, 0.5), "smooth": (0.20, 0.6), "rough": (0.40, 0.7), "keyed": (0.50, 0.9)}
"""c and μ, 6.2.5 (2)."""
SAID = (
    "All stirrups are taken to cross the joint and to be anchored on both sides; no stress acts across it.",
    "The whole shear is counted, that of the bare beam too, and all the compression in the topping (β = 1).",
)


def interface(design: Design) -> Found:
    """vEdi ≤ vRdi at the worst place; flanges beside the web are left to the engineer."""
    if design.beam.outline.shape in ("tee", "ell", "i", "box", "inverted-tee") or design.cast is not None:
        why = "the transverse bars of the flange are not in the beam file"
        yield Unchecked("flange beside web", why, design.pen.cite("6.2.4"))
    if design.cast is not None:
        found = worst(_joint(design))
        if found is not None:
            yield found


def _joint(design: Design) -> Iterator[Check]:
    pen, cast = design.pen, design.cast
    assert cast is not None
    c, mu = ROUGHNESS[design.choices.joint]
    low = Symbol(
        "fck", min(design.strength, design.opened.topping or design.strength), "stress", "of the weaker concrete"
    )
    fcd = values.fcd(design, low)
    text = "0.30·fck^(2/3)" if low.value <= 50.0 else "2.12·ln(1 + (fck + 8)/10)"
    fctm = pen("fctm", "mean tensile strength of the weaker concrete", text, (low,), "stress", "Table 3.1")
    gamma = values.national(design, "γc", 1.5, "for concrete, Table 2.1N")
    alpha = values.national(design, "αct", 1.0, "3.1.6 (2)")
    fctd = pen("fctd", "its design tensile strength", "αct·0.7·fctm/γc", (alpha, fctm, gamma), "stress", "(3.16)")
    nu = pen("ν", "for cracked concrete", "0.6·(1 − fck/250)", (low,), "ratio", "(6.6N)")
    top = design.beam.outline
    bi = Symbol("bi", min(cast.outline.width(0.0), top.width(top.depth)), "length", "width of the joint")
    factors = (Symbol("c", c, "ratio", f"{design.choices.joint} joint"), Symbol("μ", mu, "ratio", "of the same joint"))
    for x in shear.places(design):
        made = shear.web(design, x)
        if not made.cut.sagging:
            continue
        symbols = (
            Symbol("β", 1.0, "ratio", "share of the compression in the topping"),
            made.demand.working,
            made.z,
            bi,
        )
        acting = pen("vEdi", "shear in the joint", "β·VEd/(z·bi)", symbols, "stress", "(6.24)")
        has = made.cut.stirrups
        fywk = Symbol("fywk", has.yield_strength if has else 0.0, "stress", "yield strength of the stirrups")
        rho = Symbol("ρ", has.per_length / bi.value if has else 0.0, "ratio", "stirrups that cross the joint")
        text = "min(c·fctd + μ·ρ·fywk/γs, 0.5·ν·fcd)"
        parts = (*factors, fctd, rho, fywk, values.gamma_s(design), nu, fcd)
        strength = pen("vRdi", "strength of the joint", text, parts, "stress", "(6.25)")
        rows = (made.z, acting, fctm, fctd, fcd, nu, strength)
        key, clause = "interface-joint", pen.cite("6.2.5")
        yield under(made.demand, "joint under the topping", clause, strength, rows, key, SAID, acting)


ABOUT = "vEdi against vRdi in the joint of composite beams."
ENTRIES = (Entry("interface", "joint under a topping, flanges", "6.2.4, 6.2.5", ABOUT, interface),)

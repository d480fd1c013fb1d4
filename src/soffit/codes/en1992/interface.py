"""Shear in the joint under a topping, 6.2.5, and between a compressed flange and its web, 6.2.4, by EN 1992-1-1:2004;
*from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, under, worst
from soffit.codes.en1992 import shear, values
from soffit.codes.working import Check, Symbol, Unchecked, Working

ROUGHNESS = {"very smooth": (0.025, 0.5), "smooth": (0.20, 0.6), "rough": (0.40, 0.7), "keyed": (0.50, 0.9)}
"""c and μ, 6.2.5 (2)."""
FLATTEST = 2.0
"""Greatest cot θf of a compressed flange, 6.2.4 (4)."""
USUAL = 500.0
"""fyk of the transverse bars that are asked for, MPa."""
SAID = (
    "All stirrups are taken to cross the joint and to be anchored on both sides; no stress acts across it.",
    "The whole shear is counted, that of the bare beam too, and all the compression in the topping (β = 1).",
)


def interface(design: Design) -> Found:
    """vEdi ≤ vRdi in the joint under a topping; vEd in the compressed flange beside the web."""
    if design.cast is not None:
        found = worst(_joint(design))
        if found is not None:
            yield found
    places = [place for span in design.spans for place in _slopes(design, *span)]
    flanged = [place for place in places if design.cut(place[0]).flange[1] > 0.0]
    if flanged:
        # the steepest rise of the moment governs
        yield from _flange(design, max(flanged, key=lambda place: place[2] / place[1]))
    bent = design.actions.envelope("ultimate")
    faces = {"sagging": bent.sagging, "hogging": bent.hogging}
    cuts = (design.cut(design.actions.x[np.argmax(m)], face == "sagging") for face, m in faces.items() if m.max() > 0.0)
    pulled = [f"{cut.x / 1e3:.2f} m" for cut in cuts if cut.tension_flange[1] > 0.0]
    if pulled:
        why = f"the flange that bending pulls, most at {' and '.join(pulled)}, is not checked, nor its transverse steel"
        yield Unchecked("pulled flange beside web", why, design.pen.cite("6.2.4"))


def _slopes(design: Design, low: float, high: float) -> Iterator[tuple[float, float, float]]:
    """On either side of a span's greatest sagging moment: where it is, half the distance to where there is none
    (mm, the longest Δx of 6.2.4 (3)), and by how much the moment rises over that from there on (N·mm)."""
    x, moments = design.actions.x, design.actions.envelope("ultimate").sagging
    inside = (x >= low - 1e-6) & (x <= high + 1e-6)
    if not inside.any() or moments[inside].max() <= 0.0:
        return
    top = float(x[inside][int(np.argmax(moments[inside]))])
    for edge, sign in ((low, 1.0), (high, -1.0)):
        between = x[inside & ((x - top) * sign <= 0.0) & (np.interp(x, x, moments) <= 1e-6 * moments.max())]
        zero = float(between.max() if sign > 0.0 else between.min()) if len(between) else edge
        half = 0.5 * abs(top - zero)
        if half > 0.0:
            yield top, half, float(np.interp(zero + sign * half, x, moments) - np.interp(zero, x, moments))


def _flange(design: Design, place: tuple[float, float, float]) -> Iterator[Check | Unchecked]:
    """6.2.4: the struts in the flange, and the transverse steel that its shear wants."""
    pen, (x, half, rise) = design.pen, place
    cut, demand = design.cut(x), design.actions.at("ultimate", "sagging", x, "MEd")
    strong = design.opened.topping if design.cast is not None else None
    fck = Symbol("fck", min(strong or design.strength, design.strength), "stress", "of the flange")
    fcd, fctm = values.fcd(design, fck), values.fctm(design, fck)
    rows = _sheared(design, cut, half, rise)
    ved, hf = rows[-1], Symbol("hf", cut.flange[1], "length", "depth of the flange")
    nu = pen("ν", "for cracked concrete", "0.6·(1 − fck/250)", (fck,), "ratio", "(6.6N)")
    crushed = pen("vRd,max", "shear at which the struts crush, at 45°", "ν·fcd/2", (nu, fcd), "stress", "(6.22)")
    said = ("All the force of the compressed zone is taken to stand in the flange.",)
    clause = pen.cite("6.2.4 (4)")
    yield under(
        demand, "struts in the flange", clause, crushed, (*rows, fcd, nu, crushed), "interface-flange", said, ved
    )
    share = values.national(design, "k", 0.4, "6.2.4 (6)")
    gamma = values.national(design, "γc", 1.5, "for concrete, Table 2.1N")
    bare = pen("vRd,c", "shear that wants no steel but that of bending", "k·0.7·fctm/γc", (share, fctm, gamma),
               "stress", "6.2.4 (6)")  # fmt: skip
    if ved.value <= bare.value:
        yield under(demand, "flange beside web without steel", pen.cite("6.2.4 (6)"), bare, (*rows, fctm, bare),
                    "interface-flange-bare", (), ved, "information")  # fmt: skip
    elif ved.value <= crushed.value:
        cot = min(shear.flattest(design, ved.value / (nu.value * fcd.value)), FLATTEST)
        wants = 1e3 * ved.value * hf.value / cot / (USUAL / values.gamma_s(design).value)
        why = (
            f"at {ved.value:.2f} MPa the flange wants transverse bars, {wants:.0f} mm² a metre of {USUAL:.0f} MPa with "
            f"struts at cot θf = {cot:.2f}, and they are not in the beam file"
        )
        yield Unchecked("transverse steel of the flange", why, pen.cite("(6.21)"))


def _sheared(design: Design, cut: Cut, half: float, rise: float) -> tuple[Working, ...]:
    """vEd of (6.20), last. A flange on one side of the web alone carries all that the web does not."""
    pen, (width, deep) = design.pen, cut.flange
    beff = Symbol("beff", width, "length", "width of the flange")
    bw, hf = Symbol("bw", cut.bw, "length", "width of the web"), Symbol("hf", deep, "length", "depth of the flange")
    sides = Symbol("n", 1.0 if design.beam.outline.shape == "ell" else 2.0, "ratio", "sides of the web with a flange")
    z = pen("z", "lever arm", "0.9·d", (Symbol("d", cut.d, "length", "effective depth"),), "length", "6.2.3 (1)")
    dm = Symbol("ΔMd", rise, "moment", "rise of the moment over Δx from where there is none")
    dx = Symbol("Δx", half, "length", "half the distance to the greatest moment")
    force = pen("ΔFd", "change of the force in one side of the flange", "ΔMd/z·(beff − bw)/(n·beff)",
                (dm, z, beff, bw, sides), "force", "6.2.4 (3)")  # fmt: skip
    return z, force, pen("vEd", "shear between flange and web", "ΔFd/(hf·Δx)", (force, hf, dx), "stress", "(6.20)")


def _joint(design: Design) -> Iterator[Check]:
    pen, cast = design.pen, design.cast
    assert cast is not None
    c, mu = ROUGHNESS[design.choices.joint]
    low = Symbol(
        "fck", min(design.strength, design.opened.topping or design.strength), "stress", "of the weaker concrete"
    )
    fcd, fctm, fctd = values.fcd(design, low), values.fctm(design, low), values.fctd(design, low)
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


ABOUT = "vEdi against vRdi in the joint of composite beams; shear between a compressed flange and its web."
ENTRIES = (Entry("interface", "joint under a topping, flanges", "6.2.4, 6.2.5", ABOUT, interface),)

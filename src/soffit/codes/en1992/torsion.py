"""Torsion with shear by EN 1992-1-1:2004 6.3, of the thin-walled rectangle of a solid web; *from memory*.

Flanges are left out. The torque and the shear of a place are each the greatest there, come together or not.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from soffit.codes.actions import Factored
from soffit.codes.design import Design, Entry, Found, bending, under, worst
from soffit.codes.en1992 import shear, values
from soffit.codes.working import Check, Symbol, Unchecked, Working

SHAPES = ("rectangle", "tee", "ell", "inverted-tee", "i")
"""With a solid rectangular web."""
EDGE = 30.0
"""Axis distance of bars where there are none, mm (*ours*)."""


@dataclass(frozen=True)
class Wall:
    """The thin wall of one cut."""

    made: shear.Web
    ted: Factored
    tef: Working
    area: Working
    """Ak."""
    around: Working
    """uk."""
    rows: tuple[Working, ...]


def torsion(design: Design) -> Found:
    """Struts, stirrups and longitudinal steel under TEd with VEd; nothing without torque."""
    if not any(load.eccentricity for load in design.beam.loads):
        return
    if design.beam.outline.shape not in SHAPES:
        why = f"only sections with one solid rectangular web are checked, and this is a {design.beam.outline.shape}"
        yield Unchecked("torsion", why, design.pen.cite("6.3.1"))
        return
    found: dict[str, list[Check]] = {}
    # the bars for torsion and bending are worst where steel just begins to be needed, which no envelope tells
    for x in (x for x in design.places if design.from_face(x) >= 0.9 * design.cut(x).d):
        wall = _wall(design, x)
        if wall.ted.working.value > 0.0:
            for check in _checks(design, wall):
                found.setdefault(check.key, []).append(check)
    for checks in found.values():
        most = worst(checks)
        if most is not None:
            yield most
    if found:
        why = "bars are counted as one sum: that they stand at every corner and round the section is for the drawing"
        yield Unchecked("places of the bars for torsion", why, design.pen.cite("9.2.3 (4)"))


def _wall(design: Design, x: float) -> Wall:
    pen, made = design.pen, shear.web(design, x)
    cut = made.cut
    b, h = Symbol("b", cut.bw, "length", "width of the web"), Symbol("h", cut.h, "length", "depth")
    edge = Symbol(
        "e", min((cut.h - s.depth for s in cut.tension_bars), default=EDGE), "length", "axis distance of the bars"
    )
    text = "min(max(b·h/(2·(b + h)), 2·e), 0.5·b)"
    tef = pen("tef", "thickness of the thin wall, A/u", text, (b, h, edge), "length", "6.3.2 (1)")
    ak = pen("Ak", "area within the middle of the wall", "(b − tef)·(h − tef)", (b, h, tef), "area", "6.3.2 (1)")
    uk = pen("uk", "its perimeter", "2·(b + h − 2·tef)", (b, h, tef), "length", "6.3.2 (1)")
    return Wall(made, design.actions.at("ultimate", "torsion", x, "TEd"), tef, ak, uk, (tef, ak, uk))


def _checks(design: Design, wall: Wall) -> Iterator[Check]:
    pen, made, ted = design.pen, wall.made, wall.ted.working
    fctd = values.fctd(design)
    cracks = pen("TRd,c", "torque at cracking", "2·Ak·tef·fctd", (wall.area, wall.tef, fctd), "moment", "6.3.2 (5)")
    bare = shear.concrete(design, made)
    text = "TEd/TRd,c + VEd/VRd,c"
    both = pen(
        "used,c", "share of the concrete's strength", text, (ted, cracks, _shear(made), bare[-1]), "ratio", "(6.31)"
    )
    head = (*made.acting, *wall.rows, fctd, cracks, *bare, both)
    one = pen("1", "all of it", "1", (), "ratio")
    cot = _angle(design, wall)
    yield _struts(design, wall, cot, one)
    needed = both.value > 1.0
    if made.cut.stirrups is None or not needed:
        said = "There are no stirrups." if needed else "No more than the least steel is needed, (6.31)."
        state = "strength" if needed else "information"
        key, rows = "torsion-concrete", (*head, one)
        yield under(wall.ted, "torsion with shear, concrete", pen.cite("(6.31)"), one, rows, key, (said,), both, state)
        return
    yield _stirrups(design, wall, cot, head)
    yield _bars(design, wall, cot, head)


def _shear(made: shear.Web) -> Symbol:
    return Symbol("VEd", made.ved.value, "force", made.ved.what)


def _angle(design: Design, wall: Wall) -> Symbol:
    """The flattest struts that bear both: both strengths go with 1/(cot θ + tan θ)."""
    chosen = design.choices.stirrup_angle
    if chosen is None:
        made = wall.made
        per_area = made.alpha.value * made.nu.value * made.fcd.value
        twist = wall.ted.working.value / (2.0 * per_area * wall.area.value * wall.tef.value)
        chosen = shear.flattest(design, twist + made.ved.value / (per_area * made.bw.value * made.z.value))
    return shear.angle(design, chosen)


def _struts(design: Design, wall: Wall, cot: Symbol, one: Working) -> Check:
    """(6.29) with (6.30); told for struts at 45° where the file does not fix them, for these bear most."""
    pen, made = design.pen, wall.made
    if design.choices.stirrup_angle is None:
        cot = Symbol("cotθ", 1.0, "ratio", "of the steepest struts")
    rows = shear.struts(design, made, cot)
    symbols = (made.nu, made.alpha, made.fcd, wall.area, wall.tef, cot)
    text = "2·ν1·αcw·fcd·Ak·tef/(cotθ + 1/cotθ)"
    most = pen("TRd,max", "torque at which the struts crush", text, symbols, "moment", "(6.30)")
    text, parts = "TEd/TRd,max + VEd/VRd,max", (wall.ted.working, most, _shear(made), rows[-1])
    used = pen("used,max", "share of the struts' strength", text, parts, "ratio", "(6.29)")
    every = (*made.acting, *wall.rows, *rows, most, used, one)
    return under(wall.ted, "torsion with shear, struts", pen.cite("(6.29)"), one, every, "torsion-struts", effect=used)


def _stirrups(design: Design, wall: Wall, cot: Symbol, head: tuple[Working, ...]) -> Check:
    pen, made, has = design.pen, wall.made, wall.made.cut.stirrups
    assert has is not None
    fywd = shear.ties(design, made, cot)[0]
    legs = Symbol("n", float(has.legs), "count", "legs that share the shear")
    text = "TEd/(2·Ak·fywd·cotθ) + VEd/(z·fywd·cotθ)/n"
    symbols = (wall.ted.working, wall.area, fywd, cot, _shear(made), made.z, legs)
    need = pen("as,w", "area of an outer leg over the spacing that is needed", text, symbols, "length", "6.3.2, (6.8)")
    leg = Symbol("A1", has.area / has.legs, "area", "of one leg")
    s = Symbol("s", has.spacing, "length", "spacing")
    there = pen("A1/s", "what there is", "A1 / s", (leg, s), "length")
    rows = (*head, made.z, fywd, need, there)
    return under(
        wall.ted, "stirrups for torsion with shear", pen.cite("6.3.2"), there, rows, "torsion-stirrups", effect=need
    )


def _bars(design: Design, wall: Wall, cot: Symbol, head: tuple[Working, ...]) -> Check:
    """(6.28), with what bending needs at the same place; tendons are not counted."""
    pen, cut = design.pen, wall.made.cut
    gamma = values.gamma_s(design)
    fyk = Symbol("fyk", min((b.yield_strength for b in cut.bars), default=0.0), "stress", "yield strength of the bars")
    fyd = pen("fyd", "their design strength", "fyk/γs", (fyk, gamma), "stress", "3.2.7 (2)")
    med = design.actions.at("ultimate", bending(cut.sagging), cut.x, "MEd").working
    text = "(TEd·cotθ/(2·Ak)·uk + MEd/z)/fyd"
    symbols = (wall.ted.working, cot, wall.area, wall.around, med, wall.made.z, fyd)
    need = pen("ΣAsl", "longitudinal steel for torsion and bending", text, symbols, "area", "(6.28)")
    whole = Symbol("As,all", cut.As + cut.Asc, "area", "all bars of the section")
    there = pen("As", "what there is", "As,all", (whole,), "area")
    rows = (*head, wall.made.z, med, fyd, need, there)
    return under(
        wall.ted, "longitudinal steel for torsion", pen.cite("(6.28)"), there, rows, "torsion-bars", effect=need
    )


ABOUT = "TEd with VEd against struts, stirrups and longitudinal bars."
ENTRIES = (Entry("torsion", "torsion with shear", "6.3", ABOUT, torsion),)

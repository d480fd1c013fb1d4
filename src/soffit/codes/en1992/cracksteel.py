"""Minimum steel against cracks by EN 1992-1-1:2004 7.3.2, and the tables of 7.3.3 beside; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.en1992 import limits, service
from soffit.codes.en1992.crackwidth import bond_ratio
from soffit.codes.working import Check, Symbol, Working


def minimum(design: Design) -> Found:
    """7.3.2: steel that takes what the concrete bore when it cracked."""
    for sagging in (True, False):
        found = worst(_minimum(design, sagging))
        if found is not None:
            yield found


def _minimum(design: Design, sagging: bool) -> Iterator[Check]:
    word = bending(sagging)
    for x in service.places(design, "characteristic", sagging, 1):
        cut = design.cut(x, sagging)
        rare, combination, axial = limits.moment(design, "characteristic", sagging, x, "Mk")
        fct = service.tensile(design)
        whole = service.gross_stress(design, cut, rare, cut.h, axial, name="σct")
        if whole.stress.value <= fct.value or not (cut.tension_bars or cut.tension_tendons):
            # 7.3.2 (4) for prestress; without it nothing cracks either
            continue
        yield _least(design, cut, rare, fct, axial, combination, word)


def _least(design: Design, cut: Cut, rare: Working, fct: Working, axial: float, combination: str, word: str) -> Check:
    pen = design.pen
    h = Symbol("h", cut.h, "length", "depth of the section")
    k = pen("k", "for self-equilibrating stresses", "min(1, max(0.65, 1 − 0.35·(h − 300)/500))", (h,), "ratio",
            "7.3.2 (2)")  # fmt: skip
    p, _ = service.force(design, cut)
    squeezed = pen("σc", "mean compression of the section", "(P − N)/Ac",
                   (p, Symbol("N", axial, "force", "axial force, tension positive"),
                    Symbol("Ac", design.outline.area, "area", "gross section")), "stress", "(7.4)")  # fmt: skip
    k1 = Symbol("k1", 1.5 if squeezed.value > 0.0 else 2.0 * min(cut.h, 1000.0) / (3.0 * cut.h), "ratio",
                "compression" if squeezed.value > 0.0 else "tension")  # fmt: skip
    star = Symbol("h*", min(cut.h, 1000.0), "length", "h, at most 1 m")
    kc = pen("kc", "web in bending", "max(0, min(1, 0.4·(1 − σc/(k1·h/h*·fct,eff))))", (squeezed, k1, h, star, fct),
             "ratio", "(7.2)")  # fmt: skip
    fyk = Symbol("fyk", _yield(cut), "stress", "yield strength of the bars")
    sigma = pen("σs,lim", "stress just after cracking, fyk", "fyk", (fyk,), "stress", "7.3.2 (2)")
    z0 = cut.centroid
    tension = cut.zone(cut.h)[0] - cut.zone(z0)[0]
    wide, deep = cut.tension_flange
    head: list[Working] = [k, squeezed, kc, sigma]
    if deep:
        reach = min(deep, cut.h - z0)
        af = Symbol("Af", wide * reach, "area", "flange in tension")
        aw = Symbol("Aw", max(tension - wide * reach, 0.0), "area", "web in tension just before cracking")
        mean = Symbol("r", 1.0 - 0.5 * reach / (cut.h - z0), "ratio", "mean stress of the flange over the face's")
        kf = pen("kc,f", "flange, Fcr = r·fct,eff·Af", "max(0.5, 0.9·r)", (mean,), "ratio", "(7.3)")
        text = "(kc,f·Af + kc·Aw)·k·fct,eff/σs,lim"
        need = pen("As,min", "least steel", text, (kf, af, kc, aw, k, fct, sigma), "area", "(7.1)")
        head.append(kf)
    else:
        act = Symbol("Act", tension, "area", "concrete in tension just before cracking")
        need = pen("As,min", "least steel", "kc·k·fct,eff·Act/σs,lim", (kc, k, fct, act, sigma), "area", "(7.1)")
    area = Symbol("As", cut.As, "area", "bars in tension")
    bonded = [t for t in cut.tension_tendons if t.bonded]
    if bonded and cut.tension_bars:
        xi = bond_ratio(design, bonded[0], max(b.group.diameter for b in cut.tension_bars))
        near = [t for t in bonded if any(abs(t.depth - b.depth) <= 150.0 for b in cut.tension_bars)]
        ap = Symbol("Ap'", sum(t.area for t in near), "area", "bonded tendons within 150 mm of the bars")
        have = pen("As,prov", "steel there, tendons by their bond", "As + ξ1·Ap'", (area, xi, ap), "area", "7.3.2 (3)")
        head.append(xi)
    elif bonded:
        xi = bond_ratio(design, bonded[0], 0.0)
        ap = Symbol("Ap'", sum(t.area for t in bonded), "area", "bonded tendons")
        have = pen("As,prov", "tendons by their bond", "ξ1·Ap'", (xi, ap), "area", "7.3.2 (3)")
        head.append(xi)
    else:
        have = pen("As,prov", "steel there", "As", (area,), "area")
    return Check(
        f"minimum steel against cracks, {word}", pen.cite("(7.1)"), need, have, (rare, fct, *head, need, have),
        ("σs is taken as fyk; smaller widths want the lower stress of Table 7.2N, which crack width checks.",),
        key=f"crack-steel-{word}", x=cut.x, combination=combination, state="service",
    )  # fmt: skip


def _yield(cut: Cut) -> float:
    return min((b.yield_strength for b in cut.tension_bars), default=500.0)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "crack-steel",
        "minimum steel against cracks",
        "7.3.2",
        "As against As,min of (7.1).",
        service.of_steel("minimum steel against cracks", minimum),
    ),
)

"""Crack width by EN 1992-1-1:2004 7.3.4; recommended values, *from memory*. Formulas as in
:mod:`soffit.materials.crack_width`, which the life uses.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from soffit.codes.cut import BarsAt, Cut, TendonsAt
from soffit.codes.design import Design
from soffit.codes.en1992 import limits, service, values
from soffit.codes.en1992.bond import covers
from soffit.codes.en1992.longterm import LongTerm, longterm
from soffit.codes.working import Symbol, Working, given
from soffit.materials.crack_width import BOND_RATIO


@dataclass(frozen=True)
class Effective:
    """Concrete and steel of the tension zone that share a crack, 7.3.2 (3)."""

    workings: tuple[Working, ...]
    ratio: Working
    """ρp,eff."""
    bars: tuple[BarsAt, ...]
    tendons: tuple[TendonsAt, ...]
    diameter: Working
    """φ or φeq, mm."""
    tendon_ratio: float
    """ξ1, of the first tendon; 0 without."""


def bond_ratio(design: Design, tendon: TendonsAt, bar: float) -> Working:
    """ξ1, (7.5), by Table 6.2 and 6.8.2 (2)."""
    g = tendon.group
    kind = "indented wire" if g.wire else "strand" if g.steel.kind == "strand" else "ribbed bar"
    early, late = BOND_RATIO[kind]
    xi = early if g.when == "before casting" else late
    if g.when != "before casting" and design.strength > 50.0:
        # Table 6.2: half of it from C70/85 on, straight between
        xi *= 1.0 - 0.5 * min((design.strength - 50.0) / 20.0, 1.0)
    x = Symbol("ξ", xi, "ratio", f"bond of {kind}, Table 6.2")
    if not bar:
        return design.pen("ξ1", "tendons alone", "√(ξ)", (x,), "ratio", "(7.5)")
    if kind == "strand":
        one = g.area / g.count
        size = 1.75 * g.diameter / 3.0 if g.when == "before casting" else 1.6 * sqrt(one)
    else:
        size = g.diameter
    dp = Symbol("φp", size, "length", "equivalent diameter of the tendon, 6.8.2 (2)")
    ds = Symbol("φs", bar, "length", "greatest bar")
    return design.pen("ξ1", "bond of the tendons beside that of the bars", "√(ξ·φs/φp)", (x, ds, dp), "ratio", "(7.5)")


def effective(design: Design, cut: Cut, x: Working) -> Effective | None:
    """Ac,eff and ρp,eff of a cracked cut; none where no bonded steel lies in it."""
    pen = design.pen
    bonded = tuple(t for t in cut.tension_tendons if t.bonded)
    steel = [*((b.area, b.depth) for b in cut.tension_bars), *((t.area, t.depth) for t in bonded)]
    total = sum(a for a, _ in steel)
    if not total:
        return None
    h = Symbol("h", cut.h, "length", "depth of the section")
    d = Symbol("d", sum(a * z for a, z in steel) / total, "length", "depth of the bonded steel in tension")
    hc = pen("hc,ef", "depth of the concrete that the bars hold", "min(2.5·(h − d), (h − x)/3, h/2)", (h, d, x),
             "length", "7.3.2 (3)")  # fmt: skip
    top = cut.h - hc.value
    area = cut.zone(cut.h)[0] - cut.zone(top)[0]
    b = cut.width(cut.h - 1e-6 * cut.h)
    if abs(area - b * hc.value) < 1e-6 * area:
        wide = Symbol("b", b, "length", "width of the tension face")
        ac = pen("Ac,eff", "effective concrete", "b·hc,ef", (wide, hc), "area", "7.3.2 (3)")
    else:
        ac = given("Ac,eff", "effective concrete, from the outline", area, "area")
    bars = tuple(b for b in cut.tension_bars if b.depth >= top - 1e-6)
    tendons = tuple(t for t in bonded if t.depth >= top - 1e-6)
    if not bars and not tendons:
        # the steel lies above the effective zone: what is deepest counts
        bars = tuple(b for b in cut.tension_bars if b.depth == cut.deepest)
        tendons = tuple(t for t in bonded if t.depth == cut.deepest)
        if not bars and not tendons:
            return None
    steel_area = Symbol("As", sum(b.area for b in bars), "area", "bars in it")
    head: list[Working] = [hc, ac]
    xi = None
    if tendons:
        xi = bond_ratio(design, tendons[0], max((b.group.diameter for b in bars), default=0.0))
        ap = Symbol("Ap'", sum(t.area for t in tendons), "area", "bonded tendons in it")
        head.append(xi)
        ratio = pen("ρp,eff", "effective ratio", "(As + ξ1^2·Ap')/Ac,eff", (steel_area, xi, ap, ac), "ratio", "(7.10)")
    else:
        ratio = pen("ρp,eff", "effective ratio", "As/Ac,eff", (steel_area, ac), "ratio", "(7.10)")
    sizes = {b.group.diameter for b in bars} or {t.group.diameter for t in tendons}
    if len(sizes) == 1:
        phi = given("φ", "diameter", sizes.pop(), "length")
    else:
        symbols: list[Symbol] = []
        for i, bar in enumerate(bars):
            symbols += [Symbol(f"n{i + 1}", bar.group.count, "count", f"bars of {bar.group.label}"),
                        Symbol(f"φ{i + 1}", bar.group.diameter, "length", f"of {bar.group.label}")]  # fmt: skip
        up = " + ".join(f"n{i + 1}·φ{i + 1}^2" for i in range(len(bars)))
        low = " + ".join(f"n{i + 1}·φ{i + 1}" for i in range(len(bars)))
        phi = pen("φ", "equivalent diameter", f"({up})/({low})", tuple(symbols), "length", "(7.12)")
    head += [ratio, phi]
    return Effective(tuple(head), ratio, bars, tendons, phi, xi.value if xi else 0.0)


def width(
    design: Design, cut: Cut, m: Working, axial: float, late: LongTerm | None = None, lasts: bool = True
) -> tuple[tuple[Working, ...], Working, tuple[str, ...]] | None:
    """wk under a moment, 7.3.4: its workings, itself, what was assumed. ``late``: creep, else that of the design;
    ``lasts``: whether the load does, for kt."""
    pen = design.pen
    late = late or longterm(design)
    split = service.crack(design, cut, m.value, late.effective.value, axial)
    if split is None:
        return None
    x = given("x", "depth of the neutral axis, cracked, by equilibrium", split.depth, "length")
    zone = effective(design, cut, x)
    if zone is None:
        return None
    outer: BarsAt | TendonsAt
    outer = max(zone.bars, key=lambda e: e.depth) if zone.bars else max(zone.tendons, key=lambda e: e.depth)
    es = Symbol("Es", outer.group.steel.modulus, "stress", "modulus of the steel")
    d1 = Symbol("d1", outer.depth, "length", f"depth of {outer.group.label or 'the outermost'}")
    shown, sigma = limits.bar_stress(design, split, m, d1, es)
    fct = service.tensile(design)
    ecm = Symbol("Ecm", design.modulus, "stress", "modulus of the concrete")
    kt = Symbol("kt", 0.4 if lasts else 0.6, "ratio", f"loads that {'last' if lasts else 'pass'}, 7.3.4 (2)")
    head: list[Working] = [*late.workings[:3], *shown, *zone.workings]
    eased = pen("Δεt", "strain with the concrete between the cracks",
                "(σs − kt·fct,eff/ρp,eff·(1 + Es/Ecm·ρp,eff))/Es", (sigma, kt, fct, zone.ratio, es, ecm), "strain",
                "(7.9)")  # fmt: skip
    strain = pen("Δε", "εsm − εcm", "max(Δεt, 0.6·σs/Es)", (eased, sigma, es), "strain", "(7.9)")
    cover_, gap = _cover(design, cut, outer)
    c = Symbol("c", cover_, "length", "cover to the longitudinal steel")
    plain = not zone.bars or any(b.group.surface == "plain" for b in zone.bars)
    k1 = Symbol("k1", 1.6 if plain else 0.8, "ratio", "plain surface" if plain else "ribbed bars")
    k2 = _k2(design, cut, split, axial)
    k3 = values.national(design, "k3,s", 3.4, "7.3.4 (3)")
    k4 = values.national(design, "k4,s", 0.425, "7.3.4 (3)")
    limit = pen("slim", "spacing up to which the bars hold each other's cracks", "5·(c + φ/2)", (c, zone.diameter),
                "length", "7.3.4 (3)")  # fmt: skip
    close = pen("sr,max,1", "spacing of cracks at bars", "k3,s·c + k1·k2·k4,s·φ/ρp,eff",
                (k3, c, k1, k2, k4, zone.diameter, zone.ratio), "length", "(7.11)")  # fmt: skip
    h = Symbol("h", cut.h, "length", "depth of the section")
    head += [eased, strain, limit, close]
    said = ["Bars stand spread evenly over the width, with the cover of the face at the sides."]
    if gap > limit.value:
        sr = pen("sr,max", "greatest spacing of cracks, bars further apart than slim", "1.3·(h − x)", (h, x), "length",
                 "(7.14)")  # fmt: skip
        said.append(f"Bars are {gap:.0f} mm apart, more than slim.")
    else:
        sr = pen("sr,max", "greatest spacing of cracks, bars within slim", "sr,max,1", (close,), "length", "7.3.4 (3)")
    head.append(sr)
    wk = pen("wk", "crack width", "sr,max·Δε", (sr, strain), "length", "(7.8)")
    return (*head, wk), wk, tuple(said)


def _k2(design: Design, cut: Cut, split: service.Cracked, axial: float) -> Symbol | Working:
    """0.5 in bending, 1 in tension, (7.13) between: by the strains at both ends of the tension zone."""
    if axial > 0.0 and split.depth <= 0.0:
        e1, e2 = split.strain(cut.h), max(split.strain(0.0), 0.0)
        greater = Symbol("ε1", max(e1, e2), "strain", "greater strain of the faces")
        smaller = Symbol("ε2", min(e1, e2), "strain", "smaller strain of the faces")
        return design.pen(
            "k2", "between bending and tension", "(ε1 + ε2)/(2·ε1)", (greater, smaller), "ratio", "(7.13)"
        )
    return Symbol("k2", 0.5, "ratio", "bending, 7.3.4 (3)")


def _cover(design: Design, cut: Cut, steel: BarsAt | TendonsAt) -> tuple[float, float]:
    """Cover, and spacing of centres, mm."""
    if isinstance(steel, BarsAt):
        found = covers(design, steel.group)
        face = cut.h - steel.depth - 0.5 * steel.group.diameter
        return max(face, 1.0), 2.0 * found.half_gap + steel.group.diameter
    g = steel.group
    size = max(g.diameter, g.duct)
    face = max(cut.h - steel.depth - 0.5 * size, 1.0)
    width_ = cut.width(steel.depth) or cut.bw
    inner = width_ - 2.0 * face - size
    return face, inner / (g.count - 1) if g.count > 1 and inner > 0.0 else width_

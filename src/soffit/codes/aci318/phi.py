"""The strength reduction factor of bending by ACI 318-19 21.2; *from memory*."""

from __future__ import annotations

from soffit.codes.aci318 import values
from soffit.codes.aci318.layers import embedded, not_developed, pretensioned, sheathed, transfer
from soffit.codes.bending import Bending, Layer
from soffit.codes.cut import Cut
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working

YIELD_SPREAD = 0.003
"""Beyond εty: the limit of tension-controlled sections, Table 21.2.2 (0.005 for Grade 60 alone and for strand)."""


def reduction(design: Design, found: Bending, deepest: Layer, cut: Cut) -> tuple[Working, Working]:
    """εty, and φ by the strain of the outermost layer, Table 21.2.2, ties."""
    pen = design.pen
    et = Symbol("εt", found.outermost, "strain", "net strain of the outermost layer")
    if deepest.prestressed:
        ety = pen("εty", "of all prestressed steel", "0.002", (), "strain", "21.2.2.2")
    else:
        steel = max(cut.bars, key=lambda b: b.depth).group.steel
        fy = Symbol("fy", steel.yield_strength, "stress", "of the outermost bars")
        es = Symbol("Es", steel.modulus, "stress", "modulus of the bars")
        ety = pen("εty", "yield strain of the outermost bars", "fy/Es", (fy, es), "strain", "21.2.2.1")
    phi = pen(
        "φ",
        f"strength reduction, {control(found.outermost, ety.value)}",
        "max(0.65, min(0.90, 0.65 + 0.25·(εt − εty)/0.003))",
        (et, ety),
        "ratio",
        "Table 21.2.2",
    )
    return ety, phi


def control(strain: float, yield_strain: float) -> str:
    if strain <= yield_strain:
        return "compression-controlled"
    return "tension-controlled" if strain >= yield_strain + YIELD_SPREAD else "in transition"


def at_ends(design: Design, cut: Cut, phi: Working, full: Bending | None, shown: list[Layer]) -> list[Working]:
    """φ where pretensioned strand is not developed, 21.2.3; the last is the φ that counts."""
    pen, e = design.pen, values.of(design)
    near: list[tuple[float, list[Working]]] = []
    live = [layer for layer in shown if layer.area > 0.0]
    for i, t in enumerate(cut.tendons):
        if full is None or not pretensioned(t) or not not_developed(t) or t.depth <= 0.5 * cut.h:
            continue
        m = str(i + 1)
        index = next(k for k, layer in enumerate(live) if layer.prestressed and layer.mark == m)
        fps = Symbol(f"fps{m}", full.stresses[index], "stress", "were it developed, by strain compatibility")
        fse = Symbol(f"fse{m}", t.full, "stress", "effective stress after all losses")
        db = Symbol(f"db{m}", t.group.diameter, "length", "diameter")
        lx, ltr = embedded(t, m), transfer(design, t, m)
        slow = sheathed(t) or t.group.wire
        text = e.pick("1000", "7") if not slow else e.pick("500", "3.5")
        ld = pen(
            f"ld{m}",
            "development length",
            f"ltr{m} + (fps{m} − fse{m})/{text}·db{m}",
            (ltr, fps, fse, db),
            "length",
            "25.4.8.1",
        )
        if lx.value >= ld.value:
            continue
        here = pen(
            f"φ{m}",
            "near the end of the strand",
            f"0.75 + 0.15·max(0, lx{m} − ltr{m})/(ld{m} − ltr{m})",
            (lx, ltr, ld),
            "ratio",
            "Table 21.2.3",
        )
        near.append((here.value, [ld, here]))
    if not near:
        return [phi]
    _, more = min(near, key=lambda each: each[0])
    last = pen("φend", "the lesser of both", f"min({phi.name}, {more[-1].name})", (phi, more[-1]), "ratio", "21.2.3")
    return [phi, *more, last]

"""The approximate stress of bonded tendons at nominal strength, ACI 318-19 20.3.2.3.1, beside strain compatibility."""

from __future__ import annotations

from soffit.codes.aci318 import values
from soffit.codes.aci318.bent import Bent, all_bent, block
from soffit.codes.aci318.layers import layers, not_developed
from soffit.codes.aci318.phi import reduction
from soffit.codes.bending import Layer, resist
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending
from soffit.codes.working import Check, Symbol, Unchecked, Working
from soffit.errors import PhysicsError

KINDS = ((0.90, 0.28), (0.85, 0.40), (0.80, 0.55))
"""fpy/fpu and γp, Table 20.3.2.3.1."""
ROUNDED = 0.0005


def approximate(design: Design) -> Found:
    """Mu against φMn with fps of 20.3.2.3.1, for information: bars count with fy, compression steel not at all."""
    for sagging in (True, False):
        found = [b for b in all_bent(design, sagging)[0] if _bonded(b.cut)]
        if found:
            yield _check(design, max(found, key=lambda b: b.ratio), sagging)


def _bonded(cut: Cut) -> bool:
    tension = [t for t in cut.tension_tendons if t.full > 0.0]
    return bool(tension) and all(t.bonded and not not_developed(t) for t in tension)


def _check(design: Design, bent: Bent, sagging: bool) -> Check | Unchecked:
    pen, cut = design.pen, bent.cut
    sign = bending(sagging)
    title, key = f"bending, {sign}, approximate fps", f"flexure-approximate-{sign}"
    tension = [t for t in cut.tension_tendons if t.full > 0.0]
    low = [t for t in tension if t.full < 0.5 * t.group.steel.tensile]
    if low:
        why = f"fse = {low[0].full:.0f} MPa lies below 0.5 fpu = {0.5 * low[0].group.steel.tensile:.0f} MPa"
        return Unchecked(title, why, pen.cite("20.3.2.3.1"), key, scope=True)
    yield_ratio = min(t.group.steel.yield_strength / t.group.steel.tensile for t in tension)
    if yield_ratio < KINDS[-1][0] - ROUNDED:
        why = f"fpy/fpu = {yield_ratio:.3f} lies below 0.80, the least for which γp is given"
        return Unchecked(title, why, pen.cite("Table 20.3.2.3.1"), key, scope=True)
    if design.cast is not None or abs(bent.axial) >= 1.0:
        return Unchecked(title, "the formula is for one concrete without axial force", pen.cite("20.3.2.3.1"), key)
    fps, shown = stress(design, cut, yield_ratio)
    steel = []
    for layer in layers(design, cut, capped=False):
        if layer.prestressed:
            if layer.depth > 0.5 * cut.h:
                steel.append(
                    Layer(layer.mark, layer.what, layer.depth, layer.area, "fps", (fps.symbol,), prestressed=True)
                )
        elif layer.depth > 0.5 * cut.h:
            steel.append(layer)
    made = block(design)
    try:
        found = resist(pen, cut, made, steel)
    except PhysicsError as error:
        return Unchecked(title, str(error), pen.cite("20.3.2.3.1"), key)
    ety, phi = reduction(design, found, max(steel, key=lambda each: each.depth), cut)
    strength = pen("φMn", "design strength", "φ·Mn", (phi, found.moment), "moment", "9.5.1.1")
    said = (
        "For comparison with strain compatibility, which decides; compression steel is left out.",
        f"γp by fpy/fpu = {yield_ratio:.3f} of the stated strengths.",
    )
    return Check(
        title,
        pen.cite("20.3.2.3.1"),
        bent.demand,
        strength,
        (bent.demand, made.stress, made.factor, *shown, fps, *found.workings, ety, phi, strength),
        said,
        key,
        cut.x,
        bent.combination,
        "information",
    )


def stress(design: Design, cut: Cut, yield_ratio: float) -> tuple[Working, tuple[Working, ...]]:
    """fps and what leads to it; ρp with dp, the bars with their own depth."""
    pen = design.pen
    gamma_value = next(g for least, g in KINDS if yield_ratio >= least - ROUNDED)
    gamma = pen("γp", f"fpy/fpu = {yield_ratio:.3f}", f"{gamma_value:.2f}", (), "ratio", "Table 20.3.2.3.1")
    b = Symbol("b", cut.b, "length", "width of the compressed face")
    dp = Symbol("dp", cut.dp, "length", "depth of the tendons")
    rho_p = pen(
        "ρp",
        "share of tendons",
        "Aps/(b·dp)",
        (Symbol("Aps", cut.Ap, "area", "tendons in tension"), b, dp),
        "ratio",
        "20.3.2.3.1",
    )
    fpu = Symbol("fpu", min(t.group.steel.tensile for t in cut.tension_tendons), "stress", "tensile strength")
    beta = values.beta1(design)
    fc = values.fc(design)
    if cut.As <= 0.0:
        fps = pen(
            "fps",
            "stress of bonded tendons",
            "fpu·(1 − γp/β1·ρp·fpu/f'c)",
            (fpu, gamma, beta, rho_p, fc),
            "stress",
            "20.3.2.3.1",
        )
        return fps, (gamma, rho_p)
    d = Symbol("d", cut.ds, "length", "depth of the bars in tension")
    fy = Symbol("fy", sum(x.area * x.yield_strength for x in cut.tension_bars) / cut.As, "stress", "of the bars")
    rho = pen("ρ", "share of bars", "As/(b·d)", (Symbol("As", cut.As, "area", "bars in tension"), b, d), "ratio")
    fps = pen(
        "fps",
        "stress of bonded tendons",
        "fpu·(1 − γp/β1·(ρp·fpu/f'c + d/dp·fy/f'c·ρ))",
        (fpu, gamma, beta, rho_p, fc, d, dp, fy, rho),
        "stress",
        "20.3.2.3.1",
    )
    return fps, (gamma, rho_p, rho)


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "flexure-approximate",
        "bending with the approximate fps",
        "20.3.2.3.1",
        "Mu against φMn with the stress of bonded tendons by formula, for information.",
        approximate,
    ),
)

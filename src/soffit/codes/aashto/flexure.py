"""Bending by AASHTO LRFD 5.6.3: strain compatibility, the approximate stress of tendons beside it; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from soffit.codes.aashto import values
from soffit.codes.aashto.bond import developed
from soffit.codes.aashto.layers import block, layers, weakest
from soffit.codes.bending import Bending, resist
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.errors import PhysicsError

APPROXIMATE = 0.5
"""Of fpu: the least fpe for which (5.6.3.1.1-1) holds."""


SMALL = 0.05
"""Ratio of bending below which the approximate formula is not told."""


@dataclass(frozen=True)
class Strength:
    factored: Working
    """Mr = φ Mn."""
    nominal: Working
    bending: Bending
    phi: Working
    workings: tuple[Working, ...]


def strength(design: Design, cut: Cut, axial: float = 0.0) -> Strength:
    """Mr by strain compatibility. Raises :class:`PhysicsError` where the section cannot have the force."""
    key = (
        "aashto bent", cut.sagging, round(axial, 3), tuple((b.index, round(developed(design, b), 6)) for b in cut.bars),
        tuple((t.index, round(t.depth, 2), round(t.stress, 2), round(min(t.left, t.right))) for t in cut.tendons),
    )  # fmt: skip
    return design.kept(key, lambda: _strength(design, cut, axial))


def _strength(design: Design, cut: Cut, axial: float) -> Strength:
    steel = layers(design, cut)
    made = block(design, weakest(design, None, cut))
    found = resist(design.pen, cut, made, steel, axial)
    if weakest(design, found.a, cut) != weakest(design, None, cut):
        made = block(design, weakest(design, found.a, cut))
        found = resist(design.pen, cut, made, steel, axial)
    phi = reduction(design, cut, found.outermost)
    alpha = values.alpha1(design, made.stress.symbols[1])
    factored = design.pen("Mr", "factored resistance", "φ·Mn", (phi, found.moment), "moment", "5.6.3.2.1")
    return Strength(factored, found.moment, found, phi,
                    (alpha, made.stress, made.factor, *found.workings, phi, factored))  # fmt: skip


def reduction(design: Design, cut: Cut, strain: float) -> Working:
    """φ, 5.5.4.2: to 1.0 with bonded prestress, 0.90 without, 0.75 compression-controlled."""
    et = Symbol("εt", strain, "strain", "net strain of the outermost layer")
    steel = max([*cut.bars], key=lambda b: b.depth, default=None)
    fy = steel.yield_strength / values.KSI if steel else 60.0
    # 5.6.2.1: limits for bars to 60 ksi and for prestressed steel; above 60 ksi linear to 0.004 and 0.008 at 100 ksi
    low, high = (0.002, 0.005) if cut.prestressed or fy <= 60.0 else _limits(fy)
    cl = Symbol("εcl", low, "strain", "compression-controlled, 5.6.2.1")
    tl = Symbol("εtl", high, "strain", "tension-controlled, 5.6.2.1")
    bonded = any(t.bonded for t in cut.tendons)
    rise, most = ("0.25", "1.0") if bonded else ("0.15", "0.9")
    what = "with bonded prestress" if bonded else "without bonded prestress"
    text = f"max(0.75, min({most}, 0.75 + {rise}·(εt − εcl)/(εtl − εcl)))"
    return design.pen("φ", f"resistance factor, {what}", text, (et, cl, tl), "ratio", "5.5.4.2")


def _limits(fy: float) -> tuple[float, float]:
    share = min((fy - 60.0) / 40.0, 1.0)
    return 0.002 + share * (0.004 - 0.002), 0.005 + share * (0.008 - 0.005)


def approximate(design: Design, cut: Cut) -> tuple[Working, tuple[Working, ...], tuple[Working, Working]] | None:
    """Mn by (5.6.3.1.1-1) to (-4) and (5.6.3.2.2-1), its workings, and c and fps; none where they do not apply:
    tendons with less than 0.5 fpu, near their ends or unbonded, sections without plain flange and web."""
    pen = design.pen
    strands = cut.tension_tendons
    if not strands or any(not t.bonded or t.full < APPROXIMATE * t.group.steel.tensile for t in cut.tendons):
        return None
    if any(t.stress < 0.999 * t.full for t in cut.tendons) or len({t.group.steel for t in strands}) > 1:
        return None
    steel = strands[0].group.steel
    fpu = Symbol("fpu", steel.tensile, "stress", "tensile strength of the tendons")
    fpy = Symbol("fpy", steel.yield_strength, "stress", "yield strength of the tendons")
    k = pen("k", "for the steel of the tendons", "2·(1.04 − fpy/fpu)", (fpy, fpu), "ratio", "(5.6.3.1.1-2)")
    aps = Symbol("Aps", cut.Ap, "area", "of the tendons in tension")
    dp = Symbol("dp", cut.dp, "length", "depth of their centroid")
    a_s = Symbol("As", cut.As, "area", "of the bars in tension")
    ds = Symbol("ds", cut.ds, "length", "depth of the bars")
    fs = Symbol("fs", min((b.yield_strength for b in cut.tension_bars), default=0.0), "stress", "of the bars, at yield")
    fc = Symbol("f'c", weakest(design, None, cut), "stress", "specified strength of the concrete in compression")
    alpha, beta = values.alpha1(design, fc), values.beta1(design, fc)
    width, deep = cut.flange
    b, bw = Symbol("b", width, "length", "width of the flange"), Symbol("bw", cut.bw, "length", "width of the web")
    hf = Symbol("hf", deep, "length", "depth of the flange")
    head: tuple[Working, ...] = (k, alpha, beta)
    c = pen("c", "depth of the neutral axis, rectangular behaviour", "(Aps·fpu + As·fs)/(α1·f'c·β1·b + k·Aps·fpu/dp)",
            (aps, fpu, a_s, fs, alpha, fc, beta, b, k, dp), "length", "(5.6.3.1.1-4)")  # fmt: skip
    a = pen("a", "depth of the block", "β1·c", (beta, c), "length")
    flanged = deep > 0.0 and a.value > deep
    if flanged:
        plain = width * deep + cut.bw * (a.value - deep)
        if design.cast is not None or abs(cut.zone(a.value)[0] - plain) > 0.02 * width * deep:
            return None
        c = pen(
            "c", "depth of the neutral axis, T behaviour",
            "(Aps·fpu + As·fs − α1·f'c·(b − bw)·hf)/(α1·f'c·β1·bw + k·Aps·fpu/dp)",
            (aps, fpu, a_s, fs, alpha, fc, b, bw, hf, beta, k, dp), "length", "(5.6.3.1.1-3)",
        )  # fmt: skip
        a = pen("a", "depth of the block", "β1·c", (beta, c), "length")
    elif abs(cut.zone(a.value)[0] - width * a.value) > 0.01 * width * a.value:
        return None
    fps = pen("fps", "stress of the tendons at nominal resistance", "fpu·(1 − k·c/dp)", (fpu, k, c, dp), "stress",
              "(5.6.3.1.1-1)")  # fmt: skip
    text = "Aps·fps·(dp − a/2) + As·fs·(ds − a/2)"
    symbols: tuple[Symbol | Working, ...] = (aps, fps, dp, a, a_s, fs, ds)
    if flanged:
        text, symbols = f"{text} + α1·f'c·(b − bw)·hf·(a/2 − hf/2)", (*symbols, alpha, fc, b, bw, hf)
    mn = pen("Mn", "nominal resistance", text, symbols, "moment", "(5.6.3.2.2-1)")
    return mn, (*head, c, a, fps, mn), (c, fps)


def hard_places(design: Design, sagging: bool, most: int = 3) -> tuple[float, ...]:
    """Where bending is likely to be hardest: by M/Σ A·f·z with what bond has about developed; the worst first."""
    return design.kept(("aashto hard", sagging), lambda: _hard(design, sagging))[:most]


def _hard(design: Design, sagging: bool) -> tuple[float, ...]:
    envelope = design.actions.envelope("ultimate")
    moments = np.interp(design.places, design.actions.x, envelope.sagging if sagging else envelope.hogging)
    rank = []
    for x, m in zip(design.places, moments.tolist(), strict=True):
        if m <= 1e-6:
            continue
        cut = design.cut(x, sagging)
        hold = sum(b.area * b.yield_strength * max(b.depth - 0.1 * cut.h, 0.0) * developed(design, b) for b in cut.bars)
        for t in cut.tendons:
            free = t.group.when == "before casting"
            share = min(max(min(t.left, t.right), 0.0) / (120.0 * t.group.diameter), 1.0) if free else 1.0
            hold += t.area * t.group.steel.tensile * max(t.depth - 0.1 * cut.h, 0.0) * share
        rank.append((m / hold if hold > 0.0 else float("inf"), m, x))
    return tuple(x for _, _, x in sorted(rank, reverse=True))


def flexure(design: Design) -> Found:
    """Mu ≤ Mr along the beam, by strain compatibility; beside it the approximate formula where it applies."""
    for effect in ("sagging", "hogging"):
        found = list(_flexure(design, effect == "sagging"))
        check = worst(found)
        if check is None:
            continue
        yield check
        if check.ratio < SMALL or not np.isfinite(check.ratio):
            continue
        yield from _beside(design, check, effect == "sagging")


def _flexure(design: Design, sagging: bool) -> Iterator[Check]:
    effect = bending(sagging)
    for x in hard_places(design, sagging):
        demand = design.actions.at("ultimate", bending(sagging), x, "Mu")
        if demand.working.value <= 0.0:
            continue
        cut = design.cut(x, sagging)
        title, clause = f"bending, {effect}", design.pen.cite("5.6.3.2")
        if not cut.bars and not cut.tendons:
            none = given("Mr", "no reinforcement: plain concrete bears no bending here", 0.0, "moment", "ksi")
            yield Check(title, clause, demand.working, none, (demand.working, none), (), f"flexure-{effect}", x,
                        demand.combination, "strength")  # fmt: skip
            continue
        try:
            found = strength(design, cut, demand.axial)
        except PhysicsError:
            none = given("Mr", "no equilibrium: the section does not bear the axial force", 0.0, "moment", "ksi")
            yield Check(title, clause, demand.working, none, (demand.working, none), (), f"flexure-{effect}", x,
                        demand.combination, "strength")  # fmt: skip
            continue
        yield Check(title, clause, demand.working, found.factored, (demand.working, *found.workings), (),
                    f"flexure-{effect}", x, demand.combination, "strength")  # fmt: skip


def _beside(design: Design, check: Check, sagging: bool) -> Found:
    """The approximate formula at the place where bending is worst."""
    assert check.x is not None
    cut = design.cut(check.x, sagging)
    if not any(t.bonded for t in cut.tension_tendons):
        return
    found = approximate(design, cut)
    clause = design.pen.cite("5.6.3.1.1")
    if found is None:
        why = (
            "(5.6.3.1.1-1) does not hold at the worst section: fpe below 0.5 fpu, strand near its end, several steels, "
            "or no plain flange and web"
        )
        yield Unchecked("approximate stress of tendons", why, clause)
        return
    mn, workings, (c, _) = found
    et = 0.003 * (cut.deepest - c.value) / c.value
    phi = reduction(design, cut, et)
    mr = design.pen("Mr", "factored resistance", "φ·Mn", (phi, mn), "moment", "5.6.3.2.1")
    effect = bending(sagging)
    yield Check(
        f"bending by the approximate formula, {effect}", clause, check.demand, mr,
        (check.demand, *workings, phi, mr), ("Steel in compression is left out.",), f"flexure-approximate-{effect}",
        check.x, check.combination, "information",
    )  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("flexure", "bending", "5.6.3", "Mu against Mr along the beam; beside it the approximate stress of tendons.",
          flexure),
)  # fmt: skip

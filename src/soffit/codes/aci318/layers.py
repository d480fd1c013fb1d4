"""Bars and tendons of a cut as layers of bending by ACI 318-19: how much of their strength is developed, fps.

ACI 318-19 20.2.2, 20.3.2, 25.4.8; *from memory*. Stress–strain curve of seven-wire low-relaxation strand of 250 and
270 ksi: PCI Design Handbook, design aid of typical curves (*from memory*); of other strand Mattock's power formula.
"""

from __future__ import annotations

from soffit.codes.aci318 import gross, values
from soffit.codes.aci318.anchored import developed
from soffit.codes.bending import Layer
from soffit.codes.cut import BarsAt, Cut, TendonsAt
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working
from soffit.materials.standards import PSI
from soffit.materials.steel_laws import strand_constants

CURVES = ((270.0, 0.007, 0.0016), (250.0, 0.0064, 0.0012))
"""Grade in ksi; strain at which the curve has its pole; least distance from it, where it leaves the elastic line."""
BEND = 0.04e3 * PSI
"""0.04 ksi of the same curve, MPa."""
SLENDER = 35.0


def layers(design: Design, cut: Cut, capped: bool = True) -> list[Layer]:
    """All steel of a cut. ``capped``: strand near its end has no more than what is developed there."""
    bars = [bar_layer(bar, str(i + 1), developed(design, bar)) for i, bar in enumerate(cut.bars)]
    tendons = [
        bonded(design, cut, t, str(i + 1), capped) if t.bonded else unbonded(design, cut, t, str(i + 1))
        for i, t in enumerate(cut.tendons)
    ]
    return [*bars, *tendons]


def bar_layer(bar: BarsAt, mark: str, share: float = 1.0) -> Layer:
    """Elastic to fy, 20.2.2.1. ``share``: of fy that is developed at the cut, 25.4.10 turned round."""
    steel = bar.group.steel
    es = Symbol(f"Es{mark}", steel.modulus, "stress", f"modulus of {bar.group.label}")
    fy = Symbol(f"fy{mark}", steel.yield_strength, "stress", f"yield strength of {bar.group.label}")
    if share >= 1.0:
        text, symbols = f"max(−fy{mark}, min(fy{mark}, Es{mark}·ε))", (fy, es)
        return Layer(mark, bar.group.label, bar.depth, bar.area, text, symbols, "20.2.2.1")
    part = Symbol(f"kd{mark}", share, "ratio", f"share of fy that {bar.group.label} has developed at the cut, 25.4")
    text = f"max(−kd{mark}·fy{mark}, min(kd{mark}·fy{mark}, Es{mark}·ε))"
    return Layer(mark, bar.group.label, bar.depth, bar.area, text, (part, fy, es), "20.2.2.1, 25.4")


def prestrain(design: Design, cut: Cut, t: TendonsAt, mark: str) -> tuple[Working, Working]:
    """Stress of the concrete beside a tendon by prestress alone, and the strain of the tendon where that concrete has
    none."""
    pen, outline = design.pen, gross.bare(design)

    def arm(of: TendonsAt) -> float:
        return outline.centroid - (cut.h - of.depth if cut.sagging else of.depth)

    held = [each for each in cut.tendons if each.bonded]
    force = Symbol("Pe", sum(o.full * o.area for o in held), "force", "effective prestress of the bonded tendons")
    bend = Symbol("Mpe", sum(o.full * o.area * arm(o) for o in held), "moment", "of it about the centroid of the beam")
    area = Symbol("Ag", outline.area, "area", "of the beam's concrete")
    second = Symbol("Ig", outline.inertia, "inertia", "of the beam's concrete")
    e = Symbol(f"e{mark}", arm(t), "length", "of this tendon below the centroid")
    beside = pen(
        f"fce{mark}",
        "stress of the concrete beside it by prestress alone",
        f"Pe/Ag + Mpe·e{mark}/Ig",
        (force, area, bend, e, second),
        "stress",
    )
    fse = _fse(t, mark)
    ep = _modulus(t, mark)
    ec = Symbol("Ec", design.modulus, "stress", "modulus of the concrete, 19.2.2.1")
    return beside, pen(
        f"ε0p{mark}",
        f"strain of {_name(t)} where the concrete beside it has none",
        f"fse{mark}/Ep{mark} + fce{mark}/Ec",
        (fse, ep, beside, ec),
        "strain",
    )


def bonded(design: Design, cut: Cut, t: TendonsAt, mark: str, capped: bool) -> Layer:
    """Strain compatibility, as 20.3.2.3.1 allows instead of its formula."""
    text, symbols = curve(t, mark)
    beside, before = prestrain(design, cut, t, mark)
    shown: tuple[Working, ...] = (beside, before)
    clause = "20.3.2.3.1"
    if capped and not_developed(t):
        along = transfer(design, t, mark)
        rate = _rates(design, t)
        db, lx = Symbol(f"db{mark}", t.group.diameter, "length", "diameter"), embedded(t, mark)
        fse = _fse(t, mark)
        text = f"min({text}, {rate[0]}·lx{mark}/db{mark}, fse{mark} + {rate[1]}·(lx{mark} − ltr{mark})/db{mark})"
        symbols = (*symbols, lx, db, fse, along.symbol)
        shown = (*shown, along)
        clause = "20.3.2.3.1, 25.4.8.3"
    return Layer(mark, _name(t), t.depth, t.area, text, symbols, clause, before, True, shown=shown)


def unbonded(design: Design, cut: Cut, t: TendonsAt, mark: str) -> Layer:
    """20.3.2.4; fse alone where that does not apply (fse < 0.5 fpu, or no tension there)."""
    pen, e = design.pen, values.of(design)
    fse = _fse(t, mark, t.stress)
    what = f"{_name(t)}, unbonded (strain: of the concrete beside it)"
    fpu = t.group.steel.tensile
    if t.stress < 0.5 * fpu or t.depth <= 0.5 * cut.h:
        return Layer(mark, what, t.depth, t.area, f"fse{mark}", (fse,), "", None, True)
    held = [o for o in cut.tension_tendons if not o.bonded]
    area = sum(o.area for o in held)
    aps = Symbol("Aps", area, "area", "of the unbonded tendons")
    b = Symbol("b", cut.b, "length", "width of the compressed face")
    dp = Symbol("dp", sum(o.area * o.depth for o in held) / area, "length", "depth of the unbonded tendons")
    rho = pen("ρp", "share of unbonded tendons", "Aps/(b·dp)", (aps, b, dp), "ratio", "20.3.2.4.1")
    slender = clear_span(design, cut.x) / cut.h > SLENDER
    which = f"Table 20.3.2.4.1, ℓn/h = {clear_span(design, cut.x) / cut.h:.1f} {'>' if slender else '≤'} 35"
    if slender:
        text = e.pick(
            "min(fse + 10000 + f'c/(300·ρp), fse + 30000, fpy)", "min(fse + 70 + f'c/(300·ρp), fse + 210, fpy)"
        )
    else:
        text = e.pick(
            "min(fse + 10000 + f'c/(100·ρp), fse + 60000, fpy)", "min(fse + 70 + f'c/(100·ρp), fse + 420, fpy)"
        )
    fpy = Symbol(f"fpy{mark}", t.group.steel.yield_strength, "stress", f"yield strength of {_name(t)}")
    text = text.replace("fse", fse.name).replace("fpy", fpy.name)
    fps = pen(
        f"fps{mark}",
        f"stress of the unbonded tendon, {which}",
        text,
        (fse, values.fc(design), rho, fpy),
        "stress",
        "20.3.2.4.1",
    )
    return Layer(mark, what, t.depth, t.area, fps.name, (fps.symbol,), "", None, True, shown=(rho, fps))


def clear_span(design: Design, x: float) -> float:
    """ℓn of the span that holds a place, mm; an overhang by its length."""
    bearing = design.beam.supports.bearing
    for a, b in design.spans:
        if a - 1e-6 <= x <= b + 1e-6:
            return b - a - bearing
    held = design.beam.supports.x
    return (held[0] if x < held[0] else design.beam.length - held[-1]) - 0.5 * bearing


def curve(t: TendonsAt, mark: str) -> tuple[str, tuple[Symbol, ...]]:
    steel, name = t.group.steel, _name(t)
    ep = _modulus(t, mark)
    fpu = Symbol(f"fpu{mark}", steel.tensile, "stress", f"tensile strength of {name}")
    if steel.kind == "strand" and not t.group.wire:
        for grade, pole, near in CURVES:
            if abs(steel.tensile / (grade * 1e3 * PSI) - 1.0) <= 0.01 and t.group.relaxation == "low relaxation":
                kp = Symbol(f"kp{mark}", BEND, "stress", "0.04 ksi of the PCI curve")
                text = f"min(Ep{mark}·ε, fpu{mark} − kp{mark}/max(ε − {pole:g}, {near:g}))"
                return text, (ep, fpu, kp)
    if steel.kind == "strand":
        q, knee, r = strand_constants(steel.modulus, steel.yield_strength, steel.tensile, steel.strain_at_max)
        own = (
            Symbol(f"Q{mark}", q, "ratio", "of the power formula through the 1 % stress and the tensile strength"),
            Symbol(f"fk{mark}", knee, "stress", "knee of the power formula"),
            Symbol(f"R{mark}", r, "ratio", "power"),
        )
        text = (
            f"min(fpu{mark}, Ep{mark}·ε·(Q{mark} + (1 − Q{mark})/(1 + (abs(Ep{mark}·ε)/fk{mark})^R{mark})^(1/R{mark})))"
        )
        return text, (ep, fpu, *own)
    fpy = Symbol(f"fpy{mark}", steel.yield_strength, "stress", f"yield strength of {name}")
    return f"max(−fpy{mark}, min(fpy{mark}, Ep{mark}·ε))", (fpy, ep)


def curve_said(cut: Cut) -> tuple[str, ...]:
    """Where the curves of the bonded tendons come from."""
    found = []
    for i, t in enumerate(cut.tendons):
        if not t.bonded:
            if t.stress < 0.5 * t.group.steel.tensile and t.depth > 0.5 * cut.h:
                found.append(f"{_name(t)} has less than 0.5 fpu, for which 20.3.2.4.1 gives no fps: fse is taken.")
            continue
        text, _ = curve(t, str(i + 1))
        if "kp" in text:
            found.append(
                "Strand by the typical curve of the PCI Design Handbook, with the file's modulus (from memory)."
            )
        elif "abs" in text:
            found.append("Strand by Mattock's power formula through its 1 % stress and its tensile strength (1979).")
        else:
            found.append(f"{_name(t)} yields at fpy and does not harden.")
        if sheathed(t) or t.group.wire:
            found.append(
                "Strand debonded at its end, and wire, take twice the length to develop (25.4.8.1; for wire ours), "
                "as if the concrete were in tension there under service loads."
            )
    return tuple(dict.fromkeys(found))


def pretensioned(t: TendonsAt) -> bool:
    return t.bonded and t.group.when == "before casting"


def sheathed(t: TendonsAt) -> bool:
    """Whether the end nearer to the cut is debonded."""
    return pretensioned(t) and t.group.sheathed[0 if t.left <= t.right else 1] > 0.0


def not_developed(t: TendonsAt) -> bool:
    """Whether the cut lies where the tendon might not reach its tensile strength, 25.4.8."""
    if not pretensioned(t):
        return False
    rise = 7.0 if not (sheathed(t) or t.group.wire) else 3.5
    fpu = t.group.steel.tensile
    return min(t.left, t.right) < t.group.diameter * (t.full / (3.0 * rise) + max(fpu - t.full, 0.0) / rise)


def _rates(design: Design, t: TendonsAt) -> tuple[str, str]:
    """Stress per diameter of embedment in the transfer length and beyond: 25.4.8.1 turned round."""
    if sheathed(t) or t.group.wire:
        return ("1500", "500") if values.of(design).key == "inch-pound" else ("10.5", "3.5")
    return ("3000", "1000") if values.of(design).key == "inch-pound" else ("21", "7")


def embedded(t: TendonsAt, mark: str) -> Symbol:
    return Symbol(
        f"lx{mark}", max(min(t.left, t.right), 0.0), "length", f"from the cut to the bond's end of {_name(t)}"
    )


def transfer(design: Design, t: TendonsAt, mark: str) -> Working:
    """ℓtr, 25.4.8.1."""
    rate = _rates(design, t)[0]
    db = Symbol(f"db{mark}", t.group.diameter, "length", "diameter")
    return design.pen(
        f"ltr{mark}", "transfer length", f"fse{mark}/{rate}·db{mark}", (_fse(t, mark), db), "length", "25.4.8.1"
    )


def _fse(t: TendonsAt, mark: str, value: float | None = None) -> Symbol:
    return Symbol(
        f"fse{mark}", t.full if value is None else value, "stress", f"effective stress of {_name(t)} after all losses"
    )


def _modulus(t: TendonsAt, mark: str) -> Symbol:
    return Symbol(f"Ep{mark}", t.group.steel.modulus, "stress", f"modulus of {_name(t)}")


def _name(t: TendonsAt) -> str:
    return t.group.label or f"tendon {t.group.name or t.index + 1}"

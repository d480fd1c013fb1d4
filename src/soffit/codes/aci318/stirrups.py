"""Stirrups by ACI 318-19: strength, least area, greatest spacing (20.2.2.4, 9.6.3.4, 9.7.6.2.2); *from memory*."""

from __future__ import annotations

from soffit.codes.aci318 import values
from soffit.codes.aci318.prestressedshear import enough
from soffit.codes.cut import Cut, StirrupsAt
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working
from soffit.materials.standards import PSI


def _made(symbol: Symbol | Working) -> tuple[Working, ...]:
    return (symbol,) if isinstance(symbol, Working) else ()


def yield_of(design: Design, stirrups: StirrupsAt) -> Symbol | Working:
    """fyt, 60 ksi at most, Table 20.2.2.4 (a)."""
    e = values.of(design)
    limit = 60e3 * PSI if e.key == "inch-pound" else 420.0
    if stirrups.yield_strength <= limit * (1.0 + 1e-6):
        return Symbol("fyt", stirrups.yield_strength, "stress", "yield strength of the stirrups")
    fy = Symbol("fy,st", stirrups.yield_strength, "stress", "yield strength of the stirrups")
    return design.pen(
        "fyt",
        "that counts in shear",
        e.pick("min(fy,st, 60000)", "min(fy,st, 420)"),
        (fy,),
        "stress",
        "Table 20.2.2.4(a)",
    )


def leg_symbols(stirrups: StirrupsAt) -> tuple[Symbol, Symbol]:
    return (
        Symbol("Av", stirrups.area, "area", f"{stirrups.legs} legs of ⌀{stirrups.diameter:.3g} mm"),
        Symbol("s", stirrups.spacing, "length", "spacing of the stirrups"),
    )


def least_stirrups(design: Design, cut: Cut, stirrups: StirrupsAt, bw: Symbol, d: Symbol) -> tuple[Working, ...]:
    """Av,min/s of 9.6.3.4; the last counts. With enough prestress the lesser of (e) and the greater of (c), (d)."""
    pen, e = design.pen, values.of(design)
    fyt = yield_of(design, stirrups)
    text = e.pick("max(0.75·√(f'c), 50)·bw/fyt", "max(0.062·√(f'c), 0.35)·bw/fyt")
    if not (cut.prestressed and enough(design, cut)):
        return (
            *_made(fyt),
            pen("Av,min/s", "least stirrups", text, (values.fc(design), bw, fyt), "length", "Table 9.6.3.4"),
        )
    first = pen("Av,cd/s", "the greater of (c) and (d)", text, (values.fc(design), bw, fyt), "length", "Table 9.6.3.4")
    area = sum(t.area for t in cut.tension_tendons)
    aps = Symbol("Aps", area, "area", "tendons in tension")
    fpu = Symbol(
        "fpu", sum(t.area * t.group.steel.tensile for t in cut.tension_tendons) / area, "stress", "their strength"
    )
    second = pen(
        "Av,e/s",
        "(e), Aps·fse ≥ 0.4·(Aps·fpu + As·fy)",
        "Aps·fpu/(80·fyt·d)·√(d/bw)",
        (aps, fpu, fyt, d, bw),
        "length",
        "Table 9.6.3.4 (e)",
    )
    last = pen(
        "Av,min/s",
        "least stirrups, the lesser",
        f"min({first.name}, {second.name})",
        (first, second),
        "length",
        "9.6.3.4",
    )
    return (*_made(fyt), first, second, last)


def widest(design: Design, cut: Cut, d: Symbol, hard: bool, across: bool = False) -> Working:
    """Greatest spacing of legs, Table 9.7.6.2.2, along the beam or across it; ``hard``: Vs > 4√f'c bw d."""
    e = values.of(design)
    inch, si = ("12", "300") if hard else ("24", "600")
    share = {
        (False, False): ("d/2", "3·h/4"),
        (True, False): ("d/4", "3·h/8"),
        (False, True): ("d", "3·h/2"),
        (True, True): ("d/2", "3·h/4"),
    }[hard, across]
    where = "across the web" if across else "along the beam"
    which = "Vs > " if hard else "Vs ≤ "
    what = f"greatest spacing {where}, {which}{e.pick('4', '0.33')}·√f'c·bw·d"
    if cut.prestressed:
        depth = Symbol("h", cut.h, "length", "depth of the section")
        return design.pen("smax", what, f"min({share[1]}, {e.pick(inch, si)})", (depth,), "length", "Table 9.7.6.2.2")
    return design.pen("smax", what, f"min({share[0]}, {e.pick(inch, si)})", (d,), "length", "Table 9.7.6.2.2")

"""Limits of stress in service, EN 1992-1-1:2004 7.2 and 5.10.2 to 5.10.3, recommended values; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.actions import Effect, State
from soffit.codes.cut import BarsAt, TendonsAt
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.en1992 import service, values
from soffit.codes.en1992.longterm import longterm
from soffit.codes.working import Check, Symbol, Working, given

SALTY = ("XD", "XS", "XF")
WHOLE = "A cracked composite section is taken as if all moments acted on the whole section."


def factor(design: Design, name: str, recommended: float, clause: str) -> Symbol:
    return values.national(design, name, recommended, f"of {clause}, recommended {recommended:g}")


def moment(design: Design, state: State, sagging: bool, x: float, symbol: str = "M") -> tuple[Working, str, float]:
    """Of a state at a place, the combination and the axial force."""
    effect: Effect = bending(sagging)
    key = ("en1992 moment", state, sagging, x, symbol)
    found = design.kept(key, lambda: design.actions.at(state, effect, x, symbol))
    return found.working, found.combination, found.axial


def concrete(design: Design) -> Found:
    """7.2 (2) and (3): compression under characteristic and quasi-permanent loads."""
    salty = [c for c in design.choices.exposure if c[:2] in SALTY]
    kinds: tuple[tuple[State, str, float], ...] = (("characteristic", "k1", 0.6), ("quasi-permanent", "k2", 0.45))
    for state, name, share in kinds:
        for sagging in (True, False):
            found = worst(_pressed(design, state, name, share, sagging, bool(salty)))
            if found is not None:
                yield found


def _pressed(design: Design, state: State, name: str, share: float, sagging: bool, salty: bool) -> Iterator[Check]:
    pen = design.pen
    clause = "7.2 (2)" if name == "k1" else "7.2 (3)"
    for x in service.places(design, state, sagging, 2):
        cut = design.cut(x, sagging)
        m, combination, axial = moment(design, state, sagging, x)
        fct = service.tensile(design)
        pulled = service.gross_stress(design, cut, m, cut.h, axial, name="σct")
        assumptions: list[str] = []
        if pulled.stress.value <= fct.value or not (cut.bars or cut.tendons):
            pressed = service.gross_stress(design, cut, m, 0.0, axial, low=None, where="compressed face")
            # a compression positive
            sigma = pen("σc,max", "compression of the face", "max(0, −σc)", (pressed.stress,), "stress")
            workings = (m, *pulled.workings, *pressed.workings[:-1], pressed.stress, sigma)
            assumptions.append("Uncracked, for the tension face stays below fctm.")
        else:
            split = service.crack(design, cut, m.value, design.modulus, axial)
            if split is None:
                continue
            workings_, sigma = _squeezed(design, split, m)
            workings = (m, *pulled.workings, fct, *workings_)
            if design.cast is not None:
                assumptions.append(WHOLE)
        fck = values.fck(design)
        k = factor(design, name, share, clause)
        limit = pen("σc,lim", "greatest compression", f"{name}·fck", (k, fck), "stress", clause)
        binding = name == "k1" and salty
        if name == "k1" and not salty:
            assumptions.append("Binding in the exposure classes XD, XF and XS alone, and the file names none of them.")
        if name == "k2":
            assumptions.append("Nothing is forbidden beyond it: creep then grows faster than the stress (3.1.4 (4)).")
        kind = "characteristic" if name == "k1" else "quasi-permanent"
        yield Check(
            f"compression of the concrete, {kind}, {'sagging' if sagging else 'hogging'}", pen.cite(clause), sigma,
            limit, (*workings, limit), tuple(assumptions),
            key=f"stress-concrete-{kind}-{'sagging' if sagging else 'hogging'}", x=x, combination=combination,
            state="service" if binding else "information",
        )  # fmt: skip


def _squeezed(design: Design, split: service.Cracked, m: Working) -> tuple[tuple[Working, ...], Working]:
    x = given("x", "depth of the neutral axis, cracked, by equilibrium", split.depth, "length")
    if not split.inertia:
        sigma = given("σc,max", "compression of the face, cracked section with its prestress", split.concrete, "stress")
        return (x, sigma), sigma
    inertia = Symbol("Icr", split.inertia, "inertia", "of the cracked section, from the outline and its steel")
    sigma = design.pen("σc,max", "compression of the face", f"{m.name}·x/Icr", (m, x, inertia), "stress")
    return (x, sigma), sigma


def steel(design: Design) -> Found:
    """7.2 (5): bars and tendons under characteristic loads."""
    for sagging in (True, False):
        bars = worst(_stretched(design, sagging, False))
        tendons = worst(_stretched(design, sagging, True))
        yield from (c for c in (bars, tendons) if c is not None)


def _stretched(design: Design, sagging: bool, tendons: bool) -> Iterator[Check]:
    pen = design.pen
    state: State = "characteristic"
    word = bending(sagging)
    for x in service.places(design, state, sagging, 2):
        cut = design.cut(x, sagging)
        parts: tuple[BarsAt | TendonsAt, ...] = cut.tension_tendons if tendons else cut.tension_bars
        if not parts:
            continue
        m, combination, axial = moment(design, state, sagging, x)
        fct = service.tensile(design)
        pulled = service.gross_stress(design, cut, m, cut.h, axial, name="σct")
        whole = pulled.stress.value <= fct.value
        if whole and not tendons:
            continue
        late = longterm(design)
        outer = max(parts, key=lambda p: p.depth)
        d = Symbol("d", outer.depth, "length", f"depth of {outer.group.label or 'the outermost'}")
        es = Symbol("Es", outer.group.steel.modulus, "stress", "modulus of the steel")
        head: tuple[Working, ...] = (m, *pulled.workings, fct)
        said = list(late.said)
        if isinstance(outer, TendonsAt):
            pm = given("σpm", "mean stress of the tendon after all losses", outer.stress, "stress")
            if whole:
                sigma = pm
                said = ["The section stays uncracked: the rise under variable loads, of a few MPa, is left out."]
                head = (*head, pm)
            else:
                split = service.crack(design, cut, m.value, late.effective.value, axial, low=None)
                if split is None or not outer.bonded:
                    continue
                layer = next(e for e in split.layers if abs(cut.depth_of(e.y) - outer.depth) < 1e-6)
                rise = split.steel(outer.depth, layer.modulus) + layer.modulus * layer.prestrain
                sigma = given("σp", "stress of the tendon, cracked section with Ec,eff", rise, "stress")
                head = (*head, *late.workings[:3], sigma)
            k = factor(design, "k5", 0.75, "7.2 (5)")
            fpk = Symbol("fpk", outer.group.steel.tensile, "stress", "tensile strength of the tendon")
            limit = pen("σp,lim", "greatest stress of a tendon", "k5·fpk", (k, fpk), "stress", "7.2 (5)")
        else:
            split = service.crack(design, cut, m.value, late.effective.value, axial)
            if split is None:
                continue
            shown, sigma = bar_stress(design, split, m, d, es)
            head = (*head, *late.workings[:3], *shown)
            k = factor(design, "k3", 0.8, "7.2 (5)")
            fyk = Symbol("fyk", outer.group.steel.yield_strength, "stress", "yield strength of the bars")
            limit = pen("σs,lim", "greatest stress of a bar under loads", "k3·fyk", (k, fyk), "stress", "7.2 (5)")
        if design.cast is not None and not whole:
            said.append(WHOLE)
        what = "tendons" if tendons else "bars"
        yield Check(
            f"stress of {what}, {word}", pen.cite("7.2 (5)"), sigma, limit, (*head, limit), tuple(said),
            key=f"stress-steel-{what}-{word}", x=x, combination=combination, state="service",
        )  # fmt: skip


def bar_stress(
    design: Design, split: service.Cracked, m: Working, d: Symbol, es: Symbol
) -> tuple[tuple[Working, ...], Working]:
    """σs of a bar in a cracked section with Ec,eff, and what leads to it."""
    x = given("x", "depth of the neutral axis, cracked, by equilibrium", split.depth, "length")
    if not split.inertia:
        sigma = given("σs", "stress of the bars, cracked section with its prestress and axial force",
                      max(split.steel(d.value, es.value), 0.0), "stress")  # fmt: skip
        return (x, sigma), sigma
    ec = Symbol("Ec,eff", split.modulus, "stress", "modulus of the concrete")
    inertia = Symbol("Icr", split.inertia, "inertia", "of the cracked section, from the outline and its steel")
    sigma = design.pen("σs", "stress of the bars", f"Es/Ec,eff·{m.name}·({d.name} − x)/Icr", (es, ec, m, d, x, inertia),
                       "stress")  # fmt: skip
    return (x, sigma), sigma


ENTRIES: tuple[Entry, ...] = (
    Entry("stress-concrete", "compression of the concrete in service", "7.2 (2), (3)",
          "Compression of the concrete against 0.6 fck and 0.45 fck.",
          service.of_steel("compression of the concrete in service", concrete)),
    Entry("stress-steel", "stress of the steel in service", "7.2 (5)",
          "Stress of bars against 0.8 fyk and of tendons against 0.75 fpk under characteristic loads.",
          service.of_steel("stress of the steel in service", steel)),
)  # fmt: skip

"""The shear strength of the concrete without prestress by ACI 318-19 22.5.5; *from memory*."""

from __future__ import annotations

from dataclasses import dataclass

from soffit.codes.aci318 import values
from soffit.codes.cut import Cut
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working
from soffit.materials.standards import PSI


@dataclass(frozen=True)
class Shape:
    """What every formula of a cut asks."""

    fc: Symbol | Working
    """With √f'c limited where it is."""
    lam: Symbol
    bw: Symbol
    d: Symbol
    shown: tuple[Working, ...] = ()


def shape(design: Design, cut: Cut, web: bool) -> Shape:
    """bw, d, and f'c for its root. ``web``: whether the least stirrups are there, which lifts the limit of 22.5.3.1."""
    pen, e = design.pen, values.of(design)
    fc: Symbol | Working = values.fc(design)
    shown: tuple[Working, ...] = ()
    limit = 1e4 * PSI if e.key == "inch-pound" else 8.3**2
    if design.strength > limit and not web:
        text = e.pick("min(f'c, 100^2)", "min(f'c, 8.3^2)")
        fc = pen(
            "f'c,v", "f'c whose root counts without least stirrups", text, (values.fc(design),), "stress", "22.5.3.1"
        )
        shown = (fc,)
    bw, d = sizes(cut)
    return Shape(fc, values.lightness(design), bw, d, shown)


def sizes(cut: Cut) -> tuple[Symbol, Symbol]:
    """bw and d; a circle as 22.5.2.2 has it, 0.8 h at least with prestress."""
    if cut.outline.shape == "circle":
        return (
            Symbol("bw", cut.h, "length", "diameter, 22.5.2.2"),
            Symbol("d", 0.8 * cut.h, "length", "0.8 of the diameter, 22.5.2.2"),
        )
    d = max(cut.d, 0.8 * cut.h) if cut.prestressed else cut.d
    what = "0.8 h, effective depth with prestress" if d > cut.d else "effective depth"
    return Symbol("bw", cut.bw, "length", "width of the web"), Symbol("d", d, "length", what)


def text_of(made: Shape, text: str) -> str:
    """A formula with the name that f'c has here."""
    return text.replace("f'c", made.fc.name)


def reinforced(design: Design, cut: Cut, made: Shape, axial: float, web: bool) -> tuple[Working, ...]:
    """Vc of Table 22.5.5.1 without prestress; the last is Vc. ``axial``: tension positive, N."""
    pen, e = design.pen, values.of(design)
    fc, lam, bw, d = made.fc, made.lam, made.bw, made.d
    far = sum(b.area for b in cut.bars if b.depth > 2.0 / 3.0 * cut.h)
    steel = Symbol("As", far, "area", "bars beyond two thirds of the depth (R22.5.5.1)")
    rho = pen("ρw", "share of tension steel", "As/(bw·d)", (steel, bw, d), "ratio")
    more, plus, push = _pushed(design, cut, axial, made)
    top = e.pick("5·λ·√(f'c)·bw·d", "0.42·λ·√(f'c)·bw·d")
    found: list[Working] = [*made.shown, rho, *more]
    if web:
        a = pen(
            "Vca",
            "Table 22.5.5.1 (a)",
            text_of(made, e.pick(f"(2·λ·√(f'c){plus})·bw·d", f"(0.17·λ·√(f'c){plus})·bw·d")),
            (lam, fc, *push, bw, d),
            "force",
            "Table 22.5.5.1 (a)",
        )
        b = pen(
            "Vcb",
            "Table 22.5.5.1 (b)",
            text_of(made, e.pick(f"(8·λ·ρw^(1/3)·√(f'c){plus})·bw·d", f"(0.66·λ·ρw^(1/3)·√(f'c){plus})·bw·d")),
            (lam, rho, fc, *push, bw, d),
            "force",
            "Table 22.5.5.1 (b)",
        )
        vc = pen(
            "Vc",
            "strength of the concrete, either of (a) and (b), within its limits",
            text_of(made, f"max(0, min(max(Vca, Vcb), {top}))"),
            (a, b, lam, fc, bw, d),
            "force",
            "22.5.5.1, 22.5.5.1.1",
        )
        return (*found, a, b, vc)
    size = pen(
        "λs",
        "size effect, for Av < Av,min",
        e.pick("min(1, √(2/(1 + d/10)))", "min(1, √(2/(1 + 0.004·d)))"),
        (d,),
        "ratio",
        "22.5.5.1.3",
    )
    c = pen(
        "Vcc",
        "Table 22.5.5.1 (c), Av < Av,min",
        text_of(made, e.pick(f"(8·λs·λ·ρw^(1/3)·√(f'c){plus})·bw·d", f"(0.66·λs·λ·ρw^(1/3)·√(f'c){plus})·bw·d")),
        (size, lam, rho, fc, *push, bw, d),
        "force",
        "Table 22.5.5.1 (c)",
    )
    vc = pen(
        "Vc",
        "strength of the concrete within its limits",
        text_of(made, f"max(0, min(Vcc, {top}))"),
        (c, lam, fc, bw, d),
        "force",
        "22.5.5.1, 22.5.5.1.1",
    )
    return (*found, size, c, vc)


def _pushed(
    design: Design, cut: Cut, axial: float, made: Shape
) -> tuple[tuple[Working, ...], str, tuple[Symbol | Working, ...]]:
    if abs(axial) < 1.0:
        return (), "", ()
    force = Symbol("Nu", -axial, "force", "axial force, compression positive")
    area = Symbol("Ag", cut.outline.area, "area", "of the section")
    push = design.pen(
        "σN",
        "Nu/6Ag, at most 0.05 f'c",
        "min(Nu/(6·Ag), 0.05·f'c)",
        (force, area, values.fc(design)),
        "stress",
        "22.5.5.1.2",
    )
    return (push,), " + σN", (push,)

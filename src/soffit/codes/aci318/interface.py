"""Shear between parts by ACI 318-19: a topping on its beam (16.4), a flange beside its web (22.9); *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.aci318 import values
from soffit.codes.aci318.sheared import Sheared, all_sheared
from soffit.codes.aci318.stirrups import yield_of
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.working import Check, Symbol, Unchecked, Working

ROUGH = ("rough", "keyed")
"""Surfaces of ``[verify]`` that are roughened on purpose to 1/4 in (6 mm), Table 16.4.4.2."""


def interface(design: Design) -> Found:
    """Vu ≤ φVnh of the joint under a topping, where it is compressed or pulled; the least ties; flanges."""
    if design.cast is not None:
        found = all_sheared(design)
        for checks in (_joint(design, found), _ties(design, found)):
            most = worst(checks)
            if most is not None:
                yield most
    if design.beam.outline.shape in ("tee", "ell", "inverted-tee", "i"):
        yield Unchecked(
            "flange beside its web",
            "the bars across the junction of flange and web, whose friction bears the shear between them, are not in "
            "the beam file",
            design.pen.cite("9.7.2, 22.9"),
            "interface-flange",
        )


def joint(design: Design, s: Sheared) -> tuple[Working, ...]:
    """Vnh of Table 16.4.4.2; the last is Vnh. Ties are the stirrups of the beam that reach into the topping."""
    pen, e = design.pen, values.of(design)
    assert design.cast is not None
    y = design.cast.low
    width = min(design.beam.outline.width(y - 1e-3), max(design.cast.outline.width(1e-3), 1.0))
    bv = Symbol("bv", width, "length", "width of the joint")
    d = s.made.d
    lam = values.lightness(design)
    rough = design.choices.joint in ROUGH
    if s.stirrups is None:
        text, row = ("80·bv·d", "(d)") if rough else ("0·bv·d", "(c)")
        text = e.pick(text, text.replace("80", "0.55"))
        what = (
            "clean and roughened, no ties, Table 16.4.4.2 (d)" if rough else "neither roughened nor tied: no strength"
        )
        return (pen("Vnh", what, text, (bv, d), "force", f"Table 16.4.4.2 {row}" if rough else "16.4.4.2"),)
    fyt = yield_of(design, s.stirrups)
    shown = (fyt,) if isinstance(fyt, Working) else ()
    av = Symbol("Avf/s", s.stirrups.per_length, "length", "ties: all legs, as if they reach into the topping")
    need = least_ties(design, s)
    tied = s.stirrups.per_length >= need[-1].value * (1.0 - 1e-9)
    if rough and tied:
        text = e.pick(
            "min(λ·(260 + 0.6·Avf/s·fyt/bv)·bv·d, 500·bv·d)", "min(λ·(1.8 + 0.6·Avf/s·fyt/bv)·bv·d, 3.5·bv·d)"
        )
        return (
            *shown,
            *need,
            pen("Vnh", "roughened and tied", text, (lam, av, fyt, bv, d), "force", "Table 16.4.4.2 (b)"),
        )
    if tied:
        text = e.pick("80·bv·d", "0.55·bv·d")
        return (*shown, *need, pen("Vnh", "tied, not roughened", text, (bv, d), "force", "Table 16.4.4.2 (c)"))
    if rough:
        text = e.pick("80·bv·d", "0.55·bv·d")
        what = "roughened, fewer ties than the least"
        return (*shown, *need, pen("Vnh", what, text, (bv, d), "force", "Table 16.4.4.2 (d)"))
    what = "neither roughened nor tied enough: no strength"
    return (*shown, *need, pen("Vnh", what, "0·bv·d", (bv, d), "force", "16.4.4.2"))


def least_ties(design: Design, s: Sheared) -> tuple[Working, ...]:
    """Avf,min/s, 16.4.6.1: that of stirrups with the width of the joint."""
    pen, e = design.pen, values.of(design)
    assert design.cast is not None
    assert s.stirrups is not None
    fyt = yield_of(design, s.stirrups)
    width = min(design.beam.outline.width(design.cast.low - 1e-3), max(design.cast.outline.width(1e-3), 1.0))
    bv = Symbol("bv", width, "length", "width of the joint")
    text = e.pick("max(0.75·√(f'c), 50)·bv/fyt", "max(0.062·√(f'c), 0.35)·bv/fyt")
    return (pen("Avf,min/s", "least ties", text, (values.fc(design), bv, fyt), "length", "16.4.6.1"),)


def _joint(design: Design, found: tuple[Sheared, ...]) -> Iterator[Check]:
    pen = design.pen
    surface = design.choices.joint
    said = (
        f"The joint is {surface} ([verify] joint) and clean; rough and keyed count as roughened to 1/4 in (6 mm).",
        "All legs of the stirrups are taken to reach into the topping and to be anchored there.",
    )
    for s in found:
        workings = joint(design, s)
        phi = pen("φ", "shear", "0.75", (), "ratio", "Table 21.2.1")
        strength = pen("φVnh", "design strength of the joint", "φ·Vnh", (phi, workings[-1]), "force", "16.4.3.1")
        yield Check(
            "shear between beam and topping",
            pen.cite("16.4.3.1, 16.4.4"),
            s.vu,
            strength,
            (s.vu, *workings, phi, strength),
            said,
            "interface",
            s.x,
            s.combination,
            "strength",
        )


def _ties(design: Design, found: tuple[Sheared, ...]) -> Iterator[Check]:
    pen, e = design.pen, values.of(design)
    assert design.cast is not None
    for s in found:
        if s.stirrups is None:
            continue
        thick = Symbol("ht", design.cast.outline.depth, "length", "least depth of the topping")
        most = pen(
            "smax",
            "greatest spacing of ties",
            e.pick("min(4·ht, 24)", "min(4·ht, 600)"),
            (thick,),
            "length",
            "16.4.7.2",
        )
        is_ = pen(
            "s",
            "spacing of the ties",
            "s",
            (Symbol("s", s.stirrups.spacing, "length", "spacing of the stirrups"),),
            "length",
        )
        yield Check(
            "spacing of ties of the topping",
            pen.cite("16.4.7.2"),
            is_,
            most,
            (most, is_),
            (),
            "interface-ties",
            s.x,
            s.combination,
            "detailing",
        )


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "interface",
        "shear between beam and topping",
        "16.4",
        "Vu against φVnh of the joint under a topping, and the spacing of its ties.",
        interface,
    ),
)

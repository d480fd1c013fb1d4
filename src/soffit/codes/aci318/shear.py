"""Checks of one-way shear by ACI 318-19 22.5, 9.6.3, 9.7.6.2.2; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.aci318 import values
from soffit.codes.aci318.concreteshear import text_of
from soffit.codes.aci318.sheared import Sheared, all_sheared
from soffit.codes.aci318.stirrups import leg_symbols, widest
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.working import Check, Symbol, Working


def trigger(design: Design, each: Sheared) -> Working | None:
    """Above which stirrups are required, 9.6.3.1, 9.6.3.2, 7.6.3.1; none where φVc alone counts."""
    pen, e = design.pen, values.of(design)
    if design.choices.shape == "slab":
        return pen("φVc", "slab: stirrups are required above it", "φ·Vc", (each.phi, each.vc), "force", "7.6.3.1")
    if each.cut.prestressed:
        return pen(
            "0.5φVc",
            "prestressed: least stirrups are required above it",
            "0.5·φ·Vc",
            (each.phi, each.vc),
            "force",
            "9.6.3.2",
        )
    if each.cut.h <= (254.0 if e.key == "inch-pound" else 250.0) + 1e-6:
        return pen(
            "φVc",
            "beam of 10 in (250 mm) at most: stirrups are required above it",
            "φ·Vc",
            (each.phi, each.vc),
            "force",
            "Table 9.6.3.1",
        )
    made = each.made
    text = text_of(made, e.pick("φ·λ·√(f'c)·bw·d", "φ·0.083·λ·√(f'c)·bw·d"))
    return pen(
        "φVmin",
        "least stirrups are required above it",
        text,
        (each.phi, made.lam, made.fc, made.bw, made.d),
        "force",
        "9.6.3.1",
    )


def shear(design: Design) -> Found:
    """Vu ≤ φVn, the section's limit, the least stirrups and their spacing; the worst place of each."""
    found = all_sheared(design)
    for checks in (
        _strength(design, found),
        _section(design, found),
        _least(design, found),
        _spacing(design, found, False),
        _spacing(design, found, True),
    ):
        most = worst(checks)
        if most is not None:
            yield most


def _strength(design: Design, found: tuple[Sheared, ...]) -> Iterator[Check]:
    for s in found:
        yield Check(
            "shear",
            design.pen.cite("9.5.1.1, 22.5"),
            s.vu,
            s.strength,
            s.workings,
            s.said,
            "shear",
            s.x,
            s.combination,
            "strength",
        )


def _section(design: Design, found: tuple[Sheared, ...]) -> Iterator[Check]:
    pen, e = design.pen, values.of(design)
    for s in found:
        if s.vs is None:
            continue
        m = s.made
        text = text_of(m, e.pick("φ·(Vc + 8·√(f'c)·bw·d)", "φ·(Vc + 0.66·√(f'c)·bw·d)"))
        most = pen("φVmax", "that the section may bear", text, (s.phi, s.vc, m.fc, m.bw, m.d), "force", "22.5.1.2")
        head = s.workings[: s.workings.index(s.phi) + 1]
        yield Check(
            "shear, size of the section",
            pen.cite("22.5.1.2"),
            s.vu,
            most,
            (*head, most),
            s.said,
            "shear-section",
            s.x,
            s.combination,
            "strength",
        )


def _needing(design: Design, found: tuple[Sheared, ...]) -> Iterator[tuple[Sheared, Working]]:
    for s in found:
        above = trigger(design, s)
        if above is not None and s.phi.value > 0.7 and s.vu.value > above.value:
            yield s, above


def _least(design: Design, found: tuple[Sheared, ...]) -> Iterator[Check]:
    pen = design.pen
    for s, above in _needing(design, found):
        stirrups = s.stirrups
        if stirrups is not None:
            av, apart = leg_symbols(stirrups)
            has = pen("Av/s", "stirrups there", "Av/s", (av, apart), "length")
            need = s.least
        else:
            has = pen("Av/s", "there are no stirrups", "0", (), "length")
            fyt = Symbol("fyt", 420.0, "stress", "of stirrups of Grade 60 (420), were there any")
            e = values.of(design)
            text = e.pick("max(0.75·√(f'c), 50)·bw/fyt", "max(0.062·√(f'c), 0.35)·bw/fyt")
            need = (
                pen("Av,min/s", "least stirrups", text, (values.fc(design), s.made.bw, fyt), "length", "Table 9.6.3.4"),
            )
        head = s.workings[: s.workings.index(s.phi) + 1]
        yield Check(
            "least stirrups",
            pen.cite("9.6.3"),
            need[-1],
            has,
            (*dict.fromkeys((*head, *need)), above, has),
            ("Asked where Vu is more than " + above.name + ".",),
            "shear-minimum",
            s.x,
            s.combination,
            "strength",
        )


def _spacing(design: Design, found: tuple[Sheared, ...], across: bool) -> Iterator[Check]:
    pen, e = design.pen, values.of(design)
    for s, above in _needing(design, found):
        stirrups = s.stirrups
        if stirrups is None:
            continue
        m = s.made
        apart = leg_symbols(stirrups)[1]
        need = pen(
            "Vs,req", "that the stirrups must bear", "max(0, Vu/φ − Vc)", (s.vu, s.phi, s.vc), "force", "22.5.8.1"
        )
        limit = pen(
            "Vs,4",
            "above which they stand closer",
            text_of(m, e.pick("4·√(f'c)·bw·d", "0.33·√(f'c)·bw·d")),
            (m.fc, m.bw, m.d),
            "force",
            "Table 9.7.6.2.2",
        )
        most = widest(design, s.cut, m.d, need.value > limit.value, across)
        if across:
            legs = Symbol("n", float(stirrups.legs), "count", "legs")
            is_ = pen(
                "sw",
                "distance of legs across the web, the outer ones at its faces",
                "bw/max(1, n − 1)",
                (m.bw, legs),
                "length",
            )
        else:
            is_ = pen("s", "spacing of the stirrups", "s", (apart,), "length")
        head = s.workings[: s.workings.index(s.phi) + 1]
        title = "legs of stirrups across the web" if across else "spacing of stirrups"
        yield Check(
            title,
            pen.cite("9.7.6.2.2"),
            is_,
            most,
            (*head, above, need, limit, is_, most),
            ("Legs spread evenly over the web, the outer ones at its faces (ours).",) if across else (),
            "shear-legs" if across else "shear-spacing",
            s.x,
            s.combination,
            "detailing",
        )


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "shear",
        "shear",
        "22.5, 9.6.3, 9.7.6.2.2",
        "Vu against φVn along the beam; the size of the section; the least stirrups and their spacing.",
        shear,
    ),
)

"""Crack width and decompression: EN 1992-1-1:2004 7.3.1, Table 7.1N; recommended values, *from memory*."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from soffit.codes.actions import State
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.en1992 import limits, service, values
from soffit.codes.en1992.crackwidth import width
from soffit.codes.en1992.longterm import longterm
from soffit.codes.working import Check, Symbol, Unchecked, given

ALLOWED = 25.0
"""mm of compressed concrete that decompression wants around a tendon, 7.3.1 (5)."""


@dataclass(frozen=True)
class Wanted:
    """What Table 7.1N asks of a beam."""

    width: float | None
    """wmax, mm; none: decompression takes its place."""
    state: State
    decompression: State | None
    said: str


def wanted(design: Design) -> Wanted:
    """Table 7.1N for the worst exposure class that the file names."""
    classes = [c.upper() for c in design.choices.exposure if c[:1].upper() == "X" and c[:2].upper() not in ("XF", "XA")]
    said = (
        f"Exposure {', '.join(classes)}." if classes else "Exposure XC1 is taken, for the file names no class of 4.2."
    )
    mild = all(c in ("X0", "XC1") for c in classes)
    salty = any(c[:2] in ("XD", "XS") for c in classes)
    bonded = any(t.bond == "bonded" and t.stress > 0.0 for t in design.beam.tendons)
    if not bonded:
        return Wanted(0.4 if mild else 0.3, "quasi-permanent", None, said)
    if salty:
        return Wanted(None, "frequent", "frequent", said)
    return Wanted(0.2, "frequent", None if mild else "quasi-permanent", said)


def cracks(design: Design) -> Found:
    """wk ≤ wmax, Table 7.1N; where the characteristic loads do not crack the section, that."""
    asked = wanted(design)
    if asked.width is None:
        return
    for sagging in (True, False):
        found = worst(_widths(design, asked, sagging))
        if found is not None:
            yield found
        elif service.places(design, asked.state, sagging) and not (design.beam.bars or design.beam.tendons):
            yield Unchecked("crack width", "a plain section has no steel that would keep a crack narrow",
                            design.pen.cite("7.3.1"), "cracks", scope=True)  # fmt: skip


def _widths(design: Design, asked: Wanted, sagging: bool) -> Iterator[Check]:
    pen, word = design.pen, bending(sagging)
    for x in service.places(design, asked.state, sagging, 2):
        cut = design.cut(x, sagging)
        rare, _, axial = limits.moment(design, "characteristic", sagging, x, "Mk")
        fct = service.tensile(design)
        whole = service.gross_stress(design, cut, rare, cut.h, axial, name="σct")
        if whole.stress.value <= fct.value:
            yield Check(
                f"no cracks, {word}", pen.cite("7.1 (2)"), whole.stress, fct, (rare, *whole.workings, fct),
                (asked.said, "Under characteristic loads the section does not crack."), key=f"cracks-{word}", x=x,
                combination=limits.moment(design, "characteristic", sagging, x)[1], state="service",
            )  # fmt: skip
            continue
        m, combination, axial = limits.moment(design, asked.state, sagging, x)
        if not (cut.tension_bars or any(t.bonded for t in cut.tension_tendons)):
            continue
        made = width(design, cut, m, axial)
        if made is None:
            continue
        workings, wk, said = made
        most = Symbol("wmax", asked.width or 0.0, "length", "Table 7.1N")
        k = values.national(design, "wmax", most.value, "mm, Table 7.1N (recommended)")
        limit = given("wmax", "greatest crack width, Table 7.1N", k.value, "length")
        more = () if design.cast is None else (limits.WHOLE,)
        yield Check(
            f"crack width, {word}", pen.cite("7.3.4"), wk, limit, (rare, *whole.workings, fct, m, *workings, limit),
            (asked.said, *longterm(design).said, *said, *more), key=f"cracks-{word}", x=x, combination=combination,
            state="service",
        )  # fmt: skip


def decompression(design: Design) -> Found:
    """Table 7.1N: concrete around bonded tendons in compression."""
    asked = wanted(design)
    if asked.decompression is None:
        return
    for sagging in (True, False):
        found = worst(_decompressed(design, asked, asked.decompression, sagging))
        if found is not None:
            yield found


def _decompressed(design: Design, asked: Wanted, state: State, sagging: bool) -> Iterator[Check]:
    pen, word = design.pen, bending(sagging)
    for x in service.places(design, state, sagging, 2):
        cut = design.cut(x, sagging)
        bonded = [t for t in cut.tension_tendons if t.bonded and t.stress > 0.0]
        if not bonded or (design.cast is not None and not sagging):
            continue
        m, combination, axial = limits.moment(design, state, sagging, x)
        outer = max(bonded, key=lambda t: t.depth)
        around = Symbol("zt", min(outer.depth + 0.5 * max(outer.group.diameter, outer.group.duct) + ALLOWED, cut.h),
                        "length", "25 mm beyond the outermost tendon or duct, 7.3.1 (5)")  # fmt: skip
        pulled = service.gross_stress(design, cut, m, around.value, axial, name="σct", where="concrete there")
        p, zp = service.force(design, cut)
        if design.cast is None:
            outline = design.beam.outline
            ac, ic = Symbol("Ac", outline.area, "area", "gross"), Symbol("Ic", outline.inertia, "inertia", "gross")
            z0 = Symbol("z0", cut.depth_of(outline.centroid), "length", "depth of the centroid")
            n = Symbol("N", axial, "force", "axial force, tension positive")
            m0 = pen("MD", "moment that leaves no compression there", "P·(zp − z0) + (P − N)/Ac·Ic/(zt − z0)",
                     (p, zp, z0, n, ac, ic, around), "moment")  # fmt: skip
        else:
            slope = service.gross_stress(design, cut, given("M", "", m.value + 1e6, "moment"), around.value, axial)
            rate = (slope.stress.value - pulled.stress.value) / 1e6
            m0 = pen("MD", "moment that leaves no compression there, the topping acting with the beam",
                     "M − σct/r", (m, pulled.stress, Symbol("r", rate, "ratio", "stress by a moment of 1 N·mm")),
                     "moment")  # fmt: skip
        yield Check(
            f"decompression, {word}, {state}", pen.cite("Table 7.1N"), m, m0, (m, *pulled.workings, m0), (asked.said,),
            key=f"decompression-{word}", x=x, combination=combination, state="service",
        )  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("cracks", "crack width", "7.3.4", "wk against the wmax of Table 7.1N by exposure.",
          service.of_steel("crack width", cracks)),
    Entry("decompression", "decompression", "Table 7.1N",
          "Moment against the one at which concrete near bonded tendons loses its compression.", decompression),
)  # fmt: skip

"""Crack control without calculation by EN 1992-1-1:2004 7.3.3: Tables 7.2N and 7.3N beside the computed width; *from
memory*. Told for information, for the computed width decides.
"""

from __future__ import annotations

import numpy as np

from soffit.codes.design import Design, Entry, Found, bending
from soffit.codes.en1992 import limits, service
from soffit.codes.en1992.bond import covers
from soffit.codes.en1992.cracks import wanted
from soffit.codes.en1992.longterm import longterm
from soffit.codes.working import Check, Symbol, given

STRESS = (160.0, 200.0, 240.0, 280.0, 320.0, 360.0, 400.0, 450.0)
DIAMETER: dict[float, tuple[float, ...]] = {
    0.4: (40, 32, 20, 16, 12, 10, 8, 6), 0.3: (32, 25, 16, 12, 10, 8, 6, 5), 0.2: (25, 16, 12, 8, 6, 5, 4, 0),
}  # fmt: skip
"""Greatest bars φ*s, mm, by the stress, MPa, and wk, mm: Table 7.2N (c = 25 mm, fct,eff = 2.9 MPa)."""
SPACING: dict[float, tuple[float, ...]] = {
    0.4: (300, 300, 250, 200, 150, 100, 0, 0), 0.3: (300, 250, 200, 150, 100, 50, 0, 0),
    0.2: (200, 150, 100, 50, 0, 0, 0, 0),
}  # fmt: skip
"""Greatest spacing, mm: Table 7.3N."""


def tables(design: Design) -> Found:
    """Bar diameter and spacing; for cracks by load either is enough (7.3.3 (2)). Not for prestress."""
    asked = wanted(design)
    if asked.width not in DIAMETER or any(t.stress > 0.0 for t in design.beam.tendons):
        return
    for sagging in (True, False):
        yield from _at(design, asked.width, sagging)


def _at(design: Design, most: float, sagging: bool) -> Found:
    pen, word = design.pen, bending(sagging)
    for x in service.places(design, "quasi-permanent", sagging, 1):
        cut = design.cut(x, sagging)
        if not cut.tension_bars:
            return
        rare, _, axial = limits.moment(design, "characteristic", sagging, x, "Mk")
        fct = service.tensile(design)
        if service.gross_stress(design, cut, rare, cut.h, axial).stress.value <= fct.value:
            return
        m, combination, axial = limits.moment(design, "quasi-permanent", sagging, x)
        late = longterm(design)
        split = service.crack(design, cut, m.value, late.effective.value, axial)
        if split is None:
            return
        outer = max(cut.tension_bars, key=lambda b: b.depth)
        d1 = Symbol("d1", outer.depth, "length", f"depth of {outer.group.label}")
        es = Symbol("Es", outer.group.steel.modulus, "stress", "modulus of the bars")
        shown, sigma = limits.bar_stress(design, split, m, d1, es)
        head = (m, *late.workings[:3], *shown)
        bar = given("φs", "greatest bar", max(b.group.diameter for b in cut.tension_bars), "length")
        table = float(np.interp(sigma.value, STRESS, DIAMETER[most]))
        star = Symbol("φ*s", table, "length", f"Table 7.2N for wk {most:g} mm, straight between its rows")
        hcr = Symbol("hcr", cut.h - cut.centroid, "length", "depth of the tension zone just before cracking")
        kc = Symbol("kc", 0.4, "ratio", "bending, 7.3.2 (2)")
        over = Symbol("a", cut.h - cut.d, "length", "h − d, from the face to the centroid of the bars")
        size = pen("φs,max", "greatest bar in bending", "φ*s·fct,eff/2.9·kc·hcr/(2·a)", (star, fct, kc, hcr, over),
                   "length", "(7.6N)")  # fmt: skip
        said = (f"Of diameter and spacing one is enough; wk = {most:g} mm.", "The computed width decides.")
        yield Check(f"bar diameter by table, {word}", pen.cite("Table 7.2N"), bar, size, (*head, bar, fct, size), said,
                    key=f"crack-tables-diameter-{word}", x=x, combination=combination, state="information")  # fmt: skip
        apart = given("s", "spacing of the bars", 2.0 * covers(design, outer.group).half_gap + outer.group.diameter,
                      "length")  # fmt: skip
        widest = given("smax", f"Table 7.3N for wk {most:g} mm, straight between its rows",
                       float(np.interp(sigma.value, STRESS, SPACING[most])), "length")  # fmt: skip
        title, clause = f"bar spacing by table, {word}", pen.cite("Table 7.3N")
        yield Check(title, clause, apart, widest, (*head, apart, widest), said, key=f"crack-tables-spacing-{word}", x=x,
                    combination=combination, state="information")  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("crack-tables", "crack control by tables", "7.3.3", "Bar diameter and spacing against Tables 7.2N and 7.3N.",
          service.of_steel("crack control by tables", tables)),
)  # fmt: skip

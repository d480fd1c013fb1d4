"""Spacing of bars, tendons and stirrups, bends, thick bars: EN 1992-1-1:2004 8.2, 8.3, 8.10.1, 9.2; *from memory*.

The spacing of stirrups along the beam (9.2.2 (6)) stands with shear.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

import numpy as np

from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.en1992.bond import beside, covers
from soffit.codes.en1992.cover import durable
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.member.beam import BarGroup, TendonGroup
from soffit.member.profile import height


def spacing(design: Design) -> Found:
    """8.2 (2): clear distance of bars in a layer and of layers."""
    for found in (worst(_across(design)), worst(_layers(design))):
        if found is not None:
            yield found


def _least(design: Design, diameter: float) -> Working:
    d = Symbol("φ", diameter, "length", "greatest diameter")
    k1 = Symbol("k1", design.choices.nationally("k1,8.2", 1.0), "ratio", "8.2 (2), recommended 1")
    k2 = Symbol("k2", design.choices.nationally("k2,8.2", 5.0), "length", "8.2 (2), recommended 5 mm")
    dg = Symbol("dg", design.beam.concrete.max_aggregate, "length", "largest aggregate")
    return design.pen("amin", "least clear distance", "max(k1·φ, dg + k2, 20)", (k1, d, dg, k2), "length", "8.2 (2)")


def _rows(design: Design) -> list[list[BarGroup]]:
    """Bars of one layer where they run side by side."""
    rows: list[list[BarGroup]] = []
    for bar in design.beam.bars:
        for row in rows:
            if all(beside(b, bar) for b in row):
                row.append(bar)
                break
        else:
            rows.append([bar])
    return rows


def _across(design: Design) -> Iterator[Check]:
    pen = design.pen
    for row in _rows(design):
        n = sum(b.count for b in row)
        if n < 2:
            continue
        outer = row[0]
        width = design.outline.width(outer.y) or design.beam.outline.web_width
        side = covers(design, outer).side
        b = Symbol("b", width, "length", "width there")
        c = Symbol("c", side, "length", "cover at the sides, taken as that of the face")
        count = Symbol("n", float(n), "count", "bars of the layer")
        sizes = Symbol("Σφ", sum(g.count * g.diameter for g in row), "length", "their diameters together")
        is_ = pen("a", "clear distance of bars spread evenly", "(b − 2·c − Σφ)/(n − 1)", (b, c, sizes, count), "length")
        need = _least(design, max(g.diameter for g in row))
        names = ", ".join(dict.fromkeys(g.label for g in row))
        shown = given("a", f"clear distance of {names}", max(is_.value, 0.0), "length") if is_.value <= 0.0 else is_
        yield Check(f"distance of bars, {names}", pen.cite("8.2 (2)"), need, shown, (is_, need),
                    ("Bars of one layer stand side by side, spread evenly over the width.",), key="spacing-bars",
                    state="detailing")  # fmt: skip


def _layers(design: Design) -> Iterator[Check]:
    pen = design.pen
    for low, high in combinations(sorted(design.beam.bars, key=lambda b: b.y), 2):
        gap = high.y - low.y
        if beside(low, high) or low.x_from >= high.x_to or high.x_from >= low.x_to or gap > 150.0:
            continue
        g = Symbol("Δy", gap, "length", "of the centres of the layers")
        d1, d2 = Symbol("φ1", low.diameter, "length", "lower"), Symbol("φ2", high.diameter, "length", "upper")
        is_ = pen("a", "clear distance of the layers", "Δy − (φ1 + φ2)/2", (g, d1, d2), "length")
        need = _least(design, max(low.diameter, high.diameter))
        yield Check("distance of layers", pen.cite("8.2 (2)"), need, is_, (is_, need), key="spacing-layers",
                    state="detailing")  # fmt: skip


def tendons(design: Design) -> Found:
    """8.10.1.2 and 8.10.1.3: clear distances of pretensioned tendons and of ducts, side by side in one group."""
    found = worst(c for t in design.beam.tendons for c in _tendon(design, t))
    if found is not None:
        yield found


def _tendon(design: Design, t: TendonGroup) -> Iterator[Check]:
    pen = design.pen
    if t.count < 2 or (t.when == "after curing" and not t.duct):
        return
    outline = design.beam.outline
    heights = height(t.profile, np.linspace(t.x_from, t.x_to, 21))
    width = min(outline.width(float(y)) for y in heights) or outline.web_width
    size = max(t.diameter, t.duct)
    b = Symbol("b", width, "length", "least width along the tendons")
    d = Symbol("φ", size, "length", "of the duct" if t.duct else "of the tendon")
    n = Symbol("n", float(t.count), "count", "tendons of the group, side by side")
    face = min(min(float(np.min(heights)), outline.depth - float(np.max(heights))) - 0.5 * size, 0.5 * width)
    usual = durable(design, True)[0].value + design.choices.nationally("Δcdev", 10.0)
    what = "cover at the sides, taken as that of the face, at most cmin,dur + Δcdev"
    c = Symbol("c", max(min(face, usual), 0.0), "length", what)
    is_ = pen("a", "clear distance, spread evenly", "(b − 2·c − n·φ)/(n − 1)", (b, c, n, d), "length")
    dg = Symbol("dg", design.beam.concrete.max_aggregate, "length", "largest aggregate")
    if t.duct:
        need = pen("amin", "least clear distance of ducts, sideways", "max(φ, dg + 5, 50)", (d, dg), "length",
                   "8.10.1.3 (3)")  # fmt: skip
    else:
        need = pen("amin", "least clear distance of pretensioned tendons, sideways", "max(2·φ, dg + 5, 20)", (d, dg),
                   "length", "8.10.1.2 (1)")  # fmt: skip
    clause = "8.10.1.3" if t.duct else "8.10.1.2"
    shown = is_ if is_.value > 0.0 else given("a", "clear distance, none left", 0.0, "length")
    yield Check(f"distance of tendons {t.name}", pen.cite(clause), need, shown, (is_, need),
                ("Tendons of a group stand side by side, spread evenly over the width.",), key="spacing-tendons",
                state="detailing")  # fmt: skip


def bends(design: Design) -> Found:
    """8.3: mandrels of hooks and stirrups, which the file does not give."""
    sizes = {b.diameter for b in design.beam.bars if "hook" in (b.end_left, b.end_right)}
    sizes |= {z.diameter for z in design.beam.stirrups}
    if not sizes:
        return
    size = max(sizes)
    least = (4.0 if size <= 16.0 else 7.0) * size
    why = f"the file gives no mandrels: bars of {size:g} mm want at least {least:.0f} mm, and (8.1) may want more"
    yield Unchecked("mandrels of bends", why, design.pen.cite("Table 8.1N"), "bends")


def thin(design: Design) -> Found:
    """9.2.2 (8) legs of stirrups across; and bars against splitting in the compressed zone, 9.2.1.2 (3)."""
    found = worst(_legs(design))
    if found is not None:
        yield found
    held = worst(_compressed(design))
    if held is not None:
        yield held


def _legs(design: Design) -> Iterator[Check]:
    pen = design.pen
    for zone in design.beam.stirrups:
        if zone.legs < 2:
            continue
        cut = design.cut(0.5 * (zone.x_from + zone.x_to))
        edge = min((covers(design, b).side for b in design.beam.bars), default=30.0)
        b = Symbol("bw", cut.bw, "length", "width of the web")
        c = Symbol("c", edge, "length", "cover at the sides")
        n = Symbol("n", float(zone.legs), "count", "legs")
        is_ = pen("st", "distance of the legs across", "(bw − 2·c)/(n − 1)", (b, c, n), "length")
        d = Symbol("d", cut.d, "length", "effective depth")
        most = pen("st,max", "greatest distance of legs", "min(0.75·d, 600)", (d,), "length", "(9.8N)")
        if is_.value > 0.0:
            yield Check("legs of stirrups across", pen.cite("(9.8N)"), is_, most, (is_, most), key="stirrups-across",
                        state="detailing")  # fmt: skip


def _compressed(design: Design) -> Iterator[Check]:
    """Bars counted in compression are held by stirrups no further apart than 15 of their diameters."""
    pen = design.pen
    for x in design.hardest("ultimate", "sagging")[:2]:
        cut = design.cut(x)
        if not cut.compression_bars:
            continue
        thin_ = min(cut.compression_bars, key=lambda b: b.group.diameter)
        d = Symbol("φ", thin_.group.diameter, "length", f"of {thin_.group.label}")
        most = pen("s,max", "greatest spacing of stirrups that hold compressed bars", "15·φ", (d,), "length",
                   "9.2.1.2 (3)")  # fmt: skip
        if cut.stirrups is None:
            continue
        is_ = given("s", "spacing of the stirrups", cut.stirrups.spacing, "length")
        yield Check("stirrups about compressed bars", pen.cite("9.2.1.2 (3)"), is_, most, (is_, most),
                    ("For bars whose compression is counted in the resistance.",), key="stirrups-compressed", x=x,
                    state="information")  # fmt: skip


def thick(design: Design) -> Found:
    """8.8: bars above 32 mm want surface reinforcement and other rules."""
    for bar in design.beam.bars:
        if bar.diameter > 32.0:
            why = f"{bar.label} are thicker than 32 mm: surface reinforcement (Annex J) and 8.8 are not checked"
            yield Unchecked("thick bars", why, design.pen.cite("8.8"), "thick-bars")
            return


ENTRIES: tuple[Entry, ...] = (
    Entry("spacing", "distance of bars", "8.2 (2)", "Clear distance of bars and layers.", spacing),
    Entry("spacing-tendons", "distance of tendons", "8.10.1", "Clear distance of tendons and ducts.", tendons),
    Entry("bends", "mandrels", "Table 8.1N", "Least mandrels of hooks and stirrups, which are told.", bends),
    Entry("stirrups", "stirrups across and about compressed bars", "9.2.2 (8), 9.2.1.2 (3)",
          "Distance of legs across; spacing of stirrups that hold compressed bars.", thin),
    Entry("thick-bars", "thick bars", "8.8", "Whether bars are thicker than 32 mm.", thick),
)  # fmt: skip

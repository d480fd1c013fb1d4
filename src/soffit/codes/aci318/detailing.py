"""Spacing, cover, durability and bends by ACI 318-19 25.2, 20.5.1.3, 19.3.2 and 25.3; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

import numpy as np

from soffit.codes.aci318 import values
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.working import Check, Symbol, Unchecked, given
from soffit.member.beam import BarGroup, TendonGroup
from soffit.member.layout import cover
from soffit.member.profile import height

INCH = 25.4
NO5, NO6, NO11 = 16.1, 19.2, 35.9
"""Greatest diameters of No. 5, 6 and 11 bars with what rounding adds, mm."""
STRENGTHS: dict[str, tuple[float, float, float | None]] = {
    "F0": (2500, 17, None), "F1": (3500, 24, 0.55), "F2": (4500, 31, 0.45), "F3": (5000, 35, 0.40),
    "S0": (2500, 17, None), "S1": (4000, 28, 0.50), "S2": (4500, 31, 0.45), "S3": (4500, 31, 0.45),
    "W0": (2500, 17, None), "W1": (2500, 17, None), "W2": (4000, 28, 0.50),
    "C0": (2500, 17, None), "C1": (2500, 17, None), "C2": (5000, 35, 0.40),
}  # fmt: skip
"""f'c in psi and MPa, and greatest w/cm, Table 19.3.2.1 (S3 by option 1)."""
FRESH = ("F1", "F2", "F3")


def spacing(design: Design) -> Found:
    """25.2.1, 25.2.2: clear distance of bars in a layer and of layers; 25.2.4 of strand at ends."""
    for kind in (_across, _layers, _strands):
        found = worst(kind(design))
        if found is not None:
            yield found


def _rows(design: Design) -> list[list[BarGroup]]:
    """Bars of one layer where they run side by side."""
    rows: list[list[BarGroup]] = []
    for bar in design.beam.bars:
        for row in rows:
            if all(_beside(b, bar) for b in row):
                row.append(bar)
                break
        else:
            rows.append([bar])
    return rows


def _beside(a: BarGroup, b: BarGroup) -> bool:
    level = abs(a.y - b.y) < 0.5 * (a.diameter + b.diameter)
    return a.part == b.part and level and a.x_from < b.x_to and b.x_from < a.x_to


def _across(design: Design) -> Iterator[Check]:
    pen, e = design.pen, values.of(design)
    for row in _rows(design):
        n = sum(b.count for b in row)
        if n < 2:
            continue
        bar = max(row, key=lambda r: r.diameter)
        beam = replace(design.beam, outline=design.outline) if bar.part == "topping" else design.beam
        b = Symbol("b", design.outline.width(bar.y) or beam.outline.web_width, "length", "width at the layer")
        c = Symbol("c", cover(beam, bar).side, "length", "cover at the sides, taken as that of the face")
        total = Symbol("Σdb", sum(g.count * g.diameter for g in row), "length", "diameters of the layer together")
        count = Symbol("n", float(n), "count", "bars of the layer")
        is_ = pen("s", "clear distance, spread evenly", "max(0, (b − 2·c − Σdb)/(n − 1))", (b, c, total, count),
                  "length")  # fmt: skip
        db = Symbol("db", bar.diameter, "length", "greatest diameter of the layer")
        dagg = Symbol("dagg", design.beam.concrete.max_aggregate, "length", "largest aggregate")
        need = pen("smin", "least clear distance", e.pick("max(1, db, 4/3·dagg)", "max(25, db, 4/3·dagg)"), (db, dagg),
                   "length", "25.2.1")  # fmt: skip
        names = ", ".join(dict.fromkeys(g.label for g in row))
        yield Check(f"distance of bars, {names}", pen.cite("25.2.1"), need, is_, (is_, need),
                    ("Bars of one layer are spread evenly over the width.",), "spacing-bars", None, "",
                    "detailing")  # fmt: skip


def _layers(design: Design) -> Iterator[Check]:
    pen, e = design.pen, values.of(design)
    for low, high in combinations(sorted(design.beam.bars, key=lambda b: b.y), 2):
        gap = high.y - low.y
        if _beside(low, high) or low.x_from >= high.x_to or high.x_from >= low.x_to or gap > 6.0 * INCH:
            continue
        g = Symbol("Δy", gap, "length", "of the centres of the layers")
        d1, d2 = Symbol("db1", low.diameter, "length", "lower"), Symbol("db2", high.diameter, "length", "upper")
        is_ = pen("s", "clear distance of the layers", "max(0, Δy − (db1 + db2)/2)", (g, d1, d2), "length")
        need = pen("smin", "least clear distance of layers", e.pick("1", "25"), (), "length", "25.2.2")
        yield Check("distance of layers", pen.cite("25.2.2"), need, is_, (is_, need), (), "spacing-layers", None, "",
                    "detailing")  # fmt: skip


def _strands(design: Design) -> Iterator[Check]:
    """Centres at the ends of pretensioned members, Table 25.2.4; for information: the file has no places across."""
    pen, e = design.pen, values.of(design)
    fci = design.opened.transfer or 0.0
    close = fci >= (4000.0 * 6.894757e-3 if e.key == "inch-pound" else 28.0)
    for t in design.beam.tendons:
        if t.when != "before casting" or t.count < 2:
            continue
        ends = height(t.profile, np.array([t.x_from, t.x_to]))
        outline = design.beam.outline
        width = min(outline.width(float(y)) or outline.web_width for y in ends)
        b, db = Symbol("b", width, "length", "width there"), Symbol("db", t.diameter, "length", "of the tendon")
        n = Symbol("n", float(t.count), "count", "tendons of the group")
        near = min(float(np.min(ends)), outline.depth - float(np.max(ends)), 2.0 * INCH)
        edge = Symbol("e", near, "length", "from a side to the centre of a tendon, as from the face, 2 in at most")
        is_ = pen("s", "spacing of centres, one row spread evenly", "max(0, (b − 2·e)/(n − 1))", (b, edge, n), "length")
        if t.wire:
            text, what = "5·db", "wire, f'ci ≥ 4000 psi (28 MPa)" if close else "wire"
            text = text if close else "6·db"
        else:
            small = t.diameter <= 12.8
            text = (e.pick("1.75", "44") if small else e.pick("2", "50")) if close else "4·db"
            what = "strand, f'ci ≥ 4000 psi (28 MPa)" if close else "strand"
        need = pen("smin", f"least spacing of centres, {what}", text, (db,), "length", "Table 25.2.4")
        yield Check(f"distance of strands, {t.label or t.name}", pen.cite("25.2.4"), need, is_, (is_, need),
                    ("The file gives heights only: tendons of a group stand in one row over the width.",),
                    "spacing-strands", None, "", "information")  # fmt: skip


def covers(design: Design) -> Found:
    """Tables 20.5.1.3.1 cast in place, 20.5.1.3.2 post-tensioned, 20.5.1.3.3 pretensioned and thus precast (*ours*)."""
    classes, pen = design.choices.exposure, design.pen
    word = next((w for w in ("ground", "outdoors", "indoors") if w in classes), None)
    if word is None:
        why = "the file names neither indoors nor outdoors nor ground as exposure"
        yield Unchecked("cover", why, pen.cite("20.5.1.3"), "cover")
        return
    size = max((z.diameter for z in design.beam.stirrups), default=0.0)
    checks = []
    for bar in design.beam.bars:
        face = max(min(bar.y, design.outline.depth - bar.y) - 0.5 * bar.diameter, 0.0)
        label = bar.label or "the bars"
        checks.append(_cover(design, "main", word, label, face, bar.diameter))
        if size and bar.part == "beam":
            checks.append(_cover(design, "stirrups", word, label, max(face - size, 0.0), size))
    for t in design.beam.tendons:
        if t.when == "before casting" or t.bond == "bonded":
            label = t.label or f"tendon {t.name}"
            checks.append(_cover(design, "main", word, label, _tendon_face(design, t), max(t.diameter, t.duct), True))
    for key in ("cover-main", "cover-stirrups"):
        found = worst(c for c in checks if c.key == key)
        if found is not None:
            yield found
    if any(c == "C2" or c.startswith(("XD", "XS")) for c in classes):
        yield Unchecked("cover in corrosive surroundings", "20.5.1.4.1 asks for more cover or other protection there "
                        "and gives no number", pen.cite("20.5.1.4.1"), "cover")  # fmt: skip


def _tendon_face(design: Design, t: TendonGroup) -> float:
    at = height(t.profile, np.linspace(t.x_from, t.x_to, 21))
    half = 0.5 * max(t.diameter, t.duct)
    return max(min(float(np.min(at)), design.outline.depth - float(np.max(at))) - half, 0.0)


def _cover(
    design: Design, part: str, word: str, label: str, face: float, diameter: float, tendon: bool = False
) -> Check:
    pen, e = design.pen, values.of(design)
    inch, metric, table = _least(design, part == "main", word, diameter, tendon)
    said = ["Pretensioned beams are taken as precast in a plant."] if table.endswith(".3.3") else []
    if design.cast is not None:
        said.append("The topping counts as cover of the steel below it.")
    db = Symbol("db", diameter, "length", "diameter of the steel")
    where = {"ground": "cast against ground", "outdoors": "weather or ground", "indoors": "no weather, no ground"}[word]
    least = pen("cmin", f"least cover, {where}", e.pick(inch, metric), (db,), "length", table)
    what = f"cover of {label}" if part == "main" else f"cover of the stirrups around {label}"
    has = given("c", what, face, "length", pen.system)
    title = "cover of main steel" if part == "main" else "cover of stirrups"
    return Check(title, pen.cite("20.5.1.3"), least, has, (has, least), tuple(said), f"cover-{part}", None, "",
                 "detailing")  # fmt: skip


def _least(design: Design, main: bool, word: str, diameter: float, tendon: bool) -> tuple[str, str, str]:
    """Both prints, and the table."""
    slab = design.choices.shape == "slab"
    tendons = [t for t in design.beam.tendons if t.stress > 0.0]
    precast = any(t.when == "before casting" for t in tendons)
    table = f"Table 20.5.1.3.{3 if precast else 2 if tendons else 1}"
    if word == "ground":
        return "3", "75", table
    if precast and word == "outdoors":
        small = diameter <= (15.9 if tendon else NO5)
        return ("1.25", "30", table) if small else ("1.5", "40", table)
    if precast and slab:
        return ("0.75", "20", table) if tendon else ("5/8", "16", table)
    if precast:
        return ("min(max(db, 5/8), 1.5)", "min(max(db, 16), 40)", table) if main else ("3/8", "10", table)
    if word == "outdoors" and tendons:
        return ("1", "25", table) if slab else ("1.5", "40", table)
    if word == "outdoors":
        return ("1.5", "40", table) if diameter <= NO5 else ("2", "50", table)
    if slab:
        return ("0.75", "20", table) if diameter <= NO11 else ("1.5", "40", table)
    return ("1", "25", table) if tendons and not main else ("1.5", "40", table)


def durability(design: Design) -> Found:
    """f'c against Table 19.3.2.1 for every class; w/cm and air are not in the beam file."""
    pen, e = design.pen, values.of(design)
    named = [c for c in design.choices.exposure if c in STRENGTHS]
    if not named:
        why = "the file names no class F, S, W or C of Table 19.3.1.1"
        yield Unchecked("durability", why, pen.cite("19.3.2.1"), "durability")
        return
    checks = []
    for name in named:
        pounds, metric, _ = STRENGTHS[name]
        need = pen("f'c,min", f"least specified strength, class {name}", e.pick(f"{pounds:g}", f"{metric:g}"), (),
                   "stress", "Table 19.3.2.1")  # fmt: skip
        has = given("f'c", "specified strength of the concrete", design.strength, "stress", pen.system)
        checks.append(Check(f"strength for durability, class {name}", pen.cite("19.3.2.1"), need, has, (need, has), (),
                            "durability", None, "", "detailing"))  # fmt: skip
    found = worst(checks)
    if found is not None:
        yield found
    ratios = [r for n in named if (r := STRENGTHS[n][2]) is not None]
    if ratios:
        why = f"w/cm, at most {min(ratios):.2f} for {', '.join(named)}, is not in the beam file"
        if any(c in FRESH for c in named):
            why += ", nor is the air of Table 19.3.3.1"
        yield Unchecked("water–cement ratio", why, pen.cite("19.3.2.1"), "durability")


def bends(design: Design) -> Found:
    """Table 25.3.2: stirrups of No. 8 at most; what their bends need is told."""
    pen, e = design.pen, values.of(design)
    for zone in sorted(design.beam.stirrups, key=lambda z: -z.diameter)[:1]:
        thick = Symbol("db", zone.diameter, "length", "greatest diameter of stirrups")
        is_ = pen("db,s", "diameter of stirrups", "db", (thick,), "length")
        most = pen("db,max", "thickest stirrup with standard hooks", e.pick("1", "25.4"), (), "length", "25.3.2")
        bend = 4.0 if zone.diameter <= NO5 else 6.0
        said = f"Bend them around at least {bend:g} db inside, hooks with a tail of 6 db and 3 in (75 mm)."
        yield Check("stirrups and their bends", pen.cite("25.3.2"), is_, most, (is_, most), (said,), "bends", None, "",
                    "detailing")  # fmt: skip


def aggregate(design: Design) -> Found:
    """26.4.2.1: a fifth of the narrowest width between sides."""
    pen, outline = design.pen, design.beam.outline
    bw = Symbol("bw", outline.web_width, "length", "least width between the sides of forms")
    is_ = given("dagg", "largest aggregate", design.beam.concrete.max_aggregate, "length", pen.system)
    most = pen("dagg,max", "a fifth of it", "bw/5", (bw,), "length", "26.4.2.1 (a)")
    yield Check("size of aggregate", pen.cite("26.4.2.1 (a)"), is_, most, (is_, most),
                ("Three quarters of the clear distance of bars stand with their spacing.",), "aggregate", None, "",
                "detailing")  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("spacing", "distances of bars and strand", "25.2", "Clear distances against bar, aggregate and 1 in (25 mm).",
          spacing),
    Entry("cover", "cover", "20.5.1.3", "Cover of bars, stirrups and tendons for indoors, outdoors or ground.", covers),
    Entry("durability", "durability", "19.3.2", "f'c against the exposure classes F, S, W and C.", durability),
    Entry("bends", "stirrups", "25.3.2", "Diameter of stirrups against the thickest with standard hooks.", bends),
    Entry("aggregate", "aggregate", "26.4.2.1", "Largest aggregate against a fifth of the narrowest width.", aggregate),
)  # fmt: skip

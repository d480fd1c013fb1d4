"""Clear distances of bars and strands, and cover: AASHTO LRFD 5.10.3, 5.9.4.1, 5.10.1; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.working import Check, Symbol, Unchecked, given
from soffit.member.beam import BarGroup, TendonGroup
from soffit.member.layout import cover

SALT = ("XD", "XS", "C2")
SEA = ("XS",)


def _precast(design: Design) -> bool:
    """Pretensioned beams are precast."""
    return any(t.when == "before casting" for t in design.beam.tendons)


def spacing(design: Design) -> Found:
    """Clear distance of bars in a layer, 5.10.3.1."""
    most = worst(_rows(design))
    if most is not None:
        yield most


def _rows(design: Design) -> Iterator[Check]:
    pen, precast = design.pen, _precast(design)
    rows = sorted((b for b in design.beam.bars), key=lambda b: (round(b.y), b.part))
    for _, some in groupby(rows, key=lambda b: (round(b.y), b.part)):
        groups = list(some)
        # groups of a layer that do not overlap along the beam do not share its width
        for bar in groups:
            beside = [b for b in groups if b.x_from < bar.x_to and b.x_to > bar.x_from]
            n = sum(b.count for b in beside)
            if n < 2:
                continue
            width = design.outline.width(bar.y) or design.beam.outline.web_width
            db = Symbol("db", max(b.diameter for b in beside), "length", "greatest diameter of the layer")
            ag = Symbol("ag", design.beam.concrete.max_aggregate, "length", "largest aggregate")
            b = Symbol("b", width, "length", "width at the bars")
            c = Symbol("c", cover(design.beam, bar).side, "length", "cover at the sides, as that of the face")
            total = Symbol("Σdb", sum(b_.count * b_.diameter for b_ in beside), "length", "diameters of the layer")
            count = Symbol("n", float(n), "count", "bars of the layer")
            is_ = pen("s", "clear distance, spread evenly", "max(0, (b − 2·c − Σdb)/(n − 1))", (b, c, total, count),
                      "length")  # fmt: skip
            cast_here = bar.part == "topping" or not precast
            text, clause = (
                ("max(1.5·db, 1.5·ag, 1.5)", "5.10.3.1.1") if cast_here else ("max(db, 1.33·ag, 1)", "5.10.3.1.2")
            )
            what = "cast in place" if cast_here else "precast"
            need = pen("smin", f"least clear distance, {what}", text, (db, ag), "length", clause)
            yield Check("distance of bars", pen.cite("5.10.3.1"), need, is_, (is_, need),
                        ("Bars of a layer are spread evenly over the width.",), "spacing-bars", None, "",
                        "detailing")  # fmt: skip


def strands(design: Design) -> Found:
    """Clear distance of pretensioned strands at ends, 5.9.4.1, as the file gives no places across."""
    pen, checks = design.pen, []
    for t in design.beam.tendons:
        if t.when != "before casting" or t.count < 2:
            continue
        heights = t.profile.y
        width = min(design.beam.outline.width(y) or design.beam.outline.web_width for y in heights)
        b = Symbol("b", width, "length", "least width along the strands")
        db = Symbol("db", t.diameter, "length", "of the strand")
        n = Symbol("n", float(t.count), "count", "strands of the group")
        edge = Symbol("c", 50.8, "length", "from the side to the centre of a strand, 2 in")
        is_ = pen("s", "spacing of centres, one row spread evenly", "max(0, (b − 2·c)/(n − 1))", (b, edge, n), "length")
        ag = Symbol("ag", design.beam.concrete.max_aggregate, "length", "largest aggregate")
        least = Symbol("s0", _centres(t.diameter), "length", "Table 5.9.4.1-1, by the diameter")
        need = pen("smin", "least spacing of centres", "max(s0, 1.33·ag + db)", (least, ag, db), "length", "5.9.4.1")
        checks.append(Check(
            f"distance of strands {t.name}", pen.cite("5.9.4.1"), need, is_, (is_, need),
            ("The file gives heights only: strands of a group stand in one row, 2 in from the sides.",),
            "spacing-strands", None, "", "information",
        ))  # fmt: skip
    most = worst(checks)
    if most is not None:
        yield most


def _centres(diameter: float) -> float:
    """Table 5.9.4.1-1: 2 in from 9/16 in on, 1.75 in to 1/2 in, 1.5 in at 3/8 in; mm."""
    inches = diameter / 25.4
    return 25.4 * (2.0 if inches > 0.53 else 1.75 if inches > 0.42 else 1.5)


def covers(design: Design) -> Found:
    """Table 5.10.1-1, with w/c between 0.40 and 0.50."""
    pen, checks = design.pen, []
    classes = design.choices.exposure
    if not classes:
        yield Unchecked("cover", "the table verify names no exposure", pen.cite("5.10.1"), "cover")
        return
    precast = _precast(design)
    if any(c.startswith(SEA) for c in classes):
        inches, why = 3.0, "coastal"
    elif any(c.startswith(SALT) for c in classes):
        inches, why = 2.5, "direct exposure to salt"
    elif "indoors" in classes and not precast:
        inches, why = 1.5, "interior"
    else:
        inches, why = 2.0, "precast, main bars" if precast else "exterior"
    for bar in design.beam.bars:
        checks.append(_cover(design, bar.label, _face(design, bar), inches * 25.4, why))
    for t in design.beam.tendons:
        if t.when == "before casting":
            checks.append(_cover(design, t.label, _strand_face(design, t), inches * 25.4, why))
    most = worst(checks)
    if most is not None:
        yield most
    size = max((z.diameter for z in design.beam.stirrups), default=0.0)
    inside = [_face(design, b) for b in design.beam.bars if b.part == "beam"]
    inside += [_strand_face(design, t) for t in design.beam.tendons if t.when == "before casting"]
    if size and inside:
        has = given("c", "cover of the stirrups around bars and strands", max(min(inside) - size, 0.0), "length", "ksi")
        table = Symbol("c0", inches * 25.4, "length", f"Table 5.10.1-1, {why}")
        what = "least cover of stirrups: half an inch less, an inch at least"
        need = pen("cmin", what, "max(1.0, c0 − 0.5)", (table,), "length", "5.10.1")
        yield Check("cover of stirrups", pen.cite("5.10.1"), need, has, (has, need), (WATER,), "cover-stirrups", None,
                    "", "detailing")  # fmt: skip


def _face(design: Design, bar: BarGroup) -> float:
    """Cover to soffit and top; the top of a beam under a slab is no face."""
    return max(min(bar.y, design.outline.depth - bar.y) - bar.diameter / 2.0, 0.0)


WATER = "The water-cement ratio lies between 0.40 and 0.50: below it covers are multiplied by 0.8, above it by 1.2."


def _strand_face(design: Design, t: TendonGroup) -> float:
    """The same of strands at their lowest and highest points."""
    low, high = min(t.profile.y), max(t.profile.y)
    return max(min(low, design.outline.depth - high) - t.diameter / 2.0, 0.0)


def _cover(design: Design, label: str, face: float, least: float, why: str) -> Check:
    pen = design.pen
    has = given("c", f"cover of {label}", face, "length", "ksi")
    table = Symbol("c0", least, "length", f"Table 5.10.1-1, {why}")
    need = pen("cmin", "least cover", "c0", (table,), "length", "5.10.1")
    return Check("cover", pen.cite("5.10.1"), need, has, (has, need), (WATER,), "cover-bars", None, "", "detailing")


ENTRIES: tuple[Entry, ...] = (
    Entry("spacing", "distance of bars", "5.10.3.1", "Clear distance of bars in a layer.", spacing),
    Entry("spacing-strands", "distance of strands", "5.9.4.1", "Spacing of strands, told for information.", strands),
    Entry("cover", "cover", "5.10.1", "Cover of bars and stirrups against the table by exposure.", covers),
)  # fmt: skip

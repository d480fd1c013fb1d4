"""Spacing of bars and strand against cracks, ACI 318-19 24.3.2; *from memory*. Skin steel: see the least steel."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from soffit.codes.aci318 import inservice, values
from soffit.codes.aci318.nominal import uncracked
from soffit.codes.cut import BarsAt, Cut, TendonsAt
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.en1992.service import crack, places
from soffit.codes.working import Check, Symbol, Unchecked, Working
from soffit.materials.standards import PSI
from soffit.member.beam import BarGroup, TendonGroup
from soffit.member.layout import cover

EASY = {"inch-pound": 20e3 * PSI, "SI": 140.0}
"""Δfps up to which strand needs no check, 24.3.2.2, MPa."""


def cracks(design: Design) -> Found:
    """s of the layer next to the tension face where service loads bend; of prestressed beams for class C alone."""
    for sagging in (True, False):
        if inservice.prestressed(design) and inservice.class_of(design, sagging) != "C":
            continue  # 24.3.1: classes U and T need none
        checks: list[Check] = []
        for x in places(design, "characteristic", sagging, 2):
            for found in _place(design, x, sagging):
                if isinstance(found, Unchecked):
                    yield found
                else:
                    checks.append(found)
        most = worst(checks)
        if most is not None:
            yield most


def _place(design: Design, x: float, sagging: bool) -> Iterator[Check | Unchecked]:
    cut = design.cut(x, sagging)
    demand = design.actions.at("characteristic", bending(sagging), x, "Ma")
    sign = bending(sagging)
    bonded = [t for t in cut.tension_tendons if t.bonded]
    if not (cut.tension_bars or bonded):
        if not cut.prestressed and uncracked(design, cut, demand.working.value):
            return
        yield Unchecked(f"cracks, {sign}", f"at {x:.0f} mm no bonded steel stands at the tension face to hold cracks",
                        design.pen.cite("24.3.2"), "cracks")  # fmt: skip
        return
    outer = max(*(b.depth for b in cut.tension_bars), *(t.depth for t in bonded), 0.0)
    bars = [b for b in cut.tension_bars if abs(b.depth - outer) <= b.group.diameter]
    strand = [t for t in bonded if abs(t.depth - outer) <= t.group.diameter]
    split = crack(design, cut, demand.working.value, design.modulus, demand.axial, None)
    if split is None:
        return
    checks = [_bars(design, cut, demand.working, bars, strand, split.steel(b.depth, b.group.steel.modulus), b)
              for b in bars]  # fmt: skip
    if not bars:
        checks = [_strand(design, cut, demand.working, strand, split.steel(t.depth, t.group.steel.modulus), t)
                  for t in strand]  # fmt: skip
    for check in checks:
        yield replace(check, title=f"spacing against cracks, {sign}", key=f"cracks-{sign}", x=x,
                      combination=demand.combination)  # fmt: skip


def _spacing(design: Design, cut: Cut, bars: list[BarsAt], strand: list[TendonsAt]) -> tuple[Working, ...]:
    """Centres of all steel of the layer, spread evenly; the last is s."""
    pen = design.pen
    first: BarsAt | TendonsAt = bars[0] if bars else strand[0]
    groups: list[BarGroup | TendonGroup] = [*(b.group for b in bars), *(t.group for t in strand)]
    y = cut.h - first.depth if cut.sagging else first.depth
    count = sum(g.count for g in groups)
    width = design.outline.width(y) or cut.bw
    if bars:
        beam = replace(design.beam, outline=design.outline) if bars[0].group.part == "topping" else design.beam
        side = cover(beam, bars[0].group).side
    else:
        side = max(cut.h - first.depth - 0.5 * first.group.diameter, 0.0)
    thick = max(g.diameter for g in groups)
    b = Symbol("b", width, "length", "width at the layer")
    if count < 2:
        return (pen("s", "one bar: the width of the tension face, 24.3.3", "b", (b,), "length", "24.3.3"),)
    e = Symbol("e", side + 0.5 * thick, "length", "from a side to the centre of a bar, as from the face")
    n = Symbol("n", float(count), "count", "bars and strand of the layer")
    return (pen("s", "spacing of centres, spread evenly", "max(0, (b − 2·e)/(n − 1))", (b, e, n), "length"),)


def _bars(
    design: Design, cut: Cut, m: Working, bars: list[BarsAt], strand: list[TendonsAt], stress: float, bar: BarsAt
) -> Check:
    pen, e = design.pen, values.of(design)
    fy = Symbol("fy", bar.yield_strength, "stress", f"yield strength of {bar.group.label or 'the bars'}")
    elastic = Symbol("fs,el", max(stress, 1.0), "stress", "stress of the bars under Ma, cracked elastic section")
    # 24.3.2.1 lets either stand; the elastic one is what the place needs, and it never goes beyond yield
    fs = pen("fs", "stress of the bars in service, computed", "min(fs,el, fy)", (elastic, fy), "stress", "24.3.2.1")
    allowed = pen("fs,2/3", "the stress that may be taken instead, for comparison", "2/3·fy", (fy,), "stress",
                  "24.3.2.1")  # fmt: skip
    return _check(design, cut, m, bars, strand, (fs, allowed), e.pick("40000", "280"), fs, "")


def _strand(
    design: Design, cut: Cut, m: Working, strand: list[TendonsAt], stress: float, t: TendonsAt
) -> Check:  # fmt: skip
    pen, e = design.pen, values.of(design)
    # the layers of a cracked section start where the concrete beside the tendon has no stress: Δfps of 24.3.2.2
    rise = Symbol("Δf", max(stress, 1.0), "stress", "stress under Ma less that at decompression, cracked section")
    delta = pen("Δfps", "rise of the stress of the strand", "Δf", (rise,), "stress", "24.3.2.2")
    check = _check(design, cut, m, [], strand, (delta,), e.pick("40000", "280"), delta, "2/3·")
    most = pen("Δfps,max", "greatest rise for class C", e.pick("36000", "250"), (), "stress", "24.3.2.2")
    if delta.value <= EASY[e.key]:
        said = ("Δfps is at most 20 ksi (140 MPa): the spacing needs no check (24.3.2.2).",)
        return replace(check, demand=delta, resistance=most, workings=(m, delta, most), assumptions=said)
    if delta.value > most.value:
        return replace(check, demand=delta, resistance=most, workings=(m, delta, most))
    return check


def _check(
    design: Design, cut: Cut, m: Working, bars: list[BarsAt], strand: list[TendonsAt], head: tuple[Working, ...],
    base: str, stress: Working, share: str,
) -> Check:  # fmt: skip
    pen, e = design.pen, values.of(design)
    layer: list[BarsAt | TendonsAt] = [*bars, *strand]
    mixed = bool(bars and strand)
    if mixed:
        share = "5/6·"
    deep = min(cut.h - s.depth - 0.5 * s.group.diameter for s in layer)
    cc = Symbol("cc", max(deep, 0.0), "length", "least distance from the steel to the tension face")
    kind = {"": "bars", "2/3·": "strand: ⅔ of that of bars", "5/6·": "bars and strand: 5/6 of that of bars"}[share]
    name = stress.name
    text = e.pick(
        f"{share}min(15·{base}/{name} − 2.5·cc, 12·{base}/{name})",
        f"{share}min(380·{base}/{name} − 2.5·cc, 300·{base}/{name})",
    )
    limit = pen("smax", f"greatest spacing, {kind}", f"max(0, {text})", (stress, cc), "length", "Table 24.3.2")
    spacing = _spacing(design, cut, bars, strand)
    return Check(
        "", pen.cite("24.3.2"), spacing[-1], limit, (m, *head, limit, *spacing),
        ("Steel of the layer is spread evenly over the width, as far from the sides as from the face.",
         "fs is that of the cracked elastic section with Ec."), "", None, "", "service",
    )  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("cracks", "cracks", "24.3.2",
          "Spacing of the steel next to the tension face against that for its stress and cover; of prestressed beams "
          "for class C.", cracks),
)  # fmt: skip

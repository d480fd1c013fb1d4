"""Control of cracks by the spacing of bars, AASHTO LRFD 5.6.7; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.aashto import values
from soffit.codes.aashto.flexure import hard_places
from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.en1992.service import crack, gross_stress
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.member.layout import cover

SEVERE = ("XD", "XS", "C2", "F3")
"""Classes of exposure that ask for Class 2 here (*ours*): cracks of less width for looks or corrosion."""


def cracks(design: Design) -> Found:
    """s ≤ 700 γe/(βs fss) − 2 dc where the tension face goes beyond 0.8 fr under Service I."""
    for sagging in (True, False):
        rows = list(_cracks(design, sagging))
        most = worst(c for c in rows if isinstance(c, Check))
        if most is not None:
            yield most
        yield from [u for u in rows if isinstance(u, Unchecked)][:1]


def _cracks(design: Design, sagging: bool) -> Iterator[Check | Unchecked]:
    pen, effect = design.pen, bending(sagging)
    for x in hard_places(design, sagging, 2):
        demand = design.actions.at("characteristic", bending(sagging), x, "M")
        cut = design.cut(x, sagging)
        if demand.working.value <= 0.0:
            continue
        pulled = gross_stress(design, cut, demand.working, cut.h, demand.axial, None, name="σct")
        fr = values.rupture(design)
        least = pen("fcr", "tension from which the spacing is limited", "0.80·fr", (fr,), "stress", "5.6.7")
        if pulled.stress.value <= least.value:
            continue
        outer = max(cut.tension_bars, key=lambda b: b.depth, default=None)
        if outer is None:
            if cut.tension_tendons:
                why = f"the tension face at {x:.0f} mm goes beyond 0.8 fr and only tendons are there: 5.6.7 is for bars"
                yield Unchecked("control of cracks", why, pen.cite("5.6.7"))
            continue
        found = crack(design, cut, demand.working.value, design.modulus, demand.axial, None)
        if found is None:
            continue
        yield _check(design, cut, demand.working, demand.combination, effect, (*pulled.workings, fr, least),
                     found.steel(outer.depth, outer.group.steel.modulus), x)  # fmt: skip


def _check(
    design: Design, cut: Cut, m: Working, combination: str, effect: str, head: tuple[Working, ...], stress: float,
    x: float,
) -> Check:  # fmt: skip
    pen = design.pen
    outer = max(cut.tension_bars, key=lambda b: b.depth)
    row = [b for b in cut.tension_bars if abs(b.depth - outer.depth) < outer.group.diameter]
    n = sum(b.group.count for b in row)
    class2 = any(c.startswith(SEVERE) for c in design.choices.exposure)
    fss = given("fs", "stress of the bars, cracked section", max(stress, 0.1), "stress", "ksi")
    fy = Symbol("fy", outer.yield_strength, "stress", "of the bars")
    used = pen("fss", "of it, 0.6 fy at most", "min(fs, 0.6·fy)", (fss, fy), "stress", "5.6.7")
    dc = Symbol("dc", cut.h - outer.depth, "length", "from the tension face to the centre of the bars")
    h = Symbol("h", cut.h, "length", "depth of the section")
    beta = pen("βs", "strain of the face over that of the bars", "1 + dc/(0.7·(h − dc))", (dc, h), "ratio", "(5.6.7-2)")
    gamma = Symbol("γe", 0.75 if class2 else 1.0, "ratio", f"exposure of class {2 if class2 else 1}")
    text = "max(0, 700·γe/(βs·fss) − 2·dc)"
    limit = pen("smax", "greatest spacing of the bars", text, (gamma, beta, used, dc), "length", "(5.6.7-1)")
    width = design.outline.width(outer.group.y) or cut.bw
    side = cover(design.beam, outer.group).side + outer.group.diameter / 2.0
    b = Symbol("b", width, "length", "width at the bars")
    e = Symbol("c", side, "length", "from the side to the centre of a bar")
    if n > 1:
        count = Symbol("n", float(n), "count", "bars in the layer")
        is_ = pen("s", "spacing of the bars, spread evenly", "(b − 2·c)/(n − 1)", (b, e, count), "length")
    else:
        is_ = pen("s", "one bar: the width of the section", "b", (b,), "length")
    said = (
        f"Class {2 if class2 else 1} exposure, as the exposure classes of the file ask.",
        "Bars of the outermost layer are spread evenly, as far from the sides as from the face.",
    )
    workings = (m, *head, fss, used, beta, limit, is_)
    return Check(f"spacing of bars against cracks, {effect}", pen.cite("5.6.7"), is_, limit, workings, said,
                 f"cracks-{effect}", x, combination, "service")  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("cracks", "control of cracks", "5.6.7", "Spacing of the outermost bars against that which exposure, their "
          "stress and their cover allow.", cracks),
)  # fmt: skip

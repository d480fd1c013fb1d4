"""Whether bars and strand are held where they are needed, ACI 318-19 25.4, 9.7.3.8; *from memory*."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import numpy as np

from soffit.codes.aci318 import development, values
from soffit.codes.aci318.development import INCH, Side, developed
from soffit.codes.aci318.nominal import moment, nominal, uncracked
from soffit.codes.cut import Cut, TendonsAt
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.working import Check, Symbol, Unchecked, Working, given

__all__ = ["ENTRIES", "developed"]

FLEXURE = 0.90
INTO = 6.0 * INCH


def peaks(design: Design) -> Iterator[tuple[float, bool]]:
    """Places of the greatest moments of each sign, span by span, but for those that the bare concrete bears."""
    envelope, x = design.actions.envelope("ultimate"), design.actions.x
    beam = design.beam
    ends = [0.0, *beam.supports.x, beam.length]
    for sagging in (True, False):
        size = envelope.sagging if sagging else envelope.hogging
        found = []
        for low, high in itertools.pairwise(ends):
            inside = np.flatnonzero((x >= low - 1e-6) & (x <= high + 1e-6))
            if len(inside) > 1:
                found.append(float(x[inside[int(np.argmax(size[inside]))]]))
        for place in dict.fromkeys(found):
            moment_ = float(np.interp(place, x, size))
            if moment_ > 0.0 and not uncracked(design, design.cut(place, sagging), moment_):
                yield place, sagging


def critical(design: Design) -> Found:
    """25.4.1.1: every group that bending needs at a peak of the moments is developed on both sides."""
    pen = design.pen
    for plain in (b for b in design.beam.bars if not development.bonded(b)):
        yield Unchecked("development of plain bars", f"{plain.label or 'plain bars'}: 25.4 is for deformed bars",
                        pen.cite("20.2.1.1"), "development", scope=True)  # fmt: skip
        break
    strong = [b for b in design.beam.bars if development.bonded(b) and development.needed(design, b, "left") == np.inf]
    if strong:
        why = f"{strong[0].label or 'bars'}: there is no ψg for bars above Grade 100 (690 MPa)"
        yield Unchecked("development", why, pen.cite("Table 25.4.2.5"), "development", scope=True)
    found = worst(c for x, sagging in peaks(design) for c in _critical(design, x, sagging))
    if found is not None:
        yield found


def _critical(design: Design, x: float, sagging: bool) -> Iterator[Check]:
    pen, e = design.pen, values.of(design)
    cut = design.cut(x, sagging)
    bars = cut.tension_bars
    if not bars or cut.prestressed:
        return
    demand = design.actions.at("ultimate", bending(sagging), x, "Mu")
    mu = demand.working.value
    whole = FLEXURE * moment(design, cut, bars)
    for bar in bars:
        rest = FLEXURE * moment(design, cut, [b for b in bars if b is not bar])
        if rest >= mu or whole <= 0.0:
            continue
        sides: tuple[tuple[Side, float], ...] = (("left", bar.left), ("right", bar.right))
        for side, along in sides:
            at_end = x < 1.0 or x > design.beam.length - 1.0
            found = development.development(design, bar.group, side)
            if found is None or at_end:
                continue
            steps = list(found.workings)
            need: Working = found.length
            said = []
            if not found.hooked and mu < whole:
                all_ = nominal(design, cut, bars)
                phi = pen("φ", "tension-controlled", "0.90", (), "ratio", "Table 21.2.2")
                least = e.pick("12", "300")
                need = pen("ℓd,req", "needed for the steel that bending uses", f"max(ℓd,0·Mu/(φ·Mn), {least})",
                           (found.uncut, demand.working, phi, all_.moment), "length", "25.4.10.1")  # fmt: skip
                steps += [demand.working, *all_.workings, phi, need]
                said.append("As,required/As,provided is taken as Mu/φMn, on the safe side.")
            if found.short is not None:
                steps.append(found.short)
            have = given("ℓ", f"of {bar.group.label or 'the bars'} to the {side} of the place", along, "length")
            yield Check(
                "development at the greatest moment", pen.cite("25.4.1.1"), need, have, (*steps, have),
                (*said, "Bars stand evenly over the width with the same cover at the side as at the face."),
                "development", x, demand.combination, "detailing",
            )  # fmt: skip


def supports(design: Design) -> Found:
    """9.7.3.8: a third or a quarter of the bars into the supports; ℓd ≤ 1.3 Mn/Vu + ℓa at simple ones."""
    if any(t.stress > 0.0 for t in design.beam.tendons):
        return
    for kind in (_into, _bond):
        found = worst(kind(design))
        if found is not None:
            yield found
    found = worst(_over(design))
    if found is not None:
        yield found


def _ends(design: Design) -> Iterator[tuple[float, float, bool]]:
    """Supports with the direction of a span that begins there and whether it is simple."""
    held = design.beam.supports
    for i, (low, high) in enumerate(design.spans):
        yield low, high, i == 0 and not held.fixed_left and low < design.outline.depth
        last = i == len(design.spans) - 1
        yield high, low, last and not held.fixed_right and design.beam.length - high < design.outline.depth


def _strongest(design: Design, low: float, high: float) -> float:
    envelope, x = design.actions.envelope("ultimate"), design.actions.x
    inside = [p for p in design.places if min(low, high) <= p <= max(low, high)]
    return max(inside, key=lambda p: float(np.interp(p, x, envelope.sagging)))


def _into(design: Design) -> Iterator[Check]:
    """9.7.3.8.1, 9.7.3.8.2: along the bottom, at least 6 in (150 mm) past the face."""
    pen, e, beam = design.pen, values.of(design), design.beam
    deep = INTO if e.key == "inch-pound" else 150.0
    for support, other, simple in _ends(design):
        middle = design.cut(_strongest(design, support, other))
        if not middle.tension_bars:
            continue
        sign = 1.0 if other > support else -1.0
        face = support + sign * 0.5 * beam.supports.bearing
        # where there is less beam than that beyond the face, bars up to its cover at the end are in the support
        room = face if sign > 0 else beam.length - face
        want = min(deep, max(room - 2.0 * INCH, 0.0))
        reach = [
            b for b in middle.tension_bars
            if (face - b.group.x_from if sign > 0 else b.group.x_to - face) >= want - 1e-6
        ]  # fmt: skip
        steel = Symbol("As", middle.As, "area", f"of the span, at {middle.x:.0f} mm")
        text, share = ("As/3", "third") if simple else ("As/4", "quarter")
        clause = "9.7.3.8.1" if simple else "9.7.3.8.2"
        need = pen("As,in", f"a {share} of the bars for the greatest sagging moment", text, (steel,), "area", clause)
        have = given("As,there", f"of those that reach {want:.0f} mm past the face of the support",
                     sum(b.area for b in reach), "area")  # fmt: skip
        said = ("The beam ends less than 6 in (150 mm) past the face: bars up to 2 in from its end count.",)
        yield Check(
            "bars into a support", pen.cite(clause), need, have, (need, have), said if want < deep else (),
            "support-bars-share", support, "", "detailing",
        )  # fmt: skip


def _bond(design: Design) -> Iterator[Check]:
    """9.7.3.8.3 at simple supports."""
    pen, beam = design.pen, design.beam
    for support, other, simple in _ends(design):
        if not simple:
            continue
        sign = 1.0 if other > support else -1.0
        side: Side = "left" if sign > 0 else "right"
        cut = design.cut(support)
        # hooks and plates beyond the centre of the support need no such check
        bars = [b for b in cut.tension_bars if development.bonded(b.group)]
        straight = [b for b in bars if development.end_of(b.group, side) == "straight"]
        shear = design.actions.at("ultimate", "shear", support + sign, "Vu")
        if not straight or shear.working.value <= 0.0:
            continue
        found = [(development.development(design, b.group, side), b) for b in straight]
        dev, bar = max(((d, b) for d, b in found if d is not None), key=lambda p: p[0].length.value,
                       default=(None, None))  # fmt: skip
        if dev is None or bar is None:
            continue
        mn = nominal(design, cut, bars)
        la = Symbol("ℓa", max(bar.left if sign > 0 else bar.right, 0.0), "length",
                    "of the bars beyond the centre of the support")  # fmt: skip
        confined = beam.supports.bearing > 0.0
        factor = "1.3·" if confined else ""
        have = pen("ℓ", "over which the tension may grow", f"{factor}Mn/Vu + ℓa", (mn.moment, shear.working, la),
                   "length", "9.7.3.8.3")  # fmt: skip
        said = (
            "The reaction confines the ends of the bars: Mn/Vu counts 1.3 times." if confined
            else "No bearing is given: nothing is counted for a reaction that confines the bars.",
        )  # fmt: skip
        yield Check(
            "bond at a simple support", pen.cite("9.7.3.8.3"), dev.length, have,
            (*dev.workings, *mn.workings, shear.working, have), said, "support-bars-bond", support, shear.combination,
            "detailing",
        )  # fmt: skip


def _over(design: Design) -> Iterator[Check]:
    """9.7.3.8.4: a third of the top bars over a support runs past the point of inflection."""
    pen, x = design.pen, design.actions.x
    hogging = design.actions.envelope("ultimate").hogging
    for support, other, _ in _ends(design):
        cut = design.cut(support, sagging=False)
        if not cut.tension_bars or uncracked(design, cut, float(np.interp(support, x, hogging))):
            continue
        sign = 1.0 if other > support else -1.0
        there = [p for p in (x if sign > 0 else x[::-1]) if (p - support) * sign >= 0.0 and (other - p) * sign >= 0.0]
        turn = next((float(p) for p in there if float(np.interp(p, x, hogging)) <= 1e-6 * np.max(hogging)), None)
        if turn is None:
            continue
        thick = max(b.group.diameter for b in cut.tension_bars)
        d = Symbol("d", cut.ds, "length", "depth of the top bars")
        db = Symbol("db", thick, "length", "diameter of the thickest")
        ln = Symbol("ℓn", abs(other - support) - design.beam.supports.bearing, "length", "clear span")
        past = pen("ℓi", "past the point of inflection", "max(d, 12·db, ℓn/16)", (d, db, ln), "length", "9.7.3.8.4")
        far = turn + sign * past.value
        reach = [
            b for b in cut.tension_bars
            if (b.group.x_to >= far - 1e-6 if sign > 0 else b.group.x_from <= far + 1e-6)
            or abs(far - other) < 1e-6 or (far - other) * sign > 0.0
        ]  # fmt: skip
        steel = Symbol("As", cut.As, "area", "of the top bars over the support")
        need = pen("As,past", "a third of them", "As/3", (steel,), "area", "9.7.3.8.4")
        have = given("As,there", f"of those that reach {past.value:.0f} mm past the inflection at {turn:.0f} mm",
                     sum(b.area for b in reach), "area")  # fmt: skip
        yield Check("top bars past the inflection", pen.cite("9.7.3.8.4"), need, have, (past, need, have), (),
                    "support-bars-top", support, "", "detailing")  # fmt: skip


def strand(design: Design) -> Found:
    """ℓd of pretensioned strand, 25.4.8.1, against what is embedded at the greatest moment; for information, because
    25.4.8.3 lets it be shorter where less stress is needed and the bending strength counts so."""
    found = worst(c for x, sagging in peaks(design) for c in _strand(design, design.cut(x, sagging)))
    if found is not None:
        yield found


def _strand(design: Design, cut: Cut) -> Iterator[Check]:
    from soffit.codes.aci318 import layers

    pen, e = design.pen, values.of(design)
    for t in cut.tension_tendons:
        if not layers.pretensioned(t) or t.full <= 0.0 or t.group.wire:
            continue
        # 25.4.8.1.1: twice the length where debonded strand is under tension in service (taken so always)
        slow = layers.sheathed(t)
        fse = Symbol("fse", t.full, "stress", "effective stress after all losses")
        fps = Symbol("fps", _fps(design, cut, t), "stress", "at nominal strength, by strain compatibility")
        db = Symbol("db", t.group.diameter, "length", "diameter of the strand")
        ltr = pen("ℓtr", "transfer length", e.pick("fse/3000·db", "fse/21·db"), (fse, db), "length", "25.4.8.1")
        twice = "2·" if slow else ""
        text = e.pick("(ℓtr + (fps − fse)/1000·db)", "(ℓtr + (fps − fse)/7·db)")
        ld = pen("ℓd", "development length" + (", twice that of bonded strand" if slow else ""), f"{twice}{text}",
                 (ltr, fps, fse, db), "length", "25.4.8.1.1" if slow else "25.4.8.1")  # fmt: skip
        fifty = pen("ℓtr,v", "transfer length that shear counts with, not this one", "50·db", (db,), "length",
                    "22.5.7")  # fmt: skip
        have = given("ℓ", "embedded at the greatest moment, to the nearer end of the bond", min(t.left, t.right),
                     "length")  # fmt: skip
        yield Check("development of strand", pen.cite("25.4.8.1"), ld, have, (ltr, ld, fifty, have),
                    ("Where it is shorter, 25.4.8.3 limits the stress; bending counts so.",), "strand-development",
                    cut.x, "", "information")  # fmt: skip


def _fps(design: Design, cut: Cut, t: TendonsAt) -> float:
    from soffit.codes.aci318.bent import bent
    from soffit.errors import PhysicsError

    try:
        found = bent(design, cut.x, cut.sagging).found
    except PhysicsError:
        return t.group.steel.yield_strength
    held = [i for i, o in enumerate(cut.tendons) if o.index == t.index]
    index = len(cut.bars) + held[0]
    return float(found.stresses[index]) if index < len(found.stresses) else t.group.steel.yield_strength


def compressed(design: Design) -> Found:
    """ℓdc, 25.4.9, of bars in the compressed half at the greatest moments; for information."""
    found = worst(c for x, sagging in peaks(design) for c in _compressed(design, design.cut(x, sagging)))
    if found is not None:
        yield found


def _compressed(design: Design, cut: Cut) -> Iterator[Check]:
    pen, e = design.pen, values.of(design)
    for bar in cut.compression_bars:
        if not development.bonded(bar.group) or 0.0 in (cut.x, design.beam.length - cut.x):
            continue
        fy = Symbol("fy", bar.yield_strength, "stress", f"yield strength of {bar.group.label or 'the bars'}")
        db = Symbol("db", bar.group.diameter, "length", "diameter")
        pr = Symbol("ψr", 1.0, "ratio", "no ties around them counted, Table 25.4.9.3")
        fc, light = development.fc(design, bar.group), development.lightness(design)
        text = e.pick(
            "max(fy·ψr/(50·λ·√(f'c))·db, 0.0003·fy·ψr·db, 8)", "max(0.24·fy·ψr/(λ·√(f'c))·db, 0.043·fy·ψr·db, 200)"
        )
        ldc = pen("ℓdc", "development length in compression", text, (fy, pr, light, fc, db), "length", "25.4.9.2")
        have = given("ℓ", "to the nearer end of the bars; hooks do not count", min(bar.left, bar.right), "length")
        yield Check("development in compression", pen.cite("25.4.9.1"), ldc, have, (ldc, have),
                    ("Asked of bars whose compression is counted on.",), "compressed-bars",
                    cut.x, "", "information")  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("development", "development of bars", "25.4",
          "ℓd or ℓdh of bars that the greatest moments need against their length to either side.", critical),
    Entry("support-bars", "bars at supports", "9.7.3.8",
          "Share of the bars that goes into supports; ℓd against 1.3 Mn/Vu + ℓa; top bars past the inflection.",
          supports),
    Entry("strand-development", "development of strand", "25.4.8",
          "ℓd of pretensioned strand against what is embedded at the greatest moment.", strand),
    Entry("compressed-bars", "development in compression", "25.4.9",
          "ℓdc of bars in the compressed half against their length.", compressed),
)  # fmt: skip

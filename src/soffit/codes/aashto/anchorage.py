"""Development of bars and strands, bars into supports: AASHTO LRFD 5.10.8, 5.9.4.

*From memory*. What is not developed at a cut is already left out of bending and of the longitudinal tie.
"""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.aashto import bond
from soffit.codes.aashto.flexure import hard_places, strength
from soffit.codes.aashto.layers import kappa
from soffit.codes.cut import BarsAt
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.working import Check, Symbol, given
from soffit.errors import PhysicsError

INTO = 6.0 * 25.4
"""How far bars run into simple supports, 5.10.8.1.2a, mm."""


def bars(design: Design) -> Found:
    """Bars in tension at the place of the greatest moment reach ℓd to both sides, 5.10.8.1.1."""
    checks: list[Check] = []
    for sagging in (True, False):
        effect = bending(sagging)
        for x in hard_places(design, sagging, 1):
            cut = design.cut(x, sagging)
            demand = design.actions.at("ultimate", bending(sagging), x, "Mu")
            try:
                kept = strength(design, cut, demand.axial).factored.value >= demand.working.value
            except PhysicsError:
                kept = False
            for bar in cut.tension_bars:
                checks += _reach(design, bar, x, effect, kept)
    most = worst([c for c in checks if c.state != "information"]) or worst(checks)
    if most is not None:
        yield most


def _reach(design: Design, bar: BarsAt, x: float, effect: str, kept: bool) -> Iterator[Check]:
    pen = design.pen
    for side, reach, hook in bond.loose(design, bar):
        need, head = bond.length(design, bar.group, hook)
        has = given("ℓ", f"from the cut to the {side} end of {bar.group.label}", max(reach, 0.0), "length", "ksi")
        said: tuple[str, ...] = (
            ("Bars are taken as spread evenly over the width; no bar is epoxy-coated.",) if not hook else
            ("The hook counts without the factors for cover and ties.",)
        )  # fmt: skip
        short = has.value < need.value
        if short and kept:
            said = (*said, "Bending counts with what is developed and holds so: told for information.")
        state = "information" if short and kept else "detailing"
        yield Check(f"development of bars, {effect}", pen.cite("5.10.8.2"), need, has, (*head, has), said,
                    "development-bars", x, "", state)  # fmt: skip


def strands(design: Design) -> Found:
    """ℓd of pretensioned strand at the place of the greatest moment, (5.9.4.3.2-1)."""
    pen, checks = design.pen, []
    for sagging in (True, False):
        for x in hard_places(design, sagging, 1):
            cut = design.cut(x, sagging)
            for t in cut.tension_tendons:
                if t.group.when != "before casting" or not t.bonded or t.group.steel.kind == "linear":
                    continue
                try:
                    found = strength(design, cut)
                except PhysicsError:
                    continue
                i = len(cut.bars) + cut.tendons.index(t)
                fps = given("fps", "stress at nominal resistance", found.bending.stresses[i], "stress", "ksi")
                fpe = Symbol("fpe", t.full, "stress", "after all losses")
                db = Symbol("db", t.group.diameter, "length", "of the strand")
                k = Symbol("κ", kappa(design, t), "ratio", "for depth or debonded strand")
                need = pen("ℓd", "development length", "κ·(fps − 2/3·fpe)·db", (k, fps, fpe, db), "length",
                           "(5.9.4.3.2-1)")  # fmt: skip
                has = given("ℓx", "from the nearer end of the bond", max(min(t.left, t.right), 0.0), "length", "ksi")
                state = "detailing" if has.value >= need.value else "information"
                said = ("Where it falls short, bending counts with what is developed.",)
                checks.append(
                    Check("development of strand", pen.cite("5.9.4.3.2"), need, has, (fps, need, has), said,
                          "development-strand", x, "", state)
                )  # fmt: skip
    most = worst(checks)
    if most is not None:
        yield most


def supports(design: Design) -> Found:
    """A third of the bars for sagging runs 6 in past the face of end supports, a quarter of inner ones."""
    pen, beam = design.pen, design.beam
    held = beam.supports.x
    places = hard_places(design, True, 1)
    if not places or len(held) < 2 or any(t.stress > 0.0 for t in beam.tendons):
        return
    most = design.cut(places[0], True).As
    if most <= 0.0:
        return
    checks = []
    for s in held:
        end = s in (held[0], held[-1])
        inward = 1.0 if s == held[0] else -1.0
        edge = s + inward * 0.5 * beam.supports.bearing
        # where there is less beam than that beyond the face, bars up to 2 in from its end count
        room = edge if inward > 0.0 else beam.length - edge
        to = edge - inward * min(INTO, max(room - 2.0 * bond.INCH, 0.0))
        there = sum(b.area for b in beam.bars if b.y < 0.5 * beam.outline.depth
                    and b.x_from <= min(edge, to) + 1e-6 and b.x_to >= max(edge, to) - 1e-6)  # fmt: skip
        if not end:
            there = design.cut(s, True).As
        top = Symbol("As", most, "area", "bars where sagging is greatest")
        part = "3" if end else "4"
        need = pen(f"As,{part}", "bars that run on", f"As/{part}", (top,), "area", "5.10.8.1.2a")
        what = f"bars that reach {abs(to - edge):.0f} mm past the face at {s:.0f} mm" if end else f"bars at {s:.0f} mm"
        has = given("As,s", what, there, "area", "ksi")
        checks.append(
            Check("bars into supports", pen.cite("5.10.8.1.2a"), need, has, (need, has), (), "into-supports", s, "",
                  "detailing")
        )  # fmt: skip
    found = worst(checks)
    if found is not None:
        yield found


ENTRIES: tuple[Entry, ...] = (
    Entry("development-bars", "development of bars", "5.10.8.2", "ℓd against what bars have where bending is hardest.",
          bars),
    Entry("development-strand", "development of strand", "5.9.4.3.2", "ℓd against what strands have where bending is "
          "hardest.", strands),
    Entry("into-supports", "bars into supports", "5.10.8.1.2a", "A third or a quarter of the bars for sagging reaches "
          "into supports.", supports),
)  # fmt: skip

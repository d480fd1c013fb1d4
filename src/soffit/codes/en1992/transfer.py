"""Stresses when the prestress is let in, and of the tendons: EN 1992-1-1:2004 5.10.2 and 5.10.3; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.cut import Cut
from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.en1992 import values
from soffit.codes.en1992.service import elastic_line, shape, spread
from soffit.codes.en1992.transmission import pretensioned, transmission, young_tensile
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.materials.curve import Array
from soffit.member.loading import self_weight


def _alone(design: Design) -> Array:
    """Moments at transfer: the beam's own weight and the secondary ones of the prestress just then."""
    loads = [self_weight(design.beam)] if design.beam.self_weight else []
    actions = design.actions
    moment = elastic_line(design).respond(loads).moment if loads else np.zeros(len(actions.x))
    early = design.prestress.early_moments
    if early is not None:
        moment = moment + np.interp(actions.x, early.x, early.secondary)
    return np.asarray(moment)


def _places(design: Design) -> tuple[float, ...]:
    ends = [
        x
        for i in pretensioned(design)
        for x in (
            design.beam.tendons[i].x_from + transmission(design, i).short.value,
            design.beam.tendons[i].x_to - transmission(design, i).short.value,
        )
    ]
    return tuple(sorted({*design.places, *(x for x in ends if 0.0 <= x <= design.beam.length)}))


def _forces(design: Design, cut: Cut) -> tuple[float, float]:
    """Upper characteristic force at transfer, N, and its height, mm; built up over lpt1 where pretensioned."""
    total = first = 0.0
    for t in cut.tendons:
        stress = t.at_transfer
        if t.group.when == "before casting" and t.bonded and t.group.stress > 0.0:
            found = transmission(design, t.index)
            stress = found.released.value * min(1.0, max(min(t.left, t.right), 0.0) / found.short.value)
        p = spread(design, t, low=False) * stress * t.area
        total, first = total + p, first + p * (cut.h - t.depth)
    return total, first / total if total else 0.0


def concrete(design: Design) -> Found:
    """5.10.2.2 (5): compression, and tension, of the faces just after transfer, under the beam's own weight."""
    if not any(t.stress > 0.0 for t in design.beam.tendons):
        return
    outline = shape(design, False)
    if len({t.when for t in design.beam.tendons}) > 1:
        yield Unchecked("stresses at transfer", "tendons of two kinds are let in at different ages", "", "transfer")
        return
    moments = _alone(design)
    rows = []
    places = _places(design)
    for x, m in zip(places, np.interp(places, design.actions.x, moments).tolist(), strict=True):
        p, y = _forces(design, design.cut(x))
        bend = (m - p * (outline.centroid - y)) / outline.inertia
        rows.append((x, p, y, m, -p / outline.area + bend * outline.centroid,
                     -p / outline.area - bend * (outline.depth - outline.centroid)))  # fmt: skip
    table = np.array(rows)
    for tension in (False, True):
        found = worst(_face(design, table, face, tension) for face in ("soffit", "top"))
        if found is not None:
            yield found


def _face(design: Design, table: Array, face: str, tension: bool) -> Check | None:
    pen, outline = design.pen, shape(design, False)
    column = table[:, 4 if face == "soffit" else 5]
    i = int(np.argmax(column) if tension else np.argmin(column))
    if (column[i] <= 0.0) if tension else (column[i] >= 0.0):
        return None
    x, force, y, moment = (float(v) for v in table[i, :4])
    p = given("P", "upper characteristic prestress just after transfer, rsup·Pm0", force, "force")
    m = given("M", "own weight of the beam, secondary moment of the prestress", moment, "moment")
    ac, ic = Symbol("Ac", outline.area, "area", "gross section"), Symbol("Ic", outline.inertia, "inertia", "gross")
    e = Symbol("e", outline.centroid - y, "length", "of the prestress below the centroid")
    r = Symbol("z", outline.centroid if face == "soffit" else outline.centroid - outline.depth, "length",
               f"of the {face} below the centroid")  # fmt: skip
    text = "−P/Ac + (M − P·e)·z/Ic"
    sigma = pen("σc" if tension else "−σc", f"stress of the {face}" + ("" if tension else ", compression positive"),
                text if tension else f"−({text})", (p, ac, m, e, r, ic), "stress")  # fmt: skip
    said = [f"Prestress with rsup = {_rsup(design):g} (5.10.9); pretensioned tendons take it up over lpt1."]
    if tension:
        limit: Working = young_tensile(design)
        bars = design.cut(x, sagging=face == "soffit").tension_bars
        if bars:
            said.append("Beyond fctm(t) the face cracks, which bars there can hold: told for information.")
        return Check(
            f"tension at transfer, {face}", pen.cite("7.1 (2)"), sigma, limit, (p, m, sigma, limit), tuple(said),
            key="transfer-tension", x=x, combination="prestress and own weight",
            state="information" if bars else "service",
        )  # fmt: skip
    transfer = design.strength if design.opened.transfer is None else design.opened.transfer
    if design.opened.transfer is None:
        said.append("The file gives no strength at transfer: fck is taken, on the unsafe side.")
    fck = Symbol("fck(t)", transfer, "stress", "when the prestress is let in, mean less 8 MPa (3.1.2 (5))")
    k = values.national(design, "k6", 0.6, "5.10.2.2 (5); 0.7 for pretensioning where tests prove it")
    limit = pen("σc,lim", "greatest compression", "k6·fck(t)", (k, fck), "stress", "(5.42)")
    linear = pen("σc,lin", "beyond which creep is not linear", "0.45·fck(t)", (fck,), "stress", "5.10.2.2 (5)")
    return Check(
        f"compression at transfer, {face}", pen.cite("(5.42)"), sigma, limit, (p, m, sigma, limit, linear),
        tuple(said), key="transfer-compression", x=x, combination="prestress and own weight", state="service",
    )  # fmt: skip


def _rsup(design: Design) -> float:
    cut = design.cut(0.5 * design.beam.length)
    return max((spread(design, t, low=False) for t in cut.tendons), default=1.05)


def tendons(design: Design) -> Found:
    """5.10.2.1 (1) at the jack and 5.10.3 (2) just after transfer."""
    found = (c for i in range(len(design.beam.tendons)) for c in _tendon(design, i))
    kinds: dict[str, list[Check]] = {}
    for check in found:
        kinds.setdefault(check.key, []).append(check)
    yield from (c for c in map(worst, kinds.values()) if c is not None)
    for t in design.beam.tendons:
        if t.steel.kind == "linear":
            yield Unchecked("stress of tendons", "fibre-reinforced polymer is no prestressing steel of 3.3",
                            design.pen.cite("3.3.1"), "tendon-stress", scope=True)  # fmt: skip


def _tendon(design: Design, group: int) -> Iterator[Check]:
    pen, t = design.pen, design.beam.tendons[group]
    if t.steel.kind == "linear" or t.stress <= 0.0:
        return
    name = t.name or str(group + 1)
    fpk = Symbol("fpk", t.steel.tensile, "stress", "tensile strength of the tendon")
    fp01 = Symbol("fp0.1k", t.steel.yield_strength, "stress", "0.1 % proof stress (the file's yield strength)")
    if t.stress_is == "at the jack":
        k1 = values.national(design, "k1,p", 0.8, "5.10.2.1 (1)")
        k2 = values.national(design, "k2,p", 0.9, "5.10.2.1 (1)")
        at = given("σp,jack", f"stress of tendon {name} at the jack", t.stress, "stress")
        most = pen("σp,max", "greatest stress at the jack", "min(k1,p·fpk, k2,p·fp0.1k)", (k1, fpk, k2, fp01), "stress",
                   "5.10.2.1 (1)")  # fmt: skip
        yield Check(f"stress at the jack, tendon {name}", pen.cite("5.10.2.1"), at, most, (at, most),
                    key="tendon-stress-jack", state="service")  # fmt: skip
    along = design.prestress.early[group]
    i = int(np.argmax(along.force))
    k7 = values.national(design, "k7", 0.75, "5.10.3 (2)")
    k8 = values.national(design, "k8", 0.85, "5.10.3 (2)")
    here = given(
        "σpm0", f"greatest stress of tendon {name} just after transfer", float(along.force[i]) / t.area, "stress"
    )
    most = pen("σpm0,max", "greatest stress after transfer", "min(k7·fpk, k8·fp0.1k)", (k7, fpk, k8, fp01), "stress",
               "(5.43)")  # fmt: skip
    yield Check(f"stress after transfer, tendon {name}", pen.cite("5.10.3 (2)"), here, most, (here, most),
                key="tendon-stress-transfer", x=float(along.x[i]), state="service")  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("transfer", "stresses at transfer", "5.10.2.2 (5), 7.1 (2)",
          "Compression of the faces against 0.6 fck(t), tension against fctm(t), under prestress and own weight.",
          concrete),
    Entry("tendon-stress", "stress of tendons", "5.10.2.1, 5.10.3",
          "Stress at the jack and after transfer against fractions of fpk and fp0.1k.", tendons),
)  # fmt: skip

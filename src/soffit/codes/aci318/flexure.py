"""Checks of bending with and without axial force by ACI 318-19 9.5.1, 9.3.3.1, 22.4.2; *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.aci318 import plain, values
from soffit.codes.aci318.bent import Bent, all_bent, hard_places
from soffit.codes.design import Design, Entry, Found, bending, worst
from soffit.codes.working import Check, Symbol, Unchecked
from soffit.member.beam import BarGroup, TendonGroup


def refused(design: Design) -> Unchecked | None:
    """Bars that do not yield."""
    groups: tuple[BarGroup | TendonGroup, ...] = (*design.beam.bars, *design.beam.tendons)
    for group in groups:
        if group.steel.kind == "linear":
            why = f"{group.label or 'reinforcement'} does not yield: fibre polymer is for ACI 440.11"
            return Unchecked("bending", why, design.pen.cite("20.2.1"), scope=True)
    return None


def flexure(design: Design) -> Found:
    """Mu ≤ φMn at every place, 9.5.1.1; the worst sagging and the worst hogging one, and what goes with them."""
    no = refused(design)
    if no is not None:
        yield no
        return
    for sagging in (True, False):
        sign = bending(sagging)
        found, bare = all_bent(design, sagging)
        checks = [_check(design, each, sign) for each in found]
        checks += [c for c in (plain.bent(design, x, sagging) for x in bare) if c is not None]
        most = worst(checks)
        if most is not None:
            yield most
        if bare:
            yield plain.permission(design, bare[0])
        yield from _ductile(design, found, sign)
    yield from _squeezed(design)


def _check(design: Design, each: Bent, sign: str) -> Check:
    return Check(
        f"bending, {sign}",
        design.pen.cite("9.5.1.1"),
        each.demand,
        each.strength,
        each.workings,
        each.said,
        f"flexure-{sign}",
        each.cut.x,
        each.combination,
        "strength",
    )


def _ductile(design: Design, found: tuple[Bent, ...], sign: str) -> Iterator[Check]:
    """9.3.3.1: tension-controlled where Pu < 0.10 f'c Ag."""
    pen = design.pen
    checks = []
    for each in found:
        if -each.axial >= 0.10 * design.strength * design.outline.area or plain.bears(design, each.cut, each.demand):
            continue
        et = Symbol("εt", each.found.outermost, "strain", "net strain of the outermost layer at nominal strength")
        need = pen(
            "εt,min",
            "least strain of a tension-controlled section",
            f"{each.yielding.name} + 0.003",
            (each.yielding,),
            "strain",
            "Table 21.2.2",
        )
        has = pen("εt", "net strain of the outermost layer at nominal strength", "εt", (et,), "strain")
        checks.append(
            Check(
                f"tension-controlled, {sign}",
                pen.cite("9.3.3.1"),
                need,
                has,
                (*each.workings[:-1], need, has),
                ("Asked of beams with Pu < 0.10 f'c Ag.",),
                f"flexure-ductility-{sign}",
                each.cut.x,
                each.combination,
                "strength",
            )
        )
    most = worst(checks)
    if most is not None:
        yield most


def _squeezed(design: Design) -> Iterator[Check]:
    """Pu ≤ 0.80 φPo, 22.4.2.1, where the beam is compressed along its axis."""
    pen = design.pen
    if not design.choices.axial:
        return
    places = [x for sagging in (True, False) for x in hard_places(design, sagging)]
    if not places:
        return
    x = places[0]
    demand = design.actions.at("ultimate", "sagging", x, "Mu")
    if demand.axial >= 0.0:
        return
    cut = design.cut(x, True)
    pu = pen(
        "Pu",
        "axial compression under the worst moment",
        "abs(N)",
        (Symbol("N", demand.axial, "force", demand.combination),),
        "force",
    )
    ag = Symbol("Ag", cut.outline.area, "area", "of the section")
    steel = sum(b.area for b in cut.bars)
    ast = Symbol("Ast", steel, "area", "of the bars")
    fy = Symbol(
        "fy",
        min((min(b.yield_strength, 550.0) for b in cut.bars), default=0.0),
        "stress",
        "of the bars, 80 ksi at most",
    )
    pull = sum(t.area * (t.full - 0.003 * t.group.steel.modulus) for t in cut.tendons if t.bonded)
    pull += sum(t.area * t.stress for t in cut.tendons if not t.bonded)
    area = sum(t.area for t in cut.tendons if t.bonded)
    if cut.tendons:
        apt = Symbol("Apt", area, "area", "of bonded tendons")
        less = Symbol("Fp", pull, "force", "Σ (fse − 0.003 Ep)·Ap of the tendons")
        po = pen(
            "Po",
            "strength without bending",
            "0.85·f'c·(Ag − Ast − Apt) + fy·Ast − Fp",
            (values.fc(design), ag, ast, apt, fy, less),
            "force",
            "22.4.2.3",
        )
    else:
        po = pen(
            "Po",
            "strength without bending",
            "0.85·f'c·(Ag − Ast) + fy·Ast",
            (values.fc(design), ag, ast, fy),
            "force",
            "22.4.2.2",
        )
    phi = pen("φ", "compression-controlled, ties", "0.65", (), "ratio", "Table 21.2.2")
    most = pen("φPn,max", "greatest axial compression", "φ·0.80·Po", (phi, po), "force", "22.4.2.1")
    yield Check(
        "axial compression",
        pen.cite("22.4.2.1"),
        pu,
        most,
        (pu, po, phi, most),
        (),
        "flexure-axial",
        x,
        demand.combination,
        "strength",
    )


ENTRIES: tuple[Entry, ...] = (
    Entry(
        "flexure",
        "bending",
        "9.5.1.1, 22.3",
        "Mu against φMn along the beam; that sections are tension-controlled; the greatest axial compression.",
        flexure,
    ),
)

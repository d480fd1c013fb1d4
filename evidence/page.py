"""The page docs/evidence.md, put together from words, tables and pictures."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from evidence import aims, bond, curves, groups, lasting, printed, prose, statics, tables
from evidence.found import Found, lines, yielding
from evidence.predicted import Outcome
from evidence.statistics import modes, summary

PICTURE = "![{about}](evidence/{stem}.svg)\n"
FARTHEST = 10


def page(found: Found) -> str:
    parts = [
        prose.INTRODUCTION, _first_table(found), _aims(found), prose.PRESTRESS,
        *printed.of_print(found.worked), *_bending(found), *_bare(found),
        *_stirrups(found), *_classic(found), *_plain(found), *_curves(found),
        *lasting.of_time(found.sustained, found.sealed), *_bond(found), *_tensile(found),
        prose.LEFT_OUT,
    ]  # fmt: skip
    return "\n".join(part.rstrip() + "\n" for part in parts)


def _picture(stem: str, about: str) -> str:
    return PICTURE.format(stem=stem, about=about)


def _first_table(found: Found) -> str:
    table = tables.markdown(tables.SUMMARY_HEAD, tables.summaries(lines(found), "– "))
    return f"## In one table\n\n{table}\n\n{_picture('ratios', 'Measured over predicted peak load, by group')}\n" + (
        _picture("loads", "Measured against predicted peak load")
    )


def _aims(found: Found) -> str:
    parts = {g.title: g for g in groups.bending_parts(found.bending)}
    body = [
        aims.verdict(found.bending, aims.BENDING),
        aims.verdict(parts["quality A-"], aims.BENDING),
        aims.verdict(parts["rows that equilibrium allows"], aims.BENDING),
        *(aims.verdict(g, aims.BARE_WEB) for g in found.bare),
    ]
    judged = [found.bending, found.bare[0], found.stirrups, found.classic, found.plain]
    right, known = (sum(v) for v in zip(*(modes(g.outcomes) for g in judged), strict=True))
    return (
        "## Against the aims\n\nSet before the first run.\n\n"
        + tables.markdown(("group", "mean", "CoV", "modes right"), body, left=4)
        + f"\n\nModes right over all groups (bars of 500 MPa in the first shear group): {right} of {known},"
        f" {100 * right / known:.0f} %.\n"
    )


def _farthest(outcomes: tuple[Outcome, ...], title: str = "Farthest from one") -> str:
    body = [tables.beam_cells(o) for o in tables.farthest(outcomes, FARTHEST)]
    return f"{title}:\n\n{tables.markdown(tables.BEAM_HEAD, body)}\n"


def _modes(outcomes: tuple[Outcome, ...]) -> str:
    return f"Predicted modes: {tables.mode_counts(outcomes)}.\n"


def _bending(found: Found) -> Iterator[str]:
    yield prose.BENDING
    yield _modes(found.bending.outcomes)
    varied = [(found.bending, False), *((g, True) for g in found.varied)]
    yield "With other assumptions about the steel after yield:\n"
    yield tables.markdown(tables.SUMMARY_HEAD, tables.summaries(varied, "– "))
    yield _farthest(found.bending.outcomes)
    yield prose.BENDING_STATICS
    rows = [o for o in found.bending.outcomes if statics.impossible(o)]
    body = [
        [
            o.specimen.id,
            o.measured.labels[2],
            o.measured.labels[0],
            f"{statics.moment(o) / statics.most(o):.2f}",
            f"{o.ratio:.2f}",
        ]
        for o in rows
    ]
    head = ("beam", "source", "quality", "measured moment / bound", "measured / predicted")
    yield tables.markdown(head, body, left=3)
    yield from _first_yield(found)


def _first_yield(found: Found) -> Iterator[str]:
    yield prose.YIELD
    body, loads, bends = [], [], []
    for o in yielding(found):
        seen, deflected = o.measured.yield_load, o.measured.yield_deflection
        if seen is None or deflected is None:
            continue
        if o.yielding is None:
            body.append([o.specimen.id, f"{seen / 1e3:.1f}", "none before the end", "", f"{deflected:.2f}", "", ""])
            continue
        p, d = o.yielding
        loads.append(seen / p)
        bends.append(deflected / d)
        body.append([
            o.specimen.id, f"{seen / 1e3:.1f}", f"{p / 1e3:.1f}", f"{seen / p:.2f}", f"{deflected:.2f}", f"{d:.2f}",
            f"{deflected / d:.2f}",
        ])  # fmt: skip
    yield tables.markdown(("beam", "load, kN", "predicted", "ratio", "deflection, mm", "predicted", "ratio"), body)
    named = (("load at first yield", loads), ("deflection at first yield", bends))
    cells = [[name, *tables.summary_cells(summary(r))] for name, r in named]
    yield tables.markdown(tables.SUMMARY_HEAD[:-1], cells)
    yield _picture("yield", "Measured over predicted load and deflection at first yield")
    same = [o.ratio for o in yielding(found)]
    yield (
        "**Where the differences come from.** Over these beams the measured load at first yield is"
        f" {summary(loads).mean:.2f} times the predicted one, and the peak load {summary(same).mean:.2f} times."
    )
    yield prose.BENDING_WHY


def _bare(found: Found) -> Iterator[str]:
    yield prose.BARE
    yield _modes(found.bare[0].outcomes)
    yield _picture("shear-trends", "Ratio over effective depth, slenderness and strength")
    yield _farthest(found.bare[0].outcomes, "Farthest from one, bars at 500 MPa")
    yield _strong(found)
    yield prose.BARE_WHY
    twins: dict[tuple[object, ...], list[Outcome]] = defaultdict(list)
    for o in found.bare[1].outcomes:
        s = o.specimen
        twins[(s.width, s.depth, s.loads, s.strength, s.bars, s.aggregate)].append(o)
    body = [
        [
            f"{s[0].specimen.width:.0f} × {s[0].specimen.depth:.0f}",
            f"{s[0].specimen.strength:.1f}",
            ", ".join(f"{o.measured.peak / 2e3:.1f}" for o in s),
            f"{s[0].life.peak.load / 2e3:.1f}",
        ]
        for s in twins.values()
        if len(s) > 1
    ]
    yield tables.markdown(("b × h, mm", "fc, MPa", "measured shear forces, kN", "predicted, kN"), body, left=1)


def _strong(found: Found) -> str:
    """Where the beams stand that are much stronger than predicted, bars elastic."""
    strong = [o for o in found.bare[1].outcomes if o.ratio > 1.5]
    short = sum(tables.slenderness(o) <= 3.05 for o in strong)
    needed = [o for o in found.bare[0].outcomes if statics.moment(o) > 0.9 * statics.most(o)]
    weak = sum(o.mode != "shear" for o in needed)
    return (
        f"With bars that never yield, {len(strong)} beams are more than 1.5 times as strong as predicted; {short} of"
        " them have a/d of 3 or less, where a strut may form after the diagonal crack. The measured moments of"
        f" {len(needed)} beams need more than 500 MPa over a lever arm of 0.9 d, so that bars of 500 MPa cannot have"
        f" been in them; {weak} of these are among the modes that count as wrong.\n"
    )


def _stirrups(found: Found) -> Iterator[str]:
    yield prose.STIRRUPS
    yield _farthest(found.stirrups.outcomes, "All of them")


def _classic(found: Found) -> Iterator[str]:
    yield prose.CLASSIC
    head = ("beam", "measured, kN", "predicted, kN", "ratio", "failed by", "predicted mode")
    yield tables.markdown(
        head,
        [
            [
                o.specimen.id,
                f"{o.measured.peak / 1e3:.0f}",
                f"{o.life.peak.load / 1e3:.0f}",
                f"{o.ratio:.2f}",
                o.measured.labels[0],
                o.mode,
            ]
            for o in found.classic.outcomes
        ],
    )


def _plain(found: Found) -> Iterator[str]:
    yield prose.PLAIN
    head = ("beam", "measured, N", "predicted, N", "ratio", "predicted mode")
    yield tables.markdown(
        head,
        [
            [o.specimen.id, f"{o.measured.peak:.0f}", f"{o.life.peak.load:.0f}", f"{o.ratio:.2f}", o.mode]
            for o in found.plain.outcomes
        ],
    )
    yield _picture("plain-opening", "Load over crack opening, measured and predicted")
    yield prose.PLAIN_WHY


def _curves(found: Found) -> Iterator[str]:
    yield prose.CURVES
    yield _picture("five-metres", "Load over midspan deflection, measured and predicted")
    a, b = found.five_metres.values()
    pairs = zip(curves.loads_at(a, found.five_metres_points), curves.loads_at(b, found.five_metres_points), strict=True)

    def told(measured: float, predicted: float) -> str:
        return f"{predicted / 1e3:.1f} ({measured / predicted:.2f})" if predicted == predicted else "fallen"

    body = [[f"{d:.1f}", f"{p / 1e3:.1f}", told(p, qa), told(p, qb)] for (d, p, qa), (_, _, qb) in pairs]
    yield tables.markdown(
        ("deflection, mm", "measured load, kN", "predicted, concrete a (ratio)", "concrete b (ratio)"), body, left=0
    )
    peaks = "; ".join(
        f"concrete {k} {o.life.peak.load / 1e3:.1f} kN at {o.life.peak.deflection:.1f} mm, {o.mode},"
        f" ratio of the greatest loads {o.ratio:.2f}"
        for k, o in found.five_metres.items()
    )
    yield f"Peaks: {peaks}.\n"
    d, p = found.five_metres_points.deflection[4], found.five_metres_points.load[4]
    yield (
        f"At {p / 1e3:.0f} kN the beam had bent {d:.1f} mm; cracked from end to end and elastic, with no tension in the"
        f" concrete at all, it would bend {curves.fully_cracked(a, p):.1f} mm."
    )
    yield prose.CURVES_WHY
    seen, said = found.first_loading
    yield (
        "Gilbert and Nejadi's beam B1-a, as its lasting load came on at 14 days (properties from memory):"
        f" {seen:.2f} mm measured, {said:.2f} mm predicted, ratio {seen / said:.2f}.\n"
    )


def _bond(found: Found) -> Iterator[str]:
    yield prose.BOND
    deformed = [b for b in found.bond if not b.plain]
    named = (
        ("deformed bars", deformed),
        (f"– embedded up to {bond.SHORT:.0f} diameters", [b for b in deformed if b.embedment <= bond.SHORT]),
        ("– longer, up to 10 diameters", [b for b in deformed if bond.SHORT < b.embedment <= 10.0]),
        ("– longer than 10 diameters", [b for b in deformed if b.embedment > 10.0]),
        ("plain bars", [b for b in found.bond if b.plain]),
    )
    cells = [[name, *tables.summary_cells(summary(b.ratio for b in some))] for name, some in named]
    yield tables.markdown(tables.SUMMARY_HEAD[:-1], cells)
    yield prose.BOND_WHY


def _tensile(found: Found) -> Iterator[str]:
    yield prose.TENSILE
    s = summary(p.tensile / p.derived for p in found.tensile)
    yield tables.markdown(tables.SUMMARY_HEAD[:-1], [["tensile strength", *tables.summary_cells(s)]])
    below = sum(p.share < 0.1 for p in found.tensile)
    share = summary(p.share for p in found.tensile)
    yield (
        f"The tensile strength is {100 * share.mean:.1f} % of the compressive strength on average, and below a tenth"
        f" of it in {below} of {share.n} concretes (*common practice*: below a tenth).\n"
    )

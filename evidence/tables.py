"""Tables of the page and of the terminal."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from math import isnan, log

from evidence import statics
from evidence.groups import Group
from evidence.predicted import Outcome
from evidence.statistics import Summary, modes, summary

Cells = list[list[str]]


def markdown(head: Sequence[str], body: Cells, left: int = 1) -> str:
    """A table whose first ``left`` columns are words and the others numbers."""
    rule = ["---" if i < left else "---:" for i in range(len(head))]
    return "\n".join("| " + " | ".join(row) + " |" for row in [list(head), rule, *body])


def columns(head: Sequence[str], body: Cells) -> str:
    """The same for a terminal."""
    rows = [list(head), *body]
    wide = [max(len(row[i]) for row in rows) for i in range(len(head))]
    return "\n".join(
        "  ".join([row[0].ljust(wide[0]), *(c.rjust(w) for c, w in zip(row[1:], wide[1:], strict=True))])
        for row in rows
    )


SUMMARY_HEAD = ("measured over predicted", "n", "mean", "CoV", "median", "least", "most", "modes right")


def percent(value: float) -> str:
    return "–" if isnan(value) else f"{100 * value:.0f} %"


def summary_cells(s: Summary) -> list[str]:
    return [
        str(s.n), f"{s.mean:.2f}", percent(s.variation), f"{s.median:.2f}", f"{s.least:.2f}", f"{s.most:.2f}",
    ]  # fmt: skip


def summaries(lines: Sequence[tuple[Group, bool]], indent: str) -> Cells:
    body = []
    for g, part in lines:
        if not g.outcomes:
            continue
        right, known = modes(g.outcomes)
        told = f"{right} of {known}" if known else "not known"
        body.append([indent * part + g.title, *summary_cells(summary(g.ratios)), told])
    return body


def mode_counts(outcomes: Sequence[Outcome]) -> str:
    """``tension-controlled flexure 51, shear 22``."""
    counted = Counter(o.mode for o in outcomes).most_common()
    return ", ".join(f"{mode} {n}" for mode, n in counted)


BEAM_HEAD = ("beam", "b × h, mm", "span, mm", "a/d", "fc, MPa", "measured, kN", "predicted, kN", "ratio", "mode")


def beam_cells(o: Outcome) -> list[str]:
    s = o.specimen
    return [
        s.id, f"{s.width:.0f} × {s.depth:.0f}", f"{s.span:.0f}", f"{slenderness(o):.1f}", f"{s.strength:.0f}",
        f"{o.measured.peak / 1e3:.1f}", f"{o.life.peak.load / 1e3:.1f}", f"{o.ratio:.2f}", o.mode,
    ]  # fmt: skip


def slenderness(o: Outcome) -> float:
    """Shear span over effective depth; over the depth where there are no bars."""
    s = o.specimen
    low = [b for b in s.bars if b.y < s.depth / 2]
    if not low:
        return min(s.loads) / s.depth
    area = [b.count * (b.area or b.diameter**2) for b in low]
    centre = sum(a * b.y for a, b in zip(area, low, strict=True)) / sum(area)
    return min(s.loads) / (s.depth - centre)


def farthest(outcomes: Sequence[Outcome], n: int) -> list[Outcome]:
    """Those whose ratio is farthest from one, either way."""
    return sorted(outcomes, key=lambda o: -abs(log(o.ratio)))[:n]


def every_beam(groups: Sequence[Group]) -> str:
    """All rows as CSV."""
    head = [
        "group", "id", "quality", "flags", "source", "a_over_d", "fc_MPa", "measured_kN", "predicted_kN", "ratio",
        "known_mode", "predicted_mode", "more_than_its_bars_can_give",
    ]  # fmt: skip
    out = [",".join(head)]
    for g in groups:
        for o in g.outcomes:
            labels = [*o.measured.labels, "", "", ""][:3] if g.key == "bending" else ["", "", ""]
            out.append(
                ",".join([
                    g.title.replace(",", ";"), o.specimen.id, *labels, f"{slenderness(o):.2f}",
                    f"{o.specimen.strength:.1f}", f"{o.measured.peak / 1e3:.2f}", f"{o.life.peak.load / 1e3:.2f}",
                    f"{o.ratio:.3f}", o.measured.mode or "", o.mode, "yes" if statics.impossible(o) else "no",
                ])
            )  # fmt: skip
    return "\n".join(out) + "\n"

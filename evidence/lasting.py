"""The part of the page on time: beams under a lasting load, and creep of sealed cylinders."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from evidence import prose, sustained, tables
from evidence.sealed import Sealed
from evidence.statistics import Summary, summary
from evidence.sustained import EN, USUAL, History, Told
from soffit.materials.ageing.models import MODELS

SUMMARY_HEAD = ("measured over predicted", "as the load came on", "n", "mean", "CoV", "least", "most", "last")


def of_time(told: Told, creep: Sealed) -> Iterator[str]:
    yield prose.LASTING
    yield _summaries(told)
    yield "![Deflection of beam B1-a over the days, measured and predicted](evidence/sustained.svg)\n"
    yield _bands(told)
    yield _ages(told)
    yield _alone(told)
    yield prose.LASTING_WHY
    yield _finals(told)
    yield prose.SEALED
    yield _sealed(creep)
    yield prose.SEALED_WHY


def later(told: Told, history: History) -> Summary:
    """Measured over predicted at every printed age but that of loading."""
    return summary(told.points.deflection[1:] / history.at(told.points.age)[1:])


def _cells(name: str, told: Told, history: History) -> list[str]:
    ratio = told.points.deflection / history.at(told.points.age)
    s = later(told, history)
    return [
        name, f"{ratio[0]:.2f}", str(s.n), f"{s.mean:.2f}", tables.percent(s.variation), f"{s.least:.2f}",
        f"{s.most:.2f}", f"{ratio[-1]:.2f}",
    ]  # fmt: skip


def _summaries(told: Told) -> str:
    body = []
    for key, kind in MODELS.items():
        for humidity in sustained.HUMIDITIES:
            body.append(_cells(f"{kind.record.name}, {humidity} %", told, told.plain[key, humidity]))
        body.append(_cells(f"– modulus, creep and shrinkage as measured, {USUAL} %", told, told.measured[key]))
    return tables.markdown(SUMMARY_HEAD, body) + "\n"


def _ages(told: Told) -> str:
    columns = [told.plain[EN, h] for h in sustained.HUMIDITIES] + [told.measured[EN]]
    said = [h.at(told.points.age) for h in columns]
    body = []
    for i, (age, seen) in enumerate(zip(told.printed, told.points.deflection, strict=True)):
        cells = [f"{p[i]:.2f} ({100 * (p[i] / seen - 1):+.0f} %)" for p in said]
        body.append([f"{age:.1f}", f"{seen:.2f}", *(c.replace("-", "−") for c in cells)])
    named = [f"EN, {h} %" for h in sustained.HUMIDITIES]
    head = ("age, days", "measured, mm", *named, f"EN, {USUAL} %, measured concrete")
    return (
        "Beam B1-a at every printed age: deflection in mm, and the error of the prediction against the measured"
        f" one:\n\n{tables.markdown(head, body, left=0)}\n"
    )


def _bands(told: Told) -> str:
    parts = []
    for humidity, found in told.bands.items():
        beyond = sustained.outside(found, told.points)
        n = np.count_nonzero(beyond)
        told_by = f", the others by up to {beyond.max():.2f} mm beyond it" if n else ""
        parts.append(f"{len(beyond) - n} of {len(beyond)} at {humidity} %{told_by}")
    return (
        "The band of EN, with the strength alone (5 to 95 % for creep 25 %, shrinkage 35 %, modulus 15 %, tensile"
        f" strength 30 %), holds {'; '.join(parts)}.\n"
    )


def _alone(told: Told) -> str:
    body = [
        [name, f"{h.instant:.2f}", f"{h.final:.2f}", f"{h.final - h.instant:.2f}", f"{later(told, h).mean:.2f}"]
        for name, h in told.alone.items()
    ]
    seen = told.points.deflection
    body.append(["**measured**", f"{seen[0]:.2f}", f"{seen[-1]:.2f}", f"{seen[-1] - seen[0]:.2f}", ""])
    head = (f"EN, {USUAL} %", "instant, mm", "at the end, mm", "growth, mm", "measured / predicted, mean")
    return f"What the difference is made of:\n\n{tables.markdown(head, body)}\n"


def _finals(told: Told) -> str:
    head = ("specimen", "measured, mm", "EN, mm", "ratio", "measured concrete, mm", "ratio")
    body = [
        [
            s.name + ("" if s.seen else " (from memory)"), f"{s.final:.1f}", f"{plain:.1f}", f"{s.final / plain:.2f}",
            f"{better:.1f}", f"{s.final / better:.2f}",
        ]
        for s, plain, better in told.finals
    ]  # fmt: skip
    both = [summary(s.final / predicted[k] for s, *predicted in told.finals) for k in (0, 1)]
    words = " ".join(
        f"{name}: mean {s.mean:.2f}, CoV {tables.percent(s.variation)}."
        for name, s in zip((f"EN, {USUAL} %", "With the measured concrete"), both, strict=True)
    )
    return f"Last deflections of all six, after 380 days:\n\n{tables.markdown(head, body)}\n\n{words}\n"


def _sealed(creep: Sealed) -> str:
    names = [kind.record.name for kind in MODELS.values()]
    body = []
    for age in np.unique(creep.loaded):
        here = creep.loaded == age
        for i in np.flatnonzero(here):
            ratios = [creep.measured[i] / creep.predicted[key][i] for key in MODELS]
            body.append([
                f"{age:.0f}", f"{creep.days[i]:g}", f"{creep.measured[i]:.1f}", *(f"{r:.2f}" for r in ratios)
            ])  # fmt: skip
        both = [summary(creep.measured[here] / creep.predicted[key][here]) for key in MODELS]
        body.append([
            f"{age:.0f}", "**mean (CoV)**", "", *(f"**{s.mean:.2f}** ({tables.percent(s.variation)})" for s in both)
        ])  # fmt: skip
    head = ("loaded at, days", "days under load", "J, 10⁻⁶/MPa", *names)
    return tables.markdown(head, body, left=0) + "\n"

"""Draw docs/pictures/ageing-consensus.svg: the ageing models for one concrete.

    .venv/bin/python docs/ageing_picture.py

The numbers in it are those of tests/consensus/test_ageing_models.py.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np

from soffit.materials.ageing.base import Ageing
from soffit.materials.ageing.casting import Casting
from soffit.materials.ageing.models import all_models
from soffit.show import look
from soffit.show.chart import Chart
from soffit.show.paper import Paper, save

PICTURES = Path(__file__).resolve().parent / "pictures"
CAST = Casting(38.0, 50.0, 300.0, specified=30.0)
SHORT = {"EN 1992-1-1": "EN 1992-1-1", "ACI 209R": "ACI 209R", "MC 2010": "MC 2010", "AASHTO LRFD": "AASHTO"}
# one ink, four dashes: a colour of its own would claim a meaning
DASHES: dict[str, Any] = {
    "EN 1992-1-1": "-",
    "ACI 209R": (0, (1.0, 1.8)),
    "MC 2010": (0, (6.0, 2.0)),
    "AASHTO LRFD": (0, (6.0, 1.8, 1.0, 1.8)),
}
DECADES = (1.0, 10.0, 100.0, 1000.0, 10000.0)
LAST = 30 * 365.25
LABELS = 19.0
"""Room right of a chart for the names of its lines, mm."""


@dataclass(frozen=True)
class Panel:
    head: str
    humidity: float
    quantity: str
    top: float
    """Highest value of the scale."""
    step: float
    loaded: float = 0.0

    def values(self, model: Ageing, days: np.ndarray) -> np.ndarray:
        if self.quantity == "compliance":
            return 1e6 * model.compliance(self.loaded + days, self.loaded)
        if self.quantity == "shrinkage":
            return 1e6 * model.shrinkage(days)
        return model.strength(days) / model.strength(28.0)


PANELS = (
    (
        Panel("Loaded at 28 days, 50 % humidity", 50.0, "compliance", 125.0, 25.0, 28.0),
        Panel("Loaded at 28 days, 80 % humidity", 80.0, "compliance", 125.0, 25.0, 28.0),
    ),
    (
        Panel("Loaded at 7 days, 50 % humidity", 50.0, "compliance", 125.0, 25.0, 7.0),
        Panel("Loaded at 7 days, 80 % humidity", 80.0, "compliance", 125.0, 25.0, 7.0),
    ),
    (
        Panel("All shrinkage, cured to 7 days, 50 % humidity", 50.0, "shrinkage", 750.0, 150.0),
        Panel("All shrinkage, cured to 7 days, 80 % humidity", 80.0, "shrinkage", 750.0, 150.0),
    ),
)
WORDS = {
    "compliance": ("compliance, 10⁻⁶ per MPa", "days under load"),
    "shrinkage": ("shortening, 10⁻⁶", "age in days"),
}


def spread(wanted: list[float], gap: float) -> list[float]:
    """Heights of labels near ``wanted``, at least ``gap`` apart, in the same order."""
    order = np.argsort(wanted)
    placed = np.array(wanted, dtype=float)
    for _ in range(200):
        for a, b in pairwise(order):
            short = gap - (placed[b] - placed[a])
            if short > 1e-6:
                placed[a] -= short / 2
                placed[b] += short / 2
    return [float(v) for v in placed]


def axes_of(paper: Paper, chart: Chart, panel: Panel) -> None:
    """Thin axes, logarithmic in days."""
    axes, bottom = paper.sheet, chart.top + chart.height
    small = look.style(look.SMALL, look.FAINT)
    for value in np.arange(0.0, panel.top + 1e-9, panel.step):
        y = float(chart.down(value))
        axes.plot(
            [chart.left, chart.left + chart.width],
            [y, y],
            color=look.FAINT,
            lw=look.THIN if value == 0 else 0.5 * look.THIN,
            alpha=1.0 if value == 0 else 0.35,
        )
        axes.text(chart.left - 1.2, y + 0.8, f"{value:g}", ha="right", va="baseline", **small)
    for days in DECADES:
        x = float(chart.across(np.log10(days)))
        axes.plot([x, x], [bottom, bottom + 0.8], color=look.FAINT, lw=look.THIN)
        axes.text(x, bottom + 3.6, f"{days:,.0f}".replace(",", "\u202f"), ha="center", va="baseline", **small)
    y_words, x_words = WORDS[panel.quantity]
    axes.text(chart.left - 7.0, chart.top - 2.2, y_words, va="baseline", **small)
    axes.text(chart.left + chart.width, bottom + 7.0, x_words, ha="right", va="baseline", **small)


def draw_panel(paper: Paper, left: float, top: float, panel: Panel) -> None:
    paper.text(left - 7.0, top - 7.0, panel.head, look.TEXT, weight="semibold")
    chart = Chart(left, top, 54.0, 40.0, 0.0, float(np.log10(LAST)), 0.0, panel.top)
    axes_of(paper, chart, panel)
    days = np.geomspace(1.0, LAST, 300)
    ends, names = [], []
    for key, model in all_models(replace(CAST, humidity=panel.humidity)).items():
        y = panel.values(model, days)
        chart.line(paper.sheet, np.log10(days), y, color=look.INK, lw=look.MEDIUM, ls=DASHES[key])
        ends.append(float(chart.down(y[-1])))
        names.append((SHORT[key], y[-1]))
    right = chart.left + chart.width
    for end, at, (name, value) in zip(ends, spread(ends, 3.0), names, strict=True):
        paper.sheet.plot([right + 0.4, right + 2.4], [end, at], color=look.FAINT, lw=0.5 * look.THIN)
        paper.text(right + 3.0, at + 0.8, f"{name}  {value:.0f}", look.SMALL)


def draw(folder: Path = PICTURES) -> list[Path]:
    paper = Paper(178.0, 217.0)
    title = "One concrete, four standards"
    paper.text(12.0, 13.0, title, look.TITLE, weight="semibold")
    lead = (
        "C30/37, normal cement, notional size 300 mm, from the first day to thirty years. ACI 209R creeps least, for "
        "it does not know the strength. AASHTO shrinks most, for its size factor ends at 176 mm."
    )
    paper.lines(12.0, 19.5, look.wrap(lead, 154.0, look.LEAD), look.LEAD)
    for i, pair in enumerate(PANELS):
        for j, panel in enumerate(pair):
            draw_panel(paper, 19.0 + j * (54.0 + LABELS + 9.0), 45.0 + 59.0 * i, panel)
    return save(paper.figure, folder / "ageing-consensus", ("svg",), title, lead)


if __name__ == "__main__":
    for path in draw():
        print(path.name)

"""Where the prestress went, as bars on the sheet of ageing: one for each kind of loss, at the place and at the end."""

from __future__ import annotations

import numpy as np

from soffit.show import look
from soffit.show.agetable import LOSSES, parts
from soffit.show.agewords import Told, age, place_words, ran
from soffit.show.numbers import THIN, Units, fixed, in_unit, unit
from soffit.show.paper import Paper

PITCH = 4.0
NAMES = 17.0
"""Room for the names of the losses, mm."""
FIGURES = 19.0
"""Room for the figures, mm."""
SHARE = 10.5
"""Of it for per cents, mm."""


def shares(told: Told) -> dict[str, float]:
    """Mean losses over the groups at the place at the end, weighted by their areas, MPa; those that are not zero."""
    here = [t for t in told.past.tendons if ran(t, told.station)]
    if not here:
        return {}
    area = np.array([t.tendon.area for t in here])
    found = [parts(t, len(told.past.t) - 1, told.station) for t in here]
    mean = {key: float(np.average([f[key] for f in found], weights=area)) for key in (*LOSSES, "total")}
    return {key: value for key, value in mean.items() if abs(value) > 0.5 or key == "total"}


def height(told: Told) -> float:
    return PITCH * (len(shares(told)) + 1)


def draw(paper: Paper, told: Told, left: float, top: float, width: float, units: Units) -> None:
    """Bars to one scale, the total last; ``left``, ``top``, ``width`` in mm of the sheet."""
    found = shares(told)
    jack = _jack(told)
    title = f"Losses at {place_words(told, units)} until {age(float(told.past.t[-1]))}, {unit('stress', units)}"
    paper.text(left, top, title, look.SMALL, weight="semibold")
    scale = (width - NAMES - FIGURES) / max(map(abs, found.values()))
    for n, (key, value) in enumerate(found.items(), start=1):
        y = top + PITCH * n
        weight = "semibold" if key == "total" else "normal"
        paper.text(left, y, key, look.SMALL, weight=weight)
        start, long = left + NAMES, scale * value
        tall = 1.1 if key == "total" else 0.8
        paper.sheet.fill_between(
            [start, start + long], y - 0.9 - tall, y - 0.9 + tall, color=look.TENDON, alpha=0.85, lw=0, zorder=3
        )
        stress = fixed(in_unit(value, "stress", units), 1 if units == "US" else 0)
        paper.text(left + width - SHARE, y, stress, look.SMALL, weight=weight, ha="right")
        share = f"{fixed(100 * value / jack, 1)}{THIN}%"
        paper.text(left + width, y, share, look.SMALL, weight=weight, ha="right")


def _jack(told: Told) -> float:
    here = [t for t in told.past.tendons if ran(t, told.station)]
    return float(np.average([t.jack for t in here], weights=[t.tendon.area for t in here]))

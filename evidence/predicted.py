"""Running the tool on one specimen, through its beam file, and what is read off its life."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from evidence.specimen import Measured, Specimen
from soffit.beamfile import read_text
from soffit.member.life import life
from soffit.member.result import Life

FLEXURE = ("tension-controlled flexure", "compression-controlled flexure", "bar rupture")
FAMILIES = {"flexure": FLEXURE, "shear": ("shear",), "first crack": ("first crack",), "bond": ("bond",)}
"""Modes of a life that count as the family of a test report."""


@dataclass(frozen=True)
class Outcome:
    """A specimen beside its prediction."""

    specimen: Specimen
    measured: Measured
    life: Life

    @property
    def ratio(self) -> float:
        """Measured over predicted peak load."""
        return self.measured.peak / self.life.peak.load

    @property
    def mode(self) -> str:
        return self.life.failure.mode

    @property
    def mode_right(self) -> bool | None:
        """None where the laboratory's mode is not known."""
        known = self.measured.mode
        return None if known is None else self.mode in FAMILIES[known]

    @property
    def yielding(self) -> tuple[float, float] | None:
        """Load (N) and deflection (mm) at the predicted first yield."""
        found = [e for e in self.life.events if e.event == "bar yield"]
        return (found[0].load, found[0].deflection) if found else None


def run(specimen: Specimen, measured: Measured) -> Outcome:
    return Outcome(specimen, measured, life(read_text(specimen.text(), specimen.id)))


def load_at(outcome: Outcome, deflection: float) -> float:
    """Predicted load (N) when the gauge first reads ``deflection`` (mm); NaN beyond the life."""
    d, p = outcome.life.curve.deflection, outcome.life.curve.load
    beyond = np.flatnonzero(d >= deflection)
    if not len(beyond) or beyond[0] == 0:
        return float("nan")
    i = int(beyond[0])
    t = (deflection - d[i - 1]) / (d[i] - d[i - 1])
    return float(p[i - 1] + t * (p[i] - p[i - 1]))

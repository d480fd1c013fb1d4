"""Beams that failed in shear, of which only the section, the shear span and the shear force are known."""

from __future__ import annotations

from math import pi, sqrt

from evidence.specimen import Bars, Measured, Specimen, Stirrups
from evidence.table import Row, given, rows

FY = 500.0
"""Yield strength of the bars where the file has none, MPa (a usual grade); no hardening."""
ELASTIC = 2000.0
"""As good as elastic, MPa: for the shear strength by itself."""
MIDDLE = 2.0
"""Distance between the two loads over d: the span is not given (*an assumption*)."""


def without_stirrups(fy: float = FY) -> list[tuple[Specimen, Measured]]:
    """High-strength concrete, no stirrups."""
    return [(_bare(row, fy), _force(row)) for row in rows("hsc_shear_no_stirrups_250")]


def with_stirrups() -> list[tuple[Specimen, Measured]]:
    return [(_stirruped(row), _force(row)) for row in rows("rc_beams_shear_stirrups_intact_20")]


def below(d: float) -> float:
    """From the bar centres to the soffit where the overall depth is not given, mm: d/10, at least 30 mm."""
    return max(30.0, 0.1 * d)


def _force(row: Row) -> Measured:
    return Measured(2e3 * given(row, "Vu_kN"), "shear")


def _bars(area: float, y: float, fy: float) -> Bars:
    """Two bars of the given area together, held beyond the supports."""
    return Bars(2, sqrt(area / 2 * 4 / pi), y, fy, ends="welded plate")


def _span(a: float, d: float) -> tuple[float, tuple[float, float]]:
    span = 2 * a + MIDDLE * d
    return span, (a, span - a)


def _bare(row: Row, fy: float) -> Specimen:
    d, b, a = given(row, "d_mm"), given(row, "b_mm"), given(row, "a_mm")
    span, loads = _span(a, d)
    area = given(row, "rho_pct") / 100 * b * d
    return Specimen(
        row["row"], b, d + below(d), span, loads, given(row, "fc_MPa_in_file"), (_bars(area, below(d), fy),),
        overhang=below(d) + 100.0, aggregate=given(row, "dg_mm"),
    )  # fmt: skip


def _stirruped(row: Row) -> Specimen:
    d, h = given(row, "d_mm"), given(row, "h_mm")
    span, loads = _span(given(row, "a_over_d") * d, d)
    leg = given(row, "Av_mm2") / 2
    stirrups = Stirrups(2, sqrt(leg * 4 / pi), given(row, "s_mm"), given(row, "fyv_MPa"), leg)
    return Specimen(
        row["src_row"], given(row, "b_mm"), h, span, loads, given(row, "fc_MPa"),
        (_bars(given(row, "As_mm2"), h - d, given(row, "fy_MPa")),), stirrups, overhang=0.5 * h,
    )  # fmt: skip

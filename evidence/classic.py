"""The twelve beams of Bresler and Scordelis (1963), whose measured loads are from memory."""

from __future__ import annotations

from evidence.specimen import Bars, Measured, Specimen, Stirrups
from evidence.table import Row, given, rows

BAR = 28.65
"""Diameter of a No. 9 bar, mm (ASTM A615 Table 1)."""
LAYERS = 2 * BAR
"""Between the centres of two layers of bars, mm: not given; one diameter clear (*common practice*)."""
AGGREGATE = 19.0
"""mm (3/4 in, *from memory*)."""


def classic() -> list[tuple[Specimen, Measured]]:
    return [(_specimen(row), _measured(row)) for row in rows("bresler_scordelis_1963_beams")]


def _specimen(row: Row) -> Specimen:
    depth, span, fy = given(row, "h_mm"), given(row, "span_mm"), given(row, "fy_MPa")
    count = int(given(row, "n_No9_bottom"))
    upper, centre = count // 2, depth - given(row, "d_mm")
    lower = count - upper
    groups = [
        Bars(lower, BAR, centre - LAYERS * upper / count, fy, area=645.0, ends="welded plate"),
        Bars(upper, BAR, centre + LAYERS * lower / count, fy, area=645.0, ends="welded plate"),
    ]
    stirrups = None
    if int(given(row, "n_No4_top")):
        groups.append(Bars(2, 12.7, depth - 64.0, 345.0, area=129.0, ends="welded plate"))
        stirrups = Stirrups(2, 6.35, given(row, "s_mm"), 325.0, area=64.5 / 2)
    return Specimen(
        row["beam"], given(row, "b_mm"), depth, span, (span / 2,), given(row, "fc_MPa"), tuple(groups), stirrups,
        overhang=220.0, aggregate=AGGREGATE,
    )  # fmt: skip


def _measured(row: Row) -> Measured:
    mode = "flexure" if row["failure"] == "flexure-compression" else "shear"
    return Measured(
        1e3 * given(row, "Pu_kN"), mode, peak_deflection=given(row, "defl_at_Pu_mm"), labels=(row["failure"],)
    )

"""Beams of bending tests: the sound control beams of studies of corroded beams."""

from __future__ import annotations

from evidence.specimen import Bars, Measured, Specimen, Stirrups
from evidence.table import Row, given, number, rows

CUBE = 0.8
"""Cylinder over cube strength: the pairs of EN 206:2013 Table 12 (C8/10 … C40/50 lie between 0.78 and 0.83)."""
STRAIN_AT_MAX = 0.08
"""Strain of the bars at their tensile strength, which no row gives: between the 5 % and 7.5 % that EN 1992-1-1 Annex C
demands of classes B and C and the 10 % and more that hot-rolled bars often show (*common practice*)."""
OVERHANG = 75.0
"""Length of beam beyond each support, mm: not given; bars run to its end and are hooked there."""


def flexure(strain_at_max: float = STRAIN_AT_MAX, law: str | None = None) -> list[tuple[Specimen, Measured]]:
    """Every row with one span and a peak load."""
    return [
        (_specimen(row, strain_at_max, law), _measured(row))
        for row in rows("rc_beams_intact_yield_deflection_149")
        if row["Pmax_kN"] and row["loading"] != "continuous"
    ]


def left_out() -> list[str]:
    return [
        row["id"]
        for row in rows("rc_beams_intact_yield_deflection_149")
        if not row["Pmax_kN"] or row["loading"] == "continuous"
    ]


def _specimen(row: Row, strain_at_max: float, law: str | None) -> Specimen:
    depth, span = given(row, "h_mm"), given(row, "span_mm")
    fy, fu = given(row, "fy_MPa"), given(row, "fu_MPa")
    surface = "plain" if row["bar_surface"] == "P" else "deformed"

    def bars(count: str, diameter: str, y: float, shape: str) -> Bars:
        return Bars(int(given(row, count)), given(row, diameter), y, fy, fu, strain_at_max, surface=shape, ends="hook")

    groups = [bars("n_bars", "bar_dia_mm", depth - given(row, "d_mm"), surface)]
    if given(row, "n_comp") > 0:
        top = depth - given(row, "top_cover_to_bar_centre_mm")
        groups.append(bars("n_comp", "comp_dia_mm", top, "deformed"))
    stirrups = None
    if given(row, "st_legs") > 0:
        stirrups = Stirrups(
            int(given(row, "st_legs")),
            given(row, "st_dia_mm"),
            given(row, "st_spacing_mm"),
            number(row, "st_fy_MPa") or fy,
        )
    a = given(row, "shear_span_mm")
    loads = (span / 2,) if row["loading"] == "midspan" else (a, span - a)
    cube = CUBE if row["fc_test"] == "cube" else 1.0
    return Specimen(
        row["id"], given(row, "b_mm"), depth, span, loads, cube * given(row, "fc_MPa"), tuple(groups), stirrups,
        overhang=OVERHANG, law=law,
    )  # fmt: skip


def _measured(row: Row) -> Measured:
    py = number(row, "Py_kN")
    return Measured(
        1e3 * given(row, "Pmax_kN"),
        "flexure",
        None if py is None else 1e3 * py,
        number(row, "defl_y_mm"),
        number(row, "defl_u_mm"),
        (row["quality"], row["flags"], row["source"]),
    )

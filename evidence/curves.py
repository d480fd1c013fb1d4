"""Beams of which a curve or a single deflection was published."""

from __future__ import annotations

from dataclasses import dataclass

from evidence.predicted import Outcome, load_at, run
from evidence.specimen import Bars, Measured, Specimen, Stirrups
from evidence.table import given, rows
from soffit.section.elastic import ElasticLayer, cracked

STIRRUPS = Stirrups(2, 8.0, 150.0, 500.0)
"""Of the 5 m beam: not given, and shear was not critical in the test (assumed so that it is not here)."""
END = 0.10
"""Strain to which the published straight hardening line of the 5 m beam is drawn out."""


@dataclass(frozen=True)
class Points:
    """Measured deflection (mm) and load (N)."""

    deflection: tuple[float, ...]
    load: tuple[float, ...]


def five_metres() -> tuple[dict[str, Outcome], Points]:
    """The beam with each of the two published sets of concrete, and its measured curve without the zero offset."""
    values = {row["quantity"]: row["value"] for row in rows("rc_beam_3pt_5m_inputs")}
    measured = list(rows("rc_beam_3pt_5m_load_deflection"))
    zero = given(measured[0], "deflection_mm")
    points = Points(
        tuple(given(r, "deflection_mm") - zero for r in measured),
        tuple(1e3 * given(r, "P_kN") for r in measured),
    )
    sets = {}
    for name in ("a", "b"):
        strain = float(values["strain_at_peak_set_a"]) if name == "a" else None
        specimen = _five_metres(values, name, strain)
        sets[name] = run(specimen, Measured(max(points.load), None, peak_deflection=points.deflection[-1]))
    return sets, points


def _five_metres(values: dict[str, str], name: str, peak_strain: float | None) -> Specimen:
    depth, span, fy, modulus = (float(values[k]) for k in ("section_depth_h", "span_simple", "fy", "hardening_modulus"))
    middle = depth / 2
    fu = fy + modulus * (END - fy / 200e3)
    low = middle - float(values["bottom_bar_centre_below_midheight"])
    high = middle + float(values["top_bar_centre_above_midheight"])
    return Specimen(
        f"5 m, concrete {name}", float(values["section_width_b"]), depth, span, (span / 2,),
        float(values[f"fc_cylinder_set_{name}"]),
        (Bars(2, 32.0, low, fy, fu, END), Bars(2, 8.0, high, fy, fu, END)),
        STIRRUPS, overhang=75.0, tensile=float(values[f"fct_set_{name}"]), modulus=1e3 * float(values["Ec"]),
        peak_strain=peak_strain,
    )  # fmt: skip


def loads_at(outcome: Outcome, points: Points) -> list[tuple[float, float, float]]:
    """Deflection, measured load and predicted load at each measured point after the first."""
    pairs = zip(points.deflection[1:], points.load[1:], strict=True)
    return [(d, p, load_at(outcome, d)) for d, p in pairs]


def first_loading() -> tuple[float, float]:
    """Midspan deflection of Gilbert and Nejadi's beam B1-a as its load came on, mm: measured, predicted."""
    row = next(r for r in rows("gilbert_nejadi_2004_inputs") if r["specimen"] == "B1-a")
    depth = given(row, "h_mm")
    bars = Bars(2, 16.0, depth - given(row, "d_mm"), 500.0, area=given(row, "As_mm2") / 2)
    specimen = Specimen(
        "B1-a", given(row, "b_mm"), depth, 3500.0, (3500.0 / 3, 7000.0 / 3), 18.3, (bars,), overhang=75.0,
        modulus=1.05 * 22800.0,
    )  # fmt: skip
    outcome = run(specimen, Measured(2 * 18.6e3))
    measured = given(row, "instant_deflection_mm_seen")
    return measured, deflection_at(outcome, 2 * 18.6e3)


def deflection_at(outcome: Outcome, load: float) -> float:
    """Predicted deflection (mm) when the press first reaches ``load`` (N); NaN beyond the peak."""
    p, d = outcome.life.curve.load, outcome.life.curve.deflection
    for i in range(1, len(p)):
        if p[i] >= load:
            t = (load - p[i - 1]) / (p[i] - p[i - 1])
            return float(d[i - 1] + t * (d[i] - d[i - 1]))
    return float("nan")


def fully_cracked(outcome: Outcome, load: float) -> float:
    """Deflection, mm, of a beam with one load at midspan (N) that is cracked from end to end and elastic: PL³/48EI.

    An upper bound of what bending of cracked sections can give before yield: no concrete carries tension anywhere.
    """
    beam = outcome.life.beam
    layers = [ElasticLayer(b.y, b.area, b.steel.modulus) for b in beam.bars]
    section, _ = cracked(beam.outline, beam.concrete.modulus, layers)
    stiffness: float = 48.0 * beam.concrete.modulus * section.inertia
    return float(load * outcome.specimen.span**3 / stiffness)

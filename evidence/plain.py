"""Plain beams."""

from __future__ import annotations

from dataclasses import dataclass, replace

from evidence.specimen import Measured, Specimen
from evidence.table import Row, given, rows

CURVE = "gregoire_2013_d50_unnotched_load_cmod"
BEYOND = 25.0
"""Gregoire's smallest beam is 175 mm long on a span of 125 mm."""


@dataclass(frozen=True)
class Opening:
    """Load (N) against the opening of the crack (mm), its elastic part taken out: mean and both limits."""

    width: tuple[float, ...]
    mean: tuple[float, ...]
    least: tuple[float, ...]
    most: tuple[float, ...]


def plain() -> list[tuple[Specimen, Measured]]:
    """The unnotched beam as it is; the half-notched one as a beam of its ligament's depth.

    A beam file has no notch. Before the peak of a notched beam only the ligament is cracked, so its bending strength is
    that of a beam as deep as the ligament; stiffness and deflection are not, and are not compared.
    """
    found = {row["series"]: row for row in rows("plain_concrete_beams_inputs")}
    whole = _gregoire(found["Gregoire d50 unnotched"])
    half = _gregoire(found["Gregoire d50 half notch"])
    notched = replace(half[0], id="Gregoire d50 half notch", depth=half[0].depth / 2)
    return [whole, (notched, half[1])]


def left_out() -> dict[str, str]:
    return {
        "Olsen HSC, Olsen NSC": "neither compressive nor tensile strength is given, only the modulus",
        "Garcia-Alvarez d80 eccentric": "the notch stands away from the greatest moment, which no beam file can say",
    }


def _gregoire(row: Row) -> tuple[Specimen, Measured]:
    span = given(row, "span_mm")
    specimen = Specimen(
        row["series"], given(row, "b_mm"), given(row, "h_mm"), span, (span / 2,), given(row, "fc_MPa"),
        overhang=BEYOND, tensile=given(row, "ft_MPa"), modulus=given(row, "E_MPa"),
        fracture_energy=given(row, "GF_N_m"),
    )  # fmt: skip
    return specimen, Measured(given(row, "peak_N"), "first crack")


def opening() -> Opening:
    """The measured curve; the elastic part of the gauge's reading is its first slope, taken at a fifth of the peak."""
    table = list(rows(CURVE))
    load = [1e3 * given(r, "load_mean_kN") for r in table]
    read = [given(r, "cmod_mm") for r in table]
    first = next(i for i, p in enumerate(load) if p >= 0.2 * max(load))
    give = read[first] / load[first]
    width = tuple(max(w - give * p, 0.0) for w, p in zip(read, load, strict=True))
    limits = (tuple(1e3 * given(r, k) for r in table) for k in ("load_min_kN", "load_max_kN"))
    return Opening(width, tuple(load), *limits)

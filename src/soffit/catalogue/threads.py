"""The geometry of a screw thread from its diameter and pitch: basic profile, stress area, mass of the rod."""

from __future__ import annotations

from math import pi, sqrt
from typing import Any

from soffit.catalogue.records import Thread

_DENSITY = 7850.0


def triangle_height(pitch: float) -> float:
    """Height H of the fundamental triangle of a 60° thread, mm: √3/2 · P (ISO 68-1; ASME B1.1)."""
    return sqrt(3.0) / 2.0 * pitch


def metric_stress_area(diameter: float, pitch: float) -> float:
    """Stress area of a metric thread, mm²: π/4 ((d2 + d3)/2)² = π/4 (d − 0.9382 P)².

    Source: ISO 898-1:2013, 9.1.6.1, with d2 = d − 3/4 H and d3 = d − 17/12 H.
    """
    h = triangle_height(pitch)
    return pi / 4.0 * (diameter - (3 / 4 + 17 / 12) / 2.0 * h) ** 2


def inch_stress_area(diameter: float, pitch: float) -> float:
    """Tensile stress area of an inch thread, mm²: 0.7854 (D − 0.9743/n)², n threads an inch.

    Source: ASME B1.1-2003, appendix B. It is the metric formula with H/4 less root: 0.9743 = 9/8 · √3/2.
    """
    return pi / 4.0 * (diameter - 9 / 8 * triangle_height(pitch)) ** 2


def make_thread(row: dict[str, Any]) -> Thread:
    """A thread from its row of the data file; lengths mm.

    The mass is that of a cylinder of the pitch diameter, where groove and ridge are of equal width.
    """
    d, metric = float(row["diameter"]), row["system"] == "metric"
    pitch = float(row["pitch"]) if metric else 25.4 / row["per_inch"]
    h = triangle_height(pitch)
    pitch_diameter = d - 3 / 4 * h
    return Thread(
        name=row["name"],
        family="thread",
        diameter=d,
        area=metric_stress_area(d, pitch) if metric else inch_stress_area(d, pitch),
        mass=_DENSITY * 1e-6 * pi / 4.0 * pitch_diameter**2,
        surface="threaded",
        source=row["source"],
        system=row["system"],
        pitch=pitch,
        pitch_diameter=pitch_diameter,
        minor_diameter=d - 5 / 4 * h,
        root_diameter=d - (17 / 12 if metric else 11 / 8) * h,
        nut_height=float(row["nut_height"]),
        nut_width=float(row["nut_width"]),
    )


def thread_spellings(entry: Thread) -> list[str]:
    """Other ways to write a thread: ``M10x1.5``; ``1/2-13``, ``1/2 UNC``."""
    if entry.system == "metric":
        return [f"{entry.name}x{entry.pitch:g}"]
    size_and_count = entry.name.removesuffix(" UNC")
    return [size_and_count, f"{size_and_count.rsplit('-', 1)[0]} UNC"]

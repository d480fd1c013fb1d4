"""US units of the printed examples in N, mm, MPa, and the comparison with what is printed."""

from __future__ import annotations

from typing import Any

import pytest

from soffit.materials.curve import StressStrain, line

INCH = 25.4
KIP = 4448.2216152605
KSI = KIP / INCH**2
PSI = KSI / 1000.0
KIP_FT = KIP * 12.0 * INCH
KIP_IN = KIP * INCH
FACTORS = {
    "in": INCH,
    "in2": INCH**2,
    "in4": INCH**4,
    "ft": 12.0 * INCH,
    "kip": KIP,
    "lb": KIP / 1000.0,
    "ksi": KSI,
    "psi": PSI,
    "kip-ft": KIP_FT,
    "ft-kip": KIP_FT,
    "kip-in": KIP_IN,
    "ft-lb": KIP_FT / 1000.0,
    "kNm": 1e6,
    "mm": 1.0,
    "mm2": 1.0,
    "MPa": 1.0,
    "-": 1.0,
}


def given(example: dict[str, Any]) -> dict[str, float]:
    """The inputs in base units (what has no unit known here is left out)."""
    values = {}
    for key, entry in example["inputs"].items():
        unit = entry["unit"].split(",")[0].split(" ")[0]
        if unit in FACTORS and isinstance(entry["value"], int | float):
            values[key] = entry["value"] * FACTORS[unit]
    return values


def agrees(example: dict[str, Any], key: str, value: float, which: str = "expected") -> None:
    """Assert that ``value`` (base units) is what the source prints, within the tolerance of its digits."""
    entry = example[which][key]
    factor = FACTORS[entry["unit"].split(" ")[0]]
    tolerance = entry.get("tol", 1e-5)
    printed = entry["value"]
    if entry.get("tol_kind", "rel") == "abs":
        assert value / factor == pytest.approx(printed, abs=tolerance), f"{example['id']}: {key}"
    else:
        assert value / factor == pytest.approx(printed, rel=tolerance), f"{example['id']}: {key}"


E_STEEL = 29000.0 * KSI


def elastic_plastic(fy: float, modulus: float = E_STEEL) -> StressStrain:
    """ACI 318 20.2.2.1: elastic to fy, then fy at any strain."""
    ey = fy / modulus
    return StressStrain((line(-1.0, -ey, -fy, -fy), line(-ey, ey, -fy, fy), line(ey, 1.0, fy, fy)), "elastic–plastic")

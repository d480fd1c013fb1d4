"""Read the catalogue's data files: TOML tables of rows, each table with its source, into rows in base units.

A table has ``columns`` and ``rows``; every other key is a value that all its rows share (always ``source``).
``units`` says in which unit a column is written, where that is not the base unit, so that a table can be
compared with its source digit for digit.
"""

from __future__ import annotations

from functools import cache
from typing import Any

# unit of a column -> its kind of quantity in soffit.units
_DIMENSIONS = {"in": "length", "in2": "area", "ksi": "stress"}


@cache
def rows(stem: str) -> tuple[dict[str, Any], ...]:
    """All rows of ``data/<stem>.toml``, in base units. The file is read once, when first asked for."""
    import tomllib
    from importlib.resources import files

    text = files("soffit.catalogue").joinpath("data", f"{stem}.toml").read_text(encoding="utf-8")
    found: list[dict[str, Any]] = []
    for table in tomllib.loads(text)["table"]:
        shared = {k: v for k, v in table.items() if k not in ("columns", "rows", "units")}
        units: dict[str, str] = table.get("units", {})
        for values in table["rows"]:
            row = shared | dict(zip(table["columns"], values, strict=True))
            found.append({k: _base(v, units[k]) if k in units else v for k, v in row.items()})
    return tuple(found)


def _base(value: float | str, unit: str) -> float:
    """A cell to base units; a mass per length, which scales as its weight, to kg/m."""
    from soffit.units import GRAVITY, parse

    if not unit.startswith("lb/"):
        return parse(f"{value} {unit}", _DIMENSIONS[unit])
    newtons_per_mm = parse(f"{value} lb/ft", "line load")
    kilograms_per_m = newtons_per_mm * 1000.0 / float(GRAVITY)
    return kilograms_per_m / 1000.0 if unit == "lb/1000ft" else kilograms_per_m

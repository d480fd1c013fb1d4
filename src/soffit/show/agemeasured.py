"""Deflections that were measured over the years, read from a table (CSV) and laid beside those computed."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from soffit.errors import SoffitError
from soffit.materials.curve import Array
from soffit.units import UnitError, parse

if TYPE_CHECKING:
    from soffit.member.time.result import Past

WANTED = {"age": ("time", "age (days)"), "deflection": ("length", "deflection (mm)")}
"""Columns that are read, what they measure, and a heading that would do."""
_HEAD = re.compile(r"\s*(?P<name>[A-Za-z ]+?)\s*[(\[,]\s*(?P<unit>[^)\],]+?)\s*[)\]]?\s*$")


@dataclass(frozen=True)
class Measured:
    age: Array
    """Days since casting."""
    deflection: Array
    """At the place that is told, from the straight beam, mm, downward positive."""

    def computed(self, past: Past, values: Array) -> Array:
        """``values`` (steps,) of ``past`` at these ages: linear between steps, and just after each instant."""
        after = np.searchsorted(past.t, self.age + 1e-9, side="right") - 1
        ahead = np.minimum(after + 1, len(past.t) - 1)
        span = past.t[ahead] - past.t[after]
        share = np.where(span > 0, (self.age - past.t[after]) / np.where(span > 0, span, 1.0), 0.0)
        return np.asarray(values[after] + share * (values[ahead] - values[after]))


def read_measured(path: str) -> Measured:
    """The columns age and deflection of a CSV file whose headings carry their units; other columns are left alone.

    Raises :class:`SoffitError`, one sentence with file and line, for a column, unit or number that is not there.
    """
    with Path(path).open(encoding="utf-8-sig", newline="") as file:
        try:
            rows = list(csv.reader(file))
        except (csv.Error, UnicodeDecodeError) as error:
            raise SoffitError(f"{path}: cannot be read as a table with commas ({error}).") from error
    heads = rows[0] if rows else []
    columns = {name: _column(path, heads, name) for name in WANTED}
    found: dict[str, list[float]] = {name: [] for name in WANTED}
    for line, row in enumerate(rows[1:], start=2):
        if any(cell.strip() for cell in row):
            for name, (index, unit) in columns.items():
                found[name].append(_value(path, line, row, index, unit, name))
    if not found["age"]:
        raise SoffitError(f"{path}: there is no row under the headings; give at least one measurement.")
    order = np.argsort(found["age"], kind="stable")
    return Measured(np.array(found["age"])[order], np.array(found["deflection"])[order])


def check_ages(path: str, measured: Measured, past: Past) -> None:
    """Raise :class:`SoffitError` for a measurement before or after what was computed."""
    for age in measured.age:
        if not past.t[0] <= age <= past.t[-1] * (1 + 1e-9):
            raise SoffitError(
                f"{path}: a deflection was measured at {age:g} days, but the computation runs from {past.t[0]:g} to "
                f"{past.t[-1]:g} days; leave it out, or add a stage."
            )


def _column(path: str, heads: Sequence[str], name: str) -> tuple[int, str]:
    dimension, example = WANTED[name]
    for index, head in enumerate(heads):
        match = _HEAD.match(head)
        if (match["name"] if match else head).strip().casefold() != name:
            continue
        if match is None:
            raise SoffitError(f"{path}:1: the column {name} has no unit; write its heading as “{example}”.")
        try:
            parse(f"1 {match['unit']}", dimension)
        except UnitError as error:
            raise SoffitError(f"{path}:1: the unit of {name} cannot be used: {error}.".replace("?.", "?")) from error
        return index, match["unit"]
    listed = ", ".join(head.strip() for head in heads) or "nothing"
    raise SoffitError(f"{path}:1: found {listed}, but no column {name}; write its heading as “{example}”.")


def _value(path: str, line: int, row: Sequence[str], index: int, unit: str, name: str) -> float:
    cell = row[index].strip().replace("\N{MINUS SIGN}", "-") if index < len(row) else ""
    try:
        value = parse(f"{cell} {unit}", WANTED[name][0]) if cell else float("nan")
    except UnitError:
        value = float("nan")
    if not np.isfinite(value):
        raise SoffitError(f"{path}:{line}: {name} is “{cell}”; write a number.")
    return value

"""Deflections that were measured over the years, read from a table (CSV) and laid beside those computed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from soffit.errors import SoffitError
from soffit.materials.curve import Array
from soffit.show.csvtable import DOUBTFUL, NUMBER, Column, Table, plain, read_table
from soffit.units import UnitError, parse

if TYPE_CHECKING:
    from soffit.member.time.result import Past

WANTED = {"age": ("time", "age (days)"), "deflection": ("length", "deflection (mm)")}
"""Columns that are read, what they measure, and a heading that would do."""
EMPTY = "is empty; write the columns “age (days)” and “deflection (mm)”."
BARE = "there is no row under the headings; give at least one measurement."


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

    Cut by commas, semicolons or tabs; decimals behind a point or a comma. Raises :class:`SoffitError`, one sentence
    with file and line, for a column, unit or number that is not there.
    """
    table = read_table(path, EMPTY, BARE, short=True)
    if not table.columns:
        raise SoffitError(table.faults[0])
    columns = {name: _column(table, name) for name in WANTED}
    # no beam sags by a thousand mm, cm or in, so that a comma there stands before decimals
    bent = columns["deflection"]
    table.settle_decimals(list(columns.values()), small=[bent] if parse(f"1 {bent.unit}", "length") >= 1.0 else [])
    found = {name: [_value(table, line, row, columns[name]) for line, row in table.rows] for name in WANTED}
    if table.faults:
        raise SoffitError(table.faults[0])
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


def _column(table: Table, name: str) -> Column:
    dimension, example = WANTED[name]
    column, at = table.column([name]), f"{table.path}, line {table.line}"
    if column is None:
        listed = ", ".join(each.head for each in table.columns)
        raise SoffitError(f"{at}: found {listed}, but no column {name}; write its heading as “{example}”.")
    if not column.unit:
        raise SoffitError(f"{at}: the column {name} has no unit; write its heading as “{example}”.")
    try:
        parse(f"1 {column.unit}", dimension)
    except UnitError as error:
        raise SoffitError(f"{at}: the unit of {name} cannot be used: {error}.".replace("?.", "?")) from error
    return column


def _value(table: Table, line: int, row: Sequence[str], column: Column) -> float:
    """In base units; not a number and a fault of the table where there is none."""
    cell = row[column.index].strip()
    text = plain(cell)
    if NUMBER.fullmatch(text):
        if "," in text and not table.comma:
            table.wrong(line, f"{column.name} is “{cell}”, which {DOUBTFUL}")
            return float("nan")
        cell = text.replace(",", ".")
    try:
        # fractions of an inch and powers of ten are numbers too
        return parse(f"{cell} {column.unit}", WANTED[column.name][0])
    except UnitError:
        table.wrong(line, f"{column.name} is “{row[column.index].strip()}”; write a number.")
        return float("nan")

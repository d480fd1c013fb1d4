"""A table that a recorder or a laboratory wrote (CSV): its columns by name and unit, its numbers without guessing."""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from soffit.show import stressingform as common

MOST_FAULTS = 12
"""Sentences on single rows before the rest is only counted."""
REMARK = "#"
"""What a line begins with that is no part of the table."""
_TRAILING = re.compile(r"^\s*(?P<name>.*?)[\s,]+(?P<unit>[°º]?[CF]|h|hours|min|minutes|d|days|MPa|psi|ksi)\s*$")
"""A unit behind a name without brackets."""


@dataclass(frozen=True)
class Column:
    index: int
    name: str
    unit: str
    """As the head has it; empty where it has none."""


@dataclass
class Table:
    """A head and its rows, and what could not be read of them, one sentence each."""

    path: str
    line: int = 0
    """Of the head, from 1."""
    columns: list[Column] = field(default_factory=list)
    rows: list[tuple[int, list[str]]] = field(default_factory=list)
    """Line and cells."""
    faults: list[str] = field(default_factory=list)
    comma: bool = False
    """Decimals stand behind a comma."""

    def wrong(self, line: int, sentence: str) -> None:
        self.faults.append(f"{self.path}, line {line}: {sentence}")

    def told(self) -> list[str]:
        """The faults, not more of them than a person reads."""
        more = len(self.faults) - MOST_FAULTS
        if more <= 1:
            return self.faults
        return [*self.faults[:MOST_FAULTS], f"{self.path}: {more} more rows cannot be read; mend these first."]

    def column(self, names: Sequence[str]) -> Column | None:
        """The column that bears one of these names; none where none does, and a fault where two do."""
        found = [each for each in self.columns if each.name in names]
        if len(found) > 1:
            self.wrong(self.line, f"“{found[0].name}” and “{found[1].name}” are both columns of one thing; keep one.")
        return found[0] if found else None

    def factor(self, column: Column, units: Mapping[str, float], written: str) -> float | None:
        """Base units in the column's unit; a fault where it has none of ``units``. ``written``: those that are told."""
        given = {each.casefold(): size for each, size in units.items()}.get(column.unit.casefold())
        if given is None:
            what = f"found “{column.unit}”" if column.unit else "its unit is missing"
            self.wrong(self.line, f"column “{column.name}”: {what}; write {written} in brackets behind it.")
        return given

    def settle_decimals(self, columns: Sequence[Column], small: Sequence[Column] = ()) -> None:
        """Whether these columns have decimal commas: told by a number that can be read in one way alone.

        ``small``: those whose numbers are never thousands.
        """
        seen: dict[str, int] = {}
        for line, row in self.rows:
            for column in columns:
                plain = _plain(row[column.index])
                if not common._NUMBER.fullmatch(plain):
                    continue
                if "." in plain:
                    seen.setdefault(".", line)
                elif "," in plain and (column in small or not common._THOUSAND.fullmatch(plain)):
                    seen.setdefault(",", line)
        if len(seen) == 2:
            text = (
                f"line {seen['.']} has a point and line {seen[',']} a comma before decimals; write all of them alike."
            )
            self.faults.append(f"{self.path}: {text}")
        self.comma = "," in seen

    def number(self, line: int, row: Sequence[str], column: Column) -> float | None:
        """The number in a cell, in the column's unit; none and a fault where it is none."""
        given = row[column.index].strip()
        plain = _plain(given)
        if not common._NUMBER.fullmatch(plain):
            what = f"is “{given}”, which is no number" if given else "is empty"
            self.wrong(line, f"“{column.name}” {what}; write a number, and the unit in the head alone.")
            return None
        if "," in plain and not self.comma:
            self.wrong(line, f"“{column.name}” is “{given}”, which may be thousands or decimals; leave the comma out.")
            return None
        return float(plain.replace(",", "."))


def _plain(cell: str) -> str:
    return re.sub(r"[\s\u00a0\u2009\u202f]", "", cell).replace("\N{MINUS SIGN}", "-")


def read_table(path: str) -> Table:
    """A CSV file cut by semicolons, tabs or commas; empty lines and lines that begin with # are left alone.

    With ``faults`` in it the table has no rows that count.
    """
    table = Table(path)
    # the parts of reading that every table of ours shares
    read = common.Filled()
    text = common._text(path, read)
    table.faults += read.faults
    if text is None:
        return table
    # a remark becomes an empty line, so that lines keep their numbers
    lines = ["" if line.lstrip('\ufeff" \t').startswith(REMARK) else line for line in text.splitlines()]
    first = next((i for i, line in enumerate(lines) if line.strip()), None)
    if first is None:
        table.faults.append(f"{path}: is empty; a head and a row for every reading are wanted.")
        return table
    told = re.fullmatch(r"sep=(.)", lines[first].strip(), re.IGNORECASE)
    start = first + 1 if told else first
    head = next((line for line in lines[start:] if line.strip()), "")
    cut = told[1] if told else next((d for d in common.DELIMITERS if d in head), ",")
    try:
        rows = [(start + line, row) for line, row in common._rows("\n".join(lines[start:]), cut)]
    except csv.Error as error:
        table.faults.append(f"{path}: is no table of cells ({error}).")
        return table
    rows = [(line, row) for line, row in rows if any(cell.strip() for cell in row)]
    table.line, heads = rows[0] if rows else (start + 1, [])
    table.columns = [_column(index, cell) for index, cell in enumerate(heads) if cell.strip()]
    _sized(table, rows[1:], len(heads))
    return table


def _sized(table: Table, rows: Sequence[tuple[int, list[str]]], width: int) -> None:
    for line, row in rows:
        while len(row) > width and not row[-1].strip():
            row.pop()  # recorders end rows with the sign that cuts them
        if len(row) == width:
            table.rows.append((line, row))
        else:
            table.wrong(
                line,
                f"has {len(row)} cells and the head has {width}; a decimal comma between cells that commas cut must "
                "stand in quotes.",
            )
    if not rows:
        table.faults.append(f"{table.path}: has no row under the head; a row for every reading is wanted.")


def _column(index: int, cell: str) -> Column:
    split = common._HEAD.match(cell)
    if split and split["unit"] is None:
        split = _TRAILING.match(cell) or split
    name = (split["name"] if split else cell).strip().casefold()
    return Column(index, name, ((split["unit"] or "") if split else "").strip().replace("º", "°"))

"""A table (CSV) that a person or a recorder wrote: its columns by name and unit, its numbers without guessing."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import isfinite
from pathlib import Path

from soffit.errors import SoffitError

MOST_FAULTS = 12
"""Sentences on single rows before the rest is only counted."""
DELIMITERS = (";", "\t", ",")
NUMBER = re.compile(r"[+-]?\d+(?:[.,]\d+)?")
THOUSAND = re.compile(r"[+-]?[1-9]\d{0,2},\d{3}")
"""A comma that may stand before decimals or between thousands."""
DOUBTFUL = "may be thousands or decimals; leave the comma out."
"""What is wrong with such a number where nothing else tells."""
_REMARK = re.compile(r'[\ufeff" \t]*#(?!"?[;,\t])')
"""How a line begins that is no part of the table; a cell that is # alone heads a column of numbers of rows."""
_TOLD = re.compile(r'sep=([^"])', re.IGNORECASE)
"""A first line by which spreadsheets tell what cuts the others."""
_HEAD = re.compile(r"^\s*(?P<name>[^()\[\]]*?)\s*(?:[(\[]\s*(?P<unit>[^)\]]*?)\s*[)\]])?\s*$")
_TRAILING = re.compile(
    r"^\s*(?P<name>.*?)[\s,]+(?P<unit>[°º]?[CF]|h|hours|min|minutes|d|days|weeks|years|mm|cm|m|in|ft|MPa|psi|ksi)\s*$"
)
"""A unit behind a name without brackets."""


@dataclass(frozen=True)
class Column:
    index: int
    name: str
    """In small letters."""
    unit: str
    """As the head has it; empty where it has none."""
    head: str
    """The whole cell, as it was written."""


@dataclass
class Table:
    """A head and its rows, and what could not be read of them, one sentence each; with one of them no row counts."""

    path: str
    line: int = 0
    """Of the head, from 1."""
    width: int = 0
    """Cells in the head."""
    cut: str = ","
    columns: list[Column] = field(default_factory=list)
    """Those that have a head."""
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
        """Base units in the column's unit; a fault where it has none of ``units``. ``written``: what would do."""
        given = {each.casefold(): size for each, size in units.items()}.get(column.unit.casefold())
        if given is None:
            what = f"found “{column.unit}”" if column.unit else "its unit is missing"
            self.wrong(self.line, f"column “{column.name}”: {what}; write {written} in brackets behind it.")
        return given

    def fits(self, line: int, row: Sequence[str]) -> bool:
        """Whether a row has as many cells as the head; a fault where it has not."""
        if len(row) == self.width:
            return True
        self.wrong(
            line,
            f"has {len(row)} cells and the head has {self.width}; a decimal comma between cells that commas cut must "
            "stand in quotes.",
        )
        return False

    def fit_rows(self, short: bool = False) -> None:
        """Leave only rows as wide as the head, and a fault for every other.

        Recorders end rows with the sign that cuts them: an empty cell behind the last is dropped, under commas only
        where every row has it, for else it may be a decimal comma that made one cell too many. ``short``: empty
        cells may be left out at the end of a row.
        """
        ended = [len(row) > self.width and not row[-1].strip() for _, row in self.rows]
        drop = self.cut != "," or all(ended)
        for _, row in self.rows:
            while drop and len(row) > self.width and not row[-1].strip():
                row.pop()
            if short:
                row.extend([""] * (self.width - len(row)))
        self.rows = [(line, row) for line, row in self.rows if self.fits(line, row)]

    def settle_decimals(self, columns: Sequence[Column], small: Sequence[Column] = ()) -> None:
        """Whether these columns have decimal commas: told by a number that can be read in one way alone.

        ``small``: those whose numbers are never thousands.
        """
        seen: dict[str, int] = {}
        for line, row in self.rows:
            for column in columns:
                text = plain(row[column.index])
                if not NUMBER.fullmatch(text):
                    continue
                if "." in text:
                    seen.setdefault(".", line)
                elif "," in text and (column in small or not THOUSAND.fullmatch(text)):
                    seen.setdefault(",", line)
        if len(seen) == 2:
            self.faults.append(f"{self.path}: {mixed(seen)}")
        self.comma = "," in seen

    def number(self, line: int, row: Sequence[str], column: Column) -> float | None:
        """The number in a cell, in the column's unit; none and a fault where it is none."""
        given = row[column.index].strip()
        text = plain(given)
        if not NUMBER.fullmatch(text) or not isfinite(float(text.replace(",", "."))):
            what = f"is “{given}”, which is no number" if given else "is empty"
            self.wrong(line, f"“{column.name}” {what}; write a number, and the unit in the head alone.")
            return None
        if "," in text and not self.comma:
            self.wrong(line, f"“{column.name}” is “{given}”, which {DOUBTFUL}")
            return None
        return float(text.replace(",", "."))


def plain(cell: str) -> str:
    """A cell without the spaces between thousands, with a plain minus."""
    return re.sub(r"[\s\u00a0\u2009\u202f]", "", cell).replace("\N{MINUS SIGN}", "-")


def mixed(seen: Mapping[str, int]) -> str:
    """What is wrong where both signs before decimals were first ``seen`` on these lines."""
    return f"line {seen['.']} has a point and line {seen[',']} a comma before decimals; write all of them alike."


def text_of(path: str) -> str:
    """The text of a file in UTF-8 or, as some spreadsheets save it, in UTF-16 with its mark.

    Raises :class:`SoffitError`, one sentence with the file, where there is none.
    """
    try:
        raw = Path(path).read_bytes()
    except OSError as error:
        raise SoffitError(f"{path}: cannot be read ({(error.strerror or str(error)).lower()}).") from error
    wide = raw.startswith((b"\xff\xfe", b"\xfe\xff"))
    try:
        text = raw.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError as error:
        raise SoffitError(f"{path}: is no UTF-8 text; save it as CSV in UTF-8.") from error
    if "\0" in text:
        raise SoffitError(f"{path}: is no text; save it as CSV in UTF-8.")
    return text


def read_table(path: str, empty: str, bare: str, short: bool = False) -> Table:
    """As :func:`table_of`, of a file, with every row as wide as the head (``short``: or shorter)."""
    try:
        text = text_of(path)
    except SoffitError as error:
        return Table(path, faults=[str(error)])
    table = table_of(text, path, empty, bare)
    if table.columns:
        if not table.rows:
            table.faults.append(f"{path}: {bare}")
        table.fit_rows(short)
    return table


def table_of(text: str, path: str, empty: str, bare: str, remarks: bool = True) -> Table:
    """The table in a text that semicolons, tabs or commas cut, as the head shows or a line ``sep=`` before it tells.

    Empty lines are left alone and, with ``remarks``, lines that begin with #. Rows are as wide as they were written.
    ``path`` stands for the file in sentences; ``empty`` and ``bare`` end those on a text without lines and on a head
    or a line ``sep=`` without rows. A table that cannot be read has a fault and no columns.
    """
    table = Table(path)
    lines = text.splitlines()
    first = next((i for i, line in enumerate(lines) if line.strip() and not (remarks and _REMARK.match(line))), None)
    if first is None:
        table.faults.append(f"{path}: {empty}")
        return table
    told = _TOLD.fullmatch(lines[first].strip(" "))
    start = first + 1 if told else first
    head = next((line for line in lines[start:] if line.strip() and not (remarks and _REMARK.match(line))), "")
    table.cut = told[1] if told else next((sign for sign in DELIMITERS if sign in head), ",")
    try:
        rows = [(start + line, row) for line, row in _rows(lines[start:], table.cut, remarks)]
    except csv.Error as error:
        table.faults.append(f"{path}: is no table of cells ({error}).")
        return table
    rows = [(line, row) for line, row in rows if any(cell.strip() for cell in row)]
    if not rows:
        table.faults.append(f"{path}: {bare}")
        return table
    (table.line, heads), table.rows = rows[0], rows[1:]
    table.width = len(heads)
    table.columns = [_column(index, cell) for index, cell in enumerate(heads) if cell.strip()]
    return table


def _rows(lines: Sequence[str], cut: str, remarks: bool) -> list[tuple[int, list[str]]]:
    """Each row with the line that it begins on, from 1."""
    begins = True

    def fed() -> Iterator[str]:
        nonlocal begins
        for line in lines:
            # inside a quoted cell # begins no remark; a remark becomes an empty line, so that lines keep their numbers
            remark, begins = remarks and begins and _REMARK.match(line), False
            yield "\n" if remark else f"{line}\n"

    reader = csv.reader(fed(), delimiter=cut, strict=True)
    rows, line = [], 1
    for row in reader:
        rows.append((line, row))
        line, begins = reader.line_num + 1, True
    return rows


def _column(index: int, cell: str) -> Column:
    split = _HEAD.match(cell)
    if split and split["unit"] is None:
        split = _TRAILING.match(cell) or split
    name = (split["name"] if split else cell).strip().casefold()
    unit = ((split["unit"] or "") if split else "").strip().replace("º", "°")
    return Column(index, name, unit, cell.strip())

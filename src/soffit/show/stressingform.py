"""The form that the crew fills in: written as CSV, and read back without guessing."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from dataclasses import dataclass, field
from io import StringIO
from math import isfinite

from soffit.detail.measured import Reading
from soffit.detail.stressing import SEATING, GroupSheet, StressingSheet
from soffit.errors import SoffitError
from soffit.show.csvtable import DOUBTFUL, NUMBER, THOUSAND, Table, mixed, plain, table_of, text_of
from soffit.show.numbers import Units, in_unit, unit
from soffit.units import UNITS

MEASURED, MARK, DRAW_IN, GAUGE, JACKS = (
    "measured elongation",
    "first mark",
    "measured draw-in",
    "gauge read",
    "jacks at once",
)
LENGTHS = ("mm", "cm", "m", "in", "ft")
PRESSURES = ("MPa", "bar", "psi", "ksi", "kPa")
BAR = 0.1
"""MPa."""
_UNITS = {MEASURED: LENGTHS, DRAW_IN: LENGTHS, GAUGE: PRESSURES, MARK: ("% of force", "%")}
EMPTY = "is empty; `soffit stressing FILE --csv form.csv` writes a form to fill in."
BARE = "has no row; fill in the form that --csv writes."


def form(sheet: StressingSheet, units: Units) -> str:
    """CSV with one row a tendon in the order of stressing, cut by commas, with decimal points and units in the head."""
    mm, kn, gauge = unit("length", units), unit("force", units), unit("pressure", units)
    both, rods = any(group.both for group in sheet.groups), any(group.rod for group in sheet.groups)
    head = [
        *("turn", "tendon", f"jacking force ({kn})", f"gauge wanted ({gauge})"),
        *([f"torque ({unit('torque', units)})", "turns from snug"] if rods else []),
        f"expected elongation ({mm})",
        *(f"least ({mm})", f"greatest ({mm})", f"expected at first mark ({mm})", f"{MARK} (% of force)"),
        *([JACKS] if both else []),
        *(f"{MEASURED} ({mm})", f"{DRAW_IN} ({mm})", f"{GAUGE} ({gauge})", "initials", "date", "remarks"),
    ]
    rows = []
    for line in sheet.tendons:
        group = line.group
        low, high = group.band or (None, None)
        early = None if group.elongation is None else group.at_mark * group.elongation
        lengths = [_cell(value, "length", units) for value in (group.elongation, low, high, early)]
        rows.append(
            [
                *(str(line.place), line.name, _cell(group.force, "force", units)),
                _cell(group.gauge, "pressure", units),
                *(_nut(group, units) if rods else []),
                *(*lengths, f"{100 * SEATING:g}"),
                *([("2" if group.both else "1")] if both else []),
                *[""] * 6,
            ]
        )
    out = StringIO()
    csv.writer(out, lineterminator="\n").writerows([head, *rows])
    return out.getvalue()


def _nut(group: GroupSheet, units: Units) -> list[str]:
    """Torque and turns; blank where no nut turns."""
    return [_cell(group.rod.torque, "torque", units), f"{group.rod.turns:.5g}"] if group.rod else ["", ""]


def _cell(value: float | None, dimension: str, units: Units) -> str:
    """A plain number for a spreadsheet: five digits, no groups, a point."""
    return "" if value is None else f"{in_unit(value, dimension, units):.5g}"


@dataclass
class Filled:
    """What was read of a form."""

    readings: tuple[Reading, ...] = ()
    faults: list[str] = field(default_factory=list)
    """What cannot be read, one sentence each; with any of them no reading counts."""
    open: list[str] = field(default_factory=list)
    """Tendons that have no measurement yet, one sentence each."""


@dataclass(frozen=True)
class _Column:
    index: int
    factor: float


def filled(path: str, sheet: StressingSheet) -> Filled:
    """The readings of a form that was filled in.

    Cut by commas, semicolons or tabs; decimals behind a point or a comma; columns in any order, others left alone.
    """
    try:
        return read_form(text_of(path), path, sheet)
    except SoffitError as error:
        return Filled(faults=[str(error)])


def read_form(text: str, path: str, sheet: StressingSheet) -> Filled:
    """As :func:`filled`, of the text of a form; ``path`` stands for the file in sentences."""
    # a tendon may be called “#1”; then no line is a remark
    remarks = not any(line.name.startswith("#") for line in sheet.tendons)
    table = table_of(text, path, EMPTY, BARE, remarks)
    found = Filled(faults=table.faults)  # one list for both
    if not found.faults:
        columns = _columns(table, found)
    if not found.faults:
        _Reader(table, sheet, columns, found).read()
    return found


def _columns(table: Table, found: Filled) -> dict[str, _Column]:
    columns: dict[str, _Column] = {}
    at = f"{table.path}, line {table.line}"
    for column in table.columns:
        name = column.name
        if name not in ("tendon", JACKS, *_UNITS):
            continue
        if name in columns:
            found.faults.append(f"{at}: two columns are called “{name}”; keep one.")
        columns[name] = _Column(column.index, _factor(name, column.unit, at, found))
    for name in ("tendon", MEASURED):
        if name not in columns:
            found.faults.append(f"{at}: there is no column “{name}”; fill in the form that --csv writes.")
    return columns


def _factor(name: str, given: str, at: str, found: Filled) -> float:
    if name not in _UNITS:
        return 1.0
    legal = _UNITS[name]
    spelled = {each.casefold(): each for each in legal}.get(given.casefold())
    if spelled is None:
        what = f"found “{given}”" if given else "its unit is missing"
        found.faults.append(f"{at}: column “{name}”: {what}; write one of {', '.join(legal)} in brackets behind it.")
        return 1.0
    if name == MARK:
        return 0.01
    return BAR if spelled == "bar" else float(UNITS[spelled].factor)


@dataclass
class _Reader:
    table: Table
    sheet: StressingSheet
    columns: dict[str, _Column]
    found: Filled
    comma: dict[str, int] = field(default_factory=dict)
    """Line on which a decimal comma or a decimal point was first seen."""
    line: int = 0
    """That is being read, from 1."""

    def read(self) -> None:
        seen: dict[str, int] = {}
        readings = []
        for line, row in self.table.rows:
            at, self.line = f"{self.table.path}, line {line}", line
            if not self.table.fits(line, row):
                continue
            name = self._tendon(row, at)
            if name is None:
                continue
            if name in seen:
                self._wrong(f"{at}: tendon {name} stands on line {seen[name]} already; keep one.")
                continue
            seen[name] = line
            reading = self._reading(name, row, at)
            if reading is not None:
                readings.append(reading)
        missing = [line.name for line in self.sheet.tendons if line.name not in seen]
        self.found.open += [f"{self.table.path}: there is no row for tendon {name}." for name in missing]
        if not self.found.faults:
            self.found.readings = tuple(readings)

    def _wrong(self, sentence: str) -> None:
        self.found.faults.append(sentence)

    def _tendon(self, row: Sequence[str], at: str) -> str | None:
        given = row[self.columns["tendon"].index].strip()
        names = [line.name for line in self.sheet.tendons]
        if given in names:
            return given
        alike = [name for name in names if name.casefold() == given.casefold()]
        if len(alike) == 1:
            return alike[0]
        shown = f"“{given}” is no tendon of this beam" if given else "names no tendon"
        listed = ", ".join(names[:12]) + (", …" if len(names) > 12 else "")
        self._wrong(f"{at}: {shown}; its tendons are {listed}.")
        return None

    def _reading(self, name: str, row: Sequence[str], at: str) -> Reading | None:
        line = next(each for each in self.sheet.tendons if each.name == name)
        before = len(self.found.faults)
        where = f"{at}, tendon {name}"
        long = self._number(MEASURED, row, where)
        mark = self._number(MARK, row, where, zero=True)
        slip = self._number(DRAW_IN, row, where, zero=True)
        gauge = self._number(GAUGE, row, where)
        jacks = self._number(JACKS, row, where)
        if long is not None and MARK in self.columns:
            if mark is None and len(self.found.faults) == before:
                self._wrong(f"{where}: “{MARK}” is empty; write the share of the force in %, 0 where there was none.")
            elif mark is not None and not mark < 1.0:
                self._wrong(f"{where}: a first mark at {100 * mark:g} % is none; it is made below the whole force.")
        if gauge is not None and self.sheet.ram is None:
            self._wrong(f"{where}: a gauge reading tells no force without the area of the ram; give --ram.")
        if jacks is not None and jacks not in ((1.0, 2.0) if line.group.both else (1.0,)):
            most = "1 or 2" if line.group.both else "1, for it is stressed from one end"
            self._wrong(f"{where}: {jacks:g} jacks at once; write {most}.")
        if long is None and len(self.found.faults) == before:
            self.found.open.append(f"{where}: no elongation is written in.")
        if long is None or len(self.found.faults) > before:
            return None
        return Reading(name, long, mark or 0.0, slip, gauge, line.group.both and jacks == 1.0)

    def _number(self, name: str, row: Sequence[str], at: str, zero: bool = False) -> float | None:
        """The number in a cell in base units; none where the column is not there, the cell is empty or faulty."""
        column = self.columns.get(name)
        given = row[column.index].strip() if column else ""
        if column is None or not given:
            return None
        text = plain(given)
        if not NUMBER.fullmatch(text):
            self._wrong(f"{at}: “{name}” is “{given}”, which is no number; the unit stands in the head alone.")
            return None
        if THOUSAND.fullmatch(text):
            self._wrong(f"{at}: “{name}” is “{given}”, which {DOUBTFUL}")
            return None
        for sign in ".,":
            if sign in text:
                self.comma.setdefault(sign, self.line)
        if len(self.comma) == 2:
            self._wrong(f"{at}: “{name}” is “{given}”, but {mixed(self.comma)}")
            return None
        value = float(text.replace(",", "."))
        if not isfinite(value) or value < 0.0 or (value == 0.0 and not zero):
            self._wrong(f"{at}: “{name}” is “{given}”; it must be {'zero or more' if zero else 'above zero'}.")
            return None
        return value * column.factor

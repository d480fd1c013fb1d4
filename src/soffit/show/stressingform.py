"""The form that the crew fills in: written as CSV, and read back without guessing."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from io import StringIO
from math import isfinite
from pathlib import Path

from soffit.detail.measured import Reading
from soffit.detail.stressing import SEATING, GroupSheet, StressingSheet
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
_HEAD = re.compile(r"^\s*(?P<name>[^()\[\]]*?)\s*(?:[(\[]\s*(?P<unit>[^)\]]*?)\s*[)\]])?\s*$")
_NUMBER = re.compile(r"[+-]?\d+(?:[.,]\d+)?")
_THOUSAND = re.compile(r"[+-]?[1-9]\d{0,2},\d{3}")
"""A comma that may stand before decimals or between thousands."""
DELIMITERS = (";", "\t", ",")


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
    found = Filled()
    text = _text(path, found)
    if text is None:
        return found
    return read_form(text, path, sheet)


def _text(path: str, found: Filled) -> str | None:
    try:
        raw = Path(path).read_bytes()
    except OSError as error:
        found.faults.append(f"{path}: cannot be read ({(error.strerror or str(error)).lower()}).")
        return None
    wide = raw.startswith((b"\xff\xfe", b"\xfe\xff"))
    try:
        text = raw.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError:
        found.faults.append(f"{path}: is no UTF-8 text; save it as CSV in UTF-8.")
        return None
    if "\0" in text:
        found.faults.append(f"{path}: is no text; save it as CSV in UTF-8.")
        return None
    return text


def read_form(text: str, path: str, sheet: StressingSheet) -> Filled:
    """As :func:`filled`, of the text of a form; ``path`` stands for the file in sentences."""
    found = Filled()
    lines = text.splitlines()
    first = next((i for i, line in enumerate(lines) if line.strip()), None)
    if first is None:
        found.faults.append(f"{path}: is empty; `soffit stressing FILE --csv form.csv` writes a form to fill in.")
        return found
    told = re.fullmatch(r"sep=(.)", lines[first].strip(), re.IGNORECASE)
    start = first + 1 if told else first
    cut = told[1] if told else next((d for d in DELIMITERS if d in lines[first]), ",")
    try:
        rows = [
            (start + reader_line, row)
            for reader_line, row in _rows("\n".join(lines[start:]), cut)
            if any(cell.strip() for cell in row)
        ]
    except csv.Error as error:
        found.faults.append(f"{path}: is no table of cells ({error}).")
        return found
    if not rows:
        found.faults.append(f"{path}: has no row; fill in the form that --csv writes.")
        return found
    (number, head), body = rows[0], rows[1:]
    columns = _columns(head, f"{path}, line {number}", sheet, found)
    if found.faults:
        return found
    _Reader(path, sheet, columns, len(head), found).read(body)
    return found


def _rows(text: str, cut: str) -> list[tuple[int, list[str]]]:
    """Each row with the line that it begins on, from 1."""
    reader = csv.reader(StringIO(text, newline=""), delimiter=cut, strict=True)
    rows, line = [], 1
    for row in reader:
        rows.append((line, row))
        line = reader.line_num + 1
    return rows


def _columns(head: Sequence[str], at: str, sheet: StressingSheet, found: Filled) -> dict[str, _Column]:
    columns: dict[str, _Column] = {}
    for index, cell in enumerate(head):
        split = _HEAD.match(cell)
        name = (split["name"] if split else cell).strip().casefold()
        if name not in ("tendon", JACKS, *_UNITS):
            continue
        if name in columns:
            found.faults.append(f"{at}: two columns are called “{name}”; keep one.")
        factor = _factor(name, (split["unit"] or "") if split else "", at, found)
        columns[name] = _Column(index, factor)
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
    path: str
    sheet: StressingSheet
    columns: dict[str, _Column]
    width: int
    found: Filled
    comma: dict[str, int] = field(default_factory=dict)
    """Line on which a decimal comma or a decimal point was first seen."""
    line: int = 0
    """That is being read, from 1."""

    def read(self, rows: Sequence[tuple[int, list[str]]]) -> None:
        seen: dict[str, int] = {}
        readings = []
        for line, row in rows:
            at, self.line = f"{self.path}, line {line}", line
            if len(row) != self.width:
                self._wrong(
                    f"{at}: has {len(row)} cells and the head has {self.width}; a decimal comma between cells that "
                    "commas cut must stand in quotes."
                )
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
        self.found.open += [f"{self.path}: there is no row for tendon {name}." for name in missing]
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
        plain = re.sub(r"[\s\u00a0\u2009\u202f]", "", given).replace("−", "-")
        if not _NUMBER.fullmatch(plain):
            self._wrong(f"{at}: “{name}” is “{given}”, which is no number; the unit stands in the head alone.")
            return None
        if _THOUSAND.fullmatch(plain):
            self._wrong(f"{at}: “{name}” is “{given}”, which may be thousands or decimals; leave the comma out.")
            return None
        for sign in ".,":
            if sign in plain:
                self.comma.setdefault(sign, self.line)
        if len(self.comma) == 2:
            lines = f"line {self.comma['.']} has a point and line {self.comma[',']} a comma"
            self._wrong(f"{at}: “{name}” is “{given}”, but {lines} before decimals; write all of them alike.")
            return None
        value = float(plain.replace(",", "."))
        if not isfinite(value) or value < 0.0 or (value == 0.0 and not zero):
            self._wrong(f"{at}: “{name}” is “{given}”; it must be {'zero or more' if zero else 'above zero'}.")
            return None
        return value * column.factor

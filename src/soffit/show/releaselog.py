"""The log of a recorder: times and temperatures of the concrete, read from a table without guessing."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from soffit.materials.ageing.templog import COLDEST, HOTTEST, TemperatureLog, temperature_log
from soffit.show.csvtable import Column, Table, read_table

SINCE = ("since casting", "time since casting", "time after casting", "age", "concrete age")
TIME = ("time", "elapsed", "elapsed time", "date and time", "date-time", "timestamp")
DAY = ("date",)
TEMPERATURE = ("temperature", "temp", "concrete", "concrete temperature", "temperature of the concrete")
DAYS = {
    **dict.fromkeys(("h", "hour", "hours"), 1 / 24),
    **dict.fromkeys(("min", "minute", "minutes"), 1 / 1440),
    **dict.fromkeys(("d", "day", "days"), 1.0),
}
"""Days in a unit of time."""
DEGREES = {
    **dict.fromkeys(("°C", "C", "℃", "deg C", "degC"), 0.0),
    **dict.fromkeys(("°F", "F", "℉", "deg F", "degF"), 1.0),
}
"""Whether a unit of temperature is that of Fahrenheit."""
NO_READING = ("", "-", "–", "—", "---", "nan", "n/a")
"""What recorders write where there is no reading."""
EMPTY = "is empty; a head and a row for every reading are wanted."
BARE = "has no row under the head; a row for every reading is wanted."
EXAMPLE = "“time (h)” and “temperature (°C)”"


@dataclass(frozen=True)
class Log:
    """A log in order, and how it was read."""

    log: TemperatureLog
    begun: datetime | None
    """The instant that time counts from, where the log has dates."""
    notes: tuple[str, ...]

    def clock(self, days: float) -> str | None:
        """The instant ``days`` after casting by the recorder's clock, to the minute."""
        return None if self.begun is None else f"{self.begun + timedelta(days=days):%Y-%m-%d %H:%M}"


def read_log(path: str) -> tuple[Log | None, list[str]]:
    """The log in a CSV file, or one sentence for everything that cannot be read; with one of them no reading counts.

    Columns: the temperature of the concrete in °C or °F, and the time in h, min or days or as ISO date-times; others
    are left alone. Time counts from casting; date-times from the first of them, unless another column tells the time
    since casting.
    """
    table = read_table(path, EMPTY, BARE)
    if not table.columns:
        return None, table.told()
    temperature, clock, day = (table.column(names) for names in (TEMPERATURE, TIME, DAY))
    time = table.column(SINCE) or clock or day
    if time is None or temperature is None:
        heads = ", ".join(f"“{each.name}”" for each in table.columns)
        lacking = " and ".join(w for w, c in (("time", time), ("temperature", temperature)) if c is None)
        table.wrong(table.line, f"found {heads}, but no column of {lacking}; write heads such as {EXAMPLE}.")
        return None, table.told()
    fahrenheit = table.factor(temperature, DEGREES, "°C or °F")
    dated = time.name not in SINCE and not time.unit and _has_dates(table, time)
    days = 1.0 if dated else table.factor(time, DAYS, "h, min or days")
    if fahrenheit is None or days is None:
        return None, table.told()
    table.settle_decimals([temperature] if dated else [time, temperature], small=[temperature])
    reader = _Reader(table, time, temperature, days, bool(fahrenheit), day if dated and time is not day else None)
    return reader.read(dated)


def _has_dates(table: Table, time: Column) -> bool:
    """Whether the first time in the table is a date or a time of day and no plain number."""
    cells = (row[time.index] for _, row in table.rows)
    return any(sign in next(cells, "") for sign in ("-", ":"))


@dataclass
class _Reader:
    table: Table
    time: Column
    temperature: Column
    days: float
    fahrenheit: bool
    day: Column | None
    """Holds the date, where the time of day has a column of its own."""

    def read(self, dated: bool) -> tuple[Log | None, list[str]]:
        stamps: list[tuple[int, datetime]] = []
        found: list[tuple[int, float, float]] = []
        empty: list[int] = []
        for line, row in self.table.rows:
            if dated:
                stamp = self._stamp(line, row)
                time = None if stamp is None else 0.0
                stamps += [] if stamp is None else [(line, stamp)]
            else:
                time = self._time(line, row)
            warm = self._warm(line, row, empty)
            if time is not None and warm is not None:
                found.append((line, time, warm))
        if dated and len({stamp.tzinfo is None for _, stamp in stamps}) > 1:
            self.table.faults.append(
                f"{self.table.path}: some times have a time zone and some have none; write all alike."
            )
        begun = None
        if dated and not self.table.faults and stamps:
            begun = min(stamp for _, stamp in stamps)
            since = {line: (stamp - begun) / timedelta(days=1) for line, stamp in stamps}
            found = [(line, since[line], warm) for line, _, warm in found]
        if not (dated and self.table.faults):
            self._twice(found)
        if self.table.faults:
            return None, self.table.told()
        return self._log(found, begun, empty)

    def _log(
        self, found: list[tuple[int, float, float]], begun: datetime | None, empty: list[int]
    ) -> tuple[Log | None, list[str]]:
        try:
            log = temperature_log([time for _, time, _ in found], [warm for _, _, warm in found])
        except ValueError as error:
            return None, [f"{self.table.path}: {error}."]
        if empty:
            where = ", ".join(map(str, empty[:8])) + (", …" if len(empty) > 8 else "")
            said = (
                f"No temperature stands on line{'s' if len(empty) > 1 else ''} {where} of the log; what lies between "
            )
            log = replace(log, notes=(f"{said}the neighbours is taken to run straight.", *log.notes))
        return Log(log, begun, (self._counted(begun),)), []

    def _counted(self, begun: datetime | None) -> str:
        if begun is not None:
            return (
                f"Time counts from the first reading, {begun:%Y-%m-%d %H:%M}, which is taken as casting; a column "
                "“since casting (h)” would say it."
            )
        return f"Time counts from casting, in the column “{self.time.name}”."

    def _stamp(self, line: int, row: list[str]) -> datetime | None:
        given = row[self.time.index].strip()
        if self.day is not None:
            given = f"{row[self.day.index].strip()} {given}"
        try:
            if ":" in given:
                return datetime.fromisoformat(given)
        except ValueError:
            pass
        self.table.wrong(line, f"“{self.time.name}” is “{given}”; write a date and time such as 2031-03-04 15:30.")
        return None

    def _time(self, line: int, row: list[str]) -> float | None:
        value = self.table.number(line, row, self.time)
        if value is not None and value < 0.0:
            given = row[self.time.index].strip()
            self.table.wrong(line, f"“{self.time.name}” is “{given}”, which is before casting; leave the row out.")
            return None
        return None if value is None else value * self.days

    def _warm(self, line: int, row: list[str], empty: list[int]) -> float | None:
        given = row[self.temperature.index].strip()
        if given.casefold() in NO_READING:
            empty.append(line)
            return None
        value = self.table.number(line, row, self.temperature)
        if value is None:
            return None
        celsius = (value - 32.0) / 1.8 if self.fahrenheit else value
        if COLDEST <= celsius <= HOTTEST:
            return celsius
        sign = "°F" if self.fahrenheit else "°C"
        low, high = ((1.8 * t + 32.0) if self.fahrenheit else t for t in (COLDEST, HOTTEST))
        self.table.wrong(
            line,
            f"{given} {sign} is no temperature of curing concrete ({low:g} to {high:g} {sign}); mend the value or the "
            "unit, or leave the cell empty.",
        )
        return None

    def _twice(self, found: list[tuple[int, float, float]]) -> None:
        first: dict[float, tuple[int, float]] = {}
        for line, time, warm in found:
            before, other = first.setdefault(time, (line, warm))
            if other != warm:
                self.table.wrong(line, f"this time stands on line {before} already with another temperature; keep one.")

"""The strength that a maturity stands for: of the mix's own cylinders where they were tested, else of a standard."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from soffit.errors import SoffitError
from soffit.materials.ageing.en1992 import En1992
from soffit.materials.ageing.maturity import MaturityFunction, arrhenius, en1992_age, nurse_saul, nurse_saul_age
from soffit.materials.ageing.models import model
from soffit.materials.ageing.release import Calibration, StrengthLaw, by_age
from soffit.member.beam import Beam
from soffit.member.time.schedule import making_of
from soffit.show.csvtable import Column, Table, read_table
from soffit.show.releaselog import BARE, DAYS, DEGREES, EMPTY, TEMPERATURE
from soffit.units import UnitError, parse

By = Literal["Nurse-Saul", "Arrhenius", "EN"]

MATURITY = ("maturity", "temperature-time factor", "equivalent age")
AGE = ("age", "time", "time since casting")
STRENGTH = ("strength", "cylinder strength", "compressive strength")
REFERENCE = 20.0
"""°C, to which equivalent ages count, as the strength over age of the models does."""
_AT = re.compile(r"(?P<unit>\w+) at (?P<degrees>\d+(?:\.\d+)?)\s*°C")
_FACTOR = {
    **dict.fromkeys(("°C·h", "°Ch", "°C h", "°C-h", "°C*h", "°C·hours"), 1 / 24),
    **dict.fromkeys(("°C·days", "°C days", "°C-days", "°C·d", "°C*days"), 1.0),
}
EXAMPLE = "“age (h)”, “temperature (°C)” and “strength (MPa)”, or “maturity (°C·h)” and “strength (MPa)”"


@dataclass(frozen=True)
class Law:
    """A strength for every maturity, and what is to be said of it."""

    strength: StrengthLaw
    function: MaturityFunction
    own: bool
    """From the mix's own cylinders."""
    words: str
    """What the law is, to follow "by"."""
    mean: bool = True
    """A mean, not the strength that was ordered."""
    lower: StrengthLaw | None = None
    """The value that 95 % of such concretes exceed, where the standard has one at early ages."""
    notes: tuple[str, ...] = ()


def function_of(by: By | None, reference: float = REFERENCE) -> MaturityFunction:
    """An equivalent age in days at ``reference`` °C, of which a model's strength is a function."""
    if by == "Nurse-Saul":
        return nurse_saul_age(reference=reference)
    return arrhenius(reference=reference) if by == "Arrhenius" else en1992_age()


def standards_law(beam: Beam, by: By | None) -> Law:
    """The strength of the beam's ageing model over equivalent age. Raises ``PhysicsError`` without relative humidity.

    The age carries the heat and the question is whether the strength is there, so neither heat nor the strength wanted
    at transfer may shape the law: the moist curve is taken, through the strength at 28 days alone.
    """
    making = making_of(beam)
    plain = replace(making.casting, heat_days=0.0, transfer_strength=None, transfer_age=None)
    ageing = model(making.model, plain)
    name = ageing.record.name
    notes = [f"Strength over age: {ageing.record.strength}, {name}, cement {plain.cement}."]
    if model(making.model, making.casting) != ageing:
        notes.append(
            f"{name} is taken without heat, which the equivalent age counts already, and without the strength at "
            "transfer, which is what is asked for."
        )
    lower = by_age(ageing.characteristic) if isinstance(ageing, En1992) else None
    mean = ageing.strength_28 == plain.strength
    words = f"the {'mean ' if mean else ''}strength over age of {name}"
    return Law(by_age(ageing.strength), function_of(by), False, words, mean, lower, tuple(notes))


def cylinders_law(path: str, by: By | None) -> tuple[Law | None, list[str]]:
    """The calibration from a table of cylinders, or one sentence for everything that cannot be read.

    Columns: the strength, and the maturity (°C·h, °C·days, or "h at 20 °C") or the age and the temperature at which the
    cylinders were kept. Cylinders of one maturity count with their mean.
    """
    table = read_table(path, EMPTY, BARE)
    if not table.columns:
        return None, table.told()
    strength, grown, age, warm = (table.column(names) for names in (STRENGTH, MATURITY, AGE, TEMPERATURE))
    if strength is None or (grown is None and (age is None or warm is None)):
        heads = ", ".join(f"“{each.name}”" for each in table.columns)
        table.wrong(table.line, f"found {heads}; write heads such as {EXAMPLE}.")
        return None, table.told()
    mpa = _stress(table, strength)
    if grown is not None:
        function, unit = _told_maturity(table, grown, by)
        used = [grown]
    else:
        assert age is not None
        assert warm is not None
        function, unit = function_of(by) if by != "Nurse-Saul" else nurse_saul(), table.factor(age, DAYS, "h or days")
        used = [age, warm]
    fahrenheit = table.factor(warm, DEGREES, "°C or °F") if warm is not None and grown is None else 0.0
    if mpa is None or unit is None or function is None or fahrenheit is None:
        return None, table.told()
    table.settle_decimals([*used, strength], small=[warm] if warm is not None else [])
    points: list[tuple[float, float]] = []
    for line, row in table.rows:
        cells = [table.number(line, row, column) for column in (*used, strength)]
        if any(cell is None for cell in cells):
            continue
        first, *rest, tested = (float(cell or 0.0) for cell in cells)
        rate = 1.0
        if rest:
            rate = float(function.rate(np.array((rest[0] - 32.0) / 1.8 if fahrenheit else rest[0])))
        if first * rate > 0.0 and tested > 0.0:
            points.append((first * rate * unit, tested * mpa))
        else:
            table.wrong(line, "a cylinder needs a maturity and a strength above zero; leave the row out.")
    if table.faults:
        return None, table.told()
    return _calibrated(path, points, function)


def _calibrated(
    path: str, points: Sequence[tuple[float, float]], function: MaturityFunction
) -> tuple[Law | None, list[str]]:
    reached = sorted({round(m, 9) for m, _ in points})
    means = [float(np.mean([s for m, s in points if round(m, 9) == each])) for each in reached]
    try:
        law = Calibration(tuple(reached), tuple(means))
    except ValueError as error:
        return None, [f"{path}: {error}."]
    together = (
        "" if len(points) == len(reached) else f", {len(points)} cylinders in all, those of one maturity as a mean"
    )
    note = (
        f"Strength over maturity from {path}: {len(reached)} points{together}, straight lines over the logarithm of "
        f"maturity between them; {function.name} ({function.source})."
    )
    return Law(law, function, True, f"its own cylinders ({path})", notes=(note,)), []


def _stress(table: Table, column: Column) -> float | None:
    try:
        return parse(f"1 {column.unit}", "stress")
    except UnitError:
        units: Mapping[str, float] = {}
        return table.factor(column, units, "MPa or psi")


def _told_maturity(table: Table, column: Column, by: By | None) -> tuple[MaturityFunction | None, float | None]:
    """The function that a column of maturities is of, and base units in its unit."""
    if column.unit in _FACTOR:
        if by in (None, "Nurse-Saul"):
            return nurse_saul(), _FACTOR[column.unit]
        table.wrong(table.line, f"“{column.name}” in {column.unit} is of Nurse–Saul and not of {by}; leave --by out.")
        return None, None
    found = _AT.fullmatch(column.unit)
    if found is None or found["unit"] not in DAYS:
        return None, table.factor(column, {}, "°C·h, °C·days or such as h at 20 °C")
    if by is None:
        table.wrong(table.line, f"“{column.name}” in {column.unit} may be of several functions; say which with --by.")
        return None, None
    degrees = float(found["degrees"])
    if by == "EN" and degrees != REFERENCE:
        table.wrong(table.line, f"“{column.name}”: EN 1992-1-1 counts at {REFERENCE:g} °C; give --by Arrhenius.")
        return None, None
    try:
        return function_of(by, degrees), DAYS[found["unit"]]
    except ValueError as error:
        raise SoffitError(f"{table.path}, line {table.line}: {error}.") from error

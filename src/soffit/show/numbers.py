"""Numbers as they are set in text, tables and pictures: significant digits, true minus, thin space, unit."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from math import floor, isfinite, log10
from typing import Literal

THIN = "\N{NARROW NO-BREAK SPACE}"
"""The thin space between a number and its unit; it never breaks a line."""
MINUS = "\N{MINUS SIGN}"
NOTHING = "–"
"""Stands where there is no number."""

Units = Literal["SI", "US"]

# what is shown: the kind of quantity in soffit.units, and its unit in each system
SHOWN: dict[str, tuple[str, str, str]] = {
    "force": ("force", "kN", "kip"),
    "moment": ("moment", "kN·m", "kip·ft"),
    "length": ("length", "mm", "in"),
    "span": ("length", "m", "ft"),
    "crack width": ("length", "mm", "in"),
    "stress": ("stress", "MPa", "ksi"),
    "pressure": ("stress", "MPa", "psi"),
    "torque": ("moment", "N·m", "lb·ft"),
    "line load": ("line load", "kN/m", "kip/ft"),
    "strain": ("ratio", "‰", "‰"),
}
_CRACK_DECIMALS: dict[Units, int] = {"SI": 2, "US": 3}


def unit(dimension: str, units: Units = "SI") -> str:
    """Name of the unit in which a ``dimension`` (a key of ``SHOWN``) is shown."""
    return SHOWN[dimension][2 if units == "US" else 1]


def in_unit(value: float, dimension: str, units: Units = "SI") -> float:
    """A value in base units (N, mm, MPa, N·mm, N/mm, plain strain) as a number of the unit that is shown."""
    return value / _size(SHOWN[dimension][0], unit(dimension, units))


@cache
def _size(kind: str, name: str) -> float:
    from soffit.units import parse

    return parse(f"1 {name}", kind)


def sig(value: float, digits: int = 3) -> str:
    """``value`` with ``digits`` significant digits and no exponent; five and more figures in groups of three.

    >>> sig(8.2), sig(-0.01234), sig(999.7), sig(123456)
    ('8.20', '−0.0123', '1000', '123\\u202f000')
    """
    if not isfinite(value):
        return NOTHING
    if value == 0:
        return "0"
    return fixed(_rounded(value, digits), max(decimals(value, digits), 0))


def fixed(value: float, places: int) -> str:
    """``value`` with so many decimals, true minus, groups of three from 10 000 on; never a negative zero."""
    if not isfinite(value):
        return NOTHING
    text = f"{abs(value):.{places}f}"
    whole, _, part = text.partition(".")
    if len(whole) > 4:
        head = len(whole) % 3 or 3
        whole = THIN.join([whole[:head], *(whole[i : i + 3] for i in range(head, len(whole), 3))])
    negative = value < 0 and any(c in "123456789" for c in text)
    return (MINUS if negative else "") + whole + ("." + part if part else "")


def decimals(value: float, digits: int = 3) -> int:
    """Decimals that give ``value`` its significant digits; negative where whole tens are rounded away."""
    rounded = _rounded(value, digits)
    return digits - 1 - floor(log10(abs(rounded))) if rounded else 0


def quantity(value: float | None, dimension: str, units: Units = "SI", digits: int = 3) -> str:
    """A value in base units with its unit: ``quantity(24310.0, "force")`` is ``"24.3 kN"``.

    ``dimension`` is a key of ``SHOWN``. A crack width has two decimals of a millimetre (three of an inch),
    as nobody reads more from a crack.
    """
    if value is None or not isfinite(value):
        return NOTHING
    number = in_unit(value, dimension, units)
    text = fixed(number, _CRACK_DECIMALS[units]) if dimension == "crack width" else sig(number, digits)
    return f"{text}{THIN}{unit(dimension, units)}"


def given(value: float, dimension: str, units: Units = "SI") -> str:
    """A quantity that was given, not computed: up to four digits, without zeros that say nothing ("350
    mm").
    """
    number = in_unit(value, dimension, units)
    text = sig(number, 4)
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return f"{text}{THIN}{unit(dimension, units)}"


def column(values: Sequence[float | None], dimension: str, units: Units = "SI", digits: int = 3) -> list[str]:
    """Values of one column, without unit, all with the same decimals: what the largest needs, and one more
    where the smallest would else show less than two of its digits.
    """
    shown = [None if v is None or not isfinite(v) else in_unit(v, dimension, units) for v in values]
    sizes = [abs(v) for v in shown if v]
    places = max(decimals(max(sizes), digits), 0) if sizes else 0
    if sizes and places:
        places = max(places, min(decimals(min(sizes), 2), places + 1))
    if dimension == "crack width":
        places = _CRACK_DECIMALS[units]
    return [NOTHING if v is None else fixed(v, min(places, 6)) for v in shown]


def times(value: float) -> str:
    """A factor of exaggeration or of load: ``"× 5"``, ``"× 2.31"``."""
    if not isfinite(value):
        return NOTHING
    text = sig(value)
    return f"×{THIN}{text.rstrip('0').rstrip('.') if '.' in text else text}"


def _rounded(value: float, digits: int) -> float:
    if value == 0 or not isfinite(value):
        return 0.0
    return round(value, digits - 1 - floor(log10(abs(value))))

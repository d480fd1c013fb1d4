"""Numbers as they are set in text, tables and pictures: significant digits, true minus, thin space, unit."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, isfinite, log10
from typing import Literal

THIN = "\N{NARROW NO-BREAK SPACE}"
"""The thin space between a number and its unit; it never breaks a line."""
MINUS = "\N{MINUS SIGN}"
NOTHING = "–"
"""Stands where there is no number."""

Units = Literal["SI", "US"]

# unit and its size in base units (N, mm, MPa); exact by definition of the inch and the pound-force
_INCH, _POUND = 25.4, 4.4482216152605
_FOOT, _KIP = 12 * _INCH, 1000 * _POUND
UNITS: dict[str, dict[Units, tuple[str, float]]] = {
    "force": {"SI": ("kN", 1e3), "US": ("kip", _KIP)},
    "moment": {"SI": ("kN·m", 1e6), "US": ("kip·ft", _KIP * _FOOT)},
    "length": {"SI": ("mm", 1.0), "US": ("in", _INCH)},
    "span": {"SI": ("m", 1e3), "US": ("ft", _FOOT)},
    "crack width": {"SI": ("mm", 1.0), "US": ("in", _INCH)},
    "stress": {"SI": ("MPa", 1.0), "US": ("ksi", _KIP / _INCH**2)},
    "line load": {"SI": ("kN/m", 1.0), "US": ("kip/ft", _KIP / _FOOT)},
    "strain": {"SI": ("‰", 1e-3), "US": ("‰", 1e-3)},
}
_CRACK_DECIMALS: dict[Units, int] = {"SI": 2, "US": 3}


def unit(dimension: str, units: Units = "SI") -> str:
    """Name of the unit in which a ``dimension`` (a key of ``UNITS``) is shown."""
    return UNITS[dimension][units][0]


def in_unit(value: float, dimension: str, units: Units = "SI") -> float:
    """A value in base units (N, mm, MPa, N·mm, N/mm, plain strain) as a number of the unit that is shown."""
    return value / UNITS[dimension][units][1]


def sig(value: float, digits: int = 3) -> str:
    """``value`` with ``digits`` significant digits, without exponent; four and more figures in groups of three.

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

    ``dimension`` is a key of ``UNITS``. A crack width has two decimals of a millimetre (three of an inch),
    as nobody reads more from a crack.
    """
    if value is None or not isfinite(value):
        return NOTHING
    number = in_unit(value, dimension, units)
    text = fixed(number, _CRACK_DECIMALS[units]) if dimension == "crack width" else sig(number, digits)
    return f"{text}{THIN}{unit(dimension, units)}"


def column(values: Sequence[float | None], dimension: str, units: Units = "SI", digits: int = 3) -> list[str]:
    """Values of one column, without unit, all with the decimals that suit the largest of them."""
    shown = [None if v is None or not isfinite(v) else in_unit(v, dimension, units) for v in values]
    largest = max((abs(v) for v in shown if v is not None), default=0.0)
    places = _CRACK_DECIMALS[units] if dimension == "crack width" else max(decimals(largest, digits), 0)
    return [NOTHING if v is None else fixed(v, min(places, 6)) for v in shown]


def times(value: float) -> str:
    """A ratio as a person says it: ``"× 12"``, ``"× 1.4"``."""
    if not isfinite(value):
        return NOTHING
    return f"×{THIN}{sig(value, 2)}"


def _rounded(value: float, digits: int) -> float:
    if value == 0 or not isfinite(value):
        return 0.0
    return round(value, digits - 1 - floor(log10(abs(value))))

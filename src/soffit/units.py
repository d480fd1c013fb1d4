"""Text such as ``"4 ksi"`` or ``"25 mm"`` to base units and back: the only place that converts.

Base units are N, mm, MPa (= N/mm²), days, kg/m³, K, rad and plain ratios. Every factor is an exact fraction (but for
the degree, which has π in it), and a number is rounded to a float only once, at the end, so that
``parse("12 in", "length") == 304.8``. An angle is no pure number here, so that "5 rad" is never read as a ratio.

Sources of the factors: the inch is 25.4 mm and the pound 0.45359237 kg by definition; standard gravity is
9.80665 m/s² (BIPM, The International System of Units, 9th edition; NIST SP 811, Appendix B). A year has
365.25 days.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from functools import cache
from math import floor, isfinite, log10, pi
from typing import Literal

from soffit.errors import SoffitError

System = Literal["SI", "US"]
Powers = tuple[int, int, int, int, int, int]
"""Of mm, N, days, kg, K and rad."""

GRAVITY = Fraction("9.80665")
"""N for each kg: standard gravity."""


class UnitError(SoffitError, ValueError):
    """A text that is no quantity of the kind that was asked for.

    ``problem`` follows "found …, " in a sentence and ``cure`` says what would do.
    """

    def __init__(self, found: object, problem: str, cure: str) -> None:
        self.problem, self.cure = problem, cure
        super().__init__(f"found {quote(found)}, {problem}; {cure}")


@dataclass(frozen=True)
class Unit:
    factor: Fraction
    """To N, mm, days, kg, K, rad."""
    powers: Powers
    system: System | None = None
    """The system that only this unit belongs to; none where both use it (time, per cent)."""


@dataclass(frozen=True)
class Dimension:
    """One kind of quantity: what it is made of, and how each system writes it.

    ``si`` and ``us`` give units with the magnitude (in base units) from which each is used in a sentence;
    ``usual`` is what a table or an axis uses (the first ones, unless given).
    """

    article: str
    powers: Powers
    examples: tuple[str, str]
    si: dict[str, float]
    us: dict[str, float]
    usual: tuple[str, str] | None = None
    base: Fraction = Fraction(1)
    """Base units for each unit of N, mm, days, kg, K, rad."""


def _powers(mm: int = 0, n: int = 0, days: int = 0, kg: int = 0, k: int = 0, rad: int = 0) -> Powers:
    return mm, n, days, kg, k, rad


L, F, T, M, ONE = _powers(mm=1), _powers(n=1), _powers(days=1), _powers(kg=1), _powers()
AREA, STRESS, MOMENT, LINE, PER_LENGTH = (
    _powers(mm=2),
    _powers(mm=-2, n=1),
    _powers(mm=1, n=1),
    _powers(mm=-1, n=1),
    _powers(mm=-1),
)
DENSITY, WEIGHT = _powers(mm=-3, kg=1), _powers(mm=-3, n=1)
WARMTH, ANGLE, BEND = _powers(k=1), _powers(rad=1), _powers(mm=-1, rad=1)

_LBF = Fraction("0.45359237") * GRAVITY
_INCH = Fraction("25.4")
_PSI = _LBF / _INCH**2
_US: System = "US"
_SI: System = "SI"


def _units() -> dict[str, Unit]:
    table: dict[str, Unit] = {}

    def add(names: str, factor: Fraction | int | str, powers: Powers, system: System | None) -> None:
        table.update(dict.fromkeys(names.split(), Unit(Fraction(factor), powers, system)))

    add("µm um", "0.001", L, _SI)
    add("mm", 1, L, _SI)
    add("cm", 10, L, _SI)
    add("m metre metres meter meters", 1000, L, _SI)
    add("km", 10**6, L, _SI)
    add('in inch inches " ″', _INCH, L, _US)
    add("ft foot feet ' ′", 12 * _INCH, L, _US)
    add("N", 1, F, _SI)
    add("kN", 1000, F, _SI)
    add("MN", 10**6, F, _SI)
    add("lb lbs lbf", _LBF, F, _US)
    add("kip kips", 1000 * _LBF, F, _US)
    add("Pa", Fraction(1, 10**6), STRESS, _SI)
    add("kPa", Fraction(1, 1000), STRESS, _SI)
    add("MPa", 1, STRESS, _SI)
    add("GPa", 1000, STRESS, _SI)
    add("psi", _PSI, STRESS, _US)
    add("ksi", 1000 * _PSI, STRESS, _US)
    add("psf", _PSI / 144, STRESS, _US)
    add("ksf", 1000 * _PSI / 144, STRESS, _US)
    add("J Nm", 1000, MOMENT, _SI)
    add("kNm", 10**6, MOMENT, _SI)
    add("Nmm", 1, MOMENT, _SI)
    add("plf", _LBF / (12 * _INCH), LINE, _US)
    add("klf", 1000 * _LBF / (12 * _INCH), LINE, _US)
    add("pcf", _LBF / (12 * _INCH) ** 3, WEIGHT, _US)
    add("kg", 1, M, _SI)
    add("g", Fraction(1, 1000), M, _SI)
    add("t", 1000, M, _SI)
    add("h hour hours", Fraction(1, 24), T, None)
    add("day days d", 1, T, None)
    add("week weeks", 7, T, None)
    add("year years", "365.25", T, None)
    add("K", 1, WARMTH, None)
    add("°F", "5/9", WARMTH, None)
    add("rad", 1, ANGLE, None)
    add("° deg", Fraction(pi) / 180, ANGLE, None)
    add("%", Fraction(1, 100), ONE, None)
    add("‰", Fraction(1, 1000), ONE, None)
    return table


UNITS = _units()

# fmt: off
DIMENSIONS: dict[str, Dimension] = {
    "length": Dimension("a length", L, ("25 mm", "1 in"), {"mm": 0, "m": 2000}, {"in": 0, "ft": 3048}),
    "area": Dimension("an area", AREA, ("78.5 mm2", "0.2 in2"), {"mm²": 0}, {"in²": 0}),
    "section modulus": Dimension(
        "a section modulus", _powers(mm=3), ("375000 mm3", "23 in3"), {"mm³": 0}, {"in³": 0}),
    "inertia": Dimension(
        "a second moment of area", _powers(mm=4), ("28e6 mm4", "68 in4"), {"mm⁴": 0}, {"in⁴": 0}),
    "force": Dimension("a force", F, ("20 kN", "4.5 kip"),
                       {"N": 0, "kN": 1e3, "MN": 1e7}, {"lb": 0, "kip": 4448}, ("kN", "kip")),
    "stress": Dimension("a stress", STRESS, ("35 MPa", "5 ksi"),
                        {"MPa": 0}, {"psi": 0, "ksi": 6.894}, ("MPa", "ksi")),
    "modulus": Dimension("a stress", STRESS, ("200 GPa", "29000 ksi"),
                         {"MPa": 0, "GPa": 1e3}, {"ksi": 0}, ("GPa", "ksi")),
    "moment": Dimension("a moment", MOMENT, ("60 N m", "44 lb ft"),
                        {"N m": 0, "kN m": 1e6}, {"lb ft": 0, "kip ft": 1.355e6}, ("kN m", "kip ft")),
    "line load": Dimension("a load per length", LINE, ("5 kN/m", "0.35 kip/ft"),
                           {"kN/m": 0}, {"lb/ft": 0, "kip/ft": 14.59}, ("kN/m", "kip/ft")),
    "fracture energy": Dimension(
        "an energy per area", LINE, ("80 N/m", "0.46 lb/in"), {"N/m": 0}, {"lb/in": 0}),
    "density": Dimension("a density", DENSITY, ("2400 kg/m3", "150 lb/ft3"),
                         {"kg/m³": 0}, {"lb/ft³": 0}, base=Fraction(10**9)),
    "time": Dimension("a time", T, ("28 days", "4 weeks"), {"days": 0}, {"days": 0}),
    "ratio": Dimension("a percentage", ONE, ("15 %", "15 %"), {"%": 0}, {"%": 0}),
    "per length": Dimension(
        "a quantity per length", PER_LENGTH, ("0.001 /m", "0.0003 /ft"), {"/m": 0}, {"/ft": 0}),
    "temperature difference": Dimension(
        "a temperature difference", WARMTH, ("40 K", "72 °F"), {"K": 0}, {"°F": 0}),
    "angle per length": Dimension(
        "an angle per length", BEND, ("0.007 rad/m", "0.002 rad/ft"), {"rad/m": 0}, {"rad/ft": 0}),
}
# fmt: on

_NUMBER = re.compile(
    r"""(?P<sign>[+-]?)
        (?: (?P<whole>[0-9]{1,9})[ -]+(?=[0-9]+/[0-9]) )?
        (?: (?P<top>[0-9]{1,9})/(?P<bottom>[0-9]{1,9})
          | (?P<decimal>(?:[0-9]{1,30}\.?[0-9]{0,30}|\.[0-9]{1,30})(?:[eE][+-]?[0-9]{1,3}(?![0-9]))?) )""",
    re.VERBOSE,
)
_FEET_INCHES = re.compile(
    r"(?P<feet>[0-9]{1,6})\s*(?:'|′|ft|feet|foot)\s*-?\s*"
    r"(?P<inches>[0-9][0-9 ./-]*)\s*(?:\"|″|in|inch|inches)$"
)
_SYMBOL = re.compile(r"(?P<name>[A-Za-zµ%‰°\"'′″]+)\.?(?:\^?(?P<power>[1-4]))?$")
_PLAIN = str.maketrans("²³⁴−μ’”·⋅*×\u00a0\u2009\u202f", "234-µ'\"       ")
_LONGEST = 60


def parse(text: object, dimension: str) -> float:
    """Text to a float in base units.

    ``dimension`` is a key of ``DIMENSIONS``. A weight per volume is a density under standard gravity.
    Raises ``UnitError`` for a bare number, no number, NaN, infinity, an unknown unit or one of another kind.
    """
    kind = DIMENSIONS[dimension]
    if isinstance(text, int | float) and not isinstance(text, bool):
        raise UnitError(text, "a bare number", f"write its unit too, such as {_with_unit(str(text), kind)}")
    if not isinstance(text, str):
        raise UnitError(text, "which is no text", _cure(kind))
    plain = text.replace("**", "^").translate(_PLAIN).strip()
    if not plain or len(plain) > _LONGEST:
        raise UnitError(text, "which is too long for a quantity" if plain else "which is empty", _cure(kind))
    feet = _FEET_INCHES.match(plain)
    if dimension == "length" and feet:
        inches, rest = _number(text, feet["inches"].strip(), kind)
        if rest:
            raise UnitError(text, "which is no number of feet and inches", _cure(kind))
        return float((12 * int(feet["feet"]) + inches) * _INCH)
    number, rest = _number(text, plain, kind)
    if not rest:
        raise UnitError(text, "which has no unit", f"write {_with_unit(plain, kind)}")
    unit = _expression(text, rest, kind)
    factor = _base_factor(unit, kind)
    if factor is None:
        raise UnitError(text, f"which is {_name(unit.powers)} and not {kind.article}", _cure(kind))
    try:
        value = float(number * factor)
    except OverflowError:
        value = float("inf")
    if not isfinite(value):
        raise UnitError(text, "which is beyond every magnitude", _cure(kind))
    return value


def system_of(text: str) -> System | None:
    """The system that a text's units belong to; none for time, per cent and what is no quantity."""
    plain = text.replace("**", "^").translate(_PLAIN).strip()[:_LONGEST]
    found = _NUMBER.match(plain)
    if not found:
        return None
    words = re.findall(r"[A-Za-zµ\"'′″]+", plain[found.end() :])
    systems = [UNITS[word].system for word in words if word in UNITS]
    return next((system for system in systems if system), None)


def show(value: float, dimension: str, system: System = "SI", digits: int = 4) -> str:
    """A value in base units as text with its unit, in ``digits`` significant digits.

    Large values keep their whole part. Raises ``ValueError`` for a value that is not finite.
    """
    if not isfinite(value):
        raise ValueError(f"{value} is no {dimension} that can be shown")
    kind = DIMENSIONS[dimension]
    steps = kind.us if system == "US" else kind.si
    fitting = [unit for unit, least in steps.items() if abs(value) >= least]
    label = fitting[-1] if value else scale(dimension, system)[0]
    return f"{plain_number(value / _divisor(label, dimension), digits)} {label}"


def scale(dimension: str, system: System = "SI") -> tuple[str, float]:
    """The usual unit of a table or an axis, and the base units in one of it (divide by it)."""
    kind = DIMENSIONS[dimension]
    usual = kind.usual or (next(iter(kind.si)), next(iter(kind.us)))
    label = usual[1 if system == "US" else 0]
    return label, _divisor(label, dimension)


def plain_number(value: float, digits: int = 4) -> str:
    """A number without exponent or trailing zeros, to ``digits`` significant digits or whole."""
    if value == 0:
        return "0"
    decimals = max(digits - 1 - floor(log10(abs(value))), 0)
    text = f"{value:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def quote(found: object) -> str:
    """What was found, as the file's own language writes it, short enough for a sentence."""
    if isinstance(found, str):
        short = found if len(found) <= _LONGEST else found[: _LONGEST - 1] + "…"
        return '"' + "".join(c if c.isprintable() else repr(c)[1:-1] for c in short) + '"'
    if isinstance(found, bool):
        return "true" if found else "false"
    if isinstance(found, list | tuple):
        inner = ", ".join(quote(each) for each in found)
        return f"[{inner}]" if len(inner) <= _LONGEST else f"a list of {len(found)}"
    return "a table" if isinstance(found, dict) else str(found)[:_LONGEST]


def near(word: str, legal: list[str]) -> str | None:
    """The legal word that was probably meant: the same but for case, or the closest."""
    folded = {each.casefold(): each for each in legal}
    if word.casefold() in folded:
        return folded[word.casefold()]
    close = get_close_matches(word.casefold(), folded, n=1, cutoff=0.6)
    return folded[close[0]] if close else None


def _number(text: object, plain: str, kind: Dimension) -> tuple[Fraction, str]:
    """The number that a text begins with, exactly, and the rest."""
    if re.match(r"[+-]?(nan|inf)", plain, re.IGNORECASE) and not re.match(r"in(ch|ches)?\b", plain):
        raise UnitError(text, "which is not a finite number", _cure(kind))
    found = _NUMBER.match(plain)
    if not found:
        raise UnitError(text, "which does not begin with a number", _cure(kind))
    rest = re.sub(r"^1/", "/", plain[found.end() :].strip())
    if re.match(r"[,_.0-9]|[eE][+-]?[0-9]", rest):
        raise UnitError(text, "whose number cannot be read", 'write numbers like "1500", "1.5", "1e3" or "1 1/2"')
    if found["bottom"] and int(found["bottom"]) == 0:
        raise UnitError(text, "which divides by zero", _cure(kind))
    number = Fraction(int(found["top"]), int(found["bottom"])) if found["bottom"] else Fraction(found["decimal"])
    number += int(found["whole"] or 0)
    return (-number if found["sign"] == "-" else number), rest


def _expression(text: object, words: str, kind: Dimension) -> Unit:
    """The unit that an expression such as ``kip/ft`` or ``N m`` stands for."""
    factor, powers, system = Fraction(1), list(ONE), None
    top, *below = re.split(r"/|\bper\b", words)
    if not top.strip() and not any(part.strip() for part in below):
        raise UnitError(text, "which has no unit", _cure(kind))
    for sign, part in [(1, top), *((-1, part) for part in below)]:
        symbols = re.split(r"[\s-]+", part.strip()) if part.strip() else []
        if sign < 0 and not symbols:
            raise UnitError(text, "whose unit ends early", _cure(kind))
        for symbol in symbols:
            unit, power = _symbol(text, symbol, kind)
            factor *= unit.factor ** (sign * power)
            powers = [p + sign * power * q for p, q in zip(powers, unit.powers, strict=True)]
            system = system or unit.system
    mm, n, days, kg, k, rad = powers
    return Unit(factor, (mm, n, days, kg, k, rad), system)


def _symbol(text: object, symbol: str, kind: Dimension) -> tuple[Unit, int]:
    found = _SYMBOL.match(symbol)
    name = found["name"] if found else symbol
    if not found or name not in UNITS:
        # kelvin and radian are meant only where they have a place
        wanted = [i for i in (4, 5) if not kind.powers[i]]
        fitting = [each for each, unit in UNITS.items() if not any(unit.powers[i] for i in wanted)]
        meant = near(name, fitting)
        cure = f'did you mean "{meant}"?' if meant else _cure(kind)
        raise UnitError(text, f"where {quote(name)} is no unit known here", cure)
    return UNITS[name], int(found["power"] or 1)


def _base_factor(unit: Unit, kind: Dimension) -> Fraction | None:
    """Base units of the dimension in one unit; none for a unit of another kind."""
    if kind.powers == DENSITY and unit.powers == WEIGHT:
        return unit.factor * kind.base / GRAVITY
    return unit.factor * kind.base if unit.powers == kind.powers else None


@cache
def _divisor(label: str, dimension: str) -> float:
    kind = DIMENSIONS[dimension]
    return float(_base_factor(_expression(label, label.translate(_PLAIN), kind), kind) or 1)


def _name(powers: Powers) -> str:
    if powers == ONE:
        return "a pure number"
    if powers == M:
        return "a mass"
    if powers == WEIGHT:
        return "a weight per volume"
    return next((kind.article for kind in DIMENSIONS.values() if kind.powers == powers), "another kind of quantity")


def _cure(kind: Dimension) -> str:
    si, us = kind.examples
    return f'write {kind.article} such as "{si}"' + (f' or "{us}"' if us != si else "")


def _with_unit(number: str, kind: Dimension) -> str:
    si, us = (re.sub(r"^[0-9.e]+ ?", "", each) for each in kind.examples)
    return f'"{number} {si}"' + (f' or "{number} {us}"' if us != si else "")

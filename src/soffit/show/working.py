"""The working of a check as lines of text: formula in symbols, formula in numbers, result, then where from."""

from __future__ import annotations

from math import degrees, floor, log10

from soffit.codes.working import Symbol, System, Working
from soffit.show.columns import Line as Text
from soffit.show.columns import wrapped
from soffit.show.numbers import THIN, Units, quantity, sig

INCH = 25.4
_POWERS: dict[Units, dict[str, tuple[str, float]]] = {
    "SI": {"area": ("mm²", 1.0), "volume": ("mm³", 1.0), "inertia": ("mm⁴", 1.0), "curvature": ("/mm", 1.0)},
    "US": {
        "area": ("in²", INCH**2),
        "volume": ("in³", INCH**3),
        "inertia": ("in⁴", INCH**4),
        "curvature": ("/in", 1.0 / INCH),
    },
}
_SUPERSCRIPT = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def units_of(working: Working, units: Units) -> Units:
    """The units in which a working is shown: those of its formula, whose constants may depend on them."""
    return units if working.system == "SI" else "US"


def shown(symbol: Symbol, units: Units, system: System = "SI") -> str:
    """A number with its unit, as it stands in a working; a stress in psi or ksi as ``system`` has it."""
    value = symbol.value
    match symbol.kind:
        case "area" | "volume" | "inertia" | "curvature":
            name, size = _POWERS[units][symbol.kind]
            return f"{long(value / size)}{THIN if name[0] != '/' else ''}{name}"
        case "angle":
            return f"{sig(degrees(value))}°"
        case "count":
            return f"{value:.0f}" if abs(value - round(value)) < 1e-9 else sig(value)
        case "ratio" | "strain":
            return long(value)
        case "time":
            return f"{sig(value)}{THIN}days"
        case "frequency":
            return f"{sig(value)}{THIN}Hz"
        case "density":
            return f"{sig(value, 4)}{THIN}kg/m³"
        case "stress":
            return quantity(value, "pressure" if system == "psi" else "stress", units)
        case kind:
            return quantity(value, kind, units)


def long(value: float) -> str:
    """Three significant digits; very large and very small numbers with a power of ten (``3.45·10⁻⁶``)."""
    if value == 0.0 or 1e-4 <= abs(value) < 1e6:
        return sig(value)
    power = 3 * floor(log10(abs(value)) / 3.0)
    return f"{sig(value / 10.0**power)}·10{str(power).translate(_SUPERSCRIPT)}"


def numbers(working: Working, units: Units) -> str:
    """The formula with its numbers in it."""
    return working.written(lambda s: shown(s, units, working.system))


def result(working: Working, units: Units) -> str:
    return shown(working.symbol, units, working.system)


def formula(working: Working, units: Units, width: int | None, pad: str) -> list[Text]:
    """Formula, numbers and result; then what it is, its clause and its mark."""
    inserted, found = numbers(working, units), result(working, units)
    if working.formula == working.name or inserted == "0":  # a given number, or nothing to add up
        text = f"{working.name} = {found}"
    else:
        text = f"{working.name} = {working.formula}"
        if inserted != working.formula:
            text += f" = {inserted}"
        if inserted != found:
            text += f" = {found}"
    source = ", ".join(filter(None, [working.what, working.clause, working.mark]))
    room = None if width is None else width - len(pad)
    texts: list[Text] = [
        [(pad if i == 0 else pad + "  ", ""), (piece, "")] for i, piece in enumerate(wrapped(text, room))
    ]
    if width is not None and len(texts[-1][1][0]) + len(source) + len(pad) + 3 > width:
        return [*texts, *([(pad + "  ", ""), (piece, "faint")] for piece in wrapped(source, room))]
    texts[-1].append((f"   {source}", "faint"))
    return texts

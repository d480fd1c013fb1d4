"""A life as JSON, each key with its unit; the only place that turns N into kN for a file."""

from __future__ import annotations

import json
from collections.abc import Iterable
from math import isfinite
from typing import TYPE_CHECKING, Any

from soffit.errors import SoffitError

if TYPE_CHECKING:
    from soffit.member.result import Event, Life

DIGITS = 6
"""Significant digits of every number: more than any test resolves, few enough to read and to compare."""

KN = 1e3
KNM = 1e6


def to_dict(life: Life) -> dict[str, Any]:
    """The life as plain lists, texts and numbers, ready for :func:`json.dumps`.

    Loads in kN, moments in kNm, lengths in mm, rounded to six significant digits. The two ratios of
    ``warning`` are ``None`` where they have no value (a beam that never cracks, or is cracked before it
    deflects); ``press`` is ``None`` without a press of known capacity.

    Raises :class:`SoffitError` where any other number is not finite: such a file would carry a wrong result.
    """
    import soffit

    curve, failure, warning = life.curve, life.failure, life.warning
    return {
        "name": life.name,
        "soffit_version": soffit.__version__,
        "assumptions": list(life.assumptions),
        "cautions": list(life.cautions),
        "events": [_event(event, life.name) for event in life.events],
        "peak": {
            "load_kN": _number(life.peak.load / KN, life.name, "the peak load"),
            "moment_kNm": _number(life.peak.moment / KNM, life.name, "the moment at the peak"),
            "deflection_mm": _number(life.peak.deflection, life.name, "the deflection at the peak"),
        },
        "failure": {
            "mode": failure.mode,
            "x_mm": _number(failure.x, life.name, "the place of the failure"),
            "brittle": bool(failure.brittle),
            "sentence": failure.sentence,
        },
        "warning": {
            "deflection_ratio": _ratio(warning.deflection_ratio),
            "energy_ratio": _ratio(warning.energy_ratio),
            "word": warning.word,
        },
        "curve": {
            "load_kN": _numbers(curve.load / KN, life.name, "the load of the curve"),
            "deflection_mm": _numbers(curve.deflection, life.name, "the deflection of the curve"),
            "moment_kNm": _numbers(curve.moment / KNM, life.name, "the moment of the curve"),
            "crack_width_mm": _numbers(curve.crack_width, life.name, "the crack width of the curve"),
        },
        "press": _press(life),
    }


def to_json(life: Life) -> str:
    """Strict JSON text (no NaN, no Infinity), one event a line and one list a line, ending in a newline."""
    parts = [f"{_dump(key)}: {_value(key, value)}" for key, value in to_dict(life).items()]
    return "{\n  " + ",\n  ".join(parts) + "\n}\n"


def _event(event: Event, name: str) -> dict[str, Any]:
    what = f"of the event “{event.event}”"
    width = event.crack_width
    return {
        "event": event.event,
        "load_kN": _number(event.load / KN, name, f"the load {what}"),
        "moment_kNm": _number(event.moment / KNM, name, f"the moment {what}"),
        "x_mm": _number(event.x, name, f"the place {what}"),
        "deflection_mm": _number(event.deflection, name, f"the deflection {what}"),
        "crack_width_mm": None if width is None else _number(width, name, f"the crack width {what}"),
        "note": event.note,
    }


def _press(life: Life) -> dict[str, Any] | None:
    if life.press is None:
        return None
    used = life.press.capacity_used
    share = None if used is None else _number(used, life.name, "the share of the press's capacity")
    return {"can_break_it": bool(life.press.can_break_it), "capacity_used": share}


def _number(value: float, name: str, what: str) -> float:
    if not isfinite(value):
        raise SoffitError(f"{name}: {what} came out as {value}, so no JSON was written; please report this beam file.")
    rounded = float(f"{float(value):.{DIGITS}g}")
    return rounded if rounded else 0.0  # no "-0.0"


def _numbers(values: Iterable[float], name: str, what: str) -> list[float]:
    return [_number(value, name, what) for value in values]


def _ratio(value: float) -> float | None:
    return _number(value, "", "") if isfinite(value) else None


def _value(key: str, value: Any) -> str:
    if key in ("events", "assumptions", "cautions") and value:
        return "[\n    " + ",\n    ".join(_dump(item) for item in value) + "\n  ]"
    if key == "curve":
        return "{\n    " + ",\n    ".join(f"{_dump(k)}: {_dump(v)}" for k, v in value.items()) + "\n  }"
    return _dump(value)


def _dump(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)

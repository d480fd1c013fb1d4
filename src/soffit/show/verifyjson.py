"""A verification as JSON, every key with its unit, every working with its formula."""

from __future__ import annotations

import json
from math import isfinite
from typing import Any

from soffit import __version__
from soffit.codes.verification import Verification
from soffit.codes.working import Check, Symbol, Working
from soffit.show import working as worked
from soffit.show.columns import bare
from soffit.show.numbers import in_unit, unit
from soffit.show.verifywords import closing, verdict

_PLAIN: dict[str, tuple[str, float]] = {
    "area": ("mm²", 1.0), "volume": ("mm³", 1.0), "inertia": ("mm⁴", 1.0), "curvature": ("1/mm", 1.0),
    "angle": ("rad", 1.0), "ratio": ("", 1.0), "strain": ("", 1.0), "count": ("", 1.0), "time": ("days", 1.0),
    "frequency": ("Hz", 1.0), "density": ("kg/m³", 1.0),
}  # fmt: skip


def to_json(found: Verification) -> str:
    """Text, in SI units whatever the standard's own are; a ratio without bound is null."""
    return json.dumps(as_data(found), indent=1, ensure_ascii=False) + "\n"


def as_data(found: Verification) -> dict[str, Any]:
    governing = found.governing
    return {
        "name": found.beam.name,
        "soffit_version": __version__,
        "standard": found.name,
        "holds": found.kept,
        "governing": governing.key if governing else None,
        "sentence": bare(closing(found, "SI")),
        "checks": [_check(check) for check in found.checks],
        "not_checked": [
            {"title": u.title, "why": bare(u.why), "clause": u.clause, "outside_scope": u.scope}
            for u in found.unchecked
        ],
        "assumptions": [bare(text) for text in found.assumptions],
        "cautions": list(found.cautions),
    }


def _check(check: Check) -> dict[str, Any]:
    return {
        "key": check.key,
        "title": check.title,
        "state": check.state,
        "clause": check.clause,
        "x_mm": check.x,
        "combination": check.combination,
        "ratio": check.ratio if isfinite(check.ratio) else None,
        "verdict": verdict(check),
        "demand": _value(check.demand.symbol),
        "resistance": _value(check.resistance.symbol),
        "working": [_working(w) for w in check.workings],
        "assumptions": [bare(text) for text in check.assumptions],
    }


def _working(w: Working) -> dict[str, Any]:
    own = worked.units_of(w, "SI")
    return {
        **_value(w.symbol),
        "what": w.what,
        "formula": w.formula,
        "numbers": bare(worked.numbers(w, own)),
        "formula_units": {"SI": "N, mm, MPa", "psi": "lb, in, psi", "ksi": "kip, in, ksi"}[w.system],
        "symbols": [_value(s) | {"what": s.what} for s in w.symbols],
        "clause": w.clause,
        "mark": w.mark,
    }


def _value(symbol: Symbol) -> dict[str, Any]:
    if symbol.kind in _PLAIN:
        name, size = _PLAIN[symbol.kind]
        value = symbol.value / size
    else:
        name, value = unit(symbol.kind), in_unit(symbol.value, symbol.kind)
    return {"symbol": symbol.name, "value": value if isfinite(value) else None, "unit": name}

"""The ageing of a beam as JSON and as a table of its steps (CSV), each key and heading with its unit."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable
from math import isfinite
from typing import TYPE_CHECKING, Any

import numpy as np

from soffit.show import agebeside, agelimits, agetable
from soffit.show.agewords import Told
from soffit.show.jsonout import DIGITS, KN, KNM

if TYPE_CHECKING:
    from soffit.member.time.result import Band, Past, TendonPast


def to_dict(told: Told) -> dict[str, Any]:
    """The past as plain lists, texts and numbers, ready for :func:`json.dumps`.

    Lists over the steps are as long as ``t_days``; lists of lists have one list a step, as long as ``x_mm``. Rounded to
    six significant digits; ``None`` where there is no value (a tendon that has no stress yet or does not run there).
    """
    import soffit

    past = told.past
    found = {
        "name": past.beam.name,
        "soffit_version": soffit.__version__,
        "model": past.model,
        "assumptions": list(past.notes),
        "cautions": list(past.cautions),
        "stages": [
            {
                "number": n,
                "what": i.stage.what,
                "label": i.label,
                "age_days": _round(float(past.t[i.step])),
                "step": i.step,
            }
            for n, i in enumerate(past.instants, start=1)
        ],
        "t_days": _list(past.t),
        "x_mm": _list(past.x),
        "concrete": {
            "strength_MPa": _list(past.strength),
            "tensile_strength_MPa": _list(past.tensile),
            "modulus_MPa": _list(past.modulus),
            "shrinkage_strain": _list(past.shrinkage),
        },
        "section": {
            "moment_kNm": _table(past.moment / KNM),
            "secondary_moment_kNm": _table(past.secondary / KNM),
            "axial_force_kN": _table(past.axial / KN),
            "bottom_stress_MPa": _table(past.bottom),
            "top_stress_MPa": _table(past.top),
            "topping_bottom_stress_MPa": None if past.topping_bottom is None else _table(past.topping_bottom),
            "topping_top_stress_MPa": None if past.topping_top is None else _table(past.topping_top),
            "cracked_share": _table(past.cracked),
            "steel_stress_at_crack_MPa": _table(past.crack_stress),
            "curvature_per_mm": _table(past.curvature),
            "deflection_mm": _table(past.deflection),
        },
        "tendons": [_tendon(tendon) for tendon in past.tendons],
        "losses_by_standards": _rounded(agebeside.as_dicts(told)),
        "deflections_by_standards": _rounded(agebeside.deflections_as_dicts(told)),
        "limits": _rounded(agelimits.as_dicts(told)),
        "place": {"x_mm": _round(told.x), "station": told.station},
        "band": None if told.band is None else _band(told.band, past),
    }
    return found


def to_json(told: Told) -> str:
    """Strict JSON text (no NaN, no Infinity), one key a line and in tables one step a line, ending in a newline."""
    return "{\n" + ",\n".join(_lines(to_dict(told), "  ")) + "\n}\n"


def to_csv(told: Told) -> str:
    """The steps at the place: one row a step, headings with units, empty where there is no value."""
    past, at, band = told.past, told.station, told.banded
    names = {i.step: i.label for i in past.instants}
    heads = ["age (days)", "stage", "deflection (mm, down positive)"]
    columns: list[Iterable[Any]] = [_list(past.t), [names.get(s, "") for s in range(len(past.t))]]
    columns.append(_list(past.deflection[:, at]))

    def add(head: str, unit: str, values: Any, sides: tuple[Any, Any] | None = None) -> None:
        heads.append(f"{head} ({unit})")
        columns.append(_list(values))
        for word, side in zip(("5 %", "95 %"), sides or (), strict=False):
            heads.append(f"{head}, {word} ({unit})")
            columns.append(_list(side))

    if band is not None:
        for word, side in zip(("5 %", "95 %"), band.deflection, strict=True):
            heads.append(f"deflection, {word} (mm, down positive)")
            columns.append(_list(side))
    apart = told.section != told.station
    where = f" at x = {past.x[told.section]:.0f} mm" if apart else ""
    sides = {"soffit": band.bottom, "top": band.top} if band and not apart else {}
    for name, values in agetable.faces(told).items():
        add(f"{name} stress{where}", "MPa, tension positive", values, sides.get(name))
    for i, tendon in enumerate(past.tendons):
        add(f"stress of {agetable.name(tendon)}", "MPa", tendon.stress[:, at], band.stress[i] if band else None)
    add(f"cracked share{where}", "1", past.cracked[:, told.section])
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(heads)
    writer.writerows(["" if v is None else v for v in row] for row in zip(*columns, strict=True))
    return text.getvalue()


def _tendon(tendon: TendonPast) -> dict[str, Any]:
    group = tendon.tendon
    return {
        "name": agetable.name(tendon),
        "label": group.label,
        "area_mm2": _round(group.area),
        "jacking_stress_MPa": _round(tendon.jack),
        "stress_MPa": _table(tendon.stress),
        "losses": {
            "friction_MPa": _list(tendon.friction),
            "draw_in_MPa": _list(tendon.draw_in),
            "bed_MPa": _list(tendon.bed),
            "elastic_MPa": _table(tendon.elastic),
            "creep_MPa": _table(tendon.creep),
            "shrinkage_MPa": _table(tendon.shrinkage),
            "relaxation_MPa": _table(tendon.relaxation),
            "cracks_MPa": _table(tendon.cracking),
        },
    }


def _band(band: Band, past: Past) -> dict[str, Any]:
    def pair(sides: tuple[Any, Any]) -> dict[str, Any]:
        return {"low": _list(sides[0]), "high": _list(sides[1])}

    return {
        "fractiles": [0.05, 0.95],
        "x_mm": _round(float(past.x[band.station])),
        "deflection_mm": pair(band.deflection),
        "bottom_stress_MPa": pair(band.bottom),
        "top_stress_MPa": pair(band.top),
        "tendon_stress_MPa": {
            agetable.name(tendon): pair(sides) for tendon, sides in zip(past.tendons, band.stress, strict=True)
        },
        "sources": list(band.sources),
    }


def _round(value: float) -> float | None:
    if not isfinite(value):
        return None
    return float(f"{value:.{DIGITS}g}") or 0.0


def _rounded(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [{k: _round(v) if isinstance(v, float) else v for k, v in row.items()} for row in rows]


def _list(values: Any) -> list[float | None]:
    return [_round(float(value)) for value in np.asarray(values)]


def _table(values: Any) -> list[list[float | None]]:
    return [_list(row) for row in np.asarray(values)]


def _lines(found: dict[str, Any], pad: str) -> Iterable[str]:
    """One key a line; a list of lists or of tables one item a line."""
    for key, value in found.items():
        head = f"{pad}{_dump(key)}: "
        if isinstance(value, dict):
            yield head + "{\n" + ",\n".join(_lines(value, pad + "  ")) + f"\n{pad}}}"
        elif isinstance(value, list) and value and isinstance(value[0], list | dict | str):
            items = [_item(item, pad + "  ") for item in value]
            yield f"{head}[\n" + ",\n".join(items) + f"\n{pad}]"
        else:
            yield head + _dump(value)


def _item(value: Any, pad: str) -> str:
    if isinstance(value, dict) and any(isinstance(v, list | dict) for v in value.values()):
        return f"{pad}{{\n" + ",\n".join(_lines(value, pad + "  ")) + f"\n{pad}}}"
    return pad + _dump(value)


def _dump(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)

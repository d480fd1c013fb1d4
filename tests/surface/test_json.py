"""The JSON of a life: exact keys, units in the keys, strict JSON, and no number that is not one."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
import synthetic_life

from soffit.errors import SoffitError
from soffit.member.result import PressUse
from soffit.show.jsonout import to_dict, to_json

KEYS = [
    "name",
    "soffit_version",
    "assumptions",
    "cautions",
    "events",
    "peak",
    "failure",
    "warning",
    "curve",
    "press",
]


def strict(text: str) -> Any:
    def refuse(word: str) -> Any:
        raise AssertionError(f"{word} is not JSON")

    return json.loads(text, parse_constant=refuse)


@pytest.mark.parametrize("name", synthetic_life.ALL)
def test_every_life_becomes_strict_json_with_exactly_the_agreed_keys(name: str) -> None:
    life = synthetic_life.ALL[name]()
    read = strict(to_json(life))
    assert list(read) == KEYS
    assert read == to_dict(life)
    for event in read["events"]:
        assert list(event) == [
            "event", "load_kN", "moment_kNm", "x_mm", "deflection_mm", "crack_width_mm", "note",
        ]  # fmt: skip
    assert list(read["peak"]) == ["load_kN", "moment_kNm", "deflection_mm"]
    assert list(read["failure"]) == ["mode", "x_mm", "brittle", "sentence"]
    assert list(read["warning"]) == ["deflection_ratio", "energy_ratio", "word"]
    assert list(read["curve"]) == ["load_kN", "deflection_mm", "moment_kNm", "crack_width_mm"]
    assert {len(values) for values in read["curve"].values()} == {len(life.curve.load)}
    assert read["press"] is None or list(read["press"]) == ["can_break_it", "capacity_used"]


def test_newtons_become_kilonewtons_and_millimetres_stay() -> None:
    life = synthetic_life.bars()
    peak = replace(life.peak, load=51_234.0, moment=8_967_000.0, deflection=15.98)
    read = to_dict(replace(life, peak=peak, curve=replace(life.curve, load=np.array([0.0, 2500.0]))))
    assert read["peak"] == {"load_kN": 51.234, "moment_kNm": 8.967, "deflection_mm": 15.98}
    assert read["curve"]["load_kN"] == [0.0, 2.5]


def test_six_figures_and_no_negative_zero() -> None:
    life = synthetic_life.bars()
    read = to_dict(replace(life, curve=replace(life.curve, deflection=np.array([-0.0, 1234567.8, 0.12345678]))))
    assert [str(v) for v in read["curve"]["deflection_mm"]] == ["0.0", "1234570.0", "0.123457"]


@pytest.mark.parametrize("bad", [float("nan"), float("inf")])
def test_a_number_that_is_none_is_refused_and_named(bad: float) -> None:
    life = synthetic_life.bars()
    with pytest.raises(SoffitError, match="moment of the curve"):
        to_json(replace(life, curve=replace(life.curve, moment=np.array([0.0, bad]))))
    with pytest.raises(SoffitError, match="crack width of the event “first crack”"):
        to_json(replace(life, events=(replace(life.events[0], crack_width=bad),)))


def test_a_ratio_without_value_and_a_press_without_capacity_are_null() -> None:
    life = synthetic_life.bars()
    endless = replace(life.warning, deflection_ratio=float("inf"), energy_ratio=float("nan"))
    read = to_dict(replace(life, warning=endless, press=None))
    assert read["warning"]["deflection_ratio"] is None
    assert read["warning"]["energy_ratio"] is None
    assert read["press"] is None
    by_stroke = to_dict(replace(life, press=PressUse(False, None, 3.2)))
    assert by_stroke["press"] == {"can_break_it": False, "capacity_used": None}
    assert to_dict(life)["press"] == {"can_break_it": True, "capacity_used": pytest.approx(0.51, abs=0.01)}


def test_numpy_truth_and_odd_letters_survive() -> None:
    life = synthetic_life.bars()
    failure = replace(life.failure, brittle=np.bool_(True), sentence='It says “ü ½" \\ \n')  # type: ignore[arg-type]
    read = strict(to_json(replace(life, failure=failure)))
    assert read["failure"]["brittle"] is True
    assert read["failure"]["sentence"] == 'It says “ü ½" \\ \n'

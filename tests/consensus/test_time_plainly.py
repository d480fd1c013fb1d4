"""The march through time against the same section written plainly: fibres, sums over the history, SciPy's solver."""

from __future__ import annotations

import pytest
from benchmarks import plain_time
from tests.timed import YEARS, beam, making, strands

from soffit.member.beam import Load
from soffit.member.making import Scales, Stage
from soffit.member.time import past


def test_fifty_years_of_a_pretensioned_section() -> None:
    stages = [Stage("release", 3.0, (0,)), Stage("load", 60.0, cases=("dead",)), Stage("age", YEARS)]
    b = beam(
        making(stages, Scales(relaxation=1e-12)), tendons=[strands(120.0, 1e4)], loads=[Load("dead", 3.0, 0.0, 1e4)]
    )
    p = past(b, per_decade=5)
    released, m = p.instants[0].step, p.middle
    assert b.making is not None
    soffit, stress = plain_time.history(
        b.making.casting, p.t[released:], 400.0, 500.0, (120.0, 8 * 93.0, 1250.0), p.moment[released:, m]
    )
    # 60 fibres have a second moment of area 1/3600 too small
    assert soffit == pytest.approx(list(p.bottom[released:, m]), abs=2e-3)
    assert stress == pytest.approx(list(p.tendons[0].full[released:, m]), abs=5e-3)

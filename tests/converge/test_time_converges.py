"""What steps in time, fibres and stations change, and how fast that vanishes."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from tests.timed import YEARS, bars, beam, in_duct, making, strands

from soffit.member.beam import Beam, Load, Profile, Supports
from soffit.member.making import Scales, Stage
from soffit.member.time import past

STEEL = Scales(relaxation=1e-12)


def plank(scales: Scales) -> Beam:
    return beam(
        making(
            [Stage("release", 1.0, (0,)), Stage("load", 60.0, cases=("dead",)), Stage("age", YEARS)],
            scales,
        ),
        tendons=[strands(120.0, 1e4, 8)],
        loads=[Load("dead", 3.0, 0.0, 1e4)],
    )


def ends(b: Beam, per_decade: int) -> np.ndarray:
    p = past(b, per_decade=per_decade, pieces=4)
    m = p.middle
    return np.array([p.deflection[-1, m], p.tendons[0].stress[-1, m], p.bottom[-1, m]])


def test_steps_in_time_converge_with_the_second_order_until_the_first_step_counts() -> None:
    """Trapezoidal rule on a geometric grid: at 2, 4 and 8 steps a decade the error falls by 3, then by 2."""
    exact = ends(plank(STEEL), 96)
    errors = [np.abs(ends(plank(STEEL), n) - exact) for n in (2, 4, 8)]
    assert np.all(errors[1] < errors[0] / 3.0)
    assert np.all(errors[2] < errors[1] / 2.0)


def test_relaxation_by_the_stress_at_the_start_of_a_step_converges_with_the_first_order() -> None:
    exact = ends(plank(Scales()), 128)
    errors = [abs(ends(plank(Scales()), n)[1] - exact[1]) for n in (4, 8, 16)]
    for coarse, fine in pairwise(errors):
        assert 1.6 < coarse / fine < 2.6


def test_the_usual_steps_are_within_a_tenth_of_a_megapascal() -> None:
    usual, exact = ends(plank(Scales()), 8), ends(plank(Scales()), 128)
    assert abs(usual[1] - exact[1]) < 0.1
    assert abs(usual[0] - exact[0]) < 0.003 * abs(exact[0])


def cracked() -> Beam:
    return beam(
        making([Stage("support", 28.0), Stage("load", 28.0, cases=("dead",)), Stage("age", YEARS)]),
        bars=[bars(1200.0, 50.0), bars(300.0, 450.0)],
        loads=[Load("dead", 6.0, 0.0, 1e4)],
    )


@pytest.mark.parametrize(("fibres", "within"), [(30, 6e-3), (60, 2e-3), (120, 7e-4)])
def test_fibres_of_a_cracked_section_vanish_from_the_answer(fibres: int, within: float) -> None:
    exact = past(cracked(), fibres=480, pieces=8)
    p = past(cracked(), fibres=fibres, pieces=8)
    m = p.middle
    assert p.deflection[-1, m] == pytest.approx(exact.deflection[-1, m], rel=within)
    assert p.crack_stress[-1, m] == pytest.approx(exact.crack_stress[-1, m], rel=within)


def test_stations_vanish_from_open_moments() -> None:
    profile = Profile((0.0, 6000.0, 12000.0, 18000.0, 24000.0), (250.0, 100.0, 400.0, 100.0, 250.0), "reversed")
    b = beam(
        making([Stage("stress", 14.0, (0,)), Stage("grout", 16.0, (0,)), Stage("age", YEARS)]),
        length=24000.0,
        supports=Supports((0.0, 12000.0, 24000.0)),
        tendons=[in_duct(profile, 24000.0, 2)],
    )

    def middle(pieces: int) -> float:
        p = past(b, pieces=pieces)
        return float(p.moment[-1, int(np.argmin(np.abs(p.x - 12000.0)))])

    exact = middle(512)
    errors = [abs(middle(n) - exact) for n in (64, 128)]
    assert errors[0] < 4e-3 * abs(exact)
    assert errors[1] < 0.35 * errors[0]

"""Lives that begin at an age: where no time has passed they are those without a past; else by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tests.timed import STILL, YEARS, bars, beam, cast, in_duct, making, strands

from soffit.errors import PhysicsError
from soffit.member.beam import Beam, Load, Profile, Supports
from soffit.member.life import life
from soffit.member.making import Making, Stage, Topping
from soffit.member.result import Life
from soffit.member.time import past
from soffit.member.time.lived import lived
from soffit.member.time.stand import stand
from soffit.section.outline import rectangle

SPAN = 10000.0


def plank(stages: tuple[Stage, ...], topping: Topping | None = None, still: bool = True, length: float = SPAN) -> Beam:
    return beam(
        making(stages, STILL if still else None, topping),
        length=length,
        tendons=[strands(80.0, length)],
        bars=[bars(400.0, 460.0, length)],
        loads=[Load("dead", 1.0, 0.0, length), Load("live", 5.0, 0.0, length)],
    )


def load_of(story: Life, name: str) -> float:
    return next(e.load for e in story.events if e.event == name)


def test_a_bonded_beam_without_time_has_the_life_without_a_past() -> None:
    """Released and loaded at 28 days, nothing creeps: the two ways to the state before loading are one."""
    b = plank((Stage("release", 28.0, (0,)), Stage("load", 28.0, cases=("dead",)), Stage("age", 28.1)))
    by_past, plain = lived(b), life(b)
    for name, within in (("decompression", 0.01), ("first crack", 0.005), ("peak", 0.003)):
        assert load_of(by_past, name) == pytest.approx(load_of(plain, name), rel=within)
    assert by_past.failure.mode == plain.failure.mode
    assert by_past.age == pytest.approx(28.1)
    assert plain.age is None


def test_an_unbonded_beam_without_time_has_the_life_without_a_past() -> None:
    profile = Profile((0.0, 5000.0, SPAN), (250.0, 100.0, 250.0), "parabola")
    b = beam(
        making([Stage("stress", 28.0, (0,)), Stage("load", 28.0, cases=("dead",)), Stage("age", 28.1)], STILL),
        tendons=[in_duct(profile, SPAN, 1, bond="unbonded")],
        bars=[bars(800.0, 50.0), bars(400.0, 450.0)],
        loads=[Load("dead", 1.0, 0.0, SPAN), Load("live", 5.0, 0.0, SPAN)],
    )
    by_past, plain = lived(b), life(b)
    for name, within in (("first crack", 0.01), ("peak", 0.005)):
        assert load_of(by_past, name) == pytest.approx(load_of(plain, name), rel=within)


def test_a_continuous_beam_without_time_has_the_life_without_a_past() -> None:
    profile = Profile((0.0, 5000.0, 1e4, 15000.0, 2e4), (250.0, 100.0, 400.0, 100.0, 250.0), "parabola")
    b = beam(
        making([Stage("stress", 28.0, (0,)), Stage("grout", 28.0, (0,)), Stage("age", 28.1)], STILL),
        length=20000.0,
        supports=Supports((0.0, 1e4, 2e4)),
        tendons=[in_duct(profile, 20000.0, 1)],
        bars=[bars(800.0, 50.0, 2e4), bars(800.0, 450.0, 2e4)],
        loads=[Load("live", 5.0, 0.0, 2e4)],
    )
    by_past, plain = lived(b), life(b)
    for name in ("first crack", "peak"):
        assert load_of(by_past, name) == pytest.approx(load_of(plain, name), rel=0.02)


def test_the_first_crack_of_a_composite_beam_by_hand() -> None:
    """Soffit stress left by the past plus ΔM over the transformed composite section is the tensile strength then."""
    topping = Topping(rectangle(800.0, 100.0), 500.0, beam(making([])).concrete, cast(38.0))
    b = plank(
        (
            Stage("release", 2.0, (0,)),
            Stage("topping", 60.0),
            Stage("load", 90.0, cases=("dead",)),
            Stage("age", YEARS),
        ),
        topping,
        still=False,
    )
    p = past(b)
    begun = stand(p, YEARS)
    c, cast_on = begun.beam.concrete, begun.standing.topping
    assert cast_on is not None
    parts = [
        (c.modulus, b.outline.area, 250.0, b.outline.inertia),
        (cast_on.concrete.modulus, topping.outline.area, 550.0, topping.outline.inertia),
        (195e3 - c.modulus, 8 * 93.0, 80.0, 0.0),
        (200e3 - c.modulus, 400.0, 460.0, 0.0),
    ]
    ea = sum(e * a for e, a, _, _ in parts)
    centre = sum(e * a * y for e, a, y, _ in parts) / ea
    ei = sum(e * (i + a * (y - centre) ** 2) for e, a, y, i in parts)
    m = int(np.argmin(np.abs(p.x - 5000.0)))
    moment = (c.tensile - p.bottom[-1, m]) * ei / centre / c.modulus
    told = lived(b)
    assert load_of(told, "first crack") == pytest.approx(moment * 8.0 / SPAN, rel=3e-3)
    # the whole depth carries at the end: more than the same beam before its topping
    assert told.peak.load > 1.15 * lived(b, 59.0).peak.load


def test_years_take_from_the_cracking_load_and_not_from_the_strength() -> None:
    stages = (Stage("release", 4.0, (0,)), Stage("load", 60.0, cases=("dead",)), Stage("age", YEARS))
    b = plank(stages, still=False)
    young, old = lived(b, 61.0), lived(b)
    assert load_of(old, "decompression") < 0.97 * load_of(young, "decompression")
    assert old.peak.load > 0.97 * young.peak.load


@pytest.mark.parametrize("age", [0.5, 0.999])
def test_before_it_stands_there_is_nothing_to_load(age: float) -> None:
    b = plank((Stage("release", 1.0, (0,)), Stage("age", YEARS)))
    with pytest.raises(PhysicsError):
        lived(b, age)


def test_a_beam_without_stages_is_loaded_at_any_age_by_the_usual_ones() -> None:
    b = plank(())
    assert isinstance(b.making, Making)
    b = replace(b, making=replace(b.making, casting=cast(transfer_strength=30.0, transfer_age=1.0)))
    assert lived(b).age is None
    assert lived(b, 3650.0).age == 3650.0
    assert lived(replace(b, making=None)).age is None
    with pytest.raises(PhysicsError, match="humidity"):
        lived(replace(b, making=None), 3650.0)

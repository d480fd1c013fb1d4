"""What must hold of every beam in service by EN 1992-1-1."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.specimens import CONCRETE, FLAT, bars, beam, stirrups, uniform

from soffit.codes.design import Design
from soffit.codes.en1992 import bond, values
from soffit.codes.verification import verify
from soffit.codes.working import Check
from soffit.member.beam import BarGroup, Beam, StirrupZone
from soffit.section.outline import rectangle, tee

L = 8000.0
C30 = replace(CONCRETE, specified=30.0, strength=38.0)


def made(load: float, diameter: float = 20.0, cut: float = 900.0, **more) -> Beam:
    ends = {"end_left": "hook", "end_right": "straight"}
    low = bars(3, diameter, 53.0, L, FLAT, **ends)
    short = bars(2, diameter, 53.0, L, FLAT, x_from=cut, x_to=L - 600.0, end_left="straight", end_right="straight")
    more = {
        "bars": (low, short),
        "stirrups": (stirrups(L),),
        "concrete": C30,
        "loads": (uniform(L, load, "dead"),),
    } | more
    return beam(L, more.pop("outline", rectangle(300.0, 600.0)), **more)


def ratios(b: Beam, *keys: str) -> dict[str, float]:
    return {c.key: c.ratio for c in verify(b, "en1992", keys).checks}


KEYS = ("cracks", "stress-steel", "stress-concrete", "sagging", "curtailment", "end-anchorage")


@settings(max_examples=25, deadline=None)
@given(st.floats(18.0, 60.0), st.floats(1.02, 1.5))
def test_ratios_grow_with_the_load(load, more):
    less, greater = ratios(made(load), *KEYS), ratios(made(load * more), *KEYS)
    for key, value in less.items():
        if key != "end-anchorage-share":
            assert greater[key] >= value * (1.0 - 1e-9), key


@settings(max_examples=25, deadline=None)
@given(st.floats(20.0, 50.0), st.floats(16.0, 24.0), st.floats(1.05, 1.3))
def test_thicker_bars_hold_more(load, diameter, more):
    """Stress and deflection fall; the length that a bar needs grows with it."""
    thin, thick = (ratios(made(load, d), "stress-steel", "sagging") for d in (diameter, diameter * more))
    for key, value in thin.items():
        assert thick[key] <= value * (1.0 + 1e-9), key
    d = [Design(b, "en1992", values.opened(b)) for b in (made(load, diameter), made(load, diameter * more))]
    assert bond.full(d[0], d[0].beam.bars[1], 1, "left") < bond.full(d[1], d[1].beam.bars[1], 1, "left")


def mirrored(b: Beam) -> Beam:
    def bar(g: BarGroup) -> BarGroup:
        return replace(g, x_from=L - g.x_to, x_to=L - g.x_from, end_left=g.end_right, end_right=g.end_left)

    def zone(z: StirrupZone) -> StirrupZone:
        return replace(z, x_from=L - z.x_to, x_to=L - z.x_from)

    return replace(
        b, bars=tuple(bar(g) for g in b.bars), stirrups=tuple(zone(z) for z in b.stirrups),
        loads=tuple(replace(load, x_from=L - load.x_to, x_to=L - load.x_from) for load in b.loads),
    )  # fmt: skip


@settings(max_examples=25, deadline=None)
@given(st.floats(15.0, 50.0), st.floats(300.0, 1500.0), st.booleans())
def test_the_mirror_image_is_as_good(load, cut, flanged):
    outline = tee(600.0, 300.0, 900.0, 150.0) if flanged else rectangle(300.0, 600.0)
    b = made(load, cut=cut, outline=outline)
    one, other = ratios(b, *KEYS), ratios(mirrored(b), *KEYS)
    assert one.keys() == other.keys()
    for key, value in one.items():
        assert other[key] == pytest.approx(value, rel=1e-6), key


@settings(max_examples=25, deadline=None)
@given(st.floats(0.0, L), st.floats(200.0, 2000.0))
def test_a_share_that_is_developed_lies_between_nothing_and_all(x, cut):
    b = made(20.0, cut=cut)
    d = Design(b, "en1992", values.opened(b))
    for bar in d.cut(x).bars:
        assert 0.0 <= bond.developed(d, bar) <= 1.0


def test_every_check_shows_its_demand_and_its_resistance():
    for c in verify(made(30.0), "en1992").checks:
        assert isinstance(c, Check)
        names = [w.name for w in c.workings]
        assert c.demand in c.workings, (c.key, names)
        assert c.resistance in c.workings, (c.key, names)

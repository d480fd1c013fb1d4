"""Actions: what holds for every beam, load and vehicle."""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests import specimens

from soffit.codes.actions import actions
from soffit.member.beam import Load, Supports
from soffit.member.elastic_line import ElasticLine
from soffit.member.verifying import Vehicle, Verifying

STANDARDS = ("aci318-19", "en1992", "aashto-lrfd", "mc2010")
EI = 3e4, 4e8
lengths = st.integers(2000, 9000).map(float)
values = st.floats(0.5, 60.0).map(lambda x: round(x, 2))


@st.composite
def beams(draw, most=4):
    many = draw(st.lists(lengths, min_size=1, max_size=most))
    left, right = (draw(st.sampled_from((0.0, 700.0, 1500.0))) for _ in range(2))
    held = left + np.concatenate([[0.0], np.cumsum(many)])
    length = float(held[-1]) + right
    fixed = (draw(st.booleans()) and left == 0.0, draw(st.booleans()) and right == 0.0)
    loads = []
    for case in draw(st.lists(st.sampled_from(("dead", "live", "crowd", "snow", "wind")), min_size=1, max_size=4)):
        # to a millimetre, as files give places: closer to a support than 1e-3 mm a load stands over it
        a, b = sorted(round(draw(st.floats(0.0, 1.0)) * length) for _ in range(2))
        a, b = float(a), min(float(b), length)
        value = draw(values) * (1.0 if case != "wind" else draw(st.sampled_from((-1.0, 1.0))))
        if b - a < 50.0:
            loads.append(Load(case, 1e3 * value, a, a))
        else:
            loads.append(Load(case, value, a, b, draw(st.sampled_from((0.0, 150.0, -150.0)))))
    supports = Supports(tuple(float(x) for x in held), *fixed)
    return specimens.beam(length, supports=supports, loads=tuple(loads))


def stations(beam):
    held = sorted({0.0, *beam.supports.x, beam.length})
    fine = [x for a, b in itertools.pairwise(held) for x in np.linspace(a, b, 25)]
    places = [x for load in beam.loads for x in (load.x_from, load.x_to)]
    kept = []
    for x in sorted([*fine, *places]):
        if not kept or x - kept[-1] > 1e-2:
            kept.append(float(x))
    kept[-1] = beam.length
    return kept


def of(beam, standard="en1992"):
    return actions(beam, standard, stations(beam), *EI)


@given(beams())
@settings(max_examples=40, deadline=None)
def test_supports_together_carry_all_that_rests_on_the_beam(beam):
    x = np.array(stations(beam))
    found = ElasticLine(x, beam.length, beam.supports, 1.0).respond(beam.loads)
    # what the shear jumps by at a support, less a point load that stands there
    resting = sum(load.value * (1.0 if load.is_point else load.x_to - load.x_from) for load in beam.loads)
    jumps = 0.0
    for s in beam.supports.x:
        i = int(np.argmin(np.abs(x - s)))
        jumps += (0.0 if i == len(x) - 1 else found.shear[1, i]) - (0.0 if i == 0 else found.shear[0, i])
        jumps += sum(load.value for load in beam.loads if load.is_point and abs(load.x_from - s) < 1e-3)
    size = sum(abs(load.value) * (1.0 if load.is_point else load.x_to - load.x_from) for load in beam.loads)
    assert jumps == pytest.approx(resting, abs=1e-4 * size)


@given(beams(), st.sampled_from((1.0, 0.7)))
@settings(max_examples=40, deadline=None)
def test_the_moment_changes_by_the_area_of_the_shear(beam, keep):
    # between two stations without a load that begins or ends: trapezium, exact for the linear shear
    x = np.array(stations(beam))
    found = ElasticLine(x, beam.length, beam.supports, 1.0, keep).respond(beam.loads)
    area = 0.5 * (found.shear[1, :-1] + found.shear[0, 1:]) * np.diff(x)
    scale = np.abs(found.moment).max() + np.abs(found.shear).max()
    clear = np.diff(x) > 1.0
    assert np.diff(found.moment)[clear] == pytest.approx(area[clear], abs=1e-5 * scale + 1e-6)


choices = st.builds(
    Verifying,
    pattern=st.booleans(),
    redistribution=st.sampled_from((0.0, 0.2)),
    vehicles=st.sampled_from(((), (Vehicle("cart", "traffic", (40e3, 90e3), (1200.0,), 1.2),))),
    national=st.sampled_from(((), (("6.10ab", 1.0),))),
)


@given(beams(most=3), st.sampled_from(STANDARDS), choices)
@settings(max_examples=40, deadline=None)
def test_a_place_has_the_value_of_the_envelope_and_its_own_forces(beam, standard, choice):
    found = of(replace(beam, verifying=choice), standard)
    for state in ("ultimate", "characteristic", "frequent", "quasi-permanent"):
        most = found.envelope(state)
        for i in (0, len(found.x) // 3, len(found.x) // 2, len(found.x) - 1):
            x = float(found.x[i])
            shear = max(abs(most.shear_max[i]), abs(most.shear_min[i]), 0.0)
            sag = max(float(most.sag_max[i]), 0.0)
            for effect, value in (
                ("sagging", most.sagging[i]), ("hogging", most.hogging[i]), ("shear", shear),
                ("torsion", most.torsion[i]), ("sag", sag),
            ):  # fmt: skip
                at = found.at(state, effect, x, "E")
                # N·mm, N; of a deflection, mm
                near = pytest.approx(value, rel=1e-7, abs=1e-2 if effect != "sag" else 1e-9)
                assert at.working.value == near
                own = {"sagging": at.moment, "hogging": -at.moment, "shear": abs(at.shear), "torsion": abs(at.torsion)}
                assert value == 0.0 or own.get(effect, value) == near
                if value > 0.0 and effect in ("sagging", "hogging"):
                    assert abs(found.diagram(state, effect, x)[i]) == near


@given(beams(), st.sampled_from(STANDARDS))
@settings(max_examples=30, deadline=None)
def test_no_choice_of_spans_is_worse_than_the_envelope(beam, standard):
    free, fixed = of(beam, standard), of(replace(beam, verifying=Verifying(pattern=False)), standard)
    for state in ("ultimate", "quasi-permanent"):
        wide, narrow = free.envelope(state), fixed.envelope(state)
        for name in ("sagging", "hogging", "torsion", "shear_max", "sag_max"):
            a, b = getattr(wide, name), getattr(narrow, name)
            assert np.all(a >= b - 1e-9 * (np.abs(b).max() + 1.0))


@given(beams(), st.sampled_from(STANDARDS))
@settings(max_examples=25, deadline=None)
def test_a_beam_turned_round_has_the_envelope_turned_round(beam, standard):
    length = beam.length
    held = Supports(
        tuple(length - s for s in reversed(beam.supports.x)), beam.supports.fixed_right, beam.supports.fixed_left
    )
    loads = tuple(replace(load, x_from=length - load.x_to, x_to=length - load.x_from) for load in beam.loads)
    x = np.array(stations(beam))
    one = actions(beam, standard, x, *EI).envelope("ultimate")
    turned = replace(beam, supports=held, loads=loads)
    other = actions(turned, standard, [0.0, *(length - x[::-1])[1:-1], length], *EI).envelope("ultimate")
    size = np.abs(one.sagging).max() + np.abs(one.hogging).max()
    assert other.sagging[::-1] == pytest.approx(one.sagging, abs=1e-7 * size + 1e-3)
    assert other.hogging[::-1] == pytest.approx(one.hogging, abs=1e-7 * size + 1e-3)
    shear = np.abs(one.shear_max).max() + np.abs(one.shear_min).max()
    # 1e-3 mm beside a place
    assert -other.shear_min[::-1] == pytest.approx(one.shear_max, abs=1e-4 * shear)


@given(beams(), st.floats(1.0, 3.0), st.sampled_from(STANDARDS))
@settings(max_examples=25, deadline=None)
def test_more_of_a_variable_load_never_lowers_an_envelope(beam, times, standard):
    loads = tuple(replace(e, value=e.value * (1.0 if e.case == "dead" else times)) for e in beam.loads)
    less, more = of(beam, standard), of(replace(beam, loads=loads), standard)
    for state in ("ultimate", "characteristic"):
        for name in ("sagging", "hogging", "torsion"):
            a, b = (getattr(each.envelope(state), name) for each in (less, more))
            assert np.all(b >= a * (1.0 - 1e-9) - 1e-3)


@given(
    beams(most=3),
    st.lists(st.floats(5e3, 150e3), min_size=1, max_size=4),
    st.floats(600.0, 5000.0),
    st.floats(-0.3, 1.3),
)
@settings(max_examples=30, deadline=None)
def test_a_vehicle_anywhere_stays_within_its_envelope(beam, axles, gap, where):
    # at a place of its own choice, by the statics of point loads instead of influence lines
    cart = Vehicle("cart", "traffic", tuple(axles), (gap,) * (len(axles) - 1))
    alone = replace(beam, loads=(), verifying=Verifying(vehicles=(cart,)))
    found = of(alone)
    x = found.x
    first = where * beam.length
    places = [first - i * gap for i in range(len(axles))]
    loads = [Load("", a, p, p) for a, p in zip(axles, places, strict=True) if 0.0 <= p <= beam.length]
    alone_here = ElasticLine(x, beam.length, beam.supports, 1.0).respond(loads).moment
    most = found.envelope("characteristic")
    size = max(float(most.sagging.max()), float(most.hogging.max()))
    # influence lines of continuous beams are curved between stations: (1/24)² of a span's worth
    assert np.all(alone_here <= most.sagging + 2e-3 * size)
    assert np.all(-alone_here <= most.hogging + 2e-3 * size)

"""What holds for every life: order, finiteness, symmetry, scale, equilibrium and compatibility."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from soffit.materials import steel_laws
from soffit.materials.properties import concrete
from soffit.member import march, statics
from soffit.member.beam import BarGroup, Beam, Load, Press, Profile, Supports, TendonGroup
from soffit.member.life import life
from soffit.member.nodes import concrete_laws
from soffit.member.result import EVENTS, MODES, Life
from soffit.section.elastic import ElasticLayer, uncracked
from soffit.section.model import Layer, section
from soffit.section.moment_curvature import moment_curvature
from soffit.section.outline import rectangle
from specimens import BAR, CONCRETE, FLAT, STRAND, bars, beam, stirrups, tendon, uniform

L = 4000.0
few = settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)


@st.composite
def any_beam(draw: st.DrawFn) -> Beam:
    """A beam of one span, perhaps with an overhang or fixed ends, with bars, tendons or nothing."""
    length = draw(st.floats(1500.0, 9000.0))
    depth = draw(st.floats(0.04, 0.12)) * length
    width = draw(st.floats(0.3, 1.0)) * depth
    kind = draw(st.sampled_from(["plain", "barred", "pretensioned", "bonded", "unbonded", "mixed"]))
    low, area = 0.15 * depth, width * depth
    steel = draw(st.floats(0.001, 0.02)) * area
    put: dict[str, object] = {}
    if kind in ("barred", "mixed"):
        d = (4 * steel / 3 / pi) ** 0.5
        put["bars"] = (bars(3, d, low, length), bars(2, 0.5 * d, depth - low, length))
    if kind in ("pretensioned", "bonded", "unbonded", "mixed"):
        stress = draw(st.floats(400.0, 1300.0))
        # no more than a third of the strength at the soffit
        force = min(0.25 * steel * stress, 0.08 * area * CONCRETE.strength)
        put["tendons"] = (
            tendon(
                force / stress, low, length, stress,
                when="before casting" if kind == "pretensioned" else "after curing",
                bond="unbonded" if kind in ("unbonded", "mixed") else "bonded",
                diameter=min(12.5, length / 200),
            ),
        )  # fmt: skip
    if draw(st.booleans()):
        put["stirrups"] = (stirrups(length, 0.03 * depth, 0.3 * depth),)
    if draw(st.booleans()):
        a = draw(st.floats(0.2, 0.5)) * length
        put["press"] = Press((a, length - a) if a < 0.45 * length else (a,))
    else:
        put["loads"] = (uniform(length), Load("dead", 1e-5 * area, 0.0, length))
    put["supports"] = draw(st.sampled_from([Supports((0.0, length)), Supports((0.1 * length, length))]))
    return beam(length, rectangle(width, depth), **put)


def checked(told: Life) -> None:
    """What design.md §7 demands of a life."""
    assert [e for e in told.events if e.event not in EVENTS] == []
    assert told.failure.mode in MODES
    assert told.events[-1].event == "collapse"
    steps = [e.step for e in told.events]
    assert steps == sorted(steps), "events are not in the order in which they happen"
    names = [e.event for e in told.events]
    assert len(set(names)) == len(names)
    curve = told.curve
    for values in (curve.load, curve.deflection, curve.moment, curve.crack_width):
        assert np.all(np.isfinite(values))
        assert len(values) == len(curve.load)
    s = told.stations
    for rows in (s.moment, s.shear, s.curvature, s.deflection, s.crack_width, s.crack_depth):
        assert rows.shape == (len(curve.load), len(s.x))
        assert np.all(np.isfinite(rows))
    assert curve.load[0] == 0.0
    assert curve.deflection[0] == 0.0
    assert told.peak.load == pytest.approx(np.max(curve.load), rel=1e-9)
    for e in told.events:
        assert np.isfinite([e.load, e.moment, e.x, e.deflection]).all()
        assert 0 <= e.step < len(curve.load)
        assert -1e-3 <= e.x <= told.beam.length + 1e-3
        low, high = sorted(curve.load[max(e.step - 1, 0) : e.step + 1][[0, -1]])
        assert low * (1 - 1e-9) - 1e-6 <= e.load <= high * (1 + 1e-9) + 1e-6, e.event
    assert np.all(s.crack_width >= 0.0)
    assert np.all(np.abs(s.crack_depth) <= told.beam.outline.depth)
    assert told.failure.sentence.endswith(".")
    for state in told.sections:
        for values in (state.strain, state.stress, state.steel_strain, state.steel_stress):
            assert np.all(np.isfinite(values))


@few
@given(any_beam())
def test_every_life_is_whole(specimen):
    told = life(specimen)
    checked(told)
    # under a load that sags it, a beam goes down until its peak
    peak = int(np.argmax(told.curve.load))
    assert np.all(np.diff(told.curve.deflection[: peak + 1]) > -1e-9)
    assert np.all(np.diff(told.curve.load[: min(peak, 8) + 1]) >= 0.0)


# -- symmetry -----------------------------------------------------------------------------------------------------


def mirrored(specimen: Beam) -> Beam:
    """The same beam seen from behind."""
    length = specimen.length

    def bar(b: BarGroup) -> BarGroup:
        return replace(
            b, x_from=length - b.x_to, x_to=length - b.x_from, end_left=b.end_right, end_right=b.end_left
        )  # fmt: skip

    def cable(t: TendonGroup) -> TendonGroup:
        px, py = tuple(length - x for x in reversed(t.profile.x)), tuple(reversed(t.profile.y))
        side = {"left": "right", "right": "left", "both": "both"}[t.jacked_from]
        return replace(
            t, profile=replace(t.profile, x=px, y=py), x_from=length - t.x_to, x_to=length - t.x_from, jacked_from=side
        )  # fmt: skip

    s = specimen.supports
    return replace(
        specimen,
        bars=tuple(bar(b) for b in specimen.bars),
        tendons=tuple(cable(t) for t in specimen.tendons),
        stirrups=tuple(replace(z, x_from=length - z.x_to, x_to=length - z.x_from) for z in specimen.stirrups),
        loads=tuple(replace(p, x_from=length - p.x_to, x_to=length - p.x_from) for p in specimen.loads),
        press=specimen.press and Press(tuple(length - x for x in reversed(specimen.press.points))),
        supports=replace(
            s, x=tuple(length - x for x in reversed(s.x)), fixed_left=s.fixed_right, fixed_right=s.fixed_left
        ),
    )  # fmt: skip


def same(a: Life, b: Life, rel: float = 1e-6) -> None:
    assert a.failure.mode == b.failure.mode
    assert a.peak.load == pytest.approx(b.peak.load, rel=rel)
    assert a.peak.deflection == pytest.approx(b.peak.deflection, rel=1e-3)
    assert [e.event for e in a.events] == [e.event for e in b.events]


UNEVEN = {
    "curtailed": beam(
        L, bars=(bars(2, 16.0, 40.0, L), bars(2, 16.0, 40.0, L, x_from=700.0, x_to=3100.0)), stirrups=(stirrups(L),),
        press=Press((1500.0,)),
    ),
    "overhang": beam(
        L, supports=Supports((0.0, 3000.0)), bars=(bars(3, 12.0, 260.0, L), bars(3, 12.0, 40.0, L)),
        stirrups=(stirrups(L),), press=Press((L,)),
    ),
    "propped": beam(
        L, supports=Supports((0.0, L), fixed_left=True), bars=(bars(3, 12.0, 260.0, L), bars(3, 12.0, 40.0, L)),
        stirrups=(stirrups(L),), press=Press((1700.0,)),
    ),
    "draped": beam(
        L, bars=(bars(2, 12.0, 40.0, L),), stirrups=(stirrups(L),), loads=(Load("live", 1.0, 0.0, 2500.0),),
        tendons=(tendon(150.0, Profile((0.0, 1500.0, L), (170.0, 60.0, 140.0)), L, 1100.0, friction=0.2,
                        stress_is="at the jack"),),
    ),
    "plain": beam(L, press=Press((1300.0,))),
    "pretensioned": beam(
        L, tendons=(tendon(150.0, 60.0, L, 1100.0, when="before casting", bond="bonded", transfer_length=500.0),),
        stirrups=(stirrups(L),), press=Press((1800.0,)),
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", UNEVEN)
def test_mirror_image(name):
    a, b = life(UNEVEN[name]), life(mirrored(UNEVEN[name]))
    same(a, b)
    assert a.failure.x == pytest.approx(L - b.failure.x, abs=1.0)


def test_a_cantilever_with_its_bars_on_top_is_a_simple_span_upside_down():
    """Hogging is sagging seen from above: the root of a cantilever is half of a span loaded in its middle."""
    half = beam(L / 2, supports=Supports((0.0,), fixed_left=True), bars=(bars(3, 12.0, 260.0, L / 2),),
                stirrups=(stirrups(L / 2, legs=1),), press=Press((L / 2,)))  # fmt: skip
    span = beam(L, bars=(bars(3, 12.0, 40.0, L),), stirrups=(stirrups(L, legs=1),), press=Press((L / 2,)))
    a, b = life(half), life(span)
    assert a.failure.mode == b.failure.mode
    assert 2 * a.peak.load == pytest.approx(b.peak.load, rel=1e-6)
    assert a.peak.moment == pytest.approx(-b.peak.moment, rel=1e-6)
    assert a.peak.deflection == pytest.approx(b.peak.deflection, rel=1e-3)


# -- scale --------------------------------------------------------------------------------------------------------


def test_two_beams_side_by_side_carry_twice_as_much():
    one = beam(L, bars=(bars(2, 16.0, 40.0, L),), stirrups=(stirrups(L, legs=1),))
    z = one.stirrups[0]
    two = replace(
        one, outline=rectangle(400.0, 300.0), bars=(bars(4, 16.0, 40.0, L),), stirrups=(replace(z, area=2 * z.area),)
    )
    a, b = life(one), life(two)
    np.testing.assert_allclose(b.curve.load, 2 * a.curve.load, rtol=1e-6)
    np.testing.assert_allclose(b.curve.deflection, a.curve.deflection, rtol=1e-5, atol=1e-9)


def test_a_model_of_half_size_carries_a_quarter():
    """Every length halved, the stresses stay (without what knows a length: cohesive crack, shear size effect)."""
    big = beam(L, bars=(bars(2, 16.0, 40.0, L),), stirrups=(stirrups(L, legs=1),))
    z = big.stirrups[0]
    small = beam(
        L / 2, rectangle(100.0, 150.0), bars=(bars(2, 8.0, 20.0, L / 2),),
        stirrups=(replace(z, x_to=L / 2, area=z.area / 4, spacing=z.spacing / 2, diameter=z.diameter / 2),),
    )  # fmt: skip
    a, b = life(big), life(small)
    assert b.peak.load == pytest.approx(a.peak.load / 4, rel=1e-5)
    assert b.peak.deflection == pytest.approx(a.peak.deflection / 2, rel=1e-4)


# -- more of a good thing -------------------------------------------------------------------------------------------


def loads(told: Life) -> dict[str, float]:
    return {e.event: e.load for e in told.events}


@pytest.mark.parametrize("bond", ["bonded", "unbonded"])
def test_more_prestress_decompresses_and_cracks_later(bond):
    """And adds little to the peak where the steel is bonded, for it yields all the same (design.md §8, issue 2)."""
    told = [life(beam(L, tendons=(tendon(200.0, 75.0, L, s, bond=bond),))) for s in (200.0, 500.0, 800.0, 1100.0)]
    for event in ("decompression", "first crack"):
        assert np.all(np.diff([loads(t)[event] for t in told]) > 0.0)
    if bond == "bonded":
        assert loads(told[-1])["first crack"] > 2.5 * loads(told[0])["first crack"]
        assert told[0].peak.load < told[-1].peak.load < 1.15 * told[0].peak.load


def test_more_steel_never_lowers_the_peak_of_an_under_reinforced_beam():
    peaks = [life(beam(L, bars=(bars(n, 12.0, 40.0, L),), stirrups=(stirrups(L),))).peak.load for n in range(2, 8)]
    assert np.all(np.diff(peaks) > 0.0)


@pytest.mark.parametrize("put", [{}, {"bars": (bars(3, 16.0, 40.0, L),)}, {"bars": (bars(6, 25.0, 60.0, L),)}])
def test_stronger_concrete_never_lowers_the_peak(put):
    peaks = [
        life(beam(L, concrete=concrete(f), stirrups=(stirrups(L, 10.0, 80.0),), **put)).peak.load
        for f in (20.0, 30.0, 45.0, 60.0)
    ]
    assert np.all(np.diff(peaks) > 0.0)


# -- equilibrium and compatibility, found again by other means ---------------------------------------------------------


def fibre_moment(
    specimen: Beam, soffit: float, curvature: float, layers: list[tuple[float, float, object, float]]
) -> tuple[float, float]:
    """N and M about mid-depth by 4000 fibres and the stress–strain curves themselves (no tables, no closed forms)."""
    law, _ = concrete_laws(specimen, 1.0)
    depth = specimen.outline.depth
    y = (np.arange(4000) + 0.5) * depth / 4000
    width = np.array([specimen.outline.width(float(v)) for v in y])
    force = law(soffit - curvature * y) * width * depth / 4000
    n, m = float(np.sum(force)), float(-np.sum(force * (y - specimen.outline.centroid)))
    for at, area, steel, pre in layers:
        strain = soffit - curvature * at
        stress = float(steel(strain + pre)) - float(law(strain))
        n += area * stress
        m -= area * stress * (at - specimen.outline.centroid)
    return n, m


def marched(specimen: Beam, monkeypatch: pytest.MonkeyPatch) -> tuple[Life, march.History, object]:
    """The life with the march that it was told from."""
    from soffit.member import life as module

    kept: list[object] = []

    def spy(nodes: object, *more: object) -> object:
        found = march.march(nodes, *more)
        kept.append((found[0], nodes))
        return found

    monkeypatch.setattr(module, "march", spy)
    told = module.life(specimen)
    history, nodes = kept[0]
    return told, history, nodes


def test_cracked_sections_are_in_equilibrium(monkeypatch):
    """At stations along the beam and steps of the life the state at the crack carries the moment of the loads."""
    specimen = beam(
        L, bars=(bars(3, 16.0, 40.0, L), bars(2, 12.0, 260.0, L)), loads=(uniform(L, 4.0, "dead"),),
        stirrups=(stirrups(L, legs=1),), press=Press((1500.0, 2600.0)),
    )  # fmt: skip
    _, h, nodes = marched(specimen, monkeypatch)
    law = steel_laws.curve(BAR)
    layers = [(b.y, b.area, law, 0.0) for b in specimen.bars]
    peak = int(np.argmax(h.factor))
    seen = 0
    for step in (15, peak // 2, peak - 1, peak):
        for j in (*(int(np.argmin(np.abs(nodes.x - x))) for x in (700.0, 900.0, 3300.0)), int(h.station[step])):
            if h.sign[step, j] == 0:
                continue
            n, m = fibre_moment(specimen, h.cracked_soffit[step, j], h.cracked_curvature[step, j], layers)
            assert m == pytest.approx(h.on_section[step, j], rel=2e-4), (step, nodes.x[j])
            assert n == pytest.approx(0.0, abs=1e-4 * specimen.concrete.strength * specimen.outline.area)
            # and that moment is the one of the loads
            x, p = nodes.x[j], h.factor[step]
            dead = 4.0 * x * (L - x) / 2
            points = sum(p / 2 * (min(x, a) - x * a / L) for a in (1500.0, 2600.0))
            assert h.on_section[step, j] == pytest.approx(dead + points, rel=1e-9)
            seen += 1
    assert seen >= 8


def test_mean_curvatures_add_up_to_the_deflection():
    told = life(beam(L, bars=(bars(3, 16.0, 40.0, L),), stirrups=(stirrups(L),), press=Press((L / 2,))))
    x, k, v = told.stations.x, told.stations.curvature[-3], told.stations.shear[-3]
    # virtual work of a unit load at midspan, shear stiffness 5/6 G b h
    unit = np.minimum(x, L - x) / 2
    ga = CONCRETE.modulus / 2.4 * 200.0 * 300.0 * 5 / 6
    bend = np.sum(0.5 * (k[1:] * unit[1:] + k[:-1] * unit[:-1]) * np.diff(x))
    slide = np.trapezoid(v * np.sign(L / 2 - x) * 0.5, x) / ga
    middle = int(np.argmin(np.abs(x - L / 2)))
    assert told.stations.deflection[-3, middle] == pytest.approx(bend + slide, rel=2e-3)


def test_force_of_an_unbonded_tendon_follows_from_the_member(monkeypatch):
    """Its mean strain is that of the concrete at its height, integrated anew by Simpson's rule from the states kept."""
    from scipy.integrate import trapezoid

    profile = Profile((0.0, L / 2, L), (150.0, 60.0, 150.0), "parabola")
    specimen = beam(
        L, bars=(bars(2, 12.0, 40.0, L),), tendons=(tendon(150.0, profile, L, 1000.0),), stirrups=(stirrups(L),),
        loads=(uniform(L),),
    )  # fmt: skip
    _, h, nodes = marched(specimen, monkeypatch)
    law = steel_laws.curve(STRAND)
    y = 60.0 + 90.0 * (2 * nodes.x / L - 1) ** 2
    mean = trapezoid(h.soffit - h.curvature * y, nodes.x, axis=1) / L
    start = float(np.interp(1000.0, law(np.linspace(0, 0.009, 9001)), np.linspace(0, 0.009, 9001)))
    force = law(start + mean - mean[0]) * 150.0
    np.testing.assert_allclose(h.unknown[:, 0], force, rtol=1e-5)
    # the beam has taken its tendon with it: by the peak the stress has risen a good deal
    assert h.unknown[np.argmax(h.factor), 0] > 1.1 * h.unknown[0, 0]
    # and on every section the axial force is that of the tendon
    np.testing.assert_allclose(h.axial, -h.unknown[:, :1] * np.ones_like(h.axial), rtol=1e-12)


# -- plastic theory ---------------------------------------------------------------------------------------------------


def admissible(specimen: Beam, sagging: float, hogging: float) -> float:
    """Greatest load for which support moments exist that keep every section below its strength (static theorem)."""
    x = np.linspace(0.0, specimen.length, 601)
    x = np.unique([*x, *specimen.supports.x, *(specimen.press.points if specimen.press else ())])
    dead = [p for p in specimen.loads if p.case == "dead"]
    live = [p for p in specimen.loads if p.case != "dead"]
    if specimen.press is not None:
        live = [statics.point(1.0, p) for p in specimen.press.points]
    permanent = statics.released(x, specimen.length, specimen.supports, dead).moment
    rising = statics.released(x, specimen.length, specimen.supports, live).moment / statics.total(live)
    units = [d.moment for d in statics.redundant_diagrams(x, specimen.length, specimen.supports)]
    columns = np.column_stack([rising, *units]) / 1e6
    found = linprog(
        [-1.0, *np.zeros(len(units))],
        A_ub=np.vstack([columns, -columns]),
        b_ub=np.concatenate([sagging - permanent, hogging + permanent]) / 1e6,
        bounds=[(0.0, None), *[(None, None)] * len(units)],
    )
    assert found.status == 0
    return float(found.x[0])


@st.composite
def redundant(draw: st.DrawFn) -> Beam:
    """Bars at both faces, fixed ends or several spans, any load; stirrups that hold the web but confine nothing."""
    length = draw(st.floats(5000.0, 12000.0))
    inner = draw(st.floats(0.35, 0.65)) * length
    supports = draw(
        st.sampled_from(
            [
                Supports((0.0, length), fixed_left=True, fixed_right=True),
                Supports((0.0, length), fixed_left=True),
                Supports((0.0, inner, length)),
                Supports((0.0, 0.3 * length, 0.7 * length, length)),
                Supports((0.1 * length, 0.5 * length, 0.9 * length)),
            ]
        )
    )
    a = draw(st.floats(0.15, 0.45)) * length
    load: dict[str, object] = (
        {"press": Press((a, length - a))} if draw(st.booleans()) else {"loads": (uniform(length),)}
    )
    below, above = draw(st.integers(2, 5)), draw(st.integers(2, 5))
    steel = draw(st.sampled_from([BAR, FLAT]))
    return beam(
        length,
        supports=supports,
        bars=(bars(below, 12.0, 40.0, length, steel), bars(above, 12.0, 260.0, length, steel)),
        stirrups=(stirrups(length, 10.0, 60.0, legs=1),),
        **load,
    )


@settings(few, max_examples=6)
@given(redundant())
def test_no_beam_carries_more_than_plastic_theory_allows(specimen):
    """And a ductile one comes near to it: its first hinges are past their best when the last one turns."""
    law, _ = concrete_laws(specimen, 1.0)
    made = section(specimen.outline, law, [Layer(b.y, b.area, steel_laws.curve(b.steel)) for b in specimen.bars])
    strengths = [abs(moment_curvature(made, hogging=h).peak.moment) for h in (False, True)]
    bound = admissible(specimen, *strengths)
    told = life(specimen)
    assert told.peak.load <= 1.01 * bound
    if told.failure.mode == "tension-controlled flexure":
        assert told.peak.load >= 0.8 * bound


def test_tension_stiffening_between_the_cracks(monkeypatch):
    """Mean curvature = ζ κII + (1 − ζ) κI with ζ = 1 − (Mcr/M)² (EN 1992-1-1 (7.18), (7.19), first loading)."""
    specimen = beam(L, bars=(bars(3, 16.0, 40.0, L),), stirrups=(stirrups(L),), press=Press((L / 2,)))
    _, h, nodes = marched(specimen, monkeypatch)
    t = uncracked(rectangle(200.0, 300.0), CONCRETE.modulus, [ElasticLayer(40.0, specimen.bars[0].area, BAR.modulus)])
    cracking = CONCRETE.tensile * t.inertia / t.centroid
    j = int(np.argmin(np.abs(nodes.x - 1000.0)))
    step = int(np.argmax(h.factor)) - 5
    moment = h.factor[step] * nodes.x[j] / 2
    assert moment > 2 * cracking
    share = 1 - (cracking / moment) ** 2
    mean = share * h.cracked_curvature[step, j] + (1 - share) * moment / (CONCRETE.modulus * t.inertia)
    assert h.curvature[step, j] == pytest.approx(mean, rel=1e-6)


def test_deflection_is_read_at_the_gauge():
    specimen = beam(L, bars=(bars(3, 16.0, 40.0, L),), stirrups=(stirrups(L),))
    assert specimen.press is not None
    told = life(replace(specimen, press=replace(specimen.press, gauge=900.0)))
    assert told.gauge == 900.0
    at = int(np.argmin(np.abs(told.stations.x - 900.0)))
    np.testing.assert_allclose(told.curve.deflection, told.stations.deflection[:, at] - told.stations.deflection[0, at])
    assert life(specimen).gauge == pytest.approx(L / 2, abs=1.0)


# -- what is told of the curve ----------------------------------------------------------------------------------------


def test_warning_is_the_deflection_and_the_work_at_the_peak_over_those_at_first_crack():
    told = life(beam(L, bars=(bars(3, 16.0, 40.0, L),), stirrups=(stirrups(L),), press=Press((L / 2,))))
    crack = next(e for e in told.events if e.event == "first crack")
    assert told.warning.deflection_ratio == pytest.approx(told.peak.deflection / crack.deflection, rel=1e-9)
    peak = int(np.argmax(told.curve.load))
    work = float(np.trapezoid(told.curve.load[: peak + 1], told.curve.deflection[: peak + 1]))
    # straight to the first crack
    assert told.warning.energy_ratio == pytest.approx(work / (crack.load * crack.deflection / 2), rel=1e-6)
    assert told.warning.word == "ample"
    assert not told.failure.brittle


@pytest.mark.parametrize(("capacity", "enough"), [(5e5, True), (5e4, False)])
def test_what_is_used_of_the_press(capacity, enough):
    told = life(
        beam(L, bars=(bars(3, 16.0, 40.0, L),), stirrups=(stirrups(L),), press=Press((L / 2,), capacity=capacity))
    )
    assert told.press is not None
    assert told.press.can_break_it == enough
    assert told.press.capacity_used == pytest.approx(told.peak.load / capacity)
    assert life(beam(L, loads=(uniform(L),))).press is None


def test_the_same_beam_has_the_same_life():
    """No state is kept from one life to the next."""
    one, other = life(UNEVEN["draped"]), life(UNEVEN["draped"])
    np.testing.assert_array_equal(one.curve.load, other.curve.load)
    np.testing.assert_array_equal(one.stations.deflection, other.stations.deflection)
    assert one.events == other.events

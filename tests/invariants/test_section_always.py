"""What holds for every section: random outlines with holes, random steel, every mean law, with and
without force.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from math import isnan

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, example, given, settings
from hypothesis import strategies as st

from soffit.materials import compression, steel_laws, tension
from soffit.materials.concrete import Concrete
from soffit.materials.curve import Piece, StressStrain, join, line
from soffit.materials.design_laws import aci_block
from soffit.materials.steel import Steel
from soffit.section import elastic, kernel
from soffit.section.elastic import ElasticLayer
from soffit.section.interaction import ACI, at_axial, at_depth
from soffit.section.model import Layer, Section, section
from soffit.section.moment_curvature import moment_curvature
from soffit.section.outline import Outline, polygon

Point = tuple[float, float]
STEELS = {
    "plateau": Steel("plateau", 200000.0, 500.0, 600.0, 0.08, hardening_strain=0.01),
    "bilinear": Steel("bilinear", 200000.0, 500.0, 550.0, 0.05),
    "strand": Steel("strand", 195000.0, 1674.0, 1860.0, 0.035),
    "linear": Steel("linear", 50000.0, 1000.0, 1000.0, 0.02),
}
ELASTIC_PLASTIC = StressStrain(
    (line(-0.2, -0.0025, -500.0, -500.0), line(-0.0025, 0.0025, -500.0, 500.0), line(0.0025, 0.2, 500.0, 500.0)), ""
)


def examples(n: int) -> settings:
    """Samples of a whole section are slow to draw; no deadline, as the first one compiles."""
    return settings(
        max_examples=n, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
    )


@dataclass(frozen=True)
class Sample:
    """What a section is made of, so that a test can make it anew turned over or in other units."""

    right: tuple[Point, ...]
    """Half widths from the soffit up (x, y); the outline is symmetric."""
    hole: tuple[Point, ...]
    layers: tuple[tuple[float, float, str, float], ...]
    """y, area, steel, prestrain."""
    concrete: Concrete
    band: float
    axial: float

    @property
    def depth(self) -> float:
        return self.right[-1][1]

    def outline(self) -> Outline:
        ring = [*self.right, *((-x, y) for x, y in reversed(self.right))]
        return polygon(ring, [self.hole] if self.hole else [])

    def law(self) -> StressStrain:
        return join("", "", compression.curve(self.concrete), tension.cohesive(self.concrete, self.band))

    def section(self) -> Section:
        laws = {kind: steel_laws.LAWS[kind].curve(steel) for kind, steel in STEELS.items()}
        return section(self.outline(), self.law(), [Layer(y, a, laws[k], p) for y, a, k, p in self.layers])

    def turned_over(self) -> Sample:
        h = self.depth
        return replace(
            self,
            right=tuple((x, h - y) for x, y in reversed(self.right)),
            hole=tuple((x, h - y) for x, y in self.hole),
            layers=tuple((h - y, *rest) for y, *rest in self.layers),
        )


@st.composite
def samples(draw: st.DrawFn) -> Sample:
    n = draw(st.integers(2, 6))
    heights = np.cumsum([0.0, *(draw(st.floats(30.0, 400.0)) for _ in range(n - 1))])
    right = tuple((draw(st.floats(40.0, 600.0)), float(y)) for y in heights)
    depth, narrow = float(heights[-1]), min(x for x, _ in right)
    hole: tuple[Point, ...] = ()
    if draw(st.booleans()):
        low, high = (draw(st.floats(a, b)) * depth for a, b in ((0.15, 0.4), (0.5, 0.85)))
        x = draw(st.floats(0.2, 0.7)) * narrow
        hole = ((-x, low), (x, low), (0.8 * x, high), (-0.8 * x, high))
    concrete = Concrete(
        strength=draw(st.floats(15.0, 80.0)),
        tensile=draw(st.floats(1.0, 5.0)),
        modulus=draw(st.floats(28000.0, 45000.0)),
        fracture_energy=draw(st.floats(0.05, 0.2)),
        peak_strain=draw(st.floats(0.0022, 0.0035)),
        law=draw(st.sampled_from(["popovics", "en1992"])),
    )
    assume(concrete.modulus * concrete.peak_strain > 1.05 * concrete.strength)
    area = 2.0 * narrow * depth
    layers = []
    for _ in range(draw(st.integers(0, 4))):
        kind = draw(st.sampled_from(sorted(STEELS)))
        prestrain = draw(st.floats(0.0, 0.006)) if kind == "strand" else 0.0
        share = draw(st.floats(1e-4, 2e-3 if prestrain else 1e-2))
        layers.append((draw(st.floats(0.05, 0.95)) * depth, share * area, kind, prestrain))
    axial = draw(st.floats(-0.3, 0.0)) * concrete.strength * area
    return Sample(right, hole, tuple(layers), concrete, draw(st.floats(50.0, 500.0)), axial)


def integrals(sample: Sample, soffit: float, curvature: float, axis: float) -> tuple[float, float]:
    """Force and moment by Gauss quadrature of the laws themselves, between every kink: independent of the
    kernel.
    """
    law, outline = sample.law(), sample.outline()
    x, w = np.polynomial.legendre.leggauss(24)
    breaks = np.array([*(p.low for p in law.pieces), law.high])
    force = moment = 0.0
    for y0, y1, w0, w1 in outline.strips:
        # where the strains differ by less than rounding there is nothing to cut
        varies = abs(curvature) * outline.depth > 1e-15
        kinks = np.sort((soffit - breaks) / curvature) if varies else np.empty(0)
        cuts = np.unique([y0, *kinks[(kinks > y0) & (kinks < y1)], y1])
        # every stretch in eight, since a branch that falls steeply is no polynomial
        cuts = np.unique(np.concatenate([np.linspace(a, b, 9) for a, b in pairwise(cuts)]))
        for a, b in pairwise(cuts):
            y = 0.5 * (a + b) + 0.5 * (b - a) * x
            f = 0.5 * (b - a) * w * law(soffit - curvature * y) * (w0 + (w1 - w0) * (y - y0) / (y1 - y0))
            force, moment = force + f.sum(), moment - (f * (y - axis)).sum()
    for y, area, kind, prestrain in sample.layers:
        strain = soffit - curvature * y
        f = area * float(steel_laws.LAWS[kind].curve(STEELS[kind])(strain + prestrain) - law(strain))
        force, moment = force + f, moment - f * (y - axis)
    return float(force), float(moment)


def displaced_jump(sample: Sample, soffit: float, curvature: float) -> float:
    """Force that jumps where a layer stands exactly at a drop of the concrete's stress, which it displaces.

    The equilibrium of such a section lies within the jump: the steel has a size, and the drop runs through it.
    """
    law, jump = sample.law(), 0.0
    ends = [p.low for p in law.pieces] + [law.high]
    for y, area, *_ in sample.layers:
        for end in ends:
            if abs(soffit - curvature * y - end) < 1e-12:
                # a hair to the left and to the right, outside the curve the stress is zero
                jump += area * abs(float(law(end + 1e-9)) - float(law(end - 1e-9)))
    return jump


@examples(60)
@given(samples(), st.booleans())
def test_equilibrium_holds_along_the_path(sample, hogging):
    """The force recovered by independent quadrature is the one asked for, at every point and event of the
    path.

    The table of a law errs by 1e-7 of the strength. A point in a jump of stress (rupture) is left out.
    """
    s = sample.section()
    found = moment_curvature(s, axial=sample.axial, hogging=hogging)
    assume(len(found.moment) > 1)
    points = list(zip(found.curvature, found.soffit, found.moment, strict=True))[:: max(1, len(found.moment) // 12)]
    points += [(e.curvature, e.soffit, e.moment) for e in found.events if e.kind not in ("rupture", "first crack")]
    for k, e, m in points:
        force, moment = integrals(sample, float(e), float(k), s.axis)
        jump = displaced_jump(sample, float(e), float(k))
        assert force == pytest.approx(sample.axial, abs=5e-7 * s.scale + jump)
        assert moment == pytest.approx(m, abs=5e-7 * s.scale * s.depth + jump * s.depth)
        assert s.resultants(e, k)[0] == pytest.approx(sample.axial, abs=1.01e-10 * s.scale + jump)


@examples(60)
@given(samples(), st.floats(-0.01, 0.01), st.floats(-4e-5, 4e-5))
def test_resultants_are_the_integrals_of_the_laws(sample, strain, curvature):
    s = sample.section()
    soffit = strain + curvature * sample.depth / 2
    force, moment = integrals(sample, soffit, curvature, s.axis)
    assert s.resultants(soffit, curvature) == (
        pytest.approx(force, abs=5e-7 * s.scale),
        pytest.approx(moment, abs=5e-7 * s.scale * s.depth),
    )


@examples(60)
@given(samples(), st.booleans())
def test_turned_over_it_bends_the_other_way(sample, hogging):
    over = sample.turned_over()
    here = moment_curvature(sample.section(), axial=sample.axial, hogging=hogging)
    there = moment_curvature(over.section(), axial=sample.axial, hogging=not hogging)
    size = max(abs(here.peak.moment), 1e-6 * sample.section().scale * sample.depth)
    assert here.peak.moment == pytest.approx(-there.peak.moment, abs=1e-6 * size, nan_ok=True)
    for event in here.events:
        if abs(event.curvature) > abs(here.peak.curvature):
            continue  # behind the peak a path may snap, and a fold doubles the kernel's tolerance in digits
        same = there.event(event.kind, event.layer)
        assert same is not None
        assert event.moment == pytest.approx(-same.moment, abs=1e-6 * size)
        assert event.curvature == pytest.approx(-same.curvature, rel=1e-5, abs=1e-12)
    s, t = sample.section(), over.section()
    n, m = s.resultants(1e-3, 2e-6)
    n2, m2 = t.resultants(1e-3 - 2e-6 * sample.depth, -2e-6)
    assert (n2, m2) == (pytest.approx(n, abs=1e-9 * s.scale), pytest.approx(-m, abs=1e-9 * s.scale * s.depth))


@examples(40)
@given(samples(), st.sampled_from([1.0 / 32.0, 1.0 / 1024.0, 8.0]))
def test_the_unit_of_length_does_not_matter(sample, factor):
    """The same section in other units of length (stress in MPa still, force in MPa · unit²).

    Powers of two, so that every number scales to the last digit: where a law ends in a drop, two equilibria may lie
    side by side, and rounding would decide which is met.
    """
    other = replace(
        sample,
        right=tuple((factor * x, factor * y) for x, y in sample.right),
        hole=tuple((factor * x, factor * y) for x, y in sample.hole),
        layers=tuple((factor * y, factor**2 * a, k, p) for y, a, k, p in sample.layers),
        concrete=replace(sample.concrete, fracture_energy=factor * sample.concrete.fracture_energy),
        band=factor * sample.band,
        axial=factor**2 * sample.axial,
    )
    here = moment_curvature(sample.section(), axial=sample.axial)
    there = moment_curvature(other.section(), axial=other.axial)
    assert isnan(here.peak.moment) == isnan(there.peak.moment)
    if not isnan(here.peak.moment):
        assert there.peak.moment == pytest.approx(factor**3 * here.peak.moment, rel=1e-6)


@examples(80)
@given(samples(), st.floats(-0.008, 0.008), st.floats(-3e-5, 3e-5))
def test_tangents_are_the_slopes_of_the_resultants(sample, strain, curvature):
    """Central differences, away from the strains at which a layer stands on a kink of its law."""
    s = sample.section()
    assume(abs(curvature) * sample.depth > 1e-4)  # below, a strip is nearly uniform and may straddle a jump
    soffit = strain + curvature * sample.depth / 2
    for y, _, kind, prestrain in sample.layers:
        e = soffit - curvature * y
        kinks = [p.low for p in sample.law().pieces] + [sample.law().high]
        assume(min(abs(e - k) for k in kinks) > 1e-5)
        curve = steel_laws.LAWS[kind].curve(STEELS[kind])
        assume(min(abs(e + prestrain - k) for k in [*(p.low for p in curve.pieces), curve.high]) > 1e-5)
    n, m, n_e, n_k, m_k = kernel.resultants(*s.arrays, s.axis, soffit, curvature)
    de, dk = 1e-6, 1e-6 / sample.depth
    up, down = s.resultants(soffit + de, curvature), s.resultants(soffit - de, curvature)
    left, right = s.resultants(soffit, curvature - dk), s.resultants(soffit, curvature + dk)
    stiff = sample.concrete.modulus * sample.outline().area + sum(a * 2e5 for _, a, _, _ in sample.layers)
    close = 2e-4 * stiff
    assert (up[0] - down[0]) / (2 * de) == pytest.approx(n_e, abs=close)
    assert (right[0] - left[0]) / (2 * dk) == pytest.approx(n_k, abs=close * sample.depth)
    assert (right[1] - left[1]) / (2 * dk) == pytest.approx(m_k, abs=close * sample.depth**2)
    # dM/de follows from symmetry about the axis
    assert (up[1] - down[1]) / (2 * de) == pytest.approx(n_k + s.axis * n_e, abs=close * sample.depth)
    assert (n, m) == s.resultants(soffit, curvature)


@examples(40)
@given(samples(), st.floats(-3e-3, 6e-3), st.floats(-2e-5, 2e-5))
def test_a_hole_is_its_concrete_less(sample, soffit, curvature):
    assume(sample.hole)
    plain, law, axis = replace(sample, layers=()), sample.law(), 100.0
    low = min(y for _, y in sample.hole)
    with_hole = section(plain.outline(), law, axis=axis)
    solid = section(replace(plain, hole=()).outline(), law, axis=axis)
    # the hole as a section of its own stands on its own soffit
    void = section(polygon(sample.hole), law, axis=axis - low)
    a, b = solid.resultants(soffit, curvature), void.resultants(soffit - curvature * low, curvature)
    assert with_hole.resultants(soffit, curvature) == (
        pytest.approx(a[0] - b[0], abs=1e-9 * solid.scale),
        pytest.approx(a[1] - b[1], abs=1e-9 * solid.scale * sample.depth),
    )


@examples(40)
@given(samples(), st.floats(-4e-5, 4e-5))
def test_force_grows_with_strain_where_no_law_softens(sample, curvature):
    """Elastic–plastic steel and a parabola–rectangle without end or tension: N(soffit strain) never
    falls.
    """
    f = sample.concrete.strength
    hardening = StressStrain(
        (
            line(-0.3, -0.002, -f, -f),
            Piece(-0.002, 0.0, lambda e: -f * (1 - (1 + e / 0.002) ** 2)),
        )
    )
    layers = [Layer(y, a, ELASTIC_PLASTIC, displaces=False) for y, a, _, _ in sample.layers]
    s = section(sample.outline(), hardening, layers)
    strains = np.linspace(-0.01, 0.01, 200) + curvature * sample.depth / 2
    forces = np.array([s.resultants(float(e), curvature)[0] for e in strains])
    assert np.all(np.diff(forces) >= -1e-9 * s.scale)


@examples(60)
@given(samples(), st.booleans())
def test_the_peak_is_on_top_and_events_are_where_they_say(sample, hogging):
    s, side = sample.section(), (-1.0 if hogging else 1.0)
    found = moment_curvature(s, axial=sample.axial, hogging=hogging)
    assume(len(found.moment) > 1)
    assert side * found.peak.moment >= np.max(side * found.moment)
    assert all(side * found.peak.moment >= side * e.moment for e in found.events)
    assert np.all(np.diff(side * found.curvature) > 0)
    assert found.moment[0] == pytest.approx(0.0, abs=2e-9 * s.scale * s.depth)
    crack = found.event("first crack")
    if crack is not None:
        face = crack.soffit - crack.curvature * (sample.depth if hogging else 0.0)
        assert face == pytest.approx(sample.concrete.tensile / sample.concrete.modulus, rel=1e-6)
    for event in found.events:
        if event.kind == "yield":
            y, _, kind, prestrain = sample.layers[event.layer]
            steel = STEELS[kind]
            strain = event.soffit - event.curvature * y + prestrain
            # a layer may also yield within a snap, and then has more than its yield strain just behind it
            first = 0.01 if kind == "strand" else steel.yield_strength / steel.modulus
            assert strain <= first * (1 + 1e-6)


@examples(60)
@given(samples(), st.floats(-0.2, 0.2), st.floats(-0.2, 0.2))
@example(
    Sample(
        ((150.0, 0.0), (150.0, 500.0)), (), ((50.0, 900.0, "bilinear", 0.0),),
        Concrete(30.0, 2.5, 32000.0, 0.1, peak_strain=0.0022), 100.0, 0.0,
    ),
    0.0,
    0.1,
)  # fmt: skip
def test_cracked_sections_carry_what_they_are_given(sample, force, moment):
    """The convex solution has the resultants asked for, with compression only in the concrete."""
    outline, e_c = sample.outline(), sample.concrete.modulus
    layers = [ElasticLayer(y, a, 2e5, p) for y, a, _, p in sample.layers]
    size = outline.area
    n, m = force * size, moment * size * sample.depth
    plane = elastic.cracked_plane(outline, e_c, layers, n, m)
    assume(not isnan(plane.soffit))
    y0, y1, w0, w1 = outline.strips.T
    x, w = np.polynomial.legendre.leggauss(3)
    total = bending = 0.0
    for a, b, wa, wb in zip(y0, y1, w0, w1, strict=True):
        cut = plane.neutral_axis
        for low, high in ((a, cut), (cut, b)) if a < cut < b else ((a, b),):
            y = 0.5 * (low + high) + 0.5 * (high - low) * x
            s = np.minimum(e_c * (plane.soffit - plane.curvature * y), 0.0)
            f = s * (wa + (wb - wa) * (y - a) / (b - a)) * w * 0.5 * (high - low)
            total, bending = total + f.sum(), bending - (f * (y - outline.centroid)).sum()
    for layer in layers:
        f = layer.area * (elastic.steel_stress(plane, layer) - min(e_c * plane.strain(layer.y), 0.0))
        total, bending = total + f, bending - f * (layer.y - outline.centroid)
    near = 1e-7 * (size + abs(total))
    assert total == pytest.approx(n, abs=near)
    assert bending == pytest.approx(m, abs=near * sample.depth)


@examples(40)
@given(samples(), st.booleans())
def test_more_compression_needs_a_deeper_neutral_axis(sample, hogging):
    """Along the N–M line of a section without displaced concrete the force falls steadily with the depth."""
    layers = [Layer(y, a, ELASTIC_PLASTIC, displaces=False) for y, a, _, _ in sample.layers]
    s = section(sample.outline(), aci_block(max(sample.concrete.strength, 17.0)), layers)
    points = [at_depth(s, ACI, float(c), hogging) for c in np.geomspace(0.05, 20.0, 60) * sample.depth]
    assert np.all(np.diff([p.axial for p in points]) <= 1e-9 * s.scale)
    wanted = 0.5 * (points[5].axial + points[40].axial)
    assert at_axial(s, ACI, wanted, hogging).axial == pytest.approx(wanted, abs=1e-9 * s.scale)

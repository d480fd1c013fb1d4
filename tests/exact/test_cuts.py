"""The beam cut through: depths from the compressed face, compressed zones, flanges, stirrups."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests import specimens

from soffit.codes.bending import Block, Layer, resist
from soffit.codes.cut import Cut, stirrups_at
from soffit.codes.working import Pen, Symbol
from soffit.codes.working import given as stated
from soffit.errors import PhysicsError
from soffit.materials import design_laws, steel_laws
from soffit.materials.steel import Steel
from soffit.section import interaction
from soffit.section.model import Layer as SectionLayer
from soffit.section.model import section
from soffit.section.outline import box, circle, i_section, inverted_tee, rectangle, tee

PEN = Pen("ours")


def cut(outline, sagging=True, **more):
    beam = specimens.beam(4000.0, outline, **more)
    bars = ()
    return Cut(beam, 2000.0, sagging, outline, bars, (), stirrups_at(beam, 2000.0))


def test_a_tee_from_above_and_from_below():
    shape = tee(600.0, 300.0, 700.0, 150.0)
    above, below = cut(shape), cut(shape, sagging=False)
    assert (above.b, above.bw, above.flange) == (700.0, 300.0, (700.0, 150.0))
    assert (below.b, below.flange, below.tension_flange) == (300.0, (300.0, 0.0), (700.0, 150.0))
    area, centre = above.zone(200.0)
    assert area == pytest.approx(700 * 150 + 300 * 50)
    assert centre == pytest.approx((700 * 150 * 75 + 300 * 50 * 175) / area)
    assert below.zone(200.0) == pytest.approx((300 * 200.0, 100.0))


def test_a_tapered_flange_counts_with_half_its_taper():
    assert cut(i_section(850.0, 160.0, 450.0, 120.0, 450.0, 150.0, 60.0, 100.0)).flange == (450.0, 150.0)
    assert cut(i_section(850.0, 160.0, 450.0, 120.0, 450.0, 150.0, 60.0, 100.0), sagging=False).flange == (450.0, 200.0)


@pytest.mark.parametrize("shape", [rectangle(300.0, 500.0), circle(400.0), box(800.0, 600.0, 120.0, 150.0, 100.0),
                                   inverted_tee(500.0, 200.0, 400.0, 150.0)], ids=lambda s: s.shape)  # fmt: skip
def test_the_whole_zone_is_the_whole_section(shape):
    for sagging in (True, False):
        c = cut(shape, sagging)
        area, centre = c.zone(c.h)
        assert area == pytest.approx(shape.area, rel=1e-12)
        assert centre == pytest.approx(c.centroid, rel=1e-9)


def test_at_the_border_of_two_zones_the_weaker_one_counts():
    close = specimens.stirrups(2000.0, spacing=100.0)
    wide = specimens.stirrups(4000.0, spacing=250.0, x_from=2000.0)
    beam = specimens.beam(4000.0, stirrups=(close, wide))
    assert stirrups_at(beam, 2000.0).spacing == 250.0
    assert stirrups_at(beam, 1999.0).spacing == 100.0
    assert stirrups_at(beam, 0.0).spacing == 100.0


# -- the block's equilibrium against the section kernel, which is another way to the same strength -------------------


def by_block(shape, bars, axial=0.0, sagging=True, fc=30.0, fy=500.0):
    c = cut(shape, sagging)
    stress = stated("α", "", 0.85 * fc, "stress")
    factor = stated("β1", "", design_laws.aci_depth_factor(fc), "ratio")
    es, fys = Symbol("Es", 2e5, "stress", ""), Symbol("fy", fy, "stress", "")
    layers = [
        Layer(str(i), "bars", c.depth_of(y), area, "max(−fy, min(fy, Es·ε))", (fys, es))
        for i, (y, area) in enumerate(bars)
    ]
    return resist(PEN, c, Block(stress, factor, Symbol("εcu", 0.003, "strain", "")), layers, axial)


def by_kernel(shape, bars, axial=0.0, sagging=True, fc=30.0, fy=500.0):
    law = steel_laws.curve(Steel("bilinear", 2e5, fy, fy, 0.5))
    made = section(shape, design_laws.aci_block(fc), [SectionLayer(y, area, law) for y, area in bars])
    return interaction.at_axial(made, interaction.ACI, axial, hogging=not sagging)


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from([rectangle(300.0, 600.0), tee(600.0, 250.0, 900.0, 120.0), inverted_tee(600.0, 250.0, 500.0, 150.0),
                     i_section(700.0, 150.0, 500.0, 120.0, 400.0, 150.0), box(900.0, 700.0, 150.0, 160.0, 120.0)]),
    st.floats(300.0, 6000.0), st.floats(0.0, 2000.0), st.floats(-0.25, 0.05), st.booleans(),
)  # fmt: skip
def test_the_block_agrees_with_the_section_kernel(shape, low, high, share, sagging):
    bars = [(60.0, low), (shape.depth - 55.0, high)]
    axial = share * 30.0 * shape.area if share < 0 else share * 500.0 * (low + high)
    try:
        found = by_block(shape, bars, axial, sagging)
    except PhysicsError:
        return
    other = by_kernel(shape, bars, axial, sagging)
    if not np.isfinite(other.moment):
        return
    scale = 500.0 * (low + high) * shape.depth + 0.1 * 30.0 * shape.area * shape.depth
    assert abs(found.moment.value - (other.moment if sagging else -other.moment)) <= 2e-3 * scale


def test_by_hand_four_bars_in_a_rectangle():
    # a = As fy/(0.85 f'c b); M = As fy (d − a/2)
    found = by_block(rectangle(300.0, 600.0), [(50.0, 1256.6)])
    a = 1256.6 * 500 / (0.85 * 30 * 300)
    assert found.a == pytest.approx(a, rel=1e-10)
    assert found.moment.value == pytest.approx(1256.6 * 500 * (550 - a / 2), rel=1e-10)
    assert found.arm == pytest.approx(550 - a / 2, rel=1e-10)
    pulls = {w.name: w.value for w in found.workings}
    assert pulls["T"] == pytest.approx(pulls["C"], rel=1e-9)


def test_a_force_that_no_section_bears_is_refused():
    with pytest.raises(PhysicsError, match="no equilibrium under an axial force"):
        by_block(rectangle(300.0, 600.0), [(50.0, 1000.0)], axial=600e3)

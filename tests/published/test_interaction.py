"""Printed points of the N–M line of columns: the source of each number stands in ``data/examples.json``."""

from __future__ import annotations

from math import cos, inf, pi, sin

import pytest
from printed import E_STEEL, INCH, KIP, KIP_IN, KSI, agrees, elastic_plastic, given

from soffit.materials.design_laws import aci_block
from soffit.section.interaction import ACI, at_depth, at_eccentricity, balanced, even_compression
from soffit.section.model import Layer, section
from soffit.section.outline import circle, rectangle


@pytest.mark.parametrize("case", list("acdehik"))
@pytest.mark.parametrize("hogging", [False, True])
def test_tied_column(example, case, hogging):
    """Hassoun deducts displaced concrete. The sections are symmetric, so both sides must give the same."""
    ex = example(f"col-aci-hassoun-t11-3{case}")
    s = two_faces(given(ex), ex, displaces=True)
    side = -1.0 if hogging else 1.0
    point = balanced(s, ACI, 60 * KSI / E_STEEL, hogging)
    agrees(ex, "Pb", -point.axial)
    agrees(ex, "eb", -side * point.moment / point.axial)
    for e in (6, 24):
        point = at_eccentricity(s, ACI, e * INCH, hogging)
        agrees(ex, f"Pn_e{e}", -point.axial)
        assert side * point.moment == pytest.approx(-point.axial * e * INCH, rel=1e-9)


def test_tied_column_with_a_misprint(example):
    """Case g: the printed eb = 15.3 in contradicts the printed Pb and both Pn (the data file's remark)."""
    ex = example("col-aci-hassoun-t11-3g")
    s = two_faces(given(ex), ex, displaces=True)
    point = balanced(s, ACI, 60 * KSI / E_STEEL)
    agrees(ex, "Pb", -point.axial)
    assert point.moment / -point.axial / INCH == pytest.approx(15.07, abs=0.005)
    agrees(ex, "Pn_e6", -at_eccentricity(s, ACI, 6 * INCH).axial)
    agrees(ex, "Pn_e24", -at_eccentricity(s, ACI, 24 * INCH).axial)


def test_column_at_given_neutral_axes(example):
    """Nilson's Example 8.1 deducts no displaced concrete, also not in P0."""
    ex = example("col-aci-nilson-ex8-1")
    x = given(ex)
    x["As"] = x["As_prime"] = x["As_each_face"]
    s = two_faces(x, ex, displaces=False)
    for c, force, moment in ((10.3, "Pb", "Mb"), (5.0, "Pn_c5", "Mn_c5"), (18.0, "Pn_c18", "Mn_c18")):
        point = at_depth(s, ACI, c * INCH)
        agrees(ex, force, -point.axial)
        agrees(ex, moment, point.moment)
    agrees(ex, "P0", -even_compression(s, ACI).axial)
    assert even_compression(s, ACI).depth == inf
    # unrounded balanced depth: the data file's remark
    point = balanced(s, ACI, 60 * KSI / E_STEEL)
    assert point.depth / INCH == pytest.approx(10.357, abs=0.0005)
    assert -point.axial / KIP == pytest.approx(359.2, abs=0.05)
    assert point.moment / KIP_IN == pytest.approx(3811, abs=0.5)


def test_circular_column_balanced(example):
    """Section data inferred by the data file; the book rounds the block depth, hence its 1 %."""
    ex = example("col-aci-circular-hassoun-ex11-9")
    steel = elastic_plastic(60 * KSI)
    arms = [5.5 * cos(pi / 8), 5.5 * sin(pi / 8), -5.5 * sin(pi / 8), -5.5 * cos(pi / 8)]
    outline = circle(16 * INCH)
    layers = [Layer(outline.centroid + arm * INCH, 2.0 * INCH**2, steel) for arm in arms]
    s = section(outline, aci_block(4 * KSI), layers)
    point = balanced(s, ACI, 60 * KSI / E_STEEL)
    agrees(ex, "Pb", -point.axial)
    agrees(ex, "Mb", point.moment)
    agrees(ex, "eb", -point.moment / point.axial)
    forces = [area * (steel(point.strain(y))) for y, area in s.layers[:, :2].tolist()]
    agrees(ex, "T1", float(forces[3]))
    agrees(ex, "T2", float(forces[2]))


def two_faces(x, ex, displaces):
    """Column with equal steel near both faces; fy = 60 ksi, f'c as given."""
    b, h, fc = x["b"], x["h"], x["fc"]
    near = ex["inputs"]["d_prime"]["value"] * INCH
    steel = elastic_plastic(60 * KSI)
    return section(
        rectangle(b, h),
        aci_block(fc),
        [
            Layer(near, x["As"], steel, displaces=displaces),
            Layer(h - near, x["As_prime"], steel, displaces=displaces),
        ],
    )

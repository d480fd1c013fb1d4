"""Outlines against closed forms: area, centroid, second moment, faces, widths; and what is no outline."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from soffit.section.outline import (
    Outline,
    box,
    circle,
    ell,
    i_section,
    inverted_tee,
    polygon,
    rectangle,
    tee,
)

EXACT = 1e-12
SQUARE = [(0, 0), (100, 0), (100, 100), (0, 100)]


def rectangles(*parts: tuple[float, float, float, float]) -> tuple[float, float, float]:
    """Area, centroid and second moment about it of (width, low, high, sign) rectangles."""
    area = sum(s * w * (b - a) for w, a, b, s in parts)
    centroid = sum(s * w * (b * b - a * a) / 2 for w, a, b, s in parts) / area
    inertia = sum(s * w * ((b - centroid) ** 3 - (a - centroid) ** 3) / 3 for w, a, b, s in parts)
    return area, centroid, inertia


def properties(outline: Outline) -> tuple[float, float, float]:
    return outline.area, outline.centroid, outline.inertia


@pytest.mark.parametrize(
    ("outline", "parts"),
    [
        (rectangle(300, 500), [(300, 0, 500, 1)]),
        (tee(600, 150, 800, 120), [(150, 0, 480, 1), (800, 480, 600, 1)]),
        (ell(600, 150, 500, 120), [(150, 0, 480, 1), (500, 480, 600, 1)]),
        (inverted_tee(600, 200, 700, 150), [(700, 0, 150, 1), (200, 150, 600, 1)]),
        (box(900, 700, 120, 150, 130), [(900, 0, 700, 1), (660, 130, 550, -1)]),
        (i_section(1000, 150, 600, 120, 500, 200), [(500, 0, 200, 1), (150, 200, 880, 1), (600, 880, 1000, 1)]),
    ],
    ids=["rectangle", "tee", "ell", "inverted tee", "box", "i"],
)
def test_shapes_made_of_rectangles(outline, parts):
    assert properties(outline) == pytest.approx(rectangles(*parts), rel=EXACT)
    assert outline.depth == max(high for _, _, high, _ in parts)


def test_triangle():
    """b h/2, h/3 above the base, b h³/36."""
    t = polygon([(-150, 0), (150, 0), (0, 600)])
    assert properties(t) == pytest.approx((150 * 600, 200, 300 * 600**3 / 36), rel=EXACT)
    assert t.perimeter == pytest.approx(300 + 2 * sqrt(150**2 + 600**2), rel=EXACT)
    assert t.width(300) == pytest.approx(150, rel=EXACT)


def test_tapers_of_an_i_section():
    """The tapers add triangles of the overhang's width on both sides."""
    plain = i_section(1000, 150, 600, 120, 500, 200)
    tapered = i_section(1000, 150, 600, 120, 500, 200, top_taper=80, bottom_taper=100)
    assert tapered.area - plain.area == pytest.approx(80 * (600 - 150) / 2 + 100 * (500 - 150) / 2, rel=1e-9)


@pytest.mark.parametrize("diameter", [100.0, 1200.0])
def test_circle(diameter):
    """A polygon of the circle's own area; its second moment errs by (2π/96)⁴/180 of itself, its depth by
    2e-4.
    """
    c = circle(diameter)
    assert c.area == pytest.approx(pi * diameter**2 / 4, rel=EXACT)
    assert c.inertia == pytest.approx(pi * diameter**4 / 64, rel=1.1e-7)
    assert c.depth == pytest.approx(diameter, rel=2e-4)
    assert c.centroid == pytest.approx(c.depth / 2, rel=EXACT)


def test_neither_the_sense_of_a_ring_nor_its_place_matters():
    ring = [(0, 0), (400, 0), (300, 250), (400, 700), (0, 700), (80, 300)]
    here = polygon(ring)
    for other in (polygon(ring[::-1]), polygon([(x + 1234, y - 567) for x, y in ring])):
        assert properties(other) == pytest.approx(properties(here), rel=1e-9)
        assert other.depth == here.depth


def test_a_hole_is_taken_out():
    outer = [(-300, 0), (300, 0), (300, 600), (-300, 600)]
    hole = [(-100, 200), (100, 200), (0, 420)]
    with_hole, solid, void = polygon(outer, [hole]), polygon(outer), polygon(hole)
    assert with_hole.area == pytest.approx(solid.area - void.area, rel=EXACT)
    first = solid.area * solid.centroid - void.area * (void.centroid + 200)
    assert with_hole.area * with_hole.centroid == pytest.approx(first, rel=EXACT)
    assert with_hole.width(200 + 1e-3) == pytest.approx(400, abs=0.01)
    assert with_hole.width(310) == pytest.approx(500, rel=EXACT)


def test_widths():
    t = tee(600, 150, 800, 120)
    assert [t.width(y) for y in (-1, 0, 300, 480, 481, 600, 601)] == [0, 150, 150, 150, 800, 800, 0]
    assert t.web_width == 150
    assert box(900, 700, 120, 150, 130).web_width == 240
    assert circle(400).web_width == pytest.approx(400 * 0.8, rel=2e-3)  # chord at a fifth of the depth


@pytest.mark.parametrize(
    ("points", "holes", "message"),
    [
        ([(0, 0), (100, 0)], [], "at least three points"),
        ([(0, 0), (100, 0), (200, 0)], [], "enclose an area"),
        ([(0, 0), (100, 100), (100, 0), (0, 130)], [], "crosses itself"),
        (SQUARE, [[(50, 50), (150, 50), (150, 70), (50, 70)]], "outside"),
        (SQUARE, [[(20, 50), (80, 50), (80, 150), (20, 150)]], "outside"),
        (SQUARE, [[(120, 50), (150, 50), (150, 70), (120, 70)]], "outside"),
        (SQUARE, [[(-20, -20), (150, -20), (150, 150), (-20, 150)]], "outside"),
        (SQUARE, [[(20, 20), (60, 20), (60, 60), (20, 60)], [(50, 50), (80, 50), (80, 80), (50, 80)]], "overlap"),
        (SQUARE, [[(20, 20), (80, 20), (80, 80), (20, 80)], [(40, 40), (60, 40), (60, 60), (40, 60)]], "overlap"),
    ],
)
def test_what_is_no_outline(points, holes, message):
    with pytest.raises(ValueError, match=message):
        polygon(points, holes)

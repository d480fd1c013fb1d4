"""The section floor in the limit: finer tables, finer circles, finer paths, and fibres towards the
integrals.
"""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from soffit.materials import compression, steel_laws, tension
from soffit.materials.concrete import Concrete
from soffit.materials.curve import join
from soffit.materials.steel import Steel
from soffit.section import lawtable, outline
from soffit.section.model import Layer, Section, section
from soffit.section.moment_curvature import moment_curvature

CONCRETE = Concrete(38.0, 2.9, 33000.0, 0.14, peak_strain=0.0021)
LAW = join("mean", "", compression.curve(CONCRETE), tension.cohesive(CONCRETE, 150.0))
BAR = steel_laws.LAWS["plateau"].curve(Steel("plateau", 200000.0, 500.0, 600.0, 0.08, hardening_strain=0.01))
STRAND = steel_laws.LAWS["strand"].curve(Steel("strand", 195000.0, 1674.0, 1860.0, 0.035))
GIRDER = outline.i_section(1000, 150, 600, 120, 500, 200, 80, 60)


def girder() -> Section:
    return section(GIRDER, LAW, [Layer(80, 900, STRAND, 5.5e-3), Layer(160, 400, STRAND, 5.5e-3), Layer(950, 800, BAR)])


def test_finer_tables(monkeypatch):
    """Resultants come to rest as the cubics are split; the table in use is within its tolerance of the
    limit.
    """
    planes = [(1e-4, 3e-7), (4e-3, 6e-6), (1.2e-2, 1.6e-5), (-8e-4, -5e-7)]

    def all_resultants() -> np.ndarray:
        s = girder()
        return np.array([s.resultants(*plane) for plane in planes]) / (s.scale, s.scale * s.depth)

    used, tolerance = all_resultants(), lawtable.TOLERANCE
    monkeypatch.setattr(lawtable, "TOLERANCE", 0.0)
    found = {}
    for halvings in (1, 2, 3, 7):
        monkeypatch.setattr(lawtable, "MOST_HALVINGS", halvings)
        found[halvings] = all_resultants()
    errors = [float(np.max(np.abs(found[n] - found[7]))) for n in (1, 2, 3)]
    # the integral of a cubic through the Lobatto points gains at least four orders a halving
    assert errors[1] < errors[0] / 8
    assert errors[2] < errors[1] / 8
    assert np.max(np.abs(used - found[7])) < tolerance


@pytest.mark.parametrize("tolerance", [1e-5, 1e-6])
def test_the_peak_follows_the_tolerance_of_the_table(monkeypatch, tolerance):
    reference = moment_curvature(girder()).peak.moment
    monkeypatch.setattr(lawtable, "TOLERANCE", tolerance)
    assert moment_curvature(girder()).peak.moment == pytest.approx(reference, rel=3 * tolerance)


def test_more_sides_make_a_circle(monkeypatch):
    """At equal area the second moment of the polygon errs with the fourth power of its side."""
    errors = []
    for sides in (12, 24, 48, 96):
        monkeypatch.setattr(outline, "CIRCLE_SIDES", sides)
        c = outline.circle(500.0)
        assert c.area == pytest.approx(pi * 500.0**2 / 4, rel=1e-12)
        errors.append(abs(c.inertia / (pi * 500.0**4 / 64) - 1))
    rates = np.log2(np.array(errors[:-1]) / errors[1:])
    assert rates == pytest.approx([4, 4, 4], abs=0.1)
    assert errors[-1] < 1.1e-7


def test_more_sides_do_not_move_the_strength_of_a_round_section(monkeypatch):
    """Steel at the same places about the centre: 96 sides are within 3e-5 of 384."""

    def peak(sides: int) -> float:
        monkeypatch.setattr(outline, "CIRCLE_SIDES", sides)
        c = outline.circle(500.0)
        layers = [Layer(c.centroid + dy, 900.0, BAR) for dy in (-200.0, 0.0, 200.0)]
        return moment_curvature(section(c, LAW, layers), axial=-5e5).peak.moment

    assert peak(96) == pytest.approx(peak(384), rel=3e-5)


def test_fibres_converge_to_the_integrals():
    """An independent sum over equal fibres nears the kernel with the square of their height, and never
    beats it.
    """
    plane = (4.1e-3, 6.3e-6)
    s = section(GIRDER, LAW)
    exact = np.array(s.resultants(*plane))
    size = np.array([s.scale, s.scale * s.depth])

    def fibres(n: int) -> np.ndarray:
        force = moment = 0.0
        for y0, y1, w0, w1 in GIRDER.strips:
            y = y0 + (y1 - y0) * (np.arange(n) + 0.5) / n
            f = LAW(plane[0] - plane[1] * y) * (w0 + (w1 - w0) * (y - y0) / (y1 - y0)) * (y1 - y0) / n
            force, moment = force + f.sum(), moment - (f * (y - s.axis)).sum()
        return np.array([force, moment])

    errors = [np.max(np.abs(fibres(n) - exact) / size) for n in (10, 100, 1000, 10000)]
    assert errors[0] > 1e-4
    assert errors[-1] < 1e-8
    # the mean rate over three decades (single steps scatter, as kinks fall between fibres)
    assert 1.6 < np.log10(errors[0] / errors[-1]) / 3 < 2.4


def test_the_path_does_not_depend_on_its_steps():
    """Events and peak stay as they are when the steps shrink; a point of the path is one whatever came
    before.
    """
    coarse, fine = moment_curvature(girder(), bend=1e-2), moment_curvature(girder(), bend=1e-5)
    assert len(fine.moment) > 1.5 * len(coarse.moment)
    for a, b in zip(coarse.events, fine.events, strict=True):
        assert a.kind == b.kind
        assert a.moment == pytest.approx(b.moment, rel=1e-8)
    s = girder()
    long, short = np.linspace(0, 6e-6, 400), np.linspace(0, 6e-6, 40)
    e, m = s.trace(long)
    e2, m2 = s.trace(short)
    assert np.interp(short, long, e) == pytest.approx(e2, abs=2e-6)
    assert m2[-1] == pytest.approx(m[-1], rel=1e-8)

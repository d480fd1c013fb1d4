"""Timed pieces of the section floor; every timed answer is checked. `make bench` prints ratios after
these.
"""

from __future__ import annotations

import cases
import numpy as np
import plain_scipy
import pytest

from soffit.section.kernel import trace_many
from soffit.section.moment_curvature import moment_curvature
from soffit.section.population import summarise


def test_equilibrium_points_on_all_cores(benchmark):
    """1000 sections of two steel layers, 200 points each: divide 200 000 by the time of a call."""
    section, k = cases.two_layers(), cases.curvatures(200)
    n = 1000
    layers, ks, zero = np.repeat(section.layers[None], n, 0), np.repeat(k[None], n, 0), np.zeros(n)
    laws = section.laws
    args = (
        section.strips,
        layers,
        laws.table,
        laws.first,
        laws.last,
        section.axis,
        ks,
        zero,
        zero,
        section.scale,
    )
    _, moment = benchmark(trace_many, *args)
    assert np.all(moment == section.trace(k)[1])


def test_equilibrium_points_on_one_core(benchmark):
    """One section, 200 points."""
    section, k = cases.two_layers(), cases.curvatures(200)
    _, moment = benchmark(section.trace, k)
    assert np.all(np.isfinite(moment))


def test_equilibrium_points_in_plain_scipy(benchmark):
    """The same 60 points by quad and brentq agree with the kernel to the accuracy of quad."""
    k = cases.curvatures(60)
    found = np.array(benchmark.pedantic(plain_scipy.trace, (k.tolist(),), rounds=3))
    strain, moment = cases.two_layers().trace(k)
    assert found[:, 0] == pytest.approx(strain, abs=1e-8)
    assert found[:, 1] == pytest.approx(moment, rel=1e-6)


def test_moment_curvature_of_one_section(benchmark):
    """Start, path, peak and events of one section."""
    section = cases.two_layers()
    found = benchmark(moment_curvature, section)
    assert found.peak.moment > found.event("first crack").moment


def test_population_of_four_thousand(benchmark):
    """Divide by 4000 for a sample whose every property scatters."""
    population = cases.population(4000)
    found = benchmark.pedantic(summarise, (population, 4000), rounds=3, warmup_rounds=1)
    assert np.isfinite(found.peak_moment).mean() > 0.999

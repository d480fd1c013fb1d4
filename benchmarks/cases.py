"""The sections that are timed: a rectangle with two layers of steel, and a population of such rectangles."""

from __future__ import annotations

import numpy as np

from soffit.materials import compression, steel_laws, tension
from soffit.materials.concrete import Concrete
from soffit.materials.curve import Array, join
from soffit.materials.steel import Steel
from soffit.section.model import Layer, Section, section
from soffit.section.outline import rectangle
from soffit.section.population import ConcreteSamples, LayerSamples, Population, SteelSamples

WIDTH, DEPTH, BAND = 300.0, 500.0, 150.0
CONCRETE = Concrete(strength=38.0, tensile=2.9, modulus=33000.0, fracture_energy=0.14, peak_strain=0.0021)
BAR = Steel("plateau", 200000.0, 500.0, 600.0, 0.08, hardening_strain=0.01)
BARS = ((50.0, 1200.0), (450.0, 400.0))
"""Height and area of each layer, mm and mm²."""


def two_layers() -> Section:
    law = join("concrete", "", compression.curve(CONCRETE), tension.cohesive(CONCRETE, BAND))
    steel = steel_laws.LAWS[BAR.kind].curve(BAR)
    return section(rectangle(WIDTH, DEPTH), law, [Layer(y, area, steel) for y, area in BARS])


def curvatures(points: int) -> Array:
    """From nothing to beyond the peak moment, 1/mm."""
    return np.linspace(0.0, 6e-5, points + 1)[1:]


def population(samples: int, seed: int = 1) -> Population:
    """Scatter in every property: log-normal, with coefficients of variation of 2 to 15 %."""
    random = np.random.default_rng(seed)

    def scatter(mean: float, variation: float) -> Array:
        return mean * np.exp(random.normal(0.0, variation, samples))

    concrete = ConcreteSamples(
        scatter(38.0, 0.12), scatter(33000.0, 0.08), scatter(0.0021, 0.05), scatter(2.9, 0.15),
        scatter(0.14, 0.15), BAND,
    )  # fmt: skip
    fy = scatter(500.0, 0.05)
    bars = SteelSamples("plateau", scatter(200000.0, 0.02), fy, 1.2 * fy, scatter(0.08, 0.05), scatter(0.01, 0.1))
    layers = [LayerSamples(scatter(y, 0.02), scatter(area, 0.02), 0, 0.0) for y, area in BARS]
    return Population(rectangle(WIDTH, DEPTH), concrete, (bars,), layers, scatter(1.0, 0.02), scatter(1.0, 0.02))

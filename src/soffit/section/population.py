"""A million sections of one kind, with scatter in every property: strengths and curvatures of each.

Each sample has its own size, steel and laws. Its tables are built and its path is walked inside one
compiled loop over the cores, by the functions that serve a single section
(:func:`soffit.section.moment_curvature.moment_curvature`), so both give the same answer. Samples are
taken in chunks: memory holds the results, one chunk of inputs, and what the caller brought.
"""

# mypy: allow-untyped-calls

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np

from soffit.materials.curve import Array
from soffit.section import samplelaws
from soffit.section.march import CRACK, CRUSH, DECOMPRESSION
from soffit.section.moment_curvature import CRUSHING_STRAIN
from soffit.section.outline import Outline
from soffit.section.sampleloop import (
    COLUMNS_BEFORE,
    OF_A_LAYER,
    OF_A_STEEL,
    PEAK,
    RUPTURE,
    YIELD,
    walk_samples,
)

Samples: TypeAlias = Array | float
"""One number for all samples, or an array with one number a sample."""

CHUNK = 32768
"""Samples taken at a time; their inputs take some 5 MB."""


@dataclass(frozen=True)
class ConcreteSamples:
    """Mean properties as in :class:`soffit.materials.concrete.Concrete`."""

    strength: Samples
    modulus: Samples
    peak_strain: Samples
    tensile: Samples = 0.0
    fracture_energy: Samples = 0.0
    band: Samples = 0.0
    """Length over which one crack is spread, mm (cohesive tension)."""
    law: str = "popovics"
    """``"popovics"`` or ``"en1992"``."""
    tension: str = "cohesive"
    """``"cohesive"`` (bilinear softening), ``"brittle"`` or ``"none"``."""


@dataclass(frozen=True)
class SteelSamples:
    """Mean properties as in :class:`soffit.materials.steel.Steel`."""

    kind: str
    modulus: Samples
    yield_strength: Samples
    tensile: Samples
    strain_at_max: Samples
    hardening_strain: Samples = 0.0


@dataclass(frozen=True)
class LayerSamples:
    """One layer of steel. ``y`` is the height in the sample itself, mm above its soffit."""

    y: Samples
    area: Samples
    steel: int = 0
    """Index into the steels of the population."""
    prestrain: Samples = 0.0
    displaces: bool = True


@dataclass(frozen=True)
class Population:
    """Sections of one outline, scaled in width and depth, with one concrete and layers of steel."""

    outline: Outline
    concrete: ConcreteSamples
    steels: Sequence[SteelSamples] = ()
    layers: Sequence[LayerSamples] = ()
    width: Samples = 1.0
    """Factor on every width of the outline."""
    depth: Samples = 1.0
    """Factor on every height of the outline."""
    axial: Samples = 0.0
    """N, tension positive, at the centroid of the concrete."""


@dataclass(frozen=True)
class Summary:
    """What happened to each sample: ``events`` (samples, 6, 2) holds moment (N·mm) and curvature (1/mm).

    NaN where it did not happen, and throughout for a sample that is no section at all (steel outside the
    concrete, a law that cannot be drawn, an axial force that nothing carries).
    """

    events: Array = field(repr=False)

    def _of(self, event: int, which: int) -> Array:
        return self.events[:, event, which]

    @property
    def peak_moment(self) -> Array:
        return self._of(PEAK, 0)

    @property
    def peak_curvature(self) -> Array:
        return self._of(PEAK, 1)

    @property
    def decompression_moment(self) -> Array:
        """The face in tension has no stress left (prestressed or compressed sections)."""
        return self._of(DECOMPRESSION, 0)

    @property
    def cracking_moment(self) -> Array:
        return self._of(CRACK, 0)

    @property
    def cracking_curvature(self) -> Array:
        return self._of(CRACK, 1)

    @property
    def crushing_moment(self) -> Array:
        return self._of(CRUSH, 0)

    @property
    def crushing_curvature(self) -> Array:
        return self._of(CRUSH, 1)

    @property
    def yield_moment(self) -> Array:
        """First yield in tension of any layer."""
        return self._of(YIELD, 0)

    @property
    def yield_curvature(self) -> Array:
        return self._of(YIELD, 1)

    @property
    def rupture_moment(self) -> Array:
        """First rupture of any layer."""
        return self._of(RUPTURE, 0)

    @property
    def rupture_curvature(self) -> Array:
        return self._of(RUPTURE, 1)


def summarise(
    population: Population,
    samples: int,
    hogging: bool = False,
    crushing_strain: float = CRUSHING_STRAIN,
    until: float = 0.3,
    bend: float = 1e-3,
) -> Summary:
    """Walk every sample through its peak and keep what happened.

    Arrays in the population hold ``samples`` numbers each. The other arguments are those of
    :func:`soffit.section.moment_curvature.moment_curvature`. Raises ``ValueError`` for unknown laws or
    arrays of another length.
    """
    columns = _columns(population, samples)
    codes = _codes(population)
    strips = np.ascontiguousarray(population.outline.strips, dtype=float)
    events = np.full((samples, PEAK + 1, 2), np.nan)
    for start in range(0, samples, CHUNK):
        end = min(start + CHUNK, samples)
        numbers = np.empty((end - start, len(columns)))
        for j, column in enumerate(columns):
            numbers[:, j] = column[start:end]
        walk_samples(
            strips, population.outline.area, population.outline.centroid, numbers, *codes,
            -1.0 if hogging else 1.0, float(crushing_strain), float(until), float(bend), events[start:end],
        )  # fmt: skip
    return Summary(events)


def _columns(population: Population, samples: int) -> list[Array]:
    """Every sampled number as a view of length ``samples``, in the order that the loop reads them."""
    c = population.concrete
    values: list[Samples] = [population.width, population.depth, population.axial]
    values += [c.strength, c.modulus, c.peak_strain, c.tensile, c.fracture_energy, c.band]
    assert len(values) == COLUMNS_BEFORE
    for s in population.steels:
        values += [s.modulus, s.yield_strength, s.tensile, s.strain_at_max, s.hardening_strain]
    for layer in population.layers:
        values += [layer.y, layer.area, layer.prestrain]
    assert len(values) == COLUMNS_BEFORE + OF_A_STEEL * len(population.steels) + OF_A_LAYER * len(population.layers)
    columns = []
    for value in values:
        array = np.asarray(value, dtype=float)
        if array.ndim and array.shape != (samples,):
            raise ValueError(f"an array of {array.shape} numbers does not describe {samples} samples")
        columns.append(np.broadcast_to(array, (samples,)))
    return columns


def _codes(population: Population) -> tuple[int, int, Array, Array]:
    """Codes of the laws of the concrete, of every steel, and (steel, displaces) of every layer."""
    c = population.concrete
    law = _look_up(samplelaws.CONCRETE_LAWS, c.law, "compression law")
    tension = _look_up(samplelaws.TENSION_LAWS, c.tension, "tension law")
    kinds = [_look_up(samplelaws.STEEL_LAWS, s.kind, "kind of steel") for s in population.steels]
    for layer in population.layers:
        if not 0 <= layer.steel < len(kinds):
            raise ValueError(f"a layer names steel {layer.steel}, but there are {len(kinds)}")
    of_layers = [(layer.steel, 1.0 if layer.displaces else 0.0) for layer in population.layers]
    return law, tension, np.array(kinds, dtype=float), np.array(of_layers, dtype=float).reshape(-1, 2)


def _look_up(known: dict[str, int], name: str, what: str) -> int:
    if name not in known:
        raise ValueError(f"there is no {what} {name!r} for populations: choose one of {', '.join(known)}")
    return known[name]

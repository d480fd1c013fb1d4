"""Curvatures along a beam by EN 1992-1-1:2004 7.4.3, all stations at once; formulas of
:mod:`soffit.codes.en1992.deflection`, *from memory*.

Prestress acts as a force on the whole section; where it cracks, the moment that takes its compression of the face away
bends the uncracked section and the rest the cracked one without axial force (*ours*).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.codes.design import Design
from soffit.codes.en1992 import values
from soffit.materials.curve import Array
from soffit.member import statics
from soffit.member.profile import height
from soffit.section.elastic import ElasticLayer, cracked

STEP = 20.0
"""mm of tendon height within which a cracked section is taken as the same."""


@dataclass(frozen=True)
class _Steel:
    on: Array
    """(n,) 1 where it is there."""
    y: Array
    area: float
    modulus: float


class Bent:
    """Curvatures of a beam under moments at the stations of its actions."""

    def __init__(self, design: Design) -> None:
        self.design, self.x = design, design.actions.x
        beam, x = design.beam, design.actions.x
        n = len(x)
        self.fct = values.fctm(design).value
        self.axial, self.primary = np.zeros(n), np.zeros(n)
        self._cracked: dict[object, tuple[float, float]] = {}
        self._steel = [
            _Steel(((x >= b.x_from) & (x <= b.x_to)).astype(float), np.full(n, b.y), b.area, b.steel.modulus)
            for b in beam.bars
        ]
        for along in design.prestress.final:
            t = along.tendon
            y = height(t.profile, np.clip(x, t.x_from, t.x_to))
            force = along.at(x)
            self.axial += force
            self.primary -= force * (beam.outline.centroid - y)
            if t.bond == "bonded":
                self._steel.append(_Steel(((x >= t.x_from) & (x <= t.x_to)).astype(float), y, t.area, t.steel.modulus))
        held = beam.supports
        self._redundant = np.array([d.moment for d in statics.redundant_diagrams(x, beam.length, held)])

    def curvature(self, moments: Array, greatest: Array, modulus: float, shrinkage: float, beta: float) -> Array:
        """(n,), 1/mm, with the prestress and with what compatibility moves at redundant supports; ``greatest``:
        moments that decide whether a section has cracked."""
        outline = self.design.beam.outline
        m, rare = moments + self.primary, greatest + self.primary
        centroid, inertia, first = self._whole(modulus)
        del centroid
        found = (m / modulus + shrinkage * first) / inertia
        arm = np.where(rare >= 0.0, outline.centroid, outline.depth - outline.centroid)
        resisting = outline.inertia / arm
        free = self.axial / outline.area * resisting
        cracking = self.fct * resisting + free
        size = np.abs(rare)
        share = np.where(size > cracking, 1.0 - beta * (cracking / np.maximum(size, 1e-9)) ** 2, 0.0)
        for i in np.flatnonzero(share > 0.0):
            split = self._split(int(i), bool(rare[i] >= 0.0), modulus)
            if split is None:
                continue
            kept = min(float(free[i]), abs(float(m[i]))) * (1.0 if m[i] >= 0.0 else -1.0)
            second = kept / (modulus * inertia[i])
            second += ((m[i] - kept) / modulus + shrinkage * split[1]) / split[0]
            found[i] = share[i] * second + (1.0 - share[i]) * found[i]
        return self._compatible(found)

    def _whole(self, modulus: float) -> tuple[Array, Array, Array]:
        """Centroid, inertia and αe·S (7.21) of the uncracked transformed sections."""
        outline, n = self.design.beam.outline, len(self.x)
        area, moment = np.full(n, outline.area), np.full(n, outline.area * outline.centroid)
        for s in self._steel:
            more = (s.modulus / modulus - 1.0) * s.area * s.on
            area, moment = area + more, moment + more * s.y
        centroid = moment / area
        inertia = outline.inertia + outline.area * (outline.centroid - centroid) ** 2
        first = np.zeros(n)
        for s in self._steel:
            inertia = inertia + (s.modulus / modulus - 1.0) * s.area * s.on * (s.y - centroid) ** 2
            first = first + s.modulus / modulus * s.area * s.on * (centroid - s.y)
        return centroid, inertia, first

    def _split(self, i: int, sagging: bool, modulus: float) -> tuple[float, float] | None:
        """Inertia and αe·S of the cracked section at a station; none without steel."""
        steel = tuple((j, round(float(s.y[i]) / STEP)) for j, s in enumerate(self._steel) if s.on[i] and s.area)
        if not steel:
            return None
        key = (steel, sagging, modulus)
        if key not in self._cracked:
            layers = [ElasticLayer(float(self._steel[j].y[i]), self._steel[j].area, self._steel[j].modulus)
                      for j, _ in steel]  # fmt: skip
            outline = self.design.beam.outline
            bars = tuple(j for j, _ in steel)
            shared = ("cracked", bars if max(bars) < len(self.design.beam.bars) else key, sagging, modulus)
            found, _ = self.design.kept(shared, lambda: cracked(outline, modulus, layers, hogging=not sagging))
            first = sum(e.modulus / modulus * e.area * (found.centroid - e.y) for e in layers)
            self._cracked[key] = found.inertia, first
        return self._cracked[key]

    def _compatible(self, curvature: Array) -> Array:
        """What redundant moments must add, in the shape that one stiffness gives them, so that supports do not move."""
        if not len(self._redundant):
            return curvature
        dx = np.diff(self.x)

        def integral(a: Array, b: Array) -> float:
            # both straight between stations
            a0, a1, b0, b1 = a[:-1], a[1:], b[:-1], b[1:]
            return float(np.sum(dx * (2 * a0 * b0 + a0 * b1 + a1 * b0 + 2 * a1 * b1) / 6.0))

        rows = self._redundant
        matrix = np.array([[integral(r, s) for s in rows] for r in rows])
        gap = np.array([integral(r, curvature) for r in rows])
        return np.asarray(curvature - np.linalg.solve(matrix, gap) @ rows)

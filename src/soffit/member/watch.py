"""The events of a life: each is a quantity along the beam that reaches a limit."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from soffit.materials.compression import ultimate_strain
from soffit.materials.curve import Array
from soffit.member.anchorage import stresses
from soffit.member.beam import Beam
from soffit.member.cracks import Cracks
from soffit.member.crossing import Crossing, first_crossing
from soffit.member.history import History
from soffit.member.nodes import LayerInfo, Nodes, yield_strain
from soffit.member.step import Hinge

WIDE = 0.3
"""mm: the crack width that EN 1992-1-1:2004 Table 7.1N allows in most exposures."""


@dataclass(frozen=True)
class Sighting:
    event: str
    step: float
    x: float
    note: str


def sightings(nodes: Nodes, beam: Beam, history: History, cracks: Cracks, hinge: Hinge) -> list[Sighting]:
    """All events of bending in the order in which they happen; transfer, peak, collapse and the checks come apart."""
    found: list[Sighting | None] = []
    bottom, top = _elastic_faces(nodes, history)
    if any(t.stress > 0.0 for t in beam.tendons):
        found.append(_decompression(nodes, history, bottom, top))
    found.append(_first_crack(nodes, history, bottom, top))
    width = first_crossing(cracks.width, WIDE)
    found.append(_sighting("crack 0.3 mm", width, nodes, ""))
    found.extend(_steel(nodes, history))
    found.append(_crushing(nodes, beam, history))
    # stations of the hinge share its state: what is seen at one of them happens at the section that governs
    shared = nodes.x[hinge.zone]
    place = float(nodes.x[hinge.station])
    seen = [
        replace(f, x=place) if f.event != "first crack" and np.any(np.abs(shared - f.x) < 1e-9) else f
        for f in found
        if f is not None
    ]
    return sorted(seen, key=lambda f: f.step)


def _sighting(event: str, crossing: Crossing | None, nodes: Nodes, note: str) -> Sighting | None:
    if crossing is None:
        return None
    return Sighting(event, crossing.step, float(nodes.x[crossing.station]), note)


def _elastic_faces(nodes: Nodes, history: History) -> tuple[Array, Array]:
    """Strains of soffit and top were no section cracked: linear in the load, so that a crossing is exact."""
    s0, s1, s2 = nodes.elastic[:, 0], nodes.elastic[:, 1], nodes.elastic[:, 2]
    n = history.axial - nodes.elastic[:, 3]
    m = history.on_section - nodes.elastic[:, 4]
    b, c, d = -s1, -(s1 - nodes.axis * s0), s2 - nodes.axis * s1
    det = s0 * d - b * c
    bottom = (n * d - b * m) / det
    return bottom, bottom - (s0 * m - c * n) / det * nodes.depth


def _decompression(nodes: Nodes, history: History, bottom: Array, top: Array) -> Sighting | None:
    """The face that the prestress squeezes most loses its compression (where bending is at least half its greatest)."""
    rising = history.moment[min(1, len(history) - 1)] - history.moment[0]
    if not np.any(rising):
        return None
    bent = np.abs(rising) >= 0.5 * np.max(np.abs(rising))
    face = np.where(rising >= 0, bottom, top)
    squeezed = face[0] < -1e-6
    return _sighting(
        "decompression", first_crossing(face, 0.0, np.broadcast_to(bent & squeezed, face.shape)), nodes,
        "the prestress no longer closes the tension face",
    )  # fmt: skip


def _first_crack(nodes: Nodes, history: History, bottom: Array, top: Array) -> Sighting | None:
    """The face that the rising load stretches reaches the tensile strength (a crack that transfer opened at the other
    face is told with the transfer)."""
    # the march stands just below the cracking strain before it passes it (and may break there)
    strain = nodes.tensile / nodes.modulus * (1.0 - 2e-9)
    rising = history.moment[min(1, len(history) - 1)] - history.moment[0]
    stretched = np.where(rising > 0.0, bottom, top)
    bent = np.abs(rising) > 1e-9 * np.max(np.abs(rising), initial=0.0)
    crossing = first_crossing(stretched, strain, np.broadcast_to(bent, stretched.shape))
    if crossing is None:
        return None
    note = "at the soffit" if rising[crossing.station] > 0.0 else "at the top face"
    if crossing.step == 0.0:
        note += ", already under the permanent load"
    return _sighting("first crack", crossing, nodes, note)


def _steel(nodes: Nodes, history: History) -> list[Sighting | None]:
    found: list[Sighting | None] = []
    for kind in ("bar", "tendon"):
        yields: list[tuple[Crossing, LayerInfo]] = []
        breaks: list[tuple[Crossing, LayerInfo]] = []
        for i, info in enumerate(nodes.infos):
            if info.is_tendon != (kind == "tendon"):
                continue
            strain = layer_strain(nodes, history, i)
            there = np.broadcast_to(nodes.layers[:, i, 1] > 0, strain.shape)
            if info.group.steel.kind != "linear":
                crossing = first_crossing(strain, yield_strain(info), there)
                if crossing:
                    yields.append((crossing, info))
            # the march stands just below the strain of rupture before it passes it
            crossing = first_crossing(strain, info.law.high * (1.0 - 2e-6), there)
            if crossing:
                breaks.append((crossing, info))
        for event, hits in ((f"{kind} yield", yields), (f"{kind} rupture", breaks)):
            if hits:
                crossing, info = min(hits, key=lambda hit: hit[0].step)
                found.append(_sighting(event, crossing, nodes, info.group.label))
    found.append(_unbonded_yield(nodes, history))
    kept: dict[str, Sighting] = {}
    for sighting in found:
        if sighting and (sighting.event not in kept or sighting.step < kept[sighting.event].step):
            kept[sighting.event] = sighting
    return list(kept.values())


def _unbonded_yield(nodes: Nodes, history: History) -> Sighting | None:
    found: list[Sighting | None] = []
    for i, u in enumerate(nodes.unbonded):
        crossing = first_crossing(stresses(u, history, i)[:, None], u.tendon.steel.yield_strength * (1.0 - 1e-6))
        if crossing:
            middle = float(np.mean(nodes.x[u.inside]))
            found.append(Sighting("tendon yield", crossing.step, middle, u.tendon.label))
    return min((f for f in found if f), key=lambda f: f.step, default=None)


def layer_strain(nodes: Nodes, history: History, layer: int) -> Array:
    """Strain of a bonded layer at the cracks, (steps, stations)."""
    y, pre = nodes.layers[:, layer, 0], nodes.layers[:, layer, 2]
    return np.asarray(history.cracked_soffit - history.cracked_curvature * y + pre)


def _crushing(nodes: Nodes, beam: Beam, history: History) -> Sighting | None:
    """The compressed face reaches the ultimate strain of EN 1992-1-1:2004 Table 3.1 (3.5 ‰ to C50)."""
    top = history.cracked_soffit - history.cracked_curvature * nodes.depth
    limit = ultimate_strain(beam.concrete.strength)
    crossing = first_crossing(np.maximum(-top - nodes.topping_strain, -history.cracked_soffit), limit)
    return _sighting("concrete crushes", crossing, nodes, f"the compressed face reaches {1000 * limit:.2g} ‰")

"""The hour in which the prestress is let in: stresses on the young concrete, and whether it stands them."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from soffit.materials.curve import Array
from soffit.materials.properties import at_strength
from soffit.member.beam import Beam
from soffit.member.nodes import build
from soffit.member.standing import Standing
from soffit.member.sweep import uncracked

CREEP_LIMIT = 0.6
"""Share of the strength at transfer beyond which EN 1992-1-1:2004 5.10.2.2 (5) wants no more compression (0.7 for
pretensioned units where experience allows)."""


@dataclass(frozen=True)
class Transfer:
    """Elastic stresses at the faces, MPa, tension positive, with self weight, before any loss that time takes."""

    x: Array
    """Stations, mm."""
    top: Array
    bottom: Array
    strength: float
    tensile: float
    crushes_at: float | None
    """x where the compression exceeds the strength at transfer; none when it does not."""
    cracks_at: float | None
    notes: tuple[str, ...]


def as_it_was(standing: Standing) -> Transfer | None:
    """The stresses that a past met when its prestress was let in; it went on, so nothing was crushed."""
    if standing.release is None:
        return None
    bottom, top, strength, tensile = standing.release
    pull = np.maximum(top, bottom)
    most = int(np.argmax(pull))
    cracks = float(standing.x[most]) if pull[most] > tensile else None
    return Transfer(standing.x, top, bottom, strength, tensile, None, cracks, ())


def at_transfer(beam: Beam, x: Array, self_weight: Array) -> Transfer | None:
    """Face stresses of a prestressed beam at transfer; None where nothing is prestressed.

    ``self_weight``: moments of the self weight at the stations, N·mm.
    """
    stressed = [t for t in beam.tendons if t.stress > 0.0]
    if not stressed:
        return None
    c = beam.concrete
    young = c if c.strength_at_transfer is None else at_strength(c, c.strength_at_transfer)
    early = replace(beam, concrete=young, tendons=tuple(replace(t, long_term_loss=0.0) for t in beam.tendons))
    nodes = build(early, x, self_weight)
    axial, extra = nodes.unbonded_forces()
    plane = np.array(
        [uncracked(nodes.elastic[j], nodes.axis, axial[j], self_weight[j] + extra[j]) for j in range(len(x))]
    )
    bottom = nodes.modulus * plane[:, 0]
    top = nodes.modulus * (plane[:, 0] - plane[:, 1] * nodes.depth)
    strength, tensile = young.strength, young.tensile
    notes = []
    if c.strength_at_transfer is None:
        notes.append("No strength at transfer was given: the concrete is taken to have its full strength then.")
    if any(t.stress_is == "effective" for t in stressed):
        notes.append(
            "A stress after all losses was given, so the higher stress at transfer is not known and not checked there."
        )
    worst = np.minimum(top, bottom)
    pull = np.maximum(top, bottom)
    least, most = int(np.argmin(worst)), int(np.argmax(pull))
    crushes = float(x[least]) if -worst[least] > strength else None
    cracks = float(x[most]) if pull[most] > tensile else None
    if crushes is None and -worst[least] > CREEP_LIMIT * strength:
        notes.append(
            f"At transfer the concrete is compressed to {-worst[least] / strength:.0%} of its strength, more than the "
            f"{CREEP_LIMIT:.0%} that EN 1992-1-1 5.10.2.2 (5) allows."
        )
    return Transfer(x, top, bottom, strength, tensile, crushes, cracks, tuple(notes))

"""Anchors and tendons at their limit: the weakest link of a tendon that slides in its duct."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array
from soffit.member.history import History
from soffit.member.nodes import Nodes, Unbonded


@dataclass(frozen=True)
class Parting:
    """An anchor that fails or an unbonded tendon that breaks."""

    step: float
    x: float
    what: str
    """``"anchor fails"`` or ``"tendon rupture"``."""
    reason: str


def stresses(unbonded: Unbonded, history: History, column: int) -> Array:
    """Greatest stress along an unbonded tendon at each step, MPa."""
    return np.asarray(history.unknown[:, column] / unbonded.tendon.area * float(np.max(unbonded.shape)))


def first_parting(nodes: Nodes, history: History) -> Parting | None:
    """The first step in which an unbonded tendon's anchor or the tendon itself gives way.

    The anchor is asked for the force at the tendon's ends, the tendon for the greatest force along it.
    """
    found: list[Parting] = []
    for i, u in enumerate(nodes.unbonded):
        force = history.unknown[:, i]
        tendon = u.tendon
        left, right = float(u.shape[u.inside][0]), float(u.shape[u.inside][-1])
        ends, place = max((left, tendon.x_from), (right, tendon.x_to), key=lambda end: end[0])
        if tendon.anchor is not None:
            limit = tendon.anchor.capacity * tendon.count
            step = _reached(force * ends, limit)
            if step is not None:
                found.append(Parting(step, place, "anchor fails", tendon.anchor.reason))
        step = _reached(stresses(u, history, i), tendon.steel.tensile * (1.0 - 1e-4))
        if step is not None:
            middle = float(u.inside.nonzero()[0].mean())
            found.append(
                Parting(
                    step,
                    float(nodes.x[int(middle)]),
                    "tendon rupture",
                    "the tendon reaches its tensile strength",
                )
            )
    return min(found, key=lambda p: p.step, default=None)


def _reached(values: Array, limit: float) -> float | None:
    over = np.flatnonzero(values >= limit)
    if not len(over):
        return None
    i = int(over[0])
    if i == 0:
        return 0.0
    return i - 1 + float((limit - values[i - 1]) / (values[i] - values[i - 1]))

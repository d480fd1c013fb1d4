"""One concrete over the steps of a history: compliance between every two of them, shrinkage, strength."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials.ageing.base import Ageing
from soffit.materials.ageing.casting import Casting
from soffit.materials.ageing.check import EARLIEST_LOADING
from soffit.materials.ageing.models import model
from soffit.materials.concrete import Concrete
from soffit.materials.curve import Array
from soffit.member.making import Scales

HEATED = ("EN 1992", "MC 2010")
"""Models that take a temperature-adjusted age at loading; the others have inputs of their own for heat."""


@dataclass(frozen=True)
class Viscous:
    """Everything of a concrete that the march needs at its steps (n,); days before ``first`` are not used."""

    name: str
    compliance: Array
    """(n, n): strain at step i by a unit stress that came on in step j ≤ i, 1/MPa. A stress that grows over a step is
    taken half at its start and half at its end (the trapezoidal rule)."""
    elastic: Array
    """(n,): 1/E in the middle of each step, 1/MPa."""
    shrinkage: Array
    """(n,): shortening since casting, positive."""
    strength: Array
    against: Array
    """(n,): the strength with which the model compares a sustained compression, MPa."""
    tensile: Array
    modulus: Array
    matured: float
    """Days by which the concrete is older than its age, as its strength at transfer tells."""
    law: Ageing

    def creep(self, i: int, j: int) -> float:
        """Compliance at step i of a stress put on at step j, over the elastic one, less 1."""
        return float(self.compliance[i, j] * self.modulus[j] - 1.0)


def viscous(
    key: str,
    cast: Casting,
    age: Array,
    first: int,
    scales: Scales,
    concrete: Concrete | None = None,
    adjusted: bool = False,
) -> Viscous:
    """The concrete ``cast`` at its ages (n,), from step ``first`` on. Raises ``ValueError`` as the model does.

    concrete: has the tensile strength at its age, which grows as the model says; else the model's own. It is the axial
    one whatever the model calls so (AASHTO knows a modulus of rupture).
    ``adjusted``: the steps are few and long, and a stress that grows in one creeps by its ageing coefficient.
    """
    law: Ageing = model(key, cast)
    more = maturity(law, cast, key)
    safe = np.maximum(age, EARLIEST_LOADING)
    known = safe[first:]
    strong = np.maximum(known + more, EARLIEST_LOADING)
    n = len(age)
    modulus = np.ones(n)
    modulus[first:] = law.modulus(strong) * scales.modulus
    j = _compliance(law, key, known, strong, scales)
    both = np.zeros((n, n))
    half = j.copy()
    half[:, 1:] = 0.5 * (j[:, 1:] + j[:, :-1])
    if adjusted:
        for i in range(1, len(known)):
            if known[i] > known[i - 1]:
                # at its own end and ever after
                half[i:, i] += _age_adjusted(law, key, known[i - 1], known[i], more, scales) - half[i, i]
    both[first:, first:] = np.tril(half)
    elastic = 1.0 / modulus
    elastic[first + 1 :] = 0.5 * (1.0 / modulus[first + 1 :] + 1.0 / modulus[first:-1])
    shrinkage, strength, against, tensile = np.zeros(n), np.ones(n), np.ones(n), np.ones(n)
    shrinkage[first:] = law.shrinkage(known) * scales.shrinkage
    strength[first:], tensile[first:] = law.strength(strong), law.tensile(strong) * scales.tensile
    if concrete is not None:
        tensile[first:] *= concrete.tensile / float(law.tensile(max(concrete.age + more, EARLIEST_LOADING)))
    against[first:] = law.loading_strength(strong)
    return Viscous(law.record.name, both, elastic, shrinkage, strength, against, tensile, modulus, more, law)


def _compliance(law: Ageing, key: str, age: Array, strong: Array, scales: Scales) -> Array:
    """J(t_i, t_j) for j ≤ i, with creep and modulus scaled; (n, n)."""
    t, loaded = age[:, None], age[None, :]
    on = np.broadcast_to(strong[None, :], (len(age), len(age)))
    if key.startswith(HEATED):
        creep = law.creep(np.maximum(t, loaded), loaded, 0.0, on)
    else:
        creep = law.creep(np.maximum(t, loaded), loaded)
    elastic = 1.0 / law.modulus(strong)[None, :]
    viscous_part = scales.creep * creep / law.creep_modulus(on)
    return np.asarray((elastic + viscous_part) / scales.modulus)


FINE = 40
"""Steps in which the relaxation of a concrete is computed for its ageing coefficient."""


def _age_adjusted(law: Ageing, key: str, start: float, end: float, more: float, scales: Scales) -> float:
    """(1 + χ φ)/E(t0), 1/MPa: compliance to a stress that grows from ``start`` to ``end``."""
    age = start + (np.geomspace(1.0, (end - start) / 0.01 + 1.0, FINE + 1) - 1.0) * 0.01
    age[-1] = end
    j = _compliance(law, key, age, np.maximum(age + more, EARLIEST_LOADING), scales)
    chi = ageing_coefficient(np.tril(j))
    creep = j[-1, 0] / j[0, 0] - 1.0
    return float(j[0, 0] * (1.0 + chi * creep))


def ageing_coefficient(j: Array) -> float:
    """χ = E/(E − R) − 1/φ from a compliance J (n, n; lower triangle) over the steps from loading to the end.

    R: what is left at the end of a stress E that came on at the start with a unit strain which is then kept, by the
    trapezoidal rule (H. Trost 1967; Z. P. Bažant, "Prediction of concrete creep effects using age-adjusted effective
    modulus method", ACI Journal 69, 1972, both *from memory*). 1 where nothing creeps.
    """
    modulus = 1.0 / j[0, 0]
    creep = float(j[-1, 0] * modulus - 1.0)
    if creep <= 1e-12:
        return 1.0
    steps = [modulus]
    for n in range(1, len(j)):
        mean = 0.5 * (j[n, 1 : n + 1] + j[n, :n])
        steps.append((1.0 - j[n, 0] * modulus - float(mean[:-1] @ np.array(steps[1:]))) / mean[-1])
    relaxed = sum(steps)
    return float(modulus / (modulus - relaxed) - 1.0 / creep)


def maturity(law: Ageing, cast: Casting, key: str) -> float:
    """Days by which the concrete is ahead of its age: those after which the model's strength is that at transfer.

    0 where no strength at transfer is known, or the model has its own way with it.
    """
    if cast.transfer_strength is None or cast.transfer_age is None or not key.startswith(HEATED):
        return 0.0
    from scipy.optimize import brentq

    wanted, low, high = cast.transfer_strength, EARLIEST_LOADING, 3650.0

    def short(t: float) -> float:
        return float(law.strength(t)) - wanted

    if short(low) > 0.0 or short(high) < 0.0:
        return 0.0
    return float(brentq(short, low, high)) - cast.transfer_age

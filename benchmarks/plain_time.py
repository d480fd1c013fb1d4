"""One pretensioned section over time as one would write it plainly: fibres, the whole history, SciPy at every step.

Standing alone on purpose: only the compliance and shrinkage of the ageing model are Soffit's.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import fsolve

from soffit.materials.ageing.casting import Casting
from soffit.materials.ageing.models import model

FIBRES = 60


def history(
    cast: Casting,
    t: NDArray[np.float64],
    width: float,
    depth: float,
    strands: tuple[float, float, float],
    moments: NDArray[np.float64],
) -> tuple[list[float], list[float]]:
    """Stress of the soffit and of the strands, MPa, at the days ``t`` from release on.

    strands: height, area, stress before release (no relaxation); moments: of the loads at each day, N·mm.
    """
    law = model("EN 1992-1-1", cast)
    y = (np.arange(FIBRES) + 0.5) * depth / FIBRES
    area = np.full(FIBRES, width * depth / FIBRES)
    at, steel, start = strands
    area[np.argmin(np.abs(y - at))] -= steel
    steps: list[NDArray[np.float64]] = []
    soffit, stress, guess = [], [], np.zeros(2)
    for n, now in enumerate(t):
        weights = [_mean(law, now, t, i) for i in range(n + 1)]
        shrunk = float(law.shrinkage(now) - law.shrinkage(t[0]))
        before = sum((w * s for w, s in zip(weights, steps, strict=False)), np.zeros(FIBRES)) - shrunk

        def forces(
            plane: NDArray[np.float64], free: NDArray[np.float64] = before, j: float = weights[-1]
        ) -> list[float]:
            strain = plane[0] - 1e-3 * plane[1] * y
            concrete = sum(steps, np.zeros(FIBRES)) + (strain - free) / j
            pull = start + 195e3 * (plane[0] - 1e-3 * plane[1] * at)
            axial = float(concrete @ area) + pull * steel
            bending = -float((concrete * area) @ y) - pull * steel * at
            return [axial / 1e3, (bending - moments[n]) / 1e6]  # noqa: B023

        guess = fsolve(forces, guess, xtol=1e-9)
        strain = guess[0] - 1e-3 * guess[1] * y
        steps.append((strain - before) / weights[-1])
        whole = sum(steps, np.zeros(FIBRES))
        soffit.append(float(whole[0] - (whole[1] - whole[0]) / 2.0))
        stress.append(float(start + 195e3 * (guess[0] - 1e-3 * guess[1] * at)))
    return soffit, stress


def _mean(law: object, now: float, t: NDArray[np.float64], i: int) -> float:
    """Compliance to a stress that came on over step i: half at its start, half at its end."""
    ends = (t[i], t[i - 1]) if i else (t[i], t[i])
    return float(np.mean([law.compliance(now, each) for each in ends]))  # type: ignore[attr-defined]

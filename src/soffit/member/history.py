"""What every station went through, step by step."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from soffit.materials.curve import Array


@dataclass(frozen=True)
class History:
    """One row a step, one column a station (or an unknown)."""

    factor: Array
    """(steps,): the rising load, N."""
    unknown: Array
    moment: Array
    shear: Array
    axial: Array
    on_section: Array
    """Moment on the section, unbonded tendons' part included."""
    soffit: Array
    curvature: Array
    """Mean over the cracks."""
    cracked_soffit: Array
    cracked_curvature: Array
    sign: Array
    station: NDArray[np.int64]
    """(steps,): the station that led."""
    lost: str
    """Why the march ended before the load had fallen to ``FALLEN`` of the peak; empty when it did not."""

    def __len__(self) -> int:
        return len(self.factor)

    def standing(self) -> History:
        """Without the steps in which the load would have to pull: there the beam jumps on to where it stands again."""
        kept = self.factor >= 0.0
        kept[0] = True
        # after the last step that stands the beam has collapsed
        kept[np.flatnonzero(kept)[-1] :] = True
        arrays = {name: getattr(self, name)[kept] for name in self.__dataclass_fields__ if name != "lost"}
        return History(**arrays, lost=self.lost)

    def cut(self, last: int) -> History:
        """The first ``last`` + 1 steps."""
        end = last + 1
        arrays = {name: getattr(self, name)[:end] for name in self.__dataclass_fields__ if name != "lost"}
        return History(**arrays, lost=self.lost)

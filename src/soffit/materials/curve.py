"""A stress–strain curve as a row of smooth pieces, the common form in which every law reaches the section kernel."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True)
class Piece:
    """One smooth piece between two strains; ``straight`` pieces are exactly linear."""

    low: float
    high: float
    stress: Callable[[Array], Array]
    """Strain (any shape, within the piece) to stress, MPa."""
    straight: bool = False


@dataclass(frozen=True)
class StressStrain:
    """Pieces in rising order of strain, each beginning where the last one ends. Outside them the stress is zero.

    Stress may jump between pieces (rupture). Elongation and tension are positive.
    """

    pieces: tuple[Piece, ...]
    name: str = ""
    source: str = ""

    def __post_init__(self) -> None:
        for left, right in zip(self.pieces, self.pieces[1:], strict=False):
            if left.high != right.low:
                raise ValueError(f"the pieces of {self.name or 'a curve'} leave a gap at strain {left.high}")

    @property
    def low(self) -> float:
        return self.pieces[0].low

    @property
    def high(self) -> float:
        return self.pieces[-1].high

    def __call__(self, strain: Array | float) -> Array:
        """Stress at each strain, MPa, same shape. At a jump the piece on the right counts."""
        e = np.asarray(strain, dtype=float)
        stress = np.zeros_like(e)
        for piece in self.pieces:
            inside = (e >= piece.low) & (e <= piece.high)
            if inside.any():
                stress[inside] = piece.stress(e[inside])
        return stress


def line(low: float, high: float, stress_low: float, stress_high: float) -> Piece:
    """A straight piece through two points."""
    slope = (stress_high - stress_low) / (high - low)
    return Piece(low, high, lambda e: stress_low + slope * (e - low), straight=True)


def join(name: str, source: str, *curves: StressStrain) -> StressStrain:
    """One curve from several that follow each other in strain (compression, then tension)."""
    return StressStrain(tuple(piece for curve in curves for piece in curve.pieces), name, source)

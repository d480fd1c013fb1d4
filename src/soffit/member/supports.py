"""What holds a beam."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Supports:
    """Points that hold the beam. ``x`` rises; ``fixed`` says whether each end also holds the rotation.

    A cantilever has one support at an end, fixed.
    """

    x: tuple[float, ...]
    fixed_left: bool = False
    fixed_right: bool = False
    bearing: float = 0.0
    """Length of the bearing plates along the beam, mm; 0 where not given."""

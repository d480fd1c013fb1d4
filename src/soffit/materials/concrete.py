"""The mean properties of a concrete, and how each is derived when it was not measured."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Concrete:
    """Mean properties of one concrete at the age that matters.

    Every number is a mean (measured or derived) value; verification takes its design values elsewhere.
    ``notes`` holds one sentence for every value that was derived or converted, with its source.
    """

    strength: float
    """Cylinder compressive strength, MPa, positive."""
    tensile: float
    """Axial tensile strength, MPa."""
    modulus: float
    """Modulus at the origin of the stress–strain curve, MPa."""
    fracture_energy: float
    """Mode I fracture energy, N/mm (that is 1000 × N/m)."""
    max_aggregate: float = 16.0
    """Largest aggregate size, mm."""
    density: float = 2400.0
    """Plain concrete, kg/m³ (the weight of steel is added by volume)."""
    peak_strain: float = 0.0021
    """Strain at the compressive strength, positive."""
    law: str = "popovics"
    """Mean compression law: a key of ``soffit.materials.compression.LAWS``."""
    strength_at_transfer: float | None = None
    """Cylinder strength when the prestress is let in, MPa; none where not given (then ``strength`` is used)."""
    age: float = 28.0
    """Days."""
    notes: tuple[str, ...] = ()
    specified: float | None = None
    """The strength that was ordered, MPa; none where the file gives a mean."""

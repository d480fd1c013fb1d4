"""The mean properties of one steel (or other bar material) as numbers of its stress–strain law."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Steel:
    """A bar, wire, strand, rod or FRP material.

    ``kind`` chooses the law: ``"plateau"`` (elastic, yield plateau, hardening curve), ``"bilinear"`` (elastic,
    linear hardening from yield to tensile), ``"strand"`` (power formula through ``yield_strength`` at 1 % strain
    and ``tensile``), ``"linear"`` (elastic to rupture at ``tensile``; FRP).
    """

    kind: str
    modulus: float
    """MPa."""
    yield_strength: float
    """Yield or 0.2 % (bars), 1 % extension stress (strand), MPa; for ``"linear"`` equal to ``tensile``."""
    tensile: float
    """Tensile strength, MPa; equal to ``yield_strength`` where the steel does not harden."""
    strain_at_max: float
    """Strain at the tensile strength, where the law ends by rupture."""
    hardening_strain: float = 0.0
    """Strain at the end of the yield plateau (``"plateau"`` only); 0: hardening begins at yield."""
    name: str = ""
    notes: tuple[str, ...] = ()

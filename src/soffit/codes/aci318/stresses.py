"""Limits of stress by ACI 318-19 24.5; *from memory* where the print was not seen. MPa; limits are positive.

Constants that multiply √f'c are those of the inch-pound edition, converted exactly (not the rounded ones of 318M).
Those of tendons (20.3.2.5) are in ``soffit.detail.limits``; the old 0.82 fpy and 0.74 fpu after transfer are none of
this edition.
"""

from __future__ import annotations

from math import sqrt
from typing import Literal

from soffit.codes.given import positive
from soffit.materials.standards import PSI

NAME = "ACI 318-19"
CLASSES = {"U": 7.5, "T": 12.0}
"""Greatest tension over √f'c, psi, Table 24.5.2.1; class C above."""


def root(strength: float) -> float:
    """√f'c psi in MPa."""
    positive(strength=strength)
    return sqrt(strength / PSI) * PSI


def compression_at_transfer(strength: float, end: bool) -> float:
    """Table 24.5.3.1: 0.70 f'ci at the ends of simply supported members, 0.60 f'ci elsewhere."""
    return (0.70 if end else 0.60) * strength


def tension_at_transfer(strength: float, end: bool) -> float:
    """Table 24.5.3.2: 6 √f'ci at the ends of simply supported members, 3 √f'ci elsewhere (psi); beyond it bonded steel
    takes the whole tensile force (24.5.3.2.1)."""
    return (6.0 if end else 3.0) * root(strength)


def tension_class(stress: float, strength: float) -> Literal["U", "T", "C"]:
    """24.5.2.1: uncracked to 7.5 √f'c, transition to 12 √f'c (psi), cracked above. ``stress``: ft, the greatest tension
    in the precompressed zone in service, MPa."""
    over = stress / root(strength)
    return "U" if over <= CLASSES["U"] else "T" if over <= CLASSES["T"] else "C"


def compression_in_service(strength: float, total: bool) -> float:
    """Table 24.5.4.1: 0.45 f'c under prestress and sustained load, 0.60 f'c under the total; classes U and T only."""
    return (0.60 if total else 0.45) * strength

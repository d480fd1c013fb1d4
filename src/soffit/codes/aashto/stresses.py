"""Limits of stress by AASHTO LRFD 5.9.2, 8th and 9th edition; *from memory*. MPa; limits are positive.

Constants that multiply √f'c are in ksi and converted exactly.
"""

from __future__ import annotations

from math import sqrt
from typing import Literal

from soffit.codes.given import positive
from soffit.materials.ageing.aashto import KSI

NAME = "AASHTO LRFD"
TRANSFER = {"2016 on": 0.65, "before 2016": 0.60}
"""Share of f'ci, 5.9.2.3.1a; raised by the 2016 interim revisions."""


def root(strength: float) -> float:
    """√f'c ksi in MPa."""
    positive(strength=strength)
    return sqrt(strength / KSI) * KSI


def compression_at_transfer(strength: float, edition: Literal["2016 on", "before 2016"] = "2016 on") -> float:
    """5.9.2.3.1a: 0.65 f'ci (0.60 f'ci before 2016)."""
    return TRANSFER[edition] * strength


def tension_at_transfer(strength: float, bonded: bool) -> float:
    """Table 5.9.2.3.1b-1, outside the precompressed zone: 0.0948 √f'ci, at most 0.2 ksi, without bonded steel; 0.24
    √f'ci where bonded steel takes the tensile force at no more than 0.5 fy, 30 ksi."""
    return 0.24 * root(strength) if bonded else min(0.0948 * root(strength), 0.2 * KSI)


def compression_in_service(strength: float, total: bool, slenderness: float = 1.0) -> float:
    """Table 5.9.2.3.2a-1: 0.45 f'c under prestress and permanent loads, 0.60 φw f'c under the total (service I);
    ``slenderness``: φw, 1 where webs and flanges are no more slender than 15."""
    return (0.60 * slenderness if total else 0.45) * strength


def tension_in_service(strength: float, severe: bool = False) -> float:
    """Table 5.9.2.3.2b-1, precompressed zone with bonded tendons, service III: 0.19 √f'c, at most 0.6 ksi; in severe
    corrosive conditions 0.0948 √f'c, at most 0.3 ksi. None with unbonded tendons."""
    return min(0.0948 * root(strength), 0.3 * KSI) if severe else min(0.19 * root(strength), 0.6 * KSI)


def strand_before_transfer(tensile: float, steel: str = "low relaxation") -> float:
    """Table 5.9.2.2-1, pretensioned, just before transfer: 0.75 fpu low-relaxation, 0.70 fpu stress-relieved."""
    return (0.75 if steel == "low relaxation" else 0.70) * tensile


def tendon_at_jack(yield_stress: float) -> float:
    """Table 5.9.2.2-1, post-tensioned, before seating, short-term: 0.90 fpy."""
    return 0.90 * yield_stress


def tendon_after_seating(tensile: float, at_anchor: bool, steel: str = "low relaxation") -> float:
    """Table 5.9.2.2-1, post-tensioned, just after seating: 0.70 fpu at anchors and couplers; elsewhere 0.74 fpu low
    relaxation, 0.70 fpu other steel."""
    return (0.74 if steel == "low relaxation" and not at_anchor else 0.70) * tensile


def tendon_in_service(yield_stress: float) -> float:
    """Table 5.9.2.2-1, after all losses: 0.80 fpy."""
    return 0.80 * yield_stress

"""Limits of stress by EN 1992-1-1:2004, recommended values; *from memory*. MPa; a limit of compression is positive.

Those of tendons at the jack and after transfer (5.10.2.1, 5.10.3) are in ``soffit.detail.limits``.
"""

from __future__ import annotations

from soffit.codes.given import positive

NAME = "EN 1992-1-1:2004"


def characteristic(mean: float, age: float, ordered: float) -> float:
    """fck(t), MPa: fcm(t) − 8 before 28 days, fck from then on (3.1.2 (5)); never above fck.

    mean: fcm(t); age: days; ordered: fck at 28 days. Raises ``ValueError`` where nothing is left.
    """
    positive(mean=mean, age=age, ordered=ordered)
    found = ordered if age >= 28.0 else min(mean - 8.0, ordered)
    if found <= 0.0:
        raise ValueError(f"a mean strength of {mean:.1f} MPa at {age:g} days has no characteristic value (fcm − 8 MPa)")
    return found


def compression_at_transfer(strength: float, proven_pretensioned: bool = False) -> float:
    """5.10.2.2 (5): 0.6 fck(t); 0.7 for pretensioned members where tests or experience show that no crack along the
    tendons follows."""
    return (0.7 if proven_pretensioned else 0.6) * strength


def compression_characteristic(strength: float) -> float:
    """7.2 (2): 0.6 fck under the characteristic combination, in the exposure classes XD, XF and XS, where no other care
    is taken."""
    return 0.6 * strength


def compression_quasi_permanent(strength: float) -> float:
    """7.2 (3), and 5.10.2.2 (5) at transfer: 0.45 fck, up to which creep is linear; beyond it creep is to be taken as
    nonlinear, nothing is forbidden."""
    return 0.45 * strength


def tension_uncracked(tensile: float) -> float:
    """7.1 (2): a section counts as uncracked up to fct,eff = fctm(t)."""
    return tensile


def tendon_in_service(tensile: float) -> float:
    """7.2 (5): 0.75 fpk, mean prestress under the characteristic combination."""
    return 0.75 * tensile


def bar_in_service(yield_stress: float) -> float:
    """7.2 (5): 0.8 fyk under the characteristic combination."""
    return 0.8 * yield_stress

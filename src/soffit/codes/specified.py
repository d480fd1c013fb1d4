"""From the mean strength that a beam has to the strength that a standard's formulas want."""

from __future__ import annotations

from collections.abc import Callable

from soffit.errors import PhysicsError
from soffit.materials.concrete import Concrete
from soffit.materials.standards import PSI
from soffit.member.beam import Beam

KSI = 1000.0 * PSI


def en(mean: float) -> float:
    """fck = fcm − 8 MPa (EN 1992-1-1:2004 Table 3.1; at an age 3.1.2 (5)). Raises :class:`PhysicsError` below 1 MPa."""
    if mean - 8.0 < 1.0:
        raise PhysicsError(
            f"a mean strength of {mean:.1f} MPa has no characteristic value in EN 1992-1-1 (fck = fcm − 8 MPa): "
            "wait until the concrete is stronger"
        )
    return mean - 8.0


def aci(mean: float) -> float:
    """f'c, MPa, for which ``mean`` is the required average strength without test records: ACI 301, ACI 318-05 5.3.2.2.

    The inverse of :func:`soffit.materials.standards.aci_mean`; from 4000 to 4200 psi, which that leaves out, 3000 psi.
    Raises :class:`PhysicsError` below 150 psi.
    """
    psi = mean / PSI
    if psi < 1150.0:
        raise PhysicsError(
            f"a mean strength of {mean:.1f} MPa is too little for a specified strength by ACI 301 (f'cr − 1000 psi): "
            "wait until the concrete is stronger"
        )
    if psi < 4200.0:
        return min(psi - 1000.0, 3000.0) * PSI
    return (psi - 1200.0 if psi <= 6200.0 else (psi - 700.0) / 1.10) * PSI


def ordered(concrete: Concrete, rule: Callable[[float], float], name: str, how: str) -> tuple[float, str]:
    """The strength that a standard's formulas want, MPa, and how it was found: that which the file orders, else by a
    ``rule`` from the mean; 0 where the mean is too low to have one.

    name, how: ``"fck"`` and ``"is the measured mean less 8 MPa (Table 3.1)"``.
    """
    if concrete.specified is not None:
        return concrete.specified, f"{name} is the strength that the file orders."
    try:
        return rule(concrete.strength), f"{name} {how}."
    except PhysicsError:
        return 0.0, f"The measured mean is too low to have a {name}."


def of_topping(beam: Beam, rule: Callable[[float], float]) -> float | None:
    """The same of the topping; none without one. Raises what ``rule`` raises."""
    if beam.making is None or beam.making.topping is None:
        return None
    concrete = beam.making.topping.concrete
    return rule(concrete.strength) if concrete.specified is None else concrete.specified


BY_ACI_301 = "follows from the measured mean as ACI 301 adds to it without test records"

__all__ = ["BY_ACI_301", "KSI", "PSI", "aci", "en", "of_topping", "ordered"]

"""``[concrete]``"""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from soffit.beamfile.kinds import Choice, Number, Quantity
from soffit.beamfile.tables.base import Table
from soffit.materials.compression import LAWS
from soffit.materials.standards import EN_CEMENT

Strength = Annotated[float, Quantity("stress", low=1.0, high=250.0)]


class ConcreteTable(Table):
    """The concrete, by its cylinder strength and whatever else was measured."""

    strength: Strength = Field(description="Compressive strength of the cylinder.")
    strength_is: Annotated[str, Choice(("mean", "specified"))] = Field(
        default="mean",
        description="Whether the strength was measured (mean, at the given age) or ordered (specified, at "
        "28 days); an ordered one is raised to a mean by the standard's own relation.",
    )
    strength_by: Annotated[str, Choice(("EN 1992-1-1", "ACI 318-19"))] = Field(
        default="EN 1992-1-1",
        description="The standard by which properties that were not measured are derived.",
    )
    age: Annotated[float, Quantity("time", low=0.5, high=40000.0)] = Field(
        default=28.0, description="Age at which the beam is loaded."
    )
    tensile_strength: Annotated[float, Quantity("stress", low=0.01, high=50.0)] | None = Field(
        examples=["2.7 MPa", "400 psi"],
        default=None,
        description="Axial tensile strength; derived from the strength where it was not measured.",
    )
    modulus: Annotated[float, Quantity("modulus", low=1e3, high=120e3)] | None = Field(
        examples=["33 GPa", "4500 ksi"],
        default=None,
        description="Modulus of elasticity at the origin of the curve; else derived.",
    )
    fracture_energy: Annotated[float, Quantity("fracture energy", low=1e-3, high=50.0)] | None = Field(
        default=None, description="Energy that opens a crack of unit area; else derived."
    )
    max_aggregate: Annotated[float, Quantity("length", low=0.1, high=150.0)] | None = Field(
        examples=["16 mm", "3/4 in"], default=None, description="Largest size of the aggregate; else 16 mm."
    )
    density: Annotated[float, Quantity("density", low=500.0, high=7000.0)] | None = Field(
        default=None,
        description="Density of the plain concrete; else 2400 kg/m³. Below 2200 kg/m³: lightweight.",
    )
    cement_class: Annotated[str, Choice(tuple(EN_CEMENT))] | None = Field(
        default=None,
        description="Strength class of the cement, rapid, normal or slow, for the gain with age; else N.",
    )
    relative_humidity: Annotated[float, Number(0.0, 1.0, percent=True, bare=False, example=0.6)] | None = Field(
        default=None,
        description="Of the air around the beam, for creep and shrinkage; wanted where [ageing], "
        "[[stages]] or [topping] are given.",
    )
    strength_at_transfer: Strength | None = Field(
        examples=["28 MPa", "4 ksi"],
        default=None,
        description="Cylinder strength when the prestress is let in; else the strength above.",
    )
    strain_at_peak: Annotated[float, Number(0.0003, 0.02, example=0.0021)] | None = Field(
        default=None, description="Strain at the compressive strength, a positive number; else derived."
    )
    law: Annotated[str, Choice(tuple(LAWS))] = Field(
        default="popovics", description="The mean stress–strain law in compression."
    )

"""``[[bars]]`` and ``[[stirrups]]``, and the keys of a steel that all reinforcement shares."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from soffit.beamfile.kinds import Choice, Height, Level, Number, Quantity, Several, Whole
from soffit.beamfile.tables.base import (
    Diameter,
    Modulus,
    Name,
    Place,
    SteelArea,
    Stress,
    Surface,
    Table,
)
from soffit.materials.steel_laws import LAWS

Face = Annotated[str, Choice(("bottom", "top"))]
ENDS = Choice(("straight", "hook", "welded plate"))


class SteelKeys(Table):
    """A steel by its grade in the catalogue, or by its own properties, which win over those of the grade."""

    grade: Name | None = Field(
        examples=["B500B", "Grade 60", "Y1860S7", "8.8"],
        default=None,
        description="Grade in the catalogue, or the property class of a threaded rod.",
    )
    yield_strength: Stress | None = Field(
        default=None,
        alias="yield",
        description="Yield or 0.2 % proof stress; of strand and wire the stress at 1 % strain.",
    )
    tensile: Stress | None = Field(
        examples=["540 MPa", "90 ksi"],
        default=None,
        description="Tensile strength; equal to the yield strength where it is not given.",
    )
    modulus: Modulus | None = Field(default=None, description="Modulus of elasticity; else the grade's, or 200 GPa.")
    strain_at_max: Annotated[float, Number(0.0, 1.0, above=True, percent=True, example=0.05)] | None = Field(
        default=None,
        description="Strain at the tensile strength, where it ruptures; else the grade's, or 0.05.",
    )
    hardening_strain: Annotated[float, Number(0.0, 0.5, percent=True, example=0.015)] | None = Field(
        default=None, description="Strain at the end of the yield plateau; else the grade's, or no plateau."
    )
    law: Annotated[str, Choice(tuple(LAWS))] | None = Field(
        default=None,
        description="Stress–strain law; FRP is linear (to rupture, with tensile and modulus given).",
    )


class PieceKeys(SteelKeys):
    """Size of a piece of steel, and how far it runs."""

    size: Name | None = Field(
        examples=["10", "#4", "12.5 strand", "M10"],
        default=None,
        description="Size in the catalogue; or diameter, or area, which win over those of the size.",
    )
    diameter: Diameter | None = Field(default=None, description="Nominal diameter of one piece.")
    area: SteelArea | None = Field(default=None, description="Area of one piece (of one leg of a stirrup).")
    x_from: Place | None = Field(
        default=None,
        alias="from",
        description="Where it begins, from the left end of the beam; else the end itself.",
    )
    x_to: Place | None = Field(
        examples=["1 m", "3 ft"],
        default=None,
        alias="to",
        description="Where it ends, from the left end of the beam; else the right end.",
    )


class BarTable(PieceKeys):
    """Bars of one size at one height."""

    count: Annotated[int, Whole()] = Field(description="Number of bars.")
    at: Annotated[Level, Height()] | None = Field(
        default=None, description="Height of the bar centres; or cover and face."
    )
    cover: Annotated[float, Quantity("length", high=20e3, zero=True)] | None = Field(
        examples=["20 mm", "1 in"],
        default=None,
        description="Clear cover from the face to the bar's own surface, in place of at.",
    )
    face: Face | None = Field(default=None, description="The face that cover is measured from; else the bottom.")
    ends: Annotated[tuple[str, ...], Several(ENDS, least=2, most=2, single=True)] = Field(
        examples=["hook", ["hook", "straight"]],
        default=("straight",),
        description="How the bars end; one word for both ends, or a list of left and right.",
    )
    surface: Surface | None = Field(default=None, description="What grips the concrete; else the size's own.")
    part: Annotated[str, Choice(("beam", "topping"))] = Field(
        default="beam",
        alias="in",
        description="Which concrete they are cast into. In a topping heights count from the soffit of the beam or the "
        "top of the topping.",
    )


class StirrupTable(PieceKeys):
    """Closed stirrups of one spacing over a part of the beam."""

    legs: Annotated[int, Whole(1, 40)] = Field(default=2, description="Legs that cross a diagonal crack.")
    spacing: Annotated[float, Quantity("length", low=5.0, high=20e3, examples=("100 mm", "6 in"))] = Field(
        description="Spacing along the beam."
    )

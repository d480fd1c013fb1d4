"""What all tables share: they are frozen, strict and refuse keys that they do not know."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict

from soffit.beamfile.kinds import Choice, Quantity, Text


class Table(BaseModel):
    model_config = ConfigDict(frozen=True, strict=True, extra="forbid", allow_inf_nan=False)


Length = Annotated[float, Quantity("length", high=1e6, examples=("1.2 m", "100 mm", "4 ft"))]
"""Along the beam: above zero, at most 1 km."""
Place = Annotated[float, Quantity("length", high=1e6, zero=True, examples=("350 mm", "0.35 m", "14 in"))]
"""x, from the left end of the beam."""
Dimension = Annotated[float, Quantity("length", low=1.0, high=20e3, examples=("150 mm", "6 in"))]
"""Of a section: 1 mm to 20 m."""
Diameter = Annotated[float, Quantity("length", low=0.5, high=100.0, examples=("10 mm", "0.5 in"))]
"""Of a bar or tendon: 0.5 to 100 mm."""
SteelArea = Annotated[float, Quantity("area", low=0.1, high=20e3)]
Stress = Annotated[float, Quantity("stress", low=1.0, high=10e3, examples=("500 MPa", "60 ksi"))]
"""Strength or stress of steel and FRP."""
Modulus = Annotated[float, Quantity("modulus", low=1e3, high=1e6)]
Force = Annotated[float, Quantity("force", high=1e9)]
Name = Annotated[str, Text(longest=60, example="10")]
"""A name in the catalogue."""
Surface = Annotated[str, Choice(("deformed", "plain", "threaded"))]

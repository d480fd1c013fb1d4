"""``[supports]``, ``[[loads]]`` and ``[press]``."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from soffit.beamfile.kinds import Choice, Quantity, Several
from soffit.beamfile.tables.base import Force, Length, Place, Table

CASES = (
    "dead", "live", "roof live", "traffic", "crowd", "construction", "snow", "ice", "rain", "wind",
    "earthquake", "soil", "fluid", "other",
)  # fmt: skip

_SPAN = Quantity("length", high=1e6)
_PLACE = Quantity("length", high=1e6, zero=True)


class SupportTable(Table):
    """What holds the beam: one span or several, with or without overhangs."""

    span: Length | None = Field(
        examples=["1.05 m", "30 ft"], default=None, description="Distance between the supports; or spans."
    )
    spans: Annotated[tuple[float, ...], Several(_SPAN, most=50, example=("5 m", "6 m"))] | None = Field(
        examples=[["5 m", "6 m"]], default=None, description="Spans of a continuous beam, from the left."
    )
    overhangs: Annotated[tuple[float, ...], Several(_PLACE, 2, 2, single=True, example=("0.1 m", "0 m"))] = Field(
        examples=["75 mm", ["0.1 m", "0 m"]],
        default=(0.0,),
        description="Lengths beyond the outer supports: one for both ends, or a list of left and right.",
    )
    ends: Annotated[tuple[str, ...], Several(Choice(("pinned", "fixed", "free")), least=2, most=2, single=True)] = (
        Field(
            examples=["fixed", ["fixed", "free"]],
            default=("pinned",),
            description="How the ends are held: one word for both, or a list of left and right; "
            '["fixed", "free"] is a cantilever whose length is the span.',
        )
    )
    bearing: Annotated[float, Quantity("length", high=20e3, zero=True)] = Field(
        examples=["50 mm", "6 in"], default=0.0, description="Length of the bearing plates along the beam."
    )


class LoadTable(Table):
    """A downward load of one case: uniform, at a point or over a patch; or a force along the whole beam."""

    case: Annotated[str, Choice(CASES)] = Field(examples=["dead", "live"], description="What causes it.")
    uniform: Annotated[float, Quantity("line load", high=1e5)] | None = Field(
        default=None, description="Load per length over the whole beam."
    )
    point: Force | None = Field(default=None, description="Load at one point, with at.")
    at: Place | None = Field(default=None, description="Where the point load stands, from the left end of the beam.")
    patch: Annotated[float, Quantity("line load", high=1e5)] | None = Field(
        default=None, description="Load per length over a part of the beam, with from and to."
    )
    compression: Annotated[float, Quantity("force", high=1e9, signed=True)] | None = Field(
        default=None,
        description="Force along the axis of the whole beam, tension negative; a verification counts it, a life does "
        "not.",
    )
    x_from: Place | None = Field(default=None, alias="from", description="Where the patch begins.")
    x_to: Place | None = Field(default=None, alias="to", description="Where the patch ends.")
    eccentricity: Annotated[float, Quantity("length", high=20e3, zero=True, signed=True)] = Field(
        examples=["100 mm", "4 in"],
        default=0.0,
        description="Distance of the load from the axis of the beam, which it twists; a verification counts it.",
    )
    category: Annotated[str, Choice(("A", "B", "C", "D", "E", "F", "G", "H"))] | None = Field(
        default=None, description="Category of use, EN 1990 Table A1.1; else that in [verify]."
    )


class PressTable(Table):
    """The testing machine, which pushes down until the beam fails."""

    points: Annotated[tuple[float, ...], Several(_PLACE, most=50, example=("350 mm", "700 mm"))] = Field(
        examples=[["350 mm", "700 mm"]],
        description="Where it pushes, from the left end of the beam; each point takes an equal share.",
    )
    capacity: Force | None = Field(examples=["100 kN", "20 kip"], default=None, description="Largest force.")
    stroke: Length | None = Field(examples=["50 mm", "2 in"], default=None, description="Longest travel.")
    plate: Annotated[float, Quantity("length", high=20e3, zero=True)] = Field(
        examples=["50 mm", "2 in"], default=0.0, description="Length of the loading plates along the beam."
    )
    gauge: Place | None = Field(
        examples=["600 mm", "2 ft"],
        default=None,
        description="Where the deflection is read; else where it is greatest.",
    )

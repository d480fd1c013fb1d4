"""``[[tendons]]`` and their anchors."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, Field

from soffit.beamfile.kinds import Choice, Height, Kind, Level, Number, OneOf, Pair, Quantity, Several, Whole
from soffit.beamfile.tables.base import Force, Length, Name, Stress, Surface, Table
from soffit.beamfile.tables.steel import PieceKeys

Points = tuple[tuple[float, Level], ...]

_POINT: Kind = Pair(Quantity("length", high=1e6, zero=True), Height(bare=True))
_PROFILE: Kind = OneOf(Height(), Several(_POINT, least=2, most=200))

DrawIn = Annotated[float, Quantity("length", high=100.0, zero=True)]


class WedgeAnchor(Table):
    """A wedge that grips a strand or wire."""

    kind: Literal["wedge"] = Field(description="What holds the tendon.")
    draw_in: DrawIn = Field(
        examples=["6 mm", "1/4 in"], default=0.0, description="Slip of the wedge when it takes the force."
    )
    efficiency: Annotated[float, Number(0.1, 1.0, percent=True, example=0.95)] | None = Field(
        default=None, description="Force that the anchor holds over the strength of the tendon; else 0.95."
    )
    strength: Force | None = Field(
        examples=["180 kN", "40 kip"],
        default=None,
        description="Measured capacity for one tendon; wins over efficiency.",
    )


class NutAnchor(Table):
    """A nut on a thread."""

    kind: Literal["nut"] = Field(description="What holds the tendon.")
    thread: Name | None = Field(
        examples=["M10", "1/2-13 UNC"],
        default=None,
        description="Thread in the catalogue; else the tendon's own size.",
    )
    nut_class: Name | None = Field(
        examples=["8", "A563 DH"], default=None, alias="class", description="Property class of the nut."
    )
    engagement: Annotated[float, Quantity("length", high=1e3, examples=("8 mm", "0.4 in"))] | None = Field(
        default=None, description="Length of thread that engages; else that of the standard nut."
    )
    draw_in: DrawIn = Field(
        examples=["0.2 mm", "0.01 in"],
        default=0.0,
        description="Slip of the nut and its plate when they take the force.",
    )
    strength: Force | None = Field(
        examples=["45 kN", "10 kip"],
        default=None,
        description="Measured capacity for one tendon; wins over the class and the thread.",
    )


AnchorTable = Annotated[WedgeAnchor | NutAnchor, Discriminator("kind")]
ANCHORS: dict[str, type[WedgeAnchor | NutAnchor]] = {"wedge": WedgeAnchor, "nut": NutAnchor}


class TendonTable(PieceKeys):
    """Tendons of one size on one profile."""

    when: Annotated[str, Choice(("before casting", "after curing"))] = Field(
        description="When they are stressed: before casting (pretensioned) or after curing (post-tensioned)."
    )
    bond: Annotated[str, Choice(("bonded", "unbonded"))] = Field(
        description="Whether the concrete, or the grout of the duct, holds them along their length."
    )
    count: Annotated[int, Whole()] = Field(description="Number of tendons.")
    thread: Name | None = Field(
        examples=["M10", "1/2-13 UNC"],
        default=None,
        description="Thread in the catalogue, in place of size, for threaded rods.",
    )
    profile: Annotated[Level | Points, _PROFILE] = Field(
        examples=["40 mm from bottom", [["0 m", "75 mm"], ["2 m", "40 mm"], ["4 m", "75 mm"]]],
        description="Height of the tendon: one for a level tendon, or a list of points [x, height].",
    )
    shape: Annotated[str, Choice(("straight", "parabola"))] = Field(
        default="straight",
        description="How the points are joined: straight, or by one parabola through each three in turn.",
    )
    stress: Stress | None = Field(
        examples=["1200 MPa", "180 ksi"],
        default=None,
        description="Stress in the tendon; or force, torque or turns.",
    )
    force: Force | None = Field(examples=["110 kN", "25 kip"], default=None, description="Force in one tendon.")
    torque: Annotated[float, Quantity("moment", high=1e9)] | None = Field(
        default=None,
        description="Torque on the nut of one rod; the force is torque / (nut_factor · diameter).",
    )
    nut_factor: Annotated[float, Number(0.05, 0.6, example=0.2)] | None = Field(
        default=None, description="Torque over force times diameter; else 0.20, dry steel."
    )
    turns: Annotated[float, Number(0.0, 1000.0, above=True, example=1.5)] | None = Field(
        default=None, description="Turns of the nut from snug; the rod is stretched by turns · pitch."
    )
    stress_is: Annotated[str, Choice(("at the jack", "effective"))] = Field(
        default="at the jack",
        description="Whether the stress is that at the jack, before all losses, or effective, after them.",
    )
    long_term_loss: Annotated[float, Number(0.0, 0.9, percent=True, bare=False, example=0.15)] | None = Field(
        default=None,
        description="Loss by creep, shrinkage, relaxation, of the stress after immediate losses; else none.",
    )
    friction: Annotated[float, Number(0.0, 2.0, example=0.19)] | None = Field(
        default=None, description="Coefficient of friction in the duct, per radian; else none."
    )
    wobble: Annotated[float, Quantity("per length", high=1e-3, zero=True)] | None = Field(
        default=None,
        description="Unintended friction per length: the force falls by exp(−wobble · length); else none.",
    )
    duct: Annotated[float, Quantity("length", low=0.5, high=500.0)] | None = Field(
        examples=["60 mm", "2.5 in"],
        default=None,
        description="Outer diameter of the duct or sleeve of a post-tensioned tendon.",
    )
    transfer_length: Length | None = Field(
        examples=["600 mm", "24 in"],
        default=None,
        description="Over which the bond of a pretensioned tendon takes up its stress; else derived.",
    )
    jacked_from: Annotated[str, Choice(("left", "right", "both"))] | None = Field(
        default=None, description="The end or ends from which it is stressed; else the left."
    )
    anchor: AnchorTable | None = Field(
        examples=[{"kind": "nut", "class": "8"}, {"kind": "wedge", "draw_in": "6 mm"}],
        default=None,
        description="What holds the ends of a post-tensioned tendon.",
    )
    surface: Surface | None = Field(default=None, description="What grips the concrete; else the size's own.")

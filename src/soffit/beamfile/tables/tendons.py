"""``[[tendons]]`` and their anchors."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, Field

from soffit.beamfile.kinds import Choice, Height, Kind, Level, Number, OneOf, Pair, Quantity, Several, Text, Whole
from soffit.beamfile.tables.base import Force, Length, Name, Stress, Surface, Table
from soffit.beamfile.tables.steel import PieceKeys

Points = tuple[tuple[float, Level], ...]

_POINT: Kind = Pair(Quantity("length", high=1e6, zero=True), Height(bare=True))
_PROFILE: Kind = OneOf(Height(), Several(_POINT, least=2, most=200))

_SIDE: Kind = Quantity("length", low=1.0, high=5e3)
_BOND_FREE: Kind = Quantity("length", high=1e6, zero=True)

Plate = Annotated[tuple[float, float], Several(_SIDE, 2, 2, example=("150 mm", "150 mm"))]
PlateHole = Annotated[float, Quantity("length", low=1.0, high=1e3)]
DrawIn = Annotated[float, Quantity("length", high=100.0, zero=True)]


class PlateKeys(Table):
    """The plate behind an anchor."""

    plate: Plate | None = Field(
        examples=[["150 mm", "150 mm"]],
        default=None,
        description="Width and height of the plate that presses on the concrete.",
    )
    plate_hole: PlateHole | None = Field(
        examples=["30 mm", "1.25 in"],
        default=None,
        description="Diameter of the hole in the concrete behind the plate; else the duct's.",
    )


class WedgeAnchor(PlateKeys):
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


class NutAnchor(PlateKeys):
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


class BedTable(Table):
    """The pretensioning bed, for the losses before release."""

    length: Length | None = Field(
        examples=["60 m", "200 ft"], default=None, description="Length between the anchors of the bed, for slip."
    )
    slip: DrawIn = Field(
        examples=["5 mm", "1/4 in"],
        default=0.0,
        description="Slip of the anchors and give of the bed, both ends together.",
    )
    warming: Annotated[float, Quantity("temperature difference", high=80.0, zero=True)] = Field(
        default=0.0,
        description="How much warmer the strands become than they were stressed, before the concrete holds them.",
    )


class TendonTable(PieceKeys):
    """Tendons of one size on one profile."""

    name: Annotated[str, Text(60, "A")] = Field(
        default="", description="By which stages call them; else A, B, C, … in the order of the file."
    )

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
    shape: Annotated[str, Choice(("straight", "parabola", "reversed"))] = Field(
        default="straight",
        description="How the points are joined: straight; by one parabola through each three in turn; or by reversed "
        "parabolas that are level at every point between the ends, the high and low points of a continuous tendon.",
    )
    inflection: Annotated[float, Number(0.02, 0.5, example=0.1)] | None = Field(
        default=None,
        description="Reversed: where the curvature changes sign between a high and a low point, as a share of their "
        "distance from the high one; else 0.1.",
    )
    minimum_radius: Annotated[float, Quantity("length", low=100.0, high=1e6)] | None = Field(
        examples=["4 m", "13 ft"], default=None, description="Least radius to which the duct may be bent."
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
        description="Unintended friction per length, K of ACI 318 and AASHTO LRFD beside friction · angle: the force "
        "falls by exp(−friction · angle − wobble · length); else none. Or wobble_angle.",
    )
    wobble_angle: Annotated[float, Quantity("angle per length", high=1e-3, zero=True)] | None = Field(
        examples=["0.007 rad/m", "0.4 °/m"],
        default=None,
        description="Unintended angle per length, k of EN 1992-1-1 (5.45) inside the bracket: the force falls by "
        "exp(−friction · (angle + wobble_angle · length)). In place of wobble.",
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
    debonded: Annotated[tuple[float, ...], Several(_BOND_FREE, 2, 2, single=True)] | None = Field(
        examples=["2 m", ["2 m", "1 m"]],
        default=None,
        description="Lengths of a pretensioned tendon that are sheathed at its ends and have no bond: one for both, or "
        "a list of left and right.",
    )
    bed: BedTable | None = Field(
        examples=[{"length": "60 m", "slip": "5 mm", "warming": "40 K"}],
        default=None,
        description="The bed in which a pretensioned tendon is stressed.",
    )
    relaxation: Annotated[str, Choice(("low relaxation", "ordinary", "bar", "none"))] | None = Field(
        default=None,
        description="Class of relaxation; else low relaxation for strand and wire, bar for bars and rods, none for a "
        "linear law (FRP).",
    )
    relaxation_1000h: Annotated[float, Number(0.001, 0.2, percent=True, bare=False, example=0.025)] | None = Field(
        default=None, description="Relaxation in 1000 hours at 0.7 of the strength, by certificate; else the class's."
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

"""``[section]``: one model for each shape, told apart by the key ``shape``."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Discriminator, Field

from soffit.beamfile.kinds import Kind, Pair, Quantity, Several
from soffit.beamfile.tables.base import Dimension, Table

Point = tuple[float, float]

_COORDINATE: Kind = Quantity("length", high=20e3, zero=True, signed=True)
_POINTS: Kind = Several(Pair(_COORDINATE, _COORDINATE), least=3, most=200)


class Rectangle(Table):
    """A rectangle."""

    shape: Literal["rectangle"] = Field(description="Shape of the section.")
    width: Dimension = Field(description="Width.")
    depth: Dimension = Field(description="Depth, from the soffit to the top.")


class _Flanged(Table):
    depth: Dimension = Field(examples=["600 mm", "24 in"], description="Depth, flange included.")
    web_width: Dimension = Field(examples=["300 mm", "12 in"], description="Width of the web.")
    flange_width: Dimension = Field(
        examples=["900 mm", "36 in"], description="Width of the flange over all, web included."
    )
    flange_depth: Dimension = Field(description="Depth of the flange.")


class Tee(_Flanged):
    """A web with a flange at its top."""

    shape: Literal["tee"] = Field(description="Shape of the section.")


class InvertedTee(_Flanged):
    """A web with a flange at its bottom."""

    shape: Literal["inverted-tee"] = Field(description="Shape of the section.")


class Ell(_Flanged):
    """A web with a flange at its top on one side; taken as held against twisting and sideways bending."""

    shape: Literal["ell"] = Field(description="Shape of the section.")


class I(Table):  # noqa: E742 - the trade's own name of the shape
    """A web between two flanges, which may taper into it."""

    shape: Literal["i"] = Field(description="Shape of the section.")
    depth: Dimension = Field(examples=["900 mm", "36 in"], description="Depth over all.")
    web_width: Dimension = Field(description="Width of the web.")
    top_width: Dimension = Field(examples=["500 mm", "20 in"], description="Width of the top flange.")
    top_depth: Dimension = Field(description="Depth of the top flange at its edge, taper not counted.")
    bottom_width: Dimension = Field(examples=["600 mm", "24 in"], description="Width of the bottom flange.")
    bottom_depth: Dimension = Field(description="Depth of the bottom flange at its edge, taper not counted.")
    top_taper: Annotated[float, Quantity("length", high=20e3, zero=True)] = Field(
        default=0.0, description="Height of the slope between top flange and web."
    )
    bottom_taper: Annotated[float, Quantity("length", high=20e3, zero=True)] = Field(
        default=0.0, description="Height of the slope between bottom flange and web."
    )


class Box(Table):
    """A rectangle with a rectangular hole, two webs."""

    shape: Literal["box"] = Field(description="Shape of the section.")
    width: Dimension = Field(examples=["1000 mm", "40 in"], description="Width over all.")
    depth: Dimension = Field(examples=["600 mm", "24 in"], description="Depth over all.")
    wall: Dimension = Field(description="Thickness of each of the two webs.")
    top_depth: Dimension = Field(description="Depth of the top slab.")
    bottom_depth: Dimension = Field(description="Depth of the bottom slab.")


class Circle(Table):
    """A circle."""

    shape: Literal["circle"] = Field(description="Shape of the section.")
    diameter: Dimension = Field(description="Diameter.")


class Drawn(Table):
    """Any polygon, with holes; where it is not symmetric it is taken as held against twisting."""

    shape: Literal["outline"] = Field(description="Shape of the section.")
    points: Annotated[tuple[Point, ...], _POINTS] = Field(
        examples=[[["0 mm", "0 mm"], ["200 mm", "0 mm"], ["150 mm", "300 mm"], ["50 mm", "300 mm"]]],
        description="Corners of the outline in turn, each [across, up]; the lowest one is put at the soffit.",
    )
    holes: Annotated[tuple[tuple[Point, ...], ...], Several(_POINTS, least=0, most=50)] = Field(
        examples=[[[["80 mm", "100 mm"], ["120 mm", "100 mm"], ["120 mm", "200 mm"], ["80 mm", "200 mm"]]]],
        default=(),
        description="Holes, each a list of corners like the outline, in the same coordinates.",
    )


Section = Rectangle | Tee | Ell | InvertedTee | I | Box | Circle | Drawn
SectionTable = Annotated[Section, Discriminator("shape")]
SHAPES: dict[str, type[Section]] = {
    "rectangle": Rectangle,
    "tee": Tee,
    "ell": Ell,
    "inverted-tee": InvertedTee,
    "i": I,
    "box": Box,
    "circle": Circle,
    "outline": Drawn,
}

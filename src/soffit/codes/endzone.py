"""The end of a prestressed beam as the standards' formulas see it, and what they give back."""

from __future__ import annotations

from dataclasses import dataclass

from soffit.codes.working import Check, Working


@dataclass(frozen=True)
class Anchors:
    """Closely spaced anchors at one end, seen in one direction (upright or across); N, mm, rad."""

    jack: float
    """Sum of the forces at the jack."""
    size: float
    """Of the plates together, in this direction; 0 where no plate is given."""
    section: float
    """Of the section, in this direction."""
    prism: float
    """Depth of the symmetric prism: twice the distance from the middle of the plates to the nearest edge, or to half
    way to the next anchors."""
    eccentricity: float = 0.0
    """Of the resultant from the centroid, never negative."""
    incline: float = 0.0
    """Of the resultant against the axis; positive where it points towards the centroid, or where it is concentric."""
    edge_tension: float = 0.0
    """Sum of the tensile stresses over the section where the force at the jack stands outside its kern, linear."""
    spread: float = 0.0
    """Distance of the outermost anchors from each other over the depth of the section."""


@dataclass(frozen=True)
class Plate:
    """A bearing plate on the concrete."""

    gross: float
    """Area, mm²."""
    net: float
    """Without the hole."""
    ratio: float
    """Side of the largest concentric area of the same shape that lies in the face, over the side of the plate."""
    jack: float
    """Force at the jack, N."""


@dataclass(frozen=True)
class Tie:
    """A tensile force in the concrete, and the steel that has to take it."""

    title: str
    clause: str
    force: Working
    steel: Working
    """Area of the legs that cross it, mm²."""
    length: Working
    """From the face: only steel within it counts."""
    centre: Working | None
    """Distance of the force from the face."""
    workings: tuple[Working, ...]
    assumptions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Reaction:
    """Of one support, N."""

    permanent: float
    variable: float
    prestress: float = 0.0
    """Secondary, of the prestress on a continuous beam."""


__all__ = ["Anchors", "Check", "Plate", "Reaction", "Tie"]

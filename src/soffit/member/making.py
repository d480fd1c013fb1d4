"""How a beam is made and used: its concretes with their surroundings, and what happens on which day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from soffit.materials.ageing.casting import Casting
from soffit.materials.concrete import Concrete
from soffit.member.supports import Supports
from soffit.section.outline import Outline

What = Literal["cast", "release", "stress", "grout", "support", "load", "unload", "topping", "age"]


@dataclass(frozen=True)
class Stage:
    """One thing that is done to the beam, in an instant."""

    what: What
    """``cast``: day 0. ``stress``: tendons are stressed (pretensioned ones in the bed, on or before day 0).
    ``release``: pretensioned tendons are let go. ``grout``: ducts are filled, from now on the tendons are bonded.
    ``support``: the beam comes to stand on ``supports`` (its final ones if none) and bears its own weight, which it
    also does from the first release or stressing on. ``load``, ``unload``: ``share`` of all loads of ``cases``.
    ``topping``: the topping is poured, a load until it has hardened. ``age``: nothing happens, but the state is told.
    """
    at: float
    """Days since the beam was cast."""
    tendons: tuple[int, ...] = ()
    """Indices of the groups, in the order in which they are stressed."""
    cases: tuple[str, ...] = ()
    share: float = 1.0
    supports: Supports | None = None
    propped: bool = False
    """``topping``: whether the beam rests on its form until the topping has hardened, so that both carry its weight."""
    name: str = ""
    """As the file calls it, else made from what is done."""


@dataclass(frozen=True)
class Topping:
    """Concrete cast on the finished beam later, which then acts with it."""

    outline: Outline
    """By itself, its own soffit at 0."""
    base: float
    """Height of its soffit above the beam's, mm."""
    concrete: Concrete
    casting: Casting
    hardens: float = 1.0
    """Days after pouring from which it acts with the beam."""


@dataclass(frozen=True)
class Scales:
    """What a model's values are multiplied by: where something was measured, or to see what its scatter does."""

    modulus: float = 1.0
    """Of concrete at every age, creep's modulus too."""
    creep: float = 1.0
    """Of the creep coefficient."""
    shrinkage: float = 1.0
    relaxation: float = 1.0
    tensile: float = 1.0
    prestress: float = 1.0
    """Of every tendon's stress at the jack."""


@dataclass(frozen=True)
class Making:
    """What the ageing of a beam needs beyond its geometry."""

    model: str
    """Key of the ageing model, :mod:`soffit.materials.ageing.models`."""
    casting: Casting
    """The beam's own concrete; ``strength`` is the mean at 28 days."""
    stages: tuple[Stage, ...] = ()
    """In the order of their days; none: the usual ones are taken and said."""
    topping: Topping | None = None
    scales: Scales = Scales()

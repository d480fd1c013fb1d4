"""``[ageing]``, ``[[stages]]`` and ``[topping]``: how the beam is made, and what happens to it on which day."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from soffit.beamfile.kinds import Choice, Number, Quantity, Several, Text, YesNo
from soffit.beamfile.tables.base import Dimension, Table
from soffit.beamfile.tables.concrete import Strength
from soffit.beamfile.tables.holding import CASES, SupportTable
from soffit.materials.ageing.models import MODELS
from soffit.materials.standards import EN_CEMENT

WHATS = ("cast", "release", "stress", "grout", "support", "load", "unload", "topping", "age")
OLDEST = 40000.0
"""Days, 110 years: no ageing model was made for more."""

MODEL_NAMES = {
    "EN 1992-1-1": "EN 1992-1-1",
    "EN 1992-1-1:2004": "EN 1992-1-1",
    "ACI 209R-92": "ACI 209R",
    "ACI 209R": "ACI 209R",
    "fib Model Code 2010": "MC 2010",
    "MC 2010": "MC 2010",
    "AASHTO LRFD": "AASHTO LRFD",
}
"""What the file may call a model, and its key. Only editions that are built in: others have other formulas."""
assert set(MODEL_NAMES.values()) == set(MODELS)

Cement = Annotated[str, Choice(tuple(EN_CEMENT))]
Curing = Annotated[float, Quantity("time", low=0.1, high=365.0, examples=("3 days", "18 h"))]
Share = Annotated[float, Number(0.0, 1.0, above=True, percent=True, bare=False, example=0.3)]


class AgeingTable(Table):
    """How the concrete creeps and shrinks; its humidity and cement stand in [concrete]."""

    model: Annotated[str, Choice(tuple(MODEL_NAMES))] = Field(
        examples=["EN 1992-1-1", "ACI 209R-92", "fib Model Code 2010", "AASHTO LRFD"],
        default="EN 1992-1-1",
        description="The standard whose creep, shrinkage, strength gain and relaxation are used.",
    )
    cured_until: Curing | None = Field(
        default=None, description="Age at which the concrete is no longer kept wet and begins to dry; else 7 days."
    )
    heat: Annotated[float, Quantity("time", high=28.0, zero=True, examples=("18 h",))] = Field(
        default=0.0, description="Time of steam or other accelerated curing."
    )
    notional_size: Annotated[float, Quantity("length", low=5.0, high=10e3, examples=("150 mm", "6 in"))] | None = Field(
        default=None,
        description="2 Ac/u, twice the area over the perimeter that dries; else that of the outline with all its "
        "outer faces drying.",
    )


class StageTable(Table):
    """One thing that is done to the beam. Stages stand in the order in which they happen."""

    what: Annotated[str, Choice(WHATS)] = Field(
        examples=["release", "load"],
        description="What is done: cast (day 0, may be left out), release of pretensioned tendons, stress of tendons, "
        "grout their ducts, support (it comes to stand on its supports), load and unload of cases, topping (it is "
        "poured), age (nothing; the state is told).",
    )
    at: Annotated[float, Quantity("time", high=OLDEST, zero=True, signed=True)] | None = Field(
        examples=["18 h", "7 days", "30 years"],
        default=None,
        description="When, counted from casting; must be given but for cast. Before casting (-1 day) only "
        "pretensioned tendons are stressed.",
    )
    tendons: Annotated[tuple[str, ...], Several(Text(60, "A"), most=200, example=("A", "B"))] | None = Field(
        examples=[["A", "B"]],
        default=None,
        description="Release, stress, grout: names of the tendon groups, in the order of stressing; else all that fit "
        "and were not handled yet.",
    )
    cases: Annotated[tuple[str, ...], Several(Choice(CASES), most=len(CASES), example=("dead",))] | None = Field(
        examples=[["dead"], ["dead", "crowd"]],
        default=None,
        description="Load, unload: the cases of [[loads]] that are put on or taken off.",
    )
    share: Share | None = Field(default=None, description="Load, unload: how much of those loads; else 100 %.")
    supports: SupportTable | None = Field(
        examples=[{"span": "7.5 m", "overhangs": "0.4 m"}],
        default=None,
        description="Support: what it stands on from now on, with the keys of [supports]; else [supports] itself.",
    )
    propped: Annotated[bool, YesNo()] | None = Field(
        default=None,
        description="Topping: whether the beam rests on props until the topping has hardened, so that both carry its "
        "weight; else false.",
    )
    name: Annotated[str, Text(80, "railing mounted")] = Field(
        default="", description="What the stage is called; else a name is made from what is done."
    )


class ToppingTable(Table):
    """Concrete cast on the finished beam later, a rectangle over its whole length, which then acts with it."""

    depth: Dimension = Field(examples=["70 mm", "3 in"], description="Depth.")
    width: Dimension = Field(examples=["1.2 m", "4 ft"], description="Width.")
    strength: Strength = Field(description="Compressive strength of the cylinder at 28 days.")
    strength_is: Annotated[str, Choice(("mean", "specified"))] = Field(
        default="mean", description="Whether the strength was measured (mean) or ordered (specified)."
    )
    strength_by: Annotated[str, Choice(("EN 1992-1-1", "ACI 318-19"))] = Field(
        default="EN 1992-1-1", description="The standard by which properties that were not measured are derived."
    )
    modulus: Annotated[float, Quantity("modulus", low=1e3, high=120e3)] | None = Field(
        examples=["31 GPa", "4200 ksi"],
        default=None,
        description="Modulus of elasticity at the origin of the curve; else derived.",
    )
    density: Annotated[float, Quantity("density", low=500.0, high=7000.0)] | None = Field(
        default=None, description="Density of the plain concrete; else 2400 kg/m³."
    )
    cement_class: Cement | None = Field(
        default=None, description="Strength class of the cement, rapid, normal or slow; else N."
    )
    cured_until: Curing | None = Field(
        default=None, description="Its age at which it is no longer kept wet and begins to dry; else 7 days."
    )
    hardens: Annotated[float, Quantity("time", low=0.1, high=365.0, examples=("1 day", "18 h"))] = Field(
        default=1.0, description="Time after pouring from which it acts with the beam."
    )

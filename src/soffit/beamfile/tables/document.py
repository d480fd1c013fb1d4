"""The whole beam file."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from soffit.beamfile.kinds import Choice, Text, YesNo
from soffit.beamfile.tables.base import Table
from soffit.beamfile.tables.concrete import ConcreteTable
from soffit.beamfile.tables.holding import LoadTable, PressTable, SupportTable
from soffit.beamfile.tables.making import AgeingTable, StageTable, ToppingTable
from soffit.beamfile.tables.section import SectionTable
from soffit.beamfile.tables.steel import BarTable, StirrupTable
from soffit.beamfile.tables.tendons import TendonTable
from soffit.beamfile.tables.verifying import ProjectTable, VehicleTable, VerifyTable


class Head(Table):
    """The keys that stand at the top of the file, outside all tables."""

    name: Annotated[str, Text(120)] = Field(default="", description="What the beam is called; else the file's name.")
    about: Annotated[str, Text(5000, "two bars, third-point bending", lines=True)] = Field(
        default="", description="What the beam is for, in words."
    )
    units: Annotated[str, Choice(("SI", "US"))] | None = Field(
        default=None, description="Units in which results are shown; else those of most lengths in the file."
    )
    self_weight: Annotated[bool, YesNo()] = Field(default=True, description="Whether the beam's own weight acts on it.")


class Document(Head):
    """One beam. x is measured from its left end, heights from the soffit or the top of the section."""

    concrete: ConcreteTable = Field(description="The concrete.")
    section: SectionTable = Field(description="The section.")
    bars: list[BarTable] = Field(default=[], description="Reinforcing bars, one table a group.")
    tendons: list[TendonTable] = Field(default=[], description="Prestressed tendons, one table a group.")
    stirrups: list[StirrupTable] = Field(default=[], description="Stirrups, one table a zone.")
    supports: SupportTable = Field(description="The supports.")
    loads: list[LoadTable] = Field(default=[], description="Loads, one table each.")
    ageing: AgeingTable | None = Field(default=None, description="How the concrete creeps and shrinks.")
    stages: list[StageTable] = Field(default=[], description="What is done to the beam when, one table a stage.")
    topping: ToppingTable | None = Field(default=None, description="Concrete cast on the beam later.")
    verify: VerifyTable | None = Field(default=None, description="What a verification is to assume.")
    project: ProjectTable | None = Field(default=None, description="For the cover of a calculation.")
    vehicles: list[VehicleTable] = Field(default=[], description="Rows of axles that go over the beam.")
    press: PressTable | None = Field(default=None, description="The testing machine.")

"""Invented beams of every kind, for the tests of the pictures."""

from __future__ import annotations

from dataclasses import replace

from soffit.materials.concrete import Concrete
from soffit.materials.steel import Steel
from soffit.member.beam import (
    Anchor,
    BarGroup,
    Beam,
    Load,
    Press,
    Profile,
    StirrupZone,
    Supports,
    TendonGroup,
)
from soffit.section import outline

CONCRETE = Concrete(strength=35.0, tensile=2.8, modulus=31000.0, fracture_energy=0.13)
BAR = Steel("plateau", 200000.0, 520.0, 610.0, 0.08, 0.015, "B500B")
STRAND = Steel("strand", 196000.0, 1640.0, 1860.0, 0.035, name="Y1860S7")
ROD = Steel("bilinear", 205000.0, 640.0, 800.0, 0.05, name="class 8.8")

BENCH = Beam(
    name="Bench beam A",
    about="no reinforcement, third-point bending",
    concrete=CONCRETE,
    outline=outline.rectangle(100, 150),
    length=1250,
    supports=Supports((100.0, 1150.0), bearing=40),
    press=Press((450.0, 800.0), capacity=100e3, stroke=50, plate=40),
)


def bars_beam() -> Beam:
    bars = (
        BarGroup(2, 10, 157, 25, BAR, 20, 1230, "hook", "hook", label="2 × 10 B500B"),
        BarGroup(2, 6, 57, 128, BAR, 20, 1230, label="2 × 6 B500A"),
    )
    stirrups = (
        StirrupZone(56.5, 80, 6, 2, BAR, 40, 460, "6 @ 80 B500A"),
        StirrupZone(56.5, 80, 6, 2, BAR, 800, 1210, "6 @ 80 B500A"),
    )
    return replace(
        BENCH,
        name="Bench beam B",
        about="two deformed bars, third-point bending",
        bars=bars,
        stirrups=stirrups,
    )


def pretensioned_beam() -> Beam:
    tendon = TendonGroup(
        2, 9.3, 104, STRAND, Profile((0, 1250), (40, 40)), "before casting", "bonded", 1200,
        transfer_length=520, x_to=1250, label="2 × 9.3 strand Y1860S7",
    )  # fmt: skip
    return replace(
        BENCH,
        name="Bench beam C",
        about="two strands tensioned in the bed, third-point bending",
        tendons=(tendon,),
    )


def post_beam() -> Beam:
    tendon = TendonGroup(
        2, 10, 116, ROD, Profile((0, 1250), (45, 45)), "after curing", "unbonded", 380,
        anchor=Anchor("nut", 46e3, "thread stripping of the nut"), duct=16, x_to=1250, stress_scatter=0.25,
        label="2 × M10 rod, class 8.8",
    )  # fmt: skip
    return replace(
        BENCH,
        name="Bench beam D",
        about="two threaded rods in sleeves, nuts turned by hand",
        tendons=(tendon,),
    )


def girder_beam() -> Beam:
    shape = outline.i_section(1600, 180, 900, 130, 650, 180, 90, 120)
    steel = replace(STRAND)
    straight = [
        TendonGroup(
            n, 15.7, n * 150.0, steel, Profile((0, 30800), (y, y)), "before casting", "bonded", 1350,
            x_to=30800, label=f"{n} × 15.7 strand Y1860S7",
        )
        for n, y in zip((8, 8, 6, 4, 2, 2), (60, 110, 160, 210, 260, 310), strict=True)
    ]  # fmt: skip
    draped = [
        TendonGroup(
            2, 15.7, 300.0, steel, Profile((0, 12000, 18800, 30800), (1050 + 50.0 * i, 360 + 50.0 * i,
            360 + 50.0 * i, 1050 + 50.0 * i)), "before casting", "bonded", 1350, x_to=30800,
            label="2 × 15.7 strand Y1860S7",
        )
        for i in range(6)
    ]  # fmt: skip
    return Beam(
        name="Alder Weir approach girder",
        about="forty strands in twelve rows, twelve of them draped",
        concrete=replace(CONCRETE, strength=55.0),
        outline=shape,
        length=30800,
        supports=Supports((400.0, 30400.0), bearing=300),
        tendons=(*straight, *draped),
        bars=(BarGroup(4, 16, 804, 1550, BAR, 40, 30760, label="4 × 16 B500B"),),
        stirrups=(
            StirrupZone(226, 100, 12, 2, BAR, 100, 3000, "12 @ 100"),
            StirrupZone(226, 250, 12, 2, BAR, 3000, 27800, "12 @ 250"),
            StirrupZone(226, 100, 12, 2, BAR, 27800, 30700, "12 @ 100"),
        ),
        loads=(Load("dead", 6.0, 0, 30800), Load("live", 12.0, 400, 30400)),
    )


def cantilever_beam() -> Beam:
    return Beam(
        name="Viewing balcony arm",
        concrete=CONCRETE,
        outline=outline.tee(400, 200, 600, 120),
        length=2400,
        supports=Supports((0.0,), fixed_left=True),
        bars=(
            BarGroup(4, 20, 1257, 360, BAR, 0, 2370, end_right="hook", label="4 × 20 B500B"),
            BarGroup(2, 12, 226, 40, BAR, 0, 2370, label="2 × 12 B500B"),
        ),
        stirrups=(StirrupZone(157, 150, 10, 2, BAR, 50, 2350, "10 @ 150"),),
        loads=(Load("live", 8e3, 2300, 2300),),
    )


def two_span_beam() -> Beam:
    return Beam(
        name="Two-span edge beam",
        about="hogging over the pier",
        concrete=CONCRETE,
        outline=outline.inverted_tee(500, 250, 550, 180),
        length=13000,
        supports=Supports((500.0, 6500.0, 12500.0), bearing=200),
        bars=(
            BarGroup(5, 20, 1571, 45, BAR, 30, 12970, label="5 × 20 B500B"),
            BarGroup(2, 16, 402, 455, BAR, 30, 12970, label="2 × 16 B500B"),
            BarGroup(3, 20, 942, 455, BAR, 4200, 8800, label="3 × 20 B500B"),
        ),
        stirrups=(StirrupZone(157, 150, 10, 2, BAR, 60, 12940, "10 @ 150"),),
        loads=(Load("dead", 10.0, 0, 13000), Load("live", 15.0, 500, 12500)),
    )

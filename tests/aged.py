"""Invented prestressed and ordinary beams that tests let grow old, in base units (N, mm, MPa, days)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import specimens as sp
from soffit.materials.ageing.casting import Casting
from soffit.member.beam import Anchor, Beam, Profile, Supports
from soffit.member.making import Making, Scales, Stage, Topping
from soffit.section.outline import rectangle

YEARS = 50 * 365.25
YOUNG = Casting(48.0, 60.0, 176.0, "R", cured_until=1.0, specified=40.0, transfer_strength=30.0, transfer_age=1.0)
"""Precast: 30 MPa when a day old."""
SITE = Casting(48.0, 60.0, 250.0, "N", cured_until=3.0, specified=40.0)


def plank(
    rows: Sequence[tuple[int, float]] = ((8, 45.0), (2, 210.0)),
    topped: bool = False,
    loads: bool = True,
    model: str = "EN 1992-1-1",
    end: float = YEARS,
    area: float = 93.0,
    scales: Scales | None = None,
) -> Beam:
    """Pretensioned, 600 × 250 mm, 9.2 m; ``rows``: strands and their height."""
    length = 9200.0
    strands = tuple(
        sp.tendon(
            area * n,
            y,
            length,
            1300.0,
            count=n,
            when="before casting",
            bond="bonded",
            stress_is="at the jack",
            name=name,
        )
        for (n, y), name in zip(rows, "ABC", strict=False)
    )
    stages = [Stage("release", 1.0, tuple(range(len(strands)))), Stage("support", 14.0)]
    topping = None
    if topped:
        poured = Casting(38.0, 60.0, 150.0, cured_until=3.0, specified=30.0)
        topping = Topping(rectangle(600.0, 80.0), 250.0, sp.CONCRETE, poured, 3.0)
        stages.append(Stage("topping", 28.0))
    if loads:
        stages += [Stage("load", 40.0, cases=("dead",)), Stage("load", 60.0, cases=("live",), share=0.3)]
    stages = [s for s in stages if s.at < end] + [Stage("age", end)]
    made = Making(model, YOUNG, tuple(stages), topping)
    return Beam(
        "plank",
        concrete=replace(sp.CONCRETE, strength=48.0, strength_at_transfer=30.0),
        outline=rectangle(600.0, 250.0),
        length=length,
        supports=Supports((100.0, length - 100.0)),
        tendons=strands,
        self_weight=loads,
        loads=(sp.uniform(length, 3.0, "dead"), sp.uniform(length, 6.0, "live")),
        making=made if scales is None else replace(made, scales=scales),
    )


def girder(bond: str = "bonded", spans: int = 1) -> Beam:
    """Post-tensioned, 400 × 1000 mm, 20 m, two tendons stressed three weeks apart."""
    length = 20000.0
    tendons = tuple(
        sp.tendon(
            1050.0, Profile((0.0, length / 2, length), (500.0, y, 500.0), "parabola"), length, 1395.0, bond=bond,
            stress_is="at the jack", name=name, friction=0.19, wobble=1e-6, duct=70.0, diameter=70.0,
            anchor=Anchor("wedge", 2e6, "wedges", 5.0),
        )
        for y, name in ((100.0, "A"), (200.0, "B"))
    )  # fmt: skip
    stages = [Stage("stress", 7.0, (0,)), Stage("stress", 28.0, (1,))]
    if bond == "bonded":
        stages.append(Stage("grout", 30.0, (0, 1)))
    stages += [Stage("load", 60.0, cases=("dead",)), Stage("age", YEARS)]
    return Beam(
        "girder",
        concrete=replace(sp.CONCRETE, strength=48.0),
        outline=rectangle(400.0, 1000.0),
        length=length,
        supports=Supports(tuple(length * i / spans for i in range(spans + 1))),
        tendons=tendons,
        bars=(sp.bars(2, 16.0, 50.0, length),),
        loads=(sp.uniform(length, 10.0, "dead"),),
        making=Making("EN 1992-1-1", SITE, tuple(stages)),
    )


def joist(top: int = 0, dead: float = 8.0, length: float = 6000.0, cantilever: bool = False) -> Beam:
    """Ordinary reinforced, 300 × 500 mm; cracks under its dead load."""
    bars = [sp.bars(4, 20.0, 50.0 if not cantilever else 450.0, length)]
    if top:
        bars.append(sp.bars(top, 16.0, 450.0 if not cantilever else 50.0, length))
    return Beam(
        "joist",
        concrete=replace(sp.CONCRETE, strength=38.0, tensile=0.3 * 30.0 ** (2.0 / 3.0)),
        outline=rectangle(300.0, 500.0),
        length=length,
        supports=Supports((0.0,), fixed_left=True) if cantilever else Supports((0.0, length)),
        bars=tuple(bars),
        loads=(sp.uniform(length, dead, "dead"),),
        making=Making(
            "EN 1992-1-1",
            Casting(38.0, 50.0, 187.0, specified=30.0),
            (Stage("support", 28.0), Stage("load", 28.0, cases=("dead",)), Stage("age", YEARS)),
        ),
    )

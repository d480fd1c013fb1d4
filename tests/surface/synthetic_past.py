"""Invented pasts, for the tests of what shows them: smooth curves of no physics, with the jumps and gaps of real
ones."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import synthetic_beams

from soffit.materials.ageing.casting import Casting
from soffit.member.beam import Beam, Profile, Supports, TendonGroup
from soffit.member.making import Making, Stage, Topping
from soffit.member.profile import height
from soffit.member.time.result import Band, Instant, Past, TendonPast
from soffit.section import outline

CASTING = Casting(strength=45.0, humidity=0.7, notional_size=150.0)
END = 50 * 365.25


def past(beam: Beam, sag: float = -20.0, cracks: bool = False) -> Past:
    """A past with the stages of ``beam.making``; ``sag`` is the deflection in the middle at the end, mm."""
    assert beam.making is not None
    stages = beam.making.stages
    ages = np.unique(np.concatenate([np.geomspace(stages[0].at, END, 60), [s.at for s in stages]]))
    t = np.repeat(ages, 2)
    x = np.linspace(0, beam.length, 41)
    released = stages[0].at
    grown = np.clip(np.log1p(np.maximum(t - released, 0)) / np.log1p(END), 0, 1)
    steps = np.arange(len(t))
    acts = (steps >= 1).astype(float)
    at = [int(np.searchsorted(t, s.at + 1e-9, side="right")) - 1 for s in stages]
    loaded = sum((0.35 * (steps >= step) for step, s in zip(at, stages, strict=True) if s.what == "load"), 0 * t)
    shape = np.sin(np.pi * x / beam.length) * (1 if len(beam.supports.x) < 3 else np.cos(np.pi * x / beam.length))
    bend = acts * (0.5 + 0.5 * grown) - (loaded if sag < 0 else -loaded * 0.5)
    deflection = sag * bend[:, None] * shape[None, :]
    bottom = -12.0 * (acts * (1 - 0.25 * grown) - 0.9 * loaded)[:, None] * (0.4 + 0.6 * np.abs(shape))[None, :]
    if not beam.tendons:
        bottom = 6.0 * (acts * 0.6 + loaded)[:, None] * shape[None, :]
    top = -0.35 * bottom - 3.0 * loaded[:, None]
    topping = beam.making.topping
    poured = steps >= max([step for step, s in zip(at, stages, strict=True) if s.what == "topping"], default=0)
    above = np.where(poured[:, None], -1.0 * loaded[:, None] * np.ones_like(x), np.nan)
    cracked = np.where(cracks & (loaded > 0)[:, None] & (shape > 0.4)[None, :], 0.6 * shape, 0.0)
    tendons = tuple(_tendon(beam, i, t, x, acts, grown) for i in range(len(beam.tendons)))
    names = {
        "release": "strands released", "stress": "tendons stressed", "grout": "ducts grouted", "load": "all loads on",
        "support": "on its supports", "topping": "topping poured", "age": "age of 50 years", "cast": "cast",
    }  # fmt: skip
    strength = 45.0 * np.exp(0.25 * (1 - np.sqrt(28 / t)))
    return Past(
        beam=beam, making=beam.making, model="en1992", t=t, x=x,
        instants=tuple(Instant(s, step, s.name or names[s.what]) for s, step in zip(stages, at, strict=True)),
        moment=1e8 * bend[:, None] * shape, secondary=0 * deflection, axial=0 * deflection, bottom=bottom, top=top,
        topping_bottom=above if topping else None, topping_top=1.8 * above if topping else None,
        cracked=cracked, crack_stress=240.0 * cracked, bars=np.zeros((len(t), len(beam.bars), len(x))), loads=(),
        supports=(beam.supports,) * len(t), curvature=0 * deflection, deflection=deflection, tendons=tendons,
        strength=strength, tensile=0.3 * strength ** (2 / 3), modulus=22000 * (strength / 10) ** 0.3,
        topping_strength=strength * poured, shrinkage=4e-4 * grown,
        notes=("Invented: nothing here comes from physics.",),
        cautions=("Stand clear of the line of a stressed tendon.",),
    )  # fmt: skip


def _tendon(beam: Beam, i: int, t: np.ndarray, x: np.ndarray, acts: np.ndarray, grown: np.ndarray) -> TendonPast:
    group = beam.tendons[i]
    runs = (x >= group.x_from - 1e-6) & (x <= group.x_to + 1e-6)
    zero = np.zeros((len(t), len(x)))
    low = 1 - np.abs(height(group.profile, x) - 100) / 5000
    friction = (0.02 * group.stress * x / beam.length) if group.when == "after curing" else 0 * x
    draw_in = np.maximum(0, 30 - 60 * x / beam.length) if group.when == "after curing" else 0 * x
    bed = 0 * x + (15.0 if group.when == "before casting" else 0.0)
    elastic = zero + 55.0 * acts[:, None] * low
    creep, shrinkage, relaxation = (zero + f * grown[:, None] * low for f in (80.0 + 5 * i, 60.0, 45.0))
    stress = group.stress - friction - draw_in - bed - elastic - creep - shrinkage - relaxation
    stress = np.where(runs, stress, np.nan)
    if group.when == "after curing":
        stress[0] = np.nan
    built = np.minimum(np.minimum(x - group.x_from, group.x_to - x) / (60 * group.diameter), 1.0)
    hold = np.where(runs, np.clip(built, 0, 1) if group.when == "before casting" else 1.0, 0.0)
    return TendonPast(
        group,
        i,
        stress,
        stress,
        zero,
        hold,
        group.stress,
        friction,
        draw_in,
        bed,
        relaxation,
        elastic,
        creep,
        shrinkage,
        zero,
    )


def band(mean: Past, station: int | None = None) -> Band:
    """A band that opens with time."""
    at = mean.middle if station is None else station
    wide = 0.1 + 0.25 * np.linspace(0, 1, len(mean.t))

    def about(value: np.ndarray, size: float) -> tuple[np.ndarray, np.ndarray]:
        return value - size * wide, value + size * wide

    return Band(
        mean, at, about(mean.deflection[:, at], 14.0), about(mean.bottom[:, at], 5.0), about(mean.top[:, at], 3.0),
        tuple(about(tendon.stress[:, at], 180.0) for tendon in mean.tendons),
        ("creep 25 % (invented)", "shrinkage 30 % (invented)"),
    )  # fmt: skip


def plank() -> Beam:
    """Pretensioned, two heights of strand."""
    stages = (Stage("release", 0.75), Stage("support", 14.0), Stage("load", 28.0, cases=("dead",)), Stage("age", END))
    steel = synthetic_beams.STRAND
    rows = [
        TendonGroup(n, 12.5, 93.0 * n, steel, Profile((0, 9200), (y, y)), "before casting", "bonded", 1300.0,
                    x_to=9200, label=f"{n} × 12.5 strand Y1860S7", name=name)
        for n, y, name in ((8, 45, "A"), (2, 210, "B"))
    ]  # fmt: skip
    return replace(
        synthetic_beams.girder_beam(), name="Alder Weir deck unit", about="pretensioned, of one casting", length=9200,
        outline=outline.rectangle(600, 250), supports=Supports((100.0, 9100.0), bearing=80), tendons=tuple(rows),
        bars=(), stirrups=(), loads=(), making=Making("en1992", CASTING, stages),
    )  # fmt: skip


def composite() -> Beam:
    stages = (
        Stage("release", 1.0), Stage("support", 7.0), Stage("topping", 40.0), Stage("load", 41.0, cases=("dead",)),
        Stage("load", 60.0, cases=("live",), share=0.3), Stage("age", END),
    )  # fmt: skip
    girder = synthetic_beams.girder_beam()
    topping = Topping(outline.rectangle(1600, 200), 1600.0, synthetic_beams.CONCRETE, CASTING, 3.0)
    named = [replace(t, name=f"T{i + 1}") for i, t in enumerate(girder.tendons)]
    return replace(girder, tendons=tuple(named), making=Making("en1992", CASTING, stages, topping))


def two_span() -> Beam:
    beam = synthetic_beams.two_span_beam()
    low, high = 80.0, 420.0
    tendon = TendonGroup(
        7, 15.7, 1050.0, synthetic_beams.STRAND,
        Profile((0, 3000, 6500, 10000, 13000), (250, low, high, low, 250), "parabola"), "after curing", "bonded",
        1400.0, friction=0.19, wobble=1e-5, duct=70.0, x_to=13000, label="7 × 15.7 strand Y1860S7", name="A",
    )  # fmt: skip
    stages = (Stage("stress", 7.0), Stage("grout", 9.0), Stage("load", 60.0, cases=("dead",)), Stage("age", END))
    return replace(beam, tendons=(tendon,), making=Making("en1992", CASTING, stages))


def reinforced() -> Beam:
    stages = (Stage("support", 10.0), Stage("load", 28.0, cases=("dead",)), Stage("age", END))
    beam = synthetic_beams.two_span_beam()
    bars = tuple(replace(b, x_from=30, x_to=5970) for b in beam.bars[:2])
    return replace(
        beam, name="Alder Weir edge beam", about="ordinary bars", length=6000,
        supports=Supports((150.0, 5850.0), bearing=150), bars=bars, stirrups=(),
        making=Making("en1992", CASTING, stages),
    )  # fmt: skip


BEAMS = {"plank": plank, "composite": composite, "two-span": two_span, "reinforced": reinforced}


def named(stem: str) -> tuple[Past, Band]:
    sag, cracks = {"reinforced": (18.0, True), "two-span": (3.0, False)}.get(stem, (-20.0, False))
    found = past(BEAMS[stem](), sag, cracks)
    return found, band(found)

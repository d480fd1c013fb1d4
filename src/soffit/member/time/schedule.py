"""What is done to a beam, deed by deed, in the order of the days."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from soffit.errors import PhysicsError
from soffit.materials.ageing.check import EARLIEST_LOADING
from soffit.member.beam import Beam
from soffit.member.making import Making, Stage

OLD_AGE = 50 * 365.25
"""Days: the design working life of buildings and bridges of class 4 is 50 years (EN 1990:2002 Table 2.1)."""
USUAL_RELEASE = 1.0
"""Day of release where nothing is said (*common practice* of precasting)."""
USUAL_GROUTING = 2.0
"""Days from stressing to grouting where nothing is said."""

LIFTING = ("release", "stress", "support", "load")
"""Stages with the first of which the beam leaves its form or bed and bears its own weight."""

Doing = Literal["stand", "release", "stress", "grout", "load", "weight", "harden", "look"]


@dataclass(frozen=True)
class Deed:
    """One instant in which the state changes (or is looked at)."""

    at: float
    """Days."""
    doing: Doing
    stage: Stage
    tendons: tuple[int, ...] = ()
    lifts: float = 0.0
    """Share of the beam's own weight that comes on with the deed, as it leaves its form or bed."""
    label: str = ""
    """Of the last deed of a stage, for the story."""


def making_of(beam: Beam) -> Making:
    """What the file says, or the usual stages where it gives none. Raises ``PhysicsError`` without surroundings."""
    if beam.making is None:
        raise PhysicsError(
            "how this beam ages is not known, for the humidity around it is not given: "
            'write relative_humidity = "60 %" in [concrete]'
        )
    if beam.making.stages:
        return beam.making
    return replace(beam.making, stages=usual(beam))


def usual(beam: Beam) -> tuple[Stage, ...]:
    """Stages of a beam that gives none: release after a day or stressing at the age of the concrete, grouting two days
    later, then it stands with its dead load, for fifty years."""
    age = beam.concrete.age
    early = tuple(i for i, t in enumerate(beam.tendons) if t.when == "before casting")
    late = tuple(i for i, t in enumerate(beam.tendons) if t.when == "after curing")
    ducts = tuple(i for i in late if beam.tendons[i].bond == "bonded")
    stages = [Stage("cast", 0.0)]
    if early:
        stages.append(Stage("release", min(USUAL_RELEASE, age), early))
    if late:
        stages.append(Stage("stress", age, late))
    if ducts:
        stages.append(Stage("grout", age + USUAL_GROUTING, ducts))
    day = max(age, stages[-1].at)
    stages.append(Stage("support", day))
    if any(load.case == "dead" for load in beam.loads):
        stages.append(Stage("load", day, cases=("dead",)))
    stages.append(Stage("age", max(OLD_AGE, 2.0 * day)))
    return tuple(stages)


def said_of_usual(beam: Beam) -> str:
    """The sentence that owns up to the usual stages."""
    told = [f"{label(beam, s)} at {days(s.at)}" for s in usual(beam) if s.what not in ("cast", "age")]
    return f"No [[stages]] are given, so the usual ones are taken: {', '.join(told)}; live loads stay off."


def deeds(beam: Beam, making: Making) -> tuple[Deed, ...]:
    """The stages cut into instants, tendons that are stressed one after another each with its own.

    Raises ``PhysicsError`` where a stage cannot be done.
    """
    done: list[Deed] = []
    standing = in_yard = False
    many = len(beam.supports.x) > 2 or beam.supports.fixed_left or beam.supports.fixed_right
    hardens: Deed | None = None
    for stage in making.stages:
        if hardens and hardens.at <= stage.at:
            done.append(hardens)
            hardens = None
        if stage.what == "cast" or (stage.what == "stress" and _all_early(beam, stage)):
            continue
        if stage.what != "age" and stage.at < EARLIEST_LOADING:
            raise PhysicsError(
                f"{label(beam, stage)} at {days(stage.at)} meets no hard concrete: the earliest age is "
                f"{EARLIEST_LOADING:g} days"
            )
        here = _done(beam, stage)
        if not standing and here and stage.what in LIFTING:
            # it leaves its form; tendons stressed one after another take its weight share by share
            here = [replace(deed, lifts=1.0 / len(here)) for deed in here]
            standing, in_yard = True, stage.what == "release" and many and len(beam.supports.x) > 1
        elif in_yard and stage.what != "release":
            in_yard = False
            if stage.what != "support":
                done.append(Deed(stage.at, "stand", Stage("support", stage.at), label="on all its supports"))
        done += here
        if stage.what == "topping":
            assert making.topping is not None
            hardens = Deed(stage.at + making.topping.hardens, "harden", stage, label="the topping has hardened")
    if hardens:
        done.append(hardens)
    return tuple(_labelled(beam, done))


def _all_early(beam: Beam, stage: Stage) -> bool:
    return all(beam.tendons[i].when == "before casting" for i in stage.tendons)


def _done(beam: Beam, stage: Stage) -> list[Deed]:
    if stage.what == "release":
        return [Deed(stage.at, "release", stage, stage.tendons)]
    if stage.what == "stress":
        late = [i for i in stage.tendons if beam.tendons[i].when == "after curing"]
        return [Deed(stage.at, "stress", stage, (i,)) for i in late]
    if stage.what == "grout":
        return [Deed(stage.at, "grout", stage, stage.tendons)]
    if stage.what in ("load", "unload"):
        return [Deed(stage.at, "load", stage)]
    if stage.what == "topping":
        return [Deed(stage.at, "weight", stage)]
    if stage.what == "support":
        return [Deed(stage.at, "stand", stage)]
    return [Deed(stage.at, "look", stage)]


def _labelled(beam: Beam, done: list[Deed]) -> list[Deed]:
    out = []
    for i, deed in enumerate(done):
        last = not any(d.stage is deed.stage and d.doing != "harden" for d in done[i + 1 :])
        if last and not deed.label:
            out.append(replace(deed, label=label(beam, deed.stage)))
        else:
            out.append(deed)
    return out


def stressed_on(beam: Beam, making: Making, group: int) -> float | None:
    """Day on which a pretensioned group was stressed in its bed, where a stage says it."""
    for stage in making.stages:
        if stage.what == "stress" and group in stage.tendons:
            return stage.at
    return None


def label(beam: Beam, stage: Stage) -> str:
    """What a stage does, in words."""
    if stage.name:
        return stage.name
    names = ", ".join(beam.tendons[i].name or str(i + 1) for i in stage.tendons)
    share = "" if stage.share == 1.0 else f"{100 * stage.share:.3g} % of "
    cases = " and ".join(stage.cases)
    words = {
        "cast": "cast",
        "release": f"tendons {names} released",
        "stress": f"tendons {names} stressed",
        "grout": f"ducts of {names} grouted",
        "support": "on its supports",
        "load": f"{share}{cases} load put on",
        "unload": f"{share}{cases} load taken off",
        "topping": "topping poured",
        "age": f"age of {days(stage.at)}",
    }
    return words[stage.what]


def days(at: float) -> str:
    """A time in the unit in which one would say it."""
    for size, unit in ((365.25, "years"), (1.0, "days")):
        if at >= 2.0 * size:
            return f"{at / size:.3g} {unit}"
    return f"{at * 24:.3g} hours" if 0.0 < at < 1.0 else f"{at:.3g} day{'' if at == 1.0 else 's'}"

"""A life that begins at an age: first the years, then the rising load."""

from __future__ import annotations

from dataclasses import replace

from soffit.member.beam import Beam
from soffit.member.life import life
from soffit.member.making import Making, Stage
from soffit.member.result import Life
from soffit.member.time.engine import past
from soffit.member.time.schedule import making_of
from soffit.member.time.stand import stand


def lived(beam: Beam, age: float | None = None) -> Life:
    """The life of ``beam`` loaded to its end at ``age`` (days).

    Without an age: at the last of its stages; a beam without stages has the life that its file's own strength and
    percentage of loss give, and no past. Raises as :func:`soffit.member.life.life` and
    :func:`soffit.member.time.past` do.
    """
    if age is None:
        if beam.making is None or not beam.making.stages:
            return life(beam)
        age = beam.making.stages[-1].at
    begun = stand(past(beam, making=until(making_of(beam), age)), age)
    return life(begun.beam, begun.load, begun.standing)


def until(making: Making, age: float) -> Making:
    """The making with what happens up to ``age``, and a look at that age."""
    kept = tuple(stage for stage in making.stages if stage.at <= age)
    poured = any(stage.what == "topping" for stage in kept)
    return replace(making, stages=(*kept, Stage("age", age)), topping=making.topping if poured else None)

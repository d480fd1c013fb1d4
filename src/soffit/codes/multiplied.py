"""Camber of pretensioned members by multipliers beside that computed step by step."""

from __future__ import annotations

from soffit.codes import camber, instants
from soffit.codes.bent import Bent, Watched
from soffit.codes.explained import Difference, Input, sentence
from soffit.codes.stagecheck import kind_of
from soffit.errors import PhysicsError
from soffit.member import statics
from soffit.member.time.schedule import making_of

NAME = "PCI multipliers"
CLAUSE = "PCI Design Handbook, after Martin 1977"


def row(watched: Watched, ours: Bent) -> Bent:
    """Final deflection from what is there at release and what loads add at once. Raises ``PhysicsError`` for beams that
    are not pretensioned and on one span."""
    past, at = watched.past, watched.station
    if any(t.when != "before casting" for t in past.beam.tendons):
        raise PhysicsError("the multipliers are for pretensioned members")
    if len(watched.supports.x) != 2:
        raise PhysicsError("the multipliers are for one span")
    steps = [instants.first_step(past, i) for i in range(len(past.tendons))]
    if any(s is None or s > watched.until for s in steps):
        raise PhysicsError("not all tendons are released by then")
    step = max(instants.settled(past, s) for s in steps if s is not None)
    at_release = past.supports[step]
    if at_release is None:
        raise PhysicsError("the beam still lies in its form")
    stiff = float(past.modulus[step]) * past.beam.outline.inertia
    down = float(statics.deflection(past.x, past.moment[step] / stiff, at_release)[at])
    up = max(down - float(past.deflection[step, at]), 0.0)
    loads = topping = live = 0.0
    for j, change in watched.jumps():
        instant = next(i for i in past.instants if i.step >= j.step)
        if j.step <= step or j.prestress or instant.stage.what == "support":
            continue
        if instant.stage.what == "topping":
            topping += change
        elif kind_of(past, instant) == "total":
            live += change
        else:
            loads += change
    by = camber.FINAL if making_of(past.beam).topping is None else camber.FINAL_TOPPED
    total = camber.deflection(by, up=up, down=max(down, 0.0), superimposed=loads, topping=topping) + live
    erected = camber.deflection(camber.AT_ERECTION, up=up, down=max(down, 0.0))
    inputs = (
        Input("up", up, "mm", f"by prestress at release, × {by.prestress:g}"),
        Input("down", down, "mm", f"by its weight at release, × {by.weight:g}"),
        Input("loads", loads, "mm", f"by later loads at once, × {by.superimposed:g}"),
        Input("topping", topping, "mm", f"by the weight of the topping at once, × {by.topping:g}"),
        Input("at erection", erected, "mm", "1.85 down less 1.80 up"),
    )
    grown = ours.total - (down - up) - loads - topping - live
    theirs = total - (down - up) - loads - topping - live
    causes = (
        Difference(
            f"growth of {theirs:.1f} mm since release, ours {grown:.1f} mm; it knows nothing of this concrete, its "
            "surroundings or its prestress".replace("-", "−"),
            total - ours.total,
        ),
    )
    text = sentence("The method of multipliers of the PCI Design Handbook", total, ours.total, causes, "mm", 1)
    return Bent(NAME, CLAUSE, None, watched.x, down - up, total, inputs, causes, text)

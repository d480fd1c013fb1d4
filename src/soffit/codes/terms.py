"""Differences of methods whose terms cannot be changed one by one: term beside term."""

from __future__ import annotations

from soffit.codes.explained import Difference
from soffit.codes.lost import Looked, Ours, Parts

LONG = 100.0 * 365.25
"""Days that stand for the end of life."""


def by_term(theirs: Parts, ours: Parts, creep: str, shrinkage: str, relaxation: str) -> tuple[Difference, ...]:
    """Their sum is the difference of the totals. Creep step by step is told with the spring-back that goes with it."""
    return (
        Difference("its elastic shortening", theirs.elastic - ours.elastic),
        Difference(
            "its elastic gain by later loads" if theirs.loads else "no gain by later loads", theirs.loads - ours.loads
        ),
        Difference(creep, theirs.creep + theirs.rest - ours.creep - ours.rest),
        Difference(shrinkage, theirs.shrinkage - ours.shrinkage),
        Difference(relaxation, theirs.relaxation - ours.relaxation),
    )


def end_of_life(looked: Looked) -> str:
    """How much of creep and shrinkage has come by the age that the steps are told for."""
    mine, t, t0 = Ours(looked.past), looked.t, looked.t0
    long = max(LONG, t)
    creep, shrinkage = mine.creep(long, t0), mine.shrinkage(long, t0)
    if creep <= 0.0 or shrinkage <= 0.0:
        return ""
    crept, shrunk = mine.creep(t, t0) / creep, mine.shrinkage(t, t0) / shrinkage
    return (
        f" It is meant for the end of life: of what our model has in 100 years, {100 * crept:.0f} % of the creep and "
        f"{100 * shrunk:.0f} % of the shrinkage have come."
    )

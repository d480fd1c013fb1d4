"""Combinations for the fib Model Code 2010: of the form and with the factors of EN 1990 (*from memory*)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from soffit.codes.combining import Rules, Variable
from soffit.codes.en1992 import combinations
from soffit.member.beam import Beam


def rules(beam: Beam, variables: Sequence[Variable]) -> Rules:
    """All combinations for the variable loads that there are."""
    found = combinations.rules(beam, variables)
    return replace(
        found, said=("The Model Code's actions are combined as EN 1990 does, with its factors.", *found.said)
    )

"""How a life ends: the mode, whether it is brittle, and the warning that was given."""

from __future__ import annotations

from dataclasses import dataclass

from soffit.member.result import Failure, Warnings
from soffit.member.watch import Sighting

BRITTLE_BELOW = 3.0
"""Deflection at the peak over that at first crack below which a failure gives hardly any warning (ours)."""
WORDS = ((1.5, "none"), (4.0, "little"), (10.0, "fair"))
"""Warning in a word, by the deflection ratio (ours: for orientation, not a criterion of any code)."""


@dataclass(frozen=True)
class Ending:
    """What ended the life: the mode and the place; ``by`` is empty or names what gave way."""

    mode: str
    x: float
    by: str = ""
    linear: bool = False
    """Whether the steel that carries it is elastic to its rupture (fibre-reinforced polymer)."""
    crushed: bool = False
    """Whether the concrete had crushed before the steel broke."""


DUCTILE = ("tension-controlled flexure", "bar rupture", "tendon rupture")


def warnings(deflection_ratio: float, energy_ratio: float, ending: Ending) -> Warnings:
    """The warning in numbers and a word.

    A beam that breaks as it cracks gives none, whatever the ratios; one that fails in a brittle mode is never said to
    give more than little, however far it has bent, for nothing tells when the end will come.
    """
    if ending.mode == "first crack":
        return Warnings(deflection_ratio, energy_ratio, "none")
    if ending.mode not in DUCTILE or ending.linear:
        return Warnings(deflection_ratio, energy_ratio, "none" if deflection_ratio < WORDS[0][0] else "little")
    word = next((word for limit, word in WORDS if deflection_ratio < limit), "ample")
    return Warnings(deflection_ratio, energy_ratio, word)


def bending_mode(found: list[Sighting], peak: float, at_crack: bool, broken: str = "") -> str:
    """Mode of a failure in bending whose peak is at step ``peak``: what came before it, in which order.

    ``broken``: ``"bar"`` or ``"tendon"`` where the history ends at the peak because that breaks.
    """
    if broken:
        return f"{broken} rupture"
    if at_crack:
        return "first crack"
    before = {s.event for s in found if s.step <= peak + 1e-6}
    just = {s.event for s in found if s.step <= peak + 1.0 + 1e-6}
    for steel in ("bar", "tendon"):
        if f"{steel} rupture" in just:
            return f"{steel} rupture"
    if before & {"bar yield", "tendon yield"}:
        return "tension-controlled flexure"
    return "compression-controlled flexure"


def failure(ending: Ending, warning: Warnings) -> Failure:
    """The failure with its sentence. Brittle: no yielding of long reach before the peak."""
    ductile = ending.mode in DUCTILE and not ending.linear
    brittle = not ductile or warning.deflection_ratio < BRITTLE_BELOW
    said = {
        "none": "there is no warning",
        "little": "there is little warning",
        "fair": "there is fair warning",
        "ample": "there is ample warning",
    }[warning.word]
    return Failure(ending.mode, ending.x, brittle, f"{_what(ending)}; {said}.")


def _what(ending: Ending) -> str:
    by = ending.by
    if ending.mode == "bar rupture" and ending.linear:
        return (
            "The concrete crushes, and then the bars, elastic to the last, break"
            if ending.crushed
            else "The bars, elastic to the last, break before the concrete crushes"
        )
    if ending.mode.endswith("rupture") and ending.crushed:
        steel = ending.mode.split()[0]
        return f"The {by or 'steel'} yields, the concrete crushes, and at last a {steel} breaks"
    return {
        "first crack": "The beam breaks at its first crack, for nothing behind it can carry what the concrete carried",
        "tension-controlled flexure": f"The {by or 'steel'} yields, the cracks open, and at last the concrete crushes",
        "compression-controlled flexure": "The concrete crushes before the steel yields",
        "bar rupture": "The bars yield and break before the concrete crushes",
        "tendon rupture": "The tendon breaks before the concrete crushes",
        "anchor": f"The anchor of the tendon gives way ({by})" if by else "The anchor of the tendon gives way",
        "bond": f"The embedment of {by or 'the bars'} gives way: it cannot hold what the crack asks",
        "shear": "A diagonal crack breaks the web in shear"
        if not by
        else "A diagonal crack tears the few bars that run on past the others",
    }[ending.mode]

"""The aims that were set before the first run, and whether they are met."""

from __future__ import annotations

from dataclasses import dataclass

from evidence.groups import Group
from evidence.statistics import modes, summary


@dataclass(frozen=True)
class Aim:
    least: float
    most: float
    variation: float
    modes: float = 0.9


BENDING = Aim(0.95, 1.10, 0.12)
BARE_WEB = Aim(0.90, 1.20, 0.18)


def verdict(group: Group, aim: Aim) -> list[str]:
    """Title, then mean, variation and modes, each with whether the aim is met."""
    s = summary(group.ratios)
    right, known = modes(group.outcomes)
    share = right / known if known else float("nan")

    def word(met: bool) -> str:
        return "met" if met else "**not met**"

    return [
        group.title,
        f"{s.mean:.2f} ({aim.least:.2f} to {aim.most:.2f}): {word(aim.least <= s.mean <= aim.most)}",
        f"{100 * s.variation:.0f} % (≤ {100 * aim.variation:.0f} %): {word(s.variation <= aim.variation)}",
        f"{100 * share:.0f} % (≥ {100 * aim.modes:.0f} %): {word(share >= aim.modes)}",
    ]

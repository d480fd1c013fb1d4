"""Mean, spread and modes of a group of beams."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import fmean, median, stdev

from evidence.predicted import Outcome


@dataclass(frozen=True)
class Summary:
    """Of measured over predicted values."""

    n: int
    mean: float
    variation: float
    """Coefficient of variation (sample); NaN for a single value."""
    median: float
    least: float
    most: float


def summary(ratios: Iterable[float]) -> Summary:
    """Raises ``ValueError`` when there is none."""
    r = sorted(ratios)
    if not r:
        raise ValueError("a group without a value has no mean")
    mean = fmean(r)
    spread = stdev(r) / mean if len(r) > 1 else float("nan")
    return Summary(len(r), mean, spread, median(r), r[0], r[-1])


def modes(outcomes: Sequence[Outcome]) -> tuple[int, int]:
    """How many modes are right, of how many that are known."""
    known = [o.mode_right for o in outcomes if o.mode_right is not None]
    return sum(known), len(known)

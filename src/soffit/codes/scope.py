"""Beams of which no sectional design method of a standard speaks: told with the clause, and no number is given."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from soffit.codes.working import Unchecked
from soffit.member.beam import Beam


def shortest_span(beam: Beam) -> float:
    """mm between the faces of bearings; a cantilever counts as half a span (*ours*)."""
    held, bearing = beam.supports.x, beam.supports.bearing
    spans = [b - a - bearing for a, b in pairwise(held)]
    if beam.supports.fixed_left and len(held) == 1:
        spans.append(2.0 * (beam.length - held[0]))
    if beam.supports.fixed_right and len(held) == 1:
        spans.append(2.0 * held[0])
    return min(spans, default=beam.length)


def deep(beam: Beam, depth: float, limit: float, clause: str) -> Iterator[Unchecked]:
    """A span of less than ``limit`` times the depth (mm) is a deep beam, for strut-and-tie models."""
    span = shortest_span(beam)
    if span < limit * depth:
        why = (
            f"a span of {span / 1000.0:.2f} m is less than {limit:g} times the depth of {depth / 1000.0:.2f} m: a deep "
            "beam, whose strains are not plane, wants a strut-and-tie model"
        )
        yield Unchecked("the whole beam", why, clause, scope=True)


def unbonded_pretensioning(beam: Beam, clause: str) -> Iterator[Unchecked]:
    """Pretensioned tendons without bond have nothing that holds them."""
    for i, tendon in enumerate(beam.tendons):
        name = tendon.name or str(i + 1)
        bonded = tendon.x_to - tendon.x_from
        if tendon.when == "before casting" and (tendon.bond == "unbonded" or bonded <= 0.0):
            yield Unchecked(
                "the whole beam", f"tendon {name} is stressed before casting and has no bond, so nothing anchors it",
                clause, scope=True,
            )  # fmt: skip

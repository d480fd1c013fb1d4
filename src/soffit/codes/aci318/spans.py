"""The spans and cantilevers of a beam as ACI 318-19 names them for deflection."""

from __future__ import annotations

from dataclasses import dataclass

from soffit.codes.design import Design

SYSTEMS = ("simply supported", "one end continuous", "both ends continuous")


@dataclass(frozen=True)
class Span:
    low: float
    high: float
    cantilever: bool
    name: str
    system: str
    """Row of Table 9.3.1.1."""
    held: tuple[float, ...]
    """Ends over which the beam is continuous, mm."""

    @property
    def length(self) -> float:
        return self.high - self.low

    @property
    def critical(self) -> float:
        """Midspan, or the support of a cantilever (24.2.3.7)."""
        if not self.cantilever:
            return 0.5 * (self.low + self.high)
        return self.held[0]

    @property
    def said(self) -> tuple[str, ...]:
        return ("What the rotation at its support adds is in the deflection.",) if self.cantilever else ()


def spans(design: Design) -> tuple[Span, ...]:
    """Overhangs shorter than the depth are none."""
    return design.kept("aci-spans", lambda: _spans(design))


def _spans(design: Design) -> tuple[Span, ...]:
    held, length, least = design.beam.supports, design.beam.length, design.outline.depth
    found, n = [], len(design.spans)
    for i, (low, high) in enumerate(design.spans):
        left, right = i > 0 or held.fixed_left, i < n - 1 or held.fixed_right
        ends = tuple(x for x, on in ((low, left), (high, right)) if on)
        name = f"span {i + 1}" if n > 1 else "the span"
        found.append(Span(low, high, False, name, SYSTEMS[left + right], ends))
    first, last = held.x[0], held.x[-1]
    # one support alone holds a cantilever, whatever its length
    if (first > least and not held.fixed_left) or (n == 0 and held.fixed_right):
        found.append(Span(0.0, first, True, "the left overhang" if n else "the cantilever", "cantilever", (first,)))
    if (length - last > least and not held.fixed_right) or (n == 0 and held.fixed_left):
        found.append(Span(last, length, True, "the right overhang" if n else "the cantilever", "cantilever", (last,)))
    return tuple(found)

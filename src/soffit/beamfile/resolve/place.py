"""Whether a row of bars or tendons is inside the concrete."""

from __future__ import annotations

from soffit.beamfile.faults import Spot
from soffit.section.outline import Outline

SLACK = 1e-6
"""mm, for rounding."""


def in_concrete(
    outline: Outline, y: float, diameter: float, count: int, spot: Spot, key: str, what: str, base: float = 0.0
) -> bool:
    """Tells a row that stands out of the concrete, or that is wider than the section at its height.

    ``y`` is the height of the centres, ``diameter`` that of a bar, tendon or duct, all mm; ``what`` names one
    of them. Where several stand side by side only their widths together are compared with the section's. ``base`` is
    the height of a topping's soffit, in which they stand; zero for the beam itself.
    """
    radius, depth = diameter / 2, outline.depth
    part = "topping" if base else "concrete"
    if y - base - radius < -SLACK or y - base + radius > depth + SLACK:
        low, high = spot.show(base + radius), spot.show(base + depth - radius)
        fits = f"keep its centre between {low} and {high} above the soffit"
        cure = fits if diameter <= depth else f"a {what} of {spot.show(diameter)} does not fit at all"
        where = f"but the {what} would stand out of the {part}, which is {spot.show(depth)} deep"
        spot.wrong(key, where, cure)
        return False
    width = outline.width(y - base)
    if width <= SLACK:
        spot.wrong(key, "but there is no concrete at that height", "move it into the concrete")
        return False
    if count * diameter > width + SLACK:
        many = f"{count} of them need" if count > 1 else f"the {what} needs"
        problem = f"but {many} {spot.show(count * diameter)} and the section is {spot.show(width)} wide there"
        spot.wrong("count" if count > 1 else key, problem, "use fewer or thinner ones, or another height")
        return False
    return True

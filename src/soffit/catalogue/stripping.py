"""The force at which a nut or the thread of a rod strips."""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite, pi, sqrt

from soffit.catalogue.records import NutClass, Thread
from soffit.catalogue.tolerances import Fit, mating
from soffit.errors import SoffitError

SHEAR_RATIO = 0.6
"""Shear strength over tensile strength of thread steel (Alexander 1977; 1/√3 = 0.577 by von Mises)."""

_METHOD = "E. M. Alexander, Analysis and Design of Threaded Assemblies, SAE paper 770420, 1977 (from memory)"


@dataclass(frozen=True)
class StripCapacity:
    """What a rod in a nut bears, N, by each way to fail."""

    rod_strips: float
    """The thread of the rod shears off."""
    nut_strips: float
    """The thread of the nut shears off."""
    rod_breaks: float
    """The rod breaks in the thread: tensile strength × stress area."""
    engagement: float
    """Length of full thread that was reckoned with, mm."""
    working: str
    source: str

    @property
    def weakest(self) -> tuple[str, float]:
        """The first way to fail, in words, and its force, N."""
        ways = {
            "the rod breaks in the thread": self.rod_breaks,
            "the nut strips": self.nut_strips,
            "the rod's thread strips": self.rod_strips,
        }
        return min(ways.items(), key=lambda way: way[1])


def strip_areas(thread: Thread, engagement: float, fit: Fit = "middle") -> tuple[float, float]:
    """Shear areas of the rod's and of the nut's thread over a length of full thread, mm².

        rod: π n L Kn [1/(2n) + (Es − Kn)/√3]      nut: π n L Ds [1/(2n) + (Ds − En)/√3]

    with n = 1/pitch, Ds and Es the major and pitch diameter of the rod, Kn and En the minor and pitch
    diameter of the nut, all mm. ``fit`` says where they lie in their tolerances: ``"least"`` is what the
    standards print, ``"middle"`` the expected value, ``"basic"`` the profile without play, where the areas
    become 3/4 π D1 L and 7/8 π d L.

    Source: ASME B1.1-2003, appendix B; FED-STD-H28/2B (*from memory*; compared with a published table).
    Raises :class:`SoffitError` for an engagement that is not positive.
    """
    _positive("the thread engagement", engagement)
    m = mating(thread, fit)
    turns = engagement / thread.pitch
    rod = pi * turns * m.nut_minor * (thread.pitch / 2.0 + (m.rod_pitch - m.nut_minor) / sqrt(3.0))
    nut = pi * turns * m.rod_major * (thread.pitch / 2.0 + (m.rod_major - m.nut_pitch) / sqrt(3.0))
    return rod, nut


def dilation_factor(width: float, diameter: float) -> float:
    """C1: how far the nut spreads under the wedge of the flanks; width across flats and diameter in mm.

    −(s/d)² + 3.8 s/d − 2.61 for 1.4 ≤ s/d < 1.9, and 1 for thicker walls. Raises below 1.4.
    Source: Alexander 1977; VDI 2230 Part 1:2015, 5.5.5 (*from memory*).
    """
    ratio = width / diameter
    if ratio < 1.4:
        raise SoffitError(f"a nut {width:g} mm across flats is too thin for a thread of {diameter:g} mm")
    return 1.0 if ratio >= 1.9 else -(ratio**2) + 3.8 * ratio - 2.61


def bending_factors(strength_ratio: float) -> tuple[float, float]:
    """C2 of the rod's thread and C3 of the nut's: the softer thread bends and the contact moves.

    ``strength_ratio`` = tensile × shear area of the nut over that of the rod. C2 varies in 1…2.2 and C3 in
    0.4…1; beyond these each keeps its value at the end of the range.
    Source: Alexander 1977; VDI 2230 Part 1:2015, 5.5.5 (*from memory*).
    """
    r = min(max(strength_ratio, 1.0), 2.2)
    c2 = 5.594 - 13.682 * r + 14.107 * r**2 - 6.057 * r**3 + 0.9353 * r**4
    r = min(max(strength_ratio, 0.4), 1.0)
    c3 = 0.728 + 1.769 * r - 2.896 * r**2 + 1.296 * r**3
    return c2, c3


def strip_capacity(
    thread: Thread,
    engagement: float | None,
    rod_tensile: float,
    nut: NutClass | float,
    fit: Fit = "middle",
) -> StripCapacity:
    """Forces at which rod and nut fail, N.

    ``engagement`` is the length of full thread, mm; none: that of the standard nut (half height for a thin
    class). ``rod_tensile`` is the tensile strength of the rod, MPa; ``nut`` a nut class or the tensile
    strength of the nut's steel, MPa. The forces are

        rod: 0.6 Rm A_rod C1 C2          nut: 0.6 Rm,nut A_nut C1 C3

    For a class, Rm,nut goes with its least hardness, and the nut bears no less than the proof stress of its
    class on the stress area (in proportion to the engagement). Both are lower estimates: the larger counts.

    Source: Alexander 1977 with the areas of :func:`strip_areas`; made for engagements of about 0.4 to 1.2 d.
    Raises :class:`SoffitError` for values that are not positive and for a nut class of the other system.
    """
    _positive("the tensile strength of the rod", rod_tensile)
    standard = _standard_engagement(thread, isinstance(nut, NutClass) and nut.thin)
    length = standard if engagement is None else engagement
    rod_area, nut_area = strip_areas(thread, length, fit)
    c1 = dilation_factor(thread.nut_width, thread.diameter)
    nut_tensile = _tensile_of(thread, nut)
    ratio = nut_tensile * nut_area / (rod_tensile * rod_area)
    # a class without hardness says nothing of the ratio: reckon with equal strengths, where C2 is least
    c2, c3 = bending_factors(ratio if nut_tensile else 1.0)
    rod_strips = SHEAR_RATIO * rod_tensile * rod_area * c1 * c2
    working = f"rod thread 0.6 · {rod_tensile:.0f} MPa · {rod_area:.1f} mm² · {c1:.3f} · {c2:.3f}; "
    nut_strips = SHEAR_RATIO * nut_tensile * nut_area * c1 * c3
    nut_working = f"nut thread 0.6 · {nut_tensile:.0f} MPa · {nut_area:.1f} mm² · {c1:.3f} · {c3:.3f}"
    source = _METHOD
    if isinstance(nut, NutClass):
        source = f"{nut.source}; {_METHOD}"
        proof_force = nut.proof * thread.area * length / standard
        if proof_force > nut_strips:
            nut_strips = proof_force
            nut_working = f"nut {nut.proof:.0f} MPa · {thread.area:.1f} mm² · {length:.1f}/{standard:.1f}"
    working += nut_working
    return StripCapacity(rod_strips, nut_strips, rod_tensile * thread.area, length, working, source)


def _tensile_of(thread: Thread, nut: NutClass | float) -> float:
    """Tensile strength of the nut's steel, MPa; 0 for a class that states no hardness."""
    if not isinstance(nut, NutClass):
        _positive("the tensile strength of the nut", nut)
        return nut
    if nut.system != thread.system:
        raise SoffitError(
            f"nut class {nut.name} is for {nut.system} threads and {thread.name} is a thread of the "
            f"{thread.system} system; give a class of that system or the tensile strength of the nut"
        )
    return nut.tensile


def _standard_engagement(thread: Thread, thin: bool) -> float:
    """Full thread in the standard nut, mm; thin nuts are half a diameter high (ISO 4035, *from memory*)."""
    return thread.diameter / 2.0 - 0.8 * thread.pitch if thin else thread.nut_engagement


def _positive(what: str, value: float) -> None:
    if not (isfinite(value) and value > 0.0):
        raise SoffitError(f"{what} must be positive, not {value:g}")

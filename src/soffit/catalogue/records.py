"""What the catalogue hands out: plain frozen records in base units, each with its source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Family = Literal["bar", "strand", "wire", "prestressing bar", "thread"]
System = Literal["metric", "inch"]


@dataclass(frozen=True)
class Size:
    """One bar, strand, wire or threaded rod as it can be bought."""

    name: str
    family: Family
    diameter: float
    """Nominal, mm; of a thread the major diameter."""
    area: float
    """Nominal steel area of one piece, mm²; of a thread the stress area."""
    mass: float
    """kg/m."""
    surface: Literal["deformed", "plain", "threaded"]
    """How it grips concrete; strand counts as deformed, an indented wire too."""
    source: str
    note: str = ""


@dataclass(frozen=True)
class Thread(Size):
    """A screw thread with the standard hexagon nut that goes with it; all lengths mm.

    Diameters are those of the basic profile (ISO 68-1, ASME B1.1), without tolerances;
    :mod:`soffit.catalogue.stripping` puts the tolerances on.
    """

    system: System = "metric"
    pitch: float = 0.0
    pitch_diameter: float = 0.0
    """Basic: d − 0.6495 P."""
    minor_diameter: float = 0.0
    """Basic, of the nut: d − 1.0825 P."""
    root_diameter: float = 0.0
    """Of the rod: d − 1.2269 P (metric), d − 1.1908 P (inch, rounded root)."""
    nut_height: float = 0.0
    nut_width: float = 0.0
    """Across flats."""

    @property
    def nut_engagement(self) -> float:
        """Length of full thread in the standard nut, mm: its height less 0.8 P for the two countersinks.

        Source: VDI 2230 Part 1:2015, 5.5.5 (*from memory*).
        """
        return self.nut_height - 0.8 * self.pitch


@dataclass(frozen=True)
class Grade:
    """Strength of a steel (or FRP) as its standard specifies it: minimum values, not means.

    ``kind`` names the stress–strain law, in the words of :class:`soffit.materials.steel.Steel`:
    ``"plateau"``, ``"bilinear"``, ``"strand"`` or ``"linear"``.
    """

    name: str
    family: str
    """``"bar"``, ``"strand"``, ``"wire"``, ``"prestressing bar"``, ``"rod"``."""
    kind: str
    modulus: float
    """MPa."""
    yield_strength: float
    """Yield or proof stress (bars, rods), stress at 1 % strain (strand, wire), MPa; FRP: ``tensile``."""
    tensile: float
    """MPa."""
    strain_at_max: float
    hardening_strain: float
    """End of the yield plateau; 0 where there is none."""
    source: str
    note: str = ""


@dataclass(frozen=True)
class PropertyClass(Grade):
    """A strength class of threaded rods and bolts, for one range of diameters (over, up to and including)."""

    proof: float = 0.0
    """Stress under proof load, MPa; 0 where the standard gives none."""
    elongation: float = 0.0
    """Least elongation after fracture (fraction)."""
    diameter_over: float = 0.0
    diameter_to: float = float("inf")


@dataclass(frozen=True)
class NutClass:
    """A strength class of nuts, for one range of thread diameters (over, up to and including), mm."""

    name: str
    system: System
    proof: float
    """Stress that the standard nut bears without stripping, on the stress area of the thread, MPa."""
    hardness: float
    """Least Vickers hardness; 0 where unknown."""
    source: str
    note: str = ""
    thin: bool = False
    """Meant for nuts of half height (ISO 898-2 classes 04 and 05)."""
    diameter_over: float = 0.0
    diameter_to: float = float("inf")

    @property
    def tensile(self) -> float:
        """Tensile strength that goes with the least hardness, MPa: 3.2 HV; 0 where unknown.

        Source: slope of ISO 18265:2013, table A.1, unalloyed steel between 130 and 350 HV (*from memory*).
        """
        return 3.2 * self.hardness


@dataclass(frozen=True)
class NutFactor:
    """The range of the nut factor K of T = K·d·F for one state of the thread surfaces."""

    condition: str
    low: float
    high: float
    source: str

    @property
    def middle(self) -> float:
        return 0.5 * (self.low + self.high)

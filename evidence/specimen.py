"""One measured beam as a beam file and what the laboratory saw, and the beam file's text."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Bars:
    count: int
    diameter: float
    y: float
    fy: float
    fu: float | None = None
    strain_at_max: float | None = None
    area: float | None = None
    """Of one bar, mm²; none: from the diameter."""
    surface: str = "deformed"
    ends: str = "hook"


@dataclass(frozen=True)
class Stirrups:
    legs: int
    diameter: float
    spacing: float
    fy: float
    area: float | None = None
    """Of one leg, mm²."""


@dataclass(frozen=True)
class Specimen:
    """Inputs in N, mm, MPa; ``loads`` from the left support."""

    id: str
    width: float
    depth: float
    span: float
    loads: tuple[float, ...]
    strength: float
    bars: tuple[Bars, ...] = ()
    stirrups: Stirrups | None = None
    overhang: float = 0.0
    aggregate: float | None = None
    tensile: float | None = None
    modulus: float | None = None
    fracture_energy: float | None = None
    peak_strain: float | None = None
    self_weight: bool = True
    law: str | None = None
    """Steel law of the bars; none: as the tool decides."""

    def text(self) -> str:
        """The beam file."""
        return "\n".join(_lines(self)) + "\n"


@dataclass(frozen=True)
class Measured:
    """What was seen in the test; N and mm. ``mode``: a family of modes, or none where nobody said."""

    peak: float
    mode: str | None = None
    yield_load: float | None = None
    yield_deflection: float | None = None
    peak_deflection: float | None = None
    labels: tuple[str, ...] = field(default=())
    """Quality class, flags, source."""


def _mm(value: float) -> str:
    return f'"{value:.10g} mm"'


def _mpa(value: float) -> str:
    return f'"{value:.10g} MPa"'


def _lines(s: Specimen) -> list[str]:
    out = [f'name = "{s.id}"']
    if not s.self_weight:
        out.append("self_weight = false")
    out += ["[concrete]", f"strength = {_mpa(s.strength)}", 'strength_is = "mean"']
    for key, value, write in (
        ("tensile_strength", s.tensile, _mpa),
        ("modulus", s.modulus, _mpa),
        ("max_aggregate", s.aggregate, _mm),
        ("strain_at_peak", s.peak_strain, lambda v: f"{v:.10g}"),
        ("fracture_energy", s.fracture_energy, lambda v: f'"{v:.10g} N/m"'),
    ):
        if value is not None:
            out.append(f"{key} = {write(value)}")
    out += ["[section]", 'shape = "rectangle"', f"width = {_mm(s.width)}", f"depth = {_mm(s.depth)}"]
    for bars in s.bars:
        out += _bar_lines(bars, s.law)
    if s.stirrups:
        out += _stirrup_lines(s.stirrups)
    out += ["[supports]", f"span = {_mm(s.span)}", f"overhangs = {_mm(s.overhang)}"]
    points = ", ".join(_mm(s.overhang + x) for x in s.loads)
    return [*out, "[press]", f"points = [{points}]", f"gauge = {_mm(s.overhang + s.span / 2)}"]


def _bar_lines(b: Bars, law: str | None) -> list[str]:
    out = ["[[bars]]", f"count = {b.count}", f"diameter = {_mm(b.diameter)}", f"yield = {_mpa(b.fy)}"]
    if b.area is not None:
        out.append(f'area = "{b.area:.10g} mm2"')
    if b.fu is not None:
        out.append(f"tensile = {_mpa(b.fu)}")
    if b.strain_at_max is not None:
        out.append(f"strain_at_max = {b.strain_at_max:.10g}")
    if law == "plateau":
        out.append("hardening_strain = 0.015")
    at = f'"{b.y:.10g} mm from bottom"'
    return [*out, f"at = {at}", f'ends = "{b.ends}"', f'surface = "{b.surface}"']


def _stirrup_lines(s: Stirrups) -> list[str]:
    out = ["[[stirrups]]", f"legs = {s.legs}", f"diameter = {_mm(s.diameter)}", f"spacing = {_mm(s.spacing)}"]
    if s.area is not None:
        out.append(f'area = "{s.area:.10g} mm2"')
    return [*out, f"yield = {_mpa(s.fy)}"]

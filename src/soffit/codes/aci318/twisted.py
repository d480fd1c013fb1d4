"""A section in torsion and the torque below which it is neglected, by ACI 318-19 22.7.4, 9.2.4.4; *from memory*.

Flanges are left out: a flanged beam twists as its web (9.2.4.4 lets them be neglected where that is safe; *ours*
always).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from soffit.codes.aci318 import values
from soffit.codes.aci318.sheared import Sheared, all_sheared
from soffit.codes.cut import Cut
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working
from soffit.materials.standards import PSI
from soffit.member.layout import cover

FAR = 40.0
"""From the face to the middle of a stirrup where no bar tells the cover, mm (common practice)."""


@dataclass(frozen=True)
class Tube:
    """The section as torsion sees it."""

    acp: Symbol
    pcp: Symbol
    aoh: Symbol
    ph: Symbol
    gross: Symbol
    wall: Symbol | None
    """Least wall of a hollow section."""


@dataclass(frozen=True)
class Twisted:
    shear: Sheared
    tube: Tube
    tu: Working
    threshold: Working
    head: tuple[Working, ...]
    """Up to the threshold."""
    combination: str

    @property
    def ratio(self) -> float:
        return self.tu.value / self.threshold.value if self.threshold.value > 0.0 else 0.0


def tube(design: Design, cut: Cut) -> Tube:
    beam = design.beam
    thick = cut.stirrups.diameter if cut.stirrups else 0.0
    sides = [cover(beam, b.group).side - 0.5 * thick for b in cut.tension_bars]
    far = max(min(sides, default=FAR), 0.5 * thick)
    shape, h = beam.outline.shape, cut.h
    hollow = bool(beam.outline.holes)
    if shape == "circle":
        acp, pcp = pi * h**2 / 4.0, pi * h
        aoh, ph = pi * (h - 2.0 * far) ** 2 / 4.0, pi * (h - 2.0 * far)
    else:
        b = cut.width(0.5 * h) if not hollow else cut.b
        b = min(b, cut.bw) if not hollow else b
        acp, pcp = b * h, 2.0 * (b + h)
        aoh, ph = (b - 2.0 * far) * (h - 2.0 * far), 2.0 * (b + h - 4.0 * far)
    gross = cut.outline.area if hollow else acp
    wall = Symbol("t", 0.5 * cut.bw, "length", "thickness of the web's wall") if hollow else None
    return Tube(
        Symbol("Acp", acp, "area", "within the outer face"),
        Symbol("pcp", pcp, "length", "length of the outer face"),
        Symbol("Aoh", max(aoh, 1.0), "area", f"within the outer stirrups, their middles {far:.0f} mm from the face"),
        Symbol("ph", max(ph, 1.0), "length", "length of the outer stirrups"),
        Symbol("Ag", gross, "area", "of the concrete"),
        wall,
    )


def all_twisted(design: Design) -> tuple[Twisted, ...]:
    def make() -> tuple[Twisted, ...]:
        return tuple(t for t in (_twisted(design, s) for s in all_sheared(design)) if t is not None)

    return design.kept("aci-torsion", make)


def _twisted(design: Design, s: Sheared) -> Twisted | None:
    pen, e, cut = design.pen, values.of(design), s.cut
    demand = design.actions.at("ultimate", "torsion", s.x, "Tu")
    if demand.working.value <= 0.0:
        return None
    made = tube(design, cut)
    lam = values.lightness(design)
    limit = 1e4 * PSI if e.key == "inch-pound" else 8.3**2
    fc: Symbol | Working = values.fc(design)
    shown: tuple[Working, ...] = ()
    if design.strength > limit:
        fc = pen(
            "f'c,t", "f'c whose root counts", e.pick("min(f'c, 100^2)", "min(f'c, 8.3^2)"), (fc,), "stress", "22.7.2.1"
        )
        shown = (fc,)
    # a hollow section twists with its concrete alone
    a = made.gross if made.wall is not None else made.acp
    text = e.pick(f"λ·√({fc.name})·{a.name}^2/pcp", f"0.083·λ·√({fc.name})·{a.name}^2/pcp")
    extra: tuple[Symbol | Working, ...] = ()
    table = "Table 22.7.4.1"
    if cut.prestressed:
        push = pen(
            "fpc",
            "compression at the centroid by prestress",
            "Pe/Ac",
            (
                Symbol("Pe", cut.P, "force", "effective prestress"),
                Symbol("Ac", design.beam.outline.area, "area", "of the beam"),
            ),
            "stress",
        )
        extra, shown = (push,), (*shown, push)
        text += e.pick(f"·√(1 + max(0, fpc)/(4·λ·√({fc.name})))", f"·√(1 + max(0, fpc)/(0.33·λ·√({fc.name})))")
    elif abs(s.axial) >= 1.0:
        extra = (
            Symbol("Nu", -s.axial, "force", "axial force, compression positive"),
            Symbol("Act", cut.outline.area, "area", "of the section"),
        )
        text += e.pick(f"·√(max(0, 1 + Nu/(4·Act·λ·√({fc.name}))))", f"·√(max(0, 1 + Nu/(0.33·Act·λ·√({fc.name}))))")
    tth = pen("Tth", "threshold torsion", text, (lam, fc, a, made.pcp, *extra), "moment", table)
    phi = pen("φt", "torsion", "0.75", (), "ratio", "Table 21.2.1")
    threshold = pen("φTth", "below which torsion may be neglected", "φt·Tth", (phi, tth), "moment", "9.5.4.1")
    return Twisted(
        s, made, demand.working, threshold, (demand.working, *shown, tth, phi, threshold), demand.combination
    )

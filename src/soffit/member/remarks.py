"""What a life says beside its numbers: the models, the assumptions, what was not checked, what is dangerous."""

from __future__ import annotations

from itertools import pairwise

from soffit.materials import compression
from soffit.member.beam import Beam
from soffit.member.cracks import Cracks
from soffit.member.loading import Loading
from soffit.member.nodes import Nodes
from soffit.member.result import Failure
from soffit.member.step import Hinge
from soffit.member.transfer import Transfer

NOT_CHECKED = (
    "Not checked: torsion, lateral buckling, buckling of compressed bars, local bearing and bursting behind anchors, "
    "fatigue, fire, durability"
)
NO_TIME = ", creep and shrinkage (their share of the losses is the percentage given)."


def assumptions(
    beam: Beam,
    load: Loading,
    nodes: Nodes,
    hinge: Hinge | None,
    let_in: Transfer | None,
    lost: str,
    aged: bool = False,
) -> tuple[str, ...]:
    """One sentence each, those of the file first."""
    out = [*beam.notes, *beam.concrete.notes]
    for bar in beam.bars:
        out.extend(f"{bar.label or 'bars'}: {note}" for note in bar.steel.notes)
    for tendon in beam.tendons:
        out.extend(f"{tendon.label or 'tendons'}: {note}" for note in tendon.steel.notes)
    out.extend(load.notes)
    out.extend(nodes.notes)
    if let_in is not None:
        out.extend(let_in.notes)
    if hinge is not None:
        out.append(
            f"The failing section turns over {hinge.length:.0f} mm of beam "
            + (
                "(one crack; Ulfkjær, Krenk & Brincker 1995)."
                if hinge.snaps
                else "(Mattock 1967), which sets how fast the load falls after the peak, not the peak."
            )
        )
        if not hinge.snaps:
            out.append("Between cracks the concrete stiffens the bars by EN 1992-1-1 7.4.3 with β = 1 (first loading).")
    if beam.stirrups or beam.bars or beam.tendons:
        out.append("That the steel is anchored over the supports themselves is taken for granted.")
        out.append("Bars are taken as spread evenly over the width, with the same cover at the side as at the face.")
    if any(t.duct > 0.0 for t in beam.tendons):
        out.append("Ducts are taken off the web in shear (EN 1992-1-1 6.2.3 (6)), but not off the section in bending.")
    if beam.supports.fixed_left or beam.supports.fixed_right:
        out.append("Bars that reach a fixed support are taken as anchored in what holds the beam there.")
    if any(zone.spacing > 0.75 * beam.outline.depth for zone in beam.stirrups):
        out.append(
            "Some stirrups stand further apart than EN 1992-1-1 9.2.2 (6) allows (three quarters of the effective "
            "depth); those that a diagonal crack can pass between are not counted in shear."
        )
    out.extend(_outside_stirrups(beam))
    if lost:
        out.append(f"The falling branch ends early, because {lost}.")
    out.append(NOT_CHECKED + ("." if aged else NO_TIME))
    return tuple(dict.fromkeys(out))


def _outside_stirrups(beam: Beam) -> list[str]:
    """Bars that have less concrete outside them than a stirrup is thick, so that none can pass around them."""
    out = []
    for bar in beam.bars:
        outside = min(bar.y, beam.outline.depth - bar.y) - bar.diameter / 2
        around = [z.diameter for z in beam.stirrups if z.x_from < bar.x_to and bar.x_from < z.x_to]
        if around and outside < max(around):
            out.append(
                f"{bar.label or 'bars'}: the {outside:.3g} mm of concrete outside them leave no room for stirrups of "
                f"{max(around):.3g} mm; they are taken as they stand, which is outside the stirrups."
            )
    return out


def cautions(beam: Beam, end: Failure) -> tuple[str, ...]:
    """Dangers of the work on such a beam, design.md §9."""
    out = []
    if _is_deep(beam):
        out.append(
            "A span is less than three times the depth: this is a deep beam (EN 1992-1-1 5.3.1 (3)), whose sections do "
            "not stay plane, and what is said here does not hold for it."
        )
    if beam.tendons:
        out.append(
            "Stressed steel stores energy: stand clear of the line of the tendon, never over the nut or the anchor."
        )
    if beam.press is not None:
        out.append("Fragments fly when a beam breaks under a press: use a guard and eye protection.")
    if end.brittle:
        out.append("This beam is predicted to fail suddenly: nobody under or beside it while load rises.")
    out.append("Wet concrete burns skin; cutting and breaking concrete sets free silica dust; lift with rated gear.")
    out.append(
        "A prediction of mean behaviour, not a design check: a licensed engineer must review it, and the local code "
        "governs."
    )
    return tuple(out)


def _is_deep(beam: Beam) -> bool:
    """Whether a span, or a cantilever counted twice, is less than three times the depth."""
    held = beam.supports.x
    spans = [b - a for a, b in pairwise(held)] or [2.0 * beam.length]
    return min(spans) < 3.0 * beam.outline.depth * (1.0 - 1e-9)


def models(beam: Beam, hinge: Hinge, cracks: Cracks) -> dict[str, str]:
    """Which named model served for what."""
    return {
        "compression": compression.LAWS[beam.concrete.law].name,
        "tension": "linear to the tensile strength, then a cohesive crack (fib Model Code 2010 5.1.8.2)",
        "tension stiffening": "none (one crack)" if hinge.snaps else "EN 1992-1-1:2004 7.4.3",
        "hinge": "Ulfkjær, Krenk & Brincker 1995" if hinge.snaps else "Mattock 1967",
        "crack width": cracks.model,
        "shear": "with stirrups modified compression field theory (Vecchio & Collins 1986; below the minimum Bentz, "
        "Vecchio & Collins 2006), "
        "without critical shear crack theory (Muttoni & Fernández Ruiz 2008)",
        "arch action": "shear compression of short shear spans (Zararis 2003)",
        "bond": "fib Model Code 2010 6.1; pretensioned steel ACI 318-19 25.4.8",
    }


def transfer_note(let_in: Transfer | None, camber: float) -> str:
    """Stresses at the faces (MPa, tension positive) and the camber before loading (mm, up) in one phrase."""
    if let_in is None:
        return ""
    worst = (
        int((-let_in.bottom).argmax()) if (-let_in.bottom).max() >= (-let_in.top).max() else int((-let_in.top).argmax())
    )
    bottom, top = (f"{v:.2f} MPa".replace("-", "−") for v in (let_in.bottom[worst], let_in.top[worst]))
    note = f"soffit {bottom}, top {top}, tension positive"
    if camber > 0.0:
        note += f"; camber before loading {camber:.3g} mm"
    if let_in.crushes_at is not None:
        return f"{note}: the concrete, {let_in.strength:.3g} MPa then, is crushed"
    if let_in.cracks_at is not None:
        return f"{note}: it cracks at x = {let_in.cracks_at:.0f} mm"
    return note

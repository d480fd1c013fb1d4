"""Long-term deflection of ordinary beams by ACI 318-19 24.2 beside that computed step by step."""

from __future__ import annotations

from soffit.codes.aci318 import deflection
from soffit.codes.bent import Bent, Watched
from soffit.codes.explained import Difference, Input, sentence
from soffit.codes.strengths import ordered
from soffit.errors import PhysicsError
from soffit.materials.standards import aci_lightweight_factor, aci_modulus
from soffit.section.elastic import cracked

NAME = "ACI 318-19"


def row(watched: Watched, ours: Bent) -> Bent:
    """24.2.3.5 for what comes at once, with Ie of the place (24.2.3.7) or of the support of a cantilever, and 24.2.4.1
    for what time adds. Raises ``PhysicsError`` where a section has no steel to hold its crack."""
    past, at = watched.past, watched.governing
    outline, f = past.beam.outline, ordered(past).value
    density = past.beam.concrete.density
    ec = aci_modulus(f)
    fr = deflection.rupture(f, aci_lightweight_factor(density))
    ma, ms = float(watched.greatest[at]), watched.sustained
    sagging = float(ms[at]) >= 0.0
    ig = outline.inertia
    cracking = fr * ig / (outline.centroid if sagging else outline.depth - outline.centroid)
    bars = watched.bars(at)
    if not bars:
        raise PhysicsError("its section has no steel there, and no cracked stiffness")
    icr = cracked(outline, ec, bars, hogging=not sagging)[0].inertia
    ie = deflection.effective_inertia(ma, cracking, ig, icr)
    immediate = watched.sag(ms / (ec * ig)) * ig / ie
    ratio = _compression_ratio(watched, at, sagging)
    days = watched.t - watched.loaded
    factor = deflection.time_factor(days)
    more = deflection.multiplier(factor, ratio)
    total = immediate * (1.0 + more)
    inputs = (
        Input("f'c", f, "MPa", ordered(past).said),
        Input("Ec", ec, "MPa", "19.2.2.1"),
        Input("fr", fr, "MPa", "19.2.3.1"),
        Input("Mcr", cracking, "N·mm", ""),
        Input("Ma", abs(ma), "N·mm", "the greatest that it has borne"),
        Input("Ig", ig, "mm⁴", ""),
        Input("Icr", icr, "mm⁴", ""),
        Input("Ie", ie, "mm⁴", "Table 24.2.3.5"),
        Input("ρ'", ratio, "", ""),
        Input("ξ", factor, "", f"{days:.0f} days under load"),
        Input("λΔ", more, "", ""),
    )
    causes = (
        Difference(f"what comes at once, with Ie = {ie / ig:.2f} Ig", immediate - ours.immediate),
        Difference(
            f"λΔ = {more:.2f} for all that time adds, ours {_times(ours)} what comes at once",
            immediate * more - ours.added,
        ),
    )
    text = sentence(NAME, total, ours.total, causes, "mm", 1)
    return Bent(NAME, "24.2.3.5, 24.2.4.1", watched.t, watched.x, immediate, total, inputs, causes, text)


def _times(ours: Bent) -> str:
    return f"{ours.added / ours.immediate:.2f} times" if ours.immediate else "none"


def _compression_ratio(watched: Watched, at: int, sagging: bool) -> float:
    """ρ' = A's/(b d), with b at the compressed face."""
    outline = watched.past.beam.outline
    low = [b for b in watched.bars(at) if (b.y < outline.centroid) == sagging]
    pressed = sum(b.area for b in watched.bars(at) if (b.y < outline.centroid) != sagging)
    if not low or pressed == 0.0:
        return 0.0
    y = sum(b.area * b.y for b in low) / sum(b.area for b in low)
    d = outline.depth - y if sagging else y
    width = outline.width(outline.depth if sagging else 0.0)
    return pressed / (width * d)

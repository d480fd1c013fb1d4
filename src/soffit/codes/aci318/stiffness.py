"""The effective moment of inertia of a span by ACI 318-19 24.2.3, worked; *from memory*.

Table 24.2.3.5 has P. H. Bischoff's form with ⅔ Mcr; the older one of Branson is none of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from soffit.codes.aci318 import gross, inservice, values
from soffit.codes.aci318.spans import Span
from soffit.codes.cut import Cut
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working, given
from soffit.materials.curve import Array
from soffit.section.elastic import ElasticLayer, cracked

Stage = Literal["characteristic", "dead"]
SMALL = 0.01
"""Of the greatest moment of the span: ends that bend less do not count in the mean."""


class NoSteel(Exception):
    """A section cracks that has no bars to hold the crack."""


@dataclass(frozen=True)
class Stiff:
    ie: Working
    cut: Cut
    """Of midspan, or of the support of a cantilever."""
    workings: tuple[Working, ...]
    said: tuple[str, ...] = ()


def inertia(design: Design, cut: Cut) -> float | None:
    """Icr, mm⁴; none without bonded steel. Once for a design."""
    steel = [ElasticLayer(b.group.y, b.area, b.group.steel.modulus) for b in cut.bars]
    steel += [
        ElasticLayer(cut.h - t.depth if cut.sagging else t.depth, t.area, t.group.steel.modulus)
        for t in cut.tendons if t.bonded
    ]  # fmt: skip
    if not any(s.area > 0.0 for s in steel):
        return None
    key = ("aci-icr", tuple((round(s.y, 1), round(s.area, 1)) for s in steel), cut.sagging)
    return design.kept(key, lambda: cracked(design.outline, design.modulus, steel, hogging=not cut.sagging)[0].inertia)


def permanent(design: Design) -> Array:
    """Moments (n,) of the permanent loads, with the secondary ones of prestress; once for a design."""

    def make() -> Array:
        found, x = design.actions.permanent(), design.actions.x
        more = design.prestress.secondary(x)
        return found if more is None else found + more[0]

    return design.kept("aci-permanent", make)


def _moment(design: Design, stage: Stage, x: float) -> float:
    """Signed greatest moment at a place, N·mm."""
    at = design.actions.x
    if stage == "dead":
        return float(np.interp(x, at, permanent(design)))
    envelope = design.actions.envelope("characteristic")
    up, down = float(np.interp(x, at, envelope.sagging)), float(np.interp(x, at, envelope.hogging))
    return up if up >= down else -down


def _peak(design: Design, span: Span, stage: Stage) -> float:
    """Place of the greatest sagging moment of a span; midspan where it does not sag."""
    at = design.actions.x
    on = np.flatnonzero((at >= span.low - 1e-6) & (at <= span.high + 1e-6))
    if stage == "dead":
        moments = permanent(design)
    else:
        moments = design.actions.envelope("characteristic").sagging
    best = int(on[int(np.argmax(moments[on]))])
    return float(at[best]) if moments[best] > 0.0 else span.critical


def stiff(design: Design, span: Span, stage: Stage, mark: str) -> Stiff:
    """Ie of a span: at midspan, of a cantilever at its support; over continuous ends the mean of 24.2.3.6."""
    pen = design.pen
    tag = f",{mark}" if mark else ""
    if span.cantilever:
        one, steps, cut = _at(design, span.critical, _moment(design, stage, span.critical), tag, "")
        return Stiff(one, cut, steps)
    x = _peak(design, span, stage)
    middle, steps, cut = _at(design, x, _moment(design, stage, x), tag, "m" if span.held else "")
    ends: list[Working] = []
    for i, support in enumerate(span.held):
        m = _moment(design, stage, support)
        if m >= -SMALL * abs(_moment(design, stage, x)):
            continue
        found, more, _ = _at(design, support, m, tag, str(i + 1))
        ends.append(found)
        steps = (*steps, *more)
    if not ends:
        if middle.name != f"Ie{tag}":
            middle = pen(f"Ie{tag}", "effective", middle.name, (middle,), "inertia", "24.2.3.6")
            steps = (*steps, middle)
        return Stiff(middle, cut, steps)
    names = " + ".join(w.name for w in ends)
    text = f"({middle.name} + {names})/2" if len(ends) == 1 else f"({middle.name} + ({names})/2)/2"
    mean = pen(f"Ie{tag}", "mean of the critical sagging and hogging sections", text, (middle, *ends), "inertia",
               "24.2.3.6")  # fmt: skip
    said = ("Moments of the continuous beam are those of one stiffness along it.",)
    return Stiff(mean, cut, (*steps, mean), said)


def _at(design: Design, x: float, m: float, tag: str, which: str) -> tuple[Working, tuple[Working, ...], Cut]:
    """Ie of one section, Table 24.2.3.5."""
    pen, e, cut = design.pen, values.of(design), design.cut(x, m >= 0.0)
    n = f"{which}{tag}"
    whole = gross.whole(design)
    ma = given(f"Ma{n}", f"moment at {x:.0f} mm", abs(m), "moment", pen.system)
    fr = pen("fr", "modulus of rupture", e.pick("7.5·λ·√(f'c)", "0.62·λ·√(f'c)"),
             (values.lightness(design), values.fc(design)), "stress", "19.2.3.1")  # fmt: skip
    ig = Symbol("Ig", whole.inertia, "inertia", "of the gross section")
    yt = Symbol(f"yt{n}", whole.centroid if cut.sagging else whole.depth - whole.centroid, "length",
                "from the centroid to the tension face")  # fmt: skip
    mcr = pen(f"Mcr{n}", "cracking moment", f"fr·Ig/{yt.name}", (fr, ig, yt), "moment", "24.2.3.5")
    if abs(m) <= 2.0 / 3.0 * mcr.value:
        ie = pen(f"Ie{n}", "effective: Ma ≤ ⅔ Mcr", "Ig", (ig,), "inertia", "Table 24.2.3.5 (a)")
        return ie, (ma, fr, mcr, ie), cut
    value = inertia(design, cut) if cut.tension_bars else None
    if value is None:
        raise NoSteel(f"at {x:.0f} mm Ma exceeds ⅔ Mcr and no bars hold the crack")
    icr = given(f"Icr{n}", "of the cracked transformed section", min(value, whole.inertia), "inertia", pen.system)
    text = f"min(Ig, {icr.name}/(1 − (2/3·{mcr.name}/{ma.name})^2·(1 − {icr.name}/Ig)))"
    ie = pen(f"Ie{n}", "effective: Ma > ⅔ Mcr", text, (icr, mcr, ma, ig), "inertia", "Table 24.2.3.5 (b)")
    return ie, (ma, fr, mcr, icr, ie), cut


def uncracked(design: Design, span: Span) -> tuple[Working, tuple[Symbol, Symbol], tuple[Working, ...]] | None:
    """Of prestressed classes T and C: r, the share of the live moment that comes once fr is reached; Ig and Icr.

    None where fr is not reached in the span. Raises :class:`NoSteel`.
    """
    pen, e = design.pen, values.of(design)
    x = span.critical if span.cantilever else _peak(design, span, "characteristic")
    m = _moment(design, "characteristic", x)
    found = inservice.tension(design, x, m >= 0.0)
    cut, whole = found.cut, gross.whole(design)
    fr = pen("fr", "modulus of rupture", e.pick("7.5·λ·√(f'c)", "0.62·λ·√(f'c)"),
             (values.lightness(design), values.fc(design)), "stress", "19.2.3.1")  # fmt: skip
    if found.stress.value <= fr.value:
        return None
    value = inertia(design, cut)
    if value is None:
        raise NoSteel(f"at {x:.0f} mm fr is exceeded and no bonded steel holds the crack")
    live = given("ML", "moment of the variable loads there", max(abs(m) - max(np.sign(m) * _moment(design, "dead", x),
                 0.0), 0.0), "moment", pen.system)  # fmt: skip
    ig = Symbol("Ig", whole.inertia, "inertia", "of the gross section")
    icr = Symbol("Icr", min(value, whole.inertia), "inertia", "of the cracked transformed section")
    yt = Symbol("yt", inservice.faces(design, cut)[1] - cut.depth_of(whole.centroid), "length", "to the tension face")
    part = pen("fL", "tension of the variable loads", f"{live.name}·yt/Ig", (live, yt, ig), "stress")
    share = pen("r", "share of them beyond fr", "min(1, (ft − fr)/fL)", (found.stress, fr, part), "ratio", "24.2.3.9")
    return share, (ig, icr), (*found.workings, fr, live, part, share)

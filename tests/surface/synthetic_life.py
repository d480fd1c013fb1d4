"""Invented lives for the tests of the pictures: plausible in shape and size, computed from nothing.

They let a picture be judged without the physics; no number here is evidence of anything.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from synthetic_beams import (
    BENCH,
    bars_beam,
    cantilever_beam,
    girder_beam,
    post_beam,
    pretensioned_beam,
    two_span_beam,
)

from soffit.member.beam import Beam
from soffit.member.result import Curve, Event, Failure, Life, PressUse, SectionState, Stations, Warnings


@dataclass(frozen=True)
class Shape:
    """Moments of an invented beam: of the dead load, and of a load of 1 N; cracking, yield and last
    moment.
    """

    dead: np.ndarray
    one: np.ndarray
    crack: float
    yields: float
    last: float
    curvature_crack: float
    curvature_yield: float
    curvature_last: float
    camber: float = 0.0


def _simple_moment(x: np.ndarray, beam: Beam) -> tuple[np.ndarray, np.ndarray]:
    """Moments of self weight and of 1 N of the rising load, between the first and the last support."""
    a, b = beam.supports.x[0], beam.supports.x[-1] if len(beam.supports.x) > 1 else beam.length
    q = beam.outline.area * 24e-6 + sum(v.value for v in beam.loads if v.case == "dead")
    s = np.clip(x - a, 0, b - a)
    dead = q * s * (b - a - s) / 2
    if beam.press is None:
        return dead, s * (b - a - s) / 2 / (b - a)
    one = np.zeros_like(x)
    for p in beam.press.points:
        one += np.where(s < p - a, s * (b - p), (p - a) * (b - a - s)) / (b - a) / len(beam.press.points)
    return dead, one


def _shape(beam: Beam, x: np.ndarray) -> Shape:
    f = beam.outline
    dead, one = _simple_moment(x, beam)
    if len(beam.supports.x) == 1:
        q = f.area * 24e-6
        dead, one = -q * (beam.length - x) ** 2 / 2, -np.clip(2300 - x, 0, None)
    if len(beam.supports.x) == 3:
        span = 6000.0
        s = np.clip(np.where(x < 6500, x - 500, 12500 - x), 0, span)
        unit = s * (span - s) / 2 - span**2 / 8 * s / span
        dead, one = (10 + f.area * 24e-6) * unit, unit / (2 * span)
    steel = sum(g.area * 520 * max(g.y, f.depth - g.y) for g in beam.bars if g.diameter > 8)
    steel += sum(g.area * min(g.steel.yield_strength, 1600) * (f.depth - g.profile.y[len(g.profile.y) // 2])
                 for g in beam.tendons)  # fmt: skip
    crack = f.inertia / max(f.centroid, f.depth - f.centroid) * 2.8
    crack += sum(g.area * g.stress * (f.depth * 0.35) for g in beam.tendons)
    last = max(steel * 0.88, crack * 1.02)
    if not beam.bars and not beam.tendons:
        k = crack / (31000 * f.inertia)
        return Shape(dead, one, crack, crack * 1.01, crack * 1.02, k, 1.2 * k, 1.4 * k)
    return Shape(
        dead, one, crack, max(last * 0.93, crack * 1.01), last,
        crack / (31000 * f.inertia), max(0.0042 / f.depth, 1.5 * crack / (31000 * f.inertia)),
        0.028 / f.depth,
        camber=0.0006 * beam.length if beam.tendons else 0.0,
    )  # fmt: skip


def _curvature(moment: np.ndarray, s: Shape) -> np.ndarray:
    points_m = [0.0, s.crack, s.yields, s.last]
    points_k = [0.0, s.curvature_crack, s.curvature_yield, s.curvature_last]
    return np.sign(moment) * np.interp(np.abs(moment), points_m, points_k)


def _deflection(curvature: np.ndarray, x: np.ndarray, beam: Beam) -> np.ndarray:
    step = np.diff(x)
    slope = np.concatenate([[0.0], np.cumsum(step * (curvature[1:] + curvature[:-1]) / 2)])
    w = -np.concatenate([[0.0], np.cumsum(step * (slope[1:] + slope[:-1]) / 2)])
    if beam.supports.fixed_left:
        return w
    held = np.array(beam.supports.x)
    at = np.interp(held, x, w)
    if len(held) == 2:
        return w - np.interp(x, [held[0], held[1]], at) - (x < held[0]) * 0.0 - _beyond(x, held, at)
    return w - np.polyval(np.polyfit(held, at, len(held) - 1), x)


def _beyond(x: np.ndarray, held: np.ndarray, at: np.ndarray) -> np.ndarray:
    """What a straight line through both supports adds beyond them, where ``interp`` stays level."""
    tilt = (at[1] - at[0]) / (held[1] - held[0])
    return tilt * np.where(x < held[0], x - held[0], np.where(x > held[1], x - held[1], 0.0))


def _sections(beam: Beam, s: Shape, moments: dict[str, float], x: float, loads: dict[str, float]) -> list[SectionState]:
    d = beam.outline.depth
    y = np.linspace(0, d, 61)
    layers = [(g.y, g.area, False, 0.0) for g in beam.bars]
    layers += [(float(np.interp(x, g.profile.x, g.profile.y)), g.area, True, g.stress / 196000) for g in beam.tendons]
    layers.sort()
    states = []
    for name, moment in moments.items():
        k = float(_curvature(np.array([moment]), s)[0])
        neutral = d * (0.48 if abs(moment) <= s.crack else 0.72)
        if k < 0:
            neutral = d - neutral
        strain = -k * (y - neutral)
        e = np.clip(-strain, 0, None) / 0.0021
        stress = np.where(strain < 0, -35 * 2 * e / (1 + e**2), np.where(strain < 9e-5, 31000 * strain, 0.0))
        sy = np.array([v[0] for v in layers])
        total = -k * (sy - neutral) + np.array([v[3] for v in layers])
        limit = np.array([1700.0 if v[2] else 520.0 for v in layers])
        states.append(
            SectionState(
                name, x, loads[name], moment, k, y, strain, stress, sy, np.array([v[1] for v in layers]),
                total, np.clip(total * 198000, -limit, limit), np.array([v[2] for v in layers], dtype=bool),
            )
        )  # fmt: skip
    return states


def make(beam: Beam, mode: str = "tension-controlled flexure", steps: int = 60, past: bool = True) -> Life:
    """A life with the usual events, in the usual order."""
    x = np.linspace(0, beam.length, 121)
    s = _shape(beam, x)
    critical = int(np.argmax(np.abs(s.one)))
    one, dead = abs(s.one[critical]), abs(s.dead[critical])
    top = (s.last * 0.999 - dead) / one
    crack_load, yield_load = (s.crack - dead) / one, (s.yields - dead) / one
    plain = not beam.bars and not beam.tendons
    rise = np.unique(np.concatenate([np.linspace(0, top, steps), [crack_load, yield_load]]))
    rise = rise[(rise >= 0) & (rise <= top)]
    load = np.concatenate([rise, top * np.linspace(0.97, 0.6 if past else 0.97, 6)])
    base = _deflection(_curvature(s.dead, s), x, beam)
    if len(beam.supports.x) == 2:
        share = (x - beam.supports.x[0]) / np.ptp(beam.supports.x)
        base -= s.camber * 4 * share * (1 - share)
    curvature = np.array([_curvature(s.dead + p * s.one, s) for p in rise])
    deflection = np.array([_deflection(k, x, beam) for k in curvature])
    deflection += base - _deflection(_curvature(s.dead, s), x, beam)
    for i in range(6):
        curvature = np.vstack([curvature, curvature[len(rise) - 1] * (1 + 0.05 * (i + 1))])
        deflection = np.vstack([deflection, deflection[len(rise) - 1] * (1 + 0.08 * (i + 1))])
    moment = s.dead + load[:, None] * s.one
    cracked = np.maximum.accumulate(np.abs(moment), axis=0) > s.crack * 1.0001
    depth = np.where(cracked, np.sign(moment) * beam.outline.depth * 0.72, 0.0)
    width = np.where(cracked, np.abs(curvature) * beam.outline.depth * 0.72 * 90, 0.0)
    gauge = int(np.argmax(np.abs(deflection[len(rise) - 1])))
    at_gauge = deflection[:, gauge] - deflection[0, gauge]
    order = [("decompression", crack_load * 0.6)] if beam.tendons else []
    crack_load = max(crack_load, 0.05 * top)
    order += [("first crack", crack_load)]
    if not plain:
        order += [("crack 0.3 mm", 0.5 * (crack_load + yield_load)),
                  ("tendon yield" if beam.tendons else "bar yield", yield_load)]  # fmt: skip
        order += [("concrete crushes", top * 0.998)]
    order += [("peak", top)]

    def event(name: str, p: float, step: int | None = None) -> Event:
        i = int(np.searchsorted(rise, p - 1e-9)) if step is None else step
        i = min(i, len(load) - 1)
        m, w = moment[i, critical], width[i].max()
        note = "the first crack opens at the soffit" if name == "first crack" else ""
        return Event(name, p, float(m), float(x[critical]), float(at_gauge[i]), float(w) if w else None, note, i)

    events = (
        [Event("transfer", 0.0, float(s.dead[critical]), float(x[critical]), 0.0, None, "", 0)] if beam.tendons else []
    )
    events += [event(name, max(p, 0.0)) for name, p in order]
    events.append(event("collapse", float(load[-1]), len(load) - 1))
    peak = next(e for e in events if e.event == "peak")
    first = next(e for e in events if e.event == "first crack")
    chosen = {e.event: e for e in events if e.event in ("first crack", "bar yield", "tendon yield", "peak")}
    if plain:
        mode = "first crack"
    ratio = peak.deflection / max(first.deflection, 1e-9)
    return Life(
        name=beam.name,
        beam=beam,
        events=tuple(events),
        peak=peak,
        failure=Failure(
            mode, peak.x, plain,
            "It breaks as it cracks: the first crack runs through the section." if plain else
            "The steel yields at mid-span, the cracks open, and then the concrete at the top crushes.",
        ),
        warning=Warnings(ratio, ratio * 3, "none" if plain else "ample"),
        curve=Curve(load, at_gauge, moment[:, critical], width.max(axis=1)),
        stations=Stations(x, moment, np.gradient(moment, x, axis=1), curvature, deflection, width, depth),
        sections=tuple(
            _sections(beam, s, {n: e.moment for n, e in chosen.items()}, float(x[critical]),
                      {n: e.load for n, e in chosen.items()})
        ),
        gauge=float(x[gauge]),
        critical=float(x[critical]),
        press=PressUse(top < 100e3, top / 100e3) if beam.press else None,
        assumptions=("Steel hardens as its curve says.",),
        cautions=CAUTIONS,
        models={"compression": "invented for a picture"},
        crack_spacing=None if plain else 90.0,
    )  # fmt: skip


CAUTIONS = (
    "Stressed steel stores energy: stand clear of the line of the tendon, never over the nut.",
    "Fragments fly under a press: use a guard and eye protection.",
    "Results are for a licensed engineer to review; the local code governs.",
    "Not checked: fatigue, fire, torsion, lifting.",
)


def plain() -> Life:
    return make(BENCH)


def bars() -> Life:
    return make(bars_beam())


def pretensioned() -> Life:
    return make(pretensioned_beam())


def post() -> Life:
    return make(post_beam(), mode="anchor")


def girder() -> Life:
    return make(girder_beam())


def cantilever() -> Life:
    return make(cantilever_beam())


def two_span() -> Life:
    return make(two_span_beam(), mode="shear")


def dies_at_transfer() -> Life:
    """One step, no section, no crack: the tendon breaks the concrete before any load comes."""
    life = make(pretensioned_beam())
    s, c = life.stations, life.curve
    gone = Event("transfer", 0.0, life.curve.moment[0], 625.0, 0.0, None, "the top splits at transfer", 0)
    return replace(
        life,
        events=(gone,),
        peak=gone,
        failure=Failure("first crack", 625.0, True, "The prestress alone splits the top at transfer."),
        warning=Warnings(float("nan"), float("nan"), "none"),
        curve=Curve(c.load[:1], c.deflection[:1], c.moment[:1], c.crack_width[:1]),
        stations=Stations(
            s.x,
            s.moment[:1],
            s.shear[:1],
            s.curvature[:1],
            s.deflection[:1],
            s.crack_width[:1],
            s.crack_depth[:1],
        ),
        sections=(),
        press=None,
    )


def many_events(count: int = 20) -> Life:
    """A very long name and more events than any life has."""
    life = bars()
    n = len(life.curve.load)
    steps = np.linspace(0, n - 1, count).astype(int)
    names = [e.event for e in life.events]
    events = tuple(
        Event(
            names[i % len(names)], float(life.curve.load[j]), float(life.curve.moment[j]),
            300.0 + 40 * (i % 13), float(life.curve.deflection[j]), None, "", int(j),
        )
        for i, j in enumerate(steps)
    )  # fmt: skip
    name = "Bench beam B, recast after the first of its kind was dropped on the way from the tank to the press"
    return replace(life, name=name, beam=replace(life.beam, name=name, about=life.beam.about * 4), events=events)


ALL = {
    "plain": plain,
    "bars": bars,
    "pretensioned": pretensioned,
    "post": post,
    "girder": girder,
    "cantilever": cantilever,
    "two_span": two_span,
    "transfer": dies_at_transfer,
    "many": many_events,
}

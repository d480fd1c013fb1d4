"""Put what a march found into a :class:`~soffit.member.result.Life`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from soffit.materials import compression
from soffit.materials.curve import Array, StressStrain
from soffit.member import remarks, statics
from soffit.member.beam import Beam
from soffit.member.cracks import Cracks
from soffit.member.crossing import at
from soffit.member.hinge import elastic_redundants
from soffit.member.history import History
from soffit.member.loading import Loading
from soffit.member.nodes import COHESIVE_BAND, Nodes, concrete_laws, strain_at
from soffit.member.result import Curve, Event, Failure, Life, PressUse, SectionState, Stations, Warnings
from soffit.member.standing import Standing
from soffit.member.step import Hinge, Statics
from soffit.member.sweep import limits, uncracked
from soffit.member.topped import topped
from soffit.member.transfer import Transfer
from soffit.member.verdict import Ending, failure, warnings
from soffit.member.watch import Sighting, sightings
from soffit.section.model import Section
from soffit.section.moment_curvature import moment_curvature

SECTION_POINTS = 121
ROUNDING = 1e-9
"""Share of the greatest strain of a section below which a strain is told as none (at decompression a face has none)."""
END_EVENTS = {
    "bar rupture": "bar rupture",
    "anchor": "anchor fails",
    "bond": "bar slips",
    "shear": "shear failure",
    "tendon rupture": "tendon rupture",
}


@dataclass(frozen=True)
class Material:
    """Everything a life is told from."""

    beam: Beam
    load: Loading
    nodes: Nodes
    statics: Statics
    hinge: Hinge
    history: History
    cracks: Cracks
    transfer: Transfer | None
    ending: Ending
    peak: int
    standing: Standing | None = None


def tell(m: Material) -> Life:
    """The life in order: events, peak, failure, warning, curves, sections."""
    deflection = _deflection(m)
    place = _gauge(m, deflection)
    seen = deflection[:, place] - deflection[0, place]
    critical = float(m.nodes.x[m.hinge.station])
    found = sightings(m.nodes, m.beam, m.history, m.cracks, m.hinge)
    # a life with a past tells its deflection before loading in words: that of transfer is long gone
    events = _events(m, found, seen, -float(np.min(deflection[0])) if m.standing is None else 0.0)
    peak = next(e for e in events if e.event == "peak")
    warning = _warning(m, events, peak, deflection, place)
    end = failure(m.ending, warning)
    return Life(
        name=m.beam.name,
        beam=m.beam,
        events=tuple(events),
        peak=peak,
        failure=end,
        warning=warning,
        curve=Curve(m.history.factor, seen, m.history.moment[:, m.hinge.station], np.max(m.cracks.width, axis=1)),
        stations=Stations(
            m.nodes.x,
            m.history.moment,
            m.history.shear,
            m.history.curvature,
            deflection,
            m.cracks.width,
            m.cracks.depth,
        ),
        sections=_sections(m, events),
        gauge=float(m.nodes.x[place]),
        critical=critical,
        press=_press(m.beam, peak.load, peak.deflection),
        assumptions=remarks.assumptions(
            m.beam, m.load, m.nodes, m.hinge, m.transfer, m.history.lost, m.standing is not None
        ),
        cautions=remarks.cautions(m.beam, end),
        models=remarks.models(m.beam, m.hinge, m.cracks),
        crack_spacing=m.cracks.spacing,
        age=None if m.standing is None else m.standing.age,
    )


def _deflection(m: Material) -> Array:
    """Downward from the straight beam, (steps, stations), shear deformation in."""
    strain = m.history.shear / m.statics.shear_stiffness
    # on more supports than two a unit that was bent in its bed lies on them as it came
    bed = m.nodes.bed if len(m.statics.redundant) else 0.0
    return statics.deflection(m.nodes.x, m.history.curvature - bed, m.beam.supports, strain)


def _gauge(m: Material, deflection: Array) -> int:
    x = m.nodes.x
    if m.beam.press is not None and m.beam.press.gauge is not None:
        return int(np.argmin(np.abs(x - m.beam.press.gauge)))
    return int(np.argmax(deflection[m.peak] - deflection[0]))


def _events(m: Material, found: Sequence[Sighting], seen: Array, camber: float) -> list[Event]:
    last = len(m.history) - 1
    events = [_event(m, s.event, s.step, s.x, seen, s.note) for s in found if s.step <= last + 1e-9]
    if m.transfer is not None:
        events.insert(
            0, _event(m, "transfer", 0.0, _transfer_place(m), seen, remarks.transfer_note(m.transfer, camber))
        )
    end = END_EVENTS.get(m.ending.mode)
    if end is not None and not any(e.event == end for e in events):
        events.append(_event(m, end, float(m.peak), m.ending.x, seen, m.ending.by))
    flexure = m.ending.mode in ("tension-controlled flexure", "compression-controlled flexure")
    if flexure and m.history.lost and not any(e.event == "concrete crushes" for e in events):
        note = "the compressed concrete gives way at once"
        events.append(_event(m, "concrete crushes", float(last), m.ending.x, seen, note))
    peak = _event(m, "peak", float(m.peak), m.ending.x, seen, "")
    before = [e for e in events if e.load <= peak.load + 1e-9 and e.step <= m.peak]
    after = [e for e in events if e not in before]
    collapse = _event(m, "collapse", float(last), m.ending.x, seen, m.ending.mode)
    return [*before, peak, *after, collapse]


def _event(m: Material, name: str, step: float, x: float, seen: Array, note: str) -> Event:
    j = int(np.argmin(np.abs(m.nodes.x - x)))
    width = float(np.max(at(m.cracks.width, step)))
    return Event(
        event=name,
        load=float(at(m.history.factor, step)),
        moment=float(at(m.history.moment, step)[j]),
        x=round(float(x), 3),
        deflection=float(at(seen, step)),
        crack_width=width if width > 1e-6 else None,
        note=note,
        step=int(np.ceil(step - 1e-9)),
    )


def _transfer_place(m: Material) -> float:
    assert m.transfer is not None
    return float(m.transfer.x[int(np.argmin(np.minimum(m.transfer.top, m.transfer.bottom)))])


def _warning(m: Material, events: Sequence[Event], peak: Event, deflection: Array, place: int) -> Warnings:
    """Ratios of peak over first crack; where the beam was cracked before loading, the whole deflection counts."""
    crack = next((e for e in events if e.event == "first crack"), None)
    if crack is None or crack.step > peak.step:
        return warnings(1.0, 1.0, m.ending)
    load, seen = m.history.factor, deflection[:, place] - deflection[0, place]
    work = np.concatenate([[0.0], np.cumsum(0.5 * (load[1:] + load[:-1]) * np.diff(seen))])
    if crack.load > 0.0 and crack.deflection > 0.0:
        first = max(crack.step - 1, 0)
        done = work[first] + 0.5 * (load[first] + crack.load) * (crack.deflection - seen[first])
        return warnings(peak.deflection / crack.deflection, float(work[m.peak] / max(done, 1e-12)), m.ending)
    before = max(abs(float(deflection[0, place])), 1e-9)
    total = before + peak.deflection
    permanent = 0.5 * before * max(abs(peak.load), 1.0)
    return warnings(total / before, float((work[m.peak] + permanent) / permanent), m.ending)


def _sections(m: Material, events: Sequence[Event]) -> tuple[SectionState, ...]:
    """Strain and stress at the critical section at decompression, first crack, first yield and peak."""
    out = []
    yielded = False
    for event in events:
        name = event.event
        if name in ("bar yield", "tendon yield"):
            if yielded:
                continue
            yielded = True
        elif name not in ("decompression", "first crack", "peak"):
            continue
        out.append(_section(m, event))
    return tuple(out)


def _section(m: Material, event: Event) -> SectionState:
    nodes, h = m.nodes, m.hinge.station
    step = _step_of(m, event)
    axial, moment = float(at(m.history.axial, step)[h]), float(at(m.history.on_section, step)[h])
    if event.event == "decompression" or (event.event == "first crack" and event.step > 0):
        soffit, curvature = uncracked(nodes.elastic[h], nodes.axis, axial, moment)
    else:
        soffit = float(at(m.history.cracked_soffit, step)[h])
        curvature = float(at(m.history.cracked_curvature, step)[h])
    _, cohesive = concrete_laws(m.beam, m.hinge.length if m.hinge.snaps else 0.5 * nodes.depth)
    y = np.linspace(0.0, nodes.depth, SECTION_POINTS)
    strain = soffit - curvature * y
    strain[np.abs(strain) < ROUNDING * np.max(np.abs(strain))] = 0.0
    layers = nodes.layers[h]
    present = [i for i in range(len(nodes.infos)) if layers[i, 1] > 0]
    steel = soffit - curvature * layers[:, 0] + layers[:, 2]
    ys, areas = list(layers[present, 0]), list(layers[present, 1])
    strains = [float(steel[i]) for i in present]
    stresses = [float(nodes.infos[i].law(steel[i])) for i in present]
    tendons = [nodes.infos[i].is_tendon for i in present]
    for g, u in enumerate(nodes.unbonded):
        if not u.inside[h]:
            continue
        stress = float(at(m.history.unknown, step)[g]) / u.tendon.area * float(u.shape[h])
        ys.append(float(u.y[h]))
        areas.append(u.tendon.area)
        strains.append(float(strain_at(u.law, np.array(stress), u.tendon.steel.modulus)))
        stresses.append(stress)
        tendons.append(True)
    return SectionState(
        event=event.event,
        x=float(nodes.x[h]),
        load=event.load,
        moment=float(at(m.history.moment, step)[h]),
        curvature=float(curvature),
        y=y,
        strain=strain,
        stress=_concrete_stress(m, cohesive, y, strain),
        steel_y=np.array(ys),
        steel_area=np.array(areas),
        steel_strain=np.array(strains),
        steel_stress=np.array(stresses),
        steel_is_tendon=np.array(tendons, dtype=bool),
    )


def _concrete_stress(m: Material, law: StressStrain, y: Array, strain: Array) -> Array:
    """Stress over the height, the topping's by its own law."""
    stress = np.asarray(law(strain))
    nodes = m.nodes
    topping = m.standing and topped(m.standing, nodes.x, nodes.modulus, nodes.axis, COHESIVE_BAND * nodes.depth)
    if topping:
        above = y >= topping.low
        stress[above] = topping.laws[1](strain[above])
    return stress


def _step_of(m: Material, event: Event) -> float:
    """Position in the history of an event (its load lies between two steps)."""
    i = event.step
    if i == 0:
        return 0.0
    a, b = m.history.factor[i - 1], m.history.factor[i]
    return float(i) if a == b else i - 1 + float(np.clip((event.load - a) / (b - a), 0.0, 1.0))


def _press(beam: Beam, peak: float, deflection: float) -> PressUse | None:
    """Whether the press can break the beam: with its force, and with its stroke where that is given."""
    press = beam.press
    if press is None or (press.capacity is None and press.stroke is None):
        return None
    used = None if press.capacity is None else peak / press.capacity
    travel = None if press.stroke is None else deflection / press.stroke
    return PressUse((used or 0.0) <= 1.0 and (travel or 0.0) <= 1.0, used, travel)


def _mode_of_section(nodes: Nodes, station: int, axial: float, sagging: bool) -> str:
    """How one section fails that its moment overcomes: what its own path meets before its greatest moment."""
    present = nodes.layers[station][nodes.layers[station, :, 1] > 0.0]
    alone = Section(nodes.strips, present, nodes.laws, nodes.axis, nodes.scale)
    path = moment_curvature(alone, axial, hogging=not sagging)
    strain = nodes.tensile / nodes.modulus
    cracking = limits(nodes.elastic[station], nodes.axis, nodes.depth, axial, strain, sagging)[1]
    if not abs(path.peak.moment) > abs(cracking):
        return "first crack"
    before = {e.kind for e in path.events[: path.events.index(path.peak)]}
    if "rupture" in before:
        return "bar rupture"
    return "tension-controlled flexure" if "yield" in before else "compression-controlled flexure"


def ended_before_loading(
    beam: Beam,
    load: Loading,
    nodes: Nodes,
    fixed: Statics,
    let_in: Transfer | None,
    x: float,
    crushed: bool,
) -> Life:
    """A life that ends before any load rises: crushed by its own prestress, or broken by its own weight."""
    axial, extra = nodes.unbonded_forces()
    open_ = elastic_redundants(nodes, fixed, fixed.permanent + extra, axial)
    moment = fixed.permanent + open_ @ fixed.redundant
    shears = fixed.permanent_shear + open_ @ fixed.redundant_shear
    curvature = np.array(
        [uncracked(nodes.elastic[j], nodes.axis, axial[j], moment[j] + extra[j])[1] for j in range(len(nodes.x))]
    )
    row = statics.deflection(nodes.x, curvature, beam.supports, shears / fixed.shear_stiffness)
    j = int(np.argmin(np.abs(nodes.x - x)))
    on_section = float(moment[j] + extra[j])
    cracking = limits(
        nodes.elastic[j], nodes.axis, nodes.depth, axial[j], nodes.tensile / nodes.modulus, on_section >= 0.0
    )[1]
    cracked = abs(on_section) > abs(cracking)
    mode = "compression-controlled flexure" if crushed else _mode_of_section(nodes, j, float(axial[j]), on_section >= 0)
    sentence = "The beam cannot carry its own weight and its dead load; there is no warning."
    if crushed:
        sentence = "The prestress crushes the concrete at transfer, so no load can ever be put on; there is no warning."
    elif len(fixed.redundant) or beam.tendons:
        # it might stand by handing moments on, but no such state was found
        sentence = "The permanent state asks a section for more than its strength; there is no warning."

    def event(name: str, note: str) -> Event:
        return Event(name, 0.0, float(moment[j]), x, 0.0, None, note, 0)

    events = [event("transfer", remarks.transfer_note(let_in, -float(np.min(row))))] if let_in is not None else []
    if cracked and not crushed:
        face = "the soffit" if on_section >= 0.0 else "the top face"
        events.append(event("first crack", f"at {face}, already under the permanent load"))
    peak = event("peak", "no load was put on")
    end = Failure(mode, x, True, sentence)
    zero = np.zeros(1)
    flat = np.zeros((1, len(nodes.x)))
    return Life(
        name=beam.name,
        beam=beam,
        events=(*events, peak, event("collapse", mode)),
        peak=peak,
        failure=end,
        warning=Warnings(0.0, 0.0, "none"),
        curve=Curve(zero, zero, moment[j : j + 1], zero),
        stations=Stations(nodes.x, moment[None], shears[None], curvature[None], row[None], flat, flat),
        sections=(),
        gauge=x,
        critical=x,
        press=_press(beam, 0.0, 0.0),
        assumptions=remarks.assumptions(beam, load, nodes, None, let_in, ""),
        cautions=remarks.cautions(beam, end),
        models={"compression": compression.LAWS[beam.concrete.law].name},
        crack_spacing=None,
    )

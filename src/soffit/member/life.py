"""The life of a beam: all that happens from the permanent state to collapse, in order."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from soffit.materials import tension
from soffit.member import anchorage, bond, grid, report, setup, shear, transfer, watch
from soffit.member.beam import Beam
from soffit.member.cracks import cracks
from soffit.member.crossing import at
from soffit.member.history import History
from soffit.member.loading import Loading, loading
from soffit.member.march import NEAR_RUPTURE_WORDS, march
from soffit.member.result import Life
from soffit.member.standing import Standing
from soffit.member.step import CannotStand
from soffit.member.sweep import limits
from soffit.member.verdict import Ending, bending_mode

COLLAPSED = 0.8
"""Share of the peak load to which a ductile beam's load has fallen when it is said to have collapsed (*common
practice* for ductility)."""


def life(beam: Beam, load: Loading | None = None, standing: Standing | None = None) -> Life:
    """Follow ``beam`` under its rising load to collapse.

    load, standing: what rests on it and what its past has left (:func:`soffit.member.time.stand`); else the dead load,
    and the immediate losses with the percentage given for what time takes.

    Raises ``PhysicsError`` (one sentence) where nothing rises or nothing bends, ``ConvergenceError`` with place and
    load where an equilibrium before the peak is not found. A beam that fails before any load has risen has a life
    that ends at transfer, with a peak of zero.
    """
    load = load or loading(beam)
    x = grid.stations(beam)
    nodes, fixed = setup.member(beam, load, x, standing=standing)
    let_in = transfer.at_transfer(beam, x, fixed.own) if standing is None else transfer.as_it_was(standing)
    if let_in is not None and let_in.crushes_at is not None:
        return report.ended_before_loading(beam, load, nodes, fixed, let_in, let_in.crushes_at, crushed=True)
    model = setup.with_hinge(beam, load, nodes, fixed, setup.choose(nodes, fixed), standing)
    try:
        history, hinge = march(model.nodes, model.statics, model.hinge)
    except CannotStand as fault:
        return report.ended_before_loading(beam, load, nodes, fixed, let_in, fault.x, crushed=False)
    model = replace(model, hinge=hinge)
    history = history.standing()
    if np.max(history.factor) <= 0.0:
        place = float(model.nodes.x[hinge.station])
        return report.ended_before_loading(beam, load, nodes, fixed, let_in, place, crushed=False)
    history, ending, peak = _ended(model, history)
    opened = cracks(model.nodes, beam, history, hinge)
    return report.tell(
        report.Material(beam, load, model.nodes, model.statics, hinge, history, opened, let_in, ending, peak, standing)
    )


def _ended(model: setup.Model, history: History) -> tuple[History, Ending, int]:
    """Cut the history where something other than bending ends it; else where the load has fallen far enough."""
    nodes, beam = model.nodes, model.beam
    peak = int(np.argmax(history.factor))
    candidates: list[tuple[float, Ending]] = []
    parted = anchorage.first_parting(nodes, history)
    if parted:
        mode = "anchor" if parted.what == "anchor fails" else "tendon rupture"
        candidates.append((parted.step, Ending(mode, parted.x, parted.reason)))
    slipped = bond.first_slip(nodes, beam, history)
    if slipped:
        candidates.append((slipped.step, Ending("shear" if slipped.torn else "bond", slipped.x, slipped.label)))
    torn = shear.first_failure(nodes, beam, history, model.load.points)
    if torn:
        candidates.append((torn.step, Ending("shear", torn.x)))
    step, ending = min(candidates, key=lambda c: c[0], default=(np.inf, None))
    if ending is not None and step <= peak:
        cut = _cut_at(history, step)
        # the load may have been higher before (a crack that threw it back)
        return cut, ending, int(np.argmax(cut.factor))
    end = _fallen(history, peak)
    if ending is not None:
        # after the peak a slip or a diagonal crack only brings the collapse forward
        end = min(end, max(step, float(peak)))
    whole = _cut_at(history, end)
    found = watch.sightings(nodes, beam, whole, cracks(nodes, beam, whole, model.hinge), model.hinge)
    at_end = peak == len(history) - 1 and NEAR_RUPTURE_WORDS in history.lost
    broken = ("tendon" if "tendons" in history.lost else "bar") if at_end else ""
    mode = bending_mode(found, peak, _at_crack(model, whole, peak), broken)
    place = float(nodes.x[history.station[peak]])
    yielded = next((s.event.split()[0] for s in found if s.event in ("bar yield", "tendon yield")), "")
    by = {"bar": "bar steel", "tendon": "tendon steel"}.get(yielded, "")
    linear = bool(beam.bars) and all(bar.steel.kind == "linear" for bar in beam.bars) and not beam.tendons
    crushed = any(s.event == "concrete crushes" and s.step <= peak for s in found)
    return whole, Ending(mode, place, by, linear, crushed), peak


def _fallen(history: History, peak: int) -> float:
    """Position at which the load has fallen to ``COLLAPSED`` of the peak; the end where it never does."""
    limit = COLLAPSED * history.factor[peak]
    below = np.flatnonzero(history.factor[peak:] <= limit)
    if not len(below) or below[0] == 0:
        return float(len(history) - 1) if not len(below) else float(peak)
    i = peak + int(below[0])
    a, b = history.factor[i - 1], history.factor[i]
    return i - 1 + float((a - limit) / (a - b))


PLASTIC_OVER_ELASTIC = 3.0
"""Greatest moment of a plain rectangle over its moment at first crack, were the tension to stay at its strength."""


def _at_crack(model: setup.Model, history: History, peak: int) -> bool:
    """Whether the load is greatest while the one crack still holds across: its mouth has not yet come apart, and no
    more is carried than a crack can."""
    nodes, h = model.nodes, model.hinge.station
    if not model.hinge.snaps:
        return False
    opened = cracks(nodes, model.beam, history, model.hinge).width[peak, h]
    strain = nodes.tensile / nodes.modulus
    _, cracking = limits(
        nodes.elastic[h], nodes.axis, nodes.depth, history.axial[peak, h], strain, model.hinge.sign > 0
    )
    within = abs(history.on_section[peak, h]) <= PLASTIC_OVER_ELASTIC * abs(cracking)
    return bool(opened < tension.opening(model.beam.concrete, 0.0) and within)


def _cut_at(history: History, step: float) -> History:
    """The history up to a position between two steps, which becomes its last row."""
    whole = int(np.floor(step))
    if step == whole:
        return history.cut(whole)
    kept = history.cut(whole)
    rows = {}
    for name in history.__dataclass_fields__:
        values = getattr(history, name)
        if name == "lost":
            rows[name] = values
        elif name == "station":
            rows[name] = np.append(getattr(kept, name), values[whole + 1])
        else:
            rows[name] = np.concatenate([getattr(kept, name), at(values, step)[None]])
    return History(**rows)

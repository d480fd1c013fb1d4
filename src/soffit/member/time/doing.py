"""What each deed does to the state; what it adds to the moments of the loads."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from soffit.errors import PhysicsError
from soffit.materials.curve import Array
from soffit.member import friction, statics
from soffit.member.beam import Load
from soffit.member.loading import self_weight, topping_weight
from soffit.member.supports import Supports
from soffit.member.time import plane as planes
from soffit.member.time.bedded import in_bed
from soffit.member.time.schedule import Deed
from soffit.member.time.state import State
from soffit.member.time.structure import structure, taken_away


def do(s: State, n: int, deed: Deed) -> Array:
    """Do ``deed`` in step n; the moment that it adds on the released structure, (stations,).

    Raises ``PhysicsError`` where it cannot be done.
    """
    lifted = np.zeros_like(s.x)
    if deed.lifts:
        if s.on is None:
            held = deed.stage.supports or (_in_the_yard(s) if deed.doing == "release" else s.beam.supports)
            s.on = structure(s.x, s.beam.length, held, s.mean[:, 1].copy())
        own = self_weight(s.beam)
        lifted = _load(s, n, [replace(own, value=deed.lifts * own.value)] if s.beam.self_weight else [])
    return lifted + DOINGS[deed.doing](s, n, deed)


def _in_the_yard(s: State) -> Supports:
    """A unit that its prestress bends as it is let go lies on its outermost supports and turns there."""
    held = s.beam.supports.x
    return Supports((held[0], held[-1])) if len(held) > 1 else s.beam.supports


def stand(s: State, n: int, deed: Deed) -> Array:
    new = deed.stage.supports or s.beam.supports
    assert s.on is not None
    if new == s.on.supports:
        return np.zeros_like(s.x)
    over = [float(s.moment[int(np.argmax(d))]) for d in s.on.diagrams]
    gone = taken_away(s.beam.length, s.on.supports, new, [load for _, load in s.loads], over)
    s.on = structure(s.x, s.beam.length, new, s.mean[:, 1].copy())
    return statics.released(s.x, s.beam.length, new, gone).moment


def release(s: State, n: int, deed: Deed) -> Array:
    for group in deed.tendons:
        bed = in_bed(s.beam, s.making, group)
        layer = s.layers.steel.bars + group
        s.layers.relaxed[layer] = friction.between(s.x, bed.x, bed.relaxed)
        s.layers.before_bond[layer] = s.layers.relaxed[layer]
        _bond(s, layer, friction.between(s.x, bed.x, bed.stress))
    return np.zeros_like(s.x)


def stress(s: State, n: int, deed: Deed) -> Array:
    (group,) = deed.tendons
    tendon, layer = s.beam.tendons[group], s.layers.steel.bars + group
    pulled = friction.jacked(replace(tendon, stress=tendon.stress * s.making.scales.prestress))
    s.layers.slide[layer] = pulled.at(s.x)
    s.layers.full[layer] = s.layers.slide[layer]
    s.layers.sliding[layer] = True
    # one tendon after another: on average they take part in (n − 1)/2n of the shortening by all of them
    # (EN 1992-1-1:2004 5.10.5.1 (2))
    s.layers.share[layer] = 0.5 * (tendon.count - 1) / tendon.count
    return np.zeros_like(s.x)


def grout(s: State, n: int, deed: Deed) -> Array:
    """From now on each section of the tendon goes with the concrete beside it."""
    for group in deed.tendons:
        layer = s.layers.steel.bars + group
        s.layers.sliding[layer] = False
        s.layers.before_bond[layer] = s.layers.relaxed[layer]
        _bond(s, layer, s.layers.slide[layer])
    return np.zeros_like(s.x)


def load(s: State, n: int, deed: Deed) -> Array:
    stage = deed.stage
    share = stage.share if stage.what == "load" else -stage.share
    found = [replace(each, value=share * each.value) for each in s.beam.loads if each.case in stage.cases]
    return _load(s, n, found)


def weight(s: State, n: int, deed: Deed) -> Array:
    return _load(s, n, [] if deed.stage.propped else _poured(s))


def harden(s: State, n: int, deed: Deed) -> Array:
    topping = s.concretes[1]
    topping.born = n
    topping.act, topping.act_cracked = s.plane.copy(), s.plane_cracked.copy()
    for layer, bar in enumerate(s.beam.bars):
        if bar.part == "topping":
            _bond(s, layer, np.zeros_like(s.x))
    return _load(s, n, _poured(s) if deed.stage.propped else [])


def look(s: State, n: int, deed: Deed) -> Array:
    return np.zeros_like(s.x)


DOINGS: dict[str, Callable[[State, int, Deed], Array]] = {
    "stand": stand,
    "release": release,
    "stress": stress,
    "grout": grout,
    "load": load,
    "weight": weight,
    "harden": harden,
    "look": look,
}


def _poured(s: State) -> list[Load]:
    return [topping_weight(s.making.topping, s.beam.length)] if s.making.topping else []


def _load(s: State, n: int, loads: list[Load]) -> Array:
    if s.on is None:
        raise PhysicsError("a load comes before the beam stands on anything: put a support stage before it")
    s.loads += [(n, load) for load in loads]
    return statics.released(s.x, s.beam.length, s.on.supports, loads).moment


def _bond(s: State, layer: int, stress_: Array) -> None:
    """The layer has ``stress_`` (stations,) now, and goes with the concrete from now on."""
    held = s.layers
    e, y = held.steel.modulus[layer], held.steel.y[layer]
    held.bonded[layer] = True
    held.full[layer] = stress_
    held.held[layer] = stress_ - e * planes.at(s.plane, y)
    held.held_cracked[layer] = stress_ - e * planes.at(s.plane_cracked, y)

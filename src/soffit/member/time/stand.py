"""From a past to the state in which loading begins."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from soffit.errors import PhysicsError
from soffit.materials.concrete import Concrete
from soffit.materials.curve import Array
from soffit.materials.properties import HIGHEST, LOWEST, at_strength
from soffit.member.beam import Beam, TendonGroup
from soffit.member.loading import Loading, loading
from soffit.member.making import Topping
from soffit.member.standing import Cast, Standing, whole_outline
from soffit.member.time.result import Past, TendonPast
from soffit.member.time.schedule import days


@dataclass(frozen=True)
class Begun:
    """A beam as it is at an age, ready to be loaded to its end."""

    beam: Beam
    load: Loading
    standing: Standing


def stand(past: Past, age: float) -> Begun:
    """The beam at ``age`` (days): its concretes as strong as they are, on its supports, with all that is on it.

    Raises ``PhysicsError`` for an age outside the past, or before the beam stands on anything, or where nothing rises.
    """
    if not past.t[0] - 1e-9 <= age <= past.t[-1] + 1e-9:
        raise PhysicsError(
            f"an age of {days(age)} is outside what was followed, {days(float(past.t[0]))} to "
            f"{days(float(past.t[-1]))}: ask for one between, or add a stage of age"
        )
    n = past.at(age)
    held = past.supports[n]
    if held is None:
        raise PhysicsError(f"at {days(age)} the beam still lies in its form: ask for a later age")
    beam, made = past.beam, past.making
    concrete = _aged(beam.concrete, _grown(beam.concrete, past.t, past.strength, n), age)
    cast = None
    if made.topping is not None and past.topping_top is not None and past.topping_strength[n] > LOWEST:
        cast = Cast(
            _aged(made.topping.concrete, _topping_strength(past, made.topping, n), age),
            made.topping.outline,
            made.topping.base,
        )
    kept = [p for p in past.tendons if np.any(np.isfinite(p.stress[n]))]
    late = [p.tendon.name for p in past.tendons if p not in kept]
    there = replace(
        beam,
        concrete=concrete,
        outline=whole_outline(beam, cast),
        supports=held,
        tendons=tuple(_as_it_is(p, past, n) for p in kept),
        bars=tuple(b for b in beam.bars if b.part == "beam" or cast is not None),
    )
    rising = loading(beam)
    load = replace(rising, permanent=past.acting(n))
    standing = Standing(
        age=age,
        x=past.x,
        moment=past.moment[n],
        strain=_plane(past.bottom[n], past.top[n], 0.0, beam.outline.depth) / concrete.modulus,
        bars=past.bars[n][[b.part == "beam" or cast is not None for b in beam.bars]],
        tendons=np.array([p.uncracked[n] for p in kept]).reshape(len(kept), len(past.x)),
        deflection=past.deflection[n],
        release=_release(past),
        topping=cast,
        topping_strain=_topping(past, n, cast),
        notes=_notes(past, n, kept, late, cast),
    )
    return Begun(there, load, standing)


def _grown(concrete: Concrete, t: Array, strength: Array, n: int) -> float:
    """The strength that the file gives at its age, grown to step n as the model's does, MPa."""
    return concrete.strength * float(strength[n] / np.interp(concrete.age, t, strength))


def _topping_strength(past: Past, topping: Topping, n: int) -> float:
    there = past.topping_strength > 0.0
    pour = next(stage.at for stage in past.making.stages if stage.what == "topping")
    t, strength = past.t[there] - pour, past.topping_strength[there]
    return _grown(topping.concrete, t, strength, n - int(np.argmax(there)))


def _aged(concrete: Concrete, strength: float, age: float) -> Concrete:
    strong = float(np.clip(strength, LOWEST, HIGHEST))
    return replace(at_strength(concrete, strong), age=age, strength_at_transfer=None)


def _as_it_is(p: TendonPast, past: Past, n: int) -> TendonGroup:
    """The group as stress and bond are by then: not yet grouted is not yet bonded."""
    tendon = p.tendon
    grouted = any(i.step <= n for i in past.instants if i.stage.what == "grout" and p.index in i.stage.tendons)
    if tendon.when == "after curing" and tendon.bond == "bonded" and not grouted:
        return replace(tendon, bond="unbonded")
    return tendon


def _plane(low: Array, high: Array, y0: float, y1: float) -> Array:
    """(stations, 2): plane through its values at two heights."""
    slope = (low - high) / (y1 - y0)
    return np.column_stack([low + slope * y0, slope])


def _topping(past: Past, n: int, cast: Cast | None) -> Array | None:
    if cast is None or past.topping_bottom is None or past.topping_top is None:
        return None
    low, high = cast.low, cast.low + cast.outline.depth
    return _plane(past.topping_bottom[n], past.topping_top[n], low, high) / cast.concrete.modulus


def _release(past: Past) -> tuple[Array, Array, float, float] | None:
    """Face stresses just after the first release or stressing."""
    first = next((i for i in past.instants if i.stage.what in ("release", "stress")), None)
    if first is None:
        return None
    n = first.step
    return past.bottom[n], past.top[n], float(past.strength[n]), float(past.tensile[n])


def _notes(past: Past, n: int, kept: list[TendonPast], late: list[str], cast: Cast | None) -> tuple[str, ...]:
    m = past.middle
    down = float(past.deflection[n, m])
    told = [
        f"Loading begins {days(float(past.t[n]))} after casting, from what {past.model} gives step by step; then the "
        f"beam stands {abs(down):.1f} mm {'below' if down > 0 else 'above'} the straight line at "
        f"x = {past.x[m]:.0f} mm."
    ]
    for p in kept:
        left = float(np.nanmax(p.full[n]))
        told.append(
            f"Tendon {p.tendon.name or p.tendon.label} has {p.full[n][m]:.0f} MPa left there, {left:.0f} MPa at most, "
            f"of {p.jack:.0f} MPa at the jack."
        )
    rising = {load.case for load in past.beam.loads if load.case != "dead"}
    on = sorted(rising & {case for i in past.instants if i.step <= n for case in i.stage.cases})
    if on and past.beam.press is None:
        told.append(f"What the stages have put on of {' and '.join(on)} stays on, and the same case rises from zero.")
    if late:
        told.append(f"Tendon {', '.join(late)} is not stressed yet and left out.")
    if cast is not None:
        told.append(
            "The strain by which beam and topping differ is taken at mid-depth of the topping of the section with the "
            "greatest permanent moment, and kept along the beam where sections crack and fail."
        )
    if np.any(past.cracked[n] > 0.0):
        told.append(
            "Cracked sections begin with the strain of the steel in the uncracked ones: creep of the compressed zone "
            "at a crack is in the deflection before loading, not in that under the rising load."
        )
    return tuple(told)

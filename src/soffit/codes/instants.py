"""What changes in an instant in a beam's past, and the stress of the concrete by hand: gross sections, linear.

N, mm, MPa, days. Stresses of concrete beside tendons are **compression positive** here, as the formulas of losses want
them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials.curve import Array
from soffit.member.making import Making
from soffit.member.profile import height
from soffit.member.time.result import Past
from soffit.member.time.schedule import making_of

SAME = 1e-9
"""Days between steps of one instant."""


@dataclass(frozen=True)
class Jump:
    """One instant."""

    step: int
    """Just after it."""
    age: float
    prestress: bool
    """Whether tendons are stressed or released then; else loads come, go or change their supports."""
    moment: Array
    """(stations,): change of the moment, N·mm."""
    groups: tuple[int, ...]
    """Tendon groups that have their stress from now on."""
    composite: bool
    """Whether a topping acts with the beam."""


@dataclass(frozen=True)
class Gross:
    """A section without its steel; with a topping in terms of the beam's concrete. mm², mm, mm⁴."""

    area: float
    centroid: float
    inertia: float


def making(past: Past) -> Making:
    return making_of(past.beam)


def jumps(past: Past, until: int) -> tuple[Jump, ...]:
    """All instants up to the step ``until``, in order."""
    hard = _hardened(past)
    first = {i: first_step(past, i) for i in range(len(past.tendons))}
    found = []
    for n in range(1, until + 1):
        if past.t[n] - past.t[n - 1] > SAME:
            continue
        groups = tuple(i for i, at in first.items() if at == n)
        moment = past.moment[n] - past.moment[n - 1]
        stage = next((i.stage.what for i in past.instants if i.step >= n), "age")
        if groups or np.any(np.abs(moment) > 0.0):
            stressing = bool(groups) or stage in ("release", "stress")
            found.append(Jump(n, float(past.t[n]), stressing, moment, groups, float(past.t[n]) >= hard))
    return tuple(found)


def first_step(past: Past, group: int) -> int | None:
    """Step from which on a tendon group has stress; none where it never has."""
    has = np.any(np.nan_to_num(past.tendons[group].stress) > 0.0, axis=1)
    return int(np.argmax(has)) if has.any() else None


def settled(past: Past, step: int) -> int:
    """The last step of the instant that ``step`` belongs to, so far as tendons are stressed or released in it."""
    n = step
    while n + 1 < len(past.t) and past.t[n + 1] - past.t[step] <= SAME:
        stage = next((i.stage.what for i in past.instants if i.step >= n + 1), "age")
        if stage not in ("release", "stress"):
            break
        n += 1
    return n


def _hardened(past: Past) -> float:
    made = making(past)
    pour = next((s.at for s in made.stages if s.what == "topping"), None)
    return np.inf if made.topping is None or pour is None else pour + made.topping.hardens - SAME


def gross(past: Past, composite: bool = False) -> Gross:
    """The beam's own section, or with its topping, whose area counts in the ratio of the moduli."""
    o = past.beam.outline
    area, first, second = o.area, o.area * o.centroid, o.inertia + o.area * o.centroid**2
    topping = making(past).topping
    if composite and topping is not None:
        t, n = topping.outline, topping.concrete.modulus / past.beam.concrete.modulus
        y = topping.base + t.centroid
        area, first = area + n * t.area, first + n * t.area * y
        second += n * (t.inertia + t.area * y**2)
    return Gross(area, first / area, second - first**2 / area)


def heights(past: Past, group: int) -> Array:
    """(stations,): of a tendon group above the soffit, mm."""
    return height(past.beam.tendons[group].profile, past.x)


def by_moment(past: Past, jump: Jump, y: Array) -> Array:
    """Change of compression at heights ``y`` (stations,) by the moment of an instant, MPa."""
    g = gross(past, jump.composite)
    return np.asarray(-jump.moment * (g.centroid - y) / g.inertia)


def by_force(past: Past, composite: bool, force: Array, at: Array, y: Array) -> Array:
    """Compression at heights ``y`` by a tendon ``force`` (N) at heights ``at``, all (stations,), MPa."""
    g = gross(past, composite)
    return np.asarray(force / g.area + force * (g.centroid - at) * (g.centroid - y) / g.inertia)


def by_prestress(past: Past, jump: Jump, y: Array) -> Array:
    """Change of compression at heights ``y`` by the tendons that get their stress in an instant, with the force that
    they keep just after it, MPa."""
    total = np.zeros_like(past.x)
    for i in jump.groups:
        force = np.nan_to_num(past.tendons[i].force()[settled(past, jump.step)])
        total = total + by_force(past, jump.composite, force, heights(past, i), y)
    return total

"""What was assumed on the way through time, and what to beware of."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from soffit.member.time import plane as planes
from soffit.member.time.bedded import heated, in_bed
from soffit.member.time.result import Instant
from soffit.member.time.schedule import days, said_of_usual, stressed_on
from soffit.member.time.state import Concrete, State
from soffit.member.time.structure import reactions


def notes(s: State, instants: Sequence[Instant]) -> tuple[str, ...]:
    own = s.concretes[0].viscous
    cast = s.making.casting
    said = [
        *s.beam.notes,
        f"Creep, shrinkage and strength gain by {own.name}: mean strength {cast.strength:.1f} MPa at 28 days, "
        f"{cast.humidity:.0f} % relative humidity, notional size {cast.notional_size:.0f} mm, cement class "
        f"{cast.cement}, cured until {days(cast.cured_until)}.",
    ]
    if s.beam.making is not None and not s.beam.making.stages:
        said.append(said_of_usual(s.beam))
    if own.matured:
        said.append(
            f"The strength at transfer is met by taking the concrete as {abs(own.matured):.2g} days "
            f"{'older' if own.matured > 0 else 'younger'} than it is, for heat and mix."
        )
    elif cast.transfer_strength is not None and cast.transfer_age is not None:
        said.append(f"The strength at transfer enters {own.name} as that model has it.")
    hot = [(t.name or t.label, heated(t, s.making)) for t in s.beam.tendons if t.when == "before casting"]
    said += [
        f"Tendon {name}: the heat of the bed counts for {value:.0f} days of relaxation before release (EN 1992-1-1 "
        "10.3.2.1, from memory)."
        for name, value in hot
        if value > 0.0
    ]
    for c in s.concretes:
        whose = "" if c is s.concretes[0] else "Topping: "
        said += [f"{whose}{note}" for note in c.viscous.law.notes]
        said += _strained(s, c)
    scales = s.making.scales
    for what, value in (("modulus", scales.modulus), ("creep", scales.creep), ("shrinkage", scales.shrinkage)):
        if value != 1.0:
            said.append(f"The {what} of the model is multiplied by {value:.3g}.")
    said.append(
        "Shear deformation, temperature, settlement and what supports hold back along the beam are not counted; "
        "steel is linear, bars hold from their very ends, ducts are not taken off the section, and a topping is "
        "bonded all over."
    )
    if any(t.bond == "unbonded" for t in s.beam.tendons):
        said.append("Unbonded tendons slide without friction under what comes after their stressing.")
    for i, tendon in enumerate(s.beam.tendons):
        if tendon.when == "before casting" and np.isfinite(s.record.tendons[-1, i]).any():
            said += in_bed(s.beam, s.making, i).notes
            if stressed_on(s.beam, s.making, i) is None:
                said.append(
                    f"{tendon.name or tendon.label}: the day of stressing is not given, so no relaxation before "
                    "release is counted."
                )
    if s.cracks.any():
        said.append(
            "Where the section has cracked, curvature lies between that without and with tension in the concrete by "
            "EN 1992-1-1 7.4.3, β falling from 1.0 to 0.5 in the first 20 days; cracks that shrinkage opens where the "
            "section is hardly bent are not followed."
        )
    bars = [t.name or t.label for t in s.beam.tendons if t.relaxation == "none"]
    if bars:
        said.append(f"Tendon {', '.join(bars)} does not relax.")
    return tuple(dict.fromkeys(said))


def _strained(s: State, c: Concrete) -> list[str]:
    """Whether any sustained compression passes what the model takes as proportional."""
    limit = c.viscous.law.record.linear_limit
    index = s.concretes.index(c)
    stress = s.record.stress[index]
    low = np.minimum(planes.at(stress, c.part.low), planes.at(stress, c.part.high)).min(axis=1)
    share = -low / np.maximum(c.viscous.against, 1e-9)
    n = int(np.argmax(share))
    if share[n] <= limit:
        return []
    return [
        f"The compression reaches {-low[n]:.1f} MPa at {days(float(s.t[n]))}, {share[n]:.2f} of the strength that it "
        f"is compared with then, above the {limit:g} up to which {c.viscous.name} has creep proportional to stress: "
        "there is more than computed."
    ]


def cautions(s: State) -> tuple[str, ...]:
    said = []
    limit = min((bar.steel.yield_strength for bar in s.beam.bars), default=np.inf)
    most = float(np.max(s.record.crack_stress, initial=0.0))
    if most > limit:
        said.append(_beyond("A bar", most, limit))
    for i, tendon in enumerate(s.beam.tendons):
        full = np.nan_to_num(s.record.tendons[:, i])
        most = max(float(np.max(full)), float(np.max(s.record.at_crack[:, i])))
        if most > tendon.steel.yield_strength > tendon.stress * s.making.scales.prestress:
            said.append(_beyond(f"Tendon {tendon.name or tendon.label}", most, tendon.steel.yield_strength))
        if float(np.min(full)) < -1.0:
            said.append(
                f"Tendon {tendon.name or tendon.label} comes under compression, {float(np.min(full)):.0f} MPa, and is "
                "taken as stiff there."
            )
    n = int(np.argmax(s.record.crushed))
    if s.record.crushed[n] > 1.0:
        said.append(
            f"At {days(float(s.t[n]))} the concrete at a crack would have {s.record.crushed[n]:.2f} of its strength, "
            "taken as linear: the section is near its end in bending, and softer than computed."
        )
    return (*said, *_uplift(s))


def _beyond(what: str, stress: float, limit: float) -> str:
    return (
        f"{what} reaches {stress:.0f} MPa at a crack, above its yield strength of {limit:.0f} MPa: what is computed "
        "beyond that is too stiff, and the beam is near its end."
    )


def _uplift(s: State) -> list[str]:
    """Whether the beam would lift off a support at the end of what was followed."""
    if s.on is None:
        return []
    over = [float(s.moment[int(np.argmax(d))]) for d in s.on.diagrams]
    found = reactions(s.beam.length, s.on.supports, [load for _, load in s.loads], over)
    least = min(found, key=lambda r: r.value)
    if least.value >= -1e-6 * sum(abs(r.value) for r in found) or len(found) < 2:
        return []
    return [
        f"The beam pulls at its support at x = {least.x_from:.0f} mm with {-least.value / 1e3:.1f} kN at the end: it "
        "lifts off unless it is held down there."
    ]

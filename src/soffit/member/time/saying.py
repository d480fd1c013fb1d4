"""What was assumed on the way through time, and what to beware of."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from soffit.member.time import plane as planes
from soffit.member.time.bedded import heated
from soffit.member.time.result import Instant
from soffit.member.time.schedule import days, said_of_usual
from soffit.member.time.state import Concrete, State


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
        said += list(c.viscous.law.notes)
        said += _strained(s, c)
    scales = s.making.scales
    for what, value in (("modulus", scales.modulus), ("creep", scales.creep), ("shrinkage", scales.shrinkage)):
        if value != 1.0:
            said.append(f"The {what} of the model is multiplied by {value:.3g}.")
    said.append(
        "Shear deformation, temperature and settlement of supports are not counted; steel is linear, and ducts are not "
        "taken off the section."
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
    share = -low / np.maximum(c.viscous.strength, 1e-9)
    n = int(np.argmax(share))
    if share[n] <= limit:
        return []
    return [
        f"The compression reaches {-low[n]:.1f} MPa at {days(float(s.t[n]))}, {share[n]:.2f} of the mean strength "
        f"then, above the {limit:g} up to which {c.viscous.name} has creep proportional to stress: there is "
        "more than computed."
    ]


def cautions(s: State) -> tuple[str, ...]:
    said = []
    limit = min((bar.steel.yield_strength for bar in s.beam.bars), default=np.inf)
    most = float(np.max(s.record.crack_stress, initial=0.0))
    if not s.beam.tendons and most > limit:
        said.append(
            f"A bar reaches {most:.0f} MPa at a crack, above its yield strength of {limit:.0f} MPa: what is computed "
            "beyond that is too stiff, and the beam is near its end."
        )
    return tuple(said)

"""The march through time: step by step, with the whole history of stress in every concrete.

In each concrete ε(t) = Σ Δσ_i J(t, t_i) + shrinkage: superposition, with the trapezoidal rule for stress that changes
in a step (Z. P. Bažant, "Numerical determination of long-range stress history from strain history in concrete",
Materials and Structures 5, 1972, *from memory*). Sections stay plane; steel is linear, tendons relax by the equivalent
time. Support moments that statics leaves open, and tendons that slide in their ducts, follow from compatibility along
the whole member at every step.

A section is followed twice: uncracked (exact, with planes of stress) and, from the day its face passes the tensile
strength, also cracked (with fibres that carry no tension). Its curvature lies between the two by EN 1992-1-1 7.4.3.
"""

from __future__ import annotations

import numpy as np

from soffit.errors import PhysicsError
from soffit.materials.ageing.check import EARLIEST_LOADING
from soffit.materials.curve import Array
from soffit.member.beam import Beam
from soffit.member.making import Making
from soffit.member.time import doing, grid, relaxing
from soffit.member.time.equilibrium import solve
from soffit.member.time.keeping import keep
from soffit.member.time.parts import FIBRES
from soffit.member.time.result import Past
from soffit.member.time.schedule import Deed, deeds, making_of
from soffit.member.time.state import State, along, begin
from soffit.member.time.structure import Structure
from soffit.member.time.telling import tell
from soffit.member.time.viscous import Viscous, viscous

IN_FORM = 1.0
"""Days after which the concrete in its form is followed, before anything is done to it: what it shrinks earlier it
shrinks while it is soft (*common practice*)."""


BLOCK = 1.6
"""Greatest linear stress over strength at which a full block of stress over the same depth, 0.8 of the strength (EN
1992-1-1:2004 3.1.7 (3)), still holds the force of the triangle."""
ONE_STEP_RELAXATION = 0.8
"""Share of the relaxation at constant strain that is left where it comes in one step with creep and shrinkage: EN
1992-1-1:2004 (5.46)."""


def past(
    beam: Beam,
    *,
    per_decade: int = grid.PER_DECADE,
    pieces: int = 40,
    fibres: int = FIBRES,
    making: Making | None = None,
    adjusted: bool = False,
) -> Past:
    """What a beam goes through from casting to the last of its stages.

    per_decade: steps in a tenfold of the time since the last deed; pieces: stretches along the beam at the least;
    fibres: into which a cracked concrete is cut; making: instead of the beam's own; adjusted: by the age-adjusted
    effective modulus, one step from deed to deed, as a check on the many steps (A. Ghali, R. Favre and M. Elbadry,
    Concrete Structures: Stresses and Deformations, Spon 2002, *from memory*).

    Raises ``PhysicsError`` (one sentence) where the humidity is not known, a stage cannot be done, the concrete is
    crushed or a section without steel breaks as it cracks, and ``ConvergenceError`` where no compatible state is found.
    """
    making = making or making_of(beam)
    _refuse(beam)
    done = deeds(beam, making)
    if not done:
        raise PhysicsError("nothing is ever done to the beam: give it [[stages]] beyond its casting")
    start = max(EARLIEST_LOADING, min(IN_FORM, done[0].at))
    t, after = grid.times(start, [d.at for d in done], 0 if adjusted else per_decade)
    x = grid.stations(beam, making, pieces)
    try:
        concretes = _concretes(beam, making, t, done, after, adjusted)
    except ValueError as error:
        raise PhysicsError(f"{making.model} cannot age this concrete: {error}") from None
    state = begin(beam, making, x, t, concretes, fibres)
    at = dict(zip(after, done, strict=True))
    structures: list[Structure | None] = [None]
    for n in range(1, len(t)):
        advance(state, n, at.get(n), ONE_STEP_RELAXATION if adjusted else 1.0)
        structures.append(state.on)
    return tell(state, done, after, structures)


def _refuse(beam: Beam) -> None:
    given = [t.name or t.label for t in beam.tendons if t.stress_is == "effective"]
    if given:
        raise PhysicsError(
            f"the stress of tendon {', '.join(given)} is effective, after all losses, so none can be computed: "
            'write stress_is = "at the jack"'
        )


def _concretes(
    beam: Beam, making: Making, t: Array, done: tuple[Deed, ...], after: tuple[int, ...], adjusted: bool
) -> tuple[Viscous, ...]:
    found = [viscous(making.model, making.casting, t, 0, making.scales, beam.concrete, adjusted)]
    topping = making.topping
    if topping is not None:
        pour = next((d.at for d in done if d.doing == "weight"), None)
        if pour is None:
            raise PhysicsError('the topping is never poured: write a stage of it, what = "topping"')
        born = next(n for n, d in zip(after, done, strict=True) if d.doing == "harden")
        found.append(viscous(making.model, topping.casting, t - pour, born, making.scales, topping.concrete, adjusted))
    return tuple(found)


def advance(s: State, n: int, deed: Deed | None, relaxing_share: float = 1.0) -> None:
    """Step n: ``deed`` in an instant, or the time since step n − 1."""
    s.layers.share[:] = 1.0
    relaxed = _relax(s, n, relaxing_share)
    load = doing.do(s, n, deed) if deed is not None else np.zeros_like(s.x)
    keep(s, n, solve(s, n, load, relaxed), load, relaxed)
    _stands_it(s, n)


def _relax(s: State, n: int, part: float) -> Array:
    """Relaxation of every layer in the time since the last step, MPa (layers, stations)."""
    held, span = s.layers, float(s.t[n] - s.t[n - 1])
    more = np.zeros_like(held.relaxed)
    for group, rule in enumerate(held.rules):
        layer = held.steel.bars + group
        if rule is None or span <= 0.0 or not (held.bonded[layer] or held.sliding[layer]):
            continue
        more[layer] = part * relaxing.further(rule, held.full[layer], held.relaxed[layer], span)
        if held.sliding[layer]:
            # it evens out as the tendon slides
            more[layer] = along(s, layer) @ more[layer]
    held.relaxed = held.relaxed + more
    return more


def _stands_it(s: State, n: int) -> None:
    """Raise ``PhysicsError`` where uncracked concrete is compressed, or steel pulled, beyond its strength.

    At a crack the concrete is taken as linear, which overstates its stress near the end: up to ``BLOCK`` times its
    strength that is a caution.
    """
    for c in s.acting:
        ends = c.stress[:, :1] - c.stress[:, 1:] * np.array([c.part.low, c.part.high])
        squeezed = ends.min(axis=1)
        squeezed[s.cracks] = c.fibre_stress[s.cracks].min(axis=1, initial=0.0) / BLOCK
        at = int(np.argmin(squeezed))
        if -squeezed[at] > c.viscous.strength[n]:
            raise PhysicsError(
                f"at {s.t[n]:.3g} days the concrete at x = {s.x[at]:.0f} mm is compressed by {-squeezed[at]:.1f} MPa "
                f"and has a strength of {float(c.viscous.strength[n]):.1f} MPa: load or stress it later, or less"
            )
    bars = min((bar.steel.tensile for bar in s.beam.bars), default=np.inf)
    pulled = [("a bar", bars, s.record.crack_stress[n])]
    for i, tendon in enumerate(s.beam.tendons):
        worst = np.maximum(np.nan_to_num(s.record.tendons[n, i]), s.record.at_crack[n, i])
        pulled.append((f"tendon {tendon.name or tendon.label}", tendon.steel.tensile, worst))
    for what, strength, stress in pulled:
        at = int(np.argmax(stress))
        if stress[at] > strength:
            raise PhysicsError(
                f"at {s.t[n]:.3g} days {what} at x = {s.x[at]:.0f} mm is pulled by {stress[at]:.0f} MPa and has a "
                f"strength of {strength:.0f} MPa: the beam does not carry what is put on it"
            )

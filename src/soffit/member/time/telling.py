"""Put what a march left behind into a :class:`~soffit.member.time.result.Past`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from soffit.materials.curve import Array
from soffit.member import friction, statics
from soffit.member.time import plane as planes
from soffit.member.time import saying
from soffit.member.time.bedded import in_bed
from soffit.member.time.result import Instant, Past, TendonPast
from soffit.member.time.schedule import Deed
from soffit.member.time.state import State
from soffit.member.time.structure import Structure


def tell(s: State, done: Sequence[Deed], after: Sequence[int], structures: Sequence[Structure | None]) -> Past:
    own, r = s.concretes[0], s.record
    instants = tuple(Instant(d.stage, n, d.label) for d, n in zip(done, after, strict=True) if d.label)
    topping = s.concretes[1] if len(s.concretes) > 1 else None
    said = saying.notes(s, instants)
    return Past(
        beam=s.beam,
        making=s.making,
        model=own.viscous.name,
        t=s.t,
        x=s.x,
        instants=instants,
        moment=r.moment,
        secondary=r.moment - r.by_loads,
        axial=r.axial,
        bottom=planes.at(r.stress[0], own.part.low),
        top=planes.at(r.stress[0], own.part.high),
        topping_bottom=None if topping is None else planes.at(r.stress[1], topping.part.low),
        topping_top=None if topping is None else planes.at(r.stress[1], topping.part.high),
        cracked=r.cracked,
        crack_stress=r.crack_stress,
        bars=r.bars,
        loads=tuple(s.loads),
        supports=tuple(on.supports if on is not None else None for on in structures),
        curvature=r.plane[:, :, 1],
        deflection=_deflection(s, structures),
        tendons=tuple(_tendon(s, i) for i in range(len(s.beam.tendons))),
        strength=own.viscous.strength,
        topping_strength=_of_topping(s),
        tensile=own.viscous.tensile,
        modulus=own.viscous.modulus,
        shrinkage=own.viscous.shrinkage,
        notes=said,
        cautions=saying.cautions(s),
    )


def _of_topping(s: State) -> Array:
    """Its mean strength once it acts."""
    out = np.zeros_like(s.t)
    for c in s.acting[1:]:
        out[c.born :] = c.viscous.strength[c.born :]
    return out


def _deflection(s: State, structures: Sequence[Structure | None]) -> Array:
    """Downward from the straight beam on the supports of each step; zero in its form."""
    out = np.zeros_like(s.record.moment)
    first = next((on for on in structures if on is not None), None)
    # a beam cast on more supports than statics needs lies on all of them from the start
    bed = first.settled if first is not None and len(first.diagrams) else np.zeros_like(s.x)
    for n, on in enumerate(structures):
        if on is not None:
            out[n] = statics.deflection(s.x, s.record.plane[n, :, 1] - bed, on.supports)
    return out


def _tendon(s: State, group: int) -> TendonPast:
    tendon, layer = s.beam.tendons[group], s.layers.steel.bars + group
    zero = np.zeros_like(s.x)
    rubbed = draw_in = bed = zero
    jack = tendon.stress * s.making.scales.prestress
    if not np.isfinite(s.record.tendons[-1, group]).any():
        pass  # not stressed in the time that was followed
    elif tendon.when == "before casting":
        early = in_bed(s.beam, s.making, group)
        held, relaxed = (friction.between(s.x, early.x, each) for each in (early.held, early.relaxed))
        draw_in, rubbed, bed = zero + early.slip, jack - early.slip - held, early.warming + relaxed
    else:
        pulled = friction.jacked(replace(tendon, stress=jack))
        before = friction.between(s.x, pulled.x, pulled.before)
        rubbed, draw_in = jack - before, before - pulled.at(s.x)
    r = s.record
    before_release = s.layers.before_bond[layer] if tendon.when == "before casting" else zero
    return TendonPast(
        tendon=tendon,
        index=group,
        full=r.tendons[:, group],
        uncracked=r.uncracked[:, group],
        at_crack=r.at_crack[:, group],
        hold=s.layers.steel.area[layer] / tendon.area,
        jack=jack,
        friction=rubbed,
        draw_in=draw_in,
        bed=bed,
        relaxation=np.maximum(r.relaxation[:, group] - before_release, 0.0),
        elastic=r.elastic[:, group],
        creep=r.creep[:, group],
        shrinkage=r.shrinkage[:, group],
        cracking=r.cracking[:, group],
    )

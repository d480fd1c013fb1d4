"""Make a beam ready to march: stations, statics, sections with the prestress they have, and the hinge."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from soffit.materials.curve import Array
from soffit.member import confined, grid, statics
from soffit.member import hinge as hinges
from soffit.member.beam import Beam
from soffit.member.confined import Core
from soffit.member.layout import tension_steel
from soffit.member.loading import Loading, self_weight
from soffit.member.nodes import Nodes, build
from soffit.member.standing import Standing
from soffit.member.step import Hinge, Statics

POISSON = 0.2
"""EN 1992-1-1:2004 3.1.3 (4), uncracked concrete."""


@dataclass(frozen=True)
class Model:
    """A beam ready to march: its nodes, its statics, where it will turn."""

    beam: Beam
    load: Loading
    nodes: Nodes
    statics: Statics
    hinge: Hinge


def member(
    beam: Beam, load: Loading, x: Array, core: Core | None = None, standing: Standing | None = None
) -> tuple[Nodes, Statics]:
    """Sections and statics at the stations ``x``.

    The stress of a tendon is counted in the state under the permanent load; where the supports leave moments open
    that state is the elastic one, prestress and its secondary moments in it; or the one that a past has left
    (``standing``).
    """
    permanent = statics.released(x, beam.length, beam.supports, load.permanent)
    if standing is not None:
        permanent = _as_it_stands(beam, permanent, x, standing)
    fixed = _statics(
        beam,
        permanent,
        statics.released(x, beam.length, beam.supports, load.rising),
        statics.redundant_diagrams(x, beam.length, beam.supports),
        # what a past has left is the state with all that is on the beam
        permanent
        if standing is not None
        else statics.released(x, beam.length, beam.supports, [self_weight(beam)] if beam.self_weight else []),
    )
    nodes = build(beam, x, permanent.moment, core, standing)
    if len(fixed.redundant) and beam.tendons and standing is None:
        axial, extra = nodes.unbonded_forces()
        start = hinges.elastic_redundants(nodes, fixed, fixed.permanent + extra, axial)
        nodes = build(beam, x, permanent.moment + start @ fixed.redundant, core)
    return nodes, fixed


def _as_it_stands(beam: Beam, released: statics.Diagram, x: Array, standing: Standing) -> statics.Diagram:
    """The permanent diagram with the open moments that time has left over the supports."""
    whole = released
    for unit in statics.redundant_diagrams(x, beam.length, beam.supports):
        over = float(x[int(np.argmax(unit.moment))])
        whole = whole + unit * float(np.interp(over, standing.x, standing.moment))
    return whole


def _statics(
    beam: Beam,
    permanent: statics.Diagram,
    rising: statics.Diagram,
    unit: list[statics.Diagram],
    own: statics.Diagram,
) -> Statics:
    n = len(permanent.moment)
    shear_modulus = beam.concrete.modulus / (2 * (1 + POISSON))
    empty = np.zeros((0, n))
    return Statics(
        permanent.moment,
        rising.moment,
        permanent.shear,
        rising.shear,
        np.array([d.moment for d in unit]) if unit else empty,
        np.array([d.shear for d in unit]) if unit else empty,
        np.full(n, shear_modulus * beam.outline.web_width * beam.outline.depth * 5.0 / 6.0),
        own.moment,
        own.shear,
    )


def choose(nodes: Nodes, fixed: Statics) -> hinges.Choice:
    """The section to lead, from the elastic moments."""
    axial, extra = nodes.unbonded_forces()
    permanent, rising = _elastic(nodes, fixed)
    return hinges.choose(nodes, permanent, rising, axial, extra)


def with_hinge(
    beam: Beam, load: Loading, nodes: Nodes, fixed: Statics, choice: hinges.Choice, standing: Standing | None = None
) -> Model:
    """Lay the stations anew, with the ends of the hinge among them."""
    depth = float(tension_steel(nodes, choice.sign > 0).depth[choice.station])
    long = hinges.length(nodes, _elastic(nodes, fixed)[1], choice, depth)
    place = float(nodes.x[choice.station])
    low, high = hinges.reach(beam.length, place, long, choice.snaps)
    ends = [low, place, high]
    if len(fixed.redundant):
        # any of these may become a hinge later: its ends have to be stations too
        for other in (*beam.supports.x, *load.points):
            ends.extend(hinges.reach(beam.length, other, long, choice.snaps))
    x = grid.stations(beam, ends)
    core = confined.core(beam, place) if standing is None or standing.topping is None else None
    finer, fixed = member(beam, load, x, core, standing)
    if choice.snaps and finer.infos:
        axial, _ = finer.unbonded_forces()
        finer = replace(
            finer,
            bonded_below=finer.bonded_below & ~hinges.light(finer, axial, True),
            bonded_above=finer.bonded_above & ~hinges.light(finer, axial, False),
        )
    choice = replace(choice, station=int(np.argmin(np.abs(x - place))))
    hinge = hinges.hinge(finer, choice, long, _elastic(finer, fixed)[1])
    return Model(beam, load, finer, fixed, hinge)


def _elastic(nodes: Nodes, fixed: Statics) -> tuple[Array, Array]:
    """Moments of the permanent and of the unit rising load on the uncracked member."""
    axial, extra = nodes.unbonded_forces()
    start = hinges.elastic_redundants(nodes, fixed, fixed.permanent + extra, axial)
    whole = hinges.elastic_redundants(nodes, fixed, fixed.permanent + extra + fixed.rising, axial)
    return fixed.permanent + start @ fixed.redundant, fixed.rising + (whole - start) @ fixed.redundant

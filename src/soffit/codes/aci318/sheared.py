"""The shear strength of a place under its demand by ACI 318-19 22.5; *from memory*."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.codes.aci318 import gross, plain, values
from soffit.codes.aci318.concreteshear import Shape, reinforced, shape, sizes, text_of
from soffit.codes.aci318.prestressedshear import Under, dead, prestressed
from soffit.codes.aci318.shearplaces import shear_places
from soffit.codes.aci318.stirrups import least_stirrups, leg_symbols, widest, yield_of
from soffit.codes.actions import Effect
from soffit.codes.cut import Cut, StirrupsAt
from soffit.codes.design import Design, bending
from soffit.codes.working import Symbol, Working

TRIED = 8
"""Places where shear is computed first; then those beside the worst."""


@dataclass(frozen=True)
class Sheared:
    """The shear strength of one place under its demand."""

    x: float
    cut: Cut
    made: Shape
    combination: str
    vu: Working
    vc: Working
    phi: Working
    vs: Working | None
    strength: Working
    workings: tuple[Working, ...]
    stirrups: StirrupsAt | None
    counted: bool
    """Whether there are stirrups near enough to each other to count."""
    least: tuple[Working, ...]
    """Av,min/s and what leads to it; empty without stirrups."""
    axial: float
    said: tuple[str, ...]

    @property
    def ratio(self) -> float:
        return self.vu.value / self.strength.value if self.strength.value > 0.0 else float("inf")


def all_sheared(design: Design) -> tuple[Sheared, ...]:
    """The strengths of the places tried; made once."""
    return design.kept("aci-shear", lambda: _all(design))


def _all(design: Design) -> tuple[Sheared, ...]:
    places = shear_places(design)
    few = len(places) <= TRIED
    evenly = places if few else [places[i] for i in np.linspace(0, len(places) - 1, TRIED).round().astype(int)]
    found: dict[float, Sheared] = {}

    def try_(place: tuple[float, bool, tuple[float, ...]]) -> None:
        if place[0] not in found:
            made = _sheared(design, place[0], place[2])
            if made is not None:
                found[place[0]] = made

    for place in [*evenly, *(p for p in places if p[1])]:
        try_(place)
    hard = set(design.hardest("ultimate", "shear"))
    inner = [p for p in places if p[0] in hard]
    for place in inner if len(inner) <= TRIED else ():
        try_(place)
    if found:
        most = max(found.values(), key=lambda s: s.ratio).x
        i = next(k for k, p in enumerate(places) if p[0] == most)
        for place in places[max(i - 2, 0) : i + 3]:
            try_(place)
    return tuple(found[x] for x in sorted(found))


def _sheared(design: Design, x: float, near: tuple[float, ...]) -> Sheared | None:
    pen, e = design.pen, values.of(design)
    demand = design.actions.at("ultimate", "shear", x, "Vu")
    if demand.working.value <= 0.0:
        return None
    cut = design.cut(x, demand.moment >= 0.0)
    stirrups = cut.stirrups
    said: list[str] = []
    if near:
        said.append(
            "The critical section stands d (h/2 with prestress) from the face: loads press on the top, the support "
            "from below."
        )
        others = [design.cut(each, cut.sagging).stirrups for each in near]
        stirrups = min([*others, stirrups], key=_force)
    bw, d = sizes(cut)
    least = least_stirrups(design, cut, stirrups, bw, d) if stirrups else ()
    counted, apart = False, None
    if stirrups is not None:
        apart = widest(design, cut, d, False)
        counted = stirrups.spacing <= apart.value * (1.0 + 1e-9)
        if not counted:
            said.append(f"Stirrups {stirrups.spacing:.0f} mm apart, more than 9.7.6.2.2 allows, are not counted.")
    web = counted and stirrups is not None and stirrups.per_length >= least[-1].value * (1.0 - 1e-9)
    made = shape(design, cut, web)
    phi = pen("φ", "shear", "0.75", (), "ratio", "Table 21.2.1")
    bare = not cut.prestressed and not any(b.depth > 2.0 / 3.0 * cut.h for b in cut.bars)
    if bare:
        height = Symbol("h", cut.h, "length", "depth of the section")
        text = e.pick("4/3·λ·√(f'c)·bw·h", "0.11·λ·√(f'c)·bw·h")
        vc = pen(
            "Vc",
            "plain concrete, there is no tension steel",
            text_of(made, text),
            (made.lam, made.fc, bw, height),
            "force",
            "14.5.5.1",
        )
        phi = pen("φ", "plain concrete", plain.PHI, (), "ratio", "Table 21.2.1")
        concrete: tuple[Working, ...] = (*made.shown, vc)
        counted = False
    elif cut.prestressed:
        concrete = prestressed(design, cut, made, _under(design, x, cut, demand.shear, demand.moment))
    else:
        concrete = reinforced(design, cut, made, demand.axial, web)
    vc = concrete[-1]
    workings: list[Working] = [demand.working, *least, *concrete, phi]
    vs = None
    if counted and stirrups is not None:
        fyt = yield_of(design, stirrups)
        av, s = leg_symbols(stirrups)
        vs = pen("Vs", "strength of the stirrups", "Av·fyt·d/s", (av, fyt, d, s), "force", "22.5.8.5.3")
        workings.append(vs)
        strength = pen("φVn", "design strength", "φ·(Vc + Vs)", (phi, vc, vs), "force", "22.5.1.1")
    else:
        strength = pen("φVn", "design strength", "φ·Vc", (phi, vc), "force", "22.5.1.1")
    workings.append(strength)
    return Sheared(
        x,
        cut,
        made,
        demand.combination,
        demand.working,
        vc,
        phi,
        vs,
        strength,
        tuple(workings),
        stirrups,
        counted,
        least,
        demand.axial,
        tuple(said),
    )


def _force(stirrups: StirrupsAt | None) -> float:
    return 0.0 if stirrups is None else stirrups.per_length * stirrups.yield_strength


def _under(design: Design, x: float, cut: Cut, shear: float, moment: float) -> Under:
    effect: Effect = bending(cut.sagging)
    most = design.actions.at("ultimate", effect, x, "Mu")
    if any(load.is_point and abs(load.x_from - x) < 1.0 for load in design.beam.loads):
        # the shear jumps: that of the side on which Vu is
        sides = [
            design.actions.at("ultimate", effect, min(max(x + by, 0.0), design.beam.length), "Mu") for by in (-1, 1)
        ]
        most = max(sides, key=lambda side: abs(side.shear))
    moments, slopes, middles = dead(design)
    at = design.actions.x
    return Under(
        shear,
        moment,
        most.moment,
        most.shear,
        float(np.interp(x, middles, slopes)),
        float(np.interp(x, at, moments)),
        gross.early(design, x),
    )

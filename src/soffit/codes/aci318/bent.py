"""The bending strength of a place under its demand by ACI 318-19 22.2, 22.3; *from memory*."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from soffit.codes.aci318 import values
from soffit.codes.aci318.anchored import developed
from soffit.codes.aci318.layers import curve_said, layers, not_developed, pretensioned
from soffit.codes.aci318.phi import at_ends, reduction
from soffit.codes.bending import Bending, Block, Layer, resist
from soffit.codes.cut import Cut
from soffit.codes.design import Design, bending
from soffit.codes.working import Symbol, Working
from soffit.errors import PhysicsError

TRIED = 4
"""Places at which the strength is computed, of those with the hardest estimates."""


@dataclass(frozen=True)
class Bent:
    """The strength of one place under its demand."""

    cut: Cut
    demand: Working
    combination: str
    axial: float
    """Pu, tension positive, N."""
    found: Bending
    phi: Working
    strength: Working
    workings: tuple[Working, ...]
    yielding: Working
    """εty."""
    said: tuple[str, ...] = ()

    @property
    def ratio(self) -> float:
        return self.demand.value / self.strength.value if self.strength.value > 0.0 else float("inf")


def block(design: Design, strength: Symbol | None = None) -> Block:
    """0.85 f'c over β1 c, 22.2.2.4."""
    fc = strength or values.fc(design)
    stress = design.pen("α1f'c", "stress of the block", "0.85·f'c", (fc,), "stress", "22.2.2.4.1")
    return Block(stress, values.beta1(design, fc), values.CRUSHED)


def bent(design: Design, x: float, sagging: bool) -> Bent:
    """The bending strength at one place under the moment that is worst there; made once.

    Raises :class:`PhysicsError` where no steel can make it.
    """
    return design.kept(("aci-bent", round(x, 6), sagging), lambda: _bent(design, x, sagging))


def _bent(design: Design, x: float, sagging: bool) -> Bent:
    demand = design.actions.at("ultimate", bending(sagging), x, "Mu")
    cut = design.cut(x, sagging)
    steel = layers(design, cut)
    if not cut.prestressed and all(layer.depth <= 0.5 * cut.h for layer in steel):
        raise PhysicsError(f"at {x:.0f} mm there is no steel in the tension half")
    head, axial, found = _balanced(design, cut, steel, demand.axial)
    full = None
    if any(not_developed(t) for t in cut.tendons):
        full = _resist(design, cut, layers(design, cut, capped=False), axial)[0]
    deepest = max(steel, key=lambda layer: layer.depth)
    ety, phi = reduction(design, found, deepest, cut)
    phis = at_ends(design, cut, phi, full, steel)
    strength = design.pen(
        "φMn", "design strength", f"{phis[-1].name}·Mn", (phis[-1], found.moment), "moment", "9.5.1.1"
    )
    said = [*curve_said(cut)]
    if design.cast is not None and sagging:
        said.append(
            "The block has the strength of the topping where it lies within it, else the lesser one in all of it."
        )
    strained(said, layers_=steel, found=found, cut=cut)
    if axial:
        said.append("Mn is that under the axial force Pu/φ.")
    workings = (demand.working, *head, *found.workings, ety, *phis, strength)
    return Bent(
        cut, demand.working, demand.combination, demand.axial, found, phis[-1], strength, workings, ety, tuple(said)
    )


def strained(said: list[str], layers_: list[Layer], found: Bending, cut: Cut) -> None:
    """Says where a tendon is strained beyond the extension at which it may break, for which ACI 318 has no limit."""
    live = [layer for layer in layers_ if layer.area > 0.0]
    for i, t in enumerate(cut.tendons):
        for layer, strain in zip(live, found.strains, strict=True):
            if not (t.bonded and layer.prestressed and layer.mark == str(i + 1) and layer.prestrain):
                continue
            total, most = strain + layer.prestrain.value, t.group.steel.strain_at_max
            if total > most:
                said.append(
                    f"{layer.what} is strained by {100 * total:.1f} %, beyond the {100 * most:.1f} % at its tensile "
                    "strength: ACI 318 sets no limit, but it may break first."
                )


def _resist(design: Design, cut: Cut, steel: list[Layer], axial: float) -> tuple[Bending, tuple[Working, ...]]:
    """With the block of the topping where it stays in it."""
    pen = design.pen
    topping = design.opened.topping
    if design.cast is None or topping is None or not cut.sagging:
        made = block(design)
        return resist(pen, cut, made, steel, axial), (made.stress, made.factor)
    deep = cut.h - design.cast.low
    own = Symbol("f'c", topping, "stress", "specified strength of the topping")
    made = block(design, own)
    found = resist(pen, cut, made, steel, axial)
    if found.a > deep and topping > design.strength:
        made = block(design)
        found = resist(pen, cut, made, steel, axial)
    return found, (made.stress, made.factor)


def _balanced(design: Design, cut: Cut, steel: list[Layer], pu: float) -> tuple[tuple[Working, ...], float, Bending]:
    """The strength under Pn = Pu/φ, φ being that of the strain that it leaves."""
    if abs(pu) < 1.0:
        found, head = _resist(design, cut, steel, 0.0)
        return head, 0.0, found
    deepest = max(steel, key=lambda layer: layer.depth)

    def excess(phi: float) -> float:
        found = _resist(design, cut, steel, pu / phi)[0]
        return reduction(design, found, deepest, cut)[1].value - phi

    low, high = 0.65, 0.90
    if excess(high) < 0.0:
        for _ in range(20):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if excess(middle) >= 0.0 else (low, middle)
        high = low
    found, head = _resist(design, cut, steel, pu / high)
    force = Symbol("Pu", pu, "force", "axial force, tension positive")
    phi = Symbol("φ", high, "ratio", "that the strain gives, found by trial")
    return (
        (*head, design.pen("N", "axial force at nominal strength", "Pu/φ", (force, phi), "force", "9.5.1.1")),
        pu / high,
        found,
    )


@dataclass(frozen=True)
class Rough:
    """A place judged without equilibrium, to choose where strengths are computed."""

    x: float
    moment: float
    """Demand, N·mm."""
    strength: float
    """Steel at yield with a tenth of the depth as compressed zone, N·mm."""

    @property
    def use(self) -> float:
        return self.moment / self.strength if self.strength > 0.0 else 1e9 * self.moment


def roughly(design: Design, sagging: bool) -> tuple[Rough, ...]:
    """Of all sections where bending occurs, each at its hardest place."""
    return design.kept(("aci-rough", sagging), lambda: _roughly(design, sagging))


def _roughly(design: Design, sagging: bool) -> tuple[Rough, ...]:
    found = []
    values_ = design.actions.envelope("ultimate")
    size = values_.sagging if sagging else values_.hogging
    for x in design.hardest("ultimate", bending(sagging)):
        cut = design.cut(x, sagging)
        pull = sum(
            b.area * b.yield_strength * developed(design, b) * (b.depth - 0.1 * cut.h)
            for b in cut.bars
            if b.depth > 0.3 * cut.h
        )
        for t in cut.tendons:
            most = 0.95 * t.group.steel.tensile if t.bonded else t.full
            if pretensioned(t):
                near = max(min(t.left, t.right), 0.0) / t.group.diameter
                most = min(most, 21.0 * near, t.full + 7.0 * max(near - t.full / 21.0, 0.0))
            pull += t.area * most * max(t.depth - 0.1 * cut.h, 0.0)
        found.append(Rough(x, float(np.interp(x, design.actions.x, size)), pull))
    return tuple(found)


def hard_places(design: Design, sagging: bool) -> tuple[float, ...]:
    """Where bending is hardest or most steel is in tension; all places of a few sections."""
    rough = roughly(design, sagging)
    if len(rough) <= TRIED:
        return tuple(r.x for r in rough)
    hard = [r.x for r in sorted(rough, key=lambda r: r.use, reverse=True)[:TRIED]]
    return tuple(dict.fromkeys([*hard, max(rough, key=lambda r: r.strength).x]))


def all_bent(design: Design, sagging: bool) -> tuple[tuple[Bent, ...], tuple[float, ...]]:
    """Strengths at the hard places, and the places where no steel makes one."""
    return bent_at(design, hard_places(design, sagging), sagging)


def bent_at(design: Design, places: Iterable[float], sagging: bool) -> tuple[tuple[Bent, ...], tuple[float, ...]]:
    """The same at given places."""
    found, bare = [], []
    for x in places:
        try:
            found.append(bent(design, x, sagging))
        except PhysicsError:
            bare.append(x)
    return tuple(found), tuple(bare)

"""Bending strength with a rectangular block: one equilibrium for every standard, with its working.

Plane sections; the concrete has ``Block.stress`` over ``Block.factor`` times the depth of the neutral axis at an
ultimate strain of the compressed face; every layer of steel has the stress that its formula gives at its strain. The
formula text of a layer is what the search for the neutral axis evaluates. Concrete that steel displaces in the block is
taken off. Depths count from the compressed face; tension and elongation positive.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from soffit.codes.cut import Cut
from soffit.codes.working import Pen, Symbol, Working, function_of, given, size
from soffit.errors import PhysicsError

_STRAIN = re.compile(r"(?<!\w)ε(?!\w)")
"""The strain in the formula of a layer."""


@dataclass(frozen=True)
class Block:
    stress: Working
    """Of the concrete, MPa, positive: 0.85 f'c, η fcd."""
    factor: Working
    """Its depth over that of the neutral axis: β1, λ."""
    ultimate: Symbol
    """Strain of the compressed face, positive: εcu."""
    depth: str = "c"
    """How the standard calls the depth of the neutral axis: c, x."""
    reach: str = "a"
    """How the depth of the block is called."""


@dataclass(frozen=True)
class Layer:
    """Steel at one depth."""

    mark: str
    """What is added to its symbols: ``"1"`` gives εs1, fs1, As1."""
    what: str
    """``"2 × 20 B500B"``."""
    depth: float
    area: float
    formula: str
    """Its stress by its strain, which is called ε there, and by ``symbols``."""
    symbols: tuple[Symbol, ...]
    clause: str = ""
    prestrain: Working | None = None
    """Strain of the steel where the concrete beside it has none."""
    prestressed: bool = False
    displaces: bool = True
    shown: tuple[Working, ...] = ()
    """Workings that lead to it."""

    @property
    def letter(self) -> str:
        return "p" if self.prestressed else "s"


@dataclass(frozen=True)
class Bending:
    c: float
    """Depth of the neutral axis, mm."""
    a: float
    """Depth of the block, mm."""
    moment: Working
    """Strength at the given axial force, N·mm, positive in the direction of the bending; without any partial factor
    that is not in the stresses."""
    tension: float
    """Resultant of the steel in tension, N."""
    arm: float
    """z between the resultants of tension and compression, mm."""
    strains: tuple[float, ...]
    """Of the plane at each layer (without prestrain)."""
    stresses: tuple[float, ...]
    outermost: float
    """εt: strain of the plane at the outermost tension layer."""
    neutral: Working
    workings: tuple[Working, ...]


def resist(pen: Pen, cut: Cut, block: Block, layers: Sequence[Layer], axial: float = 0.0, name: str = "Mn") -> Bending:
    """The bending strength of a cut with given layers under an axial force (N, tension positive).

    Raises :class:`PhysicsError` where the section cannot have that force.
    """
    live = [layer for layer in layers if layer.area > 0.0]
    return _shown(pen, cut, block, live, axial, name, _balance(pen, cut, block, live, axial)[0])


def moment(pen: Pen, cut: Cut, block: Block, layers: Sequence[Layer], axial: float = 0.0) -> tuple[float, float]:
    """The strength alone, N·mm, by the same formulas, and the depth of the block, mm: for finding the place whose
    working is wanted."""
    live = [layer for layer in layers if layer.area > 0.0]
    c, pulls = _balance(pen, cut, block, live, axial)
    about = cut.centroid if axial else 0.0
    a = min(block.factor.value * c, cut.h)
    area, centre = cut.zone(a)
    steel = sum(p * (each.depth - about) for p, each in zip(pulls, live, strict=True))
    return block.stress.value * area * (about - centre) + steel, a


def _balance(pen: Pen, cut: Cut, block: Block, live: Sequence[Layer], axial: float) -> tuple[float, list[float]]:
    """Depth of the neutral axis, mm, and the pull of each layer there, N, less the concrete it displaces."""
    alpha, beta, ultimate = block.stress.value, block.factor.value, block.ultimate.value
    laws = [(each, _law(pen, each), each.prestrain.value if each.prestrain else 0.0) for each in live]

    def pulls(c: float) -> list[float]:
        a = min(beta * c, cut.h)
        return [
            layer.area
            * (law(ultimate * (layer.depth - c) / c + before) + (alpha if layer.displaces and layer.depth < a else 0.0))
            for layer, law, before in laws
        ]

    def total(c: float) -> float:
        return sum(pulls(c)) - alpha * cut.zone(min(beta * c, cut.h))[0] - axial

    c = root(total, cut.h)
    if c is None:
        raise PhysicsError(f"at {cut.x:.0f} mm the section has no equilibrium under an axial force of {axial:.0f} N")
    return c, pulls(c)


def _law(pen: Pen, layer: Layer) -> Callable[[float], float]:
    """Stress of a layer, MPa, by its whole strain."""
    unit = size("stress", pen.system)
    formula = function_of(layer.formula, ("ε", *(s.name for s in layer.symbols)))
    own = [s.value / size(s.kind, pen.system) for s in layer.symbols]
    return lambda strain: formula(strain, *own) * unit


def root(total: Callable[[float], float], h: float) -> float | None:
    """Where the pull vanishes, from a neutral axis at the face to one far outside; it falls as c grows."""
    low, high = 1e-4 * h, 1.5 * h
    at_low, at_high = total(low), total(high)
    if at_low < 0.0:
        return None
    while at_high > 0.0:
        high *= 2.0
        if high > 200.0 * h:
            return None
        at_high = total(high)
    scale = abs(at_low) + abs(at_high) + 1.0
    side = 0
    for _ in range(200):
        middle = (low * at_high - high * at_low) / (at_high - at_low) if at_high != at_low else 0.5 * (low + high)
        if not low < middle < high:
            middle = 0.5 * (low + high)
        found = total(middle)
        if abs(found) <= 1e-12 * scale or high - low <= 1e-13 * h:
            return middle
        # false position that halves the end that stays (Illinois)
        if found > 0.0:
            low, at_low = middle, found
            at_high = at_high * 0.5 if side == 1 else at_high
            side = 1
        else:
            high, at_high = middle, found
            at_low = at_low * 0.5 if side == -1 else at_low
            side = -1
    return 0.5 * (low + high)


@dataclass(frozen=True)
class _Pull:
    """A layer at the balance, with its working."""

    depth: Symbol
    force: Working
    strain: float
    stress: float
    workings: tuple[Working, ...]


def _shown(pen: Pen, cut: Cut, block: Block, layers: Sequence[Layer], axial: float, name: str, c: float) -> Bending:
    neutral = given(block.depth, "depth of the neutral axis at which the forces balance", c, "length", pen.system)
    text = f"{block.factor.name}·{block.depth}"
    reach = pen(block.reach, "depth of the block", text, (block.factor, neutral), "length")
    a = min(reach.value, cut.h)
    area, zc = _concrete(pen, cut, a, reach)
    push = pen("C", "force of the concrete", f"{block.stress.name}·{area.name}", (block.stress, area), "force")
    pulls = [_pull(pen, block, layer, neutral, a) for layer in layers]
    forces = tuple(pull.force for pull in pulls)
    whose = "of all steel, as much as C + N" if axial else "of all steel, as much as C"
    total = pen("T", whose, " + ".join(f.name for f in forces) or "0", forces, "force")
    moment = _moment(pen, cut, pulls, push, zc, axial, name)
    head = (neutral, reach, area, zc, push, *(w for pull in pulls for w in pull.workings), total, moment)
    tension, arm = _couple(pulls, push, zc, cut.h)
    outermost = max(pulls, key=lambda pull: pull.depth.value).strain if pulls else 0.0
    return Bending(
        c,
        a,
        moment,
        tension,
        arm,
        tuple(p.strain for p in pulls),
        tuple(p.stress for p in pulls),
        outermost,
        neutral,
        head,
    )


def _pull(pen: Pen, block: Block, layer: Layer, neutral: Working, a: float) -> _Pull:
    letter, m = layer.letter, layer.mark
    depth = Symbol(f"d{letter}{m}", layer.depth, "length", f"depth of {layer.what}")
    steel = Symbol(f"A{letter}{m}", layer.area, "area", f"of {layer.what}")
    text = f"{block.ultimate.name}·({depth.name} − {block.depth})/{block.depth}"
    plane = pen(f"ε{letter}{m}", f"strain of {layer.what}", text, (block.ultimate, depth, neutral), "strain")
    strain = plane
    if layer.prestrain is not None:
        text = f"{layer.prestrain.name} + {text}"
        strain = pen(plane.name, plane.what, text, (layer.prestrain, *plane.symbols), "strain")
    formula = _STRAIN.sub(strain.name, layer.formula)
    stress = pen(f"f{letter}{m}", "its stress", formula, (strain, *layer.symbols), "stress", layer.clause)
    text, what = f"{steel.name}·{stress.name}", "its force"
    used: tuple[Symbol, ...] = (steel, stress.symbol)
    if layer.displaces and layer.depth < a:
        text = f"{steel.name}·({stress.name} + {block.stress.name})"
        what, used = "its force, less the concrete that it displaces", (*used, block.stress.symbol)
    force = pen(f"T{letter}{m}", what, text, used, "force")
    return _Pull(depth, force, plane.value, stress.value, (*layer.shown, strain, stress, force))


def _moment(pen: Pen, cut: Cut, pulls: Sequence[_Pull], push: Working, zc: Working, axial: float, name: str) -> Working:
    flat: list[Symbol | Working] = [part for pull in pulls for part in (pull.force, pull.depth)]
    if axial:
        at = Symbol("z0", cut.centroid, "length", "depth of the axis of the axial force")
        text = f"{push.name}·({at.name} − {zc.name})"
        text += "".join(f" + {p.force.name}·({p.depth.name} − {at.name})" for p in pulls)
        return pen(name, "moment about the centroid", text, (push, at, zc, *flat), "moment")
    text = " + ".join(f"{p.force.name}·{p.depth.name}" for p in pulls)
    text = f"{text} − {push.name}·{zc.name}" if text else f"−{push.name}·{zc.name}"
    return pen(name, "moment of the forces", text, (*flat, push, zc), "moment")


def _couple(pulls: Sequence[_Pull], push: Working, zc: Working, h: float) -> tuple[float, float]:
    """Resultant of the steel in tension, N, and its arm from that of all compression, mm."""
    forces = [(p.force.value, p.depth.value) for p in pulls]
    tension = sum(f for f, _ in forces if f > 0.0)
    squeeze = push.value - sum(f for f, _ in forces if f < 0.0)
    low = sum(f * z for f, z in forces if f > 0.0) / tension if tension else h
    first = push.value * zc.value - sum(f * z for f, z in forces if f < 0.0)
    return tension, low - (first / squeeze if squeeze else 0.0)


def _concrete(pen: Pen, cut: Cut, a: float, reach: Working) -> tuple[Working, Working]:
    """Area of the concrete in the block and the depth of its centroid, by a formula where the shape has one."""
    area, centre = cut.zone(a)
    b = Symbol("b", cut.b, "length", "width of the compressed face")
    if abs(area - cut.b * a) <= 1e-9 * area:
        compressed = pen("Acc", "compressed concrete", f"b·{reach.name}", (b, reach), "area")
        zc = pen("zc", "depth of its centroid", f"{reach.name}/2", (reach,), "length")
    else:
        width, deep = cut.flange
        bf, hf = (
            Symbol("bf", width, "length", "width of the flange"),
            Symbol("hf", deep, "length", "depth of the flange"),
        )
        bw = Symbol("bw", cut.bw, "length", "width of the web")
        if deep and abs(area - (width * deep + cut.bw * (a - deep))) <= 1e-9 * area:
            compressed = pen("Acc", "compressed concrete, flange and web", f"bf·hf + bw·({reach.name} − hf)",
                             (bf, hf, bw, reach), "area")  # fmt: skip
            zc = pen("zc", "depth of its centroid",
                     f"(bf·hf^2/2 + bw·({reach.name} − hf)·({reach.name} + hf)/2)/Acc",
                     (bf, hf, bw, reach, compressed), "length")  # fmt: skip
        else:
            compressed = given(
                "Acc", f"compressed concrete above {reach.name}, from the outline", area, "area", pen.system
            )
            zc = given("zc", "depth of its centroid, from the outline", centre, "length", pen.system)
    return compressed, zc

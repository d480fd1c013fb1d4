"""Bending strength with a rectangular block: one equilibrium for every standard, with its working.

Plane sections; the concrete has ``Block.stress`` over ``Block.factor`` times the depth of the neutral axis at an
ultimate strain of the compressed face; every layer of steel has the stress that its formula gives at its strain. The
formula text of a layer is what the search for the neutral axis evaluates. Concrete that steel displaces in the block is
taken off. Depths count from the compressed face; tension and elongation positive.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from soffit.codes.cut import Cut
from soffit.codes.working import Pen, Symbol, Working, evaluate, given, size
from soffit.errors import PhysicsError


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
    alpha, beta, strain_u = block.stress.value, block.factor.value, block.ultimate.value
    live = [layer for layer in layers if layer.area > 0.0]

    def strain(layer: Layer, c: float) -> float:
        return strain_u * (layer.depth - c) / c

    def stress(layer: Layer, c: float) -> float:
        total = strain(layer, c) + (layer.prestrain.value if layer.prestrain else 0.0)
        return _stress(pen, layer, total)

    def total(c: float) -> float:
        a = min(beta * c, cut.h)
        pull = -alpha * cut.zone(a)[0] - axial
        for layer in live:
            pull += layer.area * (stress(layer, c) + (alpha if layer.displaces and layer.depth < a else 0.0))
        return pull

    c = root(total, cut.h)
    if c is None:
        raise PhysicsError(f"at {cut.x:.0f} mm the section has no equilibrium under an axial force of {axial:.0f} N")
    return _shown(pen, cut, block, live, axial, name, c, strain, stress)


def _stress(pen: Pen, layer: Layer, strain: float) -> float:
    unit = size("stress", pen.system)
    own = tuple(Symbol(s.name, s.value / size(s.kind, pen.system), s.kind, s.what) for s in layer.symbols)
    return evaluate(layer.formula, (Symbol("ε", strain, "strain", ""), *own)) * unit


def root(total: object, h: float) -> float | None:
    """Where the pull vanishes, from a neutral axis at the face to one far outside; it falls as c grows."""
    assert callable(total)
    low, high = 1e-4 * h, 1.5 * h
    at_low, at_high = float(total(low)), float(total(high))
    if at_low < 0.0:
        return None
    while at_high > 0.0:
        high *= 2.0
        if high > 200.0 * h:
            return None
        at_high = float(total(high))
    scale = abs(at_low) + abs(at_high) + 1.0
    side = 0
    for _ in range(200):
        middle = (low * at_high - high * at_low) / (at_high - at_low) if at_high != at_low else 0.5 * (low + high)
        if not low < middle < high:
            middle = 0.5 * (low + high)
        found = float(total(middle))
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


def _shown(
    pen: Pen, cut: Cut, block: Block, layers: Sequence[Layer], axial: float, name: str, c: float,
    strain: object, stress: object,
) -> Bending:  # fmt: skip
    assert callable(strain)
    assert callable(stress)
    system = pen.system
    neutral = given(block.depth, "depth of the neutral axis at which the forces balance", c, "length", system)
    reach = pen(
        block.reach, "depth of the block", f"{block.factor.name}·{block.depth}", (block.factor, neutral), "length"
    )
    a = min(reach.value, cut.h)
    head: list[Working] = [neutral, reach]
    area, zc = _concrete(pen, cut, a, reach, head)
    push = pen("C", "force of the concrete", f"{block.stress.name}·{area.name}", (block.stress, area), "force")
    head.append(push)
    pulls, forces = [], []
    strains, stresses = [], []
    for layer in layers:
        letter, m = layer.letter, layer.mark
        depth = Symbol(f"d{letter}{m}", layer.depth, "length", f"depth of {layer.what}")
        steel = Symbol(f"A{letter}{m}", layer.area, "area", f"of {layer.what}")
        text = f"{block.ultimate.name}·({depth.name} − {block.depth})/{block.depth}"
        symbols: tuple[Symbol | Working, ...] = (block.ultimate, depth, neutral)
        if layer.prestrain is not None:
            text, symbols = f"{layer.prestrain.name} + {text}", (layer.prestrain, *symbols)
        long = pen(f"ε{letter}{m}", f"strain of {layer.what}", text, symbols, "strain")
        formula = layer.formula.replace("ε", long.name) if "ε" in layer.formula else layer.formula
        over = layer.displaces and layer.depth < a
        used = tuple(s for s in (long.symbol, *layer.symbols))
        fs = pen(f"f{letter}{m}", "its stress", formula, used, "stress", layer.clause)
        head += [*layer.shown, long, fs]
        if over:
            part = f"{steel.name}·({fs.name} + {block.stress.name})"
            force = pen(
                f"T{letter}{m}",
                "its force, less the concrete that it displaces",
                part,
                (steel, fs, block.stress),
                "force",
            )
        else:
            force = pen(f"T{letter}{m}", "its force", f"{steel.name}·{fs.name}", (steel, fs), "force")
        head.append(force)
        forces.append((force, depth))
        pulls.append(force)
        strains.append(float(strain(layer, c)))
        stresses.append(fs.value)
    at = Symbol("z0", cut.centroid if axial else 0.0, "length", "depth of the axis of the axial force")
    total = pen("T", "of all steel, as much as C" if not axial else "of all steel, as much as C + N",
                " + ".join(f.name for f in pulls) or "0", tuple(pulls), "force")  # fmt: skip
    head.append(total)
    if axial:
        text = f"{push.name}·({at.name} − {zc.name})" + "".join(
            f" + {f.name}·({d.name} − {at.name})" for f, d in forces
        )
        moment = pen(name, "moment about the centroid", text, (push, at, zc, *_flat(forces)), "moment")
    else:
        text = " + ".join(f"{f.name}·{d.name}" for f, d in forces)
        text = f"{text} − {push.name}·{zc.name}" if text else f"−{push.name}·{zc.name}"
        moment = pen(name, "moment of the forces", text, (*_flat(forces), push, zc), "moment")
    head.append(moment)
    tension = sum(f.value for f in pulls if f.value > 0.0)
    in_tension = sum(f.value * d.value for f, d in forces if f.value > 0.0)
    squeeze = push.value - sum(f.value for f in pulls if f.value < 0.0)
    first = push.value * zc.value - sum(f.value * d.value for f, d in forces if f.value < 0.0)
    arm = (in_tension / tension if tension else cut.h) - (first / squeeze if squeeze else 0.0)
    outermost = strain(max(layers, key=lambda each: each.depth), c) if layers else 0.0
    return Bending(
        c, a, moment, tension, arm, tuple(strains), tuple(stresses), float(outermost), neutral, tuple(head)
    )  # fmt: skip


def _concrete(pen: Pen, cut: Cut, a: float, reach: Working, head: list[Working]) -> tuple[Working, Working]:
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
    head += [compressed, zc]
    return compressed, zc


def _flat(forces: Sequence[tuple[Working, Symbol]]) -> tuple[Symbol | Working, ...]:
    return tuple(part for pair in forces for part in pair)

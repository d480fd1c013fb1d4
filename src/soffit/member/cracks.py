"""Cracks along the life: their width by a published model, their depth and spacing."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials import crack_width, tension
from soffit.materials.curve import Array
from soffit.member.beam import Beam
from soffit.member.history import History
from soffit.member.nodes import LayerInfo, Nodes
from soffit.member.step import Hinge

BOND_RATIO = {"wire": 0.7, "strand": 0.6, "grouted": 0.5}
"""ξ of bonded tendons against ribbed bars, EN 1992-1-1:2004 Table 6.2: pretensioned strand 0.6, indented wire 0.7,
grouted strand 0.5 (to C50)."""
WIDE_OVER_MEAN = 1.7
"""Characteristic over mean crack spacing (the 1.7 that ENV 1992-1-1 4.4.2.4 wrote out, *from memory*)."""


@dataclass(frozen=True)
class Cracks:
    width: Array
    """(steps, stations), mm, at the tension face."""
    depth: Array
    """(steps, stations), mm from the tension face; negative from the top."""
    spacing: float | None
    """Mean spacing in the hinge's neighbourhood, mm; none where one crack takes all."""
    model: str


def cracks(nodes: Nodes, beam: Beam, history: History, hinge: Hinge) -> Cracks:
    """Widths by EN 1992-1-1:2004 7.3.4 where steel is bonded; the opening of the one cohesive crack where not."""
    width = np.zeros_like(history.moment)
    depth = np.zeros_like(history.moment)
    spacing: list[float] = []
    strain = nodes.tensile / nodes.modulus
    for sagging in (True, False):
        sign = 1.0 if sagging else -1.0
        cracked = history.sign == sign
        if not cracked.any():
            continue
        e, k = history.cracked_soffit, history.cracked_curvature
        with np.errstate(divide="ignore", invalid="ignore"):
            neutral = np.clip(e / k, 0.0, nodes.depth)
            reach = np.clip((e - strain) / k if sagging else nodes.depth - (e - strain) / k, 0.0, nodes.depth)
        neutral = np.nan_to_num(neutral)
        w, s = _bonded(nodes, beam, history, sagging, neutral)
        if s is not None:
            spacing.append(s)
        one = _cohesive(beam, nodes, history, hinge, sagging)
        width = np.where(cracked, np.where(one > 0, one, w), width)
        depth = np.where(cracked, sign * np.nan_to_num(reach), depth)
    return Cracks(
        width,
        depth,
        None if hinge.snaps or not spacing else spacing[0],
        "cohesive crack opening (fib Model Code 2010 softening)"
        if hinge.snaps
        else "EN 1992-1-1:2004 7.3.4 (characteristic width)",
    )


def _cohesive(beam: Beam, nodes: Nodes, history: History, hinge: Hinge, sagging: bool) -> Array:
    """Opening at the face of the hinge's one crack: what the band's strain leaves beyond the elastic part, mm."""
    out = np.zeros_like(history.moment)
    if not hinge.snaps or (hinge.sign > 0) != sagging:
        return out
    face = history.cracked_soffit if sagging else history.cracked_soffit - history.cracked_curvature * nodes.depth
    law = tension.cohesive(beam.concrete, hinge.length)
    opening = hinge.length * (face - law(np.maximum(face, 0.0)) / nodes.modulus)
    return np.where(hinge.zone & (face > nodes.tensile / nodes.modulus), np.maximum(opening, 0.0), out)


def _bonded(nodes: Nodes, beam: Beam, history: History, sagging: bool, neutral: Array) -> tuple[Array, float | None]:
    h = nodes.depth
    face: list[int] = []
    for i in range(len(nodes.infos)):
        y = nodes.layers[:, i, 0]
        if np.any((nodes.layers[:, i, 1] > 0) & ((y < nodes.axis) if sagging else (y > nodes.axis))):
            face.append(i)
    if not face:
        return np.zeros_like(history.moment), None
    ys = nodes.layers[:, face, 0]
    areas = nodes.layers[:, face, 1]
    from_face = ys if sagging else h - ys
    # the layer nearest to the face leads; the steel inside hc,ef takes part
    near = np.where(areas > 0, from_face, np.inf)
    lead = np.argmin(near, axis=1)
    lead_y = from_face[np.arange(len(lead)), lead]
    x_top = (h - neutral) if sagging else neutral
    height = crack_width.effective_depth(h, h - lead_y, x_top)
    infos = [nodes.infos[i] for i in face]
    share = np.array([_share(i, infos) for i in infos])
    inside = from_face[None] <= np.maximum(height, lead_y + 1e-6)[:, :, None]
    steel = np.sum(np.where(inside, areas * share, 0.0), axis=2)
    width = np.array([beam.outline.width(y if sagging else h - y) for y in np.clip(lead_y, 0, h)])
    ratio = np.maximum(steel / np.maximum(width * height, 1e-9), 1e-6)
    diameter = np.array([infos[i].group.diameter for i in lead])
    cover = np.maximum(lead_y - diameter / 2, 1.0)
    pick_y = ys[np.arange(len(lead)), lead]
    strain = history.cracked_soffit - history.cracked_curvature * pick_y
    modulus = np.array([infos[i].group.steel.modulus for i in lead])
    k1 = np.where([_plain(infos[i]) for i in lead], 1.6, 0.8)
    # sr,max of EN 1992-1-1 (7.11) with k1 of each station's own leading layer
    furthest = np.where(
        k1 > 1.0,
        crack_width.greatest_spacing(cover, diameter, ratio, crack_width.PLAIN),
        crack_width.greatest_spacing(cover, diameter, ratio),
    )
    # the strain of the cracked section stands for σs/Es, so that widths go on past yield
    mean = np.maximum(
        strain
        - crack_width.SHORT * beam.concrete.tensile / ratio * (1 + modulus / beam.concrete.modulus * ratio) / modulus,
        0.6 * strain,
    )
    w = np.where(strain > 0, furthest * mean, 0.0)
    typical = furthest[-1][np.argmax(w[-1])] / WIDE_OVER_MEAN if np.any(w[-1] > 0) else None
    return w, None if typical is None else float(typical)


def _plain(info: LayerInfo) -> bool:
    """Surfaces that EN 1992-1-1 7.3.4 (3) gives k1 = 1.6: plain bars and all prestressing tendons but ribbed bars."""
    return info.group.surface == "plain" or info.is_tendon


def _share(info: LayerInfo, bars: list[LayerInfo]) -> float:
    """ξ1² = ξ φs/φp of EN 1992-1-1 (7.5) for a tendon beside bars of the greatest diameter φs, ξ alone without; 1 for
    bars. φp is the equivalent diameter 1.75 φwire of seven-wire strand (φwire a third of the strand's)."""
    if info.tendon is None:
        return 1.0
    t = info.tendon
    strand = t.steel.kind == "strand" and t.diameter > 8.0
    ratio = BOND_RATIO["grouted"] if t.when == "after curing" else BOND_RATIO["strand" if strand else "wire"]
    own = 1.75 * t.diameter / 3.0 if strand else t.diameter
    thickest = max((b.bar.diameter for b in bars if b.bar is not None), default=0.0)
    return crack_width.bond_ratio(ratio, thickest, own) ** 2

"""Worked examples at transfer through the engine of time: just after the prestress is let in nothing has crept."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import sqrt
from typing import Any

import numpy as np

from evidence.inch import FOOT, INCH, KIP, KSI, POUND, PSI, given, made
from soffit.materials.ageing.casting import Casting
from soffit.materials.ageing.models import model
from soffit.materials.steel import Steel
from soffit.member.beam import Beam, Load, Profile, Supports
from soffit.member.making import Making, Scales, Stage
from soffit.member.time import past
from soffit.section.outline import rectangle

EN = "EN 1992-1-1"
AGE = 28.0
"""Day of the transfer; the modulus is scaled to the source's."""


@dataclass(frozen=True)
class Released:
    """Stresses of the concrete at midspan at the girder's own faces, MPa, tension positive; loss by shortening, MPa."""

    bottom: float
    top: float
    loss: float


def _making(modulus: float, stages: tuple[Stage, ...]) -> Making:
    casting = Casting(60.0, 70.0, 150.0)
    own = float(model(EN, casting).modulus(AGE))
    return Making(EN, casting, stages, scales=Scales(modulus=modulus / own, tensile=10.0))


def bulb_tee(x: Mapping[str, float], thin: float = 1.0) -> Released:
    """NCHRP 733 att. N. Only A, I and yb of the girder are known: a rectangle of the same A and I has the same stresses
    at the same distances from its centroid.

    thin: strands of so much less area at so much more stress and stiffness. The engine takes the concrete off that the
    strands displace, and the source does not; strands that displace next to nothing are what the source computes.
    """
    depth = sqrt(12 * x["I"] / x["A"]) * INCH
    outline = rectangle(x["A"] * INCH**2 / depth, depth)
    length = x["L_release"] * FOOT
    area = x["n_strand"] * x["a_strand"] * INCH**2 / thin
    steel = Steel("bilinear", thin * x["Ep"] * KSI, thin * 243 * KSI, thin * 270 * KSI, 0.035)
    y = outline.centroid - x["e_mid"] * INCH
    beam, _ = made(
        Profile((0.0,), (y,)), length, outline, Supports((0.0, length)), area * thin * x["fpj"] * KSI,
        thin * x["fpj"] * KSI, steel=steel, when="before casting", bond="bonded", transfer_length=500.0,
        relaxation="none",
    )  # fmt: skip
    weight = Load("dead", x["w_beam"] * KIP / FOOT, 0.0, length)
    modulus = 33000 * x["wc"] ** 1.5 * sqrt(x["fci"]) * KSI
    beam = replace(
        beam, loads=(weight,),
        making=_making(modulus, (Stage("release", AGE, (0,)), Stage("load", AGE, cases=("dead",)))),
    )  # fmt: skip
    told = past(beam)
    step, middle = told.instants[-1].step, int(np.argmin(np.abs(told.x - length / 2)))
    low, high = float(told.bottom[step, middle]), float(told.top[step, middle])

    def at(height: float) -> float:
        return low + (high - low) * height / depth

    foot = outline.centroid - x["yb"] * INCH
    loss = x["fpj"] * KSI - float(told.tendons[0].stress[step, middle]) / thin
    return Released(at(foot), at(foot + 72 * INCH), loss)


def camber(ex: Mapping[str, Any]) -> dict[str, float]:
    """Hicks: straight, harped at the third points and parabolic tendons, then the girder's weight, in inches."""
    x = given(ex)
    modulus = 33 * x["wc"] ** 1.5 * sqrt(x["fci"]) * PSI
    out = {"Eci": modulus / PSI}
    depth, span = 40 * INCH, x["L"] * FOOT
    outline = rectangle(12 * x["I"] * INCH**4 / depth**3, depth)
    centre = depth / 2
    low = centre - x["e_mid"] * INCH
    ways = {
        "straight": Profile((0.0, span), (low, low)),
        "harped": Profile((0.0, span / 3, 2 * span / 3, span), (centre, low, low, centre)),
        "parabolic": Profile((0.0, span / 2, span), (centre, low, centre), "parabola"),
    }
    for name, profile in ways.items():
        beam, _ = made(profile, span, outline, Supports((0.0, span)), x["Fi"] * POUND)
        up, net = _risen(replace(beam, loads=(Load("dead", x["w"] * POUND / FOOT, 0.0, span),)), modulus)
        out |= {f"dp_{name}": up / INCH, f"net_{name}": net / INCH, "dw": (up - net) / INCH}
    return out


def _risen(beam: Beam, modulus: float) -> tuple[float, float]:
    """Camber at midspan, mm, by the tendon and then with the loads on."""
    stages = (Stage("stress", AGE, (0,)), Stage("load", AGE, cases=("dead",)))
    told = past(replace(beam, making=_making(modulus, stages)))
    middle = int(np.argmin(np.abs(told.x - beam.length / 2)))
    first, second = (-float(told.deflection[i.step, middle]) for i in told.instants)
    return first, second

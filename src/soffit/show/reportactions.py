"""Envelopes of a calculation: moment, shear, torque and deflection along the beam, and what governs at their peaks."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from soffit.codes.actions import Actions, Effect, State
from soffit.codes.verification import Verification
from soffit.materials.curve import Array
from soffit.show.numbers import Units, quantity
from soffit.show.reportblocks import Block, figure, sentence, table
from soffit.show.reportcurves import Peak, along

SERVICE: State = "characteristic"
LEAST = 1e-3
"""A peak below this share of the largest is not told."""


def envelopes(found: Verification, units: Units, room: float) -> list[Block]:
    """One picture an effect and one table of the peaks of all."""
    if found.design is None:
        return []
    actions = found.design.actions
    most = actions.envelope("ultimate")
    pictures: list[Block] = []
    rows: list[list[str]] = []
    letters = iter("ABCDEFGHJKLMNP")

    def draw(
        title: str, dimension: str, state: State, curves: Sequence[Array], sought: Sequence[tuple[Effect, Array]],
        down: bool, height: float, caption: str,
    ) -> None:  # fmt: skip
        largest = max(float(np.abs(c).max(initial=0.0)) for c in curves)
        peaks = []
        for effect, curve in sought:
            i = int(np.argmax(np.abs(curve)))
            if abs(curve[i]) <= max(LEAST * largest, 1e-9):
                continue
            x = float(actions.x[i])
            peak = Peak(x, float(curve[i]), next(letters))
            peaks.append(peak)
            rows.append([peak.mark, _name(effect, float(curve[i])), quantity(abs(peak.value), dimension, units),
                         quantity(x, "span", units), _combination(actions, state, effect, x)])  # fmt: skip
        if peaks:
            drawn = along(found.beam, actions.x, curves, peaks, dimension, units, room, height, down)
            pictures.append(figure(drawn, caption, title))

    hogging = -most.hogging
    draw("Bending moment, strength", "moment", "ultimate", (most.sagging, hogging),
         (("sagging", most.sagging), ("hogging", hogging)), True, 30.0, "Sagging is drawn downward")  # fmt: skip
    draw("Shear, strength", "force", "ultimate", (most.shear_max, most.shear_min),
         (("shear", most.shear_max), ("shear", most.shear_min)), False, 30.0, "Positive upward")  # fmt: skip
    if float(most.torsion.max(initial=0.0)) > 1.0:
        draw("Torque, strength", "moment", "ultimate", (most.torsion,), (("torsion", most.torsion),), False, 16.0,
             "Greatest magnitude")  # fmt: skip
    service = actions.envelope(SERVICE)
    draw("Deflection by loads, service", "length", SERVICE, (service.sag_max, service.sag_min),
         (("sag", service.sag_max),), True, 18.0,
         "Elastic, uncracked and without creep, downward; the check of deflection has its own")  # fmt: skip
    if rows:
        head = ["", "effect", "peak", "at", "governing combination"]
        pictures.append(table(head, rows, "llrrl", [4]))
    return pictures


def _combination(actions: Actions, state: State, effect: Effect, x: float) -> str:
    return sentence(actions.at(state, effect, x, "E").combination).removesuffix(".")


def _name(effect: Effect, value: float) -> str:
    if effect == "shear":
        return "shear, positive" if value > 0 else "shear, negative"
    return {"sagging": "sagging moment", "hogging": "hogging moment", "torsion": "torque", "sag": "deflection"}[effect]

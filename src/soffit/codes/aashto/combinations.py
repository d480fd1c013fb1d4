"""Load combinations of AASHTO LRFD 9th edition, Tables 3.4.1-1 and 3.4.1-2; *from memory*.

States: Strength I, II (as permit vehicles are not told apart, none), III, IV and V, Extreme Event I as ``ultimate``;
Service I as ``characteristic``, Service III as ``frequent``, permanent loads alone as ``quasi-permanent``.
"""

from __future__ import annotations

from collections.abc import Sequence

from soffit.codes.combining import Combination, Rules, State, Variable
from soffit.member.beam import Beam

LIVE = ("live", "crowd", "traffic", "construction", "other", "snow", "ice", "rain", "roof live")

EARTH = (1.35, 0.90)
"""Vertical earth pressure on rigid frames, where it adds and where it helps (Table 3.4.1-2)."""


def rules(beam: Beam, variables: Sequence[Variable]) -> Rules:
    """All combinations for the variable loads that there are."""
    live = [v for v in variables if v.case in LIVE]
    wind = [v for v in variables if v.case == "wind"]
    quake = [v for v in variables if v.case == "earthquake"]
    ultimate = []
    for dead in (1.25, 0.90):
        ultimate.append(_one("Strength I", dead, dict.fromkeys(live, 1.75)))
        ultimate += [_one("Strength III", dead, {w: 1.0}) for w in wind]
        ultimate += [_one("Strength V", dead, {**dict.fromkeys(live, 1.35), w: 1.0}) for w in wind]
    ultimate.append(_one("Strength IV", 1.50, {}))
    ultimate += [_one("Extreme Event I", 1.0, {**dict.fromkeys(live, 0.5), e: 1.0}) for e in quake]
    found: dict[State, list[Combination]] = {
        "ultimate": ultimate,
        "characteristic": [_one("Service I", 1.0, dict.fromkeys((*live, *wind), 1.0))],
        "frequent": [_one("Service III", 1.0, dict.fromkeys(live, 0.8))],
        "quasi-permanent": [_one("permanent loads", 1.0, {})],
    }
    return Rules(found, tuple(_said(beam, live)))


def _one(name: str, dead: float, variable: dict[Variable, float]) -> Combination:
    own = {"soil": EARTH} if name.startswith("Strength") else {}
    return Combination(name, "AASHTO LRFD Table 3.4.1-1", dead, variable, own=own)


def _said(beam: Beam, live: Sequence[Variable]) -> list[str]:
    said = [
        "Combinations by AASHTO LRFD Table 3.4.1-1; all dead load is counted as DC (1.25, 0.90), load modifiers η = 1.",
        "Service III has 0.8 of live load; there is no Strength II, for no vehicle is a permit vehicle.",
    ]
    names = [v.name for v in live if v.case not in ("live", "crowd", "traffic")]
    if names:
        said.append(f"{', '.join(names).capitalize()}: counted with the factors of live load, for the table has none.")
    if any(load.case == "soil" for load in beam.loads):
        said.append("Soil is vertical earth on a rigid frame, EV: 1.35 where it adds, 0.90 where it helps.")
    if any(load.case == "fluid" for load in beam.loads):
        said.append("Fluid is counted with the factors of dead load, 1.25 and 0.90, which the table has not for it.")
    return said

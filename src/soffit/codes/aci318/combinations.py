"""Load combinations of ACI 318-19 5.3.1 with strength-level wind, snow as ASCE 7-16 has it, and service states.

5.3.1 seen in the source that the tests name; 5.3.3, 5.3.7 and 5.3.8 *from memory*.
"""

from __future__ import annotations

from collections.abc import Sequence

from soffit.codes.combining import Combination, Rules, State, Variable
from soffit.member.beam import Beam

LIVE = ("live", "crowd", "traffic", "construction", "other")
ROOF = ("roof live", "snow", "ice", "rain")
SUSTAINED = 0.0
"""Share of a live load that stays, where its category says nothing."""
STAYS = {"E": 1.0, "A": 0.2, "B": 0.2}
"""Share of live loads that is sustained, by EN 1990's categories of use: storage stays (*ours*; ACI leaves it to the
engineer)."""


def rules(beam: Beam, variables: Sequence[Variable]) -> Rules:
    """All combinations for the variable loads that there are."""
    live = [v for v in variables if v.case in LIVE]
    roof = [v for v in variables if v.case in ROOF]
    wind = [v for v in variables if v.case == "wind"]
    quake = [v for v in variables if v.case == "earthquake"]
    with_others = 0.5 if beam.verifying.reduced_live else 1.0
    ultimate = [_one("a", 1.4, {})]
    halves: list[dict[Variable, float]] = [{top: 0.5} for top in roof] or [{}]
    for half in halves:
        ultimate.append(_one("b", 1.2, {**dict.fromkeys(live, 1.6), **half}))
    for top in roof:
        ultimate.append(_one("c", 1.2, {top: 1.6, **dict.fromkeys(live, with_others)}))
        ultimate += [_one("c", 1.2, {top: 1.6, w: 0.5}) for w in wind]
    for w in wind:
        for half in halves:
            ultimate.append(_one("d", 1.2, {w: 1.0, **dict.fromkeys(live, with_others), **half}))
        ultimate.append(_one("f", 0.9, {w: 1.0}))
    for e in quake:
        snow = {v: 0.2 for v in roof if v.case == "snow"}
        ultimate.append(_one("e", 1.2, {e: 1.0, **dict.fromkeys(live, with_others), **snow}))
        ultimate.append(_one("g", 0.9, {e: 1.0}))
    service = [Combination("D + L", "ACI 318-19 24.2.2", 1.0, dict.fromkeys((*live, *roof), 1.0))]
    stays = {v: STAYS.get(v.category[:1].upper(), SUSTAINED) for v in live}
    sustained = [Combination("sustained", "ACI 318-19 24.2.4", 1.0, stays)]
    found: dict[State, list[Combination]] = {
        "ultimate": ultimate, "characteristic": service, "frequent": service, "quasi-permanent": sustained,
    }  # fmt: skip
    return Rules(found, tuple(_said(beam, live, stays)))


SOIL = (1.6, 0.9)
"""Where earth pressure adds to the effect, and where it is permanent and helps (5.3.8)."""


def _one(letter: str, dead: float, variable: dict[Variable, float]) -> Combination:
    # a fluid that helps is left out, for it may not be there (5.3.7)
    own = {"soil": SOIL, "fluid": (dead, 0.0)}
    return Combination(f"5.3.1 ({letter})", f"ACI 318-19 5.3.1 ({letter})", dead, variable, own=own)


def _said(beam: Beam, live: Sequence[Variable], stays: dict[Variable, float]) -> list[str]:
    others = {load.case for load in beam.loads}
    said = [
        "Combinations by ACI 318-19 5.3.1; service is D + L with all loads of roofs.",
    ]
    if others & {"wind", "earthquake"}:
        said.append("Wind and earthquake are taken as strength-level loads, in the direction that the file gives.")
    if others & {"snow", "ice", "rain", "roof live"}:
        said.append("Snow (ASCE 7-16), ice, rain and live load of a roof are Lr or S or R, one at a time.")
    if any(load.case == "soil" for load in beam.loads):
        said.append("Soil has the factor 1.6 where it adds to the effect and 0.9 where it helps (5.3.8), as permanent.")
    if any(load.case == "fluid" for load in beam.loads):
        said.append("Fluid has the factor of dead load where it adds, and is left out where it helps (5.3.7).")
    if beam.verifying.reduced_live:
        said.append("Live loads beside others have the factor 0.5 (5.3.3), as the file says.")
    for v in live:
        share = stays[v]
        said.append(
            f"{100 * share:.0f} % of {v.name} is taken as sustained." if share
            else f"Nothing of {v.name} is taken as sustained."
        )  # fmt: skip
    return said

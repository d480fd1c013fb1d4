"""Printed worked examples of prestress, computed again through the tool's own code: one function an example.

Each gives its quantities in the unit in which they are printed. Sources are in ``tests/published/data/examples.json``.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from evidence import atrelease
from evidence.inch import FOOT, INCH, KIP, KSI, POUND, PSI, given, made
from evidence.table import ROOT
from soffit import catalogue
from soffit.codes.aashto import stresses as limits
from soffit.materials import standards, steel_laws
from soffit.materials.curve import Array
from soffit.materials.steel import Steel
from soffit.member import balance, friction, statics
from soffit.member.beam import Anchor, Load, Profile, Supports
from soffit.section.elastic import concrete_stress, cracking_moment, moment_at_fibre_stress, uncracked_plane
from soffit.section.outline import rectangle

TESTS = ROOT / "tests" / "published"
OURS = "test_worked.py"
"""Where the comparisons of this module are asserted."""
Example = Mapping[str, Any]
Numbers = dict[str, float]


@cache
def examples() -> dict[str, Example]:
    """Of prestress, by id."""
    entries = json.loads((TESTS / "data" / "examples.json").read_text(encoding="utf-8"))
    return {e["id"]: e for e in entries if e["id"].startswith(("ps-", "own-"))}


def shear_and_moment(ex: Example) -> Numbers:
    x, span, depth = given(ex), 40 * FOOT, 40 * INCH
    low, force = depth / 2 - x["e"] * INCH, x["Fi"] * POUND
    profile = Profile((0.0, span), (low + x["slope"] * span / 2, low - x["slope"] * span / 2))
    beam, cable = made(profile, span, rectangle(20 * INCH, depth), Supports((0.0, span)), force)
    along = balance.constant(cable, force)
    found = balance.moments(beam, [along])
    return {
        "Vp": balance.equivalent_loads(beam, along).points[0].up / POUND,
        "Mp": float(np.interp(span / 2, found.x, found.primary)) / (POUND * INCH),
    }


def allowed_stresses(ex: Example) -> Numbers:
    """What the loads may add to the weight until a face at midspan has its allowed stress under the printed force at
    its printed height (whose own stresses at the end of the beam are the allowed ones, in test_elastic.py)."""
    x = given(ex)
    outline, span = rectangle(x["b"] * INCH, x["h"] * INCH), x["L"] * FOOT
    force, e = ex["expected"]["Fi_max"]["value"] * POUND, ex["expected"]["e_max"]["value"] * INCH
    own = [Load("dead", x["w_self"] * POUND / FOOT, 0.0, span)]
    weight = float(statics.released(np.array([span / 2]), span, Supports((0.0, span)), own).moment[0])
    left = {"axial": -x["eta"] * force, "axis": outline.centroid - e}
    bottom, top = (
        moment_at_fibre_stress(outline, 1.0, -x[key] * PSI, y, **left) - weight
        for key, y in (("ft_allow", 0.0), ("fc_allow", x["h"] * INCH))
    )

    def soffit(moment: float) -> float:
        return concrete_stress(uncracked_plane(outline, 1.0, moment=moment), 1.0, 0.0) / PSI

    return {
        "Mw": weight / (POUND * INCH),
        "fbw": soffit(weight),
        "fbs": soffit(bottom),
        "fts": soffit(top),
        "ws": 8 * min(bottom, top) / span**2 / POUND * FOOT,
    }


def girder(ex: Example) -> Numbers:
    x = given(ex)
    span, depth = x["L"] * FOOT, 72 * INCH
    outline = rectangle(12 * x["I"] * INCH**4 / depth**3, depth)
    middle, force, rigid = depth / 2, x["Fi"] * POUND, x["Ec"] * PSI * outline.inertia
    profile = Profile((0.0, span / 2, span), (middle, middle - x["e_mid"] * INCH, middle), "parabola")
    beam, cable = made(profile, span, outline, Supports((0.0, span)), force)
    up = balance.equivalent_loads(beam, balance.constant(cable, force)).up[0]
    rise, sag = (5 * w * span**4 / (384 * rigid) / INCH for w in (up, x["w_self"] * POUND / FOOT))
    return {"EI": rigid / (POUND * INCH**2), "dp": rise, "dw": sag, "net": rise - sag}


SECTIONS = np.array([0.2, 0.4, 0.6, 0.8, 1.0])


def two_spans(ex: Example) -> Numbers:
    """Compression positive, as printed."""
    x = given(ex)
    span, depth = x["L"] * FOOT, 120 * INCH
    two = Supports((0.0, span, 2 * span))
    at = SECTIONS * span
    low, high = x["Sb"] * INCH**3, x["St"] * INCH**3
    weight = _continuous(at, span, two, Load("dead", x["w_beam"] * POUND / FOOT, 0.0, 2 * span))
    near = _continuous(at, span, two, Load("live", x["w_super"] * POUND / FOOT, 0.0, span))
    out: Numbers = {}
    _put(out, "fbw", -weight / low / PSI)
    _put(out, "ftw", weight / high / PSI)
    for case in ("a", "b"):
        force, e2 = x[f"Fi_{case}"] * POUND, x[f"e2_{case}"] * INCH
        along = np.linspace(0.0, 2.0, 5)
        share = np.where(along > 1, 2 - along, along)
        e = e2 * (3 * share / 8 - share**2 / 2) / (3 * 0.4 / 8 - 0.4**2 / 2)
        profile = Profile(tuple(along * span), tuple(depth / 2 - e), "parabola")
        beam, cable = made(profile, 2 * span, rectangle(30 * INCH, depth), two, force)
        found = balance.moments(beam, [balance.constant(cable, force)])
        total = np.interp(at, found.x, found.total)
        bottom = (force * x["kt"] * INCH - total) / low / PSI
        top = (force * x["kb"] * INCH + total) / high / PSI
        _put(out, f"fbp_{case}", bottom)
        _put(out, f"ftp_{case}", top)
        if case == "a":
            _put(out, "econ_a", -total / force / INCH)
            _put(out, "fb_transfer_a", bottom - weight / low / PSI)
            _put(out, "ft_transfer_a", top + weight / high / PSI)
            _put(out, "fb_final_a", x["eta"] * bottom - (weight + near) / low / PSI)
            _put(out, "ft_final_a", x["eta"] * top + (weight + near) / high / PSI)
        else:
            _put(out, "fbi_b", bottom - weight / low / PSI)
            _put(out, "fti_b", top + weight / high / PSI)
    return out


def _put(out: Numbers, key: str, values: Array) -> None:
    out |= {f"{key}_{i}": float(v) for i, v in enumerate(values, 1)}


def _continuous(at: Array, span: float, two: Supports, load: Load) -> Array:
    """Moment of a load on a girder of two equal spans, N·mm; the support moment from compatibility (E I constant)."""
    x = np.linspace(0.0, 2 * span, 2401)
    (unit,) = statics.redundant_diagrams(x, 2 * span, two)
    free = statics.released(x, 2 * span, two, [load]).moment
    weights = statics.product_weights(x, unit.moment)
    support = -float(weights @ free) / float(weights @ unit.moment)
    return np.interp(at, x, free + support * unit.moment)


def moment_of_cracking(ex: Example) -> Numbers:
    x = given(ex)
    outline, force = rectangle(x["b"] * INCH, x["h"] * INCH), x["Pe"] * KIP
    at = outline.centroid - x["e"] * INCH
    stressed = uncracked_plane(outline, 1.0, axial=-force, axis=at)
    span = x["L"] * FOOT
    loads = [Load("dead", x["wD"] * KIP / FOOT, 0.0, span)]
    here = statics.released(np.array([x["x"] * FOOT]), span, Supports((0.0, span)), loads)
    dead = float(here.moment[0])
    cracking = cracking_moment(outline, 1.0, 6 * np.sqrt(x["fc"]) * PSI, axial=-force, axis=at)
    return {
        "fpe": -concrete_stress(stressed, 1.0, 0.0) / PSI,
        "fpc": -concrete_stress(stressed, 1.0, outline.centroid) / PSI,
        "fd": concrete_stress(uncracked_plane(outline, 1.0, moment=dead), 1.0, 0.0) / PSI,
        "Mcr": (cracking - dead) / (POUND * FOOT),
        "Vd": float(here.shear[0]) / KIP,
    }


def bulb_tee(ex: Example) -> Numbers:
    """Limits, and the stresses at midspan as :func:`soffit.member.time.past` has them just after release."""
    x = given(ex)
    fci, fc, deck = (x[k] * KSI for k in ("fci", "fc", "fc_deck"))
    told = {
        "lim_comp_transfer": limits.compression_at_transfer(fci, "before 2016"),
        "lim_tens_transfer": -limits.tension_at_transfer(fci, bonded=False),
        "lim_tens_transfer_bonded": -limits.tension_at_transfer(fci, bonded=True),
        "lim_deck_sust": limits.compression_in_service(deck, total=False),
        "lim_beam_sust": limits.compression_in_service(fc, total=False),
        "lim_deck_total": limits.compression_in_service(deck, total=True),
        "lim_beam_total": limits.compression_in_service(fc, total=True),
        "lim_tens_service": -limits.tension_in_service(fc),
        "Ec": _modulus(x["fc"], 1000 * x["wc"]),
    }
    released = atrelease.bulb_tee(x, thin=100.0)
    return {k: v / KSI for k, v in told.items()} | {
        "top_mid_transfer": -released.top / KSI,
        "bot_mid_transfer": -released.bottom / KSI,
    }


def _modulus(strength: float, weight: float) -> float:
    """33 w^1.5 √f'c (MPa) of a strength in ksi and a weight in lb/ft³."""
    return standards.aci_modulus(strength * KSI, weight * POUND / 9.80665 / (FOOT / 1000) ** 3)


def modulus(ex: Example) -> Numbers:
    weight = 1000 * given(ex)["wc"]
    steel = catalogue.grade("Grade 270")
    return {f"E{n}": _modulus(n, weight) / KSI for n in (5, 7, 8)} | {"fpy": steel.yield_strength / KSI}


def draw_in(ex: Example) -> Numbers:
    x = given(ex)
    out: Numbers = {}
    for case in ("a", "b"):
        stress, length = x[f"f_{case}"], 1000 * x[f"L_{case}"]
        rod = Steel("bilinear", 1000 * x["E"], 1500.0, 1600.0, 0.03)
        _, cable = made(Profile((0.0,), (100.0,)), length, rectangle(200.0, 200.0), Supports((0.0, length)), 1e5,
                        stress, steel=rod, anchor=Anchor("wedge", 1e9, "", x[f"slip_{case}"]))  # fmt: skip
        loss = stress - float(friction.jacked(cable).stress[0])
        out |= {f"loss_{case}": loss, f"pct_{case}": 100 * loss / stress}
    return out


def torque(ex: Example) -> Numbers:
    x, screw = given(ex), catalogue.thread("M12")
    force = x["fraction"] * x["proof"] * screw.area
    return {"F": force / 1e3, "T": catalogue.torque_for_force(force, screw.diameter, x["K"]) / 1e3}


def strand(ex: Example) -> Numbers:
    """The tool's own curve of Grade 270 strand."""
    curve = steel_laws.curve(Steel("strand", 28500 * KSI, 243 * KSI, ex["inputs"]["cap"]["value"] * KSI, 0.03))
    return {"f_at_1pct": float(curve(0.01)) / KSI}


WORKED: dict[str, Callable[[Example], Numbers]] = {
    "ps-hicks-vp-mp": shear_and_moment,
    "ps-hicks-8x10-allow": allowed_stresses,
    "ps-hicks-camber-transfer": atrelease.camber,
    "ps-hicks-pt-girder": girder,
    "ps-hicks-two-span-concordant": two_spans,
    "ps-mccormac-19-5": moment_of_cracking,
    "ps-nchrp733-bt72": bulb_tee,
    "ps-fhwa-seminar-ec": modulus,
    "ps-slip-mcq": draw_in,
    "ps-torque-m12": torque,
    "own-dt-curve": strand,
}
NO_SHEAR = "shear by ACI 318, which the tool does not have"
ELSEWHERE = {
    "ps-hicks-8x10-allow": {
        "Fi_max": "given here: with it the end has its allowed stresses (`test_elastic.py`)",
        "e_max": "given here: with it the end has its allowed stresses (`test_elastic.py`)",
    },
    "ps-hicks-pt-girder": {
        **dict.fromkeys(("wu", "Mu"), "load factors of 1963"),
        **dict.fromkeys(("A_comp", "As_web", "q_web"), "reinforcement index of ACI 318-63"),
    },
    "ps-mccormac-19-5": {
        **dict.fromkeys(("wu", "Vu", "Mu", "Vi", "Mmax"), "load factors by hand"),
        **dict.fromkeys(("Vud_over_Mu", "Vc_approx", "Vc_min", "Vc_max", "Vci", "Vci_min", "Vcw"), NO_SHEAR),
        "Vp": "the tool takes P y′ for flat tendons; at this slope of 1 in 8 that is 0.8 % above the source's sine",
    },
    "ps-nchrp733-bt72": {
        **dict.fromkeys(("top_harp_transfer", "bot_harp_transfer"), "the place of the harp is not given"),
        "Mr": "strength of the section with its deck (`test_flexure.py`)",
    },
}
"""What an example prints and is not computed here, and why."""


@dataclass(frozen=True)
class Compared:
    id: str
    pairs: dict[str, tuple[float, float, float]]
    """Computed, printed and the tolerance that the printed digits leave, in the printed unit."""
    left: dict[str, str]
    """What is not computed, and why."""
    tests: tuple[str, ...]
    """Files of tests/published that check it."""
    kind: str

    @property
    def ratios(self) -> list[float]:
        """Computed over printed, where the print has two digits or more over its tolerance."""
        return [c / p for c, p, tolerance in self.pairs.values() if abs(p) > 50 * tolerance]

    @property
    def worst(self) -> float:
        """Largest difference in tolerances."""
        return max((abs(c - p) / tolerance for c, p, tolerance in self.pairs.values()), default=float("nan"))


def compare(name: str) -> Compared:
    ex = examples()[name]
    found = WORKED[name](ex) if name in WORKED else {}
    pairs = {}
    for key, value in found.items():
        entry = ex["expected"].get(key)
        if entry is not None:
            printed = entry["value"]
            tolerance = entry["tol"] * (1.0 if entry["tol_kind"] == "abs" else abs(printed))
            pairs[key] = (float(value), float(printed), tolerance)
    return Compared(name, pairs, ELSEWHERE.get(name, {}), checked_in(name), ex["kind"])


@cache
def _test_texts() -> dict[str, str]:
    return {p.name: p.read_text(encoding="utf-8") for p in sorted(TESTS.glob("test_*.py")) if p.name != OURS}


def checked_in(name: str) -> tuple[str, ...]:
    ours = (OURS,) if name in WORKED else ()
    return (*(file for file, text in _test_texts().items() if f'"{name}"' in text), *ours)


def compare_all() -> list[Compared]:
    """Every entry of prestress, in the order of the file."""
    return [compare(name) for name in examples()]

"""Losses by EN 1992-1-1:2004 beside those computed step by step, and what makes the difference."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from soffit.codes.en1992 import losses
from soffit.codes.explained import Difference, Input, sentence, signed
from soffit.codes.instants import SAME, gross
from soffit.codes.lost import Looked, Ours, Parts, Row, of_standard
from soffit.materials.ageing.en1992 import En1992
from soffit.materials.ageing.models import model
from soffit.member.time import relaxing
from soffit.member.time.bedded import in_bed
from soffit.member.time.schedule import days, making_of

NAME = "EN 1992-1-1:2004"
KEY = "EN 1992-1-1"


def row(looked: Looked, everything: Looked, ours: Row) -> Row:
    """(5.44) and (5.46) for some tendons; ``everything``: all tendons at the section, whose area counts in (5.46)."""
    past, t, t0 = looked.past, looked.t, looked.t0
    law = model(KEY, making_of(past.beam).casting)
    assert isinstance(law, En1992)
    creep, shrinkage, ahead = of_standard(past, KEY, t, t0)
    ecm = float(law.secant_modulus(28.0))
    stress = sum(looked.pressed(j) for j in looked.jumps)
    elastic = _elastic(looked, law, ahead)
    loads = sum(
        losses.elastic(
            steel_modulus=looked.modulus,
            concrete_modulus=float(law.secant_modulus(j.age + ahead)),
            stress=looked.pressed(j),
        )
        for j in looked.later()
    )
    relaxation = constant_strain(looked, looked.stressed() - loads)
    g = gross(past)
    arms = {"arm": g.centroid - looked.here(looked.y), "all_arm": g.centroid - looked.here(everything.y)}
    given = {
        "steel_area": everything.held,
        "area": g.area,
        "inertia": g.inertia,
        **arms,
        "steel_modulus": looked.modulus,
        "concrete_modulus": ecm,
        "creep": creep,
        "shrinkage": shrinkage,
        "relaxation": relaxation,
        "stress": stress,
    }
    terms = losses.long_term(**given)
    raw = terms.total * terms.restraint
    parts = Parts(elastic, loads, terms.shrinkage, terms.creep, terms.relaxation, terms.total - raw)
    causes = (
        Difference(
            "its elastic shortening on the gross section"
            if looked.when == "before casting"
            else "its elastic shortening, a mean over tendons stressed one after another",
            elastic - ours.parts.elastic,
        ),
        Difference("its elastic gain by later loads on the gross section", loads - ours.parts.loads),
        *_walk(looked, given, ours.parts),
    )
    units = {"steel_area": "mm²", "area": "mm²", "inertia": "mm⁴", "arm": "mm", "all_arm": "mm"}
    units |= {"steel_modulus": "MPa", "concrete_modulus": "MPa", "relaxation": "MPa", "stress": "MPa"}
    inputs = tuple(
        Input(symbol, given[key], units.get(key, ""), what)
        for key, symbol, what in SYMBOLS
        if key != "all_arm" or given["all_arm"] != given["arm"]
    )
    return Row(
        looked.groups,
        looked.of,
        NAME,
        "5.10.5.1 (5.44), 5.10.6 (5.46)",
        t,
        parts,
        inputs,
        causes,
        sentence(f"{NAME} (5.46)", parts.total, ours.parts.total, causes, "MPa"),
    )


SYMBOLS = (
    ("steel_area", "Ap", "all tendons at the section"),
    ("area", "Ac", "gross section of the beam alone"),
    ("inertia", "Ic", "of the same"),
    ("arm", "zcp", "tendon below its centroid"),
    ("all_arm", "zcp of all", "all tendons together below it"),
    ("steel_modulus", "Ep", ""),
    ("concrete_modulus", "Ecm", "at 28 days"),
    ("creep", "φ(t, t0)", "Annex B, from stressing or release"),
    ("shrinkage", "εcs", "since then"),
    ("relaxation", "Δσpr", "at constant strain, 3.3.2 (7)"),
    ("stress", "σc,QP", "compression beside the tendon by prestress and all loads that stay"),
)


def _start(looked: Looked, groups: Sequence[int]) -> int:
    return min(j.step for j in looked.jumps if set(j.groups) & set(groups))


def _elastic(looked: Looked, law: En1992, ahead: float) -> float:
    """(5.44): all at once where pretensioned, tendon after tendon where post-tensioned."""
    pretensioned = looked.when == "before casting"
    total = 0.0
    alike = [i for i, t in enumerate(looked.past.beam.tendons) if t.when == looked.when]
    tendons = sum(looked.past.beam.tendons[i].count for i in alike)
    start = _start(looked, looked.groups if pretensioned else alike)
    for j in looked.jumps:
        if not j.prestress or j.step < start:
            continue
        total += losses.elastic(
            steel_modulus=looked.modulus,
            concrete_modulus=float(law.secant_modulus(j.age + ahead)),
            stress=looked.pressed(j),
            share=1.0 if pretensioned else losses.share_of_shortening(tendons),
        )
    return total


def constant_strain(looked: Looked, stress: float) -> float:
    """Δσpr, MPa, of 3.3.2 (7) from just after stressing or release; what was lost in the bed has been lost."""
    past = looked.past
    found = {}
    for i in looked.groups:
        tendon = past.beam.tendons[i]
        if tendon.relaxation == "none":
            found[i] = 0.0
            continue
        lost = in_bed(past.beam, making_of(past.beam), i).relaxation if tendon.when == "before casting" else 0.0
        rule = relaxing.Law("en", tendon.relaxation, tendon.rho, tendon.steel.tensile)
        days = float(past.t[looked.until]) - looked.t0
        found[i] = float(relaxing.further(rule, np.array(stress), np.array(lost), days))
    return looked.mean(found)


def _walk(looked: Looked, given: dict[str, float], ours: Parts) -> tuple[Difference, ...]:
    """One input after the other changed to what the steps have; what is left is the formula's own."""
    mine, t, t0 = Ours(looked.past), looked.t, looked.t0
    ecm, now = given["concrete_modulus"], losses.long_term(**given).total
    strain = mine.creep(t, t0)
    e0 = mine.modulus(t0)
    changes = [(looked.pressed(j), j.age) for j in looked.jumps]
    by_age = sum(stress * (mine.creep(t, age) - mine.creep(t0, age)) for stress, age in changes)
    others = [stress for stress, age in changes if abs(age - t0) > SAME]
    shrunk = mine.shrinkage(t, t0)
    found = []

    def step(cause: str, **new: float) -> None:
        nonlocal now, given
        given = given | new
        after = losses.long_term(**given).total
        found.append(Difference(cause, now - after))
        now = after

    step(
        f"its creep coefficient of {given['creep']:.2f} on Ecm, ours {strain * ecm:.2f} on the same", creep=strain * ecm
    )
    if others and strain > 0.0:
        step(
            f"one age of {days(t0)} at loading for all stress, {signed(sum(others))} MPa of which came on at others",
            stress=by_age / strain,
        )
    step(
        f"its shrinkage of {1000 * given['shrinkage']:.3f} ‰, ours {1000 * shrunk:.3f} ‰",
        shrinkage=shrunk,
    )
    step(
        f"0.8 of the relaxation at constant strain, {losses.RELAXED * given['relaxation']:.0f} MPa, "
        f"ours {ours.relaxation:.0f} MPa as the strain falls",
        relaxation=ours.relaxation / losses.RELAXED,
    )
    step(
        f"Ecm at 28 days, {ecm:.0f} MPa, ours {e0:.0f} MPa when it is stressed", concrete_modulus=e0, creep=strain * e0
    )
    topping = " and without the topping" if making_of(looked.past.beam).topping is not None else ""
    last = f"its one step, with the stress of the concrete as at first{topping}"
    found.append(Difference(last, now - ours.long_term))
    return tuple(found)

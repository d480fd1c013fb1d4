"""Losses by AASHTO LRFD beside those computed step by step, and what makes the difference."""

from __future__ import annotations

from dataclasses import replace

from soffit.codes.aashto import losses
from soffit.codes.explained import Difference, Input, sentence
from soffit.codes.instants import gross
from soffit.codes.lost import Looked, Ours, Parts, Row
from soffit.codes.strengths import at_release
from soffit.codes.terms import by_term, end_of_life
from soffit.materials.ageing.aashto import Aashto
from soffit.materials.ageing.aashto_losses import Girder, deck_shrinkage_gain
from soffit.member.time.schedule import making_of

LATEST_TRANSFER = 27.0
"""Days up to which a strength at transfer is one."""


def approximate(looked: Looked, everything: Looked, ours: Row) -> Row:
    """5.9.3.3. Raises ``ValueError`` for what is not pretensioned strand."""
    if looked.when != "before casting":
        raise ValueError("the approximate method is for pretensioned members")
    if looked.steel not in losses.RELAXATION:
        raise ValueError("the approximate method is for strand and wire")
    law, elastic, fcgp = _start(looked)
    cast, g = making_of(looked.past.beam).casting, gross(looked.past)
    terms = losses.approximate(
        stress=looked.before(),
        steel_area=looked.held,
        area=g.area,
        humidity=cast.humidity,
        transfer_strength=law.transfer,
        relaxation=losses.RELAXATION[looked.steel],
    )
    loads = _loads(looked, law)
    parts = Parts(elastic, loads, terms.shrinkage, terms.creep, terms.relaxation, 0.0)
    mine = Ours(looked.past)
    ep = looked.modulus
    implied = terms.creep / (ep * fcgp) if fcgp > 0.0 else 0.0
    creep = (
        f"creep, in which fcgp and later loads do not enter (as if ψ = {implied * float(law.modulus(looked.t0)):.2f} "
        f"under {fcgp:.1f} MPa, ours {mine.creep(looked.t, looked.t0) * float(law.modulus(looked.t0)):.2f})"
    )
    shrunk = mine.shrinkage(looked.t, looked.t0)
    shrinkage = (
        f"shrinkage (as if {1000 * terms.shrinkage / ep:.3f} ‰ held the tendon alone, ours {1000 * shrunk:.3f} ‰)"
    )
    causes = by_term(parts, ours.parts, creep, shrinkage, "its lump sum of relaxation")
    name = "AASHTO LRFD, approximate"
    inputs = (
        Input("fpi", looked.before(), "MPa", "just before release"),
        Input("Aps", looked.held, "mm²", ""),
        Input("Ag", g.area, "mm²", "gross section of the beam alone"),
        Input("H", cast.humidity, "%", ""),
        Input("f'ci", law.transfer, "MPa", "strength at transfer"),
        Input("fcgp", fcgp, "MPa", "compression beside the strands just after release (for ΔfpES)"),
        Input("γh", terms.humidity_factor, "", "1.7 − 0.01 H"),
        Input("γst", terms.strength_factor, "", "5/(1 + f'ci)"),
    )
    text = sentence(name, parts.total, ours.parts.total, causes, "MPa") + end_of_life(looked)
    return Row(looked.groups, looked.of, name, "5.9.3.2.3a, 5.9.3.3", None, parts, inputs, causes, text)


def refined(looked: Looked, everything: Looked, ours: Row) -> Row:
    """5.9.3.4, with deck placement at the topping, else at the first change of load. Raises ``ValueError`` for unbonded
    tendons and for what does not relax as strand does."""
    if not looked.bonded:
        raise ValueError("the refined method is for bonded tendons")
    if looked.steel == "none":
        raise ValueError("its relaxation is for steel")
    law, elastic, fcgp = _start(looked)
    ti, tf = looked.t0, looked.t
    td = _placed(looked)
    girder, composite = (_girder(looked, law, whole) for whole in (False, tf > td and _has_topping(looked)))
    ec = float(law.modulus(28.0))
    strand = looked.before() - elastic
    deck, deck_inputs = _deck(looked, composite, td) if composite != girder else (0.0, ())
    kept = {
        "stress": fcgp,
        "placing": sum(looked.pressed(j) for j in looked.later()),
        "later_modulus": ec,
        "creep_until": float(law.creep(td, ti)),
        "creep": float(law.creep(tf, ti)),
        "later_creep": float(law.creep(tf, td)),
        "shrinkage_until": float(law.shrinkage(td) - law.shrinkage(ti)),
        "shrinkage": float(law.shrinkage(tf) - law.shrinkage(ti)),
        "strand_stress": strand,
        "yield_stress": looked.yield_stress,
        "deck_stress": deck,
    }
    low = looked.steel == "low relaxation"
    terms = losses.refined(girder, composite, low_relaxation=low, **kept)
    loads = _loads(looked, law)
    parts = Parts(
        elastic,
        loads,
        terms.shrinkage + terms.later_shrinkage,
        terms.creep + terms.later_creep,
        terms.relaxation + terms.later_relaxation,
        terms.deck,
    )
    causes = (
        Difference("its elastic shortening with its own modulus", elastic - ours.parts.elastic),
        Difference("its elastic gain by later loads", loads - ours.parts.loads),
        *_walk(looked, girder, composite, low, kept, ours.parts, td),
    )
    name = "AASHTO LRFD, refined"
    inputs = (
        Input("f'ci", law.transfer, "MPa", "strength at transfer"),
        Input("Eci", girder.concrete_modulus, "MPa", "at transfer"),
        Input("Ec", ec, "MPa", "after deck placement"),
        Input("fcgp", fcgp, "MPa", "compression beside the tendons just after transfer"),
        Input("td", td, "days", "deck placement, or the first change of load"),
        Input("ψ(td, ti)", kept["creep_until"], "", ""),
        Input("ψ(tf, ti)", kept["creep"], "", ""),
        Input("ψ(tf, td)", kept["later_creep"], "", ""),
        Input("εbid", kept["shrinkage_until"], "", "from transfer to td"),
        Input("εbdf", kept["shrinkage"] - kept["shrinkage_until"], "", "from td on"),
        Input("Kid", terms.restraint, "", ""),
        Input("Kdf", terms.later_restraint, "", ""),
        Input("fpt", strand, "MPa", "just after transfer"),
        *deck_inputs,
    )
    text = sentence(name, parts.total, ours.parts.total, causes, "MPa")
    return Row(looked.groups, looked.of, name, "5.9.3.2.3, 5.9.3.4", tf, parts, inputs, causes, text)


def _walk(
    looked: Looked, girder: Girder, composite: Girder, low: bool, kept: dict[str, float], ours: Parts, td: float
) -> tuple[Difference, ...]:
    """One input after the other changed to what the steps have; what is left is the method's own."""
    mine, ti, tf = Ours(looked.past), looked.t0, looked.t
    eci, ec = girder.concrete_modulus, kept["later_modulus"]

    def total(values: dict[str, float]) -> float:
        return losses.refined(girder, composite, low_relaxation=low, **values).total

    now = total(kept)
    own = {
        "creep_until": mine.creep(td, ti) * eci,
        "creep": mine.creep(tf, ti) * eci,
        "later_creep": mine.creep(tf, td) * ec,
    }
    crept = total(kept | own)
    shrunk = {"shrinkage_until": mine.shrinkage(td, ti), "shrinkage": mine.shrinkage(tf, ti)}
    dried = total(kept | own | shrunk)
    terms = losses.refined(girder, composite, low_relaxation=low, **(kept | own | shrunk))
    relaxed = terms.relaxation + terms.later_relaxation
    deck = terms.deck
    found = [
        Difference(f"its ψ(tf, ti) of {kept['creep']:.2f}, ours {own['creep']:.2f} on its modulus", now - crept),
        Difference(
            f"its shrinkage of {1000 * kept['shrinkage']:.3f} ‰, ours {1000 * shrunk['shrinkage']:.3f} ‰", crept - dried
        ),
        Difference(f"its relaxation of {relaxed:.0f} MPa, ours {ours.relaxation:.0f} MPa", relaxed - ours.relaxation),
    ]
    rest = dried - relaxed + ours.relaxation - ours.long_term
    held = f" (in it {deck:.0f} MPa by shrinkage of the deck)".replace("-", "−") if deck else ""
    return (*found, Difference(f"its two steps of time, each with the stress at its beginning{held}", rest))


def _start(looked: Looked) -> tuple[Aashto, float, float]:
    """The concrete as the standard has it, elastic shortening and fcgp."""
    past = looked.past
    cast = making_of(past.beam).casting
    strength = min(at_release(past, looked.after).value, cast.ordered)
    if looked.t0 <= LATEST_TRANSFER:
        law = Aashto.of(replace(cast, transfer_strength=strength, transfer_age=looked.t0))
    else:
        law = Aashto.of(replace(cast, transfer_strength=None, transfer_age=None))
    g, eci = gross(past), float(law.modulus(looked.t0))
    if looked.when == "before casting":
        es = losses.elastic_shortening(
            stress=looked.before(),
            steel_area=looked.held,
            area=g.area,
            inertia=g.inertia,
            eccentricity=g.centroid - looked.here(looked.y),
            moment=looked.here(past.moment[looked.after]),
            steel_modulus=looked.modulus,
            concrete_modulus=eci,
        )
        return law, es, es * eci / looked.modulus
    fcgp = sum(looked.pressed(j) for j in looked.jumps if j.step <= looked.after)
    es = losses.elastic_shortening_in_turn(
        tendons=looked.count, stress=fcgp, steel_modulus=looked.modulus, concrete_modulus=eci
    )
    return law, es, fcgp


def _loads(looked: Looked, law: Aashto) -> float:
    """Elastic gain by later loads, C5.9.3.2.3a; negative where the tendon is stretched."""
    return sum(looked.pressed(j) * looked.modulus / float(law.modulus(j.age)) for j in looked.later())


def _has_topping(looked: Looked) -> bool:
    return making_of(looked.past.beam).topping is not None


def _placed(looked: Looked) -> float:
    """td: the day of the topping, else that of the first change of load, else the end."""
    if _has_topping(looked):
        pour = [s.at for s in making_of(looked.past.beam).stages if s.what == "topping" and s.at < looked.t]
        return max(pour[0], looked.t0) if pour else looked.t
    return min((j.age for j in looked.later() if j.age > looked.t0), default=looked.t)


def _girder(looked: Looked, law: Aashto, whole: bool) -> Girder:
    g = gross(looked.past, whole)
    return Girder(
        looked.held,
        g.area,
        g.inertia,
        g.centroid - looked.here(looked.y),
        looked.modulus,
        float(law.modulus(looked.t0)),
    )


def _deck(looked: Looked, composite: Girder, td: float) -> tuple[float, tuple[Input, ...]]:
    """Δfcdf at the tendons by shrinkage of the topping, MPa, compression positive."""
    topping = making_of(looked.past.beam).topping
    assert topping is not None
    law = Aashto.of(topping.casting)
    days = max(looked.t - td, topping.hardens)
    shrinkage = float(law.shrinkage(days) - law.shrinkage(topping.hardens))
    modulus, creep = float(law.modulus(28.0)), float(law.creep(days, topping.hardens))
    g = gross(looked.past, True)
    above = topping.base + topping.outline.centroid - g.centroid
    force = shrinkage * topping.outline.area * modulus
    stress = deck_shrinkage_gain(force, g.area, g.inertia, composite.eccentricity, above, creep)
    return stress, (
        Input("εddf", shrinkage, "", "of the deck, once it has hardened"),
        Input("Ecd", modulus, "MPa", "of the deck"),
        Input("ψd", creep, "", "of the deck"),
        Input("Δfcdf", stress, "MPa", "at the tendons by shrinkage of the deck, compression positive"),
    )

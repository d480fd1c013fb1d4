"""Losses by Zia and others, to which ACI 318 refers, beside those computed step by step."""

from __future__ import annotations

from soffit.codes.aci318 import losses
from soffit.codes.aci318.losses import When
from soffit.codes.explained import Input, sentence
from soffit.codes.instants import by_force, by_moment, heights
from soffit.codes.lost import Looked, Ours, Parts, Row
from soffit.codes.strengths import at_release, ordered
from soffit.codes.terms import by_term, end_of_life
from soffit.materials.standards import aci_modulus
from soffit.member.time.schedule import making_of

NAME = "ACI 318-19 (Zia and others)"


def row(looked: Looked, everything: Looked, ours: Row) -> Row:
    """Elastic shortening, creep, shrinkage and relaxation in lump sums. Raises ``ValueError`` where the paper has no
    value."""
    past, t0 = looked.past, looked.t0
    if looked.steel == "none":
        raise ValueError("its relaxation is for steel")
    cast = making_of(past.beam).casting
    when: When = "before casting" if looked.when == "before casting" else "after curing"
    eci, ec = aci_modulus(at_release(past, looked.after).value), aci_modulus(ordered(past).value)
    prestress, weight = _release(looked)
    fcir = losses.stress_at_release(by_prestress=prestress, by_weight=weight, when=when)
    later = -sum(looked.pressed(j) for j in looked.later()) if looked.bonded else 0.0
    es = losses.elastic(steel_modulus=looked.modulus, concrete_modulus=eci, stress=fcir, when=when)
    cr = losses.creep(steel_modulus=looked.modulus, concrete_modulus=ec, stress=fcir, later=later, when=when)
    sh = losses.shrinkage(
        steel_modulus=looked.modulus,
        volume_surface=cast.notional_size / 2.0,
        humidity=cast.humidity,
        when=when,
        cured=max(t0 - cast.cured_until, 0.0),
    )
    ratio = looked.before() / looked.tensile
    re = losses.relaxation(other=max(sh + cr + es, 0.0), tensile=looked.tensile, ratio=ratio, steel=looked.steel)
    parts = Parts(es, 0.0, sh, cr, re, 0.0)
    mine = Ours(past)
    creep = (
        f"creep, with Kcr = {losses.CREEP[when]:.1f} on Ec at 28 days ({ec:.0f} MPa) where we have "
        f"{mine.creep(looked.t, t0) * ec:.2f}, and with {fcir - later:.1f} MPa in the concrete from first to last"
    )
    shrunk = mine.shrinkage(looked.t, t0)
    shrinkage = f"its shrinkage of {1000 * sh / looked.modulus:.3f} ‰, ours {1000 * shrunk:.3f} ‰"
    causes = by_term(parts, ours.parts, creep, shrinkage, "its relaxation")
    inputs = (
        Input("fcpi", prestress, "MPa", "compression beside the tendons by the force before shortening"),
        Input("fg", weight, "MPa", "tension there by the weight that acts then"),
        Input("fcir", fcir, "MPa", ""),
        Input("fcds", later, "MPa", "tension there by loads put on later"),
        Input("Eci", eci, "MPa", "19.2.2.1"),
        Input("Ec", ec, "MPa", "19.2.2.1"),
        Input("V/S", cast.notional_size / 2.0, "mm", ""),
        Input("RH", cast.humidity, "%", ""),
        Input("fpi/fpu", ratio, "", ""),
    )
    text = sentence(NAME, parts.total, ours.parts.total, causes, "MPa") + end_of_life(looked)
    most = losses.MOST.get(looked.steel)
    if most is not None and parts.total > most:
        text += f" The paper does not expect more than {most:.0f} MPa."
    return Row(looked.groups, looked.of, NAME, "20.3.2.6, its commentary", None, parts, inputs, causes, text)


def _release(looked: Looked) -> tuple[float, float]:
    """fcpi and fg, MPa."""
    past, y = looked.past, looked.y
    prestress = weight = 0.0
    for j in looked.jumps:
        if j.step > looked.after:
            continue
        weight -= looked.here(by_moment(past, j, y))
        for i in j.groups:
            had = past.tendons[i]
            force = past.beam.tendons[i].area * had.hold * (had.jack - had.friction - had.draw_in - had.bed)
            prestress += looked.here(by_force(past, j.composite, force, heights(past, i), y))
    return prestress, weight

"""Stresses just after a stage against EN 1992-1-1:2004."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.en1992 import stresses
from soffit.codes.stagecheck import At, StageCheck
from soffit.codes.strengths import Strength, ordered
from soffit.detail.limits import RULES
from soffit.member.time.schedule import days, making_of

NAME = stresses.NAME
PROVEN = "0.7 fck(t) for pretensioned members, where it is proven that no crack along the tendons follows."
DECOMPRESSION = (
    "Wanted in the exposure classes XC2 to XC4 under quasi-permanent loads, in XD and XS under frequent ones: bonded "
    "tendons 25 mm within compressed concrete; here at the face."
)
LINEAR = "Beyond it creep is no longer in proportion to stress."
CRACKED = "Stress of the uncracked section; where it has cracked the concrete is pressed harder."


def strength(at: At) -> Strength:
    """fck(t). Raises ``ValueError`` where nothing is left of the mean strength."""
    full, mean = ordered(at.past), float(at.past.strength[at.step])
    found = stresses.characteristic(mean, at.age, full.value)
    if found >= full.value:
        return full
    return Strength(found, f"mean {mean:.1f} − 8 = {found:.1f} MPa at {days(at.age)}")


def checks(at: At) -> Iterator[StageCheck | None]:
    f = strength(at)
    tensile = float(at.past.tensile[at.step])
    if at.kind == "transfer":
        limit = stresses.compression_at_transfer(f.value)
        yield at.check(at.faces, "compression", limit, f, NAME, "5.10.2.2 (5)", "0.6 fck(t)", note=PROVEN)
        yield _creep(at, f, "5.10.2.2 (5)", "0.45 fck(t)")
    else:
        if at.kind == "total":
            limit = stresses.compression_characteristic(f.value)
            yield _compression(at, limit, f, "7.2 (2)", "0.6 fck", note="In the exposure classes XD, XF and XS.")
        yield _creep(at, f, "7.2 (3)", "0.45 fck")
        yield from _topping(at)
    yield at.check(
        at.faces,
        "tension",
        stresses.tension_uncracked(tensile),
        Strength(tensile, f"fctm(t) {tensile:.2f} MPa, mean"),
        NAME,
        "7.1 (2)",
        "fct,eff = fctm(t)",
        binding=False,
        note="Beyond it the section counts as cracked (7.3).",
    )
    if any(t.bond == "bonded" for t in at.past.beam.tendons) and at.kind != "transfer":
        yield at.check(
            at.stretched,
            "tension",
            0.0,
            None,
            NAME,
            "7.3.1 (5), Table 7.1N",
            "decompression",
            binding=False,
            note=DECOMPRESSION,
        )
    yield from _tendons(at)
    yield from _bars(at)


def _compression(
    at: At, limit: float, f: Strength, clause: str, rule: str, binding: bool = True, note: str = ""
) -> StageCheck | None:
    worst = at.worst_crack()
    if worst is not None:
        return StageCheck(
            at.instant,
            at.age,
            at.kind,
            NAME,
            clause,
            rule,
            "compression",
            "cracked section",
            worst[1],
            worst[0],
            limit,
            f.said,
            binding,
            note,
        )
    if at.past.beam.tendons and float(at.past.cracked[at.step].max()) > 0.0:
        note = f"{note} {CRACKED}".strip()
    return at.check(at.faces, "compression", limit, f, NAME, clause, rule, binding=binding, note=note)


def _creep(at: At, f: Strength, clause: str, rule: str) -> StageCheck | None:
    return _compression(at, stresses.compression_quasi_permanent(f.value), f, clause, rule, binding=False, note=LINEAR)


def _topping(at: At) -> Iterator[StageCheck | None]:
    topping = making_of(at.past.beam).topping
    if topping is None or not at.topping:
        return
    f = Strength(topping.casting.ordered, f"{topping.casting.ordered:.4g} MPa, the topping at 28 days")
    yield at.check(
        at.topping,
        "compression",
        stresses.compression_quasi_permanent(f.value),
        f,
        NAME,
        "7.2 (3)",
        "0.45 fck",
        binding=False,
        note=LINEAR,
    )


def _tendons(at: At) -> Iterator[StageCheck]:
    now = at.stressed_now()
    for i, tendon in enumerate(at.past.beam.tendons):
        acting, steel = at.acting(i), tendon.steel
        if steel.kind == "linear" or acting is None:
            continue
        if i in now:
            for rule in RULES:
                if rule.standard != NAME:
                    continue
                limit = rule.stress(steel.yield_strength, steel.tensile)
                stress, x = (at.past.tendons[i].jack, tendon.x_from) if rule.when == "at the jack" else acting
                yield at.tendon(i, limit, NAME, rule.clause, rule.rule, stress, x, _said(rule.when))
        elif at.kind != "transfer":
            limit = stresses.tendon_in_service(steel.tensile)
            yield at.tendon(i, limit, NAME, "7.2 (5)", "0.75 fpk", *acting)


def _said(when: str) -> str:
    return f"{when[0].upper()}{when[1:]}."


def _bars(at: At) -> Iterator[StageCheck]:
    worst = at.past.crack_stress[at.step]
    bars = at.past.beam.bars
    if not bars or at.past.beam.tendons or float(worst.max()) <= 0.0:
        return
    i = int(worst.argmax())
    fyk = min(b.steel.yield_strength for b in bars)
    yield StageCheck(
        at.instant,
        at.age,
        at.kind,
        NAME,
        "7.2 (5)",
        "0.8 fyk",
        "bar",
        "bars at a crack",
        float(at.past.x[i]),
        float(worst[i]),
        stresses.bar_in_service(fyk),
    )

"""Stresses just after a stage against AASHTO LRFD 5.9.2, of prestressed beams."""

from __future__ import annotations

from collections.abc import Iterator

from soffit.codes.aashto import stresses
from soffit.codes.stagecheck import NOT_YET, At, StageCheck
from soffit.codes.strengths import Strength, at_age, at_release
from soffit.member.time.schedule import making_of

NAME = stresses.NAME


def checks(at: At) -> Iterator[StageCheck | None]:
    if not at.past.beam.tendons:
        return
    yield from _transfer(at) if at.kind == "transfer" else _service(at)
    yield from _tendons(at)


def _transfer(at: At) -> Iterator[StageCheck | None]:
    f = at_release(at.past, at.step)
    limit = stresses.compression_at_transfer(f.value)
    yield at.check(at.faces, "compression", limit, f, NAME, "5.9.2.3.1a", "0.65 f'ci")
    limit = stresses.tension_at_transfer(f.value, bonded=False)
    more = stresses.tension_at_transfer(f.value, bonded=True)
    yield at.check(
        at.faces,
        "tension",
        limit,
        f,
        NAME,
        "5.9.2.3.1b",
        "0.0948 √f'ci ≤ 0.2 ksi",
        binding=False,
        note=f"Up to {more:.2f} MPa (0.24 √f'ci ksi) where bonded steel takes the tensile force.",
    )


def _service(at: At) -> Iterator[StageCheck | None]:
    f, total = at_age(at.past, at.step), at.kind == "total"
    rule = "0.60 φw f'c, φw = 1" if total else "0.45 f'c"
    final = total or at.last
    note = "" if final else NOT_YET
    limit = stresses.compression_in_service(f.value, total)
    yield at.check(at.faces, "compression", limit, f, NAME, "5.9.2.3.2a", rule, binding=final, note=note)
    topping = making_of(at.past.beam).topping
    if topping is not None and at.topping:
        deck = Strength(topping.casting.ordered, f"{topping.casting.ordered:.4g} MPa, the topping at 28 days")
        limit = stresses.compression_in_service(deck.value, total)
        yield at.check(at.topping, "compression", limit, deck, NAME, "5.9.2.3.2a", rule, binding=final, note=note)
    bonded = all(t.bond == "bonded" for t in at.past.beam.tendons)
    limit = stresses.tension_in_service(f.value) if bonded else 0.0
    note = "Service III takes 0.8 of the live load of vehicles; here all of it." if total else note
    yield at.check(
        at.stretched,
        "tension",
        limit,
        f,
        NAME,
        "5.9.2.3.2b",
        "0.19 √f'c ≤ 0.6 ksi" if bonded else "no tension",
        binding=final,
        note=note,
    )


def _tendons(at: At) -> Iterator[StageCheck]:
    now = at.stressed_now()
    for i, tendon in enumerate(at.past.beam.tendons):
        acting, steel, had = at.acting(i), tendon.steel, at.past.tendons[i]
        if steel.kind == "linear" or acting is None:
            continue
        if i in now and tendon.when == "before casting":
            limit = stresses.strand_before_transfer(steel.tensile, tendon.relaxation)
            rule = "0.75 fpu" if tendon.relaxation == "low relaxation" else "0.70 fpu"
            stress = float((had.jack - had.friction - had.draw_in - had.bed).max())
            yield at.tendon(i, limit, NAME, "5.9.2.2", rule, stress, acting[1], "Just before release.")
        elif i in now:
            limit = stresses.tendon_at_jack(steel.yield_strength)
            yield at.tendon(
                i, limit, NAME, "5.9.2.2", "0.90 fpy", had.jack, tendon.x_from, "At the jack, before seating."
            )
            limit = stresses.tendon_after_seating(steel.tensile, True, tendon.relaxation)
            yield at.tendon(i, limit, NAME, "5.9.2.2", "0.70 fpu", *at.anchored(i), "At the anchors, after seating.")
            limit = stresses.tendon_after_seating(steel.tensile, False, tendon.relaxation)
            rule = "0.74 fpu" if tendon.relaxation == "low relaxation" else "0.70 fpu"
            yield at.tendon(i, limit, NAME, "5.9.2.2", rule, *acting, "Elsewhere, after seating.")
        elif at.last:
            limit = stresses.tendon_in_service(steel.yield_strength)
            yield at.tendon(i, limit, NAME, "5.9.2.2", "0.80 fpy", *acting, "After all losses.")

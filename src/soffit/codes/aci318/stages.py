"""Stresses just after a stage against ACI 318-19 24.5, of prestressed beams."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.aci318 import stresses
from soffit.codes.stagecheck import NOT_YET, At, StageCheck
from soffit.codes.strengths import at_age, at_release
from soffit.detail.limits import RULES

NAME = stresses.NAME
CLASSES = {
    "U": "Class U: uncracked; stresses of the gross section, no crack control asked.",
    "T": "Class T: between uncracked and cracked; deflection by a cracked section.",
    "C": "Class C: cracked; no limit of concrete stress in service, cracks and deflections are to be checked.",
}


def checks(at: At) -> Iterator[StageCheck | None]:
    if not at.past.beam.tendons:
        return
    yield from _transfer(at) if at.kind == "transfer" else _service(at)
    yield from _tendons(at)


def _transfer(at: At) -> Iterator[StageCheck | None]:
    f, ends = at_release(at.past, at.step), at.ends()
    for end, mask in ((True, ends), (False, ~ends)):
        part = ("at an end" if end else "elsewhere") if ends.any() else ""
        limit = stresses.compression_at_transfer(f.value, end)
        rule = "0.70 f'ci" if end else "0.60 f'ci"
        yield at.check(at.faces, "compression", limit, f, NAME, "24.5.3.1", rule, mask, part)
        limit = stresses.tension_at_transfer(f.value, end)
        rule = "6 √f'ci (psi)" if end else "3 √f'ci (psi)"
        yield at.check(
            at.faces,
            "tension",
            limit,
            f,
            NAME,
            "24.5.3.2",
            rule,
            mask,
            part,
            binding=False,
            note="Beyond it bonded steel must take the whole tensile force.",
        )


def _service(at: At) -> Iterator[StageCheck | None]:
    f = at_age(at.past, at.step)
    ft = max(float(np.nanmax(v)) if np.any(np.isfinite(v)) else 0.0 for v in at.stretched.values())
    found = stresses.tension_class(ft, f.value)
    factor = 12.0 if found == "T" else 7.5
    limit = factor * stresses.root(f.value)
    yield at.check(
        at.stretched,
        "tension",
        limit,
        f,
        NAME,
        "24.5.2.1",
        f"{factor:g} √f'c (psi)",
        binding=False,
        note=CLASSES[found],
    )
    if found == "C":
        # mistake 9 of the fact sheet: the limits of service are for classes U and T alone
        return
    total = at.kind == "total"
    final = total or at.last
    rule = "0.60 f'c" if total else "0.45 f'c"
    limit = stresses.compression_in_service(f.value, total)
    yield at.check(
        at.faces, "compression", limit, f, NAME, "24.5.4.1", rule, binding=final, note="" if final else NOT_YET
    )


def _tendons(at: At) -> Iterator[StageCheck]:
    for i in at.stressed_now():
        tendon = at.past.beam.tendons[i]
        for rule in RULES:
            if rule.standard != NAME or tendon.steel.kind == "linear":
                continue
            limit = rule.stress(tendon.steel.yield_strength, tendon.steel.tensile)
            if rule.when == "at the jack":
                yield at.tendon(
                    i, limit, NAME, rule.clause, rule.rule, at.past.tendons[i].jack, tendon.x_from, "At the jack."
                )
            elif tendon.when == "after curing":
                yield at.tendon(
                    i, limit, NAME, rule.clause, rule.rule, *at.anchored(i), "At the anchors, after lock-off."
                )

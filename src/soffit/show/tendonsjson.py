"""What there is to tell of tendons as JSON, each key with its unit."""

from __future__ import annotations

import json
from collections.abc import Iterable
from math import isfinite
from typing import Any

import numpy as np

from soffit.show.jsonout import DIGITS, KN, KNM
from soffit.show.tendonsfacts import Facts, Group
from soffit.show.tendonswords import closing


def to_dict(facts: Facts) -> dict[str, Any]:
    """Plain lists, texts and numbers: mm, MPa, kN, kN/m, kNm, six significant digits; ``None`` where there is none."""
    import soffit

    found = facts.moments
    return {
        "name": facts.beam.name,
        "soffit_version": soffit.__version__,
        "assumptions": list(facts.notes),
        "tendons": [_group(group) for group in facts.groups],
        "moments": {
            "x_mm": _numbers(found.x),
            "primary_kNm": _numbers(found.primary / KNM),
            "secondary_kNm": _numbers(found.secondary / KNM),
            "line_of_thrust_mm": _numbers(found.line),
            "centre_of_tendons_mm": _numbers(found.tendon),
        },
        "supports": [
            {"x_mm": _number(x), "secondary_moment_kNm": _number(m / KNM), "reaction_kN": _number(r / KN)}
            for x, m, r in zip(found.supports, found.at_supports, found.reactions, strict=True)
        ],
        "concordant": facts.concordant,
        "balanced_share": [None if s is None else _number(s) for s in facts.shares],
        "sentence": closing(facts, facts.beam.units),
    }


def to_json(facts: Facts) -> str:
    """Strict JSON text, ending in a newline."""
    return json.dumps(to_dict(facts), ensure_ascii=False, allow_nan=False, indent=1) + "\n"


def _group(group: Group) -> dict[str, Any]:
    t, found, bed = group.tendon, group.jacked, group.bed
    told: dict[str, Any] = {
        "name": group.name,
        "label": t.label,
        "when": t.when,
        "shape": t.profile.shape,
        "ordinates": [
            {
                "place": o.what,
                "x_mm": _number(o.x),
                "height_mm": _number(o.height),
                "below_centroid_mm": _number(o.below),
            }
            for o in group.ordinates
        ],
        "least_radius": None
        if group.bend is None
        else {
            "radius_mm": _number(group.bend.radius),
            "x_mm": _number(group.bend.x),
            "wanted_mm": None if group.least is None else _number(group.least.radius),
            "source": None if group.least is None else group.least.source,
            "too_sharp": group.too_sharp,
        },
        "kinks": [{"x_mm": _number(k.x), "angle_rad": _number(k.angle)} for k in group.kinks],
        "stress_at_jack_MPa": None if t.stress_is == "effective" else _number(t.stress),
    }
    if found is not None:
        told["stressing"] = {
            "x_mm": _numbers(found.x),
            "after_friction_MPa": _numbers(found.before),
            "after_draw_in_MPa": _numbers(found.stress),
            "mean_friction_loss_MPa": _number(found.friction_loss),
            "mean_draw_in_loss_MPa": _number(found.draw_in_loss),
            "influence_left_mm": None if found.influence[0] is None else _number(found.influence[0]),
            "influence_right_mm": None if found.influence[1] is None else _number(found.influence[1]),
            "slackens_whole_tendon": found.whole,
        }
    if bed is not None:
        told["before_release"] = {
            "slip_MPa": _number(bed.slip),
            "deviators_MPa": _number(bed.deviators),
            "warming_MPa": _number(bed.warming),
            "relaxation_MPa": _number(bed.relaxation),
        }
    return told | {
        "transfer_lengths": [
            {"standard": each.standard, "clause": each.clause, "lower_mm": _number(each.lower),
             "basic_mm": _number(each.basic), "upper_mm": _number(each.upper), "taken": each.said}
            for each in group.lengths
        ],
        "secondary_at_supports_kNm": _numbers(np.array(group.alone.at_supports) / KNM),
        "line_of_thrust_above_it_at_supports_mm": _numbers(
            np.interp(group.alone.supports, group.alone.x, np.nan_to_num(group.alone.shift))
        ),
        "force": {"x_mm": _numbers(group.along.x), "force_kN": _numbers(group.along.force / KN)},
        "equivalent_loads": [
            {"from_mm": _number(s.x_from), "to_mm": _number(s.x_to), "up_kN_per_m": _number(s.up)}
            for s in group.stretches
        ],
        "point_forces": [
            {"where": p.where, "x_mm": _number(p.x), "y_mm": _number(p.y), "up_kN": _number(p.up / KN),
             "right_kN": _number(p.right / KN), "moment_kNm": _number(p.moment / KNM)}
            for p in group.loads.points
        ],
    }  # fmt: skip


def _number(value: float) -> float | None:
    """Six significant digits; ``None`` where there is no such number (a line of thrust where no tendon runs)."""
    if not isfinite(value):
        return None
    rounded = float(f"{float(value):.{DIGITS}g}")
    return rounded if rounded else 0.0


def _numbers(values: Iterable[float]) -> list[float | None]:
    return [_number(value) for value in values]

"""The words of the stressing sheet: cautions, what was assumed, what was not checked, and the closing sentence."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from soffit.catalogue.torque import TORQUE_SCATTER
from soffit.detail import order
from soffit.detail.rods import TURN_SCATTER, Turned
from soffit.detail.stressing import SEATING, GroupSheet, StressingSheet
from soffit.member.beam import Beam
from soffit.show.numbers import Units, given, quantity, sig

FURTHER = 1e-3
"""The steel's curve is mentioned where it stretches a tendon by this share more than Hooke's law."""
CAUTIONS = (
    "Stressed steel stores energy: stand clear of the line of the tendon, at both ends, and never over the nut or the "
    "anchor, while it is stressed and as long as it is.",
    "Nobody passes behind the jack or the dead end; stop the pump before anything is measured by hand.",
    "Force and elongation must both be right: where they disagree by more than the tolerance, stop, find the cause, "
    "and have it put right before going on.",
)
REVIEW = "For a licensed engineer to review; the local code and the suppliers of steel, anchor and jack govern."
_TWIST = (
    "Torque measures force poorly, and twisting adds to the pull, so that a rod yields earlier under the wrench than "
    "under a jack (from memory): accept no prestress by torque alone, measure the elongation too."
)


def cautions(sheet: StressingSheet) -> list[str]:
    """Those of every sheet, then those of this one."""
    said = list(CAUTIONS)
    if any(g.rod for g in sheet.groups):
        said.append(_TWIST)
    for g in sheet.groups:
        said += [
            f"{g.name}: the stress {limit.when} is {100 * limit.ratio:.0f} % of what {limit.standard} {limit.clause} "
            f"allows{'; do not stress' if limit.when == 'at the jack' else ''}."
            for limit in g.limits
            if not limit.kept
        ]
        if g.rod and g.rod.reached:
            said.append(
                f"{g.name}: at this torque the force may, within its scatter of ± {100 * TORQUE_SCATTER:.0f} %, go so "
                f"far that {' and '.join(g.rod.reached)}."
            )
        if g.locked_force <= 0.0:
            said.append(f"{g.name}: the draw-in of the anchor takes the whole force.")
    return [*said, REVIEW]


def ends(group: GroupSheet, units: Units) -> str:
    """How the elongation is shared where two ends are jacked; empty for one end."""
    if not group.both:
        return ""
    left, right = (quantity(mm, "length", units) for mm in group.ends)
    text = f"{group.name}: with two jacks at once {left} at the left and {right} at the right"
    if group.one_jack:
        first, then = (quantity(mm, "length", units) for mm in group.one_jack)
        text += f"; with one jack {first} at the left first and then {then} at the right"
    return text + "; all pulls count together."


def losses(group: GroupSheet) -> str:
    """What friction and draw-in take, mean along the tendon."""
    shares = (("friction", group.friction_loss), ("draw-in", group.draw_in_loss))
    parts = [f"{what} {sig(100.0 * loss / group.tendon.stress, 2)} %" for what, loss in shares if loss > 0.0]
    return f"{group.name}: {' and '.join(parts)} of the stress at the jack, mean along it." if parts else ""


def rod(group: GroupSheet, units: Units) -> list[str]:
    """Torque, turns and what rod and nut stand."""
    turned = group.rod
    if turned is None:
        return []
    low, high = (quantity(force, "force", units) for force in turned.band)
    few, many = (quantity(force, "force", units) for force in turned.turn_band)
    source = "of the file" if turned.factor_given else "dry steel, common practice"
    scatter = f"± {100 * TORQUE_SCATTER:.0f} %, from memory"
    return [
        f"{group.name}: {quantity(turned.torque, 'torque', units)} on a nut {turned.thread.name} "
        f"(T = K·d·F, K = {turned.factor:g}, {source}) gives {low} to {high} ({scatter}).",
        f"{group.name}: {sig(turned.turns)} turns from snug give {few} to {many} (± {100 * TURN_SCATTER:.0f} %, from "
        "memory); the give of nuts and plates and the shortening of the concrete take more turns.",
        f"{group.name}: {_stands(turned, units)}.",
    ]


def _stands(turned: Turned, units: Units) -> str:
    return ", ".join(f"at {quantity(force, 'force', units)} {way}" for way, force in turned.holding)


def assumed(sheet: StressingSheet, units: Units) -> list[str]:
    """What the numbers rest on."""
    early = [g for g in sheet.groups if g.pretensioned]
    post = [g for g in sheet.groups if not g.pretensioned]
    said = [*_order(sheet.beam), *_gauge(sheet)]
    for source in dict.fromkeys(g.tolerance.source for g in sheet.groups):
        of = [g for g in sheet.groups if g.tolerance.source == source]
        shares = ", ".join(dict.fromkeys(f"± {100 * g.tolerance.share:g} %" for g in of))
        said.append(
            f"Tolerance {shares} between force by gauge and force by elongation: {source}"
            + (" (from memory); EN 13670 has its own, which is not known here." if source.startswith("ACI") else ".")
        )
    said.append(
        f"The first mark is made at {100 * SEATING:.0f} % of the force, when the slack is out (common practice); what "
        "came out before it is added in proportion."
    )
    said += _bed(early, units)
    if post:
        said.append(
            "The elongation is that before lock-off, along the tendon, with the friction and wobble of the file; the "
            "steel inside the jack and the slip of a dead end are not in it."
        )
        said += _post(sheet, post)
    curved = [g.name for g in sheet.groups if (g.elongation or g.per_length) > (1.0 + FURTHER) * g.hooke]
    if curved:
        said.append(f"{', '.join(curved)}: the steel's own curve stretches further than stress over modulus.")
    polymer = [g.name for g in sheet.groups if not g.limits]
    if polymer:
        said.append(f"{', '.join(polymer)}: not of steel, so the limits at the jack do not apply; ask the supplier.")
    strength = sheet.beam.concrete.strength_at_transfer
    if strength is None:
        said.append("The strength that the concrete must have when the force comes on it is not in the file.")
    else:
        said.append(f"Before the force comes on it the concrete must have {given(strength, 'stress', units)}.")
    return said


NOT_CHECKED = (
    "Bearing and bursting behind the anchors, stresses of the concrete as the force comes on, the jack's own loss, "
    "temperature of the steel."
)


def _order(beam: Beam) -> list[str]:
    whens = dict.fromkeys(t.when for t in beam.tendons)
    by_file = [when for when in whens if order.from_stages(beam, when)]
    said = f"as the stages of the file say, and {order.WITHIN} (common practice)"
    if not by_file:
        said = order.RULE
    elif len(by_file) < len(whens):
        said = f"what is stressed {by_file[0]} {said}; the others {order.RULE}"
    return [f"Order: {said}. Numbers run from the left face, seen along x."]


def _gauge(sheet: StressingSheet) -> list[str]:
    if sheet.ram is None:
        return ["No area of the ram is given, so the gauge is left blank; give it with --ram."]
    return ["Gauge: force over the area of the ram; the calibration of jack and gauge together governs."]


def _bed(early: Sequence[GroupSheet], units: Units) -> list[str]:
    if not early:
        return []
    said = []
    unknown = [g for g in early if g.run is None]
    for g in unknown:
        metre = 1000.0 if units == "SI" else 304.8
        each = quantity(g.per_length * metre, "length", units)
        said.append(
            f"{g.name}: {each} for each {'metre' if units == 'SI' else 'foot'} between the anchors of the bed, whose "
            "length is not known; give it with --bed."
        )
    slips = [g for g in early if g.draw_in]
    said += [f"{g.name}: slip and give of the bed, {given(g.draw_in, 'length', units)}, come after." for g in slips]
    said.append(
        "In the bed: the elongation is that of the steel between the anchors; slip at the far end makes it longer, "
        "friction at deviators shorter, and neither is counted. All are released at once, so their order changes no "
        "shortening."
    )
    return said


def _post(sheet: StressingSheet, post: Sequence[GroupSheet]) -> list[str]:
    said = []
    still = [g.name for g in post if g.tendon.friction == 0.0 and g.tendon.wobble == 0.0]
    if still:
        said.append(f"{', '.join(still)}: no friction or wobble is given, so none is taken.")
    tight = [g.name for g in post if g.draw_in == 0.0]
    if tight:
        said.append(f"{', '.join(tight)}: no draw-in is given, so none is taken.")
    if sum(g.tendon.count for g in post) > 1:
        open_moments = ", moments that the supports leave open not counted" if _redundant(sheet.beam) else ""
        said.append(
            "Force when all are stressed: less what every later tendon takes by shortening the concrete (gross "
            f"section, mean along the tendon{open_moments})."
        )
    return said


def _redundant(beam: Beam) -> bool:
    held = beam.supports
    return len(list(pairwise(held.x))) > 1 or ((held.fixed_left or held.fixed_right) and len(held.x) > 1)


def closing(sheet: StressingSheet, units: Units) -> str:
    """One sentence that a colleague could be told on the phone."""
    over = [g.name for g in sheet.groups if any(not li.kept for li in g.limits if li.when == "at the jack")]
    if over:
        return f"{sheet.beam.name}: do not stress {', '.join(over)}; the stress at the jack is above what is allowed."
    groups = list(dict.fromkeys(line.group.name for line in sheet.tendons))
    by_name = {g.name: g for g in sheet.groups}
    parts = [_wanted(by_name[name], units) for name in groups[:3]]
    more = f", and {len(groups) - 3} more groups as listed" if len(groups) > 3 else ""
    shares = " or ".join(dict.fromkeys(f"± {100 * g.tolerance.share:g} %" for g in sheet.groups))
    return f"{sheet.beam.name}: stress {'; then '.join(parts)}{more}, force and elongation {shares}."


def _wanted(group: GroupSheet, units: Units) -> str:
    count = group.tendon.count
    which = order.name(group.name, 1)
    if count > 1:
        which += f"{' and ' if count == 2 else ' to '}{order.name(group.name, count)}"
    gauge = "" if group.gauge is None else f" ({quantity(group.gauge, 'pressure', units)} on the gauge)"
    long = "" if group.elongation is None else f" and {quantity(group.elongation, 'length', units)}"
    return f"{which} to {quantity(group.force, 'force', units)}{gauge}{long}"

"""The ends of a prestressed beam: bursting, spalling, splitting, plates and supports, by a standard's clauses."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import degrees, pi

from soffit.codes import specified
from soffit.codes.aashto import ends as aashto
from soffit.codes.aci318 import ends as aci318
from soffit.codes.en1992 import ends as en1992
from soffit.codes.endzone import Anchors, Plate
from soffit.codes.working import Working
from soffit.detail import endplaces as places
from soffit.detail import endsupport as support
from soffit.detail.endlines import Collected, Line, Rules
from soffit.detail.endplaces import Cluster, Row, Side
from soffit.errors import SoffitError
from soffit.materials import standards
from soffit.member.beam import Beam
from soffit.member.bed import released
from soffit.member.transfer_length import good_bond

STANDARDS = ("en1992", "aci318", "aashto")


@dataclass(frozen=True)
class End:
    side: Side
    lines: tuple[Line, ...]
    more: tuple[tuple[str, tuple[Working, ...]], ...]
    """Numbers of which the standard makes no check, each row of workings under its title."""
    groups: tuple[Cluster, ...]
    """The anchors in the face."""
    not_checked: tuple[str, ...]
    assumptions: tuple[str, ...]


@dataclass(frozen=True)
class Ends:
    beam: Beam
    standard: str
    """As it is cited."""
    ends: tuple[End, End]
    """Left and right."""
    assumptions: tuple[str, ...]
    cautions: tuple[str, ...]

    @property
    def alike(self) -> bool:
        """Whether both ends have the same checks."""
        a, b = self.ends
        return (_numbers(a) == _numbers(b)) and a.not_checked == b.not_checked and a.assumptions == b.assumptions


def _numbers(end: End) -> list[tuple[str, ...]]:
    """Every working as text, to nine digits, for reactions of two equal ends differ by rounding."""
    rows = [(line.title, line.check.workings) for line in end.lines]
    return [
        (title, w.name, w.formula, f"{w.value:.9g}", *(f"{s.name} {s.value:.9g}" for s in w.symbols))
        for title, workings in [*rows, *end.more]
        for w in workings
    ]


CAUTIONS = (
    "Stressed steel stores energy: nobody stands behind an anchor, and nothing is stressed before the concrete has the "
    "strength that is taken here.",
    "The stirrups counted here may be needed for shear too; that both fit into them is not checked.",
)


def ends(beam: Beam, to: str = "en1992") -> Ends:
    """Both ends of a prestressed beam by a standard: ``"en1992"``, ``"aci318"`` or ``"aashto"``.

    Raises :class:`SoffitError` for another standard, a beam without tendons, plates that do not fit, and concrete too
    weak for the standard's strength.
    """
    if to not in STANDARDS:
        raise SoffitError(f"there are no rules for ends by {to!r}: choose one of {', '.join(STANDARDS)}")
    if not beam.tendons:
        raise SoffitError(
            "the beam has no tendons, so its ends hold no prestress to check; describe them in [[tendons]]"
        )
    rules: Rules = {"en1992": en1992, "aci318": aci318, "aashto": aashto}[to]
    young, said = _strength(beam, to)
    found = _one(beam, "left", to, rules, young), _one(beam, "right", to, rules, young)
    return Ends(beam, rules.NAME, found, said, CAUTIONS)


def bearings(beam: Beam, to: str = "en1992") -> tuple[End, End]:
    """Of a beam without tendons, whose ends hold no prestress: bearing on the support at both, as in :func:`ends`."""
    rules: Rules = {"en1992": en1992, "aci318": aci318, "aashto": aashto}[to]

    def one(side: Side) -> End:
        end = Collected(beam, side, rules)
        end.assumptions.clear()  # those of stirrups have no part in it
        _supported(end, to)
        return End(side, tuple(end.lines), (), (), tuple(end.not_checked), tuple(end.assumptions))

    return one("left"), one("right")


def _strength(beam: Beam, to: str) -> tuple[float, tuple[str, ...]]:
    """Strength at stressing as the standard wants it, MPa, and how it was found."""
    concrete, at_transfer = beam.concrete, beam.concrete.strength_at_transfer
    if at_transfer is None and concrete.specified is not None:
        found, how = concrete.specified, "the strength is that which the file orders"
    elif to == "en1992":
        mean = concrete.strength if at_transfer is None else at_transfer
        which = "strength" if at_transfer is None else "strength at transfer"
        how = f"the {which} is a mean and fck(t) = fcm(t) − 8 MPa (3.1.2 (5))"
        found = specified.en(mean)
    elif at_transfer is None:
        found = specified.aci(beam.concrete.strength)
        how = "the specified strength follows from the mean as ACI 301 adds to it without test records"
    else:
        found = at_transfer
        how = "f'ci is the strength at transfer as the file gives it"
    said = [f"Concrete when stressed: {how}."]
    if at_transfer is None:
        said.insert(0, "No strength_at_transfer is given: the concrete is taken at its full strength when stressed.")
    said.append("Forces are those at the jack at both ends; friction, draw-in and later losses are left out.")
    return found, tuple(said)


def _one(beam: Beam, side: Side, to: str, rules: Rules, young: float) -> End:
    end = Collected(beam, side, rules)
    effective = [name for name, t in places.named(beam) if t.stress_is == "effective"]
    groups: tuple[Cluster, ...] = ()
    if effective:
        end.missing(
            f"anchorage of {', '.join(effective)}: the stress is given after all losses, and these checks need the "
            'stress at the jack (stress_is = "at the jack")'
        )
    else:
        loose = [name for name, t in places.named(beam) if t.stress_scatter > 0.0]
        if loose:
            end.say(f"The force of {', '.join(loose)} was not measured and scatters; its mean is counted.")
        groups = places.clusters(beam, places.rows(beam, side))
        _anchored(end, groups, young)
        _pretensioned(end, to)
    inside = [
        name
        for name, t in places.named(beam)
        if t.when == "after curing" and places.inset(beam, side, t) > places.AT_THE_FACE
    ]
    if inside:
        end.missing(f"anchors inside the beam ({', '.join(inside)}), and the steel that ties them back")
    _supported(end, to)
    return End(side, tuple(end.lines), tuple(end.more), groups, tuple(end.not_checked), tuple(end.assumptions))


def _anchored(end: Collected, groups: tuple[Cluster, ...], young: float) -> None:
    """Bursting both ways, spalling, and the plates of post-tensioned anchors."""
    if not groups:
        return
    beam, outline = end.beam, end.beam.outline
    depth = outline.depth
    if outline.shape not in ("rectangle", "circle"):
        end.say(f"The formulas are for rectangular ends; the {outline.shape} section is taken as it stands.")
    for cluster in groups:
        which = f" ({cluster.names})" if len(groups) > 1 else ""
        end.tie(f"bursting{which}", end.rules.bursting(_upright(beam, cluster, len(groups)), end.yield_strength))
        angle = degrees(_towards(beam, cluster))
        if end.rules.NAME != en1992.NAME and not aashto.STEEPEST_DOWN <= angle <= aashto.STEEPEST_UP:
            words = f"{angle:.0f}".replace("-", "−")
            end.say(
                f"The force of {cluster.names} is inclined by {words}°, beyond the −5 to 20° of the approximate "
                "formulas (AASHTO LRFD 5.8.4.5.1, from memory)."
            )
    end.missing("compression of the concrete ahead of the anchors, behind whatever confines them")
    if len(groups) > 1:
        end.say("Anchors far apart: each group is checked in its own symmetric prism.")
        end.missing("the tie between groups of anchors that stand far apart, which needs a strut-and-tie model")
    total = sum(c.force for c in groups)
    resultant = sum(c.force * c.y for c in groups) / total
    tension = places.edge_tension(outline, total, resultant)
    whole = Anchors(total, 0.0, depth, depth, edge_tension=tension)
    end.tie("spalling", end.rules.spalling(whole, end.yield_strength))
    heights = [row.y for cluster in groups for row in cluster.rows]
    if max(heights) - min(heights) > 0.4 * depth:
        end.missing(
            "spalling between anchors farther apart than 0.4 of the depth, which needs an analysis "
            "(AASHTO LRFD 5.8.4.5.4, from memory); only the least force is counted"
        )
    for cluster in groups:
        _across(end, cluster, len(groups))
        for row in cluster.rows:
            _plate(end, row, [r for c in groups for r in c.rows if r is not row], young)


def _upright(beam: Beam, cluster: Cluster, count: int) -> Anchors:
    if count > 1:
        size = min(cluster.size, cluster.prism)
        return Anchors(cluster.force, size, cluster.prism, cluster.prism, incline=_towards(beam, cluster))
    off = abs(cluster.y - beam.outline.centroid)
    e = off if off > 1e-6 * beam.outline.depth else 0.0
    size = min(cluster.size, cluster.prism)
    return Anchors(cluster.force, size, beam.outline.depth, cluster.prism, e, _towards(beam, cluster))


def _towards(beam: Beam, cluster: Cluster) -> float:
    """Inclination, positive where the force points towards the centroid or is concentric."""
    off = cluster.y - beam.outline.centroid
    if abs(off) <= 1e-6 * beam.outline.depth:
        return abs(cluster.incline)
    return -cluster.incline if off > 0.0 else cluster.incline


def _across(end: Collected, cluster: Cluster, count: int) -> None:
    outline = end.beam.outline
    low, high = min(row.bottom for row in cluster.rows), max(row.top for row in cluster.rows)
    which = f" ({cluster.names})" if count > 1 else ""
    if places.hollow(outline, low, high):
        end.missing(
            f"bursting across{which}: the section is hollow at the anchors and its solid end is not in the file"
        )
        return
    room = places.narrowest(outline, low, high) / cluster.abreast
    wide = min((row.plate[0] if row.plate else 0.0) for row in cluster.rows)
    zone = Anchors(cluster.force, min(wide, room), room, room)
    if cluster.abreast > 1:
        end.say("Anchors of one group stand side by side, each in its equal share of the width.")
    end.say("Stirrups are taken as closed: two legs of each cross a force that pulls across.")
    end.tie(f"bursting across{which}", end.rules.bursting(zone, end.yield_strength), across=True)


def _plate(end: Collected, row: Row, others: Sequence[Row], young: float) -> None:
    if row.plate is None:
        end.missing(
            f'bearing under the plate of {row.name}: give its width and height, plate = ["150 mm", "150 mm"], in its '
            "anchor; bursting is counted for a plate without size, on the safe side"
        )
        return
    if places.hollow(end.beam.outline, row.bottom, row.top):
        end.missing(f"bearing under the plate of {row.name}: the section is hollow there")
        return
    wide, tall = row.plate
    anchor, count = row.tendon.anchor, row.tendon.count
    assert anchor is not None
    hole = anchor.plate_hole or row.tendon.duct
    net = wide * tall - pi * hole**2 / 4
    if net <= 0.0:
        raise SoffitError(
            f"the hole of {hole:g} mm leaves nothing of the plate of tendon {row.name}, {wide:g} × {tall:g} mm: give a "
            "larger plate"
        )
    ratio = places.free_ratio(end.beam.outline, row, others)
    check = end.rules.plate(Plate(wide * tall, net, ratio, row.force / count), young)
    end.lines.append(Line(f"{'each plate' if count > 1 else 'plate'} of {row.name}", check))
    for sentence in check.assumptions:
        end.say(sentence)


_NO_FORMULA = {
    "en1992": (
        "splitting of the pretensioned end: EN 1992-1-1 8.10.2 has no formula for it, only a strut-and-tie model; the "
        "lower transmission length below governs it (`--to aashto` counts steel by a rule for bridge beams)"
    ),
    "aci318": (
        "splitting of the pretensioned end: ACI 318-19 has no formula for it, for 25.9 is on post-tensioned anchors "
        "(`--to aashto` counts steel by a rule for bridge beams)"
    ),
}


def _pretensioned(end: Collected, to: str) -> None:
    """Splitting and confinement by AASHTO, the transmission length by EN, and what neither gives."""
    beam = end.beam
    early = [(name, t) for name, t in places.named(beam) if t.when == "before casting"]
    left = end.side == "left"
    here = [
        (name, t)
        for name, t in early
        if places.inset(beam, end.side, t) <= places.AT_THE_FACE and t.sheathed[0 if left else 1] <= 0.0
    ]
    late = [name for name, t in early if (name, t) not in here]
    if late:
        end.say(f"Not counted at this end, for they take hold farther in: {', '.join(late)}.")
    if not here:
        return
    if to == "aashto":
        total = sum(t.stress * t.area for _, t in here)
        end.say("The prestress at transfer is taken as that in the bed, before the concrete shortens.")
        end.tie("splitting", aashto.splitting(total, beam.outline.depth, end.yield_strength))
        reach = aashto.confined_length(beam.outline.depth)
        gap = places.widest(beam, end.side, reach.value)
        if gap is None:
            end.missing(
                "confinement of the strands: no stirrups stand within 1.5 of the depth; AASHTO LRFD 5.9.4.4.2 wants "
                "No. 3 (10 mm) stirrups or larger around them, no farther apart than 6 in (152 mm)"
            )
        else:
            check = aashto.confinement(reach, gap)
            end.lines.append(Line("confinement", check))
        return
    end.missing(_NO_FORMULA[to])
    if to == "en1992":
        young = beam.concrete.strength_at_transfer or beam.concrete.strength
        end.say("Transmission length: sudden release, the stress that the bed leaves as that just after release.")
        tensile = standards.en_tensile(young)
        kinds: dict[tuple[float, float, bool, bool], list[str]] = {}
        for name, t in here:
            kinds.setdefault((released(t), t.diameter, t.wire, good_bond(beam, t)), []).append(name)
        for (stress, diameter, wire, good), names in kinds.items():
            found = en1992.transmission(stress, diameter, tensile, not wire, good)
            end.more.append((f"transmission length of {', '.join(names)}", found))


def _supported(end: Collected, to: str) -> None:
    """Bearing of the beam on the support at this end."""
    beam = end.beam
    if beam.supports.bearing <= 0.0:
        end.missing('bearing at the support: give the length of its plate, bearing = "150 mm", in [supports]')
        return
    found = support.reaction(beam, end.side)
    if found is None:
        end.missing("bearing at the support: it holds the rotation, and its reactions are not computed here")
        return
    width = beam.outline.width(0.0)
    if width < 1.0 or beam.outline.shape == "circle":
        end.missing("bearing at the support: the soffit is not flat")
        return
    length = support.bearing_length(beam, end.side)
    if length < beam.supports.bearing - 1e-6:
        end.say("The bearing plate reaches beyond the end of the beam; only the length under the beam counts.")
    if beam.press is not None:
        end.say("The press is no load of use: its reaction is not in the bearing at the support.")
    end.say("The bearing is taken as wide as the soffit.")
    if len(beam.supports.x) > 2:
        end.say("Reactions: elastic and uncracked, the loads as the file gives them, not span by span.")
    design = beam.concrete.specified
    if design is None:
        back = "fck = fcm − 8 MPa" if to == "en1992" else "as ACI 301 adds to it without test records"
        end.say(f"In use the specified strength follows from the mean of the concrete at its age ({back}).")
        design = specified.en(beam.concrete.strength) if to == "en1992" else specified.aci(beam.concrete.strength)
    else:
        end.say("In use the strength is that which the file orders.")
    check = end.rules.bearing(found, length * width, design)
    if check.demand.value <= 0.0:
        end.missing("bearing at the support: the end lifts off under these loads, and nothing here holds it down")
        return
    end.lines.append(Line("bearing at the support", check))


__all__ = ["STANDARDS", "End", "Ends", "Line", "ends"]

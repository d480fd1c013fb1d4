"""The basis of a calculation: section, materials, steel, choices, loads and combinations."""

from __future__ import annotations

from collections.abc import Sequence

from soffit.codes.actions import rules_of, variables
from soffit.codes.combining import STATES, Variable
from soffit.codes.verification import Verification
from soffit.codes.working import Symbol
from soffit.member.beam import Beam, TendonGroup
from soffit.member.verifying import Project
from soffit.show.numbers import THIN, Units, given, quantity, sig
from soffit.show.reportblocks import Block, facts, table, words
from soffit.show.working import shown

LONG = 3000.0


def project(found: Project, name: str) -> list[tuple[str, str]]:
    """What the cover says of the work."""
    return [
        ("Project", found.name), ("Number", found.number), ("Part", found.part), ("Beam", name),
        ("Revision", found.revision), ("Date", found.date),
    ]  # fmt: skip


def materials(found: Verification, units: Units) -> Block:
    beam, concrete, outline = found.beam, found.beam.concrete, found.beam.outline
    rows = [
        ("Standard", found.name),
        ("Concrete", f"mean cylinder strength {given(concrete.strength, 'stress', units)}"
         + (f", ordered {given(concrete.specified, 'stress', units)}" if concrete.specified is not None else "")
         + f", density {sig(concrete.density, 4)}{THIN}kg/m³"),
    ]  # fmt: skip
    if found.design is not None:
        opened = found.design.opened
        parts = [f"specified strength {quantity(opened.strength, 'stress', units)}"]
        if opened.transfer is not None:
            parts.append(f"at transfer {quantity(opened.transfer, 'stress', units)}")
        if opened.topping is not None:
            parts.append(f"topping {quantity(opened.topping, 'stress', units)}")
        parts.append(f"modulus {quantity(opened.modulus, 'stress', units)}")
        rows.append(("As the standard sees it", ", ".join(parts)))
    grades = {b.steel.name or b.label: b.steel for b in beam.bars}
    grades |= {t.steel.name or t.label: t.steel for t in beam.tendons}
    grades |= {z.steel.name or z.label: z.steel for z in beam.stirrups}
    for name, steel in grades.items():
        sizes = (("yield", steel.yield_strength), ("tensile", steel.tensile), ("modulus", steel.modulus))
        rows.append((name or "Steel", ", ".join(f"{what} {given(value, 'stress', units)}" for what, value in sizes)))
    size = [shown(Symbol("", v, k, ""), units) for v, k in ((outline.area, "area"), (outline.inertia, "inertia"))]  # type: ignore[arg-type]
    rows.append(("Section of the beam", f"area {size[0]}, second moment of area {size[1]}, "
                 f"centroid {quantity(outline.centroid, 'length', units)} above the soffit"))  # fmt: skip
    return facts(rows)


def steel(beam: Beam, units: Units) -> list[Block]:
    """Every bar, tendon and zone of stirrups with its place."""
    far = "span" if beam.length > LONG else "length"

    def reach(a: float, b: float) -> str:
        return f"{quantity(a, far, units) if a else '0'} – {quantity(b, far, units)}"

    rows = [
        [bar.label or f"{bar.count} bars", given(bar.y, "length", units), reach(bar.x_from, bar.x_to),
         ", ".join(dict.fromkeys((bar.end_left, bar.end_right)))
         + (", in the topping" if bar.part == "topping" else "")]
        for bar in beam.bars
    ]  # fmt: skip
    rows += [
        [(f"{t.name}: " if t.name else "") + t.label, _heights(t, units), reach(t.x_from, t.x_to),
         f"{t.bond}, {given(t.stress, 'stress', units)} {t.stress_is}"]
        for t in beam.tendons
    ]  # fmt: skip
    rows += [
        [f"stirrups {z.label}".strip(), "", reach(z.x_from, z.x_to),
         f"{z.legs} legs at {given(z.spacing, 'length', units)}"]
        for z in beam.stirrups
    ]  # fmt: skip
    if not rows:
        return [words("There is no steel in it.")]
    return [table(["steel", "above the soffit", "from – to", "ends, bond, stress"], rows, "lrrl", [0, 3])]


def _heights(tendon: TendonGroup, units: Units) -> str:
    heights = [given(y, "length", units) for y in tendon.profile.y]
    return heights[0] if len(set(heights)) == 1 else ", ".join(heights)


def choices(beam: Beam, units: Units) -> Block | None:
    """What the table ``[verify]`` says that is not taken for granted."""
    v = beam.verifying
    rows = [
        ("Exposure", ", ".join(v.exposure)), ("Category of use", v.category),
        ("Fire", f"{v.fire} minutes, {v.fire_sides}" if v.fire is not None else ""),
        ("Redistribution", f"{100 * v.redistribution:.0f} %" if v.redistribution else ""),
        ("National values", ", ".join(f"{name} = {value:g}" for name, value in v.national)),
        ("Working life", f"{v.working_life:g} years" if v.exposure else ""),
    ]  # fmt: skip
    return facts(rows) if any(value for _, value in rows) else None


def loads(beam: Beam, units: Units) -> Block:
    far = "span" if beam.length > LONG else "length"
    rows = [["self weight", "by density", "whole beam", ""]] if beam.self_weight else []
    for load in beam.loads:
        where = quantity(load.x_from, far, units)
        if not load.is_point:
            where = f"{where if load.x_from else '0'} – {quantity(load.x_to, far, units)}"
        beside = f"{given(load.eccentricity, 'length', units)} beside the axis" if load.eccentricity else ""
        category = f"category {load.category}" if load.category else ""
        rows.append([load.case, given(load.value, "force" if load.is_point else "line load", units), where,
                     ", ".join(filter(None, [category, beside]))])  # fmt: skip
    for vehicle in beam.verifying.vehicles:
        axles = " + ".join(given(a, "force", units) for a in vehicle.axles)
        moved = f"{vehicle.dynamic:g} times for its movement" if vehicle.dynamic != 1.0 else ""
        rows.append([f"{vehicle.case}: {vehicle.name}", axles, "anywhere", moved])
    for case, force in beam.verifying.axial:
        rows.append([case, given(force, "force", units), "along the axis", "tension positive"])
    return table(["case", "value", "place", ""], rows or [["none", "", "", ""]], "lrrl", [3])


def combinations(found: Verification) -> Block:
    """The factors of every combination by the standard, state by state."""
    kinds = variables(found.beam)
    rules = rules_of(found.beam, found.standard)
    prestressed = bool(found.beam.tendons)
    head = [
        "state",
        "combination",
        "permanent",
        *(["prestress"] if prestressed else []),
        *(v.name for v in kinds),
        "clause",
    ]
    rows = []
    for state in STATES:
        for i, each in enumerate(rules.combinations.get(state, ())):
            factors = [f"{each.permanent:.4g}", *([f"{each.prestress:.4g}"] if prestressed else [])]
            factors += [_factor(each.variable, kind) for kind in kinds]
            rows.append([state if i == 0 else "", each.name, *factors, each.clause])
    return table(head, rows, "ll" + "r" * (len(head) - 3) + "l", [len(head) - 1])


def _factor(variable: object, kind: Variable) -> str:
    factor = dict(variable).get(kind, 0.0)  # type: ignore[call-overload]
    return f"{factor:.4g}" if factor else "–"


def listed(texts: Sequence[str]) -> str:
    return texts[0] if len(texts) == 1 else f"{', '.join(texts[:-1])} and {texts[-1]}"

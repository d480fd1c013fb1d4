"""The pages of a calculation in their order, as plain data for the template."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from soffit import __version__
from soffit.codes.verification import Verification
from soffit.show import reportactions, reportchecks, reportfacts, reportlife
from soffit.show.numbers import Units
from soffit.show.reportblocks import Block, Calculation, Paper, bullets, capital, figure, heading, sentence, words
from soffit.show.reportdrawing import elevation, section
from soffit.show.reportsvg import clipped
from soffit.show.verifywords import closing, cured, governs, number

ROOM: dict[Paper, float] = {"a4": 170.0, "us-letter": 175.9}
"""Width of the text, mm."""
CURED = 2
"""Failing checks for which a cure is sought: each takes some verifications."""
CAUTIONS = (
    "Stressed steel stores energy: stand clear of the line of a tendon, at both ends, and never over its nut or its "
    "anchor, while it is stressed and as long as it is.",
    "Fragments fly when a beam breaks under a press: use a guard and eye protection.",
    "Plain and lightly reinforced beams collapse without warning; so do beams that fail in shear or by the slip of "
    "their bars. Nobody stands under or beside them while the load rises.",
    "Wet concrete burns skin. Cutting, grinding and breaking concrete sets silica dust free.",
    "Lift with rated gear.",
)
REVIEW = (
    "A licensed engineer must review this calculation before anything is built or loaded by it. The local code, its "
    "national annex and the authority govern. Soffit did not check what is listed as not checked. Clauses and values "
    "marked “from memory” were not seen in print when they were written: compare them with the standard."
)


def mended(found: Verification, units: Units) -> tuple[str, ...]:
    """What would mend the first failing checks."""
    return tuple(capital(cured(found, check, units)) for check in found.failing[:CURED])


def document(calculation: Calculation, paper: Paper) -> dict[str, Any]:
    """All that the template sets."""
    found, units = calculation.found, calculation.units
    project, room = found.beam.verifying.project, ROOM[paper]
    return {
        "paper": paper,
        "title": f"Calculation: {found.beam.name}",
        "beam": found.beam.name,
        "short": clipped(found.beam.name, 0.55 * room),
        "standard": found.name,
        "revision": project.revision,
        "version": f"Soffit {__version__}",
        "cover": {
            "about": found.beam.about,
            "rows": [[k, v] for k, v in reportfacts.project(project, "") if v],
            "standard": found.name,
            "sentence": closing(found, units),
            "kept": found.kept,
            "made_by": project.made_by,
            "checked_by": project.checked_by,
            "drawing": figure(elevation(found.beam, room, units, dimensions=False), ""),
            "review": REVIEW,
        },
        "blocks": _blocks(calculation, room),
    }


def _blocks(calculation: Calculation, room: float) -> list[Block]:
    found, units = calculation.found, calculation.units
    return [
        *_result(found, units, calculation.cures), *_beam(found, units, room), *_basis(found, units),
        *_actions(found, units, room), *_checks(found, units, room), *_life(calculation, room), *_left(found),
        heading("Cautions and review"), words(REVIEW), bullets(CAUTIONS),
    ]  # fmt: skip


def _result(found: Verification, units: Units, cures: Sequence[str]) -> list[Block]:
    blocks: list[Block] = [heading("Result"), words(closing(found, units), "fails" if found.failing else "strong")]
    if not found.checks:
        return blocks
    said = [capital(governs(found, units)), *cures]
    more = len(found.failing) - CURED
    if more > 0:
        fail = "check fails" if more == 1 else "checks fail"
        said.append(f"{capital(number(more))} more {fail}; mend these first.")
    return [*blocks, bullets(said), reportchecks.summary(found, units)]


def _beam(found: Verification, units: Units, room: float) -> list[Block]:
    beam = found.beam
    check = found.governing
    x = 0.5 * beam.length if check is None or check.x is None else check.x
    where = "at mid-length" if check is None or check.x is None else "where the governing check is made"
    return [
        heading("Beam"),
        figure(elevation(beam, room, units), "To scale", "Elevation"),
        figure(section(beam, x, room, units), f"Section {where}, to scale", "Section"),
        *reportfacts.steel(beam, units),
    ]


def _basis(found: Verification, units: Units) -> list[Block]:
    chosen = reportfacts.choices(found.beam, units)
    blocks = [heading("Basis"), reportfacts.materials(found, units)]
    blocks += [chosen] if chosen else []
    if found.assumptions:
        blocks += [heading("Assumptions", 2), bullets(found.assumptions)]
    return blocks


def _actions(found: Verification, units: Units, room: float) -> list[Block]:
    blocks = [heading("Actions"), reportfacts.loads(found.beam, units)]
    if found.design is None:
        return blocks
    return [
        *blocks,
        heading("Combinations", 2), reportfacts.combinations(found),
        heading("Envelopes", 2), *reportactions.envelopes(found, units, room),
    ]  # fmt: skip


def _checks(found: Verification, units: Units, room: float) -> list[Block]:
    blocks = [heading("Checks")]
    if not found.checks:
        return [*blocks, words("Nothing was checked.")]
    about = "Formula in symbols, in numbers, result; beside it the clause and, where no print was at hand, its mark."
    return [*blocks, words(about, "faint"), *reportchecks.checks(found, units, room)]


def _life(calculation: Calculation, room: float) -> list[Block]:
    blocks = [heading("Predicted behaviour")]
    if calculation.life is None:
        return [*blocks, words(sentence(calculation.lifeless or "no life was computed for this beam"))]
    return [*blocks, *reportlife.lived(calculation.found, calculation.life, calculation.units, room)]


def _left(found: Verification) -> list[Block]:
    texts = [f"{capital(u.title)}: {u.why}{f' ({u.clause})' if u.clause else ''}." for u in found.unchecked]
    said = bullets(texts) if texts else words("Nothing that this standard asks for in its register was left out.")
    return [heading("Not checked"), said]

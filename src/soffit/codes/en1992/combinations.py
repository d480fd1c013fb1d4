"""Combinations of EN 1990:2002 with A1: (6.10) or (6.10a) and (6.10b), seismic, and the three of serviceability.

Recommended values, *from memory* where the sources of the fact sheet do not print them; those of ``[verify] national``
win: ``γG``, ``γG,inf``, ``γQ``, ``ξ``, ``ψ0``, ``ψ1``, ``ψ2`` (of every variable load) and ``6.10ab``.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

from soffit.codes.combining import Combination, Rules, State, Variable
from soffit.errors import PhysicsError
from soffit.member.beam import Beam

PSI: dict[str, tuple[float, float, float]] = {
    "A": (0.7, 0.5, 0.3), "B": (0.7, 0.5, 0.3), "C": (0.7, 0.7, 0.6), "D": (0.7, 0.7, 0.6), "E": (1.0, 0.9, 0.8),
    "F": (0.7, 0.7, 0.6), "G": (0.7, 0.5, 0.3), "H": (0.0, 0.0, 0.0),
}  # fmt: skip
"""ψ0, ψ1, ψ2 of the categories of use, Table A1.1."""
CASES: dict[str, tuple[float, float, float]] = {
    "snow": (0.5, 0.2, 0.0), "ice": (0.5, 0.2, 0.0), "rain": (0.5, 0.2, 0.0), "wind": (0.6, 0.2, 0.0),
    "construction": (1.0, 0.0, 0.2),
}  # fmt: skip
"""Table A1.1 (snow below 1000 m, wind); construction loads EN 1991-1-6 A1.1; ice and rain as snow (*ours*)."""
CATEGORY = {"live": "B", "crowd": "C", "traffic": "F", "roof live": "H", "other": "B"}
"""Taken where the file names none."""


def psi(variable: Variable, national: dict[str, float]) -> tuple[float, float, float]:
    """ψ0, ψ1, ψ2 of a variable load. Raises ``PhysicsError`` for a category that Table A1.1 does not have."""
    own = CASES.get(variable.case) if not variable.category else None
    category = variable.category or CATEGORY.get(variable.case, "B")
    if own is None and category[:1].upper() not in PSI:
        raise PhysicsError(f"{variable.case} has no category of use {category!r} in EN 1990 Table A1.1; write A to H")
    found = own or PSI[category[:1].upper()]
    a, b, c = (national.get(f"ψ{i}", found[i]) for i in range(3))
    return a, b, c


def rules(beam: Beam, variables: Sequence[Variable]) -> Rules:
    """All combinations for the variable loads that there are."""
    national = dict(beam.verifying.national)
    quakes = [v for v in variables if v.case == "earthquake"]
    ordinary = [v for v in variables if v.case != "earthquake"]
    ultimate = list(_fundamental(ordinary, national))
    for quake in quakes:
        others = {v: psi(v, national)[2] for v in ordinary}
        ultimate.append(Combination("(6.12b)", "EN 1990 (6.12b)", 1.0, {**others, quake: 1.0}))
    found: dict[State, list[Combination]] = {
        "ultimate": ultimate,
        "characteristic": _leading(ordinary, national, "(6.14b)", 1.0, 0),
        "frequent": _leading(ordinary, national, "(6.15b)", None, 2),
        "quasi-permanent": [Combination("(6.16b)", "EN 1990 (6.16b)", 1.0, {v: psi(v, national)[2] for v in ordinary})],
    }
    return Rules(found, tuple(_said(beam, ordinary, national)))


def _fundamental(variables: Sequence[Variable], national: dict[str, float]) -> list[Combination]:
    up, low = national.get("γG", 1.35), national.get("γG,inf", 1.0)
    live, xi = national.get("γQ", 1.5), national.get("ξ", 0.85)
    pre = national.get("γP", 1.0)
    leads: list[Variable | None] = [*variables] or [None]

    def one(name: str, g: float, above: float, lead: Variable | None) -> Combination:
        others = {v: live * (1.0 if v == lead else psi(v, national)[0]) for v in variables}
        # earth and fluids come from another source than weight: each has the worse of the two factors by itself
        own = dict.fromkeys(("soil", "fluid"), (above, low))
        return Combination(name, f"EN 1990 {name}", g, others, pre, own)

    if not national.get("6.10ab"):
        return [one("(6.10)", g, up, lead) for g, lead in product((up, low), leads)]
    found = [one("(6.10a)", g, up, None) for g in (up, low)]
    return found + [one("(6.10b)", g, xi * up, lead) for g, lead in product((xi * up, low), leads)]


def _leading(
    variables: Sequence[Variable], national: dict[str, float], name: str, lead_factor: float | None, accompanying: int
) -> list[Combination]:
    """One combination a leading variable load; ``lead_factor`` None: its ψ1."""
    clause = f"EN 1990 {name}"
    if not variables:
        return [Combination(name, clause, 1.0, {})]
    return [
        Combination(
            name, clause, 1.0,
            {
                v: (psi(v, national)[1] if lead_factor is None else lead_factor) if v == lead
                else psi(v, national)[accompanying]
                for v in variables
            },
        )
        for lead in variables
    ]  # fmt: skip


def _said(beam: Beam, variables: Sequence[Variable], national: dict[str, float]) -> list[str]:
    way = "(6.10a) and (6.10b)" if national.get("6.10ab") else "(6.10)"
    said = [
        f"Combinations by EN 1990 {way}, γG = {national.get('γG', 1.35):g} or {national.get('γG,inf', 1.0):g} for all "
        f"permanent loads together, γQ = {national.get('γQ', 1.5):g}."
    ]
    for v in variables:
        a, b, c = psi(v, national)
        category = v.category or ("" if v.case in CASES else CATEGORY.get(v.case, "B"))
        taken = " (taken, for the file names none)" if category and not v.category else ""
        which = f" of category {category}{taken}" if category else ""
        said.append(f"{v.case.capitalize()}{which}: ψ0 = {a:g}, ψ1 = {b:g}, ψ2 = {c:g}.")
    if any(v.case in ("ice", "rain") for v in variables):
        said.append("Ice and rain have the ψ of snow below 1000 m, for Table A1.1 has none for them.")
    if any(load.case in ("wind", "earthquake") for load in beam.loads):
        said.append("Wind and earthquake act in the direction that the file gives.")
    if any(load.case in ("soil", "fluid") for load in beam.loads):
        said.append("Soil and fluid are permanent actions of a source of their own: each has the worse of the two γG.")
    return said

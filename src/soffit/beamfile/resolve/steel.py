"""Properties of a steel: from its grade, from the file, or from both; the file wins.

Where neither gives a value, the default is noted with its source.
"""

from __future__ import annotations

from dataclasses import dataclass

from soffit.beamfile.faults import Spot
from soffit.beamfile.resolve.piece import Piece, not_in_catalogue
from soffit.beamfile.tables.steel import SteelKeys
from soffit.catalogue import CatalogueMiss, Grade, grade
from soffit.materials.steel import Steel
from soffit.materials.steel_laws import curve


@dataclass(frozen=True)
class Default:
    """What is taken for a steel of one family where the file says nothing."""

    law: str
    modulus: float
    modulus_source: str
    strain_at_max: float


_BAR = Default("bilinear", 200e3, "EN 1992-1-1:2004 3.2.7(4)", 0.05)
_ROD = Default("bilinear", 205e3, "EN 1992-1-1:2004 3.3.6(2)", 0.05)
DEFAULTS = {
    "bar": _BAR,
    "thread": _ROD,
    "prestressing bar": _ROD,
    "wire": Default("strand", 205e3, "EN 1992-1-1:2004 3.3.6(2)", 0.035),
    "strand": Default("strand", 195e3, "EN 1992-1-1:2004 3.3.6(3)", 0.035),
}

_DRAWN = ("strand", "wire")
"""Families whose grades no other steel is made in."""

# what the message of a law that cannot be drawn calls the key; the first that is in the table is meant
_KEYS = {
    "tensile": "tensile",
    "strain at": "strain_at_max",
    "plateau": "hardening_strain",
    "modulus": "modulus",
}


def build_steel(table: SteelKeys, spot: Spot, piece: Piece | None) -> Steel | None:
    """The steel of a piece; of a faulty piece only the grade is looked up, for its own faults."""
    known: Grade | None = None
    if table.grade is not None:
        known = _grade(table.grade, spot, piece)
        if known is None:
            return None
    if piece is None:
        return None
    usual = DEFAULTS.get(piece.family, _BAR)
    law = table.law or (known.kind if known else usual.law)
    if table.law is None and known is None and table.hardening_strain is not None:
        law = "plateau"
    made = _linear(table, spot, known) if law == "linear" else _yielding(table, spot, known, usual, law)
    if made is None:
        return None
    try:
        curve(made)
    except ValueError as error:
        message = str(error)
        key = next((key for words, key in _KEYS.items() if words in message and spot.has(key)), _given(spot))
        spot.wrong(key, f"but {message}", "check the values and their units")
        return None
    return made


def _grade(name: str, spot: Spot, piece: Piece | None) -> Grade | None:
    try:
        known = grade(name, piece.diameter if piece else None)
    except CatalogueMiss as miss:
        # without a diameter a class of rods cannot be found, and that is no fault of the grade
        if piece or miss.near:
            not_in_catalogue(spot, "grade", miss)
        return None
    if piece and piece.family and (piece.family in _DRAWN) != (known.family in _DRAWN):
        problem = f"which is a grade of {known.family}, but the size is one of {piece.family}"
        spot.wrong("grade", problem, "choose a grade that this size is made in")
        return None
    given = [key for key in ("yield", "tensile", "modulus", "strain_at_max") if spot.has(key)]
    but = f", but for {' and '.join(given)} given in {spot.name}" if given else ""
    values = f"tensile {spot.show(known.tensile, 'stress')}"
    if known.kind != "linear":
        values = f"yield {spot.show(known.yield_strength, 'stress')}, {values}"
    name = known.name.removeprefix("Grade ")
    spot.note(f"Grade {name}: the specified values of the catalogue are taken as means ({values}){but}.")
    return known


def _linear(table: SteelKeys, spot: Spot, known: Grade | None) -> Steel | None:
    """Elastic to rupture: two of tensile strength, modulus and strain are needed."""
    if table.yield_strength is not None:
        spot.wrong("yield", "but a linear law has no yield", "give tensile, modulus and law alone")
        return None
    tensile = table.tensile or (known.tensile if known else None)
    modulus = table.modulus or (known.modulus if known else None)
    strain = table.strain_at_max
    if tensile is None:
        spot.missing("tensile", 'write tensile = "600 MPa", at which it ruptures')
        return None
    if modulus is None and strain is not None:
        modulus = tensile / strain
    if modulus is None:
        spot.missing("modulus", 'write modulus = "45 GPa"')
        return None
    rupture = tensile / modulus
    if strain is not None and abs(strain - rupture) > 0.02 * rupture:
        cure = f"leave it out, or give {rupture:.4f}"
        spot.wrong("strain_at_max", "which contradicts tensile and modulus", cure)
        return None
    return Steel("linear", modulus, tensile, tensile, rupture, name=_name(table, known))


def _yielding(table: SteelKeys, spot: Spot, known: Grade | None, usual: Default, law: str) -> Steel | None:
    fy = table.yield_strength or (known.yield_strength if known else None)
    if fy is None:
        spot.missing("yield", 'write grade = "B500B" or another name of the catalogue, or yield = "500 MPa"')
        return None
    tensile = table.tensile or _tensile(fy, spot, known, law)
    if tensile is None:
        return None
    if known is None and table.law is None and tensile > fy:
        how = "by the power formula of strand" if law == "strand" else "linearly"
        spot.note(f"{spot.name}: no law is given, so the steel is taken to harden {how} to its tensile strength.")
    modulus = table.modulus or (known.modulus if known else None)
    if modulus is None:
        modulus = usual.modulus
        spot.note(f"{spot.name}: the modulus is taken as {modulus / 1000:.0f} GPa ({usual.modulus_source}).")
    strain = table.strain_at_max or (known.strain_at_max if known else None)
    if strain is None:
        strain = usual.strain_at_max
        spot.note(f"{spot.name}: the strain at the tensile strength is taken as {strain:g} (common practice).")
    hardening = table.hardening_strain
    if hardening is None:
        hardening = known.hardening_strain if known else 0.0
    return Steel(law, modulus, fy, tensile, strain, hardening, name=_name(table, known))


def _tensile(fy: float, spot: Spot, known: Grade | None, law: str) -> float | None:
    """Tensile strength where the file gives none."""
    if known is not None and known.yield_strength == fy:
        return known.tensile
    if known is not None:
        tensile = fy * known.tensile / known.yield_strength
        spot.note(f"{spot.name}: the tensile strength {tensile:.0f} MPa keeps the grade's ratio to the given yield.")
        return tensile
    if law == "strand":
        spot.missing("tensile", "write the tensile strength of the strand or wire too, or its grade")
        return None
    spot.note(f"{spot.name}: only the yield strength is given, so the steel is elastic–plastic without hardening.")
    return fy


def _given(spot: Spot) -> str:
    return next((key for key in ("yield", "tensile", "law", "grade") if spot.has(key)), "yield")


def _name(table: SteelKeys, known: Grade | None) -> str:
    return known.name if known else ""

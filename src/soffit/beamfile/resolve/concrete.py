"""``[concrete]`` to the mean properties of a concrete."""

from __future__ import annotations

from soffit.beamfile.faults import Spot
from soffit.beamfile.tables.concrete import ConcreteTable
from soffit.materials.concrete import Concrete
from soffit.materials.properties import concrete

# how the derivation calls what the file has under another name; the first that a message names is meant
_KEYS = {
    "cylinder strength": "strength",
    "strength at transfer": "strength_at_transfer",
    "axial tensile strength": "tensile_strength",
    "fracture energy": "fracture_energy",
    "largest aggregate": "max_aggregate",
    "peak strain": "strain_at_peak",
    "strain at": "strain_at_peak",
    "modulus": "modulus",
    "density": "density",
    "age": "age",
    "cement": "cement_class",
}


def build_concrete(table: ConcreteTable, spot: Spot) -> Concrete | None:
    if not spot.has("strength_is"):
        spot.note("The concrete strength is taken as a measured mean, for strength_is is not given.")
    if table.relative_humidity is not None:
        spot.note("The relative humidity counts where the beam ages; a life without an age does not use it.")
    if table.strength_is == "mean" and table.cement_class is not None and table.relative_humidity is None:
        spot.note("The cement class changes nothing, for the strength was measured at the age of loading.")
    early = table.strength_at_transfer
    try:
        made = concrete(
            table.strength,
            strength_is=table.strength_is,
            standard=table.strength_by,
            tensile=table.tensile_strength,
            modulus=table.modulus,
            fracture_energy=table.fracture_energy,
            max_aggregate=table.max_aggregate,
            density=table.density,
            peak_strain=table.strain_at_peak,
            law=table.law,
            strength_at_transfer=early,
            age=table.age,
            cement_class=table.cement_class,
        )
    except ValueError as error:
        message = str(error)
        key = next((key for words, key in _KEYS.items() if words in message and spot.has(key)), "strength")
        spot.wrong(key, f"but {message}", "check the value and its unit")
        return None
    for sentence in made.notes:
        spot.note(sentence)
    if early is not None and early > made.strength:
        cure = f"give at most the strength when loaded, {spot.show(made.strength, 'stress')}"
        spot.wrong("strength_at_transfer", "which is above the strength when loaded", cure)
    return made

"""``[topping]`` to concrete that is cast on the beam later."""

from __future__ import annotations

from soffit.beamfile.faults import Spot
from soffit.beamfile.resolve.ageing import CURED_UNTIL, Surroundings
from soffit.beamfile.resolve.bars import Into
from soffit.beamfile.tables.making import ToppingTable
from soffit.materials.ageing.casting import Casting
from soffit.materials.ageing.models import model
from soffit.materials.properties import concrete
from soffit.member.making import Topping
from soffit.section import outline
from soffit.section.outline import Outline

_KEYS = {
    "drying begins": "cured_until",
    "size": "depth",
    "surface": "depth",
    "modulus": "modulus",
    "density": "density",
}


def build_topping(table: ToppingTable, spot: Spot, beam: Outline, around: Surroundings) -> Topping | None:
    """``beam``: the outline that it is cast on."""
    slab = outline.rectangle(table.width, table.depth)
    # top, sides, and of its soffit what reaches beyond the beam
    drying = table.width + 2.0 * table.depth + max(table.width - beam.width(beam.depth), 0.0)
    size = 2.0 * slab.area / drying
    spot.note(
        f"The topping's notional size 2 Ac/u is {spot.show(size)}: its top, its sides and what reaches beyond the "
        "beam dry."
    )
    if table.cured_until is None:
        spot.note(f"The topping is taken as cured until {CURED_UNTIL:g} days, for cured_until is not given.")
    try:
        made = concrete(
            table.strength,
            strength_is=table.strength_is,
            standard=table.strength_by,
            modulus=table.modulus,
            density=table.density,
            cement_class=table.cement_class,
        )
        casting = Casting(
            strength=made.strength,
            humidity=around.humidity,
            notional_size=size,
            cement=table.cement_class or "N",
            cured_until=CURED_UNTIL if table.cured_until is None else table.cured_until,
            specified=table.strength if table.strength_is == "specified" else None,
        )
        model(around.model, casting)
    except ValueError as error:
        message = str(error)
        key = next((key for words, key in _KEYS.items() if words in message and spot.has(key)), "strength")
        spot.wrong(key, f"but {message}", "check the value and its unit")
        return None
    for sentence in made.notes:
        spot.note(f"Topping: {sentence[0].lower()}{sentence[1:]}")
    return Topping(slab, beam.depth, made, casting, table.hardens)


def into(table: ToppingTable, beam: Outline) -> Into:
    """Where the bars of a topping are cast."""
    return Into("topping", outline.rectangle(table.width, table.depth), beam.depth)

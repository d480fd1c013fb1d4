"""``[ageing]`` and what ``[concrete]`` says of cement and humidity to a casting and the model it ages by."""

from __future__ import annotations

from dataclasses import dataclass

from soffit.beamfile.check import Parts
from soffit.beamfile.faults import Spot, sentence
from soffit.beamfile.tables.concrete import ConcreteTable
from soffit.beamfile.tables.making import MODEL_NAMES, AgeingTable
from soffit.materials import standards
from soffit.materials.ageing.casting import Casting
from soffit.materials.ageing.models import model
from soffit.member.beam import TendonGroup
from soffit.member.making import Stage
from soffit.section.outline import Outline

CURED_UNTIL = 7.0
"""Days (*common practice*)."""
USUAL_RELEASE = 1.0
"""Days from casting to release where no stage says it (*common practice* of precasting)."""
LATEST_TRANSFER = 27.0
"""Days: a strength at transfer from later on tells nothing of the gain up to 28 days."""

_HEATED = ("ACI 209R", "AASHTO LRFD")
"""Models with an input for accelerated curing."""

# how a model calls what the file has under another name; the first that a message names is meant
_KEYS = {
    "relative humidity": ("concrete", "relative_humidity"),
    "notional size": ("ageing", "notional_size"),
    "volume over surface": ("ageing", "notional_size"),
    "drying begins": ("ageing", "cured_until"),
    "accelerated": ("ageing", "heat"),
    "strength at transfer": ("concrete", "strength_at_transfer"),
    "strength": ("concrete", "strength"),
}


@dataclass(frozen=True)
class Surroundings:
    """What a beam's concretes share while they age."""

    model: str
    """Key of the ageing model."""
    humidity: float
    """Per cent."""


def surroundings(parts: Parts) -> Surroundings | None:
    """None where no humidity is given; tells it where the file needs one."""
    if parts.concrete is None:
        return None
    humidity = parts.concrete.table.relative_humidity
    if humidity is None:
        if not parts.concrete.spot.mended:
            _needs_humidity(parts)
        return None
    if humidity <= 0.01:
        parts.concrete.spot.wrong("relative_humidity", "which no air has", 'write relative_humidity = "60 %"')
        return None
    named = parts.ageing.table.model if parts.ageing else "EN 1992-1-1"
    return Surroundings(MODEL_NAMES[named], 100.0 * humidity)


def _needs_humidity(parts: Parts) -> None:
    """Told once, where ageing is first asked for."""
    asking = [part for part in (parts.ageing, *parts.stages[:1], parts.topping) if part is not None]
    if asking:
        told = sentence("needs relative_humidity in [concrete]", 'write relative_humidity = "60 %"')
        asking[0].spot.faults.add(asking[0].spot.path, told)


def build_casting(
    parts: Parts,
    around: Surroundings,
    outline: Outline,
    tendons: tuple[TendonGroup, ...],
    stages: tuple[Stage, ...],
) -> Casting | None:
    """The beam's own concrete as the model wants it; tells what the model refuses."""
    if parts.concrete is None:
        return None
    table, spot = parts.concrete.table, parts.concrete.spot
    ageing = parts.ageing.table if parts.ageing else AgeingTable()
    size, cured = ageing.notional_size, ageing.cured_until
    taken = []
    if table.cement_class is None:
        taken.append("cement class N")
    if cured is None:
        cured = CURED_UNTIL
        taken.append(f"curing until {cured:g} days")
    if size is None:
        size = 2.0 * outline.area / outline.perimeter
        taken.append(f"a notional size 2 Ac/u of {spot.show(size)} with all outer faces drying")
    if taken:
        spot.note(f"For ageing {_listed(taken)} {'are' if len(taken) > 1 else 'is'} taken, for none is given.")
    if ageing.heat and around.model not in _HEATED:
        spot.note(
            f"The time of accelerated curing changes no concrete of {around.model}, which would want the age at "
            "20 °C; it counts in ACI 209R-92 and AASHTO LRFD."
        )
    transfer = _transfer(table, spot, tendons, stages)
    casting = Casting(
        strength=table.strength,
        humidity=around.humidity,
        notional_size=size,
        cement=table.cement_class or "N",
        cured_until=cured,
        heat_days=ageing.heat,
        specified=table.strength if table.strength_is == "specified" else None,
        transfer_strength=None if transfer is None else table.strength_at_transfer,
        transfer_age=transfer,
        steel=next((t.relaxation for t in tendons if t.relaxation != "none"), "low relaxation"),
    )
    try:
        strength = _at_28_days(table, spot, around.model, casting)
        made = Casting(**{**vars(casting), "strength": strength})
        model(around.model, made)
    except ValueError as error:
        _refused(str(error), parts)
        return None
    return made


def _at_28_days(table: ConcreteTable, spot: Spot, name: str, casting: Casting) -> float:
    """Mean strength at 28 days, MPa."""
    if table.strength_is == "specified":
        return standards.standard(table.strength_by).mean(table.strength)
    if table.age == 28.0:
        return table.strength
    strength = table.strength
    # the gain hardly depends on the strength itself, so this settles at once
    for _ in range(20):
        gains = model(name, Casting(**{**vars(casting), "strength": strength, "transfer_strength": None,
                                       "transfer_age": None}))  # fmt: skip
        strength = table.strength * float(gains.strength(28.0) / gains.strength(table.age))
    at, later = spot.show(table.strength, "stress"), spot.show(strength, "stress")
    spot.note(f"For ageing the strength {at} at {table.age:g} days is {later} at 28 days, by the gain of {name}.")
    return strength


def _transfer(
    table: ConcreteTable, spot: Spot, tendons: tuple[TendonGroup, ...], stages: tuple[Stage, ...]
) -> float | None:
    """Day of the strength at transfer; none where there is none that tells of the gain."""
    if table.strength_at_transfer is None:
        return None
    early = any(t.when == "before casting" for t in tendons)
    days = [s.at for s in stages if s.what == ("release" if early else "stress")]
    if not days and early:
        spot.note(f"The strength at transfer is taken as that at {USUAL_RELEASE:g} day, for no stage says when.")
        days = [USUAL_RELEASE]
    return days[0] if days and days[0] <= LATEST_TRANSFER else None


def _refused(message: str, parts: Parts) -> None:
    table, key = next(home for words, home in _KEYS.items() if words in message or words == "strength")
    part = parts.ageing if table == "ageing" and parts.ageing else parts.concrete
    assert part is not None
    at = (*part.spot.path, key) if part.spot.has(key) else part.spot.path
    cure = "check the value and its unit, or choose another model"
    part.spot.faults.add(at, sentence(f"cannot age: {message}", cure))


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"

"""``soffit release``: from a beam file and a temperature log to whether the strands may be released."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from soffit.errors import SoffitError
from soffit.materials.ageing.heat import relaxation_age
from soffit.materials.ageing.maturity import maturity
from soffit.materials.ageing.relaxation import en1992 as relaxed
from soffit.materials.ageing.release import Release
from soffit.materials.ageing.release import release as judge
from soffit.materials.ageing.templog import TemperatureLog, temperature_log
from soffit.materials.curve import Array
from soffit.member.beam import Beam, TendonGroup
from soffit.member.time.schedule import stressed_on
from soffit.show.age import typed
from soffit.show.batch import Units, sentences
from soffit.show.place import Place, Usage
from soffit.show.releaselaw import By, Law, cylinders_law, standards_law
from soffit.show.releaselog import Log, read_log

GAP = 1.5
"""Hours without a reading that are told as a gap."""
MOMENT = 1e-6
"""Days, in which a temperature may jump."""
MOST = 200.0
"""MPa, above which no strength is taken for one of concrete."""


@dataclass(frozen=True)
class Order:
    """What was typed, in base units."""

    path: str
    log: str
    wanted: float | None = None
    cylinders: str | None = None
    by: By | None = None
    units: Units | None = None
    stem: str = ""
    formats: tuple[str, ...] = ()


@dataclass(frozen=True)
class Heat:
    """What the heat does to the relaxation of a group of strands before release."""

    group: TendonGroup
    days: float
    """Under stress at the end of the log, by the clock."""
    added: float
    """Days that heat counts for besides."""
    cold: float
    hot: float
    """Share of the stress at the jack that relaxes without and with the heat."""


@dataclass(frozen=True)
class Facts:
    """All that is told and drawn."""

    beam: Beam
    log: Log
    wanted: float
    """MPa."""
    law: Law
    answer: Release
    grown: Array
    """Maturity at every reading, in the unit of the law's function."""
    strengths: Array
    """MPa, at every reading."""
    lower: Release | None
    """The answer by the value that 95 % of such concretes exceed."""
    cooler: Release | None
    """The answer where every gap counts with the cooler of its ends; none without gaps."""
    heats: tuple[Heat, ...]
    heat_notes: tuple[str, ...]


def wanted_of(text: str | None) -> float | None:
    """MPa after ``--wanted``. Raises :class:`Usage` for what is no strength of concrete."""
    value = typed(text, "--wanted", "stress")
    if value is not None and not 0.0 < value < MOST:
        raise Usage(f"--wanted “{text}”: a strength of concrete lies between 0 and {MOST:g} MPa.")
    return value


def carry_out(
    order: Order, place: Place | None, width: int | None, colours: str | None
) -> tuple[str | None, list[str]]:
    """What is printed, and one sentence for each thing that went wrong; only an interruption is raised."""
    from soffit.show.releasewords import told

    try:
        found, faults = facts(order)
        if found is None:
            return None, faults
        written: list[str] = []
        if place is not None:
            from soffit.show.releasechart import draw

            draw(found, place.make() / order.stem, order.formats, order.units or found.beam.units)
            written += place.names()
        return told(found, order.units, width, colours, written), []
    except Usage:
        raise
    except Exception as error:
        return None, sentences(error, order.path)


def facts(order: Order) -> tuple[Facts | None, list[str]]:
    """Raises :class:`SoffitError` for a beam of which the question cannot be asked; faults of the tables come back."""
    from soffit.beamfile import read

    beam = read(Path(order.path))
    if not any(t.when == "before casting" for t in beam.tendons):
        raise SoffitError(
            f"{order.path}: this beam has no tendons that are stressed before casting, so there is nothing to release."
        )
    wanted = beam.concrete.strength_at_transfer if order.wanted is None else order.wanted
    if wanted is None:
        raise SoffitError(
            f"{order.path}: what strength is wanted at release is not said; write strength_at_transfer in [concrete], "
            "or give --wanted."
        )
    log, faults = read_log(order.log)
    law: Law | None = None
    if order.cylinders is None:
        law = standards_law(beam, order.by)
    else:
        law, more = cylinders_law(order.cylinders, order.by)
        faults = [*faults, *more]
    if log is None or law is None:
        return None, faults
    answer = judge(log.log, wanted, law.strength, law.function)
    grown = maturity(log.log, law.function)
    lower = None if law.lower is None else judge(log.log, wanted, law.lower, law.function)
    return Facts(
        beam,
        log,
        wanted,
        law,
        answer,
        grown,
        _each(law, grown),
        lower,
        _cooler(log.log, wanted, law),
        *_heats(beam, log),
    ), []


def _cooler(log: TemperatureLog, wanted: float, law: Law) -> Release | None:
    """The answer if the concrete was as cool through every gap as at its cooler end, and changed in a moment."""
    times, temps = list(log.times), list(log.temperatures)
    gaps = [k for k, days in enumerate(log.durations) if 24.0 * days >= GAP]
    for k in reversed(gaps):
        least = min(temps[k], temps[k + 1])
        times[k + 1 : k + 1] = [times[k] + MOMENT, times[k + 1] - MOMENT]
        temps[k + 1 : k + 1] = [least, least]
    return judge(temperature_log(times, temps), wanted, law.strength, law.function) if gaps else None


def _each(law: Law, grown: Array) -> Array:
    import numpy as np

    return np.array([law.strength(float(m)) for m in grown])


def _heats(beam: Beam, log: Log) -> tuple[tuple[Heat, ...], tuple[str, ...]]:
    """For each group with steel that relaxes: EN 1992-1-1:2004 10.3.2.1 and 3.3.2 at the stress at the jack."""
    found, said = [], []
    for index, group in enumerate(beam.tendons):
        if group.when != "before casting" or group.relaxation == "none":
            continue
        start = stressed_on(beam, beam.making, index) if beam.making is not None else None
        if start is None:
            said.append(
                f"{group.name}: no stage says when it was stressed; the day of casting is taken for relaxation."
            )
        start = min(start or 0.0, 0.0)
        try:
            added = relaxation_age(log.log, start)
        except ValueError as error:
            return (), (f"How much more the strands relax is not told: {error}.",)
        days, ratio = log.log.end - start, group.stress / group.steel.tensile
        cold, hot = (float(relaxed(t, ratio, group.relaxation, group.rho)) for t in (days, days + added))
        found.append(Heat(group, days, added, cold, hot))
    return tuple(found), tuple(said)

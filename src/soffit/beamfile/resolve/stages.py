"""``[[stages]]`` to what is done to the beam on which day, after it was played through once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import cast

from soffit.beamfile.check import Part, Parts
from soffit.beamfile.faults import Faults, Spot, key_of, sentence
from soffit.beamfile.kinds import either
from soffit.beamfile.resolve.replay import Replay
from soffit.beamfile.resolve.supports import build_supports
from soffit.beamfile.tables.making import StageTable
from soffit.member.beam import Supports
from soffit.member.making import Stage, What
from soffit.units import quote

_TENDONS, _CASES = ("release", "stress", "grout"), ("load", "unload")
_GO_WITH = {
    "tendons": _TENDONS,
    "cases": _CASES,
    "share": _CASES,
    "supports": ("support",),
    "propped": ("topping",),
}
"""Keys that only some stages have."""


def build_stages(parts: Parts, names: Sequence[str], length: float | None, faults: Faults) -> tuple[Stage, ...]:
    """Every stage, in order; tells what cannot be done. ``names``: of the tendon groups in ``parts``."""
    before = len(faults.found)
    if len(set(names)) < len(names):
        return ()
    stands = [_own(part, length) for part in parts.stages]
    if len(faults.found) > before or parts.lost & {"stages", "tendons", "loads", "topping"} or not _ordered(parts):
        return ()
    play = Replay(parts, names)
    made = []
    for part, supports in zip(parts.stages, stands, strict=True):
        table = part.table
        tendons = play.do(part)
        if len(faults.found) > before:
            # what follows from a stage that cannot be done is no fault of its own
            return ()
        made.append(
            Stage(
                what=cast(What, table.what),
                at=table.at or 0.0,
                tendons=tuple(tendons),
                cases=table.cases or (),
                share=1.0 if table.share is None else table.share,
                supports=supports,
                propped=bool(table.propped),
                name=table.name,
            )
        )
    if made:
        play.end()
    return tuple(made)


def _own(part: Part[StageTable], length: float | None) -> Supports | None:
    """What can be said of one stage by itself; the supports that it has of its own."""
    table, spot = part.table, part.spot
    for key, whats in _GO_WITH.items():
        if spot.has(key) and table.what not in whats:
            kinds = either([quote(each) for each in whats])
            spot.wrong(key, f'but what is "{table.what}"', f"leave it out, or write what = {kinds}")
    if table.what == "cast" and table.at:
        spot.wrong("at", "but days are counted from casting", 'write at = "0 days", or leave it out')
    elif table.at is None and table.what != "cast":
        spot.missing("at", 'write at = "7 days", counted from casting')
    if table.what in _CASES and table.cases is None:
        spot.missing("cases", 'write cases = ["dead"], or other cases of [[loads]]')
    for key in ("tendons", "cases"):
        named = getattr(table, key) or ()
        if len(set(named)) < len(named):
            spot.wrong(key, "which names one twice", "name each once")
    if table.supports is None or table.what != "support":
        return None
    inner = spot.inner("supports")
    held = build_supports(table.supports, inner)
    if held is None:
        return None
    supports, long = held
    if length is not None and abs(long - length) > 1e-6 * length:
        cure = "let its spans and overhangs together be as long as the beam"
        told = sentence(f"makes a beam of {spot.show(long)}, but [supports] makes one of {spot.show(length)}", cure)
        spot.faults.add(inner.path, told)
    return supports


def _ordered(parts: Parts) -> bool:
    """Whether the days never fall; tells the first that does."""
    last: Part[StageTable] | None = None
    for part in parts.stages:
        if last is not None and (part.table.at or 0.0) < (last.table.at or 0.0):
            at = quote(last.spot.raw.get("at", "0 days"))
            _out_of_order(part.spot, f"but {key_of(last.spot.path)} before it ({last.table.what}) is at {at}")
            return False
        last = part
    return True


def _out_of_order(spot: Spot, problem: str) -> None:
    cure = "put the stages in the order of their days"
    if spot.has("at"):
        spot.wrong("at", problem, cure)
    else:
        spot.wrong("what", problem, cure)

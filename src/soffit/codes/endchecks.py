"""Ends of a beam within its verification: what ``soffit ends`` checks, and bearing where there are no tendons."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from importlib import import_module

from soffit.codes.design import Design, Entry, Found
from soffit.codes.working import Check, Unchecked, Working
from soffit.errors import SoffitError

RULES = {"aci318-19": "aci318", "en1992": "en1992", "aashto-lrfd": "aashto", "mc2010": "en1992"}
"""By which rules the ends of a standard are checked; the Model Code has those of EN 1992-1-1 in substance."""


def entry(clause: str) -> Entry:
    """For the register of a standard; ``clause``: of its ends."""
    about = "Bearing at the supports; bursting, spalling, splitting and plates of prestressed ends."
    return Entry("ends", "ends and bearing", clause, about, run)


def run(design: Design) -> Found:
    """The lines of both ends, the worse of two alike. Keys: ``ends-bearing``, ``ends-bursting``, …"""
    to = RULES[design.standard]
    best: dict[str, Check] = {}
    missing: dict[str, Unchecked] = {}
    for found in _found(design, to):
        if isinstance(found, Unchecked):
            missing.setdefault(found.why, found)
        elif found.key not in best or found.ratio > best[found.key].ratio:
            best[found.key] = found
    yield from best.values()
    yield from missing.values()


def _found(design: Design, to: str) -> Iterator[Check | Unchecked]:
    # the floor of detail imports this one
    ends = import_module("soffit.detail.ends")
    beam = design.beam
    try:
        both = ends.ends(beam, to).ends if beam.tendons else ends.bearings(beam, to)
    except SoffitError as error:
        yield Unchecked("ends", str(error), design.opened.name, "ends")
        return
    for end in both:
        said = (f"At the {end.side} end.", *end.assumptions)
        x = 0.0 if end.side == "left" else beam.length
        for line in end.lines:
            yield replace(line.check, title=f"{line.title}, {end.side} end", key=_key(line.title), x=x,
                          assumptions=tuple(dict.fromkeys((*line.check.assumptions, *said))),
                          workings=_all(line.check), state="detailing")  # fmt: skip
        for sentence in end.not_checked:
            yield Unchecked("ends", sentence, design.opened.name, "ends")


def _key(title: str) -> str:
    """``"bearing at the support"`` -> ``"ends-bearing"``."""
    kinds = ("bearing", "bursting", "spalling", "splitting", "confinement", "plate")
    return f"ends-{next((k for k in kinds if k in title), 'other')}"


def _all(check: Check) -> tuple[Working, ...]:
    """The workings with demand and resistance among them."""
    more = [w for w in (check.demand, check.resistance) if w not in check.workings]
    return (*check.workings, *more)

"""Every check of a beam by one standard."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from importlib import import_module
from typing import Protocol, cast

from soffit.codes.design import Design, Entry, Opened, keyed
from soffit.codes.working import Check, Unchecked
from soffit.errors import PhysicsError, SoffitError
from soffit.member.beam import Beam

STANDARDS = {
    "aci318-19": "soffit.codes.aci318.register",
    "en1992": "soffit.codes.en1992.register",
    "aashto-lrfd": "soffit.codes.aashto.register",
    "mc2010": "soffit.codes.mc2010.register",
}
CAUTIONS = (
    "For a licensed engineer to review: the local code, its national annex and the authority govern.",
    "Stressed steel stores energy, plain and lightly reinforced beams break without warning: keep clear while "
    "stressing, lifting and testing.",
)


@dataclass(frozen=True)
class Verification:
    beam: Beam
    standard: str
    """Key, of ``STANDARDS``."""
    name: str
    """As it is cited, with its edition."""
    design: Design | None
    """None where the beam lies outside the scope."""
    checks: tuple[Check, ...]
    """The most used first; what is for information last."""
    unchecked: tuple[Unchecked, ...]
    """Outside the scope first, then what Soffit leaves to the engineer."""
    assumptions: tuple[str, ...]
    cautions: tuple[str, ...] = CAUTIONS

    @property
    def governing(self) -> Check | None:
        """What is used most."""
        real = [c for c in self.checks if c.state != "information"]
        return real[0] if real else None

    @property
    def failing(self) -> tuple[Check, ...]:
        return tuple(c for c in self.checks if not c.kept)

    @property
    def kept(self) -> bool:
        """Whether all that was checked holds, and something was."""
        return self.governing is not None and not self.failing


def register(standard: str) -> tuple[Entry, ...]:
    """The kinds of checks that a standard has here. Raises :class:`SoffitError` that lists the standards."""
    return tuple(_module(standard).ENTRIES)


def verify(beam: Beam, to: str = "en1992", only: Collection[str] = ()) -> Verification:
    """Verify a beam. ``only``: keys of the checks to make, else all.

    A standard that does not apply to the beam makes no check at all and says why. Raises :class:`SoffitError` for an
    unknown standard or key.
    """
    rules = _module(to)
    known = {entry.key for entry in rules.ENTRIES}
    for key in only:
        if key not in known:
            raise SoffitError(f"{rules.NAME} has no check {key!r} here: choose among {', '.join(sorted(known))}")
    opened: Opened = rules.opened(beam)
    if opened.refused:
        return Verification(beam, to, opened.name, None, (), opened.refused, (*beam.notes, *opened.said))
    design = Design(beam, to, opened)
    checks: list[Check] = []
    unchecked: list[Unchecked] = []
    for entry in rules.ENTRIES:
        if only and entry.key not in only:
            continue
        try:
            for found in entry.run(design):
                if isinstance(found, Check):
                    checks.append(keyed(found, entry))
                else:
                    unchecked.append(found if found.key else replace(found, key=entry.key))
        except PhysicsError as error:
            unchecked.append(Unchecked(entry.title, str(error), entry.clause, entry.key))
    if not only:
        unchecked += rules.LEFT_OUT
    checks.sort(key=lambda c: (c.state == "information", -c.ratio, -c.demand.value))
    unchecked.sort(key=lambda u: not u.scope)
    # how the means were derived that a life counts with does not matter here
    notes = [text for text in beam.notes if text not in beam.concrete.notes]
    if beam.supports.fixed_left or beam.supports.fixed_right:
        notes.append("Bars that run into a fixed end are taken as anchored beyond it.")
    said = (*notes, *opened.said, *design.prestress.said, *design.actions.said)
    return Verification(beam, to, opened.name, design, tuple(checks), tuple(unchecked), tuple(dict.fromkeys(said)))


class Rules(Protocol):
    """A register of a standard."""

    NAME: str
    ENTRIES: tuple[Entry, ...]
    LEFT_OUT: tuple[Unchecked, ...]

    def opened(self, beam: Beam) -> Opened: ...


def _module(standard: str) -> Rules:
    if standard not in STANDARDS:
        raise SoffitError(f"there is no standard {standard!r} to verify by: choose among {', '.join(STANDARDS)}")
    return cast(Rules, import_module(STANDARDS[standard]))

"""All groups of tests, run."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property, partial

from evidence import classic, flexure, plain, statics, web
from evidence.predicted import Outcome, run
from evidence.specimen import Measured, Specimen

Test = tuple[Specimen, Measured]


@dataclass(frozen=True)
class Group:
    key: str
    title: str
    outcomes: tuple[Outcome, ...]

    def part(self, title: str, keep: Callable[[Outcome], bool]) -> Group:
        """The rows that ``keep`` keeps; a part may be empty."""
        return Group(self.key, title, tuple(o for o in self.outcomes if keep(o)))

    @cached_property
    def ratios(self) -> tuple[float, ...]:
        return tuple(o.ratio for o in self.outcomes)


def group(key: str, title: str, tests: Iterable[Test]) -> Group:
    return Group(key, title, tuple(run(*test) for test in tests))


def bending() -> Group:
    return group("bending", "Bending", flexure.flexure())


def _graded(quality: str, o: Outcome) -> bool:
    return o.measured.labels[0] == quality


def bending_parts(whole: Group) -> list[Group]:
    """By the quality that the file gives each row, and what equilibrium says."""
    parts = [whole.part(f"quality {q}", partial(_graded, q)) for q in ("A-", "B", "C")]
    slender = whole.part("shear span not flagged short", lambda o: "SHORT" not in o.measured.labels[1])
    possible = whole.part("rows that equilibrium allows", lambda o: not statics.impossible(o))
    return [*parts, slender, possible]


def bending_varied() -> list[Group]:
    """The same beams under other assumptions about the steel after yield."""
    return [
        group("bending", "strain at the tensile strength 5 %", flexure.flexure(0.05)),
        group("bending", "strain at the tensile strength 12 %", flexure.flexure(0.12)),
        group("bending", "yield plateau to 1.5 %, then hardening", flexure.flexure(law="plateau")),
    ]


def bare_webs() -> list[Group]:
    return [
        group("bare web", "Shear without stirrups, bars yield at 500 MPa", web.without_stirrups()),
        group("bare web", "Shear without stirrups, bars that never yield", web.without_stirrups(web.ELASTIC)),
    ]


def stirruped_webs() -> Group:
    return group("stirrups", "Shear with stirrups", web.with_stirrups())


def carried(whole: Group) -> Group:
    """Rows whose listed bars can give the measured moment at 1.1 times yield over a lever arm of 0.9 d."""
    return whole.part(
        "rows whose bars can carry the moment",
        lambda o: statics.moment(o) <= 1.1 * 0.9 * statics.most(o, strength=False),
    )


def nineteen_sixty_three() -> Group:
    return group("classic", "Bresler and Scordelis (loads from memory)", classic.classic())


def classic_parts(whole: Group) -> list[Group]:
    return [
        whole.part("without stirrups", lambda o: o.specimen.stirrups is None),
        whole.part("with stirrups", lambda o: o.specimen.stirrups is not None),
    ]


def plain_beams() -> Group:
    return group("plain", "Plain beams", plain.plain())

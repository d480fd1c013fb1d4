"""The stresses of a beam at every stage against the limits of the standards."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from soffit.codes.aashto import stages as aashto
from soffit.codes.aci318 import stages as aci
from soffit.codes.en1992 import stages as en
from soffit.codes.stagecheck import At, StageCheck, kind_of
from soffit.member.time.result import Past

__all__ = ["STANDARDS", "StageCheck", "at_stages"]

STANDARDS: dict[str, Callable[[At], Iterator[StageCheck | None]]] = {
    en.NAME: en.checks,
    aci.NAME: aci.checks,
    aashto.NAME: aashto.checks,
}


def at_stages(past: Past, standards: Sequence[str] = tuple(STANDARDS)) -> tuple[StageCheck, ...]:
    """Every limit that applies just after every stage, in the order of the stages, then of the standards.

    The worst stress along the beam for each: just after release and stressing the limits at transfer, later those under
    what stays, and with the whole of a load on that is not permanent those of the total load. Limits go by the
    specified strength (that ordered, or the mean less 8 MPa; before 28 days the mean of that age less 8 MPa; f'ci as
    the file gives it). Stresses are those of the uncracked section, with sections that are not prestressed cracked
    where they have. ACI 318 and AASHTO speak of prestressed beams only. Where the concrete is too young to have a
    specified strength, nothing is allowed.

    Raises ``ValueError`` that lists the standards for one that is not known.
    """
    for name in standards:
        if name not in STANDARDS:
            raise ValueError(f"there are no limits of stress by {name!r}: choose among {', '.join(STANDARDS)}")
    found: list[StageCheck] = []
    for instant in past.instants:
        if instant.stage.what == "cast":
            continue
        at = At(past, instant, kind_of(past, instant))
        for name in standards:
            try:
                found += [c for c in STANDARDS[name](at) if c is not None]
            except ValueError as error:
                found.append(
                    StageCheck(
                        instant, at.age, at.kind, name, "", "no specified strength yet", "compression", "anywhere",
                        float(past.x[0]), min(float(past.bottom[at.step].min()), float(past.top[at.step].min())), 0.0,
                        note=str(error),
                    )
                )  # fmt: skip
    return tuple(found)

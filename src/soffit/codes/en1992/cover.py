"""Cover by EN 1992-1-1:2004 4.4.1 and the strength class of Annex E; recommended values, *from memory*."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from soffit.codes.design import Design, Entry, Found, worst
from soffit.codes.en1992 import values
from soffit.codes.en1992.bond import covers
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.member.beam import StirrupZone
from soffit.member.profile import height

DURABLE: dict[str, tuple[float, ...]] = {
    "X0": (10, 10, 10, 10, 15, 20), "XC1": (10, 10, 10, 15, 20, 25), "XC2": (10, 15, 20, 25, 30, 35),
    "XC3": (10, 15, 20, 25, 30, 35), "XC4": (15, 20, 25, 30, 35, 40), "XD1": (20, 25, 30, 35, 40, 45),
    "XS1": (20, 25, 30, 35, 40, 45), "XD2": (25, 30, 35, 40, 45, 50), "XS2": (25, 30, 35, 40, 45, 50),
    "XD3": (30, 35, 40, 45, 50, 55), "XS3": (30, 35, 40, 45, 50, 55),
}  # fmt: skip
"""cmin,dur of reinforcing steel, mm, structural classes S1 to S6, Table 4.4N. Of prestressing steel, Table 4.5N, 10 mm
more from XC1 on."""
STRONG: dict[str, float] = {
    "X0": 30, "XC1": 30, "XC2": 35, "XC3": 35, "XC4": 40, "XD1": 40, "XD2": 40, "XS1": 40, "XD3": 45, "XS2": 45,
    "XS3": 45,
}  # fmt: skip
"""fck from which the class is one lower, Table 4.3N."""
INDICATIVE: dict[str, float] = {
    "X0": 12, "XC1": 20, "XC2": 25, "XC3": 30, "XC4": 30, "XD1": 30, "XD2": 30, "XD3": 35, "XS1": 30, "XS2": 35,
    "XS3": 35, "XF1": 30, "XF2": 25, "XF3": 30, "XA1": 30, "XA2": 30, "XA3": 35,
}  # fmt: skip
"""Indicative minimum fck, MPa, Table E.1N."""


def classes(design: Design) -> tuple[tuple[str, ...], str]:
    """Exposure classes that the file names, else XC1, and what is said of it."""
    found = tuple(c.upper() for c in design.choices.exposure if c.upper() in INDICATIVE)
    if found:
        return found, f"Exposure {', '.join(found)}."
    return ("XC1",), "XC1 is taken, for information: the file names no exposure class of 4.2."


def structural(design: Design, exposure: str) -> tuple[int, str]:
    """Structural class 1 to 6 of Table 4.3N, and how it came about."""
    number, why = 4, ["S4"]
    if design.choices.working_life >= 100.0:
        number, why = number + 2, [*why, "+2 for 100 years"]
    if design.strength >= STRONG[exposure]:
        number, why = number - 1, [*why, f"−1 for fck ≥ {STRONG[exposure]:g} MPa"]
    if design.choices.shape == "slab":
        number, why = number - 1, [*why, "−1 for a slab"]
    number = min(max(number, 1), 6)
    return number, f"Structural class S{number} in {exposure}: {', '.join(why)} (Table 4.3N)."


def durable(design: Design, prestressing: bool) -> tuple[Working, tuple[str, ...]]:
    """cmin,dur of the class that asks for most, mm."""
    found, said = classes(design)
    best: tuple[float, str, str] | None = None
    for exposure in found:
        if exposure not in DURABLE:
            continue
        number, why = structural(design, exposure)
        need = DURABLE[exposure][number - 1] + (10.0 if prestressing and exposure != "X0" else 0.0)
        if best is None or need > best[0]:
            best = need, exposure, why
    if best is None:
        number, why = structural(design, "XC1")
        best = DURABLE["XC1"][number - 1] + (10.0 if prestressing else 0.0), "XC1", why
        said += " For cover XC1 is taken beside it."
    table = "Table 4.5N" if prestressing else "Table 4.4N"
    return given("cmin,dur", f"for durability, {best[1]}, {table}", best[0], "length"), (said, best[2])


def cover(design: Design) -> Found:
    """The least cover of each kind of steel against cnom."""
    kinds = {"bars": _bars(design), "stirrups": _stirrups(design), "tendons": _tendons(design)}
    for found in kinds.values():
        check = worst(found)
        if check is not None:
            yield check
    if design.beam.outline.shape in ("circle", "outline"):
        yield Unchecked("cover at the sides", "the file gives heights alone, and the sides of this outline slope",
                        design.pen.cite("4.4.1"), "cover")  # fmt: skip


def nominal(
    design: Design, bond: Working, prestressing: bool, is_: Working, title: str, key: str, said: tuple[str, ...] = ()
) -> Check:
    pen = design.pen
    durability, more = durable(design, prestressing)
    least = pen("cmin", "least cover", "max(cmin,b, cmin,dur, 10)", (bond, durability), "length", "(4.2)")
    dev = Symbol("Δcdev", design.choices.nationally("Δcdev", 10.0), "length", "deviation, 4.4.1.3, recommended 10 mm")
    need = pen("cnom", "nominal cover", "cmin + Δcdev", (least, dev), "length", "(4.1)")
    named = any(c.upper() in INDICATIVE for c in design.choices.exposure)
    state = "detailing" if named else "information"
    return Check(title, pen.cite("4.4.1"), need, is_, (bond, durability, least, need, is_), (*more, *said), key=key,
                 state=state)  # fmt: skip


def _big(design: Design) -> float:
    return 5.0 if design.beam.concrete.max_aggregate > 32.0 else 0.0


def _bars(design: Design) -> Iterator[Check]:
    pen = design.pen
    for bar in design.beam.bars:
        d = Symbol("φ", bar.diameter, "length", "diameter of the bar")
        add = Symbol("Δ", _big(design), "length", "5 mm for aggregate above 32 mm")
        bond = pen("cmin,b", "for bond", "φ + Δ", (d, add), "length", "Table 4.2")
        is_ = given("c", f"cover of {bar.label}", covers(design, bar).face, "length")
        yield nominal(design, bond, False, is_, f"cover of bars, {bar.label}", "cover-bars")


def _stirrups(design: Design) -> Iterator[Check]:
    """Stirrups stand outside the bars that they hold."""
    for bar in design.beam.bars:
        zones = [z for z in design.beam.stirrups if z.x_from < bar.x_to and z.x_to > bar.x_from]
        if not zones or bar.part == "topping":
            continue
        zone: StirrupZone = max(zones, key=lambda z: z.diameter)
        pen = design.pen
        d = Symbol("φw", zone.diameter, "length", "diameter of the stirrup")
        bond = pen("cmin,b", "for bond", "φw", (d,), "length", "Table 4.2")
        c = Symbol("cs", covers(design, bar).face, "length", f"cover of {bar.label}")
        is_ = pen("c", "cover of the stirrup outside it", "cs − φw", (c, d), "length")
        yield nominal(design, bond, False, is_, "cover of stirrups", "cover-stirrups",
                      ("Stirrups lie right outside the longitudinal bars.",))  # fmt: skip


def _tendons(design: Design) -> Iterator[Check]:
    pen, depth = design.pen, design.beam.outline.depth
    for t in design.beam.tendons:
        x = np.linspace(t.x_from, t.x_to, 41)
        y = height(t.profile, x)
        size = max(t.diameter, t.duct)
        axis = float(min(np.min(y), depth - np.max(y)))
        if t.when == "before casting":
            kind, times = ("wire", 2.5) if t.wire else ("strand", 1.5)
            d = Symbol("φ", t.diameter, "length", "diameter of the tendon")
            k = Symbol("k", times, "ratio", f"pretensioned {kind}, 4.4.1.2 (3)")
            bond = pen("cmin,b", "for bond", "k·φ", (k, d), "length", "4.4.1.2 (3)")
        else:
            d = Symbol("φd", size, "length", "diameter of the duct")
            bond = pen("cmin,b", "for bond, circular duct", "min(φd, 80)", (d,), "length", "4.4.1.2 (3)")
        is_ = given("c", f"least cover of tendon {t.name}, ends included", axis - 0.5 * size, "length")
        yield nominal(design, bond, True, is_, f"cover of tendons, {t.name}", "cover-tendons")


def strength(design: Design) -> Found:
    """Annex E: an indicative class by exposure, told for information."""
    found, said = classes(design)
    exposure = max(found, key=lambda c: INDICATIVE[c])
    need = given("fck,min", f"indicative for {exposure}, Table E.1N", INDICATIVE[exposure], "stress")
    is_ = given("fck", "of the beam", values.fck(design).value, "stress")
    yield Check("strength class by exposure", design.pen.cite("Annex E"), need, is_, (need, is_),
                (said, "Annex E is informative; mix and water by EN 206 are not in the beam file."),
                key="exposure-strength", state="information")  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("cover", "cover", "4.4.1", "Nominal cover against that of bars, stirrups and tendons.", cover),
    Entry("exposure-strength", "strength class by exposure", "Annex E", "fck against the indicative minimum class.",
          strength),
)  # fmt: skip

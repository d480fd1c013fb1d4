"""Transmission and anchorage of pretensioned tendons by EN 1992-1-1:2004 8.10.2; *from memory*.

The short transmission length (0.8 lpt) is for stresses at release, the long one (1.2 lpt) for strength.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from soffit.codes.design import Design, Entry, Found
from soffit.codes.en1992 import values
from soffit.codes.en1992.bond import STRONGEST
from soffit.codes.working import Check, Symbol, Unchecked, Working, given
from soffit.member.transfer_length import good_bond


@dataclass(frozen=True)
class Transmission:
    released: Working
    """σpm0, MPa."""
    basic: Working
    """lpt, mm."""
    short: Working
    """lpt1."""
    long: Working
    """lpt2."""
    anchorage: Working
    """lbpd: to the design strength."""
    design_stress: Working
    """σpd, MPa."""
    final: Working
    """σpm∞, MPa."""
    workings: tuple[Working, ...]

    def stress(self, embedment: float) -> float:
        """That a tendon can have in the ultimate limit state at a distance from its end, MPa, Figure 8.17."""
        lpt, lb = self.long.value, self.anchorage.value
        if embedment <= lpt:
            return self.final.value * max(embedment, 0.0) / lpt
        rise = self.design_stress.value - self.final.value
        return self.final.value + rise * min((embedment - lpt) / (lb - lpt), 1.0) if lb > lpt else self.final.value


def young_tensile(design: Design) -> Working:
    """fctm(t) when the prestress is let in: βcc·fctm (3.4), βcc = fcm(t)/fcm."""
    transfer = design.strength if design.opened.transfer is None else min(design.opened.transfer, design.strength)
    fcm_t = Symbol("fcm(t)", transfer + 8.0, "stress", "mean strength when the prestress is let in")
    fcm = Symbol("fcm", design.strength + 8.0, "stress", "mean strength at 28 days")
    return design.pen("fctm(t)", "tensile strength when the prestress is let in", "fcm(t)/fcm·fctm",
                      (fcm_t, fcm, values.fctm(design)), "stress", "(3.4)")  # fmt: skip


def pretensioned(design: Design) -> Iterator[int]:
    for i, t in enumerate(design.beam.tendons):
        if t.when == "before casting" and t.bond == "bonded" and t.stress > 0.0:
            yield i


def transmission(design: Design, group: int) -> Transmission:
    return design.kept(("en1992 transmission", group), lambda: _transmission(design, group))


def _transmission(design: Design, group: int) -> Transmission:
    pen, tendon = design.pen, design.beam.tendons[group]
    middle = 0.5 * (tendon.x_from + tendon.x_to)
    young = young_tensile(design)
    gamma = values.national(design, "γc", 1.5, "for concrete, Table 2.1N")
    alpha = values.national(design, "αct", 1.0, "3.1.6 (2)")
    fctd_t = pen("fctd(t)", "its design value", "αct·0.7·fctm(t)/γc", (alpha, young, gamma), "stress", "8.10.2.2 (1)")
    well = good_bond(design.beam, tendon)
    kind = "wire" if tendon.wire else "strand"
    p1 = Symbol("ηp1", 2.7 if tendon.wire else 3.2, "ratio", f"{kind}, 8.10.2.2 (1)")
    e1 = Symbol("η1", 1.0 if well else 0.7, "ratio", f"{'good' if well else 'poor'} bond conditions, 8.4.2")
    fbpt = pen("fbpt", "bond at release", "ηp1·η1·fctd(t)", (p1, e1, fctd_t), "stress", "(8.15)")
    a1 = Symbol("α1", 1.25, "ratio", "sudden release, taken")
    a2 = Symbol("α2", 0.25 if tendon.wire else 0.19, "ratio", f"{kind}, 8.10.2.2 (2)")
    d = Symbol("φ", tendon.diameter, "length", "diameter of the tendon")
    released = given("σpm0", "stress just after release", design.prestress.stress(group, middle, early=True), "stress")
    basic = pen("lpt", "transmission length", "α1·α2·φ·σpm0/fbpt", (a1, a2, d, released, fbpt), "length", "(8.16)")
    short = pen("lpt1", "short value, for stresses at release", "0.8·lpt", (basic,), "length", "(8.17)")
    long = pen("lpt2", "long value, for strength", "1.2·lpt", (basic,), "length", "(8.18)")
    taken = Symbol("fck", min(design.strength, STRONGEST), "stress", "at most that of C60/75, 8.10.2.3 (2)")
    mean, fctd = values.fctm(design, taken), values.fctd(design, taken)
    p2 = Symbol("ηp2", 1.4 if tendon.wire else 1.2, "ratio", f"{kind}, 8.10.2.3 (2)")
    fbpd = pen("fbpd", "bond in the ultimate limit state", "ηp2·η1·fctd", (p2, e1, fctd), "stress", "(8.20)")
    fpk = Symbol("fp0.1k", tendon.steel.yield_strength, "stress", "0.1 % proof stress (the file's yield strength)")
    sigma = pen("σpd", "design strength, horizontal branch", "fp0.1k/γs", (fpk, values.gamma_s(design)), "stress",
                "3.3.6")  # fmt: skip
    final = given("σpm∞", "stress after all losses", design.prestress.full(group, middle), "stress")
    whole = pen("lbpd", "anchorage length", "lpt2 + α2·φ·max(0, σpd − σpm∞)/fbpd", (long, a2, d, sigma, final, fbpd),
                "length", "(8.21)")  # fmt: skip
    workings = (young, fctd_t, fbpt, released, basic, short, long, mean, fctd, fbpd, sigma, final, whole)
    return Transmission(released, basic, short, long, whole, sigma, final, workings)


def check(design: Design) -> Found:
    """Whether each pretensioned tendon has its design strength at the middle: 2 lbpd within its bonded length."""
    pen = design.pen
    for i in pretensioned(design):
        tendon = design.beam.tendons[i]
        found = transmission(design, i)
        name = tendon.name or str(i + 1)
        long = given("l", "bonded length of the tendon", tendon.x_to - tendon.x_from, "length")
        need = pen("lneed", "two anchorage lengths", "2·lbpd", (found.anchorage,), "length", "8.10.2.3")
        yield Check(
            f"anchorage of pretensioned tendon {name}", pen.cite("8.10.2.3"), need, long, (*found.workings, need, long),
            ("Beyond lbpd from its ends a tendon has its design strength; the stress along its ends enters curtailment "
             "and bending.",),
            key=f"transmission-{name}", state="strength",
        )  # fmt: skip
    for tendon in design.beam.tendons:
        if tendon.when == "before casting" and tendon.bond == "bonded" and tendon.surface == "plain" and tendon.wire:
            yield Unchecked(
                "transmission", "8.10.2.2 speaks of indented wire and strand, and this wire is smooth",
                pen.cite("8.10.2.2"), "transmission", scope=True,
            )  # fmt: skip


ENTRIES: tuple[Entry, ...] = (
    Entry("transmission", "transmission and anchorage of pretensioned tendons", "8.10.2",
          "Two anchorage lengths lbpd against the bonded length of each pretensioned tendon.", check),
)  # fmt: skip

"""A place in shear by AASHTO LRFD 5.7.3: depth, width, strain, β and θ, with what of it every check there wants."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import copysign

from soffit.codes.aashto import values
from soffit.codes.aashto.bond import developed
from soffit.codes.actions import Factored
from soffit.codes.cut import Cut, TendonsAt
from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working, given

USUAL = 0.5
"""Of fpu: the effective stress from which fpo = 0.7 fpu is of usual levels of prestress (*ours*)."""
STRONGEST = 75.0 * values.KSI
"""fy of stirrups that counts, 5.4.3.1, MPa."""
PHI = Symbol("φ", 0.90, "ratio", "for shear and torsion, 5.5.4.2")


def depth(cut: Cut) -> float:
    """dv at least, 5.7.2.8, mm."""
    return max(0.9 * cut.d, 0.72 * cut.h)


def width(cut: Cut) -> float:
    """bv, mm: the least width of the web less ungrouted ducts."""
    holes = [t.group.duct * t.group.count for t in cut.tendons if not t.bonded and t.group.when == "after curing"]
    return max(cut.bw - max(holes, default=0.0), 0.1 * cut.bw)


@dataclass(frozen=True)
class Place:
    design: Design
    cut: Cut
    """Compressed face as the concurrent moment has it."""
    demand: Factored

    @cached_property
    def sign(self) -> float:
        return copysign(1.0, self.demand.shear)

    @cached_property
    def bv(self) -> Symbol:
        return Symbol("bv", width(self.cut), "length", "least width of the web, less ungrouted ducts")

    @cached_property
    def dv(self) -> Working:
        de = Symbol("de", self.cut.d, "length", "depth of the tension force, tendons at fpy and bars at fy")
        h = Symbol("h", self.cut.h, "length", "depth of the section")
        return self.design.pen("dv", "effective depth in shear", "max(0.9·de, 0.72·h)", (de, h), "length", "5.7.2.8")

    @cached_property
    def vp(self) -> Symbol:
        return Symbol("Vp", self.cut.rise * self.sign, "force", "of the tendons, positive where it helps")

    @cached_property
    def enough(self) -> bool:
        """Whether there are the least stirrups, (5.7.2.5-1)."""
        has = self.cut.stirrups
        return has is not None and self.least is not None and has.area >= self.least.value * (1.0 - 1e-9)

    @cached_property
    def fy(self) -> Symbol:
        has = self.cut.stirrups
        found = min(has.yield_strength, STRONGEST) if has else 0.0
        return Symbol("fy", found, "stress", "yield strength of the stirrups, 75 ksi at most")

    @cached_property
    def s(self) -> Symbol:
        has = self.cut.stirrups
        return Symbol("s", has.spacing if has else 0.0, "length", "spacing of the stirrups")

    @cached_property
    def av(self) -> Symbol:
        has = self.cut.stirrups
        return Symbol("Av", has.area if has else 0.0, "area", "of all legs of a stirrup")

    @cached_property
    def least(self) -> Working | None:
        if self.cut.stirrups is None:
            return None
        d = self.design
        return d.pen("Av,min", "least stirrups", "0.0316·λ·√(f'c)·bv·s/fy",
                     (values.lightness(d), values.fc(d), self.bv, self.s, self.fy), "area", "(5.7.2.5-1)")  # fmt: skip

    @cached_property
    def strain(self) -> tuple[Working, ...]:
        """εs, (5.7.3.4.2-4), and what leads to it."""
        pen, cut = self.design.pen, self.cut
        mu = given("Mu", "moment that goes with Vu", abs(self.demand.moment), "moment", "ksi")
        vu, dv, vp = self.demand.working, self.dv, self.vp
        mv = pen("Mv", "at least |Vu − Vp|·dv", "max(Mu, abs(Vu − Vp)·dv)", (mu, vu, vp, dv), "moment", "5.7.3.4.2")
        held = sum(t.area * t.stress for t in cut.tension_tendons if not t.bonded)
        pull = sum(t.area * _locked(t) for t in cut.tension_tendons if t.bonded) + held
        lock = Symbol("Fpo", pull, "force", "Σ Aps·fpo of tendons in tension: 0.7 fpu, less in the transfer length")
        nu = Symbol("Nu", self.demand.axial, "force", "axial, tension positive")
        stiff = sum(b.area * b.group.steel.modulus * developed(self.design, b) for b in cut.tension_bars)
        stiff += sum(t.area * t.group.steel.modulus * (t.stress / t.full if t.full > 0.0 else 1.0)
                     for t in cut.tension_tendons if t.bonded)  # fmt: skip
        ea = Symbol("EA", stiff, "force", "Es·As + Ep·Aps in tension, as far as developed")
        top = "(Mv/dv + 0.5·Nu + abs(Vu − Vp) − Fpo)"
        symbols = (mv, dv, nu, vu, vp, lock)
        force = mv.value / dv.value + 0.5 * nu.value + abs(vu.value - vp.value) - pull
        what = "strain of the tension steel"
        if force < 0.0:
            act = cut.outline.area - cut.zone(0.5 * cut.h)[0]
            ec = Symbol("Ec", self.design.modulus, "stress", "modulus of the concrete")
            ac = Symbol("Act", act, "area", "concrete on the tension side of mid-depth")
            found = pen("εs", f"{what}, compressed", f"max(−0.0004, {top}/(EA + Ec·Act))", (*symbols, ea, ec, ac),
                        "strain", "5.7.3.4.2")  # fmt: skip
        elif stiff <= 0.0:
            found = pen("εs", f"{what}: there is none", "0.006", (), "strain", "5.7.3.4.2")
        else:
            found = pen("εs", what, f"min(0.006, {top}/EA)", (*symbols, ea), "strain", "(5.7.3.4.2-4)")
        return mu, mv, found

    @cached_property
    def beta(self) -> tuple[Working, ...]:
        pen, es = self.design.pen, self.strain[-1]
        if self.enough:
            return (pen("β", "with the least stirrups", "4.8/(1 + 750·εs)", (es,), "ratio", "(5.7.3.4.2-1)"),)
        ag = Symbol("ag", self.design.beam.concrete.max_aggregate, "length", "largest aggregate")
        sx = pen("sx", "dv: no layers of crack control are counted", "dv", (self.dv,), "length", "5.7.3.4.2")
        sxe = pen("sxe", "spacing of cracks", "max(12, min(80, sx·1.38/(ag + 0.63)))", (sx, ag), "length",
                  "(5.7.3.4.2-7)")  # fmt: skip
        b = pen(
            "β", "without the least stirrups", "4.8/(1 + 750·εs)·51/(39 + sxe)", (es, sxe), "ratio", "(5.7.3.4.2-2)"
        )
        return sx, sxe, b

    @cached_property
    def theta(self) -> Working:
        text = "(29 + 3500·εs)·3.141592653589793/180"
        return self.design.pen("θ", "inclination of the struts", text, (self.strain[-1],), "angle", "(5.7.3.4.2-3)")

    @cached_property
    def vc(self) -> Working:
        d = self.design
        symbols = (self.beta[-1], values.lightness(d), values.fc(d), self.bv, self.dv)
        return d.pen("Vc", "of the concrete", "0.0316·β·λ·√(f'c)·bv·dv", symbols, "force", "(5.7.3.3-3)")

    @cached_property
    def vs(self) -> Working:
        pen = self.design.pen
        if self.cut.stirrups is None:
            return pen("Vs", "of the stirrups: none", "0", (), "force")
        grouted = [t.group.duct for t in self.cut.tendons if t.bonded and t.group.duct]
        text = "Av·fy·dv/tan(θ)/s"
        symbols: tuple[Symbol | Working, ...] = (self.av, self.fy, self.dv, self.theta, self.s)
        if grouted:
            duct = Symbol("ϕduct", max(grouted), "length", "diameter of a grouted duct")
            text, symbols = f"{text}·(1 − 2·(ϕduct/bv)^2)", (*symbols, duct, self.bv)
        return pen("Vs", "of the stirrups", text, symbols, "force", "(5.7.3.3-4)")

    @cached_property
    def vr(self) -> tuple[Working, ...]:
        """φVn, the last, (5.7.3.3-1) and (-2)."""
        pen = self.design.pen
        most = pen("Vn,max", "before the web crushes", "0.25·f'c·bv·dv + Vp",
                   (values.fc(self.design), self.bv, self.dv, self.vp), "force", "(5.7.3.3-2)")  # fmt: skip
        vn = pen("Vn", "nominal resistance", "min(Vc + Vs + Vp, Vn,max)", (self.vc, self.vs, self.vp, most), "force",
                 "(5.7.3.3-1)")  # fmt: skip
        return most, vn, pen("Vr", "factored resistance", "φ·Vn", (PHI, vn), "force", "5.7.2.1")

    @cached_property
    def shown(self) -> tuple[Working, ...]:
        least = () if self.least is None else (self.least,)
        return (self.demand.working, self.dv, *self.strain, *least, *self.beta, self.theta, self.vc, self.vs, *self.vr)


def _locked(t: TendonsAt) -> float:
    """fpo: 0.7 fpu at usual levels of prestress, else fpe; in the transfer length the share that bond has built up."""
    usual = t.full >= USUAL * t.group.steel.tensile
    whole = 0.7 * t.group.steel.tensile if usual else t.full
    return whole * (t.stress / t.full if t.full > 0.0 else 0.0)

"""Relaxation of tendons whose stress is not constant, by the equivalent time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.materials.ageing import relaxation
from soffit.materials.curve import Array
from soffit.member.beam import TendonGroup

US_MODELS = ("ACI 209", "AASHTO")
LEAST, MOST = 0.05, 0.98
"""Stress over strength below which nothing relaxes, and above which no law is asked."""


@dataclass(frozen=True)
class Law:
    """How one tendon group relaxes: ``family`` is en, mc or us."""

    family: str
    steel: str
    rho: float | None
    tensile: float
    scale: float = 1.0

    def share(self, time: Array, ratio: Array) -> Array:
        """Share of the initial stress lost after ``time`` (days) at constant strain."""
        if self.family == "us":
            return relaxation.us(time, ratio, self.steel)
        if self.family == "mc":
            return relaxation.mc2010(time, ratio, self.steel, self.rho)
        return relaxation.en1992(time, ratio, self.steel, self.rho)

    def time(self, share: Array, ratio: Array) -> Array:
        """Days after which ``share`` would be lost at constant strain: the inverse of :meth:`share`."""
        one = self.share(np.full_like(ratio, 1000.0 / relaxation.HOURS), ratio)
        if self.family == "us":
            # log10(t)/3 of what is lost in 1000 hours
            power = np.divide(3.0 * share, one, out=np.zeros_like(share), where=one > 0.0)
            return np.asarray(10.0 ** np.minimum(power, 7.0) / relaxation.HOURS)
        exponent = relaxation.MC_EXPONENT[self.steel] if self.family == "mc" else 0.75 * (1.0 - ratio)
        full = np.divide(share, one, out=np.zeros_like(share), where=one > 0.0)
        return np.asarray(1000.0 / relaxation.HOURS * np.minimum(full ** (1.0 / exponent), 1e4))


def law(key: str, tendon: TendonGroup, scale: float = 1.0) -> Law | None:
    """The relaxation law that goes with an ageing model; none for what does not relax. Bars relax by EN 1992-1-1."""
    kind = tendon.relaxation
    if kind == "none" or tendon.steel.kind == "linear":
        return None
    family = "en"
    if kind != "bar" and key.startswith(US_MODELS):
        family = "us"
    elif kind != "bar" and key.startswith("MC"):
        family = "mc"
    return Law(family, kind, tendon.rho, tendon.steel.tensile, scale)


def further(rule: Law, stress: Array, lost: Array, days: float) -> Array:
    """Relaxation (MPa) in the next ``days`` of a tendon that has ``stress`` (MPa) and has already ``lost`` so much.

    The equivalent time method of EN 1992-1-1:2004 Annex D: with the initial stress less every change but relaxation,
    σ + ΣΔσpr, the time is sought after which the law would have lost what has been lost, and the law goes on from
    there. Elementwise; the clock of the law never runs back.
    """
    if days <= 0.0:
        return np.zeros_like(stress)
    initial = stress + lost
    ratio = np.clip(np.nan_to_num(initial / rule.tensile), LEAST, MOST)
    share = np.maximum(np.nan_to_num(lost / np.maximum(initial, 1e-9)), 0.0) / rule.scale
    since = rule.time(share, ratio)
    more = rule.scale * (rule.share(since + days, ratio) - share) * initial
    return np.where((initial > LEAST * rule.tensile) & (stress > 0.0), np.maximum(more, 0.0), 0.0)

"""Final creep and shrinkage by EN 1992-1-1:2004 3.1.4 and Annex B, as workings; B.1 seen in secondary print, kh and the
adjustment of the age at loading *from memory*. The same numbers as :mod:`soffit.materials.ageing.en1992`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from soffit.codes.design import Design
from soffit.codes.working import Symbol, Working
from soffit.materials.ageing.cement import adjusted_age
from soffit.materials.ageing.en1992 import DRYING, SIZE_FACTORS, SIZES

INDOORS = 50.0
"""Relative humidity taken where the file gives none, %."""
LOADED = 28.0
"""Age at loading taken where the file gives none, days."""
_LOADING = ("release", "stress", "support", "load")


@dataclass(frozen=True)
class LongTerm:
    creep: Working
    """φ(∞, t0), to be put on Ecm (7.4.3 (5))."""
    effective: Working
    """Ec,eff, MPa."""
    shrinkage: Working
    """εcs, a shortening positive."""
    workings: tuple[Working, ...]
    said: tuple[str, ...]


def longterm(design: Design) -> LongTerm:
    return design.kept("en1992 longterm", lambda: _longterm(design))


def _longterm(design: Design) -> LongTerm:
    pen, making, outline = design.pen, design.beam.making, design.beam.outline
    if making is None:
        humidity, cement, days, size = INDOORS, "N", LOADED, 2.0 * outline.area / outline.perimeter
        said = (
            f"Creep and shrinkage are for {INDOORS:g} % humidity, cement class N and loading at {LOADED:g} days, all "
            "taken because the file does not say; the whole outline dries.",
        )
    else:
        cast = making.casting
        humidity, cement, size = cast.humidity, cast.cement, cast.notional_size
        days = max(min((s.at for s in making.stages if s.what in _LOADING), default=LOADED), 0.5)
        said = (
            f"Creep and shrinkage are for {humidity:g} % humidity and cement class {cement} as the file says, loaded "
            f"at {days:g} days.",
        )
    t0 = float(adjusted_age(days, cement))
    fcm = Symbol("fcm", design.strength + 8.0, "stress", "mean strength, fck + 8")
    rh = Symbol("RH", humidity, "ratio", "relative humidity, %")
    h0 = Symbol("h0", size, "length", "2·Ac/u, u what dries")
    age = Symbol("t0", t0, "time", f"age at loading ({days:g} days), adjusted for cement class {cement}, (B.9)")
    text = "1 + (1 − RH/100)/(0.1·h0^(1/3))"
    if fcm.value > 35.0:
        text = "(1 + (35/fcm)^0.7·(1 − RH/100)/(0.1·h0^(1/3)))·(35/fcm)^0.2"
    dry = pen("φRH", "by humidity", text, (fcm, rh, h0) if fcm.value > 35.0 else (rh, h0), "ratio", "(B.3)")
    creep = pen("φ∞", "final creep coefficient φ(∞,t0)", "φRH·16.8/√(fcm)/(0.1 + t0^0.20)", (dry, fcm, age), "ratio",
                "(B.2), (B.4), (B.5)")  # fmt: skip
    ecm = Symbol("Ecm", design.modulus, "stress", "modulus of the concrete, Table 3.1")
    effective = pen("Ec,eff", "effective modulus", "Ecm/(1 + φ∞)", (ecm, creep), "stress", "(7.20)")
    a1, a2 = DRYING[cement]
    nominal = pen("εcd,0", "nominal drying", f"0.85·(220 + 110·{a1:g})·exp(−{a2:g}·fcm/10)·1.55·(1 − (RH/100)^3)/10^6",
                  (fcm, rh), "strain", "(B.11)")  # fmt: skip
    kh = Symbol("kh", float(np.interp(size, SIZES, SIZE_FACTORS)), "ratio", "by h0, Table 3.3")
    fck = Symbol("fck", design.strength, "stress", "characteristic strength of the concrete")
    shrinkage = pen("εcs", "final shrinkage, drying and autogenous", "kh·εcd,0 + 2.5·max(0, fck − 10)/10^6",
                    (kh, nominal, fck), "strain", "(3.8) to (3.12)")  # fmt: skip
    return LongTerm(creep, effective, shrinkage, (dry, creep, effective, nominal, shrinkage), said)

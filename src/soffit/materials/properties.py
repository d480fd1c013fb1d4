"""The mean properties of a concrete from what is known of it; every derived value leaves a sentence."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from soffit.materials import standards
from soffit.materials.compression import LAWS, stiffness_ratio
from soffit.materials.concrete import Concrete
from soffit.materials.standards import Standard

LOWEST, HIGHEST = 2.0, 200.0
"""Cylinder strengths, MPa, outside which nothing is computed."""
DENSITY = 2400.0
"""Plain normal concrete, kg/m³ (EN 1991-1-1:2002 Table A.1: 24 kN/m³)."""
MAX_AGGREGATE = 16.0
"""mm; *common practice* for beams."""


@dataclass
class _Notes:
    said: list[str] = field(default_factory=list)

    def __call__(self, sentence: str) -> None:
        self.said.append(sentence)


def concrete(
    strength: float,
    strength_is: str = "mean",
    standard: str = "EN 1992-1-1",
    tensile: float | None = None,
    modulus: float | None = None,
    fracture_energy: float | None = None,
    max_aggregate: float | None = None,
    density: float | None = None,
    peak_strain: float | None = None,
    law: str = "popovics",
    strength_at_transfer: float | None = None,
    age: float = 28.0,
    cement_class: str | None = None,
) -> Concrete:
    """Mean properties of a concrete; what is not given is derived by ``standard`` and said in ``notes``.

    strength: cylinder strength, MPa, 2 to 200. With ``strength_is="mean"`` measured at ``age``; with
    ``"specified"`` the 28-day value ordered, raised to a mean by the standard and carried to ``age`` by its
    strength gain. tensile, modulus, strength_at_transfer: MPa; fracture_energy: N/mm; max_aggregate: mm;
    density: kg/m³; age: days; modulus: at the origin of the curve; peak_strain: positive. Given values are
    used as they are.

    ``Concrete.strength`` is that of a cylinder. No factor for the strength in the member (0.85 to 0.9 in some
    sources, for casting, size and sustained load) is applied: the mean laws are used with the cylinder's own
    strength.

    Raises ``ValueError`` for an unknown standard, law or kind of strength and for values that no concrete
    has.
    """
    rules, note = standards.standard(standard), _Notes()
    if law not in LAWS:
        raise ValueError(f"there is no compression law {law!r}: choose one of {', '.join(LAWS)}")
    _between("cylinder strength", strength, LOWEST, HIGHEST, "MPa")
    _between("age", age, 0.5, 40000.0, "days")
    fc, gain = _mean_strength(strength, strength_is, rules, age, cement_class, note)
    ft = tensile if tensile is not None else _tensile(fc, gain, age, rules, density, note)
    _between("axial tensile strength", ft, 0.001 * fc, 0.25 * fc, "MPa")
    ec = modulus if modulus is not None else _modulus(fc, rules, density, note)
    _between("modulus", ec, 1000.0, 120000.0, "MPa")
    gf = fracture_energy if fracture_energy is not None else _fracture_energy(fc, note)
    _between("fracture energy", gf, 0.001, 50.0, "N/mm")
    e0 = peak_strain if peak_strain is not None else _peak_strain(fc, ec, law, rules, note)
    _between("peak strain", e0, 0.0003, 0.02, "")
    _outside(fc, rules, note)
    if max_aggregate is None:
        note(f"The largest aggregate is taken as {MAX_AGGREGATE:g} mm (common practice).")
    if density is None:
        note(f"The density is taken as {DENSITY:g} kg/m³ (EN 1991-1-1:2002 Table A.1).")
    if strength_at_transfer is not None:
        _between("strength at transfer", strength_at_transfer, LOWEST, HIGHEST, "MPa")
    made = Concrete(
        strength=fc,
        tensile=ft,
        modulus=ec,
        fracture_energy=gf,
        max_aggregate=_between(
            "largest aggregate", MAX_AGGREGATE if max_aggregate is None else max_aggregate, 0.1, 150.0, "mm"
        ),
        density=_between("density", DENSITY if density is None else density, 500.0, 7000.0, "kg/m³"),
        peak_strain=e0,
        law=law,
        strength_at_transfer=strength_at_transfer,
        age=age,
        notes=tuple(note.said),
        specified=strength if strength_is == "specified" else None,
    )
    stiffness_ratio(made)
    return made


def at_strength(made: Concrete, strength: float, standard: str = "EN 1992-1-1") -> Concrete:
    """The same concrete at another cylinder strength (MPa), for instance at transfer.

    Tensile strength, modulus and fracture energy change in the ratio of the standard's formulas at the two
    strengths, so that measured values keep their measure; the peak strain is derived anew.
    Raises ``ValueError`` for a strength outside 2 to 200 MPa.
    """
    rules = standards.standard(standard)
    _between("cylinder strength", strength, LOWEST, HIGHEST, "MPa")
    old = made.strength
    modulus = made.modulus * rules.modulus(strength, None) / rules.modulus(old, None)
    return replace(
        made,
        strength=strength,
        tensile=made.tensile * rules.tensile(strength) / rules.tensile(old),
        modulus=modulus,
        fracture_energy=made.fracture_energy * standards.fracture_energy(strength) / standards.fracture_energy(old),
        peak_strain=_peak_strain(strength, modulus, made.law, rules, _Notes()),
        notes=(
            *made.notes,
            f"At {strength:.1f} MPa the other properties follow in the ratio of the formulas of {rules.key}.",
        ),
    )


def _between(what: str, value: float, low: float, high: float, unit: str) -> float:
    # written so that a NaN is refused too
    if not low <= value <= high:
        u = f" {unit}" if unit else ""
        raise ValueError(f"the {what} is {value:g}{u}, and only values from {low:.3g} to {high:.3g}{u} are accepted")
    return value


def _mean_strength(
    strength: float, strength_is: str, rules: Standard, age: float, cement_class: str | None, note: _Notes
) -> tuple[float, float]:
    """Mean strength at ``age`` and the strength gain since 28 days that is in it (1 where measured)."""
    if strength_is == "mean":
        return strength, 1.0
    if strength_is != "specified":
        raise ValueError(f'the strength is either "mean" or "specified", not {strength_is!r}')
    fc = rules.mean(strength)
    note(f"The specified strength {strength:.1f} MPa gives a mean of {fc:.1f} MPa ({rules.mean_source}).")
    if age == 28.0:
        return fc, 1.0
    gain = rules.gain(age, cement_class)
    kind = "" if cement_class else "; normal cement taken"
    note(f"At {age:g} days the mean strength is {gain:.3f} of that at 28 days ({rules.gain_source}{kind}).")
    return fc * gain, gain


def _tensile(fc: float, gain: float, age: float, rules: Standard, density: float | None, note: _Notes) -> float:
    ft, source = rules.tensile(fc), rules.tensile_source
    if gain != 1.0 and rules.key == "EN 1992-1-1":
        # 3.1.2(9): the tensile strength has its own exponent of the gain
        ft = rules.tensile(fc / gain) * gain ** (1.0 if age < 28.0 else 2.0 / 3.0)
        source = "EN 1992-1-1:2004 Table 3.1 and 3.1.2(9)"
    if density is not None and density < 2200.0:
        light = (
            0.4 + 0.6 * density / 2200.0 if rules.key == "EN 1992-1-1" else standards.aci_lightweight_factor(density)
        )
        ft *= light
        source += f"; × {light:.2f} for lightweight concrete"
    note(f"The axial tensile strength {ft:.2f} MPa is derived ({source}).")
    if rules.key == "EN 1992-1-1" and fc < rules.low:
        note("Below a mean of 20 MPa the standard has no tensile strength: the value there is reduced in proportion.")
    return ft


def _modulus(fc: float, rules: Standard, density: float | None, note: _Notes) -> float:
    ec = rules.modulus(fc, density)
    note(f"The modulus at the origin {ec:.0f} MPa is derived ({rules.modulus_source}).")
    return ec


def _fracture_energy(fc: float, note: _Notes) -> float:
    gf = standards.fracture_energy(fc)
    note(f"The fracture energy {1000 * gf:.0f} N/m is derived (73 fcm^0.18, fib Model Code 2010 5.1.5.2).")
    return gf


def _peak_strain(fc: float, ec: float, law: str, rules: Standard, note: _Notes) -> float:
    """EN's εc1, or Collins & Mitchell's ε0 where ACI is named with the Popovics law, which has no other.

    ε0 also serves where it is the larger: εc1 knows nothing of the modulus, and a strong or soft concrete
    cannot reach its strength by then. The Popovics curve is then never more brittle than n = 0.8 + f/17 makes
    it.
    """
    by_stiffness = standards.collins_mitchell_peak_strain(fc, ec)
    tabled = standards.en_peak_strain(fc)
    if (law == "popovics" and rules.key == "ACI 318") or by_stiffness > tabled:
        note(
            f"The strain at the strength {1000 * by_stiffness:.2f} ‰ is derived "
            "(from n = 0.8 + f/17, Collins & Mitchell 1991)."
        )
        return by_stiffness
    note(f"The strain at the strength {1000 * tabled:.2f} ‰ is derived (EN 1992-1-1:2004 Table 3.1).")
    return tabled


def _outside(fc: float, rules: Standard, note: _Notes) -> None:
    if not rules.low <= fc <= rules.high:
        note(
            f"A mean strength of {fc:.1f} MPa is outside {rules.low:g} to {rules.high:g} MPa, "
            f"for which the formulas of {rules.key} were given: they are extrapolated."
        )

"""Units against their definitions and against an independent library of units."""

from __future__ import annotations

import math

import pint
import pytest

from soffit.units import DIMENSIONS, UNITS, UnitError, near, parse, quote, scale, show, system_of

EXACT = [
    ("12 in", "length", 304.8),
    ("1 ft", "length", 304.8),
    ("1/2 in", "length", 12.7),
    ("1 1/2 in", "length", 38.1),
    ("1-1/2 in.", "length", 38.1),
    ("4'-6\"", "length", 1371.6),
    ("4 ft 6 1/2 in", "length", 1384.3),
    ('12"', "length", 304.8),
    ("0.3 m", "length", 300.0),
    ("1.05 m", "length", 1050.0),
    ("−5 mm", "length", -5.0),
    ("1e3 mm", "length", 1000.0),
    ("78.5 mm2", "area", 78.5),
    ("78.5 mm^2", "area", 78.5),
    ("78.5 mm²", "area", 78.5),
    ("78.5 mm**2", "area", 78.5),
    ("0.2 in2", "area", 129.032),
    ("35 MPa", "stress", 35.0),
    ("35 N/mm²", "stress", 35.0),
    ("200 GPa", "modulus", 200000.0),
    ("1 kip", "force", 4448.2216152605),
    ("2.5 kN/m", "line load", 2.5),
    ("80 N/m", "fracture energy", 0.08),
    ("60 N m", "moment", 60000.0),
    ("60 N·m", "moment", 60000.0),
    ("60 Nm", "moment", 60000.0),
    ("2400 kg/m3", "density", 2400.0),
    ("2.4 t/m3", "density", 2400.0),
    ("9.80665 N/m3", "density", 1.0),
    ("28 days", "time", 28.0),
    ("4 weeks", "time", 28.0),
    ("12 h", "time", 0.5),
    ("50 %", "ratio", 0.5),
    ("2 mm/m", "ratio", 0.002),
    ("0.002 /m", "per length", 2e-6),
    ("0.002 1/m", "per length", 2e-6),
    ("2 per m", "per length", 0.002),
    ("18 h", "time", 0.75),
    ("50 years", "time", 18262.5),
    ("-18 hours", "time", -0.75),
    ("40 K", "temperature difference", 40.0),
    ("72 °F", "temperature difference", 40.0),
    ("0.007 rad/m", "angle per length", 7e-6),
    ("180 °/m", "angle per length", math.pi / 1000),
    ("180 deg/m", "angle per length", math.pi / 1000),
]


@pytest.mark.parametrize(("text", "dimension", "value"), EXACT)
def test_round_values_stay_round(text: str, dimension: str, value: float) -> None:
    assert parse(text, dimension) == value


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


PINT = [
    ("4 ksi", "stress", "4 ksi", "MPa"),
    ("145 psf", "stress", "145 lbf/ft**2", "MPa"),
    ("3 ksf", "stress", "3000 lbf/ft**2", "MPa"),
    ("2.5 kip/ft", "line load", "2.5 kip/ft", "N/mm"),
    ("2.5 klf", "line load", "2500 lbf/ft", "N/mm"),
    ("900 plf", "line load", "900 lbf/ft", "N/mm"),
    ("44 lb ft", "moment", "44 lbf*ft", "N*mm"),
    ("5 ft-kip", "moment", "5 kip*ft", "N*mm"),
    ("0.46 lb/in", "fracture energy", "0.46 lbf/in", "N/mm"),
    ("150 lb/ft3", "density", "150 lb/ft**3", "kg/m**3"),
    ("150 pcf", "density", "150 lb/ft**3", "kg/m**3"),
    ("25 kN/m3", "density", "25 kN/m**3/standard_gravity", "kg/m**3"),
    ("68 in4", "inertia", "68 in**4", "mm**4"),
    ("23 in3", "section modulus", "23 in**3", "mm**3"),
    ("0.0003 /ft", "per length", "0.0003/ft", "1/mm"),
    ("3 years", "time", "3 year", "day"),
    ("7 cm", "length", "7 cm", "mm"),
    ("2 km", "length", "2 km", "mm"),
    ("500 µm", "length", "500 micrometer", "mm"),
    ("2 MN", "force", "2 MN", "N"),
    ("800 lbs", "force", "800 lbf", "N"),
    ("90 J/m2", "fracture energy", "90 J/m**2", "N/mm"),
    ("3 kPa", "stress", "3 kPa", "MPa"),
]


@pytest.mark.parametrize(("text", "dimension", "theirs", "base"), PINT)
def test_agrees_with_an_independent_library(
    text: str, dimension: str, theirs: str, base: str, registry: pint.UnitRegistry
) -> None:
    assert parse(text, dimension) == pytest.approx(registry.Quantity(theirs).to(base).magnitude, rel=1e-12)


WRONG = [
    ("35", "stress", 'found "35", which has no unit; write "35 MPa" or "35 ksi"'),
    (35, "stress", 'found 35, a bare number; write its unit too, such as "35 MPa" or "35 ksi"'),
    (True, "stress", 'found true, which is no text; write a stress such as "35 MPa" or "5 ksi"'),
    ("", "length", 'found "", which is empty; write a length such as "25 mm" or "1 in"'),
    ("  ", "length", "which is empty"),
    ("nan mm", "length", "which is not a finite number"),
    ("-inf mm", "length", "which is not a finite number"),
    ("infinity", "length", "which is not a finite number"),
    ("1e999 m", "length", "which is beyond every magnitude"),
    ("1e99999 m", "length", "whose number cannot be read"),
    ("1,5 m", "length", "whose number cannot be read"),
    ("1_000 mm", "length", "whose number cannot be read"),
    ("1.2.3 m", "length", "whose number cannot be read"),
    ("1/0 in", "length", "which divides by zero"),
    ("mm", "length", "which does not begin with a number"),
    ("35 mpa", "stress", 'where "mpa" is no unit known here; did you mean "MPa"?'),
    ("35 Mpa", "stress", 'did you mean "MPa"?'),
    ("20 KN", "force", 'did you mean "kN"?'),
    ("35 mm", "stress", "which is a length and not a stress; write a stress"),
    ("5 kg", "force", "which is a mass and not a force"),
    ("5 kN", "line load", "which is a force and not a load per length"),
    ("25 kN/m3", "stress", "which is a weight per volume and not a stress"),
    ("5 %", "length", "which is a pure number and not a length"),
    ("5 kN/", "line load", "whose unit ends early"),
    ("5 mm^", "length", "no unit known here"),
    ("5 mm^9", "length", "no unit known here"),
    ("9" * 100 + " mm", "length", "which is too long for a quantity"),
    ("25 mm mm", "length", "which is an area and not a length"),
    ("0.007 /m", "angle per length", "which is a quantity per length and not an angle per length"),
    ("0.5 rad", "ratio", "which is another kind of quantity and not a percentage"),
    ("60 °C", "temperature difference", 'write a temperature difference such as "40 K" or "72 °F"'),
    ("40 k", "force", 'did you mean "kN"?'),
]


@pytest.mark.parametrize(("text", "dimension", "sentence"), WRONG)
def test_wrong_text_is_refused_with_what_would_do(text: object, dimension: str, sentence: str) -> None:
    with pytest.raises(UnitError) as refused:
        parse(text, dimension)
    assert sentence in str(refused.value)
    assert "\n" not in str(refused.value)


SHOWN = [
    (304.8, "length", "SI", "304.8 mm"),
    (304.8, "length", "US", "12 in"),
    (9000.0, "length", "SI", "9 m"),
    (9144.0, "length", "US", "30 ft"),
    (35.0, "stress", "SI", "35 MPa"),
    (2.0684271879504, "stress", "US", "300 psi"),
    (27.5790291726720, "stress", "US", "4 ksi"),
    (200000.0, "modulus", "SI", "200 GPa"),
    (0.0, "force", "SI", "0 kN"),
    (-1234567.0, "moment", "SI", "-1.235 kN m"),
    (12345.678, "force", "SI", "12.35 kN"),
    (129.032, "area", "US", "0.2 in²"),
    (0.15, "ratio", "SI", "15 %"),
    (2402.769506094021, "density", "US", "150 lb/ft³"),
    (-1e-9, "length", "SI", "-0.000000001 mm"),
]


@pytest.mark.parametrize(("value", "dimension", "system", "text"), SHOWN)
def test_shown_as_an_engineer_writes_it(value: float, dimension: str, system: str, text: str) -> None:
    assert show(value, dimension, "US" if system == "US" else "SI") == text


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_nothing_is_shown_for_no_number(value: float) -> None:
    with pytest.raises(ValueError, match="can be shown"):
        show(value, "length")


def test_scale_is_the_usual_unit_of_an_axis() -> None:
    assert scale("force") == ("kN", 1000.0)
    assert scale("moment", "US") == ("kip ft", pytest.approx(4448.2216152605 * 304.8))
    assert scale("deflection" if "deflection" in DIMENSIONS else "length") == ("mm", 1.0)


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_every_example_is_of_its_own_kind(dimension: str) -> None:
    for example in DIMENSIONS[dimension].examples:
        assert parse(example, dimension) > 0


def test_system_of_a_text() -> None:
    assert system_of("4 ksi") == "US"
    assert system_of("4'-6\"") == "US"
    assert system_of("25 mm from bottom") == "SI"
    assert system_of("28 days") is None
    assert system_of("B500B") is None
    assert system_of("10") is None


def test_every_unit_means_one_thing() -> None:
    assert all(unit.factor > 0 for unit in UNITS.values())


def test_quote_is_short_and_on_one_line() -> None:
    assert quote("a\nb") == '"a\\nb"'
    assert len(quote("x" * 500)) < 70
    assert quote([1, "a"]) == '[1, "a"]'
    assert quote(list(range(100))) == "a list of 100"
    assert quote({}) == "a table"
    assert quote(False) == "false"


def test_near() -> None:
    assert near("strenght", ["strength", "stress"]) == "strength"
    assert near("KN", ["kN", "MN"]) == "kN"
    assert near("zzz", ["strength"]) is None

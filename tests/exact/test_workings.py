"""Formulas as records: what is shown is what is computed, in the units of each print."""

from __future__ import annotations

import math

import pytest

from soffit.codes.working import Check, Pen, Symbol, evaluate, given, size, work

PSI = 0.006894757293168


def symbol(name: str, value: float, kind: str = "ratio") -> Symbol:
    return Symbol(name, value, kind, "")  # type: ignore[arg-type]


def test_an_inch_pound_formula_is_evaluated_in_pounds_and_inches():
    fc, b, d = (
        symbol("f'c", 4000 * PSI, "stress"),
        symbol("bw", 12 * 25.4, "length"),
        symbol("d", 17.5 * 25.4, "length"),
    )
    vc = Pen("ACI 318-19", "psi")("Vc", "", "2·√(f'c)·bw·d", (fc, b, d), "force", "22.5")
    assert vc.value / 4.4482216152605 == pytest.approx(2 * math.sqrt(4000) * 12 * 17.5, rel=1e-12)
    assert (vc.clause, vc.mark) == ("ACI 318-19 22.5", "from memory")


def test_a_kip_formula_is_evaluated_in_kips_and_inches():
    fc, b, d = (
        symbol("f'c", 6 * 1000 * PSI, "stress"),
        symbol("bv", 8 * 25.4, "length"),
        symbol("dv", 40 * 25.4, "length"),
    )
    vc = Pen("AASHTO LRFD", "ksi")("Vc", "", "0.0316·2·√(f'c)·bv·dv", (fc, b, d), "force", "5.7.3.3")
    assert vc.value / 4448.2216152605 == pytest.approx(0.0316 * 2 * math.sqrt(6) * 8 * 40, rel=1e-12)


KIPS_AND_INCHES = [
    ("stress", 6.894757293168),
    ("moment", 112984.829027617),
    ("volume", 16387.064),
    ("line load", 175.126835),
    ("inertia", 416231.4256),
]


@pytest.mark.parametrize(("kind", "one"), KIPS_AND_INCHES)
def test_one_unit_of_kips_and_inches(kind, one):
    assert size(kind, "ksi") == pytest.approx(one, rel=5e-9)  # as many digits as are typed
    assert size(kind, "SI") == 1.0


@pytest.mark.parametrize(
    "text", ["__import__('os')", "f.real", "[1]", "f if 1 else 2", "g", "f := 2", "print(f)", "f**", "1j"]
)
def test_a_formula_is_arithmetic_and_nothing_else(text):
    with pytest.raises(ValueError, match="is no formula of its symbols"):
        evaluate(text, (symbol("f", 2.0),))


def test_names_with_commas_primes_and_greek_letters_are_kept_apart():
    names = (symbol("VRd,c", 3.0), symbol("VRd", 5.0), symbol("f'c", 7.0), symbol("f", 11.0), symbol("ε", 13.0))
    assert evaluate("max(VRd,c, VRd) + f'c·f − ε", names) == 5 + 77 - 13


def test_a_division_by_zero_is_an_error_and_no_number():
    with pytest.raises(ValueError, match="divides by zero"):
        evaluate("1/a", (symbol("a", 0.0),))


def test_the_numbers_stand_where_the_symbols_stood():
    w = work("M", "", "w·L^2/8", (symbol("w", 5.0, "line load"), symbol("L", 8.0, "length")), "moment")
    assert w.written(lambda s: f"<{s.value:g}>") == "<5>·<8>^2/8"
    assert w.value == 40.0


def test_a_check_without_resistance_is_used_up_beyond_measure_and_one_without_demand_not_at_all():
    nothing, some = given("R", "", 0.0, "force"), given("E", "", 2.0, "force")
    assert Check("", "", some, nothing, ()).ratio == math.inf
    assert Check("", "", nothing, nothing, ()).ratio == 0.0
    assert not Check("", "", some, nothing, ()).kept
    assert Check("", "", some, nothing, (), state="information").kept

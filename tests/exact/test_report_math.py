"""Formulas of a calculation: what is set as mathematics reads as what was computed."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from soffit.codes.working import Pen, Symbol, evaluate, work
from soffit.show.reportmath import Tree, equation, formula, quantity, short, symbol


def text(tree: Tree) -> str:
    """A tree as one line, indices in braces."""
    match tree:
        case ["row", *parts]:
            return "".join(text(p) for p in parts)
        case ["sym", base, primes, below]:
            return f"{base}{primes}{f'_{{{below}}}' if below else ''}"
        case ["num", digits, unit]:
            return f"{digits} {unit}".strip()
        case ["frac", over, under]:
            return f"[{text(over)}]/[{text(under)}]"
        case ["sqrt", inside]:
            return f"√[{text(inside)}]"
        case ["pow", base, exponent]:
            return f"{text(base)}^[{text(exponent)}]"
        case ["fence", left, inside, right]:
            return f"{left}{text(inside)}{right}"
        case [_, sign]:
            return sign
    raise AssertionError(tree)


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("VRd,c", "V_{Rd,c}"), ("f'c", "f′_{c}"), ("bw", "b_{w}"), ("ρl", "ρ_{l}"), ("φMn", "φM_{n}"), ("c", "c"),
        ("α1f'c", "α_{1}f′_{c}"), ("ηfcd", "ηf_{cd}"), ("0.5φVc", "0.5φV_{c}"), ("γF", "γ_{F}"), ("φRH", "φ_{RH}"),
        ("αcw", "α_{cw}"), ("εs1", "ε_{s1}"),
        ("Δσp", "Δσ_{p}"), ("cotθ", "cotθ"), ("M,self_weight", "M_{self weight}"), ("Av/s", "[A_{v}]/[s]"), ("φ", "φ"),
        ("−σc", "−σ_{c}"), ("φf", "φ_{f}"), ("fR1k", "f_{R1k}"), ("β1", "β_{1}"),
    ],
)  # fmt: skip
def test_names_are_split_as_they_are_read(name: str, shown: str) -> None:
    assert text(symbol(name)) == shown


@pytest.mark.parametrize(
    ("written", "parts"),
    [
        ("12.3\N{NARROW NO-BREAK SPACE}kN·m", ["12.3", "kN·m"]),
        ("200\N{NARROW NO-BREAK SPACE}000\N{NARROW NO-BREAK SPACE}MPa", ["200\N{THIN SPACE}000", "MPa"]),
        ("14\N{NARROW NO-BREAK SPACE}700", ["14\N{THIN SPACE}700", ""]),
        ("157\N{NARROW NO-BREAK SPACE}mm²", ["157", "mm²"]),
        ("3.45·10⁻⁶", ["3.45·10⁻⁶", ""]),
        ("22.5°", ["22.5°", ""]),
    ],
)
def test_a_number_keeps_its_digits_and_its_unit(written: str, parts: list[str]) -> None:
    assert quantity(written) == ["num", *parts]


def of(written: str, **values: float) -> str:
    names = tuple(Symbol(name, value, "ratio", "") for name, value in values.items())
    worked = work("R", "", written, names, "ratio")
    return text(formula(worked, lambda i: symbol(names[i].name)))


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("(a + b)/(c·d)", "[a+b]/[c·d]"),
        ("a·(b − c)", "a·(b−c)"),
        ("a − (b − c)", "a−(b−c)"),
        ("(a·b)^2", "(a·b)^[2]"),
        ("a^(2/3)", "a^[2/3]"),
        ("√(a/b)", "√[[a]/[b]]"),
        ("−a·b", "−a·b"),
        ("a·−b", "a·(−b)"),
        ("−−a", "−(−a)"),
        ("max(a, min(b, c))", "max(a,min(b,c))"),
        ("abs(a − d)", "|a−d|"),
        ("0.90·a", "0.9·a"),
        ("(a/b)^0.5", "([a]/[b])^[0.5]"),
    ],
)
def test_formulas_are_set_as_on_paper(written: str, shown: str) -> None:
    assert of(written, a=1.0, b=2.0, c=3.0, d=4.0) == shown


def test_numbers_below_zero_stand_in_brackets_after_a_sign_and_under_a_power() -> None:
    a, b = Symbol("a", -2.0, "ratio", ""), Symbol("b", 3.0, "ratio", "")
    worked = work("R", "", "b·a + a^2 − a", (a, b), "ratio")
    *_, numbers, result = equation(worked, "SI")
    assert text(numbers) == "3.00·(−2.00)+(−2.00)^[2]−(−2.00)"
    assert text(result) == "0"


def test_an_equation_says_name_symbols_numbers_and_result_in_the_units_of_its_print() -> None:
    pen = Pen("ACI 318-19", "psi")
    fc = Symbol("f'c", 4000 * 0.006894757293168, "stress", "")
    b, d = Symbol("bw", 12 * 25.4, "length", ""), Symbol("d", 17.5 * 25.4, "length", "")
    vc = pen("Vc", "", "2·√(f'c)·bw·d", (fc, b, d), "force", "22.5.5.1")
    assert [text(part) for part in equation(vc, "SI")] == [
        "V_{c}", "2·√[f′_{c}]·b_{w}·d", "2·√[4000 psi]·12.0 in·17.5 in", "26.6 kip",
    ]  # fmt: skip
    assert [text(part) for part in short(vc, "SI")] == ["V_{c}", "26.6 kip"]


def test_a_number_that_is_given_is_told_once() -> None:
    c = work("c", "", "c", (Symbol("c", 18.2, "length", ""),), "length")
    assert [text(part) for part in equation(c, "SI")] == ["c", "18.2 mm"]


# -- what is set reads as what is computed -----------------------------------------------------------------------------

NAMES = ("a", "b", "c")


def combined(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    pair = st.tuples(inner, inner)
    return st.one_of(
        *[pair.map(lambda p, sign=sign: f"({p[0]}) {sign} ({p[1]})") for sign in "+−·/"],
        inner.map(lambda a: f"−({a})"),
        inner.map(lambda a: f"({a})^2"),
        inner.map(lambda a: f"abs({a})^(1/2)"),
        inner.map(lambda a: f"√(abs({a}))"),
        pair.map(lambda p: f"max({p[0]}, {p[1]})"),
        pair.map(lambda p: f"min({p[0]}, ({p[1]})/2)"),
    )


FORMULAS = st.recursive(st.sampled_from([*NAMES, "2", "0.5"]), combined, max_leaves=8)


def read(tree: Tree) -> str:
    """What a reader computes who knows only the rules of paper: signs by their rank, bars and indices as they stand."""
    match tree:
        case ["row", *parts]:
            return "".join(read(p) for p in parts)
        case ["sym", base, "", ""]:
            return str(base)
        case ["num", digits, ""]:
            return str(digits).replace("−", "-")
        case ["frac", over, under]:
            return f"(({read(over)})/({read(under)}))"
        case ["sqrt", inside]:
            return f"(({read(inside)})**0.5)"
        case ["pow", base, exponent]:
            return f"{read(base)}**({read(exponent)})"
        case ["fence", "|", inside, "|"]:
            return f"abs({read(inside)})"
        case ["fence", "(", inside, ")"]:
            return f"({read(inside)})"
        case [("op" | "sign"), sign]:
            return {"·": "*", "−": "-"}.get(str(sign), str(sign))
        case [("word" | "comma"), word]:
            return str(word)
    raise AssertionError(tree)


@settings(max_examples=300)
@given(FORMULAS, st.tuples(*[st.floats(0.4, 3.0) | st.floats(-3.0, -0.4)] * 3), st.booleans())
def test_what_is_set_reads_as_what_was_computed(written: str, values: Any, numbers: bool) -> None:
    names = tuple(Symbol(name, value, "ratio", "") for name, value in zip(NAMES, values, strict=True))
    try:
        worked = work("R", "", written, names, "ratio")
    except (ValueError, OverflowError):
        assume(False)
    assume(abs(worked.value) < 1e12)

    def leaf(i: int) -> Tree:
        return ["num", repr(values[i]).replace("-", "−"), ""] if numbers else symbol(NAMES[i])

    got = eval(read(formula(worked, leaf)), {"max": max, "min": min, "abs": abs}, dict(zip(NAMES, values, strict=True)))
    assert got == pytest.approx(evaluate(written, names), rel=1e-6, abs=1e-9)

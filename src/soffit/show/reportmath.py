"""A formula as a tree that a typesetter walks: fractions, roots, powers, subscripts; never as code of its language.

A tree is a list whose first item says what it is: ``["row", …]`` side by side, ``["frac", over, under]``,
``["sqrt", inside]``, ``["pow", base, exponent]``, ``["fence", left, inside, right]``, ``["sym", letters, primes,
subscript]``, ``["num", digits, unit]``, ``["word", text]``, ``["op", sign]``, ``["rel", sign]``, ``["sign", sign]``.
Whatever the names in a formula are, they end as plain strings in it.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Callable
from typing import TypeAlias

from soffit.codes.working import Working, parsed
from soffit.show import working as worked
from soffit.show.numbers import MINUS, THIN, Units

Tree: TypeAlias = list["str | Tree"]

_FUNCTIONS = ("cot", "tan", "sin", "cos")
_GREEK = "αβγδεζηθικλμνξοπρςστυφχψωΓΔΘΛΞΠΣΦΨΩϕϵ"
_FACTOR = re.compile(rf"^(φ)([BMNPTV][a-z].*)$|^(η)(f.+)$|^([{_GREEK}]\d*)(f['′].*)$|^(Δ)(.+)$")
"""Names that are a factor and a symbol: φMn, ηfcd, α1f'c, Δσp; but γF and φRH have an index."""


def symbol(name: str) -> Tree:
    """``VRd,c`` is V with the index Rd,c; ``f'c`` is f′ with c; ``φMn`` is φ beside M with n."""
    name = name.replace("_", " ").strip()
    if name[:1] in (MINUS, "-") and len(name) > 1:
        return ["row", ["sign", MINUS], symbol(name[1:])]
    if "/" in name.strip("/"):
        over, _, under = name.partition("/")
        return ["frac", symbol(over), symbol(under)]
    for word in _FUNCTIONS:
        if name.startswith(word) and name[len(word) : len(word) + 1] in _GREEK and len(name) > len(word):
            return ["row", ["word", word], symbol(name[len(word) :])]
    number = re.match(r"\d+(\.\d+)?(?=\D)", name)
    if number:
        return ["row", ["num", number[0], ""], symbol(name[number.end() :])]
    split = _FACTOR.match(name)
    if split:
        first, rest = (part for part in split.groups() if part is not None)
        return ["row", symbol(first), symbol(rest)]
    base, rest = name[:1], name[1:]
    primes = re.match(r"['′]*", rest)
    count = len(primes[0]) if primes else 0
    return ["sym", base, "′" * count, rest[count:].lstrip(",")]


def quantity(text: str) -> Tree:
    """A number as it is written, with its unit; a negative one stands in brackets where it is put into a formula."""
    digits, _, unit = text.rpartition(THIN) if not text[-1:].isdecimal() else (text, "", "")
    if not digits:
        digits, unit = text, ""
    return ["num", digits.replace(THIN, "\N{THIN SPACE}"), unit]


def formula(working: Working, leaf: Callable[[int], Tree]) -> Tree:
    """The formula of a working with each of its symbols replaced by what ``leaf`` makes of its place."""
    names = tuple(s.name for s in working.symbols)
    return _tree(parsed(working.formula, names), leaf)


def equation(working: Working, units: Units) -> list[Tree]:
    """What stands between the equals signs: name, formula in symbols, formula in numbers, result; parts that would say
    the same twice are left out."""
    own = worked.units_of(working, units)
    inserted, found = worked.numbers(working, own), worked.result(working, own)
    parts = [symbol(working.name)]
    if working.formula != working.name and inserted != "0":
        parts.append(formula(working, lambda i: symbol(working.symbols[i].name)))
        if inserted not in (working.formula, found):
            shown = [worked.shown(s, own, working.system) for s in working.symbols]
            parts.append(formula(working, lambda i: quantity(shown[i])))
    return [*parts, quantity(found)]


def short(working: Working, units: Units) -> list[Tree]:
    """Name and result."""
    return [symbol(working.name), quantity(worked.result(working, worked.units_of(working, units)))]


_LETTERS = {".": 0.28, "·": 0.28, "\N{THIN SPACE}": 0.17, MINUS: 0.78, "m": 0.84, "M": 0.92, "N": 0.75, "P": 0.68}
"""Widths in the face of formulas, em, of what is not as wide as a digit."""


def breadth(tree: Tree) -> float:
    """Width of a tree as it is set, em; rather too wide than too narrow."""
    match tree:
        case ["row", *parts]:
            return sum(breadth(part) for part in parts if isinstance(part, list))
        case ["num", str(digits), str(unit)]:
            return sum(_LETTERS.get(c, 0.52) for c in digits + unit) + (0.17 if unit else 0.0)
        case ["sym", str(), str(primes), str(below)]:
            return 0.6 + 0.3 * len(primes) + 0.4 * len(below)
        case ["frac", list(over), list(under)]:
            return max(breadth(over), breadth(under)) + 0.25
        case ["sqrt", list(inside)]:
            return breadth(inside) + 1.0
        case ["pow", list(base), list(exponent)]:
            return breadth(base) + 0.75 * breadth(exponent)
        case ["fence", _, list(inside), _]:
            return breadth(inside) + 1.0
        case ["op", sign]:
            return 0.72 if sign == "·" else 1.25
        case [_, str(words)]:
            return 0.55 * len(words)
    raise ValueError(f"{tree!r} is no tree of a formula")


# -- the tree of a formula ---------------------------------------------------------------------------------------------

_SIGNS: dict[type[ast.operator], str] = {ast.Add: "+", ast.Sub: MINUS, ast.Mult: "·"}


def _tree(node: ast.expr, leaf: Callable[[int], Tree]) -> Tree:
    match node:
        case ast.Constant(value=value):
            return ["num", f"{value!r}".removesuffix(".0"), ""]
        case ast.Name(id=name):
            return leaf(int(name[1:]))
        case ast.UnaryOp(operand=inner):
            bound = _bound(inner, leaf, _is_sum(inner) or _negative(inner))
            return _row(["sign", MINUS], _positive(bound))
        case ast.BinOp(left=left, op=ast.Div(), right=right):
            return ["frac", _tree(left, leaf), _tree(right, leaf)]
        case ast.BinOp(left=left, op=ast.Pow(), right=right):
            return ["pow", _base(left, leaf), _exponent(right, leaf)]
        case ast.BinOp(left=left, op=op, right=right):
            product, minus = isinstance(op, ast.Mult), isinstance(op, ast.Sub)
            first = _bound(left, leaf, product and _is_sum(left))
            second = _bound(right, leaf, _negative(right) or ((product or minus) and _is_sum(right)))
            return _row(first, ["op", _SIGNS[type(op)]], _positive(second))
        case ast.Call(func=ast.Name(id=name), args=args):
            return _called(name, [_tree(a, leaf) for a in args], args)
    raise ValueError(f"{ast.dump(node)} is no part of a formula")


def _called(name: str, args: list[Tree], nodes: list[ast.expr]) -> Tree:
    if name == "sqrt":
        return ["sqrt", args[0]]
    if name in ("abs", "ceil", "floor"):
        left, right = {"abs": ("|", "|"), "ceil": ("⌈", "⌉"), "floor": ("⌊", "⌋")}[name]
        return ["fence", left, args[0], right]
    if name == "exp":
        return ["pow", ["sym", "e", "", ""], args[0]]
    inside: Tree = ["row", args[0]]
    for arg in args[1:]:
        inside += [["comma", ","], arg]
    return _row(["word", "arctan" if name == "atan" else name], ["fence", "(", inside, ")"])


def _row(*parts: Tree) -> Tree:
    """One row of all; rows in it are opened, so that long formulas may break at any of their signs."""
    row: Tree = ["row"]
    for part in parts:
        row += part[1:] if part[0] == "row" else [part]
    return row


def _bound(node: ast.expr, leaf: Callable[[int], Tree], needed: bool) -> Tree:
    inside = _tree(node, leaf)
    return ["fence", "(", inside, ")"] if needed else inside


def _positive(tree: Tree) -> Tree:
    """In brackets where it is a number below zero, or begins with one."""
    first = tree[1] if tree[0] == "row" else tree
    below = first[0] == "num" and str(first[1]).startswith(MINUS)
    return ["fence", "(", tree, ")"] if below else tree


def _base(node: ast.expr, leaf: Callable[[int], Tree]) -> Tree:
    inside = _tree(node, leaf)
    bare = inside[0] == "sym" or (inside[0] == "num" and not inside[2] and not str(inside[1]).startswith(MINUS))
    bare = bare or (inside[0] == "fence" and not isinstance(node, ast.UnaryOp))
    return inside if bare else ["fence", "(", inside, ")"]


def _exponent(node: ast.expr, leaf: Callable[[int], Tree]) -> Tree:
    """On one line: 2/3 with a slash."""
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Div):
        return _row(_tree(node.left, leaf), ["word", "/"], _bound(node.right, leaf, isinstance(node.right, ast.BinOp)))
    return _tree(node, leaf)


def _is_sum(node: ast.expr) -> bool:
    return isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add | ast.Sub)


def _negative(node: ast.expr) -> bool:
    """Whether it begins with a minus sign."""
    if isinstance(node, ast.BinOp) and not isinstance(node.op, ast.Div | ast.Pow):
        return _negative(node.left)
    return isinstance(node, ast.UnaryOp)

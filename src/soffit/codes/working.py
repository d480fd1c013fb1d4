"""The record of one check: every number with its formula, its symbols and its clause.

The value of a :class:`Working` is computed from the text of its formula and from nothing else, so the formula that is
shown and the formula that was computed cannot differ.
"""

from __future__ import annotations

import ast
import math
import operator
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

Kind = Literal["force", "length", "area", "stress", "angle", "ratio", "count"]
"""What a number is; in N, mm, mm², MPa, rad, plain."""

FROM_MEMORY = "from memory"
COMMON_PRACTICE = "common practice"
OURS = "ours"


@dataclass(frozen=True)
class Symbol:
    """One letter of a formula with its value in base units."""

    name: str
    value: float
    kind: Kind
    what: str


@dataclass(frozen=True)
class Working:
    """One formula, worked: ``name`` = ``formula`` = ``value``."""

    name: str
    what: str
    formula: str
    """Plain arithmetic: + − · / ^ ( ) √( ) and abs, sin, min, max, ceil."""
    symbols: tuple[Symbol, ...]
    value: float
    kind: Kind
    clause: str
    """Standard and clause; empty for a formula of mechanics alone."""
    mark: str = ""
    """``from memory``, ``common practice`` or ``ours`` where no print was at hand."""

    @property
    def symbol(self) -> Symbol:
        """The result, for use in the next formula."""
        return Symbol(self.name, self.value, self.kind, self.what)

    def written(self, show: Callable[[Symbol], str]) -> str:
        """The formula with every symbol replaced by what ``show`` makes of it."""
        known = {s.name: s for s in self.symbols}
        return _names(known).sub(lambda m: show(known[m[0]]), self.formula) if known else self.formula


@dataclass(frozen=True)
class Check:
    """What is demanded against what resists it."""

    title: str
    clause: str
    demand: Working
    resistance: Working
    workings: tuple[Working, ...]
    """In the order in which they are computed, demand and resistance among them."""
    assumptions: tuple[str, ...] = ()

    @property
    def ratio(self) -> float:
        """Demand over resistance; infinite where nothing resists, 0 where nothing is demanded."""
        if self.demand.value <= 0.0:
            return 0.0
        return self.demand.value / self.resistance.value if self.resistance.value > 0.0 else math.inf

    @property
    def kept(self) -> bool:
        return self.ratio <= 1.0 + 1e-9


def work(
    name: str,
    what: str,
    formula: str,
    symbols: tuple[Symbol, ...],
    kind: Kind,
    clause: str = "",
    mark: str = "",
) -> Working:
    """Work a formula out. Raises ``ValueError`` for text that is no formula or has a symbol without value."""
    return Working(name, what, formula, symbols, evaluate(formula, symbols), kind, clause, mark)


def evaluate(formula: str, symbols: tuple[Symbol, ...]) -> float:
    """The value of a formula; see :class:`Working` for what it may hold."""
    known = {s.name: s for s in symbols}
    if len(known) < len(symbols):
        raise ValueError(f"a symbol of {formula!r} is given twice")
    values: dict[str, float] = {f"v{i}": s.value for i, s in enumerate(known.values())}
    place = {name: f"v{i}" for i, name in enumerate(known)}
    text = _names(known).sub(lambda m: place[m[0]], formula) if known else formula
    for shown, meant in (("·", "*"), ("−", "-"), ("^", "**"), ("√", "sqrt")):
        text = text.replace(shown, meant)
    try:
        return _value(ast.parse(text, mode="eval").body, values)
    except (SyntaxError, KeyError) as error:
        raise ValueError(f"{formula!r} is no formula of its symbols: {error}") from error


def _names(known: dict[str, Symbol]) -> re.Pattern[str]:
    longest_first = sorted(known, key=len, reverse=True)
    return re.compile(r"(?<![\w'.])(?:" + "|".join(re.escape(name) for name in longest_first) + r")(?![\w'])")


_OPERATORS: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}
_FUNCTIONS: dict[str, Callable[..., float]] = {
    "sqrt": math.sqrt,
    "sin": math.sin,
    "abs": abs,
    "min": min,
    "max": max,
    "ceil": math.ceil,
}


def _value(node: ast.expr, values: dict[str, float]) -> float:
    match node:
        case ast.Constant(value=int() | float() as number):
            return float(number)
        case ast.Name(id=name):
            return values[name]
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return -_value(inner, values)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in _OPERATORS:
            return float(_OPERATORS[type(op)](_value(left, values), _value(right, values)))
        case ast.Call(func=ast.Name(id=name), args=args, keywords=[]):
            return float(_FUNCTIONS[name](*(_value(arg, values) for arg in args)))
    raise SyntaxError(f"{ast.dump(node)} may not stand in a formula")

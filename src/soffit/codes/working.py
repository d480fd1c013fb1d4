"""The record of one check: every number with its formula, its symbols and its clause.

The value of a :class:`Working` is computed from the text of its formula and from nothing else, so the formula that is
shown and the formula that was computed cannot differ.
"""

from __future__ import annotations

import ast
import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

Kind = Literal[
    "force", "length", "area", "volume", "inertia", "stress", "moment", "line load", "curvature", "angle", "strain",
    "ratio", "count", "time", "frequency", "density",
]  # fmt: skip
"""What a number is; in N, mm, mm², mm³, mm⁴, MPa, N·mm, N/mm, 1/mm, rad, plain, plain, plain, days, Hz, kg/m³.
``density`` stays in kg/m³ in every system."""
System = Literal["SI", "psi", "ksi"]
"""In which units a formula is written: N, mm, MPa · lb, in, psi · kip, in, ksi. Constants that multiply √f'c depend on
it."""

INCH = 25.4
POUND = 4.4482216152605
_FORCE: dict[System, float] = {"SI": 1.0, "psi": POUND, "ksi": 1000.0 * POUND}
_LENGTH: dict[System, float] = {"SI": 1.0, "psi": INCH, "ksi": INCH}
_POWERS: dict[Kind, tuple[int, int]] = {
    "force": (1, 0), "length": (0, 1), "area": (0, 2), "volume": (0, 3), "inertia": (0, 4), "stress": (1, -2),
    "moment": (1, 1), "line load": (1, -1), "curvature": (0, -1),
}  # fmt: skip
"""Powers of force and length; all other kinds are the same in every system."""


def size(kind: Kind, system: System) -> float:
    """One unit of the system's in base units: ``size("stress", "psi")`` is one psi in MPa."""
    if system == "SI" or kind not in _POWERS:
        return 1.0
    force, length = _POWERS[kind]
    return float(_FORCE[system] ** force * _LENGTH[system] ** length)


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
    """Plain arithmetic: + − · / ^ ( ) √( ) and the functions of ``FUNCTIONS``."""
    symbols: tuple[Symbol, ...]
    value: float
    kind: Kind
    clause: str
    """Standard and clause; empty for a formula of mechanics alone."""
    mark: str = ""
    """``from memory``, ``common practice`` or ``ours`` where no print was at hand."""
    system: System = "SI"
    """The units in which the numbers go into the formula; ``value`` and those of ``symbols`` are in base units."""

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
    key: str = ""
    """By which ``--working`` calls it: ``"shear"``."""
    x: float | None = None
    """mm from the left end; none where it is of the beam as a whole."""
    combination: str = ""
    """Of the actions: ``"1.2 dead + 1.6 live"``."""
    state: str = ""
    """``"strength"``, ``"service"``, ``"detailing"`` or ``"information"``."""

    @property
    def ratio(self) -> float:
        """Demand over resistance; infinite where nothing resists, 0 where nothing is demanded."""
        if self.demand.value <= 0.0:
            return 0.0
        return self.demand.value / self.resistance.value if self.resistance.value > 0.0 else math.inf

    @property
    def kept(self) -> bool:
        """Whether it holds; what is told for information alone always does."""
        return self.state == "information" or self.ratio <= 1.0 + 1e-9


@dataclass(frozen=True)
class Unchecked:
    """What a standard was asked and does not answer here, in one sentence with the clause that says so."""

    title: str
    why: str
    """``"the concrete of 95 MPa lies above C90/105, the last class of Table 3.1"``."""
    clause: str = ""
    key: str = ""
    scope: bool = False
    """Whether it lies outside the scope of the standard; false: Soffit does not check it."""


def work(
    name: str,
    what: str,
    formula: str,
    symbols: tuple[Symbol, ...],
    kind: Kind,
    clause: str = "",
    mark: str = "",
    system: System = "SI",
) -> Working:
    """Work a formula out. Raises ``ValueError`` for text that is no formula or has a symbol without value."""
    if system == "SI":
        value = evaluate(formula, symbols)
    else:
        own = tuple(Symbol(s.name, s.value / size(s.kind, system), s.kind, s.what) for s in symbols)
        value = evaluate(formula, own) * size(kind, system)
    return Working(name, what, formula, symbols, value, kind, clause, mark, system)


@dataclass(frozen=True)
class Pen:
    """Writes the workings of one standard and edition: the units of its formulas, its name before every clause."""

    standard: str
    """As it is cited: ``"ACI 318-19"``."""
    system: System = "SI"
    mark: str = FROM_MEMORY
    """Unless a working says otherwise."""

    def cite(self, clause: str) -> str:
        return f"{self.standard} {clause}" if clause else ""

    def __call__(
        self,
        name: str,
        what: str,
        formula: str,
        symbols: tuple[Symbol | Working, ...],
        kind: Kind,
        clause: str = "",
        mark: str | None = None,
    ) -> Working:
        """A working; earlier workings may stand among the symbols. Without a clause it is mechanics and has no mark."""
        given = tuple(s.symbol if isinstance(s, Working) else s for s in symbols)
        marked = (self.mark if clause else "") if mark is None else mark
        return work(name, what, formula, given, kind, self.cite(clause), marked, self.system)


def given(name: str, what: str, value: float, kind: Kind, system: System = "SI") -> Working:
    """A number that is given, or found by a search, as a working of itself: ``name`` = value."""
    symbol = Symbol(name, value, kind, what)
    return Working(name, what, name, (symbol,), value, kind, "", "", system)


def evaluate(formula: str, symbols: tuple[Symbol, ...]) -> float:
    """The value of a formula; see :class:`Working` for what it may hold."""
    try:
        return float(function_of(formula, tuple(s.name for s in symbols))(*(s.value for s in symbols)))
    except ZeroDivisionError as error:
        raise ValueError(f"{formula!r} divides by zero") from error


def parsed(formula: str, names: tuple[str, ...]) -> ast.expr:
    """The tree of a formula, its symbols as the names v0, v1, … in the order of ``names``.

    Raises ``ValueError`` for anything but the arithmetic of a :class:`Working`; so it is safe to compile.
    """
    place = {name: f"v{i}" for i, name in enumerate(names)}
    text = _pattern(names).sub(lambda m: place[m[0]], formula) if names else formula
    for shown, meant in (("·", "*"), ("−", "-"), ("^", "**"), ("√", "sqrt")):
        text = text.replace(shown, meant)
    try:
        tree = ast.parse(text, mode="eval").body
        _permit(tree, set(place.values()))
    except SyntaxError as error:
        raise ValueError(f"{formula!r} is no formula of its symbols: {error}") from error
    return tree


@lru_cache(maxsize=4096)
def function_of(formula: str, names: tuple[str, ...]) -> Callable[..., float]:
    """A formula as a function of the values of its symbols in the order of ``names``."""
    if len(set(names)) < len(names):
        raise ValueError(f"a symbol of {formula!r} is given twice")
    given = [ast.arg(f"v{i}") for i in range(len(names))]
    arguments = ast.arguments(posonlyargs=[], args=given, kwonlyargs=[], kw_defaults=[], defaults=[])
    tree = ast.Expression(ast.Lambda(arguments, parsed(formula, names)))
    code = compile(ast.fix_missing_locations(tree), "<formula>", "eval")
    # the tree has nothing in it but arithmetic and the names of FUNCTIONS
    made: Callable[..., float] = eval(code, {"__builtins__": {}, **FUNCTIONS})
    return made


def _names(known: dict[str, Symbol]) -> re.Pattern[str]:
    return _pattern(tuple(known))


@lru_cache(maxsize=4096)
def _pattern(names: tuple[str, ...]) -> re.Pattern[str]:
    longest_first = sorted(names, key=len, reverse=True)
    return re.compile(r"(?<![\w'.])(?:" + "|".join(re.escape(name) for name in longest_first) + r")(?![\w'])")


FUNCTIONS: dict[str, Callable[..., float]] = {
    "sqrt": math.sqrt,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "atan": math.atan,
    "ln": math.log,
    "exp": math.exp,
    "abs": abs,
    "min": min,
    "max": max,
    "ceil": math.ceil,
    "floor": math.floor,
}
_OPERATORS = (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow)


def _permit(node: ast.expr, names: set[str]) -> None:
    """Raises ``SyntaxError`` for a node that may not stand in a formula."""
    match node:
        case ast.Constant(value=int() | float()):
            return None
        case ast.Name(id=name) if name in names:
            return None
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return _permit(inner, names)
        case ast.BinOp(left=left, op=op, right=right) if isinstance(op, _OPERATORS):
            _permit(left, names)
            return _permit(right, names)
        case ast.Call(func=ast.Name(id=name), args=args, keywords=[]) if name in FUNCTIONS:
            for arg in args:
                _permit(arg, names)
            return None
    raise SyntaxError(f"{ast.dump(node)} may not stand in a formula")

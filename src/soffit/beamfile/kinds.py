"""The kinds of value that a key of the beam file can have: how each is read, and its part of the JSON Schema.

A kind stands in the annotation of a field, ``Annotated[float, Quantity("length")]``. Reading raises ``Wrong``
with every fault of the value, each told as what was found, what is wrong with it and what would do.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import isfinite
from typing import Any, NoReturn

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from soffit.beamfile.positions import Path
from soffit.units import DIMENSIONS, UnitError, near, parse, plain_number, quote, show

Detail = tuple[Path, object, str, str]
"""Place within the value, what was found there, the problem, the cure."""


class Wrong(Exception):
    def __init__(self, details: list[Detail]) -> None:
        self.details = details


def wrong(found: object, problem: str, cure: str) -> NoReturn:
    raise Wrong([((), found, problem, cure)])


@dataclass(frozen=True)
class Kind:
    """Base of all kinds. ``read`` returns the value in base units or raises ``Wrong``."""

    def read(self, value: Any) -> Any:
        raise NotImplementedError

    def json(self) -> dict[str, Any]:
        """JSON Schema of the value; ``x-dimension`` marks a quantity until the schema is complete."""
        raise NotImplementedError

    def sample(self) -> str:
        """An example as the file writes it."""
        return quote(_first_example(self.json()))

    def validate(self, value: Any) -> Any:
        try:
            return self.read(value)
        except Wrong as error:
            raise PydanticCustomError("beam file", "wrong", {"details": error.details}) from None

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.validate)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return self.json()


@dataclass(frozen=True)
class Quantity(Kind):
    """Text with a unit. Bounds in base units; outside them the unit is doubted."""

    dimension: str
    low: float | None = None
    high: float | None = None
    zero: bool = False
    """Whether zero will do."""
    signed: bool = False
    """Whether a negative value will do."""
    examples: tuple[str, ...] = ()

    def read(self, value: Any) -> float:
        try:
            number = parse(value, self.dimension)
        except UnitError as error:
            wrong(value, error.problem, error.cure)
        cure = f"write {DIMENSIONS[self.dimension].article} such as {self.sample()}"
        if number < 0 and not self.signed:
            wrong(value, "which is negative", cure)
        if number == 0 and not self.zero:
            wrong(value, "which is zero", cure)
        if self.high is not None and abs(number) > self.high:
            wrong(value, f"which is more than {show(self.high, self.dimension)}", "check the unit")
        if self.low is not None and number and abs(number) < self.low:
            wrong(value, f"which is less than {show(self.low, self.dimension)}", "check the unit")
        return number

    def json(self) -> dict[str, Any]:
        examples = list(self.examples or dict.fromkeys(DIMENSIONS[self.dimension].examples))
        return {"type": "string", "examples": examples, "x-dimension": self.dimension}


@dataclass(frozen=True)
class Number(Kind):
    """A bare number within bounds; with ``percent`` also ``"15 %"``, and without ``bare`` only that."""

    low: float = 0.0
    high: float = float("inf")
    above: bool = False
    """Whether the low bound itself is refused."""
    percent: bool = False
    bare: bool = True
    example: float = 1.0

    def read(self, value: Any) -> float:
        cure = f"write {self.sample()}"
        if self.percent and (isinstance(value, str) or not self.bare):
            number = self._part(value, cure)
        elif isinstance(value, bool) or not isinstance(value, int | float):
            text = isinstance(value, str)
            wrong(
                value,
                "which is text" if text else "which is no number",
                f"{cure} without quotes" if text else cure,
            )
        else:
            # an integer of TOML may be too long for a float
            number = float(value) if abs(value) < 1e300 else float("inf")
        if not isfinite(number):
            wrong(value, "which is not a finite number", cure)
        if number < self.low or (self.above and number == self.low):
            wrong(value, f"which is {'not above' if self.above else 'below'} {self._say(self.low)}", cure)
        if number > self.high:
            wrong(value, f"which is above {self._say(self.high)}", cure)
        return number

    def _part(self, value: Any, cure: str) -> float:
        if isinstance(value, int | float) and not isinstance(value, bool):
            wrong(value, "a bare number", f"{cure} with its % sign")
        try:
            return parse(value, "ratio")
        except UnitError as error:
            wrong(value, error.problem, cure)

    def _say(self, bound: float) -> str:
        return plain_number(bound) if self.bare else f"{plain_number(100 * bound)} %"

    def sample(self) -> str:
        return plain_number(self.example) if self.bare else f'"{plain_number(100 * self.example)} %"'

    def json(self) -> dict[str, Any]:
        text = {"type": "string", "examples": [f"{plain_number(100 * self.example)} %"]}
        number: dict[str, Any] = {"type": "number", "examples": [self.example]}
        number["exclusiveMinimum" if self.above else "minimum"] = self.low
        if isfinite(self.high):
            number["maximum"] = self.high
        if not self.bare:
            return text
        return {"anyOf": [number, text]} if self.percent else number


@dataclass(frozen=True)
class Whole(Kind):
    """A whole number."""

    low: int = 1
    high: int = 1000

    def read(self, value: Any) -> int:
        cure = f"write a whole number from {self.low} to {self.high}" + (
            " without quotes" if isinstance(value, str) else ""
        )
        if isinstance(value, bool) or not isinstance(value, int):
            wrong(value, "which is no whole number", cure)
        if not self.low <= value <= self.high:
            wrong(value, f"which is {'below' if value < self.low else 'above'} what can be built", cure)
        return value

    def json(self) -> dict[str, Any]:
        return {"type": "integer", "minimum": self.low, "maximum": self.high, "examples": [max(self.low, 2)]}


@dataclass(frozen=True)
class Choice(Kind):
    """One of a few words."""

    options: tuple[str, ...]

    def read(self, value: Any) -> str:
        if isinstance(value, str) and value in self.options:
            return value
        legal = [f'"{each}"' for each in self.options]
        meant = near(value, list(self.options)) if isinstance(value, str) else None
        cure = f'did you mean "{meant}"?' if meant else f"write {either(legal)}"
        wrong(value, "which is no choice here", cure)

    def json(self) -> dict[str, Any]:
        return {"type": "string", "enum": list(self.options)}


@dataclass(frozen=True)
class Text(Kind):
    """Words for people, or a name in the catalogue."""

    longest: int = 200
    example: str = "Bench beam B"
    lines: bool = False
    """Whether line breaks will do."""

    def read(self, value: Any) -> str:
        if not isinstance(value, str):
            wrong(value, "which is no text", f'write it in quotes, such as "{self.example}"')
        if not value.strip():
            wrong(value, "which is empty", f'write text such as "{self.example}"')
        if len(value) > self.longest:
            wrong(value, f"which is longer than {self.longest} characters", "shorten it")
        if any(not c.isprintable() and not (self.lines and c in "\n\r\t") for c in value):
            wrong(value, "which holds signs that cannot be printed", "leave them out")
        return value.strip()

    def json(self) -> dict[str, Any]:
        return {"type": "string", "minLength": 1, "maxLength": self.longest, "examples": [self.example]}


@dataclass(frozen=True)
class YesNo(Kind):
    def read(self, value: Any) -> bool:
        if not isinstance(value, bool):
            wrong(value, "which is neither true nor false", "write true or false without quotes")
        return value

    def json(self) -> dict[str, Any]:
        return {"type": "boolean"}


@dataclass(frozen=True)
class Level:
    """A height in the section, as a distance from one of its faces."""

    distance: float
    face: str

    def above_soffit(self, depth: float) -> float:
        return self.distance if self.face == "bottom" else depth - self.distance


_LEVEL = re.compile(r"(?P<distance>.*?)\s+from\s+(?:the\s+)?(?P<face>\w+)\s*$", re.DOTALL)


@dataclass(frozen=True)
class Height(Kind):
    """Text such as ``"25 mm from bottom"``; with ``bare`` a distance alone is one from the bottom."""

    bare: bool = False

    def read(self, value: Any) -> Level:
        cure = 'write a height such as "25 mm from bottom" or "25 mm from top"'
        if not isinstance(value, str):
            wrong(value, "which is no text", cure)
        found = _LEVEL.match(value)
        if not found and not self.bare:
            wrong(value, "which does not say from where", cure)
        distance, face = (found["distance"], found["face"]) if found else (value, "bottom")
        if face not in ("bottom", "top"):
            wrong(value, f"where {quote(face)} is no face of the section", cure)
        try:
            number = parse(distance, "length")
        except UnitError as error:
            wrong(value, f"whose distance {_relative(error.problem)}", cure)
        if number < 0:
            wrong(value, "which is outside the section", cure)
        return Level(number, face)

    def json(self) -> dict[str, Any]:
        examples = ["25 mm from bottom", "1 in from top", *(["75 mm"] if self.bare else [])]
        return {"type": "string", "examples": examples}


@dataclass(frozen=True)
class Several(Kind):
    """A list of one kind, read to a tuple. With ``single`` one value will do for a list, and stands alone."""

    item: Kind
    least: int = 1
    most: int = 500
    single: bool = False
    example: tuple[str, ...] = ()

    def read(self, value: Any) -> tuple[Any, ...]:
        if self.single and not isinstance(value, list):
            return (self.item.read(value),)
        if not isinstance(value, list):
            wrong(value, "which is no list", f"write a list such as {self.list_sample()}")
        if not self.least <= len(value) <= self.most:
            few = "few" if len(value) < self.least else "many"
            count = f"{self.least}" if self.most == self.least else f"{self.least} to {self.most}"
            wrong(value, f"which has too {few} entries", f"write {count} of them, such as {self.list_sample()}")
        made, details = [], []
        for i, each in enumerate(value):
            try:
                made.append(self.item.read(each))
            except Wrong as error:
                details += [((i, *where), found, problem, cure) for where, found, problem, cure in error.details]
        if details:
            raise Wrong(details)
        return tuple(made)

    def sample(self) -> str:
        if self.single:
            return self.item.sample()
        return self.list_sample()

    def list_sample(self) -> str:
        if self.example:
            return quote(self.example)
        return "[" + ", ".join([self.item.sample()] * min(max(self.least, 2), 3)) + "]"

    def json(self) -> dict[str, Any]:
        many = {"type": "array", "items": self.item.json(), "minItems": self.least, "maxItems": self.most}
        return {"anyOf": [self.item.json(), many]} if self.single else many


@dataclass(frozen=True)
class Pair(Kind):
    """A point: two values of their own kinds in a list."""

    first: Kind
    second: Kind
    example: tuple[str, str] = ("0 mm", "75 mm")

    def read(self, value: Any) -> tuple[Any, Any]:
        if not isinstance(value, list) or len(value) != 2:
            wrong(value, "which is no point", f"write two lengths such as {self.sample()}")
        made, details = [], []
        for i, (kind, each) in enumerate(zip((self.first, self.second), value, strict=True)):
            try:
                made.append(kind.read(each))
            except Wrong as error:
                details += [((i, *where), found, problem, cure) for where, found, problem, cure in error.details]
        if details:
            raise Wrong(details)
        return made[0], made[1]

    def json(self) -> dict[str, Any]:
        items = [self.first.json(), self.second.json()]
        return {
            "type": "array",
            "prefixItems": items,
            "minItems": 2,
            "maxItems": 2,
            "examples": [list(self.example)],
        }


@dataclass(frozen=True)
class OneOf(Kind):
    """Text of one kind, or a list of another."""

    text: Kind
    many: Kind

    def read(self, value: Any) -> Any:
        return self.many.read(value) if isinstance(value, list) else self.text.read(value)

    def json(self) -> dict[str, Any]:
        return {"anyOf": [self.text.json(), self.many.json()]}


def _first_example(schema: dict[str, Any]) -> Any:
    found = schema.get("examples") or schema.get("enum")
    if found:
        return found[0]
    if "anyOf" in schema:
        return _first_example(schema["anyOf"][0])
    return True


def either(words: list[str]) -> str:
    """``a, b or c``."""
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " or " + words[-1]


def _relative(problem: str) -> str:
    """``which has no unit`` → ``has no unit``; ``a bare number`` → ``is a bare number``."""
    if problem.startswith("which "):
        return problem.removeprefix("which ")
    return f"cannot be read ({problem})"

"""A TOML document to validated tables, part by part, so that a fault in one part hides none in another."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo

from soffit.beamfile.faults import Faults, Spot, sentence
from soffit.beamfile.kinds import Choice, Kind, Wrong
from soffit.beamfile.positions import Path
from soffit.beamfile.tables.base import Table
from soffit.beamfile.tables.concrete import ConcreteTable
from soffit.beamfile.tables.document import Document, Head
from soffit.beamfile.tables.holding import LoadTable, PressTable, SupportTable
from soffit.beamfile.tables.making import AgeingTable, StageTable, ToppingTable
from soffit.beamfile.tables.section import SHAPES, Section
from soffit.beamfile.tables.steel import BarTable, StirrupTable
from soffit.beamfile.tables.tendons import ANCHORS, BedTable, TendonTable
from soffit.beamfile.tables.verifying import NationalTable, ProjectTable, VehicleTable, VerifyTable
from soffit.units import near, quote

T = TypeVar("T", bound=Table)


@dataclass(frozen=True)
class Part(Generic[T]):
    """A validated table and the spot where its further faults and notes go."""

    table: T
    spot: Spot


@dataclass(frozen=True)
class Parts:
    """Every table of the file that could be read; none for one that could not."""

    head: Part[Head] | None
    concrete: Part[ConcreteTable] | None
    section: Part[Section] | None
    supports: Part[SupportTable] | None
    press: Part[PressTable] | None
    bars: list[Part[BarTable]]
    tendons: list[Part[TendonTable]]
    stirrups: list[Part[StirrupTable]]
    loads: list[Part[LoadTable]]
    ageing: Part[AgeingTable] | None
    stages: list[Part[StageTable]]
    topping: Part[ToppingTable] | None
    verify: Part[VerifyTable] | None
    project: Part[ProjectTable] | None
    vehicles: list[Part[VehicleTable]]
    lost: frozenset[str]
    """Names of tables of which some could not be read, or not whole: what looks at all of them together must wait."""


def check(document: dict[str, Any], faults: Faults) -> Parts:
    """Validate each table by itself. Faults go to ``faults``."""
    top = {key: document[key] for key in document if key in _keys(Document)}
    _unknown(document, Document, (), faults)
    for key in ("concrete", "section", "supports"):
        if key not in document and key not in _meant(document, Document):
            faults.add((key,), sentence("is missing", f"write a [{key}] table"))
    head = {key: value for key, value in top.items() if key in Head.model_fields}
    parts = Parts(
        head=_table(Head, head, (), faults),
        concrete=_single(ConcreteTable, top, "concrete", faults),
        section=_section(top, faults),
        supports=_single(SupportTable, top, "supports", faults),
        press=_single(PressTable, top, "press", faults),
        bars=_list(BarTable, top, "bars", faults),
        tendons=_list(TendonTable, top, "tendons", faults),
        stirrups=_list(StirrupTable, top, "stirrups", faults),
        loads=_list(LoadTable, top, "loads", faults),
        ageing=_single(AgeingTable, top, "ageing", faults),
        stages=_list(StageTable, top, "stages", faults),
        topping=_single(ToppingTable, top, "topping", faults),
        verify=_single(VerifyTable, top, "verify", faults),
        project=_single(ProjectTable, top, "project", faults),
        vehicles=_list(VehicleTable, top, "vehicles", faults),
        lost=frozenset(),
    )
    return replace(parts, lost=frozenset(_lost(parts, top)))


def _lost(parts: Parts, top: Mapping[str, Any]) -> Iterator[str]:
    for key, raw in top.items():
        found = getattr(parts, key, None)
        if isinstance(found, list):
            if not isinstance(raw, list) or len(found) < len(raw) or any(part.spot.mended for part in found):
                yield key
        elif key not in Head.model_fields and (found is None or found.spot.mended):
            yield key


# a table that still tells its geometry when a faulty key is left out of it
_MENDED = (ConcreteTable, BarTable, TendonTable, StirrupTable, LoadTable, StageTable, AgeingTable, Head)


def _table(model: type[T], raw: Mapping[str, Any], path: Path, faults: Faults) -> Part[T] | None:
    try:
        return Part(model.model_validate(dict(raw)), Spot(faults, path, raw))
    except ValidationError as error:
        bad = {_report(each, model, raw, path, faults) for each in error.errors(include_url=False)}
    _unknown(raw, model, path, faults)
    if not issubclass(model, _MENDED):
        return None
    rest = {key: value for key, value in raw.items() if key in _keys(model) and key not in bad}
    try:
        return Part(model.model_validate(rest), Spot(faults, path, rest, mended=True))
    except ValidationError:
        return None


def _single(model: type[T], top: Mapping[str, Any], key: str, faults: Faults) -> Part[T] | None:
    if key not in top:
        return None
    raw = top[key]
    if not isinstance(raw, dict):
        faults.add((key,), sentence(f"found {quote(raw)}, which is no table", f"write it once, as [{key}]"))
        return None
    return _table(model, raw, (key,), faults)


def _list(model: type[T], top: Mapping[str, Any], key: str, faults: Faults) -> list[Part[T]]:
    raw = top.get(key, [])
    if not isinstance(raw, list) or any(not isinstance(each, dict) for each in raw):
        cure = f"write each as [[{key}]], with two brackets"
        faults.add((key,), sentence(f"found {quote(raw)}, which is no list of tables", cure))
        return []
    made = [_table(model, each, (key, i), faults) for i, each in enumerate(raw)]
    return [each for each in made if each]


def _section(top: Mapping[str, Any], faults: Faults) -> Part[Section] | None:
    raw = top.get("section")
    if not isinstance(raw, dict):
        return _single(SHAPES["rectangle"], top, "section", faults)
    if "shape" not in raw:
        meant = next((key for key in raw if key not in _EVERY_SHAPE and near(key, ["shape"])), None)
        if meant:
            _say_unknown(meant, ["shape"], ("section",), faults)
        else:
            shapes = ", ".join(f'"{each}"' for each in SHAPES)
            faults.add(("section", "shape"), sentence("is missing", f"write one of {shapes}"))
        return None
    try:
        shape = Choice(tuple(SHAPES)).read(raw["shape"])
    except Wrong as error:
        _, found, problem, cure = error.details[0]
        faults.add(("section", "shape"), sentence(f"found {quote(found)}, {problem}", cure))
        return None
    return _table(SHAPES[shape], raw, ("section",), faults)


def _report(error: Any, model: type[BaseModel], raw: Mapping[str, Any], path: Path, faults: Faults) -> str:
    """One error of pydantic as faults of ours; the key of ``raw`` that it belongs to."""
    kind, loc = error["type"], tuple(error["loc"])
    at, inner, table = _descend(loc, model, raw)
    key = str(loc[-1])
    if kind == "beam file":
        for where, found, problem, cure in error["ctx"]["details"]:
            faults.add((*path, *at, *where), sentence(f"found {quote(found)}, {problem}", cure))
    elif kind == "missing":
        if key not in _meant(table, inner):
            faults.add((*path, *at), sentence("is missing", f"write {key} = {sample(inner, key)}"))
    elif kind == "extra_forbidden":
        _unknown(table, inner, (*path, *at[:-1]), faults)
    elif kind.startswith("union_tag"):
        found = error["input"].get("kind")
        kinds = " or ".join(f'"{each}"' for each in ANCHORS)
        problem = "is missing" if found is None else f"found {quote(found)}, which is no choice here"
        faults.add((*path, *at, "kind"), sentence(problem, f"write {kinds}"))
    else:
        cure = f"write {_TABLES[key]}"
        faults.add((*path, *at), sentence(f"found {quote(error['input'])}, which is no table", cure))
    return str(loc[0]) if loc else ""


# tables within tables: how each is written
_INNER: dict[str, type[Table]] = {"bed": BedTable, "supports": SupportTable, "national": NationalTable}
_TABLES = {
    "anchor": '{ kind = "nut", class = "8" } or { kind = "wedge", draw_in = "5 mm" }',
    "bed": '{ length = "60 m", slip = "5 mm" }',
    "supports": '{ span = "7.5 m", overhangs = "0.4 m" }',
    "national": "{ alpha_cc = 0.85 }",
}


def _descend(
    loc: tuple[Any, ...], model: type[BaseModel], raw: Mapping[str, Any]
) -> tuple[Path, type[BaseModel], Mapping[str, Any]]:
    """Path in the file (pydantic puts an anchor's kind in it), and the table that holds the last key."""
    if len(loc) >= 2 and loc[0] == "anchor" and loc[1] in ANCHORS:
        return ("anchor", *loc[2:]), ANCHORS[loc[1]], raw["anchor"]
    if len(loc) >= 2 and loc[0] in _INNER:
        return loc, _INNER[loc[0]], raw[loc[0]]
    return loc, model, raw


def _unknown(raw: Mapping[str, Any], model: type[BaseModel], path: Path, faults: Faults) -> None:
    legal = _keys(model)
    for key in raw:
        if key not in legal:
            _say_unknown(key, list(legal), path, faults)


def _say_unknown(key: str, legal: list[str], path: Path, faults: Faults) -> None:
    meant = near(key, legal)
    homes = [] if meant else [title for title, keys in _homes().items() if key in keys]
    if meant:
        cure = f'did you mean "{meant}"?'
    elif homes:
        cure = f"it belongs {' or '.join(homes)}"
    else:
        cure = f"the keys here are {', '.join(legal)}"
    faults.add((*path, key), sentence("this key is not known", cure))


def _meant(raw: Mapping[str, Any], model: type[BaseModel]) -> set[str | None]:
    """Keys that unknown ones were probably meant to be; they are not missing."""
    legal = _keys(model)
    return {near(key, list(legal)) for key in raw if key not in legal}


def _keys(model: type[BaseModel]) -> dict[str, FieldInfo]:
    """The keys of a table as the file writes them."""
    return {field.alias or name: field for name, field in model.model_fields.items()}


@cache
def _homes() -> dict[str, set[str]]:
    """Every table and its keys, to say where a stray key belongs."""
    homes = {"at the top of the file": set(Head.model_fields)}
    single: tuple[tuple[str, type[Table]], ...] = (
        ("concrete", ConcreteTable),
        ("supports", SupportTable),
        ("press", PressTable),
        ("ageing", AgeingTable),
        ("topping", ToppingTable),
        ("verify", VerifyTable),
        ("project", ProjectTable),
    )
    many: tuple[tuple[str, type[Table]], ...] = (
        ("bars", BarTable),
        ("tendons", TendonTable),
        ("stirrups", StirrupTable),
        ("loads", LoadTable),
        ("stages", StageTable),
        ("vehicles", VehicleTable),
    )
    homes |= {f"in [{name}]": set(_keys(model)) for name, model in single}
    return homes | {f"in [[{name}]]": set(_keys(model)) for name, model in many}


_EVERY_SHAPE = {key for model in SHAPES.values() for key in _keys(model)}


def sample(model: type[BaseModel], key: str) -> str:
    """An example value of a key as the file writes it."""
    field = _keys(model)[key]
    if field.examples:
        return quote(field.examples[0])
    kinds = [each for each in field.metadata if isinstance(each, Kind)]
    return kinds[0].sample()

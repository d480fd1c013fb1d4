"""The schema and the reference come from the model, and say what the reader does."""

from __future__ import annotations

import json
import tomllib
from typing import Any

import pytest

from soffit.beamfile import KINDS, read_text, reference, schema, starter
from soffit.errors import BeamFileError

SCHEMA = schema()


def nodes(value: Any) -> list[dict[str, Any]]:
    if isinstance(value, list):
        return [each for item in value for each in nodes(item)]
    if isinstance(value, dict):
        return [value, *(each for item in value.values() for each in nodes(item))]
    return []


def keys() -> list[tuple[str, str, dict[str, Any]]]:
    tables = {"": SCHEMA, **SCHEMA["$defs"]}
    return [(table, name, key) for table, body in tables.items() for name, key in body["properties"].items()]


def test_it_is_json_that_toml_can_follow() -> None:
    text = json.dumps(SCHEMA)
    assert '"null"' not in text
    assert "x-dimension" not in text
    assert all(body["additionalProperties"] is False for body in SCHEMA["$defs"].values())
    assert set(SCHEMA["required"]) == {"concrete", "section", "supports"}


def test_every_key_is_described() -> None:
    for table, name, key in keys():
        assert key.get("description", "").endswith("."), (table, name)


def test_every_reference_leads_somewhere() -> None:
    for node in nodes(SCHEMA):
        if "$ref" in node:
            assert node["$ref"].removeprefix("#/$defs/") in SCHEMA["$defs"]


def test_the_starters_use_only_keys_of_the_schema() -> None:
    known = {name for _, name, _ in keys()}
    for kind in KINDS:
        for node in nodes(tomllib.loads(starter(kind))):
            assert set(node) <= known


def test_the_reference_names_every_key_and_word() -> None:
    text = reference()
    for table, name, key in keys():
        if table or not any("$ref" in node for node in nodes(key)):
            assert f"| `{name}` |" in text
        for word in key.get("enum", []):
            assert f"`{word}`" in text
    assert "`B500B`" in text
    assert "`1/2-13 UNC`" in text


def samples() -> list[tuple[str, str, Any]]:
    """One file for each example of each key of the tables that stand alone, or nearly so."""
    found = []
    for table, head in (
        ("ConcreteTable", "concrete"),
        ("PressTable", "press"),
        ("AgeingTable", "ageing"),
        ("ToppingTable", "topping"),
    ):
        for name, key in SCHEMA["$defs"][table]["properties"].items():
            found += [(head, name, example) for example in key.get("examples", key.get("enum", []))]
    return found


@pytest.mark.parametrize(("table", "name", "value"), samples())
def test_every_example_of_the_schema_will_do(table: str, name: str, value: Any) -> None:
    text = 'concrete.strength = "35 MPa"\nsupports.span = "1.05 m"\n'
    text += 'section = { shape = "rectangle", width = "100 mm", depth = "150 mm" }\n'
    text += 'press.points = ["350 mm", "700 mm"]\n'
    if table in ("ageing", "topping"):
        text += 'concrete.relative_humidity = "60 %"\n'
    if table == "topping":
        text += 'topping.depth = "70 mm"\ntopping.width = "100 mm"\ntopping.strength = "30 MPa"\n'
        text += 'stages = [{ what = "topping", at = "60 days" }]\n'
    text = "\n".join(line for line in text.splitlines() if not line.startswith(f"{table}.{name}"))
    try:
        read_text(f"{text}\n{table}.{name} = {json.dumps(value)}\n")
    except BeamFileError as error:
        pytest.fail(str(error))

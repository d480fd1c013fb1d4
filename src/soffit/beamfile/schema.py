"""The JSON Schema of the beam file, for editors that complete and check while one writes."""

from __future__ import annotations

from typing import Any

from soffit.units import plain_number, show

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema() -> dict[str, Any]:
    """JSON Schema (2020-12) generated from the document model; every key carries its description."""
    from soffit.beamfile.tables.document import Document

    made: dict[str, Any] = Document.model_json_schema(by_alias=True)
    _tidy(made)
    return {
        "$schema": DIALECT,
        "title": "Soffit beam file",
        **{k: v for k, v in made.items() if k != "title"},
    }


def _tidy(node: Any) -> None:
    """Take out what TOML cannot say (null), the titles made from names, and defaults in base units."""
    if isinstance(node, list):
        for each in node:
            _tidy(each)
        return
    if not isinstance(node, dict):
        return
    for each in node.get("properties", {}).values():
        _tidy_key(each)
    if isinstance(node.get("title"), str):
        del node["title"]
    for each in node.values():
        _tidy(each)
    node.pop("x-dimension", None)


def _tidy_key(key: dict[str, Any]) -> None:
    """One key: null as a choice means that it may be left out; the default as the file writes it."""
    choices = [each for each in key.get("anyOf", []) if each != {"type": "null"}]
    if len(choices) < len(key.get("anyOf", [])):
        del key["anyOf"]
        # what the field says of itself wins over what its kind says
        inner = choices[0] if len(choices) == 1 else {"anyOf": choices}
        key.update({name: each for name, each in inner.items() if name not in key})
    if "default" in key:
        default = written(key["default"], key)
        if default is None:
            del key["default"]
        else:
            key["default"] = default


def written(default: Any, key: dict[str, Any]) -> Any:
    """A default in base units as the file writes it; none for an empty one."""
    if isinstance(default, list | tuple):
        inner = key.get("anyOf", [{}])[0] if default else {}
        return written(default[0], inner) if default else None
    if default is None or default == "":
        return None
    if "x-dimension" in key:
        return show(float(default), key["x-dimension"])
    return float(plain_number(default)) if isinstance(default, float) else default

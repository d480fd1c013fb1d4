"""The reference of the beam file in Markdown, generated from the document model."""

from __future__ import annotations

from typing import Any

from soffit.beamfile.schema import schema
from soffit.catalogue import names
from soffit.units import quote

_ORDER = {
    "": "At the top of the file",
    "concrete": "[concrete]",
    "section": "[section]",
    "bars": "[[bars]]",
    "tendons": "[[tendons]]",
    "stirrups": "[[stirrups]]",
    "supports": "[supports]",
    "loads": "[[loads]]",
    "press": "[press]",
    "ageing": "[ageing]",
    "stages": "[[stages]]",
    "topping": "[topping]",
    "verify": "[verify]",
    "vehicles": "[[vehicles]]",
    "project": "[project]",
}

_TAGS = ("shape", "kind")
FAMILIES = ("bar", "strand", "wire", "prestressing bar", "thread", "grade", "property class", "nut class")

_INTRODUCTION = """\
# The beam file

One TOML text describes one beam. Quantities are text with their unit (`"25 mm"`, `"4 ksi"`, `"60 N m"`,
`"4 ft 6 in"`); pure numbers (counts, strains, factors) are bare. Units of both systems may be mixed, and
`mm2`, `mm^2` and `mm²` are the same. x is measured from the left end of the beam, overhang included; times
are counted from casting. Names of sizes and grades are those of the catalogue; values that the file gives win over it.

Every mistake in a file is reported at once, each as one sentence with its line. `bars[2].at` in such a
sentence is the key `at` in the second `[[bars]]`.
"""


def reference() -> str:
    """Markdown of every table and key: what it means, what it is when left out, and an example."""
    made = schema()
    tables = made["$defs"]
    parts = [_INTRODUCTION]
    for key, title in _ORDER.items():
        if not key:
            plain = {name: each for name, each in made["properties"].items() if not _refers(each)}
            parts.append(_section(title, "", plain, made.get("required", [])))
            continue
        for name in _refers(made["properties"][key]):
            table = tables[name]
            shape = table["properties"].get("shape", {}).get("const")
            heading = f'{title} with shape = "{shape}"' if shape else title
            parts.append(_section(heading, table["description"], table["properties"], table.get("required", [])))
            for inner in _refers(table["properties"].get("anchor", {})):
                anchor = tables[inner]
                kind = anchor["properties"]["kind"]["const"]
                text = f'{anchor["description"]} Written in [[tendons]] as anchor = {{ kind = "{kind}", … }}.'
                parts.append(_section(f'anchor, kind = "{kind}"', text, anchor["properties"], anchor["required"]))
            for inner in _refers(table["properties"].get("bed", {})):
                text = f"{tables[inner]['description']} Written in [[tendons]] as bed = {{ … }}."
                parts.append(_section("bed", text, tables[inner]["properties"], tables[inner].get("required", [])))
            for inner in _refers(table["properties"].get("national", {})):
                text = f"{tables[inner]['description']} Written in [verify] as national = {{ … }}."
                parts.append(_section("national", text, tables[inner]["properties"], []))
    return "\n".join([*parts, _catalogue()])


def _catalogue() -> str:
    """The names that size, thread, grade and class may have."""
    lines = ["## Names in the catalogue", ""]
    for family in FAMILIES:
        lines += [f"**{family}**: " + ", ".join(f"`{name}`" for name in names(family)) + ".", ""]
    return "\n".join(lines)


def _refers(node: Any) -> list[str]:
    """Names of the tables that a key holds."""
    if isinstance(node, list):
        return [name for each in node for name in _refers(each)]
    if not isinstance(node, dict):
        return []
    found = [node["$ref"].rsplit("/", 1)[-1]] if "$ref" in node else []
    for key in ("anyOf", "oneOf", "items"):
        found += _refers(node.get(key))
    return found


def _section(title: str, text: str, keys: dict[str, Any], required: list[str]) -> str:
    lines = [
        f"## {title}",
        "",
        *([text, ""] if text else []),
        "| key | what it is | left out | example |",
        "|---|---|---|---|",
    ]
    for name, key in sorted(keys.items(), key=lambda each: (each[0] not in _TAGS, each[0] not in required)):
        default = "must be given" if name in required else _default(key)
        example = " or ".join(f"`{_cell(each)}`" for each in _examples(key))
        lines.append(f"| `{name}` | {_cell(_meaning(key))} | {default} | {example} |")
    return "\n".join([*lines, ""])


def _meaning(key: dict[str, Any]) -> str:
    words = _words(key)
    listed = f" One of {', '.join(f'`{each}`' for each in words)}." if len(words) > 1 else ""
    return f"{key['description']}{listed}"


def _words(key: dict[str, Any]) -> list[str]:
    if "enum" in key:
        return list(key["enum"])
    if "const" in key:
        return [key["const"]]
    return next((_words(each) for each in key.get("anyOf", []) if _words(each)), [])


def _default(key: dict[str, Any]) -> str:
    return f"`{_toml(key['default'])}`" if "default" in key else "optional"


def _examples(key: dict[str, Any]) -> list[str]:
    """Examples as TOML."""
    if key.get("type") == "boolean":
        return ["false"]
    if "const" in key:
        return [_toml(key["const"])]
    found = key.get("examples") or key.get("enum", [])[-1:]
    if not found and "anyOf" in key:
        return _examples(key["anyOf"][-1])
    return [_toml(each) for each in found]


def _toml(value: Any) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{name} = {_toml(each)}" for name, each in value.items()) + " }"
    if isinstance(value, list):
        return f"[{', '.join(_toml(each) for each in value)}]"
    return quote(value)


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")

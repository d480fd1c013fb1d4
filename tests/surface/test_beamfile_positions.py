"""The line of every key, whatever way TOML offers to write it."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from soffit.beamfile import KINDS, starter
from soffit.beamfile.positions import line_of, positions

EXAMPLES = Path(__file__).parents[2] / "examples"

TEXT = '''\
# a remark with [brackets] and "quotes"
name = "a # [x]" # another
"quo\\"ted" . b = 1
long = """
x ] "
""" # after
lit = \'\'\'a
b\'\'\'
[section]
points = [ # here
  ["0 mm", "1"],  # c ]
  [ "a",

    "b" ],
]
[[bars]]
a = 1
anchor = { kind = "nut", t.x = 2, l = [1, 2] }
[[bars]]
  b = 2
  [bars.sub]
  z = 1
  [[bars.deep]]
  q = 1
  [[bars.deep]]
  q = 2
[ a . "b" . c ]
d.e = 1979-05-27 07:32:00
f = ""
g = []
'''

EXPECTED = {
    ("name",): 2,
    ('quo"ted', "b"): 3,
    ("long",): 4,
    ("lit",): 7,
    ("section",): 9,
    ("section", "points"): 10,
    ("section", "points", 0): 11,
    ("section", "points", 1): 12,
    ("section", "points", 1, 0): 12,
    ("section", "points", 1, 1): 14,
    ("bars",): 16,
    ("bars", 0): 16,
    ("bars", 0, "a"): 17,
    ("bars", 0, "anchor", "kind"): 18,
    ("bars", 0, "anchor", "t", "x"): 18,
    ("bars", 0, "anchor", "l", 1): 18,
    ("bars", 1): 19,
    ("bars", 1, "b"): 20,
    ("bars", 1, "sub", "z"): 22,
    ("bars", 1, "deep", 0, "q"): 24,
    ("bars", 1, "deep", 1): 25,
    ("bars", 1, "deep", 1, "q"): 26,
    ("a", "b", "c"): 27,
    ("a", "b", "c", "d", "e"): 28,
    ("a", "b", "c", "f"): 29,
    ("a", "b", "c", "g"): 30,
}  # fmt: skip


def test_lines_of_keys() -> None:
    found = positions(TEXT)
    assert {path: found.get(path) for path in EXPECTED} == EXPECTED


def test_a_key_that_is_not_there_is_where_its_table_is() -> None:
    found = positions(TEXT)
    assert line_of(found, ("bars", 1, "missing")) == 19
    assert line_of(found, ("section", "points", 7)) == 10
    assert line_of(found, ("nothing",)) == 1


def paths(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    if path:
        yield path
    if isinstance(value, dict | list):
        for key, each in value.items() if isinstance(value, dict) else enumerate(value):
            yield from paths(each, (*path, key))


def test_every_key_of_a_document_has_a_line() -> None:
    texts = [
        TEXT,
        *(starter(kind) for kind in KINDS),
        *(f.read_text("utf-8") for f in EXAMPLES.glob("*.toml")),
    ]
    for text in texts:
        document = tomllib.loads(text)
        found = positions(text)
        assert set(paths(document)) == set(found)
        lines = text.split("\n")
        for path, line in found.items():
            if isinstance(path[-1], str) and path[-1].isidentifier():
                assert path[-1] in lines[line - 1]

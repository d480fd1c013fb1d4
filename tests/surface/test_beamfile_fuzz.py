"""Whatever is done to a beam file, it gives a beam or sentences, never anything else."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from soffit.beamfile import KINDS, read_text, starter
from soffit.errors import BeamFileError
from soffit.member.beam import Beam

EXAMPLES = [file.read_text("utf-8") for file in (Path(__file__).parents[2] / "examples").glob("*.toml")]
TEXTS = [starter(kind) for kind in KINDS] + EXAMPLES
SIGNS = [
    "",
    '"',
    "[",
    "]",
    "{",
    "}",
    "=",
    "\n",
    "#",
    ".",
    ",",
    "-",
    "0",
    "1e9",
    "nan",
    "é",
    "\x00",
    "'",
    '"""',
    "[[a]]",
]


def beam_or_sentences(text: str) -> None:
    try:
        made: Beam | None = read_text(text, "b.toml")
        problems: list[str] = []
    except BeamFileError as error:
        made, problems = None, error.problems
        assert problems
    for each in problems:
        assert each.startswith("b.toml:")
        assert "\n" not in each
        assert each.endswith((".", "?"))
        assert 1 <= int(each.split(":")[1]) <= text.count("\n") + 2
    if made is not None:
        sane(made)


def sane(made: Beam) -> None:
    """A beam that was let through can be built."""
    assert math.isfinite(made.length)
    assert made.length > 0
    assert made.outline.area > 0
    for bar in made.bars:
        assert bar.area > 0
        assert 0 <= bar.x_from < bar.x_to <= made.length
        low, high = 0.0, made.outline.depth
        if bar.part == "topping":
            assert made.making is not None
            assert made.making.topping is not None
            low, high = high, high + made.making.topping.outline.depth
        assert low + bar.diameter / 2 - 1e-6 <= bar.y <= high - bar.diameter / 2 + 1e-6
    for tendon in made.tendons:
        assert 0 < tendon.stress <= tendon.steel.tensile
        assert min(tendon.profile.y) >= 0
        assert max(tendon.profile.y) <= made.outline.depth
    for load in made.loads:
        assert 0 <= load.x_from <= load.x_to <= made.length
    assert all(0 <= x <= made.length for x in made.supports.x)


slow = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@slow
@given(
    st.sampled_from(TEXTS),
    st.lists(st.tuples(st.floats(0, 1), st.integers(0, 30), st.sampled_from(SIGNS)), max_size=4),
)
def test_a_text_with_pieces_cut_out_and_put_in(text: str, edits: list[tuple[float, int, str]]) -> None:
    for place, cut, put in edits:
        at = int(place * len(text))
        text = text[:at] + put + text[at + cut :]
    beam_or_sentences(text)


@slow
@given(st.sampled_from(TEXTS), st.data())
def test_lines_dropped_doubled_and_moved(text: str, data: st.DataObject) -> None:
    lines = text.split("\n")
    for _ in range(data.draw(st.integers(1, 3))):
        i = data.draw(st.integers(0, len(lines) - 1))
        j = data.draw(st.integers(0, len(lines) - 1))
        what = data.draw(st.sampled_from(["drop", "double", "swap"]))
        if what == "drop":
            lines[i] = ""
        elif what == "double":
            lines.insert(j, lines[i])
        else:
            lines[i], lines[j] = lines[j], lines[i]
    beam_or_sentences("\n".join(lines))


leaves = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-3, 10**20),
    st.floats(),
    st.text(max_size=8),
    st.sampled_from(
        ["1 mm", "1 m", "-1 m", "0 mm", "1 MPa", "1 km", "nan mm", "5 mm from top", "fixed", "linear", "M10"]
    ),
    st.sampled_from(["18 h", "-1 day", "50 years", "A", "low", "topping", "0.007 rad/m", "40 K", "reversed", "30 %"]),
    st.sampled_from(["B500B", "8.8", "GFRP", "Y1860S7", "12.5 strand", "#8", "26.5 prestressing bar", "1 in", "90 %"]),
)
values = st.recursive(
    leaves,
    lambda inner: st.one_of(st.lists(inner, max_size=3), st.dictionaries(st.text(max_size=3), inner, max_size=2)),
    max_leaves=4,
)


@slow
@given(st.sampled_from(TEXTS), st.data())
def test_any_value_for_any_key(text: str, data: st.DataObject) -> None:
    document = tomllib.loads(text)
    table = document[data.draw(st.sampled_from(sorted(k for k, v in document.items() if isinstance(v, dict | list))))]
    if isinstance(table, list):
        table = data.draw(st.sampled_from(table))
    key = data.draw(st.sampled_from(sorted(table)))
    table[key] = data.draw(values)
    beam_or_sentences(written(document))


@given(st.text(max_size=60))
def test_any_text(text: str) -> None:
    beam_or_sentences(text)


def written(document: dict[str, Any]) -> str:
    """A document as TOML, every table inline."""
    return "".join(f"{quoted(key)} = {toml(value)}\n" for key, value in document.items())


def toml(value: Any) -> str:
    if value is None:
        return '""'
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int | float):
        return repr(value)
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, list):
        return "[" + ", ".join(toml(each) for each in value) + "]"
    return "{ " + ", ".join(f"{quoted(key)} = {toml(each)}" for key, each in value.items()) + " }"


def quoted(text: str) -> str:
    safe = "".join(
        c if c.isprintable() and c not in '"\\' else f"\\U{ord(c):08X}" for c in text if not 0xD800 <= ord(c) < 0xE000
    )
    return f'"{safe}"'


def test_the_writer_of_this_test_is_right() -> None:
    for text in TEXTS:
        document = tomllib.loads(text)
        assert tomllib.loads(written(document)) == document
    with pytest.raises(BeamFileError):
        read_text("a = 1")

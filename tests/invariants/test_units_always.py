"""What holds for every quantity: there and back, one value in both systems, and one kind of refusal."""

from __future__ import annotations

from math import isfinite

import pytest
from hypothesis import given
from hypothesis import strategies as st

from soffit.units import DIMENSIONS, UnitError, parse, show

values = st.floats(min_value=1e-6, max_value=1e12, allow_nan=False)


@given(values, st.sampled_from(sorted(DIMENSIONS)), st.sampled_from(["SI", "US"]), st.booleans())
def test_shown_text_reads_back(value: float, dimension: str, system: str, negative: bool) -> None:
    signed = -value if negative else value
    text = show(signed, dimension, "US" if system == "US" else "SI", digits=12)
    assert parse(text, dimension) == pytest.approx(signed, rel=1e-11)


@given(st.integers(0, 10**6))
def test_whole_inches_are_exact(inches: int) -> None:
    assert parse(f"{inches} in", "length") == inches * 254 / 10
    assert parse(f"{12 * inches} in", "length") == parse(f"{inches} ft", "length")


def _one_sentence(text: str, dimension: str) -> None:
    try:
        value = parse(text, dimension)
    except UnitError as error:
        refused = str(error)
    else:
        assert isfinite(value)
        return
    assert "; " in refused
    assert "\n" not in refused


@given(st.text(max_size=80), st.sampled_from(sorted(DIMENSIONS)))
def test_any_text_gives_a_number_or_one_sentence(text: str, dimension: str) -> None:
    _one_sentence(text, dimension)


PIECES = [
    '"',
    " ",
    *["1", "0", "2", "/", "'", "-", "e", ".", "in", "mm", "kip", "ft", "^", "%", "per", "N", "lb", "²"],
]


@given(st.lists(st.sampled_from(PIECES), max_size=10), st.sampled_from(sorted(DIMENSIONS)))
def test_any_heap_of_pieces_gives_a_number_or_one_sentence(heap: list[str], dimension: str) -> None:
    _one_sentence("".join(heap), dimension)

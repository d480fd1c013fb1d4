"""The worked examples and tables that published sources print, by their id.

``data/examples.json`` holds each with its source; ``seen: false`` marks one from memory.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest

Example = Callable[[str], dict[str, Any]]


@cache
def _examples() -> dict[str, dict[str, Any]]:
    text = Path(__file__).with_name("data").joinpath("examples.json").read_text(encoding="utf-8")
    return {each["id"]: each for each in json.loads(text)}


@pytest.fixture(scope="session")
def example() -> Example:
    """``example("flex-aci-wight-p4-1")`` is that example: inputs, expected, source, …"""
    return lambda name: _examples()[name]


@pytest.fixture(scope="session")
def table(example: Example) -> Callable[[str], list[dict[str, Any]]]:
    """``table("tab-a615")`` is that table as a list of rows, each from column to value."""

    def rows(name: str) -> list[dict[str, Any]]:
        found = example(name)["table"]
        return [dict(zip(found["columns"], row, strict=True)) for row in found["rows"]]

    return rows

"""The measured data: CSV files whose ``#`` lines say where the numbers come from."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
DATA = ROOT / "tests" / "published" / "data" / "tests"

Row = dict[str, str]


def rows(name: str) -> Iterator[Row]:
    """The rows of one file, as text."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(line for line in file if not line.startswith("#"))


def number(row: Row, key: str) -> float | None:
    """A cell as a number; None where it is blank."""
    text = row[key].strip()
    return float(text) if text else None


def given(row: Row, key: str) -> float:
    """A cell that has to be there."""
    value = number(row, key)
    if value is None:
        raise ValueError(f"{key} is blank in {row}")
    return value

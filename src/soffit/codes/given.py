"""What a formula of a standard does not take is refused before it gives a number."""

from __future__ import annotations

from math import isfinite


def positive(**values: float) -> None:
    """Raises ``ValueError`` for the first value that is not a number above zero."""
    for name, value in values.items():
        if not (isfinite(value) and value > 0.0):
            raise ValueError(f"{name.replace('_', ' ')} is {value:g}, and a number above zero is wanted")


def not_negative(**values: float) -> None:
    """Raises ``ValueError`` for the first value that is not a number from zero up."""
    for name, value in values.items():
        if not (isfinite(value) and value >= 0.0):
            raise ValueError(f"{name.replace('_', ' ')} is {value:g}, and zero or a number above it is wanted")


def number(**values: float) -> None:
    """Raises ``ValueError`` for the first value that is not a finite number."""
    for name, value in values.items():
        if not isfinite(value):
            raise ValueError(f"{name.replace('_', ' ')} is {value:g}, and a number is wanted")

"""Combinations for the fib Model Code 2010: of the form and with the factors of EN 1990 (*from memory*)."""

from soffit.codes.en1992.combinations import rules

__all__ = ["rules"]

"""The errors that a user may see. Each message is one sentence that says what is wrong and what would do."""

from __future__ import annotations


class SoffitError(Exception):
    """Anything the program refuses to do, with the reason as one sentence."""


class BeamFileError(SoffitError):
    """A beam file that does not describe a beam.

    ``problems`` holds one sentence a fault, in the order of the file, each with file, line, key,
    what was found and what would do.
    """

    def __init__(self, problems: list[str]) -> None:
        self.problems = problems
        super().__init__("\n".join(problems))


class PhysicsError(SoffitError):
    """A beam that is well formed but has no life to compute (no load that rises, no support, …)."""


class ConvergenceError(SoffitError):
    """A solution that was not found; the message names the place and the load."""

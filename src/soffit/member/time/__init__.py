"""A beam over time: what its making, its loads and its years do to stress, prestress and deflection."""

from soffit.member.time.engine import past
from soffit.member.time.result import Band, Past
from soffit.member.time.scatter import band

__all__ = ["Band", "Past", "band", "past"]

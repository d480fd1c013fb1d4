"""What EN 1992-1-1 and fib Model Code 2010 share: strength gain by cement class, and the age that cement class adjusts.

All functions are elementwise in time.
"""

from __future__ import annotations

import numpy as np

from soffit.materials.ageing.check import ages
from soffit.materials.curve import Array
from soffit.materials.standards import EN_CEMENT

ADJUSTMENT = {"S": -1.0, "N": 0.0, "R": 1.0}
"""Exponent α of EN 1992-1-1:2004 (B.9) by cement class (*from memory*)."""


def gain(age: Array | float, coefficient: float) -> Array:
    """βcc(t) = exp(s (1 − √(28/t))): strength at ``age`` (days at 20 °C) over that at 28 days.

    EN 1992-1-1:2004 (3.2); fib Model Code 2010 (5.1-51) (*number from memory*). ``coefficient``: s.
    """
    return np.exp(coefficient * (1.0 - np.sqrt(28.0 / ages(age))))


def en_coefficient(cement: str) -> float:
    """s of EN 1992-1-1:2004 3.1.2(6): 0.38 S, 0.25 N, 0.20 R."""
    return EN_CEMENT[cement]


def mc_coefficient(cement: str, strength: float) -> float:
    """s of fib Model Code 2010 Table 5.1-9: as EN, and 0.20 for all cements above fcm = 60 MPa (*from memory*)."""
    return 0.20 if strength > 60.0 else EN_CEMENT[cement]


def adjusted_age(effective_age: Array | float, cement: str) -> Array:
    """t0 = t0,T (9/(2 + t0,T^1.2) + 1)^α, at least 0.5 days: EN 1992-1-1:2004 (B.9), fib Model Code 2010 5.1.9.4 (*from
    memory*).

    ``effective_age``: t0,T, the temperature-adjusted age at loading. The result belongs in the age factor of creep
    alone, never in the time under load.
    """
    t = ages(effective_age)
    return np.maximum(t * (9.0 / (2.0 + t**1.2) + 1.0) ** ADJUSTMENT[cement], 0.5)

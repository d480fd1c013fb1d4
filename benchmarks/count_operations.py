"""Count what one equilibrium point costs in arithmetic: the kernel runs uncompiled on floats that count.

Prints JSON: additions, multiplications, divisions, comparisons and searches of the resultants for one
converged point of the timed section. Run by ratios.py as a process of its own, because compiling must be
off.
"""

from __future__ import annotations

import json
import os
from collections import Counter

os.environ["NUMBA_DISABLE_JIT"] = "1"

import cases
import numpy as np

from soffit.section import kernel, strip

done: Counter[str] = Counter()


class Counted(float):
    """A float whose arithmetic is counted and stays counted."""

    def __neg__(self) -> Counted:
        return Counted(float(self) * -1.0)

    def __abs__(self) -> Counted:
        return Counted(abs(float(self)))


def _counting(name: str, kind: str):  # type: ignore[no-untyped-def]
    plain = getattr(float, name)

    def method(self, other):  # type: ignore[no-untyped-def]
        done[kind] += 1
        result = plain(self, float(other))
        return result if isinstance(result, bool) else Counted(result)

    return method


for _kind, _names in {
    "add": ("__add__", "__radd__", "__sub__", "__rsub__"),
    "multiply": ("__mul__", "__rmul__"),
    "divide": ("__truediv__", "__rtruediv__"),
    "compare": ("__lt__", "__le__", "__gt__", "__ge__", "__eq__", "__ne__"),
}.items():
    for _name in _names:
        setattr(Counted, _name, _counting(_name, _kind))


def counted(array):  # type: ignore[no-untyped-def]
    """The same numbers as counting floats."""
    out = np.empty(array.shape, dtype=object)
    for place, value in np.ndenumerate(array):
        out[place] = Counted(value)
    return out


def _count_calls(name: str) -> None:
    """Count the calls of a function under every module name by which it is called."""
    homes = [module for module in (kernel, strip) if hasattr(module, name)]
    plain = getattr(homes[0], name)

    def wrapped(*args):  # type: ignore[no-untyped-def]
        done[name] += 1
        return plain(*args)

    for module in homes:
        setattr(module, name, wrapped)


def main() -> None:
    section, points = cases.two_layers(), 200
    for name in ("_axial", "resultants", "locate"):
        _count_calls(name)
    strips, layers, table = (counted(a) for a in section.arrays[:3])
    k = cases.curvatures(points)
    kernel.trace(
        strips, layers, table, section.laws.first, section.laws.last, Counted(section.axis), counted(k),
        Counted(0.0), Counted(0.0), Counted(section.scale),
    )  # fmt: skip
    print(json.dumps({kind: n / points for kind, n in sorted(done.items())}))


if __name__ == "__main__":
    main()

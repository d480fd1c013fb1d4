"""What this machine can do at most: multiply-adds a second on all cores, in the vector units and one by
one.
"""

from __future__ import annotations

import time

import numba
import numpy as np


@numba.njit(parallel=True, fastmath=True)
def _vector(rounds: int, threads: int, x: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]
    out = np.zeros(threads)
    for i in numba.prange(threads):
        a = x.copy()
        for _ in range(rounds):
            # 512 numbers stay in the nearest cache; each is loaded once for 16 multiply-adds
            for j in range(a.size):
                v, w = a[j], a[j]
                v = v * w + 0.1
                v = v * w + 0.2
                v = v * w + 0.3
                v = v * w + 0.1
                v = v * w + 0.2
                v = v * w + 0.3
                v = v * w + 0.1
                v = v * w + 0.2
                v = v * w + 0.3
                v = v * w + 0.1
                v = v * w + 0.2
                v = v * w + 0.3
                v = v * w + 0.1
                v = v * w + 0.2
                v = v * w + 0.3
                a[j] = v * 1e-6 + 0.5
        out[i] = a.sum()
    return out


@numba.njit(parallel=True)
def _chained(rounds: int, threads: int, start: float) -> np.ndarray:  # type: ignore[type-arg]
    """One dependent chain a core: what arithmetic costs when each step waits for the one before."""
    out = np.zeros(threads)
    for i in numba.prange(threads):
        a = start + i
        for _ in range(rounds):
            a = a * 0.999999 + 1e-6
        out[i] = a
    return out


def _best(call, operations: float) -> float:  # type: ignore[no-untyped-def]
    call()
    best = min(_timed(call) for _ in range(5))
    return operations / best


def _timed(call) -> float:  # type: ignore[no-untyped-def]
    start = time.perf_counter()
    call()
    return time.perf_counter() - start


def multiply_adds() -> tuple[float, float]:
    """Operations a second (a multiply-add is two): vectorised, and in one dependent chain a core."""
    threads = numba.get_num_threads()
    x = np.linspace(0.0, 1.0, 512)
    vector = _best(lambda: _vector(20_000, threads, x), 2.0 * 16 * 20_000 * 512 * threads)
    chained = _best(lambda: _chained(20_000_000, threads, 1.0), 2.0 * 20_000_000 * threads)
    return vector, chained

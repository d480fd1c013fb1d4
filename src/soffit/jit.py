"""The one place that imports numba: compiled kernels are cached in the user's cache folder.

An installed package may stand in a folder nobody may write to, so the cache never goes beside the source.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from platformdirs import user_cache_dir

F = TypeVar("F", bound=Callable[..., Any])


def _state_of_sources() -> str:
    """A name for the kernels as they stand: numba sees a change in a kernel's own file only, not in those it calls."""
    package = Path(__file__).parent
    files = sorted(p for floor in ("materials", "section", "member") for p in (package / floor).rglob("*.py"))
    facts = "".join(f"{p.name}{p.stat().st_size}{p.stat().st_mtime_ns}" for p in files)
    return hashlib.sha256(facts.encode()).hexdigest()[:16]


CACHE = Path(
    os.environ.get("NUMBA_CACHE_DIR")
    or Path(user_cache_dir("soffit", appauthor=False)) / "kernels" / _state_of_sources()
)


def has_compiled_kernels() -> bool:
    """Whether an earlier run left compiled kernels, so that this one will not have to compile."""
    return CACHE.is_dir() and next(CACHE.rglob("*.nbi"), None) is not None


os.environ.setdefault("NUMBA_CACHE_DIR", str(CACHE))

import numba  # noqa: E402  (numba reads the cache folder when it is imported)

# numba may have been imported by someone else before the folder was named
numba.config.CACHE_DIR = str(CACHE)

prange = numba.prange


def kernel(function: F) -> F:
    """Compile on first call, cache on disk, release the interpreter lock; floats stay IEEE (no fastmath)."""
    return numba.njit(cache=True, nogil=True, error_model="numpy")(function)


def parallel_kernel(function: F) -> F:
    """As :func:`kernel`, with ``prange`` loops spread over the cores."""
    return numba.njit(cache=True, nogil=True, error_model="numpy", parallel=True)(function)

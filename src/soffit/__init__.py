"""Soffit: the whole life of a concrete beam, from its file to its collapse.

>>> import soffit
>>> beam = soffit.read("examples/bench-bars.toml")   # doctest: +SKIP
>>> life = soffit.life(beam)                         # doctest: +SKIP
>>> life.peak.load                                   # doctest: +SKIP
"""

from __future__ import annotations

from importlib import import_module
from importlib.metadata import PackageNotFoundError, version
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from soffit.beamfile import read
    from soffit.member.beam import Beam
    from soffit.member.result import Life
    from soffit.member.time import band, past
    from soffit.member.time.lived import lived as life

try:
    __version__ = version("soffit")
except PackageNotFoundError:  # run from a source tree that was never installed
    __version__ = "0+unknown"

# imported when first used, so that `soffit --help` does not wait for the kernels
_LAZY = {
    "read": "soffit.beamfile",
    "life": "soffit.member.time.lived",
    "past": "soffit.member.time",
    "band": "soffit.member.time",
    "Beam": "soffit.member.beam",
    "Life": "soffit.member.result",
}

__all__ = ["Beam", "Life", "__version__", "band", "life", "past", "read"]


def __getattr__(name: str) -> Any:
    if name in _LAZY:
        if name in ("life", "Life"):
            import_module("soffit.show.notebook").attach()
        return getattr(import_module(_LAZY[name]), "lived" if name == "life" else name)
    raise AttributeError(f"module 'soffit' has no attribute {name!r}")

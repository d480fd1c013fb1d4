"""Commented files to begin from, one for each kind of reinforcement."""

from __future__ import annotations

from importlib.resources import files

from soffit.errors import SoffitError
from soffit.units import near, quote

KINDS = ("plain", "bars", "pretensioned", "post-tensioned-bonded", "post-tensioned-unbonded")


def starter(kind: str) -> str:
    """The text of a starter file. Raises ``SoffitError`` for a kind that is not in ``KINDS``."""
    if kind not in KINDS:
        meant = near(kind, list(KINDS))
        cure = f'did you mean "{meant}"?' if meant else f"write one of {', '.join(KINDS)}."
        raise SoffitError(f"there is no starter file {quote(kind)}; {cure}")
    return files("soffit.beamfile").joinpath("data", f"{kind}.toml").read_text(encoding="utf-8")

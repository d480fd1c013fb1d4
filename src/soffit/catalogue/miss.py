"""A name that the catalogue does not hold, and the names that come near it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from soffit.errors import SoffitError


class CatalogueMiss(SoffitError):
    """No such name. ``near`` holds close names, best first; ``legal`` all names that would have done."""

    def __init__(self, sentence: str, near: Iterable[str] = (), legal: Iterable[str] = ()) -> None:
        self.near = list(near)
        self.legal = list(legal)
        super().__init__(sentence)


def near_names(key: str, keys: Mapping[str, str], first: Iterable[str] = (), most: int = 5) -> list[str]:
    """Up to ``most`` names whose spelling is close to ``key``; ``first`` go before them.

    ``keys`` maps every accepted spelling to the name that it stands for.
    """
    import difflib

    close = difflib.get_close_matches(key, keys, n=3 * most, cutoff=0.6)
    return list(dict.fromkeys([*first, *(keys[k] for k in close)]))[:most]


def miss(what: str, asked: str, near: list[str], legal: Iterable[str], examples: Iterable[str] = ()) -> CatalogueMiss:
    """The error for a name that was not found, with its one sentence."""
    if near:
        hint = f"; near: {', '.join(near)}"
    else:
        hint = f"; for example: {', '.join(examples or list(legal)[:6])}"
    return CatalogueMiss(f"no {what} is called {asked!r}{hint}", near, legal)

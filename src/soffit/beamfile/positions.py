"""Where each key of a TOML text stands: key path to line number.

The text has already been read without error by the standard library's parser, so this scanner checks nothing;
it walks the same grammar (TOML 1.0.0) and keeps the line of every table, key and array element.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping

Path = tuple[str | int, ...]

_BARE_END = set(" \t\r\n=.]#,}")


def positions(text: str) -> dict[Path, int]:
    """The line (from 1) on which each table header, key and array element of a valid TOML text begins."""
    return _Scanner(text).scan()


def line_of(found: Mapping[Path, int], path: Path) -> int:
    """The line of a path, or of the nearest table or key that holds it; 1 for the file as a whole."""
    while path:
        if path in found:
            return found[path]
        path = path[:-1]
    return 1


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.line = 1
        self.found: dict[Path, int] = {}
        self.counts: dict[Path, int] = {}
        """How many tables each array of tables has so far."""

    def scan(self) -> dict[Path, int]:
        here: Path = ()
        while self._skip():
            if self.text[self.at] == "[":
                here = self._header()
            else:
                self._pair(here)
        return self.found

    def _pair(self, here: Path) -> None:
        path = self._keys(here, "=")
        self._step(1)
        self._value(path)

    def _header(self) -> Path:
        """``[a.b]`` or ``[[a.b]]``; a name on the way that is an array of tables means its last table."""
        array = self.text.startswith("[[", self.at)
        start = self.line
        self._step(2 if array else 1)
        words = self._words("]")
        path: Path = ()
        for depth, word in enumerate(words):
            path = (*path, word)
            self.found.setdefault(path, start)
            last = depth == len(words) - 1
            if array and last:
                self.counts[path] = self.counts.get(path, 0) + 1
            if path in self.counts:
                path = (*path, self.counts[path] - 1)
        self._step(2 if array else 1)
        self.found.setdefault(path, start)
        return path

    def _keys(self, here: Path, end: str) -> Path:
        for word in self._words(end):
            here = (*here, word)
            self.found.setdefault(here, self.line)
        return here

    def _words(self, end: str) -> list[str]:
        """The parts of a dotted key, up to but not past ``end``."""
        words: list[str] = []
        while True:
            self._blank()
            c = self.text[self.at]
            if c == end:
                return words
            if c == ".":
                self._step(1)
            elif c in "\"'":
                words.append(self._quoted_key())
            else:
                start = self.at
                while self.text[self.at] not in _BARE_END:
                    self.at += 1
                words.append(self.text[start : self.at])

    def _quoted_key(self) -> str:
        start = self.at
        self._string()
        # the parser knows the escapes
        return str(next(iter(tomllib.loads(f"{self.text[start : self.at]} = 0"))))

    def _value(self, path: Path) -> None:
        self._blank()
        c = self.text[self.at]
        if c == "[":
            self._array(path)
        elif c == "{":
            self._inline(path)
        elif c in "\"'":
            self._string()
        else:
            while self.at < len(self.text) and self.text[self.at] not in ",]}#\n":
                self.at += 1

    def _array(self, path: Path) -> None:
        self._step(1)
        index = 0
        while self._skip() and self.text[self.at] != "]":
            if self.text[self.at] == ",":
                self._step(1)
                continue
            self.found[(*path, index)] = self.line
            self._value((*path, index))
            index += 1
        self._step(1)

    def _inline(self, path: Path) -> None:
        self._step(1)
        while self._skip() and self.text[self.at] != "}":
            if self.text[self.at] == ",":
                self._step(1)
            else:
                self._pair(path)
        self._step(1)

    def _string(self) -> None:
        quote = self.text[self.at]
        if self.text.startswith(3 * quote, self.at):
            self._long_string(quote)
            return
        self.at += 1
        while self.text[self.at] != quote:
            self.at += 2 if self.text[self.at] == "\\" and quote == '"' else 1
        self.at += 1

    def _long_string(self, quote: str) -> None:
        self._step(3)
        while not self.text.startswith(3 * quote, self.at):
            self._step(2 if self.text[self.at] == "\\" and quote == '"' else 1)
        self._step(3)
        # one or two quotes may stand before the closing three
        while self.text.startswith(quote, self.at):
            self.at += 1

    def _blank(self) -> None:
        while self.at < len(self.text) and self.text[self.at] in " \t":
            self.at += 1

    def _skip(self) -> bool:
        """Past spaces, line ends and comments; false at the end of the text."""
        while self.at < len(self.text):
            c = self.text[self.at]
            if c == "#":
                end = self.text.find("\n", self.at)
                self.at = len(self.text) if end < 0 else end
            elif c in " \t\r\n":
                self._step(1)
            else:
                return True
        return False

    def _step(self, count: int) -> None:
        self.line += self.text.count("\n", self.at, self.at + count)
        self.at += count

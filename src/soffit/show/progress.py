"""A line on the terminal that says how far a run of many files is; it is gone when the run is."""

from __future__ import annotations

import shutil
import sys
from time import monotonic
from types import TracebackType

WIDTH = 24


class Progress:
    """``with Progress(40) as progress: … progress.done(3)``; silent unless stderr is a terminal.

    Whoever prints in between calls :meth:`clear` before and :meth:`draw` after, so that the two never mix.
    """

    def __init__(self, total: int, shown: bool = True) -> None:
        self.total = total
        self.count = 0
        self.begin = monotonic()
        self.shown = shown and total > 1 and sys.stderr.isatty()

    def __enter__(self) -> Progress:
        self.draw()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.clear()

    def done(self, count: int) -> None:
        self.count = count
        self.draw()

    def draw(self) -> None:
        if self.shown:
            columns = shutil.get_terminal_size().columns
            sys.stderr.write("\r" + self.line(monotonic() - self.begin)[: columns - 1] + "\x1b[K")
            sys.stderr.flush()

    def clear(self) -> None:
        if self.shown:
            sys.stderr.write("\r\x1b[K")
            sys.stderr.flush()

    def line(self, seconds: float) -> str:
        """``━━━━━━╌╌╌╌╌  12 of 40 beams, about 3 s left``, after ``seconds`` of work."""
        filled = WIDTH * self.count // self.total
        left = ""
        if 0 < self.count < self.total:
            left = f", about {max(1, round(seconds / self.count * (self.total - self.count)))} s left"
        return f"{'━' * filled}{'╌' * (WIDTH - filled)}  {self.count} of {self.total} beams{left}"

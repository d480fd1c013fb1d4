"""Work that goes on in a process of its own while this one does something else, where the system can fork safely."""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Callable
from contextlib import suppress
from typing import TYPE_CHECKING, Generic, TypeVar

from soffit.show.pool import cores

if TYPE_CHECKING:
    from multiprocessing.connection import Connection

Found = TypeVar("Found")


class Aside(Generic[Found]):
    """``Aside(work)`` begins it; calling it gives what ``work`` returned, or raises what it raised.

    ``work`` is called again here where the other process came to nothing, so that its errors are raised as usual.
    """

    def __init__(self, work: Callable[[], Found]) -> None:
        self._work = work
        self._answer: Connection | None = None
        # a fork copies only the thread that asks for it, and macOS forbids much after one
        if sys.platform == "linux" and threading.active_count() == 1 and cores() > 1:
            self._begin()

    def _begin(self) -> None:
        from multiprocessing import get_context

        fork = get_context("fork")
        self._answer, end = fork.Pipe(duplex=False)
        self._process = fork.Process(target=_carry_out, args=(self._work, self._answer, end), daemon=True)
        # the parent alone answers signals, and from the first moment on: the other process keeps them blocked
        deaf = {signal.SIGINT, signal.SIGTERM}
        signal.pthread_sigmask(signal.SIG_BLOCK, deaf)
        try:
            self._process.start()
        finally:
            signal.pthread_sigmask(signal.SIG_UNBLOCK, deaf)
        end.close()

    def __call__(self) -> Found:
        if self._answer is None:
            return self._work()
        try:
            done, found = self._answer.recv()
        except (EOFError, OSError):
            done, found = False, None
        self.stop()
        return found if done else self._work()

    def stop(self) -> None:
        """End it, whether it is done or not."""
        if self._answer is not None:
            self._process.kill()
            self._process.join()
            self._answer.close()
            self._answer = None


def _carry_out(work: Callable[[], Found], read_end: Connection, end: Connection) -> None:
    # else it would write for ever into a pipe that it alone could read
    read_end.close()
    try:
        answer = (True, work())
    except Exception:
        answer = (False, None)  # type: ignore[assignment]
    # where the parent has gone, nobody waits for it
    with suppress(OSError):
        end.send(answer)
    end.close()

"""Many orders, one after another or over the cores; a process that dies loses its own order alone."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable, Generator, Iterator, Sequence
from concurrent.futures import BrokenExecutor, ProcessPoolExecutor, as_completed
from contextlib import closing, contextmanager, suppress
from typing import TypeVar

Order = TypeVar("Order")
Outcome = TypeVar("Outcome")


def run(
    orders: Sequence[Order],
    work: Callable[[Order], Outcome],
    lost: Callable[[Order], Outcome],
    jobs: int,
    alone: int = 0,
    done: Callable[[int], None] = lambda count: None,
) -> Generator[Outcome]:
    """What ``work`` makes of each order, in their order; ``done`` hears at once how many are finished.

    With ``jobs`` > 1 the orders run in that many new processes (spawned, alike on every system), but for the first
    ``alone``, which run here. ``work`` is a function of a module and raises nothing; ``lost`` makes the outcome of an
    order whose process died.
    """
    here = len(orders) if jobs <= 1 else alone
    for count, order in enumerate(orders[:here], start=1):
        outcome = work(order)
        done(count)
        yield outcome
    if here == len(orders):
        return
    waiting: dict[int, Outcome] = {}
    following = 0
    with closing(_over_processes(orders[here:], work, lost, jobs)) as finished:
        for count, (index, outcome) in enumerate(finished, start=here + 1):
            waiting[index] = outcome
            done(count)
            while following in waiting:
                yield waiting.pop(following)
                following += 1


def lost(path: str, what: str) -> str:
    """One sentence for the file whose process died."""
    return f"{path}: its process ended before the {what} was done, perhaps out of memory; nothing was written."


def _over_processes(
    orders: Sequence[Order], work: Callable[[Order], Outcome], lost: Callable[[Order], Outcome], jobs: int
) -> Generator[tuple[int, Outcome]]:
    """Index and outcome of each order, as they finish."""
    left = dict(enumerate(orders))
    while left:
        broken = yield from _one_pool(left, work, jobs)
        # a process that dies takes the whole pool with it, and it was busy with one of the foremost orders:
        # give each of those a process of its own, so that only the guilty one is lost
        for index in list(left)[:jobs] if broken else ():
            alone = {index: left.pop(index)}
            yield from _one_pool(alone, work, 1)
            for order in alone.values():
                yield index, lost(order)


def _one_pool(
    left: dict[int, Order], work: Callable[[Order], Outcome], jobs: int
) -> Generator[tuple[int, Outcome], None, bool]:
    """Carry out what is left, taking out what is finished; returns whether a process died."""
    import multiprocessing

    pool = ProcessPoolExecutor(jobs, mp_context=multiprocessing.get_context("spawn"), initializer=_begin)
    broken = False
    try:
        with _deaf_children():
            futures = {pool.submit(work, order): index for index, order in left.items()}
        for future in as_completed(futures):
            try:
                outcome = future.result()
            except BrokenExecutor:
                broken = True
            else:
                del left[futures[future]]
                yield futures[future], outcome
    except BaseException:
        for child in multiprocessing.active_children():
            child.terminate()
        raise
    finally:
        pool.shutdown(wait=True, cancel_futures=True)
    return broken


def _begin() -> None:
    """In each new process: the parent alone answers Ctrl-C, and one beam has one core."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for name in ("NUMBA_NUM_THREADS", "OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS"):
        os.environ.setdefault(name, "1")
    if os.environ.get("SOFFIT_DEBUG") != "1":
        import warnings

        warnings.simplefilter("ignore")


@contextmanager
def _deaf_children() -> Iterator[None]:
    """Processes begun inside never hear Ctrl-C, even while they start; the parent hears it afterwards."""
    if sys.platform == "win32":
        yield
        return
    from multiprocessing import resource_tracker

    resource_tracker.ensure_running()  # it unblocks the signal when it starts, so it must run before
    signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})


def cores() -> int:
    with suppress(AttributeError):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1

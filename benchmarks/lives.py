"""Times of whole lives and of the command line, as rows for ratios.py."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import plain_time
import staged

import soffit

HERE = Path(__file__).parent
BENCH = HERE.parent / "examples" / "bench-bars.toml"
GIRDER = HERE / "girder.toml"
UNIT = HERE.parent / "examples" / "alder-weir-deck-unit.toml"
SUSTAINED = HERE.parent / "examples" / "bench-sustained.toml"
Row = tuple[str, str, str, bool]
Best = Callable[[Callable[[], object]], float]


def measured(best_of: Best) -> Iterator[tuple[str, list[Row]]]:
    """Title and rows of each group."""
    yield (
        "Lives, once warm",
        [
            row("bench beam with two bars", _life(BENCH, best_of), 0.050),
            row("30 m girder, 40 strands in 12 rows", _life(GIRDER, best_of), 0.300),
        ],
    )
    girder = staged.girder()
    steps = len(soffit.past(girder, pieces=staged.PIECES).t)
    seconds = best_of(lambda: soffit.past(girder, pieces=staged.PIECES))
    what = f"30 years of a composite girder, {staged.GROUPS} groups, {steps} steps"
    cracked = soffit.read(SUSTAINED)
    faster = _over_plain(best_of)
    yield (
        "Time, once warm",
        [
            row(what, seconds, 0.500),
            row("the same by the age-adjusted method", best_of(lambda: soffit.past(girder, adjusted=True)), 0.500),
            row("five years of a cracked bench beam", best_of(lambda: soffit.past(cracked)), 0.500),
            row("its band of scatter", best_of(lambda: soffit.band(cracked)), 2.0),
            ("a section and step, over plain fibres and SciPy", f"{faster:.0f} ×", "≥ 100 ×", faster >= 100.0),
        ],
    )
    with tempfile.TemporaryDirectory() as empty:
        first, said = command("life", str(BENCH), cache=empty)
        again, _ = command("life", str(BENCH), cache=empty)
    rows = [
        row("soffit --help", min(command("--help")[0] for _ in range(5)), 0.3),
        row("soffit life, new process, kernels cached", again, 2.0),
        ("soffit life, first run of all", f"{first:.1f} s", "says why", "compil" in said.lower()),
    ]
    yield "Command line", rows


def _over_plain(best_of: Best) -> float:
    """How many times faster than :mod:`plain_time` one section of a deck unit goes through its years."""
    beam = soffit.read(UNIT)
    assert beam.making is not None
    past = soffit.past(beam)
    first = past.instants[0].step
    strands = (float(beam.tendons[0].profile.y[0]), beam.tendons[0].area, beam.tendons[0].stress)
    moment = past.moment[first:, past.middle]
    start = time.perf_counter()
    plain_time.history(beam.making.casting, past.t[first:], 600.0, 320.0, strands, moment)
    plain = time.perf_counter() - start
    return plain * len(past.x) / best_of(lambda: soffit.past(beam))


def row(what: str, seconds: float, aim: float) -> Row:
    return what, f"{1000 * seconds:.0f} ms", f"≤ {1000 * aim:.0f} ms", seconds <= aim


def _life(path: Path, best_of: Best) -> float:
    beam = soffit.read(path)
    return best_of(lambda: soffit.life(beam))


def command(*arguments: str, cache: str | None = None, fails: bool = False) -> tuple[float, str]:
    """Seconds of one run as a user starts it, and what it printed; ``fails``: a beam in it may fail its checks."""
    program = Path(sys.executable).with_name("soffit")
    environment = {**os.environ, **({"NUMBA_CACHE_DIR": cache} if cache else {})}
    start = time.perf_counter()
    done = subprocess.run([str(program), *arguments], capture_output=True, text=True, env=environment, check=not fails)
    return time.perf_counter() - start, done.stdout + done.stderr

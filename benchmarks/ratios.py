"""How fast, how much memory, and how far from what the machine can do: one table, printed by `make bench`.

Times are the best of several runs; "aim" is the aim of the project, and a missed one says so.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import cases
import lives
import machine
import numba
import numpy as np
import plain_scipy
import verifying

from soffit.section.kernel import trace_many

HERE = Path(__file__).parent
POINTS, SECTIONS = 200, 5000


def best_of(call: Callable[[], object], runs: int = 7) -> float:
    """Seconds of the fastest of several runs, after one that does not count."""
    call()
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return min(times)


def kernel_speed() -> float:
    """Converged equilibrium points (soffit strain and moment) a second on all cores."""
    section, k = cases.two_layers(), cases.curvatures(POINTS)
    layers, ks = np.repeat(section.layers[None], SECTIONS, 0), np.repeat(k[None], SECTIONS, 0)
    zero, laws = np.zeros(SECTIONS), section.laws
    args = (
        section.strips,
        layers,
        laws.table,
        laws.first,
        laws.last,
        section.axis,
        ks,
        zero,
        zero,
        section.scale,
    )
    return SECTIONS * POINTS / best_of(lambda: trace_many(*args))


def scipy_speed() -> float:
    """The same in plain SciPy, one core."""
    k = cases.curvatures(60).tolist()
    return 60 / best_of(lambda: plain_scipy.trace(k), 3)


def run(script: str, *arguments: str) -> dict[str, float]:
    """A script beside this one as its own process; it prints JSON."""
    done = subprocess.run([sys.executable, str(HERE / script), *arguments], capture_output=True, text=True, check=True)
    found: dict[str, float] = json.loads(done.stdout)
    return found


def row(what: str, value: str, aim: str = "", met: bool | None = None) -> None:
    verdict = "" if met is None else ("met" if met else "MISSED")
    print(f"  {what:<58}{value:>14}   {aim:<12}{verdict}")


def section_floor() -> None:
    ours, plain = kernel_speed(), scipy_speed()
    vector, chained = machine.multiply_adds()
    cost = run("count_operations.py")
    arithmetic = cost["add"] + cost["multiply"] + cost["divide"]
    print(f"\nEquilibrium points, rectangle with two steel layers, {numba.get_num_threads()} cores")
    row("points a second", f"{ours / 1e6:.2f} million", "≥ 4 million", ours >= 4e6)
    row("plain SciPy (quad + brentq), points a second", f"{plain:.0f}")
    row("ratio to plain SciPy", f"{ours / plain:.0f} ×", "≥ 100 ×", ours >= 100 * plain)
    print("\nDistance from the machine")
    row("multiply-adds in vectors, operations a second", f"{vector / 1e9:.1f} billion")
    row("multiply-adds one after another, operations a second", f"{chained / 1e9:.2f} billion")
    row("operations in one point (+ − × ÷)", f"{arithmetic:.0f}")
    row("  of them divisions", f"{cost['divide']:.0f}")
    row("comparisons in one point, most of them to find table rows", f"{cost['compare']:.0f}")
    row("forces asked for in one point (Newton)", f"{cost['_axial']:.2f} + 1")
    row("share of the vector limit", f"{100 * ours * arithmetic / vector:.1f} %")
    row("share of the chained limit", f"{100 * ours * arithmetic / chained:.0f} %")
    print(
        "  Why: within a section each point starts from the one before and each Newton step waits for the\n"
        "  last, so the work is chains of dependent scalar operations, table searches (some seven\n"
        f"  dependent loads each, {cost['locate']:.0f} a point) and branches on the piece of the law, which fill no\n"
        "  vector unit. Chains of different terms overlap, hence more than the single chain. Sections are\n"
        "  independent, so the speed grows with the cores."
    )


def populations() -> None:
    samples = 1_000_000
    found = run("million.py", str(samples))
    print(f"\nA million sections, {found['scattered']:.0f} scattered numbers each")
    row("memory at its highest", f"{found['peak_MB']:.0f} MB", "≤ 1000 MB", found["peak_MB"] <= 1000)
    row("  of it the samples themselves", f"{found['inputs_MB']:.0f} MB")
    row("time for a sample (laws, path, peak, events)", f"{1e6 * found['seconds'] / samples:.0f} µs")


def main() -> None:
    section_floor()
    populations()
    for title, rows in [*lives.measured(best_of), *verifying.measured(best_of)]:
        print(f"\n{title}")
        for line in rows:
            row(*line)


if __name__ == "__main__":
    main()

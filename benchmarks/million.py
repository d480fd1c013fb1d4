"""Memory and time of a large population, as a process of its own: prints JSON."""

from __future__ import annotations

import json
import resource
import sys
import time

import cases

from soffit.section.population import summarise


def main(samples: int) -> None:
    summarise(cases.population(4), 4)  # compiles
    population = cases.population(samples)
    columns = [population.width, population.depth]
    columns += [v for v in vars(population.concrete).values() if hasattr(v, "nbytes")]
    for part in (*population.steels, *population.layers):
        columns += [v for v in vars(part).values() if hasattr(v, "nbytes")]
    start = time.perf_counter()
    found = summarise(population, samples)
    seconds = time.perf_counter() - start
    assert found.peak_moment.shape == (samples,)
    # Linux counts in KiB, macOS in bytes
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1024.0 if sys.platform == "linux" else 1024.0**2)
    inputs = sum(column.nbytes for column in columns) / 1024.0**2  # type: ignore[union-attr]
    print(json.dumps({"peak_MB": peak, "inputs_MB": inputs, "seconds": seconds, "scattered": len(columns)}))


if __name__ == "__main__":
    main(int(sys.argv[1]))

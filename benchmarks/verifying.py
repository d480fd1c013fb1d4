"""Times of verifications and of the calculation as PDF, as rows for ratios.py."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

from lives import Best, Row, command, row

import soffit
from soffit.codes.verification import STANDARDS, verify

EXAMPLES = Path(__file__).parent.parent / "examples"
BEAMS = ("alder-weir-edge-beam", "alder-weir-girder", "alder-weir-two-span")
FOLDER = 200


def measured(best_of: Best) -> Iterator[tuple[str, list[Row]]]:
    """Title and rows of each group."""
    rows = []
    for name in BEAMS:
        beam = soffit.read(EXAMPLES / f"{name}.toml")
        for standard in STANDARDS:
            rows.append(row(f"{name} to {standard}", best_of(_verification(beam, standard)), 0.030))
    yield "A full verification, once warm", rows
    with tempfile.TemporaryDirectory() as folder:
        many = Path(folder) / "beams"
        many.mkdir()
        for i in range(FOLDER):
            shutil.copy(EXAMPLES / f"{BEAMS[i % len(BEAMS)]}.toml", many / f"beam-{i:03}.toml")
        table = Path(folder) / "table.xlsx"
        seconds, _ = command("verify", str(many), "--to", "en1992", "--quiet", "--table", str(table), fails=True)
        pdf = Path(folder) / "calc.pdf"
        edge = str(EXAMPLES / "alder-weir-edge-beam.toml")
        drawn = min(command("report", edge, "--to", "en1992", "-o", str(pdf), fails=True)[0] for _ in range(3))
    yield (
        "Command line, verification",
        [
            (f"a folder of {FOLDER} beams, two cores, with its table", f"{seconds:.1f} s", "told", True),
            row("the calculation of the edge beam as PDF, new process", drawn, 2.0),
        ],
    )


def _verification(beam: soffit.Beam, standard: str) -> Callable[[], object]:
    return lambda: verify(beam, standard)

"""From a beam file to its calculation as PDF."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from soffit.errors import SoffitError
from soffit.show.batch import sentences
from soffit.show.numbers import Units
from soffit.show.place import Place, Usage
from soffit.show.reportblocks import Calculation, Paper
from soffit.show.typed import beam_files

if TYPE_CHECKING:
    from soffit.member.beam import Beam
    from soffit.member.result import Life

PAPERS: dict[str, Paper] = {"a4": "a4", "letter": "us-letter"}


@dataclass(frozen=True)
class Order:
    path: str
    to: str
    folder: str
    name: str
    paper: str | None = None
    """``"a4"`` or ``"letter"``; none: letter for files in US units."""
    units: Units | None = None


def wanted(file: str, to: str, output: str | None, paper: str | None, units: Units | None) -> Order:
    """What was typed. Raises :class:`Usage`."""
    (path,) = beam_files([file])
    if output == "":
        raise Usage("--output: the name of the file is empty.")
    target = Path(output if output is not None else f"{Path(path).stem}.pdf")
    if target.is_dir():
        raise Usage(f"--output {target}: that is a folder; name a file.")
    if target.suffix.lower() != ".pdf":
        raise Usage(f"--output {target}: a calculation is written as .pdf.")
    if not target.parent.is_dir():
        raise Usage(f"--output {target}: there is no folder {target.parent}.")
    return Order(path, to, str(target.parent), target.name, paper, units)


def carry_out(order: Order, place: Place | None) -> tuple[str | None, list[str]]:
    """The closing sentence and what was written; none where there is a fault, and a sentence for each. The PDF stands
    in its work folder."""
    from soffit.beamfile import read

    assert place is not None
    try:
        beam = read(Path(order.path))
        calculation = calculated(beam, order.to, order.units)
        paper = PAPERS[order.paper or ("letter" if calculation.units == "US" else "a4")]
        (place.make() / order.name).write_bytes(pdf(calculation, paper))
        from soffit.show.columns import bare
        from soffit.show.verifywords import closing

        written = ", ".join(os.path.normpath(name) for name in place.names())
        return f"{bare(closing(calculation.found, calculation.units))}\nWrote {written}.", []
    except Exception as error:
        return None, sentences(error, order.path)


def calculated(beam: Beam, to: str, units: Units | None = None) -> Calculation:
    """The verification of a beam, what mends it, and its life, computed beside one another.

    Raises what the verification raises; a life that cannot be computed is told.
    """
    from soffit.codes.verification import verify
    from soffit.show.reportaside import Aside
    from soffit.show.reportpages import mended

    own = units or beam.units
    life = Aside(lambda: _life(beam))
    try:
        found = verify(beam, to)
        cures = mended(found, own)
        return Calculation(found, own, cures, *life())
    finally:
        life.stop()


def _life(beam: Beam) -> tuple[Life | None, str]:
    from soffit.member.time.lived import lived

    try:
        return lived(beam), ""
    except SoffitError as error:
        return None, f"No life could be computed for this beam: {error}"


def pdf(calculation: Calculation, paper: Paper = "a4") -> bytes:
    """The calculation; the same bytes for the same input. ``paper``: ``"a4"`` or ``"us-letter"``."""
    from soffit.show.reportpages import document
    from soffit.show.reportset import typeset

    return typeset(document(calculation, paper))

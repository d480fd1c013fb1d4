"""From a beam file to its calculation as PDF."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from soffit.errors import SoffitError
from soffit.show.batch import sentences
from soffit.show.numbers import Units
from soffit.show.place import Place, Usage
from soffit.show.typed import beam_files

if TYPE_CHECKING:
    from soffit.codes.verification import Verification
    from soffit.member.beam import Beam
    from soffit.member.result import Life

PAPERS = {"a4": "a4", "letter": "us-letter"}


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
    target = Path(output if output is not None else f"{Path(path).stem}.pdf")
    if output == "" or target.is_dir():
        raise Usage(
            f"--output {output}: that is no name of a file." if output == "" else f"{output} is a folder; name a file."
        )
    if target.suffix.lower() != ".pdf":
        raise Usage(f"--output {output}: a calculation is written as .pdf.")
    if not target.parent.is_dir():
        raise Usage(f"--output {output}: there is no folder {target.parent}.")
    return Order(path, to, str(target.parent), target.name, paper, units)


def carry_out(order: Order, place: Place | None) -> tuple[str | None, list[str]]:
    """The closing sentence and what was written; none where there is a fault, and a sentence for each. The PDF stands
    in its work folder."""
    from soffit.beamfile import read

    assert place is not None
    try:
        beam = read(Path(order.path))
        found, life, lifeless = both(beam, order.to)
        units = order.units or beam.units
        paper = PAPERS[order.paper or ("letter" if beam.units == "US" else "a4")]
        (place.make() / order.name).write_bytes(pdf(found, life, units, paper, lifeless))
        from soffit.show.verifywords import closing

        return f"{closing(found, units)}\nWrote {', '.join(place.names())}.", []
    except Exception as error:
        return None, sentences(error, order.path)


def both(beam: Beam, to: str) -> tuple[Verification, Life | None, str]:
    """The verification and the life of a beam, or why it has none. Raises what the verification raises."""
    from soffit.codes.verification import verify

    found = verify(beam, to)
    life, lifeless = _life(beam)
    return found, life, lifeless


def _life(beam: Beam) -> tuple[Life | None, str]:
    from soffit.member.time.lived import lived

    try:
        return lived(beam), ""
    except SoffitError as error:
        return None, f"No life could be computed for this beam: {error}"


def pdf(found: Verification, life: Life | None, units: Units, paper: str = "a4", lifeless: str = "") -> bytes:
    """The calculation; the same bytes for the same input."""
    from soffit.show.reportpages import document
    from soffit.show.reportset import typeset

    return typeset(document(found, life, units, paper, lifeless))


__all__ = ["Order", "carry_out", "pdf", "wanted"]

"""``soffit stressing``: from a beam file to its stressing sheet, the form to fill in, and the verdict on it."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from soffit.show.age import typed
from soffit.show.batch import Units, sentences
from soffit.show.paper import FORMATS
from soffit.show.place import Place, Usage
from soffit.show.typed import NO_CHARTS

if TYPE_CHECKING:
    from soffit.detail.stressing import StressingSheet


@dataclass(frozen=True)
class Wanted:
    """What was typed, in base units."""

    path: str
    ram: float | None = None
    bed: float | None = None
    tolerance: float | None = None
    units: Units | None = None
    measured: str | None = None
    csv: str | None = None
    drawing: tuple[str | None, str, tuple[str, ...]] = (None, "", ())
    """Folder, stem and formats of the drawn sheet."""


def wanted(
    path: str,
    ram: str | None,
    bed: str | None,
    tolerance: str | None,
    units: Units | None,
    sheet: str | None,
    csv: str | None,
    measured: str | None,
) -> Wanted:
    """Raises :class:`Usage` for what cannot be meant."""
    if csv is not None:
        if not csv:
            raise Usage("--csv: the name of the file is empty.")
        if os.path.exists(csv):
            raise Usage(f"--csv {csv}: exists, and the crew may have written in it; name another file.")
    if measured is not None and (sheet is not None or csv is not None):
        raise Usage("--measured judges a form that was filled in; make the sheet and the form in a run without it.")
    area, length, share = (
        typed(ram, "--ram", "area"),
        typed(bed, "--bed", "length"),
        typed(tolerance, "--tolerance", "ratio"),
    )
    for option, text, value in (("--ram", ram, area), ("--bed", bed, length), ("--tolerance", tolerance, share)):
        if value is not None and not value > 0.0:
            raise Usage(f"{option} “{text}”: it must be above zero.")
    return Wanted(path, area, length, share, units, measured, csv, _drawing(sheet, path))


def _drawing(sheet: str | None, path: str) -> tuple[str | None, str, tuple[str, ...]]:
    if sheet is None:
        return None, "", ()
    if not sheet:
        raise Usage("--sheet: the name of the sheet is empty.")
    name = Path(sheet)
    if name.is_dir() or sheet.endswith(("/", os.sep)):
        return sheet, f"{Path(path).stem}.stressing", FORMATS
    ending = name.suffix.lower().lstrip(".")
    if ending in NO_CHARTS:
        raise Usage(f"--sheet {sheet}: sheets are drawn as .svg, .png or .pdf.")
    if ending in FORMATS:
        return str(name.parent), name.stem, (ending,)
    return str(name.parent), name.name, FORMATS


def carry_out(
    order: Wanted, place: Place | None, width: int | None, colours: str | None
) -> tuple[str | None, list[str]]:
    """What is printed, and one sentence for each thing that went wrong; only an interruption is raised."""
    try:
        sheet = sheet_of(order)
        if order.measured is not None:
            return judged(order, sheet, width, colours)
        written = []
        if order.csv is not None:
            from soffit.show.place import write_whole
            from soffit.show.stressingform import form

            write_whole(form(sheet, order.units or sheet.beam.units), order.csv, force=False)
            written.append(order.csv)
        if place is not None:
            from soffit.show.stressingsheet import draw

            draw(sheet, place.make() / order.drawing[1], order.drawing[2], order.units)
            written += place.names()
        from soffit.show.stressingtable import told

        return told(sheet, order.units, width, colours, written), []
    except Usage:
        raise
    except Exception as error:
        return None, sentences(error, order.path)


def sheet_of(order: Wanted) -> StressingSheet:
    from soffit.beamfile import read
    from soffit.detail.stressing import Tolerance, sheet

    tolerance = None if order.tolerance is None else Tolerance(order.tolerance, "given with --tolerance")
    return sheet(read(Path(order.path)), order.ram, order.bed, tolerance)


def judged(
    order: Wanted, sheet: StressingSheet, width: int | None, colours: str | None
) -> tuple[str | None, list[str]]:
    """The verdict on a form; a form with a fault gives none, one that is not yet full gives that of what is there."""
    from soffit.detail.measured import judge
    from soffit.show.stressingform import filled
    from soffit.show.stressingverdict import told

    assert order.measured is not None
    unknown = [group.name for group in sheet.groups if group.elongation is None]
    if unknown:
        return None, [
            f"{order.path}: what {', '.join(unknown)} should stretch by is not known without the length of the bed; "
            "give it with --bed."
        ]
    found = filled(order.measured, sheet)
    if found.faults:
        return None, found.faults
    if not found.readings:
        return None, found.open
    verdicts = judge(sheet, found.readings)
    read = {verdict.line.name for verdict in verdicts}
    missing = [line.name for line in sheet.tendons if line.name not in read]
    return told(sheet, verdicts, missing, order.units, width, colours), found.open

"""From a beam file to what is said and drawn of its ends."""

from __future__ import annotations

from pathlib import Path

from soffit.beamfile import read
from soffit.detail.ends import ends
from soffit.show.batch import sentences
from soffit.show.ends import told
from soffit.show.numbers import Units
from soffit.show.place import Place


def carry_out(
    path: str,
    to: str,
    place: Place | None = None,
    stem: str = "ends",
    formats: tuple[str, ...] = ("svg", "png"),
    units: Units | None = None,
    width: int | None = None,
    colours: str | None = None,
) -> tuple[str | None, list[str]]:
    """The text, none where there is a fault, and one sentence for each fault; the picture stands in its work folder."""
    try:
        found = ends(read(Path(path)), to)
        written: list[str] = []
        if place is not None:
            from soffit.show.ends_picture import ends_sheet

            ends_sheet(found, place.make() / stem, formats, units)
            written = place.names()
        return told(found, units, width, colours, written), []
    except Exception as error:
        return None, sentences(error, path)

"""One row a beam: the summary of many verifications as CSV or as a workbook (XLSX)."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite
from pathlib import Path

from soffit.codes.verification import Verification

ENDINGS = (".csv", ".xlsx")
HEAD = (
    "file", "beam", "standard", "verdict", "governing check", "clause", "at (m)", "ratio", "checks", "failing",
    "failing checks", "not checked", "fault",
)  # fmt: skip
_WIDTHS = (34, 30, 20, 14, 30, 28, 9, 9, 9, 9, 44, 12, 60)


@dataclass(frozen=True)
class Row:
    file: str
    beam: str = ""
    standard: str = ""
    verdict: str = "fault"
    """``"holds"``, ``"fails"``, ``"not verified"`` or ``"fault"``."""
    governing: str = ""
    clause: str = ""
    x: float | None = None
    """m."""
    ratio: float | None = None
    checks: int = 0
    failing: int = 0
    titles: str = ""
    left_out: int = 0
    fault: str = ""

    @property
    def cells(self) -> tuple[str | float | int | None, ...]:
        return (
            self.file, self.beam, self.standard, self.verdict, self.governing, self.clause, self.x, self.ratio,
            self.checks, self.failing, self.titles, self.left_out, self.fault,
        )  # fmt: skip


def row(file: str, found: Verification) -> Row:
    check = found.governing
    real = [c for c in found.checks if c.state != "information"]
    word = "holds" if found.kept else "fails" if found.failing else "not verified"
    return Row(
        file, found.beam.name, found.name, word,
        check.title if check else "", check.clause if check else "",
        None if check is None or check.x is None else round(check.x / 1000.0, 4),
        None if check is None or not isfinite(check.ratio) else round(check.ratio, 5),
        len(real), len(found.failing), "; ".join(c.title for c in found.failing), len(found.unchecked),
    )  # fmt: skip


def write(rows: Sequence[Row], target: Path) -> None:
    """Write the table in the form that the name of the file asks for."""
    if target.suffix.lower() == ".xlsx":
        _workbook(rows, target)
    else:
        target.write_text(as_csv(rows), encoding="utf-8-sig", newline="")


def as_csv(rows: Sequence[Row]) -> str:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(HEAD)
    writer.writerows([_safe(cell) for cell in each.cells] for each in rows)
    return text.getvalue()


def _safe(cell: str | float | int | None) -> str | float | int:
    """Text that a spreadsheet would take as a formula is kept as text."""
    if cell is None:
        return ""
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in ("=", "+", "-", "@", "\t", "\r") else cell


def _workbook(rows: Sequence[Row], target: Path) -> None:
    import datetime

    import xlsxwriter

    book = xlsxwriter.Workbook(str(target), {"strings_to_formulas": False, "strings_to_urls": False})
    # the same rows give the same file
    book.set_properties({"created": datetime.datetime(2000, 1, 1)})
    sheet = book.add_worksheet("verification")
    strong, bad = (
        book.add_format({"bold": True, "text_wrap": True}),
        book.add_format({"bold": True, "font_color": "#A61B1B"}),
    )
    number = book.add_format({"num_format": "0.000"})
    for i, (name, width) in enumerate(zip(HEAD, _WIDTHS, strict=True)):
        sheet.write_string(0, i, name, strong)
        sheet.set_column(i, i, width)
    for line, each in enumerate(rows, start=1):
        for i, cell in enumerate(each.cells):
            if cell is None:
                continue
            if isinstance(cell, str):
                sheet.write_string(line, i, cell, bad if i == 3 and cell != "holds" else None)
            else:
                sheet.write_number(line, i, cell, number if HEAD[i] in ("ratio", "at (m)") else None)
    sheet.freeze_panes(1, 2)
    sheet.autofilter(0, 0, max(len(rows), 1), len(HEAD) - 1)
    book.close()

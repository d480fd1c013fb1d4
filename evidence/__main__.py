"""``python -m evidence``: run every test, print the tables, write docs/evidence.md, its pictures and its list."""

from __future__ import annotations

import sys
import time

from evidence import pictures, tables
from evidence.found import find, lines
from evidence.groups import Group
from evidence.page import page
from evidence.table import ROOT


def main() -> int:
    start = time.perf_counter()
    print("Following every measured beam to its collapse …", flush=True)
    found = find()
    print(tables.columns(tables.SUMMARY_HEAD, tables.summaries(lines(found), "  ")))
    docs = ROOT / "docs"
    drawn = pictures.draw(found, docs / "evidence")
    groups: list[Group] = [found.bending, *found.bare, found.stirrups, found.classic, found.plain]
    (docs / "evidence" / "beams.csv").write_text(tables.every_beam(groups), encoding="utf-8")
    (docs / "evidence.md").write_text(page(found), encoding="utf-8")
    seconds = time.perf_counter() - start
    print(f"\nWrote docs/evidence.md, docs/evidence/beams.csv and {len(drawn)} pictures in {seconds:.0f} s.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
